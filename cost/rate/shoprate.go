package rate

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// WorkYear is the hours of one worker in a year, or any other period.
//
//	productive = paid - holidays - leave - sick - other - unbilled
type WorkYear struct {
	// Paid is every hour that is paid for, such as 2080 h (52 weeks of 40 h).
	Paid unit.Duration `json:"paid"`
	// Holidays, Leave, Sick and Other are paid but not worked.
	Holidays unit.Duration `json:"holidays"`
	Leave    unit.Duration `json:"leave"`
	Sick     unit.Duration `json:"sick"`
	Other    unit.Duration `json:"other"`
	// Unbilled is worked but sold to nobody: sweeping up, quotes, repairs of
	// one's own mistakes.
	Unbilled unit.Duration `json:"unbilled"`
}

const longestTime = 1_000_000 * unit.Hour

// Productive gives the hours that can be sold. None of the hours may be
// negative and some must be left; it wraps unit.ErrRange.
func (y WorkYear) Productive() (unit.Duration, error) {
	left := y.Paid
	if y.Paid <= 0 || y.Paid > longestTime {
		return 0, check.Refuse("paid", y.Paid.String(), unit.ErrRange, "above zero, at most "+longestTime.String())
	}
	for _, h := range []struct {
		name string
		d    unit.Duration
	}{{"holidays", y.Holidays}, {"leave", y.Leave}, {"sick", y.Sick}, {"other", y.Other}, {"unbilled", y.Unbilled}} {
		if h.d < 0 || h.d > y.Paid {
			return 0, check.Refuse(h.name, h.d.String(), unit.ErrRange, "from zero to the paid hours "+y.Paid.String())
		}
		left -= h.d
	}
	if left <= 0 {
		return 0, check.Refuse("paid", y.Paid.String(), unit.ErrRange, "more than the hours that are not sold")
	}
	return left, nil
}

// Burden gives the labour burden: what comes on top of wages (payroll taxes,
// insurance, benefits) as a share of the wages. Paid absence belongs here or
// into a WorkYear, never both. It wraps cost.ErrCurrency, unit.ErrDivideByZero.
func Burden(onTop, wages cost.Money) (unit.Ratio, error) {
	r, err := onTop.Per(wages)
	return r, unit.InField("wages", err)
}

// ShopRate builds up the price of an hour at the bench:
//
//	burdened = wage × (1 + burden)
//	absence  = burdened × (paid / productive - 1)
//	overhead = yearly overhead / yearly productive hours of the whole shop
//	at cost  = burdened + absence + overhead
//	sold     = at cost with its markup or margin
//
// Each part is rounded once to the minor unit, so that the printed parts add
// up to the printed rate.
type ShopRate struct {
	// Wage is the hourly wage. It is required.
	Wage cost.HourPrice `json:"wage"`
	// Burden is the share on top of the wage, from 0 to 300 %.
	Burden unit.Ratio `json:"burden"`
	// Year spreads paid hours over productive ones; the zero value leaves
	// this out, when Burden holds paid absence already.
	Year WorkYear `json:"year"`
	// Overhead is the overhead of a year and Hours the productive hours of
	// all workers it is spread over. Both or neither.
	Overhead cost.Money    `json:"overhead"`
	Hours    unit.Duration `json:"hours"`
	// Uplift turns the rate at cost into the rate that is charged.
	Uplift cost.Uplift `json:"uplift"`
}

// ShopRateResult is the rate of an hour with its parts.
type ShopRateResult struct {
	Burdened cost.Money    `json:"burdened"`
	Absence  cost.Money    `json:"absence"`
	Overhead cost.Money    `json:"overhead"`
	AtCost   cost.Money    `json:"at_cost"`
	Sold     cost.Money    `json:"sold"`
	Figures  []cost.Figure `json:"figures"`
}

// AtCostPrice and SoldPrice give the rates as prices per hour.
func (r ShopRateResult) AtCostPrice() (cost.HourPrice, error) { return cost.Per(r.AtCost, unit.Hour) }

// SoldPrice gives the charged rate as a price per hour.
func (r ShopRateResult) SoldPrice() (cost.HourPrice, error) { return cost.Per(r.Sold, unit.Hour) }

