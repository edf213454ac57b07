package supplies

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// Of gives what must be ordered for a job. Everything that its quote buys is on the list
// once, with the quantity of the quote, and so are findings that have no price. Errors
// wrap unit.ErrUnknown for a system that is none, unit.ErrOverflow for foam or batting
// beyond any measure, unit.ErrRange for sheets of foam that the order does not have, and
// cost.ErrCurrency for an order of two currencies.
func Of(o job.WorkOrder, options Options) (List, error) {
	if err := options.System.Check(); err != nil {
		return List{}, err
	}
	c := collector{order: o, Options: options}
	c.goods()
	c.rough()
	c.foam()
	c.batting()
	c.forms()
	c.findings()
	c.quoted()
	if c.err != nil {
		return List{}, c.err
	}
	out := List{Job: o.Name, Number: o.Number, Due: o.Due, Open: o.Questions}
	for _, l := range c.lines {
		i := slices.IndexFunc(out.Orders, func(x Order) bool {
			return x.Supplier == l.Supplier && (l.Supplier != "" || x.Kind == l.Kind)
		})
		if i < 0 {
			i = len(out.Orders)
			x := Order{Supplier: l.Supplier}
			if l.Supplier == "" {
				x.Kind = l.Kind
			}
			out.Orders = append(out.Orders, x)
		}
		out.Orders[i].Lines = append(out.Orders[i].Lines, l.Line)
		if err := out.Orders[i].freight(l.freight, options.Prices); err != nil {
			return List{}, err
		}
	}
	slices.SortStableFunc(out.Orders, func(a, b Order) int { return last(a) - last(b) })
	return out, nil
}

// last puts named suppliers before the others.
func last(o Order) int {
	if o.Supplier == "" {
		return 1
	}
	return 0
}

// freight notes what is paid once: the highest of the lines.
func (o *Order) freight(m cost.Money, priced bool) error {
	if m.IsZero() {
		return nil
	}
	o.Freight = true
	if !priced {
		return nil
	}
	if o.FreightCost.Currency() != "" {
		more, err := m.Cmp(o.FreightCost)
		if err != nil || more <= 0 {
			return err
		}
	}
	o.FreightCost = m
	return nil
}

// line is a line in the making.
type line struct {
	Line
	freight cost.Money
}

// collector collects the lines of an order.
type collector struct {
	Options
	order job.WorkOrder
	lines []line
	known []string // sources of lines of the quote that are on the list
	err   error
}

// add puts a line on the list.
func (c *collector) add(l line) { c.lines = append(c.lines, l) }

// paid notes that a line of the quote is on the list, and puts in what the shop pays.
func (c *collector) paid(l *line, source string) {
	q, ok := c.quote(source)
	if !ok {
		return
	}
	c.known = append(c.known, q.ID)
	if !c.Prices || c.err != nil || q.Cost.IsZero() {
		return
	}
	if l.Cost.Currency() == "" {
		l.Cost, l.Price = q.Cost, q.Exact.Price
		return
	}
	l.Price = cost.AnyPrice{} // of several
	l.Cost, c.err = l.Cost.Plus(q.Cost)
}

// quote finds the line of the quote that buys what is from a source: a place in the
// order, or the id of goods, of which another line charges what is from stock.
func (c *collector) quote(source string) (cost.QuoteLine, bool) {
	for _, l := range c.order.Quote.From(source) {
		if buys(l) && l.ID != fromStock(source) {
			return l, true
		}
	}
	return cost.QuoteLine{}, false
}

// fromStock is the id of the line that charges goods at hand.
func fromStock(goods string) string { return goods + " from stock" }

// buys tells whether a line of the quote is for what is bought.
func buys(l cost.QuoteLine) bool {
	return l.Kind == cost.Goods || l.Kind == cost.Foam || l.Kind == cost.Sundries
}

// at gives a place in a list of the order.
func at(list string, i int) unit.Path { return unit.Path(list).At(i) }

// plural counts things.
func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// with appends what is not there yet.
func with(list []string, more ...string) []string {
	for _, m := range more {
		if !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return list
}
