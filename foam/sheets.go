package foam

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// ErrNoSheet says a block cannot be made from the stock within the limits on
// plies and joins.
var ErrNoSheet = errors.New("no stock sheet will do")

// Sheet is a size of slab foam the merchant stocks, of one grade.
type Sheet struct {
	Name      string      `json:"name"`
	Length    unit.Length `json:"length"`
	Width     unit.Length `json:"width"`
	Thickness unit.Length `json:"thickness"`
	Basis     cite.Basis  `json:"basis,omitzero"`
}

// CommonSheets gives the sheet sizes often stocked, each in the given
// thicknesses.
func CommonSheets(thicknesses ...unit.Length) []Sheet {
	const mm, in = unit.Millimetre, unit.Inch
	faces := []struct {
		name          string
		length, width unit.Length
		basis         cite.Basis
	}{
		{"24 x 80 in", 80 * in, 24 * in, custom},
		{"24 x 72 in", 72 * in, 24 * in, noText},
		{"24 x 108 in", 108 * in, 24 * in, noText},
		{"36 x 80 in", 80 * in, 36 * in, noText},
		{"54 x 82 in", 82 * in, 54 * in, noText},
		{"76 x 82 in", 82 * in, 76 * in, noText},
		{"1000 x 2000 mm", 2000 * mm, 1000 * mm, noText},
		{"1500 x 2000 mm", 2000 * mm, 1500 * mm, noText},
		{"1600 x 2000 mm", 2000 * mm, 1600 * mm, noText},
	}
	var out []Sheet
	for _, f := range faces {
		for _, t := range thicknesses {
			out = append(out, Sheet{Name: f.name, Length: f.length, Width: f.width, Thickness: t, Basis: f.basis})
		}
	}
	return out
}

// Piece is a block wanted so many times.
type Piece struct {
	Name  string `json:"name"`
	Block Block  `json:"block"`
	Count int    `json:"count"` // 1 to 200
	// Fixed keeps the block's length along the sheet's length.
	Fixed bool `json:"fixed,omitempty"`
}

// SheetRules says how blocks may be cut and glued.
type SheetRules struct {
	Stock []Sheet     `json:"stock"`
	Kerf  unit.Length `json:"kerf,omitzero"` // lost between neighbours, 0 to 1 in
	// MostPlies is how many sheets may be glued face to face for a thickness,
	// 1 to 6; zero means 1.
	MostPlies int `json:"most_plies,omitzero"`
	// MostJoins is how many butt joins a face may have, 0 to 4.
	MostJoins int `json:"most_joins,omitzero"`
	// Packer lays the parts out; nil is the built-in way: rows across the
	// sheet, and the rectangle engine where that might save a sheet.
	Packer Packer `json:"-"`
}

// Rect is a part to be laid on a sheet.
type Rect struct {
	Length, Width unit.Length
	Turnable      bool // may be turned by a right angle
}

// Place is where a part lies: which sheet, counted from 0, and its corner
// nearest the sheet's origin. Turned parts have their width along the sheet's
// length.
type Place struct {
	Sheet  int         `json:"sheet"`
	X      unit.Length `json:"x"` // along the sheet's length
	Y      unit.Length `json:"y"` // along its width
	Turned bool        `json:"turned,omitempty"`
}

// Packer lays every part on sheets of one size, with the kerf between
// neighbours, in as few sheets as it can, and gives one place for each part in
// order. When the context ends it gives the best it has. Whatever it answers is
// checked before it is used.
type Packer interface {
	// Pack gives one place for each part; length and width are those of a
	// sheet.
	Pack(ctx context.Context, length, width, kerf unit.Length, parts []Rect) ([]Place, error)
}

// SheetPart is one part of a block in a plan.
type SheetPart struct {
	Piece  string      `json:"piece"`
	Number int         `json:"number"` // which of the piece's blocks, from 1
	Ply    int         `json:"ply"`    // from 1
	Part   int         `json:"part"`   // of a joined face, from 1
	Length unit.Length `json:"length"`
	Width  unit.Length `json:"width"`
	Place  Place       `json:"place"`
}

// SheetOrder is the sheets of one size to buy and what is cut from them.
type SheetOrder struct {
	Sheet Sheet       `json:"sheet"`
	Count int         `json:"count"`
	Bound int         `json:"bound"` // no plan on this size can do with fewer
	Parts []SheetPart `json:"parts"`
}

// SheetResult is a plan in which every part has a place, checked for overlap
// and for lying on its sheet.
type SheetResult struct {
	Orders []SheetOrder `json:"orders"`
	Bought unit.Volume  `json:"bought"` // of all sheets; foam is sold by its board feet
	Used   unit.Volume  `json:"used"`   // of all blocks
	Waste  unit.Ratio   `json:"waste"`
	// Glued counts the glued faces: plies and joins.
	Glued    int       `json:"glued"`
	Cautions []Caution `json:"cautions"`
	Kind     cite.Kind `json:"kind"`
}

