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
		return check.Renamed(err, map[string]string{"finished": size})
	}
	return unit.InField(stretch, err)
}
