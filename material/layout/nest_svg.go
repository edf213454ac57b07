package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Drawings of plans: panels with their labels inside, or with a number that a
// list under the picture explains. All tones are light and all differences are
// lines, so that the sheet reads in black and white.

const (
	sheetMargin = 14.0
	mostPoint   = 12.0 // size of a label
	leastPoint  = 7.0
	charWidth   = 0.58 // of a letter, in sizes
	inkColour   = "#222"
)

// sheet is a drawing in progress.
type sheet struct {
	d     *svg.Drawing
	at    func(shape.Point) svg.Point
	scale float64 // user units for a nanometre
	keys  []string
	inch  bool
}

func attr(pairs ...string) []svg.Attr {
	out := make([]svg.Attr, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, svg.Attr{Name: pairs[i], Value: pairs[i+1]})
	}
	return out
}

func (s *sheet) text(p svg.Point, pt, turn float64, text string, more ...svg.Attr) {
	a := append(attr("font-family", "sans-serif", "font-size", svg.Number(pt), "fill", inkColour), more...)
	if turn != 0 {
		a = append(a, attr("transform", "rotate("+svg.Number(turn)+" "+svg.Number(p.X)+" "+svg.Number(p.Y)+")")...)
	}
	s.d.Text(p, text, a...)
}

func (s *sheet) size(w, h unit.Length) string {
	if !s.inch {
		return v0(w) + " x " + v0(h) + " mm"
	}
	return trimUnit(w.Mixed(unit.Inch, unit.Eighths, unit.Nearest)) + " x " + h.Mixed(unit.Inch, unit.Eighths, unit.Nearest)
}

func v0(l unit.Length) string {
	return strings.TrimSuffix(l.Decimal(unit.Millimetre, 0, unit.Nearest), " mm")
}

func trimUnit(s string) string { return strings.TrimSuffix(s, " in") }

func (s *sheet) line(pts []shape.Point) []svg.Point {
	out := make([]svg.Point, len(pts))
	for i, p := range pts {
		out[i] = s.at(p)
	}
	return out
}

// piece draws a panel with label, size, arrow to its top and mark of a
// mirrored one. up is the direction of its top on the page, in degrees
// clockwise from the right; the label keeps off the places of avoid.
func (s *sheet) piece(pts []svg.Point, name, size string, mirrored bool, up float64, avoid ...svg.Point) {
	s.d.Polygon(pts, attr("fill", "#e9ece6", "stroke", inkColour, "stroke-width", "1.2", "stroke-linejoin", "round")...)
	if mirrored {
		name += ", mirrored"
	}
	m := newMask(pts, up, avoid...)
	for _, lines := range [][]string{{name, size}, {name}, {words(name, 0), words(name, 1)}} {
		if lines[len(lines)-1] == "" {
			continue
		}
		if b, ok := m.room(lines, true); ok && b.pt >= leastPoint {
			s.block(b, lines, up)
			return
		}
	}
	key := s.key(name + ", " + size)
	b, ok := m.room([]string{key}, true)
	if ok && b.pt >= leastPoint {
		s.block(b, []string{key}, up)
		return
	}
	if b, ok = m.room([]string{key}, false); ok {
		s.block(b, []string{key}, noArrow)
		return
	}
	// Narrower than a number: a tag on the middle.
	c := m.middle(pts)
	s.d.Circle(c, 6.5, attr("fill", "#fff", "stroke", inkColour, "stroke-width", "0.8")...)
	s.text(svg.Point{X: c.X, Y: c.Y + 2.6}, 7, 0, key, attr("text-anchor", "middle")...)
}

// words cuts a name into two lines.
func words(name string, part int) string {
	f := strings.Fields(name)
	if len(f) < 2 {
		return ""
	}
	cut := 1
	for i := range f {
		if len(strings.Join(f[:i], " ")) <= len(strings.Join(f[i:], " ")) {
			cut = max(i, 1)
		}
	}
	if part == 0 {
		return strings.Join(f[:cut], " ")
	}
	return strings.Join(f[cut:], " ")
}

// key gives the number of a text in the list under the picture.
func (s *sheet) key(text string) string {
	i := slices.Index(s.keys, text)
	if i < 0 {
		i = len(s.keys)
		s.keys = append(s.keys, text)
	}
	return fmt.Sprint(i + 1)
}

// block writes the lines of a label and, unless up is not a number, the arrow
// to the top of the panel beside them.
func (s *sheet) block(b block, lines []string, up float64) {
	sin, cos := geom.SinCos(b.turn * math.Pi / 180)
	place := func(x, y float64) svg.Point {
		return svg.Point{X: b.mid.X + float64(x*cos) - float64(y*sin), Y: b.mid.Y + float64(x*sin) + float64(y*cos)}
	}
	shift := 0.0
	if !math.IsNaN(up) {
		shift = b.pt * 0.9
		s.arrow(place(-b.w/2+b.pt*0.8, 0), up, b.pt*0.85)
	}
	for i, l := range lines {
		y := (float64(i)-float64(len(lines)-1)/2)*b.pt*1.2 + b.pt*0.35
		s.text(place(shift, y), b.pt, b.turn, l, attr("text-anchor", "middle")...)
	}
}

