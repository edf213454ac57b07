package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// register draws a ring with a cross, which comes to lie on its like.
func (b *patternBook) register(x, y float64) {
	const arm, ring = 4.0, 2.0
	b.line(hair, 1, [2]float64{x - arm, y}, [2]float64{x + arm, y})
	b.line(hair, 1, [2]float64{x, y - arm}, [2]float64{x, y + arm})
	b.pdf.Circle(x, y, ring, "D")
}

// tileAll writes the pages of a pattern.
func (b *patternBook) tileAll(p tiledCut) error {
	if len(p.Tiles) == 0 {
		return nil
	}
	letters, err := p.Tiling.Lettering(p.Pattern, b.units())
	if err != nil {
		return err
	}
	named := p.labelTile(letters)
	for i, t := range p.Tiles {
		b.tile(p, t, letters, i == named)
		if err := b.ticks(p, t); err != nil {
			return err
		}
	}
	return nil
}

// onPaper maps a place on a sheet of some height, y up, to the page.
func onPaper(high unit.Length) func(shape.Point) [2]float64 {
	return func(q shape.Point) [2]float64 { return [2]float64{q.X.Millimetres(), (high - q.Y).Millimetres()} }
}

// tile writes one page of a pattern.
func (b *patternBook) tile(p tiledCut, t pattern.Tile, letters []pattern.Lettering, named bool) {
	foot := fmt.Sprintf("%d %s   %s", p.number, p.name(), p.Tally())
	if p.half() {
		foot += ", half on the fold"
	}
	if len(p.Tiles) > 1 {
		foot = t.Label + "   " + foot
	}
	b.pageOf(p.Sheet, foot)
	at := onPaper(p.Sheet.Height)
	b.joins(t, at)
	for _, l := range t.Lines(p.Lines()) {
		b.outline(l, 1, at)
	}
	place := pattern.Place{Shift: t.Shift}
	low, high := at(place.On(t.Window.Low)), at(place.On(t.Window.High))
	b.pdf.ClipRect(low[0], high[1], high[0]-low[0], low[1]-high[1], false)
	for _, l := range letters {
		// A text that the window only touches is left to the next page.
		if reach := l.Long/2 + l.Size; l.At.X >= t.Window.Low.X-reach && l.At.X <= t.Window.High.X+reach && l.At.Y >= t.Window.Low.Y-reach && l.At.Y <= t.Window.High.Y+reach {
			b.letter(l, place, at)
		}
	}
	b.pdf.ClipEnd()
	if named {
		q, room := p.Room(t.Cell, letters...)
		b.label(p, at(place.On(q)), room.Millimetres())
	}
}

// ticks marks on a page where the rule is laid on to.
func (b *patternBook) ticks(p tiledCut, t pattern.Tile) error {
	const arm = 4 * unit.Millimetre
	for _, g := range p.Gaps {
		if g.Kind != pattern.CutLine && g.Kind != pattern.FoldLine || g.Off != t.Label && g.On != t.Label {
			continue
		}
		far, tick, err := g.Rule(b.units())
		if err != nil {
			return err
		}
		c := g.From
		if g.On == t.Label {
			c = tick
		}
		dx, dy := (tick.X-g.From.X).Millimetres()/far.Millimetres(), (tick.Y-g.From.Y).Millimetres()/far.Millimetres()
		across := shape.Point{X: -unit.Length(dy * float64(arm)), Y: unit.Length(dx * float64(arm))}
		for _, l := range t.Lines([]pattern.Line{{Points: []shape.Point{{X: c.X - across.X, Y: c.Y - across.Y}, {X: c.X + across.X, Y: c.Y + across.Y}}}}) {
			at := onPaper(p.Sheet.Height)
			b.line(hair, 2, at(l.Points[0]), at(l.Points[1]))
		}
	}
	return nil
}

