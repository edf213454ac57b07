package verify

import (
	"fmt"
	"sort"
)

// Rect is a rectangle: its lower left corner and its size.
type Rect struct{ X, Y, W, H int64 }

// Strip is a layout together with everything it has to obey.
type Strip struct {
	Width   int64 // usable width
	Length  int64 // nothing may lie above
	Claimed int64 // length the layout claims to use
	Gap     int64 // least distance of two pieces in X or in Y
	Repeat  Repeat
	Flaws   []Rect
	Windows []int64 // greatest length over which group 1, 2, ... may spread
	Demands []Demand
	Laid    []Laid
	Seams   []Seam

	Write func(int64) string // how faults word a length; a whole number when nil
}

// Repeat is the pattern: motifs at OriginX + i PeriodX, OriginY + j PeriodY + floor((i mod DropDen) DropNum PeriodY /
// DropDen). Period 0 binds nothing.
type Repeat struct {
	PeriodX, PeriodY, OriginX, OriginY, DropNum, DropDen int64
}

// Demand is what was asked for: Count rectangles of W by H.
type Demand struct {
	Name           string // for faults
	W, H           int64
	Count          int
	Turns          []int  // allowed turns in degrees, anti-clockwise
	MatchX, MatchY bool   // a motif must lie on a spot; with a drop, MatchY alone takes that of any column
	Spots          []Spot // none means the lower left corner before turning
	MovedX, MovedY int64  // by which the motifs are moved for it
	Group          int    // 0 for none
	Join           *Join  // may be joined; nil for not
}

// Spot is a point from the lower left corner before turning, and the turns at which it holds; none means all.
type Spot struct {
	X, Y  int64
	Turns []int
}

// Join is how a rectangle may be joined from segments.
type Join struct {
	AlongX    bool  // the width is divided, otherwise the height
	Allowance int64 // added at both sides of a seam
	Least     int64 // least finished length of a segment
	Most      int   // most seams
}

// Laid is a rectangle, or a segment of one, as laid; Turn in degrees.
type Laid struct {
	Demand, Copy, Segment, Segments int
	Rect
	Turn int
}

// Seam is a seam of a joined rectangle at a distance from the start of its divided side.
type Seam struct {
	Demand, Copy int
	At           int64
}

// BoxFault is the first thing found wrong. Match it with errors.As.
type BoxFault struct {
	Kind string // one of the Kind constants
	What string // where, with numbers
}

// Kinds of fault.
const (
	KindMissing = "missing" // a copy or segment is not there, or there twice, or was never asked for
	KindSize    = "size"    // laid in another size
	KindTurn    = "turn"    // turned in a way that is not allowed
	KindOutside = "outside" // outside the strip
	KindOverlap = "overlap" // two pieces overlap or lie closer than the gap
	KindFlaw    = "flaw"    // on a flaw
	KindRepeat  = "repeat"  // the motif is not where it must be
	KindGroup   = "group"   // a group is spread too far
	KindSeam    = "seam"    // seams do not match the segments
	KindLength  = "length"  // the length claimed is not the length used
)

func (f *BoxFault) Error() string { return "layout: " + f.Kind + ": " + f.What }

// Boxes reports the first fault of a layout of rectangles on a strip as a *BoxFault, or nil. Coordinates are whole
// numbers of any unit, below 2^60 in size; X runs across the strip, Y along it. Time grows with n log n plus the number of pairs of
// pieces at the same level of the strip.
func Boxes(s *Strip) error {
	for _, step := range []func(*Strip) *BoxFault{complete, sizes, inside, separate, flaws, phase, groups, used} {
		if f := step(s); f != nil {
			return f
		}
	}
	return nil
}

func fault(kind, format string, args ...any) *BoxFault {
	return &BoxFault{kind, fmt.Sprintf(format, args...)}
}

// piece names the nth copy, from 0: "seat copy 2 of 4".
func (s *Strip) piece(demand, nth int) string {
	if demand < 0 || demand >= len(s.Demands) {
		return fmt.Sprintf("pieces[%d]", demand)
	}
	d := s.Demands[demand]
	name := d.Name
	if name == "" {
		name = fmt.Sprintf("pieces[%d]", demand)
	}
	return fmt.Sprintf("%s copy %d of %d", name, nth+1, d.Count)
}

// laid names what is laid: "seat copy 2 of 4", "band copy 1 of 1 segment 2 of 3".
func (s *Strip) laid(i int) string {
	l := s.Laid[i]
	if l.Segments == 1 {
		return s.piece(l.Demand, l.Copy)
	}
	return fmt.Sprintf("%s segment %d of %d", s.piece(l.Demand, l.Copy), l.Segment+1, l.Segments)
}

func (s *Strip) say(v int64) string {
	if s.Write == nil {
		return fmt.Sprint(v)
	}
	return s.Write(v)
}

type copyID struct{ demand, copy int }

