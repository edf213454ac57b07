package camera

import (
	"math"

	"github.com/coverwright/coverwright/internal/geom"
)

// Mark is a thing whose place on its page is known, and where it is seen.
type Mark struct{ Seen, At Point }

// The unknowns are the eight of the homography, the lens, and for every page
// after the first its turn and its place.
const (
	lens    = 8
	plain   = 9 // unknowns of a view of one page
	perPage = 3
)

// model is a view with its unknowns. The plane is normalised, q = f (P - c), so
// that the centre of the marks has w = 1; pixels count from the centre of the
// picture in half diagonals:
//
//	w = h₆ q_x + h₇ q_y + 1,  d = (h₀ q_x + h₁ q_y + h₂, h₃ q_x + h₄ q_y + h₅) / w
//	seen = d (1 + k d²)
//
// the second line is the lens, one radial term.
type model struct {
	middle Point   // of the picture, in pixels
	half   float64 // of its diagonal
	centre Point   // c
	factor float64 // f
	means  []Point // of the marks of each page
	par    []float64
}

// sight is a point seen, and how it answers to the unknowns of the view and to
// its place: all in half diagonals, the place normalised.
type sight struct {
	seen  Point
	depth float64
	par   [2][plain]float64
	place [2][2]float64
}

// see computes where a normalised place is seen.
func (m *model) see(q Point) sight {
	h := m.par
	w := float64(h[6]*q.X) + float64(h[7]*q.Y) + 1
	d := Point{(float64(h[0]*q.X) + float64(h[1]*q.Y) + h[2]) / w, (float64(h[3]*q.X) + float64(h[4]*q.Y) + h[5]) / w}
	var flat [2][plain]float64
	for i, u := range [2]float64{d.X, d.Y} {
		flat[i][3*i], flat[i][3*i+1], flat[i][3*i+2] = q.X/w, q.Y/w, 1/w
		flat[i][6], flat[i][7] = -float64(q.X*u)/w, -float64(q.Y*u)/w
	}
	by := [2][2]float64{{(h[0] - float64(h[6]*d.X)) / w, (h[1] - float64(h[7]*d.X)) / w}, {(h[3] - float64(h[6]*d.Y)) / w, (h[4] - float64(h[7]*d.Y)) / w}}
	k, r2 := h[lens], d.Dot(d)
	bend := 1 + float64(k*r2)
	cross := 2 * float64(k*float64(d.X*d.Y))
	l := [2][2]float64{{bend + 2*float64(k*float64(d.X*d.X)), cross}, {cross, bend + 2*float64(k*float64(d.Y*d.Y))}}
	out := sight{seen: d.Scale(bend), depth: w}
	for i := range 2 {
		for j := range lens {
			out.par[i][j] = float64(l[i][0]*flat[0][j]) + float64(l[i][1]*flat[1][j])
		}
		for j := range 2 {
			out.place[i][j] = float64(l[i][0]*by[0][j]) + float64(l[i][1]*by[1][j])
		}
	}
	out.par[0][lens], out.par[1][lens] = float64(d.X*r2), float64(d.Y*r2)
	return out
}

// pose gives where a mark of a page lies, normalised, and how that answers to
// the turn of the page.
func (m *model) pose(page int, p Point) (q, byTurn Point) {
	if page == 0 {
		return p.Sub(m.centre).Scale(m.factor), Point{}
	}
	o := m.par[plain+perPage*(page-1):]
	s, c := geom.SinCos(o[0])
	arm := p.Sub(m.means[page]).Scale(m.factor).Turned(s, c)
	return arm.Add(Point{o[1], o[2]}), Point{-arm.Y, arm.X}
}

// middleOf gives the place whose picture is the middle of the picture of a
// circle. The middle of the seen ellipse is not the seen middle: with r the radius
// and h the last row of the homography it is the picture of
//
//	P - r² (h₆, h₇) / w
func (m *model) middleOf(q Point, r2 float64) Point {
	if r2 == 0 {
		return q
	}
	w := float64(m.par[6]*q.X) + float64(m.par[7]*q.Y) + 1
	g := r2 * m.factor * m.factor / w
	return Point{q.X - float64(g*m.par[6]), q.Y - float64(g*m.par[7])}
}

// pixel and unit convert between pixels and half diagonals from the middle.
func (m *model) pixel(d Point) Point { return m.middle.Add(d.Scale(m.half)) }
func (m *model) unit(p Point) Point  { return p.Sub(m.middle).Scale(1 / m.half) }

// straighten takes the lens away: the d of a seen point, by Newton's method on
// r (1 + k r²) = r_seen.
func (m *model) straighten(seen Point) Point {
	k, s := m.par[lens], seen.Norm()
	if k == 0 || s == 0 {
		return seen
	}
	r := s
	for range 40 {
		r2 := float64(r * r)
		step := (float64(r*(1+float64(k*r2))) - s) / (1 + float64(3*float64(k*r2)))
		r -= step
		if math.Abs(step) <= 1e-15*s {
			break
		}
	}
	return seen.Scale(r / s)
}

// homography gives H from the plane in millimetres to d.
func (m *model) homography() matrix3 {
	h := m.par
	f, c := m.factor, m.centre
	return matrix3{{h[0], h[1], h[2]}, {h[3], h[4], h[5]}, {h[6], h[7], 1}}.times(matrix3{{f, 0, -float64(f * c.X)}, {0, f, -float64(f * c.Y)}, {0, 0, 1}})
}
