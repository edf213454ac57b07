package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// priced gives the line of the quote for a finding, nil for one that is in the
// sundries or has no price.
func (s Spec) priced(x *sum, place int) (*cost.Line, faults) {
	var f faults
	x.Paid = build.Unpriced
	if s.Quote.Sundries.Has(x.ID) {
		x.Paid = build.InSundries
	}
	entries := s.Prices.Entries()
	k := slices.IndexFunc(entries, func(e cost.Entry) bool { return e.Code == x.ID })
	if k < 0 {
		k = slices.IndexFunc(entries, func(e cost.Entry) bool { return e.Code == x.of.ID })
	}
	if k < 0 {
		return nil, nil
	}
	e, at := entries[k], unit.Path("prices").At(k)
	x.Name, x.Supplier, x.Freight = e.What+x.variant(e), e.Supplier, e.Freight
	if x.Paid == build.InSundries {
		return nil, nil
	}
	gross, err := s.inUnit(x, e)
	if err != nil {
		f.add(at.Dot("price"), err)
		return nil, f
	}
	own := s.Findings[x.of.ID]
	if e.Step.IsZero() {
		if e.Step = stepOf(e.Price); own.Step.Like(e.Step) {
			e.Step = own.Step
		}
	}
	if e.Pack.IsZero() && own.Pack.Like(e.Step) {
		e.Pack = own.Pack
	}
	if !e.Pack.IsZero() && raw(e.Pack) < raw(e.Step) {
		e.Step = e.Pack // what is sold in smaller packs has no larger step
	}
	e.Uplift = s.upliftOf(e.Uplift, e.Kind, e.Sells)
	c, err := e.Charge(gross, s.Quote.rounding())
	if err != nil {
		f.addAs(at, err)
		return nil, f
	}
	x.Paid, x.Entry, x.Price, x.Charge = build.Priced, e.Code, e.Price, c.Amount
	x.Use, x.Step, x.Pack, x.Packs, x.Least = c.Use, e.Step, e.Pack, c.Packs, e.Least
	x.entry = e
	line, err := c.Line()
	if err != nil {
		f.addAs(at, err)
		return nil, f
	}
	line.ID, line.Source = x.ID, string(unit.Path("findings").At(place))
	line.Shares, line.What = x.shares(), x.Name
	return &line, nil
}

// variant gives what an entry for all variants of a finding does not name.
func (x *sum) variant(e cost.Entry) string {
	if e.Code != x.of.ID {
		return ""
	}
	return strings.TrimPrefix(x.ID, x.of.ID)
}

// inUnit gives what a finding takes in the kind of unit that its price is for, where
// that is exact: a cloth by area, thread by the cone.
func (s Spec) inUnit(x *sum, e cost.Entry) (cost.AnyQuantity, error) {
	per := e.Price.Unit()
	if per.Like(x.Gross) {
		return x.Gross, nil
	}
	long, _ := cost.QuantityAs[unit.Length](x.Gross)
	if width := s.roll(x.ID); width != 0 && is[unit.Area](per) {
		a, err := long.By(width)
		return cost.AnyOf(a), err
	}
	if x.of.ID == "thread" && is[cost.Pieces](per) && s.Sewing.Cone != 0 {
		n, err := s.cones(x.ID, long)
		return cost.AnyOf(n), err
	}
	want := "a price of " + x.ID + " for what it is counted in, such as " + e.Price.Amount().String() + "/" + unitOf(x.Gross)
	if x.of.ID == "thread" {
		want += ", or for a piece with sewing.cone"
	}
	return x.Gross, check.Refuse("", e.Price.String(), unit.ErrUnknownUnit, want)
}

// cones counts full cones of the mass that the job says.
func (s Spec) cones(id string, l unit.Length) (cost.Pieces, error) {
	for _, t := range thread.Threads() {
		if "thread, "+t.String() != id {
			continue
		}
		each, err := thread.ConeLength(t.Size, s.Sewing.Cone)
		if err != nil {
			return 0, err
		}
		return cost.Pieces((l + each - 1) / each), nil
	}
	return 0, check.Refuse("", id, unit.ErrUnknown, "a thread of the table")
}

// unitOf names what a quantity is counted in.
func unitOf(q cost.AnyQuantity) string {
	switch {
	case is[unit.Length](q):
		return "yd"
	case is[unit.Mass](q):
		return "lb"
	case is[unit.Volume](q):
		return "gal"
	}
	return "piece"
}

// stepOf is what is usually sold by at a price: a quarter of a yard, a foot, half a
// pound, a tenth of a metre.
func stepOf(p cost.AnyPrice) cost.AnyQuantity {
	for _, q := range []struct{ per, step cost.AnyQuantity }{
		{cost.AnyOf(unit.Yard), cost.AnyOf(unit.Yard / 4)}, {cost.AnyOf(unit.Metre), cost.AnyOf(unit.Metre / 10)},
		{cost.AnyOf(unit.Pound), cost.AnyOf(unit.Pound / 2)}, {cost.AnyOf(unit.Kilogram), cost.AnyOf(unit.Kilogram / 10)},
		{cost.AnyOf(unit.USGallon), cost.AnyOf(unit.USGallon / 20)}, {cost.AnyOf(unit.Litre), cost.AnyOf(unit.Litre / 10)},
		{cost.AnyOf(unit.SquareYard), cost.AnyOf(unit.SquareYard / 4)}, {cost.AnyOf(unit.SquareMetre), cost.AnyOf(unit.SquareMetre / 10)},
	} {
		if q.per == p.Unit() {
			return q.step
		}
	}
	if is[cost.Pieces](p.Unit()) {
		return cost.AnyOf(cost.Pieces(1)) // 1.80 USD/1000 pieces
	}
	return p.Unit()
}

// sundries gives the line of the one sum for small findings, none where there is no
// such sum. Pieces of furniture share in it by what their goods and foam cost.
func (s Spec) sundries(lines []cost.Line) ([]cost.Line, error) {
	q := s.Quote.Sundries
	if q == nil {
		return nil, nil
	}
	var goods []cost.Line
	for _, l := range lines {
		if l.Kind == cost.Goods || l.Kind == cost.Foam {
			goods = append(goods, l)
		}
	}
	paid, err := cost.Zero(s.Currency)
	if err != nil {
		return nil, err
	}
	var shared sharing
	if len(goods) > 0 {
		all, err := cost.NewQuote(cost.Terms{Currency: s.Currency, Rounding: s.Quote.rounding()}, goods...)
		if err != nil {
			return nil, err
		}
		paid = all.Cost
		for _, g := range all.Groups {
			n, err := g.Cost.Minor()
			if err != nil {
				return nil, err
			}
			shared.add(g.Name, n)
		}
	}
	amount := q.Amount
	if amount.IsZero() {
		if amount, err = paid.Scale(q.Share, s.Quote.rounding()); err != nil {
			return nil, err
		}
	}
	price, err := cost.Per(amount, cost.Pieces(1))
	if err != nil {
		return nil, err
	}
	what := "sundries: " + strings.Join(q.Covers, ", ")
	line, err := cost.Item[cost.Pieces]{ID: "sundries", Kind: cost.Sundries, What: what, Quantity: 1, Price: price, Uplift: s.Quote.uplift(cost.Sundries), Shares: shared}.Line()
	return []cost.Line{line}, err
}
