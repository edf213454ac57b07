package thread

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit/cite"
)

// NeedlePoint is the shape of a needle's tip in plain words. The zero value is none.
//
// Its values: RoundPoint, LightBallPoint, CutSlanted, CutAcross, CutAlong.
type NeedlePoint uint8

// The families of points.
const (
	// RoundPoint pushes the yarns of woven goods aside.
	RoundPoint NeedlePoint = iota + 1
	// LightBallPoint is a slightly blunted round point for knits and some
	// cloth-backed coated goods.
	LightBallPoint
	// CutSlanted cuts at about 45 degrees to the seam line: the usual point
	// for leather; the stitches lie slightly slanted.
	CutSlanted
	// CutAcross cuts square across the seam line: stitches lie straight and
	// can stand close.
	CutAcross
	// CutAlong cuts along the seam line: stitches slant, and close stitches
	// tear out like a stamp.
	CutAlong
)

var pointNames = []string{"", "round", "light ball", "cutting, slanted", "cutting, across", "cutting, along"}

// NeedlePoints lists the point families.
func NeedlePoints() []NeedlePoint {
	return []NeedlePoint{RoundPoint, LightBallPoint, CutSlanted, CutAcross, CutAlong}
}

// String names the point.
func (p NeedlePoint) String() string { return enum.Name(p, "NeedlePoint", pointNames) }

// Cutting tells whether the point cuts the goods.
func (p NeedlePoint) Cutting() bool { return p >= CutSlanted && p <= CutAlong }

// MarshalText writes the name, an empty text for no point. It wraps unit.ErrUnknown.
func (p NeedlePoint) MarshalText() ([]byte, error) { return enum.Text(p, "point", pointNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (p *NeedlePoint) UnmarshalText(text []byte) error {
	return enum.Read(p, text, "point", pointNames)
}

// pointLine is the usual point for goods.
type pointLine struct {
	point NeedlePoint
	basis cite.Basis
}

var usualPoints = [...]pointLine{
	LightWoven - 1: {RoundPoint, practice("")},
	Woven - 1:      {RoundPoint, practice("")},
	Canvas - 1:     {RoundPoint, practice("")},
	// The two disagree: a test found the strongest joints of faux leather
	// with a slanted cutting point, the trade advises a light ball.
	Vinyl - 1:        {CutSlanted, published("MATERIALS-15-6585", "strongest joints of a test, LR point of size 90; the trade also advises a light ball point")},
	Leather - 1:      {CutSlanted, practice("")},
	HeavyLeather - 1: {CutSlanted, practice("")},
}

// NeedlePointFor gives the usual needle point for goods. It wraps unit.ErrUnknown
// for no goods.
func NeedlePointFor(g Goods) (NeedlePoint, cite.Basis, error) {
	if err := g.check("goods"); err != nil {
		return 0, cite.Basis{}, err
	}
	return usualPoints[g-1].point, usualPoints[g-1].basis, nil
}
