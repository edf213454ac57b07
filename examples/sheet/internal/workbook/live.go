package workbook

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
	"github.com/coverwright/coverwright/unit"
)

// follow gives the formula that a figure follows a cell of the job by, where one holds it
// so many times as large; else no formula. The cell then turns no mark on while what
// stands in it may stand there.
func (q *quoting) follow(place unit.Path, times, want float64) string {
	c, ok := q.job.cell(place)
	x, isNumber := c.value.(float64)
	lim, limited := fieldLimit(c.table, c.field, q.m.length == unit.Millimetre)
	if !ok || !limited || c.value != nil && !isNumber || c.value == nil && c.field.Kind == jobtable.Price || q.deeper(place) || math.Abs(float64(x*times)-want) > 1e-9*math.Max(1, math.Abs(want)) {
		return ""
	}
	may := fmt.Sprintf("AND(ISNUMBER(%[1]s),%[1]s>=%[2]v,%[1]s<=%[3]v)", c.ref, lim.low, lim.high)
	if c.field.Kind == jobtable.Amount {
		may = fmt.Sprintf("AND(%[1]s,ROUND(N(%[2]s),%[3]d)=%[2]s)", may, c.ref, q.c.digits)
	}
	was := `""`
	if isNumber {
		was = strconv.FormatFloat(x, 'f', -1, 64)
	}
	q.lives[c.ref] = fmt.Sprintf("IF(%s,%s,%s)", may, c.ref, was)
	f := "N(" + c.ref + ")"
	if lim.strict && isNumber {
		f = q.lives[c.ref]
	}
	if times != 1 {
		f = fmt.Sprintf("%s*%v", f, times)
	}
	return f
}

// deeper tells whether more of the job goes by a figure than the sheet works out: the fee
// for a customer's own goods may be a share of what they would have cost with their
// markup, and goods guessed before a job is measured have lines of their own.
func (q *quoting) deeper(place unit.Path) bool {
	price := place.Under("goods") && strings.HasSuffix(string(place), ".price")
	for _, g := range q.spec.Goods {
		if g.Handling != nil && g.Handling.Share != nil && (price || place == "quote.markup" || place == "quote.markup_by.goods") {
			return true
		}
	}
	return price && slices.ContainsFunc(q.spec.Pieces, func(p job.Furniture) bool { return p.Rough != nil })
}

// figureOf writes a figure that follows a cell of the job where one holds it.
func (q *quoting) figureOf(s *sheet, column int, place unit.Path, times, want float64, st style) {
	if f := q.follow(place, times, want); f != "" {
		s.formula(column, f, want, 1e-9*math.Max(1, math.Abs(want)), st)
		return
	}
	s.number(column, want, st)
}

// jobCell is a cell of the tables of the job.
type jobCell struct {
	ref   string
	value any
	table string // its key
	field jobtable.Field
}

// cell gives the cell of a place of the job that numbers stand in.
func (j *jobSheets) cell(place unit.Path) (jobCell, bool) {
	for _, t := range j.tables {
		for k, r := range t.Rows {
			if !place.Under(r.Place) && t.List != "" {
				continue
			}
			i := slices.IndexFunc(t.Fields, func(f jobtable.Field) bool {
				return f.Kind != jobtable.Per && f.Parent == 0 && !f.Key && r.Place.Dot(unit.Path(f.Path)) == place || f.Path == "value" && r.Place == place
			})
			if i >= 0 && numericField(t.Fields[i]) {
				return jobCell{j.ref(t, k, i), r.Cells[i], t.Key, t.Fields[i]}, true
			}
		}
	}
	return jobCell{}, false
}

// ref names the cell of a row and a field.
func (j *jobSheets) ref(t jobtable.Table, row, field int) string {
	a := j.areas[t.Key]
	if t.Form {
		return "'" + a.sheet + "'!" + fixed(a.column+1, a.row+field)
	}
	return "'" + a.sheet + "'!" + fixed(a.column+field, a.row+1+row)
}

