package job

import (
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
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

// String writes the finish as it stands in files.
func (f SeamFinish) String() string {
	s := f.Kind.String()
	if l, set := f.Allowance.Get(); set {
		s += " " + l.String()
	}
	if f.Handling != 0 {
		s += " + " + f.Handling.String()
	}
	return s
}

// MarshalText writes the finish as String does. One that would not read back is
// refused.
func (f SeamFinish) MarshalText() ([]byte, error) {
	if _, err := f.Kind.MarshalText(); err != nil {
		return nil, err
	}
	var back SeamFinish
	return []byte(f.String()), back.UnmarshalText([]byte(f.String()))
}

// UnmarshalText reads what String writes; no text is the zero value. It wraps
// unit.ErrUnknown, unit.ErrRange or the errors of unit.ParseLength.
func (f *SeamFinish) UnmarshalText(text []byte) error {
	var out SeamFinish
	name, handling, more := strings.Cut(string(text), "+")
	if i := strings.IndexFunc(name, func(r rune) bool { return r >= '0' && r <= '9' || r == '.' }); i >= 0 {
		l, err := unit.ParseLength(name[i:])
		if err == nil {
			err = check.Length("", l, 0, allowance.MostAllowance)
		}
		if err != nil {
			return err
		}
		out.Allowance, name = allowance.Exactly(l), name[:i]
	}
	if more {
		var err error
		if out.Handling, err = unit.ParseLength(handling); err != nil {
			return err
		}
		if err = check.Length("", out.Handling, 0, allowance.MostAllowance); err != nil {
			return err
		}
	}
	if name = strings.TrimSpace(name); name != "" || len(text) > 0 {
		if err := out.Kind.UnmarshalText([]byte(name)); err != nil {
			return unit.InField("", err)
		}
	}
	*f = out
	return nil
}
