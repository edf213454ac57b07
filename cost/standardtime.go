package cost

import (
	"github.com/coverwright/coverwright/unit"
)

// AllowanceBase says what an allowance for rest and delays is a share of.
type AllowanceBase uint8

const (
	// OfWork takes it as a share of the working time: normal × (1 + a).
	OfWork AllowanceBase = iota + 1
	// OfShift takes it as a share of the whole shift: normal / (1 - a).
	OfShift
)

// StandardTime gives the time to plan for a piece of work: the observed time
// at a pace (1 is normal), with an allowance for rest and delays. The pace is
// from 0.25 to 2, the allowance from 0 to under 100 %. It wraps unit.ErrRange,
// unit.ErrRequired without a base, or unit.ErrNotFinite.
func StandardTime(observed unit.Duration, pace, allowance unit.Ratio, base AllowanceBase) (unit.Duration, error) {
	if err := firstTime(observed); err != nil {
		return 0, unit.InField("observed", err)
	}
	p, err := ratioBetween("pace", pace, 0.25, 2)
	if err != nil {
		return 0, err
	}
	a, err := ratioBetween("allowance", allowance, 0, 0.99)
	if err != nil {
		return 0, err
	}
	normal := mul(p, ratInt(int64(observed)))
	switch base {
	case OfWork:
		normal = mul(normal, add(ratInt(1), a))
	case OfShift:
		normal = quo(normal, sub(ratInt(1), a))
	default:
		return 0, refuse("base", "", unit.ErrRequired, "OfWork or OfShift")
	}
	return unit.Duration(HalfUp.whole(normal).Int64()), nil // at most 200 times 10^6 h
}