// PlanSheets makes blocks out of stock sheets. A thickness is made of the
// fewest plies whose thicknesses add up to it exactly; a face larger than the
// sheet is butt-joined from equal parts. For each thickness the sheet size that
// buys the least foam is taken. It wraps [ErrNoSheet] when a block cannot be
// made. When the context ends the plan is still whole, only perhaps not as good.
func PlanSheets(ctx context.Context, pieces []Piece, rules SheetRules) (SheetResult, error) {
	rules, err := checkSheets(pieces, rules)
	if err != nil {
		return SheetResult{}, err
	}
	byThickness := map[unit.Length][]SheetPart{}
	fixed := map[string]bool{}
	var thicknesses []unit.Length
	out := SheetResult{Kind: cite.Layout}
	for i, p := range pieces {
		plies, ok := fewestPlies(p.Block.Thickness, rules)
		if !ok {
			return SheetResult{}, check.Refuse(fmt.Sprintf("pieces[%d].block.thickness", i), p.Block.Thickness.String(), ErrNoSheet,
				fmt.Sprintf("a sum of at most %d of the stock thicknesses %s", rules.MostPlies, thicknessList(rules.Stock)))
		}
		fixed[p.Name] = p.Fixed
		v, err := p.Block.Volume()
		if err != nil {
			return SheetResult{}, unit.InField(fmt.Sprintf("pieces[%d].block", i), err)
		}
		if v, err = v.Times(p.Count); err != nil {
			return SheetResult{}, err
		}
		if out.Used, err = out.Used.Plus(v); err != nil {
			return SheetResult{}, err
		}
		for n := 1; n <= p.Count; n++ {
			for k, t := range plies {
				if !slices.Contains(thicknesses, t) {
					thicknesses = append(thicknesses, t)
				}
				byThickness[t] = append(byThickness[t], SheetPart{
					Piece: p.Name, Number: n, Ply: k + 1, Part: 1, Length: p.Block.Length, Width: p.Block.Width,
				})
			}
			out.Glued += len(plies) - 1
		}
	}
	slices.Sort(thicknesses)
	for _, t := range thicknesses {
		order, joins, err := bestSheet(ctx, t, byThickness[t], fixed, rules)
		if err != nil {
			return SheetResult{}, err
		}
		out.Glued += joins
		out.Orders = append(out.Orders, order)
		v, err := order.volume()
		if err != nil {
			return SheetResult{}, err
		}
		if out.Bought, err = out.Bought.Plus(v); err != nil {
			return SheetResult{}, err
		}
	}
	share, err := out.Used.Per(out.Bought)
	if err != nil {
		return SheetResult{}, err
	}
	out.Waste = max(0, 1-share)
	if out.Glued > 0 {
		for _, c := range cautions {
			if c.Hazard == Adhesive {
				out.Cautions = append(out.Cautions, c)
			}
		}
	}
	return out, nil
}

const mostParts = 2000

func checkSheets(pieces []Piece, rules SheetRules) (SheetRules, error) {
	if len(pieces) == 0 {
		return rules, check.Required("pieces", "at least one piece")
	}
	total := 0
	for i, p := range pieces {
		field := fmt.Sprintf("pieces[%d]", i)
		if err := p.Block.Check(); err != nil {
			return rules, unit.InField(field+".block", err)
		}
		if err := check.Count(field+".count", p.Count, 1, 200); err != nil {
			return rules, err
		}
		if p.Name == "" {
			return rules, check.Required(field+".name", "a name")
		}
		if slices.ContainsFunc(pieces[:i], func(q Piece) bool { return q.Name == p.Name }) {
			return rules, check.Refuse(field+".name", p.Name, unit.ErrRange, "a name of its own")
		}
		total += p.Count
	}
	if err := check.Count("pieces", total, 1, mostParts/6); err != nil {
		return rules, err
	}
	if len(rules.Stock) == 0 {
		return rules, check.Required("stock", "at least one sheet")
	}
	if err := check.Count("stock", len(rules.Stock), 1, 200); err != nil {
		return rules, err
	}
	for i, s := range rules.Stock {
		b := Block{Length: s.Length, Width: s.Width, Thickness: s.Thickness}
		if err := b.Check(); err != nil {
			return rules, unit.InField(fmt.Sprintf("stock[%d]", i), err)
		}
	}
	if err := check.Length("kerf", rules.Kerf, 0, unit.Inch); err != nil {
		return rules, err
	}
	if rules.MostPlies == 0 {
		rules.MostPlies = 1
	}
	if err := check.Count("most_plies", rules.MostPlies, 1, 6); err != nil {
		return rules, err
	}
	if err := check.Count("most_joins", rules.MostJoins, 0, 4); err != nil {
		return rules, err
	}
	return rules, nil
}

