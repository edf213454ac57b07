package strictjson

import (
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Decode fills v, a pointer to a struct, and returns every fault found as
// Faults, or nil.
func (d *Document) Decode(v any) error { return d.decode(v, nil) }

// DecodePart does so for a document that another is laid over by some rules:
// fields of objects need not be there yet, but for those of the root, of entries of
// lists that are not joined, and what entries are joined by.
func (d *Document) DecodePart(v any, j Joins) error { return d.decode(v, j.By) }

func (d *Document) decode(v any, part map[unit.Path]string) error {
	w := &walker{doc: d, part: part}
	w.value(d.root, reflect.ValueOf(v).Elem(), "")
	return w.result()
}

// Locate puts line numbers to errors found after decoding. Each error that
// wraps an *unit.InputError gets the line of the deepest field of its path
// that stands in the file. It returns Faults in the order of the file, or nil.
func (d *Document) Locate(errs []error) error {
	w := &walker{}
	for _, err := range flat(errs) {
		if w.full() {
			break
		}
		w.faults = append(w.faults, d.Place(err))
	}
	return w.result()
}

// Place gives one such error with its line. Its field is then that of the file that
// it lies in.
func (d *Document) Place(err error) *Fault {
	f, _ := d.place(err)
	return f
}

func (d *Document) place(err error) (*Fault, *file) {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return &Fault{Err: err}, d.file
	}
	n, at := d.root.find(in.Field, home{in: d.file})
	if at.path != in.Field {
		err = input(at.path, in.Value, in.Err, in.Want)
	}
	return &Fault{File: at.in.name, Line: at.in.line(n.offset), Err: err}, at.in
}

// flat takes joined errors apart and drops nil.
func flat(errs []error) []error {
	var out []error
	for _, err := range errs {
		switch e := err.(type) { //nolint:errorlint // only the outermost may be a join
		case nil:
		case interface{ Unwrap() []error }:
			out = append(out, flat(e.Unwrap())...)
		default:
			out = append(out, err)
		}
	}
	return out
}

// find gives the deepest node on the path from n that there is, its file, and the
// path in that. A field that no file has, and that is in no list, is missed in the
// file of n.
func (n node) find(path unit.Path, at home) (node, home) {
	own, missed, listed := n, home{at.in, at.path.Dot(path)}, false
	for {
		if n.home == nil && !listed {
			own = n
		}
		if n.home != nil {
			at = *n.home
		}
		name, i, indexed, rest := path.Head()
		next, there := n, true
		if name != "" {
			o, _ := n.value.(*object)
			if there = o != nil; there {
				next, there = o.fields[name]
			}
		} else if list, _ := n.value.([]node); indexed && i < len(list) {
			next = list[i]
		} else {
			there = false
		}
		if !there && path != "" && !listed {
			return own, missed
		}
		if !there {
			at.path = at.path.Dot(path)
			return n, at
		}
		if name != "" {
			at.path = at.path.Dot(unit.Path(name))
			if indexed {
				rest = unit.Path("").At(i).Dot(rest)
			}
		} else {
			at.path, listed = at.path.At(i), true
		}
		n, path = next, rest
	}
}

type walker struct {
	doc    *Document
	part   map[unit.Path]string // of a part of a document: lists that are joined, and by what
	faults Faults
	more   bool // faults beyond the limit were dropped
}

func (w *walker) result() error {
	if len(w.faults) == 0 {
		return nil
	}
	w.faults.Sort()
	if w.more {
		w.faults = append(w.faults, &Fault{Err: input("", "", ErrMoreFaults, fmt.Sprintf("the first %d put right", maxFaults))})
	}
	return w.faults
}

func (w *walker) full() bool {
	w.more = w.more || len(w.faults) >= maxFaults
	return w.more
}

func (w *walker) fail(offset int64, err error) {
	if w.full() {
		return
	}
	f, in := w.doc.place(err)
	f.Line = in.line(offset)
	w.faults = append(w.faults, f)
}

func (w *walker) value(n node, v reflect.Value, path unit.Path) {
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	if u, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		if !eitherWay(n, v) {
			w.text(n, u, path)
			return
		}
	} else if u, ok := v.Addr().Interface().(json.Unmarshaler); ok && v.Kind() == reflect.Struct {
		w.own(n, u, path)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		w.object(n, v, path)
	case reflect.Slice:
		list, ok := n.value.([]node)
		if !ok {
			w.wrong(n, path, "a list")
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), len(list), len(list)))
		part := w.part
		if part[path] == "" {
			w.part = nil
		}
		for i := range list {
			w.value(list[i], v.Index(i), path.At(i))
		}
		w.part = part
	case reflect.Map:
		o, ok := n.value.(*object)
		if !ok {
			w.wrong(n, path, "an object in { }")
			return
		}
		for _, t := range o.twice {
			w.fail(t.offset, input(path.Dot(unit.Path(t.name)), "", ErrTwice, "each name once"))
		}
		v.Set(reflect.MakeMapWithSize(v.Type(), len(o.names)))
		for _, name := range o.names {
			e := reflect.New(v.Type().Elem()).Elem()
			w.value(o.fields[name], e, path.Dot(unit.Path(name)))
			v.SetMapIndex(reflect.ValueOf(name).Convert(v.Type().Key()), e)
		}
	case reflect.String:
		s, ok := n.value.(string)
		if !ok {
			w.wrong(n, path, "text in quotes")
			return
		}
		v.SetString(s)
	case reflect.Bool:
		b, ok := n.value.(bool)
		if !ok {
			w.wrong(n, path, "true or false")
			return
		}
		v.SetBool(b)
	case reflect.Int, reflect.Uint16:
		num, ok := n.value.(json.Number)
		i, err := strconv.ParseInt(string(num), 10, 64)
		if !ok || err != nil || v.Kind() == reflect.Int && v.OverflowInt(i) || v.Kind() != reflect.Int && (i < 0 || v.OverflowUint(uint64(i))) {
			w.wrong(n, path, "a whole number")
			return
		}
		if v.Kind() == reflect.Int {
			v.SetInt(i)
		} else {
			v.SetUint(uint64(i))
		}
	default:
		panic("strictjson: cannot read into " + v.Type().String()) // a mistake of the program, not of the file
	}
}

