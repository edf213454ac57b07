package layout

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
)

// The sizes of type of a drawing: of what a piece is, and of all else. Nothing is
// smaller.
const (
	labelType = 11.0
	noteType  = 9.0
	leading   = 1.18 // of the size, from line to line
	baseline  = 0.28 // of the size, below the middle of a line
	boldWider = 1.1  // than plain type
)

// form is a text in one of the ways it may be set: its lines, and how many of them, from
// the first, are bold.
type form struct {
	lines []string
	bold  int
}

// writing is a form that has its place.
type writing struct {
	form
	size float64
	box  quad
}

// measure gives half the width and height of a form.
func (f form) measure(size float64) (wide, high float64) {
	for i, l := range f.lines {
		w := svg.TextWidth(l, size)
		if i < f.bold {
			w *= boldWider
		}
		wide = max(wide, w)
	}
	return wide / 2, size * (1 + float64(leading*float64(len(f.lines)-1))) / 2
}

func (w writing) draw(d *svg.Drawing) {
	for i, l := range w.lines {
		at := svg.Point{X: w.box.mid.X, Y: w.box.mid.Y + float64(w.size*(float64(leading*(float64(i)-float64(len(w.lines)-1)/2))+baseline))}
		var more []svg.Attr
		if i < w.bold {
			more = svg.Attrs("font-weight", "bold")
		}
		if w.box.along.Y != 0 {
			turn := geom.Atan2(w.box.along.Y, w.box.along.X) * 180 / math.Pi
			more = append(more, svg.Attr{Name: "transform", Value: "rotate(" + svg.Number(turn) + " " + svg.Number(w.box.mid.X) + " " + svg.Number(w.box.mid.Y) + ")"})
		}
		d.Write(at, w.size, "middle", l, more...)
	}
}

// lettering finds the places of all that is written on a drawing, so that no text covers
// another. It is worked out before anything is drawn: lines are broken where they would
// run through a text.
type lettering struct {
	sheet   quad          // where texts beside pieces may stand
	pieces  [][]svg.Point // as they lie on the page
	bars    [][]svg.Point // other lines that no text beside a piece runs over
	shy     []quad        // that texts keep off where they can
	texts   []writing
	arrows  [][2]svg.Point
	leaders [][2]svg.Point
	taken   []quad    // by all three
	sizes   []float64 // of labels, the largest first
	heads   []float64 // half the lengths of arrows, the largest first
}

func (l *lettering) put(w writing) {
	l.texts = append(l.texts, w)
	l.taken = append(l.taken, w.box)
}

// on finds a place for a text in a polygon, clear of all else, and tells whether there is one: the first of its forms
// that fits, in the largest type, level before upright before along its longest side. A
// text as high as a narrow strip is the last resort for each form.
func (l *lettering) on(polygon []svg.Point, near svg.Point, sizes []float64, forms ...form) bool {
	views := viewsOf(polygon)
	for _, keep := range l.keeps() {
		for _, f := range forms {
			if l.set(views, near, sizes, keep, f, nil) {
				return true
			}
		}
	}
	return false
}

// keeps gives what texts keep off at first, and then where no form of a text fits so.
func (l *lettering) keeps() [][]quad {
	if len(l.shy) == 0 {
		return [][]quad{nil}
	}
	return [][]quad{l.shy, nil}
}

// set writes one form off some boxes, where it fits and, with a top, an arrow to it fits
// beside it.
func (l *lettering) set(views []turnedView, near svg.Point, sizes []float64, keep []quad, f form, top *svg.Point) bool {
	try := func(size, rim float64) bool {
		wide, high := f.measure(size)
		for _, v := range views {
			mid, ok := l.fit(v, wide+2, high+rim, near, keep)
			if !ok {
				continue
			}
			w := writing{f, size, quad{mid, v.along, wide, high}}
			l.put(w)
			if top == nil || l.arrow(v.polygon, w.box.page(0, -high-10), *top) {
				return true
			}
			l.texts, l.taken = l.texts[:len(l.texts)-1], l.taken[:len(l.taken)-1]
		}
		return false
	}
	for _, size := range sizes {
		if try(size, 1.5) {
			return true
		}
	}
	return try(sizes[len(sizes)-1], 0.4)
}

