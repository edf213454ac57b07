package reference

import (
	"fmt"

	"github.com/coverwright/coverwright/unit/cite"
)

// Strength says what a row protects. It follows from the status of the row and
// from how our value comes about, so no row says it of itself.
type Strength uint8

const (
	// Independent is a value that a document prints, met by our computation.
	Independent Strength = iota + 1
	// Tabulated is a value that a document prints, or that follows from what it
	// prints, and that our table repeats: it finds slips of the pen.
	Tabulated
	// Law is a value that no document prints: it follows by arithmetic from
	// definitions, or from figures of a document.
	Law
	// UncitedRule is a value computed by a rule of the trade or of memory and
	// worked by hand beside it: the arithmetic is checked, but no text is cited for
	// the rule.
	UncitedRule
	// ReadBack is a figure of our own table read out again: no text is cited for
	// it, so the row finds nothing but a change of the table.
	ReadBack
)

var strengthNames = [...]string{"", "independent", "tabulated", "law", "uncited rule", "read back"}

// strengthMeanings say it in a sentence, for the page.
var strengthMeanings = map[Strength]string{
	Independent: "a document prints the value, and our computation meets it.",
	Tabulated:   "a document prints the value, or figures that it follows from, and our table repeats it: the row finds slips of the pen.",
	Law:         "no document prints the value: it follows by arithmetic from definitions, or from figures that a document prints.",
	UncitedRule: "computed by a rule for which no text is cited, and worked by hand beside it: the arithmetic is checked, the rule is not.",
	ReadBack:    "a figure of our own table for which no text is cited, read out again.",
}

// Strengths lists every strength, the strongest first.
func Strengths() []Strength { return []Strength{Independent, Tabulated, Law, UncitedRule, ReadBack} }

// String gives the name that the table prints.
func (s Strength) String() string {
	if int(s) >= len(strengthNames) {
		return fmt.Sprintf("Strength(%d)", uint8(s))
	}
	return strengthNames[s]
}

// MarshalText writes the name.
func (s Strength) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Outside tells whether something outside this module speaks for the row: a
// document, or arithmetic that anybody can repeat.
func (s Strength) Outside() bool { return s == Independent || s == Tabulated || s == Law }

// strengthOf gives the strength of a row whose value is read out of a cell of
// one of our tables, or computed.
func strengthOf(r Row, cell bool) Strength {
	switch r.Status {
	case cite.Published, cite.Standard:
		if cell {
			return Tabulated
		}
		return Independent
	case cite.Derived:
		if cell && r.Source != "" {
			return Tabulated
		}
		return Law
	default:
		if cell {
			return ReadBack
		}
		return UncitedRule
	}
}

// why says why nothing outside speaks for a row: what a person wrote of its
// quantity, else what its status says.
func why(r Result, said string) string {
	switch {
	case r.Strength.Outside():
		return ""
	case said != "":
		return said
	case r.Status == cite.FromMemory:
		return "recalled; no text of it was read"
	case r.Strength == ReadBack:
		return "pages of the trade say so, which are no text to cite"
	}
	return "reckoned as the trade does; no text that can be cited was read for it"
}
