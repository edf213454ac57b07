package allowance

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Finish is what becomes of one edge of a panel: [PlainSeam], [TopStitchedSeam],
// [WeltedSeam], [BoxedSeam], [ZipSeam], [TurnedUnder], [PullOver], [SingleHem],
// [DoubleHem], [Fold] or [Raw]. The zero value is a plain seam, the commonest
// edge.
type Finish uint8

const (
	// PlainSeam joins two panels face to face with one row of stitches.
	PlainSeam Finish = iota
	// TopStitchedSeam is a plain seam opened or laid over and stitched down flat.
	TopStitchedSeam
	// WeltedSeam has a covered cord sewn between the panels.
	WeltedSeam
	// BoxedSeam joins a plate to its boxing strip.
	BoxedSeam
	// ZipSeam holds one tape of a zip.
	ZipSeam
	// TurnedUnder is folded under at the finished line and stapled or tacked.
	TurnedUnder
	// PullOver is pulled over a rail and stapled or tacked on its far face.
	PullOver
	// SingleHem is folded once and stitched.
	SingleHem
	// DoubleHem is folded twice, so that the raw edge lies inside.
	DoubleHem
	// Fold is no edge at all: the goods run on round the corner.
	Fold
	// Raw is cut on the finished line and left so.
	Raw
)

// finishes is the one table of names and default allowances.
var finishes = [...]struct {
	name      string
	allowance unit.Length
	sewn      bool // stitches run along the edge
	seam      bool // the edge is joined to another panel or to a zip
	basis     cite.Basis
}{
	PlainSeam: {"plain seam", unit.Inch / 2, true, true,
		specified("A-A-52109", "1/2 in from the edge to the stitches, for tubing of burlap")},
	TopStitchedSeam: {"top-stitched seam", unit.Inch / 2, true, true,
		cite.Basis{Status: cite.CommonPractice, Note: "as a plain seam"}},
	WeltedSeam: {"welted seam", unit.Inch / 2, true, true,
		cite.Basis{Status: cite.CommonPractice, Note: "as the tail of the welt"}},
	BoxedSeam: {"boxed seam", unit.Inch / 2, true, true,
		cite.Basis{Status: cite.CommonPractice, Note: "as a plain seam"}},
	ZipSeam: {"zip seam", 3 * unit.Inch / 4, true, true,
		cite.Basis{Status: cite.CommonPractice, Note: "3/4 in each side of the zip, so that the cloth covers the teeth; 1/2 in is in use too"}},
	TurnedUnder: {"turned under and stapled", unit.Inch / 2, false, false,
		cite.Basis{Status: cite.CommonPractice, Note: "about 1/2 in beyond the edge to fold under"}},
	PullOver: {"pull-over", unit.Inch, false, false,
		cite.Basis{Status: cite.CommonPractice, Note: "about 1 in beyond the rail to pull and staple"}},
	SingleHem: {"single hem", unit.Inch, true, false,
		cite.Basis{Status: cite.CommonPractice, Note: "one fold of 1 in"}},
	DoubleHem: {"double hem", 3 * unit.Inch / 2, true, false,
		cite.Basis{Status: cite.Derived, Source: "FM-10-16", Note: "canvas: 1/2 in turned under and a 1 in hem"}},
	Fold: {"fold", 0, false, false,
		cite.Basis{Status: cite.Derived, Note: "the goods run on, nothing is added"}},
	Raw: {"raw", 0, false, false,
		cite.Basis{Status: cite.Derived, Note: "cut on the finished line, nothing is added"}},
}

// MostAllowance is the most an edge may add: beyond a tuck-in and a pull together.
const MostAllowance = 2 * unit.Metre

// Finishes lists every finish in the order of the constants.
func Finishes() []Finish {
	out := make([]Finish, len(finishes))
	for i := range out {
		out[i] = Finish(i)
	}
	return out
}

func (f Finish) known() bool { return int(f) < len(finishes) }

func finishNames() []string {
	names := make([]string, len(finishes))
	for i, row := range finishes {
		names[i] = row.name
	}
	return names
}

// check refuses a number that is no finish.
func (f Finish) check(field string) error {
	return check.OneOf(field, f.String(), finishNames()...)
}

// Default gives the allowance that is added outside the finished line, and
// what it is founded on. An unknown finish gives zero and the zero Basis.
func (f Finish) Default() (unit.Length, cite.Basis) {
	if !f.known() {
		return 0, cite.Basis{}
	}
	return finishes[f].allowance, finishes[f].basis
}

// Sewn tells whether stitches run along the edge: every seam and every hem.
func (f Finish) Sewn() bool { return f.known() && finishes[f].sewn }

// Seam tells whether the edge is sewn to another panel, a welt or a zip.
func (f Finish) Seam() bool { return f.known() && finishes[f].seam }

// String gives the trade name, such as "welted seam".
func (f Finish) String() string {
	if !f.known() {
		return fmt.Sprintf("Finish(%d)", uint8(f))
	}
	return finishes[f].name
}

// ParseFinish reads a name as String writes it. The error is a
// *unit.InputError that wraps unit.ErrUnknown and lists the names.
func ParseFinish(name string) (Finish, error) {
	for i, row := range finishes {
		if row.name == name {
			return Finish(i), nil
		}
	}
	return 0, check.OneOf("finish", name, finishNames()...)
}

// MarshalText writes the name; an unknown finish wraps unit.ErrUnknown.
func (f Finish) MarshalText() ([]byte, error) {
	if err := f.check("finish"); err != nil {
		return nil, err
	}
	return []byte(f.String()), nil
}

// UnmarshalText reads a name as ParseFinish does.
func (f *Finish) UnmarshalText(text []byte) error {
	v, err := ParseFinish(string(text))
	if err == nil {
		*f = v
	}
	return err
}
