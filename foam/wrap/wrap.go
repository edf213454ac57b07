// Package wrap cuts the batting that goes round a block of foam to round its
// edges and fill the cover, and the crown piece under it.
//
// It stands on packages unit and foam.
package wrap

import (
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Batting is bonded polyester wrapped round foam to round its edges and fill
// the cover.
type Batting struct {
	Name  string      `json:"name"`
	Loft  unit.Length `json:"loft"` // uncompressed
	Basis cite.Basis  `json:"basis"`
}

// Battings lists the usual weights by name with their loft.
func Battings() []Batting {
	noText := cite.Basis{Status: cite.CommonPractice, Note: "custom; no text was read for it"}
	row := func(name string, loft unit.Length) Batting { return Batting{Name: name, Loft: loft, Basis: noText} }
	return []Batting{
		row("1/2 oz", unit.Inch/2),
		row("3/4 oz", 3*unit.Inch/4),
		row("1 oz", unit.Inch),
		row("1 1/2 oz", 3*unit.Inch/2),
	}
}

// Compressed is the share of its loft that batting keeps under a cover: half.
// Common practice.
const Compressed unit.Ratio = 0.5

// Rule says how a block is wrapped: always over both faces and the front edge.
type Rule struct {
	Batting Batting     `json:"batting"`
	Back    bool        `json:"back,omitempty"`  // over the back edge as well
	Sides   bool        `json:"sides,omitempty"` // separate pieces for the two side edges
	Layers  int         `json:"layers"`          // 1 to 4
	Overlap unit.Length `json:"overlap"`         // where ends meet or tuck in, 0 to 6 in; 1 in is usual
}

// Cut is the batting to cut for one block.
type Cut struct {
	Length unit.Length `json:"length"` // along the block's length
	Around unit.Length `json:"around"` // over the faces and edges
	Side   foam.Block  `json:"side"`   // each side piece, thickness the loft; zero without
	Area   unit.Area   `json:"area"`   // of all layers and side pieces
	Crown  unit.Length `json:"crown"`  // what the wrap adds to the middle height under the cover
	Basis  cite.Basis  `json:"basis"`
}

// CutFor gives the batting for a block whose width runs front to back:
//
//	length = block length + block thickness + overlap
//	around = 2 · block width + front edge (+ back edge) + overlap
//	crown  = 2 · layers · loft · 1/2
//
// Common practice: half a thickness hangs over each side edge.
func CutFor(b foam.Block, w Rule) (Cut, error) {
	if err := b.Check(); err != nil {
		return Cut{}, unit.InField("block", err)
	}
	if err := w.check(); err != nil {
		return Cut{}, err
	}
	out := Cut{
		Length: b.Length + b.Thickness + w.Overlap,
		Around: 2*b.Width + b.Thickness + w.Overlap,
		Basis:  cite.Basis{Status: cite.CommonPractice},
	}
	if w.Back {
		out.Around += b.Thickness
	}
	if w.Sides {
		out.Side = foam.Block{Length: b.Width, Width: b.Thickness, Thickness: w.Batting.Loft}
	}
	var err error
	if out.Area, err = out.area(w.Layers); err != nil {
		return Cut{}, err
	}
	out.Crown, err = (2 * unit.Length(w.Layers) * w.Batting.Loft).Scale(Compressed, unit.Nearest)
	return out, err
}

// check refuses what cannot be wrapped.
func (w Rule) check() error {
	if err := check.Positive("batting.loft", w.Batting.Loft); err != nil {
		return err
	}
	if err := check.Length("batting.loft", w.Batting.Loft, 0, 6*unit.Inch); err != nil {
		return err
	}
	if err := check.Count("layers", w.Layers, 1, 4); err != nil {
		return err
	}
	return check.Length("overlap", w.Overlap, 0, 6*unit.Inch)
}

// area is that of all layers, with their two side pieces.
func (c Cut) area(layers int) (unit.Area, error) {
	area, err := c.Length.By(c.Around)
	if err == nil && c.Side.Length != 0 {
		var side unit.Area
		if side, err = c.Side.Length.By(c.Side.Width); err == nil {
			if side, err = side.Times(2); err == nil {
				area, err = area.Plus(side)
			}
		}
	}
	if err != nil {
		return 0, err
	}
	return area.Times(layers)
}

// CrownPiece gives the bevelled foam piece that makes a higher crown: half an
// inch thick, two thirds of the face each way, centred under the wrap. Common
// practice; the two thirds are of the face's sides.
func CrownPiece(b foam.Block) (foam.Block, error) {
	if err := b.Check(); err != nil {
		return foam.Block{}, unit.InField("block", err)
	}
	l, err := b.Length.MulDiv(2, 3, unit.Nearest)
	if err != nil {
		return foam.Block{}, err
	}
	w, err := b.Width.MulDiv(2, 3, unit.Nearest)
	return foam.Block{Length: l, Width: w, Thickness: unit.Inch / 2}, err
}
