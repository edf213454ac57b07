package job

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// onHand is a length at hand of the goods of a task.
type onHand struct {
	stock   material.Stock
	remnant bool
}

// lot is what of the pieces of a task lies on one length.
type lot struct {
	hand int          // of the lengths at hand
	plan *layout.Plan // nil where no piece is left
	of   []int        // the piece of the task that each piece of the plan is
}

// taken is what comes from goods at hand, and what is left.
type taken struct {
	remnants []lot
	// rest are the pieces that no remnant takes: on a length at hand, or on goods to be
	// bought, where hand is -1.
	rest lot
	// suff is whether the best length at hand suffices for them; none where there is
	// none.
	suff    *material.Sufficiency
	best    int // of the lengths at hand, the one that suff is of
	stopped bool
}

// mostTries bounds the layouts that one remnant takes.
const mostTries = 32

// fromStock lays what it can on goods at hand: remnants take whole pieces, the smallest
// remnant first, where that shortens the layout of the rest; then the first length that has
// room for all the rest and for the margin takes it, else the first that has room for the
// rest. full is the layout of all pieces on goods that are bought.
func (t task) fromStock(ctx context.Context, full *layout.Plan, o layout.Options) (*taken, error) {
	o.Effort = max(o.Effort/unit.Ratio(len(t.hand)+1), leastEffort)
	o.Progress = nil
	all := t.left(t.counts())
	out := &taken{rest: lot{hand: -1, plan: full, of: all.of}, best: -1}
	left := t.counts()
	for _, i := range t.bySize() {
		if !t.hand[i].remnant || stopped(ctx) {
			continue
		}
		p, err := t.onRemnant(ctx, i, left, o)
		if err != nil {
			return nil, err
		}
		if p.plan != nil {
			out.remnants = append(out.remnants, p)
		}
	}
	job := all
	if len(out.remnants) > 0 {
		job = t.left(left)
		rest := lot{hand: -1, of: job.of}
		if len(job.of) > 0 {
			plan, err := layout.Solve(ctx, job.Job, o)
			if err != nil {
				return nil, err
			}
			rest.plan = &plan
		}
		if rest.plan != nil && rest.plan.Need >= full.Need { // they would be cut for nothing
			out.remnants, job = nil, all
		} else {
			out.rest = rest
		}
	}
	if out.rest.plan != nil {
		if err := t.onLengths(ctx, job, out, o); err != nil {
			return nil, err
		}
	}
	out.stopped = stopped(ctx)
	return out, nil
}

// onLengths looks for a length at hand that takes all the pieces of a job.
func (t task) onLengths(ctx context.Context, job subset, out *taken, o layout.Options) error {
	bought := out.rest
	for i, h := range t.hand {
		if h.remnant || stopped(ctx) {
			continue
		}
		j := job.Job
		j.Roll = &h.stock.Roll
		plan, err := layout.Solve(ctx, j, o)
		if errors.Is(err, layout.ErrTooWide) || errors.Is(err, layout.ErrNoLayout) {
			continue
		}
		if err != nil {
			return err
		}
		s, err := h.stock.Suffices(plan.Need, plan.Spare, t.margin)
		if err != nil {
			return err
		}
		// Enough is below tight and that below lacking; of those that lack, the one that
		// lacks least.
		if b := out.suff; b != nil && (s.Supply > b.Supply || s.Supply == b.Supply && (s.Supply != material.Lacking || s.Short >= b.Short)) {
			continue
		}
		out.suff, out.best = &s, i
		if out.rest = bought; s.Supply != material.Lacking {
			out.rest = lot{hand: i, plan: &plan, of: job.of}
		}
		if s.Supply == material.Enough {
			return nil
		}
	}
	return nil
}

