package job

import (
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// Edge is an edge of a panel as a spec writes it: the finish, then its
// allowance when it differs from the default, then "+" and the handling
// margin: "plain seam", "plain seam 3/8 in", "pulled over 2 in + 1 in".
type Edge struct{ allowance.Edge }

// UnmarshalText reads an edge. It wraps the errors of allowance.ParseFinish
// and unit.ParseLength.
func (e *Edge) UnmarshalText(text []byte) error {
	s := string(text)
	var out allowance.Edge
	name, margin, hasMargin := strings.Cut(s, "+")
	var err error
	if hasMargin {
		if out.Handling, err = unit.ParseLength(margin); err != nil {
			return unit.InField("handling", err)
		}
	}
	if i := strings.IndexFunc(name, func(r rune) bool { return r >= '0' && r <= '9' || r == '.' }); i >= 0 {
		l, err := unit.ParseLength(name[i:])
		if err != nil {
			return unit.InField("allowance", err)
		}
		out.Allowance = allowance.Exactly(l)
		name = name[:i]
	}
	if out.Finish, err = allowance.ParseFinish(strings.TrimSpace(name)); err != nil {
		return err
	}
	if _, err := out.Resolve(); err != nil {
		return err
	}
	e.Edge = out
	return nil
}

// MarshalText writes the edge so that UnmarshalText reads it.
func (e Edge) MarshalText() ([]byte, error) {
	text, err := e.Finish.MarshalText()
	if err != nil {
		return nil, err
	}
	if l, ok := e.Allowance.Get(); ok {
		text = append(text, " "+l.String()...)
	}
	if e.Handling != 0 {
		text = append(text, " + "+e.Handling.String()...)
	}
	return text, nil
}

// Thickness is a length that may also be written in leather ounces.
type Thickness unit.Length

// UnmarshalText reads a thickness as unit.ParseThickness does.
func (t *Thickness) UnmarshalText(text []byte) error {
	l, err := unit.ParseThickness(string(text))
	if err == nil {
		*t = Thickness(l)
	}
	return err
}

// MarshalText writes the thickness as a length.
func (t Thickness) MarshalText() ([]byte, error) { return unit.Length(t).MarshalText() }
