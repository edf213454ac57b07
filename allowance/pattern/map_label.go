package pattern

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
)

// mapCell is a panel as it is drawn, its lower left corner at the origin, with
// its texts in places where they meet nothing.
type mapCell struct {
	mapped
	border []svg.Point
	lines  []mapStroke
	labels []mapLabel
	leads  [][2]svg.Point
	bounds mapBox
}

// mapStroke is an edge or inner line on the page.
type mapStroke struct {
	use
	points []svg.Point
	inner  bool
}

// mapBox is an upright box of the page, y down.
type mapBox struct{ left, top, right, bottom float64 }

func (b mapBox) grown(by float64) mapBox {
	return mapBox{b.left - by, b.top - by, b.right + by, b.bottom + by}
}

func (b mapBox) meets(c mapBox) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

func (b mapBox) with(c mapBox) mapBox {
	return mapBox{min(b.left, c.left), min(b.top, c.top), max(b.right, c.right), max(b.bottom, c.bottom)}
}

func (b mapBox) middle() svg.Point {
	return svg.Point{X: (b.left + b.right) / 2, Y: (b.top + b.bottom) / 2}
}

func boxAbout(c svg.Point, w, h float64) mapBox {
	c = svg.Point{X: hundredth(c.X), Y: hundredth(c.Y)}
	return mapBox{c.X - w/2, c.Y - h/2, c.X + w/2, c.Y + h/2}
}

// crossed tells whether a straight line comes into the box.
func (b mapBox) crossed(p, q svg.Point) bool {
	t0, t1 := 0.0, 1.0
	dx, dy := q.X-p.X, q.Y-p.Y
	for _, e := range [4][2]float64{{-dx, p.X - b.left}, {dx, b.right - p.X}, {-dy, p.Y - b.top}, {dy, b.bottom - p.Y}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return false
			}
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		default:
			t1 = min(t1, e[1]/e[0])
		}
	}
	return t0 <= t1
}

// mapLabel is a text of a panel: lines of type, or one that runs up the page.
type mapLabel struct {
	mapBox
	texts  []string
	size   float64
	bold   int // that many lines
	upward bool
}

// cell draws a panel up at a scale of user units to the nanometre.
func (m mapped) cell(scale float64) *mapCell {
	c := &mapCell{mapped: m}
	for _, e := range m.edges {
		points := m.onPage(e.points, scale)
		c.lines = append(c.lines, mapStroke{e.use, points, false})
		c.border = append(c.border, points[:len(points)-1]...)
	}
	for _, l := range m.lines {
		c.lines = append(c.lines, mapStroke{l.use, m.onPage(l.points, scale), true})
	}
	c.bounds = mapBox{0, hundredth(-float64(m.high) * scale), hundredth(float64(m.wide) * scale), 0}.grown(1)
	// Short edges have the fewest places, so they come first.
	order := make([]int, len(c.lines))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := c.lines[a].length(), c.lines[b].length()
		switch {
		case x < y-0.5:
			return -1
		case y < x-0.5:
			return 1
		}
		return 0
	})
	for _, i := range order {
		if c.lines[i].text != "" {
			c.label(c.lines[i])
		}
	}
	c.name()
	return c
}

func (l mapStroke) length() float64 {
	sum := 0.0
	for i := 1; i < len(l.points); i++ {
		sum += geom.Hypot(l.points[i].X-l.points[i-1].X, l.points[i].Y-l.points[i-1].Y)
	}
	return sum
}

// at gives the place at a part of the line's length, and the direction to its
// right, which is out of the panel.
func (l mapStroke) at(part float64) (p, out svg.Point) {
	left := l.length() * part
	for i := 1; i < len(l.points); i++ {
		a, b := l.points[i-1], l.points[i]
		long := geom.Hypot(b.X-a.X, b.Y-a.Y)
		if long == 0 || left > long && i < len(l.points)-1 {
			left -= long
			continue
		}
		t := left / long
		// The page has y down, so that the right of an anticlockwise way is its left.
		return svg.Point{X: a.X + float64(t*(b.X-a.X)), Y: a.Y + float64(t*(b.Y-a.Y))}, svg.Point{X: -(b.Y - a.Y) / long, Y: (b.X - a.X) / long}
	}
	return l.points[0], svg.Point{X: 1}
}

