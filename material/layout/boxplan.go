package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// BoxPlacement is one piece on the roll, or one segment of a joined piece: its
// lower left corner at X across the usable width and Y along the roll, and its
// size as it lies.
type BoxPlacement struct {
	Piece    int         `json:"piece"` // index into the pieces of the layout
	Copy     int         `json:"copy"`  // which of the Count copies, from 0
	Segment  int         `json:"segment,omitzero"`
	Segments int         `json:"segments"` // 1 for a whole piece
	X        unit.Length `json:"x"`
	Y        unit.Length `json:"y"`
	Width    unit.Length `json:"width"`
	Length   unit.Length `json:"length"`
	Degrees  int         `json:"degrees"` // turned anti-clockwise: 0, 90, 180 or 270
}

// PiecingSeam is a seam of a joined piece, At from the start of its divided side.
type PiecingSeam struct {
	Piece int         `json:"piece"`
	Copy  int         `json:"copy"`
	At    unit.Length `json:"at"`
}

// BoxPlan is a plan with every piece placed on the roll.
type BoxPlan struct {
	Roll       material.Roll  `json:"roll"`
	Pieces     []Box          `json:"pieces"`
	Shades     []Shade        `json:"shades,omitempty"`
	Gap        unit.Length    `json:"gap,omitzero"` // kept between pieces
	Placements []BoxPlacement `json:"placements"`
	Seams      []PiecingSeam  `json:"seams,omitempty"`
	Need       unit.Length    `json:"need"`  // the length the placements take
	Order      unit.Length    `json:"order"` // the length to buy: Need with shrinkage, rounded up to the increment
	// Bound is a length that no layout of these pieces can beat.
	Bound  unit.Length `json:"bound"`
	Proved bool        `json:"proved"` // no layout of these pieces is shorter
	Method string      `json:"method"` // how the plan was found
	Kind   cite.Kind   `json:"kind"`   // always cite.Layout
	// Stopped says that the search was cancelled: the layout is right, but
	// more effort might have made it shorter.
	Stopped bool `json:"stopped,omitempty"`
}

// GapShare gives the gap of Need over Bound as a share of Bound: how much shorter the
// best layout could be at most. Zero means that it is the best.
func (l BoxPlan) GapShare() unit.Ratio {
	if l.Bound == 0 {
		return 0
	}
	r, err := (l.Need - l.Bound).Per(l.Bound)
	if err != nil {
		return 0
	}
	return r
}

// Used gives the area of the pieces as they lie.
func (l BoxPlan) Used() (unit.Area, error) {
	var sum unit.Area
	for _, p := range l.Placements {
		a, err := p.Width.By(p.Length)
		if err != nil {
			return 0, err
		}
		if sum, err = sum.Plus(a); err != nil {
			return 0, err
		}
	}
	return sum, nil
}

// Yield gives the share of the ordered goods, over their full width, that the
// pieces take. It is zero for an empty layout.
func (l BoxPlan) Yield() (unit.Ratio, error) {
	used, err := l.Used()
	if err != nil || l.Order == 0 {
		return 0, err
	}
	bought, err := l.Order.By(l.Roll.Width)
	if err != nil {
		return 0, err
	}
	return used.Per(bought)
}

// Verify checks the layout by a verifier that shares no code with the layout
// engine: every copy of every piece stands once, inside the usable width and
// the needed length, with its size, turned only where it may be, on the
// repeat, off the flaws, with its group, overlapping no other; joined pieces
// add up. An error wraps ErrBadLayout.
func (l BoxPlan) Verify() error {
	if l.Order < l.Need {
		return fmt.Errorf("the order of %v is shorter than the %v needed: %w", l.Order, l.Need, ErrBadLayout)
	}
	if l.Need < l.Bound {
		return fmt.Errorf("length %v under its bound %v: %w", l.Need, l.Bound, ErrBadLayout)
	}
	s := verify.Strip{Width: int64(l.Roll.Usable()), Length: int64(l.Need), Claimed: int64(l.Need), Gap: int64(l.Gap),
		Repeat: verify.Repeat{PeriodX: int64(l.Roll.Across), PeriodY: int64(l.Roll.Repeat),
			DropNum: int64(l.Roll.Drop.Num), DropDen: int64(l.Roll.Drop.Den)},
		Write: func(v int64) string { return unit.Length(v).String() }}
	for _, f := range l.Roll.Flaws {
		w := f.Across(l.Roll)
		s.Flaws = append(s.Flaws, verify.Rect{X: int64(f.X), Y: int64(f.Y), W: int64(w), H: int64(f.Length)})
	}
	for _, g := range l.Shades {
		s.Windows = append(s.Windows, int64(g.Window))
	}
	for _, p := range l.Pieces {
		d := verify.Demand{Name: p.Name, W: int64(p.Width), H: int64(p.Length), Count: p.Count, Turns: []int{0}, Group: p.Shade,
			MotifX: int64(p.MotifX), MotifY: int64(p.MotifY)}
		if p.matched(l.Roll) {
			d.MatchX, d.MatchY = l.Roll.Across != 0, l.Roll.Repeat != 0
		}
		if p.Turn != KeepGrain && !l.Roll.Nap {
			d.Turns = append(d.Turns, 180)
		}
		if p.mayQuarter(l.Roll) {
			d.Turns = append(d.Turns, 90, 270)
		}
		if j := p.Join; j != nil {
			d.Join = &verify.Join{AlongX: j.AlongWidth, Allowance: int64(j.Allowance), Least: int64(j.Least), Most: j.Most}
		}
		s.Demands = append(s.Demands, d)
	}
	for _, p := range l.Placements {
		s.Laid = append(s.Laid, verify.Laid{Demand: p.Piece, Copy: p.Copy, Segment: p.Segment, Segments: p.Segments, Turn: p.Degrees,
			Rect: verify.Rect{X: int64(p.X), Y: int64(p.Y), W: int64(p.Width), H: int64(p.Length)}})
	}
	for _, m := range l.Seams {
		s.Seams = append(s.Seams, verify.Seam{Demand: m.Piece, Copy: m.Copy, At: int64(m.At)})
	}
	if err := verify.Boxes(&s); err != nil {
		return fmt.Errorf("%w: %w", ErrBadLayout, err)
	}
	return nil
}
