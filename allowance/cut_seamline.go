package allowance

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// RecoveredSeamLine finds the seam line of the cut panel again from the cut line
// alone: each edge of the cut line moved back by its margin, as one who sews at a
// given distance from the edge of the cloth will. It is the check that a panel
// can be sewn as it was drawn. Where margins ran together and closed a gap the
// seam line cannot be found, and the error wraps unit.ErrRange.
func (p Panel) RecoveredSeamLine() (shape.Contour, error) {
	margins, opt, err := p.options()
	if err != nil {
		return shape.Contour{}, err
	}
	_, _, seam, err := p.fitted()
	if err != nil {
		return shape.Contour{}, err
	}
	return seam.Recovered(opt, totals(margins))
}

// SeamDeviation gives the largest distance between the seam line and the one
// recovered from the cut line, either way, to within a micrometre. It is within
// Tolerance unless margins closed a gap of the outline or are wider than an
// inward curve.
func (p Panel) SeamDeviation() (unit.Length, error) {
	c, err := p.Cut()
	if err != nil {
		return 0, err
	}
	back, err := p.RecoveredSeamLine()
	if err != nil {
		return 0, err
	}
	return c.SeamLine.Deviation(back)
}
