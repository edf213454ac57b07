package carry

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// block is a title or a row of headings with the rows below it, to the next one.
type block struct {
	row   int            // of the title or of the headings; 0 for what stands above the first
	title bool           // in large letters
	under string         // the title above headings
	heads map[int]string // key of the heading, by column
	units map[int]string // unit of the heading, by column
	rows  []int
}

// pairing tells which cell of the new contents means what a cell of the old ones meant.
//
// A row means what its texts say, at best all of them, else the first two, else the first,
// each with its number among rows that say the same, under the same headings. A column
// means what its heading says; without one it is known by its number. The unit at the end
// of a heading or of the first text does not count.
type pairing struct {
	rows   map[int]int // old to new
	same   map[int]bool
	blocks map[int][2]*block // by the old row
	from   *grid             // the old contents
	into   *grid             // the new ones
	shift  int               // columns from the old area to the new one
}

// blocksOf finds titles and headings: rows of nothing but texts, in large letters or in
// bold on a fill.
func blocksOf(g *grid, s *styles, area xlsx.Area, known []*block) []*block {
	now := &block{heads: map[int]string{}, units: map[int]string{}}
	out := []*block{now}
	title := ""
	for row := area.Row; row <= last(area).Row; row++ {
		if g.rows[row] == nil {
			continue
		}
		columns := g.columns(row)
		head, big := headed(g, s, row, columns)
		b := &block{row: row, title: big, heads: map[int]string{}, units: map[int]string{}}
		had := map[string]int{}
		for _, c := range columns {
			key, unit := splitUnit(g.by[row][c])
			had[key]++
			b.heads[c], b.units[c] = key+"#"+strconv.Itoa(had[key]), unit
		}
		if !head {
			// The owner may have changed the format of headings, not what they say.
			if i := slices.IndexFunc(known, func(k *block) bool { return len(columns) > 0 && alike(k, b) }); i >= 0 && texts(g, row, columns) {
				head, b.title = true, known[i].title
			}
		}
		if !head {
			now.rows = append(now.rows, row)
			continue
		}
		if b.under = title; b.title {
			title = b.text()
			b.heads, b.units = map[int]string{}, map[int]string{}
			b.under = title
		}
		now = b
		out = append(out, now)
	}
	return out
}

// text gives all that a heading or title says.
func (b *block) text() string {
	var out []string
	for _, c := range sortedKeys(b.heads) {
		out = append(out, b.heads[c])
	}
	return strings.Join(out, "|")
}

// alike tells whether at least half of the headings are the same.
func alike(a, b *block) bool {
	if len(a.heads) == 0 || len(b.heads) == 0 {
		return false
	}
	n := 0
	for _, k := range b.heads {
		for _, l := range a.heads {
			if k == l {
				n++
				break
			}
		}
	}
	return 2*n >= max(len(a.heads), len(b.heads))
}

// texts tells whether a row has nothing but texts.
func texts(g *grid, row int, columns []int) bool {
	for _, c := range columns {
		if !g.bare[xlsx.Cell{Column: c, Row: row}] {
			return false
		}
	}
	return len(columns) > 0
}

func headed(g *grid, s *styles, row int, columns []int) (head, big bool) {
	if !texts(g, row, columns) {
		return false, false
	}
	l := s.of(g.style(xlsx.Cell{Column: columns[0], Row: row}))
	size := 0.0
	bold := false
	for _, f := range strings.Split(l.font, ";") {
		if v, ok := strings.CutPrefix(f, "sz="); ok {
			if x, err := strconv.ParseFloat(v, 64); err == nil {
				size = x
			}
		}
		bold = bold || f == "b="
	}
	big = size > 11
	return big || bold && strings.HasPrefix(l.fill, "solid"), big
}

// pair pairs old rows with new ones.
func pair(old, fresh *grid, ob, fb []*block) *pairing {
	p := &pairing{rows: map[int]int{}, same: map[int]bool{}, blocks: map[int][2]*block{}, from: old, into: fresh}
	done, taken := map[*block]bool{}, map[*block]bool{}
	join := func(a, b *block) {
		done[a], taken[b] = true, true
		if a.row > 0 && b.row > 0 {
			p.rows[a.row] = b.row
			p.blocks[a.row] = [2]*block{a, b}
			p.same[a.row] = slices.Equal(old.says(a.row), fresh.says(b.row))
		}
		p.pairRows(a, b)
	}
	byKey := func(key func(*block) string) {
		left := map[string][]*block{}
		for _, b := range fb {
			if !taken[b] {
				left[key(b)] = append(left[key(b)], b)
			}
		}
		for _, a := range ob {
			if q := left[key(a)]; !done[a] && len(q) > 0 {
				join(a, q[0])
				left[key(a)] = q[1:]
			}
		}
	}
	kind := func(b *block) string { return strconv.FormatBool(b.title) + strconv.FormatBool(b.row == 0) }
	byKey(func(b *block) string { return kind(b) + b.under + "\x00" + b.text() })
	byKey(func(b *block) string { return kind(b) + b.text() + b.titleText() })
	for _, a := range ob {
		for _, b := range fb {
			if !done[a] && !taken[b] && a.title == b.title && alike(a, b) {
				join(a, b)
			}
		}
	}
	// Titles that say something else now, in their order.
	byKey(func(b *block) string { return kind(b) + map[bool]string{true: "", false: b.text()}[b.title] })
	return p
}

