// Package verify referees layouts: those of rectangles on a strip (Boxes) and
// those of polygons on a roll or on hides (Outlines), against what was asked
// for. It has data of its own and shares no computation with the engines that
// make the layouts, so that an error of theirs cannot hide itself; only the
// plain point, ring and box of package geom are common. All tests are exact in
// whole numbers; touching is allowed.
package verify

import (
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// Kind names what a layout does wrong.
type Kind int

// Kinds of fault.
const (
	Missing   Kind = iota // a copy is not placed
	Repeated              // a copy is placed twice or does not exist
	Shape                 // the placed outline is not the piece turned and moved
	Angle                 // the angle is not allowed
	Mirror                // mirrored against the rule, or not mirrored
	Outside               // sticks out of its container
	OnHole                // covers part of a hole
	OnZone                // covers part of a zone that is too poor for it
	Overlaps              // two pieces overlap
	TooClose              // two pieces are closer than the gap
	OffRepeat             // the match point misses the repeat
	Range                 // coordinates of 2^30 and more
)

var kindNames = [...]string{"missing", "repeated", "wrong shape", "angle not allowed", "mirroring not allowed",
	"outside", "on a hole", "on a zone", "overlaps", "too close", "off the repeat", "out of range"}

func (k Kind) String() string {
	if k < 0 || int(k) >= len(kindNames) {
		return fmt.Sprintf("kind %d", int(k))
	}
	return kindNames[k]
}

// Fault is one violation. A and B are indices of placements (or of a
// piece and its copy for Missing), Part the hole or zone; -1 where not
// applicable.
type Fault struct {
	Kind       Kind
	A, B, Part int
}

func (f Fault) Error() string {
	return fmt.Sprintf("layout: placement %d: %v (other %d, part %d)", f.A, f.Kind, f.B, f.Part)
}

// Zone is a region of the ground of one kind.
type Zone struct {
	Kind int
	Ring geom.Ring
}

// Container is a hide or, with only Outer, a length of a roll.
type Container struct {
	Outer geom.Ring
	Holes []geom.Ring
	Zones []Zone
}

// Phase ties a coordinate of the match point to At plus a multiple of
// Every; Every 0 leaves it free.
type Phase struct{ Every, At int64 }

// Piece is what was asked for. Angles are in millionths of a degree.
type Piece struct {
	Ring           geom.Ring
	Count          int
	AnyAngle       bool
	Angles         []int64
	Tolerance      int64
	MayMirror      bool  // mirrored or not
	MustMirror     bool  // only mirrored
	Takes          []int // kinds of zones it may lie on
	Anchor         geom.Point
	PhaseX, PhaseY Phase
	// Falls are added to PhaseX.At by the column of PhaseY the match point is
	// in, over and over; none where every column is alike.
	Falls []int64
}

// Placement is what was answered.
type Placement struct {
	Piece, Copy, Container int
	Angle                  int64
	Mirrored               bool
	At                     geom.Point
	Ring                   geom.Ring
}

// Outlines returns every fault of a layout of polygons; none means the layout
// is good: containment, overlap, holes, quality zones, angles, mirroring,
// repeats and the gap between pieces. Coordinates stay below 2^30.
// With all set, every copy of every piece must be placed.
func Outlines(pieces []Piece, containers []Container, gap int64, all bool, layout []Placement) []Fault {
	var faults []Fault
	add := func(k Kind, a, b, part int) { faults = append(faults, Fault{k, a, b, part}) }
	seen := make(map[[2]int]bool)
	good := make([]bool, len(layout))
	for i, pl := range layout {
		if pl.Piece < 0 || pl.Piece >= len(pieces) || pl.Copy < 0 || pl.Copy >= pieces[pl.Piece].Count ||
			pl.Container < 0 || pl.Container >= len(containers) || seen[[2]int{pl.Piece, pl.Copy}] {
			add(Repeated, i, -1, -1)
			continue
		}
		seen[[2]int{pl.Piece, pl.Copy}] = true
		if !inRange(pl.Ring) || !inRange(containers[pl.Container].Outer) {
			add(Range, i, -1, -1)
			continue
		}
		good[i] = true
		p := &pieces[pl.Piece]
		if !angleAllowed(p, pl.Angle) {
			add(Angle, i, -1, -1)
		}
		if (pl.Mirrored && !p.MayMirror && !p.MustMirror) || (!pl.Mirrored && p.MustMirror) {
			add(Mirror, i, -1, -1)
		}
		if !samePlace(p.Ring, pl) {
			add(Shape, i, -1, -1)
		}
		a := moved(p.Anchor, pl)
		if offPhase(a.X, p.inColumn(a.Y), pl.Angle) || offPhase(a.Y, p.PhaseY, pl.Angle) {
			add(OffRepeat, i, -1, -1)
		}
		c := &containers[pl.Container]
		if !Inside(pl.Ring, c.Outer) {
			add(Outside, i, -1, -1)
		}
		for h, r := range c.Holes {
			if Overlap(pl.Ring, r) {
				add(OnHole, i, -1, h)
			}
		}
		for z, zone := range c.Zones {
			if slices.Contains(p.Takes, zone.Kind) {
				continue
			}
			if Overlap(pl.Ring, zone.Ring) {
				add(OnZone, i, -1, z)
			}
		}
	}
	for i := range layout {
		for j := i + 1; j < len(layout); j++ {
			if !good[i] || !good[j] || layout[i].Container != layout[j].Container {
				continue
			}
			if Overlap(layout[i].Ring, layout[j].Ring) {
				add(Overlaps, i, j, -1)
			} else if gap > 0 && Closer(layout[i].Ring, layout[j].Ring, gap) {
				add(TooClose, i, j, -1)
			}
		}
	}
	if all {
		for p := range pieces {
			for c := range pieces[p].Count {
				if !seen[[2]int{p, c}] {
					add(Missing, p, c, -1)
				}
			}
		}
	}
	return faults
}

func inRange(r geom.Ring) bool {
	for _, p := range r {
		if p.X <= -limit || p.X >= limit || p.Y <= -limit || p.Y >= limit {
			return false
		}
	}
	return len(r) >= 3
}

const turn = 360_000_000

func angleAllowed(p *Piece, a int64) bool {
	if p.AnyAngle {
		return true
	}
	list := p.Angles
	if len(list) == 0 {
		list = []int64{0}
	}
	for _, b := range list {
		d := ((a-b)%turn + turn) % turn
		if min(d, turn-d) <= p.Tolerance {
			return true
		}
	}
	return false
}

// moved is where a point of the piece should lie, to the nearest unit.
func moved(q geom.Point, pl Placement) geom.Point {
	if pl.Mirrored {
		q.X = -q.X
	}
	a := (pl.Angle%turn + turn) % turn
	switch a {
	case 0:
	case turn / 4:
		q.X, q.Y = -q.Y, q.X
	case turn / 2:
		q.X, q.Y = -q.X, -q.Y
	case 3 * turn / 4:
		q.X, q.Y = q.Y, -q.X
	default:
		s, c := math.Sincos(float64(a) / turn * 2 * math.Pi)
		x, y := float64(q.X), float64(q.Y)
		q = geom.Pt(int64(math.Round(float64(x*c)-float64(y*s))), int64(math.Round(float64(x*s)+float64(y*c))))
	}
	return geom.Pt(q.X+pl.At.X, q.Y+pl.At.Y)
}

// samePlace checks the placed outline corner by corner: exactly for
// quarter turns, within one unit otherwise.
func samePlace(r geom.Ring, pl Placement) bool {
	if len(r) != len(pl.Ring) {
		return false
	}
	tol := int64(1)
	if pl.Angle%(turn/4) == 0 {
		tol = 0
	}
	n := len(r)
	for i, q := range r {
		k := i
		if pl.Mirrored { // the corners run the other way round
			k = n - 1 - i
		}
		m := moved(q, pl)
		if d := pl.Ring[k]; max(d.X-m.X, m.X-d.X) > tol || max(d.Y-m.Y, m.Y-d.Y) > tol {
			return false
		}
	}
	return true
}

// inColumn is the phase along the roll where the match point lies at y.
func (p *Piece) inColumn(y int64) Phase {
	ph := p.PhaseX
	if n := int64(len(p.Falls)); n > 0 && p.PhaseY.Every > 0 {
		// The nearest column: off it, the point is a fault of PhaseY.
		d, e := y-p.PhaseY.At+p.PhaseY.Every/2, p.PhaseY.Every
		col := (d - (d%e+e)%e) / e
		ph.At += p.Falls[(col%n+n)%n]
	}
	return ph
}

// offPhase allows the rounding of one unit where the angle is no quarter
// turn.
func offPhase(v int64, ph Phase, angle int64) bool {
	if ph.Every <= 0 {
		return false
	}
	d := ((v-ph.At)%ph.Every + ph.Every) % ph.Every
	if angle%(turn/4) != 0 {
		return d > 1 && d < ph.Every-1
	}
	return d != 0
}
