package exact

import (
	"math/big"
)

// Rat is a fraction in lowest terms. The zero value is nothing. It is never
// changed, so copies are independent; within 128 bits each value has one form.
type Rat struct {
	num, less wide // less is the denominator less one, so that the zero value is 0 / 1
	neg       bool
	big       *big.Rat // set where 128 bits do not do; never written to
}

// of gives num / den in lowest terms already.
func of(num, den wide, neg bool) Rat { return Rat{num: num, less: den.sub(narrow(1)), neg: neg} }

// Int gives n.
func Int(n int64) Rat { return New(n, 1) }

// New gives n / d; d is not zero.
func New(n, d int64) Rat {
	num, den := magnitude(n), magnitude(d)
	g := gcd(num, den)
	return of(narrow(num.lo/g.lo), narrow(den.lo/g.lo), n != 0 && (n < 0) != (d < 0))
}

func magnitude(n int64) wide {
	if n < 0 {
		return narrow(-uint64(n))
	}
	return narrow(uint64(n))
}

// Of gives x, which may be changed afterwards.
func Of(x *big.Rat) Rat {
	num, ok1 := wideOf(x.Num())
	den, ok2 := wideOf(x.Denom())
	if !ok1 || !ok2 {
		return Rat{big: new(big.Rat).Set(x)}
	}
	return of(num, den, x.Sign() < 0)
}

// Big gives x as a fraction of math/big that the caller may change.
func (x Rat) Big() *big.Rat {
	if x.big != nil {
		return new(big.Rat).Set(x.big)
	}
	n := x.num.big()
	if x.neg {
		n.Neg(n)
	}
	return new(big.Rat).SetFrac(n, x.denom().big())
}

func (x Rat) denom() wide {
	d, _ := x.less.add(narrow(1)) // fitted before
	return d
}

// Sign gives -1, 0 or 1.
func (x Rat) Sign() int {
	switch {
	case x.big != nil:
		return x.big.Sign()
	case x.neg:
		return -1
	case x.num.isZero():
		return 0
	}
	return 1
}

// IsInt tells whether x is a whole number.
func (x Rat) IsInt() bool {
	if x.big != nil {
		return x.big.IsInt()
	}
	return x.denom().isOne()
}

// Neg gives -x.
func (x Rat) Neg() Rat {
	if x.big != nil {
		return Rat{big: new(big.Rat).Neg(x.big)}
	}
	x.neg = !x.neg && !x.num.isZero()
	return x
}

// Abs gives |x|.
func (x Rat) Abs() Rat {
	if x.Sign() < 0 {
		return x.Neg()
	}
	return x
}

// Mul gives x × y.
func (x Rat) Mul(y Rat) Rat {
	if x.big == nil && y.big == nil {
		if x.num.isZero() || y.num.isZero() {
			return Rat{}
		}
		// Taking the common factors out first keeps the products small and
		// the result in lowest terms.
		xn, yd := reduce(x.num, y.denom())
		yn, xd := reduce(y.num, x.denom())
		num, ok1 := xn.mul(yn)
		den, ok2 := xd.mul(yd)
		if ok1 && ok2 {
			return of(num, den, x.neg != y.neg)
		}
	}
	return Of(new(big.Rat).Mul(x.Big(), y.Big()))
}

func reduce(a, b wide) (wide, wide) {
	if a.isOne() || b.isOne() {
		return a, b
	}
	g := gcd(a, b)
	if g.isOne() {
		return a, b
	}
	a, _ = a.divMod(g)
	b, _ = b.divMod(g)
	return a, b
}

// Quo gives x / y; y is not zero.
func (x Rat) Quo(y Rat) Rat {
	if y.big != nil {
		return Of(new(big.Rat).Quo(x.Big(), y.big))
	}
	return x.Mul(of(y.denom(), y.num, y.neg))
}

// Add gives x + y.
func (x Rat) Add(y Rat) Rat {
	if x.big == nil && y.big == nil {
		if s, ok := x.add(y); ok {
			return s
		}
	}
	return Of(new(big.Rat).Add(x.Big(), y.Big()))
}

// add is Add where 128 bits do. Both numerators come to the least common
// denominator; only a factor of what the denominators share can fall out of
// the sum.
func (x Rat) add(y Rat) (Rat, bool) {
	xd, yd := x.denom(), y.denom()
	shared := xd
	if xd != yd {
		shared = gcd(xd, yd)
	}
	toX, _ := yd.divMod(shared)
	toY, _ := xd.divMod(shared)
	xn, ok1 := x.num.mul(toX)
	yn, ok2 := y.num.mul(toY)
	den, ok3 := xd.mul(toX)
	if !ok1 || !ok2 || !ok3 {
		return Rat{}, false
	}
	var num wide
	neg, fits := x.neg, true
	switch {
	case x.neg == y.neg:
		num, fits = xn.add(yn)
	case xn.cmp(yn) >= 0:
		num = xn.sub(yn)
	default:
		num, neg = yn.sub(xn), y.neg
	}
	if num.isZero() {
		return Rat{}, fits
	}
	if g := gcd(shared, num); !g.isOne() {
		num, _ = num.divMod(g)
		den, _ = den.divMod(g)
	}
	return of(num, den, neg), fits
}

// Sub gives x - y.
func (x Rat) Sub(y Rat) Rat { return x.Add(y.Neg()) }

// Cmp gives -1, 0 or 1 for x below, equal to or above y.
func (x Rat) Cmp(y Rat) int {
	if x.big != nil || y.big != nil {
		return x.Big().Cmp(y.Big())
	}
	if x.neg != y.neg {
		if x.neg {
			return -1
		}
		return 1
	}
	ah, al := x.num.full(y.denom())
	bh, bl := y.num.full(x.denom())
	c := ah.cmp(bh)
	if c == 0 {
		c = al.cmp(bl)
	}
	if x.neg {
		return -c
	}
	return c
}

// Float64 gives the float64 next to x.
func (x Rat) Float64() float64 {
	const mantissa = 1 << 53
	if d := x.denom(); x.big == nil && x.num.hi|d.hi == 0 && x.num.lo <= mantissa && d.lo <= mantissa {
		f := float64(x.num.lo) / float64(d.lo) // both exact, so rounded once
		if x.neg {
			f = -f
		}
		return f
	}
	f, _ := x.Big().Float64()
	return f
}
