package allowance

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Stretch is how a cover fits in one direction: what is left out because it
// will stretch or squeeze, and what is added because it will shrink or hang
// loose. The zero value changes nothing.
//
// A finished length F comes to the seam line as
//
//	S = (F - Compression + Ease) × (1 - TakeOut) / (1 - Shrinkage)
//
// where TakeOut counts only when F is at least Below. Seam allowances are
// added afterwards: they lie loose, so they do not stretch.
type Stretch struct {
	// TakeOut is the share of the length left out because the cover is pulled
	// tight. From 0 to 50 %.
	TakeOut unit.Ratio `json:"takeOut,omitzero"`
	// Below is the finished length under which nothing is taken out.
	Below unit.Length `json:"below,omitzero"`
	// Compression is how much smaller than the filling the cover is made, so
	// that it sits tight. From 0 to less than the finished length.
	Compression unit.Length `json:"compression,omitzero"`
	// Ease is length added for a loose fit. From 0 to 1 km.
	Ease unit.Length `json:"ease,omitzero"`
	// Shrinkage is the share of its cut length the cloth will lose in washing
	// or steaming. From 0 to 50 %.
	Shrinkage unit.Ratio `json:"shrinkage,omitzero"`
}

// mostStretch is the largest share that may be taken out or shrink away.
const mostStretch unit.Ratio = 0.5

// LeatherStretch gives the rule for leather: 1/4 in taken out of every 10 in
// of panel length, in proportion, and none of a panel under 10 in. It is
// common practice; a sample of the hide at hand is better, see
// [MeasuredStretch].
func LeatherStretch() (Stretch, cite.Basis) {
	return Stretch{TakeOut: 2.5 * unit.Percent, Below: 10 * unit.Inch},
		cite.Basis{Status: cite.CommonPractice, Note: "1/4 in per 10 in of panel length, none under 10 in"}
}

// VinylStretch gives the rule for coated cloth (vinyl): about 1 % taken out of
// the top of a cushion over 4 ft, 1/2 in at 48 in, and nothing of a shorter
// one. It is common practice. Keep the stretch of all parts the same way: some
// vinyl gives more along the roll, some across.
func VinylStretch() (Stretch, cite.Basis) {
	return Stretch{TakeOut: 1.0 / 96, Below: 48 * unit.Inch},
		cite.Basis{Status: cite.CommonPractice, Note: "about 1/2 in on cushions over 4 ft"}
}

// MeasuredStretch gives the share to take out after pulling a sample by hand
// as tight as the cover will be:
//
//	TakeOut = (pulled - relaxed) / pulled
//
// so that a piece cut to F × (1 - TakeOut) reaches F under the same pull. Both
// lengths are above zero, pulled not under relaxed and at most twice it.
func MeasuredStretch(relaxed, pulled unit.Length) (Stretch, error) {
	if err := check.Positive("relaxed", relaxed); err != nil {
		return Stretch{}, err
	}
	if err := check.Length("pulled", pulled, relaxed, 2*relaxed); err != nil {
		return Stretch{}, err
	}
	r, err := (pulled - relaxed).Per(pulled)
	return Stretch{TakeOut: r}, err
}

// Fitted is one direction of a panel, from finished length to seam line.
type Fitted struct {
	Finished   unit.Length `json:"finished"`
	Compressed unit.Length `json:"compressed,omitzero"` // left out to sit tight
	Eased      unit.Length `json:"eased,omitzero"`      // added to hang loose
	TakenOut   unit.Length `json:"takenOut,omitzero"`   // left out because it stretches
	Added      unit.Length `json:"added,omitzero"`      // added because it shrinks
	Seam       unit.Length `json:"seam"`                // length between seam lines on the cut panel
}

// Apply brings a finished length to the seam line. Errors are
// *unit.InputError values that name finished or a field of s.
func (s Stretch) Apply(finished unit.Length) (Fitted, error) {
	if err := check.Positive("finished", finished); err != nil {
		return Fitted{}, err
	}
	if err := s.check(); err != nil {
		return Fitted{}, err
	}
	if err := check.Length("compression", s.Compression, 0, finished-10*unit.Micrometre); err != nil {
		return Fitted{}, err
	}
	f := Fitted{Finished: finished, Compressed: s.Compression, Eased: s.Ease}
	worn := finished - s.Compression + s.Ease
	f.Seam = worn
	if s.TakeOut > 0 && finished >= s.Below {
		out, err := worn.Scale(s.TakeOut, unit.Nearest)
		if err != nil {
			return Fitted{}, unit.InField("takeOut", err)
		}
		f.TakenOut = out
		f.Seam -= out
	}
	if s.Shrinkage > 0 {
		// L / (1 - q) - L = L q / (1 - q)
		add, err := f.Seam.Scale(s.Shrinkage/(1-s.Shrinkage), unit.Nearest)
		if err != nil {
			return Fitted{}, unit.InField("shrinkage", err)
		}
		f.Added = add
		f.Seam += add
	}
	return f, check.Positive("seam", f.Seam)
}

// check refuses fields out of range, apart from their relation to a length.
func (s Stretch) check() error {
	if err := check.Ratio("takeOut", s.TakeOut, 0, mostStretch); err != nil {
		return err
	}
	if err := check.NotNegative("below", s.Below); err != nil {
		return err
	}
	if err := check.NotNegative("compression", s.Compression); err != nil {
		return err
	}
	if err := check.NotNegative("ease", s.Ease); err != nil {
		return err
	}
	return check.Ratio("shrinkage", s.Shrinkage, 0, mostStretch)
}
