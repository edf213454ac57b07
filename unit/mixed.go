package unit

import (
	"math/big"
	"strconv"
)

// Denominator is the finest fraction a length is written with. The zero value
// is Whole: no fraction.
type Denominator uint8

// The fractions of a tape measure.
const (
	Whole Denominator = iota
	Halves
	Quarters
	Eighths
	Sixteenths
	ThirtySeconds
	SixtyFourths
)

// Parts gives 1, 2, 4, … 64.
func (d Denominator) Parts() int { return 1 << min(d, SixtyFourths) }

// Mixed writes l as a mixed fraction of u, rounded to the given denominator
// and reduced: "25 5/8 in", "7 1/2 yd". The unit is Inch, Foot or Yard.
func (l Length) Mixed(u Length, d Denominator, r Rounding) string {
	if u != Inch && u != Foot && u != Yard || d > SixtyFourths {
		return badVerb("Length.Mixed")
	}
	n, neg := l.parts(u, d, r)
	return mixedText(n, int64(d.Parts()), neg) + " " + lengthSymbols[u]
}

// FeetInches writes l in feet and inches, rounded to the given denominator of
// an inch and reduced: `2' 1 5/8"`. Under one foot it writes inches alone.
func (l Length) FeetInches(d Denominator, r Rounding) string {
	if d > SixtyFourths {
		return badVerb("Length.FeetInches")
	}
	n, neg := l.parts(Inch, d, r)
	p := uint64(d.Parts())
	ft, rest := n/(12*p), n%(12*p)
	if ft == 0 {
		return mixedText(rest, int64(p), neg) + `"`
	}
	s := strconv.FormatUint(ft, 10) + "'"
	if neg {
		s = "-" + s
	}
	if rest > 0 {
		s += " " + mixedText(rest, int64(p), false) + `"`
	}
	return s
}

// parts gives |l| in parts of u, rounded with its sign.
func (l Length) parts(u Length, d Denominator, r Rounding) (n uint64, neg bool) {
	x := big.NewRat(int64(l), int64(u))
	q := roundRat(x.Mul(x, big.NewRat(int64(d.Parts()), 1)), r).Int64() // |l|*64/u fits: u > 64
	return abs(q), q < 0
}

// mixedText writes n/den as 25 5/8.
func mixedText(n uint64, den int64, neg bool) string {
	d := uint64(den)
	whole, num := n/d, n%d
	for num > 0 && num%2 == 0 {
		num, d = num/2, d/2
	}
	s := ""
	if neg {
		s = "-"
	}
	switch {
	case num == 0:
		return s + strconv.FormatUint(whole, 10)
	case whole == 0:
		return s + strconv.FormatUint(num, 10) + "/" + strconv.FormatUint(d, 10)
	}
	return s + strconv.FormatUint(whole, 10) + " " + strconv.FormatUint(num, 10) + "/" + strconv.FormatUint(d, 10)
}
