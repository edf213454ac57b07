package layout

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// rest gives what is left of the box of a skin outside some outlines, as plain
// rings: the engine knows regions without holes only. The outlines are taken
// smaller by the tolerance, so that the rest is on the safe side.
func (g *ground) rest(of []shape.Outline, tol unit.Length) ([]geom.Ring, error) {
	b := g.outer.Bounds()
	rings := []geom.Ring{b.Ring()}
	for _, o := range of {
		r, err := ringOf(o, -1, 0, tol, nestStep, true)
		if err != nil {
			return nil, err
		}
		rings = append(rings, anticlockwise(r).Reverse())
	}
	parts, err := geom.Resolve(rings, geom.Positive)
	if err != nil {
		return nil, plainGeom(err)
	}
	var out []geom.Ring
	for _, p := range parts {
		plain, err := withoutHoles(p, 0)
		if err != nil {
			return nil, err
		}
		out = append(out, plain...)
	}
	return out, nil
}

// withoutHoles cuts a polygon through the middle of its first hole, again and
// again, until no part has a hole.
func withoutHoles(p geom.Polygon, depth int) ([]geom.Ring, error) {
	if len(p.Holes) == 0 {
		r := p.Outer.Clean()
		if len(r) < 3 {
			return nil, nil
		}
		return []geom.Ring{r}, nil
	}
	if depth > 64 {
		return nil, plainGeom(geom.ErrTooComplex)
	}
	h := p.Holes[0].Bounds()
	all := p.Outer.Bounds()
	mid := h.Min.X + h.Width()/2
	if mid <= all.Min.X || mid >= all.Max.X {
		return nil, plainGeom(geom.ErrDegenerate)
	}
	var out []geom.Ring
	for _, half := range []geom.Box{
		{Min: all.Min, Max: geom.Point{X: mid, Y: all.Max.Y}},
		{Min: geom.Point{X: mid, Y: all.Min.Y}, Max: all.Max},
	} {
		parts, err := common(p.Outer, boxRing(half), p.Holes...)
		if err != nil {
			return nil, plainGeom(err)
		}
		for _, q := range parts {
			more, err := withoutHoles(q, depth+1)
			if err != nil {
				return nil, err
			}
			out = append(out, more...)
		}
	}
	return out, nil
}

// common gives the area inside both of two rings, and outside clockwise holes:
// what is wound twice, less once all round.
func common(a, b geom.Ring, holes ...geom.Ring) ([]geom.Polygon, error) {
	all := a.Bounds().Union(b.Bounds())
	around := geom.Box{Min: geom.Point{X: all.Min.X - 10, Y: all.Min.Y - 10}, Max: geom.Point{X: all.Max.X + 10, Y: all.Max.Y + 10}}
	return geom.Resolve(append([]geom.Ring{a, b, boxRing(around).Reverse()}, holes...), geom.Positive)
}

func boxRing(b geom.Box) geom.Ring {
	return b.Ring()
}
