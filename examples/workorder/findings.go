package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	from "github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/unit"
)

type findingRow struct{ What, Use, Packs, Charge, How string }

// findings lists what goes in beside cover, foam and work.
func (s *sheet) findings(o job.WorkOrder) {
	if len(o.Findings) == 0 {
		return
	}
	s.head("Findings")
	rows := s.findingRows(o)
	s.table(func(row func(cells ...string)) {
		row("what", "use", "order", "at the list's price")
		for _, r := range rows {
			row(r.What, r.Use, r.Packs, r.Charge)
		}
	})
	for _, r := range rows {
		s.wrapIn("  ", r.What+": "+r.How, 100)
	}
}

// questions lists what nobody said.
func (s *sheet) questions(o job.WorkOrder) {
	if len(o.Questions) == 0 {
		return
	}
	s.head("Open questions")
	for _, q := range questionLines(o) {
		s.wrapIn("  ", q, 100)
	}
}

func questionLines(o job.WorkOrder) []string {
	var out []string
	for _, q := range o.Questions {
		out = append(out, fmt.Sprintf("%s: %s (%s)", q.Piece, q.Text, q.Field))
	}
	return out
}

// notInPrice says what is not in the price of the quote.
func notInPrice(o job.WorkOrder) string {
	var out []string
	if o.Unpriced > 0 {
		out = append(out, plural(o.Unpriced, "finding")+" without a price")
	}
	if n := len(o.Questions); n > 0 {
		out = append(out, plural(n, "open question"))
	}
	return strings.Join(out, ", ")
}

func (s *sheet) findingRows(o job.WorkOrder) []findingRow {
	var out []findingRow
	for _, l := range o.Findings {
		r := findingRow{What: l.ID, Use: s.findingAmount(l.Use, l), How: s.sentence(l.How), Charge: string(l.Paid)}
		if l.Waste != 0 {
			r.How += ", and " + l.Waste.String() + " for waste"
		}
		if l.Paid == from.Priced {
			r.Charge = l.Charge.String()
		}
		if l.Packs > 0 {
			r.Packs = fmt.Sprintf("%d of %s", l.Packs, s.findingAmount(l.Pack, l))
		}
		out = append(out, r)
	}
	return out
}

// findingAmount writes an amount of a finding as a shop does: in the unit of its price, or in
// what it is usually sold by, up to an eighth or to the hundredth.
func (s *sheet) findingAmount(q cost.AnyQuantity, l from.Line) string {
	per := l.Price.Unit()
	if long, ok := cost.QuantityAs[unit.Length](q); ok {
		of, priced := cost.QuantityAs[unit.Length](per)
		step, _ := cost.QuantityAs[unit.Length](l.Step)
		switch {
		case priced && of%unit.Metre == 0, !priced && s.metric:
			return long.Decimal(unit.Metre, 2, unit.Up)
		case priced && of == unit.Foot, !priced && step%unit.Foot == 0 && step != 0:
			return long.Mixed(unit.Foot, unit.Eighths, unit.Up)
		}
		return long.Mixed(unit.Yard, unit.Eighths, unit.Up)
	}
	if m, ok := cost.QuantityAs[unit.Mass](q); ok {
		if of, priced := cost.QuantityAs[unit.Mass](per); priced && of%unit.Gram == 0 || !priced && s.metric {
			return short(m.Decimal(unit.Kilogram, 2, unit.Up))
		}
		return short(m.Decimal(unit.Pound, 2, unit.Up))
	}
	if v, ok := cost.QuantityAs[unit.Volume](q); ok {
		if of, priced := cost.QuantityAs[unit.Volume](per); priced && of%unit.Litre == 0 || !priced && s.metric {
			return short(v.Decimal(unit.Litre, 2, unit.Up))
		}
		return short(v.Decimal(unit.USGallon, 2, unit.Nearest)) // a step is no whole number of nanolitres
	}
	if a, ok := cost.QuantityAs[unit.Area](q); ok {
		if s.metric {
			return short(a.Decimal(unit.SquareMetre, 2, unit.Up))
		}
		return short(a.Decimal(unit.SquareYard, 2, unit.Up))
	}
	return strings.TrimSuffix(strings.TrimSuffix(q.String(), " pieces"), " piece")
}

// short leaves out zeros after the point.
func short(text string) string {
	number, u, _ := strings.Cut(text, " ")
	if strings.Contains(number, ".") {
		number = strings.TrimSuffix(strings.TrimRight(number, "0"), ".")
	}
	return number + " " + u
}