// rates writes the rates that the formulas go by, each under a name.
func (q *quoting) rates() {
	q.work.row++
	q.section("rates")
	spec := q.spec.Quote
	q.labourRates()
	for i, g := range q.spec.Goods {
		if q.bought(g.ID) {
			q.goodsRates(unit.Path("goods").At(i), g)
		}
	}
	q.rate("markup on goods and foam", "markup", "quote.markup", float64(spec.Markup), percentFormat)
	if spec.Contingency > 0 {
		q.rate("contingency", "contingency", "quote.contingency", float64(spec.Contingency), percentFormat)
	}
	t := q.order.Quote.Terms
	if q.has(cost.MinimumCharge) {
		q.rate("minimum charge", "least_charge", "quote.least", figure(t.Least), q.c.format())
	}
	if q.has(cost.RoundingUp) {
		q.rate("price rounded up to", "step_of_price", "quote.step", figure(t.Step), q.c.format())
	}
	for i, d := range spec.Discounts {
		at, name := unit.Path("quote.discounts").At(i), fmt.Sprintf("discount_%d", i+1)
		if d.Amount.IsZero() {
			q.rate("discount: "+d.Name+", "+on(d.Kinds), name, at.Dot("rate"), float64(d.Rate), percentFormat)
		} else {
			q.rate("discount: "+d.Name+", "+on(d.Kinds), name, at.Dot("amount"), figure(d.Amount), q.c.format())
		}
	}
	for i, x := range spec.Taxes {
		q.rate(x.Name+", "+on(x.On), fmt.Sprintf("tax_rate_%d", i+1), unit.Path("quote.taxes").At(i).Dot("rate"), float64(x.Rate), percentFormat)
	}
	if a, err := q.order.Quote.Class.Accuracy(); err == nil {
		q.rate("estimate, may come out lower by", "estimate_low", "", float64(a.Low), percentFormat)
		q.rate("estimate, may come out higher by", "estimate_high", "", float64(a.High), percentFormat)
	}
	var shares []string
	for i, p := range q.order.Quote.Payments {
		at := unit.Path("quote.stages").At(i).Dot("share")
		if len(spec.Stages) == 0 {
			at = "quote.deposit"
		}
		if p.Share > 0 {
			shares = append(shares, fmt.Sprintf("payment_%d", i+1))
			q.rate("payment: "+p.Name, fmt.Sprintf("payment_%d", i+1), at, float64(p.Share), percentFormat)
		}
	}
	if len(shares) > 0 && len(shares) == len(q.order.Quote.Payments) {
		q.refused = append(q.refused, "(ABS("+strings.Join(shares, "+")+"-1)>0.000000001)")
	}
	q.outOfDate()
}

func (q *quoting) has(k cost.Kind) bool {
	return slices.ContainsFunc(q.order.Quote.Lines, func(l cost.QuoteLine) bool { return l.Kind == k })
}

// rate writes a rate, and gives it the name that formulas go by.
func (q *quoting) rate(label, name string, place unit.Path, want float64, format string) {
	q.rateTimes(label, name, place, 1, want, format)
}

func (q *quoting) rateTimes(label, name string, place unit.Path, times, want float64, format string) {
	s := q.work
	s.text(1, label, style{wrap: true})
	q.figureOf(s, amountColumn, place, times, want, style{format: format})
	s.define(name, amountColumn)
	s.row++
}

// labourRates writes the rate of an hour, or what it is made of.
func (q *quoting) labourRates() {
	rate, r := q.labourRate(), q.spec.Quote.ShopRate
	const price = "#,##0.00##"
	if r == nil {
		times := 0.0
		if p := q.spec.Quote.LabourRate; p.Unit() > 0 {
			times = float64(unit.Hour) / float64(p.Unit())
		}
		q.rateTimes("rate of an hour", "labour_rate", "quote.labour_rate", times, rate, price)
		return
	}
	at := unit.Path("quote.shop_rate")
	q.rateTimes("wage", "wage", at.Dot("wage"), float64(unit.Hour)/float64(r.Wage.Unit()), perOf(r.Wage).perUnit(float64(unit.Hour)), q.c.format())
	q.rate("burden on the wage", "burden", at.Dot("burden"), float64(r.Burden), percentFormat)
	burdened, over := q.c.round("wage*(1+burden)"), "0"
	if r.Hours > 0 {
		q.rate("overhead of a year", "overhead_year", at.Dot("overhead"), figure(r.Overhead), q.c.format())
		q.rate("hours sold in a year", "hours_year", at.Dot("hours"), r.Hours.Hours(), "#,##0.0#")
		over = q.c.round("overhead_year/hours_year")
	}
	total := "(" + burdened + "+" + over + ")"
	switch {
	case r.Margin != nil:
		q.rate("margin of the rate", "rate_margin", at.Dot("margin"), float64(*r.Margin), percentFormat)
		total += "/(1-rate_margin)"
	case r.Markup != nil:
		q.rate("markup on the rate", "rate_markup", at.Dot("markup"), float64(*r.Markup), percentFormat)
		total += "*(1+rate_markup)"
	}
	s := q.work
	s.text(1, "rate of an hour", style{kind: sum})
	s.formula(amountColumn, q.c.round(total), rate, q.c.step(), style{kind: sum, format: q.c.format()})
	s.define("labour_rate", amountColumn)
	s.row++
}

