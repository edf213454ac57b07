package rect

import (
	"fmt"
	"math"
	"slices"
)

// Turns is a set of turns about the axis of the goods. The zero value means Upright only.
type Turns uint8

// The four turns, anti-clockwise. Goods with a nap or a one-way pattern allow only Upright; a grain without direction
// allows HalfTurn as well; plain goods allow AnyTurn.
const (
	Upright          Turns = 1 << iota // as given
	QuarterTurn                        // 90 degrees: the upper side comes to lie on the left
	HalfTurn                           // 180 degrees
	ThreeQuarterTurn                   // 270 degrees
	AnyTurn          = Upright | QuarterTurn | HalfTurn | ThreeQuarterTurn
)

// Axes is a set of directions.
type Axes uint8

// X is across the strip, Y along it.
const (
	X Axes = 1 << iota
	Y
)

// Job is a set of rectangles to be laid on a strip. X runs across the strip from 0 to Width, Y along it from 0. All
// lengths are whole numbers of one unit of the caller's choice; widths and heights may use a fine unit (micrometres)
// as long as no sum of sides reaches 2^60.
type Job struct {
	Width     int64  // usable width of the strip, at least 1
	MaxLength int64  // the strip ends here; 0 means it does not
	Gap       int64  // least distance between two pieces, in X or in Y; edges and flaws need none
	Repeat    Repeat // pattern of the goods
	Flaws     []Flaw // areas no piece may touch
	Pieces    []Piece
	Groups    []Group
	Sets      []Set
}

// Set is a set of pieces whose motifs may be moved, all alike. [Stack] does; to [Solve] they lie where they are.
type Set struct {
	Moves Axes
	Step  int64 // by whole multiples of it; at least 1
}

// Repeat is the pattern of the goods: motifs at (OriginX + i PeriodX, OriginY + j PeriodY + drop) for whole i and j,
// where column i is raised by the drop, i (mod DropDen) times DropNum/DropDen of PeriodY, rounded down. A period of 0
// means the pattern does not repeat (binds nothing) in that direction.
type Repeat struct {
	PeriodX, PeriodY int64
	OriginX, OriginY int64
	DropNum, DropDen int64 // 1/2 is a half drop; 0 and 0 mean none. Needs both periods; DropDen at most 64
}

// Flaw is a rectangle of the goods that must not be used. One across the whole width is a band.
type Flaw struct{ X, Y, W, H int64 }

// Piece is a rectangle, or the bounding box of a panel, and how it may lie.
type Piece struct {
	W, H   int64 // size when Upright: across and along the strip
	Count  int   // number of copies, at least 1
	Turns  Turns // allowed turns
	Mirror bool  // the panel is the mirror image of its pattern; does not matter to its box, handed on to the plan
	// Match says in which directions a motif must lie on one of the piece's spots. Periods of 0 bind nothing. With a
	// drop, Y without X takes the motifs of any column.
	Match Axes
	Spots []Spot // none means the lower left corner
	// MovedX and MovedY are by how much the motifs are moved for this piece.
	MovedX, MovedY int64
	Set            int // 1 is Sets[0] and so on; 0 means none
	Group          int // 1 is Groups[0] and so on; 0 means none
	// Cells are the parts of the Upright box that the piece covers, for [Stack]; none means all of it.
	Cells []Cell
	// Split allows the piece to be joined from shorter segments; nil does not. Not with Match or Group.
	Split *Split
}

// Cell is a rectangle within the box of a piece, from its lower left corner.
type Cell struct{ X, Y, W, H int64 }

// Spot is a point of a piece that may lie on a motif, from its lower left corner when Upright; it may lie outside the
// piece.
type Spot struct {
	X, Y  int64
	Turns Turns // at which the spot holds; 0 means all
}

// MaxSpots is the most spots a piece may have.
const MaxSpots = 256

// Split says how a piece may be joined from segments.
type Split struct {
	Along     Axes  // the side that is divided, of the Upright piece: X or Y
	Allowance int64 // added to both segments at a seam
	Min       int64 // least finished length of a segment, at least 1
	MaxSeams  int   // most seams in the piece, 1 to 64
}

// Group is a set of pieces that must be cut from neighbouring places, for an even shade or matched seats.
type Group struct {
	Window int64 // all pieces of the group lie within this length of the strip
}

// InputError is a field of a job outside its range. Match it with errors.As.
type InputError struct {
	Field string // such as "Pieces[3].W"
	Value int64
	Want  string // the accepted range
}

