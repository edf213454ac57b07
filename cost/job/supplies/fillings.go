package supplies

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// grade is what blocks must have in common to be asked for together.
type grade struct {
	firmness foam.IFD25
	density  foam.Range[unit.Density]
	wet      bool
	supplier string
}

func gradeOf(b job.FoamBlock) grade {
	return grade{b.Selection.Target, b.Selection.Density, b.Selection.Request.Wet, b.Supplier}
}

// ask names the foam of a grade.
func (g grade) ask(s unit.System) string {
	force, lo, hi := g.firmness.Force().Decimal(unit.PoundForce, 0, unit.Nearest), g.density.Low.Decimal(unit.PoundPerCubicFoot, 1, unit.Nearest), g.density.High.Decimal(unit.PoundPerCubicFoot, 1, unit.Nearest)
	if s == unit.Metric {
		force, lo, hi = g.firmness.Force().Decimal(unit.Newton, 0, unit.Nearest), g.density.Low.Decimal(unit.KilogramPerCubicMetre, 0, unit.Nearest), g.density.High.Decimal(unit.KilogramPerCubicMetre, 0, unit.Nearest)
	}
	lo, _, _ = strings.Cut(lo, " ") // of the same unit
	out := "foam of " + force + " at 25 % (IFD25, ASTM D3574), " + lo + " to " + hi
	if g.wet {
		out += ", reticulated or closed-cell (drain) foam"
	}
	return out
}

// foam lists foam: blocks of a grade together, then whole sheets.
func (c *collector) foam() {
	var grades []grade
	blocks := map[grade][]int{}
	for i, b := range c.order.Foam {
		if b.PricedBy == job.BySheet {
			continue
		}
		g := gradeOf(b)
		if blocks[g] == nil {
			grades = append(grades, g)
		}
		blocks[g] = append(blocks[g], i)
	}
	for _, g := range grades {
		c.add(c.blocks(g, blocks[g]))
	}
	for i, x := range c.order.Sheets {
		l := line{Line: Line{Kind: FoamSheets, Supplier: x.Supplier, From: []unit.Path{at("sheets", i)}, Quantity: cost.AnyOf(x.Volume), Count: x.Order.Count,
			Text: plural(x.Order.Count, "sheet"), Size: foam.Block{Length: x.Order.Stock.Length, Width: x.Order.Stock.Width, Thickness: x.Order.Stock.Thickness}}}
		for _, k := range x.Blocks {
			if k < 0 || k >= len(c.order.Foam) {
				c.err = check.Refuse(l.From[0].Dot("blocks"), strconv.Itoa(k), unit.ErrRange, "a place in the foam of the order, which has "+plural(len(c.order.Foam), "block"))
				return
			}
			l.What, l.Pieces = gradeOf(c.order.Foam[k]).ask(c.System), with(l.Pieces, c.order.Foam[k].Piece)
		}
		c.paid(&l, string(l.From[0]))
		c.add(l)
	}
}

// blocks gives the line of the blocks of a grade.
func (c *collector) blocks(g grade, of []int) line {
	l := line{Line: Line{Kind: FoamBlocks, What: g.ask(c.System), Supplier: g.supplier}}
	var all unit.Volume
	per := c.usual(cost.AnyOf(unit.BoardFoot), cost.AnyOf(unit.Litre))
	for _, i := range of {
		b, from := c.order.Foam[i], at("foam", i)
		l.From, l.Pieces = append(l.From, from), with(l.Pieces, b.Piece)
		l.Blocks = append(l.Blocks, Block{From: from, Piece: b.Piece, Part: b.Name(), Count: b.Count, Size: b.Cut, Form: b.Form, Back: b.Back, Volume: b.Volume})
		l.Count += b.Count
		all = c.plusVolume(all, b.Volume)
		if q, ok := c.quote(string(from)); ok {
			per = q.Exact.Price.Unit()
		}
		c.paid(&l, string(from))
		if b.Form == job.FoamOutline {
			l.Notes = with(l.Notes, "what is cut to an outline needs its pattern")
		}
	}
	l.Quantity = cost.AnyOf(all)
	volume, _ := l.Quantity.Shop(per)
	l.Text = plural(l.Count, "block") + ", " + volume
	return l
}

