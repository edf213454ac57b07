package allowance_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// The end of a boxing that laps over its zip and folds back is that much longer,
// and three layers lie under the needle.
func TestLapOfAPocket(t *testing.T) {
	c := boxedCushion()
	for i := range c.Seams {
		if c.Seams[i].Kind == allowance.PlainJoin {
			c.Seams[i].Lap = unit.Inch
		}
	}
	w, err := c.Work(sewnGoods())
	require.NoError(t, err)
	for _, p := range w.Pieces {
		cut, err := p.Panel.Cut()
		require.NoError(t, err)
		if p.Name == "boxing" {
			require.Equal(t, 53*unit.Inch+2*(2*unit.Inch+unit.Inch/2), cut.Width)
		}
	}
	lapped := 0
	for _, r := range w.Rows {
		if r.Layers == 3 && r.Kind == allowance.SeamRow {
			lapped++
		}
	}
	require.Equal(t, 2, lapped)
	c.Seams[len(c.Seams)-1].Lap = unit.Inch
	require.ErrorContains(t, c.Check(sewnGoods()), "lap")
}

// A cover without a zip is turned through what is left open of its last seam, and
// that is closed by hand after all else.
func TestOpeningIsClosedByHand(t *testing.T) {
	var b builder
	b.panel("front", 20, 20)
	b.panel("back", 20, 20)
	s := b.sew(allowance.WeltedJoin, "front.top + front.left + front.bottom + front.right", "back.left + back.bottom + back.right + back.top")
	require.ErrorContains(t, b.c.Check(sewnGoods()), "an opening")
	s.Opening = 14 * unit.Inch
	w, err := b.c.Work(sewnGoods())
	require.NoError(t, err)
	rows := map[allowance.RowKind]unit.Length{}
	for _, r := range w.Rows {
		rows[r.Kind] = r.Length
	}
	require.Equal(t, 66*unit.Inch, rows[allowance.SeamRow])
	require.Equal(t, 14*unit.Inch, rows[allowance.HandRow])
	require.Equal(t, 80*unit.Inch, rows[allowance.PuttingRow], "the welt goes all round")
	require.Equal(t, allowance.CloseByHand, w.Sewing[len(w.Sewing)-1].Do)
	found := false
	for _, n := range w.Seams[0].Notches {
		found = found || n.At[0] == 14*unit.Inch
	}
	require.True(t, found, "the end of the opening is marked")
	for l, ok := range map[unit.Length]bool{80 * unit.Inch: true, 80*unit.Inch + 1: false, 90 * unit.Inch: false} { // all of the seam at most
		s.Opening = l
		if ok {
			require.NoError(t, b.c.Check(sewnGoods()))
			continue
		}
		require.ErrorContains(t, b.c.Check(sewnGoods()), "opening")
	}
}

// frill is a ring of goods, twice as long as what it hangs from, its top open.
func frill(kind allowance.SeamKind) allowance.Cover {
	var b builder
	p := b.panel("frill", 60, 6)
	p.Edges = map[string]allowance.Edge{"bottom": {Finish: allowance.SingleHem}}
	b.plain("frill.right", "frill.left")
	s := b.sew(kind, "frill.top")
	s.Open, s.Fullness = "top", 2
	return b.c
}

// An open seam counts for half on its own, and for one seam when its mate is
// there.
func TestOpenSeamFindsItsMate(t *testing.T) {
	for _, kind := range []allowance.SeamKind{allowance.PlainJoin, allowance.GatheredJoin} {
		alone, err := frill(kind).Work(sewnGoods())
		require.NoError(t, err)
		var half unit.Length
		for _, r := range alone.Rows {
			if r.Kind == allowance.SeamRow && r.Length == 15*unit.Inch {
				half += r.Length
				require.Equal(t, 2, r.Layers)
			}
		}
		require.Equal(t, 15*unit.Inch, half, "half of 30 in")

		var b builder
		b.panel("band", 30, 4)
		b.plain("band.right", "band.left")
		b.fasten(allowance.FoldedIn, "band.top")
		b.add("skirt", frill(kind))
		b.plain("band.bottom", "skirt.top")
		whole, err := b.c.Work(sewnGoods())
		require.NoError(t, err)
		sewn, gathers := 0, 0
		for _, r := range whole.Rows {
			if r.Kind == allowance.SeamRow && r.Length == 30*unit.Inch {
				sewn++
			}
			if r.Kind == allowance.GatherRow {
				gathers++
			}
		}
		require.Equal(t, 1, sewn)
		require.Equal(t, kind == allowance.GatheredJoin, gathers == 2)

		// Pleats are as full as they say.
		b.c.Seams[len(b.c.Seams)-1].Fullness = 3
		require.Error(t, b.c.Check(sewnGoods()))
	}
	var b builder // pleats under a welt are as full as those without
	b.panel("band", 30, 4)
	b.plain("band.right", "band.left")
	b.fasten(allowance.FoldedIn, "band.top")
	b.add("skirt", frill(allowance.PlainJoin))
	b.welted("band.bottom", "skirt.top")
	require.NoError(t, b.c.Check(sewnGoods()))
	c := frill(allowance.WeltedJoin)
	require.ErrorContains(t, c.Check(sewnGoods()), "open")
}

