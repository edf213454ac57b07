package unit

import (
	"math/big"
	"math/bits"
	"strings"
)

// number is a number as it is written, in digits: 25, 25.625e-3, 5/8 or
// 25 5/8. What does not stand there is empty.
type number struct {
	whole, decimals string
	exp             int
	num, den        string
}

func (n number) isWhole() bool { return n.decimals == "" && n.den == "" && n.exp == 0 }

func (n number) isZero() bool {
	return strings.Trim(n.whole, "0") == "" && strings.Trim(n.decimals, "0") == "" && strings.Trim(n.num, "0") == ""
}

// reading is a quantity as it is written: the last of its parts, and the parts
// before it counted in the same unit.
type reading struct {
	neg  bool
	last number
	unit *namedUnit // nil for a number that needs none
	sum  uint64     // of the parts before
	more *big.Int   // their sum when it needs more bits
}

// carry adds the last part, which is whole, to the sum and counts it in a unit
// of which times make the present one.
func (x *reading) carry(times uint64) {
	if whole, ok := digits(x.last.whole); ok && x.more == nil {
		sum, over := bits.Add64(x.sum, whole, 0)
		if p := product(sum, times); over == 0 && p.hi == 0 {
			x.sum = p.lo
			return
		}
	}
	if x.more == nil {
		x.more = new(big.Int).SetUint64(x.sum)
	}
	x.more.Add(x.more, bigDigits(x.last.whole))
	x.more.Mul(x.more, new(big.Int).SetUint64(times))
}

// fraction gives the count of units as a/b, when both fit and b > 0.
func (x *reading) fraction() (a, b uint64, ok bool) {
	n := x.last
	whole, ok := digits(n.whole)
	whole, over := bits.Add64(whole, x.sum, 0)
	if !ok || over != 0 || x.more != nil {
		return 0, 0, false
	}
	var part uint64
	if b = 1; n.den != "" {
		var ok1, ok2 bool
		part, ok1 = digits(n.num)
		b, ok2 = digits(n.den)
		ok = ok1 && ok2
	} else if part, ok = digits(n.decimals); ok {
		b, ok = times(1, powerOfTen(len(n.decimals)))
	}
	a, fits := times(whole, b)
	a, over = bits.Add64(a, part, 0)
	if !ok || !fits || over != 0 {
		return 0, 0, false
	}
	if n.exp > 0 {
		a, ok = times(a, powerOfTen(n.exp))
	} else {
		b, ok = times(b, powerOfTen(-n.exp))
	}
	return a, b, ok
}

// times gives a·b when it fits; 0 stands for a factor that does not.
func times(a, b uint64) (uint64, bool) {
	p := product(a, b)
	return p.lo, p.hi == 0 && b != 0
}

// powerOfTen gives 10^n, or 0 when it does not fit.
func powerOfTen(n int) uint64 {
	if n >= len(powersOfTen) {
		return 0
	}
	return powersOfTen[n]
}

// quotient gives the size of the quantity as w/(d·e), when it fits.
func (x *reading) quotient() (w wide, d, e uint64, ok bool) {
	a, b, ok := x.fraction()
	switch {
	case x.unit == nil:
		return wide{0, a}, b, 1, ok
	case x.unit.inverse:
		return product(b, x.unit.num), a, x.unit.den, ok
	}
	return product(a, x.unit.num), b, x.unit.den, ok
}

// quanta gives the quantity in whole quanta, to the nearest; a tie goes away
// from zero. It is false when it does not fit.
func (x *reading) quanta() (int64, bool) {
	w, d, e, ok := x.quotient()
	if !ok {
		n := nearest(x.rat())
		return n.Int64(), n.IsInt64()
	}
	q, ok := w.over(d, e, x.neg, Nearest)
	n, err := signed(q, ok, x.neg, "")
	return n, err == nil
}

// float gives the quantity to the nearest float64, which may be infinite.
func (x *reading) float() float64 {
	w, d, e, ok := x.quotient()
	if d, fits := times(d, e); ok && fits {
		if x.neg && w != (wide{}) {
			return -w.float(d)
		}
		return w.float(d)
	}
	f, _ := x.rat().Float64()
	return f
}

// rat gives the quantity exactly, however long its digits are.
func (x *reading) rat() *big.Rat {
	n := x.last
	v := new(big.Rat)
	if n.den != "" {
		v.SetFrac(bigDigits(n.num), bigDigits(n.den))
		v.Add(v, new(big.Rat).SetInt(bigDigits(n.whole)))
	} else {
		v.SetInt(bigDigits(n.whole + n.decimals))
		ten := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(n.exp, -n.exp))), nil)
		if n.exp < 0 {
			v.Quo(v, new(big.Rat).SetInt(ten))
		} else {
			v.Mul(v, new(big.Rat).SetInt(ten))
		}
		places := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(n.decimals))), nil)
		v.Quo(v, new(big.Rat).SetInt(places))
	}
	sum := new(big.Int).SetUint64(x.sum)
	if x.more != nil {
		sum = x.more
	}
	v.Add(v, new(big.Rat).SetInt(sum))
	switch {
	case x.unit == nil:
	case x.unit.inverse:
		v.Quo(x.unit.size(), v) // suits has refused a count of zero
	default:
		v.Mul(v, x.unit.size())
	}
	if x.neg {
		v.Neg(v)
	}
	return v
}

// nearest rounds v to a whole number; a tie goes away from zero.
func nearest(v *big.Rat) *big.Int {
	twice := new(big.Int).Lsh(v.Num(), 1)
	if v.Sign() < 0 {
		twice.Sub(twice, v.Denom())
	} else {
		twice.Add(twice, v.Denom())
	}
	return twice.Quo(twice, new(big.Int).Lsh(v.Denom(), 1))
}

// digits reads digits into a number, if it fits; none are zero.
func digits(s string) (n uint64, ok bool) {
	for i := range len(s) {
		p := product(n, 10)
		sum, over := bits.Add64(p.lo, uint64(s[i]-'0'), 0)
		if p.hi|over != 0 {
			return 0, false
		}
		n = sum
	}
	return n, true
}

func bigDigits(s string) *big.Int {
	n, ok := new(big.Int).SetString("0"+s, 10)
	if !ok { // cannot be: s is digits
		return new(big.Int)
	}
	return n
}

// less compares two numbers in digits.
func less(a, b string) bool {
	a, b = strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
	return len(a) < len(b) || len(a) == len(b) && a < b
}

// times gives how many v make one u, when that is a whole number that fits.
func (u *namedUnit) times(v *namedUnit) (uint64, bool) {
	w, rest := product(u.num, v.den).div(v.num)
	w, rest2 := w.div(u.den)
	return w.lo, w.hi == 0 && rest == 0 && rest2 == 0
}

func (u *namedUnit) size() *big.Rat {
	return new(big.Rat).SetFrac(new(big.Int).SetUint64(u.num), new(big.Int).SetUint64(u.den))
}
