package geom

import (
	"cmp"
	"math"
)

// MaxCoord is the largest coordinate in size the package accepts: 100 m. It
// keeps every intermediate product inside 128 bits.
const MaxCoord int64 = 1e11

// Point is a point, or a vector, in nanometres.
type Point struct{ X, Y int64 }

// Pt is the point (x, y).
func Pt(x, y int64) Point { return Point{x, y} }

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Less orders points by x, then by y.
func (p Point) Less(q Point) bool { return p.X < q.X || p.X == q.X && p.Y < q.Y }

// InRange reports whether both coordinates are at most MaxCoord in size.
func (p Point) InRange() bool {
	return p.X <= MaxCoord && p.X >= -MaxCoord && p.Y <= MaxCoord && p.Y >= -MaxCoord
}

func comparePoints(p, q Point) int {
	if p.X != q.X {
		return cmp.Compare(p.X, q.X)
	}
	return cmp.Compare(p.Y, q.Y)
}

// small reports whether all four values are in [-2^31, 2^31), so that a sum
// of two products fits an int64.
func small(a, b, c, d int64) bool {
	const h = 1 << 31
	return (uint64(a+h)|uint64(b+h)|uint64(c+h)|uint64(d+h))>>32 == 0
}

// Cross returns the exact cross product a.X*b.Y - a.Y*b.X.
func Cross(a, b Point) Int128 {
	if small(a.X, a.Y, b.X, b.Y) {
		return FromInt64(a.X * b.Y).Sub(FromInt64(a.Y * b.X))
	}
	return Mul64(a.X, b.Y).Sub(Mul64(a.Y, b.X))
}

// Dot returns the exact inner product of a and b.
func Dot(a, b Point) Int128 {
	if small(a.X, a.Y, b.X, b.Y) {
		return FromInt64(a.X * b.X).Add(FromInt64(a.Y * b.Y))
	}
	return Mul64(a.X, b.X).Add(Mul64(a.Y, b.Y))
}

// crossSign returns the sign of a.X*b.Y - a.Y*b.X.
func crossSign(a, b Point) int {
	if small(a.X, a.Y, b.X, b.Y) {
		l, r := a.X*b.Y, a.Y*b.X
		switch {
		case l > r:
			return 1
		case l < r:
			return -1
		}
		return 0
	}
	return Mul64(a.X, b.Y).Cmp(Mul64(a.Y, b.X))
}

// Orient returns 1 if c lies to the left of the line from a to b, -1 if to
// the right and 0 if the three points are collinear. It is exact.
func Orient(a, b, c Point) int { return crossSign(b.Sub(a), c.Sub(a)) }

// Distance returns the distance from p to q.
func Distance(p, q Point) float64 { return Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) }

// Hypot is the length of (x, y), the same on every machine, as math.Hypot need
// not be. Coordinates in range cannot overflow a square, so the plain formula is
// enough; it is symmetric in x and y.
func Hypot(x, y float64) float64 { return math.Sqrt(float64(x*x) + float64(y*y)) }

// Box is a closed axis-parallel rectangle.
type Box struct{ Min, Max Point }

// Width returns the extent in x.
func (b Box) Width() int64 { return b.Max.X - b.Min.X }

// Height returns the extent in y.
func (b Box) Height() int64 { return b.Max.Y - b.Min.Y }

// Ring returns the border of the box, anticlockwise from Min.
func (b Box) Ring() Ring {
	return Ring{b.Min, {b.Max.X, b.Min.Y}, b.Max, {b.Min.X, b.Max.Y}}
}

// Contains reports whether p lies in b or on its border.
func (b Box) Contains(p Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// Overlaps reports whether b and c share a point.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Union returns the smallest box around b and c.
func (b Box) Union(c Box) Box {
	return Box{
		Point{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y)},
		Point{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y)},
	}
}

func boxOf(p, q Point) Box {
	return Box{
		Point{min(p.X, q.X), min(p.Y, q.Y)},
		Point{max(p.X, q.X), max(p.Y, q.Y)},
	}
}

// Transform is one of the eight symmetries of the square grid.
type Transform uint8

// The symmetries. Rotations are anticlockwise about the origin.
const (
	Identity Transform = iota
	Rotate90
	Rotate180
	Rotate270
	MirrorX      // x changes sign
	MirrorY      // y changes sign
	Transpose    // x and y change places
	AntiDiagonal // x and y change places and sign
)

// Apply returns the image of p.
func (t Transform) Apply(p Point) Point {
	x, y := image(t, p.X, p.Y)
	return Point{x, y}
}

func image[N int64 | float64](t Transform, x, y N) (N, N) {
	switch t {
	case Rotate90:
		return -y, x
	case Rotate180:
		return -x, -y
	case Rotate270:
		return y, -x
	case MirrorX:
		return -x, y
	case MirrorY:
		return x, -y
	case Transpose:
		return y, x
	case AntiDiagonal:
		return -y, -x
	}
	return x, y
}

// Inverse returns the symmetry that undoes t.
func (t Transform) Inverse() Transform {
	switch t {
	case Rotate90:
		return Rotate270
	case Rotate270:
		return Rotate90
	}
	return t
}

// Flips reports whether t turns anticlockwise into clockwise.
func (t Transform) Flips() bool { return t >= MirrorX }
