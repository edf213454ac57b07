package allowance_test

import "github.com/coverwright/coverwright/unit"

// inches writes a result to a thousandth of an inch, or its error.
func inches(l unit.Length, err error) string {
	if err != nil {
		return err.Error()
	}
	return l.Decimal(unit.Inch, 3, unit.Nearest)
}
