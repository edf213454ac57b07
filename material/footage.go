package material

import (
	"math/big"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Footage is the way an area in square feet is marked on the flesh side of a
// skin: [Tenths], [Quarters] or [PointQuarters]. The same mark means different
// areas in different trades, so the notation must be named. The zero value is
// refused.
type Footage uint8

const (
	// Tenths reads 50.3 as fifty and three tenths (United States).
	Tenths Footage = iota + 1
	// Quarters reads 4/1 as four and one quarter (England).
	Quarters
	// PointQuarters reads 50.3 as fifty and three quarters: .1, .2 and .3
	// stand for one, two and three quarters.
	PointQuarters
)

var footageNames = []string{"", "tenths", "quarters", "point quarters"}

// String gives the name, such as "point quarters"; "none" for the zero value.
func (f Footage) String() string {
	if f == 0 {
		return "none"
	}
	return enum.Name(f, "notation", footageNames)
}

// MarshalText writes the name, nothing for the zero value; an unknown notation
// wraps unit.ErrUnknown.
func (f Footage) MarshalText() ([]byte, error) { return enum.Text(f, "notation", footageNames) }

// UnmarshalText reads what MarshalText writes.
func (f *Footage) UnmarshalText(text []byte) error {
	return enum.Read(f, text, "notation", footageNames)
}

// ParseFootage reads the area marked on a skin. Whole numbers mean the same in
// every notation. It wraps unit.ErrSyntax, unit.ErrUnknown for a notation that
// is not one of the three, or unit.ErrRange beyond 1000 sq ft.
func ParseFootage(mark string, n Footage) (unit.Area, error) {
	var sep string
	parts, most := int64(4), uint64(3)
	switch n {
	case Tenths:
		sep, parts, most = ".", 10, 9
	case Quarters:
		sep = "/"
	case PointQuarters:
		sep = "."
	default:
		return 0, check.OneOf("notation", n.String(), footageNames[1:]...)
	}
	bad := check.Refuse("mark", mark, unit.ErrSyntax, "whole feet, or feet"+sep+"part with one digit of 0 to "+strconv.FormatUint(most, 10))
	feet, part, split := strings.Cut(strings.TrimSpace(mark), sep)
	f, err := strconv.ParseUint(feet, 10, 32)
	if err != nil {
		return 0, bad
	}
	p := uint64(0)
	if split {
		if p, err = strconv.ParseUint(part, 10, 8); err != nil || len(part) != 1 || p > most {
			return 0, bad
		}
	}
	if f > 1000 {
		return 0, check.Refuse("mark", mark, unit.ErrRange, "at most 1000 sq ft")
	}
	// Exact: a square foot has 92 903 040 000 quanta, divisible by 4 and 10.
	x := new(big.Int).SetUint64(f*uint64(parts) + p)
	x.Mul(x, big.NewInt(int64(unit.SquareFoot)/parts))
	return unit.Area(x.Int64()), nil
}
