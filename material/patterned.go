package material

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// PatternExtra is what a patterned cloth takes beyond a plain one.
type PatternExtra struct {
	Share unit.Ratio `json:"share"` // to add: 20 % makes 8 yd into 9.6 yd
	Kind  cite.Kind  `json:"kind"`  // RuleOfThumb
	Basis cite.Basis `json:"basis"`
}

// patternBands are the customary additions by the sum of vertical and
// horizontal repeat, for goods of 54 in and over. A sum above one limit takes
// the next band. Printings differ in the last two bands: some end the 30 %
// band at 43 in.
var patternBands = []struct {
	upTo  unit.Length
	share unit.Ratio
}{
	{0, 0}, {14 * unit.Inch, 0.10}, {19 * unit.Inch, 0.15}, {27 * unit.Inch, 0.20},
	{36 * unit.Inch, 0.25}, {45 * unit.Inch, 0.30}, {chartEnd, 0.35},
}

// chartEnd is the largest sum of repeats in the chart.
const chartEnd = 54 * unit.Inch

// narrowExtra is added on goods of 50 to 52 in.
const narrowExtra unit.Ratio = 0.10

// ExtraForPattern gives the customary addition for goods of a width with a
// vertical and a horizontal repeat: 0 to 35 % by the sum of the repeats at
// 54 in and over, and 10 % more at 50 to 52 in (plain goods too). Common
// practice; a layout is better. Width from 50 in to 5 m; repeats from zero,
// their sum at most 54 in. It wraps unit.ErrRange or unit.ErrForgottenUnit.
func ExtraForPattern(width, vertical, horizontal unit.Length) (PatternExtra, error) {
	if err := check.Length("width", width, 50*unit.Inch, 5*unit.Metre); err != nil {
		return PatternExtra{}, err
	}
	if err := check.NotNegative("vertical", vertical); err != nil {
		return PatternExtra{}, err
	}
	if err := check.NotNegative("horizontal", horizontal); err != nil {
		return PatternExtra{}, err
	}
	sum := vertical + horizontal // at most 2 km
	for _, b := range patternBands {
		if sum <= b.upTo {
			x := PatternExtra{Share: b.share, Kind: cite.RuleOfThumb, Basis: cite.Basis{Status: cite.CommonPractice,
				Note: "percentage chart by the sum of both repeats"}}
			if width < 54*unit.Inch {
				x.Share = (unit.Ratio(b.share*100) + narrowExtra*100) / 100 // keeps 0.3 from becoming 0.30000000000000004
			}
			return x, nil
		}
	}
	return PatternExtra{}, check.Refuse("vertical", sum.String(), unit.ErrRange, "at most 54 in together")
}

// PatternedLength gives the length of patterned goods for a length of plain ones:
// plain × (1 + share), rounded up to a whole quantum. Errors are those of
// ExtraForPattern.
func PatternedLength(plain, width, vertical, horizontal unit.Length) (Converted, error) {
	x, err := ExtraForPattern(width, vertical, horizontal)
	if err != nil {
		return Converted{}, err
	}
	if err := check.Positive("length", plain); err != nil {
		return Converted{}, err
	}
	l, err := plain.MulDiv(100+int(float64(x.Share*100)+0.5), 100, unit.Up)
	return Converted{Length: l, Kind: x.Kind, Basis: x.Basis}, err
}
