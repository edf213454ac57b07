package pattern

import (
	"math"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
)

// Sizes of the map, in user units.
const (
	mapMargin  = 14.0
	mapGap     = 14.0  // between panels
	mapLargest = 150.0 // side of a square as large as the largest panel
	mapType    = 10.0
	mapLetter  = 11.0
	mapLine    = 13.0 // from line to line
)

// page draws the map with its list.
func (s *survey) page() string {
	width := float64(s.Width)
	keys, y := s.keys(30, width)
	rows, y := stacked(s.rows(), y, math.Inf(1))
	lines := wrapEntries(append(s.seamList(), s.trimList()...), width-2*mapMargin)
	d := s.drawing(s.Title, y+float64(len(lines))*(mapLine+1)+mapMargin, keys, rows)
	for _, l := range lines {
		y += mapLine + 1
		if l.head != "" {
			d.Write(svg.Point{X: mapMargin, Y: y - 4}, mapType, "start", l.head, svg.Attrs("font-weight", "bold")...)
		}
		d.Write(svg.Point{X: mapMargin + l.in, Y: y - 4}, mapType, "start", l.text)
	}
	return d.String()
}

// pages draws the panels alone, on drawings that are no higher than high.
func (s *survey) pages(high float64) []string {
	keys, y := s.keys(30, float64(s.Width))
	title := s.Title
	var out []string
	for rows := s.rows(); len(rows) > 0 || len(out) == 0; y = 34 {
		here, low := stacked(rows, y, high-mapMargin)
		d := s.drawing(title, low+mapMargin, keys, here)
		keys = func(*svg.Drawing) {} // once
		out, rows, title = append(out, d.String()), rows[len(here):], s.Title+", continued"
	}
	return out
}

func (s *survey) rows() []mapRow {
	width := float64(s.Width) - 2*mapMargin
	return rowsOf(s.cells(width), width)
}

// stacked puts rows below each other from y on, as many as end above low but one at
// the least, and gives where they end.
func stacked(rows []mapRow, y, low float64) ([]mapRow, float64) {
	for i := range rows {
		top := y
		if rows[i].heading != "" {
			top += 24
		}
		if i > 0 && top+rows[i].high+mapGap > low {
			return rows[:i], y
		}
		rows[i].top, y = top, top+rows[i].high+mapGap
	}
	return rows, y
}

// drawing begins a drawing of a height with its title, what explains it and rows.
func (s *survey) drawing(title string, height float64, keys func(*svg.Drawing), rows []mapRow) *svg.Drawing {
	width := float64(s.Width)
	height = math.Ceil(height)
	d := svg.New(width, height, title)
	d.Rect(svg.Point{}, width, height, svg.Attrs("fill", "#fff")...)
	d.Write(svg.Point{X: mapMargin, Y: 22}, 14, "start", title, svg.Attrs("font-weight", "bold")...)
	keys(d)
	for _, r := range rows {
		if r.heading != "" {
			d.Write(svg.Point{X: mapMargin, Y: r.top - 8}, 12, "start", r.heading, svg.Attrs("font-weight", "bold")...)
		}
		r.draw(d, width-2*mapMargin)
	}
	return d
}

// Pens of the map.
var (
	mapSewn   = svg.Attrs("stroke", "#000", "stroke-width", "1.8", "fill", "none", "stroke-linecap", "round")
	mapDashed = svg.Attrs("stroke", "#000", "stroke-width", "1.4", "fill", "none", "stroke-dasharray", "5 3")
	mapFree   = svg.Attrs("stroke", "#555", "stroke-width", "0.7", "fill", "none")
)

func (u use) pen() []svg.Attr {
	switch {
	case u.letter:
		return mapSewn
	case u.dashed:
		return mapDashed
	}
	return mapFree
}

// keys explains the lines, as many to a line as fit; it gives what draws them and
// the y below.
func (s *survey) keys(y, width float64) (func(*svg.Drawing), float64) {
	type key struct {
		at   svg.Point
		pen  []svg.Attr
		text string
	}
	all := []key{{pen: mapSewn, text: "A  sewn, by the letter of its seam"}, {pen: mapDashed, text: "stapled flat (2)  fastened, hidden by panel 2"}}
	notes := []string{"All panels face up, grain up the page, sizes finished.", "Left is the sitter’s left."}
	for _, p := range s.panels {
		for _, e := range append(p.edges, p.lines...) {
			if !e.letter && !e.dashed && len(all) == 2 {
				all = append(all, key{pen: mapFree, text: "neither sewn on nor fastened"})
			}
		}
	}
	x := mapMargin
	y += 8
	put := func(wide float64) svg.Point {
		if x > mapMargin && x+wide > width-mapMargin {
			x, y = mapMargin, y+mapLine+2
		}
		at := svg.Point{X: x, Y: y}
		x += wide + 14
		return at
	}
	for i := range all {
		all[i].at = put(30 + svg.TextWidth(all[i].text, mapType))
	}
	for _, t := range notes {
		all = append(all, key{at: put(svg.TextWidth(t, mapType)), text: t})
	}
	return func(d *svg.Drawing) {
		for _, k := range all {
			if k.pen == nil {
				d.Write(k.at, mapType, "start", k.text)
				continue
			}
			d.Line(svg.Point{X: k.at.X, Y: k.at.Y - 3.5}, svg.Point{X: k.at.X + 24, Y: k.at.Y - 3.5}, k.pen...)
			d.Write(svg.Point{X: k.at.X + 30, Y: k.at.Y}, mapType, "start", k.text)
		}
	}, y + 16
}

