package photo

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/camera"
	"github.com/coverwright/coverwright/unit"
)

// Error is how far an outline that was taken from a picture may be off, at 95 %,
// and what makes it up. Outline is the sum of the other three lengths.
type Error struct {
	Outline   unit.Length `json:"outline"`   // no point of the outline is further off
	Picture   unit.Length `json:"picture"`   // from where marks and outline are seen
	Scale     unit.Length `json:"scale"`     // from the scale of the marks
	Thickness unit.Length `json:"thickness"` // from the thickness of the panel
	// Lengths is the share that lengths may be off by the scale alone.
	Lengths unit.Ratio `json:"lengths"`
	// Known tells whether Picture could be stated: four marks without a spread
	// leave nothing to judge by, and then it is zero.
	Known bool `json:"known"`
	// Unmeasured says that the scale was not measured and UnmeasuredScale was taken.
	Unmeasured bool `json:"unmeasured,omitzero"`
}

// ErrorOf gives the error of an outline that was found with View.Point, as a shape:
// after the best move and turn. With L the outline's largest extent, t the
// thickness, Z the height of the camera
//
//	Picture = 3 σ,  Scale = scale error · L / 2,  Thickness = t L / 20 Z + most of t (F - P)·n / Z
//
// σ is the largest standard deviation of its points. It follows from the spread of
// the marks by the law of propagation, through the whole view, and from that of the
// edge. The spread of the marks is what they are off, not less than 0.05 pixels, and
// more when there are few marks to judge by (Student's distribution). The height
// of the camera is taken to a tenth. The last term is that of edges that look
// towards the foot F of the camera, n their outward normal: what is seen there is the
// lower edge, which the thickness does not move.
func (v View) ErrorOf(o shape.Outline) (Error, error) {
	if err := v.check(); err != nil {
		return Error{}, err
	}
	ring, err := o.Flatten(0)
	if err != nil {
		return Error{}, err
	}
	cam, t := v.view.Camera(), v.thickness()
	points := along(ring)
	extent, side := 0.0, 0.0
	for i, p := range points {
		for _, q := range points[:i] {
			extent = math.Max(extent, p.Away(q))
		}
		q := points[(i+1)%len(points)]
		// Outward normal (dy, -dx) of an edge of the anticlockwise outline.
		n := (float64((cam.Foot.X-p.X)*(q.Y-p.Y)) - float64((cam.Foot.Y-p.Y)*(q.X-p.X))) / math.Max(1e-9, p.Away(q))
		side = math.Max(side, t*n/cam.Height)
	}
	scale := v.options.ScaleError
	e := Error{Known: v.view.Known, Unmeasured: scale == 0}
	if e.Unmeasured {
		scale = UnmeasuredScale
	}
	e.Lengths, e.Scale = scale, lengthOf(float64(scale)*extent/2)
	e.Thickness = lengthOf(t*extent/(20*cam.Height) + side)
	if e.Known {
		for i, p := range points {
			points[i] = cam.Raise(p, t)
		}
		e.Picture = lengthOf(3 * v.view.SpreadOf(points, float64(v.options.EdgeSpread)))
	}
	e.Outline = e.Picture + e.Scale + e.Thickness
	return e, nil
}

// along gives points evenly round a ring, in millimetres.
func along(ring []shape.Point) []camera.Point {
	const n = 128
	corner := func(i int) camera.Point { return millimetres(ring[i%len(ring)]) }
	total := 0.0
	for i := range ring {
		total += corner(i).Away(corner(i + 1))
	}
	out := make([]camera.Point, 0, n)
	i, passed := 0, 0.0
	for k := range n {
		want := total * float64(k) / n
		for i < len(ring)-1 && passed+corner(i).Away(corner(i+1)) < want {
			passed += corner(i).Away(corner(i + 1))
			i++
		}
		a, b := corner(i), corner(i+1)
		f := 0.0
		if d := a.Away(b); d > 0 {
			f = (want - passed) / d
		}
		out = append(out, camera.Point{X: a.X + float64(f*(b.X-a.X)), Y: a.Y + float64(f*(b.Y-a.Y))})
	}
	return out
}
