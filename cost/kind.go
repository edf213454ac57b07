package cost

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Kind says what a line of a quote is for: Goods, Foam, Sundries, Labour,
// Outwork, Delivery, OwnMaterial, Contingency, MinimumCharge or RoundingUp. A
// quote has one subtotal for each. The zero value is no kind and is refused in a line.
type Kind uint8

const (
	// Goods is the cover: leather, cloth, lining.
	Goods Kind = iota + 1
	// Foam is foam, batting and other filling.
	Foam
	// Sundries are thread, webbing, springs, tacks, glue, zips and the like.
	Sundries
	// Labour is bench time.
	Labour
	// Outwork is work that another shop does.
	Outwork
	// Delivery is collection, delivery and storage.
	Delivery
	// OwnMaterial is what the customer brings: usually priced at nothing, or
	// at a handling fee.
	OwnMaterial
	// Contingency is money set aside for what the estimate cannot see.
	Contingency
	// MinimumCharge is what a small job lacks of the least that is charged.
	MinimumCharge
	// RoundingUp is what a price lacks of the next step.
	RoundingUp
)

var kindNames = []string{"goods", "foam", "thread and sundries", "labour", "outwork", "delivery", "customer's own material", "contingency", "minimum charge", "rounding up"}

// Kinds gives every kind in the order quotes print them.
func Kinds() []Kind {
	return []Kind{Goods, Foam, Sundries, Labour, Outwork, Delivery, OwnMaterial, Contingency, MinimumCharge, RoundingUp}
}

// String gives the name, such as "labour".
func (k Kind) String() string {
	if k < Goods || k > RoundingUp {
		return "no kind"
	}
	return kindNames[k-1]
}

// ParseKind reads a name as String writes it. It wraps unit.ErrUnknown.
func ParseKind(name string) (Kind, error) {
	if i := slices.Index(kindNames, strings.TrimSpace(name)); i >= 0 {
		return Kind(i + 1), nil
	}
	return 0, check.Refuse("kind", name, unit.ErrUnknown, "one of "+strings.Join(kindNames, ", "))
}

func (k Kind) check() error {
	if k < Goods || k > RoundingUp {
		return check.Refuse("kind", "", unit.ErrRequired, "one of "+strings.Join(kindNames, ", "))
	}
	return nil
}

// MarshalText writes the name; the zero value is an empty text.
func (k Kind) MarshalText() ([]byte, error) {
	if k == 0 {
		return []byte{}, nil
	}
	return []byte(k.String()), k.check()
}

// UnmarshalText reads a name as ParseKind does; empty text is no kind.
func (k *Kind) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*k = 0
		return nil
	}
	v, err := ParseKind(string(text))
	if err == nil {
		*k = v
	}
	return err
}

// TaxClass groups lines that are taxed alike. A line without one of its own
// has the class of its kind, which has the kind's name.
type TaxClass string

// TaxClass gives the class that lines of this kind have by themselves.
func (k Kind) TaxClass() TaxClass { return TaxClass(k.String()) }
