package unit

import "strconv"

// shopParts are the fractions of a yard that shops measure and sell by, in
// twenty-fourths: eighths and thirds.
var shopParts = [...]Length{0, 3, 6, 8, 9, 12, 15, 16, 18, 21, 24}

// Yardage writes l as a shop writes cloth and cord: in yards with eighths and thirds,
// such as "9 1/4 yd" and "19 2/3 yd". Up gives the next of these that is not shorter
// than l, Down the next that is not longer, Nearest the nearer one; a tie goes away
// from zero.
func (l Length) Yardage(r Rounding) string {
	sign := ""
	whole, rest := l/Yard, l%Yard
	if rest < 0 || whole < 0 {
		sign, whole, rest = "-", -whole, -rest
		switch r {
		case Up:
			r = Down
		case Down:
			r = Up
		}
	}
	const part = Yard / 24
	above := 0
	for shopParts[above]*part < rest {
		above++
	}
	n := shopParts[above]
	if n*part != rest {
		below := shopParts[above-1]
		if r == Down || r == Nearest && rest-below*part < n*part-rest {
			n = below
		}
	}
	whole, n = whole+n/24, n%24
	if whole == 0 && n == 0 {
		sign = ""
	}
	b := append([]byte(nil), sign...)
	if whole != 0 || n == 0 {
		b = strconv.AppendInt(b, int64(whole), 10)
	}
	if n != 0 {
		if whole != 0 {
			b = append(b, ' ')
		}
		den := Length(24)
		for _, f := range [...]Length{2, 2, 2, 3} {
			if n%f == 0 && den%f == 0 {
				n, den = n/f, den/f
			}
		}
		b = append(strconv.AppendInt(b, int64(n), 10), '/')
		b = strconv.AppendInt(b, int64(den), 10)
	}
	return string(b) + " yd"
}
