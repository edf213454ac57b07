package kind

import (
	"bytes"
	"encoding/json"
	"errors"
	"regexp"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Given is what is known of one piece of furniture.
type Given struct {
	Cover    string                 `json:"cover"`              // the id of its goods
	Goods    map[string]string      `json:"goods,omitempty"`    // ids by role
	Measures map[string]unit.Length `json:"measures,omitempty"` // by name
	Build    string                 `json:"build,omitempty"`    // the usual one when not given
	Without  []string               `json:"without,omitempty"`  // groups that are left out
}

// Write gives the piece of furniture in the words of the job file: Piece with
// every formula and role in its place. Errors, all at once, are joined
// *unit.InputError values: cover, goods and a role, build, and those of
// [Kind.Sizes].
func (k Kind) Write(g Given) ([]byte, error) {
	known, err := k.Sizes(g.Measures)
	faults := []error{err}
	goods, way, own := k.goods(g)
	faults = append(faults, own...)
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	var tree map[string]any
	d := json.NewDecoder(bytes.NewReader(k.Piece))
	d.UseNumber()
	if err := d.Decode(&tree); err != nil {
		return nil, err
	}
	if len(way.Build) > 0 {
		tree["build"] = way.Build
	}
	w := writer{sizes: sizes{kind: k, known: known, busy: map[string]bool{}}, goods: goods, without: g.Without}
	out, _, err := w.value(tree)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err = e.Encode(out)
	return b.Bytes(), err
}

// goods gives the id for every role, empty where an optional one is left out, and
// the way that the piece is built.
func (k Kind) goods(g Given) (map[string]string, Build, []error) {
	var faults []error
	out := map[string]string{"cover": g.Cover}
	if g.Cover == "" {
		faults = append(faults, check.Required("cover", "the id of the goods of the cover"))
	}
	var way Build
	if len(k.Builds) > 0 || g.Build != "" {
		names := make([]string, len(k.Builds))
		for i, b := range k.Builds {
			if names[i] = b.Name; b.Name == g.Build {
				way = b
			}
		}
		if g.Build == "" {
			way = k.Builds[0]
		} else if !slices.Contains(names, g.Build) {
			faults = append(faults, check.OneOf("build", g.Build, names...))
		}
	}
	names := make([]string, len(k.Goods))
	for i, r := range k.Goods {
		names[i] = r.Name
		switch id := g.Goods[r.Name]; {
		case id != "":
			out[r.Name] = id
		case r.As != "":
			out[r.Name] = out[r.As]
		case !r.Optional || slices.Contains(way.Needs, r.Name):
			faults = append(faults, check.Required(unit.Path("goods").Dot(unit.Path(r.Name)), "the id of goods: "+r.About))
		default:
			out[r.Name] = ""
		}
	}
	for _, name := range sorted(g.Goods) {
		if !slices.Contains(names, name) {
			faults = append(faults, unit.InField(unit.Path("goods").Dot(unit.Path(name)), check.OneOf("", name, names...)))
		}
	}
	return out, way, faults
}

// writer puts measures and goods in their place.
type writer struct {
	sizes
	goods   map[string]string
	without []string
}

var braces = regexp.MustCompile(`\{[^{}]*\}`)

// value gives a value of the tree, or says that it is left out.
func (w *writer) value(v any) (any, bool, error) {
	switch v := v.(type) {
	case string:
		return w.text(v)
	case []any:
		out := []any{}
		for _, x := range v {
			y, gone, err := w.value(x)
			if err != nil {
				return nil, false, err
			}
			if !gone {
				out = append(out, y)
			}
		}
		return out, false, nil
	case map[string]any:
		return w.object(v)
	}
	return v, false, nil
}

func (w *writer) object(v map[string]any) (any, bool, error) {
	out := map[string]any{}
	for _, name := range sorted(v) {
		text, _ := v[name].(string) //nolint:errcheck // empty for other values
		left := slices.Contains(w.without, text)
		if name == "when" && left || name == "unless" && !left {
			return nil, true, nil
		}
	}
	for _, name := range sorted(v) {
		if name == "when" || name == "unless" {
			continue
		}
		y, gone, err := w.value(v[name])
		if err != nil {
			return nil, false, err
		}
		if _, list := v[name].([]any); gone && !list {
			if _, inner := v[name].(map[string]any); inner {
				continue // only the field
			}
			return nil, true, nil // made of goods that are left out
		}
		out[name] = y
	}
	return out, false, nil
}

// text puts in the place of each pair of braces what is between them. Braces alone
// may give a whole number.
func (w *writer) text(s string) (any, bool, error) {
	var first error
	gone := false
	var number any
	out := braces.ReplaceAllStringFunc(s, func(m string) string {
		inner := strings.TrimSpace(m[1 : len(m)-1])
		if id, ok := w.goods[inner]; ok {
			gone = gone || id == ""
			return id
		}
		v, err := w.formula(inner)
		var n int64 // of nanometres, or plain
		if err == nil {
			n, err = v.whole()
		}
		if first == nil {
			first = err
		}
		if err == nil && !v.length {
			number = max(n, 1)
			return ""
		}
		return unit.Length(n).String()
	})
	if number != nil && out == "" {
		return number, gone, first
	}
	return out, gone, first
}