// sharedSheet writes a page of whole pieces.
func (b *patternBook) sharedSheet(s pattern.Shared) {
	var numbers []string
	for _, p := range s.Places {
		if p.Of < len(b.lie) {
			numbers = append(numbers, strconv.Itoa(b.drawn[b.lie[p.Of]].number))
		}
	}
	foot := "test square"
	if len(numbers) > 0 {
		slices.SortFunc(numbers, func(x, y string) int { return cmp.Or(cmp.Compare(len(x), len(y)), strings.Compare(x, y)) })
		foot = "no. " + strings.Join(numbers, ", ")
	}
	b.pageOf(s.Sheet, foot+"   "+b.name)
	at := onPaper(s.Sheet.Height)
	for _, place := range s.Places {
		if place.Of == len(b.lie) {
			b.rolledSquare(s.Sheet, place, at)
			continue
		}
		p := b.drawn[b.lie[place.Of]]
		for _, l := range p.Lines() {
			b.outline(l, 1, func(q shape.Point) [2]float64 { return at(place.On(q)) })
		}
		letters := p.Pattern.Lettering()
		for _, l := range letters {
			b.letter(l, place, at)
		}
		q, room := p.Room(p.Bounds(), letters...)
		b.label(p, at(place.On(q)), room.Millimetres())
	}
}

// rolledSquare draws the test square of paper from a roll.
func (b *patternBook) rolledSquare(on pattern.Sheet, place pattern.Place, at func(shape.Point) [2]float64) {
	side := on.TestSquare()
	b.pdf.SetDashPattern(nil, 0)
	b.pdf.SetLineWidth(0.3)
	mm, c := side.Millimetres(), at(place.On(shape.Point{Y: side}))
	b.pdf.Rect(c[0], c[1], mm, mm, "D")
	b.text(c[0]+mm/2, c[1]+mm/2-1, 12, "B", "C", "Test square", mm)
	b.text(c[0]+mm/2, c[1]+mm/2+5, 9, "", "C", fmt.Sprintf("each side %.0f mm", mm), mm)
}

// letter writes what stands along an edge.
func (b *patternBook) letter(l pattern.Lettering, place pattern.Place, at func(shape.Point) [2]float64) {
	c := at(place.On(l.At))
	size, turn := l.Size.Millimetres(), float64(l.Turn)
	if place.Turned {
		turn += 90
	}
	if turn > 90 { // never on its head
		turn -= 180
	}
	b.pdf.TransformBegin()
	b.pdf.TransformRotate(turn, c[0], c[1])
	b.text(c[0], c[1]+0.35*size, size/25.4*72, "", "C", l.Text, 0)
	b.pdf.TransformEnd()
}

// Sizes of the type on a piece, in points: where the least has no room for all lines,
// the last ones are left to the list.
const mostWritten, leastWritten = 14.0, 7.0

// label writes what is on the piece, and on others that it serves for.
func (b *patternBook) label(p tiledCut, at [2]float64, room float64) {
	texts := p.Texts(b.units())
	for _, q := range p.also {
		texts = append(texts, fmt.Sprintf("%s, %s", q.Name, q.Tally()))
	}
	fit := func() float64 {
		size := min(mostWritten, room*2.83/(0.8*float64(len(texts))))
		b.pdf.SetFont("go", "", 10)
		for _, s := range texts {
			size = min(size, 10*1.9*room/math.Max(b.pdf.GetStringWidth(b.clean(s)), 1))
		}
		return size
	}
	for fit() < leastWritten && len(texts) > 3 {
		texts = texts[:len(texts)-1]
	}
	size := max(fit(), leastWritten) // better across a line than left out
	for i, s := range texts {
		style := ""
		if i == 0 {
			style = "B"
		}
		b.text(at[0], at[1]+size*(0.45*(float64(i)-float64(len(texts)-1)/2)+0.12), size, style, "C", s, 0)
	}
}

// labelTile is the page with the most room for the name of the piece.
func (p tiledCut) labelTile(letters []pattern.Lettering) int {
	best := 0
	var most unit.Length = -1
	for i, t := range p.Tiles {
		if _, room := p.Room(t.Cell, letters...); room > most+most/20 {
			best, most = i, room
		}
	}
	return best
}

// joins draws the lines along which a page meets its neighbours, the rings that
// come to lie on each other, and which page goes on there.
func (b *patternBook) joins(t pattern.Tile, at func(shape.Point) [2]float64) {
	for _, j := range t.Joins {
		from, to := at(j.From), at(j.To)
		b.line(join, 1, from, to)
		dx, dy := to[0]-from[0], to[1]-from[1]
		for _, f := range []float64{0.25, 0.75} {
			b.register(from[0]+f*dx, from[1]+f*dy)
		}
		// Inwards is on the left; the page runs down.
		long := math.Hypot(dx, dy)
		b.text((from[0]+to[0])/2+4*dy/long, (from[1]+to[1])/2-4*dx/long+1.2, 9, "", "C", j.Label, 0)
	}
}
