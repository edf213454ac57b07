package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	hairFoot = Figure[unit.Mass]{"hair", "a square foot of seat", unit.Pound, 3 * unit.Pound / 4, 5 * unit.Pound / 4, cite.Memory("2 to 3 in thick")}
	hairNew  = Figure[unit.Ratio]{"hair", "new hair to old that is teased", 0.30, 0.20, 0.30, cite.Practice("")}
	towStool = one("tow", "a seat of six springs", 5*unit.Pound, cite.In("UPHOLSTERY-FOR-SCHOOLS", "about"))

	hairMasses = []Figure[unit.Mass]{
		hairFoot, towStool,
		one("hair", "bag", 12_700*unit.Gram, cite.Practice("28 lb")),
		one("tow", "bale", 100*unit.Pound, cite.In("UPHOLSTERY-FOR-SCHOOLS", "")),
	}
	hairAreas   = []Figure[unit.Area]{one("rubberised hair", "sheet", 36*72*unit.SquareInch, cite.Practice("36 x 72 in"))}
	hairLengths = []Figure[unit.Length]{{"rubberised hair", "thick", 0, unit.Inch, 2 * unit.Inch, cite.Practice("1 or 2 in")}}
	hairShares  = []Figure[unit.Ratio]{hairNew}
)

// Hair is curled hair, bought by weight. The zero value is refused. Over hair
// there is always wadding, or the ends come through.
type Hair struct {
	Area unit.Area `json:"area"`          // of the seat, to 1000 m²
	Foot unit.Mass `json:"foot,omitzero"` // for a square foot, to 10 lb; zero takes 1 lb
	Old  bool      `json:"old,omitempty"` // the old hair is teased and used again, with 30 % of new
}

// Order gives the hair to buy, by b:
//
//	net = area × mass for a square foot, of which the new share, rounded up
//
// Errors are those of [Buying.Steps], and of fields area and foot.
func (h Hair) Order(b Buying[unit.Mass]) (Steps[unit.Mass], error) {
	h.Foot = or(new(founded), h.Foot, hairFoot)
	if err := check.Between("area", h.Area, unit.SquareCentimetre, 1000*unit.SquareMetre); err != nil {
		return Steps[unit.Mass]{}, err
	}
	if err := check.Between("foot", h.Foot, unit.Gram, 10*unit.Pound); err != nil {
		return Steps[unit.Mass]{}, err
	}
	n, err := wholeShare(int64(h.Area), int64(h.Foot), int64(unit.SquareFoot))
	net := unit.Mass(n)
	if err == nil && h.Old {
		net, err = net.Scale(hairNew.Usual, unit.Up)
	}
	if err != nil {
		return Steps[unit.Mass]{}, err
	}
	return b.Steps(net, 0)
}

// Tow gives the tow over springs, bought by b: 5 lb for six springs, rounded up.
// Over tow there is always wadding, or the ends come through. Springs from 1 to
// 10 000; errors are those of [Buying.Steps], and of springs.
func Tow(springs int, b Buying[unit.Mass]) (Steps[unit.Mass], error) {
	if err := check.Count("springs", springs, 1, mostRuns); err != nil {
		return Steps[unit.Mass]{}, err
	}
	net, err := towStool.Usual.MulDiv(springs, 6, unit.Up)
	if err != nil {
		return Steps[unit.Mass]{}, err
	}
	return b.Steps(net, 0)
}
