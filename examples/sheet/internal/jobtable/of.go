package jobtable

import (
	"bytes"
	"encoding/json"
	"errors"
	"maps"
	"reflect"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Of gives the tables of a job: all of them, empty ones too. The job is the text of a
// whole job file, as json.Marshal writes a job.Spec.
func Of(text []byte, o Options) ([]Table, error) {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	var tree map[string]any
	if err := d.Decode(&tree); err != nil {
		return nil, err
	}
	if tree == nil {
		return nil, errors.New("a job is one object")
	}
	currency, _ := tree["currency"].(string)
	var out []Table
	for _, p := range planned {
		t := Table{Key: p.key, Sheet: p.sheet, Title: p.title, List: p.list, Form: p.form}
		all := t.all(o)
		var rows []Row
		gather(tree, steps(p.list), "", nil, func(v any, place unit.Path, parents []any) {
			rows = append(rows, t.row(all, v, place, parents, currency))
		})
		if t.Form && len(rows) == 0 {
			rows = []Row{{Cells: make([]any, len(all)), Place: unit.Path(p.list)}}
		}
		t.Fields, t.Rows = shown(p, all, rows)
		out = append(out, t)
	}
	return out, nil
}

// gather hands over every object of a list with its place and the names of what it
// belongs to.
func gather(v any, left []step, place unit.Path, parents []any, each func(any, unit.Path, []any)) {
	obj, ok := v.(map[string]any)
	if !ok {
		return
	}
	if len(left) == 0 {
		each(obj, place, parents)
		return
	}
	next, there := obj[left[0].name]
	place = place.Dot(unit.Path(left[0].name))
	list, isList := next.([]any)
	if m, ok := next.(map[string]any); ok && left[0].byName {
		for _, key := range slices.Sorted(maps.Keys(m)) {
			each(map[string]any{key: m[key]}, place.Dot(unit.Path(key)), parents)
		}
		return
	}
	switch {
	case !there || left[0].many != isList:
		return
	case !isList:
		gather(next, left[1:], place, parents, each)
		return
	}
	for i, x := range list {
		own := parents
		if len(left) > 1 {
			own = append(slices.Clone(parents), nameOf(x))
		}
		gather(x, left[1:], place.At(i), own, each)
	}
}

// nameOf gives the name, or the short name, that rows of other tables call an entry by.
func nameOf(v any) any {
	obj, _ := v.(map[string]any)
	for _, key := range []string{"id", "name"} {
		if s, ok := obj[key].(string); ok {
			return s
		}
	}
	return nil
}

// row gives the row of an entry. What its fields cannot say stands in the last one.
func (t Table) row(all []Field, v any, place unit.Path, parents []any, currency string) Row {
	r := Row{Cells: make([]any, len(all)), Place: place}
	copy(r.Cells, parents)
	obj, _ := v.(map[string]any)
	for i, f := range all {
		if f.Parent > 0 || f.Path == entire {
			continue
		}
		if strings.HasSuffix(t.List, "{}") {
			for key, x := range obj { // the one
				if r.Cells[i] = any(key); !f.Key {
					r.Cells[i] = f.cell(x, currency)
				}
			}
			continue
		}
		r.Cells[i] = f.read(obj, currency)
	}
	if strings.HasSuffix(t.List, "{}") {
		return r
	}
	said, err := t.object(all, r, currency)
	if own := t.own(obj); err != nil || len(own) == 0 && !t.Form || !reflect.DeepEqual(tidy(said), tidy(own)) {
		for i, f := range all {
			if f.Path == entire {
				r.Cells[i] = whole(t.own(obj))
			} else if f.Parent == 0 {
				r.Cells[i] = nil
			}
		}
	}
	return r
}

// own is an entry without what has a table of its own.
func (t Table) own(obj map[string]any) map[string]any {
	out := map[string]any{}
	gone := apart(t.List)
	for k, v := range obj {
		_, isText := v.(string)
		if gone[k] && !isText || t.List == "" && k == "schema" {
			continue
		}
		if m, ok := v.(map[string]any); ok {
			v = t.without(m, k, gone)
		}
		out[k] = v
	}
	return out
}

func (t Table) without(m map[string]any, path string, gone map[string]bool) map[string]any {
	out := map[string]any{}
	for k, v := range m {
		if !gone[join(path, k)] {
			out[k] = v
		}
	}
	return out
}

// tidy gives a value as another way of writing it would be read, so that the two compare
// equal: prices without needless spaces.
func tidy(v any) any {
	switch x := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, v := range x {
			out[k] = tidy(v)
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, v := range x {
			out[i] = tidy(v)
		}
		return out
	case string:
		if m := priced.FindStringSubmatch(x); m != nil {
			return strings.TrimRight(strings.TrimRight(m[1], "0"), ".") + m[2] + m[3]
		}
	}
	return v
}

// read gives the cell of a field.
func (f Field) read(obj map[string]any, currency string) any {
	at, inner, star := strings.Cut(f.Path, ".*")
	v, ok := find(obj, at)
	switch {
	case !ok:
		return nil
	case f.Kind == Shape:
		if name := shapeOf(v, f.Choices); name != "" {
			return strings.ReplaceAll(name, "_", " ")
		}
		return nil
	case star:
		form, _ := v.(map[string]any)
		measures, _ := form[shapeOf(v, nil)].(map[string]any)
		flat := true
		for _, m := range measures {
			switch x := m.(type) {
			case map[string]any:
				flat = false
			case []any:
				flat = flat && !slices.ContainsFunc(x, func(e any) bool { _, ok := e.(string); return !ok })
			}
		}
		switch {
		case inner == "" && (!flat || shapeOf(v, nil) == "photo"):
			return whole(measures)
		case inner == "" || !flat || shapeOf(v, nil) == "photo":
			return nil
		}
		if v, ok = measures[inner[1:]]; !ok {
			return nil
		}
	}
	return f.cell(v, currency)
}

// find gives what stands at a path of an object.
func find(obj map[string]any, path string) (any, bool) {
	name, rest, more := strings.Cut(path, ".")
	v, ok := obj[name]
	if !more || !ok {
		return v, ok
	}
	inner, _ := v.(map[string]any)
	return find(inner, rest)
}

// shapeOf gives the name of the shape of an outline, where it has one.
func shapeOf(v any, names []string) string {
	if names == nil {
		for _, p := range job().Defs["Form"].properties {
			if len(p.node.solid().properties) > 0 {
				names = append(names, p.name)
			}
		}
	}
	form, _ := v.(map[string]any)
	found := ""
	for _, n := range names {
		if _, ok := form[n]; ok {
			if found != "" {
				return ""
			}
			found = n
		}
	}
	return found
}

// shown leaves out fields that stand in no row and need not stand there.
func shown(p plan, all []Field, rows []Row) ([]Field, []Row) {
	var order []int
	take := func(i int) {
		if !slices.Contains(order, i) {
			order = append(order, i)
		}
	}
	for i, f := range all {
		if f.Parent > 0 || f.Key || f.Path == "value" {
			take(i)
		}
	}
	for _, path := range p.fields {
		for i, f := range all {
			if f.Path == path && f.Kind != Present {
				take(i)
			}
		}
	}
	for i := range all {
		if slices.ContainsFunc(rows, func(r Row) bool { return r.Cells[i] != nil }) {
			take(i)
		}
	}
	var fields []Field
	for _, i := range order {
		fields = append(fields, all[i])
	}
	out := make([]Row, len(rows))
	for k, r := range rows {
		out[k] = Row{Place: r.Place, Cells: make([]any, len(order))}
		for c, i := range order {
			out[k].Cells[c] = r.Cells[i]
		}
	}
	return fields, out
}
