package supplies

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/unit"
)

// findings lists what goes in beside cover and filling, priced or not, and thread.
func (c *collector) findings() {
	for _, thread := range []bool{false, true} {
		for i, f := range c.order.Findings {
			if thread != strings.HasPrefix(f.ID, "thread") {
				continue
			}
			l := line{Line: Line{Kind: Findings, What: f.What(), Supplier: f.Supplier, From: []unit.Path{at("findings", i)}, Quantity: f.Use,
				Least: f.Least, Pack: f.Pack, Packs: f.Packs, Unpriced: f.Paid == build.Unpriced}, freight: f.Freight}
			if thread {
				l.Kind = Thread
			}
			for _, p := range f.Pieces {
				l.Pieces = with(l.Pieces, p.Piece)
			}
			per := f.SoldBy(c.System)
			l.Text, _ = f.Use.Shop(per)
			if f.Packs > 0 {
				pack, _ := f.Pack.Shop(per)
				l.PackText = strconv.Itoa(f.Packs) + " of " + pack
			}
			if !f.Least.IsZero() {
				least, _ := f.Least.Shop(per)
				l.Notes = append(l.Notes, "no less than "+least+" is sold")
			}
			c.paid(&l, string(l.From[0]))
			c.add(l)
		}
	}
}

// quoted lists sums on the quote for goods that nobody counted, such as an extra for
// buttons. Small findings that one sum pays for are on the list by themselves.
func (c *collector) quoted() {
	listed := map[string]bool{"sundries": true}
	for _, id := range c.known {
		listed[id] = true
	}
	for _, p := range c.order.Purchases {
		listed[fromStock(p.Goods)], listed[p.Goods] = true, true
	}
	for i, q := range c.order.Quote.Lines {
		if !buys(q) || listed[q.ID] {
			continue
		}
		l := line{Line: Line{Kind: Quoted, What: q.What, From: []unit.Path{unit.Path("quote").Dot("lines").At(i)}, Text: "how many is not said"}}
		for _, s := range q.Shares {
			l.Pieces = with(l.Pieces, s.Group)
		}
		if strings.HasPrefix(q.Source, "rough[") { // a share of what it may come to
			l.What, l.Text, l.Rough = "findings", "counted when the piece is measured", true
		}
		if c.Prices {
			l.Cost = q.Cost
		}
		c.add(l)
	}
}
