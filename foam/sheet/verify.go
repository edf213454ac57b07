package sheet

import (
	"errors"

	"github.com/coverwright/coverwright/unit"
)

// errBadLayout says a layout does not hold: a cut is missing, off its sheet,
// turned against its will, or too near another.
var errBadLayout = errors.New("layout does not hold")

// verify checks that every face lies on its sheet and a kerf away from every
// other, and counts the sheets. It shares nothing with what laid them.
func verify(s Stock, kerf unit.Length, faces []face, places []Place) (int, error) {
	if len(places) != len(faces) {
		return 0, errBadLayout
	}
	type box struct{ x0, y0, x1, y1 unit.Length }
	sheets := map[int][]box{}
	highest := 0
	for i, p := range places {
		l, w := faces[i].Length, faces[i].Width
		if p.Turned {
			if !faces[i].turnable {
				return 0, errBadLayout
			}
			l, w = w, l
		}
		b := box{p.X, p.Y, p.X + l, p.Y + w}
		if p.Sheet < 0 || b.x0 < 0 || b.y0 < 0 || b.x1 > s.Length || b.y1 > s.Width {
			return 0, errBadLayout
		}
		for _, o := range sheets[p.Sheet] {
			if b.x0 < o.x1+kerf && o.x0 < b.x1+kerf && b.y0 < o.y1+kerf && o.y0 < b.y1+kerf {
				return 0, errBadLayout
			}
		}
		sheets[p.Sheet] = append(sheets[p.Sheet], b)
		highest = max(highest, p.Sheet)
	}
	if highest != len(sheets)-1 {
		return 0, errBadLayout
	}
	return len(sheets), nil
}
