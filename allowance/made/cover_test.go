package made_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// A welt takes as much cord as its cover says, and a double welt twice that.
func TestWeltCoverCountsItsCord(t *testing.T) {
	g := made.Goods{ID: "cloth", Across: 54 * unit.Inch, Thickness: unit.Millimetre}
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
	g := made.Goods{ID: "cloth", Across: 54 * unit.Inch, Thickness: unit.Millimetre}
	o, err := shape.Rectangle(20*unit.Inch, 20*unit.Inch)
	require.NoError(t, err)
	odd, err := o.Renamed("a", "b", "c", "d")
	require.NoError(t, err)
	make1 := func(c made.Cushion) func() error { return func() error { _, err := c.Make(); return err } }
	skirt := func(s made.Skirt) func() error { return func() error { _, err := s.Cover(g); return err } }
	const in = unit.Inch
	for name, c := range map[string]struct {
		field string
		make  func() error
	}{
		"no plate":        {"width", make1(made.Cushion{Thickness: in, Top: g})},
		"no depth":        {"depth", make1(made.Cushion{Width: 9 * in, Thickness: in, Top: g})},
		"no thickness":    {"thickness", make1(made.Cushion{Outline: o, Top: g})},
		"no such edge":    {"back", make1(made.Cushion{Outline: o, Thickness: in, Back: "brim"})},
		"no such front":   {"front", make1(made.Cushion{Outline: o, Thickness: in, Front: "brim"})},
		"which back":      {"back", make1(made.Cushion{Outline: odd, Thickness: in})},
		"zip too long":    {"zip_length", make1(made.Cushion{Outline: o, Thickness: in, Zip: true, ZipLength: 88 * in})},
		"zip of no zip":   {"zip_length", make1(made.Cushion{Outline: o, Thickness: in, ZipLength: 8 * in})},
		"rope for cord":   {"cord", make1(made.Cushion{Outline: o, Thickness: in, Cord: 20 * in})},
		"welt and row":    {"top_stitch", make1(made.Cushion{Outline: o, Thickness: in, Cord: in / 8, TopStitch: true})},
		"no such kind":    {"kind", make1(made.Cushion{Kind: 9})},
		"no such fit":     {"fit", make1(made.Cushion{Outline: o, Thickness: in, Fit: 9})},
		"take-up":         {"take_up", make1(made.Cushion{Outline: o, Thickness: in, TakeUp: allowance.Exactly(5 * in)})},
		"two plates":      {"width", make1(made.Cushion{Outline: o, Width: in, Thickness: in})},
		"core of an edge": {"core_given", make1(made.Cushion{Outline: o, Thickness: in, CoreGiven: true})},
		"ears too wide":   {"right_ear", make1(made.Cushion{Width: 20 * in, Depth: 20 * in, Thickness: in, RightEar: 20 * in, EarDepth: in})},
		"ears too deep":   {"ear_depth", make1(made.Cushion{Width: 20 * in, Depth: 20 * in, Thickness: in, RightEar: in, EarDepth: 20 * in})},
		"ears of nothing": {"ear_depth", make1(made.Cushion{Width: 20 * in, Depth: 20 * in, Thickness: in, EarDepth: 2 * in})},
		"thick edge":      {"thickness", make1(made.Cushion{Kind: made.KnifeEdge, Outline: o, Thickness: in})},
		"flat waterfall":  {"thickness", make1(made.Cushion{Kind: made.Waterfall, Width: unit.Foot, Depth: unit.Foot})},
		"bolster":         {"depth", make1(made.Cushion{Kind: made.Bolster, Width: unit.Foot})},
		"deep round":      {"depth", make1(made.Cushion{Kind: made.Round, Width: unit.Foot, Depth: unit.Foot, Thickness: in})},
		"short goods":     {"boxing", make1(made.Cushion{Width: 20 * in, Depth: 20 * in, Thickness: in, Boxing: made.Goods{ID: "tape", Across: 5 * in, Directed: true}})},
		"ottoman":         {"height", func() error { _, err := made.Ottoman{Width: in * 20, Depth: 20 * in}.Make(); return err }},
		"rail": {"rail", func() error {
			_, err := made.Ottoman{Width: 20 * in, Depth: 20 * in, Height: in, Rail: allowance.Exactly(0)}.Make()
			return err
		}},
		"open below": {"under", func() error {
			_, err := made.DropInSeat{Front: 20 * in, Depth: 20 * in, Frame: in, Webbed: true}.Make()
			return err
		}},
		"skirt of no way": {"kind", skirt(made.Skirt{Sides: []unit.Length{unit.Foot}})},
		"skirt nowhere":   {"sides", skirt(made.Skirt{Kind: made.Gathered})},
		"no pleats":       {"pleats", skirt(made.Skirt{Kind: made.PleatedAllRound, Sides: []unit.Length{unit.Yard}, Drop: unit.Foot, Underfold: in})},
		"no fullness":     {"fullness", skirt(made.Skirt{Kind: made.Gathered, Sides: []unit.Length{unit.Yard}, Drop: unit.Foot})},
		"narrow tuft": {"goods", func() error {
			_, err := made.Tufting{Width: 40 * in, Height: 40 * in, Across: 2, Down: 2, Rule: made.TwiceDepth}.Cover(made.Goods{Across: 12 * in})
			return err
		}},
		"narrow channel": {"goods", func() error {
			_, err := made.Channels{Width: 40 * in, Height: 40 * in, Count: 2, Rise: in, OnePiece: true}.Cover(made.Goods{Across: 12 * in})
			return err
		}},
		"tapered lining": {"lining", func() error {
			_, err := made.Channels{Width: 40 * in, TopWidth: 20 * in, Height: 20 * in, Count: 5, Rise: in, Lining: "lining"}.Cover(g)
			return err
		}},
	} {
		err := c.make()
		var in *unit.InputError
		require.ErrorAs(t, err, &in, name)
		require.Equal(t, c.field, string(in.Field), "%s: %v", name, err)
		require.NotContains(t, err.Error(), "mm", "%s: an inch job hears of inches", name)
	}
}

// The panels of a side that goods are too narrow for are joined each to the next.
func TestKickSkirtIsJoinedInOrder(t *testing.T) {
	c, err := made.Skirt{Kind: made.KickPleats, Sides: []unit.Length{84 * unit.Inch, 30 * unit.Inch}, Drop: 8 * unit.Inch}.Cover(made.Goods{Across: 30 * unit.Inch})
	require.NoError(t, err)
	var joins []string
	for _, s := range c.Seams {
		if len(s.Sides) == 2 {
			joins = append(joins, s.Sides[0].String()+" to "+s.Sides[1].String())
		}
	}
	require.Equal(t, []string{
		"skirt panel 1 end 1.right to skirt panel 1 end 2.left", "skirt panel 1 end 2.right to skirt panel 1.left",
		"skirt panel 1.right to skirt panel 1 end 3.left", "skirt panel 1 end 3.right to skirt panel 1 end 4.left",
		"skirt panel 2 end 1.right to skirt panel 2.left", "skirt panel 2.right to skirt panel 2 end 2.left",
	}, joins)
}