// label finds a place for the text of an edge: inside along it, outside along it,
// else farther out with a line that leads to it.
func (c *mapCell) label(l mapStroke) {
	size, bold := mapType, 0
	wide := svg.TextWidth(l.text, size)
	if l.letter {
		size, bold = mapLetter, 1
		wide = svg.TextWidth(l.text, size) * 1.1
	}
	texts := []string{l.text}
	try := func(at svg.Point, out svg.Point, sign, gap float64, upward bool) bool {
		w, h := wide, size
		if upward {
			w, h = h, w
		}
		far := float64(sign * (gap + (float64(math.Abs(out.X)*w)+float64(math.Abs(out.Y)*h))/2))
		b := boxAbout(svg.Point{X: at.X + float64(out.X*far), Y: at.Y + float64(out.Y*far)}, w, h)
		inside := c.within(b.middle())
		if !c.free(b) || inside != (sign < 0 || l.inner) || inside && !c.nearest(b.middle(), l) {
			return false
		}
		c.put(mapLabel{b, texts, size, bold, upward})
		return true
	}
	for _, sign := range []float64{-1, 1} {
		for _, gap := range []float64{4, 8} {
			for _, part := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9} {
				at, out := l.at(part)
				steep := math.Abs(out.X) > 0.75 && !l.letter
				if steep && try(at, out, sign, gap, true) || !steep && try(at, out, sign, gap, false) {
					return
				}
			}
		}
		if at, out := l.at(0.5); sign > 0 && try(at, out, sign, 4, false) {
			return
		}
	}
	at, out := l.at(0.5)
	for ring := range 40 {
		far := 16 + float64(6*ring)
		for _, turn := range []float64{0, 0.4, -0.4, 0.8, -0.8, 1.2, -1.2} {
			sin, cos := geom.SinCos(turn)
			way := svg.Point{X: float64(out.X*cos) - float64(out.Y*sin), Y: float64(out.X*sin) + float64(out.Y*cos)}
			from := svg.Point{X: hundredth(at.X + 2*out.X), Y: hundredth(at.Y + 2*out.Y)}
			to := svg.Point{X: hundredth(at.X + float64(way.X*far)), Y: hundredth(at.Y + float64(way.Y*far))}
			half := (float64(math.Abs(way.X)*wide) + float64(math.Abs(way.Y)*size)) / 2
			b := boxAbout(svg.Point{X: to.X + float64(way.X*(half+3)), Y: to.Y + float64(way.Y*(half+3))}, wide, size)
			if c.within(b.middle()) || !c.free(b) || c.barred(from, to) {
				continue
			}
			c.put(mapLabel{b, texts, size, bold, false})
			c.leads = append(c.leads, [2]svg.Point{from, to})
			c.bounds = c.bounds.with(mapBox{min(from.X, to.X), min(from.Y, to.Y), max(from.X, to.X), max(from.Y, to.Y)})
			return
		}
	}
	// Where nothing is free it stands on the right, clear of all.
	b := mapBox{c.bounds.right + 6, c.bounds.top, c.bounds.right + 6 + wide, c.bounds.top + size}
	c.put(mapLabel{b, texts, size, bold, false})
}

func (c *mapCell) put(l mapLabel) {
	c.labels = append(c.labels, l)
	c.bounds = c.bounds.with(l.mapBox)
}

// free tells whether a box meets no text, no line of the panel and no lead.
func (c *mapCell) free(b mapBox) bool {
	const apart = 2
	wide := b.grown(apart)
	for _, l := range c.labels {
		if wide.meets(l.mapBox) {
			return false
		}
	}
	for _, l := range c.leads {
		if wide.crossed(l[0], l[1]) {
			return false
		}
	}
	for _, l := range c.lines {
		for i := 1; i < len(l.points); i++ {
			if wide.crossed(l.points[i-1], l.points[i]) {
				return false
			}
		}
	}
	return true
}

// nearest tells whether a place is clearly nearer to a line than to any other of
// the panel.
func (c *mapCell) nearest(q svg.Point, l mapStroke) bool {
	const clearly = 1.5
	own := l.distance(q)
	return !slices.ContainsFunc(c.lines, func(o mapStroke) bool { return &o.points[0] != &l.points[0] && o.distance(q) < own+clearly })
}

