package layout

import (
	"strconv"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// rulerSteps are the steps of a ruler: of its short strokes, and of its figures and the
// grid.
type rulerSteps struct {
	unit         unit.Length
	name         string
	small, large int
}

// steps gives a ruler whose strokes and figures stand apart, at a scale in user units for
// each nanometre.
func (s draughtsman) steps(scale float64) rulerSteps {
	out := rulerSteps{unit: unit.Inch, name: "in"}
	small, large := []int{1, 2, 3, 6, 12, 24, 48}, []int{6, 12, 24, 48, 96}
	if s.Units == pattern.Metric {
		out.unit, out.name = unit.Centimetre, "cm"
		small, large = []int{1, 2, 5, 10, 20, 50, 100}, []int{10, 20, 50, 100, 200}
	}
	pick := func(of []int, least float64) int {
		for _, n := range of {
			if float64(out.unit)*scale*float64(n) >= least {
				return n
			}
		}
		return of[len(of)-1]
	}
	out.small, out.large = pick(small, 4), pick(large, 26)
	return out
}

// between calls back for each step from one place to another, measured from a third.
func (r rulerSteps) between(from, to, zero unit.Length, step int, f func(n int, at unit.Length)) {
	by := r.unit * unit.Length(step)
	for n := -floorTo(int64(zero-from), int64(by)) / int64(by); ; n++ {
		at := zero + unit.Length(n)*by
		if at > to {
			return
		}
		f(int(n)*step, at)
	}
}

// grid draws the light lines that a place is found by, and the line along the hide.
func (p *hidePage) grid(d *svg.Drawing) {
	r := p.steps(p.scale)
	light := svg.Attrs("class", "grid", "stroke", "#aaa", "stroke-width", "0.5")
	r.between(p.boxLow.X, p.boxHigh.X, p.datum.Line, r.large, func(_ int, x unit.Length) {
		p.letters.line(d, p.spot(shape.Point{X: x, Y: p.boxLow.Y}), p.spot(shape.Point{X: x, Y: p.boxHigh.Y}), light...)
	})
	r.between(p.boxLow.Y, p.boxHigh.Y, p.datum.Tail, r.large, func(_ int, y unit.Length) {
		p.letters.line(d, p.spot(shape.Point{X: p.boxLow.X, Y: y}), p.spot(shape.Point{X: p.boxHigh.X, Y: y}), light...)
	})
	if p.datum.Backbone {
		a, b := p.spot(shape.Point{X: p.datum.Line, Y: p.boxLow.Y}), p.spot(shape.Point{X: p.datum.Line, Y: p.boxHigh.Y})
		p.letters.line(d, a, b, svg.Attrs("class", "backbone", "stroke", "#000", "stroke-width", "1", "stroke-dasharray", "10 3 2 3")...)
	}
}

// rulers draws the two rulers on the edges of the box round the hide, and says what each
// measures.
func (p *hidePage) rulers(d *svg.Drawing) {
	r := p.steps(p.scale)
	corner := p.spot(p.boxLow) // the tail end and the left edge
	if p.lie {
		corner = p.spot(shape.Point{X: p.boxHigh.X, Y: p.boxLow.Y})
	}
	level, upright := p.spot(shape.Point{X: p.boxHigh.X, Y: p.boxLow.Y}), p.spot(shape.Point{X: p.boxLow.X, Y: p.boxHigh.Y})
	if p.lie {
		level, upright = p.spot(p.boxHigh), p.spot(p.boxLow)
	}
	thin := svg.Attrs("class", "ruler", "stroke", "#000", "stroke-width", "0.7")
	d.Line(corner, level, thin...)
	d.Line(corner, upright, thin...)
	stroke := func(c svg.Point, n int, levelRuler bool) {
		long := 4.0
		if n%r.large == 0 {
			long = 8
		}
		figure := strconv.Itoa(max(n, -n))
		if levelRuler {
			d.Line(c, svg.Point{X: c.X, Y: c.Y + long}, thin...)
			if n%r.large == 0 {
				d.Write(svg.Point{X: c.X, Y: c.Y + 17}, noteType, "middle", figure)
			}
			return
		}
		d.Line(c, svg.Point{X: c.X - long, Y: c.Y}, thin...)
		if n%r.large == 0 {
			d.Write(svg.Point{X: c.X - 10, Y: c.Y + 3.2}, noteType, "end", figure)
		}
	}
	r.between(p.boxLow.X, p.boxHigh.X, p.datum.Line, r.small, func(n int, x unit.Length) {
		c := p.spot(shape.Point{X: x, Y: p.boxLow.Y})
		if p.lie {
			c = svg.Point{X: corner.X, Y: c.Y}
		}
		stroke(c, n, !p.lie)
	})
	r.between(p.boxLow.Y, p.boxHigh.Y, p.datum.Tail, r.small, func(n int, y unit.Length) {
		c := p.spot(shape.Point{X: p.boxLow.X, Y: y})
		if p.lie {
			c = svg.Point{X: c.X, Y: corner.Y}
		}
		stroke(c, n, p.lie)
	})
	p.rulerWords(d, r.name, corner, level, upright)
}

func (p *hidePage) rulerWords(d *svg.Drawing, unitName string, corner, level, upright svg.Point) {
	across, along := "from the left edge, "+unitName, "from the tail end, "+unitName
	if p.datum.Backbone {
		across = "left and right of the backbone, " + unitName
	}
	below, beside := across, along
	if p.lie {
		below, beside = along, across
	}
	d.Write(svg.Point{X: (corner.X + level.X) / 2, Y: corner.Y + 29}, noteType, "middle", below)
	c := svg.Point{X: corner.X - 31, Y: (corner.Y + upright.Y) / 2}
	d.Write(c, noteType, "middle", beside, svg.Upward(c))
	if p.lie {
		c := svg.Point{X: level.X + 11, Y: (level.Y + upright.Y) / 2}
		d.Write(c, noteType, "middle", "neck end", svg.Upward(c))
		return
	}
	d.Write(svg.Point{X: (corner.X + level.X) / 2, Y: upright.Y - 5}, noteType, "middle", "neck end")
}