// eitherWay tells whether a list or an object stands where a text may stand too: in
// a list type or a struct that reads JSON of its own.
func eitherWay(n node, v reflect.Value) bool {
	_, list := n.value.([]node)
	_, object := n.value.(*object)
	_, own := v.Addr().Interface().(json.Unmarshaler)
	return own && (list && v.Kind() == reflect.Slice || object && v.Kind() == reflect.Struct && v.NumField() > 0 && v.Type().Field(0).IsExported())
}

func (w *walker) text(n node, u encoding.TextUnmarshaler, path unit.Path) {
	s, ok := n.value.(string)
	if num, isNum := n.value.(json.Number); isNum {
		// A number without quotes may be a plain ratio; a length says that
		// its unit is missing, which is the better error.
		s, ok = string(num), true
	}
	if !ok {
		w.wrong(n, path, "text in quotes")
		return
	}
	if err := u.UnmarshalText([]byte(s)); err != nil {
		// The path of the file counts, not the parts a text type is made of.
		var in *unit.InputError
		if errors.As(err, &in) {
			err = input(path, in.Value, in.Err, in.Want)
		} else {
			err = input(path, s, err, "")
		}
		w.fail(n.offset, err)
	}
}

func (w *walker) object(n node, v reflect.Value, path unit.Path) {
	o, ok := n.value.(*object)
	if !ok {
		w.wrong(n, path, "an object in { }")
		return
	}
	for _, t := range o.twice {
		w.fail(t.offset, input(path.Dot(unit.Path(t.name)), "", ErrTwice, "each field once"))
	}
	known := fieldsOf(v.Type())
	for _, name := range o.names {
		i := slices.IndexFunc(known, func(f field) bool { return f.name == name })
		if i < 0 {
			if w.full() {
				return
			}
			names := make([]string, len(known))
			for k, f := range known {
				names[k] = f.name
			}
			w.fail(o.fields[name].offset, input(path.Dot(unit.Path(name)), "", ErrUnknownField, "one of "+strings.Join(names, ", ")))
			continue
		}
		before := len(w.faults)
		w.value(o.fields[name], v.FieldByIndex(known[i].index), path.Dot(unit.Path(name)))
		// A number that could not be read is not too small as well.
		if n := v.FieldByIndex(known[i].index); len(w.faults) == before && known[i].least != 0 && n.Int() < known[i].least {
			w.fail(o.fields[name].offset, input(path.Dot(unit.Path(name)), strconv.FormatInt(n.Int(), 10), unit.ErrRange,
				"a whole number from "+strconv.FormatInt(known[i].least, 10)))
		}
	}
	for _, f := range known {
		if _, given := o.fields[f.name]; f.required && !given && !w.later(path, f.name) {
			w.fail(n.offset, input(path.Dot(unit.Path(f.name)), "", unit.ErrRequired, f.hint))
		}
	}
}

// later tells whether a field may still come from the document above.
func (w *walker) later(path unit.Path, field string) bool {
	list, _, _ := strings.Cut(string(path), "[")
	return w.part != nil && path != "" && w.part[unit.Path(list)] != field
}

func (w *walker) wrong(n node, path unit.Path, want string) {
	w.fail(n.offset, input(path, describe(n.value), ErrWrongType, want))
}

func describe(v any) string {
	switch v := v.(type) {
	case nil:
		return "null"
	case string:
		return v
	case json.Number:
		return string(v)
	case bool:
		return strconv.FormatBool(v)
	case []node:
		return "a list"
	}
	return "an object"
}

type field struct {
	name     string
	index    []int
	required bool
	hint     string
	least    int64 // of a whole number that is given; 0 for none
}

func fieldsOf(t reflect.Type) []field {
	var out []field
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Anonymous && name == "" && f.Type.Kind() == reflect.Struct { // its fields are those of t
			for _, inner := range fieldsOf(f.Type) {
				inner.index = append([]int{i}, inner.index...)
				out = append(out, inner)
			}
			continue
		}
		if name == "" || name == "-" {
			continue
		}
		tag := f.Tag
		least, _ := strconv.ParseInt(tag.Get("least"), 10, 64) //nolint:errcheck // 0 without the tag
		out = append(out, field{name, []int{i}, tag.Get("required") == "true", tag.Get("hint"), least})
	}
	return out
}
