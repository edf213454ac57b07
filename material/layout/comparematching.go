package layout

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Matching is what it costs to lie on the pattern of a roll: a job as it was laid,
// beside the same job with wishes dropped. A piece bound to the pattern is a wish.
// Savings do not add up: each is the saving of one change alone.
type Matching struct {
	Plain Relaxed `json:"plain"` // no piece bound, the same pieces, turns and goods
	// Across keeps to the pattern across the roll alone, as stripes do; nil where
	// no piece is bound across, or none along the roll.
	Across *Relaxed `json:"across,omitempty"`
	Wishes []Wish   `json:"wishes,omitempty"` // what saves most without it first
	// Untried is how many wishes were not tried alone: those with the least cloth
	// beyond MostWishes, and all that were left when the context ended.
	Untried int       `json:"untried,omitzero"`
	Stopped bool      `json:"stopped,omitempty"` // the context ended: more effort might save more
	Kind    cite.Kind `json:"kind"`              // always cite.Layout
}

// Relaxed is the length of a job that was laid again with wishes dropped, never more than
// before. It is a layout that was found; where nothing shorter was, the one with
// all wishes stands.
type Relaxed struct {
	Need  unit.Length `json:"need"`           // the length the places take
	Spare unit.Length `json:"spare,omitzero"` // to find the start of the bolt, as of a Plan
	Order unit.Length `json:"order"`          // to buy, as of a Plan
	Saved unit.Length `json:"saved,omitzero"` // Need with all wishes, less Need
	Less  unit.Length `json:"less,omitzero"`  // Order with all wishes, less Order
	// Proved says that no layout without these wishes is shorter, Exact that no
	// better layouts of either kind would make Saved another figure.
	Proved bool `json:"proved"`
	Exact  bool `json:"exact"`
}

// Wish is a job without one wish: every copy of a piece lies anywhere.
type Wish struct {
	Piece int `json:"piece"` // index into the pieces of the job
	Relaxed
}

// MostWishes is the largest number of wishes that CompareMatching drops one by one.
const MostWishes = 12

// relaxing is the comparison under way.
type relaxing struct {
	plan  Plan
	o     Options
	trial int // of trials, the next one
	of    int
	out   *Matching
	least unit.Length // no layout is shorter, whatever is dropped
}

// CompareMatching lays the job of a plan on a roll again with all wishes dropped, with
// those along the roll dropped, and without each of them alone, those with most
// cloth first and at most MostWishes. Where plain goods would take as much, no wish is
// tried alone: none can save anything.
//
// The effort is shared out evenly among the trials; the tolerance is that of
// the plan. When the context ends, what was found so far is given with Stopped
// set; plain goods are then laid as far as they can be at once. A plan that is
// not right, or of hides, is refused, and so is one with no piece bound to a
// pattern, which wraps unit.ErrRange; other errors are those of Solve and Plan.Verify.
func CompareMatching(ctx context.Context, plan Plan, o Options) (Matching, error) {
	o.Tolerance = plan.Tolerance
	o, err := o.checked()
	if err != nil {
		return Matching{}, err
	}
	if plan.Job.Roll == nil {
		return Matching{}, check.Refuse("plan", "", unit.ErrRange, "a plan on a roll")
	}
	if err := plan.Verify(); err != nil {
		return Matching{}, unit.InField("plan", err)
	}
	j := plan.Job
	wishes := j.Wishes()
	if len(wishes) == 0 {
		return Matching{}, check.Refuse("plan.job.pieces", "", unit.ErrRange, "a piece that is bound to the pattern of the roll")
	}
	single := wishes[:min(len(wishes), MostWishes)]
	r := relaxing{plan: plan, o: o, of: len(single) + 1, out: &Matching{Kind: cite.Layout}}
	across, both := j.acrossAlone()
	if both {
		r.of++
	}
	if r.out.Plain, err = r.without(ctx, j.free(wishes...), true); err != nil {
		return Matching{}, err
	}
	plain := r.out.Plain.Need
	if both && !r.ended(ctx) {
		a, err := r.without(ctx, across, plain < plan.Need)
		if err != nil {
			return Matching{}, err
		}
		r.out.Across = &a
	}
	for _, i := range single {
		if r.ended(ctx) {
			break
		}
		w := Wish{Piece: i}
		if w.Relaxed, err = r.without(ctx, j.free(i), plain < plan.Need); err != nil {
			return Matching{}, err
		}
		r.out.Wishes = append(r.out.Wishes, w)
	}
	r.out.Untried = len(wishes) - len(r.out.Wishes)
	slices.SortStableFunc(r.out.Wishes, func(a, b Wish) int {
		return cmp.Or(cmp.Compare(b.Less, a.Less), cmp.Compare(b.Saved, a.Saved))
	})
	return *r.out, r.plainest()
}

