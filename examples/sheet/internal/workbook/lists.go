package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

func (s *sheet) top(of string) {
	s.text(1, of, style{kind: title})
	s.row++
	s.mark()
}

// up rounds up as the formula -INT(0.000001-x) does: the noise of binary
// fractions is no reason for one more.
func up(x float64) float64 { return math.Ceil(x - 1e-6) }

// cutList writes every cut: what is added to the finished size is a figure,
// the cut size, the size on the tape and the area follow from it.
func (q *quoting) cutList() {
	s := q.add(cutsSheet)
	q.cuts = s
	s.top("Cut list")
	m := q.m
	heads := s.row
	s.headings("piece", "part", "goods", ">count", ">finished width", ">finished length", ">added to width", ">added to length",
		">cut width "+m.in, ">cut length "+m.in, ">on the tape, width", ">on the tape, length", ">area "+m.sq)
	exact, tape := style{format: m.exact}, style{format: m.rounded}
	first := s.row
	for _, c := range q.order.Cuts {
		s.text(1, c.Piece, style{wrap: true})
		s.text(2, c.Part, style{wrap: true})
		s.text(3, c.Goods, style{})
		s.countOf(q, 4, c.Piece, c.Part, c.Count)
		sides := []struct {
			finished, cut unit.Length
			place         unit.Path
		}{{c.Finished.Width, c.Cut.Width, q.panelSide(c, "width")}, {c.Finished.Length, c.Cut.Length, q.panelSide(c, "length")}}
		for i, side := range sides {
			if side.finished == 0 {
				s.blank(5+i, style{})
				s.blank(7+i, style{})
				s.number(9+i, m.of(side.cut), style{format: m.exact})
			} else {
				q.sized(s, 5+i, side.place, m.of(side.finished), style{format: m.format(side.finished)})
				s.number(7+i, m.of(side.cut-side.finished), style{format: m.exact})
				s.formula(9+i, at(5+i, s.row)+"+"+at(7+i, s.row), m.of(side.cut), m.quantum(), exact)
			}
			// A thousandth of an inch over is no reason for another sixteenth.
			onTape := math.Ceil(float64(m.of(side.cut)*m.tape)-0.016) / m.tape
			s.formula(11+i, fmt.Sprintf("-INT(0.016-%s*%v)/%v", at(9+i, s.row), m.tape, m.tape), onTape, 1e-6, tape)
		}
		q.cutArea(c)
		s.row++
	}
	if len(q.order.Cuts) > 0 {
		var all unit.Area
		for _, c := range q.order.Cuts {
			all += c.Area
		}
		s.text(1, "all pieces", style{kind: sum})
		for i := 2; i <= 12; i++ {
			s.blank(i, style{kind: sum})
		}
		s.formula(13, "SUM("+at(13, first)+":"+at(13, s.row-1)+")", m.ofArea(all), m.areaStep(m.ofArea(all)), style{kind: sum, format: "0.00"})
		s.row++
	}
	s.page(true, q.letter(), heads, 14, 26, 10, 7, 10, 10, 9, 9, 10, 10, 10, 10, 9)
}

// panelSide is the place of a side of a rectangular panel; none for other cuts.
func (q *quoting) panelSide(c job.Cut, side unit.Path) unit.Path {
	at, i, ok := q.piece(c.Piece)
	if !ok {
		return ""
	}
	for k, p := range q.spec.Pieces[i].Panels {
		if p.Name == c.Part && p.Outline == nil && p.Ripped == nil {
			return at.Dot("panels").At(k).Dot(side)
		}
	}
	return ""
}

// sized writes a size that stands in a cell of the job too.
func (q *quoting) sized(s *sheet, column int, place unit.Path, want float64, st style) {
	c, ok := q.job.cell(place)
	if x, isNumber := c.value.(float64); ok && isNumber && math.Abs(x-want) < q.m.quantum()/2 {
		s.formula(column, fmt.Sprintf("IF(ISNUMBER(%[1]s),%[1]s,%[2]v)", c.ref, want), want, q.m.quantum(), st)
		return
	}
	s.number(column, want, st)
}

