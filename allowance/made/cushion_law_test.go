package made_test

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// sixteenths draws a length on a tape.
func sixteenths(t *rapid.T, name string, least, most float64) unit.Length {
	return unit.Length(rapid.IntRange(int(least*16), int(most*16)).Draw(t, name)) * unit.Inch / 16
}

func flag(t *rapid.T, name string) bool { return rapid.Bool().Draw(t, name) }

// anyGoods draws goods of some width, with or without a direction.
func anyGoods(t *rapid.T) made.Goods {
	g := made.Goods{ID: "cloth", Directed: flag(t, "directed"), Thickness: unit.Millimetre}
	if flag(t, "limited") {
		g.Across = sixteenths(t, "across", 8, 72)
		g.Along = unit.Length(rapid.SampledFrom([]int{0, 72, 300}).Draw(t, "along")) * unit.Inch
	}
	return g
}

// anyOutline draws a plate of another shape.
func anyOutline(t *rapid.T) shape.Outline {
	w, d := sixteenths(t, "outline width", 12, 80), sixteenths(t, "outline depth", 12, 60)
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	o, err := shape.Rectangle(w, d)
	switch rapid.IntRange(0, 5).Draw(t, "shape") {
	case 0: // L
		o, err = shape.Polygon(at(0, 0), at(w, 0), at(w, d/3), at(w/3, d/3), at(w/3, d), at(0, d))
	case 1:
		o, err = shape.Trapezoid(w, w*2/3, d, sixteenths(t, "shift", 0, 6))
	case 2:
		o, err = shape.RoundedRectangle(w, d, shape.SameRadii(sixteenths(t, "radius", 1, 4)))
	case 3:
		o, err = shape.Crowned(w, d, w/8)
	case 4:
		o, err = shape.Stadium(w+d, d)
	}
	require.NoError(t, err)
	return o
}

// anyCushion draws a cushion of any kind.
func anyCushion(t *rapid.T) made.Cushion {
	c := made.Cushion{Kind: made.CushionKind(rapid.IntRange(0, 4).Draw(t, "kind")), Top: anyGoods(t), Zip: flag(t, "zip"),
		Width: sixteenths(t, "width", 4, 100), Fit: made.CushionFit(rapid.IntRange(0, 3).Draw(t, "fit")), CoreGiven: flag(t, "core given")}
	if flag(t, "welted") {
		c.Cord = unit.Inch / 8
	} else {
		c.TopStitch = flag(t, "top-stitched")
	}
	if c.Kind != made.Round {
		c.Depth = sixteenths(t, "depth", 4, 60)
	}
	if c.Kind != made.KnifeEdge && c.Kind != made.Bolster {
		c.Thickness = sixteenths(t, "thickness", 1, 10)
	}
	c.RoundFront = c.Kind == made.Waterfall && flag(t, "round front")
	if c.Kind == made.Boxed || c.Kind == made.KnifeEdge {
		switch rapid.IntRange(0, 2).Draw(t, "plate") {
		case 0:
			c.LeftEar, c.RightEar = sixteenths(t, "left ear", 0, 6), sixteenths(t, "right ear", 0, 6)
			if c.LeftEar+c.RightEar > 0 {
				c.EarDepth = sixteenths(t, "ear depth", 1, 8)
			}
		case 1:
			c.Outline, c.Width, c.Depth, c.CoreGiven = anyOutline(t), 0, 0, false
			if c.Outline.Edges()[0] == "side 1" {
				c.Back = rapid.SampledFrom(c.Outline.Edges()).Draw(t, "back")
			}
		}
	}
	if c.Outline.IsZero() && c.LeftEar+c.RightEar == 0 {
		switch {
		case c.Kind == made.KnifeEdge && flag(t, "tapered"):
			c.Taper = sixteenths(t, "taper", 0.5, 1)
		case c.Kind == made.Boxed && flag(t, "crowned"):
			c.Rise = sixteenths(t, "rise", 0.5, 3)
		}
	}
	c.GatheredEnds = c.Kind == made.Bolster && c.Cord == 0 && !c.TopStitch && flag(t, "gathered ends")
	plain := c.Rise == 0 && c.Kind == made.Boxed && c.Outline.IsZero() && c.LeftEar+c.RightEar == 0
	switch {
	case plain && flag(t, "wedge"):
		c.BackThickness = sixteenths(t, "back thickness", 1, 10)
		return c
	case c.Kind == made.Boxed || c.Kind == made.KnifeEdge:
		c.Pair = flag(t, "pair")
		switch edges := append(c.Outline.Edges(), "front", "left", "right"); {
		case !flag(t, "attached"):
		case c.Outline.IsZero():
			c.Attached = rapid.SampledFrom(edges[len(edges)-3:]).Draw(t, "attached at")
		default:
			c.Attached = rapid.SampledFrom(edges[:len(edges)-3]).Draw(t, "attached at")
		}
	}
	if (c.Kind == made.Boxed || c.Kind == made.Round) && c.Zip && flag(t, "pocket") {
		c.Pocket = unit.Inch
	}
	return c
}