// onRemnant takes whole pieces for a remnant off those that are left: the largest first,
// each as often as the remnant has room for it.
func (t task) onRemnant(ctx context.Context, hand int, left []int, o layout.Options) (lot, error) {
	stock := t.hand[hand].stock
	room, err := stock.Roll.Usable().By(stock.Length)
	if err != nil {
		return lot{}, err
	}
	o.Effort = max(o.Effort/mostTries, leastEffort)
	took := make([]int, len(left))
	out := lot{hand: hand}
	tries := 0
	for _, i := range t.largestFirst(left) {
		p := t.job.Pieces[i]
		area := p.Outline.Area()
		if !mayMove(p, stock) || area == 0 {
			continue
		}
		step := int(min(unit.Area(left[i]), room/area))
		for once := once(p); step >= once && tries < mostTries && !stopped(ctx); {
			step -= step % once
			tries++
			took[i] += step
			plan, of, err := t.tryOn(ctx, stock, took, o)
			if err != nil {
				return lot{}, err
			}
			if plan == nil {
				took[i] -= step
				step /= 2
				continue
			}
			out.plan, out.of = plan, of
			left[i] -= step
			room -= area * unit.Area(step)
			step = int(min(unit.Area(min(left[i], step)), room/area))
		}
	}
	return out, nil
}

// tryOn lays some pieces on a length; none where they have no room.
func (t task) tryOn(ctx context.Context, stock material.Stock, counts []int, o layout.Options) (*layout.Plan, []int, error) {
	some := t.left(counts)
	some.Roll, some.Shades = &stock.Roll, nil
	for k := range some.Pieces {
		some.Pieces[k].Join = nil // whole pieces only
	}
	plan, err := layout.Solve(ctx, some.Job, o)
	if errors.Is(err, layout.ErrNoLayout) || errors.Is(err, layout.ErrTooWide) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	s, err := stock.Suffices(plan.Need, plan.Spare, material.WorkingMargin{})
	if err != nil || s.Supply != material.Enough {
		return nil, nil, err
	}
	return &plan, some.of, nil
}

// mayMove tells whether a piece may leave the others for a length, and might lie there: it
// is in no shade group, and where its pattern lies goes by no other piece.
func mayMove(p layout.Piece, s material.Stock) bool {
	w, h := p.Outline.Size()
	return p.Shade == 0 && p.Phase.Common == 0 && p.Turn.Fits(s.Roll, w, h) && min(w, h) <= s.Length
}

// once is how many copies of a piece move together: both hands of a pair.
func once(p layout.Piece) int {
	if p.Hand == layout.Paired {
		return 2
	}
	return 1
}

// subset is a job of some pieces of a task, with their numbers there.
type subset struct {
	layout.Job
	of []int
}

// left gives the job of so many copies of each piece.
func (t task) left(counts []int) subset {
	out := subset{Job: t.job}
	out.Pieces = nil
	for i, n := range counts {
		if n > 0 {
			p := t.job.Pieces[i]
			p.Count = n
			out.Pieces, out.of = append(out.Pieces, p), append(out.of, i)
		}
	}
	return out
}

func (t task) counts() []int {
	out := make([]int, len(t.job.Pieces))
	for i, p := range t.job.Pieces {
		out[i] = p.Count
	}
	return out
}

// bySize gives the lengths at hand, the smallest first.
func (t task) bySize() []int {
	out := make([]int, len(t.hand))
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(t.hand[a].area(), t.hand[b].area()) })
	return out
}

// area compares lengths at hand, none of which is larger than 5 m by 1 km.
func (h onHand) area() unit.Area {
	a, _ := h.stock.Roll.Usable().By(h.stock.Length) //nolint:errcheck // within what a check of the stock allows
	return a
}

// largestFirst gives the pieces of which some are left, the largest first.
func (t task) largestFirst(left []int) []int {
	var out []int
	for i, n := range left {
		if n > 0 {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Compare(t.job.Pieces[b].Outline.Area(), t.job.Pieces[a].Outline.Area())
	})
	return out
}
