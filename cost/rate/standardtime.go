package rate

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// AllowanceBase says what an allowance for rest and delays is a share of:
// OfWork or OfShift. The zero value is neither and is refused.
type AllowanceBase uint8

const (
	// OfWork takes it as a share of the working time: normal × (1 + a).
	OfWork AllowanceBase = iota + 1
	// OfShift takes it as a share of the whole shift: normal / (1 - a).
	OfShift
)

var baseNames = []string{"of work", "of shift"}

// String gives the name, such as "of work".
func (b AllowanceBase) String() string {
	if b < OfWork || b > OfShift {
		return "no base"
	}
	return baseNames[b-1]
}

func (b AllowanceBase) check() error {
	if b < OfWork || b > OfShift {
		return check.Required("base", "one of "+strings.Join(baseNames, ", "))
	}
	return nil
}

// MarshalText writes the name; the zero value is an empty text.
func (b AllowanceBase) MarshalText() ([]byte, error) {
	if b == 0 {
		return []byte{}, nil
	}
	return []byte(b.String()), b.check()
}

// UnmarshalText reads a name as String writes it; empty text is no base. It
// wraps unit.ErrUnknown.
func (b *AllowanceBase) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*b = 0
		return nil
	}
	i := slices.Index(baseNames, string(text))
	if i < 0 {
		return check.OneOf("base", string(text), baseNames...)
	}
	*b = AllowanceBase(i + 1)
	return nil
}

// StandardTime gives the time to plan for a piece of work: the observed time
// at a pace (1 is normal), with an allowance for rest and delays. The pace is
// from 0.25 to 2, the allowance from 0 to under 100 %. It wraps unit.ErrRange,
// unit.ErrRequired without a base, or unit.ErrNotFinite.
func StandardTime(observed unit.Duration, pace, allowance unit.Ratio, base AllowanceBase) (unit.Duration, error) {
	if err := firstTime(observed); err != nil {
		return 0, unit.InField("observed", err)
	}
	p, err := shareOf("pace", pace, 0.25, 2)
	if err != nil {
		return 0, err
	}
	a, err := shareOf("allowance", allowance, 0, 0.99)
	if err != nil {
		return 0, err
	}
	normal := p.Mul(exact.Int(int64(observed)))
	switch base {
	case OfWork:
		normal = normal.Mul(exact.Int(1).Add(a))
	case OfShift:
		normal = normal.Quo(exact.Int(1).Sub(a))
	default:
		return 0, base.check()
	}
	ms, _ := normal.Nearest().Int64() // at most 200 times 10^6 h
	return unit.Duration(ms), nil
}
