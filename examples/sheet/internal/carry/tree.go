package carry

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// node is an element of a part, a text (without a name) or a remark (named "!").
type node struct {
	name  string // with its prefix
	attrs []attr
	kids  []*node
	text  string
}

type attr struct{ name, value string }

// budget bounds what is held in memory of all parts together.
type budget struct{ bytes, units int }

func (b *budget) take(units int) error {
	if b.units -= units; b.units < 0 {
		return tooLarge("the sheets of the program have more than %d elements", mostUnits)
	}
	return nil
}

func (b *budget) spend(bytes int) error {
	if b.bytes -= bytes; b.bytes < 0 {
		return tooLarge("it unpacks to more than %d MiB", mostRead>>20)
	}
	return nil
}

// parse reads a part. Its main namespace loses its prefix, so that elements are found by
// plain names. A lenient part may have <br> without an end, as drawings of notes do.
func parse(part string, data []byte, b *budget, lenient bool) (*node, error) {
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = !lenient
	var root *node
	var open []*node
	for {
		t, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, damaged("%s: %v", part, err)
		}
		if err := b.take(1); err != nil {
			return nil, err
		}
		switch x := t.(type) {
		case xml.StartElement:
			n := &node{name: full(x.Name)}
			if err := n.take(x.Attr, b); err != nil {
				return nil, fmt.Errorf("%s: %w", part, err)
			}
			switch {
			case len(open) == mostDepth:
				return nil, tooLarge("%s: elements lie more than %d deep", part, mostDepth)
			case len(open) > 0:
				open[len(open)-1].add(n)
			case root != nil:
				return nil, damaged("%s: it has two roots", part)
			default:
				root = n
			}
			open = append(open, n)
		case xml.EndElement:
			if lenient {
				open = closeBreaks(open, full(x.Name))
			}
			if len(open) == 0 || open[len(open)-1].name != full(x.Name) {
				return nil, damaged("%s: an element ends that was not begun", part)
			}
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].add(&node{text: string(x)})
			}
		case xml.Comment:
			if len(open) > 0 {
				open[len(open)-1].add(&node{name: "!", text: string(x)})
			}
		case xml.Directive:
			return nil, damaged("%s: it has a document type", part)
		}
	}
	if root == nil || len(open) > 0 {
		return nil, damaged("%s: it ends too early", part)
	}
	return root, root.plain(part)
}

// closeBreaks ends line breaks that were left open; what stands in them comes after them.
func closeBreaks(open []*node, end string) []*node {
	for len(open) > 1 && open[len(open)-1].name == "br" && end != "br" {
		br, parent := open[len(open)-1], open[len(open)-2]
		parent.kids = append(parent.kids, br.kids...)
		br.kids = nil
		open = open[:len(open)-1]
	}
	return open
}

func (n *node) take(attrs []xml.Attr, b *budget) error {
	if err := b.take(len(attrs)); err != nil {
		return err
	}
	if len(attrs) > 300 {
		return tooLarge("an element has more than 300 attributes")
	}
	for _, a := range attrs {
		name := full(a.Name)
		if _, twice := n.find(name); twice {
			return damaged("the attribute %.50q stands in an element twice", name)
		}
		n.attrs = append(n.attrs, attr{name, a.Value})
	}
	return nil
}

// plain takes the prefix of the root off all names that have it.
func (n *node) plain(part string) error {
	prefix, _, ok := strings.Cut(n.name, ":")
	if !ok || strings.HasPrefix(n.name, "xml:") || n.name == "!" || strings.HasSuffix(strings.ToLower(part), ".vml") {
		return nil
	}
	if _, some := n.find("xmlns"); some {
		return damaged("%s: its root has a prefix and a namespace besides", part)
	}
	if i := slices.IndexFunc(n.attrs, func(a attr) bool { return a.name == "xmlns:"+prefix }); i >= 0 {
		n.attrs[i].name = "xmlns"
	}
	n.walk(func(x *node) {
		if rest, ok := strings.CutPrefix(x.name, prefix+":"); ok {
			x.name = rest
		}
	})
	return nil
}

func full(n xml.Name) string {
	if n.Space == "" {
		return n.Local
	}
	return n.Space + ":" + n.Local
}

// local gives a name without its prefix.
func local(name string) string { return name[strings.IndexByte(name, ':')+1:] }

