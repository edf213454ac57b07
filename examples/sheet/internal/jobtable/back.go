package jobtable

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// entire is the path of the field that holds an entry as the job file has it.
const entire = "*"

// Cell is a place in the tables. Row -1 is the headings, Field -1 the row.
type Cell struct {
	Table string // its key
	Row   int
	Field int
}

// Fault is a cell that means nothing in its table.
type Fault struct {
	Cell Cell
	Err  error
}

// Job is a job that was read from tables.
type Job struct {
	Text   []byte // of the job file
	tables []Table
}

// Back gives the job of tables, and what in them means nothing: what it is told of could
// not be put into the job. All else that can be wrong, the reader of the job says, by
// places that Job.Cell finds. Blank rows say nothing. It sets the places of rows.
func Back(tables []Table, o Options) (Job, []Fault) {
	b := back{tree: map[string]any{"schema": "coverwright/job/1", "goods": []any{}, "pieces": []any{}, "quote": map[string]any{}}, named: map[string]map[string]entry{}}
	for _, t := range tables {
		if t.Form && t.List == "" && len(t.Rows) > 0 {
			for i, f := range t.Fields {
				if f.Path == "currency" {
					b.currency = strings.ToUpper(wording(t.Rows[0].Cells[i]))
				}
			}
		}
	}
	for _, p := range planned {
		for k := range tables {
			if tables[k].Key == p.key {
				b.table(&tables[k])
			}
		}
	}
	text, err := json.Marshal(b.tree)
	if err != nil {
		b.faults = append(b.faults, Fault{Err: err})
	}
	return Job{Text: text, tables: tables}, b.faults
}

// entry is an object of the job and its place.
type entry struct {
	obj   map[string]any
	place unit.Path
}

type back struct {
	tree     map[string]any
	currency string
	named    map[string]map[string]entry // entries that rows belong to, by list and name
	faults   []Fault
}

func (b *back) fault(t *Table, row, field int, format string, args ...any) {
	b.faults = append(b.faults, Fault{Cell{t.Key, row, field}, fmt.Errorf(format, args...)})
}

func (b *back) table(t *Table) {
	for i := range t.Rows {
		r := &t.Rows[i]
		if r.blank(t.Fields) && !t.Form {
			r.Place = ""
			continue
		}
		into, ok := b.parent(t, i)
		if !ok {
			continue
		}
		obj, err := t.object(t.Fields, *r, b.currency)
		if err != nil {
			b.fault(t, i, -1, "%w", err)
			continue
		}
		b.put(t, i, into, obj)
	}
}

// parent finds the object that a row belongs in.
func (b *back) parent(t *Table, row int) (entry, bool) {
	into := entry{obj: b.tree}
	list := ""
	all := steps(t.List)
	for i, s := range all[:max(0, len(all)-1)] {
		if !s.many {
			inner, _ := into.obj[s.name].(map[string]any)
			if inner == nil {
				inner = map[string]any{}
				into.obj[s.name] = inner
			}
			into = entry{inner, into.place.Dot(unit.Path(s.name))}
			list += s.name + "."
			continue
		}
		list += s.name + "[]"
		if !slices.ContainsFunc(t.Fields, func(f Field) bool { return f.Parent == i+1 }) {
			b.fault(t, row, -1, "the heading %q is missing, so that nobody knows what the row belongs to", parentOf(list).name)
			return into, false
		}
		for k, f := range t.Fields {
			if f.Parent != i+1 {
				continue
			}
			name := wording(t.Rows[row].Cells[k])
			found, ok := b.named[list][name]
			switch {
			case name == "":
				b.fault(t, row, k, "the name of the %s that the row belongs to is missing", f.Name)
				return into, false
			case !ok:
				b.fault(t, row, k, "there is no %s %q", f.Name, name)
				return into, false
			}
			into = found
		}
		list += "."
	}
	return into, true
}

// put sets the object of a row into what it belongs to.
func (b *back) put(t *Table, row int, into entry, obj map[string]any) {
	r := &t.Rows[row]
	if t.List == "" {
		for k, v := range obj {
			b.tree[k] = v
		}
		return
	}
	all := steps(t.List)
	last := all[len(all)-1]
	r.Place = into.place.Dot(unit.Path(last.name))
	switch {
	case strings.HasSuffix(t.List, "{}"):
		m, _ := into.obj[last.name].(map[string]any)
		if m == nil {
			m = map[string]any{}
			into.obj[last.name] = m
		}
		for k, v := range obj { // the one
			if _, twice := m[k]; twice {
				b.fault(t, row, -1, "%q stands twice", k)
			}
			if r.Place = r.Place.Dot(unit.Path(k)); v != "" { // a name without a value asks for one
				m[k] = v
			}
		}
	case last.many:
		l, _ := into.obj[last.name].([]any)
		r.Place = r.Place.At(len(l))
		into.obj[last.name] = append(l, obj)
		if name, ok := nameOf(obj).(string); ok {
			if b.named[t.List] == nil {
				b.named[t.List] = map[string]entry{}
			}
			if _, twice := b.named[t.List][name]; twice && b.owns(t.List) {
				b.fault(t, row, nameField(t.Fields), "%q stands twice: give each a name of its own, such as %s 2", name, name)
			} else if !twice {
				b.named[t.List][name] = entry{obj, r.Place}
			}
		}
	case len(obj) > 0 || !t.Form:
		m, _ := into.obj[last.name].(map[string]any)
		if len(m) > 0 && len(all) > 1 {
			b.fault(t, row, -1, "a second row of the same %s", t.Fields[0].Name)
		}
		into.obj[last.name] = obj
	}
}

