package unit

import (
	"strconv"
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
	n, err := ofFloat(count, int64(u), 1, "time")
	return Duration(n), err
}

// Hours gives d in hours, to float64 precision.
func (d Duration) Hours() float64 { return float64(d) / float64(Hour) }

// Minutes gives d in minutes, to float64 precision.
func (d Duration) Minutes() float64 { return float64(d) / float64(Minute) }

// Std gives d as a time.Duration. It wraps ErrOverflow beyond 292 years.
func (d Duration) Std() (time.Duration, error) {
	n, err := mulDiv(int64(d), int64(time.Millisecond), 1, Nearest, "time")
	return time.Duration(n), err
}

// Plus gives d + b, or an error that wraps ErrOverflow.
func (d Duration) Plus(b Duration) (Duration, error) {
	n, err := addInt(int64(d), int64(b), "time + time")
	return Duration(n), err
}

// Times gives n times d, or an error that wraps ErrOverflow.
func (d Duration) Times(n int) (Duration, error) {
	p, err := mulDiv(int64(d), int64(n), 1, Nearest, "time × count")
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
// What is no such unit or number of places gives the text of String.
func (d Duration) Decimal(u Duration, places int, r Rounding) string {
	var buf [48]byte
	return string(d.AppendDecimal(buf[:0], u, places, r))
}

// AppendDecimal appends what Decimal writes to b, for callers who keep a buffer.
func (d Duration) AppendDecimal(b []byte, u Duration, places int, r Rounding) []byte {
	sym, ok := durationSymbols[u]
	if !ok || places < 0 || places > maxPlaces {
		return d.append(b)
	}
	return append(append(appendQuotient(b, int64(d), int64(u), places, r), ' '), sym...)
}

// String writes d without loss, such as "14 h 30 min" or "12.5 s".
func (d Duration) String() string {
	var buf [32]byte
	return string(d.append(buf[:0]))
}

// durationSteps are the ways to write what is no whole number of minutes.
var durationSteps = []step{
	{int64(Hour), 100, 2, "h"},
	{int64(Second), 1000, 3, "s"},
}

func (d Duration) append(b []byte) []byte {
	h, m := int64(d/Hour), int64(d%Hour/Minute)
	switch {
	case d%Minute != 0 || d <= 0:
		return appendLossless(b, int64(d), "0 h", durationSteps)
	case h == 0:
		return append(strconv.AppendInt(b, m, 10), " min"...)
	}
	b = append(strconv.AppendInt(b, h, 10), " h"...)
	if m != 0 {
		b = append(strconv.AppendInt(append(b, ' '), m, 10), " min"...)
	}
	return b
}

// AppendText writes d to the end of b without loss, as String does.
func (d Duration) AppendText(b []byte) ([]byte, error) { return d.append(b), nil }

// MarshalText writes d without loss, as String does.
func (d Duration) MarshalText() ([]byte, error) { return d.append(make([]byte, 0, usual)), nil }

// UnmarshalText reads d as ParseDuration does.
func (d *Duration) UnmarshalText(text []byte) error {
	n, err := ParseDuration(string(text))
	if err == nil {
		*d = n
	}
	return err
}
