package findings

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// What no calculator goes beyond.
const (
	mostRuns   = 10_000
	mostPieces = 1_000_000
	widest     = 10 * unit.Metre  // an opening
	longest    = 100 * unit.Metre // one edge
)

// within is a length and what is accepted.
type within struct {
	field     string
	l, lo, hi unit.Length
}

func all(ws ...within) error {
	for _, w := range ws {
		if err := check.Length(w.field, w.l, w.lo, w.hi); err != nil {
			return err
		}
	}
	return nil
}

// each checks a list of lengths that must not be empty.
func each(field string, ls []unit.Length, lo, hi unit.Length) error {
	if len(ls) == 0 {
		return check.Required(field, "at least one length")
	}
	if err := check.Count(field, len(ls), 1, mostRuns); err != nil {
		return err
	}
	for i, l := range ls {
		if err := check.Length(fmt.Sprintf("%s[%d]", field, i), l, lo, hi); err != nil {
			return err
		}
	}
	return nil
}

// steps is how many steps no longer than s fill a length.
func steps(l, s unit.Length) int { return int((l + s - 1) / s) }
