package geom

import "math"

// OffsetBounds gives the box around the true outward offset of a path, where
// an offset of its chords only comes within the tolerance: lines, arcs and
// other curves are measured at their ends and where they run along an axis,
// moved square out by their distance, corners where the offset has them.
//
// dist holds a distance for each segment, ring the outer ring of the offset of
// the chords, of the segment behind each chord and smooth the points of the
// chords that are no corners, as in OffsetOptions. The path runs anticlockwise.
//
// joints are the points of ring that stand for curves: they may lie a little
// outside the box.
func (p Path) OffsetBounds(dist []int64, ring OffsetRing, of []int, smooth []bool) (box Box, joints []int) {
	first := true
	add := func(q Point) {
		if first {
			box, first = Box{q, q}, false
			return
		}
		box = box.Union(Box{q, q})
	}
	for i, s := range p.Segments {
		d := float64(dist[i])
		out := func(at Point, t Vec) {
			add(at.Add(Vec{float64(d * t.Y), -float64(d * t.X)}.round()))
		}
		turn := 1.0
		if s.back { // as its chords are, so that a mirrored path gives the mirrored box
			s, turn = s.Reverse(), -1
		}
		out(s.From, s.Tangent(0).scale(turn))
		out(s.To, s.Tangent(1).scale(turn))
		for _, t := range s.extremes() {
			if !(t > 0 && t < 1) {
				continue
			}
			v := s.Tangent(t).scale(turn)
			if math.Abs(v.X) > math.Abs(v.Y) {
				v = Vec{math.Copysign(1, v.X), 0}
			} else {
				v = Vec{0, math.Copysign(1, v.Y)}
			}
			out(s.From.Add(s.offsetAt(t).round()), v)
		}
	}
	n := len(ring.Ring)
	for i, q := range ring.Ring {
		if p.joint(ring.Origin[(i+n-1)%n], ring.Origin[i], dist, of, smooth) {
			joints = append(joints, i)
		} else {
			add(q)
		}
	}
	return box, joints
}

// joint tells whether the point between two edges of an offset ring stands for
// a curve, or for the joint of two that run into each other at one distance.
func (p Path) joint(before, after Origin, dist []int64, of []int, smooth []bool) bool {
	if before.Corner || after.Corner {
		return false
	}
	a, b := of[before.Edge], of[after.Edge]
	if p.Segments[a].Kind == Line && p.Segments[b].Kind == Line {
		return false
	}
	n := len(smooth)
	next := (before.Edge + 1) % n
	return a == b || next == after.Edge && smooth[next] && dist[a] == dist[b]
}
