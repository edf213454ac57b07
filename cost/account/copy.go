package account

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Copy says how a shop wants the papers that its customer gets. The zero value goes by
// piece of furniture, with tax in every amount.
type Copy struct {
	By  By  `json:"by,omitzero"`  // what the amounts are of; pieces of furniture when not given
	Tax Tax `json:"tax,omitzero"` // where it stands; in the amounts when not given
	// Damage is a sentence on what becomes of the price where damage shows when the old
	// cover is off. One of our own when not given.
	Damage string `json:"hidden_damage,omitzero"`
	// GoOn is the amount up to which the shop may go on then without asking; nothing when
	// not given.
	GoOn        cost.Money `json:"without_asking,omitzero"`
	NotIncluded []string   `json:"not_included,omitempty"` // what the price does not hold, beside what the order itself tells
	Terms       []string   `json:"terms,omitempty"`        // sentences that stand at the end
}

// mostTexts is more than any paper has room for.
const mostTexts = 30

// Faults lists what is wrong with it in some currency, as those of an account.
func (p *Copy) Faults(c cost.Currency) []error {
	var f faults
	if p == nil {
		return nil
	}
	f.add("by", enum.Check(p.By, "", byNames))
	f.add("tax", enum.Check(p.Tax, "", taxNames))
	if p.GoOn.Currency() != "" {
		err := amount(p.GoOn, c)
		if err == nil && p.GoOn.Sign() < 0 {
			err = check.Refuse("", p.GoOn.String(), unit.ErrRange, "an amount that is not negative")
		}
		f.add("without_asking", err)
	}
	f.add("not_included", check.Count("", len(p.NotIncluded), 0, mostTexts))
	f.add("terms", check.Count("", len(p.Terms), 0, mostTexts))
	return f
}

// By is what the amounts of a paper are of: [Pieces] or [Work].
type By uint8

const (
	// Pieces is an amount for each piece of furniture.
	Pieces By = iota
	// Work is an amount each for materials, for what is made new and for repair and
	// application, which places tax differently.
	Work
)

var byNames = []string{"piece", "work"}

// String gives the name, such as "work".
func (b By) String() string { return enum.Name(b, "by", byNames) }

// MarshalText writes the name; an unknown one wraps unit.ErrUnknown.
func (b By) MarshalText() ([]byte, error) { return enum.Text(b, "by", byNames) }

// UnmarshalText reads what MarshalText writes.
func (b *By) UnmarshalText(text []byte) error { return enum.Read(b, text, "by", byNames) }

// Tax is where tax stands on a paper: [Within] or [Below].
type Tax uint8

const (
	// Within is in every amount.
	Within Tax = iota
	// Below is in lines of its own below amounts without tax.
	Below
)

var taxNames = []string{"within", "below"}

// String gives the name, such as "below".
func (t Tax) String() string { return enum.Name(t, "tax", taxNames) }

// MarshalText writes the name; an unknown one wraps unit.ErrUnknown.
func (t Tax) MarshalText() ([]byte, error) { return enum.Text(t, "tax", taxNames) }

// UnmarshalText reads what MarshalText writes.
func (t *Tax) UnmarshalText(text []byte) error { return enum.Read(t, text, "tax", taxNames) }