// complete checks that every copy is there once, whole or in all its segments.
func complete(s *Strip) *BoxFault {
	seen := map[copyID]map[int]bool{}
	segments := map[copyID]int{}
	for i, l := range s.Laid {
		if l.Demand < 0 || l.Demand >= len(s.Demands) {
			return fault(KindMissing, "placement %d is of a piece that does not exist, pieces[%d]", i, l.Demand)
		}
		if l.Copy < 0 || l.Copy >= s.Demands[l.Demand].Count {
			return fault(KindMissing, "%s was not asked for", s.piece(l.Demand, l.Copy))
		}
		id := copyID{l.Demand, l.Copy}
		if n, ok := segments[id]; ok && n != l.Segments {
			return fault(KindMissing, "%s is divided in two ways", s.piece(l.Demand, l.Copy))
		}
		if l.Segments < 1 || l.Segment < 0 || l.Segment >= l.Segments {
			return fault(KindMissing, "%s is no segment that there is", s.laid(i))
		}
		segments[id] = l.Segments
		if seen[id] == nil {
			seen[id] = map[int]bool{}
		}
		if seen[id][l.Segment] {
			return fault(KindMissing, "%s is laid twice", s.laid(i))
		}
		seen[id][l.Segment] = true
	}
	for d := range s.Demands {
		for c := range s.Demands[d].Count {
			id := copyID{d, c}
			if len(seen[id]) == 0 || len(seen[id]) != segments[id] {
				return fault(KindMissing, "%s is not laid completely", s.piece(d, c))
			}
		}
	}
	return nil
}

// sizes checks sizes, turns and seams.
func sizes(s *Strip) *BoxFault {
	at := map[copyID][]int64{}
	for _, m := range s.Seams {
		id := copyID{m.Demand, m.Copy}
		at[id] = append(at[id], m.At)
	}
	used := map[copyID]bool{}
	for i, l := range s.Laid {
		d := &s.Demands[l.Demand]
		allowed := false
		for _, t := range d.Turns {
			allowed = allowed || t == l.Turn
		}
		if !allowed {
			return fault(KindTurn, "%s is turned by %d degrees", s.laid(i), l.Turn)
		}
		id := copyID{l.Demand, l.Copy}
		used[id] = true
		w, h := d.W, d.H
		if l.Segments == 1 {
			if len(at[id]) > 0 {
				return fault(KindSeam, "%s is whole but has seams", s.laid(i))
			}
		} else {
			if d.Join == nil {
				return fault(KindSeam, "%s must not be joined", s.laid(i))
			}
			cut, f := s.segment(d, at[id], i)
			if f != nil {
				return f
			}
			if d.Join.AlongX {
				w = cut
			} else {
				h = cut
			}
		}
		if l.Turn == 90 || l.Turn == 270 {
			w, h = h, w
		}
		if l.W != w || l.H != h {
			return fault(KindSize, "%s is %s by %s, asked for %s by %s", s.laid(i), s.say(l.W), s.say(l.H), s.say(w), s.say(h))
		}
	}
	for id := range at {
		if !used[id] {
			return fault(KindSeam, "seams without a piece")
		}
	}
	return nil
}

// segment gives the cut length of a segment between the seams of its copy.
func (s *Strip) segment(d *Demand, at []int64, i int) (int64, *BoxFault) {
	l := s.Laid[i]
	side := d.H
	if d.Join.AlongX {
		side = d.W
	}
	if len(at) != l.Segments-1 || len(at) > d.Join.Most {
		return 0, fault(KindSeam, "%s has %d seams and %d segments", s.piece(l.Demand, l.Copy), len(at), l.Segments)
	}
	at = append([]int64(nil), at...)
	sort.Slice(at, func(a, b int) bool { return at[a] < at[b] })
	from, to := int64(0), side
	cut := int64(0)
	if l.Segment > 0 {
		from = at[l.Segment-1]
		cut += d.Join.Allowance
	}
	if l.Segment < l.Segments-1 {
		to = at[l.Segment]
		cut += d.Join.Allowance
	}
	if from < 0 || to > side || to-from < d.Join.Least {
		return 0, fault(KindSeam, "%s is %s long", s.laid(i), s.say(to-from))
	}
	return cut + to - from, nil
}

// inside checks that every piece lies on the strip.
func inside(s *Strip) *BoxFault {
	for i, l := range s.Laid {
		if l.X < 0 || l.Y < 0 || l.W < 1 || l.H < 1 || l.X > s.Width-l.W || l.Y > s.Length-l.H {
			return fault(KindOutside, "%s at (%s, %s), %s by %s, on %s by %s", s.laid(i), s.say(l.X), s.say(l.Y), s.say(l.W), s.say(l.H), s.say(s.Width), s.say(s.Length))
		}
	}
	return nil
}

