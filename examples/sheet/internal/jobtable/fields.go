package jobtable

import (
	"slices"
	"strings"
	"sync"

	"github.com/coverwright/coverwright/unit"
)

// all gives every field that a row of the table can have.
func (t Table) all(o Options) []Field {
	if o.Metric {
		return slices.Clone(metric()[t.Key])
	}
	return slices.Clone(inch()[t.Key])
}

// The fields of all tables, by their keys.
var (
	inch   = sync.OnceValue(func() map[string][]Field { return every(Options{}) })
	metric = sync.OnceValue(func() map[string][]Field { return every(Options{Metric: true}) })
)

func every(o Options) map[string][]Field {
	out := map[string][]Field{}
	for _, p := range planned {
		out[p.key] = Table{Key: p.key, List: p.list}.catalogue(o)
	}
	return out
}

func (t Table) catalogue(o Options) []Field {
	out := t.parents()
	if strings.HasSuffix(t.List, "{}") {
		f, _ := at(strings.TrimSuffix(t.List, "{}")).values.leaf(o)
		f.Name, f.Path = "length", "value"
		return append(out, Field{Name: "measure", Key: true, Says: "The name that the measure has on the card of the kind."}, f)
	}
	c := catalogue{o: o, apart: apart(t.List), roll: plans[t.Key].roll, used: map[string]bool{}}
	for _, f := range out {
		c.used[f.Name] = true
	}
	c.object(at(t.List), "", 0)
	c.fields = append(c.fields, Field{Path: entire, Name: "as in a job file", Kind: Whole, Says: "The whole entry as a job file writes it."})
	return append(out, c.fields...)
}

// parents gives the fields that say what a row belongs to.
func (t Table) parents() []Field {
	var out []Field
	list := ""
	all := steps(t.List)
	for i, s := range all[:max(0, len(all)-1)] {
		list += s.name
		if !s.many {
			list += "."
			continue
		}
		p := parentOf(list + "[]")
		out = append(out, Field{Name: p.name, From: p.table, Parent: i + 1, Says: p.says})
		list += "[]."
	}
	return out
}

// catalogue gathers the fields of an object.
type catalogue struct {
	o      Options
	apart  map[string]bool // what has a table of its own
	roll   []string        // lengths by the roll, in yards or metres
	used   map[string]bool // names
	fields []Field
}

// deep is how deep objects lie within a row; deeper ones are texts.
const deep = 5

func (c *catalogue) object(n *node, path string, depth int) {
	for _, p := range n.solid().properties {
		at := join(path, p.name)
		if c.apart[at] && !p.node.either() || p.name == "schema" && path == "" {
			continue
		}
		d := p.node.solid()
		switch f, ok := p.node.leaf(c.o); {
		case ok && !(c.apart[at] && f.Kind == Whole):
			c.add(at, f)
		case d.name == "Form":
			c.shape(d, at)
		case ok || depth == deep:
			c.add(at, Field{Kind: Whole, Says: f.Says})
		default:
			c.add(at, Field{Kind: Present, Choices: []string{"yes"}, Says: f.Says})
			c.object(d, at, depth+1)
		}
	}
}

// either tells whether a list or an object may be a word or a number instead.
func (n *node) either() bool { return len(n.AnyOf) > 0 && n.Type == nil }

// shape gives the fields of an outline: the name of the shape, its measures, and what
// is said of any.
func (c *catalogue) shape(form *node, path string) {
	var names []string
	var measures []property
	var rest []property
	for _, p := range form.properties {
		d := p.node.solid()
		if len(d.properties) == 0 {
			rest = append(rest, p)
			continue
		}
		names = append(names, p.name)
		for _, m := range d.properties {
			f, ok := m.node.leaf(c.o)
			if ok && f.Kind != Whole && p.name != "photo" && !slices.ContainsFunc(measures, func(x property) bool { return x.name == m.name }) {
				measures = append(measures, m)
			}
		}
	}
	c.add(path, Field{Kind: Shape, Choices: names, Says: form.Description})
	for _, m := range measures {
		f, _ := m.node.leaf(c.o)
		c.add(path+".*."+m.name, f)
	}
	c.add(path+".*", Field{Kind: Whole, Says: "The measures as a job file writes them, of a traced shape for example."})
	for _, p := range rest {
		f, _ := p.node.leaf(c.o)
		c.add(path+"."+p.name, f)
	}
}

// add puts a field down; a price is two.
func (c *catalogue) add(path string, f Field) {
	f.Path, f.Name = path, c.name(path)
	f.From = source(path, f)
	if slices.Contains(c.roll, path) {
		f.Unit, f.scale = "yd", float64(unit.Yard)
		if c.o.Metric {
			f.Unit, f.scale = "m", float64(unit.Metre)
		}
	}
	c.fields = append(c.fields, f)
	if f.Kind == Price {
		per := f
		per.Kind, per.Name, per.Says = Per, f.Name+" per", "What the price is for, such as yd, sq ft or h."
		c.fields = append(c.fields, per)
	}
}

// renamed are the fields whose names in the job file say too little beside each other.
var renamed = map[string]string{"in": "inside by", "from": "starts from", "least": "least charge", "step": "price rounded up to", "class": "how well known, 5 to 1"}

// name writes a path in words, each but once.
func (c *catalogue) name(path string) string {
	if name, ok := renamed[path]; ok {
		path = name
	}
	words := strings.NewReplacer("outline", "shape", ".*", "", ".", " ", "_", " ").Replace(path)
	if strings.HasSuffix(path, ".*") {
		words += " traced"
	}
	if c.used[words] {
		words = path
	}
	c.used[words] = true
	return words
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
