package table

import (
	"slices"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/unit"
)

var (
	layersArg   = num("layers", "1 to 4").or("1")
	battingArgs = append(slices.Clip(blockArgs), layersArg, num("overlap_in", "where ends meet or tuck in, up to 6 in").or("1 in"))
	battingBad  = []Bad{{Value, []any{24.0, 22.0}}, {Num, []any{24.0, 22.0, 0.0}}}
)

func battingNames() string {
	var out []named
	for _, b := range wrap.Battings() {
		out = append(out, named(b.Name))
	}
	return names(out)
}

type named string

func (n named) String() string { return string(n) }

// rule wraps over both faces and the front edge.
func (a *args) rule() wrap.Rule {
	// The loft says nothing about the cut; any will do.
	r := wrap.Rule{Batting: wrap.Battings()[0], Layers: 1, Overlap: unit.Inch}
	if a.given("layers") {
		r.Layers = a.count("layers")
	}
	return r
}

func (a *args) batting() (wrap.Cut, error) {
	r := a.rule()
	if a.given("overlap_in") {
		r.Overlap = a.length("overlap_in")
	}
	return wrap.CutFor(a.block(), r)
}

// crown is what a batting adds, whatever the block.
func (a *args) crown() (Result, error) {
	r, found := a.rule(), false
	for _, b := range wrap.Battings() {
		if b.Name == a.text("batting") {
			r.Batting, found = b, true
		}
	}
	if !found {
		a.fail(Missing, "batting", "one of "+battingNames()+" is wanted")
		return Result{}, a.fault
	}
	c, err := wrap.CutFor(foam.Block{Length: unit.Foot, Width: unit.Foot, Thickness: unit.Foot}, r)
	return a.lengthResult(c.Crown, err)
}
