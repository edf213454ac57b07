package bound

import (
	"cmp"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// sub is the number of parts of the unit in which chords are kept.
const sub = 256

const (
	mostLevels = 512     // heights of corners kept of one outline
	mostSlabs  = 1 << 20 // sides looked at of one outline
)

// slab is a part of an outline between two heights in which its left and
// right sides run straight: a trapezoid. Sides are in 1/sub of the unit, the
// left one rounded up and the right one down.
type slab struct{ l0, l1, r0, r1 int64 }

// shape is an outline as lines across the roll see it. The slabs of the band
// from level[j] to level[j+1] are slabs[first[j]:first[j+1]], from the left.
type shape struct {
	box   geom.Box
	area2 geom.Int128
	level []int64
	first []int32
	slabs []slab
}

// edge runs upwards.
type edge struct{ lo, hi geom.Point }

// at returns x at height y in 1/sub, rounded down and up.
func (e edge) at(y int64) (down, up int64) {
	return between(e.lo.X*sub, e.hi.X*sub, y-e.lo.Y, e.hi.Y-e.lo.Y)
}

// newShape cuts an outline into slabs. With a gap each chord reaches that much
// further to the right, but not over the next chord of the same outline: the
// chords of other pieces keep clear of it, and so the chords of a layout
// lengthened like this are still disjoint, on a width longer by the gap.
func newShape(r geom.Ring, gap int64) *shape {
	s := &shape{box: r.Bounds(), area2: r.TwiceArea().Abs()}
	var edges []edge
	var levels []int64
	for i, a := range r {
		b := r[(i+1)%len(r)]
		levels = append(levels, a.Y)
		if a.Y > b.Y {
			a, b = b, a
		}
		if a.Y < b.Y {
			edges = append(edges, edge{a, b})
		}
	}
	slices.Sort(levels)
	levels = slices.Compact(levels)
	slices.SortFunc(edges, func(a, b edge) int { return cmp.Compare(a.lo.Y, b.lo.Y) })
	stride := (len(levels) + mostLevels - 1) / mostLevels
	var active []edge
	var core []slab // what all bands since the last kept level have in common
	next, seen := 0, 0
	for j := 0; j+1 < len(levels); j++ {
		y0, y1 := levels[j], levels[j+1]
		active = slices.DeleteFunc(active, func(e edge) bool { return e.hi.Y <= y0 })
		for ; next < len(edges) && edges[next].lo.Y <= y0; next++ {
			active = append(active, edges[next])
		}
		if seen += len(active); seen > mostSlabs {
			s.level, s.first, s.slabs = nil, nil, nil // area and box are left
			return s
		}
		b := band(active, y0, y1, gap*sub)
		if stride > 1 {
			if j%stride == 0 {
				core = b
				for i := range core {
					core[i] = core[i].upright()
				}
			} else {
				core = common(core, b)
			}
			if (j+1)%stride != 0 && j+2 < len(levels) {
				continue
			}
			b, y0 = core, levels[j-j%stride]
		}
		s.level = append(s.level, y0)
		s.first = append(s.first, int32(len(s.slabs)))
		s.slabs = append(s.slabs, b...)
	}
	s.level = append(s.level, levels[len(levels)-1])
	s.first = append(s.first, int32(len(s.slabs)))
	return s
}

// band returns the slabs between two neighbouring levels: by the even-odd
// rule, every other space between the edges that cross it.
func band(active []edge, y0, y1, gap int64) []slab {
	type side struct{ d0, u0, d1, u1 int64 }
	sides := make([]side, len(active))
	for i, e := range active {
		sides[i].d0, sides[i].u0 = e.at(y0)
		sides[i].d1, sides[i].u1 = e.at(y1)
	}
	// Edges of a simple outline do not cross inside the band, and rounding
	// keeps order: where these sums tie, so do all four numbers.
	slices.SortFunc(sides, func(a, b side) int {
		d := a.d0 + a.d1 - b.d0 - b.d1
		if d == 0 {
			d = a.u0 + a.u1 - b.u0 - b.u1
		}
		return int(min(max(d, -1), 1))
	})
	out := make([]slab, 0, len(sides)/2)
	for i := 0; i+1 < len(sides); i += 2 {
		l, r := sides[i], sides[i+1]
		out = append(out, slab{l.u0, l.u1, max(r.d0, l.u0), max(r.d1, l.u1)})
	}
	if gap > 0 {
		for i := range out {
			q := &out[i]
			r0, r1 := q.r0+gap, q.r1+gap
			if i+1 < len(out) {
				r0, r1 = min(r0, out[i+1].l0-1), min(r1, out[i+1].l1-1)
			}
			q.r0, q.r1 = max(q.r0, r0), max(q.r1, r1)
		}
	}
	return out
}

// upright is the largest rectangle as high as the slab.
func (q slab) upright() slab {
	l, r := max(q.l0, q.l1), min(q.r0, q.r1)
	return slab{l, l, max(l, r), max(l, r)}
}

// common returns the chords that lie in both bands at every height. Both run
// from the left.
func common(core, b []slab) []slab {
	var out []slab
	for i, k := 0, 0; i < len(core) && k < len(b); {
		p, q := core[i].upright(), b[k].upright()
		if l, r := max(p.l0, q.l0), min(p.r0, q.r0); l < r {
			out = append(out, slab{l, l, r, r})
		}
		if p.r0 < q.r0 {
			i++
		} else {
			k++
		}
	}
	return out
}

// chord is what an outline covers of a line, in 1/sub.
type chord struct{ l, r int64 }

// chords appends the chords at height y: their limit from above or from below,
// which differ where y is the height of a corner. Between two such heights
// there are always as many, some of no length.
func (s *shape) chords(y int64, above bool, out []chord) []chord {
	k, hit := slices.BinarySearch(s.level, y)
	if !hit || !above {
		k--
	}
	if k < 0 || k+1 >= len(s.level) {
		return out
	}
	y0, y1 := s.level[k], s.level[k+1]
	for _, q := range s.slabs[s.first[k]:s.first[k+1]] {
		var c chord
		switch y {
		case y0:
			c = chord{q.l0, q.r0}
		case y1:
			c = chord{q.l1, q.r1}
		default:
			_, c.l = between(q.l0, q.l1, y-y0, y1-y0)
			c.r, _ = between(q.r0, q.r1, y-y0, y1-y0)
		}
		c.r = max(c.l, c.r)
		out = append(out, c)
	}
	return out
}
