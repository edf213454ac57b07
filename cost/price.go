package cost

import (
	"math/big"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Pieces counts things sold one by one: a set of legs, a seat, a delivery.
type Pieces int64

// String writes the count, such as "6 pieces".
func (p Pieces) String() string {
	if p == 1 {
		return "1 piece"
	}
	return strconv.FormatInt(int64(p), 10) + " pieces"
}

// Quantity is what can have a price: lengths, areas, volumes, masses, working
// time and pieces, all exact.
type Quantity interface {
	unit.Length | unit.Area | unit.Volume | unit.Mass | unit.Duration | Pieces
	String() string // with its unit
}

// Price is money for a quantity of one kind: 42.00 USD per yard. A price per
// area takes an area and nothing else; anything else does not compile.
// The zero value is no price and is refused.
type Price[Q Quantity] struct {
	amount Money
	per    Q
}

type (
	// LengthPrice is cloth by the yard or metre.
	LengthPrice = Price[unit.Length]
	// AreaPrice is leather by the square foot or square decimetre.
	AreaPrice = Price[unit.Area]
	// VolumePrice is foam by the board foot, glue by the litre.
	VolumePrice = Price[unit.Volume]
	// MassPrice is what is weighed: thread, loose filling.
	MassPrice = Price[unit.Mass]
	// HourPrice is work by the hour.
	HourPrice = Price[unit.Duration]
	// PiecePrice is what is counted.
	PiecePrice = Price[Pieces]
)

// Per gives the price of amount for each per, such as 42 USD for unit.Yard.
// The amount may be finer than the minor unit and may be zero but not
// negative; per must be above zero. It wraps ErrNoCurrency or unit.ErrRange.
func Per[Q Quantity](amount Money, per Q) (Price[Q], error) {
	if amount.currency == "" {
		return Price[Q]{}, refuse("amount", "", ErrNoCurrency, "an amount such as 42.00 USD")
	}
	if amount.Sign() < 0 {
		return Price[Q]{}, refuse("amount", amount.String(), unit.ErrRange, "an amount that is not negative")
	}
	if per <= 0 {
		return Price[Q]{}, refuse("per", per.String(), unit.ErrRange, "a quantity above zero, such as 1 yd")
	}
	if l, ok := any(per).(unit.Length); ok && l.Forgotten() {
		return Price[Q]{}, refuse("per", strconv.FormatInt(int64(per), 10), unit.ErrForgottenUnit, "a length with its unit, such as unit.Yard")
	}
	return Price[Q]{amount, per}, nil
}

// Amount gives the money and Unit the quantity it is for.
func (p Price[Q]) Amount() Money { return p.amount }

// Unit gives the quantity the amount is for.
func (p Price[Q]) Unit() Q { return p.per }

// Of gives the price of a quantity, rounded once to the minor unit. The
// quantity must not be negative; it wraps unit.ErrRange, unit.ErrForgottenUnit,
// unit.ErrRequired for the zero price, ErrMode or unit.ErrOverflow.
func (p Price[Q]) Of(q Q, mode Rounding) (Money, error) {
	x, err := p.of(q)
	if err != nil {
		return Money{}, err
	}
	return rounded(x, p.amount.currency, mode)
}

// Exact gives the price of a quantity before it is rounded. Errors are those
// of Of.
func (p Price[Q]) Exact(q Q) (*big.Rat, error) {
	x, err := p.of(q)
	if err != nil {
		return nil, err
	}
	return x.Big(), nil
}

// of gives the exact price: amount × q / per.
func (p Price[Q]) of(q Q) (exact.Rat, error) {
	if p.per <= 0 {
		return exact.Rat{}, refuse("price", "", unit.ErrRequired, "a price such as 42.00 USD/yd")
	}
	if q < 0 {
		return exact.Rat{}, refuse("quantity", q.String(), unit.ErrRange, "a quantity that is not negative")
	}
	if l, ok := any(q).(unit.Length); ok && l.Forgotten() {
		return exact.Rat{}, refuse("quantity", strconv.FormatInt(int64(q), 10), unit.ErrForgottenUnit, "a length with its unit, such as 22*unit.Inch")
	}
	return p.amount.amount.Mul(exact.New(int64(q), int64(p.per))), nil
}

// unitNames gives the short name of the quantities prices are usually for.
// A name must read back to the quantity with one in front of it.
func unitNames[Q Quantity]() []namedQuantity[Q] {
	var names any
	var q Q
	switch any(q).(type) {
	case unit.Length:
		names = []namedQuantity[unit.Length]{{unit.Yard, "yd"}, {unit.Metre, "m"}, {unit.Foot, "ft"}, {unit.Inch, "in"}, {unit.Centimetre, "cm"}, {unit.Millimetre, "mm"}}
	case unit.Area:
		names = []namedQuantity[unit.Area]{{unit.SquareFoot, "sq ft"}, {unit.SquareDecimetre, "dm2"}, {unit.SquareMetre, "m2"}, {unit.SquareYard, "sq yd"}, {unit.SquareInch, "sq in"}, {unit.SquareCentimetre, "cm2"}}
	case unit.Volume:
		names = []namedQuantity[unit.Volume]{{unit.BoardFoot, "bd ft"}, {unit.CubicFoot, "cu ft"}, {unit.CubicInch, "cu in"}, {unit.CubicYard, "cu yd"}, {unit.Litre, "l"}, {unit.CubicMetre, "m3"}, {unit.USGallon, "gal"}}
	case unit.Mass:
		names = []namedQuantity[unit.Mass]{{unit.Pound, "lb"}, {unit.Kilogram, "kg"}, {unit.Gram, "g"}}
	case unit.Duration:
		names = []namedQuantity[unit.Duration]{{unit.Hour, "h"}, {unit.Minute, "min"}}
	case Pieces:
		names = []namedQuantity[Pieces]{{1, "piece"}}
	}
	list, _ := names.([]namedQuantity[Q])
	return list
}

type namedQuantity[Q Quantity] struct {
	size Q
	name string
}

// quantityText writes a quantity in the unit of a price: exactly where four
// places will do ("7.25 yd"), else to three places. Amounts come from the exact
// quantity.
func (p Price[Q]) quantityText(q Q) string {
	for _, n := range unitNames[Q]() {
		if n.size != p.per {
			continue
		}
		x := exact.New(int64(q), int64(p.per))
		if !scaled(x, 4).IsInt() {
			return exact.TrimZeros(x.FloatString(3)) + " " + n.name
		}
		if _, piece := any(q).(Pieces); piece {
			return q.String()
		}
		return exact.TrimZeros(x.FloatString(4)) + " " + n.name
	}
	return q.String()
}

// String writes the price without loss, such as "42.00 USD/yd".
func (p Price[Q]) String() string {
	if p.per <= 0 {
		return "no price"
	}
	for _, n := range unitNames[Q]() {
		if n.size == p.per {
			return p.amount.String() + "/" + n.name
		}
	}
	return p.amount.String() + "/" + p.per.String()
}

// MarshalText writes the price as String does; the zero value is an empty
// text.
func (p Price[Q]) MarshalText() ([]byte, error) {
	if p.per <= 0 {
		return []byte{}, nil
	}
	return []byte(p.String()), nil
}

// UnmarshalText reads a price as ParsePrice does; empty text is the zero
// value.
func (p *Price[Q]) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*p = Price[Q]{}
		return nil
	}
	v, err := ParsePrice[Q](string(text))
	if err == nil {
		*p = v
	}
	return err
}

