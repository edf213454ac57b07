package workbook

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/unit"
)

// Names of the sheets.
const (
	inputsSheet   = "Inputs"
	cutsSheet     = "Cut list"
	goodsSheet    = "Goods"
	threadSheet   = "Thread"
	foamSheet     = "Foam"
	labourSheet   = "Labour"
	quoteSheet    = "Quote"
	workingsSheet = "Workings"
)

// Options steer the workbook.
type Options struct {
	// Metric writes lengths in millimetres and areas in square metres.
	Metric bool
	// As is the paper of the sheet for the customer; none takes that of paper.Usual.
	As paper.Kind
	// Alone writes that sheet and no other, as figures: a file to send to the customer.
	Alone bool
}

// measures are the units sizes are written in.
type measures struct {
	length         unit.Length
	area           unit.Area
	in, sq, long   string
	exact, rounded string  // formats of exact and of rounded sizes
	tape           float64 // parts of a unit on the tape
}

func measuresOf(metric bool) measures {
	if metric {
		return measures{unit.Millimetre, unit.SquareMetre, "mm", "sq m", "millimetres", "0.0", "0", 1}
	}
	return measures{unit.Inch, unit.SquareFoot, "in", "sq ft", "inches", "0.000", "# ??/??", 16}
}

// quantum is the step sizes must agree to: a nanometre, and for areas the
// square micrometre, as far as a float64 of their size can tell.
func (m measures) quantum() float64 { return 1 / float64(m.length) }

func (m measures) areaStep(want float64) float64 {
	return math.Max(1/float64(m.area), math.Abs(want)*1e-12)
}

// format writes a size as on the tape where it is one of its marks.
func (m measures) format(l unit.Length) string {
	if l%(m.length/unit.Length(m.tape)) == 0 {
		return m.rounded
	}
	return m.exact
}

func (m measures) of(l unit.Length) float64   { return float64(l) / float64(m.length) }
func (m measures) ofArea(a unit.Area) float64 { return float64(a) / float64(m.area) }

// quoting is a quoting workbook being written.
type quoting struct {
	*book
	spec  job.Spec
	order job.WorkOrder
	m     measures
	c     coins

	cuts, goods, foam, labour, work *sheet
	quantities                      []part               // cells of what is bought, and what they were
	buy                             map[string]string    // cell of the quantity to buy, by goods
	foamRow                         map[string]foamCells // by the source of the line
	labourRow                       map[string]string    // cell of the hours, by the source of the line
	first, last                     int                  // rows of the lines in the workings
	discounts                       []int                // those before tax, by their place in the job
	taxed                           int                  // column of the amounts after discount
	piecemeal                       *piecemeal           // the price by what it is of
	amounts                         []*measured          // of each line
}

// Quote writes the quoting workbook of a job that has been worked out, and
// gives the formulas in it with the library's figures.
func Quote(w io.Writer, spec job.Spec, order job.WorkOrder, o Options) ([]Check, error) {
	digits, err := order.Quote.Currency.Digits()
	if err != nil {
		return nil, err
	}
	p, err := paper.Of(order, o.As, nil)
	if err != nil {
		return nil, err
	}
	q := &quoting{book: newBook(), spec: spec, order: order, m: measuresOf(o.Metric), c: coins{digits, order.Quote.Rounding}, buy: map[string]string{}, foamRow: map[string]foamCells{}, labourRow: map[string]string{}}
	defer q.f.Close() //nolint:errcheck // nothing is left to write
	// The first of the sheets, so that its pages are the first in every program.
	q.keep(q.f.SetSheetName("Sheet1", quoteSheet))
	q.inputs()
	q.cutList()
	q.goodsList()
	q.threadList()
	q.foamList()
	q.labourList()
	q.workings()
	q.workingsPage()
	q.byPart(p)
	out := q.book
	if o.Alone {
		out = newBook()
		defer out.f.Close() //nolint:errcheck // nothing is left to write
		out.still = true
		out.keep(q.err)
		out.keep(out.f.SetSheetName("Sheet1", quoteSheet))
	}
	q.customers(p, out)
	if out.err != nil {
		return nil, out.err
	}
	if err := out.finish(order.Name); err != nil {
		return nil, err
	}
	return out.checks, out.writeTo(w)
}

func (b *book) finish(title string) error {
	// The same job gives the same bytes: no date of today.
	if err := b.f.SetDocProps(&excelize.DocProperties{Title: title, Creator: "coverwright", Created: "2000-01-01T00:00:00Z", Modified: "2000-01-01T00:00:00Z"}); err != nil {
		return err
	}
	full := true
	return b.f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &full})
}

// Formats of numbers.
const (
	countFormat   = "0"
	percentFormat = "0.0##%"
	hourFormat    = "0.00"
	twoFormat     = "0.00"
)

