package job

import (
	"context"
	"errors"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// RollOffer is a roll at a price, such as one of several widths of a cloth.
type RollOffer struct {
	Roll  material.Roll
	Price cost.LengthPrice
	// Margin is what is bought beyond the layout; the usual margin when not given, as
	// of the goods of a job.
	Margin *material.WorkingMargin
}

// RollCost is an offer laid out and priced.
type RollCost struct {
	Offer RollOffer
	Plan  layout.Plan
	// Ordered is what must be bought, Cost what that costs.
	Ordered material.Ordered
	Cost    cost.Money
	// TooNarrow says that a piece does not fit across this roll; Plan, Ordered and
	// Cost are then empty.
	TooNarrow bool
}

// CompareRolls lays the same pieces out on every offer and prices what must be
// bought of each. The result has one entry for each offer in the same order;
// best is the index of the cheapest, the first of equals, or -1 when every
// roll is too narrow. All prices must be in one currency. Errors name the
// offer and wrap what layout.Solve and cost.Price.Of wrap, or
// cost.ErrCurrency.
func CompareRolls(ctx context.Context, offers []RollOffer, pieces []layout.Piece, o layout.Options) (out []RollCost, best int, err error) {
	if len(offers) == 0 {
		return nil, -1, check.Required("offers", "at least one roll")
	}
	best = -1
	for i, offer := range offers {
		r := RollCost{Offer: offer}
		r.Plan, err = layout.Solve(ctx, layout.Job{Roll: &offer.Roll, Pieces: pieces}, o)
		if errors.Is(err, layout.ErrTooWide) {
			r.TooNarrow = true
			out = append(out, r)
			continue
		}
		if err == nil {
			r.Ordered, err = GoodsSpec{Margin: offer.Margin}.ordered(r.Plan)
		}
		if err == nil {
			r.Cost, err = offer.Price.Of(r.Ordered.Order, cost.HalfUp)
		}
		if err != nil {
			return nil, -1, unit.InField(check.At("offers", i), err)
		}
		if best >= 0 {
			c, err := r.Cost.Cmp(out[best].Cost)
			if err != nil {
				return nil, -1, unit.InField(check.At("offers", i), err)
			}
			if c < 0 {
				best = i
			}
		} else {
			best = i
		}
		out = append(out, r)
	}
	return out, best, nil
}
