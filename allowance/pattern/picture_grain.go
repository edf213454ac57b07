package pattern

import (
	"github.com/coverwright/coverwright/internal/svg"
)

// grainType is the size of the word at the arrow of a picture.
const grainType = 9.0

// pictured is what stands in the way of the arrow and its word on a picture, in user units.
type pictured struct {
	within mapBox // about the piece
	lines  [][2]svg.Point
	boxes  []mapBox // rings of letters, and marks
}

// put takes in the lines of a pattern.
func (o *pictured) put(v view, lines []Line) {
	for _, l := range lines {
		for i, a := range l.Points {
			if i > 0 || l.Closed {
				o.lines = append(o.lines, [2]svg.Point{v.at(l.Points[(i+len(l.Points)-1)%len(l.Points)]), v.at(a)})
			}
		}
	}
}

// clear tells whether a box of the piece is off all lines and boxes.
func (o pictured) clear(b mapBox) bool {
	if b.with(o.within) != o.within {
		return false
	}
	for _, l := range o.lines {
		if b.crossed(l[0], l[1]) {
			return false
		}
	}
	for _, c := range o.boxes {
		if b.meets(c) {
			return false
		}
	}
	return true
}

// grain draws the arrow of a picture with its word: where the pattern has it, or a little
// to the side where it would run through a letter or a mark. The arrow says a direction,
// so its place is free. The word is left out where it would lie on a line.
func (o pictured) grain(d *svg.Drawing, foot, head svg.Point) {
	if foot == head {
		return
	}
	aside, word, written := 0.0, svg.Point{}, false
	for i, x := range []float64{0, 16, -16, 32, -32, 48, -48} {
		shaft := mapBox{foot.X + x - 4, head.Y - 2, foot.X + x + 4, foot.Y + 2}
		if i > 0 && !o.clear(shaft) {
			continue
		}
		if at, fits := o.beside(shaft); fits && o.clear(shaft) {
			aside, word, written = x, at, true
			break
		}
		if aside == 0 && !o.clear(mapBox{foot.X - 4, head.Y - 2, foot.X + 4, foot.Y + 2}) {
			aside = x
		}
	}
	foot.X, head.X = foot.X+aside, head.X+aside
	d.Arrow(foot, head, 6, svg.Attrs("stroke", "#000", "stroke-width", "1")...)
	if written {
		d.Write(word, grainType, "start", "grain")
	}
}

// beside finds a place for the word beside the shaft of the arrow, where it begins.
func (o pictured) beside(shaft mapBox) (svg.Point, bool) {
	wide, tall := svg.TextWidth("grain", grainType), grainType
	if shaft.bottom-shaft.top < 2*tall {
		return svg.Point{}, false
	}
	for _, part := range []float64{0.5, 0.7, 0.3, 0.85} {
		y := shaft.top + float64(part*(shaft.bottom-shaft.top))
		for _, x := range []float64{shaft.right + 1, shaft.left - 1 - wide} {
			if o.clear(mapBox{x - 1, y - tall, x + wide + 1, y + 3}) {
				return svg.Point{X: x, Y: y}, true
			}
		}
	}
	return svg.Point{}, false
}