// turnedView is a polygon in axes that text along a direction is level in.
type turnedView struct {
	polygon []svg.Point // on the page
	along   svg.Point
	from    quad // its axes are those of the view
	low     svg.Point
	high    svg.Point
}

func viewOf(polygon []svg.Point, along svg.Point) turnedView {
	v := turnedView{polygon: polygon, along: along, from: quad{along: along}}
	for i, p := range polygon {
		p = v.from.own(p)
		if i == 0 {
			v.low, v.high = p, p
		}
		v.low = svg.Point{X: min(v.low.X, p.X), Y: min(v.low.Y, p.Y)}
		v.high = svg.Point{X: max(v.high.X, p.X), Y: max(v.high.Y, p.Y)}
	}
	return v
}

// viewsOf gives the directions that text may run in on a polygon: level, upright, and
// along its longest side.
func viewsOf(polygon []svg.Point) []turnedView {
	longest, along := 0.0, svg.Point{X: 1}
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if long := geom.Hypot(b.X-a.X, b.Y-a.Y); long > longest+1e-6 {
			longest, along = long, svg.Point{X: (b.X - a.X) / long, Y: (b.Y - a.Y) / long}
		}
	}
	if along.X < -1e-3 || along.X < 1e-3 && along.Y > 0 { // text reads from the left, or from below
		along = svg.Point{X: -along.X, Y: -along.Y}
	}
	out := []turnedView{viewOf(polygon, svg.Point{X: 1}), viewOf(polygon, svg.Point{Y: -1})}
	if math.Abs(along.X) > 0.02 && math.Abs(along.Y) > 0.02 {
		out = append(out, viewOf(polygon, along))
	}
	return out
}

// fit finds the middle of a box of a half width and height inside a polygon, as near to a
// point as a net of places allows, clear of all that has its place and of some boxes more.
func (l *lettering) fit(v turnedView, wide, high float64, near svg.Point, keep []quad) (svg.Point, bool) {
	if v.high.X-v.low.X < 2*wide || v.high.Y-v.low.Y < 2*high {
		return svg.Point{}, false
	}
	for _, mid := range v.net(wide, high, near) {
		q := quad{mid, v.along, wide, high}
		if q.insideOf(v.polygon) && !slices.ContainsFunc(l.taken, q.meets) && !slices.ContainsFunc(keep, q.meets) {
			return mid, true
		}
	}
	return svg.Point{}, false
}

// net gives places for the middle of a box, the nearest to a point first.
func (v turnedView) net(wide, high float64, near svg.Point) []svg.Point {
	const steps = 14
	c := v.from.own(near)
	places := []svg.Point{c}
	for i := range steps + 1 {
		for j := range steps + 1 {
			x := v.low.X + wide + float64((v.high.X-v.low.X-2*wide)*float64(i)/steps)
			y := v.low.Y + high + float64((v.high.Y-v.low.Y-2*high)*float64(j)/steps)
			places = append(places, svg.Point{X: x, Y: y})
		}
	}
	away := func(p svg.Point) float64 { return geom.Hypot(p.X-c.X, p.Y-c.Y) }
	slices.SortStableFunc(places, func(a, b svg.Point) int { return cmp.Compare(away(a), away(b)) })
	for i, p := range places {
		places[i] = v.from.page(p.X, p.Y)
	}
	return places
}

// beside finds a place for a text next to a thing, off all pieces, with a line that leads
// to one of some points of it; a line over other pieces is the last resort. Things that lie on
// pieces may have their text on these too.
func (l *lettering) beside(points []svg.Point, reach float64, size float64, onPieces bool, f form) bool {
	wide, high := f.measure(size)
	for _, overPieces := range []bool{false, true} {
		for _, off := range []float64{4, 10, 18, 28, 40, 56, 76, 100, 130} {
			for _, point := range points {
				for k := range 24 {
					sin, cos := geom.SinCos(2 * math.Pi * float64(k) / 24)
					q := quad{along: svg.Point{X: 1}, wide: wide, high: high}
					q.mid = svg.Point{X: point.X + float64(cos*(reach+off+wide)), Y: point.Y + float64(sin*(reach+off+high))}
					if !l.clear(q, onPieces) {
						continue
					}
					lead, free := l.lead(q, point, overPieces || onPieces)
					if !free {
						continue
					}
					l.put(writing{f, size, q})
					if off > 4 || !onPieces {
						l.leaders, l.taken = append(l.leaders, lead), append(l.taken, thread(lead[0], lead[1]))
					}
					return true
				}
			}
		}
	}
	return false
}

