package findings

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	hookEnds    = one("hook-and-loop", "added to each run", unit.Inch, cite.Practice(""))
	hookLengths = []Figure[unit.Length]{
		hookEnds,
		{"hook-and-loop", "width", unit.Inch, 5 * unit.Inch / 8, 2 * unit.Inch, cite.Practice("")},
		{"hook-and-loop", "lap of a splice", 0, 5 * unit.Inch / 16, 5 * unit.Inch / 8, cite.In("A-A-55126B", "3.9")},
		one("hook-and-loop", "roll", 25*unit.Yard, cite.Practice("")),
	}
	hookShares = []Figure[unit.Ratio]{
		one[unit.Ratio]("hook-and-loop", "least hold of a splice, of the tape's", 0.30, cite.In("A-A-55126B", "3.9")),
	}
)

// HookAndLoop is fastening tape, 1 in longer than each run; as much of hook as
// of loop.
func HookAndLoop(runs []unit.Length) Running { return Running{Runs: runs, Ends: hookEnds.Usual} }
