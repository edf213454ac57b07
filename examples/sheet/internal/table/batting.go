package table

import (
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/unit"
)

var (
	battingArgs = []Arg{
		blockArgs[0], blockArgs[1], blockArgs[2], word("batting", "weight of a square yard: "+battingNames()), num("layers", "1 to 4").or("1"),
		num("overlap_in", "where ends meet or tuck in, up to 6 in").or("1 in"),
	}
	battingExample = []any{24.0, 22.0, 4.0, "3/4 oz"}
	battingBad     = []Bad{{Value, []any{24.0, 22.0, 4.0}}, {Num, []any{24.0, 22.0, 0.0, "3/4 oz"}}, {Missing, []any{24.0, 22.0, 4.0, "wool"}}}
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

func (a *args) batting() (wrap.Cut, error) {
	rule := wrap.Rule{Layers: 1, Overlap: unit.Inch}
	if a.given("layers") {
		rule.Layers = a.count("layers")
	}
	if a.given("overlap_in") {
		rule.Overlap = a.length("overlap_in")
	}
	for _, b := range wrap.Battings() {
		if b.Name == a.text("batting") {
			rule.Batting = b
		}
	}
	if rule.Batting.Name == "" {
		a.fail(Missing, "batting", "one of "+battingNames()+" is wanted")
	}
	if a.fault != nil {
		return wrap.Cut{}, a.fault
	}
	return wrap.CutFor(a.block(), rule)
}
