package workbook

import (
	"fmt"
	"math"
	"strings"

	"github.com/coverwright/coverwright/cost"
)

// coins are the minor units of a currency, and how amounts are rounded to
// them.
type coins struct {
	digits int
	mode   cost.Rounding
}

func (c coins) step() float64 { return math.Pow10(-c.digits) }

func (c coins) format() string {
	if c.digits == 0 {
		return "#,##0"
	}
	return "#,##0." + strings.Repeat("0", c.digits)
}

// whole gives the formula that rounds x to a whole number the way of the mode.
// The noise of binary fractions is taken off first, so that half a cent is
// half a cent.
func (c coins) whole(x string) string {
	s := "ROUND(" + x + ",6)"
	switch c.mode {
	case cost.HalfEven:
		return fmt.Sprintf("IF(MOD(ABS(%[1]s),1)=0.5,2*ROUND(%[1]s/2,0),ROUND(%[1]s,0))", s)
	case cost.HalfDown:
		return fmt.Sprintf("SIGN(%[1]s)*-INT(-MAX(0,ABS(%[1]s)-0.5))", s)
	case cost.Up:
		return fmt.Sprintf("SIGN(%[1]s)*-INT(-ABS(%[1]s))", s)
	case cost.Down:
		return fmt.Sprintf("SIGN(%[1]s)*INT(ABS(%[1]s))", s)
	case cost.Ceiling:
		return "-INT(-" + s + ")"
	case cost.Floor:
		return "INT(" + s + ")"
	}
	return "ROUND(" + s + ",0)"
}

// round gives the formula that rounds an amount to the minor unit.
func (c coins) round(x string) string {
	if c.digits == 0 {
		return c.whole(x)
	}
	n := fmt.Sprint(math.Pow10(c.digits))
	return c.whole("("+x+")*"+n) + "/" + n
}

// rounded is what the formula of round gives.
func (c coins) rounded(x float64) float64 {
	n := math.Pow10(c.digits)
	m := math.Round(x*n*1e6) / 1e6
	size, sign := math.Abs(m), 1.0
	if m < 0 {
		sign = -1
	}
	switch c.mode {
	case cost.HalfEven:
		m = math.RoundToEven(m)
	case cost.HalfDown:
		m = sign * math.Ceil(max(0, size-0.5))
	case cost.Up:
		m = sign * math.Ceil(size)
	case cost.Down:
		m = sign * math.Floor(size)
	case cost.Ceiling:
		m = math.Ceil(m)
	case cost.Floor:
		m = math.Floor(m)
	case cost.HalfUp:
		m = math.Round(m)
	}
	return m / n
}

// minor gives the number of minor units in a major one, as text.
func (c coins) minor() string { return fmt.Sprint(math.Pow10(c.digits)) }

// figure is an amount as a number.
func figure(m cost.Money) float64 {
	var x float64
	if _, err := fmt.Sscan(m.Amount(), &x); err != nil {
		return 0 // the zero value has no amount
	}
	return x
}

// share gives the formula for one part of a split by largest remainder: the
// exact shares stand in minor units in a range, of which cell is one; the
// parts add up to whole. Equal remainders go to the earlier part.
func share(cell, all, upTo, whole string) string {
	rest := func(r string) string { return "ROUND(" + r + "-INT(" + r + "),6)" }
	return fmt.Sprintf("(INT(%[1]s)+IF(SUMPRODUCT((%[2]s>%[3]s)*1)+SUMPRODUCT((%[4]s=%[3]s)*1)<=ROUND(%[5]s-SUMPRODUCT(INT(%[6]s)),0),1,0))",
		cell, rest(all), rest(cell), rest(upTo), whole, all)
}
