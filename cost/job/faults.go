package job

import (
	"errors"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/unit"
)

// What can be wrong with a job, beside the sentinels of the other packages.
// Match with errors.Is.
var (
	// ErrEmpty says a job, or a piece of it, has nothing to make.
	ErrEmpty = errors.New("nothing to make")
	// ErrTwice says a name that must be unique stands twice.
	ErrTwice = errors.New("used twice")
	// ErrMisplaced says a field means nothing where it stands.
	ErrMisplaced = errors.New("does not belong here")
)

// Fault is one thing wrong with a job: a struct with
//
//	File string  the file, such as the shop file; empty for that of the job
//	Line int     of the file, from 1; 0 for a job that was not read from one
//	Err  error   what is wrong
//
// A *Fault is an error. It wraps an *unit.InputError, whose Field is a place in the
// words of the job file, such as pieces[1].panels[0].width.
type Fault = strictjson.Fault

// Faults is every fault found in a job, in the order of its file where it was
// read from one: a list of *Fault, and an error that errors.As finds. A file that cannot
// be read as JSON has no list, but one *Fault.
type Faults = strictjson.Faults

// faults gathers what one stage finds.
type faults []error

// add notes an error at a place; nil is none.
func (fs *faults) add(at unit.Path, err error) {
	if err != nil {
		*fs = append(*fs, unit.InField(at, err))
	}
}

// addAs notes an error of another package at a place, whatever field it names
// itself.
func (fs *faults) addAs(at unit.Path, err error) {
	var in *unit.InputError
	if errors.As(err, &in) {
		err = &unit.InputError{Value: in.Value, Err: in.Err, Want: in.Want}
	}
	fs.add(at, err)
}

// moved gives an error with its field at another place.
func moved(err error, place func(unit.Path) unit.Path) error {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return err
	}
	out := *in
	out.Field = place(in.Field)
	return &out
}

// under gives the faults with their places below another.
func (fs faults) under(at unit.Path) faults {
	var out faults
	for _, err := range fs {
		out.add(at, err)
	}
	return out
}

// misplaced notes a field that means nothing where it stands.
func (fs *faults) misplaced(at unit.Path, want string) {
	fs.add(at, check.Refuse("", "", ErrMisplaced, want))
}

// touch tells whether a fault lies at a place or below it.
func (fs faults) touch(at unit.Path) bool {
	return slices.ContainsFunc(fs, func(err error) bool {
		var in *unit.InputError
		return errors.As(err, &in) && in.Field.Under(at)
	})
}

// err gives the faults as one error, nil for none.
func (fs faults) err() error {
	if len(fs) == 0 {
		return nil
	}
	out := make(Faults, len(fs))
	for i, err := range fs {
		out[i] = &Fault{Err: err}
	}
	return out
}

// Limits of one job.
const (
	maxCount = 1000
	mostName = 120 // characters
	minSide  = unit.Inch / 16
	maxSide  = 400 * unit.Inch
)

// checkName refuses empty and endless names; what no text may hold, checkText does.
func checkName(s string) error {
	switch n := len([]rune(s)); {
	case strings.TrimSpace(s) == "":
		return check.Required("", "a name")
	case n > mostName:
		return check.Refuse("", s, unit.ErrRange, "at most 120 characters")
	}
	return nil
}

// checkCount accepts a count that may be left out.
func checkCount(n int) error { return check.Count("", n, 0, maxCount) }

// copies gives a count, which is 1 when it is left out.
func copies(n int) int { return max(n, 1) }

// checkSide accepts a measured side of a panel, cushion or block.
func checkSide(l unit.Length) error { return check.Length("", l, minSide, maxSide) }

// names lists the names of a run of constants.
func names[T interface {
	~uint8
	String() string
}](from, to T) []string {
	var out []string
	for v := from; v <= to; v++ {
		out = append(out, v.String())
	}
	return out
}
