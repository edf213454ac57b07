package job

import (
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// DefaultsSpec is what a shop does where a job does not say otherwise.
type DefaultsSpec struct {
	// Least is the least finished length of a piece of boxing that is joined, of
	// cushions that do not say; 6 in when not given.
	Least *unit.Length `json:"least,omitzero"`
	// TakeUp is how much larger the filling of a cushion is than its cover, in place of
	// that of a snug fit.
	TakeUp *unit.Length `json:"take_up,omitzero"`
	// Facing says beside the sitter's left and right, wherever they are printed, how they
	// are seen from before the piece, where workers stand. Names and files keep the
	// sitter's, so that all papers of a job agree.
	Facing bool `json:"facing,omitzero"`
	// PriceDays is how many days before that of the quote a price may be from; older
	// ones are named on the order. 180 when not given, as is common practice.
	PriceDays int `json:"price_days,omitzero" least:"1"`
}

func (d *DefaultsSpec) check() faults {
	var f faults
	if d == nil {
		return f
	}
	if d.Least != nil {
		f.add("defaults.least", check.Length("", *d.Least, 0, maxSide))
	}
	if d.TakeUp != nil {
		f.add("defaults.take_up", check.Length("", *d.TakeUp, 0, maxSide))
	}
	f.add("defaults.price_days", check.Count("", d.PriceDays, 0, 36_600))
	return f
}

// defaulted gives the job with what its shop does where its cushions do not say.
func (s Spec) defaulted() Spec {
	if s.Defaults == nil || len(s.Defaults.check()) > 0 {
		return s
	}
	s.Pieces = changed(s.Pieces, func(p *Furniture) {
		p.Cushions = changed(p.Cushions, func(c *CushionSpec) {
			if c.Least == nil && c.ringed() {
				c.Least = s.Defaults.Least
			}
			if c.TakeUp == nil && c.fit() == made.SnugFit {
				c.TakeUp = s.Defaults.TakeUp
			}
		})
	})
	return s
}
