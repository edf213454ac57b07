package strictjson

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
)

// Joins says how one document lies over another. Paths are those of both, the
// entries of a list having that of the list.
type Joins struct {
	// By names lists whose entries are joined by one of their fields, such as goods
	// by id. Other lists take the place of what lies beneath.
	By map[unit.Path]string
	// Instead lists fields of an object of which one is given: what the upper
	// document has of them takes the place of all that the lower one has.
	Instead map[unit.Path][][]string
	// Apart are fields that the lower document has for itself.
	Apart []unit.Path
	// Take tells whether an entry of a joined list is wanted that only the lower
	// document has.
	Take func(list unit.Path, key string) bool
}

// home is the place of a node that a merged document has from another, or at
// another place.
type home struct {
	in   *file
	path unit.Path
}

// Named gives the document with a name that its faults bear.
func (d *Document) Named(name string) *Document {
	return &Document{root: d.root, file: &file{name: name, lines: d.lines}}
}

// Over gives the document with that of base beneath: what d has holds, down to
// fields of objects, and what it has not is that of base. Faults of either lie
// where it stands in its own file.
func (d *Document) Over(base *Document, j Joins) *Document {
	return &Document{root: j.over(d.root, base.root.from(home{in: base.file}), ""), file: d.file}
}

// from gives a node with its place, which it may have already.
func (n node) from(h home) node {
	if n.home == nil {
		n.home = &h
	}
	return n
}

// over lays a node over one that has its home; at is the path of both for the
// rules.
func (j Joins) over(upper, lower node, at unit.Path) node {
	switch u := upper.value.(type) {
	case *object:
		if l, ok := lower.value.(*object); ok {
			upper.value = j.objects(u, l, *lower.home, at)
		}
	case []node:
		l, ok := lower.value.([]node)
		if key := j.By[at]; ok && key != "" && len(u) > 0 {
			upper.value = j.lists(u, l, *lower.home, at)
		}
	}
	return upper
}

func (j Joins) objects(upper, lower *object, from home, at unit.Path) *object {
	out := &object{names: slices.Clone(upper.names), fields: map[string]node{}, twice: upper.twice}
	for _, name := range upper.names {
		out.fields[name] = upper.fields[name]
	}
	for _, name := range lower.names {
		here := at.Dot(unit.Path(name))
		n := lower.fields[name].from(home{from.in, from.path.Dot(unit.Path(name))})
		switch own, given := upper.fields[name]; {
		case slices.Contains(j.Apart, here):
		case given:
			out.fields[name] = j.over(own, n, here)
		case !j.instead(at, name, upper):
			if list, ok := n.value.([]node); ok && j.By[here] != "" {
				n.value = j.lists(nil, list, *n.home, here)
			}
			out.names = append(out.names, name)
			out.fields[name] = n
		}
	}
	return out
}

// instead tells whether the upper object has another field in the place of one.
func (j Joins) instead(at unit.Path, name string, upper *object) bool {
	for _, group := range j.Instead[at] {
		if slices.Contains(group, name) && slices.ContainsFunc(group, func(other string) bool { _, given := upper.fields[other]; return given }) {
			return true
		}
	}
	return false
}

// lists gives the entries of the upper list, each over that of the lower one with
// its key, and then those that are wanted of the lower one.
func (j Joins) lists(upper, lower []node, from home, at unit.Path) []node {
	key := func(n node) (string, bool) {
		o, _ := n.value.(*object)
		if o == nil {
			return "", false
		}
		s, ok := o.fields[j.By[at]].value.(string)
		return s, ok
	}
	out := slices.Clone(upper)
	place := map[string]int{}
	for i, n := range upper {
		if k, ok := key(n); ok {
			place[k] = i
		}
	}
	for i, n := range lower {
		n = n.from(home{from.in, from.path.At(i)})
		k, ok := key(n)
		switch own, given := place[k]; {
		case ok && given:
			out[own] = j.over(out[own], n, at)
		case !ok || j.Take == nil || j.Take(at, k):
			out = append(out, n)
		}
	}
	return out
}

// Text gives a text of the root.
func (d *Document) Text(name string) (string, bool) {
	o, _ := d.root.value.(*object)
	if o == nil {
		return "", false
	}
	s, ok := o.fields[name].value.(string)
	return s, ok
}

// Texts gives every text in some fields of the root, but for those in fields named
// so.
func (d *Document) Texts(but string, in ...string) map[string]bool {
	out := map[string]bool{}
	var walk func(n node)
	walk = func(n node) {
		switch v := n.value.(type) {
		case string:
			out[v] = true
		case []node:
			for _, x := range v {
				walk(x)
			}
		case *object:
			for name, x := range v.fields {
				if name != but {
					walk(x)
				}
			}
		}
	}
	if root, ok := d.root.value.(*object); ok {
		for _, name := range in {
			walk(root.fields[name])
		}
	}
	return out
}
