package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
)

// backingStrips adds the strips that lie under the rows of double top-stitched
// seams to the cut list, those of both hands and of all copies of a seam in one
// line.
func (o *cutting) backingStrips(w whole, work allowance.CoverWork, c catalog) faults {
	var f faults
	strips := whole{at: w.at, piece: w.piece, count: w.count}
	var all []allowance.Backing
	for _, b := range work.Backings {
		b.Of, _, _ = strings.Cut(b.Of, "-")
		i := slices.Index(all, b)
		if i >= 0 {
			strips.cover.Panels[i].Count++
			continue
		}
		outline, err := shape.Rectangle(b.Length, b.Width)
		if err != nil {
			f.add(w.at, err)
			continue
		}
		all = append(all, b)
		strips.cover.Panels = append(strips.cover.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: "backing strip of " + b.Of, Outline: outline},
			Goods: b.Goods, Count: 1, Strip: true, Free: true})
		strips.of = append(strips.of, covered{at: w.at, part: w.alone()})
	}
	if len(strips.cover.Panels) == 0 {
		return f
	}
	return append(f, o.apart(strips, c, nil)...)
}
