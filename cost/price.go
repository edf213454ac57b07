package cost

import (
	"errors"
	"math/big"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

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

// AnyPrice is a price for a quantity of any kind, for lists that hold several.
// Price.Any makes one, PriceAs gives it back as what it is. The zero value is
// no price. In JSON it is text without loss, such as "42.00 USD/yd". A price with
// another amount is read from such text: the amount, a stroke and AnyPrice.UnitText.
type AnyPrice struct {
	amount Money
	per    AnyQuantity
}

// Per gives the price of amount for each per, such as 42 USD for unit.Yard.
// The amount may be finer than the minor unit and may be zero but not
// negative; per must be above zero. It wraps ErrNoCurrency or unit.ErrRange.
func Per[Q Quantity](amount Money, per Q) (Price[Q], error) {
	if err := (AnyPrice{amount, AnyOf(per)}).check(); err != nil {
		return Price[Q]{}, err
	}
	return Price[Q]{amount, per}, nil
}

func (p AnyPrice) check() error {
	switch {
	case p.amount.currency == "":
		return check.Refuse("amount", "", ErrNoCurrency, "an amount such as 42.00 USD")
	case p.amount.Sign() < 0:
		return check.Refuse("amount", p.amount.String(), unit.ErrRange, "an amount that is not negative")
	case p.per.n <= 0:
		return check.Refuse("per", p.per.String(), unit.ErrRange, "a quantity above zero, such as 1 yd")
	}
	return p.per.hasUnit("per")
}

// Any gives p without its kind in the type.
func (p Price[Q]) Any() AnyPrice {
	if p.per <= 0 {
		return AnyPrice{}
	}
	return AnyPrice{p.amount, AnyOf(p.per)}
}

// PriceAs gives p as a price for the quantity Q. It wraps unit.ErrUnknownUnit
// for a price of another quantity and unit.ErrRequired for no price.
func PriceAs[Q Quantity](p AnyPrice) (Price[Q], error) {
	per, ok := QuantityAs[Q](p.per)
	switch {
	case p.per.IsZero():
		return Price[Q]{}, check.Refuse("price", "", unit.ErrRequired, "a price such as "+measureOf[Q]().example())
	case !ok:
		return Price[Q]{}, check.Refuse("price", p.String(), unit.ErrUnknownUnit, "a price such as "+measureOf[Q]().example())
	}
	return Price[Q]{p.amount, per}, nil
}

// Amount gives the money, and Unit the quantity it is for.
func (p Price[Q]) Amount() Money { return p.amount }

// Unit gives the quantity the amount is for.
func (p Price[Q]) Unit() Q { return p.per }

// Amount gives the money, and Unit the quantity it is for.
func (p AnyPrice) Amount() Money { return p.amount }

// Unit gives the quantity the amount is for.
func (p AnyPrice) Unit() AnyQuantity { return p.per }

// UnitText writes what the amount is for, such as "yd" or "5 lb".
func (p AnyPrice) UnitText() string {
	if name := p.unitName(); name != "" {
		return name
	}
	return p.per.String()
}

// IsZero tells whether p is no price; 0 USD/yd is one.
func (p AnyPrice) IsZero() bool { return p.per.IsZero() }

// Of gives the price of a quantity, rounded once to the minor unit. The
// quantity must not be negative; it wraps unit.ErrRange, unit.ErrForgottenUnit,
// unit.ErrRequired for the zero price, ErrMode or unit.ErrOverflow.
func (p Price[Q]) Of(q Q, mode Rounding) (Money, error) {
	x, err := p.Any().of(AnyOf(q))
	if err != nil {
		return Money{}, err
	}
	return rounded(x, p.amount.currency, mode)
}

// Exact gives the price of a quantity before it is rounded. Errors are those
// of Of.
func (p Price[Q]) Exact(q Q) (*big.Rat, error) {
	x, err := p.Any().of(AnyOf(q))
	if err != nil {
		return nil, err
	}
	return x.Big(), nil
}

// of gives the exact price: amount × q / per.
func (p AnyPrice) of(q AnyQuantity) (exact.Rat, error) {
	switch {
	case p.per.n <= 0:
		return exact.Rat{}, check.Refuse("price", "", unit.ErrRequired, "a price such as 42.00 USD/yd")
	case q.is != p.per.is:
		return exact.Rat{}, check.Refuse("quantity", q.String(), unit.ErrUnknownUnit, "a quantity of what the price "+p.String()+" is for")
	case q.n < 0:
		return exact.Rat{}, check.Refuse("quantity", q.String(), unit.ErrRange, "a quantity that is not negative")
	}
	if err := q.hasUnit("quantity"); err != nil {
		return exact.Rat{}, err
	}
	return p.amount.amount.Mul(exact.New(q.n, p.per.n)), nil
}

// unitName gives the short name of what the price is for, or "".
func (p AnyPrice) unitName() string {
	if int(p.per.is) < len(unitNames) {
		for _, u := range unitNames[p.per.is] {
			if u.size == p.per.n {
				return u.name
			}
		}
	}
	return ""
}

// quantityText writes a quantity in the unit of a price: exactly where four
// places will do ("7.25 yd"), else to three places. Amounts come from the exact
// quantity.
func (p AnyPrice) quantityText(q AnyQuantity) string {
	name := p.unitName()
	x := exact.Rat{}
	places := 4
	if name != "" {
		x = exact.New(q.n, p.per.n)
		if !scaled(x, places).IsInt() {
			places = 3
		}
	}
	if name == "" || q.is == counts {
		return q.String()
	}
	var buf [64]byte
	s := x.Append(buf[:0], min(places, x.Places(places)))
	if places == 3 {
		s = exact.TrimZeroBytes(s)
	}
	return string(append(append(s, ' '), name...))
}

// String writes the price without loss, such as "42.00 USD/yd".
func (p Price[Q]) String() string { return p.Any().String() }

// String writes the price without loss, such as "42.00 USD/yd".
func (p AnyPrice) String() string {
	if p.per.n <= 0 {
		return "no price"
	}
	var buf [64]byte
	return string(append(append(p.amount.append(buf[:0]), '/'), p.UnitText()...))
}

// MarshalText writes the price as String does; the zero value is an empty
// text.
func (p Price[Q]) MarshalText() ([]byte, error) { return p.Any().MarshalText() }

// MarshalText writes the price as String does; the zero value is an empty
// text.
func (p AnyPrice) MarshalText() ([]byte, error) {
	if p.per.n <= 0 {
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

// UnmarshalText reads a price whose quantity is told by its unit; empty text
// is the zero value. It wraps what ParsePrice wraps.
func (p *AnyPrice) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*p = AnyPrice{}
		return nil
	}
	v, err := parseAnyPrice(string(text))
	if err == nil {
		*p = v
	}
	return err
}

// ParsePrice reads a price such as "42.00 USD/yd", "9.80 USD/sq ft",
// "64.55 USD/h" or "18 USD/5 lb". It wraps what NewMoney, Per and the parser
// of the quantity wrap.
func ParsePrice[Q Quantity](s string) (Price[Q], error) {
	p, err := parsePrice(s, measureOf[Q]())
	return Price[Q]{p.amount, Q(p.per.n)}, err
}

func parsePrice(s string, m measure) (AnyPrice, error) {
	money, per, ok := strings.Cut(s, "/")
	if !ok || len(s) > maxText {
		return AnyPrice{}, check.Refuse("", s, unit.ErrSyntax, "a price such as "+m.example())
	}
	amount, err := ParseMoney(money)
	if err != nil {
		return AnyPrice{}, err
	}
	n, err := m.parsePer(strings.TrimSpace(per))
	if err != nil {
		return AnyPrice{}, unit.InField("per", err)
	}
	p := AnyPrice{amount, AnyQuantity{n, m}}
	if err := p.check(); err != nil {
		return AnyPrice{}, err
	}
	return p, nil
}

// parsePer reads what a price is for: "yd", or "5 lb".
func (m measure) parsePer(s string) (int64, error) {
	for _, u := range unitNames[m] {
		if u.name == s {
			return u.size, nil
		}
	}
	if s == "" || !isDigits(s[:1]) {
		s = "1 " + s
	}
	return m.parse(s)
}

func (m measure) example() string { return "12.50 USD/" + unitNames[m][0].name }

// parseAnyPrice reads a price whose quantity is told by its unit.
func parseAnyPrice(s string) (AnyPrice, error) {
	money, per, ok := strings.Cut(s, "/")
	if !ok || strings.TrimSpace(per) == "" {
		return AnyPrice{}, check.Refuse("", s, unit.ErrMissingUnit, "a price such as 42.00 USD/yd")
	}
	if _, err := ParseMoney(money); err != nil {
		return AnyPrice{}, err
	}
	for m := lengths; m <= counts; m++ {
		p, err := parsePrice(s, m)
		if err == nil || wrongSize(err) {
			return p, err
		}
	}
	return AnyPrice{}, check.Refuse("", s, unit.ErrUnknownUnit, "a price per yd, m, sq ft, dm2, m2, bd ft, l, lb, kg, h, piece or the like")
}

// wrongSize tells whether the unit was right and the number is not.
func wrongSize(err error) bool {
	for _, sentinel := range []error{unit.ErrRange, unit.ErrForgottenUnit, unit.ErrOverflow} {
		if errors.Is(err, sentinel) {
			return true
		}
	}
	return false
}
