package job

import (
	"context"
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// result is the layout of a task.
type result struct {
	plan *layout.Plan
	// cancelled says that the context ended before every panel had a place on a
	// hide: there is no layout then.
	cancelled bool
	err       error
	// matching is what it costs to lie on the pattern; nil where nothing does.
	matching *layout.Matching
	// taken is what comes from goods at hand; nil where there are none.
	taken *taken
}

func (r result) stopped() bool {
	return r.cancelled || r.plan != nil && r.plan.Stopped || r.taken != nil && r.taken.stopped
}

// weight is the share of the job's effort a task takes: nesting outlines is
// slower than laying rectangles, and leather is the dearest to lay out badly.
func (t task) weight() float64 {
	switch {
	case t.job.Hides != nil:
		return 6
	case t.shaped:
		return 3
	}
	return 1
}

// matches tells whether to say what it costs to lie on the pattern.
func (t task) matches(o Options) bool { return !o.NoMatching && len(t.job.Wishes()) > 0 }

// defaultEffort is that of a whole job.
const defaultEffort unit.Ratio = 1

// lay makes the layouts one after the other, the effort of the job shared out
// among them. Then, with as much effort again for each, it lays pieces on goods at hand,
// and says what it costs to lie on patterns. What went wrong with a layout stands beside it.
func lay(ctx context.Context, tasks []task, o Options) []result {
	effort := o.Effort
	if effort == 0 {
		effort = defaultEffort
	}
	whole, all := 0.0, 0.0 // all with the patterns
	for _, t := range tasks {
		whole += t.weight()
		if all += t.weight(); t.matches(o) {
			all += t.weight()
		}
		if len(t.hand) > 0 {
			all += t.weight()
		}
	}
	out := make([]result, len(tasks))
	done := 0.0
	step := func(t task, run func(effort unit.Ratio, tell func(unit.Ratio, string))) {
		share := t.weight() / all
		tell := func(part unit.Ratio, state string) {
			if o.Progress != nil {
				o.Progress(Progress{Done: unit.Ratio(done + float64(share*float64(part))), Layout: t.name, State: state})
			}
		}
		tell(0, "")
		run(effort*unit.Ratio(t.weight()/whole), tell)
		done += share
		tell(0, "done")
	}
	for i, t := range tasks {
		step(t, func(effort unit.Ratio, tell func(unit.Ratio, string)) {
			out[i], out[i].err = t.run(ctx, effort, o, tell)
		})
	}
	for i, t := range tasks {
		if len(t.hand) > 0 {
			step(t, func(effort unit.Ratio, tell func(unit.Ratio, string)) {
				out[i].stock(ctx, t, t.options(effort, o, tell))
			})
		}
	}
	for i, t := range tasks {
		if t.matches(o) {
			step(t, func(effort unit.Ratio, tell func(unit.Ratio, string)) { out[i].match(ctx, t.options(effort, o, tell)) })
		}
	}
	return out
}

// match says what it costs to lie on the pattern, where there is a layout.
func (r *result) match(ctx context.Context, o layout.Options) {
	if r.err != nil || r.plan == nil {
		return
	}
	m, err := layout.CompareMatching(ctx, *r.plan, o)
	if r.err = err; err == nil {
		r.matching = &m
	}
}

// stock lays pieces on goods at hand, where there is a layout.
func (r *result) stock(ctx context.Context, t task, o layout.Options) {
	if r.err == nil && r.plan != nil {
		r.taken, r.err = t.fromStock(ctx, r.plan, o)
	}
}

// leastEffort is what a layout takes at least.
const leastEffort unit.Ratio = 0.0001

// options gives the job's options to a layout.
func (t task) options(effort unit.Ratio, o Options, tell func(unit.Ratio, string)) layout.Options {
	if t.shaped {
		effort /= 2 // outlines and their boxes, or hides and cheaper hides
	}
	return layout.Options{Effort: max(effort, leastEffort), Seed: o.Seed, Workers: o.Workers, Progress: func(p layout.Progress) {
		state := p.Need.String()
		if t.job.Hides != nil {
			state = fmt.Sprintf("%d hides", p.Hides)
		}
		tell(p.Done, state)
	}}
}

func (t task) run(ctx context.Context, effort unit.Ratio, o Options, tell func(unit.Ratio, string)) (result, error) {
	plan, err := layout.Solve(ctx, t.job, t.options(effort, o, tell))
	switch left := len(plan.Unplaced); {
	case err != nil || left == 0:
		return result{plan: &plan}, err
	case stopped(ctx):
		return result{cancelled: true}, nil
	case len(plan.Hides) >= layout.MostHides && t.job.Hides.Usual.Area != 0:
		return result{}, check.Refuse("", fmt.Sprint(len(plan.Hides)), layout.ErrTooMany, fmt.Sprintf("a job for at most %d hides", layout.MostHides))
	default:
		return result{}, &noRoom{panel: plan.Unplaced[0].Piece, count: left, never: t.job.Hides != nil && t.job.Hides.Usual.Area != 0}
	}
}

func stopped(ctx context.Context) bool { return ctx.Err() != nil }

// noRoom says that panels find no place on the hides.
type noRoom struct {
	panel, count int
	never        bool // a hide more would not help
}

func (e *noRoom) Error() string { return fmt.Sprintf("%d panels find no room", e.count) }

func (e *noRoom) Unwrap() error { return layout.ErrNoLayout }

// place puts an error of the layout at the piece or the hide that it is about;
// at is the place of the goods.
func (w want) place(err error) error {
	var none *noRoom
	if errors.As(err, &none) {
		p := w.pieces[none.panel]
		if none.never {
			want := "a part that fits on one of the hides, off its holes, marks and poorer grades; a tight fit takes more effort to find"
			if p.ofStrips {
				want += "; longest_strip of the goods makes its strips shorter"
			}
			return unit.InField(p.at, check.Refuse("", p.Part+", cut "+sides(p.Cut.Cut.Width, p.Cut.Cut.Length), layout.ErrNoLayout, want))
		}
		return unit.InField(w.at.Dot("hides"), check.Refuse("", fmt.Sprintf("%d panels left over", none.count), layout.ErrNoLayout,
			"more hides, or a hide_area for hides to add"))
	}
	var e *unit.InputError
	if !errors.As(err, &e) {
		return unit.InField(w.at, err)
	}
	out := unit.InputError{Field: w.at, Value: e.Value, Err: e.Err, Want: e.Want}
	switch list, i, indexed, rest := e.Field.Head(); {
	case indexed && list == "pieces" && i < len(w.pieces):
		out.Field, out.Value = w.pieces[i].at, w.pieces[i].Part+", cut "+e.Value
	case list == "hides":
		out.Field = w.hidePath(rest)
	}
	return &out
}

// hidePath gives the place in the job file of a hide of the layout.
func (w want) hidePath(p unit.Path) unit.Path {
	list, n, _, _ := p.Head()
	for i, h := range w.goods.Hides {
		if h.OnOffer == (list == "on_offer") {
			if n == 0 {
				return w.at.Dot("hides").At(i)
			}
			n--
		}
	}
	return w.at.Dot("hides")
}
