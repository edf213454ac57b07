package layout

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Where the motifs may be moved, along the roll when the start of the bolt is not
// known, both ways under pieces of a common number, some shortest layout can be
// pushed to the end of the roll and to its left edge, motifs and all, until one
// of the pieces bound to them stands there, or on pieces that are bound to
// nothing, one on the other. So the only places of a motif worth trying are
//
//	a spot of a bound piece, turned as it may be, + sizes of some loose pieces, less the rise of a column
//
// modulo the repeat. With one such common number, few loose pieces, no flaws, no
// shade groups and no joins these are all, and the best of their optima is the
// optimum.

// Pieces whose sums of sizes are all tried, most places of a motif that are, and
// the least number of them that little effort leaves.
const (
	mostLoose  = 4
	mostMotifs = 400
	leastTries = 64
)

// afloat lists the common numbers whose motifs the layout may move: 0 along the
// roll where the start of the bolt is not known, others both ways.
func (t *boxTable) afloat() []int {
	var out []int
	for _, b := range t.boxes {
		moves := b.common > 0 && (b.bindX || b.bindY) || b.common == 0 && b.bindY && t.job.Roll.UnknownStart
		if moves && !slices.Contains(out, b.common) {
			out = append(out, b.common)
		}
	}
	slices.Sort(out)
	return out
}

// resting gives the motifs where the goods have them, for every common number.
func (t *boxTable) resting() []shape.Point {
	most := 0
	for _, b := range t.boxes {
		most = max(most, b.common)
	}
	return slices.Repeat([]shape.Point{t.job.Roll.First}, most+1)
}

// lay searches a short layout of the boxes, and the best places of motifs that
// may be moved.
func (t *boxTable) lay(ctx context.Context, o Options) (boxed, error) {
	if t.job.stacks() {
		if l, err := t.stack(ctx, o); err == nil {
			return l, nil
		} // the first piece took motifs on which another has no place
	}
	numbers, motifs := t.afloat(), t.resting()
	if len(numbers) == 0 {
		return t.layOn(ctx, o, motifs)
	}
	tries, whole := [][]shape.Point{motifs}, len(numbers) == 1
	for k, c := range numbers {
		at, all := t.motifsOf(c)
		whole = whole && all
		if k > 0 && len(tries)*len(at) > mostMotifs {
			at = at[:1]
		}
		var more [][]shape.Point
		for _, m := range tries {
			for _, q := range at {
				m := slices.Clone(m)
				m[c] = q
				more = append(more, m)
			}
		}
		tries = more
	}
	tries = slices.DeleteFunc(tries, func(m []shape.Point) bool { return !t.reaches(m) })
	return t.layAfloat(ctx, o, tries, whole)
}

// layAfloat lays the boxes with the motifs at each of some places: all with a
// little effort, the best of them with much, then those again that may yet be
// better.
func (t *boxTable) layAfloat(ctx context.Context, o Options, tries [][]shape.Point, whole bool) (boxed, error) {
	var best boxed
	var last error
	if most := max(leastTries, int(o.Effort/0.0004)); len(tries) > most {
		whole = false
		for i := range most {
			tries[i] = tries[i*len(tries)/most]
		}
		tries = tries[:most]
	}
	bounds, needs := make([]unit.Length, len(tries)), make([]unit.Length, len(tries))
	pass := func(which []int, from, to unit.Ratio) error {
		for n, k := range which {
			if best.need > 0 && (bounds[k] >= best.need || ctx.Err() != nil) {
				continue
			}
			step := (to - from) / unit.Ratio(len(which))
			part := o.part(from+unit.Ratio(unit.Ratio(n)*step), from+unit.Ratio(unit.Ratio(n+1)*step))
			part.Effort = max(0.0001, o.Effort*step)
			l, err := t.layOn(ctx, part, tries[k])
			if errors.Is(err, ErrNoLayout) {
				last, whole = err, false
				continue
			}
			if err != nil {
				return err
			}
			needs[k] = l.need
			if bounds[k] = max(bounds[k], l.bound); l.proved {
				bounds[k] = l.need
			}
			if best.need == 0 || l.need < best.need {
				l.stopped = l.stopped || best.stopped
				best = l
			}
		}
		return nil
	}
	all := make([]int, len(tries))
	for k, m := range tries {
		all[k] = k
		if e := t.engine(m); e.Validate() == nil {
			bounds[k] = unit.Length(e.LowerBound())
		}
	}
	by := func(v []unit.Length) []int {
		out := slices.Clone(all)
		slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(v[a], v[b]) })
		return slices.DeleteFunc(out, func(k int) bool { return best.need > 0 && bounds[k] >= best.need })
	}
	if err := pass(by(bounds), 0, 0.3); err != nil {
		return boxed{}, err
	}
	found := by(needs)
	if err := pass(found[:min(4, len(found))], 0.3, 0.8); err != nil {
		return boxed{}, err
	}
	if err := pass(by(bounds), 0.8, 1); err != nil {
		return boxed{}, err
	}
	if best.need == 0 {
		if last == nil {
			last = fmt.Errorf("%w: the horizontal repeat leaves no room", ErrNoLayout)
		}
		return boxed{}, last
	}
	best.bound, best.proved, best.moved = 0, false, true
	if whole {
		best.bound = min(best.need, slices.Min(bounds))
		best.proved = best.bound == best.need
	}
	return best, nil
}