// separate checks every pair of pieces at the same level.
func separate(s *Strip) *BoxFault {
	order := make([]int, len(s.Laid))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(a, b int) bool {
		p, q := s.Laid[order[a]], s.Laid[order[b]]
		if p.Y != q.Y {
			return p.Y < q.Y
		}
		return order[a] < order[b]
	})
	var open []int // pieces not yet left behind
	for _, i := range order {
		p := s.Laid[i]
		keep := open[:0]
		for _, k := range open {
			q := s.Laid[k]
			if q.Y+q.H+s.Gap <= p.Y {
				continue
			}
			keep = append(keep, k)
			if p.X+p.W+s.Gap > q.X && q.X+q.W+s.Gap > p.X {
				return fault(KindOverlap, "%s and %s", s.laid(min(i, k)), s.laid(max(i, k)))
			}
		}
		keep = append(keep, i)
		open = keep
	}
	return nil
}

// flaws checks that no piece lies on a flaw.
func flaws(s *Strip) *BoxFault {
	for i, l := range s.Laid {
		for k, f := range s.Flaws {
			if l.X < f.X+f.W && f.X < l.X+l.W && l.Y < f.Y+f.H && f.Y < l.Y+l.H {
				return fault(KindFlaw, "%s on flaw %d", s.laid(i), k)
			}
		}
	}
	return nil
}

// phase checks that a motif lies on a spot of every piece that needs one.
func phase(s *Strip) *BoxFault {
	for i, l := range s.Laid {
		d := &s.Demands[l.Demand]
		spots := d.Spots
		if len(spots) == 0 {
			spots = []Spot{{}}
		}
		var first *BoxFault
		met := false
		for _, q := range spots {
			f := s.missed(i, q)
			if met = met || f == nil; first == nil {
				first = f
			}
		}
		if !met {
			return first
		}
	}
	return nil
}

// missed says by how much a spot of what is laid lies off the motifs, or nil.
func (s *Strip) missed(i int, q Spot) *BoxFault {
	l, r := s.Laid[i], s.Repeat
	d := &s.Demands[l.Demand]
	matchX, matchY := d.MatchX && r.PeriodX > 0, d.MatchY && r.PeriodY > 0
	if !matchX && !matchY {
		return nil
	}
	holds := len(q.Turns) == 0
	for _, t := range q.Turns {
		holds = holds || t == l.Turn
	}
	if !holds {
		return fault(KindRepeat, "%s has no point for the motif when it is turned by %d degrees", s.laid(i), l.Turn)
	}
	mx, my := q.X, q.Y
	switch l.Turn {
	case 90:
		mx, my = d.H-q.Y, q.X
	case 180:
		mx, my = d.W-q.X, d.H-q.Y
	case 270:
		mx, my = q.Y, d.W-q.X
	}
	dx, dy := l.X+mx-r.OriginX-d.MovedX, l.Y+my-r.OriginY-d.MovedY
	if matchX && dx%r.PeriodX != 0 {
		return fault(KindRepeat, "%s is %s off across the strip", s.laid(i), s.say(dx%r.PeriodX))
	}
	if !matchY {
		return nil
	}
	from, to := int64(0), int64(0) // columns that count
	if r.DropDen > 0 {
		to = r.DropDen - 1
		if matchX {
			from = dx / r.PeriodX % r.DropDen
			if from < 0 {
				from += r.DropDen
			}
			to = from
		}
	}
	for c := from; c <= to; c++ {
		raised := int64(0)
		if r.DropDen > 0 {
			raised = c * r.DropNum * r.PeriodY / r.DropDen
		}
		if (dy-raised)%r.PeriodY == 0 {
			return nil
		}
	}
	return fault(KindRepeat, "%s is %s off along the strip", s.laid(i), s.say(dy%r.PeriodY))
}

// groups checks that the pieces of a group lie near each other.
func groups(s *Strip) *BoxFault {
	type span struct {
		lo, hi int64
		any    bool
	}
	spans := make([]span, len(s.Windows))
	for i, l := range s.Laid {
		g := s.Demands[l.Demand].Group
		if g == 0 {
			continue
		}
		if g < 0 || g > len(s.Windows) {
			return fault(KindGroup, "%s is in group %d, which does not exist", s.laid(i), g)
		}
		q := &spans[g-1]
		if !q.any {
			*q = span{l.Y, l.Y + l.H, true}
		}
		q.lo, q.hi = min(q.lo, l.Y), max(q.hi, l.Y+l.H)
	}
	for g, q := range spans {
		if q.any && q.hi-q.lo > s.Windows[g] {
			return fault(KindGroup, "group %d spreads over %s of %s", g+1, s.say(q.hi-q.lo), s.say(s.Windows[g]))
		}
	}
	return nil
}

// used checks the length claimed.
func used(s *Strip) *BoxFault {
	var top int64
	for _, l := range s.Laid {
		top = max(top, l.Y+l.H)
	}
	if top != s.Claimed {
		return fault(KindLength, "claimed %s, used %s", s.say(s.Claimed), s.say(top))
	}
	return nil
}