func (q *quoting) money() style { return style{format: q.c.format()} }

// name makes a defined name out of the id of goods.
func name(prefix, id string) string {
	return prefix + strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '_'
	}, id)
}

// inputs writes the figures of the job that may be changed.
func (q *quoting) inputs() {
	s := inputSheet{q.add(inputsSheet)}
	s.text(1, q.order.Name, style{kind: title})
	s.row++
	s.text(1, "Shaded figures, such as prices, rates and hours, may be changed, and the quote follows. Money is in "+string(q.order.Quote.Currency)+".", style{kind: note})
	s.row++
	s.text(1, "Sizes and counts are those of the job, in "+q.m.long+": with others, layouts and hours are others too. Change the job and make this file anew.", style{kind: note})
	s.row++
	q.moved(s)
	s.row++
	s.text(1, "This file says what everything costs you: print its sheet Quote for the customer, or make a file of that sheet alone.", style{kind: note})
	s.row += 2
	q.labourInputs(s)
	q.goodsInputs(s)
	q.termsInputs(s)
	s.page(false, q.letter(), 0, 34, 16, 44)
}

// inputSheet is the sheet of the figures that may be changed.
type inputSheet struct{ *sheet }

func (s inputSheet) section(of string) {
	s.row++
	s.text(1, of, style{kind: heading})
	s.blank(2, style{kind: heading})
	s.blank(3, style{kind: heading})
	s.row++
}

// item writes a figure, the name formulas use for it and what it is in or of.
func (s inputSheet) item(label, defined string, v float64, format, unit string) {
	s.text(1, label, style{})
	s.number(2, v, style{kind: input, format: format})
	// The same figure once more, by its own name.
	e := entry{strings.TrimSpace(label), limitOf(format)}
	if format == percentFormat && !slices.Contains([]string{"markup", "burden", "rate_markup", "estimate_high"}, defined) {
		e.limit = share100
	}
	if unit != "" {
		e.is += "\n" + capital(unit) + "."
	}
	delete(s.open, entry{limit: limitOf(format)})
	s.open[e] = []string{at(2, s.row)}
	s.text(3, unit, style{kind: note, gap: true})
	s.define(defined, 2)
	s.row++
}

// labourInputs writes the rate of an hour, or what it is made of.
func (q *quoting) labourInputs(s inputSheet) {
	s.section("Labour")
	cur := string(q.order.Quote.Currency)
	rate := q.labourRate()
	r := q.spec.Quote.ShopRate
	if r == nil {
		s.item("rate of an hour", "labour_rate", rate, "#,##0.00##", cur+" per hour")
		return
	}
	s.item("wage", "wage", perOf(r.Wage).perUnit(float64(unit.Hour)), q.c.format(), cur+" per hour")
	s.item("burden on the wage", "burden", float64(r.Burden), percentFormat, "payroll taxes, insurance, benefits")
	burdened, over := q.c.round("wage*(1+burden)"), "0"
	if r.Hours > 0 {
		s.item("overhead of a year", "overhead_year", figure(r.Overhead), q.c.format(), cur)
		s.item("hours sold in a year", "hours_year", r.Hours.Hours(), "#,##0.0#", "hours, all workers")
		over = q.c.round("overhead_year/hours_year")
	}
	total := "(" + burdened + "+" + over + ")"
	switch {
	case r.Margin != nil:
		s.item("margin of the rate", "rate_margin", float64(*r.Margin), percentFormat, "of the rate that is charged")
		total += "/(1-rate_margin)"
	case r.Markup != nil:
		s.item("markup on the rate", "rate_markup", float64(*r.Markup), percentFormat, "on the rate at cost")
		total += "*(1+rate_markup)"
	}
	s.text(1, "rate of an hour", style{kind: sum})
	s.formula(2, q.c.round(total), rate, q.c.step(), style{kind: sum, format: q.c.format()})
	s.text(3, cur+" per hour", style{kind: note, gap: true})
	s.define("labour_rate", 2)
	s.row++
}

// goodsInputs writes the prices of the goods that are bought.
func (q *quoting) goodsInputs(s inputSheet) {
	s.section("Goods")
	for _, g := range q.spec.Goods {
		if !q.bought(g.ID) {
			continue
		}
		p, per := q.goodsPrice(g)
		s.item(g.Name, name("price_", g.ID), p, "#,##0.00##", string(q.order.Quote.Currency)+" per "+per)
		if g.Kind == job.RollGoods && g.Width > 0 {
			s.text(1, "   width "+q.size(g.Width), style{kind: note})
			s.row++
		}
		q.lost(s, g)
	}
}