// reaches tells whether every box that the pattern binds across has a column.
func (t *boxTable) reaches(motifs []shape.Point) bool {
	return !slices.ContainsFunc(t.boxes, func(b box) bool { return !t.within(b, motifs) })
}

// within tells whether a box may lie about some column.
func (t *boxTable) within(b box, motifs []shape.Point) bool {
	room := t.job.Roll.Usable() - b.width
	return !b.bindX || slices.ContainsFunc(t.turnedSpots(b), func(m shape.Point) bool {
		return modulo(motifs[b.common].X-m.X, t.job.Roll.Across) <= room
	})
}

// outOfReach says of the first box that fits about no column of the goods where a
// motif would have to lie; nil where there is none.
func (t *boxTable) outOfReach() error {
	motifs := t.resting()
	for _, b := range t.boxes {
		if b.common > 0 || t.within(b, motifs) {
			continue
		}
		m := t.turnedSpots(b)[0]
		name := t.job.Pieces[b.piece].Name
		if name == "" {
			name = fmt.Sprintf("piece %d", b.piece+1)
		}
		return fmt.Errorf("%w: %s fits about no motif across the goods; one would have to lie from %v to %v from the left usable edge, or whole repeats of %v from there",
			ErrNoLayout, name, m.X, t.job.Roll.Usable()-b.width+m.X, t.job.Roll.Across)
	}
	return nil
}

// turnedSpots gives the spots of a box at every turn it may take, from the lower
// left corner as it lies. Pieces bound to a pattern lie upright or upside down.
func (t *boxTable) turnedSpots(b box) []shape.Point {
	var out []shape.Point
	for _, s := range b.spots {
		if s.holds(0) {
			out = append(out, s.Point)
		}
		if b.turn != KeepGrain && !t.job.Roll.Directed() && s.holds(180) {
			out = append(out, shape.Point{X: b.width - s.Point.X, Y: b.length - s.Point.Y})
		}
	}
	return out
}

