package rate

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// OverheadItem is one cost of the shop that may be overhead. A shop decides
// for each (glue, tacks, thread) whether it is charged to jobs or lies in the
// overhead; never both.
type OverheadItem struct {
	Name   string     `json:"name"`
	Amount cost.Money `json:"amount"`
	// Direct says that jobs are charged for it, so that it is no overhead.
	Direct bool `json:"direct"`
}

// OverheadPool adds up what is overhead. It wraps cost.ErrCurrency or
// unit.ErrRange.
func OverheadPool(items ...OverheadItem) (cost.Money, error) {
	var sum cost.Money
	for i, it := range items {
		if it.Amount.Sign() < 0 {
			return cost.Money{}, check.Refuse(unit.Path("items").At(i).Dot("amount"), it.Amount.String(), unit.ErrRange, "an amount that is not negative")
		}
		if it.Direct {
			continue
		}
		var err error
		if sum, err = sum.Plus(it.Amount); err != nil {
			return cost.Money{}, unit.InField(unit.Path("items").At(i), err)
		}
	}
	return sum, nil
}

// OverheadPer gives the overhead rate on a base that is measured: labour
// hours, machine hours, pieces.
//
//	rate = estimated overhead / estimated base
//
// The rate is exact: its method Of gives the overhead that so many hours
// bear. The base must be above zero; it wraps unit.ErrRange or cost.ErrNoCurrency.
func OverheadPer[Q cost.Quantity](overhead cost.Money, base Q) (cost.Price[Q], error) {
	p, err := cost.Per(overhead, base)
	return p, unit.InField("overhead", err)
}

// OverheadShare gives the overhead rate on a base that is money, such as
// wages or material: apply it with Money.Scale. It wraps cost.ErrCurrency,
// unit.ErrRange or unit.ErrDivideByZero.
func OverheadShare(overhead, base cost.Money) (unit.Ratio, error) {
	if overhead.Sign() < 0 || base.Sign() < 0 {
		return 0, check.Refuse("overhead", overhead.String(), unit.ErrRange, "amounts that are not negative")
	}
	r, err := overhead.Per(base)
	return r, unit.InField("base", err)
}

// OverheadBudget is an overhead with a fixed part and one that grows with the
// base.
//
//	overhead = fixed + variable × base
type OverheadBudget[Q cost.Quantity] struct {
	Fixed    cost.Money    `json:"fixed"`
	Variable cost.Price[Q] `json:"variable"`
	Base     Q             `json:"base"`
}

// Rate gives the overhead and its exact rate on the base. Errors are those of
// OverheadPer and Price.Of.
func (b OverheadBudget[Q]) Rate(mode cost.Rounding) (overhead cost.Money, rate cost.Price[Q], err error) {
	variable, err := b.Variable.Of(b.Base, mode)
	if err != nil {
		return cost.Money{}, cost.Price[Q]{}, unit.InField("variable", err)
	}
	if overhead, err = b.Fixed.Plus(variable); err != nil {
		return cost.Money{}, cost.Price[Q]{}, unit.InField("fixed", err)
	}
	rate, err = OverheadPer(overhead, b.Base)
	return overhead, rate, err
}

// OverApplied compares the overhead that jobs bore with what it really was:
// above zero it was over-applied, below under-applied. It wraps cost.ErrCurrency.
func OverApplied(applied, actual cost.Money) (cost.Money, error) { return applied.Minus(actual) }

// JobCost is what a job costs the shop.
//
//	job cost = material + labour + applied overhead
type JobCost struct {
	Material cost.Money `json:"material"`
	Labour   cost.Money `json:"labour"`
	Overhead cost.Money `json:"overhead"`
}

// Total gives the cost of the job. It wraps cost.ErrCurrency or unit.ErrOverflow.
func (j JobCost) Total() (cost.Money, error) { return cost.Sum(j.Material, j.Labour, j.Overhead) }