// goodsRates writes the price of goods, and what of them is lost where the sheet counts
// with it.
func (q *quoting) goodsRates(at unit.Path, g job.GoodsSpec) {
	price := pricing(g)
	q.rate(g.Name+", per "+price.text, name("price_", g.ID), at.Dot("price"), price.amount, "#,##0.00##")
	if q.shrinks[g.ID] {
		q.rate(g.Name+", shrinkage of the length", name("shrinkage_", g.ID), at.Dot("shrinkage"), float64(g.Shrinkage), percentFormat)
	}
	i := slices.IndexFunc(q.order.Purchases, func(p job.Purchase) bool { return p.Goods == g.ID })
	if g.Kind != job.HideGoods || i < 0 {
		return
	}
	if _, holds := byRule(q.order.Purchases[i], g, pricing(g)); holds {
		q.rate(g.Name+", waste of a hide", name("waste_", g.ID), at.Dot("waste"), float64(wasted(g)), percentFormat)
	}
}

const beforeSheet = "Before" // the job as it was worked out

// outOfDate writes the mark that is 1 where a cell of the job was changed that the total
// does not follow, or that makes a job which is refused. It sets every cell beside what it
// was when the job was worked out; a cell that the total follows is set beside itself while
// what stands in it may stand there. Texts are compared as they are shown, which tells an
// empty cell from a zero, and values as they are: both look alike.
func (q *quoting) outOfDate() {
	s := q.add(beforeSheet)
	var differ []string
	row, columns := 1, 1
	for _, t := range q.job.tables {
		a := q.job.areas[t.Key]
		for y := range a.rows {
			for x := range a.columns {
				from, to := at(a.column+x, a.row+y), at(x+1, row+y)
				ref := "'" + a.sheet + "'!" + fixed(a.column+x, a.row+y)
				look, err := q.f.GetCellStyle(a.sheet, from)
				q.keep(err)
				q.keep(q.f.SetCellStyle(beforeSheet, to, to, look))
				q.copyCell(a.sheet, from, to)
				if f := q.lives[ref]; f != "" {
					q.keep(s.f.SetCellFormula(beforeSheet, to, f))
				}
			}
		}
		differ = append(differ, fmt.Sprintf("SUMPRODUCT(1-EXACT(%[1]s&\"\",%[2]s&\"\")*(%[1]s=%[2]s))", a.ref(), "'"+beforeSheet+"'!"+fixed(1, row)+":"+fixed(a.columns, row+a.rows-1)))
		if !t.Form { // rows are read below it too: in the gap above the next table, or as far as any
			far := 1
			if q.job.last(a) {
				far = below
			}
			differ = append(differ, fmt.Sprintf("COUNTA('%s'!%s:%s)", a.sheet, fixed(a.column, a.row+a.rows), fixed(a.column+a.columns-1, a.row+a.rows+far-1)))
		}
		row += a.rows + 1
		columns = max(columns, a.columns)
	}
	s.row = row
	s.own(columns)
	terms, o := q.order.Quote.Terms, q.order.Quote
	// A line would come in that is not there.
	if !terms.Least.IsZero() && !q.has(cost.MinimumCharge) {
		q.refused = append(q.refused, fmt.Sprintf("(%v>SUM(%s))", figure(terms.Least), q.column(q.taxed)))
	}
	if !terms.Step.IsZero() && !q.has(cost.RoundingUp) {
		q.refused = append(q.refused, "("+q.differs("quote_total", figure(o.Total), q.c.step()/2)+")")
	}
	w := q.work
	// What is estimated goes by the first of the two: the second goes by what it comes to.
	for _, m := range []struct{ says, name, any string }{
		{"a cell was changed that the layouts go by: 1", "job_changed", strings.Join(differ, "+")},
		{"the total is an estimate: 1", "out_of_date", strings.Join(append([]string{"job_changed"}, q.refused...), "+")},
	} {
		w.text(1, m.says, style{wrap: true})
		w.formula(amountColumn, "IFERROR(IF("+m.any+">0,1,0),1)", 0, 1, style{format: countFormat})
		w.define(m.name, amountColumn)
		w.row++
	}
	q.keep(q.f.SetSheetVisible(beforeSheet, false))
}

