package unit

import (
	"math"
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
