package nest

import (
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// Sentinels wrapped by InputError.
var (
	// ErrRing marks an outline without area, crossing itself, or out of
	// range.
	ErrRing = errors.New("outline not usable")
	// ErrRange marks a number outside its accepted range.
	ErrRange = errors.New("value out of range")
	// ErrNoRoom marks a piece that fits in none of the containers.
	ErrNoRoom = errors.New("piece does not fit")
	// ErrEmpty marks a job without pieces or without containers.
	ErrEmpty = errors.New("nothing to place")
)

// InputError says which field was refused, its value and why.
type InputError struct {
	Field string // for example "piece 3 (arm): ring"
	Value string
	Why   string
	Err   error // one of the sentinels
}

func (e *InputError) Error() string {
	return fmt.Sprintf("nest: %s = %s: %s: %v", e.Field, e.Value, e.Why, e.Err)
}

// Unwrap returns the sentinel.
func (e *InputError) Unwrap() error { return e.Err }

// Turn says how a piece may be turned from the position it is given in.
// The zero value forbids turning.
type Turn struct {
	angles []Angle
	tol    Angle
	any    bool
}

// TurnSet allows exactly the listed angles; an empty list means 0 only.
func TurnSet(angles ...Angle) Turn {
	t := Turn{}
	for _, a := range angles {
		t.angles = append(t.angles, a.norm())
	}
	slices.Sort(t.angles)
	t.angles = slices.Compact(t.angles)
	return t
}

// TurnAny allows every angle.
func TurnAny() Turn { return Turn{any: true} }

// TurnAround allows the listed angles give or take tol, for example the
// grain direction within 10 degrees.
func TurnAround(tol Angle, angles ...Angle) Turn {
	t := TurnSet(angles...)
	if tol < 0 {
		tol = -tol
	}
	t.tol = tol
	if tol >= fullTurn/2 {
		t.any = true
	}
	return t
}

func (t Turn) list() []Angle {
	if len(t.angles) == 0 {
		return []Angle{0}
	}
	return t.angles
}

const tooThin = "turned and rounded to whole units the outline crosses itself; use a finer unit"

// whole leaves out the angles at which the rounded outline is no longer
// simple: only outlines a few units thin somewhere have such angles.
func (t Turn) whole(name string, r geom.Ring, m Mirroring) (Turn, error) {
	if !t.discrete() || roomy(r) {
		return t, nil
	}
	good := Turn{}
	for _, a := range t.list() {
		if a%(90*Degree) == 0 || !slices.ContainsFunc(mirrors(m), func(b bool) bool { return !whole(turned(r, a, b)) }) {
			good.angles = append(good.angles, a)
		}
	}
	if len(good.angles) == 0 {
		return t, &InputError{name + ": turn", fmt.Sprintf("%v degrees", t.list()[0].Degrees()),
			tooThin, ErrRing}
	}
	return good, nil
}

func (t Turn) discrete() bool { return !t.any && t.tol == 0 }

// Mirroring says whether a piece may lie face down.
type Mirroring int

// Mirroring rules; the zero value forbids mirroring.
const (
	NeverMirrored Mirroring = iota
	MayMirror
	AlwaysMirrored // the second of a mirrored pair
)

// MostKinds bounds the kinds of zones of a job.
const MostKinds = 512

// Kinds is a set of kinds of zones, from 0 to MostKinds-1. The zero value is
// empty.
type Kinds [MostKinds / 64]uint64

// KindsOf gives the set of some kinds.
func KindsOf(kinds ...int) Kinds {
	var s Kinds
	for _, k := range kinds {
		s = s.With(k)
	}
	return s
}

// With gives the set with one kind more.
func (s Kinds) With(kind int) Kinds {
	s[kind/64] |= 1 << (kind % 64)
	return s
}

// Has reports whether a kind is in the set.
func (s Kinds) Has(kind int) bool { return s[kind/64]&(1<<(kind%64)) != 0 }

// within reports whether every kind of s is in t.
func (s Kinds) within(t Kinds) bool {
	for i, w := range s {
		if w&^t[i] != 0 {
			return false
		}
	}
	return true
}

// list gives the kinds in rising order.
func (s Kinds) list() []int {
	var out []int
	for k := range MostKinds {
		if s.Has(k) {
			out = append(out, k)
		}
	}
	return out
}

// Phase ties a coordinate of the anchor to a repeat: the anchor lies at
// At plus a whole multiple of Every. Every 0 means free.
type Phase struct{ Every, At int64 }

// Piece is one outline to be placed Count times (0 counts as 1).
type Piece struct {
	ID     string
	Ring   geom.Ring
	Count  int
	Turn   Turn
	Mirror Mirroring
	// Takes are the kinds of zones that the piece may lie on; on no zone at all
	// for the zero value. Hides only.
	Takes Kinds
	// Anchor is the match point, in the coordinates of Ring. It follows
	// the piece when it is turned.
	Anchor         geom.Point
	PhaseX, PhaseY Phase // strips only; X runs along the roll
	// Falls move PhaseX from one column of PhaseY to the next: in column k,
	// counted from PhaseY.At, it starts at PhaseX.At + Falls[k modulo their
	// number]. Nil: every column is alike.
	Falls []int64
}

// along is the phase along the roll of an anchor that lies at y.
func (p *Piece) along(y int64) Phase {
	ph := p.PhaseX
	if n := int64(len(p.Falls)); n > 0 {
		k := floorDiv(y-p.PhaseY.At, p.PhaseY.Every)
		ph.At += p.Falls[k-floorDiv(k, n)*n]
	}
	return ph
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// mostFlaws is the largest number of flaws of a roll.
const mostFlaws = 100

// checkedFlaws returns what of the flaws lies on a roll of a width.
func checkedFlaws(flaws []geom.Box, width int64) ([]geom.Box, error) {
	if len(flaws) > mostFlaws {
		return nil, &InputError{"flaws", fmt.Sprint(len(flaws)), fmt.Sprintf("want at most %d", mostFlaws), ErrRange}
	}
	var out []geom.Box
	for i, f := range flaws {
		for _, v := range []int64{f.Min.X, f.Min.Y, f.Max.X, f.Max.Y} {
			if !inRange(v) {
				return nil, &InputError{fmt.Sprintf("flaw %d", i), fmt.Sprint(f), "coordinates stay below 2^30", ErrRange}
			}
		}
		if f.Min.X > f.Max.X || f.Min.Y > f.Max.Y {
			return nil, &InputError{fmt.Sprintf("flaw %d", i), fmt.Sprint(f), "want Min at or below Max", ErrRange}
		}
		f.Min.X, f.Min.Y, f.Max.Y = max(f.Min.X, 0), max(f.Min.Y, 0), min(f.Max.Y, width)
		if f.Min.X < f.Max.X && f.Min.Y < f.Max.Y {
			out = append(out, f)
		}
	}
	return out, nil
}

// Zone is a region of the ground of one kind, which only the pieces that take
// the kind may lie on.
type Zone struct {
	Kind int // from 0 to MostKinds-1
	Ring geom.Ring
}

// Hide is a container of any outline.
type Hide struct {
	ID    string
	Outer geom.Ring
	Holes []geom.Ring
	Zones []Zone
	// Cost ranks equal numbers of hides; if every hide has cost 0 the net
	// area is used.
	Cost int64
}

// Placement is one placed piece. Ring is the outline where it lies:
// mirrored across the Y axis if asked, turned about the origin by Angle,
// each corner rounded once, then moved by At.
type Placement struct {
	Piece    int // index into the pieces of the job
	Copy     int // 0 .. Count-1
	Hide     int // index into the hides of the job; 0 on a strip
	Angle    Angle
	Mirrored bool
	At       geom.Point
	Ring     geom.Ring
}

// Progress is handed to the callback of Options between rounds.
type Progress struct {
	Work, Budget int64 // work units done and allowed
	Length       int64 // best strip so far, 0 on hides
	Hides        int   // best number of hides so far, 0 on a strip
	Placed       int
}

// Options steer the search. The zero value is useful.
type Options struct {
	Seed uint64
	// Effort is the work budget per worker, in units of about a million
	// elementary steps, 0 for DefaultEffort. It is not time: equal effort
	// gives equal bytes on every machine.
	Effort int
	// Workers is the number of searches side by side, 0 for 2. The result
	// depends on it, but not on the processors of the machine.
	Workers int
	// AtOnce is how many of them may work at the same time, 0 for all. The
	// result does not depend on it.
	AtOnce int
	// Gap is the least distance between pieces (knife margin).
	Gap int64
	// Progress, if not nil, is called from one goroutine at a time.
	Progress func(Progress)
}

// DefaultEffort suits an interactive call: about a second on two cores.
const DefaultEffort = 60

const maxPieces = 5000

func (o Options) checked() (Options, error) {
	if o.Effort < 0 || o.Effort > 1<<30 {
		return o, &InputError{"effort", fmt.Sprint(o.Effort), "want 0 .. 2^30", ErrRange}
	}
	if o.Workers < 0 || o.Workers > 64 {
		return o, &InputError{"workers", fmt.Sprint(o.Workers), "want 0 .. 64", ErrRange}
	}
	if o.Gap < 0 || o.Gap >= MaxCoord/4 {
		return o, &InputError{"gap", fmt.Sprint(o.Gap), "want 0 .. 2^28", ErrRange}
	}
	if o.Effort == 0 {
		o.Effort = DefaultEffort
	}
	if o.Workers == 0 {
		o.Workers = 2
	}
	return o, nil
}

// checkedRing returns the tidy ring or says what is wrong with it.
func checkedRing(field string, r geom.Ring) (geom.Ring, error) {
	if len(r) < 3 {
		return nil, &InputError{field, fmt.Sprintf("%d corners", len(r)), "want at least 3", ErrRing}
	}
	if len(r) > 20000 {
		return nil, &InputError{field, fmt.Sprintf("%d corners", len(r)), "want at most 20000", ErrRing}
	}
	for _, p := range r {
		if !inRange(p.X) || !inRange(p.Y) {
			return nil, &InputError{field, fmt.Sprintf("(%d, %d)", p.X, p.Y), "coordinates stay below 2^30", ErrRange}
		}
	}
	t := r.Tidy()
	if len(t) < 3 || twiceArea(t) == 0 {
		return nil, &InputError{field, fmt.Sprintf("%d corners", len(r)), "encloses no area", ErrRing}
	}
	if i, j, bad := t.FindCrossing(); bad {
		return nil, &InputError{field, fmt.Sprintf("edges at (%d, %d) and (%d, %d)", t[i].X, t[i].Y, t[j].X, t[j].Y),
			"the outline crosses itself", ErrRing}
	}
	return t, nil
}

// checkedPieces returns copies of the pieces with tidy rings and counts.
func checkedPieces(pieces []Piece) ([]Piece, error) {
	if len(pieces) == 0 {
		return nil, &InputError{"pieces", "0", "want at least one", ErrEmpty}
	}
	out := slices.Clone(pieces)
	total := 0
	for i := range out {
		p := &out[i]
		name := fmt.Sprintf("piece %d (%s)", i, p.ID)
		r, err := checkedRing(name+": ring", p.Ring)
		if err != nil {
			return nil, err
		}
		p.Ring = r
		if p.Mirror < NeverMirrored || p.Mirror > AlwaysMirrored {
			return nil, &InputError{name + ": mirror", fmt.Sprint(int(p.Mirror)), "not a mirroring rule", ErrRange}
		}
		if len(p.Turn.angles) > 720 {
			return nil, &InputError{name + ": turn", fmt.Sprint(len(p.Turn.angles)), "want at most 720 angles", ErrRange}
		}
		if p.Turn, err = p.Turn.whole(name, r, p.Mirror); err != nil {
			return nil, err
		}
		if p.Count < 0 {
			return nil, &InputError{name + ": count", fmt.Sprint(p.Count), "want 0 or more", ErrRange}
		}
		if p.Count == 0 {
			p.Count = 1
		}
		total += p.Count
		if p.Count > maxPieces || total > maxPieces {
			return nil, &InputError{name + ": count", fmt.Sprint(total), fmt.Sprintf("want at most %d pieces in all", maxPieces), ErrRange}
		}
		if !inRange(p.Anchor.X) || !inRange(p.Anchor.Y) {
			return nil, &InputError{name + ": anchor", fmt.Sprint(p.Anchor), "coordinates stay below 2^30", ErrRange}
		}
		for _, ph := range []Phase{p.PhaseX, p.PhaseY} {
			if ph.Every < 0 || ph.Every >= MaxCoord || !inRange(ph.At) {
				return nil, &InputError{name + ": phase", fmt.Sprint(ph), "want 0 .. 2^30", ErrRange}
			}
		}
		if n := len(p.Falls); n > 0 && (p.PhaseX.Every == 0 || p.PhaseY.Every == 0 || n > 1000) {
			return nil, &InputError{name + ": falls", fmt.Sprint(n), "want a repeat both ways and at most 1000 falls", ErrRange}
		}
		for _, f := range p.Falls {
			if !inRange(f) {
				return nil, &InputError{name + ": falls", fmt.Sprint(f), "want less than 2^30", ErrRange}
			}
		}
	}
	return out, nil
}
