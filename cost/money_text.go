package cost

import (
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

const (
	mostDigits = 15 // before the point
	// amountPlaces is the most digits after the point of any amount.
	amountPlaces = 12
	maxText      = 160 // bounds the work of reading hostile text
)

// ParseMoney reads an amount with its currency, such as "12.50 USD". Errors
// are those of NewMoney.
func ParseMoney(s string) (Money, error) {
	amount, code, ok := strings.Cut(strings.TrimSpace(s), " ")
	if !ok || len(s) > maxText {
		return Money{}, check.Refuse("", s, unit.ErrSyntax, "an amount and a currency, such as 12.50 USD")
	}
	m, err := NewMoney(amount, Currency(strings.TrimSpace(code)))
	return m, unit.InField("", err)
}

// parseAmount reads a plain decimal number.
func parseAmount(s string) (exact.Rat, error) {
	bad := func(err error, want string) (exact.Rat, error) {
		return exact.Rat{}, check.Refuse("amount", s, err, want)
	}
	if strings.Contains(s, ",") {
		return bad(unit.ErrDecimalComma, "a decimal point and no thousands sign, such as 1250.50")
	}
	digits := strings.TrimPrefix(s, "-")
	if len(digits) == len(s) {
		digits = strings.TrimPrefix(s, "+")
	}
	whole, frac, point := strings.Cut(digits, ".")
	if whole == "" || point && frac == "" || !isDigits(whole) || !isDigits(frac) || len(s) > maxText {
		return bad(unit.ErrSyntax, "an amount such as 12.50")
	}
	if len(frac) > amountPlaces {
		return bad(unit.ErrSyntax, "at most 12 digits after the point")
	}
	if whole = strings.TrimLeft(whole, "0"); len(whole) > mostDigits {
		return bad(unit.ErrOverflow, "an amount under 1000000000000000")
	}
	x := exact.Int(number(whole)).Add(exact.New(number(frac), powers[len(frac)]))
	if s[0] == '-' {
		x = x.Neg()
	}
	return x, nil
}

// number reads up to 15 digits.
func number(digits string) int64 {
	n := int64(0)
	for i := range len(digits) {
		n = 10*n + int64(digits[i]-'0')
	}
	return n
}

func isDigits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// Amount gives the amount alone, such as "12.50": with the digits of the minor
// unit, and more only where the amount has more.
func (m Money) Amount() string {
	var buf [40]byte
	return string(m.appendAmount(buf[:0]))
}

func (m Money) appendAmount(buf []byte) []byte {
	digits, err := m.currency.Digits()
	if err != nil {
		return append(buf, '0')
	}
	return m.amount.Append(buf, max(digits, m.amount.Places(amountPlaces)))
}

// append appends what String writes.
func (m Money) append(buf []byte) []byte {
	if buf = m.appendAmount(buf); m.currency == "" {
		return buf
	}
	return append(append(buf, ' '), m.currency...)
}

// String writes the amount with its currency, such as "12.50 USD", without
// loss. The zero value is "0".
func (m Money) String() string {
	var buf [48]byte
	return string(m.append(buf[:0]))
}

// MarshalText writes m as String does; the zero value is an empty text.
func (m Money) MarshalText() ([]byte, error) {
	if m.currency == "" {
		return []byte{}, nil
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads m as ParseMoney does; empty text is the zero value.
func (m *Money) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*m = Money{}
		return nil
	}
	v, err := ParseMoney(string(text))
	if err == nil {
		*m = v
	}
	return err
}
