package layout

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/internal/pack/rect"
	"github.com/coverwright/coverwright/unit"
)

// Options steer [Solve]. The zero value is useful.
type Options struct {
	// Effort is the work that each engine which can win may spend, counted in
	// steps, never in time, so that the same effort gives the same plan on every
	// machine: 1 is about a second of two cores. Zero takes 1. From 0.0001 to
	// 10 000; nesting takes 0.02 at least.
	Effort unit.Ratio
	// Seed chooses the random numbers of the search.
	Seed uint64
	// Workers is how many searches may work at the same time, so that a server
	// can keep to fewer cores: 1 is one core. Zero is all, which are two. The
	// plan does not depend on it. From 0 to 64.
	Workers int
	// Tolerance is how far a curved outline may be drawn outside its true
	// curve (inside, for the border of a hide), so that true curves never
	// overlap; the point of a sharp corner up to four times. Zero takes
	// DefaultTolerance; from 0.1 mm to 5 mm. Straight outlines are taken
	// as they are, or a micrometre larger when they may be turned freely.
	Tolerance unit.Length
	// OffcutShort and OffcutLong are the sides of the least rectangle of a hide
	// worth keeping; zero takes 6 in. From 1 in.
	OffcutShort unit.Length
	OffcutLong  unit.Length
	// Progress is called now and then with the state of the search; nil is
	// allowed.
	Progress func(Progress)
}

// DefaultTolerance is the tolerance of curved outlines in a plan where none
// is given.
const DefaultTolerance = unit.Millimetre / 2

// Progress is the state of a running search.
type Progress struct {
	Done   unit.Ratio  `json:"done"`            // share of the effort spent
	Placed int         `json:"placed,omitzero"` // pieces that have a place, where outlines are laid
	Hides  int         `json:"hides,omitzero"`  // hides in use; zero on a roll
	Need   unit.Length `json:"need,omitzero"`   // best length so far; zero on hides
	Bound  unit.Length `json:"bound,omitzero"`  // of a roll; zero while it is not known
}

// The least effort that nesting takes.
const leastNest unit.Ratio = 0.02

func (o Options) checked() (Options, error) {
	if o.Effort == 0 {
		o.Effort = 1
	}
	if err := check.Ratio("effort", o.Effort, 0.0001, 10_000); err != nil {
		return o, err
	}
	if err := check.Count("workers", o.Workers, 0, 64); err != nil {
		return o, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = DefaultTolerance
	}
	if err := check.Length("tolerance", o.Tolerance, unit.Millimetre/10, 5*unit.Millimetre); err != nil {
		return o, err
	}
	for _, s := range []struct {
		field string
		l     *unit.Length
	}{{"offcut_short", &o.OffcutShort}, {"offcut_long", &o.OffcutLong}} {
		if *s.l == 0 {
			*s.l = 6 * unit.Inch
		}
		if err := check.Length(s.field, *s.l, unit.Inch, 10*unit.Metre); err != nil {
			return o, err
		}
	}
	return o, nil
}

// rect gives the options to the engine of rectangles.
func (o Options) rect() rect.Options {
	e := rect.Options{Effort: float64(o.Effort), Seed: o.Seed, AtOnce: o.Workers}
	if o.Progress != nil {
		e.Progress = func(p rect.Progress) {
			o.Progress(Progress{Done: unit.Ratio(p.Done), Need: unit.Length(p.Length), Bound: unit.Length(p.Bound)})
		}
	}
	return e
}

// nest gives the options to the nesting engine, whose effort counts other steps.
func (o Options) nest(step int64, gap unit.Length) nest.Options {
	effort := max(o.Effort, leastNest)
	e := nest.Options{Seed: o.Seed, AtOnce: o.Workers, Effort: max(1, int(math.Round(float64(effort)*nest.DefaultEffort))), Gap: (int64(gap) + step - 1) / step}
	if o.Progress != nil {
		e.Progress = func(p nest.Progress) {
			o.Progress(Progress{Done: unit.Ratio(float64(p.Work) / float64(max(p.Budget, 1))), Placed: p.Placed,
				Hides: p.Hides, Need: unit.Length(p.Length * step)})
		}
	}
	return e
}

// part gives the options of one engine of several: its progress is that part
// of the whole.
func (o Options) part(from, to unit.Ratio) Options {
	if tell := o.Progress; tell != nil {
		o.Progress = func(p Progress) {
			p.Done = from + unit.Ratio((to-from)*p.Done)
			tell(p)
		}
	}
	return o
}
