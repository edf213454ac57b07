package made_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// The cover of a boxed cushion has the sizes that the calculator of its parts
// gives: two ways to the same cloth.
func TestCushionCoverHasTheSizesOfItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) unit.Length {
			return unit.Length(rapid.IntRange(10*16, 60*16).Draw(t, name)) * unit.Inch / 16
		}
		w, d, thick := side("width"), side("depth"), unit.Length(rapid.IntRange(2, 8).Draw(t, "thickness"))*unit.Inch
		longest := unit.Length(rapid.IntRange(0, 1).Draw(t, "limited")) * 54 * unit.Inch
		fit := rapid.SampledFrom([]made.CushionFit{made.NeutralFit, made.SnugFit}).Draw(t, "fit")
		g := made.Goods{ID: "cloth", Longest: longest, Thickness: unit.Millimetre}
		o, err := shape.Rectangle(w, d)
		require.NoError(t, err)
		c, err := made.Cushion{Outline: o, Thickness: thick, Fit: fit, Top: g, Bottom: g, Boxing: g}.Cover()
		require.NoError(t, err)
		want, err := made.BoxedCushion{Width: w, Depth: d, Thickness: thick, Fit: fit, Longest: longest}.Cut()
		require.NoError(t, err)
		for _, p := range c.Panels[:2] {
			cut, err := p.Panel.Cut()
			require.NoError(t, err)
			require.Equal(t, [2]unit.Length{want.Plate.Width, want.Plate.Height}, [2]unit.Length{cut.Width, cut.Height})
		}
		var strips []made.Strip
		for _, p := range c.Panels[2:] {
			require.True(t, p.Strip && p.Free)
			long, wide := p.Outline.Size()
			strips = append(strips, made.Strip{Use: p.Name, Count: p.Copies(), Width: wide, Length: long})
		}
		require.Equal(t, want.Boxing.Pieces, strips)
	})
}

// A welt takes as much cord as its cover says, and a double welt twice that.
func TestWeltCoverCountsItsCord(t *testing.T) {
	g := made.Goods{ID: "cloth", Longest: 54 * unit.Inch, Thickness: unit.Millimetre}
	total := func(w made.Welt) (cord unit.Length) {
		c, err := w.Cover(g)
		require.NoError(t, err)
		for _, p := range c.Panels {
			cord += p.Welt
		}
		return cord
	}
	w := made.Welt{Cord: 4 * unit.Millimetre, Runs: []unit.Length{unit.Metre, 2 * unit.Metre}}
	once := total(w)
	require.Equal(t, 3*unit.Metre+4*unit.Inch, once, "2 in to finish each run")
	w.Double = true
	require.Equal(t, 2*once, total(w))
}

// What a cover cannot be made from is refused in the words of its type.
func TestCoversRefuse(t *testing.T) {
	g := made.Goods{ID: "cloth", Longest: 54 * unit.Inch, Thickness: unit.Millimetre}
	o, err := shape.Rectangle(20*unit.Inch, 20*unit.Inch)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		field string
		cover func() (allowance.Cover, error)
	}{
		"no plate":        {"outline", made.Cushion{Thickness: unit.Inch, Top: g, Boxing: g}.Cover},
		"no thickness":    {"thickness", made.Cushion{Outline: o, Top: g, Boxing: g}.Cover},
		"no such edge":    {"zip_edge", made.Cushion{Outline: o, Thickness: unit.Inch, ZipEdge: "brim", Boxing: g}.Cover},
		"zip too long":    {"zip_back", made.Cushion{Outline: o, Thickness: unit.Inch, ZipBack: 78 * unit.Inch, Boxing: g}.Cover},
		"rope for cord":   {"cord", made.Cushion{Outline: o, Thickness: unit.Inch, Cord: unit.Metre, Boxing: g, Welts: g}.Cover},
		"no such kind":    {"kind", made.Cushion{Kind: 9}.Cover},
		"no such fit":     {"fit", made.Cushion{Outline: o, Thickness: unit.Inch, Fit: 9}.Cover},
		"flat waterfall":  {"thickness", made.Cushion{Kind: made.Waterfall, Width: unit.Foot, Depth: unit.Foot}.Cover},
		"bolster":         {"depth", made.Cushion{Kind: made.BolsterKind, Width: unit.Foot}.Cover},
		"skirt of no way": {"kind", func() (allowance.Cover, error) { return made.Skirt{Sides: []unit.Length{unit.Foot}}.Cover(g) }},
		"skirt nowhere":   {"sides", func() (allowance.Cover, error) { return made.Skirt{Kind: made.Gathered}.Cover(g) }},
		"no pleats": {"pleats", func() (allowance.Cover, error) {
			return made.Skirt{Kind: made.PleatedAllRound, Sides: []unit.Length{unit.Yard}, Drop: unit.Foot, Underfold: unit.Inch}.Cover(g)
		}},
		"no fullness": {"fullness", func() (allowance.Cover, error) {
			return made.Skirt{Kind: made.Gathered, Sides: []unit.Length{unit.Yard}, Drop: unit.Foot}.Cover(g)
		}},
	} {
		_, err := c.cover()
		var in *unit.InputError
		require.ErrorAs(t, err, &in, name)
		require.Equal(t, c.field, string(in.Field), "%s: %v", name, err)
	}
}
