package workbook

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/unit/caution"
)

const mindSheet = "To mind"

// mind writes what nobody said, so that it is not in the price, and all cautions.
func (q *quoting) mind() {
	s := q.add(mindSheet)
	s.top("To mind")
	if len(q.order.Questions) > 0 {
		s.headings("nobody said", "for")
		for _, x := range q.order.Questions {
			s.text(1, x.Text, style{wrap: true})
			s.text(2, x.Piece, style{wrap: true})
			s.row++
		}
		s.row++
	}
	s.headings("caution", "of", "for whom", "by which rule")
	for _, c := range q.order.Cautions {
		s.text(1, c.ID+": "+c.Text, style{wrap: true})
		s.text(2, joined(", ", c.About, c.Jurisdiction.String()), style{wrap: true})
		var readers []string
		for _, r := range c.Audience {
			readers = append(readers, r.String())
		}
		s.text(3, strings.Join(readers, ", "), style{wrap: true})
		s.text(4, joined("; ", c.Cited(), founded(c)), style{wrap: true, kind: note})
		s.row++
	}
	s.page(true, q.letter(), 0, 78, 22, 16, 34)
}

// founded says what a caution rests on.
func founded(c caution.Caution) string {
	var out []string
	for _, b := range c.Basis {
		if t := b.Status.String(); !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return strings.Join(out, " and ")
}