// plusVolume adds until an error.
func (c *collector) plusVolume(a, b unit.Volume) unit.Volume {
	if c.err != nil {
		return a
	}
	a, c.err = a.Plus(b)
	return a
}

// batting lists what is wrapped round foam, by thickness and width. What has no price
// and a width is among the findings.
func (c *collector) batting() {
	for i, b := range c.order.Foam {
		w := b.Wrap
		if w == nil || !w.Priced && w.Width != 0 {
			continue
		}
		from := at("foam", i).Dot("wrap")
		l := line{Line: Line{Kind: Batting, What: "batting", Supplier: w.Supplier, From: []unit.Path{from}, Quantity: cost.AnyOf(w.Area), Pieces: []string{b.Piece}, Unpriced: !w.Priced}}
		loft := w.Rule.Batting.Loft
		if c.System == unit.Metric {
			l.What += " " + loft.Decimal(unit.Millimetre, 0, unit.Nearest) + " thick"
		} else {
			l.What += " " + loft.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) + " thick"
		}
		if w.Width != 0 {
			if c.System == unit.Metric {
				l.What += ", " + w.Width.Decimal(unit.Centimetre, 0, unit.Nearest) + " wide"
			} else {
				l.What += ", " + w.Width.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest) + " wide"
			}
		}
		per := c.usual(cost.AnyOf(unit.SquareFoot), cost.AnyOf(unit.SquareMetre))
		if q, ok := c.quote(string(from)); ok {
			l.Quantity, per = q.Exact.Quantity, q.Exact.Price.Unit()
		}
		k := slices.IndexFunc(c.lines, func(o line) bool {
			return o.Kind == Batting && o.What == l.What && o.Supplier == l.Supplier && o.Unpriced == l.Unpriced && o.Quantity.Like(l.Quantity)
		})
		if k < 0 {
			k = len(c.lines)
			c.add(l)
		} else {
			o := &c.lines[k]
			o.From, o.Pieces = append(o.From, from), with(o.Pieces, b.Piece)
			o.Quantity = c.plus(o.Quantity, l.Quantity)
		}
		c.paid(&c.lines[k], string(from))
		c.lines[k].Text, _ = c.lines[k].Quantity.Shop(per)
	}
}

// plus adds lengths or areas until an error.
func (c *collector) plus(a, b cost.AnyQuantity) cost.AnyQuantity {
	if c.err != nil {
		return a
	}
	if x, ok := cost.QuantityAs[unit.Length](a); ok {
		y, _ := cost.QuantityAs[unit.Length](b)
		x, c.err = x.Plus(y)
		return cost.AnyOf(x)
	}
	x, _ := cost.QuantityAs[unit.Area](a)
	y, _ := cost.QuantityAs[unit.Area](b)
	x, c.err = x.Plus(y)
	return cost.AnyOf(x)
}

// forms lists pillow forms, those of one size together.
func (c *collector) forms() {
	for i, f := range c.order.Forms {
		from, size := at("pillow_forms", i), foam.Block{Length: f.Width, Width: f.Depth}
		k := slices.IndexFunc(c.lines, func(o line) bool {
			return o.Kind == PillowForms && o.Size == size && o.Supplier == f.Supplier && o.Unpriced == !f.Priced
		})
		if k < 0 {
			k = len(c.lines)
			c.add(line{Line: Line{Kind: PillowForms, What: "pillow form", Supplier: f.Supplier, Size: size, Unpriced: !f.Priced}})
		}
		o := &c.lines[k]
		o.From, o.Pieces = append(o.From, from), with(o.Pieces, f.Piece)
		o.Count += f.Count
		o.Quantity = cost.AnyOf(cost.Pieces(o.Count))
		o.Text, _ = o.Quantity.Shop(cost.AnyQuantity{})
		c.paid(o, string(from))
	}
}
