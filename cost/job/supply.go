package job

import (
	"strconv"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// fromRolls takes from lengths at hand what they hold, and gives the lines for it.
func (p *Purchase) fromRolls(g GoodsSpec, t *taken, s Spec) ([]cost.Line, error) {
	alone := *p.Ordered
	p.Stock = &stock.Supplied{Whose: g.Whose, Alone: &alone, Charged: g.charged()}
	if t != nil {
		if err := p.takeFrom(g, t); err != nil {
			return nil, err
		}
	}
	if g.customers() && p.Ordered != nil {
		p.Stock.Bring, p.Ordered, p.Length = p.Ordered, nil, 0
	}
	return p.chargeRolls(g, s)
}

// takeFrom notes which pieces lie on what, and what is still to be ordered.
func (p *Purchase) takeFrom(g GoodsSpec, t *taken) error {
	own := p.Stock
	for _, r := range t.remnants {
		s, err := g.AtHand[r.hand].Of(g.roll()).Suffices(r.plan.Need, r.plan.Spare, material.WorkingMargin{})
		if err != nil {
			return err
		}
		own.Remnants = append(own.Remnants, stock.Laid{On: g.AtHand[r.hand].Name, Plan: *r.plan, Cuts: r.of, Left: s.Left})
	}
	if t.suff != nil {
		own.Sufficiency, own.Supply, own.Length = t.suff, t.suff.Supply, g.AtHand[t.best].Name
	}
	if len(t.remnants) > 0 {
		p.Pieces = t.rest.of
	}
	switch p.Plan = t.rest.plan; {
	case p.Plan == nil:
		own.Supply = material.Enough
		p.Ordered, p.Length = nil, 0
	case t.rest.hand >= 0:
		p.Ordered, p.Length = nil, 0
	default:
		o, err := g.ordered(*p.Plan)
		if err != nil {
			return err
		}
		if p.Ordered, p.Length = &o, o.Order; g.customers() {
			own.Supply = material.Lacking
		}
	}
	return nil
}

// chargeRolls gives the lines for lengths at hand: as much as they spare the shop to
// buy, so that the whole is never dearer than without them, and the fee.
func (p *Purchase) chargeRolls(g GoodsSpec, s Spec) ([]cost.Line, error) {
	spared := unit.Length(0)
	if len(p.Stock.Remnants) > 0 || p.Length == 0 {
		spared = max(p.Stock.Alone.Order-p.Length, 0)
	}
	lines, err := charge(p.Stock, g, spared, g.Price.PerLength, s)
	if err != nil {
		return nil, err
	}
	would, err := would(p.Stock.Alone.Order, g.Price.PerLength, s)
	if err != nil {
		return nil, err
	}
	fee, err := handling(p.Stock, g, stock.Owned{Name: g.Name, Length: p.Stock.Alone.Need, Cost: would, Markup: s.Quote.uplift(cost.Goods).Rate()}, s)
	return append(lines, fee...), err
}

// fromHides takes the hides at hand that are in use, and gives the lines for them.
func (p *Purchase) fromHides(g GoodsSpec, s Spec) ([]cost.Line, error) {
	if p.AtHand == 0 && !g.customers() {
		return nil, nil
	}
	own := &stock.Supplied{Whose: g.Whose, Charged: g.charged(), Supply: material.Enough}
	all := p.Area // of the hides in use
	used := unit.Area(0)
	if p.Plan != nil {
		all = p.Plan.Areas.Sold
		used = all - p.Plan.Areas.Bought
	}
	if p.Hides > 0 {
		own.Supply = material.Lacking
	}
	if g.customers() {
		own.BringHides, own.BringArea = p.Hides, p.Area
		p.Hides, p.Area = 0, 0
	}
	p.Stock = own
	lines, err := charge(own, g, used, g.Price.PerArea, s)
	if err != nil {
		return nil, err
	}
	would, err := would(all, g.Price.PerArea, s)
	if err != nil {
		return nil, err
	}
	fee, err := handling(own, g, stock.Owned{Name: g.Name, Area: all, Cost: would, Markup: s.Quote.uplift(cost.Goods).Rate()}, s)
	return append(lines, fee...), err
}

// charge gives the line for so much of goods at hand, as it is charged.
func charge[Q cost.Quantity](own *stock.Supplied, g GoodsSpec, q Q, price cost.Price[Q], s Spec) ([]cost.Line, error) {
	var err error
	if own.Charge, err = cost.Zero(s.Currency); err != nil || q == 0 || own.Charged == stock.NotCharged {
		return nil, err
	}
	if own.Charge, err = price.Of(q, s.Quote.rounding()); err != nil {
		return nil, err
	}
	line, err := cost.Item[Q]{ID: g.ID + " from stock", Source: g.ID, Kind: cost.Goods, What: g.Name + ", from stock", Quantity: q, Price: price,
		Uplift: own.Charged.Uplift(s.Quote.uplift(cost.Goods))}.Line()
	return []cost.Line{line}, err
}

// would is what so much of goods costs, nothing where they have no price.
func would[Q cost.Quantity](q Q, price cost.Price[Q], s Spec) (cost.Money, error) {
	if price.Unit() == 0 {
		return cost.Zero(s.Currency)
	}
	return price.Of(q, s.Quote.rounding())
}

// handling gives the line of the fee for a customer's own.
func handling(own *stock.Supplied, g GoodsSpec, of stock.Owned, s Spec) ([]cost.Line, error) {
	var err error
	if own.Fee, err = cost.Zero(s.Currency); err != nil || g.Handling == nil {
		return nil, err
	}
	line, fee, err := g.Handling.Line(of, s.Quote.rounding())
	own.Fee, line.ID, line.Source = fee, g.ID+" handling", g.ID
	return []cost.Line{line}, err
}

// atNothing gives the line of goods at hand that are not charged, so that the quote names
// them.
func (p *Purchase) atNothing(s Spec) ([]cost.Line, error) {
	nothing, err := cost.Zero(s.Currency)
	if err != nil {
		return nil, err
	}
	kind, what := cost.Goods, p.Name+", from stock"
	if p.Stock != nil && p.Stock.Whose == stock.Customers {
		kind, what = cost.OwnMaterial, p.Name+", the customer's own"
	}
	line, err := cost.LumpSum(kind, what, nothing)
	line.ID, line.Source = p.Goods, p.Goods
	return []cost.Line{line}, err
}

// stockCaution says what goods at hand lack, and what is tight.
func (p Purchase) stockCaution() string {
	own := p.Stock
	if own == nil {
		return ""
	}
	order := ""
	if own.Bring != nil {
		order = own.Bring.Order.Yardage(unit.Up) + " (" + own.Bring.Order.Decimal(unit.Metre, 2, unit.Up) + ")"
	}
	switch {
	case own.Supply == material.Tight:
		return own.Length + " has room for the layout of " + p.Name + ", but not for all of the margin: measure it, look it over for flaws, and square it before the first cut."
	case own.Bring != nil && own.Supply == material.Lacking:
		return "The customer's own " + p.Name + " lacks: none is bought. The customer is to bring " + order + " in one length, or goods of another width for a new layout."
	case own.Bring != nil:
		return "Nobody said how much of " + p.Name + " the customer has: " + order + " is wanted at this width. Measure it before the quote is given."
	case own.BringHides > 0:
		return "The customer's own " + p.Name + " lacks: none is bought. The customer is to bring " + strconv.Itoa(own.BringHides) + " more, of " +
			own.BringArea.Decimal(unit.SquareFoot, 1, unit.Up) + " together."
	}
	return ""
}
