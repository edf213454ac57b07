package job

import (
	"maps"
	"slices"

	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// mostStock bounds the lengths at hand of one kind of goods.
const mostStock = 50

// customers tells whether the goods are the customer's own.
func (g GoodsSpec) customers() bool { return g.Whose == stock.Customers }

// charged is how goods at hand are charged: hides, which were paid before, and a
// customer's own are not, where nothing is said.
func (g GoodsSpec) charged() stock.Charged {
	switch {
	case g.Charged != 0:
		return g.Charged
	case g.customers() || g.Kind == HideGoods:
		return stock.NotCharged
	}
	return stock.AsIfBought
}

// keep is what is worth keeping.
func (g GoodsSpec) keep() stock.Keep {
	if g.Keep == nil {
		return stock.Usual()
	}
	return *g.Keep
}

// checkStock gives what is wrong with whose the goods are and what of them is at hand.
func (g GoodsSpec) checkStock(at unit.Path) faults {
	var f faults
	_, err := g.Whose.MarshalText()
	f.add(at.Dot("whose"), err)
	_, err = g.Charged.MarshalText()
	f.add(at.Dot("charged"), err)
	f.add(at.Dot("at_hand"), check.Count("", len(g.AtHand), 0, mostStock))
	for i, s := range g.AtHand[:min(len(g.AtHand), mostStock)] {
		at := at.Dot("at_hand").At(i)
		f.add(at.Dot("name"), checkName(s.Name))
		if slices.ContainsFunc(g.AtHand[:i], func(o stock.Length) bool { return o.Name == s.Name }) {
			f.add(at.Dot("name"), check.Refuse("", s.Name, ErrTwice, "a name that no other length has"))
		}
		if g.Kind == RollGoods && g.roll().Check() == nil { // else that is the fault
			f.add(at, s.Check(g.roll()))
		}
	}
	if g.customers() && g.Charged != 0 {
		f.misplaced(at.Dot("charged"), "no charge for a customer's own goods; handling is a fee")
	}
	if g.Keep != nil {
		f.add(at.Dot("keep"), g.Keep.Check())
	}
	return append(f, g.checkHandling(at.Dot("handling"))...)
}

func (g GoodsSpec) checkHandling(at unit.Path) faults {
	var f faults
	if g.Handling == nil {
		return f
	}
	h := *g.Handling
	f.add(at, h.Check())
	switch {
	case !g.customers():
		f.misplaced(at, "a fee only where whose is customer")
	case h.PerLength.Unit() != 0 && g.Kind == HideGoods:
		f.misplaced(at.Dot("per_length"), "per_area of hides")
	case h.PerArea.Unit() != 0 && g.Kind == RollGoods:
		f.misplaced(at.Dot("per_area"), "per_length of a roll")
	case h.Share != nil && g.Price.IsZero():
		f.add(at.Dot("share"), check.Required("", "the price of the goods, to know what they would have brought"))
	}
	return f
}

// checkMoney refuses amounts in another currency than that of the job.
func (g GoodsSpec) checkMoney(at unit.Path, s Spec) faults {
	var f faults
	if !g.Price.IsZero() {
		f.add(at.Dot("price"), s.checkCurrency(g.Price.amount()))
	}
	if g.Handling != nil {
		fee := g.Handling.Money()
		for _, field := range slices.Sorted(maps.Keys(fee)) {
			f.add(at.Dot("handling").Dot(unit.Path(field)), s.checkCurrency(fee[field]))
		}
	}
	return f
}
