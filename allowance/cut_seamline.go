package allowance

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// RecoveredSeamLine finds the seam line again from the cut line alone: each
// edge of the cut line moved back by its margin, as one who sews at a given
// distance from the edge of the cloth will. It is the check that a panel can
// be sewn as it was drawn. Where margins ran together and closed a gap the
// seam line cannot be found, and the error wraps unit.ErrRange.
func (c PanelCut) RecoveredSeamLine() (Contour, error) {
	ring, err := c.recovered()
	if err != nil {
		return Contour{}, err
	}
	return Contour{Outer: pointsOf(ring)}, nil
}

// recoveryHair is the width of hairs, in nanometres, that a recovered seam line
// may leave: far above rounding, far below any tolerance.
const recoveryHair = 5000

func (c PanelCut) recovered() (geom.Ring, error) {
	lost := func() error {
		return check.Refuse("cut_line", "", unit.ErrRange, "margins that leave every gap of the outline open")
	}
	if len(c.CutLine.Holes) > 0 {
		return nil, lost()
	}
	back, err := c.cut.Undo(recoveryHair)
	if err != nil {
		return nil, outlineError(err)
	}
	var best geom.Ring
	for _, p := range back {
		if best == nil || p.Outer.Ring.Area() > best.Area() {
			best = p.Outer.Ring
		}
	}
	if best == nil {
		return nil, lost()
	}
	return best, nil
}

// SeamDeviation gives the largest distance between the seam line and the one
// recovered from the cut line, either way, to within a micrometre. It is within
// Tolerance unless margins closed a gap of the outline or are wider than an
// inward curve.
func (c PanelCut) SeamDeviation() (unit.Length, error) {
	ring, err := c.recovered()
	if err != nil {
		return 0, err
	}
	d, err := geom.Hausdorff(c.seam, ring, 1000)
	if err != nil {
		return 0, outlineError(err)
	}
	return unit.Length(math.Ceil(d)), nil
}
