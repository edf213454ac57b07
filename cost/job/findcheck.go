package job

import (
	"maps"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

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
			if !q.q.IsZero() && (!q.q.Like(of.Step) || raw(q.q) <= 0) {
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
