package kind

import (
	"embed"
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

//go:embed kinds/*.json
var files embed.FS

// Kind is a kind of furniture. The zero value is none.
type Kind struct {
	Name  string `json:"name"`
	About string `json:"about"` // what it is, in a line
	// Loose furniture has no frame of its own: a cushion, or a cover put over.
	Loose    bool      `json:"loose,omitempty"`
	Measures []Measure `json:"measures"`
	Goods    []Role    `json:"goods,omitempty"`  // beside the cover
	Builds   []Build   `json:"builds,omitempty"` // ways to build it, the usual one first
	// Groups are what may be left out beside single panels and cushions: several
	// parts under one name, or a way to finish.
	Groups   []string `json:"groups,omitempty"`
	Tasks    []string `json:"tasks,omitempty"`    // at the bench
	Photos   []string `json:"photos,omitempty"`   // to take while the tape is out
	Cautions []string `json:"cautions,omitempty"` // when measuring
	// Piece is the piece of furniture in the words of the job file. An entry of a
	// list with "when" stands there only with that group, one with "unless" only
	// without it.
	Piece json.RawMessage `json:"piece"`
}

// Measure is one length of a piece of furniture.
type Measure struct {
	Name string `json:"name"`
	Tape string `json:"tape"` // where the tape goes
	// Usual is a length, or a formula of other measures, that stands where none
	// is given. A measure without one must be given.
	Usual  string      `json:"usual,omitempty"`
	Status cite.Status `json:"status,omitzero"` // of Usual; none where there is none
	Like   unit.Length `json:"like,omitzero"`   // what one may be, for a drawing, where there is no Usual
	Least  unit.Length `json:"least"`
	Most   unit.Length `json:"most"`
}

// Role is goods beside the cover.
type Role struct {
	Name string `json:"name"`
	// As is the role whose goods it has where none are named, "cover" for those
	// of the cover; empty where they must be named.
	As string `json:"as,omitempty"`
	// Optional goods may be left out, and what is made of them with them.
	Optional bool   `json:"optional,omitempty"`
	About    string `json:"about"`
}

// Build is a way to build a piece of furniture.
type Build struct {
	Name  string   `json:"name"`
	Needs []string `json:"needs,omitempty"` // optional goods that it needs
	// Build is what it is built with, in the words of the job file.
	Build json.RawMessage `json:"build,omitempty"`
}

// All gives every kind, by name. The file of each has its name.
func All() []Kind {
	entries, err := files.ReadDir("kinds")
	if err != nil {
		return nil // the folder is part of the program
	}
	var out []Kind
	for _, e := range entries {
		text, err := files.ReadFile(path.Join("kinds", e.Name()))
		if err != nil {
			continue
		}
		var k Kind
		if json.Unmarshal(text, &k) == nil { // a test reads them all
			out = append(out, k)
		}
	}
	slices.SortFunc(out, func(a, b Kind) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// Named gives a kind by its name; the error lists the kinds there are.
func Named(name string) (Kind, error) {
	text, err := files.ReadFile(path.Join("kinds", strings.ReplaceAll(name, " ", "-")+".json"))
	var k Kind
	if err == nil && json.Unmarshal(text, &k) == nil && k.Name == name {
		return k, nil
	}
	all := All()
	names := make([]string, len(all))
	for i, k := range all {
		names[i] = k.Name
	}
	return Kind{}, check.OneOf("from", name, names...)
}

// Likely gives the measures that must be given at a size that is usual, for
// drawings and trials.
func (k Kind) Likely() map[string]unit.Length {
	out := map[string]unit.Length{}
	for _, m := range k.Measures {
		if m.Usual == "" {
			out[m.Name] = m.Like
		}
	}
	return out
}

// Sizes gives every measure of the kind: those that are given, and what is usual or
// derived for the rest. Errors, all at once, are joined *unit.InputError values
// with the field measures and the name: one that is missing, one that the kind
// does not have, one beyond its least and most.
func (k Kind) Sizes(given map[string]unit.Length) (map[string]unit.Length, error) {
	s := sizes{kind: k, known: map[string]unit.Length{}, busy: map[string]bool{}}
	names := make([]string, len(k.Measures))
	for i, m := range k.Measures {
		names[i] = m.Name
	}
	for _, name := range sorted(given) {
		if !slices.Contains(names, name) {
			s.fail(name, check.OneOf("", name, names...))
			continue
		}
		s.known[name] = given[name]
	}
	unknown := len(s.faults)
	for _, m := range k.Measures {
		l, ok := given[m.Name]
		switch {
		case ok:
			s.fail(m.Name, check.Length("", l, m.Least, m.Most))
		case m.Usual == "":
			s.fail(m.Name, check.Required("", fmt.Sprintf("a length such as %q: %s", m.Like, m.Tape)))
		}
	}
	if len(s.faults) > unknown {
		return s.known, s.err() // what follows from them would only say the same
	}
	for _, m := range k.Measures {
		if _, ok := given[m.Name]; ok {
			continue
		}
		l, err := s.length(m.Name)
		if err == nil {
			err = check.Length("", l, m.Least, m.Most)
		}
		s.fail(m.Name, err)
	}
	return s.known, s.err()
}
