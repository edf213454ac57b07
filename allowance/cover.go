package allowance

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Cover is what covers one piece of furniture, or a made-up part of it such as a
// cushion: panels, and how their edges are sewn to each other, fastened to the
// frame or lie against each other. A cover without seams and fastenings works
// from its panels' own edges; in any other every edge that is to be sewn has
// just one seam or fastening. See [Cover.Check] and [Cover.Work].
type Cover struct {
	// Panels stand in the order of the cut list, which is also the order of
	// fitting where nothing else decides. Their names are all different and
	// hold no dots, but for the prefix of a nested cover.
	Panels     []CoverPanel `json:"panels,omitempty"`
	Seams      []Seam       `json:"seams,omitempty"`
	Fastenings []Fastening  `json:"fastenings,omitempty"`
	Trims      []Trim       `json:"trims,omitempty"`
	Meets      []Meet       `json:"meets,omitempty"`
	// Rows are the rows of stitching that neither seams nor the edges of the
	// panels tell: joins of strips, zips, welt closed round its cord.
	Rows []CoverRow `json:"rows,omitempty"`
}

// CoverPanel is a panel of a cover: one piece of goods, or several alike. The
// zero value is refused.
type CoverPanel struct {
	Panel
	Goods string `json:"goods"`           // id of the goods it is cut from
	Count int    `json:"count,omitempty"` // in one cover; zero is one
	// Pair says that every second one is cut mirrored, left and right. Where
	// the cover has seams or fastenings the drawn hand is the left, the
	// sitter's, and Count counts pairs.
	Pair bool `json:"pair,omitempty"`
	// Lines are lines inside the outline that are sewn or fastened as edges are.
	Lines []InnerLine `json:"lines,omitempty"`
	// Strip says that the outline is the cut rectangle itself, its edges done:
	// strips are cut to size without a seam line.
	Strip bool `json:"strip,omitempty"`
	// Free panels may lie any way and off the pattern: boxing, welt, a lining.
	Free bool `json:"free,omitempty"`
	// What goes with the strips of a welt: the diameter of its cord, and the
	// length of finished welt and of cord.
	Cord unit.Length `json:"cord,omitzero"`
	Welt unit.Length `json:"welt,omitzero"`
}

// InnerLine is a straight line on a panel, such as that between two channels, in
// the axes of the finished outline.
type InnerLine struct {
	Name string      `json:"name" required:"true" hint:"a name that no edge has"`
	From shape.Point `json:"from" required:"true" hint:"a point such as \"8 in, 0 in\""`
	To   shape.Point `json:"to" required:"true" hint:"the other end"`
}

// Copies gives how many of the panel one cover has.
func (p CoverPanel) Copies() int { return max(p.Count, 1) }

// Layers of goods that the needle passes: two in a seam, and two more of welt
// cover where there is a welt.
const (
	SeamLayers = 2
	WeltLayers = 4
)

// Sewn gives the row of stitching that the edges of a cut panel bring with them:
// hems and other edges of their own whole, of a seam half, since the panel that
// it is sewn to brings the other half. Layers is 0 where nothing is sewn.
func (c PanelCut) Sewn() (length unit.Length, layers int) {
	for _, e := range c.Edges {
		switch {
		case e.Finish.Seam():
			length += (e.Length + 1) / 2
			layers = max(layers, SeamLayers)
			if e.Finish == WeltedSeam {
				layers = WeltLayers
			}
		case e.Finish.Sewn():
			length += e.Length
			layers = max(layers, SeamLayers)
		}
	}
	return length, layers
}
