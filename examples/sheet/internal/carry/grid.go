package carry

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// grid is a worksheet with its cells by their places.
type grid struct {
	root  *node
	rows  map[int]*node          // without their cells
	cells map[xlsx.Cell]*node    // with their places and styles
	text  map[xlsx.Cell]string   // what stands in them
	bare  map[xlsx.Cell]bool     // cells with a text that is no formula
	order []xlsx.Cell            // by rows
	used  xlsx.Area              // the least area that holds all that is not empty
	by    map[int]map[int]string // what stands in the area of the program, by row and column
}

// gridOf reads a worksheet.
func (b *book) gridOf(root *node, part string) (*grid, error) {
	if root.name != "worksheet" {
		return nil, refuse("%s is a %.50s, no sheet of cells", part, root.name)
	}
	if ns := root.attr("xmlns"); ns != mainNS {
		return nil, damaged("%s: it is no sheet of this format", part)
	}
	g := &grid{root: root, rows: map[int]*node{}, cells: map[xlsx.Cell]*node{}, text: map[xlsx.Cell]string{}, bare: map[xlsx.Cell]bool{}}
	at := 0
	data := root.all("sheetData")
	if len(data) != 1 {
		return nil, damaged("%s: it has no rows, or has them twice", part)
	}
	for _, row := range data[0].all("row") {
		n := at + 1
		if r, some := row.find("r"); some {
			var err error
			if n, err = strconv.Atoi(r); err != nil {
				return nil, damaged("%s: row %.20q", part, r)
			}
		}
		if n <= at || n > xlsx.MostRows {
			return nil, damaged("%s: row %d stands after row %d", part, n, at)
		}
		at = n
		if err := b.rowOf(g, row, n, part); err != nil {
			return nil, err
		}
	}
	return g, nil
}

func (b *book) rowOf(g *grid, row *node, n int, part string) error {
	at := 0
	for _, c := range row.all("c") {
		place := xlsx.Cell{Column: at + 1, Row: n}
		if r, some := c.find("r"); some {
			a, ok := xlsx.ParseArea(r)
			if !ok || a.Rows*a.Columns != 1 || a.Row != n {
				return damaged("%s: cell %.20q in row %d", part, r, n)
			}
			place = a.Cell
		}
		if place.Column <= at || place.Column > xlsx.MostColumns {
			return damaged("%s: cell %s stands after column %d", part, place, at)
		}
		at = place.Column
		c.set("r", place.String())
		g.cells[place] = c
		g.order = append(g.order, place)
		text, err := b.textOf(c)
		if err != nil {
			return fmt.Errorf("%s: cell %s: %w", part, place, err)
		}
		if text != "" {
			g.text[place] = text
			g.bare[place] = c.child("f") == nil && slices.Contains([]string{"s", "str", "inlineStr"}, c.attr("t"))
		}
		if text != "" || c.child("f") != nil {
			if here := span(place, place); g.used.Rows == 0 {
				g.used = here
			} else {
				g.used = both(g.used, here)
			}
		}
	}
	tag := row.tag()
	tag.set("r", strconv.Itoa(n))
	tag.unset("spans")
	g.rows[n] = tag
	return nil
}

// textOf gives what stands in a cell.
func (b *book) textOf(c *node) (string, error) {
	switch v := c.child("v"); c.attr("t") {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(v.words()))
		if err != nil || i < 0 || i >= len(b.plain) {
			return "", damaged("it has a text that is not there")
		}
		return b.plain[i], nil
	case "inlineStr":
		return plainText(c.child("is")), nil
	default:
		return v.words(), nil
	}
}

// plainText gives a text without its formats and readings.
func plainText(n *node) string {
	if n == nil {
		return ""
	}
	var s strings.Builder
	for _, k := range n.kids {
		switch k.name {
		case "t":
			s.WriteString(k.words())
		case "r":
			s.WriteString(k.child("t").words())
		}
	}
	return s.String()
}

// limit says which region is that of the program.
func (g *grid) limit(area xlsx.Area) {
	g.by = map[int]map[int]string{}
	for c, text := range g.text {
		if !holds(area, c) {
			continue
		}
		// What a formula says may change with its figures, the texts in it do not.
		if said := literals(g.cells[c].child("f").words()); said != "" {
			text = said
		}
		g.say(c, text)
	}
	for c, n := range g.cells { // a result that is not stored
		if said := literals(n.child("f").words()); holds(area, c) && g.text[c] == "" && said != "" {
			g.say(c, said)
		}
	}
}

func (g *grid) say(c xlsx.Cell, text string) {
	if g.by[c.Row] == nil {
		g.by[c.Row] = map[int]string{}
	}
	g.by[c.Row][c.Column] = text
}

// literals gives the texts that stand in a formula.
func literals(formula string) string {
	var out []string
	for i, s := range strings.Split(formula, `"`) {
		if i%2 == 1 && strings.TrimSpace(s) != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, " ")
}

// columns gives the columns of a row of the area that are not empty, from the left.
func (g *grid) columns(row int) []int { return sortedKeys(g.by[row]) }

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }

func compare(a, b xlsx.Cell) int { return cmp.Or(a.Row-b.Row, a.Column-b.Column) }

// style gives the number of the style of a cell.
func (g *grid) style(c xlsx.Cell) int {
	if n := g.cells[c]; n != nil {
		return number(n, "s")
	}
	return 0
}

// write puts rows and cells into the sheet.
func (g *grid) write(rows map[int]*node, cells map[xlsx.Cell]*node) {
	data := g.root.child("sheetData")
	data.kids = nil
	var open *node
	at := 0
	begin := func(n int) {
		if open = rows[n]; open == nil {
			open = element("row", "r", strconv.Itoa(n))
		}
		data.add(open)
		at = n
	}
	numbers := slices.Sorted(maps.Keys(rows))
	var used xlsx.Area
	for _, c := range slices.SortedFunc(maps.Keys(cells), compare) {
		for len(numbers) > 0 && numbers[0] <= c.Row {
			begin(numbers[0])
			numbers = numbers[1:]
		}
		if at != c.Row {
			begin(c.Row)
		}
		open.add(cells[c])
		if used.Rows == 0 {
			used = span(c, c)
		}
		used = both(used, span(c, c))
	}
	for _, n := range numbers {
		begin(n)
	}
	if used.Rows == 0 {
		used = span(xlsx.Cell{Column: 1, Row: 1}, xlsx.Cell{Column: 1, Row: 1})
	}
	replace(g.root, "dimension", element("dimension", "ref", ref(used)), sheetOrder)
}