// cutArea writes the area of a cut. That of one whose sides are no figures of the job
// grows with the count, and with the sizes of what it is a part of.
func (q *quoting) cutArea(c job.Cut) {
	s, m := q.cuts, q.m
	area, per := m.ofArea(c.Area), q.areaPer()
	gives := float64(c.Count) * m.of(c.Cut.Width) * m.of(c.Cut.Length) / per
	st := style{format: "0.00"}
	grown := q.grown(c)
	_, plainSides := q.job.cell(q.panelSide(c, "width"))
	switch {
	case math.Abs(gives-area) < m.areaStep(area)/2 && (plainSides || grown == ""):
		s.formula(13, fmt.Sprintf("%s*%s*%s/%v", at(4, s.row), at(9, s.row), at(10, s.row), per), area, m.areaStep(area), st)
	case c.Count > 0:
		s.formula(13, times(fmt.Sprintf("%v*%s/%d", area, at(4, s.row), c.Count), grown), area, m.areaStep(area), st)
	default:
		s.number(13, area, st)
	}
}

// areaPer is how many squares of the length unit make a unit of area.
func (q *quoting) areaPer() float64 {
	return float64(q.m.area) / (float64(q.m.length) * float64(q.m.length) / 1e6)
}

func (q *quoting) goodsOf(id string) (job.GoodsSpec, bool) {
	for _, g := range q.spec.Goods {
		if g.ID == id {
			return g, true
		}
	}
	return job.GoodsSpec{}, false
}

// goodsList writes what to buy. The length of a layout is a figure; the
// seller's step and the price are worked out.
func (q *quoting) goodsList() {
	s := q.add(goodsSheet)
	q.goods = s
	s.top("Goods to buy")
	m := q.m
	heads := s.row
	s.headings("goods", "name", ">net area "+m.sq, ">needed, with margin", ">step or hide", ">hides", ">to buy", "unit", ">price", ">cost", "how the need was found")
	first := s.row
	for _, p := range q.order.Purchases {
		g, ok := q.goodsOf(p.Goods)
		if !ok {
			continue
		}
		price := pricing(g)
		s.text(1, p.Goods, style{})
		s.text(2, p.Name, style{wrap: true})
		var net unit.Area
		last := q.cuts.row - 2
		for _, c := range q.order.Cuts {
			if c.Goods == p.Goods {
				net += c.Area
			}
		}
		s.native(3, fmt.Sprintf("SUMIF(%s,%s,%s)", q.cuts.of(span(3, 4, last)), at(1, s.row), q.cuts.of(span(13, 4, last))),
			m.ofArea(net), m.ofArea(p.Net), m.areaStep(m.ofArea(p.Net)), style{format: "0.00"})
		var buy float64
		if g.Kind == job.RollGoods {
			buy = q.rollRow(s, p, g, price)
		} else {
			buy = q.hideRow(s, p, g, price)
		}
		s.text(8, price.text, style{gap: true})
		priceName := name("price_", g.ID)
		s.formula(9, priceName, price.amount, 1e-9, style{format: "#,##0.00##"})
		s.native(10, q.c.round(at(7, s.row)+"*"+at(9, s.row)), q.c.near(buy*price.amount, figure(p.Cost)), figure(p.Cost), q.c.step(), q.money())
		how := ""
		if n := len(p.Answers); n > 0 {
			how = p.Answers[n-1].Kind.String()
		}
		s.text(11, how, style{kind: note, wrap: true, gap: true})
		q.buy[p.Goods] = s.of(fixed(7, s.row))
		s.define(name("buy_", g.ID), 7)
		q.quantities = append(q.quantities, part{q.buy[p.Goods], buy})
		s.row++
	}
	if s.row > first {
		total := 0.0
		for _, p := range q.order.Purchases {
			total += figure(p.Cost)
		}
		s.text(1, "all goods, before markup", style{kind: sum})
		for i := 2; i <= 9; i++ {
			s.blank(i, style{kind: sum})
		}
		s.formula(10, "SUM("+at(10, first)+":"+at(10, s.row-1)+")", total, q.c.step(), style{kind: sum, format: q.c.format()})
		s.row++
	}
	s.page(true, q.letter(), heads, 11, 30, 10, 11, 11, 7, 11, 8, 11, 12, 24)
}

