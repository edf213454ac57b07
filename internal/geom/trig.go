package geom

import "math"

// The trigonometric functions the package needs, written so that every
// product is rounded before it is summed: the same bits on every machine.
// They are good to about 2e-16.

// SinCos returns the sine and cosine of x, |x| <= 64 pi, the same bits on every
// machine.
func SinCos(x float64) (sin, cos float64) { return sincos(x) }

// sincos returns the sine and cosine of x, |x| <= 64 pi.
//
// The angle is reduced by multiples of pi/2 (in two parts) to |x| <= pi/4 and
// the Taylor series summed to the terms of order 19 and 20.
func sincos(x float64) (sin, cos float64) {
	const (
		p1 = 1.5707963267341256    // pi/2, first 33 bits
		p2 = 6.077100506506192e-11 // the rest
	)
	k := math.Round(x / (math.Pi / 2))
	x -= float64(k * p1)
	x -= float64(k * p2)
	z := float64(x * x)
	s, c := 0.0, 0.0
	for n := 19; n >= 3; n -= 2 {
		s = float64(-z / float64(n*(n-1)) * (1 + s))
		c = float64(-z / float64((n+1)*n) * (1 + c))
	}
	s = x + float64(x*s)
	c = 1 - float64(z/2*(1+c))
	switch int64(k) & 3 {
	case 1:
		return c, -s
	case 2:
		return -s, -c
	case 3:
		return -c, s
	}
	return s, c
}

// Atan2 returns the angle of (x, y) in (-pi, pi], the same bits on every machine.
func Atan2(y, x float64) float64 { return atan2(y, x) }

// atan2 returns the angle of (x, y) in (-pi, pi].
func atan2(y, x float64) float64 {
	if x == 0 && y == 0 {
		return 0
	}
	ax, ay := math.Abs(x), math.Abs(y)
	var a float64
	if ay <= ax {
		a = atan(ay / ax)
	} else {
		a = math.Pi/2 - atan(ax/ay)
	}
	if x < 0 {
		a = math.Pi - a
	}
	if y < 0 {
		a = -a
	}
	return a
}

// atan returns the angle whose tangent is t, 0 <= t <= 1. Halving the angle
// twice, tan(a/2) = t / (1 + sqrt(1 + t^2)), brings t under 0.2; then the
// series t - t^3/3 + t^5/5 - ...
func atan(t float64) float64 {
	t /= 1 + math.Sqrt(1+float64(t*t))
	t /= 1 + math.Sqrt(1+float64(t*t))
	z := float64(t * t)
	s := 0.0
	for n := 25; n >= 3; n -= 2 {
		s = float64(z * (s + sgnTerm(n)/float64(n)))
	}
	return 4 * (t + float64(t*s))
}

func sgnTerm(n int) float64 {
	if n&2 != 0 {
		return -1
	}
	return 1
}
