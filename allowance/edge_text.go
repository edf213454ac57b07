package allowance

import (
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// String writes the edge as it stands in files.
func (e Edge) String() string {
	s := e.Finish.String()
	if l, set := e.Allowance.Get(); set {
		s += " " + l.String()
	}
	if e.Handling != 0 {
		s += " + " + e.Handling.String()
	}
	return s
}

// MarshalText writes the edge as String does. An edge that Resolve refuses is
// refused here too, so that all that is written can be read.
func (e Edge) MarshalText() ([]byte, error) {
	if _, err := e.Resolve(); err != nil {
		return nil, err
	}
	return []byte(e.String()), nil
}

// UnmarshalText reads what String writes; lengths are read as
// [unit.ParseLength] does. Errors are *unit.InputError values that name finish,
// allowance or handling.
func (e *Edge) UnmarshalText(text []byte) error {
	var out Edge
	name, handling, more := strings.Cut(string(text), "+")
	var err error
	if more {
		if out.Handling, err = unit.ParseLength(handling); err != nil {
			return unit.InField("handling", err)
		}
	}
	if i := strings.IndexFunc(name, numeral); i >= 0 {
		l, err := unit.ParseLength(name[i:])
		if err != nil {
			return unit.InField("allowance", err)
		}
		out.Allowance = Exactly(l)
		name = name[:i]
	}
	if out.Finish, err = ParseFinish(strings.TrimSpace(name)); err != nil {
		return err
	}
	if _, err = out.Resolve(); err == nil {
		*e = out
	}
	return err
}

// numeral tells whether a length may begin with r; no finish has one in its name.
func numeral(r rune) bool { return r >= '0' && r <= '9' || r == '.' }
