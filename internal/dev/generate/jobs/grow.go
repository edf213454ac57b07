package jobs

import (
	"encoding/json"
	"maps"
	"slices"

	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/unit"
)

// Kind draws a job of a kind of furniture, by its number, from measures near those that
// are likely: in goods with or without a pattern, or in leather.
func (d Drawing) Kind(t *rapid.T, number int) map[string]any {
	all := kind.All()
	k := all[number%len(all)]
	measures := map[string]any{}
	likely := k.Likely()
	for _, name := range slices.Sorted(maps.Keys(likely)) {
		measures[name] = near(t, likely[name])
	}
	goodsFor := map[string]any{}
	for _, r := range k.Goods {
		if r.As == "" || rapid.Bool().Draw(t, "apart") {
			goodsFor[r.Name] = "plain"
		}
	}
	cloth := map[string]any{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "60 USD/yd", "width": rapid.SampledFrom([]string{"54 in", "140 cm"}).Draw(t, "width")}
	for _, of := range []struct {
		key    string
		values []any
	}{
		{"repeat", []any{nil, "9 in", "18 in", "27 in", "32 cm"}},
		{"repeat_across", []any{nil, "9 in", "13 in", "137 mm"}},
		{"one_way", []any{nil, true}},
		{"unknown_start", []any{nil, true}},
	} {
		if v := rapid.SampledFrom(of.values).Draw(t, of.key); v != nil {
			cloth[of.key] = v
		}
	}
	goods := []any{cloth,
		map[string]any{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "20 USD/yd", "width": "54 in"},
		map[string]any{"id": "hide", "kind": "hide", "name": "hide", "material": "leather", "price": "9.50 USD/sq ft", "hide_area": "50 sq ft"}}
	cover := rapid.SampledFrom([]string{"cloth", "cloth", "hide"}).Draw(t, "cover")
	piece := map[string]any{"name": "piece", "from": k.Name, "goods": cover, "goods_for": goodsFor, "measures": measures, "count": rapid.IntRange(1, 3).Draw(t, "count")}
	return map[string]any{"schema": "coverwright/job/1", "name": "drawn", "currency": "USD", "goods": goods, "pieces": []any{piece}, "quote": map[string]any{"labour_rate": "50 USD/h"}}
}

// Grown draws a job file that differs from a job at one place: a length, a choice, a
// count, or something more of what the schema allows. It gives nothing where the job is
// no JSON.
func (d Drawing) Grown(t *rapid.T, from []byte) map[string]any {
	var v map[string]any
	if json.Unmarshal(from, &v) != nil {
		return nil
	}
	var changes []func()
	d.places(t, d.root, v, "job", nil, &changes)
	changes[rapid.IntRange(0, len(changes)-1).Draw(t, "place")]()
	return v
}

// places gathers the changes there can be to a value, which set puts in its place.
func (d Drawing) places(t *rapid.T, n map[string]any, v any, name string, set func(any), changes *[]func()) {
	n, name = d.solid(n, name)
	var l unit.Length
	switch x := v.(type) {
	case map[string]any:
		props := object(n["properties"])
		for _, k := range slices.Sorted(maps.Keys(props)) {
			p, put := object(props[k]), func(y any) {
				if y != nil {
					x[k] = y
				}
			}
			if k == "count" { // few, so that layouts stay small
				*changes = append(*changes, func() { put(rapid.IntRange(1, 4).Draw(t, k)) })
			} else if old, ok := x[k]; ok {
				d.places(t, p, old, k, put, changes)
			} else if name != "Form" {
				*changes = append(*changes, func() { put(d.draw(t, p, k, 3)) })
			}
		}
	case []any:
		items := object(n["items"])
		for i, y := range x {
			d.places(t, items, y, name, func(z any) { x[i] = z }, changes)
		}
	case string:
		if enum, ok := n["enum"].([]any); ok {
			*changes = append(*changes, func() { set(rapid.SampledFrom(enum).Draw(t, name)) })
		} else if name == "Length" && l.UnmarshalText([]byte(x)) == nil {
			*changes = append(*changes, func() { set(near(t, l)) })
		}
	case bool:
		*changes = append(*changes, func() { set(!x) })
	}
}

// near is a length within a tenth of another.
func near(t *rapid.T, l unit.Length) string {
	percent := rapid.Int64Range(90, 110).Draw(t, "percent")
	if text, err := (l * unit.Length(percent) / 100).MarshalText(); err == nil {
		return string(text)
	}
	return "12 in"
}
