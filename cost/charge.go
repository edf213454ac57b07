package cost

import (
	"math"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Charge is what a use of an entry comes to: what is charged of it, what to
// order, and how that came about.
type Charge struct {
	Entry Entry `json:"entry"`
	// Used is what goes into the work; Use is what is charged, in whole steps.
	Used AnyQuantity `json:"used"`
	Use  AnyQuantity `json:"use"`
	// Packs is how many to order when none is on the shelf; 0 where the entry
	// has no pack.
	Packs int `json:"packs,omitempty"`
	// Cut is the charge for cutting, part of Amount.
	Cut Money `json:"cut,omitzero"`
	// Amount is price × Use + Cut, rounded once: what the shop pays, or the
	// customer where the entry sells as listed. Freight comes once an order;
	// see Freight.
	Amount  Money    `json:"amount"`
	Figures []Figure `json:"figures"`
}

// Charge gives what a use comes to. With price p, step s, pack k, least l:
//
//	use    = max(used, l), rounded up to a multiple of s; nothing used is nothing charged
//	packs  = use / k, rounded up
//	cut    = the charge for cutting, unless use is a multiple of k
//	amount = p × use + cut, rounded once
//
// What is charged is the use, not the pack: a shop that charges whole packs says
// so with a step of a pack. The entry is checked as NewEntry does; a use of
// another kind than the price wraps unit.ErrUnknownUnit, one below zero
// unit.ErrRange, and a rounding mode that is none ErrMode.
func (e Entry) Charge(used AnyQuantity, mode Rounding) (Charge, error) {
	if faults := e.faults(); len(faults) > 0 {
		return Charge{}, faults[0]
	}
	if _, err := e.Price.of(used); err != nil {
		return Charge{}, unit.InField("used", fieldOnly("", err))
	}
	c := Charge{Entry: e, Used: used, Use: used}
	var err error
	if used.n > 0 {
		c.Use.n, err = roundUp(max(used.n, e.Least.n), e.Step.n)
	}
	if err != nil {
		return Charge{}, unit.InField("used", err)
	}
	if c.Packs, err = packs(c.Use.n, e.Pack.n); err != nil {
		return Charge{}, unit.InField("used", err)
	}
	if c.Use.n > 0 && (e.Pack.n == 0 || c.Use.n%e.Pack.n != 0) {
		c.Cut = e.CutCharge
	}
	a := c.priced()
	x, err := a.cost()
	if err != nil {
		return Charge{}, err
	}
	if c.Amount, err = rounded(x, e.Price.amount.currency, mode); err != nil {
		return Charge{}, err
	}
	c.Figures = c.explain()
	return c, nil
}

// priced gives what is charged as the amount of a line.
func (c Charge) priced() Amount { return Amount{Quantity: c.Use, Price: c.Entry.Price, Fixed: c.Cut} }

// roundUp gives the least multiple of step that is not below n; n itself where
// there is no step.
func roundUp(n, step int64) (int64, error) {
	if step == 0 || n%step == 0 {
		return n, nil
	}
	if n > math.MaxInt64-step {
		return 0, check.Refuse("", "", unit.ErrOverflow, "a quantity that can be rounded up to the step")
	}
	return (n/step + 1) * step, nil
}

// packs gives how many packs hold n.
func packs(n, pack int64) (int, error) {
	if pack == 0 || n == 0 {
		return 0, nil
	}
	k := (n-1)/pack + 1
	if k > math.MaxInt32 {
		return 0, check.Refuse("", strconv.FormatInt(k, 10)+" packs", unit.ErrOverflow, "at most 2147483647 packs")
	}
	return int(k), nil
}

// explain says how use and packs came about.
func (c Charge) explain() []Figure {
	e := c.Entry
	text := e.Price.quantityText
	use := Figure{Name: "use", Value: text(c.Use), Formula: "used", Working: text(c.Used)}
	var rules []string
	if e.Step.n > 0 {
		use.Formula = "used, rounded up to the step it is sold by"
		rules = append(rules, "sold by "+text(e.Step))
	}
	if e.Least.n > 0 {
		rules = append(rules, "at least "+text(e.Least))
	}
	use.Rule = strings.Join(rules, ", ")
	out := []Figure{use}
	if c.Packs > 0 {
		out = append(out, Figure{Name: "packs to order", Value: strconv.Itoa(c.Packs), Formula: "use / pack, rounded up", Working: text(c.Use) + " / " + text(e.Pack),
			Rule: "what lies on the shelf is taken off by who orders"})
	}
	if !c.Cut.IsZero() {
		rule := "once"
		if e.Pack.n > 0 {
			rule = "once, as the use is no whole number of packs"
		}
		out = append(out, Figure{Name: "cut charge", Value: c.Cut.String(), Formula: "a fixed sum", Working: c.Cut.Amount(), Rule: rule})
	}
	return out
}

// Line gives the charge as a line of a quote, with the code as ID and the
// uplift of the entry. Errors are those of Item.Line.
func (c Charge) Line() (Line, error) {
	e := c.Entry
	l := Line{ID: e.Code, Kind: e.Kind, What: e.What, TaxClass: e.TaxClass, Amount: c.priced(), Uplift: e.Uplift, Sells: e.Sells, Figures: c.Figures}.filled()
	_, err := l.exact()
	return l, err
}

// Freight gives the freight of an order of these entries: a line of Delivery
// for each supplier whose entries have freight, the highest of them, once. An
// entry without a supplier is an order of its own. The lines come in the order
// of the entries, at cost, or as listed where that entry sells so.
func Freight(entries ...Entry) ([]Line, error) {
	var highest []Entry
	of := map[string]int{}
	for i, e := range entries {
		if faults := e.faults(); len(faults) > 0 {
			return nil, unit.InField(unit.Path("entries").At(i), faults[0])
		}
		if e.Freight.IsZero() {
			continue
		}
		k, known := of[e.Supplier]
		if known && e.Supplier != "" {
			more, err := e.Freight.Cmp(highest[k].Freight)
			if err != nil {
				return nil, unit.InField(unit.Path("entries").At(i).Dot("freight"), err)
			}
			if more > 0 {
				highest[k] = e
			}
			continue
		}
		of[e.Supplier] = len(highest)
		highest = append(highest, e)
	}
	var out []Line
	for _, e := range highest {
		what := "freight, " + e.What
		if e.Supplier != "" {
			what = "freight, " + e.Supplier
		}
		l, err := LumpSum(Delivery, what, e.Freight)
		if err != nil {
			return nil, err
		}
		l.Sells = e.Sells
		out = append(out, l)
	}
	return out, nil
}
