package allowance

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Edge is how one edge of a panel is finished. The zero value is a plain seam
// with its default allowance and no handling margin.
//
// In files it is text: the finish, then the allowance when one is set by hand,
// then "+" and the handling margin, as "plain seam", "plain seam 3/8 in",
// "pull-over 2 in + 1 in" or "single hem + 10 mm".
type Edge struct {
	Finish Finish
	// Allowance replaces the default of the finish; Exactly(0) takes it away.
	// From 0 to 2 m. A fold takes only zero; a raw edge with an allowance runs
	// on past the finished line, as for a tuck-in or a lap.
	Allowance Override
	// Handling is cloth left outside the allowance to hold and work with, and
	// trimmed off in place. From 0 to 2 m; none on a fold.
	Handling unit.Length
}

// Margin is what an edge adds outside the seam line.
type Margin struct {
	Finish    Finish      `json:"finish"`
	Allowance unit.Length `json:"allowance"` // from the seam line to the trim line
	Handling  unit.Length `json:"handling"`  // from the trim line to the cut line
	ByHand    bool        `json:"by_hand"`   // the allowance is an override
	// Basis founds the default allowance; it is zero when ByHand is set.
	Basis cite.Basis `json:"basis,omitzero"`
}

// Total gives the distance from the seam line to the cut line.
func (m Margin) Total() unit.Length { return m.Allowance + m.Handling }

// Resolve gives the margin the edge asks for. Errors are *unit.InputError
// values that name finish, allowance or handling.
func (e Edge) Resolve() (Margin, error) {
	if err := e.Finish.check("finish"); err != nil {
		return Margin{}, err
	}
	def, basis := e.Finish.Default()
	m := Margin{Finish: e.Finish, Handling: e.Handling, Basis: basis}
	most := MostAllowance
	if e.Finish == Fold {
		most = 0
	}
	m.Allowance = def
	if l, set := e.Allowance.Get(); set {
		if err := check.Length("allowance", l, 0, most); err != nil {
			return Margin{}, err
		}
		m.Allowance, m.ByHand, m.Basis = l, true, cite.Basis{}
	}
	if err := check.Length("handling", e.Handling, 0, most); err != nil {
		return Margin{}, err
	}
	return m, nil
}
