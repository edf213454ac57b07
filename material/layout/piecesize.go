package layout

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// PieceSizeOf gives the size that holds most of the area of the pieces, by
// the longer side of each: under 12 in, under 30 in, under 60 in, or longer.
// The limit of 30 in is common practice, the others are an assumption of this
// package.
func PieceSizeOf(pieces []Piece) material.PieceSize {
	var area [4]float64
	for _, p := range pieces {
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
		area[s] += float64(float64(p.Outline.Area()) * float64(p.Count))
	}
	best := material.MixedPieces
	for _, s := range []material.PieceSize{material.SmallPieces, material.MixedPieces, material.LargePieces, material.SeamlessPieces} {
		if area[s] > 0 && area[s] >= area[best] {
			best = s
		}
	}
	return best
}

// NetArea gives the area of pieces, copies counted. Errors name the piece and
// wrap unit.ErrRange, unit.ErrRequired or unit.ErrOverflow.
func NetArea(pieces []Piece) (unit.Area, error) {
	var sum unit.Area
	for i, p := range pieces {
		at := check.At("pieces", i)
		if p.Outline.IsZero() {
			return 0, check.Required(at+".outline", "an outline")
		}
		if err := check.Count(at+".count", p.Count, 1, MostPieces); err != nil {
			return 0, err
		}
		a, err := p.Outline.Area().Times(p.Count)
		if err == nil {
			sum, err = sum.Plus(a)
		}
		if err != nil {
			return 0, unit.InField(at, err)
		}
	}
	return sum, nil
}