// motifsOf lists the places of a motif worth trying under the boxes of a common
// number; whole says that there are no others.
func (t *boxTable) motifsOf(c int) (out []shape.Point, whole bool) {
	roll := *t.job.Roll
	rises := []unit.Length{0}
	for k := 1; k < roll.Drop.Den; k++ {
		rises = append(rises, material.Motifs{Along: roll.Repeat, Drop: roll.Drop}.Rise(k))
	}
	whole = len(roll.Flaws) == 0 && len(t.job.Shades) == 0 && (roll.Drop.Den == 0 || int64(roll.Repeat)%int64(roll.Drop.Den) == 0)
	var xs, ys []unit.Length
	upX, allX := t.loose(c, func(b box) (bool, unit.Length) { return b.bindX, b.width })
	upY, allY := t.loose(c, func(b box) (bool, unit.Length) { return b.bindY, b.length })
	for _, b := range t.boxes {
		whole = whole && b.join == nil
		if b.common != c {
			continue
		}
		for _, m := range t.turnedSpots(b) {
			if b.bindX {
				for _, up := range upX {
					xs = append(xs, t.rounded(modulo(m.X+up, roll.Across), &whole))
				}
			}
			if b.bindY {
				for _, up := range upY {
					for _, r := range rises {
						ys = append(ys, t.rounded(modulo(m.Y+up-r, roll.Repeat), &whole))
					}
				}
			}
		}
	}
	if c == 0 {
		xs, allX = []unit.Length{roll.First.X}, true
	}
	whole = whole && allX && allY
	few := func(v []unit.Length, still unit.Length, most int) []unit.Length {
		if len(v) == 0 {
			return []unit.Length{still}
		}
		slices.Sort(v)
		v = slices.Compact(v)
		for len(v) > most {
			whole = false
			var half []unit.Length
			for i := 0; i < len(v); i += 2 {
				half = append(half, v[i])
			}
			v = half
		}
		return v
	}
	xs = few(xs, roll.First.X, mostMotifs/8)
	for _, y := range few(ys, roll.First.Y, max(8, mostMotifs/len(xs))) {
		for _, x := range xs {
			out = append(out, shape.Point{X: x, Y: y})
		}
	}
	return out, whole
}

// rounded brings a place of a motif to the grid of nested outlines, where there
// are any.
func (t *boxTable) rounded(v unit.Length, whole *bool) unit.Length {
	if off := v % nestStep; t.shaped && off != 0 {
		*whole = false
		return v - off
	}
	return v
}

// loose lists sums of sizes of boxes that the pattern does not bind one way, with
// the gaps between: all of them where there are few such boxes, else one box at a
// time. all is false there, and where boxes of another number are bound.
func (t *boxTable) loose(c int, side func(box) (bool, unit.Length)) (sums []unit.Length, all bool) {
	sums, all = []unit.Length{0}, true
	var sizes []unit.Length
	for _, b := range t.boxes {
		bound, size := side(b)
		switch {
		case bound:
			all = all && b.common == c
		default:
			sizes = append(sizes, slices.Repeat([]unit.Length{size + t.job.Gap}, min(b.count, mostLoose+1))...)
		}
	}
	if len(sizes) > mostLoose {
		slices.Sort(sizes)
		return append(sums, slices.Compact(sizes)[:min(8, len(slices.Compact(sizes)))]...), false
	}
	for _, s := range sizes {
		for _, v := range slices.Clone(sums) {
			sums = append(sums, v+s)
		}
	}
	slices.Sort(sums)
	return slices.Compact(sums), all
}

// motif gives where a motif lies under the pieces of a common number.
func (p Plan) motif(common int) shape.Point {
	if common >= 0 && common < len(p.Motifs) {
		return p.Motifs[common]
	}
	return p.Job.Roll.First
}

// spare gives what must be bought beyond what a layout needs where the start of
// the bolt is not known: one repeat along the roll for all pieces together.
//
// With N(o) the length needed when the first motif lies o from the end, and N
// the least of them, at o', N(o) <= N + ((o - o') mod R) < N + R: cloth before o'
// is thrown away.
func (j Job) spare() unit.Length {
	if !j.Roll.UnknownStart || !slices.ContainsFunc(j.Pieces, func(p Piece) bool { return p.matched(*j.Roll) && p.Phase.Common == 0 && p.Phase.along(*j.Roll) }) {
		return 0
	}
	return j.Roll.Repeat
}

// verifyMotifs checks where the motifs are said to lie, and what is bought to
// cut a bolt back to them.
func (p Plan) verifyMotifs() error {
	first := p.Job.Roll.First
	for c, m := range p.Motifs {
		off := max(m.X, -m.X, m.Y, -m.Y) > 400*unit.Metre || m.X == math.MinInt64 || m.Y == math.MinInt64
		if off || c == 0 && (m.X != first.X || m.Y != first.Y && !p.Job.Roll.UnknownStart) {
			return badPlan("a motif at %v, %v, where the goods have none", m.X, m.Y)
		}
	}
	if spare := p.Job.spare(); p.Spare != spare {
		return badPlan("%v to spare, not %v", p.Spare, spare)
	}
	return nil
}
