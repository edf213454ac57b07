package layout

import (
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// PieceSizeOf gives the size that holds most of the area of the panels, by
// the longer side of each: under 12 in, under 30 in, under 60 in, or longer.
// The limit of 30 in is common practice, the others are an assumption of this
// package.
func PieceSizeOf(panels []SkinPanel) material.PieceSize {
	var area [4]float64
	for _, p := range panels {
		w, h := p.Outline.Size()
		s := material.MixedPieces
		switch l := max(w, h); {
		case l >= 60*unit.Inch:
			s = material.SeamlessPieces
		case l >= 30*unit.Inch:
			s = material.LargePieces
		case l < 12*unit.Inch:
			s = material.SmallPieces
		}
		area[s] += float64(p.Outline.Area()) * float64(p.Count)
	}
	best := material.MixedPieces
	for _, s := range []material.PieceSize{material.SmallPieces, material.MixedPieces, material.LargePieces, material.SeamlessPieces} {
		if area[s] > 0 && area[s] >= area[best] {
			best = s
		}
	}
	return best
}
