package foam

import (
	"cmp"
	"context"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// shelves lays parts in rows across the sheet, tallest first, each in the first
// row with room. Every cut runs straight through its row, as a foam saw likes
// it. It is simple and deterministic; a better engine can take its place as a
// Packer.
type shelves struct{}

type shelf struct {
	sheet        int
	y, tall, end unit.Length // end is where the next part goes
}

// Pack tries the parts lengthwise and crosswise and sorted two ways, and keeps
// the answer with the fewest sheets, the first of equals.
func (shelves) Pack(_ context.Context, length, width, kerf unit.Length, parts []Rect) ([]Place, error) {
	var best []Place
	most := 0
	for _, crosswise := range []bool{false, true} {
		for _, byArea := range []bool{false, true} {
			places, sheets, err := packShelves(length, width, kerf, parts, crosswise, byArea)
			if err != nil {
				return nil, err
			}
			if best == nil || sheets < most {
				best, most = places, sheets
			}
		}
	}
	return best, nil
}

func packShelves(length, width, kerf unit.Length, parts []Rect, crosswise, byArea bool) ([]Place, int, error) {
	type job struct {
		index  int
		l, w   unit.Length
		turned bool
	}
	jobs := make([]job, len(parts))
	for i, p := range parts {
		j := job{index: i, l: p.Length, w: p.Width}
		// Lengthwise lays the longer side along the sheet, for low rows;
		// crosswise stands it up, for fewer rows.
		if p.Turnable && (j.l < j.w) != crosswise && j.l != j.w {
			j.l, j.w, j.turned = j.w, j.l, true
		}
		if j.l > length || j.w > width {
			if !p.Turnable || j.w > length || j.l > width {
				return nil, 0, check.Refuse("part", p.Length.String()+" x "+p.Width.String(), ErrNoSheet, "a part that fits the sheet")
			}
			j.l, j.w, j.turned = j.w, j.l, !j.turned
		}
		jobs[i] = j
	}
	slices.SortStableFunc(jobs, func(a, b job) int {
		if byArea {
			return cmp.Or(cmp.Compare(float64(b.l)*float64(b.w), float64(a.l)*float64(a.w)), cmp.Compare(b.w, a.w))
		}
		return cmp.Or(cmp.Compare(b.w, a.w), cmp.Compare(b.l, a.l))
	})
	places := make([]Place, len(parts))
	var rows []shelf
	var used []unit.Length // how far up each sheet is taken
	for _, j := range jobs {
		placed := false
		for i := range rows {
			r := &rows[i]
			if j.w <= r.tall && r.end+j.l <= length {
				places[j.index] = Place{Sheet: r.sheet, X: r.end, Y: r.y, Turned: j.turned}
				r.end += j.l + kerf
				placed = true
				break
			}
		}
		if placed {
			continue
		}
		sheet := slices.IndexFunc(used, func(u unit.Length) bool { return u+j.w <= width })
		if sheet < 0 {
			sheet = len(used)
			used = append(used, 0)
		}
		rows = append(rows, shelf{sheet: sheet, y: used[sheet], tall: j.w, end: j.l + kerf})
		places[j.index] = Place{Sheet: sheet, X: 0, Y: used[sheet], Turned: j.turned}
		used[sheet] += j.w + kerf
	}
	return places, len(used), nil
}
