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

// floatDecimal writes x/u with a fixed number of places.
func floatDecimal(x, u float64, places int, r Rounding) string {
	q := new(big.Rat).SetFloat64(x / u)
	if q == nil {
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
