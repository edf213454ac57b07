package allowance

import (
	"errors"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// fitError names the caller's field for an error of Stretch.Apply: the size
// itself when the finished length is at fault, else the stretch field.
func fitError(size, stretch string, err error) error {
	var in *unit.InputError
	if errors.As(err, &in) && in.Field == "finished" {
		return renamed(err, map[string]string{"finished": size})
	}
	return unit.InField(stretch, err)
}

// renamed gives an error of an inner calculation the caller's field names.
func renamed(err error, names map[string]string) error { return check.Renamed(err, names) }