// clear tells whether a text may stand in a box.
func (l *lettering) clear(q quad, onPieces bool) bool {
	room := q.grown(1.5)
	for _, c := range room.corners() {
		if in := l.sheet.own(c); math.Abs(in.X) > l.sheet.wide || math.Abs(in.Y) > l.sheet.high {
			return false
		}
	}
	if slices.ContainsFunc(l.taken, room.meets) {
		return false
	}
	for _, b := range l.bars {
		if room.cutBy(b) {
			return false
		}
	}
	for _, p := range l.pieces {
		if room.cutBy(p) || !onPieces && within(p, q.mid) {
			return false
		}
	}
	return true
}

// lead gives the line from a box to a point, and whether it runs through no text and,
// unless it may, over no more than the piece that the point is on.
func (l *lettering) lead(q quad, point svg.Point, overPieces bool) ([2]svg.Point, bool) {
	from, _, _ := q.grown(1.5).across(point, q.mid)
	end := svg.Point{X: point.X + float64(from*(q.mid.X-point.X)), Y: point.Y + float64(from*(q.mid.Y-point.Y))}
	line := thread(point, end)
	if slices.ContainsFunc(l.taken, line.meets) {
		return [2]svg.Point{}, false
	}
	if !overPieces {
		for _, p := range l.pieces {
			if !within(p, point) && line.cutBy(p) {
				return [2]svg.Point{}, false
			}
		}
	}
	return [2]svg.Point{point, end}, true
}

// arrow puts an arrow to the top of a piece on it, near a point, where it fits.
func (l *lettering) arrow(polygon []svg.Point, near, top svg.Point) bool {
	v := viewOf(polygon, top)
	for _, keep := range [][]quad{l.shy, nil} {
		for _, half := range l.heads {
			mid, ok := l.fit(v, half+3, max(5, half/3), near, keep)
			if !ok {
				continue
			}
			a := svg.Point{X: mid.X - float64(half*top.X), Y: mid.Y - float64(half*top.Y)}
			b := svg.Point{X: mid.X + float64(half*top.X), Y: mid.Y + float64(half*top.Y)}
			l.arrows = append(l.arrows, [2]svg.Point{a, b})
			l.taken = append(l.taken, quad{mid, top, half, max(3, half/3)})
			return true
		}
	}
	return false
}

// draw writes all that has a place.
func (l *lettering) draw(d *svg.Drawing) {
	for _, a := range l.leaders {
		d.Line(a[0], a[1], svg.Attrs("class", "leader", "stroke", "#000", "stroke-width", "0.7")...)
		d.Circle(a[0], 1.3, svg.Attrs("fill", "#000")...)
	}
	for _, a := range l.arrows {
		d.Arrow(a[0], a[1], max(5, geom.Hypot(a[1].X-a[0].X, a[1].Y-a[0].Y)/5), svg.Attrs("stroke", "#000", "stroke-width", "1.1")...)
	}
	for _, t := range l.texts {
		t.draw(d)
	}
}

// boxes gives the places of all texts and arrows, with a rim.
func (l *lettering) boxes() []quad {
	var out []quad
	for _, t := range l.texts {
		out = append(out, t.box.grown(1))
	}
	for _, a := range l.arrows {
		out = append(out, thread(a[0], a[1]).grown(2))
	}
	return out
}

// line draws a line, broken where texts stand.
func (l *lettering) line(d *svg.Drawing, a, b svg.Point, attrs ...svg.Attr) {
	for _, part := range broken(a, b, l.boxes()) {
		d.Line(part[0], part[1], attrs...)
	}
}

// rowsOf breaks a text into at most some rows, as narrow as they can be.
func rowsOf(text string, most int) []string {
	words := strings.Split(text, " ")
	if most <= 1 || len(words) < 2 {
		return []string{text}
	}
	best, narrow := []string{text}, svg.TextWidth(text, 1)
	for i := range words {
		for j := i + 1; j <= len(words); j++ {
			wide := svg.TextWidth(strings.Join(words[i:j], " "), 1)
			if rows, ok := wrapWords(text, wide, 1); ok && len(rows) <= most && wide < narrow {
				best, narrow = rows, wide
			}
		}
	}
	return best
}
