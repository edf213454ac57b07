package job

import (
	"cmp"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// takesUp tells whether the wrap is the take-up of the cover: 1/2 in or more.
func (w WrapSpec) takesUp() bool {
	return unit.Length(min(copies(w.Layers), 4))*min(w.Loft, unit.Inch) >= unit.Inch/2
}

// rule is how the block is wrapped.
func (w WrapSpec) rule() wrap.Rule {
	r := wrap.Rule{Batting: wrap.Batting{Loft: w.Loft, Basis: cite.Basis{Status: cite.Derived, Note: "loft as given"}},
		Back: w.Back, Sides: w.Sides, Layers: copies(w.Layers), Overlap: unit.Inch}
	for _, b := range wrap.Battings() {
		if b.Loft == w.Loft {
			r.Batting = b
		}
	}
	if w.Overlap != nil {
		r.Overlap = *w.Overlap
	}
	return r
}

// wrapped cuts and prices the batting of a part; first is the place of its first
// block in the order.
func (s Spec) wrapped(x filling, first int) (FoamWrap, []cost.Line, faults) {
	var f faults
	w, b, at := *x.spec.Wrap, x.block, x.in.Dot("wrap")
	out := FoamWrap{Rule: w.rule(), Width: w.Width, Priced: !w.Price.IsZero(), TakesUp: w.takesUp(), Supplier: cmp.Or(w.Supplier, x.spec.Supplier)}
	var err error
	if b.Form == FoamCylinder {
		out.Round = w.Sides
		out.Cut, err = wrap.CutRound(foam.Cylinder{Diameter: b.Cut.Thickness, Length: b.Cut.Length}, out.Rule)
	} else {
		out.Cut, err = wrap.CutFor(b.Cut, out.Rule)
	}
	if err != nil {
		f.add(at, check.Renamed(err, map[string]string{"batting": "loft", "loft": ""}))
		return out, nil, f
	}
	out.Sheets = b.Count * out.Rule.Layers
	if w.Sides {
		out.Sides = 2 * out.Sheets
	}
	if out.Area, err = out.Cut.Area.Times(b.Count); err != nil {
		f.add(at, err)
		return out, nil, f
	}
	if w.Width != 0 {
		if out.Length, err = out.offRoll(); err != nil {
			f.add(at.Dot("width"), err)
			return out, nil, f
		}
	}
	lines, err := s.batting(out, w.Price, unit.Path("foam").At(first).Dot("wrap"), b.Piece, "batting, "+b.Piece+": "+b.Part)
	f.add(at.Dot("price"), err)
	return out, lines, f
}

// batting prices the wrap, by the area of its sheets or by the length off the roll.
func (s Spec) batting(w FoamWrap, price GoodsPrice, source unit.Path, piece, what string) ([]cost.Line, error) {
	if price.IsZero() {
		return nil, nil
	}
	if err := s.checkCurrency(price.amount()); err != nil {
		return nil, err
	}
	var line cost.Line
	var err error
	uplift := s.Quote.uplift(cost.Foam)
	if price.PerArea.Unit() != 0 {
		line, err = cost.Item[unit.Area]{Source: string(source), Kind: cost.Foam, What: what, Quantity: w.Area, Price: price.PerArea, Uplift: uplift}.Line()
	} else {
		if w.Width == 0 {
			return nil, check.Refuse("", price.amount().String(), ErrMisplaced, "a price per area, or the width of the roll")
		}
		line, err = cost.Item[unit.Length]{Source: string(source), Kind: cost.Foam, What: what, Quantity: w.Length, Price: price.PerLength, Uplift: uplift}.Line()
	}
	if err != nil {
		return nil, err
	}
	line.Shares = forPiece(piece)
	return []cost.Line{line}, nil
}

// offRoll gives the length off the roll: sheets and side pieces each in rows, the
// way round that takes less. With n pieces of a by b on a roll of width w,
//
//	min(⌈n / ⌊w/a⌋⌉ · b, ⌈n / ⌊w/b⌋⌉ · a)
func (w FoamWrap) offRoll() (unit.Length, error) {
	if err := checkSide(w.Width); err != nil {
		return 0, err
	}
	var sum unit.Length
	for _, p := range []struct {
		a, b unit.Length
		n    int
	}{{w.Cut.Length, w.Cut.Around, w.Sheets}, {w.Cut.Side.Length, w.Cut.Side.Width, w.Sides}} {
		if p.n == 0 {
			continue
		}
		best := unit.Length(0)
		for _, q := range [2][2]unit.Length{{p.a, p.b}, {p.b, p.a}} {
			across := int(min(w.Width/q[0], unit.Length(p.n)))
			if across == 0 {
				continue
			}
			rows := (p.n + across - 1) / across
			l, err := q[1].Times(rows)
			if err != nil {
				return 0, err
			}
			if best == 0 || l < best {
				best = l
			}
		}
		if best == 0 {
			return 0, check.Refuse("", w.Width.String(), unit.ErrRange, "at least "+min(p.a, p.b).String()+", the narrower way of a sheet")
		}
		var err error
		if sum, err = sum.Plus(best); err != nil {
			return 0, err
		}
	}
	return sum, nil
}
