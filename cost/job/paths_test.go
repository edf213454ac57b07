package job

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

// resolves tells whether a path names a place of the job file.
func resolves(t reflect.Type, path unit.Path) bool {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if path == "" {
		return true
	}
	if t.Kind() == reflect.Interface {
		return true
	}
	head, i, indexed, rest := path.Head()
	for _, f := range reflect.VisibleFields(t) {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if !f.IsExported() || name != head {
			continue
		}
		inner := f.Type
		for inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		if inner == reflect.TypeFor[cost.PriceList]() {
			inner = reflect.TypeFor[[]cost.Entry]()
		}
		if indexed {
			return inner.Kind() == reflect.Slice && i >= 0 && below(inner.Elem(), rest)
		}
		return below(inner, rest)
	}
	return false
}

func below(t reflect.Type, rest unit.Path) bool {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case rest == "":
		return true
	case t.Kind() == reflect.Map:
		_, _, _, after := rest.Head()
		return below(t.Elem(), after)
	case t.Kind() == reflect.Slice:
		return below(t.Elem(), rest)
	case t.Kind() != reflect.Struct:
		return false
	}
	return resolves(t, rest)
}

func TestResolves(t *testing.T) {
	spec := reflect.TypeFor[Spec]()
	for _, path := range []unit.Path{"pieces[1].panels[0].width", "quote.taxes[0].on", "goods[2].hides[0].defects[1].at", "pieces[0].measures.seat width", "options[0].replace[1].with", "pieces"} {
		assert.True(t, resolves(spec, path), path)
	}
	for _, path := range []unit.Path{"pieces[1].panels[0].wdith", "quote.tax.levies[1]", "pieces[0].name.first", "rect: Pieces[0]"} {
		assert.False(t, resolves(spec, path), path)
	}
}

// Whatever is wrong with a job, it is told at a place of the job file that there is.
func TestEveryFaultHasAPlace(t *testing.T) { few.Check(t, 10, everyFaultHasAPlace(t)) }

// spoilt are values that are wrong somewhere.
var spoilt = []any{"", "x", "-1 in", "0 in", "1 in", "400 in", "9999 mi", "1/2 in", "25", "300 %", "-5 %", "0 USD", "5 EUR/yd", "left", true, false, -1.0, 0.0, 3.0, 1e9, nil,
	[]any{}, map[string]any{}, "a\u202eb", "1 h", "5 lb", "boxed", "plain seam", "seat.left", "99 yd"}

func everyFaultHasAPlace(outer *testing.T) func(*rapid.T) {
	var texts []string
	for _, s := range anatomies(outer) {
		text, err := json.Marshal(s)
		require.NoError(outer, err)
		texts = append(texts, string(text))
	}
	slices.Sort(texts)
	texts = append(texts, demo(outer), second(outer))
	return func(t *rapid.T) {
		var tree any
		require.NoError(t, json.Unmarshal([]byte(rapid.SampledFrom(texts).Draw(t, "job")), &tree))
		for range rapid.IntRange(1, 2).Draw(t, "changes") {
			tree = spoil(t, tree)
		}
		text, err := json.Marshal(tree)
		require.NoError(t, err)
		_, err = Read(outer.Context(), strings.NewReader(string(text)), Options{Effort: 0.0001, NoMatching: true})
		var found Faults
		if err == nil || !errors.As(err, &found) {
			return
		}
		for _, f := range found {
			var in *unit.InputError
			require.ErrorAs(t, f, &in)
			if in.Field == "" || errors.Is(in, unit.ErrUnknown) && !resolves(reflect.TypeFor[Spec](), in.Field) && strings.Contains(in.Want, "field") {
				continue // of the whole file, or a field that is none
			}
			require.True(t, resolves(reflect.TypeFor[Spec](), in.Field), "%v", f)
		}
	}
}

