package job

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost/job/schema"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

// field tells whether a place is one of the job file, by its schema.
func field(schema map[string]any, at unit.Path) bool {
	defs, _ := schema["$defs"].(map[string]any) //nolint:errcheck // no definitions, no place
	node := schema
	resolved := func(n any) map[string]any {
		m, _ := n.(map[string]any) //nolint:errcheck // nil is no place
		if ref, ok := m["$ref"].(string); ok {
			m, _ = defs[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any) //nolint:errcheck // nil is no place
		}
		return m
	}
	for at != "" {
		name, _, indexed, rest := at.Head()
		props, _ := node["properties"].(map[string]any) //nolint:errcheck // nil has no field
		next := resolved(props[name])
		if next == nil {
			// The names of a map are anyone's; they may hold a point.
			_, ok := node["additionalProperties"].(map[string]any)
			return ok
		}
		if indexed {
			if next = resolved(next["items"]); next == nil {
				return false
			}
		}
		node, at = next, rest
	}
	return true
}

func specSchema(t testing.TB) map[string]any {
	t.Helper()
	var out map[string]any
	require.NoError(t, json.Unmarshal(schema.Job(), &out))
	return out
}

func TestFieldsOfTheSchema(t *testing.T) {
	t.Parallel()
	s := specSchema(t)
	for at, want := range map[unit.Path]bool{"": true, "name": true, "pieces[0].seams[3].to": true, "pieces[1].panels[2].by_edge.side mirrored": true,
		"pieces[0].fastenings[0].fasten[2]": true, "pieces[0].seams[3].sides": false, "pieces[0].name[1]": false, "colour": false} {
		assert.Equal(t, want, field(s, at), at)
	}
}

// Whatever the relations of a job are, nothing panics, and every fault is at a
// field of the job file.
func FuzzRelations(f *testing.F) {
	specs := anatomies(f)
	names := slices.Sorted(maps.Keys(specs))
	schema := specSchema(f)
	for i := range names {
		f.Add(i, []byte{})
		f.Add(i, []byte{0, 1, 2, 3, 1, 4, 2, 5, 3, 6})
	}
	f.Fuzz(func(t *testing.T, which int, changes []byte) {
		s := specs[names[uint(which)%uint(len(names))]]
		p := s.Pieces[0]
		p.Seams, p.Fastenings, p.Meets = slices.Clone(p.Seams), slices.Clone(p.Fastenings), slices.Clone(p.Meets)
		sides := []allowance.Side{}
		for _, x := range p.Seams {
			sides = append(sides, x.Sew, x.To, x.And)
		}
		for _, x := range p.Fastenings {
			sides = append(sides, x.Fasten...)
		}
		for len(changes) > 2 && len(sides) > 0 {
			what, n, m := changes[0], int(changes[1]), int(changes[2])
			changes = changes[3:]
			side := sides[m%len(sides)]
			switch {
			case what%8 == 0 && len(p.Seams) > 0:
				p.Seams[n%len(p.Seams)].To = side
			case what%8 == 1 && len(p.Seams) > 0:
				p.Seams[n%len(p.Seams)].Finish.Kind = allowance.SeamKind(m % 9)
			case what%8 == 2 && len(p.Fastenings) > 0:
				p.Fastenings[n%len(p.Fastenings)].Finish = allowance.FasteningKind(m % 10)
			case what%8 == 3 && len(p.Seams) > 0:
				p.Seams = slices.Delete(p.Seams, n%len(p.Seams), n%len(p.Seams)+1)
			case what%8 == 4 && len(side) > 0:
				part := side[0]
				part.From, part.To, part.Reversed = unit.Length(n)*unit.Inch, unit.Length(m)*unit.Inch, n%2 == 0
				p.Seams = append(p.Seams, SeamSpec{Sew: allowance.Side{part}, To: side, Cord: unit.Length(n), Row: unit.Length(m), Fullness: unit.Ratio(n)})
			case what%8 == 5:
				p.Meets = append(p.Meets, MeetSpec{Meet: side, To: sides[n%len(sides)], In: unit.Length(m - 9), CrossingSpec: CrossingSpec{Pattern: allowance.PatternWay(n % 5), Gap: unit.Length(m - 9)}})
			case what%8 == 6 && len(p.Fastenings) > 0:
				p.Fastenings[n%len(p.Fastenings)].HiddenBy = []string{p.Panels[m%len(p.Panels)].Name}
			case what%8 == 7:
				rail := unit.Length(m-9) * unit.Inch
				p.Fastenings = append(p.Fastenings, FasteningSpec{Fasten: []allowance.Side{side}, Finish: allowance.FasteningKind(n % 10), Rail: rail, Over: &rail})
			}
		}
		s.Pieces = []Furniture{p}
		_, err := prepare(context.Background(), s)
		var found Faults
		if err != nil && !errors.As(err, &found) {
			t.Fatalf("%v is no list of faults", err)
		}
		for _, x := range found {
			var in *unit.InputError
			require.ErrorAs(t, x, &in)
			require.True(t, field(schema, in.Field), "%s: %v", in.Field, x)
		}
	})
}

// The joins of panels that the layout cuts in segments are sewn, too, each over its
// cut length: what is sewn is what the same panels take on goods that are wide enough,
// and the joins.
func TestJoinsAreSewn(t *testing.T) {
	few.Check(t, 12, func(t *rapid.T) {
		panel := fmt.Sprintf(`{"name": "back", "goods": "a", "count": %d, "width": "%d in", "length": "%d in", "edges": "%s"`,
			rapid.IntRange(1, 3).Draw(t, "panels"), rapid.IntRange(57, 140).Draw(t, "width"), rapid.IntRange(10, 50).Draw(t, "length"),
			rapid.SampledFrom([]string{"pull-over 3 in", "raw", "single hem 1 in"}).Draw(t, "edges"))
		sewn := func(wide, join string) (all unit.Length, joins, cut unit.Length) {
			o, err := Read(context.Background(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "a long back", "currency": "USD",
				"goods": [{"id": "a", "kind": "roll", "name": "plain", "material": "woven", "price": "40.00 USD/yd", "width": "`+wide+`"}],
				"pieces": [{"name": "sofa", "count": 2, "panels": [`+panel+join+`}]}], "quote": {"labour_rate": "60.00 USD/h"}}`), quick)
			require.NoError(t, err)
			for _, s := range o.Sewing.SetUps {
				for _, r := range s.Rows {
					all += r.Length * unit.Length(r.Count)
				}
			}
			return all, unit.Length(len(o.Purchases[0].Plan.Joins)), o.Cuts[0].Cut.Length
		}
		whole, none, _ := sewn("160 in", "")
		require.Zero(t, none)
		all, joins, length := sewn("54 in", `, "join": {"along_width": true, "least": "8 in", "most": 4}`)
		require.Positive(t, joins)
		require.Equal(t, whole+joins*length, all)
	})
}
