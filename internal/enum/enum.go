// Package enum reads and writes the small sets of names that constants of a
// package stand for, so that every set does it the same way.
package enum

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
)

// Name gives the name of a member, or kind(n) for a number outside the set.
// names[0] belongs to the zero value.
func Name[E ~uint8](e E, kind string, names []string) string {
	if int(e) >= len(names) {
		return fmt.Sprintf("%s(%d)", kind, uint8(e))
	}
	return names[e]
}

// Text writes a member; a number outside the set wraps unit.ErrUnknown.
func Text[E ~uint8](e E, kind string, names []string) ([]byte, error) {
	if err := Check(e, kind, names); err != nil {
		return nil, err
	}
	return []byte(names[e]), nil
}

// Read reads a member; the error wraps unit.ErrUnknown and lists the names.
func Read[E ~uint8](e *E, text []byte, kind string, names []string) error {
	i := slices.Index(names, string(text))
	if i < 0 {
		return check.OneOf(kind, string(text), names...)
	}
	*e = E(i)
	return nil
}

// Check refuses a number outside the set, at the field kind.
func Check[E ~uint8](e E, kind string, names []string) error {
	if int(e) >= len(names) {
		return check.OneOf(kind, Name(e, kind, names), names...)
	}
	return nil
}
