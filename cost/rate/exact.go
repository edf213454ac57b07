package rate

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Exact figures of money and prices, and the one rounding of a result.

const shownPlaces = 6 // digits shown of a value before it was rounded

func ratOf(m cost.Money) exact.Rat { return exact.Of(m.Rat()) }

func exactOf[Q cost.Quantity](p cost.Price[Q], q Q) (exact.Rat, error) {
	x, err := p.Exact(q)
	if err != nil {
		return exact.Rat{}, err
	}
	return exact.Of(x), nil
}

func roundRat(x exact.Rat, c cost.Currency, mode cost.Rounding) (cost.Money, error) {
	return cost.RoundMoney(x.Big(), c, mode)
}

// sharedCurrency gives the currency of both amounts.
func sharedCurrency(a, b cost.Money) (cost.Currency, error) {
	sum, err := a.Plus(b)
	return sum.Currency(), err
}

// shareOf gives a ratio from lo to hi as the decimal fraction it was meant as.
func shareOf(field unit.Path, r, lo, hi unit.Ratio) (exact.Rat, error) {
	if err := check.Ratio(field, r, lo, hi); err != nil {
		return exact.Rat{}, err
	}
	x, _ := exact.OfFloat(float64(r)) // no bound is above 10^6
	return x, nil
}
