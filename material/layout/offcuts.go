package layout

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// mostOffcutPlaces bounds the work of RollOffcuts.
const mostOffcutPlaces = 1000

// RollOffcuts lists clear rectangles of the length of roll ordered that are worth
// keeping, largest area first, none overlapping another: at least minWidth across
// and minLength along, or the other way round. At most 50 are listed. Flaws, the boxes
// round the pieces and what the cloth shrinks count as used; see Leftovers for what a
// later job can be laid out on. A plan of more than 1000 places is
// refused with ErrTooMany, one on hides with unit.ErrRequired; sizes wrap
// unit.ErrRange or unit.ErrForgottenUnit.
func (p Plan) RollOffcuts(minWidth, minLength unit.Length) ([]Offcut, error) {
	if p.Job.Roll == nil {
		return nil, check.Required("roll", "a plan on a roll; that on hides lists its offcuts")
	}
	if err := check.Length("min_width", minWidth, unit.Inch, check.Longest); err != nil {
		return nil, err
	}
	if err := check.Length("min_length", minLength, unit.Inch, check.Longest); err != nil {
		return nil, err
	}
	length, err := p.laid(p.Order)
	if err != nil {
		return nil, err
	}
	return p.clear(length, minWidth, minLength)
}

// laid gives what of a length of goods is left to lay pieces on when it has shrunk.
func (p Plan) laid(of unit.Length) (unit.Length, error) {
	lost, err := of.Scale(p.Job.Roll.Shrinkage, unit.Up)
	return of - lost, err
}

// clear lists clear rectangles of a length of the roll.
func (p Plan) clear(length, minWidth, minLength unit.Length) ([]Offcut, error) {
	if len(p.Places) > mostOffcutPlaces {
		return nil, check.Refuse("places", fmt.Sprint(len(p.Places)), ErrTooMany, fmt.Sprintf("at most %d places", mostOffcutPlaces))
	}
	roll := *p.Job.Roll
	taken := make([]Offcut, 0, len(p.Places)+len(roll.Flaws)+50)
	for _, q := range p.Places {
		low, high := q.Bounds()
		taken = append(taken, Offcut{X: low.X, Y: low.Y, Width: high.X - low.X, Length: high.Y - low.Y})
	}
	for _, f := range roll.Flaws {
		taken = append(taken, Offcut{X: f.X, Y: f.Y, Width: f.Across(roll), Length: f.Length})
	}
	var out []Offcut
	for len(out) < 50 {
		best, ok := largestClear(taken, roll.Usable(), length, minWidth, minLength)
		if !ok {
			break
		}
		out = append(out, best)
		taken = append(taken, best)
	}
	return out, nil
}

// largestClear gives the largest clear rectangle that is worth keeping, the
// lowest and leftmost of equal ones. Its sides lie on sides of what is taken:
// each pair of levels is swept once, so the work grows with n² log n.
func largestClear(taken []Offcut, width, length, minW, minL unit.Length) (best Offcut, found bool) {
	ys := []unit.Length{0, length}
	for _, t := range taken {
		ys = append(ys, min(t.Y, length), min(t.Y+t.Length, length))
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	byY := slices.Clone(taken)
	slices.SortStableFunc(byY, func(a, b Offcut) int { return int(min(1, max(-1, a.Y-b.Y))) })
	bestArea := 0.0
	for i, lo := range ys {
		// Grow the band upwards from lo, keeping the clear spans across.
		spans := []span{{0, width}}
		next := 0
		var open []Offcut
		for _, t := range byY {
			if t.Y <= lo && t.Y+t.Length > lo {
				open = append(open, t)
			}
		}
		for next < len(byY) && byY[next].Y <= lo {
			next++
		}
		for _, t := range open {
			spans = cutSpans(spans, t)
		}
		for _, hi := range ys[i+1:] {
			for next < len(byY) && byY[next].Y < hi {
				spans = cutSpans(spans, byY[next])
				next++
			}
			if len(spans) == 0 {
				break
			}
			for _, s := range spans {
				w, h := s.hi-s.lo, hi-lo
				if !(w >= minW && h >= minL || w >= minL && h >= minW) {
					continue
				}
				if a := float64(w) * float64(h); a > bestArea {
					bestArea, best, found = a, Offcut{X: s.lo, Y: lo, Width: w, Length: h}, true
				}
			}
		}
	}
	return best, found
}

// span is a clear stretch across the goods.
type span struct{ lo, hi unit.Length }

// cutSpans takes the width of t out of the spans.
func cutSpans(spans []span, t Offcut) []span {
	var out []span
	for _, s := range spans {
		if t.X >= s.hi || t.X+t.Width <= s.lo {
			out = append(out, s)
			continue
		}
		if t.X > s.lo {
			out = append(out, span{s.lo, t.X})
		}
		if t.X+t.Width < s.hi {
			out = append(out, span{t.X + t.Width, s.hi})
		}
	}
	return out
}
