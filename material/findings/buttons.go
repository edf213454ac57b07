package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	buttonDisc  = Figure[unit.Ratio]{"buttons", "disc of cloth in diameters", 2, 1.9, 2.2, cite.Practice("from scrap first")}
	buttonEnds  = one("buttons", "twine beyond twice the depth", 12*unit.Inch, cite.Practice(""))
	buttonSpare = one("buttons", "buttons that take a spare", 20, cite.Practice("at least one spare"))

	buttonLengths = []Figure[unit.Length]{
		buttonEnds,
		one("buttons", "line", unit.Inch/40, cite.Basis{Status: cite.Standard, Source: "MIL-B-20289D", Note: "1.2: 40 lines to the inch"}),
	}
	buttonShares = []Figure[unit.Ratio]{buttonDisc}
	buttonCounts = []Figure[int]{
		buttonSpare,
		{"buttons", "lines", 0, 22, 60, cite.Practice("22, 24, 30, 36, 45, 60; 30 and 36 most")},
		one("buttons", "a gross", 144, cite.In("UNECE-R20", "code GRO; or covered to order")),
	}
)

// ButtonLine gives the diameter of a button before covering, named by its
// lines:
//
//	line × 1/40 in
//
// Lists of the trade round it: 36 line is 0.9 in, printed as 7/8 in or 23 mm.
// Lines from 10 to 200; others wrap unit.ErrRange.
func ButtonLine(line int) (unit.Length, error) {
	if err := check.Count("line", line, 10, 200); err != nil {
		return 0, err
	}
	return unit.Length(line) * unit.Inch / 40, nil
}

// Buttons are covered buttons drawn through a piece by twine. The zero value is
// refused.
type Buttons struct {
	Count    int         `json:"count"`         // to 10 000
	Diameter unit.Length `json:"diameter"`      // before covering, to 200 mm; see [ButtonLine]
	Through  unit.Length `json:"through"`       // what the twine passes through, to 1 m
	Disc     unit.Ratio  `json:"disc,omitzero"` // of cloth in diameters, 1.5 to 3; zero takes 2
}

// ButtonOrder is the buttons with their cloth and twine.
type ButtonOrder struct {
	Buttons int         `json:"buttons"` // with spares
	Disc    unit.Length `json:"disc"`    // of cloth for one; cut squares of that size
	Each    unit.Length `json:"each"`    // twine for one button
	Twine   unit.Length `json:"twine"`   // for all but the spares
	Basis   cite.Basis  `json:"basis"`
}

// Order gives buttons, cloth and twine. For n buttons of diameter d, disc share
// k and depth T:
//
//	buttons = n + ceil(n / 20)
//	disc = k d, rounded up
//	twine each = 2 T + 12 in
//
// Errors name the field and wrap unit.ErrRange, unit.ErrNotFinite or
// unit.ErrForgottenUnit.
func (b Buttons) Order() (ButtonOrder, error) {
	var on founded
	b.Disc = or(&on, b.Disc, buttonDisc)
	if err := check.Count("count", b.Count, 1, mostRuns); err != nil {
		return ButtonOrder{}, err
	}
	if err := all(within{"diameter", b.Diameter, unit.Millimetre, 200 * unit.Millimetre}, within{"through", b.Through, unit.Millimetre, unit.Metre}); err != nil {
		return ButtonOrder{}, err
	}
	if err := check.Ratio("disc", b.Disc, 1.5, 3); err != nil {
		return ButtonOrder{}, err
	}
	disc, err := b.Diameter.Scale(b.Disc, unit.Up)
	if err != nil {
		return ButtonOrder{}, err
	}
	each := 2*b.Through + buttonEnds.Usual
	return ButtonOrder{
		Buttons: b.Count + (b.Count+buttonSpare.Usual-1)/buttonSpare.Usual, Disc: disc, Each: each, Twine: unit.Length(b.Count) * each,
		Basis: on.by("cloth of twice the diameter, 12 in of twine to hold, a spare for twenty", buttonEnds.Basis),
	}, nil
}
