package paper

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// Schema is the value of the schema field of a paper.
const Schema job.Schema = "coverwright/paper/1"

// Paper is what the customer of a job gets. It always adds up:
//
//	Total = sum of the items' Amount                        tax within
//	Net   = sum of the items' Amount                        tax below
//	Total = Net + sum of Taxes - discounts after tax
//	Total = sum of Payments, changes among them, without Statement.Changed
//
// It marshals to JSON as it stands.
type Paper struct {
	Schema   job.Schema `json:"schema"`
	Kind     Kind       `json:"kind"`
	Name     string     `json:"name"` // of the job
	Shop     *job.Party `json:"shop,omitempty"`
	Customer *job.Party `json:"customer,omitempty"`
	Number   string     `json:"number,omitempty"`  // of the job
	Invoice  string     `json:"invoice,omitempty"` // its number
	Revision *Revision  `json:"revision,omitempty"`
	// Issued is the day of the paper, Valid the last one on which the price holds, Ready
	// that of the work, PayBy the last one to pay an invoice.
	Issued cost.Date `json:"issued,omitzero"`
	Valid  cost.Date `json:"valid_until,omitzero"`
	Ready  cost.Date `json:"ready,omitzero"`
	PayBy  cost.Date `json:"pay_by,omitzero"`
	// Says is what the paper is worth, in a sentence.
	Says string `json:"says"`

	// Items are what the price is of, by By. Where Tax is below them, amounts are without
	// it.
	By    account.By  `json:"by"`
	Tax   account.Tax `json:"tax"`
	Items []Item      `json:"items"`
	// Discounts are those of the shop by name. Those before tax are off all amounts
	// already.
	Discounts []Discount `json:"discounts,omitempty"`
	Net       cost.Money `json:"net"` // without tax
	Taxes     []Tax      `json:"taxes,omitempty"`
	Total     cost.Money `json:"total"` // with tax
	// Range is what an estimate may come out at, with tax as Total.
	Range *Range `json:"range,omitempty"`
	// Cash is the total as it is paid in cash, where the shop says so; on an invoice the
	// balance.
	Cash     cost.Money `json:"cash,omitzero"`
	Payments []Payment  `json:"payments,omitempty"`
	// Statement has what was changed and received, on work orders and invoices; AllTaxes
	// are the taxes of quote and changes together.
	Statement *account.Statement `json:"statement,omitempty"`
	AllTaxes  []Tax              `json:"all_taxes,omitempty"`

	Pieces []Piece  `json:"pieces"`           // what is done for each piece of furniture
	Around []string `json:"around,omitempty"` // what is done for the job as a whole
	Covers []Cover  `json:"covers"`

	Options []Option `json:"options,omitempty"`
	// Damage says what becomes of the price where damage shows under the old cover.
	Damage      string   `json:"hidden_damage,omitempty"`
	Open        []string `json:"open,omitempty"`         // questions to the customer
	NotIncluded []string `json:"not_included,omitempty"` // in the price
	Minded      []string `json:"minded,omitempty"`       // cautions that are for the customer, and who says what holds
	Papers      []string `json:"papers,omitempty"`       // certificates to ask for
	Terms       []string `json:"terms,omitempty"`
	// Accept is what the customer signs; nothing on a paper that is not signed.
	Accept string `json:"accept,omitempty"`
}

// Item is a part of the price.
type Item struct {
	What  string `json:"what"`
	Group string `json:"group"`           // of the lines it is of: that of the quote, or their [Work]
	Count int    `json:"count,omitempty"` // of pieces of furniture
	// Each is the amount of one of several, Amount / Count; Rounded where it does not
	// multiply back to Amount.
	Each    cost.Money `json:"each,omitzero"`
	Rounded bool       `json:"each_rounded,omitempty"`
	Amount  cost.Money `json:"amount"`
}

// Discount is one that the shop gives.
type Discount struct {
	Name string `json:"name"`
	// Rate is given where the discount is a share of everything.
	Rate     unit.Ratio `json:"rate,omitempty"`
	Amount   cost.Money `json:"amount"`
	AfterTax bool       `json:"after_tax,omitempty"`
}

// Tax is one tax with what it is of, without tax.
type Tax struct {
	Name   string     `json:"name"`
	Rate   unit.Ratio `json:"rate"`
	Base   cost.Money `json:"base"`
	Amount cost.Money `json:"amount"`
}

// Payment is a part of the total and when it is due.
type Payment struct {
	Name   string     `json:"name"`
	Share  unit.Ratio `json:"share,omitempty"` // of the total of the quote, where it is one
	Amount cost.Money `json:"amount"`
	Due    string     `json:"due,omitempty"`
}

// Piece is what is done for a piece of furniture, or several alike.
type Piece struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
	// Work is in the shop's words, New what goes in new under the cover and is
	// priced, Cover the names
	// of the goods outside.
	Work  []string `json:"work,omitempty"`
	New   []string `json:"new,omitempty"`
	Cover []string `json:"cover,omitempty"`
	// Unmeasured says that nobody has measured it.
	Unmeasured bool `json:"unmeasured,omitempty"`
}

// Cover is goods of the job: a length of a roll, or hides.
type Cover struct {
	Goods string `json:"goods"` // id
	Name  string `json:"name"`
	Fibre string `json:"fibre,omitempty"`
	// Yours says that they are the customer's own.
	Yours  bool        `json:"yours,omitempty"`
	Length unit.Length `json:"length,omitzero"`
	Hides  int         `json:"hides,omitempty"`
	Area   unit.Area   `json:"area,omitzero"` // of the hides
	// About says that it is by rule of thumb.
	About bool `json:"about,omitempty"`
	// Bring is what the customer still has to bring of their own.
	Bring      unit.Length `json:"bring,omitzero"`
	BringHides int         `json:"bring_hides,omitempty"`
	BringArea  unit.Area   `json:"bring_area,omitzero"`
	Pieces     []string    `json:"pieces"` // of furniture that have them
}