// distance gives how far a place is from the line.
func (l mapStroke) distance(q svg.Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(l.points); i++ {
		a, b := l.points[i-1], l.points[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if long := float64(dx*dx) + float64(dy*dy); long > 0 {
			t = min(max((float64((q.X-a.X)*dx)+float64((q.Y-a.Y)*dy))/long, 0), 1)
		}
		best = min(best, geom.Hypot(q.X-a.X-float64(t*dx), q.Y-a.Y-float64(t*dy)))
	}
	return best
}

// barred tells whether a lead would cross a text or a line of the panel.
func (c *mapCell) barred(p, q svg.Point) bool {
	for _, l := range c.labels {
		if l.grown(2).crossed(p, q) {
			return true
		}
	}
	const steps = 16
	for i := range steps + 1 {
		t := float64(i) / steps
		if c.within(svg.Point{X: p.X + float64(t*(q.X-p.X)), Y: p.Y + float64(t*(q.Y-p.Y))}) {
			return true
		}
	}
	return false
}

// within tells whether a place lies inside the panel.
func (c *mapCell) within(q svg.Point) bool {
	in := false
	for i, a := range c.border {
		b := c.border[(i+1)%len(c.border)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X-a.X < float64((b.X-a.X)*((q.Y-a.Y)/(b.Y-a.Y))) {
			in = !in
		}
	}
	return in
}

// name writes the name of the panel inside it where there is room, else below.
func (c *mapCell) name() {
	head := c.number + " " + c.title[0]
	block := func(width float64) (texts []string, bold int, w, h float64) {
		for i, t := range append([]string{head}, append(slices.Clone(c.title[1:]), c.size)...) {
			size := mapType
			if i == 0 {
				size *= 1.1 // bold
			}
			for _, line := range wrapWords(t, width, size) {
				texts = append(texts, line)
				if i == 0 {
					bold++
				}
				w = max(w, svg.TextWidth(line, size))
			}
		}
		return texts, bold, w, float64(float64(len(texts)-1)*mapLine) + mapType
	}
	middle := c.bodyMiddle()
	low := mapBox{0, hundredth(c.top()), 0, 0}
	for _, p := range c.border {
		low.left, low.right = min(low.left, p.X), max(low.right, p.X)
	}
	for _, width := range []float64{400, 110, 84, 64, 48} {
		texts, bold, w, h := block(width)
		if w > width+1 || w > low.right-low.left || h > -low.top {
			continue
		}
		best, found := math.Inf(1), mapBox{}
		const step = 3.0
		for x := low.left + w/2; x <= low.right-w/2; x += step {
			for y := low.top + h/2; y <= -h/2; y += step {
				b := boxAbout(svg.Point{X: x, Y: y}, w, h)
				far := math.Round(geom.Hypot(x-middle.X, y-middle.Y)*10) / 10
				if far < best && c.within(b.middle()) && c.free(b) {
					best, found = far, b
				}
			}
		}
		if !math.IsInf(best, 1) {
			c.put(mapLabel{found, texts, mapType, bold, false})
			return
		}
	}
	texts, bold, w, h := block(max(low.right-low.left, 92))
	at := (low.left + low.right) / 2
	top := c.bounds.bottom + 4
	c.put(mapLabel{boxAbout(svg.Point{X: at, Y: top + h/2}, w, h), texts, mapType, bold, false})
}

func (c *mapCell) top() float64 {
	top := 0.0
	for _, p := range c.border {
		top = min(top, p.Y)
	}
	return top
}

// bodyMiddle is the middle of the panel's box.
func (c *mapCell) bodyMiddle() svg.Point {
	right := 0.0
	for _, p := range c.border {
		right = max(right, p.X)
	}
	return svg.Point{X: right / 2, Y: c.top() / 2}
}

// draw draws the panel with its corner at a place.
func (c *mapCell) draw(d *svg.Drawing, at svg.Point) {
	move := func(p svg.Point) svg.Point { return svg.Point{X: at.X + p.X, Y: at.Y + p.Y} }
	moved := func(ps []svg.Point) []svg.Point {
		out := make([]svg.Point, len(ps))
		for i, p := range ps {
			out[i] = move(p)
		}
		return out
	}
	d.Group(svg.Attrs("class", "panel")...)
	d.Area([][]svg.Point{moved(c.border)}, svg.Attrs("fill", "#f4f4f4")...)
	for _, l := range c.lines {
		pen := l.pen()
		if l.inner {
			pen = append(slices.Clone(pen), svg.Attrs("class", "inner")...)
		}
		d.Polyline(moved(l.points), pen...)
	}
	for _, l := range c.leads {
		d.Line(move(l[0]), move(l[1]), svg.Attrs("class", "lead", "stroke", "#000", "stroke-width", "0.6")...)
	}
	for _, l := range c.labels {
		l.draw(d, move)
	}
	d.End()
}

func (l mapLabel) draw(d *svg.Drawing, move func(svg.Point) svg.Point) {
	m := l.middle()
	if l.upward {
		p := move(svg.Point{X: m.X + float64(0.36*l.size), Y: m.Y})
		d.Write(p, l.size, "middle", l.texts[0], svg.Upward(p))
		return
	}
	for i, t := range l.texts {
		var more []svg.Attr
		if i < l.bold {
			more = svg.Attrs("font-weight", "bold")
		}
		d.Write(move(svg.Point{X: m.X, Y: l.top + float64(float64(i)*mapLine) + float64(0.86*l.size)}), l.size, "middle", t, more...)
	}
}