// near gives want when x rounds to it in the currency's way, give or take the
// noise of binary fractions; else x. It decides whether a formula is written.
func (c coins) near(x, want float64) float64 {
	if math.Abs(x-want) < c.step() {
		return want
	}
	return x
}

// growing writes how much of goods is needed: after a change, by their area.
func (q *quoting) growing(column int, need float64, p job.Purchase) {
	s := q.goods
	st := style{format: "0.00#"}
	if p.Net == 0 {
		s.number(column, need, st)
		return
	}
	then := fmt.Sprintf("%v*%s/%v", need, at(3, s.row), q.m.ofArea(p.Net))
	s.formula(column, estimated(fmt.Sprint(need), then), need, 1e-9*max(1, need), st)
}

// longUnit is that of lengths by the roll in the tables of the job.
func (q *quoting) longUnit() float64 {
	if q.m.length == unit.Millimetre {
		return float64(unit.Metre)
	}
	return float64(unit.Yard)
}

func (q *quoting) rollRow(s *sheet, p job.Purchase, g job.GoodsSpec, price per) float64 {
	need, step := p.Length, unit.Length(0)
	if b := p.Ordered; b != nil {
		need, step = b.Need+b.Spare+b.Margin.Total, p.Plan.Job.Roll.Increment
	}
	in := func(l unit.Length) float64 { return float64(l) / price.quanta }
	shrink := 1 / (1 - float64(g.Shrinkage))
	buy := in(p.Length)
	q.growing(4, in(need), p)
	s.blank(6, style{})
	if math.Abs(float64(up(in(need)*shrink/max(in(step), 1e-12))*in(step))-buy) >= 5e-10 || step == 0 || len(g.AtHand) > 0 || p.Stock != nil {
		// What is there already changes with the step and the shrinkage too.
		s.blank(5, style{})
		q.growing(7, buy, p)
		return buy
	}
	place, i := unit.Path("goods"), slices.IndexFunc(q.spec.Goods, func(x job.GoodsSpec) bool { return x.ID == g.ID })
	q.figureOf(s, 5, place.At(i).Dot("increment"), q.longUnit()/price.quanta, in(step), style{format: "0.00#"})
	whole := at(4, s.row)
	if g.Shrinkage > 0 {
		q.shrinks[g.ID] = true
		whole += "/(1-" + name("shrinkage_", g.ID) + ")"
	}
	s.native(7, fmt.Sprintf("-INT(0.000001-%s/%s)*%s", whole, at(5, s.row), at(5, s.row)),
		up(in(need)*shrink/in(step))*in(step), buy, 1e-9, style{format: "0.00#"})
	return buy
}

// wasted is the share of a hide that is lost by rule of thumb.
func wasted(g job.GoodsSpec) unit.Ratio {
	if g.Waste != nil {
		return *g.Waste
	}
	return material.WholeHideWaste().Waste
}

// byRule gives what pieces of hides take with their waste, and whether that is how many
// hides are bought; a layout says it otherwise.
func byRule(p job.Purchase, g job.GoodsSpec, price per) (gross float64, holds bool) {
	in := func(a unit.Area) float64 { return float64(a) / price.quanta }
	gross = in(p.Net) / (1 - float64(wasted(g)))
	hide := in(g.HideArea)
	return gross, hide > 0 && p.Plan == nil && up(gross/hide) == float64(p.Hides)
}

