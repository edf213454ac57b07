package supplies

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Options choose what a list has. The zero value has no prices.
type Options struct {
	// System is that of the texts for what has no price; what has one is written in the
	// units that it is sold by.
	System unit.System `json:"system,omitzero"`
	// Prices puts in what the shop pays, before markup and tax.
	Prices bool `json:"prices,omitzero"`
}

// List is what must be ordered for a job. It marshals to JSON as it stands.
type List struct {
	Job    string    `json:"job"` // its name
	Number string    `json:"number,omitempty"`
	Due    cost.Date `json:"due,omitzero"`
	Orders []Order   `json:"orders"`
	// Open are questions of the work order: what hangs on them is not on the list.
	Open []build.Question `json:"open,omitempty"`
}

// Lines gives the lines of all orders.
func (l List) Lines() []Line {
	var out []Line
	for _, o := range l.Orders {
		out = append(out, o.Lines...)
	}
	return out
}

// Order is what one supplier sells; of what nobody said who sells it, what is of one kind.
type Order struct {
	Supplier string `json:"supplier,omitempty"`
	Kind     Kind   `json:"kind,omitempty"` // where there is no supplier
	Lines    []Line `json:"lines"`
	// Freight says that it is paid once for this order; FreightCost is how much, on a list
	// with prices.
	Freight     bool       `json:"freight,omitempty"`
	FreightCost cost.Money `json:"freight_cost,omitzero"`
}

// Buys tells whether anything is to be ordered.
func (o Order) Buys() bool {
	for _, l := range o.Lines {
		if l.Buys() {
			return true
		}
	}
	return false
}

// Kind is what a line is of: Rolls, Hides, FoamBlocks, FoamSheets, Batting, PillowForms,
// Findings, Thread or Quoted.
type Kind string

// The kinds, in the order of a list.
const (
	Rolls       Kind = "goods by length"
	Hides       Kind = "hides"
	FoamBlocks  Kind = "foam cut to size"
	FoamSheets  Kind = "foam in sheets"
	Batting     Kind = "batting"
	PillowForms Kind = "pillow forms"
	Findings    Kind = "findings"
	Thread      Kind = "thread"
	Quoted      Kind = "as quoted" // a sum on the quote for goods that nobody counted
)

// Line is one thing to order.
type Line struct {
	Kind     Kind   `json:"kind"`
	What     string `json:"what"`
	Supplier string `json:"supplier,omitempty"`
	// From are the places in the work order that it is from, such as "purchases[0]".
	From []unit.Path `json:"from"`
	// Quantity is exactly what the quote buys: a length, an area, a volume, a mass or
	// pieces. It is nothing where nothing is bought, and of what is as quoted.
	Quantity cost.AnyQuantity `json:"quantity,omitzero"`
	// Count is in how many hides, sheets, blocks or forms it comes.
	Count int `json:"count,omitempty"`
	// Text is quantity and count as a shop writes them, never less than they are.
	Text string `json:"text"`
	// Least is the least that is sold. Packs of Pack hold the quantity: so many are ordered
	// where none is on the shelf.
	Least cost.AnyQuantity `json:"least,omitzero"`
	Pack  cost.AnyQuantity `json:"pack,omitzero"`
	Packs int              `json:"packs,omitempty"`
	// PackText is Packs and Pack in words.
	PackText string `json:"pack_text,omitempty"`
	// Pieces of furniture that it is for.
	Pieces []string `json:"pieces,omitempty"`
	AtHand []AtHand `json:"at_hand,omitempty"` // of it, which is not ordered
	// Notes say what to ask for, and what to look at.
	Notes []string `json:"notes,omitempty"`
	// Unpriced says that it is not on the quote.
	Unpriced bool `json:"unpriced,omitempty"`
	// Rough says that nobody measured the piece: it is not to be ordered yet.
	Rough bool `json:"rough,omitempty"`

	Roll   *Roll      `json:"roll,omitempty"`   // of goods by length
	Hides  []Hide     `json:"hides,omitempty"`  // that are on offer, each by its name
	Blocks []Block    `json:"blocks,omitempty"` // of foam
	Size   foam.Block `json:"size,omitzero"`    // of a sheet of foam; of a pillow form length and width alone

	// What the shop pays, on a list with prices: of all of it, and the price where the
	// quote has one.
	Cost  cost.Money    `json:"cost,omitzero"`
	Price cost.AnyPrice `json:"price,omitzero"`
}

// Buys tells whether anything of the line is to be ordered.
func (l Line) Buys() bool { return !l.Quantity.IsZero() || l.Kind == Quoted }

// Roll is what to ask of goods by length, and to measure when they come.
type Roll struct {
	Goods  material.Roll `json:"goods"` // width, repeat, nap and the rest
	Usable unit.Length   `json:"usable"`
	// Need is the length that the layout takes, in one length.
	Need unit.Length `json:"need,omitzero"`
}

// Hide is one that the layout chose from those on offer.
type Hide struct {
	Name string    `json:"name"`
	Area unit.Area `json:"area"` // as sold
}

// Block is foam of one size for a part.
type Block struct {
	From   unit.Path    `json:"from"`
	Piece  string       `json:"piece"` // of furniture
	Part   string       `json:"part"`
	Count  int          `json:"count"`
	Size   foam.Block   `json:"size"` // of the box
	Form   job.FoamForm `json:"form"`
	Back   unit.Length  `json:"back,omitzero"` // of a wedge, its thickness at the back
	Volume unit.Volume  `json:"volume"`        // that is bought
}

// AtHand is what need not be ordered.
type AtHand struct {
	Whose stock.Whose `json:"whose"`
	// Name is that of the length; none of hides, and of what is not there yet.
	Name    string `json:"name,omitempty"`
	Remnant bool   `json:"remnant,omitempty"`
	// Comes says that the customer is to bring it: it is not there yet, or nobody said how
	// much is.
	Comes bool `json:"comes,omitempty"`
	// Length is what is wanted of it, with its margin where the whole layout lies on it.
	Length unit.Length `json:"length,omitzero"`
	Hides  int         `json:"hides,omitempty"`
	Area   unit.Area   `json:"area,omitzero"`
	Text   string      `json:"text"` // all of it in words
}