func (n *node) add(kids ...*node) { n.kids = append(n.kids, kids...) }

func (n *node) walk(each func(*node)) {
	each(n)
	for _, k := range n.kids {
		k.walk(each)
	}
}

func (n *node) find(name string) (string, bool) {
	if n == nil {
		return "", false
	}
	for _, a := range n.attrs {
		if a.name == name {
			return a.value, true
		}
	}
	return "", false
}

// attr gives an attribute, or nothing.
func (n *node) attr(name string) string {
	v, _ := n.find(name)
	return v
}

// rel gives the id of a relation, whatever its prefix.
func (n *node) rel() string {
	if n == nil {
		return ""
	}
	for _, a := range n.attrs {
		if strings.HasSuffix(a.name, ":id") {
			return a.value
		}
	}
	return ""
}

func (n *node) set(name, value string) {
	for i := range n.attrs {
		if n.attrs[i].name == name {
			n.attrs[i].value = value
			return
		}
	}
	n.attrs = append(n.attrs, attr{name, value})
}

func (n *node) unset(names ...string) {
	n.attrs = slices.DeleteFunc(n.attrs, func(a attr) bool { return slices.Contains(names, a.name) })
}

// child gives the first child of a name, or nil.
func (n *node) child(name string) *node {
	if n == nil {
		return nil
	}
	for _, k := range n.kids {
		if k.name == name {
			return k
		}
	}
	return nil
}

// all gives the children of a name.
func (n *node) all(name string) []*node {
	if n == nil {
		return nil
	}
	var out []*node
	for _, k := range n.kids {
		if k.name == name {
			out = append(out, k)
		}
	}
	return out
}

func (n *node) drop(gone func(*node) bool) { n.kids = slices.DeleteFunc(n.kids, gone) }

// words gives all text in it.
func (n *node) words() string {
	if n == nil {
		return ""
	}
	if n.name == "" {
		return n.text
	}
	if n.name == "!" {
		return ""
	}
	if len(n.kids) == 1 {
		return n.kids[0].words()
	}
	var b strings.Builder
	for _, k := range n.kids {
		b.WriteString(k.words())
	}
	return b.String()
}

// clone copies a tree.
func (n *node) clone() *node {
	c := &node{name: n.name, text: n.text, attrs: slices.Clone(n.attrs)}
	for _, k := range n.kids {
		c.add(k.clone())
	}
	return c
}

// tag copies an element without what is in it.
func (n *node) tag() *node { return &node{name: n.name, attrs: slices.Clone(n.attrs)} }

func element(name string, attrs ...string) *node {
	n := &node{name: name}
	for i := 0; i+1 < len(attrs); i += 2 {
		n.attrs = append(n.attrs, attr{attrs[i], attrs[i+1]})
	}
	return n
}

// bytes writes the part.
func (n *node) bytes() []byte {
	var b bytes.Buffer
	b.WriteString(xml.Header)
	n.write(&b)
	return b.Bytes()
}

func (n *node) write(b *bytes.Buffer) {
	switch n.name {
	case "":
		escape(b, n.text, false)
		return
	case "!":
		b.WriteString("<!--" + n.text + "-->")
		return
	}
	b.WriteString("<" + n.name)
	for _, a := range n.attrs {
		b.WriteString(" " + a.name + `="`)
		escape(b, a.value, true)
		b.WriteByte('"')
	}
	if len(n.kids) == 0 {
		b.WriteString("/>")
		return
	}
	b.WriteByte('>')
	for _, k := range n.kids {
		k.write(b)
	}
	b.WriteString("</" + n.name + ">")
}

// escape writes a text so that a reader takes it for the same.
func escape(b *bytes.Buffer, s string, quoted bool) {
	from := 0
	for i := range len(s) {
		var e string
		switch c := s[i]; {
		case c == '&':
			e = "&amp;"
		case c == '<':
			e = "&lt;"
		case c == '>':
			e = "&gt;"
		case c == '\r':
			e = "&#13;"
		case quoted && c == '"':
			e = "&quot;"
		case quoted && c == '\n':
			e = "&#10;"
		case quoted && c == '\t':
			e = "&#9;"
		default:
			continue
		}
		b.WriteString(s[from:i])
		b.WriteString(e)
		from = i + 1
	}
	b.WriteString(s[from:])
}
