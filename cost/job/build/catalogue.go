package build

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Finding is what an order may list beside cover, foam and work.
type Finding struct {
	ID string `json:"id"`
	// Step is what it is usually sold by where no price says it, of the kind of
	// quantity that it is counted in.
	Step  cost.AnyQuantity `json:"step"`
	Waste unit.Ratio       `json:"waste,omitzero"` // usual
	Roll  unit.Length      `json:"roll,omitzero"`  // usual width of a cloth
	Basis cite.Basis       `json:"basis,omitzero"` // of the waste
	// Words name it in an extra of a quote.
	Words []string `json:"words,omitempty"`
}

var (
	quarterYard = cost.AnyOf(unit.Yard / 4)
	foot        = cost.AnyOf(unit.Foot)
	piece       = cost.AnyOf(cost.Pieces(1))
)

// Findings lists all of them, in the order in which an order has them.
func Findings() []Finding { return slices.Clone(catalogue) }

// catalogue is the one table of findings. The second name is that of the waste in
// package findings; none has no waste.
var catalogue = func() []Finding {
	row := func(id, waste string, step cost.AnyQuantity, roll unit.Length, words ...string) Finding {
		f := Finding{ID: id, Step: step, Roll: roll, Words: words}
		if waste != "" {
			f.Waste, f.Basis = wasteOf(waste)
		}
		return f
	}
	return []Finding{
		row("webbing", "webbing", quarterYard, 0, "webbing"),
		row("elastic webbing", "elastic webbing", quarterYard, 0, "elastic webbing", "rubber webbing"),
		row("webbing clip", "", piece, 0, "webbing clips"),
		row("zigzag spring", "zigzag springs", foot, 0, "zigzag", "springs"),
		row("zigzag clip", "", piece, 0, "spring clips"),
		row("clip nail", "", piece, 0, "clip nails"),
		row("tie wire", "tie wire", foot, 0, "tie wire"),
		row("coil spring", "", piece, 0, "springs", "coils"),
		row("spring twine", "twine", quarterYard, 0, "twine"),
		row("stitching twine", "twine", quarterYard, 0, "twine"),
		row("burlap", "burlap", quarterYard, 40*unit.Inch, "burlap", "hessian"),
		row("edge roll", "edge roll", foot, 0, "edge roll"),
		row("felt", "felt", cost.AnyOf(unit.Pound/2), 0, "felt"),
		row("wrap", "wrap", quarterYard, 48*unit.Inch, "wrap", "batting", "wadding"),
		row("decking", "decking", quarterYard, 54*unit.Inch, "decking"),
		row("dust cover", "dust cover", quarterYard, 36*unit.Inch, "dust cover", "cambric"),
		row("muslin", "", quarterYard, 36*unit.Inch, "muslin"),
		row("interliner", "interliner", quarterYard, 54*unit.Inch, "interliner"),
		row("card strip", "strips", foot, 0, "card strip", "tack strip"),
		row("tack strip", "strips", foot, 0, "tack strip"),
		row("curve strip", "strips", foot, 0, "curve strip", "gripping strip"),
		row("cord", "cord", quarterYard, 0, "cord", "piping"),
		row("zip chain", "zip chain", quarterYard, 0, "zip", "zips", "zipper", "zippers"),
		row("zip slider", "", piece, 0, "slider", "sliders"),
		row("thread", "", quarterYard, 0, "thread"),
		row("glue", "glue", cost.AnyOf(unit.USGallon/20), 0, "glue", "adhesive"),
		row("button", "", piece, 0, "button", "buttons"),
		row("button twine", "twine", quarterYard, 0, "twine"),
		row("staple", "staples", piece, 0, "staple", "staples"),
		row("tack", "", piece, 0, "tack", "tacks"),
		row("decorative nail", "nails", piece, 0, "nails", "decorative nails"),
		row("gimp", "gimp", quarterYard, 0, "gimp", "braid"),
		row("hook and loop", "", quarterYard, 0, "hook and loop", "hook-and-loop"),
		row("snap", "", piece, 0, "snap", "snaps"),
		row("drain eyelet", "", piece, 0, "eyelet", "eyelets"),
		row("glide", "", piece, 0, "glide", "glides"),
		row("foot", "", piece, 0, "feet", "legs"),
	}
}()

// wasteOf gives the usual waste with its basis.
func wasteOf(name string) (unit.Ratio, cite.Basis) {
	for _, f := range findings.Shares() {
		if f.Of == name && f.What == "waste" {
			return f.Usual, f.Basis
		}
	}
	return 0, cite.Basis{}
}

// Named gives the finding of a code, whatever its variant. An unknown one wraps
// unit.ErrUnknown.
func Named(code string) (Finding, error) {
	id, _, _ := strings.Cut(code, ",")
	names := make([]string, len(catalogue))
	for i, f := range catalogue {
		if names[i] = f.ID; f.ID == id {
			return f, nil
		}
	}
	return Finding{}, check.OneOf("", id, names...)
}
