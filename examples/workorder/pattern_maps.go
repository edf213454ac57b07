package main

import (
	"fmt"
	"math"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// maps shows each tiled piece with the grid of its pages.
func (b *patternBook) maps() error {
	const left, top, across, down, gap = 15.0, 15.0, 2, 3, 8.0
	k := 0
	w, h := b.paper.Width.Millimetres(), b.paper.Height.Millimetres()
	cw := (w - 2*left - (across-1)*gap) / across
	ch := (h - 2*top - b.paper.Foot.Millimetres() - (down-1)*gap) / down
	for _, p := range b.drawn {
		if len(p.Tiles) < 2 {
			continue
		}
		i := k % (across * down)
		if i == 0 {
			b.newPage("Page maps: " + b.name)
		}
		if err := b.pageMap(p, left+float64(i%across)*(cw+gap), top+float64(i/across)*(ch+gap), cw, ch); err != nil {
			return err
		}
		k++
	}
	return nil
}

// pageMap draws a piece with its sheets. Where there is none it says how far to rule.
func (b *patternBook) pageMap(p tiledCut, x, y, w, h float64) error {
	b.text(x, y+3.5, 9, "B", "L", fmt.Sprintf("%d  %s", p.number, p.name()), w)
	sheets := fmt.Sprintf("sheets %d to %d, cut %s", p.first, p.first+len(p.Tiles)-1, hands(p.cut.Count, p.Pair))
	if p.half() {
		sheets = "half on the fold, " + sheets
	}
	b.text(x, y+8, 8, "", "L", sheets, w)
	y, h = y+11, h-11
	low, high := p.Grid.Low, p.Grid.High
	gw, gh := (high.X - low.X).Millimetres(), (high.Y - low.Y).Millimetres()
	lap := p.Sheet.Overlap.Millimetres()
	scale := min(w/(gw+lap), h/(gh+lap))
	x0, y0 := x+(w-gw*scale)/2, y+(h-gh*scale)/2
	at := func(q shape.Point) [2]float64 {
		return [2]float64{x0 + (q.X-low.X).Millimetres()*scale, y0 + (high.Y-q.Y).Millimetres()*scale}
	}
	for _, t := range p.Tiles {
		c, d := at(t.Cell.Low), at(t.Cell.High)
		cw, ch := d[0]-c[0], c[1]-d[1]
		b.pdf.SetLineWidth(0.15)
		b.pdf.SetDashPattern(nil, 0)
		b.pdf.SetDrawColor(130, 130, 130)
		b.pdf.SetFillColor(240, 240, 240)
		b.pdf.Rect(c[0], d[1], cw, ch, "FD")
		b.pdf.SetDrawColor(0, 0, 0)
		b.pdf.SetTextColor(90, 90, 90)
		b.text(c[0]+cw/2, d[1]+ch/2+1.2, min(9, ch*1.2), "", "C", t.Label, 0)
		b.pdf.SetTextColor(0, 0, 0)
	}
	for _, l := range p.Lines() {
		b.outline(l, 0.6, at)
	}
	for _, g := range p.Gaps {
		if g.Kind != pattern.CutLine && g.Kind != pattern.FoldLine {
			continue
		}
		far, _, err := g.Rule(b.units())
		if err != nil {
			return err
		}
		b.beside(at(g.From), at(g.To), b.units().Length(far, unit.Up))
	}
	return nil
}

// beside writes along a line on its left, the page running down, and never on its head.
func (b *patternBook) beside(from, to [2]float64, s string) {
	const size = 7.0
	dx, dy := to[0]-from[0], to[1]-from[1]
	long := math.Hypot(dx, dy)
	c := [2]float64{(from[0]+to[0])/2 + 2.2*dy/long, (from[1]+to[1])/2 - 2.2*dx/long}
	turn := -math.Atan2(dy, dx) * 180 / math.Pi
	if turn > 90 {
		turn -= 180
	} else if turn <= -90 {
		turn += 180
	}
	b.pdf.TransformBegin()
	b.pdf.TransformRotate(turn, c[0], c[1])
	b.pdf.SetFont("go", "B", size)
	b.pdf.SetFillColor(255, 255, 255)
	half := b.pdf.GetStringWidth(s)/2 + 0.4
	b.pdf.Rect(c[0]-half, c[1]-1.2, 2*half, 2.4, "F")
	b.text(c[0], c[1]+0.9, size, "B", "C", s, 0)
	b.pdf.TransformEnd()
}