// last tells whether a table is the last one of its sheet.
func (j *jobSheets) last(a area) bool {
	for _, b := range j.areas {
		if b.sheet == a.sheet && b.row > a.row {
			return false
		}
	}
	return true
}

// copyCell copies a value to the sheet of what was.
func (q *quoting) copyCell(sheet, from, to string) {
	kind, err := q.f.GetCellType(sheet, from)
	q.keep(err)
	v, err := q.f.GetCellValue(sheet, from, excelize.Options{RawCellValue: true})
	if q.keep(err); v == "" {
		return
	}
	if kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString {
		q.keep(q.f.SetCellStr(beforeSheet, to, v))
		return
	}
	x, err := strconv.ParseFloat(v, 64)
	q.keep(err)
	q.keep(q.f.SetCellFloat(beforeSheet, to, x, -1, 64))
}

// outOfDateText stands where something was changed that needs the layouts anew.
const outOfDateText = "Changed since it was worked out: what follows is an estimate, with goods by their area, until the file is brought up to date with sheet update."

// mark writes a line that says so where it is so.
func (s *sheet) mark() {
	s.text(1, "", style{kind: alert})
	s.words(1, `IF(out_of_date=1,"`+outOfDateText+`","")`)
	s.row++
}

// piece gives the place of a piece of furniture by its name.
func (q *quoting) piece(name string) (unit.Path, int, bool) {
	for i, p := range q.spec.Pieces {
		if p.Name == name {
			return unit.Path("pieces").At(i), i, true
		}
	}
	return "", 0, false
}

// counted gives the formula of so many of a part of each of a piece of furniture; none
// where they are not so many of each.
func (q *quoting) counted(piece, part string, all int) (formula string, ok bool) {
	at, i, ok := q.piece(piece)
	if !ok || all == 0 {
		return "", false
	}
	rest := all
	var factors []string
	by := func(place unit.Path, was int) {
		if c, ok := q.job.cell(place); ok && rest%was == 0 {
			rest /= was
			factors = append(factors, fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,1)", c.ref))
		}
	}
	by(at.Dot("count"), max(1, q.spec.Pieces[i].Count))
	if len(factors) == 0 {
		return "", false
	}
	if here, ok := q.partOf(piece, part); ok {
		was := 1
		if c, ok := q.job.cell(here.Dot("count")); ok {
			if x, isNumber := c.value.(float64); isNumber {
				was = max(1, int(x))
			}
		}
		by(here.Dot("count"), was)
	}
	if rest != 1 {
		factors = append([]string{strconv.Itoa(rest)}, factors...)
	}
	return strings.Join(factors, "*"), true
}

// countOf writes the number of a part, that follows its count and that of its piece of
// furniture.
func (s *sheet) countOf(q *quoting, column int, piece, part string, all int) {
	st := style{format: countFormat}
	if f, ok := q.counted(piece, part, all); ok {
		s.formula(column, f, float64(all), 1e-9, st)
		return
	}
	s.number(column, float64(all), st)
}

// now gives the formula of a size as it is now, over what it was; none for a cell that
// holds no number.
func (q *quoting) now(place unit.Path) string {
	c, ok := q.job.cell(place)
	x, isNumber := c.value.(float64)
	if !ok || !isNumber || x == 0 {
		return ""
	}
	return fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,%[2]v)/%[2]v", c.ref, x)
}

// partOf gives the place of what a part of a piece of furniture is named after: the
// longest name that it begins with.
func (q *quoting) partOf(piece, part string) (place unit.Path, ok bool) {
	at, i, ok := q.piece(piece)
	if !ok {
		return "", false
	}
	p := q.spec.Pieces[i]
	longest := -1
	for _, list := range []struct {
		name  unit.Path
		names []string
	}{
		{"panels", named(p.Panels, func(x job.PanelSpec) string { return x.Name })},
		{"cushions", named(p.Cushions, func(x job.CushionSpec) string { return x.Name })},
		{"boxings", named(p.Boxings, func(x job.BoxingSpec) string { return x.Name })},
		{"welts", named(p.Welts, func(x job.WeltSpec) string { return x.Name })},
		{"skirts", named(p.Skirts, func(x job.SkirtSpec) string { return x.Name })},
		{"tufted", named(p.Tufted, func(x job.TuftedSpec) string { return x.Name })},
		{"channels", named(p.Channels, func(x job.ChannelsSpec) string { return x.Name })},
		{"foam", named(p.Foam, func(x job.FoamSpec) string { return x.Name })},
	} {
		for k, n := range list.names {
			if len(n) > longest && (part == n || list.name != "panels" && strings.HasPrefix(part, n)) {
				place, longest = at.Dot(list.name).At(k), len(n)
			}
		}
	}
	return place, longest >= 0
}

