package carry

import (
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

func last(a xlsx.Area) xlsx.Cell {
	return xlsx.Cell{Column: a.Column + a.Columns - 1, Row: a.Row + a.Rows - 1}
}

func span(first, last xlsx.Cell) xlsx.Area {
	return xlsx.Area{Cell: first, Columns: last.Column - first.Column + 1, Rows: last.Row - first.Row + 1}
}

func holds(a xlsx.Area, c xlsx.Cell) bool {
	e := last(a)
	return c.Column >= a.Column && c.Column <= e.Column && c.Row >= a.Row && c.Row <= e.Row
}

// within tells whether all of a lies in b.
func within(a, b xlsx.Area) bool { return holds(b, a.Cell) && holds(b, last(a)) }

// common gives what two areas have in common.
func common(a, b xlsx.Area) (xlsx.Area, bool) {
	e, g := last(a), last(b)
	c := span(xlsx.Cell{Column: max(a.Column, b.Column), Row: max(a.Row, b.Row)}, xlsx.Cell{Column: min(e.Column, g.Column), Row: min(e.Row, g.Row)})
	return c, c.Columns > 0 && c.Rows > 0
}

// both gives the least area that holds two.
func both(a, b xlsx.Area) xlsx.Area {
	e, g := last(a), last(b)
	return span(xlsx.Cell{Column: min(a.Column, b.Column), Row: min(a.Row, b.Row)}, xlsx.Cell{Column: max(e.Column, g.Column), Row: max(e.Row, g.Row)})
}

// without gives what is left of an area when another is cut out: above, left, right, below.
func without(a, b xlsx.Area) []xlsx.Area {
	c, some := common(a, b)
	if !some {
		return []xlsx.Area{a}
	}
	e, g := last(a), last(c)
	var out []xlsx.Area
	for _, r := range []xlsx.Area{
		span(a.Cell, xlsx.Cell{Column: e.Column, Row: c.Row - 1}),
		span(xlsx.Cell{Column: a.Column, Row: c.Row}, xlsx.Cell{Column: c.Column - 1, Row: g.Row}),
		span(xlsx.Cell{Column: g.Column + 1, Row: c.Row}, xlsx.Cell{Column: e.Column, Row: g.Row}),
		span(xlsx.Cell{Column: a.Column, Row: g.Row + 1}, e),
	} {
		if r.Columns > 0 && r.Rows > 0 {
			out = append(out, r)
		}
	}
	return out
}

// ref writes an area as B2:C9, or B2.
func ref(a xlsx.Area) string {
	if a.Columns == 1 && a.Rows == 1 {
		return a.String()
	}
	return a.String() + ":" + last(a).String()
}

// areas reads a list of areas; ok is false when one cannot be read, or when there are more
// than any program writes.
func areas(list string) (out []xlsx.Area, ok bool) {
	for f := range strings.FieldsSeq(list) {
		a, good := xlsx.ParseArea(f)
		if !good || len(out) == 10_000 {
			return nil, false
		}
		out = append(out, a)
	}
	return out, true
}

func refs(list []xlsx.Area) string {
	var out []string
	for _, a := range list {
		out = append(out, ref(a))
	}
	return strings.Join(out, " ")
}