// ParsePrice reads a price such as "42.00 USD/yd", "9.80 USD/sq ft",
// "64.55 USD/h" or "18 USD/5 lb". It wraps what NewMoney, Per and the parser
// of the quantity wrap.
func ParsePrice[Q Quantity](s string) (Price[Q], error) {
	money, per, ok := strings.Cut(s, "/")
	if !ok || len(s) > maxText {
		return Price[Q]{}, refuse("", s, unit.ErrSyntax, "a price such as "+priceExample[Q]())
	}
	m, err := ParseMoney(money)
	if err != nil {
		return Price[Q]{}, err
	}
	per = strings.TrimSpace(per)
	if per == "" || !isDigits(per[:1]) {
		per = "1 " + per
	}
	q, err := parseQuantity[Q](per)
	if err != nil {
		return Price[Q]{}, unit.InField("per", err)
	}
	return Per(m, q)
}

func priceExample[Q Quantity]() string {
	return "12.50 USD/" + unitNames[Q]()[0].name
}

// parseQuantity reads a quantity of the wanted kind.
func parseQuantity[Q Quantity](s string) (Q, error) {
	var v any
	var err error
	var q Q
	switch any(q).(type) {
	case unit.Length:
		v, err = unit.ParseLength(s)
	case unit.Area:
		v, err = unit.ParseArea(s)
	case unit.Volume:
		v, err = unit.ParseVolume(s)
	case unit.Mass:
		v, err = unit.ParseMass(s)
	case unit.Duration:
		v, err = unit.ParseDuration(s)
	case Pieces:
		v, err = parsePieces(s)
	}
	if err != nil {
		return 0, err
	}
	q, _ = v.(Q)
	return q, nil
}

// parsePieces reads "6", "6 pieces", "1 piece", "2 pcs" or "1 each".
func parsePieces(s string) (Pieces, error) {
	count, name, _ := strings.Cut(strings.TrimSpace(s), " ")
	n, err := strconv.ParseInt(count, 10, 64)
	if err != nil || n < 0 {
		return 0, refuse("", s, unit.ErrSyntax, "a whole number of pieces, such as 6 pieces")
	}
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "", "piece", "pieces", "pc", "pcs", "each":
		return Pieces(n), nil
	}
	return 0, refuse("", s, unit.ErrUnknownUnit, "pieces")
}

// MarshalText writes the count as String does.
func (p Pieces) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads a count such as "6 pieces" or "6".
func (p *Pieces) UnmarshalText(text []byte) error {
	v, err := parsePieces(string(text))
	if err == nil {
		*p = v
	}
	return err
}
