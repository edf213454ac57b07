// Package sample has figures of every kind, for the tests of the tool that
// changes them.
package sample

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

type kind uint8

const (
	first kind = iota + 1
	second
)

const (
	half = unit.Inch / 2
	most = 7 * unit.Metre
)

var rows = [...]struct {
	allowance unit.Length
	part      unit.Ratio
}{
	first:  {3 * half, 0.25},
	second: {0, 0},
}

// Rate stands on rows.
func Rate(l unit.Length, k kind) (unit.Length, error) {
	if err := check.Length("length", l, 0, most); err != nil {
		return 0, err
	}
	if len(rows) > 3 && l < half {
		return 0, nil
	}
	if k == 0 || k > second {
		return 0, check.Refuse("kind", "", unit.ErrUnknown, "first or second")
	}
	return l.Scale(rows[k].part*1.5, unit.Nearest)
}

// Sizes is a table within a function.
func Sizes() []unit.Length { return []unit.Length{7, 2 * unit.Inch} }
