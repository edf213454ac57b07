package camera

import "math"

// Point is a place: millimetres in the plane, or pixels in the picture.
type Point struct{ X, Y float64 }

func (p Point) Sub(q Point) Point     { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) Scale(f float64) Point { return Point{float64(p.X * f), float64(p.Y * f)} }
func (p Point) Add(q Point) Point     { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) Norm() float64         { return math.Sqrt(float64(p.X*p.X) + float64(p.Y*p.Y)) }
func (p Point) Cross(q Point) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }
func (p Point) Dot(q Point) float64   { return float64(p.X*q.X) + float64(p.Y*q.Y) }
func (p Point) Turned(s, c float64) Point {
	return Point{float64(c*p.X) - float64(s*p.Y), float64(s*p.X) + float64(c*p.Y)}
}

// Away is the distance of two points.
func (p Point) Away(q Point) float64 { return p.Sub(q).Norm() }

func (m matrix3) point(p Point) (Point, float64) {
	x, y, w := m.apply(p.X, p.Y, 1)
	return Point{x / w, y / w}, w
}

// normal gives the centre of the points and the factor that brings their mean
// distance from it to the square root of two; zero when all are one point.
func normal(ps []Point) (centre Point, factor float64) {
	for _, p := range ps {
		centre = centre.Add(p)
	}
	centre = centre.Scale(1 / float64(len(ps)))
	sum := 0.0
	for _, p := range ps {
		sum += p.Sub(centre).Norm()
	}
	if sum == 0 {
		return centre, 0
	}
	return centre, math.Sqrt2 * float64(len(ps)) / sum
}

// direct gives the homography from the plane to the picture by the normalised
// direct linear transformation: with T and U the maps of normal for plane and
// picture, each pair (X, Y) -> (u, v) gives the rows
//
//	-X -Y -1  0  0  0  uX uY u
//	 0  0  0 -X -Y -1  vX vY v
//
// h is the singular vector of the smallest singular value, and H = U⁻¹ h T.
// It is scaled so that the centre of the places has w = 1.
func direct(at, seen []Point) (matrix3, bool) {
	c, s := normal(at)
	d, u := normal(seen)
	if s == 0 || u == 0 {
		return matrix3{}, false
	}
	a := square(9)
	for i := range at {
		p, q := at[i].Sub(c).Scale(s), seen[i].Sub(d).Scale(u)
		for _, row := range [2][9]float64{
			{-p.X, -p.Y, -1, 0, 0, 0, float64(q.X * p.X), float64(q.X * p.Y), q.X},
			{0, 0, 0, -p.X, -p.Y, -1, float64(q.Y * p.X), float64(q.Y * p.Y), q.Y},
		} {
			for j, x := range row {
				for k, y := range row {
					a[j][k] += float64(x * y)
				}
			}
		}
	}
	v := leastVector(a)
	if math.Abs(v[8]) < 1e-9 { // the centre would be on the horizon
		return matrix3{}, false
	}
	h := matrix3{{v[0], v[1], v[2]}, {v[3], v[4], v[5]}, {v[6], v[7], v[8]}}
	for i := range 3 {
		for j := range 3 {
			h[i][j] /= v[8]
		}
	}
	back := matrix3{{1 / u, 0, d.X}, {0, 1 / u, d.Y}, {0, 0, 1}}
	to := matrix3{{s, 0, -float64(s * c.X)}, {0, s, -float64(s * c.Y)}, {0, 0, 1}}
	return back.times(h).times(to), true
}
