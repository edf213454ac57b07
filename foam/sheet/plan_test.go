package sheet

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// What lays the cuts out is checked, whatever it is.
func TestLayoutsAreChecked(t *testing.T) {
	stock := Stock{Name: "s", Length: 80 * unit.Inch, Width: 24 * unit.Inch, Thickness: 4 * unit.Inch}
	cut := face{Cut: Cut{Length: 20 * unit.Inch, Width: 10 * unit.Inch}}
	for name, c := range map[string]struct {
		places []Place
		sheets int
	}{
		"good":               {[]Place{{}, {X: 21 * unit.Inch}}, 1},
		"good on two sheets": {[]Place{{}, {Sheet: 1}}, 2},
		"missing":            {[]Place{{}}, 0},
		"one on the other":   {[]Place{{}, {X: 19 * unit.Inch}}, 0},
		"no room for a kerf": {[]Place{{}, {X: 20 * unit.Inch}}, 0},
		"off the end":        {[]Place{{}, {X: 61 * unit.Inch}}, 0},
		"off the side":       {[]Place{{}, {X: 21 * unit.Inch, Y: 15 * unit.Inch}}, 0},
		"off the start":      {[]Place{{}, {X: -unit.Inch}}, 0},
		"turned":             {[]Place{{}, {X: 21 * unit.Inch, Turned: true}}, 0},
		"sheet left out":     {[]Place{{}, {Sheet: 2}}, 0},
		"no such sheet":      {[]Place{{}, {Sheet: -1}}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := verify(stock, unit.Inch, []face{cut, cut}, c.places)
			if c.sheets == 0 {
				require.ErrorIs(t, err, errBadLayout)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, c.sheets, got)
		})
	}
}

// An ended context costs quality, never the plan.
func TestSheetsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	got, err := Lay(ctx, []Part{
		{Name: "a", Block: foam.Block{Length: 25 * unit.Inch, Width: 22 * unit.Inch, Thickness: 3 * unit.Inch}, Count: 2},
		{Name: "b", Block: foam.Block{Length: 45 * unit.Inch, Width: 18 * unit.Inch, Thickness: 3 * unit.Inch}, Count: 2},
	}, Rules{Stock: []Stock{{Name: "s", Length: 80 * unit.Inch, Width: 36 * unit.Inch, Thickness: 3 * unit.Inch}}, Kerf: unit.Inch / 8})
	require.NoError(t, err)
	assert.Len(t, got.Orders[0].Cuts, 4)
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
		plies, ok := fewestPlies(unit.Length(c.want)*unit.Inch, thicknesses(Common(in(c.have...)...)), c.most)
		assert.Equal(t, c.plies, plies, "%+v", c)
		assert.Equal(t, c.plies != nil, ok)
	}
}

func TestLeastSheets(t *testing.T) {
	s := Stock{Length: 80 * unit.Inch, Width: 24 * unit.Inch}
	part := func(n, l, w int, turn bool) []face {
		var out []face
		for range n {
			out = append(out, face{turnable: turn, Cut: Cut{Length: unit.Length(l) * unit.Inch, Width: unit.Length(w) * unit.Inch}})
		}
		return out
	}
	assert.Equal(t, 1, leastSheets(s, 0, part(8, 20, 12, false)), "eight fill a sheet exactly")
	assert.Equal(t, 2, leastSheets(s, 0, part(9, 20, 12, false)))
	assert.Equal(t, 3, leastSheets(s, 0, part(3, 41, 13, true)), "no two share a sheet")
	assert.Equal(t, 1, leastSheets(s, 0, part(1, 1, 1, true)))
	assert.Equal(t, 1, leastSheets(s, unit.Inch/8, part(3, 20, 20, true)))
}

func BenchmarkLay(b *testing.B) {
	stock := Common(2*unit.Inch, 3*unit.Inch)
	var parts []Part
	for i := range 8 {
		parts = append(parts, Part{Name: fmt.Sprint(i), Block: foam.Block{Length: unit.Length(18+i) * unit.Inch, Width: unit.Length(24-i) * unit.Inch, Thickness: 5 * unit.Inch}, Count: 2})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Lay(b.Context(), parts, Rules{Stock: stock, Kerf: unit.Inch / 8, MostPlies: 2}); err != nil {
			b.Fatal(err)
		}
	}
}

func TestRefusals(t *testing.T) {
	pad := foam.Block{Length: 24 * unit.Inch, Width: 20 * unit.Inch, Thickness: 4 * unit.Inch}
	one := []Part{{"a", pad, 1, false}}
	_1 := func(_ any, err error) error { return err }
	lay := func(parts []Part, r Rules) error { return _1(Lay(t.Context(), parts, r)) }
	four := Common(4 * unit.Inch)
	for name, c := range map[string]struct {
		err   error
		field unit.Path
		want  error
	}{
		"boxing forgotten":  {_1(ThicknessFor(4)), "boxing", unit.ErrForgottenUnit},
		"no context":        {_1(Lay(nil, one, Rules{Stock: four})), "ctx", unit.ErrRequired}, //nolint:staticcheck // nil is what is tested
		"no parts":          {lay(nil, Rules{}), "parts", unit.ErrRequired},
		"no stock":          {lay(one, Rules{}), "stock", unit.ErrRequired},
		"flat stock":        {lay(one, Rules{Stock: []Stock{{Length: unit.Foot, Width: unit.Foot}}}), "stock[0].thickness", unit.ErrRange},
		"no such thickness": {lay(one, Rules{Stock: Common(3 * unit.Inch), MostPlies: 2}), "parts[0].block.thickness", ErrNoStock},
		"face too large": {lay(append(one, Part{"b", foam.Block{Length: 200 * unit.Inch, Width: 30 * unit.Inch, Thickness: 4 * unit.Inch}, 1, false}), Rules{Stock: four}),
			"parts[1].block", ErrNoStock},
		"two parts of one name": {lay([]Part{one[0], one[0]}, Rules{}), "parts[1].name", unit.ErrRange},
		"too many plies":        {lay(one, Rules{Stock: four, MostPlies: 7}), "most_plies", unit.ErrRange},
		"too many joins":        {lay(one, Rules{Stock: four, MostJoins: 5}), "most_joins", unit.ErrRange},
		"kerf of a foot":        {lay(one, Rules{Stock: four, Kerf: unit.Foot}), "kerf", unit.ErrRange},
	} {
		t.Run(name, func(t *testing.T) {
			require.ErrorIs(t, c.err, c.want)
			var in *unit.InputError
			require.True(t, errors.As(c.err, &in))
			assert.Equal(t, c.field, in.Field)
		})
	}
}
