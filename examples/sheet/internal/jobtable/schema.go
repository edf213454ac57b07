package jobtable

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/coverwright/coverwright/cost/job/schema"
	"github.com/coverwright/coverwright/unit"
)

// node is a part of the schema.
type node struct {
	Ref         string           `json:"$ref"`
	Type        any              `json:"type"`
	Properties  json.RawMessage  `json:"properties"`
	Items       *node            `json:"items"`
	Map         json.RawMessage  `json:"additionalProperties"`
	AnyOf       []*node          `json:"anyOf"`
	Enum        []string         `json:"enum"`
	Description string           `json:"description"`
	Defs        map[string]*node `json:"$defs"`

	name       string // of its definition
	properties []property
	values     *node // of a map
}

type property struct {
	name string
	node *node
}

// job is the schema of a job file, read once.
var job = sync.OnceValue(func() *node {
	var root node
	if err := json.Unmarshal(schema.Job(), &root); err != nil {
		return &node{}
	}
	for name, d := range root.Defs {
		d.name = name
		d.order()
	}
	root.order()
	return &root
})

// order reads the properties in the order of the schema.
func (n *node) order() {
	if len(n.Map) > 0 && n.Map[0] == '{' {
		n.values = &node{}
		json.Unmarshal(n.Map, n.values) //nolint:errcheck // part of a text that was read
	}
	if len(n.Properties) == 0 {
		return
	}
	d := json.NewDecoder(strings.NewReader(string(n.Properties)))
	d.Token() //nolint:errcheck // the bracket
	for d.More() {
		key, err := d.Token()
		name, ok := key.(string)
		p := &node{}
		if err != nil || !ok || d.Decode(p) != nil {
			return
		}
		p.order()
		n.properties = append(n.properties, property{name, p})
	}
}

// solid gives the definition that a node refers to.
func (n *node) solid() *node {
	for n.Ref != "" {
		d := job().Defs[strings.TrimPrefix(n.Ref, "#/$defs/")]
		if d == nil {
			break
		}
		n = d
	}
	return n
}

func (n *node) property(name string) *node {
	for _, p := range n.solid().properties {
		if p.name == name {
			return p.node
		}
	}
	return nil
}

// at gives the node of a list of the job, such as pieces[].panels[].
func at(list string) *node {
	n := job()
	for _, step := range steps(list) {
		if n = n.property(step.name); n == nil {
			return &node{}
		}
		for _, x := range n.AnyOf {
			if y := x.solid(); y.Type == "array" || len(y.properties) > 0 {
				n = x
			}
		}
		if step.many {
			n = n.solid().Items
		}
	}
	return n.solid()
}

// step is one name of a list: pieces of pieces[].panels[].
type step struct {
	name   string
	many   bool
	byName bool // a map
}

func steps(list string) []step {
	var out []step
	for _, s := range strings.Split(list, ".") {
		if s == "" {
			continue
		}
		name, many := strings.CutSuffix(s, "[]")
		name, byName := strings.CutSuffix(name, "{}")
		out = append(out, step{name, many, byName})
	}
	return out
}

// leaf says what a cell holds that is of a node; none for objects.
func (n *node) leaf(o Options) (f Field, ok bool) {
	d := n.solid()
	f.Says = said(n.Description, d.Description)
	numeric := func(k Kind, in, mm string, scaleIn, scaleMM float64) (Field, bool) {
		f.Kind, f.Unit, f.scale = k, in, scaleIn
		if o.Metric {
			f.Unit, f.scale = mm, scaleMM
		}
		return f, true
	}
	switch d.name {
	case "Length":
		return numeric(Size, "in", "mm", float64(unit.Inch), float64(unit.Millimetre))
	case "Area":
		return numeric(Surface, "sq ft", "sq m", float64(unit.SquareFoot), float64(unit.SquareMetre))
	case "Duration":
		return numeric(Hours, "h", "h", float64(unit.Hour), float64(unit.Hour))
	case "Ratio":
		f.Kind = Share
		return f, true
	case "Money":
		f.Kind = Amount
		return f, true
	case "GoodsPrice", "AnyPrice", "PricePerLength", "PricePerArea", "PricePerDuration", "PricePerVolume":
		f.Kind = Price
		return f, true
	case "Date":
		f.Kind = Day
		return f, true
	}
	switch {
	case len(d.AnyOf) > 0 && d.Type == nil:
		for _, x := range d.AnyOf { // the one that is no list and no object
			if g, ok := x.leaf(o); ok && g.Kind != Whole && g.Kind != List {
				g.Says = f.Says
				return g, true
			}
		}
	case len(d.Enum) > 0:
		f.Kind, f.Choices = Choice, d.Enum
		return f, true
	case d.Type == "string":
		return f, true
	case d.Type == "integer":
		f.Kind, f.scale = Count, 1
		return f, true
	case d.Type == "boolean":
		f.Kind, f.Choices = YesNo, []string{"yes", "no"}
		return f, true
	case d.Type == "array":
		f.Kind = Whole
		if x, ok := d.Items.leaf(o); ok && !slices.Contains([]Kind{Count, YesNo, List, Whole, Share}, x.Kind) {
			f.Kind = List
		}
		return f, true
	case d.values != nil:
		f.Kind = Whole
		if x, ok := d.values.leaf(o); ok && !slices.Contains([]Kind{Count, YesNo, List, Whole, Share}, x.Kind) {
			f.Kind = Pairs
		}
		return f, true
	}
	f.Kind = Whole
	return f, len(d.properties) == 0
}

// said gives what is said of a field, else of what it holds, as a sentence or two.
func said(field, of string) string {
	if field == "" {
		field = of
	}
	return goName.ReplaceAllStringFunc(strings.TrimSpace(field), func(name string) string {
		return strings.ToLower(capital.ReplaceAllString(name, " $0")[1:])
	})
}

// Names of Go in what the schema says, such as ShopRate, are those of the fields in words.
var (
	goName  = regexp.MustCompile(`\b[A-Z][a-z]+[A-Z][A-Za-z]*\b`)
	capital = regexp.MustCompile(`[A-Z]`)
)