// spoil changes one value of a tree.
func spoil(t *rapid.T, tree any) any {
	stop := rapid.IntRange(0, 5).Draw(t, "stop") == 0
	switch v := tree.(type) {
	case map[string]any:
		if len(v) == 0 || stop {
			break
		}
		var keys []string
		for k := range v {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		k := rapid.SampledFrom(keys).Draw(t, "key")
		v[k] = spoil(t, v[k])
		return v
	case []any:
		if len(v) == 0 || stop {
			break
		}
		i := rapid.IntRange(0, len(v)-1).Draw(t, "item")
		v[i] = spoil(t, v[i])
		return v
	}
	return rapid.SampledFrom(spoilt).Draw(t, "value")
}

// What shows nothing, turns the writing or is no text is refused wherever people
// enter it, and so is what would be dropped in silence.
func TestTextsAndWhatMeansNothing(t *testing.T) {
	const job = `{"schema": "coverwright/job/1", "name": "r", "currency": "USD", "goods": [{"id": "c", "kind": "roll", "name": "cloth", "material": "woven", "price": "60 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "seat", "panels": [{"name": "top", "goods": "c", "width": "20 in", "length": "20 in"MORE}]}], "quote": {"labour_rate": "50 USD/h"QUOTE}OPTIONS}`
	for name, c := range map[string]struct {
		more, quote, options string
		field                unit.Path
		want                 error
	}{
		"newline":         {options: `, "options": [{"name": "a\nb", "replace": [{"goods": "c", "with": "c"}]}]`, field: "options[0].name", want: unit.ErrSyntax},
		"turned writing":  {quote: `, "stages": [{"name": "first", "due": "a\u202eb", "share": "50 %"}, {"name": "rest"}]`, field: "quote.stages[0].due", want: unit.ErrSyntax},
		"no name":         {options: `, "options": [{"name": "", "replace": [{"goods": "c", "with": "c"}]}]`, field: "options[0].name", want: unit.ErrRequired},
		"edge name":       {more: `, "by_edge": {"to\tp": "raw"}`, field: "pieces[0].panels[0].by_edge", want: unit.ErrSyntax},
		"by itself":       {options: `, "options": [{"name": "o", "replace": [{"goods": "c", "with": "c"}]}]`, field: "options[0].replace[0].with", want: ErrMisplaced},
		"unmatched":       {more: `, "unmatched": true`, field: "pieces[0].panels[0].unmatched", want: ErrMisplaced},
		"half a wish":     {more: `, "stretch": {"axis": "90 deg"}`, field: "pieces[0].panels[0].stretch.tolerance", want: unit.ErrRequired},
		"no discount":     {quote: `, "discounts": [{"name": "d"}]`, field: "quote.discounts[0].rate", want: unit.ErrRequired},
		"valid from when": {quote: `, "valid_days": 30`, field: "quote.issued", want: unit.ErrRequired},
		"markup":          {quote: `, "markup": "25"`, field: "quote.markup", want: unit.ErrRange},
		"two taxes alike": {quote: `, "taxes": [{"name": "t", "rate": "5 %", "on": ["goods"]}, {"name": "t", "rate": "5 %", "on": ["goods"]}]`, field: "quote.taxes[1]", want: unit.ErrRange},
		"place":           {quote: `}, "jurisdictions": ["us"`, field: "jurisdictions[0]", want: unit.ErrUnknown},
	} {
		text := strings.NewReplacer("MORE", c.more, "QUOTE", c.quote, "OPTIONS", c.options).Replace(job)
		if name == "place" {
			text = strings.Replace(strings.Replace(text, c.quote, "", 1), `"currency"`, `"jurisdictions": ["us"], "currency"`, 1)
		}
		_, err := Read(t.Context(), strings.NewReader(text), quick)
		require.ErrorIs(t, err, c.want, name)
		var found Faults
		require.ErrorAs(t, err, &found, name)
		assert.True(t, slices.ContainsFunc(found, func(f *Fault) bool {
			var in *unit.InputError
			return errors.As(f, &in) && in.Field == c.field
		}), "%s: %v", name, found)
	}
	_, err := Build(t.Context(), Spec{}, Options{Effort: -1})
	require.EqualError(t, err, "effort: “-1”: out of range; want from 0.0001 to 100000")
	_, err = Read(t.Context(), strings.NewReader("{\n\"name\": \"caf\xe9\"}"), quick)
	require.ErrorContains(t, err, "line 2")
	require.ErrorContains(t, err, "UTF-8")
}
