package made_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// cushionCuts makes a cushion and cuts its pieces.
func cushionCuts(t *testing.T, c made.Cushion) (made.Part, map[string]allowance.PanelCut) {
	t.Helper()
	p, err := c.Make()
	require.NoError(t, err)
	w, err := p.Cover.Work(sewnGoods())
	require.NoError(t, err)
	cuts := map[string]allowance.PanelCut{}
	for _, x := range w.Pieces {
		cuts[x.Name], err = x.Panel.Cut()
		require.NoError(t, err)
	}
	return p, cuts
}

// Corners 3/4 in in: a side of 20 in is 10 in straight and twice √(4.25² + 0.75²) =
// 4.315669 in aslant, 18.631338 in in all.
func TestTaperedKnifeEdge(t *testing.T) {
	c := made.Cushion{Kind: made.KnifeEdge, Width: 20 * unit.Inch, Depth: 20 * unit.Inch, Taper: 3 * unit.Inch / 4, Zip: true, Top: made.Goods{ID: "cloth"}}
	p, cuts := cushionCuts(t, c)
	l, err := p.Cover.Panels[0].Outline.EdgeLength("front")
	require.NoError(t, err)
	require.InDelta(t, 18.631338, l.Inches(), 1e-6)
	require.Equal(t, 21*unit.Inch, cuts["top plate"].Width, "the finished width is the flat width")
	require.Equal(t, 20*unit.Inch+unit.Inch/2, p.Core.Width)
	c.Taper = 3 * unit.Inch
	_, err = c.Make()
	require.ErrorContains(t, err, "taper")
	c.Kind, c.Thickness, c.Taper = made.Boxed, 3*unit.Inch, unit.Inch/2
	_, err = c.Make()
	require.ErrorContains(t, err, "taper")
}

// Over 22 in a rise of 1 1/2 in has an arc of 22.271721 in, 1.2 % more: the sides at
// its ends are bowed by 0.135860 in. A rise of 1 in, 22.121017 in, is left alone.
func TestCrownedPlate(t *testing.T) {
	c := made.Cushion{Width: 22 * unit.Inch, Depth: 22 * unit.Inch, Thickness: 4 * unit.Inch, Rise: 3 * unit.Inch / 2, Zip: true, Top: made.Goods{ID: "cloth"}}
	p, cuts := cushionCuts(t, c)
	require.InDelta(t, 23+2*0.135860, cuts["top plate"].Width.Inches(), 2e-6)
	require.Equal(t, 22*unit.Inch+unit.Inch/2, p.Core.Width, "the core is that of the plate without")
	ring := unit.Length(0)
	for _, e := range p.Cover.Panels[0].Outline.Edges() {
		l, err := p.Cover.Panels[0].Outline.EdgeLength(e)
		require.NoError(t, err)
		ring += l
	}
	require.Equal(t, ring, p.Boxing.Main+p.Boxing.Opening)
	c.Rise = unit.Inch
	_, cuts = cushionCuts(t, c)
	require.Equal(t, 23*unit.Inch, cuts["top plate"].Width)
	c.Depth = 60 * unit.Inch // long enough that only the width is bowed
	c.Rise = 3 * unit.Inch / 2
	_, cuts = cushionCuts(t, c)
	require.Equal(t, 61*unit.Inch, cuts["top plate"].Height)
	c.Rise = 6 * unit.Inch
	_, err := c.Make()
	require.ErrorContains(t, err, "rise")
}

// A bolster of 7 x 20 in whose ends are drawn up to buttons: 20 + 7 in by 7 π in, and
// 1/2 in to hem the ends.
func TestGatheredBolster(t *testing.T) {
	c := made.Cushion{Kind: made.Bolster, Width: 20 * unit.Inch, Depth: 7 * unit.Inch, GatheredEnds: true, Zip: true, Top: made.Goods{ID: "cloth"}}
	p, cuts := cushionCuts(t, c)
	require.Len(t, p.Cover.Panels, 1)
	require.Equal(t, 28*unit.Inch, cuts["body"].Width)
	require.InDelta(t, 22.991149, cuts["body"].Height.Inches(), 1e-6)
	require.Equal(t, 20*unit.Inch+unit.Inch/2, p.Core.Width)
	w, err := p.Cover.Work(sewnGoods())
	require.NoError(t, err)
	require.Equal(t, 17*unit.Inch, w.Zips[0].Opening)
	c.Cord = unit.Inch / 8
	_, err = c.Make()
	require.ErrorContains(t, err, "cord")
}