// cells places the texts of every panel, at a scale at which each fits the width.
func (s *survey) cells(width float64) []*mapCell {
	var largest, widest float64
	for _, m := range s.panels {
		largest = max(largest, math.Sqrt(float64(float64(m.wide)*float64(m.high))))
		widest = max(widest, float64(m.wide))
	}
	scale := min(mapLargest/max(largest, 1), width/max(widest, 1))
	for range 100 {
		fits := true
		var out []*mapCell
		for _, m := range s.panels {
			c := m.cell(scale)
			fits = fits && c.bounds.right-c.bounds.left <= width
			out = append(out, c)
		}
		if fits {
			return out
		}
		scale *= 0.95
	}
	return nil
}

// mapRow is a row of cells.
type mapRow struct {
	heading   string
	cells     []*mapCell
	wide      float64
	high, top float64
}

// rowsOf lays the cells in rows in their order; a later one that makes the
// row not much higher may fill it up. Each prefix begins a row.
func rowsOf(cells []*mapCell, width float64) []mapRow {
	var out []mapRow
	done := make([]bool, len(cells))
	prefix := ""
	for i, c := range cells {
		if done[i] {
			continue
		}
		var r mapRow
		if c.prefix != prefix {
			prefix, r.heading = c.prefix, c.prefix
		}
		skipped := false // once one has not fitted, none that makes the row much higher
		for k := i; k < len(cells); k++ {
			b := cells[k].bounds
			w, h := b.right-b.left, b.bottom-b.top
			if len(r.cells) > 0 {
				w += mapGap
			}
			if done[k] || cells[k].prefix != prefix || len(r.cells) > 0 && (r.wide+w > width || skipped && h > r.high*1.15) {
				skipped = skipped || !done[k]
				continue
			}
			r.wide += w
			r.high = max(r.high, h)
			r.cells, done[k] = append(r.cells, cells[k]), true
		}
		out = append(out, r)
	}
	return out
}

// draw draws the cells of a row, spread over the width within reason.
func (r mapRow) draw(d *svg.Drawing, width float64) {
	spread := min((width-r.wide)/float64(len(r.cells)+1), 24)
	x := mapMargin
	for _, c := range r.cells {
		x += spread
		b := c.bounds
		c.draw(d, svg.Point{X: hundredth(x - b.left), Y: hundredth(r.top + (r.high-(b.bottom-b.top))/2 - b.top)})
		x += b.right - b.left + mapGap
	}
}

// hundredth brings a place to what is written, so that it hangs on the last bit
// of no machine's arithmetic.
func hundredth(x float64) float64 { return math.Round(x*100) / 100 }

// wrappedEntry is a line of a list.
type wrappedEntry struct {
	head, text string
	in         float64 // of the text
}

// wrapEntries breaks a list into lines of a width.
func wrapEntries(list []entry, width float64) []wrappedEntry {
	var out []wrappedEntry
	heads := func(e entry) float64 { return float64(svg.TextWidth(e.head, mapType)*1.1) + 8 }
	column := 22.0 // of the texts, beside all but the longest heads
	for _, e := range list {
		if w := heads(e); w <= width/4 {
			column = max(column, w)
		}
	}
	for _, e := range list {
		head := e.head
		if heads(e) > column {
			for _, t := range wrapWords(head, width, mapType*1.1) {
				out = append(out, wrappedEntry{head: t})
			}
			head = ""
		}
		for _, t := range wrapWords(e.text, width-column, mapType) {
			out = append(out, wrappedEntry{head, t, column})
			head = ""
		}
	}
	return out
}

// wrapWords breaks a text into lines of a width, between words and, where one is
// too long, inside it.
func wrapWords(text string, width, size float64) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		next := strings.TrimSpace(line + " " + word)
		if svg.TextWidth(next, size) <= width {
			line = next
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		line = ""
		for _, r := range word {
			if line != "" && svg.TextWidth(line+string(r), size) > width {
				out = append(out, line)
				line = ""
			}
			line += string(r)
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// onPage brings places on the goods to a panel's own drawing, its lower left
// corner at the origin and y down.
func (m mapped) onPage(points []shape.Point, scale float64) []svg.Point {
	out := make([]svg.Point, len(points))
	for i, q := range points {
		out[i] = svg.Point{X: hundredth(float64(q.X-m.low.X) * scale), Y: hundredth(-float64(q.Y-m.low.Y) * scale)}
	}
	return out
}
