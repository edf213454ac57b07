package carry

import (
	"archive/zip"
	"bytes"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"
)

const (
	relationNS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	mainNS     = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	packageNS  = "http://schemas.openxmlformats.org/package/2006/relationships"
	typesPart  = "[Content_Types].xml"
)

// pack is the parts of a workbook file. Those that are read as trees are written anew; all
// others are copied as they came.
type pack struct {
	zip   *zip.Reader
	files map[string]*zip.File // by their names in lower case
	trees map[string]*node     // parts to write
	raw   map[string][]byte    // parts to write, as bytes
	seen  map[string]*node     // parts that were only read
	gone  map[string]bool
	added []string // names of new parts
	left  budget
}

func open(data []byte) (*pack, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, damaged("no .xlsx file: %v", err)
	}
	p := &pack{zip: z, files: map[string]*zip.File{}, trees: map[string]*node{}, raw: map[string][]byte{}, seen: map[string]*node{}, gone: map[string]bool{}, left: budget{mostRead, mostUnits}}
	for _, f := range z.File {
		p.files[strings.ToLower(f.Name)] = f
	}
	return p, nil
}

// has tells whether a part is there.
func (p *pack) has(name string) bool {
	name = strings.ToLower(name)
	_, tree := p.trees[name]
	return !p.gone[name] && (tree || p.files[name] != nil)
}

// read unpacks a part.
func (p *pack) read(name string) ([]byte, error) {
	f := p.files[strings.ToLower(name)]
	if f == nil {
		return nil, damaged("the part %.100q is missing", name)
	}
	r, err := f.Open()
	if err != nil {
		return nil, damaged("%s: %v", name, err)
	}
	defer r.Close() //nolint:errcheck // only read
	data, err := io.ReadAll(io.LimitReader(r, int64(p.left.bytes)+1))
	if err != nil {
		return nil, damaged("%s: %v", name, err)
	}
	return data, p.left.spend(len(data))
}

// look gives a part that is only read.
func (p *pack) look(name string) (*node, error) {
	key := strings.ToLower(name)
	if n := p.trees[key]; n != nil {
		return n, nil
	}
	if n := p.seen[key]; n != nil {
		return n, nil
	}
	data, err := p.read(name)
	if err != nil {
		return nil, err
	}
	n, err := parse(name, data, &p.left, strings.HasSuffix(key, ".vml"))
	if err != nil {
		return nil, err
	}
	p.seen[key] = n
	return n, nil
}

// change gives a part that is written anew.
func (p *pack) change(name string) (*node, error) {
	n, err := p.look(name)
	if err != nil {
		return nil, err
	}
	p.trees[strings.ToLower(name)] = n
	return n, nil
}

// put adds a part of a kind.
func (p *pack) put(name, kind string, n *node) error {
	p.trees[strings.ToLower(name)] = n
	p.added = append(p.added, name)
	types, err := p.change(typesPart)
	if err != nil {
		return err
	}
	types.add(element("Override", "PartName", "/"+name, "ContentType", kind))
	return nil
}

// remove takes a part away, with its relations.
func (p *pack) remove(name string) error {
	types, err := p.change(typesPart)
	if err != nil {
		return err
	}
	types.drop(func(n *node) bool { return n.name == "Override" && strings.EqualFold(n.attr("PartName"), "/"+name) })
	for _, n := range []string{name, relationsOf(name)} {
		key := strings.ToLower(n)
		p.gone[key] = true
		delete(p.trees, key)
		p.added = slices.DeleteFunc(p.added, func(a string) bool { return strings.EqualFold(a, n) })
	}
	return nil
}

// free gives a name that no part has: a text, a number, an ending.
func (p *pack) free(before, after string) string {
	for i := 1; ; i++ {
		name := before + strconv.Itoa(i) + after
		key := strings.ToLower(name)
		if p.files[key] == nil && p.trees[key] == nil {
			return name
		}
	}
}

// relation is where a part leads to.
type relation struct {
	id, kind, target string // the target as the name of a part
	outside          bool   // the target is no part
}

func relationsOf(part string) string {
	dir, file := path.Split(part)
	return path.Join(dir, "_rels", file+".rels")
}

// relations gives where a part leads to.
func (p *pack) relations(part string) ([]relation, error) {
	if !p.has(relationsOf(part)) {
		return nil, nil
	}
	root, err := p.look(relationsOf(part))
	if err != nil {
		return nil, err
	}
	var out []relation
	for _, n := range root.all("Relationship") {
		kind := n.attr("Type")
		r := relation{n.attr("Id"), kind[strings.LastIndexByte(kind, '/')+1:], n.attr("Target"), strings.EqualFold(n.attr("TargetMode"), "External")}
		if abs, ok := strings.CutPrefix(r.target, "/"); ok {
			r.target = abs
		} else if !r.outside {
			r.target = path.Join(path.Dir(part), r.target)
		}
		out = append(out, r)
	}
	return out, nil
}

// relate leads from a part to another, and gives the id of it.
func (p *pack) relate(part, kind, target string, outside bool) (string, error) {
	name := relationsOf(part)
	if !p.has(name) {
		p.gone[strings.ToLower(name)] = false
		p.trees[strings.ToLower(name)] = element("Relationships", "xmlns", packageNS)
		p.added = append(p.added, name)
	}
	root, err := p.change(name)
	if err != nil {
		return "", err
	}
	used := map[string]bool{}
	for _, n := range root.all("Relationship") {
		used[n.attr("Id")] = true
	}
	id := ""
	for i := 1; id == "" || used[id]; i++ {
		id = "rId" + strconv.Itoa(i)
	}
	n := element("Relationship", "Id", id, "Type", kind, "Target", target)
	if outside {
		n.set("TargetMode", "External")
	} else {
		n.set("Target", "/"+target)
	}
	root.add(n)
	return id, nil
}

// unrelate forgets a relation.
func (p *pack) unrelate(part, id string) error {
	root, err := p.change(relationsOf(part))
	if err != nil {
		return err
	}
	root.drop(func(n *node) bool { return n.name == "Relationship" && n.attr("Id") == id })
	return nil
}

// bytes writes the file: the parts in the order they came in, then those that are new.
func (p *pack) bytes() ([]byte, error) {
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	write := func(name string, data []byte) error {
		w, err := out.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate})
		if err != nil {
			return err
		}
		_, err = w.Write(data)
		return err
	}
	for _, f := range p.zip.File {
		key := strings.ToLower(f.Name)
		switch n, raw := p.trees[key], p.raw[key]; {
		case p.gone[key]:
		case n != nil:
			if err := write(f.Name, n.bytes()); err != nil {
				return nil, err
			}
		case raw != nil:
			if err := write(f.Name, raw); err != nil {
				return nil, err
			}
		default:
			if err := out.Copy(f); err != nil {
				return nil, damaged("%s: %v", f.Name, err)
			}
		}
	}
	for _, name := range p.added {
		if err := write(name, p.trees[strings.ToLower(name)].bytes()); err != nil {
			return nil, err
		}
	}
	err := out.Close()
	return b.Bytes(), err
}
