// Package check tests the inputs of calculators and words their errors, so
// that every package says the same thing the same way.
package check

import (
	"encoding"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Longest is the longest length any calculator accepts: 1 km, beyond any bolt.
const Longest = 1000 * unit.Metre

// Refuse words an error about a field: its value and what is accepted.
func Refuse[F ~string](field F, value string, err error, want string) error {
	return &unit.InputError{Field: unit.Path(field), Value: value, Err: err, Want: want}
}

// Length accepts lengths from lo to hi. A non-zero length under 10
// micrometres is refused as a forgotten unit.
func Length[F ~string](field F, l, lo, hi unit.Length) error {
	if err := HasUnit(field, l); err != nil {
		return err
	}
	if l < lo || l > hi {
		return Refuse(field, l.String(), unit.ErrRange, span(lo, hi))
	}
	return nil
}

// Positive accepts lengths from 10 micrometres to Longest.
func Positive[F ~string](field F, l unit.Length) error {
	if l <= 0 {
		return Refuse(field, l.String(), unit.ErrRange, "a length above zero")
	}
	return Length(field, l, 0, Longest)
}

// Positives accepts lengths from 10 micrometres to Longest, each with the field
// of its place in the list.
func Positives[F ~string](fields []F, ls ...unit.Length) error {
	for i, l := range ls {
		if err := Positive(fields[i], l); err != nil {
			return err
		}
	}
	return nil
}

// NotNegative accepts lengths from zero to Longest.
func NotNegative[F ~string](field F, l unit.Length) error {
	return Length(field, l, 0, Longest)
}

// Count accepts whole numbers from lo to hi.
func Count[F ~string](field F, n, lo, hi int) error {
	if n < lo || n > hi {
		return Refuse(field, strconv.Itoa(n), unit.ErrRange, fmt.Sprintf("a whole number from %d to %d", lo, hi))
	}
	return nil
}

// Ratio accepts finite ratios from lo to hi.
func Ratio[F ~string](field F, r, lo, hi unit.Ratio) error {
	if err := r.Check(); err != nil {
		return unit.InField(field, err)
	}
	if r < lo || r > hi {
		return Refuse(field, apart(r, lo, hi), unit.ErrRange, span(lo, hi))
	}
	return nil
}

// HasUnit refuses a quantity so small that its unit was forgotten; see
// [unit.Length.Forgotten] and its like. What is no such quantity passes.
func HasUnit[F ~string](field F, q any) error {
	switch q := q.(type) {
	case unit.Length:
		return hasUnit(field, q, q.Forgotten(), "a length with its unit, such as 22*unit.Inch")
	case unit.Area:
		return hasUnit(field, q, q.Forgotten(), "an area with its unit, such as 48*unit.SquareFoot")
	case unit.Volume:
		return hasUnit(field, q, q.Forgotten(), "a volume with its unit, such as 16*unit.BoardFoot")
	case unit.Mass:
		return hasUnit(field, q, q.Forgotten(), "a mass with its unit, such as 3*unit.Pound")
	case unit.Duration:
		return hasUnit(field, q, q.Forgotten(), "a time with its unit, such as 2*unit.Hour")
	}
	return nil
}

func hasUnit[F ~string, Q ~int64](field F, q Q, forgotten bool, want string) error {
	if !forgotten {
		return nil
	}
	return Refuse(field, strconv.FormatInt(int64(q), 10), unit.ErrForgottenUnit, want)
}

// quantity is any of the types of package unit.
type quantity interface {
	~int64 | ~float64
	fmt.Stringer
}

// Between accepts values from lo to hi; a NaN is refused, and a forgotten unit
// but of a coordinate, which may be as small as it likes. Use Length for
// lengths and Ratio for ratios.
func Between[F ~string, Q quantity](field F, q, lo, hi Q) error {
	if q != q { //nolint:gocritic // NaN is the one value that differs from itself
		return Refuse(field, q.String(), unit.ErrNotFinite, "a finite value")
	}
	if _, coordinate := any(q).(unit.Length); !coordinate {
		if err := HasUnit(field, q); err != nil {
			return err
		}
	}
	if q < lo || q > hi {
		return Refuse(field, apart(q, lo, hi), unit.ErrRange, span(lo, hi))
	}
	return nil
}

// Above accepts values above zero up to hi; a NaN and a forgotten unit are
// refused.
func Above[F ~string, Q quantity](field F, q, hi Q) error {
	if q != q { //nolint:gocritic // NaN is the one value that differs from itself
		return Refuse(field, q.String(), unit.ErrNotFinite, "a finite value")
	}
	if err := HasUnit(field, q); err != nil {
		return err
	}
	if q <= 0 || q > hi {
		return Refuse(field, apart(q, 0, hi), unit.ErrRange, fmt.Sprintf("above zero, at most %v", hi))
	}
	return nil
}

// apart writes q as people read it, or without loss where that would be the
// same as a limit: 100.001 % is not 100 %.
func apart[Q quantity](q, lo, hi Q) string {
	s := q.String()
	if s != lo.String() && s != hi.String() {
		return s
	}
	if m, ok := any(q).(encoding.TextMarshaler); ok {
		if text, err := m.MarshalText(); err == nil {
			return string(text)
		}
	}
	return s
}

// OneOf refuses a name that is not known; known lists the accepted names.
func OneOf[F ~string](field F, name string, known ...string) error {
	if slices.Contains(known, name) {
		return nil
	}
	want := list(known)
	if want == "" {
		return Refuse(field, name, unit.ErrUnknown, "none")
	}
	return Refuse(field, name, unit.ErrUnknown, "one of "+want)
}

// Required says that field must be given.
func Required[F ~string](field F, want string) error {
	return Refuse(field, "", unit.ErrRequired, want)
}

func span[Q fmt.Stringer](lo, hi Q) string { return "from " + lo.String() + " to " + hi.String() }

// list leaves out the empty name, which stands for none.
func list(names []string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == "" }), ", ")
}
