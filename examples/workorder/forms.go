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
	for _, f := range o.Forms {
		line := s.formLine(f)
		if !f.Priced {
			line += "; not on the quote"
		}
		s.wrapIn("  ", line, 100)
	}
}

func (s *sheet) formLine(f job.PillowForm) string {
	return fmt.Sprintf("%s: %s: %d of %s x %s, %s larger than the cover (%s)", f.Piece, f.Part, f.Count, s.len(f.Width), s.len(f.Depth), s.len(f.TakeUp), f.Basis)
}
