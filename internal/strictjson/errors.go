package strictjson

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// What can be wrong with a file as a whole, or with the shape of a value.
var (
	// ErrTooLarge says the file is larger than any job.
	ErrTooLarge = errors.New("file too large")
	// ErrTooDeep says brackets nest deeper than any job.
	ErrTooDeep = errors.New("nested too deep")
	// ErrMalformed says the text is not JSON.
	ErrMalformed = errors.New("not valid JSON")
	// ErrUnknownField says a field has no meaning here.
	ErrUnknownField = errors.New("unknown field")
	// ErrTwice says a field stands twice in one object.
	ErrTwice = errors.New("field stands twice")
	// ErrMoreFaults says that the list of faults was cut short.
	ErrMoreFaults = errors.New("more faults, not listed")
	// ErrWrongType says a value has the wrong shape, such as a number where
	// text with a unit is due.
	ErrWrongType = errors.New("wrong kind of value")
)

// Fault is one thing wrong with a file. It wraps an *unit.InputError, which
// names the field.
type Fault struct {
	File string // such as shop file; empty for the file that was asked for
	Line int    // from 1; 0 when not known
	Err  error
}

// Error gives "line 12: field: what is wrong", after "in the shop file, " where it
// is in that.
func (f *Fault) Error() string {
	text := f.Err.Error()
	if f.Line != 0 {
		text = fmt.Sprintf("line %d: %s", f.Line, text)
	}
	if f.File != "" {
		text = "in the " + f.File + ", " + text
	}
	return text
}

// Unwrap gives the error behind the line number.
func (f *Fault) Unwrap() error { return f.Err }

// maxFaults bounds the list of faults: a hostile file has millions.
const maxFaults = 100

// Faults is every fault found, in the order of the file. After 100 the list
// ends with a Fault that wraps ErrMoreFaults.
type Faults []*Fault

// Sort puts faults in the order of their files, the one that was asked for first.
func (fs Faults) Sort() {
	slices.SortStableFunc(fs, func(a, b *Fault) int { return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line)) })
}

// Error gives one fault a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.Is and errors.As look at every fault.
func (fs Faults) Unwrap() []error {
	out := make([]error, len(fs))
	for i, f := range fs {
		out[i] = f
	}
	return out
}

func input(field unit.Path, value string, err error, want string) error {
	return &unit.InputError{Field: field, Value: value, Err: err, Want: want}
}
