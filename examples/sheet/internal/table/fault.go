package table

import (
	"errors"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// Code is a spreadsheet error.
type Code string

// The errors a function can give. Unknown names of functions give Name; it is
// never the answer of a function.
const (
	Value        Code = "#VALUE!" // wrong kind or number of arguments, text that cannot be read, a fault of our own
	Num          Code = "#NUM!"   // a number outside its range, overflow
	DivideByZero Code = "#DIV/0!"
	Missing      Code = "#N/A" // a name that is not in a list
	Name         Code = "#NAME?"
)

// Codes lists the errors a function can give.
func Codes() []Code { return []Code{Value, Num, DivideByZero, Missing} }

// Number gives the error number that Calc shows for c.
func (c Code) Number() int {
	switch c {
	case Num:
		return 503
	case DivideByZero:
		return 532
	case Missing:
		return 32767
	case Name:
		return 525
	default:
		return 519
	}
}

// Fault is the answer of a function that has no value.
type Fault struct {
	Code    Code
	Message string
	// Internal marks a fault of the program itself: what was a panic. The tests
	// of the laws fail on it.
	Internal bool
}

// Error gives code and message.
func (f *Fault) Error() string { return string(f.Code) + " " + f.Message }

func fault(c Code, message string) *Fault { return &Fault{Code: c, Message: message} }

// codeOf sorts the errors of the library into those of a spreadsheet.
func codeOf(err error) Code {
	is := func(targets ...error) bool {
		for _, t := range targets {
			if errors.Is(err, t) {
				return true
			}
		}
		return false
	}
	switch {
	case is(unit.ErrDivideByZero):
		return DivideByZero
	case is(unit.ErrUnknown, thread.ErrAmbiguous):
		return Missing
	case is(unit.ErrSyntax, unit.ErrMissingUnit, unit.ErrUnknownUnit, unit.ErrDecimalComma, unit.ErrRequired):
		return Value
	default:
		return Num
	}
}
