package layout

import (
	"context"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/internal/pack/rect"
	"github.com/coverwright/coverwright/unit"
)

// Many pieces on a pattern are laid in an order, each at its lowest place, and the order is improved. It lays boxes, and
// outlines for the rectangles that cover them; the first piece that is bound to motifs which may be moved says
// where they lie. Fewer pieces are laid so that the optimum is proved, with the motifs at every place worth trying.
const (
	mostProved  = 16
	mostStacked = 1000
)

// stacks tells whether a job is one of many pieces on a pattern, and nothing else.
func (j Job) stacks() bool {
	copies, matched := 0, false
	for _, p := range j.Pieces {
		copies += p.Count
		matched = matched || p.matched(*j.Roll)
		if p.Join != nil {
			return false
		}
	}
	return matched && copies > mostProved && copies <= mostStacked && len(j.Roll.Flaws) == 0 && len(j.Shades) == 0
}

// unsettled gives the sets of a job whose motifs may be moved, those motifs at the origin as far as they may, and
// the number of the set of each common number, 0 for none.
func (t *boxTable) unsettled(step int64) (sets []rect.Set, motifs []shape.Point, of []int) {
	motifs = t.resting()
	of = make([]int, len(motifs))
	for _, c := range t.afloat() {
		s := rect.Set{Moves: rect.Y, Step: step}
		motifs[c].Y = 0
		if c > 0 {
			s.Moves, motifs[c] = rect.X|rect.Y, shape.Point{}
		}
		sets = append(sets, s)
		of[c] = len(sets)
	}
	return sets, motifs, of
}

// landed gives where the motifs lie in a plan.
func (t *boxTable) landed(plan *rect.Plan, motifs []shape.Point, of []int, step int64) []shape.Point {
	out := slices.Clone(motifs)
	for c, k := range of {
		if k == 0 {
			continue
		}
		m := plan.Moved[k-1]
		out[c].Y = unit.Length(m[1] * step)
		if c > 0 {
			out[c].X = unit.Length(m[0] * step)
		}
		if r := *t.job.Roll; r.Repeat > 0 && (r.Across == 0 || r.Drop.Den == 0 || c == 0) {
			out[c].Y = modulo(out[c].Y, r.Repeat)
		}
	}
	return out
}

// rolled is the job for the nesting engine, before any motif is settled.
func (t *boxTable) rolled(tol unit.Length) (*rollTable, error) {
	_, motifs, _ := t.unsettled(1)
	return newRollTable(t.job, nil, tol, motifs, nil)
}

// stack lays many boxes on a pattern. Motifs that may be moved stay on the grid of nested outlines, where there are
// any.
func (t *boxTable) stack(ctx context.Context, o Options) (boxed, error) {
	grid := int64(1)
	if t.shaped {
		grid = nestStep
		if r, err := t.rolled(o.Tolerance); err == nil {
			grid = r.step
		}
	}
	if t.shaped {
		o.Effort = max(0.0001, o.Effort/4) // the outlines have the rest
	}
	sets, motifs, of := t.unsettled(grid)
	e := t.engine(motifs)
	e.Sets = sets
	for i, b := range t.boxes {
		e.Pieces[i].Set = of[b.common]
	}
	plan, err := rect.Stack(ctx, e, o.rect())
	if err != nil {
		return boxed{}, err
	}
	if len(sets) == 0 {
		plan.Bound = e.LowerBound()
	} else {
		plan.Bound = 0
	}
	plan.Proved = plan.Bound == plan.Length
	out := t.boxed(plan, t.landed(plan, motifs, of, 1))
	out.moved = len(sets) > 0
	return out, nil
}

// stack lays the outlines of many pieces on a pattern, each for the rectangles that cover it. It says where the motifs
// lie then; ok is false where that cannot be.
func (t *rollTable) stack(ctx context.Context, boxes *boxTable, o Options) (places []Place, motifs []shape.Point, ok bool) {
	num, den := rising(t.roll.Drop)
	sets, motifs, of := boxes.unsettled(1)
	e := &rect.Job{Width: t.width, Gap: t.gap, Sets: sets,
		Repeat: rect.Repeat{PeriodX: int64(t.roll.Across) / t.step, PeriodY: int64(t.roll.Repeat) / t.step, DropNum: num, DropDen: den}}
	left := 0
	for _, p := range t.job.Pieces {
		left += p.Count
	}
	for _, c := range t.pieces {
		left -= len(c.copies)
		p := t.job.Pieces[c.piece]
		q, covered := t.covered(c)
		if !covered {
			return nil, nil, false
		}
		if c.phaseY.Every > 0 {
			q.Match |= rect.X
		}
		if c.phaseX.Every > 0 {
			q.Match |= rect.Y
		}
		if q.Match != 0 {
			q.Set = of[p.Phase.Common]
			q.MovedX, q.MovedY = int64(motifs[p.Phase.Common].X)/t.step, int64(motifs[p.Phase.Common].Y)/t.step
		}
		e.Pieces = append(e.Pieces, q)
	}
	if left > 0 {
		return nil, nil, false // a piece whose first point holds at no turn
	}
	plan, err := rect.Stack(ctx, e, o.rect())
	if err != nil {
		return nil, nil, false
	}
	for _, p := range plan.Placed {
		quarters := degrees(p.Turn) / 90
		c := t.pieces[p.Piece]
		r := turnedQuarters(c.ring, quarters).Bounds()
		places = append(places, t.place(c, p.Copy, quarters, geom.Point{X: p.Y - r.Min.X, Y: t.width - p.X - r.Max.Y}))
	}
	return places, boxes.landed(plan, motifs, of, t.step), true
}