// grown gives the formula by how much the area of a cut has grown for its size, so far as
// cells of the job say: by its panel, its cushion, or the measures of its kind.
func (q *quoting) grown(c job.Cut) string {
	at, _, ok := q.piece(c.Piece)
	if !ok {
		return ""
	}
	here, ok := q.partOf(c.Piece, c.Part)
	switch {
	case !ok:
		return q.kindGrown(at)
	case here.Under(at.Dot("panels")):
		return q.shapeGrown(here)
	case here.Under(at.Dot("cushions")):
		w, d, t := q.now(here.Dot("width")), q.now(here.Dot("depth")), q.now(here.Dot("thickness"))
		if strings.Contains(c.Part, "boxing") || strings.Contains(c.Part, "welt") || strings.Contains(c.Part, "zip") {
			return times(mean(w, d), t)
		}
		return times(w, d)
	}
	return times(q.now(here.Dot("width")), q.now(here.Dot("length")))
}

func named[T any](list []T, name func(T) string) []string {
	var out []string
	for _, x := range list {
		out = append(out, name(x))
	}
	return out
}

// shapeGrown is that of a panel: its widths by its heights.
func (q *quoting) shapeGrown(at unit.Path) string {
	if w, l := q.now(at.Dot("width")), q.now(at.Dot("length")); w != "" || l != "" {
		return times(w, l)
	}
	var across, along []string
	for _, t := range q.job.tables {
		for k, r := range t.Rows {
			if r.Place != at {
				continue
			}
			for i, f := range t.Fields {
				x, isNumber := r.Cells[i].(float64)
				if _, inner, star := strings.Cut(f.Path, ".*."); star && isNumber && x != 0 && f.Kind == jobtable.Size {
					now := fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,%[2]v)/%[2]v", q.job.ref(t, k, i), x)
					switch inner {
					case "height", "right", "left", "rise":
						along = append(along, now)
					case "diameter", "side_length":
						across, along = append(across, now), append(along, now)
					default:
						across = append(across, now)
					}
				}
			}
		}
	}
	return times(mean(across...), mean(along...))
}

// kindGrown is that of what a kind brings: all its measures together, squared.
func (q *quoting) kindGrown(at unit.Path) string {
	var now []string
	was := 0.0
	for _, t := range q.job.tables {
		for k, r := range t.Rows {
			for i, f := range t.Fields {
				x, isNumber := r.Cells[i].(float64)
				measure := f.Path == "value" && r.Place.Under(at.Dot("measures"))
				beside := r.Place == at && slices.Contains([]string{"width", "depth", "height", "thickness", "front_width", "back_width"}, f.Path)
				if isNumber && (measure || beside) {
					now, was = append(now, fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,%[2]v)", q.job.ref(t, k, i), x)), was+x
				}
			}
		}
	}
	if was == 0 {
		return ""
	}
	return fmt.Sprintf("((%s)/%v)^2", strings.Join(now, "+"), was)
}

// mean is the formula of the mean of some ratios; those that are not known do not count.
func mean(ratios ...string) string {
	ratios = slices.DeleteFunc(ratios, func(s string) bool { return s == "" })
	if len(ratios) < 2 {
		return strings.Join(ratios, "")
	}
	return fmt.Sprintf("(%s)/%d", strings.Join(ratios, "+"), len(ratios))
}

// times is the formula of a product of ratios.
func times(ratios ...string) string {
	ratios = slices.DeleteFunc(ratios, func(s string) bool { return s == "" })
	for i, r := range ratios {
		ratios[i] = "(" + r + ")"
	}
	return strings.Join(ratios, "*")
}

// estimated gives the formula of a figure that stands until something was changed, and
// then goes by another.
func estimated(stands, then string) string {
	return fmt.Sprintf("IF(job_changed=1,%s,%s)", then, stands)
}
