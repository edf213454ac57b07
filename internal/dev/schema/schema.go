// Package schema writes the JSON Schemas (draft 2020-12) of the job file and
// of the work order from the Go types that read and write them, and describes
// the job file in Markdown. Descriptions are the doc comments of the types and
// fields.
package schema

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

const draft = "https://json-schema.org/draft/2020-12/schema"

// Files gives the schemas by file name.
func Files() (map[string][]byte, error) {
	docs, err := loadDocs()
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{}
	for _, f := range []struct {
		name, id, title string
		root            reflect.Type
		reads           bool
	}{
		{"job-1.schema.json", string(job.SpecSchema), "coverwright job file", reflect.TypeFor[job.Spec](), true},
		{"shop-1.schema.json", string(job.ShopSchema), "coverwright shop file", reflect.TypeFor[job.Shop](), true},
		{"work-order-2.schema.json", string(job.OrderSchema), "coverwright work order", reflect.TypeFor[job.WorkOrder](), false},
	} {
		g := &generator{docs: docs, reads: f.reads, schemaID: f.id, defs: map[string]*object{}, names: map[reflect.Type]string{}, parts: partsOf(f.root)}
		root, err := g.structure(f.root)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.name, err)
		}
		top := newObject()
		top.set("$schema", draft)
		top.set("$id", "urn:coverwright:"+strings.ReplaceAll(strings.TrimPrefix(f.id, "coverwright/"), "/", ":"))
		top.set("title", f.title)
		top.merge(root)
		top.set("$defs", g.sortedDefs())
		var b bytes.Buffer
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(top); err != nil {
			return nil, err
		}
		out[f.name] = b.Bytes()
	}
	return out, nil
}

type generator struct {
	docs     docs
	reads    bool // of a file that is read, strictly
	schemaID string
	defs     map[string]*object
	names    map[reflect.Type]string
	parts    map[reflect.Type]string
}

var (
	textReader = reflect.TypeFor[encoding.TextUnmarshaler]()
	textWriter = reflect.TypeFor[encoding.TextMarshaler]()
	jsonWriter = reflect.TypeFor[json.Marshaler]()
	outline    = reflect.TypeFor[shape.Outline]()
	foamList   = reflect.TypeFor[job.FoamList]()
	buildSpec  = reflect.TypeFor[build.Spec]()
	priceList  = reflect.TypeFor[cost.PriceList]()
)

// value gives the schema of a type where it is used.
func (g *generator) value(t reflect.Type) (*object, error) {
	if t.Kind() == reflect.Pointer {
		return g.value(t.Elem())
	}
	if t == outline {
		return g.value(reflect.TypeFor[shape.Form]())
	}
	if t == foamList { // blocks, or a thickness
		return g.either(reflect.TypeFor[[]job.FoamSpec](), reflect.TypeFor[unit.Length]())
	}
	if t == buildSpec { // all of it, or the way of the kind
		whole, err := g.named(t, func() (*object, error) { return g.structure(t) })
		if err != nil {
			return nil, err
		}
		o := newObject()
		o.set("anyOf", []*object{ofType("string"), whole})
		return o, nil
	}
	if t == priceList {
		return g.value(reflect.TypeFor[[]cost.Entry]())
	}
	if t == reflect.TypeFor[thread.Flags]() {
		o := ofType("array")
		o.set("items", ofType("string"))
		return o, nil
	}
	if strings.HasPrefix(t.Name(), "Cell[") && t.PkgPath() == module+"/thread" {
		// {"value": ..., "basis": ...} or {"gap": "why"}
		return g.named(t, func() (*object, error) { return ofType("object"), nil })
	}
	if g.isText(t) {
		return g.named(t, func() (*object, error) { return g.text(t) })
	}
	if t.Implements(jsonWriter) || reflect.PointerTo(t).Implements(jsonWriter) {
		return nil, fmt.Errorf("%v writes JSON of its own; say what", t)
	}
	switch t.Kind() {
	case reflect.Struct:
		return g.named(t, func() (*object, error) { return g.structure(t) })
	case reflect.Slice:
		items, err := g.value(t.Elem())
		if err != nil {
			return nil, err
		}
		o := ofType("array")
		if !g.reads {
			o.set("type", []string{"array", "null"})
		}
		o.set("items", items)
		return o, nil
	case reflect.Map:
		items, err := g.value(t.Elem())
		if err != nil {
			return nil, err
		}
		o := ofType("object")
		o.set("additionalProperties", items)
		return o, nil
	case reflect.String:
		return ofType("string"), nil
	case reflect.Bool:
		return ofType("boolean"), nil
	case reflect.Int, reflect.Int64, reflect.Uint8, reflect.Uint16, reflect.Uint64:
		return ofType("integer"), nil
	case reflect.Float64:
		return ofType("number"), nil
	}
	return nil, fmt.Errorf("no schema for %v", t)
}

