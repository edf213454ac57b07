package job

import (
	"errors"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// GoodsPrice is what goods cost: per length from a roll or per area as hides,
// one of the two. As text it is "68.00 USD/yd" or "9.50 USD/sq ft". The zero
// value is no price.
type GoodsPrice struct {
	PerLength cost.LengthPrice
	PerArea   cost.AreaPrice
}

// IsZero tells whether there is no price.
func (p GoodsPrice) IsZero() bool { return p.PerLength.Unit() == 0 && p.PerArea.Unit() == 0 }

// MarshalText writes the price as UnmarshalText reads it.
func (p GoodsPrice) MarshalText() ([]byte, error) {
	if p.PerArea.Unit() != 0 {
		return p.PerArea.MarshalText()
	}
	return p.PerLength.MarshalText()
}

// UnmarshalText reads a price per length or per area; empty text is no price.
// Errors are those of cost.ParsePrice.
func (p *GoodsPrice) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*p = GoodsPrice{}
		return nil
	}
	length, err := cost.ParsePrice[unit.Length](string(text))
	if err == nil {
		*p = GoodsPrice{PerLength: length}
		return nil
	}
	area, areaErr := cost.ParsePrice[unit.Area](string(text))
	if areaErr == nil {
		*p = GoodsPrice{PerArea: area}
		return nil
	}
	var in *unit.InputError
	if errors.As(err, &in) {
		return check.Refuse("", string(text), in.Err, wantLength+" or "+wantArea)
	}
	return err
}

const (
	wantLength = "a price per length such as \"68.00 USD/yd\""
	wantArea   = "a price per area such as \"9.50 USD/sq ft\""
)

// ofKind refuses a price of the other kind of goods, and none.
func (p GoodsPrice) ofKind(kind GoodsKind) error {
	switch {
	case kind == RollGoods && p.PerArea.Unit() != 0:
		return check.Refuse("", p.PerArea.String(), unit.ErrUnknownUnit, wantLength)
	case kind == RollGoods && p.PerLength.Unit() == 0:
		return check.Required("", wantLength)
	case kind == HideGoods && p.PerLength.Unit() != 0:
		return check.Refuse("", p.PerLength.String(), unit.ErrUnknownUnit, wantArea)
	case kind == HideGoods && p.PerArea.Unit() == 0:
		return check.Required("", wantArea)
	}
	return nil
}

// amount gives the money in the price.
func (p GoodsPrice) amount() cost.Money {
	if p.PerArea.Unit() != 0 {
		return p.PerArea.Amount()
	}
	return p.PerLength.Amount()
}

// checkCurrency refuses money in another currency than that of the job. While
// the job has no valid currency of its own, that is the fault to mend first.
func (s Spec) checkCurrency(m cost.Money) error {
	if _, err := s.Currency.Digits(); err == nil && m.Currency() != s.Currency {
		return check.Refuse("", m.String(), cost.ErrCurrency, "an amount in "+string(s.Currency))
	}
	return nil
}
