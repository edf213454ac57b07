package layout

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Rows lays pieces in rows across the roll, the way a cutter plans on
// paper: longest pieces first, each in the first row that has room for it. On
// goods with a vertical repeat every row starts on the repeat, so that all
// pieces match; pieces that need not match go into the gaps that leaves. A
// piece that may be railroaded is turned when only that fits across, or when
// it makes its row shorter.
//
// It is quick and never good: [Boxes] finds shorter layouts. It takes no
// horizontal repeat, motif points, flaws, shade groups or joins.
//
// The layout is checked by [BoxPlan.Verify] before it is returned. Errors wrap
// ErrTooWide, ErrTooMany, unit.ErrRange, unit.ErrForgottenUnit or
// unit.ErrOverflow and name the piece.
func Rows(roll material.Roll, pieces []Box) (BoxPlan, error) {
	if err := roll.Check(); err != nil {
		return BoxPlan{}, err
	}
	if roll.Across != 0 || len(roll.Flaws) > 0 {
		return BoxPlan{}, check.Refuse("roll", roll.Name, unit.ErrRange, "no horizontal repeat and no flaws; Boxes takes them")
	}
	items, err := rowItems(roll, pieces)
	if err != nil {
		return BoxPlan{}, err
	}
	out := BoxPlan{Roll: roll, Pieces: slices.Clone(pieces), Method: "rows, longest piece first", Kind: cite.Layout}
	out.Bound = rowBound(roll, pieces)
	slices.SortStableFunc(items, func(a, b BoxPlacement) int {
		return cmp.Or(
			// What must match comes first; the rest fills the gaps it leaves.
			cmp.Compare(free(roll, pieces[a.Piece]), free(roll, pieces[b.Piece])),
			cmp.Compare(b.Length, a.Length), cmp.Compare(b.Width, a.Width))
	})
	var rows shelves
	for _, it := range items {
		if err := rows.place(roll, &it, pieces[it.Piece].Unmatched || roll.Repeat == 0); err != nil {
			return BoxPlan{}, err
		}
		out.Placements = append(out.Placements, it)
	}
	out.Need = rows.end
	out.Proved = out.Need == out.Bound
	if out.Order, err = roll.Order(out.Need); err != nil {
		return BoxPlan{}, err
	}
	return out, out.Verify()
}

func free(roll material.Roll, p Box) int {
	if roll.Repeat > 0 && p.Unmatched {
		return 1
	}
	return 0
}

// shelves are rows across the roll, one after the other.
type shelves struct {
	rows []shelf
	end  unit.Length // of the last row
}

type shelf struct {
	y, length, used unit.Length
	gap             bool // between the end of a row and the next repeat
}

// place puts a piece into the first row that has room for it, or into a new
// one at the end.
func (s *shelves) place(roll material.Roll, it *BoxPlacement, anywhere bool) error {
	k := slices.IndexFunc(s.rows, func(r shelf) bool {
		return r.used+it.Width <= roll.Usable() && it.Length <= r.length && (anywhere || !r.gap)
	})
	if k < 0 {
		start := s.end
		if !anywhere {
			next, err := material.RepeatLength(s.end, roll.Repeat)
			if err != nil {
				return err
			}
			if next > s.end {
				s.rows = append(s.rows, shelf{y: s.end, length: next - s.end, gap: true})
			}
			start = next
		}
		end, err := start.Plus(it.Length)
		if err != nil {
			return err
		}
		k = len(s.rows)
		s.rows = append(s.rows, shelf{y: start, length: it.Length, gap: anywhere})
		s.end = end
	}
	it.X, it.Y = s.rows[k].used, s.rows[k].y
	s.rows[k].used += it.Width
	return nil
}

// rowItems gives every copy of every piece as it will lie.
func rowItems(roll material.Roll, pieces []Box) ([]BoxPlacement, error) {
	var items []BoxPlacement
	total := 0
	for i, p := range pieces {
		at := fmt.Sprintf("pieces[%d]", i)
		if err := p.check(); err != nil {
			return nil, unit.InField(at, err)
		}
		if p.Join != nil || p.Shade != 0 || p.MotifX != 0 || p.MotifY != 0 {
			return nil, check.Refuse(at, p.Name, unit.ErrRange, "no motif, shade group or join; Boxes takes them")
		}
		if total += p.Count; total > MostBoxes {
			return nil, tooMany(at, p.Count)
		}
		it := BoxPlacement{Piece: i, Width: p.Width, Length: p.Length, Segments: 1}
		if p.mayQuarter(roll) && p.Length <= roll.Usable() && (p.Width > roll.Usable() || p.Width < p.Length) {
			it.Width, it.Length, it.Degrees = p.Length, p.Width, 90
		}
		if it.Width > roll.Usable() {
			return nil, tooWide(at, it.Width, roll)
		}
		for c := range p.Count {
			it.Copy = c
			items = append(items, it)
		}
	}
	return items, nil
}

// rowBound gives max(ceil(area / usable width), longest piece), where a piece
// that may be turned counts with its shorter side if that way fits.
func rowBound(roll material.Roll, pieces []Box) unit.Length {
	area := new(big.Int)
	var longest unit.Length
	for _, p := range pieces {
		a := new(big.Int).Mul(big.NewInt(int64(p.Width)), big.NewInt(int64(p.Length)))
		area.Add(area, a.Mul(a, big.NewInt(int64(p.Count))))
		least := p.Length
		if p.mayQuarter(roll) && (p.Width > roll.Usable() || p.Width < least && p.Length <= roll.Usable()) {
			least = p.Width
		}
		longest = max(longest, least)
	}
	w := big.NewInt(int64(roll.Usable()))
	area.Add(area, w).Sub(area, big.NewInt(1)).Div(area, w)
	return max(unit.Length(area.Int64()), longest) // 10 000 pieces of 100 m fit
}
