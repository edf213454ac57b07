package job

import (
	"encoding/json"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// optional reads a job of two chairs and a bench with one option.
func optional(t *testing.T, replace string) (WorkOrder, error) {
	t.Helper()
	return Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "options", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"},
			{"id": "spare", "kind": "roll", "name": "linen", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"prices": [{"code": "thread", "kind": "thread and sundries", "description": "thread", "price": "0.02 USD/yd"}, {"code": "silk", "kind": "thread and sundries", "description": "silk", "price": "0.06 USD/yd"}],
		"pieces": [
			{"name": "chair", "count": 2, "cushions": [{"name": "seat", "top": "cloth", "width": "22 in", "depth": "20 in", "thickness": "4 in",
				"foam": {"use": "seat", "duty": "normal", "base": "board", "price": "3.00 USD/bd ft"}}], "labour": [{"task": "sew", "time": "2 h"}, {"task": "fill", "time": "1 h"}]},
			{"name": "bench", "cushions": [{"name": "seat", "top": "cloth", "width": "40 in", "depth": "20 in", "thickness": "4 in", "filling_given": true,
				"foam": {"use": "bench", "duty": "normal", "base": "board", "price": "3.00 USD/bd ft"}}], "labour": [{"task": "sew", "time": "3 h"}]},
			{"name": "dining chair", "goods": "cloth", "from": "drop-in seat", "width": "19 in", "depth": "17 in", "foam": "2 in", "frame": "3/4 in", "build": "board",
				"filling": {"use": "seat", "duty": "normal", "base": "board", "price": "3.00 USD/bd ft"}, "labour": [{"task": "cover", "time": "1 h"}]}],
		"options": [{"name": "other", "replace": [`+replace+`]}], "quote": {"labour_rate": "60.00 USD/h"}}`), quick)
}

const dear = `"foam": {"use": "seat", "duty": "heavy", "base": "board", "price": "6.00 USD/bd ft"}`

// rises gives how much the lines of an option differ by, by their names.
func rises(p OptionPrice) []string {
	var out []string
	for _, r := range p.Compare.Lines {
		if !r.Difference.IsZero() {
			out = append(out, r.ID+" "+r.Difference.Amount())
		}
	}
	return out
}

// An option with another filling, in one piece or all, is priced with that filling,
// and leaves the rest as it is. By hand: two seats of 22 1/2 x 20 1/2 x 4 in are
// 25.625 bd ft, 76.88 at 3.00 and 153.75 at 6.00.
func TestOptionOfAFilling(t *testing.T) {
	t.Parallel()
	o, err := optional(t, `{"filling": "seat", "piece": "chair", `+dear+`}`)
	require.NoError(t, err)
	p := o.Options[0]
	assert.Equal(t, []string{"foam, chair: seat 76.87"}, rises(p))
	require.Len(t, p.Foam, 1)
	assert.Equal(t, "heavy", p.Foam[0].Selection.Request.Duty.String())
	assert.Empty(t, p.Cuts)
	assert.Equal(t, o.Purchases[0].Plan, p.Purchases[0].Plan, "equal layouts are done once")

	o, err = optional(t, `{"filling": "seat", `+strings.Replace(dear, `"price"`, `"wrap": {"loft": "3/4 in"}, "price"`, 1)+`}`)
	require.NoError(t, err)
	p = o.Options[0]
	assert.Len(t, p.Foam, 2)
	require.NotEmpty(t, p.Cuts, "a cover goes by its wrapped filling where that was measured")
	for _, c := range p.Cuts {
		assert.Equal(t, "bench", c.Piece)
	}

	o, err = optional(t, `{"filling": "`+kindFoam(t)+`", `+dear+`}`)
	require.NoError(t, err)
	require.Len(t, o.Options[0].Foam, 1)
	assert.Equal(t, "dining chair", o.Options[0].Foam[0].Piece)
}

// kindFoam is the name of the block that the kind brings.
func kindFoam(t *testing.T) string {
	t.Helper()
	o, err := optional(t, `{"labour": "cover", "time": "2 h"}`)
	require.NoError(t, err)
	i := slices.IndexFunc(o.Foam, func(b FoamBlock) bool { return b.Piece == "dining chair" })
	require.GreaterOrEqual(t, i, 0)
	return o.Foam[i].Part
}

// An option with another time: 30 min more for two chairs are 60.00, and 1 h less for
// the bench.
func TestOptionOfLabour(t *testing.T) {
	t.Parallel()
	o, err := optional(t, `{"labour": "sew", "piece": "chair", "time": "2 h 30 min"}, {"labour": "sew", "piece": "bench", "time": "2 h"}`)
	require.NoError(t, err)
	assert.Equal(t, []string{"chair: sew 60.00", "bench: sew -60.00"}, rises(o.Options[0]))
	require.Len(t, o.Options[0].Labour, 2)
	assert.Equal(t, []unit.Duration{5 * unit.Hour, 2 * unit.Hour}, []unit.Duration{o.Options[0].Labour[0].Time, o.Options[0].Labour[1].Time})
	o, err = optional(t, `{"labour": "sew", "time": "4 h"}`)
	require.NoError(t, err)
	assert.Equal(t, []string{"chair: sew 240.00", "bench: sew 60.00"}, rises(o.Options[0]))
}

// An option with another finding has its price, for what the job takes of it.
func TestOptionOfAFinding(t *testing.T) {
	t.Parallel()
	o, err := optional(t, `{"finding": "thread", "with": "silk"}`)
	require.NoError(t, err)
	p := o.Options[0]
	assert.Equal(t, map[string]string{"thread": "silk"}, p.Findings)
	changed := 0
	for _, r := range p.Compare.Lines {
		if strings.HasPrefix(r.ID, "thread, ") {
			changed++
			times, err := r.AmountB.Per(r.AmountA)
			require.NoError(t, err)
			assert.InDelta(t, 3, float64(times), 0.02, r.B)
		} else {
			assert.Equal(t, cost.Same, r.Change, r.ID)
		}
	}
	assert.Positive(t, changed)
}

// What an option cannot replace, or what changes nothing, lies at the option.
func TestOptionFaults(t *testing.T) {
	t.Parallel()
	same := `"foam": {"use": "seat", "duty": "normal", "base": "board", "price": "3.00 USD/bd ft"}`
	for name, c := range map[string]struct {
		replace string
		field   unit.Path
		want    error
	}{
		"nothing":              {`{}`, "options[0].replace[0].goods", unit.ErrRequired},
		"too many":             {strings.TrimSuffix(strings.Repeat(`{"labour": "sew", "time": "1 h"},`, mostReplaced+1), ","), "options[0].replace", unit.ErrRange},
		"too many options":     {`{"labour": "sew", "time": "1 h"}]}` + strings.Repeat(`, {"name": "x", "replace": [{"labour": "sew", "time": "1 h"}]}`, mostOptions) + `, {"name": "x", "replace": [{"labour": "sew", "time": "1 h"}`, "options", unit.ErrRange},
		"two at once":          {`{"goods": "cloth", "with": "spare", "labour": "sew", "time": "1 h"}`, "options[0].replace[0].labour", ErrMisplaced},
		"with what":            {`{"goods": "cloth"}`, "options[0].replace[0].with", unit.ErrRequired},
		"no foam":              {`{"filling": "seat"}`, "options[0].replace[0].foam", unit.ErrRequired},
		"no time":              {`{"labour": "sew"}`, "options[0].replace[0].time", unit.ErrRequired},
		"foam of a task":       {`{"labour": "sew", "time": "1 h", ` + dear + `}`, "options[0].replace[0].foam", ErrMisplaced},
		"goods of a piece":     {`{"goods": "cloth", "with": "spare", "piece": "chair"}`, "options[0].replace[0].piece", ErrMisplaced},
		"no such piece":        {`{"labour": "sew", "time": "1 h", "piece": "stool"}`, "options[0].replace[0].piece", unit.ErrUnknown},
		"no such goods":        {`{"goods": "cloth", "with": "silk"}`, "options[0].replace[0].with", unit.ErrUnknown},
		"goods not used":       {`{"goods": "spare", "with": "cloth"}`, "options[0].replace[0].goods", ErrMisplaced},
		"goods by themselves":  {`{"goods": "cloth", "with": "cloth"}`, "options[0].replace[0].with", ErrMisplaced},
		"no such part":         {`{"filling": "back", ` + dear + `}`, "options[0].replace[0].filling", unit.ErrUnknown},
		"the same filling":     {`{"filling": "seat", "piece": "chair", ` + same + `}`, "options[0].replace[0].foam", ErrMisplaced},
		"no such task":         {`{"labour": "paint", "time": "1 h"}`, "options[0].replace[0].labour", unit.ErrUnknown},
		"the same time":        {`{"labour": "fill", "time": "1 h"}`, "options[0].replace[0].time", ErrMisplaced},
		"no such price":        {`{"finding": "thread", "with": "silk twist"}`, "options[0].replace[0].with", unit.ErrUnknown},
		"finding of no piece":  {`{"finding": "edge roll", "with": "silk"}`, "options[0].replace", ErrMisplaced},
		"twice":                {`{"labour": "sew", "time": "1 h"}, {"labour": "sew", "piece": "chair", "time": "2 h"}`, "options[0].replace[1].labour", ErrTwice},
		"a filling that fails": {`{"filling": "seat", ` + strings.Replace(dear, `"duty"`, `"crowns": 1, "duty"`, 1) + `}`, "options[0]", ErrMisplaced},
	} {
		_, err := optional(t, c.replace)
		require.ErrorIs(t, err, c.want, name)
		var found Faults
		require.ErrorAs(t, err, &found, name)
		assert.True(t, slices.ContainsFunc(found, func(f *Fault) bool {
			var in *unit.InputError
			return assert.ErrorAs(t, f, &in) && in.Field == c.field
		}), "%s: %v", name, err)
	}
}

// Goods that an option replaces are nowhere left in the pieces of a job.
func TestOptionLeavesNothingOver(t *testing.T) {
	t.Parallel()
	jobs := anatomies(t)
	for _, name := range []string{"../../examples/workorder/larkfield.json", "testdata/larkfield-second.json"} {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		jobs[name], err = beneath(t, name).ReadSpec(strings.NewReader(string(text)))
		require.NoError(t, err)
	}
	tried := 0
	for name, s := range jobs {
		for _, g := range s.Goods {
			other := g
			other.ID = "the other"
			s := s
			s.Goods = append(slices.Clone(s.Goods), other)
			s, f := s.with(OptionSpec{Replace: []Replace{{Goods: g.ID, With: other.ID}}})
			if len(f) > 0 {
				require.ErrorIs(t, f.err(), ErrMisplaced, name)
				continue // goods on offer that nothing is made of
			}
			tried++
			text, err := json.Marshal(s.Pieces)
			require.NoError(t, err)
			for _, m := range regexp.MustCompile(`"([^"]+)":"`+regexp.QuoteMeta(g.ID)+`"`).FindAllStringSubmatch(string(text), -1) {
				assert.Equal(t, "name", m[1], "%s: %s", name, g.ID)
			}
		}
	}
	assert.Greater(t, tried, 12)
}
