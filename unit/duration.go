package unit

import (
	"math/big"
	"time"
)

// Duration is working time in whole milliseconds. The zero value is no time.
type Duration int64

// Units of working time.
const (
	Millisecond Duration = 1
	Second               = 1000 * Millisecond
	Minute               = 60 * Second
	Hour                 = 60 * Minute
)

var durationSymbols = map[Duration]string{Millisecond: "ms", Second: "s", Minute: "min", Hour: "h"}

var durationMeasure = newMeasure("time", "1 h 30 min",
	units(int64(Hour), 1, "h|hr|hrs|hour|hours"),
	units(int64(Minute), 1, "min|mins|minute|minutes"),
	units(int64(Second), 1, "s|sec|secs|second|seconds"),
	units(1, 1, "ms|millisecond|milliseconds"),
)

// ParseDuration reads working time, such as "14.5 h" or "1 h 30 min". Errors
// are those of [ParseLength].
func ParseDuration(s string) (Duration, error) {
	n, err := durationMeasure.exact(s)
	return Duration(n), err
}

// DurationOf gives count times u, to the nearest millisecond. It wraps
// ErrNotFinite or ErrOverflow.
func DurationOf(count float64, u Duration) (Duration, error) {
	n, err := ofFloat(count, new(big.Rat).SetInt64(int64(u)), "time")
	return Duration(n), err
}

// Hours gives d in hours, to float64 precision.
func (d Duration) Hours() float64 { return float64(d) / float64(Hour) }

// Minutes gives d in minutes, to float64 precision.
func (d Duration) Minutes() float64 { return float64(d) / float64(Minute) }

// Std gives d as a time.Duration. It wraps ErrOverflow beyond 292 years.
func (d Duration) Std() (time.Duration, error) {
	n, err := mulDiv(int64(d), int64(time.Millisecond), 1, "time")
	return time.Duration(n), err
}

// Plus gives d + b, or an error that wraps ErrOverflow.
func (d Duration) Plus(b Duration) (Duration, error) {
	n, err := addInt(int64(d), int64(b), "time + time")
	return Duration(n), err
}

// Times gives n times d, or an error that wraps ErrOverflow.
func (d Duration) Times(n int) (Duration, error) {
	p, err := mulDiv(int64(d), int64(n), 1, "time × count")
	return Duration(p), err
}

// Scale gives r times d, rounded to a whole millisecond; the ratio counts
// as the decimal it prints as. It wraps ErrNotFinite or ErrOverflow.
func (d Duration) Scale(r Ratio, round Rounding) (Duration, error) {
	n, err := scale(int64(d), r, round, "time × ratio")
	return Duration(n), err
}

// RoundTo rounds d to a multiple of step, which must be above zero. It wraps
// ErrRange or ErrOverflow.
func (d Duration) RoundTo(step Duration, r Rounding) (Duration, error) {
	if step <= 0 {
		return 0, &InputError{Field: "step", Value: step.String(), Err: ErrRange, Want: "a step above zero"}
	}
	n, err := roundStep(int64(d), int64(step), r, "rounded time")
	return Duration(n), err
}

// Decimal writes d in the given unit, such as "14.50 h", with places digits
// (0 to 15) after the point.
func (d Duration) Decimal(u Duration, places int, r Rounding) string {
	sym, ok := durationSymbols[u]
	if !ok || places < 0 || places > maxPlaces {
		return badVerb("Duration.Decimal")
	}
	return decimal(big.NewRat(int64(d), int64(u)), places, r) + " " + sym
}

// String writes d without loss, such as "14 h 30 min" or "12.5 s".
func (d Duration) String() string {
	if d%Minute != 0 || d < 0 {
		return lossless(int64(d), "0 h", []step{
			{int64(Hour), 100, 2, "h"},
			{int64(Second), 1000, 3, "s"},
		})
	}
	h, m := d/Hour, d%Hour
	switch {
	case m == 0:
		return h.count() + " h"
	case h == 0:
		return (m / Minute).count() + " min"
	}
	return h.count() + " h " + (m / Minute).count() + " min"
}

func (d Duration) count() string { return big.NewInt(int64(d)).String() }

// MarshalText writes d without loss, as String does.
func (d Duration) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads d as ParseDuration does.
func (d *Duration) UnmarshalText(text []byte) error {
	n, err := ParseDuration(string(text))
	if err == nil {
		*d = n
	}
	return err
}
