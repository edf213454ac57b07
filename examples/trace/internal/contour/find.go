package contour

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/examples/trace/internal/picture"
)

// ErrPhoto says that a panel cannot be told from its ground with certainty.
var ErrPhoto = errors.New("the photo cannot be used")

func refuse(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrPhoto, fmt.Sprintf(format, args...))
}

// Panel is the border of a panel on a picture, its points in order round it, and how
// well it is seen.
type Panel struct {
	Border []Point
	// Levels is how far the panel differs from the ground, in coded levels of 255.
	Levels float64
	// Width is how wide the edge is seen, from a tenth to nine tenths of the step, in
	// pixels.
	Width float64
	// Sigma is how far the points scatter about the line of their neighbours, in
	// pixels.
	Sigma float64
	// Holes is the part of the panel inside it that looks like the ground; it is
	// taken for panel.
	Holes float64
}

// Found is what was found on a picture.
type Found struct {
	Panels []Panel // left to right
	Spots  int     // things too small for a panel, left out
}

// Parts of the picture.
const (
	strip    = 0.03   // at its border, taken for ground
	smallest = 0.004  // of a panel
	spot     = 0.0002 // of a thing worth telling of

	mostHoles = 0.03 // of a panel
)

// Find gives the panels of a picture. pages are the corners of the papers of the
// marks, a little larger than they are: what lies in them is no panel.
func Find(p picture.Plane, pages [][]Point) (Found, error) {
	n := max((max(p.W, p.H)+500)/1000, 1)
	m := newMask(p.Shrink(n), n, pages)
	if err := m.flatten(); err != nil {
		return Found{}, err
	}
	m.open()
	var out Found
	things := m.things()
	area := m.w * m.h
	for _, t := range things {
		switch {
		case t.n < int(smallest*float64(area)):
			if t.n > int(spot*float64(area)) && !t.border {
				out.Spots++
			}
			continue
		case t.border:
			return out, refuse("a panel, or something else that is not ground, runs out of the picture: bring the whole panel into view, on a ground of one colour that fills the rest of the picture")
		case t.blank > 0:
			return out, refuse("a page of marks lies over the panel or against it: leave a finger's breadth between them")
		}
		panel, err := m.panel(p, t)
		if err != nil {
			return out, err
		}
		out.Panels = append(out.Panels, panel)
	}
	if len(out.Panels) == 0 {
		return out, refuse("no panel is seen that stands out from the ground: lay it on a plain ground that is much lighter or darker")
	}
	return out, nil
}

// mask works on the picture n times smaller.
type mask struct {
	picture.Plane
	n        int
	w, h     int
	blank    []bool
	ratio    []float32 // light over that of the ground
	on       []bool    // not ground
	of       []int32   // the number of the thing, from 1
	sure     []bool
	lightest float64
}

func newMask(p picture.Plane, n int, pages [][]Point) *mask {
	m := &mask{Plane: p, n: n, w: p.W, h: p.H}
	m.blank, m.sure = make([]bool, p.W*p.H), make([]bool, p.W*p.H)
	edge := max(int(strip*float64(max(p.W, p.H))), 2)
	for y := range m.h {
		for x := range m.w {
			m.sure[y*m.w+x] = x < edge || y < edge || x >= m.w-edge || y >= m.h-edge
		}
	}
	for _, page := range pages {
		m.fill(page, 1.12, m.sure)
	}
	for _, page := range pages {
		m.fill(page, 1, m.blank)
	}
	return m
}

// fill marks the pixels inside a ring, grown about its middle.
func (m *mask) fill(ring []Point, grown float64, what []bool) {
	var mid Point
	for _, q := range ring {
		mid.X += q.X / float64(len(ring))
		mid.Y += q.Y / float64(len(ring))
	}
	s := float64(m.n)
	for y := range m.h {
		v := (float64(y) + 0.5) * s
		var cuts []float64
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			ax, ay := mid.X+float64(grown*(a.X-mid.X)), mid.Y+float64(grown*(a.Y-mid.Y))
			bx, by := mid.X+float64(grown*(b.X-mid.X)), mid.Y+float64(grown*(b.Y-mid.Y))
			if (ay > v) != (by > v) {
				cuts = append(cuts, ax+float64((v-ay)/(by-ay)*(bx-ax)))
			}
		}
		slices.Sort(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			x0, x1 := max(int(math.Ceil(cuts[i]/s-0.5)), 0), min(int(math.Ceil(cuts[i+1]/s-0.5)), m.w)
			for x := x0; x < x1; x++ {
				what[y*m.w+x] = true
			}
		}
	}
}

// flatten divides by the light of the ground, and takes for not ground what is a
// fifth lighter or darker.
func (m *mask) flatten() error {
	g, ok := groundOf(m.Plane, m.sure, m.blank)
	if !ok {
		return refuse("the ground is not of one colour: lay the panel on a plain ground that fills the picture")
	}
	m.ratio, m.on = make([]float32, m.w*m.h), make([]bool, m.w*m.h)
	for y := range m.h {
		for x := range m.w {
			is := g.at(basis(x, y, m.w, m.h))
			if is < 0.002*picture.White {
				return refuse("part of the picture is too dark: more light, from above or from two sides")
			}
			m.lightest = max(m.lightest, is)
			i := y*m.w + x
			r := float64(m.Pix[i]) / is
			m.ratio[i] = float32(r)
			m.on[i] = !m.blank[i] && (r < 0.8 || r > 1.2)
		}
	}
	return nil
}

