package layout

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/unit"
)

// halfTurnOff gives the angle between two directions that have no sense, from
// 0 to 90 degrees.
func halfTurnOff(a, b float64) float64 {
	d := math.Mod(math.Abs(a-b), 180)
	return min(d, 180-d)
}

// axisOf gives the wished axis of a piece as drawn or mirrored.
func axisOf(w StretchWish, mirrored bool) float64 {
	if mirrored {
		return 180 - float64(w.Axis)
	}
	return float64(w.Axis)
}

// angleSlack is what rounding to a millionth of a degree may cost.
const angleSlack = 3e-6

// meets tells whether every angle of the piece meets the wish on ground that
// stretches in a direction.
func (c cutPiece) meets(w StretchWish, direction unit.Angle) bool {
	if float64(w.Tolerance) >= 90 {
		return true
	}
	if c.turn.free {
		return false
	}
	axis := axisOf(w, c.mirrored())
	return !slices.ContainsFunc(c.turn.angles, func(a int64) bool {
		return halfTurnOff(float64(a)/1e6+axis, float64(direction))+float64(c.turn.tol)/1e6 > float64(w.Tolerance)+angleSlack
	})
}

// turnOf gives the angles a piece may take: what its grain allows and, with a
// stretch wish, what meets the wish in the region of most area where both agree.
func (t *hideTable) turnOf(p Piece, mirrored bool) directions {
	d := grainOf(p.Grain)
	w := p.Stretch
	if w == nil || float64(w.Tolerance) >= 90 {
		return d
	}
	area := map[unit.Angle]float64{} // read by key only
	var known []unit.Angle
	for _, g := range t.ground {
		for _, r := range g.regions {
			if r.stretch == nil {
				continue
			}
			if !slices.Contains(known, *r.stretch) {
				known = append(known, *r.stretch)
			}
			area[*r.stretch] += r.ring.TwiceArea().Abs().Float64()
		}
	}
	slices.SortStableFunc(known, func(a, b unit.Angle) int {
		switch {
		case area[a] > area[b]:
			return -1
		case area[a] < area[b]:
			return 1
		}
		return 0
	})
	for _, k := range known {
		if n, ok := d.and(float64(k)-axisOf(*w, mirrored), float64(w.Tolerance)); ok {
			return n
		}
	}
	return d
}

func grainOf(g Grain) directions {
	if g.Free {
		return directions{free: true}
	}
	d := directions{tol: micro(g.Tolerance)}
	for _, a := range g.Angles {
		d.angles = append(d.angles, micro(a))
	}
	if len(d.angles) == 0 {
		d.angles = []int64{0}
	}
	return d
}

// and narrows the angles to within tol of a direction without sense.
func (d directions) and(direction, tol float64) (directions, bool) {
	const half = 180_000_000
	to, wide := int64(math.Round(direction*1e6)), int64(math.Floor(tol*1e6))
	if d.free {
		return directions{angles: []int64{to, to + half}, tol: wide}, true
	}
	type span struct{ mid, wide int64 }
	var spans []span
	for _, a := range d.angles {
		for _, b := range []int64{to, to + half} {
			// b in the turn nearest to a.
			b += int64(math.Round(float64(a-b)/(2*half))) * 2 * half
			lo, hi := max(a-d.tol, b-wide), min(a+d.tol, b+wide)
			if lo <= hi {
				spans = append(spans, span{lo + (hi-lo)/2, (hi - lo) / 2})
			}
		}
	}
	if len(spans) == 0 {
		return d, false
	}
	out := directions{tol: d.tol}
	for _, s := range spans {
		out.angles = append(out.angles, s.mid)
		out.tol = min(out.tol, s.wide)
	}
	return out, true
}

func (c cutPiece) mirrored() bool { return c.mirror == nest.AlwaysMirrored }
