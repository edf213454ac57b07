package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
)

// ruleOfRough says what figures of pieces are worth that nobody has measured.
const ruleOfRough = "Rules of thumb, for a first word on the price: nothing here is to be cut or bought by. They make the whole quote one of class 5."

// rough lists pieces that nobody has measured.
func (s *sheet) rough(o job.WorkOrder) {
	if len(o.Rough) == 0 {
		return
	}
	s.head("Not measured")
	for _, r := range s.roughRows(o) {
		s.wrapIn("  ", r.Piece+": "+r.Goods+"; "+r.Time, 100)
		for _, step := range r.Steps {
			s.wrapIn("      ", step, 100)
		}
		s.wrapIn("      ", r.Unknown, 100)
	}
	s.wrapIn("  ", ruleOfRough, 100)
}

// roughRow is a piece that nobody has measured.
type roughRow struct {
	Piece, Goods, Time, Unknown string
	Steps                       []string
}

func (s *sheet) roughRows(o job.WorkOrder) []roughRow {
	var out []roughRow
	for _, r := range o.Rough {
		row := roughRow{Piece: fmt.Sprintf("%s, %d", r.Piece, r.Count), Time: "time " + r.Time.String(), Unknown: "not known, and not in the price: " + strings.Join(r.Unknown, ", ")}
		for _, a := range r.Answers {
			row.Steps = append(row.Steps, s.sentence(a.Text)+": "+s.used(job.Used{Length: a.Length, Area: a.Area}))
		}
		row.Goods = r.Name + ", " + s.used(job.Used{Length: r.Length, Area: r.Area})
		out = append(out, row)
	}
	return out
}