// A cushion is sewn to a piece by an edge of its plate: the needle passes the
// piece, the plate and the boxing or the other plate, whichever is named first.
func TestCushionIsSewnToAPiece(t *testing.T) {
	sewn := 0
	rapid.Check(t, func(t *rapid.T) {
		c := anyCushion(t)
		p, err := c.Make()
		if err != nil || c.Attached == "" || c.Pair {
			return
		}
		sewn++
		l, err := p.Cover.Panels[0].Outline.EdgeLength(c.Attached)
		require.NoError(t, err)
		o, err := shape.Rectangle(l, 4*unit.Inch)
		require.NoError(t, err)
		raw := allowance.Edge{Finish: allowance.Raw}
		whole := p.Cover.Nested("pad").Joined(allowance.Cover{Panels: []allowance.CoverPanel{{Goods: "cloth",
			Panel: allowance.Panel{Name: "back", Outline: o, Edges: map[string]allowance.Edge{"left": raw, "bottom": raw, "right": raw}}}}})
		sides := []allowance.Side{{{Panel: "back", Edge: "top"}}, {{Panel: "pad", Edge: c.Attached}}}
		if flag(t, "cushion first") {
			slices.Reverse(sides)
		}
		whole.Seams = append(whole.Seams, allowance.Seam{Name: "to the back", Sides: sides})
		w, err := whole.Work(sewnGoods())
		require.NoError(t, err, "%+v", c)
		of := len(whole.Seams) - 1
		i := slices.IndexFunc(w.Seams, func(s allowance.CoverSeam) bool { return s.Seam == of-1 || len(s.Sides) == 3 })
		require.GreaterOrEqual(t, i, 0)
		require.Len(t, w.Seams[i].Sides, 3)
		row := slices.IndexFunc(w.Rows, func(r allowance.CoverRow) bool { return r.Of == w.Seams[i].Letter })
		require.Equal(t, 3, w.Rows[row].Layers)
	})
	require.Positive(t, sewn)
}

