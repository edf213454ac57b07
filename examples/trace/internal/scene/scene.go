// Package scene draws photographs of panels whose outlines are known: to try the
// reader on, and to test it by. A scene lies in one plane, in millimetres, X to the
// right and Y up; a camera looks at it through a lens that bends lines.
package scene

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/examples/internal/markpage"
	"github.com/coverwright/coverwright/unit"
)

// Point is a place in the plane.
type Point struct{ X, Y float64 }

// Tone is the part of the light that a thing throws back, and its tint: how far
// its colour lies from grey, in the colour differences of a JPEG picture.
type Tone struct{ Light, Cb, Cr float64 }

// Panel is a panel that lies where its outline says.
type Panel struct {
	Outline shape.Outline
	Tone    Tone
	// Stripes are bands of another tone over the panel, so many of them, as a printed
	// cloth has.
	Stripes int
	Stripe  Tone
}

// Sheet is a page of marks: where the lower left corner of its paper lies, and how
// far it is turned anticlockwise, in degrees.
type Sheet struct {
	X, Y, Turn float64
	// Grown is what the printer made the page larger or smaller by, 1 for nothing.
	GrownX, GrownY float64
}

// Paper of a sheet, A4.
const (
	paperAcross = 210.0
	paperUp     = 297.0
)

// Scene is what is photographed.
type Scene struct {
	Ground Tone
	Sheets []Sheet
	Panels []Panel
}

// At gives the place of a point of a sheet, measured from its odd mark.
func (s Sheet) At(x, y float64) Point {
	gx, gy := s.GrownX, s.GrownY
	if gx == 0 {
		gx = 1
	}
	if gy == 0 {
		gy = 1
	}
	across, up := markpage.Across.Millimetres(), (markpage.Rows-1)*markpage.Up.Millimetres()
	x, y = gx*(x-across/2)+paperAcross/2, gy*(y-up/2)+paperUp/2
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	return Point{s.X + cos*x - sin*y, s.Y + sin*x + cos*y}
}

// corners of the paper.
func (s Sheet) corners() []Point {
	s.GrownX, s.GrownY = 1, 1
	across, up := markpage.Across.Millimetres(), (markpage.Rows-1)*markpage.Up.Millimetres()
	x0, y0 := (across-paperAcross)/2, (up-paperUp)/2
	return []Point{s.At(x0, y0), s.At(x0+paperAcross, y0), s.At(x0+paperAcross, y0+paperUp), s.At(x0, y0+paperUp)}
}

// layer is one thing to draw, in one tone.
type layer struct {
	ring []Point
	tone Tone
}

const (
	paperLight = 0.85
	inkLight   = 0.05
)

// layers of a scene, the lowest first.
func (s Scene) layers() ([]layer, error) {
	var out []layer
	for _, p := range s.Panels {
		points, err := p.Outline.Flatten(unit.Millimetre / 50)
		if err != nil {
			return nil, err
		}
		ring := make([]Point, len(points))
		for i, q := range points {
			ring[i] = Point{q.X.Millimetres(), q.Y.Millimetres()}
		}
		out = append(out, layer{dense(ring), p.Tone})
		low, high := p.Outline.Bounds()
		for i := range p.Stripes {
			x := func(part float64) float64 {
				return low.X.Millimetres() + (high.X-low.X).Millimetres()*part
			}
			y0, y1 := low.Y.Millimetres(), high.Y.Millimetres()
			y0, y1 = y0+0.25*(y1-y0), y1-0.25*(y1-y0)
			n := float64(p.Stripes)
			a, b := x(0.25+0.5*float64(i)/n), x(0.25+0.5*(float64(i)+0.5)/n)
			out = append(out, layer{dense([]Point{{a, y0}, {b, y0}, {b, y1}, {a, y1}}), p.Stripe})
		}
	}
	for _, sheet := range s.Sheets {
		out = append(out, layer{dense(sheet.corners()), Tone{Light: paperLight}})
		for _, m := range markpage.Marks() {
			for i, part := range []float64{1, markpage.Inner, markpage.Dot} {
				if i == 2 && m.Odd {
					continue
				}
				const n = 180
				var ring []Point
				for k := range n {
					sin, cos := math.Sincos(2 * math.Pi * float64(k) / n)
					r := part * markpage.Radius.Millimetres()
					ring = append(ring, sheet.At(m.At.X.Millimetres()+r*cos, m.At.Y.Millimetres()+r*sin))
				}
				out = append(out, layer{ring, Tone{Light: []float64{inkLight, paperLight, inkLight}[i]}})
			}
		}
		// Words, as grey bars.
		for i := range 8 {
			y := 60 + 14*float64(i)
			out = append(out, layer{[]Point{sheet.At(35, y), sheet.At(125-9*float64(i%3), y), sheet.At(125-9*float64(i%3), y+2), sheet.At(35, y+2)}, Tone{Light: inkLight}})
		}
	}
	return out, nil
}

// dense puts points between far ones, as the lens bends straight lines.
func dense(ring []Point) []Point {
	var out []Point
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		n := max(int(math.Hypot(q.X-p.X, q.Y-p.Y)/4), 1)
		for k := range n {
			f := float64(k) / float64(n)
			out = append(out, Point{p.X + f*(q.X-p.X), p.Y + f*(q.Y-p.Y)})
		}
	}
	return out
}
