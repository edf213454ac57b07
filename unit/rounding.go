package unit

import "math/big"

// Rounding says which way a value goes that lies between two steps. The zero
// value is Nearest.
type Rounding uint8

const (
	// Nearest goes to the nearer step; a tie goes away from zero.
	Nearest Rounding = iota
	// Up goes to the step that is not smaller: nothing gets shorter.
	Up
	// Down goes to the step that is not larger.
	Down
)

// String names the direction.
func (r Rounding) String() string {
	switch r {
	case Nearest:
		return "nearest"
	case Up:
		return "up"
	case Down:
		return "down"
	}
	return "unknown rounding"
}

// roundRat rounds x to a whole number.
func roundRat(x *big.Rat, r Rounding) *big.Int {
	num, den := x.Num(), x.Denom()
	q, m := new(big.Int).DivMod(num, den, new(big.Int)) // m >= 0: q is the floor
	switch r {
	case Up:
		if m.Sign() != 0 {
			q.Add(q, one)
		}
	case Down:
	default:
		twice := new(big.Int).Lsh(m, 1)
		c := twice.Cmp(den)
		if c > 0 || c == 0 && num.Sign() > 0 {
			q.Add(q, one)
		}
	}
	return q
}

var one = big.NewInt(1) // read only
