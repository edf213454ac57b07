package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	feltCovers = one("felt", "that a pound covers", 972*unit.SquareInch, cite.Practice("27 in wide, about 1 in thick, about a yard a pound: 6.75 sq ft"))

	feltAreas     = []Figure[unit.Area]{feltCovers, one("wadding", "sheet", 30*36*unit.SquareInch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "30 x 36 in, one or two over tow or hair"))}
	feltMasses    = []Figure[unit.Mass]{{"felt", "roll", 0, 18 * unit.Pound, 22 * unit.Pound, cite.Practice("")}}
	battingMasses = []Figure[unit.Mass]{one("wrap", "roll", 13*unit.Pound, cite.Practice("27 in wide"))}
	// What wraps foam is cut by package wrap; this is how it is sold.
	battingLengths = []Figure[unit.Length]{
		{"wrap", "roll width", 0, 27 * unit.Inch, 54 * unit.Inch, cite.Practice("27 or 54 in")},
		{"wrap", "roll of 13 lb, 27 in wide", 0, 70 * unit.Foot, 80 * unit.Foot, cite.Practice("1.32 to 1.16 oz a square foot")},
		{"wrap", "roll", 0, 10 * unit.Yard, 40 * unit.Yard, cite.Practice("")},
		one("felt", "roll width", 27*unit.Inch, cite.Practice("")),
		one("felt", "loft", unit.Inch, cite.Practice("about")),
	}
)

// Felt is cotton felt, bought by weight. The zero value is refused. It holds
// water: never outdoors or in a boat.
type Felt struct {
	Area   unit.Area `json:"area"`            // that it lies on, to 10 000 m²
	Layers int       `json:"layers,omitzero"` // to 20; zero takes 1
	Covers unit.Area `json:"covers,omitzero"` // that a pound covers in one layer; zero takes 6.75 sq ft
}

// Order gives the felt, bought by b:
//
//	net = layers × area / covers, in pounds, rounded up
//
// Errors are those of [Buying.Steps], and of fields area, layers and covers.
func (f Felt) Order(b Buying[unit.Mass]) (Steps[unit.Mass], error) {
	f.Covers = or(new(founded), f.Covers, feltCovers)
	if f.Layers == 0 {
		f.Layers = 1
	}
	if err := check.Between("area", f.Area, unit.SquareCentimetre, 10_000*unit.SquareMetre); err != nil {
		return Steps[unit.Mass]{}, err
	}
	if err := check.Count("layers", f.Layers, 1, 20); err != nil {
		return Steps[unit.Mass]{}, err
	}
	if err := check.Between("covers", f.Covers, unit.SquareDecimetre, 100*unit.SquareMetre); err != nil {
		return Steps[unit.Mass]{}, err
	}
	net, err := wholeShare(int64(f.Area)*int64(f.Layers), int64(unit.Pound), int64(f.Covers))
	if err != nil {
		return Steps[unit.Mass]{}, err
	}
	return b.Steps(unit.Mass(net), 0)
}
