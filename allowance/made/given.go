package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// given gives the length set by hand, or else the default.
func given(o allowance.Override, field string, def unit.Length) (unit.Length, error) {
	return ranged(o, field, def, 0, allowance.MostAllowance)
}

// ranged gives the length set by hand within a range, or else the default.
func ranged(o allowance.Override, field string, def, least, most unit.Length) (unit.Length, error) {
	l, set := o.Get()
	if !set {
		return def, nil
	}
	return l, inRange(field, l, least, most)
}
