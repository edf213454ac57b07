package cost

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Item is one thing that goes into a quote: so much of something at a price,
// sold at a markup or a margin. Quantity and price have the same kind of
// quantity; anything else does not compile.
type Item[Q Quantity] struct {
	// ID names the line when quotes are compared; empty means What.
	ID string `json:"id,omitempty"`
	// Source names what the line was made of in the caller's own data, so that
	// it is found again from the quote; empty means ID.
	Source string `json:"source,omitempty"`
	// Kind says what the line is for. It is required.
	Kind Kind `json:"kind"`
	// What describes the line. It is required.
	What string `json:"what"`
	// Quantity is what is bought or worked, and priced.
	Quantity Q `json:"quantity"`
	// Net is the part of Quantity that ends up in the piece; the rest is
	// waste, and shown as such. Zero means no waste is shown. At most
	// Quantity.
	Net Q `json:"net"`
	// Price is what the shop pays. It is required; it may be zero money.
	Price Price[Q] `json:"price"`
	// Fixed is paid once beside price × quantity, such as a charge for
	// cutting.
	Fixed Money `json:"fixed,omitzero"`
	// Uplift turns the cost into the price; the zero value sells at cost.
	Uplift Uplift `json:"uplift"`
	// Sells says that the price is what the customer pays; then there is no
	// Uplift and the cost is not known.
	Sells Selling `json:"sells,omitzero"`
	// TaxClass overrides the class of the kind, such as "fabrication labour".
	TaxClass TaxClass `json:"tax_class,omitempty"`
	// Shares say which groups the line is for; none is the job as a whole.
	Shares []Share `json:"shares,omitempty"`
	// Figures say how quantity and price came about, such as those of a shop
	// rate; Quote.Explain prints them with the line.
	Figures []Figure `json:"figures,omitempty"`
}

// Line is an Item without its kind of quantity in the type, so that one list
// holds cloth, foam and hours. Item.Line makes one.
type Line struct {
	ID       string   `json:"id"`
	Source   string   `json:"source"`
	Kind     Kind     `json:"kind"`
	What     string   `json:"what"`
	TaxClass TaxClass `json:"tax_class"`
	Amount   Amount   `json:"amount"`
	Uplift   Uplift   `json:"uplift"`
	Sells    Selling  `json:"sells,omitzero"`
	Shares   []Share  `json:"shares,omitempty"`
	Figures  []Figure `json:"figures,omitempty"`
}

// Amount is so much of something at a price: the exact figures of a line.
type Amount struct {
	Quantity AnyQuantity `json:"quantity"`
	// Net is the part of Quantity that ends up in the piece; no quantity where
	// nobody said.
	Net   AnyQuantity `json:"net,omitzero"`
	Price AnyPrice    `json:"price"`
	// Fixed is paid once beside price × quantity.
	Fixed Money `json:"fixed,omitzero"`
}

// Line checks the item; nothing is rounded here. Errors name the field and
// wrap unit.ErrRequired, unit.ErrRange, unit.ErrForgottenUnit or
// unit.ErrNotFinite.
func (it Item[Q]) Line() (Line, error) {
	l := Line{ID: it.ID, Source: it.Source, Kind: it.Kind, What: it.What, TaxClass: it.TaxClass, Uplift: it.Uplift, Sells: it.Sells, Shares: slices.Clone(it.Shares), Figures: slices.Clone(it.Figures),
		Amount: Amount{Quantity: AnyOf(it.Quantity), Price: it.Price.Any(), Fixed: it.Fixed}}
	if it.Net != 0 {
		l.Amount.Net = AnyOf(it.Net)
	}
	l = l.filled()
	if _, err := l.exact(); err != nil {
		return Line{}, err
	}
	return l, nil
}

// filled gives l with what follows where nothing was said.
func (l Line) filled() Line {
	if l.ID == "" {
		l.ID = l.What
	}
	if l.Source == "" {
		l.Source = l.ID
	}
	if l.TaxClass == "" {
		l.TaxClass = l.Kind.TaxClass()
	}
	return l
}

// figures of a line before rounding.
type lineFigures struct {
	cost   exact.Rat // price × quantity + fixed
	wasted exact.Rat // price × (quantity - net)
	charge exact.Rat // cost with its uplift
	share  exact.Rat // of the quantity that is waste
}

// exact checks the line and prices it.
func (l Line) exact() (lineFigures, error) {
	var f lineFigures
	if err := l.Kind.check(); err != nil {
		return f, err
	}
	if l.What == "" {
		return f, check.Refuse("what", "", unit.ErrRequired, "a description")
	}
	if err := l.Sells.check(); err != nil {
		return f, unit.InField("sells", err)
	}
	if l.Sells == AsListed && l.Uplift != (Uplift{}) {
		return f, check.Refuse("uplift", l.Uplift.String(), unit.ErrRange, "no markup or margin on what sells as listed")
	}
	if err := checkShares(l.Shares); err != nil {
		return f, unit.InField("shares", err)
	}
	var err error
	if f.cost, err = l.Amount.cost(); err != nil {
		return f, err
	}
	if f.charge, err = l.Uplift.apply(f.cost); err != nil {
		return f, err
	}
	if waste := l.Amount.Waste(); !waste.IsZero() {
		f.wasted = l.Amount.Price.amount.amount.Mul(exact.New(waste.n, l.Amount.Price.per.n))
		f.share = exact.New(waste.n, max(l.Amount.Quantity.n, 1))
	}
	return f, nil
}

// cost gives price × quantity + fixed. Its errors are those of Item.Line.
func (a Amount) cost() (exact.Rat, error) {
	if err := a.Price.check(); err != nil && !a.Price.IsZero() {
		return exact.Rat{}, unit.InField("price", err)
	}
	x, err := a.Price.of(a.Quantity)
	if err == nil && a.Net != (AnyQuantity{}) && (a.Net.is != a.Quantity.is || a.Net.n < 0 || a.Net.n > a.Quantity.n) {
		err = check.Refuse("net", a.Net.String(), unit.ErrRange, "from 0 to the quantity "+a.Quantity.String())
	}
	if err != nil {
		return x, err
	}
	if a.Fixed.Sign() < 0 {
		return x, check.Refuse("fixed", a.Fixed.String(), unit.ErrRange, "an amount that is not negative")
	}
	_, err = common(a.Price.amount, a.Fixed)
	return x.Add(a.Fixed.amount), unit.InField("fixed", err)
}

// Waste gives what of the quantity does not end up in the piece; no quantity
// where Net is none or of another kind.
func (a Amount) Waste() AnyQuantity {
	if a.Net.IsZero() || a.Net.is != a.Quantity.is || a.Net.n < 0 || a.Quantity.n < a.Net.n {
		return AnyQuantity{}
	}
	return AnyQuantity{a.Quantity.n - a.Net.n, a.Quantity.is}
}

// Units gives how many times the quantity is what the price is for: 7.25 for
// 7.25 yd at a price per yard; nothing without a price.
func (a Amount) Units() unit.Ratio {
	if a.Price.per.n <= 0 || a.Quantity.is != a.Price.per.is {
		return 0
	}
	return unit.Ratio(exact.New(a.Quantity.n, a.Price.per.n).Float64())
}

// LumpSum is a line of one piece at an amount: a delivery, a fee.
func LumpSum(kind Kind, what string, amount Money) (Line, error) {
	p, err := Per(amount, Pieces(1))
	if err != nil {
		return Line{}, err
	}
	return Item[Pieces]{Kind: kind, What: what, Quantity: 1, Price: p}.Line()
}