// ended tells whether the context ended, and notes it.
func (r *relaxing) ended(ctx context.Context) bool {
	r.out.Stopped = r.out.Stopped || ctx.Err() != nil
	return ctx.Err() != nil
}

// without lays a job with wishes dropped, or takes the plan with all of them where
// it need not search.
func (r *relaxing) without(ctx context.Context, j Job, search bool) (Relaxed, error) {
	bound := r.least
	need := r.plan.Need
	if search {
		o := r.o.part(unit.Ratio(r.trial)/unit.Ratio(r.of), unit.Ratio(r.trial+1)/unit.Ratio(r.of))
		o.Effort = max(o.Effort/unit.Ratio(r.of), leastEffort)
		p, err := Solve(ctx, j, o)
		switch {
		case errors.Is(err, ErrNoLayout), errors.Is(err, ErrTooWide): // the plan with all wishes is one
		case err != nil:
			return Relaxed{}, err
		default:
			need, bound = min(need, p.Need), max(bound, p.Bound().Length)
			r.out.Stopped = r.out.Stopped || p.Stopped
		}
		if r.trial == 0 {
			r.least = bound
		}
	}
	r.trial++
	return r.relaxed(need, j.stood().job.spare(), need == bound)
}

// relaxed sets a length beside that with all wishes.
func (r *relaxing) relaxed(need, spare unit.Length, proved bool) (Relaxed, error) {
	out := Relaxed{Need: need, Spare: spare, Saved: r.plan.Need - need, Proved: proved}
	out.Exact = proved && (r.plan.Proved || out.Saved == 0)
	whole, err := need.Plus(spare)
	if err != nil {
		return out, err
	}
	if out.Order, err = r.plan.Job.Roll.Order(whole); err != nil {
		return out, err
	}
	out.Less = r.plan.Order - out.Order
	return out, nil
}

// plainest takes the shortest length of all trials for plain goods: each of them is
// a layout of those too.
func (r *relaxing) plainest() error {
	best := r.out.Plain.Need
	if a := r.out.Across; a != nil {
		best = min(best, a.Need)
	}
	for _, w := range r.out.Wishes {
		best = min(best, w.Need)
	}
	if best == r.out.Plain.Need {
		return nil
	}
	var err error
	r.out.Plain, err = r.relaxed(best, 0, best == r.least)
	return err
}

// leastEffort is the least that Options take.
const leastEffort unit.Ratio = 0.0001

// Wishes lists the pieces that are bound to the pattern of a roll, by index, those
// with most cloth first; none on hides.
func (j Job) Wishes() []int {
	if j.Roll == nil {
		return nil
	}
	var out []int
	area := map[int]float64{} // read by key only
	for i, p := range j.Pieces {
		if along, across := j.bound(p); along || across {
			out = append(out, i)
			area[i] = float64(p.Outline.Area()) * float64(p.Count)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(area[b], area[a]) })
	return out
}

// bound tells whether the pattern binds a piece along the roll, and across it.
func (j Job) bound(p Piece) (along, across bool) {
	r := *j.Roll
	r.Across = r.Columns()
	along, across = p.Phase.along(r), p.Phase.across(r)
	if r.Up.Sideways() {
		along, across = across, along
	}
	return along, across
}

// free gives the job with pieces that lie anywhere.
func (j Job) free(of ...int) Job {
	j.Pieces = slices.Clone(j.Pieces)
	for _, i := range of {
		j.Pieces[i].Phase.Axes = Unbound
	}
	return j
}

// acrossAlone gives the job with every piece bound across the roll alone. both
// tells whether the pattern binds both ways.
func (j Job) acrossAlone() (out Job, both bool) {
	keep := AcrossOnly
	if j.Roll.Up.Sideways() {
		keep = AlongOnly
	}
	out = j.free()
	var anyAlong, anyAcross bool
	for i, p := range j.Pieces {
		along, across := j.bound(p)
		anyAlong, anyAcross = anyAlong || along, anyAcross || across
		if out.Pieces[i].Phase.Axes = Unbound; across {
			out.Pieces[i].Phase.Axes = keep
		}
	}
	return out, anyAlong && anyAcross
}
