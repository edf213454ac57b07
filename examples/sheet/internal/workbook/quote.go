package workbook

import (
	"io"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/unit"
)

// Names of the sheets.
const (
	cutsSheet     = "Cut list"
	goodsSheet    = "To buy"
	threadSheet   = "Thread"
	foamSheet     = "Foam"
	labourSheet   = "Hours"
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

// paperName is the name of a workbook that says which paper its owner wants.
const paperName = "coverwright_paper"

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
	return measures{unit.Inch, unit.SquareFoot, "in", "sq ft", "inches", "0.000", tapeFormat, 16}
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

	job                             *jobSheets
	lives                           map[string]string // cells of the job that the total follows, and what is set beside them
	refused                         []string          // what makes a job that is refused
	shrinks                         map[string]bool   // goods that the sheet works the shrinkage of out
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
	q := &quoting{book: newBook(), spec: spec, order: order, m: measuresOf(o.Metric), c: coins{digits, order.Quote.Rounding}, buy: map[string]string{}, foamRow: map[string]foamCells{}, labourRow: map[string]string{}, lives: map[string]string{}, shrinks: map[string]bool{}}
	defer q.f.Close() //nolint:errcheck // nothing is left to write
	// The first of the sheets, so that its pages are the first in every program.
	q.keep(q.f.SetSheetName("Sheet1", quoteSheet))
	tables, err := tablesOf(spec, o)
	if err != nil {
		return nil, err
	}
	q.job = q.jobTables(tables, q.letter(), false)
	q.cutList()
	q.goodsList()
	q.threadList()
	q.foamList()
	q.labourList()
	q.mind()
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
	if o.As != 0 && !o.Alone {
		out.keep(out.f.SetDefinedName(&excelize.DefinedName{Name: paperName, RefersTo: `"` + o.As.String() + `"`}))
	}
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
	tapeFormat    = "# #/##" // as on a tape: 18 1/2
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

// letter tells the paper: letter with inches, A4 with millimetres.
func (q *quoting) letter() bool { return q.m.length == unit.Inch }

// labourRate is the price of an hour as the lines of the quote have it.
func (q *quoting) labourRate() float64 {
	for _, l := range q.order.Quote.Lines {
		if hourly(l) {
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