// What follows from the seams of a boxed cushion are the sums a bench does: with
// perimeter P, zip panel Z, thickness T, seam s, zip seam z, n joins round the ring
// and m pieces of zip panel
//
//	pieces  cut M + 2 s n in all, tape Z + 2 s, cord 2 P
//	rows    joins n (T + 2 s) + 2 (m - 1) (T / 2 + s + z), zip 2 (Z + 2 s),
//	        welt made 2 (P + 2 in), put on 2 P, closed 2 P
func TestGraphOfBoxedCushionIsItsSums(t *testing.T) {
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		const s, z = unit.Inch / 2, 3 * unit.Inch / 4
		c := made.Cushion{Width: sixteenths(t, "width", 8, 90), Depth: sixteenths(t, "depth", 8, 40), Thickness: 2 * sixteenths(t, "half thickness", 1, 4),
			Zip: true, Cord: unit.Inch / 8, Top: anyGoods(t)}
		part, err := c.Make()
		if err != nil {
			return
		}
		accepted++
		w, err := part.Cover.Work(sewnGoods())
		require.NoError(t, err)
		b := part.Boxing
		p, joins, zips := 2*(c.Width+c.Depth), unit.Length(len(b.Joins)), unit.Length(len(b.ZipPieces))
		require.Equal(t, p-b.Opening+2*s*unit.Length(len(b.Pieces)), b.Length)
		require.Equal(t, b.Opening+2*s, w.Zips[0].Tape)
		rows := map[allowance.RowKind]unit.Length{}
		for _, r := range w.Rows {
			rows[r.Kind] += r.Length
		}
		require.Equal(t, map[allowance.RowKind]unit.Length{
			allowance.ZipRow: 2 * (b.Opening + 2*s), allowance.MakingRow: 2 * (p + 2*unit.Inch), allowance.PuttingRow: 2 * p,
			allowance.SeamRow: joins*(c.Thickness+2*s) + 2*(zips-1)*(c.Thickness/2+s+z) + 2*p,
		}, rows)
		var cord unit.Length
		for _, x := range w.Welts {
			cord += x.CordLength
		}
		require.Equal(t, 2*p, cord)
	})
	require.Positive(t, accepted)
}

// Every cushion that is accepted is a cover without a fault, and its ring closes:
// main and zip panel are the girth of the plate, the pieces add up, none is under
// the least, joins lie where they may.
func TestEveryCushionIsASoundCover(t *testing.T) {
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		c := anyCushion(t)
		p, err := c.Make()
		if err != nil {
			var in *unit.InputError
			require.True(t, errors.As(err, &in), "%v", err)
			return
		}
		accepted++
		w, err := p.Cover.Work(sewnGoods())
		require.NoError(t, err, "%+v", c)
		least := unit.Length(0)
		if c.Attached != "" { // where it ends a piece of the boxing may end too, nearly: no part is shorter
			least = unit.Millimetre
		}
		for _, s := range w.Seams {
			if len(s.Sides) > 1 {
				require.Equal(t, allowance.SewsFlat, s.Match.Verdict)
				require.LessOrEqual(t, s.Match.Difference, least+20*unit.Length(len(s.Sides[0])+len(s.Sides[1])), "nanometres")
			}
		}
		if c.Zip {
			require.Len(t, w.Zips, map[bool]int{false: 1, true: 2}[c.Pair])
		}
		if p.Boxing == nil {
			return
		}
		b := p.Boxing
		var ring, pieces unit.Length
		for _, e := range p.Cover.Panels[0].Outline.Edges() {
			l, err := p.Cover.Panels[0].Outline.EdgeLength(e)
			require.NoError(t, err)
			ring += l
		}
		require.Equal(t, ring, b.Main+b.Opening, "P = M + Z")
		for i, x := range b.Pieces {
			pieces += x.To - x.From
			if len(b.Pieces) > 1 {
				require.GreaterOrEqual(t, x.To-x.From, 6*unit.Inch, "%+v", c)
			}
			if i > 0 {
				require.Equal(t, b.Pieces[i-1].To, x.From)
			}
			if most := max(c.Top.Across, c.Top.Along); c.Top.Across != 0 && (c.Top.Directed || c.Top.Along != 0) {
				if c.Top.Directed {
					most = c.Top.Across
				}
				require.LessOrEqual(t, x.Cut, most)
			}
		}
		require.Equal(t, b.Main, pieces)
		for _, j := range b.Joins {
			if j.Corner != "" && j.Beyond != 0 && c.Top.Across > 40*unit.Inch {
				require.GreaterOrEqual(t, max(j.Beyond, -j.Beyond), 2*unit.Inch, "%+v %+v", c, b)
			}
		}
	})
	require.Positive(t, accepted)
}
