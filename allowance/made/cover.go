package made

import (
	"strconv"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
)

// sewnPanel makes a panel that is sewn all round.
func sewnPanel(name string, g Goods, o shape.Outline) allowance.CoverPanel {
	return allowance.CoverPanel{Goods: g.ID, Panel: allowance.Panel{Name: name, Outline: o}}
}

// edgeOf gives one edge of a panel as a part of a side.
func edgeOf(panel, edge string) allowance.EdgePart {
	return allowance.EdgePart{Panel: panel, Edge: edge}
}

// strip makes a panel of equal strips, cut to size, that may lie any way: X runs
// along them.
func strip(name string, g Goods, s Strip) (allowance.CoverPanel, error) {
	o, err := shape.Rectangle(s.Length, s.Width)
	return allowance.CoverPanel{Goods: g.ID, Count: s.Count, Strip: true, Free: true,
		Panel: allowance.Panel{Name: name, Outline: o, AllEdges: allowance.Edge{Finish: allowance.Fold}}}, err
}

// joined gives seams that join panels called name and a number in a row, the
// right edge of each to the left of the next, and the last to the first where they
// close to a ring.
func joined(name string, n int, ring bool) []allowance.Seam {
	var out []allowance.Seam
	last := n - 1
	if ring {
		last = n
	}
	for i := range last {
		out = append(out, allowance.Seam{Sides: []allowance.Side{{edgeOf(numbered(name, i, n), "right")}, {edgeOf(numbered(name, (i+1)%n, n), "left")}}})
	}
	return out
}

// inRow gives one edge of panels in a row as a side: from the last to the first,
// as top edges run.
func inRow(name string, n int, edge string) allowance.Side {
	var out allowance.Side
	for i := n - 1; i >= 0; i-- {
		out = append(out, edgeOf(numbered(name, i, n), edge))
	}
	return out
}

// numbered gives the name of one of n panels.
func numbered(name string, i, n int) string {
	if n == 1 {
		return name
	}
	return name + " " + strconv.Itoa(i+1)
}
