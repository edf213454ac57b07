package supplies

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// goods lists cloth, lining and leather.
func (c *collector) goods() {
	for i, p := range c.order.Purchases {
		l := line{Line: Line{Kind: Rolls, What: p.Name, Supplier: p.Supplier, From: []unit.Path{at("purchases", i)}}}
		for _, k := range c.order.CutsOf(p.Goods) {
			l.Pieces = with(l.Pieces, k.Piece)
		}
		c.paid(&l, p.Goods)
		if roll := rollOf(p); roll != nil {
			c.roll(&l, p, *roll)
		} else {
			c.hides(&l, p)
		}
		c.add(l)
	}
}

// rollOf gives the goods as the layout has them; nil of hides.
func rollOf(p job.Purchase) *material.Roll {
	for _, l := range p.Layouts() {
		if l.Plan.Job.Roll != nil {
			return l.Plan.Job.Roll
		}
	}
	return nil
}

// roll fills in goods by length.
func (c *collector) roll(l *line, p job.Purchase, roll material.Roll) {
	l.Roll = &Roll{Goods: roll, Usable: roll.Usable()}
	per := c.per(p.Goods, cost.AnyOf(unit.Yard), cost.AnyOf(unit.Metre))
	own := p.Stock
	if own != nil {
		for _, r := range own.Remnants {
			l.AtHand = append(l.AtHand, AtHand{Whose: own.Whose, Name: r.On, Remnant: true, Length: r.Plan.Need})
		}
		switch x := own.Sufficiency; {
		case x == nil || !own.Suffices():
		case own.Supply == material.Tight:
			l.AtHand = append(l.AtHand, AtHand{Whose: own.Whose, Name: own.Length, Length: x.Layout})
		default:
			l.AtHand = append(l.AtHand, AtHand{Whose: own.Whose, Name: own.Length, Length: x.Wanted})
		}
		if own.Bring != nil {
			l.AtHand = append(l.AtHand, AtHand{Whose: own.Whose, Comes: true, Length: own.Bring.Order})
		}
	}
	for k := range l.AtHand {
		l.AtHand[k].Text = l.AtHand[k].words(per)
	}
	if p.Length == 0 {
		l.Text = "nothing to order"
		return
	}
	l.Quantity = cost.AnyOf(p.Length)
	l.Text, _ = l.Quantity.Shop(per)
	if p.Plan != nil {
		l.Roll.Need = p.Plan.Need
		need, _ := cost.AnyOf(l.Roll.Need).Shop(per)
		l.Notes = append(l.Notes, "the layout takes "+need+" of it")
	}
	l.Notes = append(l.Notes, "in one length, of one dye lot")
	if len(l.AtHand) > 0 {
		l.Notes = append(l.Notes, "compare it with what is at hand before any of it is cut: another lot may be another shade")
	}
	if p.Ordered != nil && p.Ordered.Spare > 0 {
		l.Notes = append(l.Notes, "one repeat more is in it, for a bolt that starts anywhere in the pattern")
	}
}

// words says what is at hand or is to come.
func (a AtHand) words(per cost.AnyQuantity) string {
	much, _ := cost.AnyOf(a.Length).Shop(per)
	switch {
	case a.Comes && a.Hides > 0:
		return "arrives from the customer: " + plural(a.Hides, "hide") + "; check number and area"
	case a.Comes:
		return "arrives from the customer: " + much + " in one length; check length and width"
	case a.Hides > 0:
		return plural(a.Hides, "hide") + " at hand"
	case a.Remnant:
		return a.Name + ", a remnant" + a.owner() + ", of which " + much + " is used"
	}
	return a.Name + a.owner() + ", of which " + much + " is wanted: check the length"
}

// owner says where a length is the customer's.
func (a AtHand) owner() string {
	if a.Whose == stock.Customers {
		return " of the customer's"
	}
	return ""
}

// hides fills in leather.
func (c *collector) hides(l *line, p job.Purchase) {
	l.Kind = Hides
	if own := p.Stock; own != nil {
		if p.AtHand > 0 {
			l.AtHand = append(l.AtHand, AtHand{Whose: own.Whose, Hides: p.AtHand})
		}
		if own.BringHides > 0 {
			l.AtHand = append(l.AtHand, AtHand{Whose: own.Whose, Comes: true, Hides: own.BringHides, Area: own.BringArea})
		}
	}
	for k := range l.AtHand {
		l.AtHand[k].Text = l.AtHand[k].words(cost.AnyQuantity{})
	}
	if p.Area == 0 {
		l.Text = "nothing to order"
		return
	}
	l.Quantity, l.Count = cost.AnyOf(p.Area), p.Hides
	area, _ := l.Quantity.Shop(c.per(p.Goods, cost.AnyOf(unit.SquareFoot), cost.AnyOf(unit.SquareMetre)))
	l.Text = plural(p.Hides, "hide") + ", " + area + " together"
	l.Notes = append(l.Notes, "of one finish and one tannage")
	if p.Plan == nil || p.Plan.Job.Hides == nil {
		return
	}
	offered := p.Plan.Job.Hides
	for _, i := range p.Plan.Bought {
		if k := i - len(offered.AtHand); k >= 0 && k < len(offered.OnOffer) && i < len(p.Plan.Hides) {
			l.Hides = append(l.Hides, Hide{Name: p.Plan.Hides[i].ID, Area: p.Plan.Hides[i].SoldArea()})
		}
	}
}

// per gives the unit of the price that the quote has, or that of the system.
func (c *collector) per(id string, inches, metric cost.AnyQuantity) cost.AnyQuantity {
	if q, ok := c.quote(id); ok && q.Exact.Price.Unit().Like(inches) {
		return q.Exact.Price.Unit()
	}
	return c.usual(inches, metric)
}

// usual gives the unit of the system.
func (c *collector) usual(inches, metric cost.AnyQuantity) cost.AnyQuantity {
	if c.System == unit.Metric {
		return metric
	}
	return inches
}

// rough lists goods for pieces that nobody has measured.
func (c *collector) rough() {
	for i, r := range c.order.Rough {
		source := at("rough", i)
		l := line{Line: Line{Kind: Rolls, What: r.Name, Supplier: r.Supplier, From: []unit.Path{source}, Pieces: []string{r.Piece}, Rough: true, Count: r.Hides,
			Notes: []string{"by a chart alone: measure the piece before it is ordered"}}}
		if r.Area != 0 {
			l.Kind = Hides
		}
		q, ok := c.quote(string(source))
		if !ok { // the customer's own
			l.Text, l.AtHand, l.Count = "nothing to order", []AtHand{{Whose: stock.Customers, Comes: true, Length: r.Length, Hides: r.Hides, Area: r.Area}}, 0
			l.AtHand[0].Text = l.AtHand[0].words(c.usual(cost.AnyOf(unit.Yard), cost.AnyOf(unit.Metre)))
			c.add(l)
			continue
		}
		c.paid(&l, string(source))
		l.Quantity = q.Exact.Quantity
		if l.Text, _ = q.ShopQuantity(); r.Hides > 0 {
			l.Text = plural(r.Hides, "hide") + ", " + l.Text + " together"
		}
		c.add(l)
	}
}