// stacked gives a plan of many outlines on a pattern where it is shorter, with its motifs where they may be moved.
func (p Plan) stacked(ctx context.Context, o Options, boxes *boxTable) Plan {
	t, err := boxes.rolled(o.Tolerance)
	if err != nil {
		return p
	}
	o.Effort *= 1.25 // the boxes took a quarter
	places, at, ok := t.stack(ctx, boxes, o)
	if !ok {
		return p
	}
	q := p
	q.Need = 0
	for _, at := range places {
		_, high := at.Bounds()
		q.Need = max(q.Need, high.Y)
	}
	if p.Need > 0 && p.Need <= q.Need {
		return p
	}
	if q.Places = places; len(boxes.afloat()) > 0 {
		q.Motifs = at
	}
	return q
}

// covered gives a piece to the engine of rectangles with the cells that cover it, and with all points that may lie
// on a motif; false where its outline is another one about another point, which is rounded to the grid otherwise.
func (t *rollTable) covered(c rollPiece) (rect.Piece, bool) {
	b := c.ring.Bounds()
	p := t.job.Pieces[c.piece]
	q := rect.Piece{W: b.Height(), H: b.Width(), Count: len(c.copies)}
	for _, a := range p.angles(t.roll) {
		q.Turns |= rect.Upright << (a / 90_000_000)
	}
	upright := make(geom.Ring, len(c.ring)) // as on the roll, from the lower left corner
	for k, v := range c.ring {
		upright[k] = geom.Point{X: b.Max.Y - v.Y, Y: v.X - b.Min.X}
	}
	q.Cells = cells(upright)
	if !p.matched(t.roll) {
		return q, true
	}
	phase := p.Phase
	if c.mirrored {
		phase = phase.mirrored()
	}
	first := shape.Point{X: -c.origin.X, Y: -c.origin.Y}
	for _, s := range phase.spots() {
		x, y := int64(s.Point.X-first.X), int64(s.Point.Y-first.Y)
		if x%t.step != 0 || y%t.step != 0 {
			return q, false
		}
		q.Spots = append(q.Spots, rect.Spot{X: b.Max.Y + x/t.step, Y: -b.Min.X + y/t.step, Turns: turnsOf(s.Degrees)})
	}
	return q, true
}

// mostCells is the greatest number of rectangles that stand for an outline.
const mostCells = 6

// cells covers a ring with rectangles, one above the other, which have the least area that so few may have; nil where
// its box does as well.
func cells(r geom.Ring) []rect.Cell {
	var levels []int64
	for _, p := range r {
		levels = append(levels, p.Y)
	}
	slices.Sort(levels)
	levels = slices.Compact(levels)
	for len(levels) > 4*mostCells { // every second one
		for i := 1; i < len(levels)-1; i++ {
			levels = slices.Delete(levels, i, i+1)
		}
	}
	var out []rect.Cell
	for k := range len(levels) - 1 {
		low, high := across(r, levels[k], levels[k+1])
		out = append(out, rect.Cell{X: low, Y: levels[k], W: high - low, H: levels[k+1] - levels[k]})
	}
	joined := func(a, b rect.Cell) rect.Cell {
		x := min(a.X, b.X)
		return rect.Cell{X: x, Y: a.Y, W: max(a.X+a.W, b.X+b.W) - x, H: a.H + b.H}
	}
	area := func(c rect.Cell) float64 { return float64(float64(c.W) * float64(c.H)) }
	for len(out) > 1 {
		best, least := 0, -1.0
		for k := range len(out) - 1 {
			if more := area(joined(out[k], out[k+1])) - area(out[k]) - area(out[k+1]); least < 0 || more < least {
				best, least = k, max(0, more)
			}
		}
		if len(out) <= mostCells && least > 0 {
			return out
		}
		out[best] = joined(out[best], out[best+1])
		out = slices.Delete(out, best+1, best+2)
	}
	return nil
}

// across gives how far a ring reaches to both sides between two levels, outwards.
func across(r geom.Ring, low, high int64) (left, right int64) {
	some := false
	for i, a := range r {
		b := r[(i+1)%len(r)]
		if a.Y > b.Y {
			a, b = b, a
		}
		if b.Y <= low || a.Y >= high || a.Y == b.Y && (a.Y == low || a.Y == high) {
			continue
		}
		for _, y := range [2]int64{max(a.Y, low), min(b.Y, high)} {
			from, to := min(a.X, b.X), max(a.X, b.X)
			if h := b.Y - a.Y; h > 0 { // in steps below 2^30, so that the product fits
				d := (b.X - a.X) * (y - a.Y)
				from, to = a.X+floorTo(d, h)/h, a.X-floorTo(-d, h)/h
			}
			if !some {
				left, right, some = from, to, true
			}
			left, right = min(left, from), max(right, to)
		}
	}
	return left, right
}

// startOf gives places to the nesting engine to begin with; false where one lies off its grid.
func (t *rollTable) startOf(units []rollUnit, places []Place) ([]nest.Placement, bool) {
	type segment struct{ piece, copy, segment int }
	at := map[segment]Place{} // read by key only
	for _, q := range places {
		at[segment{q.Piece, q.Copy, q.Segment}] = q
	}
	var out []nest.Placement
	for u, c := range units {
		if c.members != nil {
			return nil, false
		}
		for k, copied := range c.copies {
			q, ok := at[segment{c.piece, copied, c.segment}]
			o := turnedPoint(c.origin, int(q.Turned)/90)
			match, on := t.steps([]shape.Point{{X: q.X - o.X, Y: q.Y - o.Y}})
			if !ok || !on {
				return nil, false
			}
			out = append(out, nest.Placement{Piece: u, Copy: k, Angle: nest.Angle(q.Turned) * nest.Degree, At: match[0]})
		}
	}
	return out, true
}