func (q *quoting) hideRow(s *sheet, p job.Purchase, g job.GoodsSpec, price per) float64 {
	in := func(a unit.Area) float64 { return float64(a) / price.quanta }
	buy := in(p.Area)
	hide := in(g.HideArea)
	gross, byRule := byRule(p, g, price)
	if !byRule {
		// A layout says which hides; after a change as much more as the area.
		s.blank(4, style{})
		s.blank(5, style{})
		n := float64(p.Hides)
		if p.Net > 0 {
			then := fmt.Sprintf("-INT(0.000001-%v*%s/%v)", n, at(3, s.row), q.m.ofArea(p.Net))
			s.formula(6, estimated(fmt.Sprint(n), then), n, 1e-9, style{format: countFormat})
		} else {
			s.number(6, n, style{format: countFormat})
		}
		q.growing(7, buy, p)
		return buy
	}
	factor := in(q.m.area)
	s.native(4, fmt.Sprintf("%s*%v/(1-%s)", at(3, s.row), factor, name("waste_", g.ID)), gross, gross, 1e-6, style{format: "0.00"})
	i := slices.IndexFunc(q.spec.Goods, func(x job.GoodsSpec) bool { return x.ID == g.ID })
	q.figureOf(s, 5, unit.Path("goods").At(i).Dot("hide_area"), in(q.m.area), hide, style{format: "0.00"})
	s.formula(6, fmt.Sprintf("-INT(0.000001-%s/%s)", at(4, s.row), at(5, s.row)), float64(p.Hides), 1e-9, style{format: countFormat})
	s.native(7, at(6, s.row)+"*"+at(5, s.row), float64(p.Hides)*hide, buy, 1e-9, style{format: "0.00"})
	return buy
}

// threadList writes thread and needle. What a seam takes is a figure of the
// library; cones follow.
func (q *quoting) threadList() {
	s := q.add(threadSheet)
	s.top("Thread and needles")
	heads := s.row
	long, unitName := unit.Yard, "yd"
	if q.m.length == unit.Millimetre {
		long, unitName = unit.Metre, "m"
	}
	s.headings("pieces", ">layers", "thread", "needle", "point", ">stitch "+q.m.in, ">stitching "+unitName)
	for _, t := range q.order.Sewing.SetUps {
		s.text(1, pieces(t), style{wrap: true})
		s.number(2, float64(t.Layers), style{format: countFormat})
		s.text(3, t.Thread.String(), style{gap: true})
		if t.ByHand {
			s.text(4, "by hand", style{})
			s.blank(5, style{})
			s.blank(6, style{})
		} else {
			s.text(4, t.Needle.String(), style{})
			s.text(5, t.Point.String(), style{wrap: true})
			s.number(6, q.m.of(t.StitchLength), style{format: "0.00#"})
		}
		s.number(7, float64(t.Length)/float64(long), style{format: twoFormat})
		s.row++
	}
	s.row++
	s.headings("thread", ">stitching "+unitName, ">thread "+unitName, ">thread per stitching")
	for _, t := range q.order.Sewing.Threads {
		s.text(1, t.Thread.String(), style{})
		s.number(2, float64(t.Length)/float64(long), style{format: twoFormat})
		s.number(3, float64(t.Consumption.Total)/float64(long), style{format: twoFormat})
		if t.Length > 0 {
			s.formula(4, fmt.Sprintf("IF(%[1]s=0,0,%[2]s/%[1]s)", at(2, s.row), at(3, s.row)), float64(t.Consumption.Total)/float64(t.Length), 1e-9, style{format: twoFormat})
		}
		s.row++
	}
	s.row++
	s.text(1, caution.Pointer, style{kind: note})
	s.row++
	s.page(true, q.letter(), heads, 24, 12, 18, 18, 18, 10, 12)
}

// pieces names the pieces of furniture that a set-up sews on.
func pieces(t job.SetUp) string {
	var out []string
	for _, r := range t.Rows {
		if !slices.Contains(out, r.Piece) {
			out = append(out, r.Piece)
		}
	}
	return strings.Join(out, ", ")
}

// line gives the line of the quote that a place of the order became.
func (q *quoting) line(place unit.Path) cost.QuoteLine {
	lines := q.order.Quote.From(string(place))
	if len(lines) == 0 {
		return cost.QuoteLine{}
	}
	return lines[0]
}

