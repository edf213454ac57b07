package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// Welt is covered cord in the seams of a part. The zero value is refused.
type Welt struct {
	Cord unit.Length `json:"cord"` // diameter; see WeltStrip
	// Runs are the lengths of the seams that have it.
	Runs   []unit.Length `json:"runs"`
	Double bool          `json:"double,omitempty"` // two cords side by side under one strip
	Bias   bool          `json:"bias,omitempty"`   // cut at 45 degrees, as one continuous strip
	// Ends is what each run is made longer to finish its ends; see WeltRun.
	Ends allowance.Override `json:"ends,omitzero"`
}

// Width gives the width of the strip, rounded up to 1/8 in.
func (w Welt) Width(g Goods) (unit.Length, error) {
	width, err := WeltStrip{Cord: w.Cord, Cloth: g.Thickness, Step: unit.Inch / 8}.Width()
	if err == nil && w.Double {
		width, _, err = DoubleWeltWidth(width)
	}
	return width, err
}

func (w Welt) cut(g Goods) (WeltCut, unit.Length, error) {
	width, err := w.Width(g)
	if err != nil {
		return WeltCut{}, 0, err
	}
	run := WeltRun{Runs: w.Runs, Width: width, Ends: w.Ends}
	if !w.Bias {
		run.Longest = g.Across
	}
	cut, err := run.Cut()
	return cut, width, err
}

// WeltSquare gives the square that a welt on the bias is cut from: it is sewn to a
// tube, with 1/4 in for each seam (common practice), and cut round and round into
// a strip of the width. See BiasSquareFor.
func WeltSquare(welt, width unit.Length) (BiasTubeSquare, error) {
	return BiasSquareFor(welt, width, unit.Inch/4)
}

// Cover gives the strips of the welt, or the square for a welt on the bias. Its
// row closes the welt round its cord. Errors are those of WeltStrip.Width,
// WeltRun.Cut and BiasSquareFor.
func (w Welt) Cover(g Goods) (allowance.Cover, error) {
	cut, width, err := w.cut(g)
	if err != nil {
		return allowance.Cover{}, err
	}
	c := allowance.Cover{Rows: []allowance.CoverRow{allowance.RowOn("welt", g.ID, cut.Welt, allowance.WeltLayers)}}
	strips, name := cut.Strips, "welt strip"
	if w.Bias {
		sq, err := WeltSquare(cut.Length, width)
		if err != nil {
			return allowance.Cover{}, err
		}
		strips, name = []Strip{{Count: 1, Width: sq.Side, Length: sq.Side}}, "welt, continuous bias"
	}
	for _, s := range strips {
		p, err := strip(name, g, s)
		if err != nil {
			return allowance.Cover{}, err
		}
		c.Panels = append(c.Panels, p)
	}
	last := &c.Panels[len(c.Panels)-1]
	last.Cord, last.Welt = w.Cord, cut.Welt
	if w.Double {
		last.Welt *= 2 // two cords
	}
	return c, nil
}
