package foam

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// fixedPacker answers what it is told to.
type fixedPacker struct{ places []Place }

func (p fixedPacker) Pack(context.Context, unit.Length, unit.Length, unit.Length, []Rect) ([]Place, error) {
	return p.places, nil
}

// What a packer answers is checked, whoever wrote it.
func TestPackersAreChecked(t *testing.T) {
	stock := []Sheet{{Name: "s", Length: 80 * unit.Inch, Width: 24 * unit.Inch, Thickness: 4 * unit.Inch}}
	pieces := []Piece{{Name: "a", Block: Block{20 * unit.Inch, 10 * unit.Inch, 4 * unit.Inch}, Count: 2, Fixed: true}}
	for name, c := range map[string]struct {
		places []Place
		ok     bool
	}{
		"good":               {[]Place{{}, {X: 21 * unit.Inch}}, true},
		"good on two sheets": {[]Place{{}, {Sheet: 1}}, true},
		"missing":            {[]Place{{}}, false},
		"one on the other":   {[]Place{{}, {X: 19 * unit.Inch}}, false},
		"no room for a kerf": {[]Place{{}, {X: 20 * unit.Inch}}, false},
		"off the end":        {[]Place{{}, {X: 61 * unit.Inch}}, false},
		"off the side":       {[]Place{{}, {X: 21 * unit.Inch, Y: 15 * unit.Inch}}, false},
		"off the start":      {[]Place{{}, {X: -unit.Inch}}, false},
		"turned":             {[]Place{{}, {X: 21 * unit.Inch, Turned: true}}, false},
		"sheet left out":     {[]Place{{}, {Sheet: 2}}, false},
		"no such sheet":      {[]Place{{}, {Sheet: -1}}, false},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := PlanSheets(t.Context(), pieces, SheetRules{Stock: stock, Kerf: unit.Inch, Packer: fixedPacker{c.places}})
			if !c.ok {
				require.ErrorIs(t, err, ErrBadLayout)
				return
			}
			require.NoError(t, err)
			assert.GreaterOrEqual(t, got.Orders[0].Count, got.Orders[0].Bound)
		})
	}
}

// An ended context costs quality, never the plan.
func TestSheetsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	got, err := PlanSheets(ctx, []Piece{
		{Name: "a", Block: Block{25 * unit.Inch, 22 * unit.Inch, 3 * unit.Inch}, Count: 2},
		{Name: "b", Block: Block{45 * unit.Inch, 18 * unit.Inch, 3 * unit.Inch}, Count: 2},
	}, SheetRules{Stock: []Sheet{{Name: "s", Length: 80 * unit.Inch, Width: 36 * unit.Inch, Thickness: 3 * unit.Inch}}, Kerf: unit.Inch / 8})
	require.NoError(t, err)
	assert.Len(t, got.Orders[0].Parts, 4)
}

func TestPlies(t *testing.T) {
	in := func(xs ...int) []unit.Length {
		var out []unit.Length
		for _, x := range xs {
			out = append(out, unit.Length(x)*unit.Inch)
		}
		return out
	}
	for _, c := range []struct {
		want  int
		have  []int
		most  int
		plies []unit.Length
	}{
		{5, []int{1, 2, 3}, 2, in(3, 2)},
		{5, []int{1, 2, 3}, 1, nil},
		{6, []int{4, 3}, 2, in(3, 3)},
		{6, []int{5, 2}, 3, in(2, 2, 2)},
		{7, []int{2, 4}, 6, nil},
		{8, []int{1, 8}, 6, in(8)},
		{9, []int{4, 5, 6}, 2, in(5, 4)},
	} {
		plies, ok := fewestPlies(unit.Length(c.want)*unit.Inch, SheetRules{Stock: CommonSheets(in(c.have...)...), MostPlies: c.most})
		assert.Equal(t, c.plies, plies, "%+v", c)
		assert.Equal(t, c.plies != nil, ok)
	}
}

func TestLeastSheets(t *testing.T) {
	s := Sheet{Length: 80 * unit.Inch, Width: 24 * unit.Inch}
	part := func(n, l, w int, turn bool) []Rect {
		var out []Rect
		for range n {
			out = append(out, Rect{Length: unit.Length(l) * unit.Inch, Width: unit.Length(w) * unit.Inch, Turnable: turn})
		}
		return out
	}
	assert.Equal(t, 1, leastSheets(s, 0, part(8, 20, 12, false)), "eight fill a sheet exactly")
	assert.Equal(t, 2, leastSheets(s, 0, part(9, 20, 12, false)))
	assert.Equal(t, 3, leastSheets(s, 0, part(3, 41, 13, true)), "no two share a sheet")
	assert.Equal(t, 1, leastSheets(s, 0, part(1, 1, 1, true)))
	assert.Equal(t, 1, leastSheets(s, unit.Inch/8, part(3, 20, 20, true)))
}

func BenchmarkPlanSheets(b *testing.B) {
	stock := CommonSheets(2*unit.Inch, 3*unit.Inch)
	var pieces []Piece
	for i := range 8 {
		pieces = append(pieces, Piece{Name: fmt.Sprint(i), Block: Block{unit.Length(18+i) * unit.Inch, unit.Length(24-i) * unit.Inch, 5 * unit.Inch}, Count: 2})
	}
	for b.Loop() {
		if _, err := PlanSheets(b.Context(), pieces, SheetRules{Stock: stock, Kerf: unit.Inch / 8, MostPlies: 2}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSit(b *testing.B) {
	s := Stack{{Thickness: unit.Inch, Curve: seat}, {Thickness: 3 * unit.Inch, Curve: seat}}
	for b.Loop() {
		if _, err := Sit(s, Sitter{Mass: 80 * unit.Kilogram}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSelect(b *testing.B) {
	for b.Loop() {
		if _, err := Select(Request{Use: Seat, Duty: NormalDuty, Base: Webbing, Thickness: 4 * unit.Inch, Sitter: 80 * unit.Kilogram}); err != nil {
			b.Fatal(err)
		}
	}
}
