package wrap

import (
	"math"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// CutRound gives the batting for a bolster of length L and diameter d:
//
//	length = L + d + overlap
//	around = π · d + overlap
//	crown  = layers · loft · 1/2
//
// Half a diameter hangs over each end, as half a thickness does on a block; with
// Sides the ends have a round piece each instead, cut from a square of d, and
//
//	length = L
//
// Back means nothing here. The girth is derived, the overlap common practice.
func CutRound(c foam.Cylinder, w Rule) (Cut, error) {
	if err := c.Check(); err != nil {
		return Cut{}, unit.InField("cylinder", err)
	}
	if err := w.check(); err != nil {
		return Cut{}, err
	}
	if w.Back {
		return Cut{}, check.Refuse("back", "true", unit.ErrRange, "no back edge on a bolster")
	}
	girth, err := c.Diameter.Scale(math.Pi, unit.Up)
	if err != nil {
		return Cut{}, err
	}
	out := Cut{Length: c.Length + c.Diameter + w.Overlap, Around: girth + w.Overlap, Basis: cite.Basis{Status: cite.CommonPractice}}
	if w.Sides {
		out.Length = c.Length
		out.Side = foam.Block{Length: c.Diameter, Width: c.Diameter, Thickness: w.Batting.Loft}
	}
	if out.Area, err = out.area(w.Layers); err != nil {
		return Cut{}, err
	}
	out.Crown, err = (unit.Length(w.Layers) * w.Batting.Loft).Scale(Compressed, unit.Nearest)
	return out, err
}
