package main

import (
	"fmt"

	"github.com/coverwright/coverwright/cost/job"
)

// forms lists the pillow forms to buy.
func (s *sheet) forms(o job.WorkOrder) {
	if len(o.Forms) == 0 {
		return
	}
	s.head("Pillow forms")
	for _, line := range s.formLines(o) {
		s.wrapIn("  ", line, 100)
	}
}

func (s *sheet) formLines(o job.WorkOrder) []string {
	var out []string
	for _, f := range o.Forms {
		text := fmt.Sprintf("%s: %s: %d of %s x %s, %s larger than the cover (%s)", f.Piece, f.Part, f.Count, s.len(f.Width), s.len(f.Depth), s.len(f.TakeUp), f.Basis)
		if !f.Priced {
			text += "; not on the quote"
		}
		out = append(out, text)
	}
	return out
}
