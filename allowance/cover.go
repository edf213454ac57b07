package allowance

import "github.com/coverwright/coverwright/unit"

// Cover is what covers one piece of furniture, or a made-up part of it such as a
// cushion: the panels it is sewn from.
type Cover struct {
	// Panels stand in the order of the cut list. Their names are all different
	// and hold no dots.
	Panels []CoverPanel `json:"panels,omitempty"`
	// Rows are the rows of stitching that the edges of the panels do not tell:
	// joins of strips, zips, welt closed round its cord.
	Rows []Row `json:"rows,omitempty"`
}

// CoverPanel is a panel of a cover: one piece of goods, or several alike. The
// zero value is refused.
type CoverPanel struct {
	Panel
	Goods string `json:"goods"`           // id of the goods it is cut from
	Count int    `json:"count,omitempty"` // in one cover; zero is one
	// Pair says that every second one is cut mirrored, left and right.
	Pair bool `json:"pair,omitempty"`
	// Strip says that the outline is the cut rectangle itself, its edges done:
	// strips are cut to size without a seam line.
	Strip bool `json:"strip,omitempty"`
	// Free strips may lie any way and off the pattern: boxing, welt.
	Free bool `json:"free,omitempty"`
	// What goes with the panels of one cover: the diameter of the cord in a
	// welt, the length of finished welt and of cord, and the length of zip.
	Cord    unit.Length `json:"cord,omitzero"`
	Welt    unit.Length `json:"welt,omitzero"`
	ZipTape unit.Length `json:"zip_tape,omitzero"`
}

// Copies gives how many of the panel one cover has.
func (p CoverPanel) Copies() int { return max(p.Count, 1) }

// Row is a row of stitching of one cover.
type Row struct {
	Name   string      `json:"name"`
	Goods  string      `json:"goods"` // id of the goods that are sewn
	Length unit.Length `json:"length"`
	Layers int         `json:"layers"` // of goods that the needle passes
}

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