// open takes away threads: what no square of 3 x 3 pixels fits in.
func (m *mask) open() {
	eroded := make([]bool, len(m.on))
	for y := 1; y < m.h-1; y++ {
		for x := 1; x < m.w-1; x++ {
			i := y*m.w + x
			all := true
			for _, k := range [9]int{i - m.w - 1, i - m.w, i - m.w + 1, i - 1, i, i + 1, i + m.w - 1, i + m.w, i + m.w + 1} {
				// The edge of a page cuts no thing off from it.
				all = all && (m.on[k] || m.blank[k])
			}
			eroded[i] = all && m.on[i]
		}
	}
	out := make([]bool, len(m.on))
	for y := 1; y < m.h-1; y++ {
		for x := 1; x < m.w-1; x++ {
			if i := y*m.w + x; eroded[i] {
				for _, k := range [9]int{i - m.w - 1, i - m.w, i - m.w + 1, i - 1, i, i + 1, i + m.w - 1, i + m.w, i + m.w + 1} {
					out[k] = m.on[k]
				}
			}
		}
	}
	m.on = out
}

// thing is a connected part of the picture that is not ground.
type thing struct {
	id             int32
	n              int
	x0, y0, x1, y1 int
	border         bool // it runs out of the picture
	blank          int  // pixels that touch a page
}

func (m *mask) things() []thing {
	m.of = make([]int32, len(m.on))
	var out []thing
	var stack []int
	for start, on := range m.on {
		if !on || m.of[start] != 0 {
			continue
		}
		t := thing{id: int32(len(out) + 1), x0: m.w, y0: m.h}
		stack = append(stack[:0], start)
		m.of[start] = t.id
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			x, y := i%m.w, i/m.w
			t.n++
			t.x0, t.y0, t.x1, t.y1 = min(t.x0, x), min(t.y0, y), max(t.x1, x), max(t.y1, y)
			if x <= 1 || y <= 1 || x >= m.w-2 || y >= m.h-2 {
				t.border = true
			}
			for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				u, v := x+d[0], y+d[1]
				if u < 0 || v < 0 || u >= m.w || v >= m.h {
					continue
				}
				k := v*m.w + u
				if m.blank[k] {
					t.blank++
				}
				if m.on[k] && m.of[k] == 0 {
					m.of[k] = t.id
					stack = append(stack, k)
				}
			}
		}
		out = append(out, t)
	}
	slices.SortStableFunc(out, func(a, b thing) int { return a.x0 + a.x1 - b.x0 - b.x1 })
	return out
}

// panel gives the border of a thing: where the light is half way between that of
// the panel and that of the ground.
func (m *mask) panel(p picture.Plane, t thing) (Panel, error) {
	var all []float32
	for i, of := range m.of {
		if of == t.id {
			all = append(all, m.ratio[i])
		}
	}
	slices.Sort(all)
	level := float64(all[len(all)/2])
	if level > 0.8 && level < 1.2 {
		return Panel{}, refuse("a panel has a pattern, or a shadow lies about it: points must be marked by hand")
	}
	// Half way, in a box with two pixels of ground about the thing.
	x0, y0 := t.x0-3, t.y0-3
	w, h := t.x1-t.x0+7, t.y1-t.y0+7
	in := make([]bool, w*h)
	low, inside := 0, 0
	for y := range h {
		for x := range w {
			u, v := x0+x, y0+y
			if u < 0 || v < 0 || u >= m.w || v >= m.h || !m.near(u, v, t.id) {
				continue
			}
			in[y*w+x] = (float64(m.ratio[v*m.w+u])-1)/(level-1) > 0.5
			if m.of[v*m.w+u] == t.id {
				inside++
				if !in[y*w+x] {
					low++
				}
			}
		}
	}
	// The soft edge of the thing is at most two pixels of it wide.
	if around := 3 * (w + h); low > around+inside/30 {
		return Panel{}, refuse("a panel has a pattern or spots as light as half way to the ground, or a shadow lies about it: light from above or from two sides; for patterned goods mark the points by hand")
	}
	in, holes := solid(in, w, h)
	if holes > mostHoles {
		return Panel{}, refuse("a panel has holes, or a pattern as light as the ground: lay it on another ground, or mark the points by hand")
	}
	ring := border(in, w, h)
	if len(ring) < 40 {
		return Panel{}, refuse("a panel is seen too small: come nearer")
	}
	s := float64(m.n)
	for i := range ring {
		ring[i] = Point{(ring[i].X + float64(x0)) * s, (ring[i].Y + float64(y0)) * s}
	}
	panel, err := edges(p, ring, s, level)
	panel.Holes = holes
	return panel, err
}

// near tells whether a pixel is of the thing or beside it, and of no other.
func (m *mask) near(x, y int, id int32) bool {
	if of := m.of[y*m.w+x]; of != 0 {
		return of == id
	}
	for v := max(y-2, 0); v <= min(y+2, m.h-1); v++ {
		for u := max(x-2, 0); u <= min(x+2, m.w-1); u++ {
			if m.of[v*m.w+u] == id {
				return true
			}
		}
	}
	return false
}