// Rate works out the rate. Errors name the field and wrap unit.ErrRequired,
// unit.ErrRange, unit.ErrNotFinite, cost.ErrCurrency, cost.ErrMode or unit.ErrOverflow.
func (s ShopRate) Rate(mode cost.Rounding) (ShopRateResult, error) {
	wage, err := exactOf(s.Wage, unit.Hour)
	if err != nil {
		return ShopRateResult{}, unit.InField("wage", err)
	}
	burden, err := shareOf("burden", s.Burden, 0, 3)
	if err != nil {
		return ShopRateResult{}, err
	}
	c := s.Wage.Amount().Currency()
	burdened := wage.Mul(exact.Int(1).Add(burden))
	absence, absenceWork := exact.Rat{}, "0"
	if s.Year != (WorkYear{}) {
		productive, err := s.Year.Productive()
		if err != nil {
			return ShopRateResult{}, unit.InField("year", err)
		}
		absence = burdened.Mul(exact.New(int64(s.Year.Paid), int64(productive)).Sub(exact.Int(1)))
		absenceWork = "(" + s.Year.Paid.String() + " / " + productive.String() + " - 1)"
	}
	overhead, overheadWork := exact.Rat{}, "0"
	if !s.Overhead.IsZero() || s.Hours != 0 {
		p, err := OverheadPer(s.Overhead, s.Hours)
		if err != nil {
			return ShopRateResult{}, err
		}
		if _, err := sharedCurrency(s.Overhead, s.Wage.Amount()); err != nil {
			return ShopRateResult{}, unit.InField("overhead", err)
		}
		if overhead, err = exactOf(p, unit.Hour); err != nil {
			return ShopRateResult{}, err
		}
		overheadWork = s.Overhead.String() + " / " + s.Hours.String()
	}
	var out ShopRateResult
	for _, part := range []struct {
		x  exact.Rat
		to *cost.Money
	}{{burdened, &out.Burdened}, {absence, &out.Absence}, {overhead, &out.Overhead}} {
		if *part.to, err = roundRat(part.x, c, mode); err != nil {
			return ShopRateResult{}, err
		}
	}
	if out.AtCost, err = cost.Sum(out.Burdened, out.Absence, out.Overhead); err != nil {
		return ShopRateResult{}, err
	}
	if out.Sold, err = s.Uplift.Price(out.AtCost, mode); err != nil {
		return ShopRateResult{}, unit.InField("uplift", err)
	}
	rule := mode.String() + " to the minor unit, once"
	out.Figures = []cost.Figure{
		{Name: "burdened wage", Value: out.Burdened.String(), Formula: "wage × (1 + burden)",
			Working: s.Wage.String() + " × (1 + " + unit.Ratio(burden.Float64()).String() + ") = " + burdened.Text(shownPlaces), Rule: rule},
		{Name: "paid absence", Value: out.Absence.String(), Formula: "burdened wage × (paid / productive - 1)",
			Working: absenceWork + " = " + absence.Text(shownPlaces), Rule: rule},
		{Name: "overhead", Value: out.Overhead.String(), Formula: "overhead of the year / productive hours of the shop",
			Working: overheadWork + " = " + overhead.Text(shownPlaces), Rule: rule},
		{Name: "rate at cost", Value: out.AtCost.String(), Formula: "burdened wage + paid absence + overhead",
			Working: out.Burdened.Amount() + " + " + out.Absence.Amount() + " + " + out.Overhead.Amount()},
		{Name: "rate charged", Value: out.Sold.String(), Formula: "rate at cost, " + s.Uplift.String(), Working: out.AtCost.Amount(), Rule: rule},
	}
	return out, nil
}

// LoadedRate gives the rate of an hour from the top down: what is left of the
// sales when the material is paid, over the direct hours that earned it. It is
// exact; Of(unit.Hour, mode) gives the figure to print. Sales must not be less
// than material; it wraps unit.ErrRange, cost.ErrCurrency or cost.ErrNoCurrency.
func LoadedRate(sales, material cost.Money, hours unit.Duration) (cost.HourPrice, error) {
	left, err := sales.Minus(material)
	if err != nil {
		return cost.HourPrice{}, err
	}
	if left.Sign() < 0 {
		return cost.HourPrice{}, check.Refuse("sales", sales.String(), unit.ErrRange, "at least the material "+material.String())
	}
	p, err := cost.Per(left, hours)
	return p, unit.InField("hours", err)
}
