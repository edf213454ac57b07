package job

import (
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// SeamFinish is how a seam joins its edges, with their allowance where it is not
// the usual one, and what is left outside it for the hand: "welted seam", "plain
// seam 3/8 in", "plain seam 1/2 in + 1 in". The zero value is a plain seam.
type SeamFinish struct {
	Kind      allowance.SeamKind
	Allowance allowance.Override
	Handling  unit.Length
}

// margins gives the finish as an edge, which has the same text behind its name.
func (f SeamFinish) margins() allowance.Edge {
	return allowance.Edge{Allowance: f.Allowance, Handling: f.Handling}
}

// String writes the finish as it stands in files.
func (f SeamFinish) String() string {
	return f.Kind.String() + strings.TrimPrefix(f.margins().String(), allowance.PlainSeam.String())
}

// MarshalText writes the finish as String does. One that would not read back is
// refused.
func (f SeamFinish) MarshalText() ([]byte, error) {
	if _, err := f.Kind.MarshalText(); err != nil {
		return nil, err
	}
	_, err := f.margins().Resolve()
	return []byte(f.String()), err
}

// UnmarshalText reads what String writes; no text is the zero value. It wraps
// unit.ErrUnknown, unit.ErrRange or the errors of unit.ParseLength.
func (f *SeamFinish) UnmarshalText(text []byte) error {
	var out SeamFinish
	name, margins := string(text), ""
	if i := strings.IndexAny(name, "+.0123456789"); i >= 0 {
		name, margins = name[:i], name[i:]
	}
	if len(text) > 0 {
		if err := out.Kind.UnmarshalText([]byte(strings.TrimSpace(name))); err != nil {
			return err
		}
	}
	var e allowance.Edge
	if err := e.UnmarshalText([]byte(allowance.PlainSeam.String() + " " + margins)); err != nil {
		return err
	}
	out.Allowance, out.Handling = e.Allowance, e.Handling
	*f = out
	return nil
}
