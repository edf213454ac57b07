package check

import "github.com/coverwright/coverwright/unit"

// Angle accepts finite angles within two turns.
func Angle[F ~string](field F, a unit.Angle) error {
	if err := a.Check(); err != nil {
		return unit.InField(field, err)
	}
	return Between(field, a, -2*unit.Turn, 2*unit.Turn)
}

// Inner takes a field off an error that names it alone, so that the caller's
// name for the same thing is not doubled.
func Inner(err error, field string) error { return Renamed(err, map[string]string{field: ""}) }