func (e *InputError) Error() string {
	return fmt.Sprintf("rect: %s is %d, want %s", e.Field, e.Value, e.Want)
}

// MaxPieces is the most copies a job may have in all.
const MaxPieces = 20_000

// maxCoord bounds every number of a job and the sums of sides.
const maxCoord = int64(1) << 60

// Validate reports the first field outside its range as an *InputError.
func (j *Job) Validate() error {
	bad := func(field string, v int64, want string) error { return &InputError{field, v, want} }
	if j.Width < 1 || j.Width >= maxCoord {
		return bad("Width", j.Width, "1 to 2^60-1")
	}
	if j.MaxLength < 0 || j.MaxLength >= maxCoord {
		return bad("MaxLength", j.MaxLength, "0 to 2^60-1")
	}
	if j.Gap < 0 || j.Gap >= maxCoord>>20 {
		return bad("Gap", j.Gap, "0 to 2^40-1")
	}
	if err := j.Repeat.validate(); err != nil {
		return err
	}
	for i, f := range j.Flaws {
		name := func(s string) string { return fmt.Sprintf("Flaws[%d].%s", i, s) }
		switch {
		case f.X <= -maxCoord || f.X >= maxCoord:
			return bad(name("X"), f.X, "within 2^60")
		case f.Y <= -maxCoord || f.Y >= maxCoord:
			return bad(name("Y"), f.Y, "within 2^60")
		case f.W < 1 || f.W >= maxCoord:
			return bad(name("W"), f.W, "1 to 2^60-1")
		case f.H < 1 || f.H >= maxCoord:
			return bad(name("H"), f.H, "1 to 2^60-1")
		}
	}
	for i, f := range j.Sets {
		if f.Moves > X|Y || f.Step < 1 || f.Step >= maxCoord>>20 {
			return bad(fmt.Sprintf("Sets[%d].Step", i), f.Step, "1 to 2^40-1, and a set of X and Y")
		}
	}
	for i, g := range j.Groups {
		if g.Window < 1 || g.Window >= maxCoord {
			return bad(fmt.Sprintf("Groups[%d].Window", i), g.Window, "1 to 2^60-1")
		}
	}
	if len(j.Pieces) == 0 {
		return bad("len(Pieces)", 0, "at least 1")
	}
	total, sides := 0, int64(0)
	for i := range j.Pieces {
		if err := j.piece(i); err != nil {
			return err
		}
		p := &j.Pieces[i]
		if total += p.Count; p.Count > MaxPieces || total > MaxPieces {
			return bad(fmt.Sprintf("Pieces[%d].Count", i), int64(p.Count), fmt.Sprintf("at most %d pieces in all", MaxPieces))
		}
		room := max(p.W, p.H) + j.Gap + max(j.Repeat.PeriodX, j.Repeat.PeriodY)
		if room > (maxCoord-sides)/int64(p.Count) {
			return bad(fmt.Sprintf("Pieces[%d].H", i), p.H, "sum of all sides and repeats below 2^60")
		}
		sides += room * int64(p.Count)
	}
	for _, f := range j.Flaws {
		if e := f.Y + f.H; e >= maxCoord {
			return bad("Flaws", e, "ends below 2^60")
		}
	}
	return nil
}

func (r *Repeat) validate() error {
	bad := func(field string, v int64, want string) error { return &InputError{"Repeat." + field, v, want} }
	const most = maxCoord >> 20
	switch {
	case r.PeriodX < 0 || r.PeriodX >= most:
		return bad("PeriodX", r.PeriodX, "0 to 2^40-1")
	case r.PeriodY < 0 || r.PeriodY >= most:
		return bad("PeriodY", r.PeriodY, "0 to 2^40-1")
	case r.OriginX <= -most || r.OriginX >= most:
		return bad("OriginX", r.OriginX, "within 2^40")
	case r.OriginY <= -most || r.OriginY >= most:
		return bad("OriginY", r.OriginY, "within 2^40")
	case r.DropDen == 0 && r.DropNum != 0:
		return bad("DropDen", r.DropDen, "1 to 64 with a drop")
	case r.DropDen < 0 || r.DropDen > 64:
		return bad("DropDen", r.DropDen, "0 to 64")
	case r.DropNum < 0 || r.DropDen > 0 && r.DropNum >= r.DropDen:
		return bad("DropNum", r.DropNum, "0 to DropDen-1")
	case r.DropNum > 0 && (r.PeriodX == 0 || r.PeriodY == 0):
		return bad("DropNum", r.DropNum, "0 without both periods")
	}
	return nil
}

