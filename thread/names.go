package thread

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
)

// names are the texts of an enumeration that counts from one.
type names []string

func (n names) text(kind string, i int) string {
	if i < 1 || i > len(n) {
		return fmt.Sprintf("%s(%d)", kind, i)
	}
	return n[i-1]
}

func (n names) marshal(field string, i int) ([]byte, error) {
	if i < 1 || i > len(n) {
		return nil, check.OneOf(field, fmt.Sprint(i), n...)
	}
	return []byte(n[i-1]), nil
}

func (n names) unmarshal(field string, text []byte, set func(int)) error {
	for i, name := range n {
		if name == string(text) {
			set(i + 1)
			return nil
		}
	}
	return check.OneOf(field, string(text), n...)
}
