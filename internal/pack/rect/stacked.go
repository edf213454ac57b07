package rect

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"

	"github.com/coverwright/coverwright/internal/pack/gate"
)

// Stack lays the pieces of a job with a pattern and keeps the length short: parts in an order, each at its lowest place,
// the order improved by exchanges. It moves the motifs of the sets of a job, and takes pieces for their cells.
// Jobs with flaws, groups, a greatest length or pieces that may be joined are for [Solve], which proves more too.
//
// A plan of pieces without cells has passed the checks of package verify. When the context ends the best layout so
// far is returned with Stopped set. Errors: *InputError for a field outside its range, ErrNoLayout when a piece has
// no place.
func Stack(ctx context.Context, j *Job, o Options) (*Plan, error) {
	if err := j.Validate(); err != nil {
		return nil, err
	}
	switch {
	case len(j.Flaws) > 0:
		return nil, &InputError{"len(Flaws)", int64(len(j.Flaws)), "none"}
	case len(j.Groups) > 0:
		return nil, &InputError{"len(Groups)", int64(len(j.Groups)), "none"}
	case j.MaxLength > 0:
		return nil, &InputError{"MaxLength", j.MaxLength, "0"}
	}
	if i := slices.IndexFunc(j.Pieces, func(p Piece) bool { return p.Split != nil }); i >= 0 {
		return nil, &InputError{fmt.Sprintf("Pieces[%d].Split", i), 1, "none"}
	}
	effort, err := o.validate()
	if err != nil {
		return nil, err
	}
	s := newStackSearch(j, o.Seed)
	s.search(ctx, int64(effort*unitsPerEffort), o)
	best := s.ws[0]
	for _, w := range s.ws {
		if w.best < best.best {
			best = w
		}
	}
	if best.best == maxCoord {
		return nil, fmt.Errorf("%w: a piece has no place on the pattern", ErrNoLayout)
	}
	p := &Plan{Length: best.best - j.Gap, Bound: s.bound - j.Gap, Stopped: ctx.Err() != nil}
	for _, w := range s.ws {
		p.Work += w.s.units
	}
	for i, q := range best.spots {
		at := placed(&s.parts[i], q.x, q.y, q.lay)
		at.Mirror = j.Pieces[at.Piece].Mirror
		p.Placed = append(p.Placed, at)
	}
	for _, m := range best.sets[1:] {
		p.Moved = append(p.Moved, [2]int64{m.x, m.y})
	}
	if slices.ContainsFunc(j.Pieces, func(q Piece) bool { return len(q.Cells) > 0 }) {
		return p, nil
	}
	if err := check(j, p); err != nil {
		return nil, fmt.Errorf("rect: internal error: %w", err)
	}
	return p, nil
}

// stackSearch is the search of Stack.
type stackSearch struct {
	parts []part
	bound int64 // with the gap
	ws    [workers]*climber
}

func newStackSearch(j *Job, seed uint64) *stackSearch {
	s := &stackSearch{parts: j.parts(nil)}
	s.bound = j.looseBound() + j.Gap
	for i := range s.ws {
		s.ws[i] = &climber{s: newStack(j, s.parts), bound: s.bound, rng: rnd{seed*workers + uint64(i) + 1}, best: maxCoord}
	}
	return s
}

// rounds is how often a search says how far it has come.
const rounds = 16

// search runs the workers side by side. They share nothing.
func (s *stackSearch) search(ctx context.Context, units int64, o Options) {
	g := gate.New(o.AtOnce)
	for k := int64(1); k <= rounds; k++ {
		var wg sync.WaitGroup
		for _, w := range s.ws {
			wg.Go(func() { g.Do(func() { w.climb(ctx, units/rounds*k) }) })
		}
		wg.Wait()
		length := min(s.ws[0].best, s.ws[1].best)
		if ctx.Err() != nil || length <= s.bound || length == maxCoord {
			return
		}
		if o.Progress != nil {
			o.Progress(Progress{Done: float64(k) / rounds, Length: length, Bound: s.bound})
		}
	}
}

// climber improves an order. An exchange stays when the layout is no worse than it is, or than it was some exchanges ago
// (late acceptance).
type climber struct {
	s     *stack
	bound int64
	rng   rnd
	order []int
	now   float64   // worth of the order
	was   []float64 // worths some exchanges ago
	step  int
	best  int64
	spots []partSpot
	sets  []moved
}

// late is how many exchanges ago; steep is by how much the length counts for more than where the parts lie on average.
const (
	late  = 300
	steep = 16
)

// begin lays the first order: parts bound to the pattern, the largest first, then the others, the largest first.
func (c *climber) begin() {
	ps := c.s.parts
	for i := range ps {
		c.order = append(c.order, i)
	}
	slices.SortStableFunc(c.order, func(a, b int) int {
		p, q := &ps[a], &ps[b]
		if (p.match != 0) != (q.match != 0) {
			return cmp.Compare(int(q.match), int(p.match))
		}
		return cmp.Compare(float64(q.lays[0].w)*float64(q.lays[0].h), float64(p.lays[0].w)*float64(p.lays[0].h))
	})
	if c.s.run(c.order, maxCoord) {
		c.now = c.worth()
		c.was = slices.Repeat([]float64{c.now}, late)
		c.keep()
	}
}

// worth is the length, and where that is equal how low the parts lie.
func (c *climber) worth() float64 {
	var tops float64
	for i, q := range c.s.spots {
		tops += float64(q.y + c.s.parts[i].lays[q.lay].h)
	}
	return float64(steep*float64(c.s.top())) + float64(tops/float64(len(c.order)))
}

func (c *climber) keep() {
	c.best, c.spots, c.sets = c.s.top(), slices.Clone(c.s.spots), slices.Clone(c.s.sets)
}

// climb goes on until so much work is done in all.
func (c *climber) climb(ctx context.Context, until int64) {
	if c.order == nil {
		c.begin()
	}
	n := len(c.order)
	for n > 1 && c.best > c.bound && c.best < maxCoord && c.s.units < until && ctx.Err() == nil {
		undo := c.exchange()
		at := c.step % late
		c.step++
		allowed := max(c.was[at], c.now)
		if c.s.run(c.order, int64(allowed/steep)) && c.worth() <= allowed {
			if c.now = c.worth(); c.s.top() < c.best {
				c.keep()
			}
		} else {
			undo()
		}
		c.was[at] = min(c.was[at], c.now)
		c.s.units += 16
	}
}

// exchange changes the order: it exchanges two parts, moves one, or lets one keep to the other side.
func (c *climber) exchange() (undo func()) {
	a, b := c.rng.intn(len(c.order)), c.rng.intn(len(c.order)-1)
	if b >= a {
		b++
	}
	a, b = min(a, b), max(a, b)
	between := c.order[a : b+1]
	switch c.rng.intn(5) {
	case 0, 1:
		c.order[a], c.order[b] = c.order[b], c.order[a]
		return func() { c.order[a], c.order[b] = c.order[b], c.order[a] }
	case 2:
		turn(between, 1)
		return func() { turn(between, b-a) }
	case 3:
		turn(between, b-a)
		return func() { turn(between, 1) }
	}
	flip := func() {
		c.s.right[c.order[a]] = !c.s.right[c.order[a]]
		c.s.changed = append(c.s.changed, c.order[a])
	}
	flip()
	return flip
}
