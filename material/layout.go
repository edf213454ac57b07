package material

import (
	"fmt"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Placement is one piece on the roll: its lower left corner at X across the
// usable width and Y along the roll, its size as it lies.
type Placement struct {
	Piece  int // index into the pieces of the layout
	Copy   int // which of the Count copies, from 0
	X, Y   unit.Length
	Width  unit.Length
	Length unit.Length
	Turned bool // lies a quarter turn from its own axes
}

// Layout is a plan with every piece placed on the roll.
type Layout struct {
	Roll       Roll
	Pieces     []Piece
	Placements []Placement
	Need       unit.Length // the length the placements take
	Order      unit.Length // the length to buy: Need rounded up to the increment
	// Bound is a length that no layout of these pieces can beat: the larger
	// of area over usable width and the longest piece.
	Bound  unit.Length
	Method string    // how the plan was found
	Kind   cite.Kind // always cite.Layout
}

// Used gives the area of the pieces.
func (l Layout) Used() (unit.Area, error) {
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
func (l Layout) Yield() (unit.Ratio, error) {
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

// Verify checks the layout against its own rules, on its own: every copy of
// every piece stands once, inside the usable width and the needed length,
// with its size, turned only where it may be, on the repeat, overlapping no
// other. An error wraps ErrBadLayout.
func (l Layout) Verify() error {
	bad := func(i int, what string) error { return fmt.Errorf("placement %d: %s: %w", i, what, ErrBadLayout) }
	seen := map[[2]int]bool{}
	for i, p := range l.Placements {
		if p.Piece < 0 || p.Piece >= len(l.Pieces) {
			return bad(i, "no such piece")
		}
		piece := l.Pieces[p.Piece]
		if p.Copy < 0 || p.Copy >= piece.Count || seen[[2]int{p.Piece, p.Copy}] {
			return bad(i, "copy placed twice or never asked for")
		}
		seen[[2]int{p.Piece, p.Copy}] = true
		w, h := piece.Width, piece.Length
		if p.Turned {
			w, h = h, w
			if piece.Turn != QuarterTurn || l.Roll.Nap || l.Roll.Repeat != 0 {
				return bad(i, "turned against the grain")
			}
		}
		if p.Width != w || p.Length != h {
			return bad(i, "not its size")
		}
		if p.X < 0 || p.Y < 0 || p.X+p.Width > l.Roll.Usable() || p.Y+p.Length > l.Need {
			return bad(i, "outside the goods")
		}
		if l.Roll.Repeat > 0 && !piece.Unmatched && p.Y%l.Roll.Repeat != 0 {
			return bad(i, "off the repeat")
		}
		for j, q := range l.Placements[:i] {
			if p.X < q.X+q.Width && q.X < p.X+p.Width && p.Y < q.Y+q.Length && q.Y < p.Y+p.Length {
				return bad(i, fmt.Sprintf("overlaps placement %d", j))
			}
		}
	}
	for i, p := range l.Pieces {
		for c := range p.Count {
			if !seen[[2]int{i, c}] {
				return fmt.Errorf("piece %d copy %d not placed: %w", i, c, ErrBadLayout)
			}
		}
	}
	if l.Need < l.Bound || l.Order < l.Need {
		return fmt.Errorf("length %v under its bound %v: %w", l.Need, l.Bound, ErrBadLayout)
	}
	return nil
}
