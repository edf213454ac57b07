package findings

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	gimpJoin    = one("gimp", "added to each join", unit.Inch, cite.Practice(""))
	gimpLengths = []Figure[unit.Length]{
		gimpJoin,
		{"gimp", "roll", 0, 25 * unit.Yard, 36 * unit.Yard, cite.In("UPHOLSTERY-FOR-SCHOOLS", "")},
		{"gimp", "nail to nail", 0, 3 * unit.Inch / 2, 5 * unit.Inch / 2, cite.In("UPHOLSTERY-FOR-SCHOOLS", "by goods; first the middle, then half-way again")},
		one("gimp", "tack to tack", 2*unit.Inch, cite.In("OLD-CHAIRS-AND-COUCHES", "about")),
	}
)

// Gimp is gimp round a piece, each run a perimeter with 1 in for its join.
func Gimp(runs []unit.Length) Running { return Running{Runs: runs, Ends: gimpJoin.Usual} }
