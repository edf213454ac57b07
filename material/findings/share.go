package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// wholeShare gives a × b / c of whole numbers, rounded up once.
func wholeShare(a, b, c int64) (int64, error) {
	n, ok := exact.New(b, c).Mul(exact.Int(a)).Ceil().Int64()
	if !ok {
		return 0, check.Refuse("", "amount", unit.ErrOverflow, "an amount that can be counted")
	}
	return n, nil
}