// lost writes what of goods is lost, where the sheet counts with it.
func (q *quoting) lost(s inputSheet, g job.GoodsSpec) {
	if g.Kind == job.RollGoods && g.Shrinkage > 0 {
		s.item("   shrinkage", name("shrinkage_", g.ID), float64(g.Shrinkage), percentFormat, "of the length")
	}
	i := slices.IndexFunc(q.order.Purchases, func(p job.Purchase) bool { return p.Goods == g.ID })
	if g.Kind != job.HideGoods || i < 0 {
		return
	}
	if _, holds := byRule(q.order.Purchases[i], g, pricing(g)); holds {
		s.item("   waste", name("waste_", g.ID), float64(wasted(g)), percentFormat, "of the area of a hide")
	}
}

// termsInputs writes the rates of the quote.
func (q *quoting) termsInputs(s inputSheet) {
	s.section("Quote")
	s.item("markup on goods and foam", "markup", float64(q.spec.Quote.Markup), percentFormat, "")
	if q.spec.Quote.Contingency > 0 {
		s.item("contingency", "contingency", float64(q.spec.Quote.Contingency), percentFormat, "of all other lines")
	}
	q.fillInputs(s)
	for i, d := range q.spec.Quote.Discounts {
		if d.Amount.IsZero() {
			s.item("discount: "+d.Name, fmt.Sprintf("discount_%d", i+1), float64(d.Rate), percentFormat, on(d.Kinds))
		} else {
			s.item("discount: "+d.Name, fmt.Sprintf("discount_%d", i+1), figure(d.Amount), q.c.format(), string(q.order.Quote.Currency)+", "+on(d.Kinds))
		}
	}
	for i, t := range q.spec.Quote.Taxes {
		s.item(t.Name, fmt.Sprintf("tax_rate_%d", i+1), float64(t.Rate), percentFormat, on(t.On))
	}
	if a, err := q.order.Quote.Class.Accuracy(); err == nil {
		s.item("estimate, may come out lower by", "estimate_low", float64(a.Low), percentFormat, "known so far: "+a.Stage)
		s.item("estimate, may come out higher by", "estimate_high", float64(a.High), percentFormat, "")
	}
	for i, p := range q.order.Quote.Payments {
		if p.Share > 0 {
			s.item("payment: "+p.Name, fmt.Sprintf("payment_%d", i+1), float64(p.Share), percentFormat, "of the total")
		}
	}
}

func on(kinds []cost.Kind) string {
	if len(kinds) == 0 {
		return "on all lines"
	}
	var names []string
	for _, k := range kinds {
		names = append(names, k.String())
	}
	return "on " + strings.Join(names, ", ")
}

func (q *quoting) size(l unit.Length) string {
	if q.m.length == unit.Millimetre {
		return l.Decimal(unit.Millimetre, 0, unit.Nearest)
	}
	return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest)
}

func (q *quoting) bought(id string) bool {
	for _, p := range q.order.Purchases {
		if p.Goods == id {
			return true
		}
	}
	return false
}

// foamCells are where volume and price of a block of foam stand.
type foamCells struct{ quantity, price string }

// per is a price: an amount for a number of quanta, and what it is for.
type per struct {
	amount, quanta float64
	text           string
}

// perUnit gives the amount for so many quanta.
func (p per) perUnit(quanta float64) float64 { return p.amount * quanta / p.quanta }

func perOf[Q cost.Quantity](p cost.Price[Q]) per {
	return per{figure(p.Amount()), float64(p.Unit()), p.Any().UnitText()}
}

// pricing gives the price of goods.
func pricing(g job.GoodsSpec) per {
	switch { // a customer's own may have no price
	case g.Price.IsZero() && g.Kind == job.RollGoods:
		return per{quanta: float64(unit.Yard), text: "yd"}
	case g.Price.IsZero():
		return per{quanta: float64(unit.SquareFoot), text: "sq ft"}
	}
	if g.Kind == job.RollGoods {
		return perOf(g.Price.PerLength)
	}
	return perOf(g.Price.PerArea)
}

// goodsPrice gives the price as it is typed and what it is for.
func (q *quoting) goodsPrice(g job.GoodsSpec) (float64, string) {
	p := pricing(g)
	return p.amount, p.text
}

// letter tells the paper: letter with inches, A4 with millimetres.
func (q *quoting) letter() bool { return q.m.length == unit.Inch }

// labourRate is the price of an hour as the lines of the quote have it.
func (q *quoting) labourRate() float64 {
	for _, l := range q.order.Quote.Lines {
		if l.Kind == cost.Labour {
			if p, err := cost.PriceAs[unit.Duration](l.Exact.Price); err == nil {
				return perOf(p).perUnit(float64(unit.Hour))
			}
		}
	}
	if r := q.spec.Quote.LabourRate; r.Unit() > 0 {
		return perOf(r).perUnit(float64(unit.Hour))
	}
	return 0
}
