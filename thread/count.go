package thread

import (
	"math"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// CountSystem is a system of yarn counts. The zero value is none.
//
// Its values: CountTex, CountDecitex, CountDenier, CountMetric, CountCotton,
// CountYardsPerPound, CountMetricTicket, CountCottonTicket, CountTradeNumber.
type CountSystem uint8

// The systems. With T the linear density in tex and K = 590.541 247 448…, the
// tex of one hank of 840 yd to the pound (the definitions of the tex system,
// ISO 1144, and the exact yard and pound):
//
//	tex            T
//	decitex        10 T
//	denier         9 T
//	metric count   1000 / T       metres per gram
//	cotton count   K / T          hanks of 840 yd per pound
//	yards per lb   840 K / T
//	metric ticket  3000 / T       three times the metric count
//	cotton ticket  3 K / T        three times the cotton count
//	trade number   0.9 T          a tenth of the denier
//
// The first three and the trade number grow with the thread, the others
// shrink.
const (
	CountTex CountSystem = iota + 1
	CountDecitex
	CountDenier
	CountMetric
	CountCotton
	CountYardsPerPound
	CountMetricTicket
	CountCottonTicket
	CountTradeNumber
)

// cottonConstant is K = 1000 × 453.592 37 / (840 × 0.9144).
const cottonConstant = 1000 * 453.59237 / (840 * 0.9144)

// mostTex is the heaviest thread accepted, a cord of 100 g to the metre.
const mostTex = 1e5

// countLine gives a system's constant: count = k × tex, or k / tex.
type countLine struct {
	k       float64
	inverse bool
	most    float64 // the largest count accepted
}

var countLines = [...]countLine{
	CountTex - 1:           {1, false, 1e5},
	CountDecitex - 1:       {10, false, 1e6},
	CountDenier - 1:        {9, false, 9e5},
	CountMetric - 1:        {1000, true, 1e5},
	CountCotton - 1:        {cottonConstant, true, 1e5},
	CountYardsPerPound - 1: {840 * cottonConstant, true, 5e7},
	CountMetricTicket - 1:  {3000, true, 3e5},
	CountCottonTicket - 1:  {3 * cottonConstant, true, 3e5},
	CountTradeNumber - 1:   {0.9, false, 9e4},
}

var countNames = []string{"", "tex", "dtex", "den", "Nm", "Ne", "yd/lb", "metric ticket", "cotton ticket", "trade number"}

// CountSystems lists the systems.
func CountSystems() []CountSystem {
	out := make([]CountSystem, len(countLines))
	for i := range out {
		out[i] = CountSystem(i + 1)
	}
	return out
}

// String gives the system's symbol or name: "tex", "Ne", "metric ticket".
func (c CountSystem) String() string { return enum.Name(c, "CountSystem", countNames) }

// MarshalText writes the name, an empty text for none. It wraps unit.ErrUnknown.
func (c CountSystem) MarshalText() ([]byte, error) {
	return enum.Text(c, "count system", countNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (c *CountSystem) UnmarshalText(text []byte) error {
	return enum.Read(c, text, "count system", countNames)
}

// Shrinks tells whether a greater count is a finer thread.
func (c CountSystem) Shrinks() bool {
	return c >= 1 && int(c) <= len(countLines) && countLines[c-1].inverse
}

func (c CountSystem) line() (countLine, error) {
	if err := given(c, "count system", countNames); err != nil {
		return countLine{}, err
	}
	return countLines[c-1], nil
}

// Of gives the linear density of a count in this system. The count is above
// zero, up to 100 000 tex or 100 000 m/g and their like; it wraps
// unit.ErrRange, unit.ErrNotFinite or unit.ErrUnknown.
func (c CountSystem) Of(count float64) (unit.LinearDensity, error) {
	l, err := c.line()
	if err != nil {
		return 0, err
	}
	if err := finiteAbove(c.String(), count, l.most); err != nil {
		return 0, err
	}
	d := count / l.k
	if l.inverse {
		d = l.k / count
	}
	if !(d > 0 && d <= mostTex) {
		return 0, check.Refuse(c.String(), floatText(count), unit.ErrRange, "a thread up to 100000 tex")
	}
	return unit.LinearDensity(d), nil
}

// In gives the count of d in this system. The density is above zero, up to
// 100 000 tex; it wraps unit.ErrRange, unit.ErrNotFinite or unit.ErrUnknown.
func (c CountSystem) In(d unit.LinearDensity) (float64, error) {
	l, err := c.line()
	if err != nil {
		return 0, err
	}
	if err := finiteAbove("tex", d.Tex(), mostTex); err != nil {
		return 0, err
	}
	x := l.k * d.Tex()
	if l.inverse {
		x = l.k / d.Tex()
	}
	if math.IsInf(x, 0) {
		return 0, check.Refuse("tex", floatText(d.Tex()), unit.ErrOverflow, "a count of an ordinary thread")
	}
	return x, nil
}

// Ply gives the resultant count of equal yarns twisted together: the linear
// density, up to 4000 tex, times their number, 1 to 24. The twist takes up a
// little more. It wraps unit.ErrRange or unit.ErrNotFinite.
func Ply(single unit.LinearDensity, plies int) (unit.LinearDensity, error) {
	if err := check.Above("single", single, 4000*unit.Tex); err != nil {
		return 0, err
	}
	if err := check.Count("plies", plies, 1, 24); err != nil {
		return 0, err
	}
	return single * unit.LinearDensity(plies), nil
}

func finiteAbove(field string, x, most float64) error {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return check.Refuse(field, floatText(x), unit.ErrNotFinite, "a finite count")
	case x <= 0 || x > most:
		return check.Refuse(field, floatText(x), unit.ErrRange, "above zero, at most "+floatText(most))
	}
	return nil
}

func floatText(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
