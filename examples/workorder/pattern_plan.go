package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/unit"
)

// mostTiles is the largest number of pages one piece is spread over; beyond it
// a plotter is the tool.
const mostTiles = 150

// patternSet is what the command line says about the patterns.
type patternSet struct {
	paper pattern.Sheet // of the list, and of the pieces where there is no roll
	roll  pattern.Sheet // paper from a roll; none when its width is zero
	all   bool          // straight pieces are drawn too, not only listed
	whole bool          // no halves, and no sheet left out
}

// sheet is what the pieces are drawn on.
func (s patternSet) sheet() pattern.Sheet {
	on := s.paper
	if s.roll.Width > 0 {
		on = s.roll
	}
	on.Every = on.Every || s.whole
	return on
}

// bookPlan is where every piece is drawn.
type bookPlan struct {
	drawn  []tiledCut
	shared []pattern.Shared
	lie    []int // the piece at each place of the list that sheets are shared by
	tiles  int
}

// tiledCut is a piece with its pages. Of one that is printed as a half the pattern is
// the half.
type tiledCut struct {
	drawnCut
	pattern.Tiling            // empty for one that shares a sheet
	share          int        // the sheet it shares, from 1; 0 for none
	first          int        // number of its first page in the book; 0 when it has none
	why            string     // why it has none
	also           []drawnCut // others cut by the same pattern
}

func (t tiledCut) half() bool { return t.Fold.From != t.Fold.To }

// planBook finds pages for the patterns: small pieces share sheets, others are spread
// over several, as halves on the fold where that takes fewer. Plain rectangles are
// listed to be ruled on the goods, unless all is set.
func planBook(cuts []drawnCut, set patternSet) (bookPlan, error) {
	var plan bookPlan
	on := set.sheet()
	for i, p := range cuts {
		t := tiledCut{drawnCut: p}
		twin := slices.IndexFunc(plan.drawn, func(q tiledCut) bool { return q.why == "" && p.sameShape(cuts[q.number-1]) })
		switch {
		case !set.all && p.Straight():
			t.why = "straight: use a rule"
		case twin >= 0:
			plan.drawn[twin].also = append(plan.drawn[twin].also, p)
			t.why = fmt.Sprintf("as no. %d", plan.drawn[twin].number)
		default:
			if err := t.plan(on, set.whole); err != nil {
				return plan, unit.InField(fmt.Sprintf("cuts[%d]", p.number-1), err)
			}
			if t.why == "" && len(t.Tiles) == 0 {
				plan.lie = append(plan.lie, i)
			}
			plan.tiles += len(t.Tiles)
		}
		plan.drawn = append(plan.drawn, t)
	}
	return plan, plan.sharing(on)
}

// plan chooses between the piece and its half, and spreads over pages what does not
// fit one.
func (t *tiledCut) plan(on pattern.Sheet, whole bool) error {
	ways := []pattern.Pattern{t.Pattern}
	if half, ok := t.Half(); ok && !whole {
		ways = append(ways, half)
	}
	for _, way := range ways {
		_, over, err := pattern.Share([]pattern.Pattern{way}, on)
		if err != nil {
			return err
		}
		if len(over) == 0 {
			t.Pattern = way
			return nil
		}
	}
	for _, way := range ways {
		tiling, err := way.Tile(on)
		if err != nil && !errors.Is(err, unit.ErrRange) {
			return err
		}
		if err == nil && (len(t.Tiles) == 0 || len(tiling.Tiles) < len(t.Tiles)) {
			t.Pattern, t.Tiling = way, tiling
		}
	}
	if n := len(t.Tiles); n == 0 || n > mostTiles {
		t.Tiling, t.why = pattern.Tiling{}, "too large: use -roll"
	}
	return nil
}

// sharing lays the small pieces on common sheets. On paper from a roll a test square
// comes last, since it is another printer that draws it.
func (b *bookPlan) sharing(on pattern.Sheet) error {
	var small []pattern.Pattern
	for _, i := range b.lie {
		small = append(small, b.drawn[i].Pattern)
	}
	if on.Roll && len(small)+b.tiles > 0 {
		square, err := pattern.Strip(on.TestSquare(), on.TestSquare())
		if err != nil {
			return err
		}
		small = append(small, square)
	}
	var err error
	if b.shared, _, err = pattern.Share(small, on); err != nil {
		return err
	}
	for n, s := range b.shared {
		for _, p := range s.Places {
			if p.Of < len(b.lie) {
				b.drawn[b.lie[p.Of]].share = n + 1
			}
		}
	}
	return nil
}

// number gives every piece the number of its first page.
func (b *bookPlan) number(front int) {
	next := front + len(b.shared) + 1
	for i := range b.drawn {
		switch p := &b.drawn[i]; {
		case p.share > 0:
			p.first = front + p.share
		case len(p.Tiles) > 0:
			p.first = next
			next += len(p.Tiles)
		}
	}
}
