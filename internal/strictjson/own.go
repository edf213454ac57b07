package strictjson

import (
	"encoding/json"
	"errors"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// own reads a struct that has a form of its own in JSON. Each of its faults keeps
// the element that it names, such as [2].price, below the place of the whole.
func (w *walker) own(n node, u json.Unmarshaler, path unit.Path) {
	w.doubled(n, path)
	text, err := json.Marshal(plain(n))
	if err == nil {
		err = u.UnmarshalJSON(text)
	}
	for _, err := range flat([]error{err}) {
		at, value, why, want := path, "", err, ""
		var in *unit.InputError
		if errors.As(err, &in) {
			value, why, want = in.Value, in.Err, in.Want
			if _, list := n.value.([]node); list && strings.HasPrefix(string(in.Field), "[") {
				at = path.Dot(in.Field)
			}
		}
		if !w.full() {
			w.faults = append(w.faults, w.doc.Place(input(at, value, why, want)))
		}
	}
}

// doubled reports the fields that stand twice in an object, or in those below it.
func (w *walker) doubled(n node, path unit.Path) {
	switch v := n.value.(type) {
	case *object:
		for _, t := range v.twice {
			w.fail(t.offset, input(path.Dot(unit.Path(t.name)), "", ErrTwice, "each field once"))
		}
		for _, name := range v.names {
			w.doubled(v.fields[name], path.Dot(unit.Path(name)))
		}
	case []node:
		for i, e := range v {
			w.doubled(e, path.At(i))
		}
	}
}

// plain gives a value as package json reads it.
func plain(n node) any {
	switch v := n.value.(type) {
	case *object:
		out := map[string]any{}
		for name, e := range v.fields {
			out[name] = plain(e)
		}
		return out
	case []node:
		out := make([]any, len(v))
		for i, e := range v {
			out[i] = plain(e)
		}
		return out
	}
	return n.value
}
