package material

import (
	"math"
	"math/big"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Hide is leather as it is sold: by area, in skins of about one size. The
// zero value is refused.
type Hide struct {
	Name      string      `json:"name,omitempty"`
	Area      unit.Area   `json:"area"`               // of one hide, from 1 sq ft to 100 sq ft
	Thickness unit.Length `json:"thickness,omitzero"` // from 0.3 mm to 6 mm; zero when not known
}

// HideEstimate is a rule-of-thumb answer: how much leather a set of panels
// takes when a share of every hide goes to waste.
type HideEstimate struct {
	Net   unit.Area  `json:"net"`   // the panels themselves
	Waste unit.Ratio `json:"waste"` // share of the bought leather that is lost
	Gross unit.Area  `json:"gross"` // leather to buy: Net / (1 - Waste)
	Hides int        `json:"hides"` // whole hides of the stated area
	Basis cite.Basis `json:"basis"` // where the waste factor comes from
	Kind  cite.Kind  `json:"kind"`  // always cite.RuleOfThumb
}

// WholeHideWaste gives the customary share lost when furniture panels are cut
// from whole cattle hides: about one third. Trade figures run from 20 % for
// small articles through 30-45 % for furniture to 50 % and more for large
// seamless faces.
func WholeHideWaste() WasteFactor {
	return WasteFactor{Waste: 0.33, Basis: cite.Practice("about a third of a whole hide is lost on furniture; 20 % small articles, 50 % large seamless faces")}
}

// WasteFactor is a share of the bought goods that is lost, with its basis.
type WasteFactor struct {
	Waste unit.Ratio `json:"waste"` // 0 to 0.9
	Basis cite.Basis `json:"basis,omitzero"`
}

// HidesToBuy gives the leather to buy for panels of a total net area:
//
//	gross = net / (1 - waste),  hides = ceil(gross / hide area)
//
// The net area is from 0 to 10 000 m². It wraps unit.ErrRange,
// unit.ErrForgottenUnit, unit.ErrNotFinite or unit.ErrOverflow. Leather bought by area still has to
// be laid out: a count of hides by rule of thumb is not proved to suffice.
func HidesToBuy(net unit.Area, hide Hide, w WasteFactor) (HideEstimate, error) {
	if err := check.Between("net", net, 0, 10_000*unit.SquareMetre); err != nil {
		return HideEstimate{}, err
	}
	if err := hide.Check(); err != nil {
		return HideEstimate{}, err
	}
	if err := check.Ratio("waste", w.Waste, 0, 0.9); err != nil {
		return HideEstimate{}, err
	}
	gross, err := GrossArea(net, w.Waste)
	if err != nil {
		return HideEstimate{}, err
	}
	n, rest, err := gross.Fits(hide.Area)
	if err != nil {
		return HideEstimate{}, err
	}
	if rest > 0 {
		n++
	}
	return HideEstimate{Net: net, Waste: w.Waste, Gross: gross, Hides: n, Basis: w.Basis, Kind: cite.RuleOfThumb}, nil
}

// Check gives nil for a hide of a plausible size, else an error that names the
// field and wraps unit.ErrRange or unit.ErrForgottenUnit.
func (h Hide) Check() error {
	if err := check.Between("hide.area", h.Area, unit.SquareFoot, 100*unit.SquareFoot); err != nil {
		return err
	}
	if h.Thickness == 0 {
		return nil
	}
	return check.Length("hide.thickness", h.Thickness, 300*unit.Micrometre, 6*unit.Millimetre)
}

// GrossArea gives the area to buy when a share is lost: net / (1 - waste),
// rounded up to a whole quantum. Waste is from 0 up to, not including, 1; it
// wraps unit.ErrRange, unit.ErrForgottenUnit, unit.ErrNotFinite or
// unit.ErrOverflow.
func GrossArea(net unit.Area, waste unit.Ratio) (unit.Area, error) {
	if err := check.Ratio("waste", waste, 0, 0.999); err != nil {
		return 0, err
	}
	if err := check.HasUnit("net", net); err != nil {
		return 0, err
	}
	if net < 0 {
		return 0, check.Refuse("net", net.String(), unit.ErrRange, "no negative area")
	}
	n, ok := ceilOver(int64(net), decimalRat(waste))
	if !ok {
		return 0, check.Refuse("net", net.String(), unit.ErrOverflow, "an area that fits after waste")
	}
	return unit.Area(n), nil
}

// GrossLength gives the length to buy when a share is lost to shrinkage:
// net / (1 - share), rounded up to a whole quantum. The share is from 0 up
// to, not including, 1; it wraps unit.ErrRange, unit.ErrNotFinite or
// unit.ErrOverflow.
func GrossLength(net unit.Length, share unit.Ratio) (unit.Length, error) {
	if err := check.Ratio("shrinkage", share, 0, 0.999); err != nil {
		return 0, err
	}
	if err := check.NotNegative("length", net); err != nil {
		return 0, err
	}
	n, ok := ceilOver(int64(net), decimalRat(share))
	if !ok {
		return 0, check.Refuse("length", net.String(), unit.ErrOverflow, "a length that fits after shrinkage")
	}
	return unit.Length(n), nil
}

// decimalRat takes a ratio as its decimal text: 0.3 is three tenths, not the
// binary number next to it, so that a ceiling does not fall over the edge.
func decimalRat(r unit.Ratio) *big.Rat {
	x, ok := new(big.Rat).SetString(strconv.FormatFloat(float64(r), 'g', -1, 64))
	if !ok {
		return new(big.Rat).SetFloat64(float64(r))
	}
	return x
}

// ceilOver gives ceil(n / (1 - share)).
func ceilOver(n int64, share *big.Rat) (int64, bool) {
	q := new(big.Rat).Quo(big.NewRat(n, 1), new(big.Rat).Sub(big.NewRat(1, 1), share))
	c := new(big.Int).Sub(q.Num(), big.NewInt(1))
	c.Div(c.Add(c, q.Denom()), q.Denom())
	return c.Int64(), c.IsInt64() && c.Int64() < math.MaxInt64
}
