package xlsx

import (
	"regexp"
	"strconv"
	"strings"
)

// Cell is a place on a sheet, both counted from 1.
type Cell struct{ Column, Row int }

// String gives the name of the place, such as B12.
func (c Cell) String() string {
	name := ""
	for n := c.Column; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name + strconv.Itoa(c.Row)
}

// Area is a cell or a range of them.
type Area struct {
	Cell
	Columns, Rows int
}

func (a Area) has(c Cell) bool {
	return c.Column >= a.Column && c.Column < a.Column+a.Columns && c.Row >= a.Row && c.Row < a.Row+a.Rows
}

var cellName = regexp.MustCompile(`^\$?([A-Za-z]{1,3})\$?([0-9]{1,7})$`)

// parseCell reads B12 or $B$12.
func parseCell(s string) (Cell, bool) {
	m := cellName.FindStringSubmatch(s)
	if m == nil {
		return Cell{}, false
	}
	var c Cell
	for _, r := range strings.ToUpper(m[1]) {
		c.Column = c.Column*26 + int(r-'A') + 1
	}
	c.Row, _ = strconv.Atoi(m[2]) //nolint:errcheck // at most seven digits
	return c, c.Column <= MostColumns && c.Row >= 1 && c.Row <= MostRows
}

// ParseArea reads B2:C9 or B2, with or without dollar signs.
func ParseArea(s string) (Area, bool) {
	first, last, two := strings.Cut(s, ":")
	if !two {
		last = first
	}
	a, ok := parseCell(first)
	b, ok2 := parseCell(last)
	if !ok || !ok2 {
		return Area{}, false
	}
	at := Cell{min(a.Column, b.Column), min(a.Row, b.Row)}
	return Area{at, max(a.Column, b.Column) - at.Column + 1, max(a.Row, b.Row) - at.Row + 1}, true
}

var reference = regexp.MustCompile(`^=?(?:'((?:[^']|'')+)'|([^'!:]+))!([^!']+)$`)

// ParseReference reads a cell or range of one sheet: Sheet1!$B$2 or
// 'My sheet'!$A$1:$C$9.
func ParseReference(s string) (sheet string, a Area, ok bool) {
	m := reference.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return "", Area{}, false
	}
	a, ok = ParseArea(m[3])
	if m[1] != "" {
		return strings.ReplaceAll(m[1], "''", "'"), a, ok
	}
	return m[2], a, ok
}