func stockThicknesses(stock []Sheet) []unit.Length {
	var out []unit.Length
	for _, s := range stock {
		out = append(out, s.Thickness)
	}
	slices.Sort(out)
	out = slices.Compact(out)
	slices.Reverse(out)
	return out
}

func thicknessList(stock []Sheet) string {
	var names []string
	for _, t := range stockThicknesses(stock) {
		names = append(names, t.String())
	}
	return strings.Join(names, ", ")
}

// fewestPlies finds the fewest stock thicknesses that add up to t, the thickest
// plies first.
func fewestPlies(t unit.Length, rules SheetRules) ([]unit.Length, bool) {
	have := stockThicknesses(rules.Stock)
	for n := 1; n <= rules.MostPlies; n++ {
		if plies, ok := sumOf(t, n, have); ok {
			return plies, true
		}
	}
	return nil, false
}

// sumOf finds n thicknesses, in falling order, that add up to t.
func sumOf(t unit.Length, n int, have []unit.Length) ([]unit.Length, bool) {
	for i, h := range have {
		switch {
		case n == 1 && h == t:
			return []unit.Length{h}, true
		case n > 1 && h < t && h*unit.Length(n) >= t:
			if rest, ok := sumOf(t-h, n-1, have[i:]); ok {
				return append([]unit.Length{h}, rest...), true
			}
		}
	}
	return nil, false
}

func (o SheetOrder) volume() (unit.Volume, error) {
	v, err := Block{Length: o.Sheet.Length, Width: o.Sheet.Width, Thickness: o.Sheet.Thickness}.Volume()
	if err != nil {
		return 0, err
	}
	return v.Times(o.Count)
}

// bestSheet lays the parts of one thickness on each stock size of it and keeps
// the one that buys the least.
func bestSheet(ctx context.Context, t unit.Length, parts []SheetPart, fixed map[string]bool, rules SheetRules) (SheetOrder, int, error) {
	var best SheetOrder
	var bestVolume unit.Volume
	var bestJoins int
	var reason error
	try := func(s Sheet, split []SheetPart, joins int, p Packer) error {
		order, err := lay(ctx, s, split, fixed, rules.Kerf, p)
		if err != nil {
			return err
		}
		v, err := order.volume()
		if err != nil {
			return err
		}
		if best.Count == 0 || v < bestVolume || (v == bestVolume && joins < bestJoins) {
			best, bestVolume, bestJoins = order, v, joins
		}
		return nil
	}
	// The simple layout comes first on every size, so that the engine is only
	// asked where even its best could beat what there is.
	rounds := []Packer{rules.Packer}
	if rules.Packer == nil {
		rounds = []Packer{shelves{}, engine{}}
	}
	for _, p := range rounds {
		for _, s := range rules.Stock {
			if s.Thickness != t {
				continue
			}
			split, joins, err := splitParts(s, parts, fixed, rules.MostJoins)
			if err != nil {
				reason = err
				continue
			}
			if best.Count > 0 {
				least := SheetOrder{Sheet: s, Count: leastSheets(s, rules.Kerf, rectsOf(split, fixed))}
				v, err := least.volume()
				if err != nil {
					return SheetOrder{}, 0, err
				}
				if v > bestVolume || (v == bestVolume && joins >= bestJoins) {
					continue
				}
			}
			if err := try(s, split, joins, p); err != nil {
				return SheetOrder{}, 0, err
			}
		}
	}
	if best.Count == 0 {
		return SheetOrder{}, 0, reason
	}
	return best, bestJoins, nil
}

// splitParts cuts faces that are larger than the sheet into equal parts.
func splitParts(s Sheet, parts []SheetPart, fixed map[string]bool, mostJoins int) ([]SheetPart, int, error) {
	var out []SheetPart
	joins := 0
	for _, p := range parts {
		n, across, ok := fewestParts(s, p, !fixed[p.Piece], mostJoins)
		if !ok {
			return nil, 0, check.Refuse("pieces["+p.Piece+"]", p.Length.String()+" x "+p.Width.String(), ErrNoSheet,
				fmt.Sprintf("a face that a sheet of %v x %v gives with at most %d joins", s.Length, s.Width, mostJoins))
		}
		joins += n - 1
		for i := range n {
			q := p
			q.Part = i + 1
			if across {
				q.Width = share(p.Width, i, n)
			} else {
				q.Length = share(p.Length, i, n)
			}
			out = append(out, q)
		}
	}
	return out, joins, nil
}

// share gives the i-th of n parts of l; all n together make l exactly.
func share(l unit.Length, i, n int) unit.Length {
	return l*unit.Length(i+1)/unit.Length(n) - l*unit.Length(i)/unit.Length(n)
}

