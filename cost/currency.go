package cost

import (
	"fmt"
	"sort"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Currency is an ISO 4217 code such as "USD". The zero value is no currency.
// A code is checked where money is made of it.
type Currency string

// The currencies that examples and tests use; every code of the list works.
const (
	AUD Currency = "AUD"
	CAD Currency = "CAD"
	CHF Currency = "CHF"
	EUR Currency = "EUR"
	GBP Currency = "GBP"
	JPY Currency = "JPY"
	KWD Currency = "KWD"
	NZD Currency = "NZD"
	SEK Currency = "SEK"
	USD Currency = "USD"
)

// Currencies gives every code of the list in alphabetical order, also those
// without a minor unit.
func Currencies() []Currency {
	out := make([]Currency, len(currencies))
	for i, r := range currencies {
		out[i] = Currency(r.code)
	}
	return out
}

// ParseCurrency reads a code in capitals. It wraps unit.ErrUnknown.
func ParseCurrency(code string) (Currency, error) {
	c := Currency(code)
	_, err := c.row()
	return c, err
}

func (c Currency) row() (currencyRow, error) {
	i := sort.Search(len(currencies), func(i int) bool { return currencies[i].code >= string(c) })
	if i < len(currencies) && currencies[i].code == string(c) {
		return currencies[i], nil
	}
	if c == "" {
		return currencyRow{}, check.Refuse("currency", "", ErrNoCurrency, "an ISO 4217 code such as USD")
	}
	return currencyRow{}, check.Refuse("currency", string(c), unit.ErrUnknown, "an ISO 4217 code such as USD")
}

// Digits gives the digits of the minor unit: 2 for USD, 0 for JPY, 3 for KWD.
// It wraps unit.ErrUnknown for a code that is not in the list and
// unit.ErrRange for one that has no minor unit, such as XAU.
func (c Currency) Digits() (int, error) {
	r, err := c.row()
	if err != nil {
		return 0, err
	}
	if r.digits == noDigits {
		return 0, check.Refuse("currency", string(c), unit.ErrRange, "a currency with a minor unit")
	}
	return r.digits, nil
}

// Name gives the English name, or "" for an unknown code.
func (c Currency) Name() string {
	r, err := c.row()
	if err != nil {
		return ""
	}
	return r.name
}

// Numeric gives the three digits of the numeric code, or "" for an unknown
// code.
func (c Currency) Numeric() string {
	r, err := c.row()
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%03d", r.numeric)
}

// MarshalText writes the code. It wraps unit.ErrUnknown.
func (c Currency) MarshalText() ([]byte, error) {
	if c == "" {
		return []byte{}, nil
	}
	_, err := c.row()
	return []byte(c), err
}

// UnmarshalText reads a code as ParseCurrency does; empty text is no currency.
func (c *Currency) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = ""
		return nil
	}
	v, err := ParseCurrency(strings.TrimSpace(string(text)))
	if err == nil {
		*c = v
	}
	return err
}
