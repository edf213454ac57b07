package main

import (
	"strings"

	"github.com/coverwright/coverwright/cost/job"
)

// longWords is about what a line of a table holds twice.
const longWords = 240

// useFindings says how much of which finding goes where; what is many words is told by
// the amount for each piece of furniture.
func (s *sheet) useFindings(o job.WorkOrder) []findingRow {
	rows := s.findingRows(o)
	for i, l := range o.Findings {
		if len(rows[i].How) <= longWords {
			continue
		}
		var names []string
		amounts := map[string][]string{}
		for _, p := range l.Pieces {
			amount := s.findingAmount(p.Net, l)
			if amounts[amount] == nil {
				names = append(names, amount)
			}
			amounts[amount] = append(amounts[amount], p.Piece)
		}
		for k, amount := range names {
			names[k] = together(amounts[amount]) + " " + amount
			if len(amounts[amount]) > 1 {
				names[k] += " each"
			}
		}
		rows[i].How = strings.Join(names, "; ")
	}
	return rows
}
