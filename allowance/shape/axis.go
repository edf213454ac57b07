package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// axisSamples is how many points of an outline its axis is found from.
const axisSamples = 512

// SymmetryAxis finds the line about which the outline is most nearly its own
// mirror image, as two points a panel's height apart, the lower one first. The outline is sampled
// by length at N = 512 points, as complex numbers z about their centre. For every
// k, with indices round the outline,
//
//	c(k) = Σ z(j) z(k - j)
//
// is largest in size where k - j is the partner of point j; the axis lies at half the
// angle of c, by a parabola through the largest and its neighbours. Of several
// axes that are equal to 1 %, as those of a rectangle, it is the one nearest to the grain.
func (o Outline) SymmetryAxis() (low, high Point, err error) {
	if o.IsZero() {
		return low, high, check.Required("outline", "one of the outlines of this package")
	}
	z, centre := o.samples()
	const n = axisSamples
	sum := make([]geom.Vec, n)
	most := 0.0
	for k := range n {
		for j := range n {
			p, q := z[j], z[(k-j+n)%n]
			sum[k].X += float64(p.X*q.X) - float64(p.Y*q.Y)
			sum[k].Y += float64(p.X*q.Y) + float64(p.Y*q.X)
		}
		most = max(most, geom.Hypot(sum[k].X, sum[k].Y))
	}
	if most == 0 {
		return low, high, check.Refuse("outline", "", unit.ErrRange, "an outline with an axis")
	}
	size := func(k int) float64 { v := sum[(k+n)%n]; return geom.Hypot(v.X, v.Y) }
	best, upright := 0.0, -1.0
	for k := range n {
		if size(k) < 0.99*most || size(k) < size(k-1) || size(k) < size(k+1) {
			continue
		}
		shift := 0.0
		if d := size(k-1) - 2*size(k) + size(k+1); d < 0 {
			shift = (size(k-1) - size(k+1)) / (2 * d)
		}
		// The turn from one shift to the next is small: take it from the neighbours.
		step := turnTo(sum[(k-1+n)%n], sum[(k+1)%n]) / 2
		a := (geom.Atan2(sum[k].Y, sum[k].X) + float64(shift*step)) / 2
		if sin, _ := geom.SinCos(a); math.Abs(sin) > upright+1e-9 {
			best, upright = a, math.Abs(sin)
		}
	}
	sin, cos := geom.SinCos(best)
	if sin < 0 || sin == 0 && cos < 0 {
		sin, cos = -sin, -cos
	}
	half := float64(max(o.box.Height(), o.box.Width())) / 2
	low = fromGrid(geom.Vec{X: centre.X - float64(half*cos), Y: centre.Y - float64(half*sin)}.Point())
	high = fromGrid(geom.Vec{X: centre.X + float64(half*cos), Y: centre.Y + float64(half*sin)}.Point())
	return low, high, nil
}

// samples gives points of equal distance along the outline, about their centre.
func (o Outline) samples() ([]geom.Vec, geom.Vec) {
	z := make([]geom.Vec, 0, axisSamples)
	step := o.path().Length() / axisSamples
	var c geom.Vec
	done := 0.0
	for _, s := range o.whole {
		l := s.Length()
		p := geom.Parallel{Segment: s}
		for len(z) < axisSamples && float64(step*float64(len(z))) <= done+l {
			q := p.At(s.ParameterAt(float64(step*float64(len(z))) - done))
			z = append(z, q)
			c.X, c.Y = c.X+q.X, c.Y+q.Y
		}
		done += l
	}
	c.X, c.Y = c.X/float64(len(z)), c.Y/float64(len(z))
	for i := range z {
		z[i].X, z[i].Y = z[i].X-c.X, z[i].Y-c.Y
	}
	for len(z) < axisSamples { // rounding may leave the last one out
		z = append(z, z[0])
	}
	return z, c
}
