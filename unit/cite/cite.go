// Package cite says where a number comes from: how well it is founded, and in
// which document it stands.
//
// It stands on nothing, and every package with a table of figures stands on it.
//
// Tables of this module carry a [Basis] beside their cells, and results that
// estimate something carry a [Kind], so that a work order can say what each
// figure is worth.
package cite

import (
	"fmt"
	"slices"
	"strings"
)

// Status says how well a figure is founded. The zero value is not a status.
type Status uint8

const (
	// Published is a figure read in a government, university or research
	// publication; the textbook of a college's teacher is one, a handbook by
	// and for the trade is not.
	Published Status = iota + 1
	// Standard is a figure read in a standard, a specification of a government
	// or a regulation; the voluntary guideline of a trade is none.
	Standard
	// Derived is arithmetic from exact definitions or from published figures.
	Derived
	// CommonPractice is a rule of the trade, read on a page of the trade or in
	// its handbooks and guidelines; it carries no source.
	CommonPractice
	// FromMemory is a figure recalled and not checked against any text.
	FromMemory
)

var statusNames = [...]string{"", "published", "standard", "derived", "common practice", "from memory"}

// Statuses lists every status, best founded first.
func Statuses() []Status {
	return []Status{Published, Standard, Derived, CommonPractice, FromMemory}
}

// String gives the name used in check tables, and none for the zero value.
func (s Status) String() string {
	if s == 0 {
		return "none"
	}
	if int(s) >= len(statusNames) {
		return fmt.Sprintf("Status(%d)", uint8(s))
	}
	return statusNames[s]
}

// ParseStatus reads the name of a status; none is not one.
func ParseStatus(name string) (Status, error) {
	if i := slices.Index(statusNames[1:], name); i >= 0 {
		return Status(i + 1), nil
	}
	return 0, fmt.Errorf("status %q: want one of %s", name, strings.Join(statusNames[1:], ", "))
}

// MarshalText writes the name, and an empty text for the zero value, so that a
// result without a figure can be written too. Any other value is an error.
func (s Status) MarshalText() ([]byte, error) {
	if int(s) >= len(statusNames) {
		return nil, fmt.Errorf("no status: %d", uint8(s))
	}
	return []byte(statusNames[s]), nil
}

// UnmarshalText reads what MarshalText writes.
func (s *Status) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = 0
		return nil
	}
	v, err := ParseStatus(string(text))
	if err == nil {
		*s = v
	}
	return err
}

// Kind says what sort of answer a figure is. The zero value is not a kind.
type Kind uint8

const (
	// Exact follows from the inputs by arithmetic alone.
	Exact Kind = iota + 1
	// RuleOfThumb is an estimate by a published or customary factor.
	RuleOfThumb
	// Bound is a limit that no plan can beat.
	Bound
	// Layout is a plan with every piece placed and checked.
	Layout
	// Estimate is a model's answer with an uncertainty.
	Estimate
)

var kindNames = [...]string{"", "exact", "rule of thumb", "bound", "layout", "estimate"}

// String gives the name used in work orders, and none for the zero value.
func (k Kind) String() string {
	if k == 0 {
		return "none"
	}
	if int(k) >= len(kindNames) {
		return fmt.Sprintf("Kind(%d)", uint8(k))
	}
	return kindNames[k]
}

// MarshalText writes the name, and an empty text for the zero value, so that a
// result without a figure can be written too. Any other value is an error.
func (k Kind) MarshalText() ([]byte, error) {
	if int(k) >= len(kindNames) {
		return nil, fmt.Errorf("no kind: %d", uint8(k))
	}
	return []byte(kindNames[k]), nil
}

// UnmarshalText reads what MarshalText writes.
func (k *Kind) UnmarshalText(text []byte) error {
	if i := slices.Index(kindNames[:], string(text)); i >= 0 {
		*k = Kind(i)
		return nil
	}
	return fmt.Errorf("kind %q: want one of %s", text, strings.Join(kindNames[1:], ", "))
}

// Basis is the foundation of one figure: its status, the key of its source
// (empty for common practice and memory) and a remark. The zero value founds
// nothing.
type Basis struct {
	Status Status `json:"status"`           // how well it is founded
	Source string `json:"source,omitempty"` // key of a Source; see Lookup
	Note   string `json:"note,omitempty"`   // a remark
}

// String writes the basis as a work order prints it: "published (FM 10-16
// General Fabric Repair)", "common practice".
func (b Basis) String() string {
	s := b.Status.String()
	if src, ok := Lookup(b.Source); ok {
		s += " (" + src.Title + ")"
	}
	if b.Note != "" {
		s += "; " + b.Note
	}
	return s
}

// Source is one document that figures were read in.
type Source struct {
	Key       string `json:"key"` // short name in capitals, such as NIST-SP811
	Title     string `json:"title"`
	Edition   string `json:"edition,omitempty"` // edition, year or revision
	Publisher string `json:"publisher,omitempty"`
	Locator   string `json:"locator,omitempty"` // the part that was read: table, section, page
	Address   string `json:"address,omitempty"` // where a copy was read
}

// Lookup finds a source by its key.
func Lookup(key string) (Source, bool) {
	for _, list := range all {
		for _, s := range list {
			if s.Key == key {
				return s, true
			}
		}
	}
	return Source{}, false
}

// Sources gives every source, in the order of the tables of this package.
func Sources() []Source {
	var out []Source
	for _, list := range all {
		out = append(out, list...)
	}
	return out
}

// all holds one list for each package, in a file of its own: sources_unit.go,
// sources_foam.go and so on. It is never written to.
var all = [...][]Source{
	unitSources, allowanceSources, materialSources, findingsSources, threadSources, foamSources, costSources, cautionSources,
}
