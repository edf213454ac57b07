package main

import (
	"fmt"
	"strconv"
)

// listRow is the height of a line of the list, in mm; its type has 8.5 pt.
const (
	listType = 8.5
	listLine = 4.0
	listGap  = 4.0 // between columns
)

// list writes the pieces with their sheets, on further pages where they are
// many. Nothing in it is cut short: it is what straight pieces are ruled by.
func (b *patternBook) list(left, y, width, bottom float64) {
	head := []string{"no.", "piece", "cut", "goods", "cut size", "sheets"}
	rows := make([][]string, len(b.drawn))
	for i, p := range b.drawn {
		rows[i] = b.row(p)
	}
	wide := b.columns(append([][]string{head}, rows...), width)
	write := func(style string, cells [][]string) {
		b.pdf.SetFont("go", style, listType)
		x, high := left, 0
		for i, lines := range cells {
			for k, l := range lines {
				b.pdf.Text(x, y+float64(k)*listLine, l)
			}
			x, high = x+wide[i]+listGap, max(high, len(lines))
		}
		y += float64(high)*listLine + 0.6
	}
	cells := func(style string, row []string) [][]string {
		out := make([][]string, len(row))
		for i, c := range row {
			out[i] = b.wrapped(wide[i], listType, style, c)
		}
		return out
	}
	begin := func() {
		write("B", cells("B", head))
		b.line(hair, 1, [2]float64{left, y - 3.5}, [2]float64{left + width, y - 3.5})
		y++
	}
	begin()
	for _, r := range rows {
		c, high := cells("", r), 0
		for _, lines := range c {
			high = max(high, len(lines))
		}
		if y+float64(high-1)*listLine > bottom {
			b.newPage("Full-size patterns: " + b.name)
			y = 18
			begin()
		}
		write("", c)
	}
}

// row is what the list says of a piece.
func (b *patternBook) row(p tiledCut) []string {
	sheets := p.why
	switch n := len(p.Tiles); {
	case p.share > 0 || n == 1:
		sheets = strconv.Itoa(p.first)
	case n > 1:
		sheets = fmt.Sprintf("%d to %d", p.first, p.first+n-1)
	}
	if p.first > 0 && p.half() {
		sheets += ", half"
	}
	return []string{strconv.Itoa(p.number), p.name(), hands(p.cut.Count, p.Pair), p.Goods, b.cutSize(p.cut.Cut), sheets}
}

// columns shares the width of the list out: columns of figures take what they
// need, and those of names what they need or their part of the rest.
func (b *patternBook) columns(rows [][]string, width float64) []float64 {
	const piece, goods = 1, 3
	wide := make([]float64, len(rows[0]))
	for i, r := range rows {
		style := ""
		if i == 0 {
			style = "B"
		}
		b.pdf.SetFont("go", style, listType)
		for k, c := range r {
			wide[k] = max(wide[k], b.pdf.GetStringWidth(b.clean(c))+0.1)
		}
	}
	rest := width - listGap*float64(len(wide)-1)
	for i, w := range wide {
		if i != piece && i != goods {
			rest -= w
		}
	}
	rest = max(rest, 20)
	if wide[piece]+wide[goods] > rest {
		wide[goods] = min(wide[goods], max(rest/3, rest-wide[piece]))
		wide[piece] = rest - wide[goods]
	}
	return wide
}
