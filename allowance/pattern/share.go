package pattern

import (
	"cmp"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Shared is a sheet that holds whole pieces.
type Shared struct {
	Sheet  Sheet   `json:"sheet"` // one from a roll as long as it is cut
	Places []Place `json:"places"`
}

// Place is where a piece lies on a sheet that it shares.
type Place struct {
	Of int `json:"of"` // its number in the list, from 0
	// Turned says that it lies a quarter turn anticlockwise, its grain to the left.
	Turned bool `json:"turned,omitzero"`
	// Shift leads from a point of the pattern, once turned about the origin, to its
	// place from the lower left corner of the paper.
	Shift shape.Point `json:"shift"`
}

// On gives where a point of the pattern lies on the sheet.
func (p Place) On(q shape.Point) shape.Point {
	if p.Turned {
		q = shape.Point{X: -q.Y, Y: q.X}
	}
	return shape.Point{X: q.X + p.Shift.X, Y: q.Y + p.Shift.Y}
}

// between is the white between pieces on one sheet.
const between = 5 * unit.Millimetre

// shelf is a row of pieces on a sheet, from the left; places are from the upper left
// corner of the window.
type shelf struct {
	top, high, end unit.Length
}

// Share lays pieces whole on sheets, upright, in rows: the highest first, each in the
// first row that has room for it. A piece is turned by a quarter only where it does
// not fit as it is drawn. Over lists those that fit neither way, by their place in
// the list. Errors are those of Check of a pattern, at the field patterns[i], and of
// the sheet, at the field sheet.
func Share(pieces []Pattern, on Sheet) (sheets []Shared, over []int, err error) {
	if err := on.Check(); err != nil {
		return nil, nil, unit.InField("sheet", err)
	}
	window := on.window()
	window.X, window.Y = window.X-2*inset, window.Y-2*inset
	type item struct {
		Place
		size shape.Point
	}
	var items []item
	for i, p := range pieces {
		if err := p.Check(); err != nil {
			return nil, nil, unit.InField(check.At("patterns", i), err)
		}
		b := p.Bounds()
		size := shape.Point{X: b.High.X - b.Low.X, Y: b.High.Y - b.Low.Y}
		it := item{Place{Of: i}, size}
		if size.X > window.X || size.Y > window.Y {
			it = item{Place{Of: i, Turned: true}, shape.Point{X: size.Y, Y: size.X}}
		}
		if it.size.X > window.X || it.size.Y > window.Y {
			over = append(over, i)
			continue
		}
		items = append(items, it)
	}
	slices.SortStableFunc(items, func(a, b item) int { return cmp.Compare(b.size.Y, a.size.Y) })
	var shelves [][]shelf // of each sheet
	for _, it := range items {
		n, k, at := room(shelves, it.size, window)
		if n == len(shelves) {
			shelves, sheets = append(shelves, nil), append(sheets, Shared{Sheet: on})
		}
		if k == len(shelves[n]) {
			shelves[n] = append(shelves[n], shelf{at.Y, it.size.Y, 0})
		}
		shelves[n][k].end = at.X + it.size.X + between
		it.Shift = at
		sheets[n].Places = append(sheets[n].Places, it.Place)
	}
	for n := range sheets {
		last := shelves[n][len(shelves[n])-1]
		if on.Roll {
			sheets[n].Sheet.Height = max(last.top+last.high+2*inset+2*on.Margin+on.Foot, 2*on.Margin+on.Overlap+leastCell+on.Foot)
		}
		sheets[n].settle(pieces)
	}
	return sheets, over, nil
}

// room finds the first row with room for a piece, on the first sheet that has one, or
// a new row, or a new sheet.
func room(shelves [][]shelf, size, window shape.Point) (sheet, row int, at shape.Point) {
	for n, rows := range shelves {
		var top unit.Length
		for k, s := range rows {
			if size.Y <= s.high && s.end+size.X <= window.X {
				return n, k, shape.Point{X: s.end, Y: s.top}
			}
			top = s.top + s.high + between
		}
		if top+size.Y <= window.Y {
			return n, len(rows), shape.Point{Y: top}
		}
	}
	return len(shelves), 0, shape.Point{}
}

// settle makes places from the upper left corner of the window places on the paper.
func (s *Shared) settle(pieces []Pattern) {
	left, top := s.Sheet.Margin+inset, s.Sheet.Height-s.Sheet.Margin-inset
	for i, p := range s.Places {
		b := pieces[p.Of].Bounds()
		corner := shape.Point{X: b.Low.X, Y: b.High.Y}
		if p.Turned {
			corner = shape.Point{X: -b.High.Y, Y: b.High.X}
		}
		s.Places[i].Shift = shape.Point{X: left + p.Shift.X - corner.X, Y: top - p.Shift.Y - corner.Y}
	}
}
