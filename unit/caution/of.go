package caution

import (
	"cmp"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// MostForCustomer is how many sentences a customer gets at most.
const MostForCustomer = 5

// List is what must be minded with some work.
type List struct {
	Cautions []Caution `json:"cautions"`
	Papers   []Paper   `json:"papers,omitempty"` // to ask for
}

// asked is what stands in the place of [Deference] where no place is given.
const asked = "Rules on fire, labels and papers differ, and none stands here until the job names the place: " +
	"read those in force where the piece is sold and used, and keep certificates of the goods."

// Of gives the cautions and papers for pieces where the rules of the given places
// hold, beside those that hold everywhere; with no place given the first line asks for it. They are in the order of [Rank]. The customer gets the
// [MostForCustomer] sentences that matter most to an owner; all others are for bench
// and office. A place, use or owner that is none of the constants is refused with
// unit.ErrUnknown or unit.ErrRequired.
func Of(places []Jurisdiction, pieces ...Piece) (List, error) {
	for i, j := range places {
		if _, err := j.MarshalText(); err != nil {
			return List{}, check.OneOf(check.At("jurisdictions", i), j.String(), jurisdictionNames[1:]...)
		}
		if j == 0 {
			return List{}, check.Required(check.At("jurisdictions", i), "a place")
		}
	}
	for i, p := range pieces {
		if err := p.Check(); err != nil {
			return List{}, unit.InField(check.At("pieces", i), err)
		}
	}
	list := List{Cautions: []Caution{}}
	var forCustomer []int // places in the table
	for i, r := range table {
		if r.where != Everywhere && !slices.Contains(places, r.where) {
			continue
		}
		due := names(pieces, r.when)
		if len(due) == 0 {
			continue
		}
		c := r.caution()
		if r.id == "F0" && len(places) == 0 {
			c.ID, c.About, c.Text = "P0", "place", asked
		}
		if others := names(pieces, func(p Piece) bool { return !r.when(p) }); len(others) > 0 {
			c.Pieces = due
		}
		list.Cautions = append(list.Cautions, c)
		list.Papers = append(list.Papers, papersFor(c, pieces, r.when)...)
		if r.customer > 0 {
			forCustomer = append(forCustomer, i)
		}
	}
	slices.SortStableFunc(forCustomer, func(a, b int) int { return cmp.Compare(table[a].customer, table[b].customer) })
	for _, i := range forCustomer[min(len(forCustomer), MostForCustomer):] {
		at := slices.IndexFunc(list.Cautions, func(c Caution) bool { return c.ID == table[i].id })
		list.Cautions[at].Audience = slices.Clone(table[i].readers)
	}
	return list, nil
}

// names gives the names of the pieces that something holds for, each once.
func names(pieces []Piece, holds func(Piece) bool) []string {
	var out []string
	for _, p := range pieces {
		if holds(p) && !slices.Contains(out, p.Name) {
			out = append(out, p.Name)
		}
	}
	return out
}