func (j *Job) piece(i int) error {
	p := &j.Pieces[i]
	bad := func(s string, v int64, want string) error {
		return &InputError{fmt.Sprintf("Pieces[%d].%s", i, s), v, want}
	}
	switch {
	case p.W < 1 || p.W >= maxCoord:
		return bad("W", p.W, "1 to 2^60-1")
	case p.H < 1 || p.H >= maxCoord:
		return bad("H", p.H, "1 to 2^60-1")
	case p.Count < 1:
		return bad("Count", int64(p.Count), "at least 1")
	case p.Turns > AnyTurn:
		return bad("Turns", int64(p.Turns), "a set of the four turns")
	case p.Match > X|Y:
		return bad("Match", int64(p.Match), "a set of X and Y")
	case len(p.Spots) > MaxSpots:
		return bad("len(Spots)", int64(len(p.Spots)), "at most 256")
	case p.Set < 0 || p.Set > len(j.Sets):
		return bad("Set", int64(p.Set), fmt.Sprintf("0 to %d", len(j.Sets)))
	case slices.ContainsFunc(p.Cells, func(c Cell) bool {
		return c.X < 0 || c.Y < 0 || c.W < 1 || c.H < 1 || c.X > p.W-c.W || c.Y > p.H-c.H
	}):
		return bad("Cells", int64(len(p.Cells)), "cells within the piece")
	case p.Group < 0 || p.Group > len(j.Groups):
		return bad("Group", int64(p.Group), fmt.Sprintf("0 to %d", len(j.Groups)))
	}
	if err := j.spots(i); err != nil {
		return err
	}
	s := p.Split
	if s == nil {
		if len(j.lays(p, p.W, p.H)) > 0 {
			return nil
		}
		if j.MaxLength > 0 && min(p.W, p.H) <= j.Width {
			return bad("H", p.H, "a size that fits the strip in an allowed turn")
		}
		return bad("W", p.W, "at most the width of the strip in an allowed turn")
	}
	side := p.H
	if s.Along == X {
		side = p.W
	}
	switch {
	case p.Match != 0:
		return bad("Match", int64(p.Match), "none for a piece that may be joined")
	case p.Group != 0:
		return bad("Group", int64(p.Group), "0 for a piece that may be joined")
	case s.Along != X && s.Along != Y:
		return bad("Split.Along", int64(s.Along), "X or Y")
	case s.Allowance < 0 || s.Allowance >= maxCoord>>20:
		return bad("Split.Allowance", s.Allowance, "0 to 2^40-1")
	case s.Min < 1 || s.Min > side:
		return bad("Split.Min", s.Min, "1 to the side that is divided")
	case s.MaxSeams < 1 || s.MaxSeams > 64:
		return bad("Split.MaxSeams", int64(s.MaxSeams), "1 to 64")
	}
	if len(j.divisions(p)) == 0 {
		return bad("Split.MaxSeams", int64(s.MaxSeams), "enough seams of the given allowance for segments that fit the strip")
	}
	return nil
}

// spots checks the spots of a piece: some allowed turn must have one.
func (j *Job) spots(i int) error {
	p := &j.Pieces[i]
	for _, m := range []struct {
		name  string
		value int64
	}{{"MovedX", p.MovedX}, {"MovedY", p.MovedY}} {
		if m.value <= -maxCoord>>20 || m.value >= maxCoord>>20 {
			return &InputError{fmt.Sprintf("Pieces[%d].%s", i, m.name), m.value, "within 2^40"}
		}
	}
	holds := len(p.Spots) == 0
	for k, q := range p.Spots {
		name := func(s string) string { return fmt.Sprintf("Pieces[%d].Spots[%d].%s", i, k, s) }
		switch {
		case q.X <= -maxCoord>>20 || q.X >= maxCoord>>20:
			return &InputError{name("X"), q.X, "within 2^40"}
		case q.Y <= -maxCoord>>20 || q.Y >= maxCoord>>20:
			return &InputError{name("Y"), q.Y, "within 2^40"}
		case q.Turns > AnyTurn:
			return &InputError{name("Turns"), int64(q.Turns), "a set of the four turns"}
		}
		for _, t := range p.turns() {
			holds = holds || q.holds(t)
		}
	}
	if !holds {
		return &InputError{fmt.Sprintf("Pieces[%d].Spots", i), int64(len(p.Spots)), "a spot that holds at an allowed turn"}
	}
	return nil
}