// arrow draws an arrow about a middle, up degrees clockwise from the right.
func (s *sheet) arrow(mid svg.Point, up, half float64) {
	sin, cos := geom.SinCos(up * math.Pi / 180)
	place := func(x, y float64) svg.Point {
		return svg.Point{X: mid.X + float64(half*(float64(x*cos)-float64(y*sin))), Y: mid.Y + float64(half*(float64(x*sin)+float64(y*cos)))}
	}
	s.d.Line(place(-0.9, 0), place(0.3, 0), attr("stroke", inkColour, "stroke-width", "1")...)
	s.d.Polygon([]svg.Point{place(0.9, 0), place(0.1, 0.38), place(0.1, -0.38)}, attr("fill", inkColour)...)
}

// stretchArrow draws an arrow with two heads, the sign of the direction that
// gives most.
func (s *sheet) stretchArrow(mid svg.Point, direction unit.Angle, half float64) {
	sin, cos := geom.SinCos(-float64(direction) * math.Pi / 180)
	place := func(x, y float64) svg.Point {
		return svg.Point{X: mid.X + float64(half*(float64(x*cos)-float64(y*sin))), Y: mid.Y + float64(half*(float64(x*sin)+float64(y*cos)))}
	}
	ink := attr("fill", "none", "stroke", "#555", "stroke-width", "1")
	s.d.Polyline([]svg.Point{place(-0.7, 0.3), place(-1, 0), place(-0.7, -0.3)}, ink...)
	s.d.Polyline([]svg.Point{place(0.7, 0.3), place(1, 0), place(0.7, -0.3)}, ink...)
	s.d.Line(place(-1, 0), place(1, 0), ink...)
}

// hatch fills an outline with slanted lines, gap apart; steep slants them the
// other way.
func (s *sheet) hatch(pts []svg.Point, gap float64, steep bool, more ...svg.Attr) {
	k := 1.0
	if steep {
		k = -1
	}
	// Along lines x + k y = c.
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range pts {
		lo, hi = min(lo, p.X+float64(k*p.Y)), max(hi, p.X+float64(k*p.Y))
	}
	gap *= math.Sqrt2
	if !((hi-lo)/gap < 2000) {
		return
	}
	for c := math.Ceil(lo/gap) * gap; c < hi; c += gap {
		var ys []float64
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			fa, fb := a.X+float64(k*a.Y)-c, b.X+float64(k*b.Y)-c
			if (fa > 0) != (fb > 0) {
				ys = append(ys, a.Y+float64((b.Y-a.Y)*fa)/(fa-fb))
			}
		}
		slices.Sort(ys)
		for i := 0; i+1 < len(ys); i += 2 {
			s.d.Line(svg.Point{X: c - k*ys[i], Y: ys[i]}, svg.Point{X: c - k*ys[i+1], Y: ys[i+1]}, more...)
		}
	}
}

// list writes the keys under the picture, in columns, and gives the height
// used.
func (s *sheet) list(x, y, width float64) float64 {
	if len(s.keys) == 0 {
		return 0
	}
	const pt = 9.0
	long := 1
	for _, k := range s.keys {
		long = max(long, len([]rune(k))+5)
	}
	columns := max(1, int(width/(float64(long)*pt*charWidth)))
	rows := (len(s.keys) + columns - 1) / columns
	for i, k := range s.keys {
		s.text(svg.Point{X: x + float64(i/rows)*width/float64(columns), Y: y + float64(i%rows)*pt*1.3}, pt, 0, fmt.Sprintf("%d: %s", i+1, k))
	}
	return float64(rows) * pt * 1.3
}

// scaleBar draws a bar of a round length.
func (s *sheet) scaleBar(x, y float64) {
	l, name := 500*unit.Millimetre, "500 mm"
	if s.inch {
		l, name = 20*unit.Inch, "20 in"
	}
	if float64(l)*s.scale > 240 { // a small skin, drawn large
		if l, name = l/2, "250 mm"; s.inch {
			name = "10 in"
		}
	}
	w := float64(l) * s.scale
	for i := range 4 {
		fill := "#fff"
		if i%2 == 0 {
			fill = inkColour
		}
		s.d.Rect(svg.Point{X: x + w*float64(i)/4, Y: y - 4}, w/4, 4, attr("fill", fill, "stroke", inkColour, "stroke-width", "0.6")...)
	}
	s.text(svg.Point{X: x + w + 6, Y: y + 1}, 9, 0, name)
}
