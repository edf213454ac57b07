package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Goods is what a made-up part must know of the goods it is cut from.
type Goods struct {
	ID string `json:"id"`
	// Longest is the longest strip they allow; zero means no limit.
	Longest unit.Length `json:"longest,omitzero"`
	// Thickness is that of one layer, for welt; from zero to 20 mm.
	Thickness unit.Length `json:"thickness,omitzero"`
}

// strip makes a panel of equal strips that may lie any way: X runs along them.
func strip(name string, g Goods, s Strip) (allowance.CoverPanel, error) {
	return rectangle(name, g, s.Count, s.Length, s.Width)
}

// rectangle makes a panel of equal pieces by their cut size.
func rectangle(name string, g Goods, count int, width, length unit.Length) (allowance.CoverPanel, error) {
	o, err := shape.Rectangle(width, length)
	return allowance.CoverPanel{Goods: g.ID, Count: count, Strip: true, Free: true,
		Panel: allowance.Panel{Name: name, Outline: o, AllEdges: allowance.Edge{Finish: allowance.Fold}}}, err
}

// upright makes panels that are cut by their size and lie as drawn, on the
// pattern: the depth of a skirt and the height of a channel run up the goods.
func upright(name string, g Goods, count int, width, length unit.Length) (allowance.CoverPanel, error) {
	p, err := rectangle(name, g, count, width, length)
	p.Free = false
	return p, err
}

// within divides a strip that is longer than the goods allow into equal pieces,
// with a seam allowance at each join.
func within(s Strip, longest unit.Length) Strip {
	seam, _ := allowance.PlainSeam.Default()
	if longest == 0 || s.Length <= longest || longest <= 4*seam {
		return s // the last is for the layout to say that it does not fit
	}
	n := (s.Length - 2*seam + longest - 2*seam - 1) / (longest - 2*seam)
	s.Length = (s.Length + 2*seam*(n-1) + n - 1) / n
	s.Count *= int(n)
	return s
}

// Cover gives the panels of a boxing strip: its pieces, then the halves of the
// zip strip. Longest is that of the goods. Errors are those of Cut.
//
// Its rows are the seam to both plates as far as the boxing brings it, the joins
// and the two rows along the zip.
func (b Boxing) Cover(g Goods) (allowance.Cover, error) {
	b.Longest = g.Longest
	cut, err := b.Cut()
	if err != nil {
		return allowance.Cover{}, err
	}
	var c allowance.Cover
	for _, s := range cut.Pieces {
		p, err := strip(s.Use, g, within(s, g.Longest))
		if err != nil {
			return allowance.Cover{}, err
		}
		if s.Use == zipUse {
			p.ZipTape = cut.ZipTape
		}
		c.Panels = append(c.Panels, p)
	}
	sewn := b.Perimeter + unit.Length(len(cut.Joins))*b.Depth + 2*cut.ZipLength
	c.Rows = []allowance.CoverRow{allowance.RowOn("boxing", g.ID, sewn, allowance.SeamLayers)}
	return c, nil
}

// zipUse names the halves of a zip strip.
const zipUse = "zip"