// turns lists the allowed turns.
func (p *Piece) turns() []Turns {
	if p.Turns == 0 {
		return []Turns{Upright}
	}
	var ts []Turns
	for t := Upright; t <= ThreeQuarterTurn; t <<= 1 {
		if p.Turns&t != 0 {
			ts = append(ts, t)
		}
	}
	return ts
}

// quarter reports whether the turn exchanges width and height.
func (t Turns) quarter() bool { return t == QuarterTurn || t == ThreeQuarterTurn }

// size is the width and height of the piece after a turn.
func (p *Piece) size(t Turns) (w, h int64) {
	if t.quarter() {
		return p.H, p.W
	}
	return p.W, p.H
}

// holds reports whether the spot may lie on a motif at a turn.
func (q Spot) holds(t Turns) bool { return q.Turns == 0 || q.Turns&t != 0 }

// turned is a spot of the piece after a turn, from the lower left corner of the turned piece.
func (p *Piece) turned(q Spot, t Turns) (x, y int64) {
	switch t {
	case QuarterTurn:
		return p.H - q.Y, q.X
	case HalfTurn:
		return p.W - q.X, p.H - q.Y
	case ThreeQuarterTurn:
		return q.Y, p.W - q.X
	}
	return q.X, q.Y
}

// raise is the drop of column class c.
func (r *Repeat) raise(c int64) int64 {
	if r.DropNum == 0 {
		return 0
	}
	return c * r.DropNum * r.PeriodY / r.DropDen // below 2^6 2^6 2^40
}

// ceilTo returns the least value of at least v that is r modulo period.
func ceilTo(v, r, period int64) int64 {
	d := (r - v) % period
	if d < 0 {
		d += period
	}
	return v + d
}

// DefaultEffort is the effort used when Options.Effort is 0: a tenth of a second or so on two cores.
const DefaultEffort = 0.1

// unitsPerEffort is the work per worker for effort 1. A unit is about 2 ns of one core.
const unitsPerEffort = 5e8

// Options steer a search. The zero value is useful.
type Options struct {
	// Effort is the work to spend: 1 is about a second of two cores, 10 about ten. Work is counted in steps of the
	// algorithm, never in time, so equal effort gives equal results on every machine. 0 means DefaultEffort; the
	// range is 0.0001 to 100000.
	Effort float64
	// Seed chooses the random numbers. Equal jobs, seeds and efforts give equal plans.
	Seed uint64
	// AtOnce is how many of the searches side by side may work at the same time, so that a server can keep to fewer
	// cores; 0 is all of them. Results do not depend on it.
	AtOnce int
	// Progress is called now and then, from the goroutine that called Solve. Nil is allowed.
	Progress func(Progress)
}

func (o *Options) validate() (float64, error) {
	e := o.Effort
	if e == 0 {
		e = DefaultEffort
	}
	if math.IsNaN(e) || e < 0.0001 || e > 100000 {
		return 0, fmt.Errorf("rect: Options.Effort is %v, want 0 or 0.0001 to 100000", o.Effort)
	}
	return e, nil
}

// Progress is the state of a running search.
type Progress struct {
	Done   float64 // share of the effort spent, 0 to 1
	Length int64   // best length so far
	Bound  int64   // proved lower bound
}

// Placed is a piece, or a segment of one, on the strip.
type Placed struct {
	Piece    int   // index into Job.Pieces
	Copy     int   // 0 to Count-1
	Segment  int   // 0 for a whole piece; segments of a joined piece count from 0
	Segments int   // 1 for a whole piece
	X, Y     int64 // lower left corner
	W, H     int64 // size as laid
	Turn     Turns
	Mirror   bool
}

// Seam is a seam of a piece that was joined.
type Seam struct {
	Piece, Copy int
	At          int64 // distance from the start of the finished piece along the divided side
}

// Plan is a layout.
type Plan struct {
	Length int64    // length of strip used: the upper side of the highest piece
	Bound  int64    // no layout can be shorter
	Placed []Placed // by piece, copy and segment
	Seams  []Seam   // by piece, copy and place
	// Moved is by how much the motifs of each set are moved, besides MovedX and MovedY of its pieces.
	Moved [][2]int64
	// Proved says that no shorter layout exists. For joined pieces it refers to all ways to divide them.
	Proved  bool
	Work    int64 // steps spent, of all workers
	Stopped bool  // the context ended the search early
}
