package schema

import (
	"bytes"
	"encoding/json"
	"slices"
)

// object is a JSON object whose fields keep their order.
type object struct {
	keys   []string
	values map[string]any
}

func newObject() *object { return &object{values: map[string]any{}} }

func (o *object) set(key string, v any) {
	if _, ok := o.values[key]; !ok {
		o.keys = append(o.keys, key)
	}
	o.values[key] = v
}

func (o *object) drop(key string) {
	o.keys = slices.DeleteFunc(o.keys, func(k string) bool { return k == key })
	delete(o.values, key)
}

func (o *object) merge(p *object) {
	for _, k := range p.keys {
		o.set(k, p.values[k])
	}
}

// MarshalJSON writes the fields in the order in which they were set.
func (o *object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, k := range o.keys {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := plain(k)
		if err != nil {
			return nil, err
		}
		v, err := plain(o.values[k])
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(v)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// plain writes JSON without escapes for HTML.
func plain(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return bytes.TrimRight(b.Bytes(), "\n"), err
}
