package unit

import (
	"errors"
	"strings"
	"unicode"
)

// What can be wrong with a value. Match with errors.Is.
var (
	// ErrSyntax says the text is not a quantity at all.
	ErrSyntax = errors.New("not a quantity")
	// ErrMissingUnit says a number stands without its unit.
	ErrMissingUnit = errors.New("unit missing")
	// ErrUnknownUnit says the unit is not one of this kind of quantity.
	ErrUnknownUnit = errors.New("unknown unit")
	// ErrDecimalComma says the text has a comma, which could mark thousands
	// or decimals.
	ErrDecimalComma = errors.New("comma in a number")
	// ErrOverflow says the result does not fit the type.
	ErrOverflow = errors.New("too large")
	// ErrNotFinite says a value is NaN or infinite.
	ErrNotFinite = errors.New("not a finite number")
	// ErrDivideByZero says a quotient has no value.
	ErrDivideByZero = errors.New("division by zero")
	// ErrForgottenUnit says a quantity is so small that its unit was forgotten.
	ErrForgottenUnit = errors.New("unit forgotten")
	// ErrRange says the value lies outside the accepted range.
	ErrRange = errors.New("out of range")
	// ErrRequired says a value that must be given is missing.
	ErrRequired = errors.New("required")
	// ErrUnknown says a name is not one of those known.
	ErrUnknown = errors.New("unknown")
)

// InputError reports one wrong input: which field, its value as it would be
// written, and what is accepted. It wraps one of the sentinels above, or a
// sentinel of the package that returned it.
type InputError struct {
	Field Path   // the field or parameter, such as "pieces[2].width"; may be empty
	Value string // the offending value as text; may be empty
	Want  string // what is accepted, such as "from 1 in to 200 in"; may be empty
	Err   error  // the kind of error; never nil
}

// Error gives one line: field, value, what is wrong and what is accepted.
func (e *InputError) Error() string {
	var b strings.Builder
	if e.Field != "" {
		b.WriteString(oneLine(string(e.Field), 200))
		b.WriteString(": ")
	}
	if e.Value != "" {
		b.WriteString(quote(e.Value))
		b.WriteString(": ")
	}
	if e.Err != nil {
		b.WriteString(e.Err.Error())
	} else {
		b.WriteString("invalid")
	}
	if e.Want != "" {
		b.WriteString("; want ")
		b.WriteString(e.Want)
	}
	return b.String()
}

// Unwrap gives the kind of error.
func (e *InputError) Unwrap() error { return e.Err }

// InField returns err with field put before the field it already names:
// "panels[1]" and "width" become "panels[1].width". An error that is not an
// *InputError is wrapped in one; joined errors are each put in the field. A
// nil error stays nil.
func InField[P ~string](field P, err error) error {
	if err == nil {
		return nil
	}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range many.Unwrap() {
			out = append(out, InField(field, e))
		}
		return errors.Join(out...)
	}
	var in *InputError
	if errors.As(err, &in) {
		out := *in
		out.Field = Path(field).Dot(in.Field)
		return &out
	}
	return &InputError{Field: Path(field), Err: err}
}

func quote(s string) string { return "“" + oneLine(s, 60) + "”" }

// oneLine shortens hostile text to most characters and blots out what does
// not print, so that an error stays one readable line.
func oneLine(s string, most int) string {
	var b strings.Builder
	for _, r := range s {
		if most--; most < 0 {
			b.WriteRune('…')
			break
		}
		if !unicode.IsPrint(r) {
			r = '·'
		}
		b.WriteRune(r)
	}
	return b.String()
}
