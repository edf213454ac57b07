package cost

import (
	"strconv"
	"strings"
)

// Grouped writes the amount with its currency for people, with a comma between groups of
// three digits: "1,234.50 USD". The comma is that of the places whose decimals have a
// point, as all figures here have. No file is written so: ParseMoney refuses it.
func (m Money) Grouped() string {
	if m.currency == "" {
		return m.GroupedAmount()
	}
	return m.GroupedAmount() + " " + string(m.currency)
}

// GroupedAmount writes the amount alone as Grouped does, such as "1,234.50".
func (m Money) GroupedAmount() string { return grouped(m.Amount()) }

// Grouped writes the count as String does, with a comma between groups of three digits:
// "2,649 pieces".
func (p Pieces) Grouped() string {
	if p == 1 {
		return p.String()
	}
	return grouped(strconv.FormatInt(int64(p), 10)) + " pieces"
}

// grouped puts commas into the whole part of a number.
func grouped(number string) string {
	digits := strings.TrimPrefix(number, "-")
	whole, frac, point := strings.Cut(digits, ".")
	var b strings.Builder
	b.WriteString(number[:len(number)-len(digits)])
	for i, d := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(d)
	}
	if point {
		b.WriteString("." + frac)
	}
	return b.String()
}
