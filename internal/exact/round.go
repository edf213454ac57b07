package exact

import "math/big"

// Rest says how large a fraction is that was cut off.
type Rest int8

// The sizes of a rest.
const (
	None Rest = iota
	UnderHalf
	Half
	OverHalf
)

// Trunc cuts x to a whole number toward zero; rest says what was cut off and
// odd whether the whole number is odd.
func (x Rat) Trunc() (whole Rat, rest Rest, odd bool) {
	if x.big != nil {
		q, r := new(big.Int).QuoRem(x.big.Num(), x.big.Denom(), new(big.Int))
		if r.Sign() != 0 {
			rest = Half + Rest(r.Lsh(r, 1).CmpAbs(x.big.Denom()))
		}
		return Of(new(big.Rat).SetInt(q)), rest, q.Bit(0) == 1
	}
	d := x.denom()
	q, r := x.num.divMod(d)
	if !r.isZero() {
		rest = Half + Rest(r.cmp(d.sub(r)))
	}
	return of(q, narrow(1), x.neg && !q.isZero()), rest, q.lo&1 == 1
}

// Floor gives the largest whole number that is not above x.
func (x Rat) Floor() Rat {
	q, rest, _ := x.Trunc()
	if rest != None && x.Sign() < 0 {
		q = q.Sub(Int(1))
	}
	return q
}

// Ceil gives the smallest whole number that is not below x.
func (x Rat) Ceil() Rat { return x.Neg().Floor().Neg() }

// Nearest gives the whole number next to x, a tie away from zero.
func (x Rat) Nearest() Rat {
	q, rest, _ := x.Trunc()
	if rest >= Half {
		q = q.Add(Int(int64(x.Sign())))
	}
	return q
}

// Int64 gives a whole number and tells whether x is one that fits.
func (x Rat) Int64() (int64, bool) {
	if !x.IsInt() || x.big != nil || x.num.hi != 0 {
		return 0, false
	}
	n := int64(x.num.lo)
	if x.neg {
		return -n, n >= 0 || n == -n
	}
	return n, n >= 0
}
