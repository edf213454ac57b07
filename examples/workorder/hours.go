package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// ruleOfHours says what usual times are worth.
const ruleOfHours = "Usual times are a rule of thumb: hours of one practised worker who waits for nothing."

// hours sets the figures of the shop beside what is usual, and what the job took
// beside what was quoted.
func (s *sheet) hours(o job.WorkOrder) {
	if rows := usualRows(o); len(rows) > 0 {
		s.head("Usual time, for one piece")
		s.table(func(row func(...string)) {
			row("piece", "by the row", "usual", "range", "in the job")
			for _, r := range rows {
				row(r.Piece, r.Row, r.Usual, r.Range, r.Own)
			}
		})
		s.line("  %s", ruleOfHours)
		for _, text := range leftOut(o) {
			s.wrapIn("  ", text, 100)
		}
	}
	if a := o.Afterwards; a != nil {
		s.head("In the end")
		s.table(func(row func(...string)) {
			row("what", "quoted", "taken", "more", string(o.Quote.Currency))
			for _, r := range s.takenRows(*a) {
				row(r.What, r.Quoted, r.Taken, r.More, r.Cost)
			}
		})
	}
}

// usualRow is a piece, or one of its cushions or tasks, beside what is usual.
type usualRow struct{ Piece, Row, Usual, Range, Own string }

func usualRows(o job.WorkOrder) []usualRow {
	var out []usualRow
	for _, u := range o.Usual {
		for _, p := range u.Parts {
			r := usualRow{u.Piece, p.Row, p.Estimate.Usual.String(), p.Estimate.Time.String(), "as usual"}
			if p.Part != "" {
				r.Piece += ": " + p.Part
			}
			if !u.Priced {
				r.Own = ""
			}
			out = append(out, r)
		}
		if u.Own > 0 {
			out = append(out, usualRow{u.Piece, "all tasks", u.Usual.String(), u.Time.String(), u.Own.String()})
		}
	}
	for _, b := range o.Labour {
		if b.Range == (bench.Span{}) || b.FromTable && b.Piece != "" {
			continue
		}
		r := usualRow{b.Piece + ": " + b.Task, "", b.Usual.String(), b.Range.String(), b.Each.String()}
		for _, t := range b.Does {
			r.Row += ", " + t.String()
		}
		r.Row = strings.TrimPrefix(r.Row, ", ")
		if b.Piece == "" {
			r.Piece = b.Task
		}
		if b.FromTable {
			r.Own = "as usual"
		}
		out = append(out, r)
	}
	return out
}

// leftOut says which tasks of a row are not needed.
func leftOut(o job.WorkOrder) []string {
	var out []string
	for _, u := range o.Usual {
		for _, p := range u.Parts {
			name := u.Piece
			if p.Part != "" {
				name += ": " + p.Part
			}
			for _, l := range p.LeftOut {
				out = append(out, fmt.Sprintf("%s: without %s, as %s.", name, l.Task, l.Why))
			}
		}
	}
	return out
}

// takenRow is what something took beside what was quoted.
type takenRow struct{ What, Quoted, Taken, More, Cost string }

func (s *sheet) takenRows(a job.Afterwards) []takenRow {
	var out []takenRow
	for _, x := range a.Lines {
		what := x.What
		if x.Piece != "" {
			what = x.Piece + ": " + what
		}
		out = append(out, takenRow{what, s.used(x.Quoted), s.used(x.Actual), s.used(x.More), x.Cost.GroupedAmount()})
	}
	return append(out, takenRow{"in all, before markup", "", "", a.Time.String(), a.Cost.GroupedAmount()})
}

// used writes a length of a roll, an area of hides or a time.
func (s *sheet) used(u job.Used) string {
	switch {
	case u.Area != 0:
		return s.area(u.Area, unit.Nearest)
	case u.Time != 0:
		return u.Time.String()
	}
	return s.goodsLen(u.Length, unit.Up)
}
