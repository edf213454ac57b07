package cost

import (
	"slices"

	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Item is one thing that goes into a quote: so much of something at a price,
// sold at a markup or a margin. Quantity and price have the same kind of
// quantity; anything else does not compile.
type Item[Q Quantity] struct {
	// ID names the line when quotes are compared; empty means What.
	ID string
	// Kind says what the line is for. It is required.
	Kind Kind
	// What describes the line. It is required.
	What string
	// Quantity is what is bought or worked, and priced.
	Quantity Q
	// Net is the part of Quantity that ends up in the piece; the rest is
	// waste, and shown as such. Zero means no waste is shown. At most
	// Quantity.
	Net Q
	// Price is what the shop pays. It is required; it may be zero money.
	Price Price[Q]
	// Uplift turns the cost into the price; the zero value sells at cost.
	Uplift Uplift
	// TaxClass overrides the class of the kind, such as "fabrication labour".
	TaxClass TaxClass
	// Figures say how quantity and price came about, such as those of a
	// ShopRateResult; Quote.Explain prints them with the line.
	Figures []Figure
}

// Line is an Item with its exact cost and price, ready for a quote. It is made
// by Item.Line; the zero value is refused.
type Line struct {
	id       string
	kind     Kind
	what     string
	class    TaxClass
	currency Currency
	quantity string
	net      string
	waste    string
	price    string
	uplift   Uplift
	cost     exact.Rat // price × quantity
	wasted   exact.Rat // price × (quantity - net)
	charge   exact.Rat // cost with its uplift
	share    unit.Ratio
	figures  []Figure
}

// Line checks the item and prices it, exactly: nothing is rounded here. Errors
// name the field and wrap unit.ErrRequired, unit.ErrRange,
// unit.ErrForgottenUnit or unit.ErrNotFinite.
func (it Item[Q]) Line() (Line, error) {
	if err := it.Kind.check(); err != nil {
		return Line{}, err
	}
	if it.What == "" {
		return Line{}, refuse("what", "", unit.ErrRequired, "a description")
	}
	cost, err := it.Price.of(it.Quantity)
	if err != nil {
		return Line{}, err
	}
	charge, err := it.Uplift.apply(cost)
	if err != nil {
		return Line{}, err
	}
	l := Line{
		id: it.ID, kind: it.Kind, what: it.What, class: it.TaxClass, currency: it.Price.amount.currency,
		quantity: it.Price.quantityText(it.Quantity), price: it.Price.String(), uplift: it.Uplift,
		cost: cost, charge: charge, figures: slices.Clone(it.Figures),
	}
	if l.id == "" {
		l.id = it.What
	}
	if l.class == "" {
		l.class = it.Kind.TaxClass()
	}
	if it.Net != 0 {
		if it.Net < 0 || it.Net > it.Quantity {
			return Line{}, refuse("net", it.Net.String(), unit.ErrRange, "from 0 to the quantity "+it.Quantity.String())
		}
		waste := it.Quantity - it.Net
		l.net, l.waste = it.Price.quantityText(it.Net), it.Price.quantityText(waste)
		l.wasted = it.Price.amount.amount.Mul(exact.New(int64(waste), int64(it.Price.per)))
		l.share = unit.Ratio(exact.New(int64(waste), int64(it.Quantity)).Float64())
	}
	return l, nil
}

// LumpSum is a line of one piece at an amount: a delivery, a fee.
func LumpSum(kind Kind, what string, amount Money) (Line, error) {
	p, err := Per(amount, Pieces(1))
	if err != nil {
		return Line{}, err
	}
	return Item[Pieces]{Kind: kind, What: what, Quantity: 1, Price: p}.Line()
}
