package sheet

import (
	"cmp"
	"slices"

	"github.com/coverwright/coverwright/unit"
)

// rows lays faces in rows across the sheet, tallest first, each in the first
// row with room. Every cut runs straight through its row, as a foam saw likes
// it. It tries the faces lengthwise and crosswise and sorted two ways, and
// keeps the answer with the fewest sheets, the first of equals. Every face must
// fit the sheet one way or the other.
func rows(s Stock, kerf unit.Length, faces []face) []Place {
	var best []Place
	fewest := 0
	for _, crosswise := range []bool{false, true} {
		for _, byArea := range []bool{false, true} {
			places, sheets := inRows(s, kerf, faces, crosswise, byArea)
			if best == nil || sheets < fewest {
				best, fewest = places, sheets
			}
		}
	}
	return best
}

// row is a row with room.
type row struct {
	sheet        int
	y, tall, end unit.Length // end is where the next face goes
}

// standing is a face the way round it is laid.
type standing struct {
	index  int
	l, w   unit.Length
	turned bool
}

func inRows(s Stock, kerf unit.Length, faces []face, crosswise, byArea bool) ([]Place, int) {
	order := stand(s, faces, crosswise)
	slices.SortStableFunc(order, func(a, b standing) int {
		if byArea {
			return cmp.Or(cmp.Compare(float64(b.l)*float64(b.w), float64(a.l)*float64(a.w)), cmp.Compare(b.w, a.w))
		}
		return cmp.Or(cmp.Compare(b.w, a.w), cmp.Compare(b.l, a.l))
	})
	places := make([]Place, len(faces))
	var open []row
	var used []unit.Length // how far up each sheet is taken
	for _, f := range order {
		k := slices.IndexFunc(open, func(r row) bool { return f.w <= r.tall && r.end+f.l <= s.Length })
		if k < 0 {
			sheet := slices.IndexFunc(used, func(u unit.Length) bool { return u+f.w <= s.Width })
			if sheet < 0 {
				sheet = len(used)
				used = append(used, 0)
			}
			k = len(open)
			open = append(open, row{sheet: sheet, y: used[sheet], tall: f.w})
			used[sheet] += f.w + kerf
		}
		r := &open[k]
		places[f.index] = Place{Sheet: r.sheet, X: r.end, Y: r.y, Turned: f.turned}
		r.end += f.l + kerf
	}
	return places, len(used)
}

// stand turns the faces: lengthwise lays the longer side along the sheet, for
// low rows; crosswise stands it up, for fewer rows.
func stand(s Stock, faces []face, crosswise bool) []standing {
	out := make([]standing, len(faces))
	for i, f := range faces {
		j := standing{index: i, l: f.Length, w: f.Width}
		if f.turnable && (j.l < j.w) != crosswise && j.l != j.w {
			j.l, j.w, j.turned = j.w, j.l, true
		}
		if j.l > s.Length || j.w > s.Width {
			j.l, j.w, j.turned = j.w, j.l, !j.turned
		}
		out[i] = j
	}
	return out
}
