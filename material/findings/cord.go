package findings

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	cordEnds    = one("cord", "added to each run", 2*unit.Inch, cite.Practice("the join of a closed loop, the turned ends of an open run"))
	cordLengths = []Figure[unit.Length]{
		cordEnds,
		{"cord", "diameter", 5 * unit.Inch / 32, unit.Inch / 8, unit.Inch / 4, cite.Practice("1/8, 5/32, 6/32, 8/32 in; plastic or foam outdoors and in boats")},
	}
)

// Cord is welt cord in seams, with 2 in for each run:
//
//	(sum of runs + 2 in a run) × (1 + waste)
//
// A double welt has two cords.
func Cord(runs []unit.Length, double bool) Running {
	if double {
		runs = slices.Concat(runs, runs)
	}
	return Running{Runs: runs, Ends: cordEnds.Usual}
}
