package job

import (
	"context"
	"errors"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Options steer how a job is worked out. The zero value is useful.
type Options struct {
	// Effort is the work spent on all cutting layouts of the job together, those
	// of its options included, counted in steps and not in time: 1 is about a
	// second of two cores. It is shared out among the layouts; none gets less
	// than it needs to start. What is laid on goods at hand takes as much again as its
	// layout without them. Zero takes 1. From 0.0001 to 100 000.
	Effort unit.Ratio
	// NoMatching leaves out what it costs to match patterned goods, which takes as
	// much effort again as their layouts.
	NoMatching bool
	// Seed chooses the random numbers of the layout search.
	Seed uint64
	// Workers is how many searches may work at the same time, so that a server
	// can keep a job to fewer cores: 1 is one core. Zero is all, which are two.
	// The order does not depend on it. From 0 to 64.
	Workers int
	// Progress is called now and then while layouts are made, from one
	// goroutine at a time; nil is allowed.
	Progress func(Progress)
}

func (o Options) check(ctx context.Context) error {
	var f faults
	if ctx == nil {
		f.add("ctx", check.Required("", "a context such as context.Background()"))
	}
	if o.Effort != 0 {
		var in *unit.InputError
		if errors.As(check.Ratio("", o.Effort, 0.0001, 100_000), &in) { // told as the number it is, not as a share
			f.add("effort", check.Refuse("", strconv.FormatFloat(float64(o.Effort), 'g', -1, 64), in.Err, "from 0.0001 to 100000"))
		}
	}
	f.add("workers", check.Count("", o.Workers, 0, 64))
	return f.err()
}

// Progress is the state of the layouts of a job.
type Progress struct {
	Done   unit.Ratio // share of all layouts
	Layout string     // the goods being laid out
	State  string     // how far their layout has come, such as "9.25 yd" or "2 hides"; may be empty
}