func (b *block) titleText() string {
	if b.title {
		return b.under
	}
	return ""
}

// pairRows pairs the rows of two blocks.
func (p *pairing) pairRows(a, b *block) {
	taken := map[int]bool{}
	for level := range 3 {
		left := map[string][]int{}
		for _, r := range b.rows {
			if k, ok := p.into.rowKey(r, level); ok && !taken[r] {
				left[k] = append(left[k], r)
			}
		}
		for _, r := range a.rows {
			if _, done := p.rows[r]; done {
				continue
			}
			k, ok := p.from.rowKey(r, level)
			if q := left[k]; ok && len(q) > 0 {
				p.rows[r], taken[q[0]] = q[0], true
				p.blocks[r] = [2]*block{a, b}
				p.same[r] = level == 0
				left[k] = q[1:]
			}
		}
	}
}

// says gives the texts of a row that are no formulas and no numbers.
func (g *grid) says(row int) []string {
	var out []string
	for _, c := range g.columns(row) {
		if g.bare[xlsx.Cell{Column: c, Row: row}] {
			out = append(out, g.by[row][c])
		}
	}
	return out
}

// rowKey says what a row means, the closest at level 0.
func (g *grid) rowKey(row, level int) (string, bool) {
	columns := g.columns(row)
	if len(columns) == 0 {
		return "", true
	}
	first, _ := splitUnit(g.by[row][columns[0]])
	switch said := g.says(row); level {
	case 0:
		return first + "\x00" + strings.Join(said, "\x00"), true
	case 1:
		if len(said) < 2 {
			return "", false
		}
		return first + "\x00" + said[1], true
	default:
		return first, true
	}
}

// to gives the cell that means now what a cell meant.
func (p *pairing) to(c xlsx.Cell) (xlsx.Cell, bool) {
	row, ok := p.rows[c.Row]
	if !ok {
		return c, false
	}
	b := p.blocks[c.Row]
	key, some := b[0].heads[c.Column]
	if !some {
		column := c.Column + p.shift
		_, other := b[1].heads[column]
		return xlsx.Cell{Column: column, Row: row}, !other && column > 0
	}
	for _, column := range sortedKeys(b[1].heads) {
		if b[1].heads[column] == key {
			return xlsx.Cell{Column: column, Row: row}, true
		}
	}
	return c, false
}

// sameUnit tells whether the figures of an old and of a new cell are in the same unit, as
// far as headings and texts beside them say.
func (p *pairing) sameUnit(old, fresh xlsx.Cell) bool {
	b := p.blocks[old.Row]
	return b[0].unit(p.from, old) == b[1].unit(p.into, fresh)
}

func (b *block) unit(g *grid, c xlsx.Cell) string {
	out := b.units[c.Column]
	if columns := g.columns(c.Row); len(columns) > 0 {
		_, unit := splitUnit(g.by[c.Row][columns[0]])
		out += "|" + unit
	}
	if _, headed := b.heads[c.Column]; !headed {
		for _, w := range strings.Fields(g.by[c.Row][c.Column+1]) {
			if w = strings.Trim(w, ",.;:()"); slices.Contains(units, w) || isCurrency(w) {
				out += "|" + w
			}
		}
	}
	return out
}

// units are those that headings end with.
var units = []string{"in", "mm", "cm", "m", "ft", "yd", "sq in", "sq ft", "sq yd", "sq m", "m2", "oz", "lb", "g", "kg", "h", "min", "hours", "minutes", "inches", "millimetres", "%", "bd ft", "board feet"}

// splitUnit takes the unit off the end of a heading.
func splitUnit(s string) (key, unit string) {
	s = strings.ToLower(strings.Join(strings.Fields(s), " "))
	for _, u := range units {
		rest, ok := strings.CutSuffix(s, " "+u)
		if ok && len(u) > len(unit) {
			key, unit = strings.TrimRight(rest, ", ("), u
		}
	}
	if unit == "" {
		return s, ""
	}
	return key, unit
}

func isCurrency(w string) bool {
	if len(w) != 3 || w != strings.ToUpper(w) {
		return false
	}
	return cost.Currency(w).Name() != ""
}

// currency gives the currency that the texts of the program speak of most.
func currency(grids []*grid, of []xlsx.Area) string {
	n := map[string]int{}
	for i, g := range grids {
		for c, t := range g.text {
			if !holds(of[i], c) || !g.bare[c] {
				continue
			}
			for w := range strings.FieldsSeq(t) {
				if w = strings.Trim(w, ",.;:()"); isCurrency(w) {
					n[w]++
				}
			}
		}
	}
	best := ""
	for _, w := range sortedKeys(n) {
		if n[w] > n[best] {
			best = w
		}
	}
	return best
}