// either gives the schema of a value of one of some types.
func (g *generator) either(types ...reflect.Type) (*object, error) {
	o := newObject()
	kinds := make([]*object, len(types))
	for i, t := range types {
		var err error
		if kinds[i], err = g.value(t); err != nil {
			return nil, err
		}
	}
	o.set("anyOf", kinds)
	return o, nil
}

func (g *generator) isText(t reflect.Type) bool {
	return reflect.PointerTo(t).Implements(textReader) || t.Implements(textWriter)
}

// named puts a schema among the definitions and refers to it.
func (g *generator) named(t reflect.Type, schema func() (*object, error)) (*object, error) {
	name, ok := g.names[t]
	if !ok {
		name = g.defName(t)
		g.names[t] = name
		g.defs[name] = newObject() // in case it refers to itself
		o, err := schema()
		if err != nil {
			return nil, err
		}
		g.defs[name].merge(o)
	}
	ref := newObject()
	ref.set("$ref", "#/$defs/"+name)
	return ref, nil
}

// defName is the name of the type, with its package where two share it.
func (g *generator) defName(t reflect.Type) string {
	name := t.Name()
	if i := strings.IndexByte(name, '['); i >= 0 { // cost.Price[unit.Length]
		arg := name[i+1 : len(name)-1]
		name = name[:i] + "Per" + arg[strings.LastIndexByte(arg, '.')+1:]
	}
	if _, taken := g.defs[name]; !taken {
		return name
	}
	path := t.PkgPath()
	return path[strings.LastIndexByte(path, '/')+1:] + name
}

// structure gives the schema of a struct: its fields in order, none beside them.
func (g *generator) structure(t reflect.Type) (*object, error) {
	o := newObject()
	if d := g.docs.of(t); d != "" {
		o.set("description", d)
	}
	o.set("type", "object")
	props := newObject()
	var required []string
	if err := g.fields(t, props, &required); err != nil {
		return nil, err
	}
	o.set("properties", props)
	if len(required) > 0 {
		o.set("required", required)
	}
	o.set("additionalProperties", false)
	if by, part := g.parts[t]; part { // the rest may be in the job
		if o.set("required", []string{by}); by == "" {
			o.drop("required")
		}
	} else if extra := constraints[t]; extra != nil {
		extra(o)
	}
	return o, nil
}

func (g *generator) fields(t reflect.Type, props *object, required *[]string) error {
	for i := range t.NumField() {
		f := t.Field(i)
		tag, tagged := f.Tag.Lookup("json")
		name, opts, _ := strings.Cut(tag, ",")
		if name == "-" || !f.IsExported() {
			continue
		}
		if f.Anonymous && !tagged {
			if err := g.fields(f.Type, props, required); err != nil {
				return err
			}
			continue
		}
		if name == "" {
			if g.reads {
				continue
			}
			name = f.Name
		}
		v, err := g.value(f.Type)
		if err != nil {
			return fmt.Errorf("%v.%s: %w", t, f.Name, err)
		}
		if d := g.docs.field(t, f.Name); d != "" {
			v.set("description", d)
		} else if h := f.Tag.Get("hint"); h != "" {
			v.set("description", sentence(h))
		}
		if name == "schema" && slices.Contains([]reflect.Type{reflect.TypeFor[job.Spec](), reflect.TypeFor[job.Shop](), reflect.TypeFor[job.WorkOrder]()}, t) {
			v = newObject()
			v.set("const", g.schemaID)
		}
		if names := kindsOf(t, name); len(names) > 0 {
			v.set("enum", names)
		}
		if least := f.Tag.Get("least"); least != "" {
			v.set("minimum", json.Number(least))
		}
		props.set(name, v)
		must := f.Tag.Get("required") == "true"
		if !g.reads {
			must = !strings.Contains(opts, "omit")
		}
		if must {
			*required = append(*required, name)
		}
	}
	return nil
}

// kindsOf lists the kinds of furniture for the field that names one.
func kindsOf(t reflect.Type, field string) []string {
	if t != reflect.TypeFor[job.KindSpec]() || field != "from" {
		return nil
	}
	var names []string
	for _, k := range kind.All() {
		names = append(names, k.Name)
	}
	return names
}

func (g *generator) sortedDefs() *object {
	out := newObject()
	for _, name := range slices.Sorted(maps.Keys(g.defs)) {
		out.set(name, g.defs[name])
	}
	return out
}

func ofType(name string) *object {
	o := newObject()
	o.set("type", name)
	return o
}

func sentence(s string) string { return capital(s) + "." }
