package job

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/unit"
)

// agreed gives what is wrong with the account of the job and the customer's copy.
func (s Spec) agreed() faults {
	f := faults(account.Faults(s.Account, s.Currency))
	for i, x := range s.Changes {
		if len(s.Pieces) > 0 {
			f.add(unit.Path("changes").At(i).Dot("piece"), s.checkPiece(x.Piece))
		}
	}
	return append(f, faults(s.Copy.Faults(s.Currency)).under("customer_copy")...)
}

// statement adds up the account on a quote of the job; nil where nothing was changed or
// received.
func (s Spec) statement(q cost.Quote) (*account.Statement, error) {
	if len(s.Changes)+len(s.Received) == 0 {
		return nil, nil
	}
	terms, _ := s.terms() // its faults are those of the job
	levies := slices.Clone(terms.Tax.Levies)
	for i, l := range levies { // a change may be of a class that no line of the quote has
		if slices.Contains(l.On, cost.Labour.TaxClass()) {
			levies[i].On = slices.Concat(l.On, labourClasses)
		}
	}
	terms.Tax.Levies = levies
	out, err := account.Settle(s.Account, q.Total, terms.Tax, s.Quote.rounding())
	return &out, err
}
