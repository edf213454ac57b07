package main

import (
	"fmt"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
)

// clean replaces what the font has no picture of.
func (b *patternBook) clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		if g, err := b.glyphs.GlyphIndex(&b.buf, r); r > 0xffff || err != nil || g == 0 {
			return '?'
		}
		return r
	}, s)
}

// text writes one line at a baseline; align is L, C or R. It is shortened to
// the width it may take.
func (b *patternBook) text(x, y, size float64, style, align, s string, most float64) {
	s = b.clean(s)
	b.pdf.SetFont("go", style, size)
	if most > 0 && b.pdf.GetStringWidth(s) > most {
		r := []rune(s)
		for len(r) > 1 && b.pdf.GetStringWidth(string(r)+"…") > most {
			r = r[:len(r)-1]
		}
		s = string(r) + "…"
	}
	switch align {
	case "C":
		x -= b.pdf.GetStringWidth(s) / 2
	case "R":
		x -= b.pdf.GetStringWidth(s)
	}
	b.pdf.Text(x, y, s)
}

// paragraph writes wrapped text and gives the y below it.
func (b *patternBook) paragraph(x, y, width, size float64, s string) float64 {
	for _, line := range b.wrapped(width, size, "", s) {
		b.pdf.Text(x, y, line)
		y += size * 0.47
	}
	return y
}

// wrapped breaks text into lines of at most a width, between words and, where
// one is too long for a line, inside it. The font stays set.
func (b *patternBook) wrapped(width, size float64, style, s string) []string {
	b.pdf.SetFont("go", style, size)
	var lines []string
	line := ""
	for _, word := range strings.Fields(b.clean(s)) {
		if next := strings.TrimSpace(line + " " + word); b.pdf.GetStringWidth(next) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		r := []rune(word)
		for b.pdf.GetStringWidth(string(r)) > width && len(r) > 1 {
			k := len(r) - 1
			for k > 1 && b.pdf.GetStringWidth(string(r[:k])) > width {
				k--
			}
			lines, r = append(lines, string(r[:k])), r[k:]
		}
		line = string(r)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// stroke is how a line is drawn, in mm.
type stroke struct {
	width float64
	dash  []float64
}

// strokeOf gives the pen of a line of a pattern.
func strokeOf(k pattern.Kind) stroke {
	width, dash := k.Pen()
	s := stroke{width: width.Millimetres()}
	for _, d := range dash {
		s.dash = append(s.dash, d.Millimetres())
	}
	return s
}

var (
	hair = stroke{width: 0.15}
	join = stroke{width: 0.15, dash: []float64{0.5, 1.5}}
)

func (b *patternBook) line(pen stroke, scale float64, points ...[2]float64) {
	b.pdf.SetLineWidth(pen.width * scale)
	dash := make([]float64, len(pen.dash))
	for i, d := range pen.dash {
		dash[i] = d * scale
	}
	b.pdf.SetDashPattern(dash, 0)
	for i, q := range points {
		if i == 0 {
			b.pdf.MoveTo(q[0], q[1])
		} else {
			b.pdf.LineTo(q[0], q[1])
		}
	}
	b.pdf.DrawPath("D")
}

// outline draws a line of a pattern where at puts its points.
func (b *patternBook) outline(l pattern.Line, scale float64, at func(shape.Point) [2]float64) {
	points := make([][2]float64, 0, len(l.Points)+1)
	for _, q := range l.Points {
		points = append(points, at(q))
	}
	if l.Closed {
		points = append(points, points[0])
	}
	b.line(strokeOf(l.Kind), scale, points...)
}

// newPage begins an upright page of the paper.
func (b *patternBook) newPage(foot string) (w, h float64) { return b.pageOf(b.paper, foot) }

// pageOf begins a page with its foot line.
func (b *patternBook) pageOf(on pattern.Sheet, foot string) (w, h float64) {
	w, h = on.Width.Millimetres(), on.Height.Millimetres()
	b.pdf.AddPageFormat("P", fpdf.SizeType{Wd: w, Ht: h})
	b.page++
	margin := on.Margin.Millimetres()
	y := h - margin - 1.5
	n := fmt.Sprintf("sheet %d of %d", b.page, b.total)
	b.text(w-margin, y, 9, "", "R", n, 0)
	b.text(margin, y, 9, "B", "L", foot, w-2*margin-b.pdf.GetStringWidth(n)-6)
	return w, h
}
