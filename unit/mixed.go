package unit

import "strconv"

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
// and reduced: "25 5/8 in", "7 1/2 yd", "2 1/2 m". What is no unit of length or
// no denominator gives the text of String.
func (l Length) Mixed(u Length, d Denominator, r Rounding) string {
	sym, ok := lengthSymbols[u]
	if !ok || d > SixtyFourths {
		return l.String()
	}
	var buf [48]byte
	b := append(l.appendMixed(buf[:0], u, d, r), ' ')
	return string(append(b, sym...))
}

// FeetInches writes l in feet and inches, rounded to the given denominator of
// an inch and reduced: `2' 1 5/8"`. Under one foot it writes inches alone. What
// is no denominator gives the text of String.
func (l Length) FeetInches(d Denominator, r Rounding) string {
	if d > SixtyFourths {
		return l.String()
	}
	inches, parts := wholeAndParts(int64(l), int64(Inch), uint64(d.Parts()), r)
	ft, in := inches/12, inches%12
	var buf [48]byte
	b := buf[:0]
	if l < 0 && inches|parts != 0 {
		b = append(b, '-')
	}
	if ft != 0 {
		b = append(strconv.AppendUint(b, ft, 10), '\'')
		if in|parts == 0 {
			return string(b)
		}
		b = append(b, ' ')
	}
	return string(append(appendFraction(b, in, parts, uint64(d.Parts())), '"'))
}

func (l Length) appendMixed(b []byte, u Length, d Denominator, r Rounding) []byte {
	whole, parts := wholeAndParts(int64(l), int64(u), uint64(d.Parts()), r)
	if l < 0 && whole|parts != 0 {
		b = append(b, '-')
	}
	return appendFraction(b, whole, parts, uint64(d.Parts()))
}

// appendFraction writes whole + num/den as 25 5/8; den is a power of two.
func appendFraction(b []byte, whole, num, den uint64) []byte {
	if whole != 0 || num == 0 {
		b = strconv.AppendUint(b, whole, 10)
		if num == 0 {
			return b
		}
		b = append(b, ' ')
	}
	for num%2 == 0 {
		num, den = num/2, den/2
	}
	return strconv.AppendUint(append(strconv.AppendUint(b, num, 10), '/'), den, 10)
}
