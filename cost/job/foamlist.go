package job

import (
	"bytes"
	"encoding/json"
	"reflect"

	"github.com/coverwright/coverwright/unit"
)

// FoamList is blocks of foam. Of a piece of furniture from a kind it may be the
// thickness of its foam alone, such as "2 in": one block with nothing else.
type FoamList []FoamSpec

// alone gives the thickness that stands in the place of blocks.
func (l FoamList) alone() (unit.Length, bool) {
	if len(l) != 1 || !reflect.DeepEqual(l[0], FoamSpec{Thickness: l[0].Thickness}) {
		return 0, false
	}
	return l[0].Thickness, true
}

// UnmarshalText reads a thickness.
func (l *FoamList) UnmarshalText(text []byte) error {
	var t unit.Length
	if err := t.UnmarshalText(text); err != nil {
		return err
	}
	*l = FoamList{{Thickness: t}}
	return nil
}

// UnmarshalJSON reads a list of blocks, or a thickness.
func (l *FoamList) UnmarshalJSON(text []byte) error {
	if bytes.HasPrefix(text, []byte(`"`)) {
		var s string
		if err := json.Unmarshal(text, &s); err != nil {
			return err
		}
		return l.UnmarshalText([]byte(s))
	}
	var blocks []FoamSpec
	err := json.Unmarshal(text, &blocks)
	*l = blocks
	return err
}

// MarshalJSON writes what UnmarshalJSON reads.
func (l FoamList) MarshalJSON() ([]byte, error) {
	if t, ok := l.alone(); ok {
		return json.Marshal(t)
	}
	return json.Marshal([]FoamSpec(l))
}
