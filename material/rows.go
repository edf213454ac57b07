package material

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// MostPieces is the largest number of pieces, copies counted, in one layout.
const MostPieces = 10_000

// LayRows lays pieces in rows across the roll, the way a cutter plans on
// paper: longest pieces first, each in the first row that has room for it.
// On patterned goods every row starts on the repeat, so that all pieces
// match; pieces that need not match go into the gaps that leaves. A piece that may be railroaded is turned when only that fits across,
// or when it makes its row shorter.
//
// The layout is checked by [Layout.Verify] before it is returned. Errors wrap
// ErrTooWide, ErrTooMany, unit.ErrRange, unit.ErrForgottenUnit or
// unit.ErrOverflow and name the piece.
func LayRows(roll Roll, pieces []Piece) (Layout, error) {
	if err := roll.Check(); err != nil {
		return Layout{}, err
	}
	items, err := rowItems(roll, pieces)
	if err != nil {
		return Layout{}, err
	}
	out := Layout{Roll: roll, Pieces: slices.Clone(pieces), Method: "rows, longest piece first", Kind: cite.Layout}
	out.Bound = rowBound(roll, pieces)
	slices.SortStableFunc(items, func(a, b Placement) int {
		return cmp.Or(
			// What must match comes first; the rest fills the gaps it leaves.
			cmp.Compare(free(roll, pieces[a.Piece]), free(roll, pieces[b.Piece])),
			cmp.Compare(b.Length, a.Length), cmp.Compare(b.Width, a.Width))
	})
	var rows shelves
	for _, it := range items {
		if err := rows.place(roll, &it, pieces[it.Piece].Unmatched || roll.Repeat == 0); err != nil {
			return Layout{}, err
		}
		out.Placements = append(out.Placements, it)
	}
	out.Need = rows.end
	if out.Order, err = roll.Order(out.Need); err != nil {
		return Layout{}, err
	}
	return out, out.Verify()
}

func free(roll Roll, p Piece) int {
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
func (s *shelves) place(roll Roll, it *Placement, anywhere bool) error {
	k := slices.IndexFunc(s.rows, func(r shelf) bool {
		return r.used+it.Width <= roll.Usable() && it.Length <= r.length && (anywhere || !r.gap)
	})
	if k < 0 {
		start := s.end
		if !anywhere {
			next, err := RepeatLength(s.end, roll.Repeat)
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
func rowItems(roll Roll, pieces []Piece) ([]Placement, error) {
	var items []Placement
	total := 0
	for i, p := range pieces {
		at := fmt.Sprintf("pieces[%d]", i)
		if err := p.check(); err != nil {
			return nil, unit.InField(at, err)
		}
		if total += p.Count; total > MostPieces {
			return nil, check.Refuse(at+".count", fmt.Sprint(p.Count), ErrTooMany, fmt.Sprintf("at most %d pieces in all", MostPieces))
		}
		it := Placement{Piece: i, Width: p.Width, Length: p.Length}
		if p.mayTurn(roll) && p.Length <= roll.Usable() && (p.Width > roll.Usable() || p.Width < p.Length) {
			it.Width, it.Length, it.Turned = p.Length, p.Width, true
		}
		if it.Width > roll.Usable() {
			want := fmt.Sprintf("at most the usable width of %v", roll.Usable())
			return nil, check.Refuse(at+".width", it.Width.String(), ErrTooWide, want)
		}
		for c := range p.Count {
			it.Copy = c
			items = append(items, it)
		}
	}
	return items, nil
}

func (p Piece) check() error {
	if err := check.Length("width", p.Width, unit.Millimetre, 100*unit.Metre); err != nil {
		return err
	}
	if err := check.Length("length", p.Length, unit.Millimetre, 100*unit.Metre); err != nil {
		return err
	}
	if p.Turn > QuarterTurn {
		return check.Refuse("turn", fmt.Sprint(p.Turn), unit.ErrUnknown, "KeepGrain or QuarterTurn")
	}
	return check.Count("count", p.Count, 1, MostPieces)
}

// rowBound gives max(ceil(area / usable width), longest piece), where a piece
// that may be turned counts with its shorter side if that way fits.
func rowBound(roll Roll, pieces []Piece) unit.Length {
	area := new(big.Int)
	var longest unit.Length
	for _, p := range pieces {
		a := new(big.Int).Mul(big.NewInt(int64(p.Width)), big.NewInt(int64(p.Length)))
		area.Add(area, a.Mul(a, big.NewInt(int64(p.Count))))
		least := p.Length
		if p.mayTurn(roll) && (p.Width > roll.Usable() || p.Width < least && p.Length <= roll.Usable()) {
			least = p.Width
		}
		longest = max(longest, least)
	}
	w := big.NewInt(int64(roll.Usable()))
	area.Add(area, w).Sub(area, big.NewInt(1)).Div(area, w)
	return max(unit.Length(area.Int64()), longest) // 10 000 pieces of 100 m fit
}

func (p Piece) mayTurn(roll Roll) bool {
	return p.Turn == QuarterTurn && !roll.Nap && roll.Repeat == 0
}