// EachOf gives the cost of each of n pieces by largest remainder: the pieces
// add up to the job, where a rounded unit cost would not. Errors are those of
// Total and Split.
func (j JobCost) EachOf(n int) ([]cost.Money, error) {
	t, err := j.Total()
	if err != nil {
		return nil, err
	}
	return cost.Split(t, n)
}

// Addition is one step of a costing that adds to what stands before it: an
// amount, or a share of the running total.
type Addition struct {
	Name   string     `json:"name"`
	Rate   unit.Ratio `json:"rate"`
	Amount cost.Money `json:"amount"`
}

// Running is a step of a costing with the total after it.
type Running struct {
	Name  string     `json:"name"`
	Added cost.Money `json:"added"`
	Total cost.Money `json:"total"`
}

// AddUp costs step by step: each rate is taken of everything before it and
// rounded once. It wraps unit.ErrRange for a rate under zero or over 1000 %,
// cost.ErrCurrency, cost.ErrMode or unit.ErrOverflow.
func AddUp(start cost.Money, mode cost.Rounding, steps ...Addition) ([]Running, error) {
	out := []Running{{Name: "start", Added: start, Total: start}}
	total := start
	for i, s := range steps {
		at := unit.Path("steps").At(i)
		if _, err := shareOf("rate", s.Rate, 0, 10); err != nil {
			return nil, unit.InField(at, err)
		}
		if s.Rate != 0 && !s.Amount.IsZero() {
			return nil, check.Refuse(at.Dot("amount"), s.Amount.String(), unit.ErrRange, "a rate or an amount, not both")
		}
		added := s.Amount
		var err error
		if s.Rate != 0 {
			added, err = total.Scale(s.Rate, mode)
		}
		if err == nil {
			total, err = total.Plus(added)
		}
		if err != nil {
			return nil, unit.InField(at, err)
		}
		out = append(out, Running{s.Name, added, total})
	}
	return out, nil
}

// MachineHour is what an hour of a machine or a bench costs.
//
//	rate = (purchase - residual) / life + yearly / hours a year
type MachineHour struct {
	Purchase cost.Money `json:"purchase"`
	// Residual is what it fetches at the end.
	Residual cost.Money `json:"residual"`
	// Life is the hours it runs before that.
	Life unit.Duration `json:"life"`
	// Yearly is space, power, insurance and upkeep of a year.
	Yearly cost.Money `json:"yearly"`
	// HoursAYear is the hours it runs in a year.
	HoursAYear unit.Duration `json:"hours_a_year"`
}

// Rate gives the rate of an hour, rounded once. It wraps unit.ErrRange,
// cost.ErrCurrency, cost.ErrMode or unit.ErrOverflow.
func (m MachineHour) Rate(mode cost.Rounding) (cost.Money, error) {
	worn, err := m.Purchase.Minus(m.Residual)
	if err != nil {
		return cost.Money{}, unit.InField("residual", err)
	}
	if worn.Sign() < 0 {
		return cost.Money{}, check.Refuse("residual", m.Residual.String(), unit.ErrRange, "at most the purchase "+m.Purchase.String())
	}
	c, err := sharedCurrency(worn, m.Yearly)
	if err != nil {
		return cost.Money{}, unit.InField("yearly", err)
	}
	wear, err := cost.Per(worn, m.Life)
	if err != nil {
		return cost.Money{}, unit.InField("life", err)
	}
	x, err := exactOf(wear, unit.Hour)
	if err != nil {
		return cost.Money{}, err
	}
	if !m.Yearly.IsZero() {
		run, err := cost.Per(m.Yearly, m.HoursAYear)
		if err != nil {
			return cost.Money{}, unit.InField("hours_a_year", err)
		}
		y, err := exactOf(run, unit.Hour)
		if err != nil {
			return cost.Money{}, err
		}
		x = x.Add(y)
	}
	return roundRat(x, c, mode)
}
