package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// given gives the length set by hand, or else the default.
func given(o allowance.Override, field string, def unit.Length) (unit.Length, error) {
	l, set := o.Get()
	if !set {
		return def, nil
	}
	return l, check.Length(field, l, 0, allowance.MostAllowance)
}
