package layout

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
)

// block is the place of a label.
type block struct {
	mid  svg.Point
	turn float64 // degrees clockwise
	w    float64
	pt   float64
}

// mask tells where a label may stand in a panel, for a few directions of
// writing.
type mask struct {
	turns []*turnedMask
}

type turnedMask struct {
	turn   float64
	x0, y0 float64
	dx, dy float64 // of a square
	nx, ny int
	sum    []int32 // clear squares up to here
	cx, cy float64 // middle of the area
}

const maskCells = 72

// noArrow in place of a direction leaves the arrow out.
var noArrow = math.NaN()

func newMask(pts []svg.Point, up float64, avoid ...svg.Point) *mask {
	m := &mask{}
	seen := []float64{}
	for _, t := range []float64{0, up + 90, up, -90} {
		t = math.Mod(t, 180)
		switch { // read from the left or from below
		case t > 80:
			t -= 180
		case t <= -100:
			t += 180
		}
		if slices.ContainsFunc(seen, func(v float64) bool { return math.Abs(v-t) < 0.5 }) {
			continue
		}
		seen = append(seen, t)
		m.turns = append(m.turns, newTurnedMask(pts, t, avoid))
	}
	return m
}

func newTurnedMask(pts []svg.Point, turn float64, avoid []svg.Point) *turnedMask {
	sin, cos := geom.SinCos(-turn * math.Pi / 180)
	q, off := make([]svg.Point, len(pts)), make([]svg.Point, len(avoid))
	for i, p := range avoid {
		off[i] = svg.Point{X: float64(p.X*cos) - float64(p.Y*sin), Y: float64(p.X*sin) + float64(p.Y*cos)}
	}
	near := func(c svg.Point) bool {
		return slices.ContainsFunc(off, func(p svg.Point) bool { return math.Abs(p.X-c.X) < 7 && math.Abs(p.Y-c.Y) < 7 })
	}
	lo, hi := svg.Point{X: math.Inf(1), Y: math.Inf(1)}, svg.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for i, p := range pts {
		q[i] = svg.Point{X: float64(p.X*cos) - float64(p.Y*sin), Y: float64(p.X*sin) + float64(p.Y*cos)}
		lo = svg.Point{X: min(lo.X, q[i].X), Y: min(lo.Y, q[i].Y)}
		hi = svg.Point{X: max(hi.X, q[i].X), Y: max(hi.Y, q[i].Y)}
	}
	t := &turnedMask{turn: turn, x0: lo.X, y0: lo.Y, dx: max((hi.X-lo.X)/maskCells, 0.5), dy: max((hi.Y-lo.Y)/maskCells, 0.5)}
	t.nx, t.ny = int((hi.X-lo.X)/t.dx)+1, int((hi.Y-lo.Y)/t.dy)+1
	t.sum = make([]int32, (t.nx+1)*(t.ny+1))
	n := 0
	for y := range t.ny {
		row := int32(0)
		for x := range t.nx {
			c := svg.Point{X: t.x0 + float64((float64(x)+0.5)*t.dx), Y: t.y0 + float64((float64(y)+0.5)*t.dy)}
			if within(q, c) && !near(c) {
				row++
				n++
				t.cx += c.X
				t.cy += c.Y
			}
			t.sum[(y+1)*(t.nx+1)+x+1] = t.sum[y*(t.nx+1)+x+1] + row
		}
	}
	if n > 0 {
		t.cx, t.cy = t.cx/float64(n), t.cy/float64(n)
	}
	return t
}

func within(ring []svg.Point, p svg.Point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+float64((b.X-a.X)*(p.Y-a.Y))/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// room finds the largest size at which the lines fit, near the middle of the
// panel; level writing is preferred to a little more size.
func (m *mask) room(lines []string, arrow bool) (block, bool) {
	long := 1
	for _, l := range lines {
		long = max(long, len([]rune(l)))
	}
	for pt := mostPoint; pt >= 5; pt-- {
		w, h := float64(long)*pt*charWidth+pt*0.8, float64(len(lines))*pt*1.2+pt*0.6
		if arrow {
			w += 1.8 * pt
			h = max(h, 1.7*pt)
		}
		for _, t := range m.turns {
			if c, ok := t.find(w, h); ok {
				return block{mid: c, turn: t.turn, w: w, pt: pt}, true
			}
		}
	}
	return block{}, false
}

// find gives the middle of a clear box nearest to the middle of the area.
func (t *turnedMask) find(w, h float64) (svg.Point, bool) {
	bw, bh := int(math.Ceil(w/t.dx))+1, int(math.Ceil(h/t.dy))+1
	best, found := math.Inf(1), false
	var at svg.Point
	for y := 0; y+bh <= t.ny; y++ {
		for x := 0; x+bw <= t.nx; x++ {
			n := t.sum[(y+bh)*(t.nx+1)+x+bw] - t.sum[y*(t.nx+1)+x+bw] - t.sum[(y+bh)*(t.nx+1)+x] + t.sum[y*(t.nx+1)+x]
			if int(n) != bw*bh {
				continue
			}
			c := svg.Point{X: t.x0 + float64((float64(x)+float64(bw)/2)*t.dx), Y: t.y0 + float64((float64(y)+float64(bh)/2)*t.dy)}
			if d := math.Hypot(c.X-t.cx, c.Y-t.cy); d < best-1e-6 {
				best, at, found = d, c, true
			}
		}
	}
	if !found {
		return at, false
	}
	sin, cos := geom.SinCos(t.turn * math.Pi / 180)
	return svg.Point{X: float64(at.X*cos) - float64(at.Y*sin), Y: float64(at.X*sin) + float64(at.Y*cos)}, true
}

// middle gives a place on a narrow panel, near the middle of its area.
func (m *mask) middle(pts []svg.Point) svg.Point {
	if t := m.turns[0]; t.turn == 0 && (t.cx != 0 || t.cy != 0) {
		return svg.Point{X: t.cx, Y: t.cy}
	}
	return pts[0]
}
