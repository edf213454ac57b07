package cost

import (
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// ShopQuantity is Quantity as a shop writes it, in the unit of the price: see
// AnyQuantity.Shop. It tells whether anything was rounded; Cost and Amount come from the
// exact quantity all the same.
func (l QuoteLine) ShopQuantity() (text string, rounded bool) {
	q := l.Exact.Quantity
	switch share, of, ok := strings.Cut(l.Quantity, " of "); {
	case l.Kind == Contingency && ok:
		if m, err := ParseMoney(of); err == nil {
			return share + " of " + m.Grouped(), false
		}
		return l.Quantity, false
	case q.IsZero() || q.is == times:
		return l.Quantity, false
	}
	return q.Shop(l.Exact.Price.Unit())
}

// Shop writes a as a shop does, in units of the kind that per is of, which is mostly the
// unit of a price, and tells whether anything was rounded. It is rounded up alone, so
// that nobody buys by it too little:
//
//	a length  in yards with eighths and thirds, in feet with eighths, or in metres to the centimetre
//	an area   to a tenth of a square foot, a hundredth of a square yard or of a square metre
//	a volume  to a tenth of a board foot or of a litre, or to a hundredth of a gallon
//	a mass    to a hundredth of a pound or of a kilogram
//
// Thousands have commas, as of Money.Grouped.
//
// Where per is nothing, or of another kind, it is in yards, square feet, board feet and
// pounds. A time is written as it is.
func (a AnyQuantity) Shop(per AnyQuantity) (text string, rounded bool) {
	if per.is != a.is {
		per = AnyQuantity{}
	}
	switch a.is {
	case lengths:
		text, rounded = shopLength(unit.Length(a.n), unit.Length(per.n))
	case areas:
		text, rounded = shopArea(unit.Area(a.n), unit.Area(per.n))
	case volumes:
		text, rounded = shopVolume(unit.Volume(a.n), unit.Volume(per.n))
	case masses:
		text, rounded = shopMass(unit.Mass(a.n), unit.Mass(per.n))
	case counts:
		return Pieces(a.n).Grouped(), false
	default:
		return a.String(), false
	}
	number, rest, _ := strings.Cut(text, " ")
	return grouped(number) + " " + rest, rounded
}

const (
	// tinyMass and tinyVolume are what steps that are no whole number of the smallest part
	// may be off by: a milligram, and a microlitre.
	tinyMass   = unit.Milligram
	tinyVolume = unit.Volume(1000)
)

func shopLength(l, per unit.Length) (string, bool) {
	switch {
	case per != 0 && per%unit.Millimetre == 0 && per%unit.Inch != 0:
		return l.Decimal(unit.Metre, 2, unit.Up), l%unit.Centimetre != 0
	case per == unit.Foot:
		return l.Mixed(unit.Foot, unit.Eighths, unit.Up), l%(unit.Foot/8) != 0
	}
	return l.Yardage(unit.Up), l%(unit.Yard/8) != 0 && l%unit.Foot != 0
}

func shopMass(m, per unit.Mass) (string, bool) {
	of := unit.Pound
	if per != 0 && per%unit.Gram == 0 {
		of = unit.Kilogram
	}
	// A hundredth of a pound is a whole number of micrograms only ten at a time.
	return trimmed((m - tinyMass).Decimal(of, 2, unit.Up)), off(int64(m), int64(of), 100, int64(tinyMass))
}

func shopArea(a, per unit.Area) (string, bool) {
	switch {
	case per != 0 && per%unit.SquareCentimetre == 0 && per%unit.SquareInch != 0:
		return a.Decimal(unit.SquareMetre, 2, unit.Up), a%(unit.SquareMetre/100) != 0
	case per == unit.SquareYard:
		return trimmed(a.Decimal(unit.SquareYard, 2, unit.Up)), off(int64(a), int64(unit.SquareYard), 100, 0)
	}
	return a.Decimal(unit.SquareFoot, 1, unit.Up), off(int64(a), int64(unit.SquareFoot), 10, 0)
}

func shopVolume(v, per unit.Volume) (string, bool) {
	switch {
	case per == unit.USGallon:
		return trimmed((v - tinyVolume).Decimal(unit.USGallon, 2, unit.Up)), off(int64(v), int64(unit.USGallon), 100, int64(tinyVolume))
	case per != 0 && (per%unit.Litre == 0 || unit.Litre%per == 0):
		return v.Decimal(unit.Litre, 1, unit.Up), off(int64(v), int64(unit.Litre), 10, 0)
	}
	// A tenth of a board foot is no whole number of nanolitres.
	return v.Decimal(unit.BoardFoot, 1, unit.Up), off(int64(v), int64(unit.BoardFoot), 10, 0)
}

// off tells whether n is further than tiny from every whole one of so many parts of a
// unit.
func off(n, unit, parts, tiny int64) bool {
	rest := n % unit * parts % unit
	return min(rest, unit-rest) > tiny*parts
}

// trimmed leaves out the zeros at the end of a decimal.
func trimmed(text string) string {
	number, u, _ := strings.Cut(text, " ")
	if strings.Contains(number, ".") {
		number = strings.TrimSuffix(strings.TrimRight(number, "0"), ".")
	}
	return number + " " + u
}
