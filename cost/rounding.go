package cost

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Rounding says which way an amount goes that lies between two steps: HalfUp,
// HalfEven, HalfDown, Up, Down, Ceiling or Floor. The zero value rounds as
// HalfUp, and takes the mode of the terms where those have one.
//
// The modes are those of the General Decimal Arithmetic Specification; HalfUp
// is round-ties-to-away of IEEE 754, HalfEven its round-ties-to-even.
type Rounding uint8

const (
	// HalfUp goes to the nearer step; a tie goes away from zero, so that a
	// credit note cancels its invoice.
	HalfUp Rounding = iota + 1
	// HalfEven goes to the nearer step; a tie goes to the even one.
	HalfEven
	// HalfDown goes to the nearer step; a tie goes toward zero.
	HalfDown
	// Up goes away from zero.
	Up
	// Down goes toward zero.
	Down
	// Ceiling goes to the step that is not smaller.
	Ceiling
	// Floor goes to the step that is not larger.
	Floor
)

var roundingNames = []string{"half-up", "half-even", "half-down", "up", "down", "ceiling", "floor"}

// Roundings gives every mode.
func Roundings() []Rounding {
	return []Rounding{HalfUp, HalfEven, HalfDown, Up, Down, Ceiling, Floor}
}

// String gives the name, such as "half-even"; the zero value is "half-up".
func (r Rounding) String() string {
	if r > Floor {
		return "unknown rounding"
	}
	return roundingNames[max(r, HalfUp)-1]
}

// ParseRounding reads a name as String writes it. It wraps unit.ErrUnknown.
func ParseRounding(name string) (Rounding, error) {
	if i := slices.Index(roundingNames, name); i >= 0 {
		return Rounding(i + 1), nil
	}
	return 0, check.Refuse("rounding", name, unit.ErrUnknown, "one of "+strings.Join(roundingNames, ", "))
}

// MarshalText writes the name; the zero value is an empty text.
func (r Rounding) MarshalText() ([]byte, error) {
	if r == 0 {
		return []byte{}, nil
	}
	return []byte(r.String()), r.check()
}

// UnmarshalText reads a name as ParseRounding does; empty text is the zero value.
func (r *Rounding) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*r = 0
		return nil
	}
	v, err := ParseRounding(string(text))
	if err == nil {
		*r = v
	}
	return err
}

func (r Rounding) check() error {
	if r > Floor {
		return check.Refuse("rounding", strconv.Itoa(int(r)), ErrMode, "one of "+strings.Join(roundingNames, ", "))
	}
	return nil
}

// whole rounds x to a whole number. The mode has been checked.
func (r Rounding) whole(x exact.Rat) exact.Rat {
	q, rest, odd := x.Trunc()
	if rest == exact.None {
		return q
	}
	away := false
	switch r {
	case HalfUp, 0:
		away = rest >= exact.Half
	case HalfEven:
		away = rest > exact.Half || rest == exact.Half && odd
	case HalfDown:
		away = rest > exact.Half
	case Up:
		away = true
	case Ceiling:
		away = x.Sign() > 0
	case Floor:
		away = x.Sign() < 0
	}
	if away {
		q = q.Add(exact.Int(int64(x.Sign())))
	}
	return q
}
