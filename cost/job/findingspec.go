package job

import (
	"maps"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// FindingSpec is how the shop uses a finding, in place of what is usual.
type FindingSpec struct {
	Waste *unit.Ratio   `json:"waste,omitzero"`  // of what lies in the piece
	Width unit.Length   `json:"width,omitzero"`  // of the roll of a cloth
	Sizes []unit.Length `json:"sizes,omitempty"` // at hand: legs of staples; the stick of a tack strip
	// Step is what it is sold by, where the price list does not say it.
	Step cost.AnyQuantity `json:"step,omitzero"`
	Pack cost.AnyQuantity `json:"pack,omitzero"` // what it comes in, where the price list does not say it
}

// SundriesSpec is one sum for small findings: they are on the order, and neither
// unpriced nor charged again.
type SundriesSpec struct {
	Share  unit.Ratio `json:"share,omitzero"`  // of the cost of goods and foam; or Amount
	Amount cost.Money `json:"amount,omitzero"` // a fixed sum
	Covers []string   `json:"covers" required:"true" hint:"a list of findings such as \"staple\""`
}

// covers tells whether the sum is for a finding, by its code or the plain one.
func (s *SundriesSpec) covers(code, id string) bool {
	return s != nil && (slices.Contains(s.Covers, code) || slices.Contains(s.Covers, id))
}

// checkFindings gives what is wrong with how the shop uses findings, and with the
// sum for small ones.
func (s Spec) checkFindings() faults {
	var f faults
	for _, id := range slices.Sorted(maps.Keys(s.Findings)) {
		at, x := unit.Path("findings").Dot(unit.Path(id)), s.Findings[id]
		of, err := build.Named(id)
		if err == nil && id != of.ID {
			err = check.Refuse("", id, unit.ErrUnknown, of.ID+", for all variants")
		}
		if f.add(at, err); err != nil {
			continue
		}
		if x.Waste != nil {
			f.add(at.Dot("waste"), check.Ratio("", *x.Waste, 0, 1))
		}
		if x.Width != 0 {
			f.add(at.Dot("width"), check.Length("", x.Width, unit.Centimetre, 10*unit.Metre))
			if of.Roll == 0 {
				f.misplaced(at.Dot("width"), "a width of what comes on a roll")
			}
		}
		for i, l := range x.Sizes {
			f.add(at.Dot("sizes").At(i), check.Length("", l, unit.Millimetre, 5*unit.Metre))
		}
		if len(x.Sizes) > 0 && id != "staple" && id != "tack strip" {
			f.misplaced(at.Dot("sizes"), "legs of staples, or the stick of a tack strip")
		}
		for _, q := range []struct {
			name unit.Path
			q    cost.AnyQuantity
		}{{"step", x.Step}, {"pack", x.Pack}} {
			if !q.q.IsZero() && (!alike(q.q, of.Step) || raw(q.q) <= 0) {
				f.add(at.Dot(q.name), check.Refuse("", q.q.String(), unit.ErrUnknownUnit, "an amount above zero, such as "+of.Step.String()))
			}
		}
	}
	q := s.Quote.Sundries
	if q == nil {
		return f
	}
	const at = unit.Path("quote.sundries")
	f.add(at.Dot("share"), check.Ratio("", q.Share, 0, 1))
	switch {
	case q.Amount.IsZero():
	case q.Share != 0:
		f.misplaced(at.Dot("amount"), "share or amount, not both")
	default:
		f.add(at.Dot("amount"), s.checkCurrency(q.Amount))
	}
	if len(q.Covers) == 0 {
		f.add(at.Dot("covers"), check.Required("", "the findings that it is for"))
	}
	for i, id := range q.Covers {
		_, err := build.Named(id)
		f.add(at.Dot("covers").At(i), err)
	}
	return f
}