// fewestParts finds into how many equal parts a face must be cut to fit the
// sheet; across says the cuts part the width instead of the length.
func fewestParts(s Sheet, p SheetPart, turnable bool, mostJoins int) (n int, across, ok bool) {
	fits := func(l, w unit.Length) bool {
		return l <= s.Length && w <= s.Width || turnable && w <= s.Length && l <= s.Width
	}
	for n = 1; n <= mostJoins+1; n++ {
		// The first of the parts may be a nanometre short, so the largest counts.
		big := func(l unit.Length) unit.Length { return (l + unit.Length(n) - 1) / unit.Length(n) }
		if fits(big(p.Length), p.Width) {
			return n, false, true
		}
		if fits(p.Length, big(p.Width)) {
			return n, true, true
		}
	}
	return 0, false, false
}

func rectsOf(parts []SheetPart, fixed map[string]bool) []Rect {
	rects := make([]Rect, len(parts))
	for i, p := range parts {
		rects[i] = Rect{Length: p.Length, Width: p.Width, Turnable: !fixed[p.Piece]}
	}
	return rects
}

// lay packs parts on one size of sheet and checks the answer.
func lay(ctx context.Context, s Sheet, parts []SheetPart, fixed map[string]bool, kerf unit.Length, p Packer) (SheetOrder, error) {
	if err := check.Count("parts", len(parts), 1, mostParts); err != nil {
		return SheetOrder{}, err
	}
	rects := rectsOf(parts, fixed)
	places, err := p.Pack(ctx, s.Length, s.Width, kerf, rects)
	if err != nil {
		return SheetOrder{}, fmt.Errorf("laying out %s: %w", s.Name, err)
	}
	count, err := verify(s, kerf, rects, places)
	if err != nil {
		return SheetOrder{}, fmt.Errorf("laying out %s: %w", s.Name, err)
	}
	order := SheetOrder{Sheet: s, Count: count, Bound: leastSheets(s, kerf, rects), Parts: slices.Clone(parts)}
	for i := range order.Parts {
		order.Parts[i].Place = places[i]
	}
	return order, nil
}

// ErrBadLayout says a Packer's answer does not hold: a part is missing, off its
// sheet, turned against its will, or too near another.
var ErrBadLayout = errors.New("layout does not hold")

// verify checks that every part lies on its sheet and a kerf away from every
// other, and counts the sheets. It shares nothing with the packer.
func verify(s Sheet, kerf unit.Length, rects []Rect, places []Place) (int, error) {
	if len(places) != len(rects) {
		return 0, ErrBadLayout
	}
	type box struct{ x0, y0, x1, y1 unit.Length }
	sheets := map[int][]box{}
	highest := 0
	for i, p := range places {
		l, w := rects[i].Length, rects[i].Width
		if p.Turned {
			if !rects[i].Turnable {
				return 0, ErrBadLayout
			}
			l, w = w, l
		}
		b := box{p.X, p.Y, p.X + l, p.Y + w}
		if p.Sheet < 0 || b.x0 < 0 || b.y0 < 0 || b.x1 > s.Length || b.y1 > s.Width {
			return 0, ErrBadLayout
		}
		for _, o := range sheets[p.Sheet] {
			if b.x0 < o.x1+kerf && o.x0 < b.x1+kerf && b.y0 < o.y1+kerf && o.y0 < b.y1+kerf {
				return 0, ErrBadLayout
			}
		}
		sheets[p.Sheet] = append(sheets[p.Sheet], b)
		highest = max(highest, p.Sheet)
	}
	if highest != len(sheets)-1 {
		return 0, ErrBadLayout
	}
	return len(sheets), nil
}

// leastSheets is a number of sheets no layout can go under. Parts with a kerf
// between them take no more room than parts a kerf larger each way on a sheet a
// kerf larger each way, so their areas add; and of parts that are more than
// half a sheet both ways no two share a sheet.
func leastSheets(s Sheet, kerf unit.Length, rects []Rect) int {
	area := func(l, w unit.Length) *big.Int {
		return new(big.Int).Mul(big.NewInt(int64(l+kerf)), big.NewInt(int64(w+kerf)))
	}
	sum := new(big.Int)
	large := 0
	for _, r := range rects {
		sum.Add(sum, area(r.Length, r.Width))
		// A way that does not fit the sheet at all cannot be used either.
		half := func(l, w unit.Length) bool {
			return l > s.Length || w > s.Width || 2*(l+kerf) > s.Length+kerf && 2*(w+kerf) > s.Width+kerf
		}
		if half(r.Length, r.Width) && (!r.Turnable || half(r.Width, r.Length)) {
			large++
		}
	}
	one := area(s.Length, s.Width)
	sum.Add(sum, new(big.Int).Sub(one, big.NewInt(1)))
	return max(1, large, int(sum.Div(sum, one).Int64()))
}
