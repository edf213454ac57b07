package unit

import (
	"math"
	"math/big"
	"strconv"
)

// What the float types share.

func finite(x float64, kind string) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return &InputError{Value: strconv.FormatFloat(x, 'g', -1, 64), Err: ErrNotFinite, Want: "a finite " + kind}
	}
	return nil
}

// floatQuantity is any of the float types.
type floatQuantity interface {
	~float64
	Check() error
}

// checked hands out x when it is finite, else zero and the error.
func checked[Q floatQuantity](x Q) (Q, error) {
	if err := x.Check(); err != nil {
		return 0, err
	}
	return x, nil
}

// floatText is the shortest text that reads back to the same float64.
func floatText(x float64) string {
	if x == 0 {
		return "0"
	}
	if a := math.Abs(x); a >= 1e15 || a < 1e-9 {
		return strconv.FormatFloat(x, 'e', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// noiseless gives x to the 15 digits a float64 always holds. Without that, 1.1
// rounded up to tenths would be 1.2, since the nearest float64 lies above 1.1.
func noiseless(x float64) (*big.Rat, bool) {
	return new(big.Rat).SetString(strconv.FormatFloat(x, 'e', 14, 64))
}

// floatDecimal writes x/u with a fixed number of places.
func floatDecimal(x, u float64, places int, r Rounding) string {
	q, ok := noiseless(x / u)
	if !ok {
		return badVerb("overflow")
	}
	return decimal(q, places, r)
}

func marshalFloat(text string, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	return []byte(text), nil
}
