package material

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Webbing is a lattice of strips woven across a frame. The zero value is
// refused.
type Webbing struct {
	Width unit.Length `json:"width"` // of the opening, inside the rails
	Depth unit.Length `json:"depth"`
	Strip unit.Length `json:"strip,omitzero"` // width of the webbing; zero takes 3 1/2 in
	// Gap is the widest gap allowed between strips and beside the rails; zero
	// takes 1 in.
	Gap unit.Length `json:"gap,omitzero"`
	// Hold is what each end takes beyond the opening: over the rail, folded
	// back and tacked; zero takes 3 in.
	Hold unit.Length `json:"hold,omitzero"`
}

// WebbingPlan is the lattice to cut and tack.
type WebbingPlan struct {
	FrontToBack int         `json:"front_to_back"` // strips that run from front to back
	SideToSide  int         `json:"side_to_side"`  // strips that run from side to side
	LongWays    unit.Length `json:"long_ways"`     // length of each strip from front to back
	CrossWays   unit.Length `json:"cross_ways"`    // length of each strip from side to side
	GapAcross   unit.Length `json:"gap_across"`    // true gap between the strips from front to back
	GapAlong    unit.Length `json:"gap_along"`     // true gap between the strips from side to side
	Total       unit.Length `json:"total"`
	Basis       cite.Basis  `json:"basis"`
}

// Plan spaces the strips evenly. With opening A, strip w and widest gap g:
//
//	n = ceil((A - g) / (w + g)), at least 1
//	true gap = (A - n w) / (n + 1)
//	strip length = opening + 2 × hold
//
// so that no gap is wider than g. Errors name the field and wrap
// unit.ErrRange or unit.ErrForgottenUnit. Webbing carries the sitter: use what
// is sold for seats, and have a frame that is weak or cracked repaired first.
func (w Webbing) Plan() (WebbingPlan, error) {
	if w.Strip == 0 {
		w.Strip = 7 * unit.Inch / 2
	}
	if w.Gap == 0 {
		w.Gap = unit.Inch
	}
	if w.Hold == 0 {
		w.Hold = 3 * unit.Inch
	}
	for _, f := range []struct {
		name string
		l    unit.Length
		hi   unit.Length
	}{
		{"width", w.Width, 10 * unit.Metre}, {"depth", w.Depth, 10 * unit.Metre}, {"strip", w.Strip, min(w.Width, w.Depth)},
		{"gap", w.Gap, unit.Metre}, {"hold", w.Hold, unit.Metre},
	} {
		if err := check.Length(f.name, f.l, unit.Millimetre, f.hi); err != nil {
			return WebbingPlan{}, err
		}
	}
	p := WebbingPlan{LongWays: w.Depth + 2*w.Hold, CrossWays: w.Width + 2*w.Hold, Basis: cite.Practice("3 1/2 in webbing, gaps of an inch, 3 in at each end")}
	p.FrontToBack, p.GapAcross = spaced(w.Width, w.Strip, w.Gap)
	p.SideToSide, p.GapAlong = spaced(w.Depth, w.Strip, w.Gap)
	p.Total = unit.Length(p.FrontToBack)*p.LongWays + unit.Length(p.SideToSide)*p.CrossWays // at most 10 000 strips of 12 m
	return p, nil
}

func spaced(opening, strip, gap unit.Length) (int, unit.Length) {
	n := max(1, (opening-gap+strip+gap-1)/(strip+gap))
	for n > 1 && n*strip > opening { // strips touch before the gap closes
		n--
	}
	return int(n), (opening - n*strip) / (n + 1)
}