// owns tells whether rows of other tables belong to entries of a list, by their names.
func (b *back) owns(list string) bool {
	return slices.ContainsFunc(planned, func(p plan) bool { return strings.HasPrefix(p.list, list+".") })
}

// nameField is the place of the name, or the short name, among fields.
func nameField(fields []Field) int {
	return slices.IndexFunc(fields, func(f Field) bool { return f.Path == "name" || f.Path == "id" })
}

// object gives what a row says.
func (t Table) object(fields []Field, r Row, currency string) (map[string]any, error) {
	out := map[string]any{}
	for i, f := range fields {
		if f.Path == entire && i < len(r.Cells) && r.Cells[i] != nil {
			m, ok := parsed(wording(r.Cells[i])).(map[string]any)
			if !ok {
				return nil, errors.New("this is no object of a job file")
			}
			out = m
		}
	}
	if strings.HasSuffix(t.List, "{}") {
		return t.pair(fields, r, currency)
	}
	for i, f := range fields {
		if i >= len(r.Cells) || r.Cells[i] == nil || r.Cells[i] == "" || f.Parent > 0 || f.Path == entire || f.Kind == Per {
			continue
		}
		v := f.back(r.Cells[i], currency)
		if f.Kind == Price {
			v = price(f, fields, r, currency)
		}
		if f.Kind == Shape || v == nil {
			continue // its measures put it down; there is nothing
		}
		if err := set(out, t.path(f, fields, r), v); err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name, err)
		}
	}
	for i, f := range fields { // a shape without a measure is still there
		if f.Kind == Shape && i < len(r.Cells) && wording(r.Cells[i]) != "" {
			at := f.Path + "." + shapeName(r.Cells[i])
			if _, there := find(out, at); !there {
				if err := set(out, at, map[string]any{}); err != nil {
					return nil, err
				}
			}
		}
	}
	return out, nil
}

func shapeName(v any) string { return strings.ReplaceAll(wording(v), " ", "_") }

// pair gives an entry of a map.
func (t Table) pair(fields []Field, r Row, currency string) (map[string]any, error) {
	key, out := "", map[string]any{}
	for i, f := range fields {
		if f.Key {
			key = wording(r.Cells[i])
		}
	}
	if key == "" {
		return nil, errors.New("the name of the measure is missing")
	}
	for i, f := range fields {
		if f.Path == "value" {
			out[key] = f.back(r.Cells[i], currency)
		}
	}
	return out, nil
}

// price puts the two cells of a price together.
func price(f Field, fields []Field, r Row, currency string) any {
	x, ok := r.Cells[index(fields, f)].(float64)
	if !ok {
		return wording(r.Cells[index(fields, f)])
	}
	per := ""
	for i, g := range fields {
		if g.Kind == Per && g.Path == f.Path {
			per = wording(r.Cells[i])
		}
	}
	return Field{Kind: Amount}.money(x, currency) + "/" + per
}

func index(fields []Field, f Field) int {
	for i, g := range fields {
		if g.Path == f.Path && g.Kind == f.Kind {
			return i
		}
	}
	return 0
}

// path gives the path of a field in a row, with the shape of the row for the star.
func (t Table) path(f Field, fields []Field, r Row) string {
	at, inner, star := strings.Cut(f.Path, ".*")
	if !star {
		return f.Path
	}
	for i, g := range fields {
		if g.Kind == Shape && g.Path == at && i < len(r.Cells) && wording(r.Cells[i]) != "" {
			return at + "." + shapeName(r.Cells[i]) + inner
		}
	}
	return at + ".rectangle" + inner
}

// set puts a value at a path of an object.
func set(obj map[string]any, path string, v any) error {
	name, rest, more := strings.Cut(path, ".")
	if !more {
		if m, ok := obj[name].(map[string]any); ok {
			if given, isObject := v.(map[string]any); isObject {
				for k, x := range given {
					m[k] = x
				}
				return nil
			}
			return errors.New("says what other fields say too")
		}
		obj[name] = v
		return nil
	}
	inner, ok := obj[name].(map[string]any)
	if !ok {
		if _, there := obj[name]; there {
			return errors.New("says what other fields say too")
		}
		inner = map[string]any{}
		obj[name] = inner
	}
	return set(inner, rest, v)
}

// Cell finds the cell of a place of the job, or the nearest one to it.
func (j Job) Cell(place unit.Path) Cell {
	best, at := -1, Cell{Table: "job", Row: -1, Field: -1}
	try := func(p unit.Path, c Cell) {
		if place.Under(p) && len(p) > best {
			best, at = len(p), c
		}
	}
	for _, t := range j.tables {
		if list := strings.TrimSuffix(t.List, "[]"); list != t.List && !strings.Contains(list, "[]") {
			try(unit.Path(list), Cell{t.Key, -1, -1})
		}
		for i, r := range t.Rows {
			if r.Place == "" && t.List != "" || !place.Under(r.Place) {
				continue
			}
			if t.List != "" || best < 0 {
				try(r.Place, Cell{t.Key, i, -1})
			}
			for k, f := range t.Fields {
				switch {
				case f.Parent > 0 || f.Path == entire || f.Kind == Per:
				case f.Key:
				case f.Path == "value":
					if place.Under(r.Place) && len(r.Place) >= best {
						best, at = len(r.Place), Cell{t.Key, i, k}
					}
				default:
					try(r.Place.Dot(unit.Path(strings.TrimSuffix(t.path(f, t.Fields, r), ".*"))), Cell{t.Key, i, k})
				}
			}
		}
	}
	return at
}
