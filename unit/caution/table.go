package caution

import "github.com/coverwright/coverwright/unit/cite"

// readOn is the day on which the documents of the table were read.
const readOn = "2026-11-29"

// row is a caution and when it is due.
type row struct {
	id                  string
	rank                Rank
	about               string
	where               Jurisdiction
	when                func(Piece) bool
	text                string
	rule, edition, from string
	basis               []cite.Basis
	readers             []Reader
	// customer is the place of the sentence among those for the customer, who
	// gets the first few; none at zero.
	customer int
}

// caution gives the caution with every reader that it may have.
func (r row) caution() Caution {
	c := Caution{ID: r.id, Rank: r.rank, About: r.about, Jurisdiction: r.where, Text: r.text, Rule: r.rule, Edition: r.edition, From: r.from}
	c.Basis = append(c.Basis, r.basis...)
	for _, b := range r.basis {
		if b.Source != "" {
			c.Read = readOn
		}
	}
	if r.customer > 0 {
		c.Audience = append(c.Audience, Customer)
	}
	c.Audience = append(c.Audience, r.readers...)
	return c
}

func std(source, note string) cite.Basis {
	return cite.Basis{Status: cite.Standard, Source: source, Note: note}
}

func on(bs ...cite.Basis) []cite.Basis { return bs }

var (
	custom     = cite.Practice("")
	remembered = cite.Memory("")

	bench  = []Reader{Bench}
	office = []Reader{Office}
	shop   = []Reader{Bench, Office}
)

// Conditions that several rows have.

func always(Piece) bool        { return true }
func newFoam(p Piece) bool     { return p.NewFoam }
func sewn(p Piece) bool        { return p.Sewn }
func framed(p Piece) bool      { return p.Frame }
func old(p Piece) bool         { return p.MayBeOld }
func children(p Piece) bool    { return p.is(Children) }
func contract(p Piece) bool    { return p.is(Contract) && inland(p) }
func ship(p Piece) bool        { return p.is(Ship) }
func aircraft(p Piece) bool    { return p.is(Aircraft) }
func inland(p Piece) bool      { return p.furniture() || p.is(Caravan, Motorhome) }
func forNewOwner(p Piece) bool { return p.indoors() && p.Owner != SameOwner }

// table holds every caution in the order in which they are printed: by rank, and
// within a rank as they stand here.
var table = func() []row {
	var out []row
	for _, part := range [][]row{forbidding, general, fire, forWhom, onTheMove, goods, protecting} {
		out = append(out, part...)
	}
	return out
}()
