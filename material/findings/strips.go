package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// stripLengths are those of edge roll and of strips for blind edges.
var stripLengths = []Figure[unit.Length]{
	{"edge roll", "height", 0, unit.Inch / 2, 3 * unit.Inch / 2, cite.Practice("1/2, 3/4, 1, 1 1/2 in; front and sides of the seat, arm fronts")},
	{"edge roll", "height, made by hand", 0, unit.Inch / 4, unit.Inch / 2, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter III: burlap or webbing over cord or tow")},
	{"edge roll", "roll", 0, 25 * unit.Foot, 300 * unit.Foot, cite.Practice("")},
	one("card strip", "width", unit.Inch/2, cite.Practice("straight blind edges: outside back top, outside arm top")),
	{"tack strip", "stick", 0, 20 * unit.Inch, 36 * unit.Inch, cite.Practice("metal, straight vertical blind edges")},
	{"gripping strip", "roll", 0, 25 * unit.Foot, 100 * unit.Foot, cite.Practice("flexible, curved blind edges")},
}

// TackStrip is metal tack strip: sticks, of which no run has part of another's.
// The zero value is refused.
type TackStrip struct {
	Runs  []unit.Length `json:"runs"`
	Stick unit.Length   `json:"stick"` // length it is sold in, 100 mm to 5 m; 20 to 36 in is usual
}

// Sticks counts whole sticks a run:
//
//	sum of ceil(run / stick)
//
// Errors name the field and wrap unit.ErrRequired, unit.ErrRange or
// unit.ErrForgottenUnit.
func (t TackStrip) Sticks() (int, error) {
	if err := each("runs", t.Runs, unit.Millimetre, longest); err != nil {
		return 0, err
	}
	if err := check.Length("stick", t.Stick, 100*unit.Millimetre, 5*unit.Metre); err != nil {
		return 0, err
	}
	n := 0
	for _, l := range t.Runs {
		n += steps(l, t.Stick)
	}
	return n, nil
}
