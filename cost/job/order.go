package job

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// OrderSchema is the value of the schema field of work orders of this version.
const OrderSchema = "coverwright/work-order/1"

// WorkOrder is a job worked out: data first, to be printed or read by other
// programs. It marshals to JSON as it stands.
type WorkOrder struct {
	Schema    string        `json:"schema"`
	Name      string        `json:"name"`
	Cuts      []Cut         `json:"cuts"`
	Purchases []Purchase    `json:"purchases"`
	Sewing    []Stitching   `json:"sewing"`
	Foam      []FoamBlock   `json:"foam"`
	Labour    []Bench       `json:"labour"`
	Quote     cost.Quote    `json:"quote"`
	Payment   *Payment      `json:"payment,omitempty"`
	Cautions  []Caution     `json:"cautions"`
	Sources   []cite.Source `json:"sources"` // the documents behind the figures of this order
}

// Size is width across the goods by length along them.
type Size struct {
	Width  unit.Length `json:"width"`
	Length unit.Length `json:"length"`
}

// Cut is one line of the cut list: a number of equal pieces of goods.
type Cut struct {
	Piece    string    `json:"piece"` // of furniture
	Part     string    `json:"part"`
	Goods    string    `json:"goods"` // id
	Count    int       `json:"count"` // for all pieces of furniture
	Finished Size      `json:"finished,omitzero"`
	Trim     Size      `json:"trim,omitzero"` // inside the handling margin
	Cut      Size      `json:"cut"`
	Grain    string    `json:"grain"`
	Area     unit.Area `json:"area"` // of all Count pieces as cut
	// Edges are those of a panel; strips have none.
	Edges *Edges `json:"edges,omitempty"`
	// What goes with a strip, for each cushion.
	Cord    unit.Length `json:"cord,omitzero"` // diameter of the welt cord
	Welt    unit.Length `json:"welt,omitzero"` // length of finished welt, and of cord
	ZipTape unit.Length `json:"zip_tape,omitzero"`
	// Basis founds the allowances that were not given by hand; empty for
	// strips.
	Basis []cite.Basis `json:"basis,omitempty"`
	turn  material.Turn
	free  bool   // need not lie on the repeat
	field string // of the spec it comes from
}

// Edges are the four edges of a panel as cut.
type Edges struct {
	Top    allowance.CutEdge `json:"top"`
	Right  allowance.CutEdge `json:"right"`
	Bottom allowance.CutEdge `json:"bottom"`
	Left   allowance.CutEdge `json:"left"`
}

// Answer is one answer to "how much": its kind says what it is worth.
type Answer struct {
	Kind   cite.Kind   `json:"kind"`
	Text   string      `json:"text"` // in words
	Length unit.Length `json:"length,omitzero"`
	Area   unit.Area   `json:"area,omitzero"`
	Hides  int         `json:"hides,omitzero"`
	Basis  cite.Basis  `json:"basis"`
}

// Purchase is what to buy of one kind of goods.
type Purchase struct {
	Goods   string           `json:"goods"` // id
	Name    string           `json:"name"`
	Net     unit.Area        `json:"net"`              // of all cut pieces
	Length  unit.Length      `json:"length,omitzero"`  // to buy, of a roll
	Area    unit.Area        `json:"area,omitzero"`    // to buy, of hides
	Hides   int              `json:"hides,omitzero"`   // to buy
	Answers []Answer         `json:"answers"`          // every answer, the one bought by last
	Layout  *material.Layout `json:"layout,omitempty"` // of a roll
}

// Stitching is thread, needle and stitch for one kind of goods, and the
// thread its seams take.
type Stitching struct {
	Goods  string      `json:"goods"` // id
	Layers int         `json:"layers"`
	Pick   thread.Pick `json:"pick"`
	Seams  unit.Length `json:"seams"` // length of all rows of stitching
	Waste  unit.Ratio  `json:"waste"` // contained in Thread
	// Thread is what the seams take, row by row, with bobbins and cones where
	// the job says how much they hold.
	Thread thread.Consumption `json:"thread"`
	Kind   cite.Kind          `json:"kind"`
	Basis  cite.Basis         `json:"basis"`
}

// FoamBlock is foam to cut, with the grade to ask for.
type FoamBlock struct {
	Piece     string         `json:"piece"`
	Part      string         `json:"part"`
	Count     int            `json:"count"`
	Finished  foam.Block     `json:"finished"`
	Cut       foam.Block     `json:"cut"`
	Oversize  foam.Oversize  `json:"oversize,omitzero"`
	Volume    unit.Volume    `json:"volume"` // of all blocks as cut
	Selection foam.Selection `json:"selection"`
	// Sitting is what the recommended foam does under the sitter, when the
	// job names one.
	Sitting *foam.Sitting `json:"sitting,omitempty"`
}

// Bench is time at the bench for one task on all pieces of a kind.
type Bench struct {
	Piece string        `json:"piece"`
	Task  string        `json:"task"`
	Time  unit.Duration `json:"time"`
}

// Payment splits the total into deposit and balance, which add up to it.
type Payment struct {
	Deposit cost.Money `json:"deposit"`
	Balance cost.Money `json:"balance"`
}

// Caution is a warning that goes on the order.
type Caution struct {
	About string      `json:"about"`
	Text  string      `json:"text"`
	Rule  string      `json:"rule,omitempty"` // with edition and date
	Basis *cite.Basis `json:"basis,omitempty"`
}

// seam is stitching found while cutting.
type seam struct {
	goods  string
	name   string
	length unit.Length // of one row
	rows   int
	layers int
}

// strip is allowance.Strip with where it belongs.
type strip struct {
	allowance.Strip
	goods string
}
