package cost

import (
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Markup and margin say the same thing from two ends:
//
//	markup m = (price - cost) / cost      margin g = (price - cost) / price
//	m = g / (1 - g)                       g = m / (1 + m)
//	price = cost × (1 + m)                price = cost / (1 - g)

const (
	mostMarkup unit.Ratio = 100
	mostMargin unit.Ratio = 0.99
)

// Uplift turns a cost into a price by a markup or a margin. The zero value
// sells at cost.
type Uplift struct {
	rate   unit.Ratio
	margin bool
}

// Markup adds m times the cost: 25 % on 100 gives 125. It is checked where it
// is used: from 0 to 100 (10000 %).
func Markup(m unit.Ratio) Uplift { return Uplift{rate: clean(m)} }

// Margin leaves g of the price as profit: 20 % on a cost of 100 gives 125. It
// is checked where it is used: from 0 to 99 %.
func Margin(g unit.Ratio) Uplift {
	g = clean(g)
	return Uplift{rate: g, margin: g != 0} // a margin of nothing is no other uplift than a markup of nothing
}

// IsMargin tells whether the rate is one of the price.
func (u Uplift) IsMargin() bool { return u.margin }

// Rate gives the markup or the margin.
func (u Uplift) Rate() unit.Ratio { return u.rate }

// Price gives the price for a cost, rounded once to the minor unit. It wraps
// unit.ErrRange, unit.ErrNotFinite, ErrMode, ErrNoCurrency or
// unit.ErrOverflow.
func (u Uplift) Price(cost Money, mode Rounding) (Money, error) {
	x, err := u.apply(cost.amount)
	if err != nil {
		return Money{}, err
	}
	return rounded(x, cost.currency, mode)
}

// apply gives the exact price.
func (u Uplift) apply(cost exact.Rat) (exact.Rat, error) {
	if u.margin {
		g, err := ratioBetween("margin", u.rate, 0, mostMargin)
		if err != nil {
			return exact.Rat{}, err
		}
		return cost.Quo(exact.Int(1).Sub(g)), nil
	}
	m, err := ratioBetween("markup", u.rate, 0, mostMarkup)
	if err != nil {
		return exact.Rat{}, err
	}
	return cost.Mul(exact.Int(1).Add(m)), nil
}

// String writes the rate, such as "25 % markup"; the zero value is "at cost".
func (u Uplift) String() string {
	switch {
	case u.rate == 0:
		return "at cost"
	case u.margin:
		return percent(u.rate) + " margin"
	}
	return percent(u.rate) + " markup"
}

// MarshalText writes u as String does.
func (u Uplift) MarshalText() ([]byte, error) { return []byte(u.String()), u.check() }

func (u Uplift) check() error {
	_, err := u.apply(exact.Int(1))
	return err
}

// bareMarkup is the largest markup that may stand without a per cent sign:
// "25 markup" means 25 %, not 25 times the cost, and is refused.
const bareMarkup unit.Ratio = 3

// UnmarshalText reads "25 % markup", "20 % margin" or "at cost". A rate above 3
// must have its per cent sign, such as 400 %; it wraps unit.ErrSyntax,
// unit.ErrRange or what unit.ParseRatio wraps.
func (u *Uplift) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	if s == "at cost" || s == "" {
		*u = Uplift{}
		return nil
	}
	rate, margin := strings.CutSuffix(s, "margin")
	if !margin {
		var markup bool
		if rate, markup = strings.CutSuffix(s, "markup"); !markup {
			return check.Refuse("", s, unit.ErrSyntax, "such as 25 % markup or 20 % margin")
		}
	}
	r, err := unit.ParseRatio(strings.TrimSpace(rate))
	if err != nil {
		return err
	}
	if r > bareMarkup && strings.TrimRight(rate, "0123456789.,eE+- ") == "" {
		return check.Refuse("", s, unit.ErrRange, "a rate with its per cent sign, such as 25 %; without one at most 3")
	}
	read := Markup(r)
	if margin {
		read = Margin(r)
	}
	if err := read.check(); err != nil {
		return err
	}
	*u = read
	return nil
}

// MarkupOfMargin gives the markup m = g / (1 - g) that leaves the margin g.
// A margin of 100 % or more has no price: the margin must be under 1; it wraps
// unit.ErrRange or unit.ErrNotFinite.
func MarkupOfMargin(g unit.Ratio) (unit.Ratio, error) {
	x, err := ratio("margin", g)
	if err != nil {
		return 0, err
	}
	rest := exact.Int(1).Sub(x)
	if rest.Sign() <= 0 {
		return 0, check.Refuse("margin", g.String(), unit.ErrRange, "under 100 %")
	}
	return unit.Ratio(x.Quo(rest).Float64()), nil
}

// MarginOfMarkup gives the margin g = m / (1 + m) that a markup m leaves. The
// markup must be above -1; it wraps unit.ErrRange or unit.ErrNotFinite.
func MarginOfMarkup(m unit.Ratio) (unit.Ratio, error) {
	x, err := ratio("markup", m)
	if err != nil {
		return 0, err
	}
	whole := exact.Int(1).Add(x)
	if whole.Sign() <= 0 {
		return 0, check.Refuse("markup", m.String(), unit.ErrRange, "above -100 %")
	}
	return unit.Ratio(x.Quo(whole).Float64()), nil
}

// MarkupOf gives (price - cost) / cost. It wraps ErrCurrency or
// unit.ErrDivideByZero.
func MarkupOf(cost, price Money) (unit.Ratio, error) {
	profit, err := price.Minus(cost)
	if err != nil {
		return 0, err
	}
	r, err := profit.Per(cost)
	return r, unit.InField("cost", err)
}

// MarginOf gives (price - cost) / price. It wraps ErrCurrency or
// unit.ErrDivideByZero.
func MarginOf(cost, price Money) (unit.Ratio, error) {
	profit, err := price.Minus(cost)
	if err != nil {
		return 0, err
	}
	r, err := profit.Per(price)
	return r, unit.InField("price", err)
}
