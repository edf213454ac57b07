package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	from "github.com/coverwright/coverwright/cost/job/build"
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
		out = append(out, asked(q)+" ("+string(q.Field)+")")
	}
	return out
}

// asked words a question for who does not write the job file.
func asked(q from.Question) string {
	if q.Piece == "" {
		return q.Text
	}
	return q.Piece + ": " + q.Text
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

// What the cautions say is not in the price, by their letters.
const (
	notPriced = "J2" // of the pieces
	unpriced  = "J7" // findings without a price, and what is not worked out
)

// outOfPrice says what is not in the price of the quote, one by one.
func outOfPrice(o job.WorkOrder) string {
	var out []string
	var names []string
	for _, l := range o.Findings {
		if l.Paid == from.Unpriced {
			names = append(names, strings.ReplaceAll(l.What(), ", ", " ")) // a list has commas of its own
		}
	}
	if len(names) > 0 {
		out = append(out, strings.Join(names, ", "))
	}
	for _, c := range o.Cautions {
		if c.ID == notPriced {
			out = append(out, strings.TrimSuffix(c.Text, "."))
		}
	}
	if n := len(o.Questions); n > 0 {
		out = append(out, plural(n, "open question"))
	}
	return strings.Join(out, "; ")
}

func (s *sheet) findingRows(o job.WorkOrder) []findingRow {
	var out []findingRow
	for _, l := range o.Findings {
		r := findingRow{What: l.What(), Use: s.findingAmount(l.Use, l), How: s.sentence(l.How), Charge: string(l.Paid)}
		if l.Waste != 0 {
			r.How += ", and " + l.Waste.String() + " for waste"
		}
		if l.Paid == from.Priced {
			r.Charge = l.Charge.Grouped()
		}
		if l.Packs > 0 {
			r.Packs = fmt.Sprintf("%d of %s", l.Packs, s.findingAmount(l.Pack, l))
		}
		out = append(out, r)
	}
	return out
}

// findingAmount writes so much of a finding as it is sold.
func (s *sheet) findingAmount(q cost.AnyQuantity, l from.Line) string {
	text, _ := q.Shop(l.SoldBy(s.system()))
	return strings.TrimSuffix(strings.TrimSuffix(text, " pieces"), " piece")
}