// task is the place of the time that the job gives for a task, each but once.
func (q *quoting) task(b job.Bench, took map[unit.Path]bool) unit.Path {
	if b.FromTable {
		return ""
	}
	for k, e := range q.spec.Errands {
		if here := unit.Path("errands").At(k); b.Piece == "" && e.Time == b.Each && max(1, e.Count) == b.Count && !took[here] {
			took[here] = true
			return here
		}
	}
	at, i, ok := q.piece(b.Piece)
	if !ok {
		return ""
	}
	for k, l := range q.spec.Pieces[i].Labour {
		if here := at.Dot("labour").At(k); l.Task == b.Task && l.Time == b.Each && !took[here] {
			took[here] = true
			return here
		}
	}
	return ""
}

// labourList writes the time at the bench. The hours of pieces alike, learning
// included, are worked out and rounded up to a minute.
func (q *quoting) labourList() {
	s := q.add(labourSheet)
	q.labour = s
	s.top("Hours")
	heads := s.row
	s.headings("piece", "task", ">pieces", ">hours of one", ">learning", ">hours", ">rate", ">cost")
	first := s.row
	total := 0.0
	took := map[unit.Path]bool{}
	for i, b := range q.order.Labour {
		s.text(1, b.Piece, style{wrap: true})
		s.text(2, b.Task, style{wrap: true})
		s.countOf(q, 3, b.Piece, "", b.Count)
		place := q.task(b, took)
		q.figureOf(s, 4, place.Dot("time"), 1, b.Each.Hours(), style{format: hourFormat})
		hours := at(3, s.row) + "*" + at(4, s.row)
		gives := float64(b.Count) * b.Each.Hours()
		if b.Learning != nil {
			q.figureOf(s, 5, place.Dot("learning"), 1, float64(*b.Learning), style{format: percentFormat})
			// Piece k takes the share k^b of the first, b = log2 of the rate.
			sum := fmt.Sprintf("SUMPRODUCT(ROW(INDEX($A:$A,1):INDEX($A:$A,%s))^(LN(%s)/LN(2)))", at(3, s.row), at(5, s.row))
			hours = fmt.Sprintf("-INT(0.0005-%s*%s*60)/60", at(4, s.row), sum)
			times := 0.0
			for k := 1; k <= b.Count; k++ {
				times += math.Pow(float64(k), math.Log2(float64(*b.Learning)))
			}
			gives = math.Ceil(float64(b.Each.Hours()*times*60)-0.0005) / 60
		} else {
			s.blank(5, style{})
		}
		s.native(6, hours, gives, b.Time.Hours(), 1.0/3_600_000, style{format: hourFormat})
		s.formula(7, "labour_rate", q.labourRate(), 1e-9, style{format: "#,##0.00##"})
		source := unit.Path("labour").At(i)
		want := figure(q.line(source).Cost)
		s.native(8, q.c.round(at(6, s.row)+"*"+at(7, s.row)), q.c.near(b.Time.Hours()*q.labourRate(), want), want, q.c.step(), q.money())
		total += want
		q.labourRow[string(source)] = s.of(fixed(6, s.row))
		s.row++
	}
	if s.row > first {
		var hours unit.Duration
		for _, b := range q.order.Labour {
			hours += b.Time
		}
		s.text(1, "all work", style{kind: sum})
		for k := 2; k <= 7; k++ {
			s.blank(k, style{kind: sum})
		}
		s.formula(6, "SUM("+at(6, first)+":"+at(6, s.row-1)+")", hours.Hours(), 1.0/3_600_000, style{kind: sum, format: hourFormat})
		s.formula(8, "SUM("+at(8, first)+":"+at(8, s.row-1)+")", total, q.c.step(), style{kind: sum, format: q.c.format()})
		s.define("labour_hours", 6)
		s.row++
	}
	s.page(false, q.letter(), heads, 17, 34, 8, 10, 10, 9, 10, 12)
}
