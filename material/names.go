package material

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Names of the small enumerations, as JSON and drawings write them.

func nameOf[T ~uint8](names []string, v T) string {
	if int(v) >= len(names) {
		return fmt.Sprintf("unknown (%d)", uint8(v))
	}
	return names[v]
}

func nameText[T ~uint8](field string, names []string, v T) ([]byte, error) {
	if int(v) >= len(names) {
		return nil, check.Refuse(field, fmt.Sprint(uint8(v)), unit.ErrUnknown, "one of "+strings.Join(names, ", "))
	}
	return []byte(names[v]), nil
}

func readName[T ~uint8](field string, names []string, text []byte, v *T) error {
	for i, n := range names {
		if n == string(text) {
			*v = T(i)
			return nil
		}
	}
	return check.OneOf(field, string(text), names...)
}
