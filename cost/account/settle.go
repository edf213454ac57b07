package account

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// Statement is an account added up:
//
//	Changed = sum of the changes' Total
//	Sum     = Quoted + Changed
//	Balance = Sum - Received = Sum where nothing came
//	Credit  = -Balance where more came than is owed, else nothing
type Statement struct {
	Quoted   cost.Money `json:"quoted"` // total of the quote, with tax
	Changes  []Priced   `json:"changes,omitempty"`
	Changed  cost.Money `json:"changed"` // with tax
	Sum      cost.Money `json:"sum"`
	Receipts []Receipt  `json:"receipts,omitempty"`
	Received cost.Money `json:"received"`
	Balance  cost.Money `json:"balance"`
	// Credit is what the shop owes the customer.
	Credit cost.Money `json:"credit,omitzero"`
}

// Priced is a change with its tax, in full as it was agreed:
//
//	Total = Net + Tax, Tax = sum of Taxes
type Priced struct {
	Change
	Net   cost.Money        `json:"net"`
	Tax   cost.Money        `json:"tax"`
	Total cost.Money        `json:"total"`
	Taxes []cost.LevyAmount `json:"taxes,omitempty"` // each with what it is of without tax
}

// Settle adds up an account on the total of a quote. Every change is a quote of its
// own by the same taxes, so that what it comes to with tax is what was agreed,
// whatever else was; of one below zero all figures are those of its opposite, turned
// round. The currency is that of the total. Errors are those of Faults and
// cost.NewQuote.
func Settle(a Account, total cost.Money, tax cost.Tax, round cost.Rounding) (Statement, error) {
	if f := Faults(a, total.Currency()); len(f) > 0 {
		return Statement{}, f[0]
	}
	zero, err := cost.Zero(total.Currency())
	if err != nil {
		return Statement{}, err
	}
	s := Statement{Quoted: total, Changed: zero, Received: zero, Receipts: slices.Clone(a.Received)}
	for i, x := range a.Changes {
		p, err := x.price(tax, round)
		if err == nil {
			s.Changed, err = s.Changed.Plus(p.Total)
		}
		if err != nil {
			return Statement{}, unit.InField(unit.Path("changes").At(i), err)
		}
		s.Changes = append(s.Changes, p)
	}
	for i, x := range a.Received {
		if s.Received, err = s.Received.Plus(x.Amount); err != nil {
			return Statement{}, unit.InField(unit.Path("received").At(i), err)
		}
	}
	if s.Sum, err = s.Quoted.Plus(s.Changed); err != nil {
		return Statement{}, unit.InField("changes", err)
	}
	if s.Balance, err = s.Sum.Minus(s.Received); err != nil {
		return Statement{}, unit.InField("received", err)
	}
	if s.Balance.Sign() < 0 {
		s.Credit = s.Balance.Neg()
	}
	return s, nil
}

// price gives a change with its tax.
func (x Change) price(tax cost.Tax, round cost.Rounding) (Priced, error) {
	var levies []cost.Levy
	for _, l := range tax.Levies {
		if l.Falls(x.Class()) {
			levies = append(levies, cost.Levy{Name: l.Name, Rate: l.Rate})
		}
	}
	tax.Levies = levies
	line, err := cost.LumpSum(x.Kind, x.What, x.Amount.Abs())
	if err != nil {
		return Priced{}, err
	}
	line.TaxClass = x.Class()
	q, err := cost.NewQuote(cost.Terms{Currency: x.Amount.Currency(), Rounding: round, Tax: tax}, line)
	if err != nil {
		return Priced{}, err
	}
	p := Priced{Change: x, Net: q.Net, Tax: q.Tax, Total: q.Total, Taxes: slices.Clone(q.Taxes)}
	for i := range p.Taxes {
		p.Taxes[i].Base = q.Net
	}
	if x.Amount.Sign() < 0 {
		p.Net, p.Tax, p.Total = p.Net.Neg(), p.Tax.Neg(), p.Total.Neg()
		for i := range p.Taxes {
			p.Taxes[i].Base, p.Taxes[i].Tax = p.Taxes[i].Base.Neg(), p.Taxes[i].Tax.Neg()
		}
	}
	return p, nil
}