// A slip cover opens with tape or ties: both edges are turned in 1 in, tape has two
// rows on each, and what is closed so can be turned.
func TestClosingsOfSlipCovers(t *testing.T) {
	for kind, rows := range map[allowance.SeamKind]int{allowance.HookAndLoopJoin: 4, allowance.TiedJoin: 2} {
		var b builder
		b.panel("front", 20, 30)
		b.panel("back", 20, 30)
		b.plain("front.top", "back.top")
		b.plain("front.right", "back.left")
		b.plain("front.bottom", "back.bottom")
		b.sew(kind, "front.left", "back.right")
		w, err := b.c.Work(sewnGoods())
		require.NoError(t, err)
		hems := 0
		for _, r := range w.Rows {
			if r.Kind == allowance.HemRow {
				hems++
				require.Equal(t, 31*unit.Inch, r.Length, "through the allowances at both ends")
				require.Equal(t, map[allowance.SeamKind]int{allowance.HookAndLoopJoin: 3, allowance.TiedJoin: 2}[kind], r.Layers)
			}
		}
		require.Equal(t, rows, hems)
		cut, err := w.Pieces[0].Panel.Cut()
		require.NoError(t, err)
		require.Equal(t, 20*unit.Inch+unit.Inch/2+unit.Inch, cut.Width)
		b.c.Seams[3].Kind = allowance.PlainJoin
		require.ErrorContains(t, b.c.Check(sewnGoods()), "an opening")
	}
}

// A seam takes the allowance of the open seam that it closes, unless it has one of its
// own or leaves something to be trimmed off.
func TestAllowanceOfAnOpenSeam(t *testing.T) {
	in := unit.Inch
	for _, r := range []struct {
		own            allowance.Override
		handling, want unit.Length
		left           unit.Length
	}{
		{allowance.Override{}, 0, 3 * in / 4, in}, {allowance.Exactly(in / 4), 0, in / 4, 0}, {allowance.Override{}, in / 8, in / 2, in / 8}, {allowance.Exactly(in / 4), in / 8, in / 4, in / 8},
	} {
		var b builder
		b.panel("band", 30, 4)
		b.add("skirt", frill(allowance.PlainJoin))
		open := &b.c.Seams[len(b.c.Seams)-1]
		open.Allowance, open.Handling = allowance.Exactly(3*in/4), in
		s := b.sew(allowance.PlainJoin, "band.bottom", "skirt.top")
		s.Allowance, s.Handling = r.own, r.handling
		b.c.Panels[0].AllEdges = allowance.Edge{Finish: allowance.Raw}
		m, err := worked(t, b.c).Pieces[0].Panel.Edges["bottom"].Resolve()
		require.NoError(t, err)
		assert.Equal(t, [2]unit.Length{r.want, r.left}, [2]unit.Length{m.Allowance, m.Handling}, r)
	}
}

// An open seam that is faulty joins nothing, and one of two sides is no edge that
// could be fastened: its name is told.
func TestOpenSeamsThatJoinNothing(t *testing.T) {
	var b builder
	b.panel("band", 30, 4)
	b.plain("band.right", "band.left")
	b.fasten(allowance.FoldedIn, "band.top")
	b.plain("band.bottom", "skirt.top")
	for name, r := range map[string]struct {
		sides []allowance.Side
		path  string
	}{"none": {nil, "seams[1].sides[1]"}, "three": {sides("skirt.a.top", "skirt.b.top", "skirt.c.top"), "seams[1].sides[1]"}} {
		c := b.c
		for _, p := range []string{"a", "b", "c"} {
			c.Panels = append(slices.Clip(c.Panels), allowance.CoverPanel{Panel: allowance.Panel{Name: "skirt." + p, Outline: sure(shape.Rectangle(30*unit.Inch, 6*unit.Inch)),
				AllEdges: allowance.Edge{Finish: allowance.Raw}}, Goods: "cloth"})
		}
		c.Seams = append(slices.Clip(c.Seams), allowance.Seam{Sides: r.sides, Open: "skirt.top"})
		require.Contains(t, faultPaths(c.Check(sewnGoods())), r.path, name)
	}

	double := func() builder {
		var b builder
		for _, name := range []string{"skirt", "lining"} {
			p := b.panel(name, 30, 6)
			p.AllEdges = allowance.Edge{Finish: allowance.Raw}
		}
		b.sew(allowance.PlainJoin, "skirt.top", "lining.top").Open = "valance.top"
		return b
	}
	d := double()
	require.NoError(t, d.c.Check(sewnGoods()))
	// Beside it others of several edges are sewn as they are.
	d.panel("left", 10, 10)
	d.panel("right", 10, 10)
	d.panel("foot", 20, 5)
	d.plain("left.right", "right.left")
	d.plain("left.bottom + right.bottom", "foot.top")
	require.NoError(t, d.raw().Check(sewnGoods()))
	d.fasten(allowance.StapledFlat, "valance.top")
	require.ErrorContains(t, d.c.Check(sewnGoods()), "fastenings[0].side")
}
