package allowance

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// The small sets of names share their reading and writing here.

// nameOf gives the name of a member, or Kind(n) for a number outside the set.
func nameOf[E ~uint8](e E, kind string, names []string) string {
	if int(e) >= len(names) {
		return fmt.Sprintf("%s(%d)", kind, uint8(e))
	}
	return names[e]
}

// marshalName writes a member; a number outside the set wraps unit.ErrUnknown.
func marshalName[E ~uint8](e E, kind string, names []string) ([]byte, error) {
	name := nameOf(e, kind, names)
	if err := check.OneOf(kind, name, names...); err != nil {
		return nil, err
	}
	return []byte(name), nil
}

// parseName reads a member; the error wraps unit.ErrUnknown and lists the names.
func parseName[E ~uint8](name, kind string, names []string) (E, error) {
	if i := slices.Index(names, name); i >= 0 {
		return E(i), nil
	}
	return 0, check.OneOf(kind, name, names...)
}

var joinNames = [...]string{"diagonal join", "straight join"}

// String gives the name, such as "diagonal join".
func (j Join) String() string { return nameOf(j, "join", joinNames[:]) }

// MarshalText writes the name.
func (j Join) MarshalText() ([]byte, error) { return marshalName(j, "join", joinNames[:]) }

// UnmarshalText reads a name as String writes it.
func (j *Join) UnmarshalText(text []byte) error {
	v, err := parseName[Join](string(text), "join", joinNames[:])
	if err == nil {
		*j = v
	}
	return err
}

func sortLengths(ls []unit.Length) { slices.Sort(ls) }

func indexed(field string, i int) string { return check.At(field, i) }
