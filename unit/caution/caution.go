package caution

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit/cite"
)

// Rank is the order in which cautions are printed: what forbids, then rules and
// papers, then what protects the worker, then what a job says of itself. The zero
// value is none.
//
// Its values: Forbids, Papers, Protects, ThisJob.
type Rank uint8

// The ranks, first to be read first.
const (
	Forbids  Rank = iota + 1 // the work, or a part of it, is not to be done so
	Papers                   // a rule to keep, a paper to ask for
	Protects                 // those who do the work
	ThisJob                  // what is doubtful or left out in this job
)

var rankNames = []string{"", "forbids", "papers", "protects", "this job"}

// String gives the name in lower case.
func (r Rank) String() string { return enum.Name(r, "Rank", rankNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (r Rank) MarshalText() ([]byte, error) { return enum.Text(r, "rank", rankNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (r *Rank) UnmarshalText(text []byte) error { return enum.Read(r, text, "rank", rankNames) }

// Reader is for whom a caution is. The zero value is nobody.
//
// Its values: Customer, Bench, Office.
type Reader uint8

// The readers of an order.
const (
	Customer Reader = iota + 1 // who owns the piece
	Bench                      // who does the work
	Office                     // who orders goods and keeps papers
)

var readerNames = []string{"", "customer", "bench", "office"}

// String gives the name in lower case.
func (r Reader) String() string { return enum.Name(r, "Reader", readerNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (r Reader) MarshalText() ([]byte, error) { return enum.Text(r, "reader", readerNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (r *Reader) UnmarshalText(text []byte) error { return enum.Read(r, text, "reader", readerNames) }

// Caution is one warning: what it is about, where it holds, by which rule, in
// which edition, from which date, and one sentence that says it in short.
type Caution struct {
	ID           string       `json:"id"` // such as F1; the same from job to job
	Rank         Rank         `json:"rank"`
	About        string       `json:"about"` // such as fire
	Jurisdiction Jurisdiction `json:"jurisdiction"`
	Text         string       `json:"text"`
	Rule         string       `json:"rule,omitempty"`    // its number, when there is a rule
	Edition      string       `json:"edition,omitempty"` // edition or amendment meant
	From         string       `json:"from,omitempty"`    // in force from, YYYY-MM-DD
	Basis        []cite.Basis `json:"basis"`             // of what it says, part by part
	Read         string       `json:"read,omitempty"`    // the day on which documents were read, YYYY-MM-DD
	// Pieces are those it speaks of; empty when of all.
	Pieces   []string `json:"pieces,omitempty"`
	Audience []Reader `json:"audience"`
}

// For tells whether the caution is for a reader.
func (c Caution) For(r Reader) bool { return slices.Contains(c.Audience, r) }

// Cited writes rule, edition and date as an order prints them; empty without a rule.
func (c Caution) Cited() string {
	out := c.Rule
	if c.Edition != "" {
		out += ", " + c.Edition
	}
	if c.From != "" {
		out += ", from " + c.From
	}
	return out
}

// Standing writes how well the caution is founded, and when its documents were
// read: "standard and from memory, read 2026-11-29".
func (c Caution) Standing() string {
	var names []string
	for _, b := range c.Basis {
		if n := b.Status.String(); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	out := strings.Join(names, " and ")
	if c.Read != "" {
		out += ", read " + c.Read
	}
	return out
}

// Heading writes the id, what the caution is about, where it holds and for which
// pieces: "F1 fire, united states (bench)".
func (c Caution) Heading() string {
	out := c.ID + " " + c.About
	if c.Jurisdiction > Everywhere {
		out += ", " + c.Jurisdiction.String()
	}
	if len(c.Pieces) > 0 {
		out += " (" + strings.Join(c.Pieces, ", ") + ")"
	}
	return out
}

// Founded writes what [Caution.Cited] and [Caution.Standing] say, as it stands
// behind the sentence. It is empty for what is common practice alone, and for what
// the job says of itself: see [Unmarked].
func (c Caution) Founded() string {
	cited, standing := c.Cited(), c.Standing()
	switch {
	case c.Rank == ThisJob, cited == "" && standing == cite.CommonPractice.String():
		return ""
	case cited == "":
		return standing
	}
	return cited + "; " + standing
}

// String writes the caution as an order prints it.
func (c Caution) String() string {
	out := c.Heading() + ": " + c.Text
	if f := c.Founded(); f != "" {
		out += " (" + f + ")"
	}
	return out
}

// Deference is the sentence that goes before every list of cautions.
const Deference = "Rules change and differ from place to place: read the text in force where the piece is sold and used, " +
	"keep the supplier's certificate for the very goods used, and ask the local authority or a test house when in doubt."

// CustomersDeference is the sentence that goes after the cautions of a customer.
const CustomersDeference = "Rules change and differ from place to place: the local authority says which ones hold where the piece is used."

// Unmarked says what it means that nothing stands behind a sentence.
const Unmarked = "common practice where nothing else is said"

// Pointer is the line for papers of a job that have no cautions of their own.
const Pointer = "The cautions of the job stand on its work order, under Cautions: read them before you cut."

// SafetySeams is what must be said of figures of thread and seams.
const SafetySeams = "Thread figures are estimates for furniture upholstery: a load-bearing or safety seam needs a specification by licensed practice and a test."

// All gives every caution known, in the order in which they are printed, with
// every reader that each may have.
func All() []Caution {
	out := make([]Caution, len(table))
	for i := range table {
		out[i] = table[i].caution()
	}
	return out
}

// ByID gives the cautions with these ids, in the order in which they are asked
// for. An id that is not in the table is refused with unit.ErrUnknown.
func ByID(ids ...string) ([]Caution, error) {
	out := make([]Caution, 0, len(ids))
	for i, id := range ids {
		at := slices.IndexFunc(table, func(r row) bool { return r.id == id })
		if at < 0 {
			return nil, check.OneOf(check.At("ids", i), id, known()...)
		}
		out = append(out, table[at].caution())
	}
	return out, nil
}

func known() []string {
	out := make([]string, len(table))
	for i := range table {
		out[i] = table[i].id
	}
	return out
}
