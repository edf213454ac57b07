package check

import (
	"errors"

	"github.com/coverwright/coverwright/unit"
)

// At gives the place of element i of a list: pieces becomes pieces[2].
func At[F ~string](field F, i int) F { return F(unit.Path(field).At(i)) }

// Renamed gives an error of an inner calculation the caller's field names: the
// first name of the field is looked up in names, the rest of the field stays.
// Joined errors are each renamed; an error without a field, or with one that
// is not in names, is returned as it is.
func Renamed(err error, names map[string]string) error {
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range many.Unwrap() {
			out = append(out, Renamed(e, names))
		}
		return errors.Join(out...)
	}
	var in *unit.InputError
	if !errors.As(err, &in) {
		return err
	}
	name, index, indexed, rest := in.Field.Head()
	to, ok := names[name]
	if !ok {
		return err
	}
	out := *in
	out.Field = unit.Path(to)
	if indexed {
		out.Field = out.Field.At(index)
	}
	out.Field = out.Field.Dot(rest)
	return &out
}
