// Package jobs draws job files: whole ones at random, of any form that the schema
// allows, and such as grow from a job that there is.
package jobs

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job/schema"
)

// Drawing draws job files. Texts that the schema does not list are taken from the job
// files it is given.
type Drawing struct {
	defs map[string]any
	seen map[string][]any // by definition or field
	root map[string]any
}

// New takes down the words of job files that are whole, with nothing in a shop file.
func New(texts ...[]byte) (Drawing, error) {
	var root map[string]any
	if err := json.Unmarshal(schema.Job(), &root); err != nil {
		return Drawing{}, err
	}
	d := Drawing{object(root["$defs"]), map[string][]any{}, root}
	for _, text := range texts {
		var v any
		if err := json.Unmarshal(text, &v); err != nil {
			return Drawing{}, err
		}
		d.look(root, v, "")
	}
	for name, def := range d.defs {
		if examples, ok := object(def)["examples"].([]any); ok {
			d.seen[name] = append(d.seen[name], examples...)
		}
	}
	for name := range d.seen {
		slices.SortFunc(d.seen[name], func(a, b any) int { return strings.Compare(fmt.Sprint(a), fmt.Sprint(b)) })
		d.seen[name] = slices.Compact(d.seen[name])
	}
	return d, nil
}

// Job draws a job file at random. Few are without fault.
func (d Drawing) Job(t *rapid.T) map[string]any {
	drawn := object(d.object(t, d.root, "job", 0))
	drawn["currency"] = rapid.SampledFrom([]string{"USD", "EUR", "JPY"}).Draw(t, "currency")
	unique(drawn)
	return drawn
}

// object is a JSON object, empty where v is something else.
func object(v any) map[string]any {
	m, _ := v.(map[string]any)
	return m
}

// What a row belongs to is told by its name, so those are each their own.
func unique(job map[string]any) {
	for _, list := range []string{"goods", "pieces", "options"} {
		entries, _ := job[list].([]any)
		for i, x := range entries {
			obj := object(x)
			key := "name"
			if list == "goods" {
				key = "id"
			}
			obj[key] = fmt.Sprintf("%s %d", list, i+1)
		}
	}
}

func (d Drawing) solid(n map[string]any, name string) (map[string]any, string) {
	for {
		ref, ok := n["$ref"].(string)
		if !ok {
			return n, name
		}
		name = strings.TrimPrefix(ref, "#/$defs/")
		n = object(d.defs[name])
	}
}

// look takes down the texts of a job by what they are.
func (d Drawing) look(n map[string]any, v any, name string) {
	n, name = d.solid(n, name)
	switch x := v.(type) {
	case map[string]any:
		props, _ := n["properties"].(map[string]any)
		values, _ := n["additionalProperties"].(map[string]any)
		for k, y := range x {
			if p, ok := props[k].(map[string]any); ok {
				d.look(p, y, k)
			} else if values != nil {
				d.look(values, y, k)
			}
		}
	case []any:
		if items, ok := n["items"].(map[string]any); ok {
			for _, y := range x {
				d.look(items, y, name)
			}
		}
	case string:
		d.seen[name] = append(d.seen[name], x)
	}
}

func (d Drawing) draw(t *rapid.T, n map[string]any, name string, depth int) any {
	n, name = d.solid(n, name)
	if c, ok := n["const"]; ok {
		return c
	}
	if either, ok := n["anyOf"].([]any); ok && n["type"] == nil {
		return d.draw(t, object(rapid.SampledFrom(either).Draw(t, "which")), name, depth)
	}
	if enum, ok := n["enum"].([]any); ok {
		return rapid.SampledFrom(enum).Draw(t, name)
	}
	switch n["type"] {
	case "object":
		return d.object(t, n, name, depth)
	case "array":
		var out []any
		for range rapid.IntRange(1, 3).Draw(t, "length of "+name) {
			if v := d.draw(t, object(n["items"]), name, depth+1); v != nil {
				out = append(out, v)
			}
		}
		if out == nil {
			return nil
		}
		return out
	case "integer", "number":
		return rapid.IntRange(1, 400).Draw(t, name)
	case "boolean":
		return true
	}
	switch seen := d.seen[name]; {
	case name == "Length":
		return rapid.SampledFrom([]string{"12 in", "7 3/8 in", "652 mm", "1 1/2 yd", "0.3 m", "1/3 in", "100 in"}).Draw(t, name)
	case len(seen) > 0:
		return rapid.SampledFrom(seen).Draw(t, name)
	case n["pattern"] == nil:
		return rapid.SampledFrom([]string{"a", "b 2", "{c", "[d", "e; f", "g: h", "24", "=1+1", "'x", "true", "yes"}).Draw(t, name)
	}
	return nil
}

func (d Drawing) object(t *rapid.T, n map[string]any, name string, depth int) any {
	out := map[string]any{}
	if values, ok := n["additionalProperties"].(map[string]any); ok {
		for range rapid.IntRange(1, 3).Draw(t, "entries of "+name) {
			if v := d.draw(t, values, name, depth+1); v != nil {
				out[rapid.SampledFrom([]string{"lining", "welt", "seat width", "a: b", "c; d"}).Draw(t, "key")] = v
			}
		}
		return out
	}
	required, _ := n["required"].([]any)
	props := object(n["properties"])
	keys := make([]string, 0, len(props))
	for k := range props {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	if name == "Form" {
		keys = []string{rapid.SampledFrom([]string{"rectangle", "trapezoid", "circle", "trace", "polygon", "stations", "path", "rounded_rectangle"}).Draw(t, "shape"), "tolerance", "mirrored", "at", "names"}
		required = []any{keys[0]}
	}
	for _, k := range keys {
		must := slices.Contains(required, any(k))
		if !must && rapid.IntRange(0, 3+depth).Draw(t, "take "+k) > 0 {
			continue
		}
		if v := d.draw(t, object(props[k]), k, depth+1); v != nil {
			out[k] = v
		}
	}
	return out
}
