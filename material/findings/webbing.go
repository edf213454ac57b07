package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	webbingStrip   = Figure[unit.Length]{"webbing", "width", 7 * unit.Inch / 2, 7 * unit.Inch / 2, 9 * unit.Inch / 2, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter II; jute in the United States")}
	webbingGap     = Figure[unit.Length]{"webbing", "widest gap", unit.Inch, unit.Inch / 2, 2 * unit.Inch, cite.Practice("under foam or stuffing")}
	webbingHold    = Figure[unit.Length]{"webbing", "hold at each end", 3 * unit.Inch, 2 * unit.Inch, 3 * unit.Inch, cite.Practice("1 in on the rail, 1 in folded, 1 in lost in stretching")}
	webbingStaples = Figure[int]{"webbing", "staples an end", 9, 7, 12, cite.Practice("5, and 4 on the fold")}

	webbingLengths = []Figure[unit.Length]{
		webbingStrip, webbingGap, webbingHold,
		{"webbing", "width, British", 0, 2 * unit.Inch, 9 * unit.Inch / 4, cite.Practice("")},
		one("webbing", "widest gap, stool without springs", 2*unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter V: at most")),
		one("webbing", "widest gap, British", 9*unit.Inch/4, cite.Practice("about a width")),
		one("webbing", "widest gap, outside arms and backs", 3*unit.Inch, cite.Practice("light webbing")),
		one("webbing", "fold at an end", unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter IV")),
		one("webbing", "roll", 72*unit.Yard, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter II")),
		{"webbing", "roll, British", 0, 18 * unit.Yard, 36 * unit.Yard, cite.Practice("")},
	}
	webbingShares = []Figure[unit.Ratio]{{"webbing", "stretch of jute", 0, 0.03, 0.05, cite.Memory("not taken off the length")}}
	webbingCounts = []Figure[int]{
		webbingStaples,
		one("webbing", "tacks an end", 7, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter IV: 4 through one layer, 3 on the fold")),
		{"webbing", "tacks an end, the other way", 0, 8, 10, cite.In("OLD-CHAIRS-AND-COUCHES", "4 or 5, 2 or 3, then 2 on the fold")},
		one("webbing", "strips side to side, chair seat", 2, cite.In("OLD-CHAIRS-AND-COUCHES", "")),
		{"webbing", "strips front to back, chair seat", 0, 2, 3, cite.In("OLD-CHAIRS-AND-COUCHES", "")},
	}
)

// Webbing is a lattice of strips woven across a frame. The zero value is
// refused.
type Webbing struct {
	Width unit.Length `json:"width"` // of the opening, inside the rails; to 10 m
	Depth unit.Length `json:"depth"`
	Strip unit.Length `json:"strip,omitzero"` // width of the webbing; zero takes 3 1/2 in
	// Gap is the widest gap allowed between strips and beside the rails; zero
	// takes 1 in.
	Gap unit.Length `json:"gap,omitzero"`
	// Hold is what each end takes beyond the opening: over the rail, folded
	// back and tacked; zero takes 3 in.
	Hold unit.Length `json:"hold,omitzero"`
	// Fasteners are the staples or tacks at each end, to 100; zero takes 9
	// staples.
	Fasteners int `json:"fasteners,omitzero"`
	// OneWay leaves out the strips from side to side.
	OneWay bool `json:"one_way,omitempty"`
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
	Fasteners   int         `json:"fasteners"`
	Basis       cite.Basis  `json:"basis"`
}

// Plan spaces the strips evenly. With opening A, strip w, widest gap g, hold h
// and k fasteners an end:
//
//	n = ceil((A - g) / (w + g)), at least 1
//	true gap = (A - n w) / (n + 1)
//	strip length = opening + 2 h
//	fasteners = 2 k (strips both ways)
//
// so that no gap is wider than g; strips that touch before that are one fewer.
// What the webbing gives in stretching is not taken off. Under
// coil springs a strip lies below every row of them, see [Coils]. Errors name
// the field and wrap unit.ErrRange or unit.ErrForgottenUnit. Webbing carries the
// sitter: use what is sold for seats, and have a frame that is weak or cracked
// repaired first.
func (w Webbing) Plan() (WebbingPlan, error) {
	var on founded
	w.Strip, w.Gap, w.Hold = or(&on, w.Strip, webbingStrip), or(&on, w.Gap, webbingGap), or(&on, w.Hold, webbingHold)
	w.Fasteners = or(&on, w.Fasteners, webbingStaples)
	if err := all(within{"width", w.Width, unit.Millimetre, widest}, within{"depth", w.Depth, unit.Millimetre, widest},
		within{"strip", w.Strip, unit.Millimetre, min(w.Width, w.Depth)},
		within{"gap", w.Gap, unit.Millimetre, unit.Metre}, within{"hold", w.Hold, unit.Millimetre, unit.Metre}); err != nil {
		return WebbingPlan{}, err
	}
	if err := check.Count("fasteners", w.Fasteners, 1, 100); err != nil {
		return WebbingPlan{}, err
	}
	p := WebbingPlan{LongWays: w.Depth + 2*w.Hold, Basis: on.by("3 1/2 in webbing, gaps of an inch, 3 in and 9 staples at each end")}
	p.FrontToBack, p.GapAcross = spaced(w.Width, w.Strip, w.Gap)
	if !w.OneWay {
		p.CrossWays = w.Width + 2*w.Hold
		p.SideToSide, p.GapAlong = spaced(w.Depth, w.Strip, w.Gap)
	}
	p.Total = unit.Length(p.FrontToBack)*p.LongWays + unit.Length(p.SideToSide)*p.CrossWays // at most 10 000 strips of 12 m
	p.Fasteners = 2 * w.Fasteners * (p.FrontToBack + p.SideToSide)
	return p, nil
}

func spaced(opening, strip, gap unit.Length) (int, unit.Length) {
	n := max(1, (opening-gap+strip+gap-1)/(strip+gap))
	for n > 1 && n*strip > opening { // strips touch before the gap closes
		n--
	}
	return int(n), (opening - n*strip) / (n + 1)
}
