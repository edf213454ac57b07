package job

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// result is the layout of a task: one of the three.
type result struct {
	rows  *layout.BoxPlan
	strip *layout.RollPlan
	skins *layout.SkinPlan
	// Of panels that are no rectangles: a length that no layout of their
	// outlines can beat, and that of the layout that was not taken.
	bound, other unit.Length
	// cancelled says that the context ended before every panel had a place on a
	// hide: there is no layout then.
	cancelled bool
	err       error
}

func (r result) stopped() bool {
	return r.cancelled || r.rows != nil && r.rows.Stopped || r.strip != nil && r.strip.Stopped || r.skins != nil && r.skins.Stopped
}

// weight is the share of the job's effort a task takes: nesting outlines is
// slower than laying rectangles, and leather is the dearest to lay out badly.
func (t task) weight() float64 {
	switch {
	case t.panels != nil:
		return 6
	case t.nested != nil:
		return 3
	}
	return 1
}

// defaultEffort is that of a whole job.
const defaultEffort unit.Ratio = 1

// lay makes the layouts one after the other, the effort of the job shared out
// among them. What went wrong with a layout stands beside it.
func lay(ctx context.Context, tasks []task, o Options) []result {
	effort := o.Effort
	if effort == 0 {
		effort = defaultEffort
	}
	whole := 0.0
	for _, t := range tasks {
		whole += t.weight()
	}
	out := make([]result, len(tasks))
	done := 0.0
	for i, t := range tasks {
		share := t.weight() / whole
		tell := func(part unit.Ratio, state string) {
			if o.Progress != nil {
				o.Progress(Progress{Done: unit.Ratio(done + float64(share*float64(part))), Layout: t.name, State: state})
			}
		}
		tell(0, "")
		r, err := t.run(ctx, effort*unit.Ratio(share), o.Seed, tell)
		r.err = err
		out[i] = r
		done += share
		tell(0, "done")
	}
	return out
}

func (t task) run(ctx context.Context, effort unit.Ratio, seed uint64, tell func(unit.Ratio, string)) (result, error) {
	if t.panels != nil {
		return t.runHides(ctx, effort, seed, tell)
	}
	if t.nested == nil {
		l, err := t.runRows(ctx, effort, seed, tell)
		return result{rows: &l}, err
	}
	// Outlines first, then their boxes with more effort than the first attempt
	// gives them; the shorter layout counts.
	half := func(from unit.Ratio) func(unit.Ratio, string) {
		return func(done unit.Ratio, state string) { tell(from+done/2, state) }
	}
	plan, err := layout.NestRoll(ctx, t.roll, t.nested, layout.NestOptions{Effort: max(effort/2, leastNest), Seed: seed, Gap: t.gap,
		Progress: func(p layout.NestProgress) { half(0)(p.Done, p.Need.String()) }})
	if err != nil {
		return result{}, err
	}
	l, err := t.runRows(ctx, effort/2, seed, half(0.5))
	if err != nil {
		return result{}, err
	}
	if l.Need <= plan.Need {
		return result{rows: &l, bound: plan.Bound, other: plan.Need}, nil
	}
	return result{strip: &plan, bound: plan.Bound, other: l.Need}, nil
}

func (t task) runRows(ctx context.Context, effort unit.Ratio, seed uint64, tell func(unit.Ratio, string)) (layout.BoxPlan, error) {
	return layout.Boxes(ctx, t.roll, t.boxes, layout.BoxOptions{Effort: max(effort, leastRows), Seed: seed, Gap: t.gap, Shades: t.shades,
		Progress: func(p layout.BoxProgress) { tell(p.Done, p.Need.String()) }})
}

// The least effort that the layouts take.
const (
	leastRows unit.Ratio = 0.0001
	leastNest unit.Ratio = 0.02
)

// runHides lays panels on the hides that are there, and adds hides of the usual
// shape while they do not suffice.
func (t task) runHides(ctx context.Context, effort unit.Ratio, seed uint64, tell func(unit.Ratio, string)) (result, error) {
	extra := 0
	if t.more.Area != 0 && len(t.skins) == 0 {
		extra = t.start
	}
	unplaced := -1
	for {
		skins := append([]material.Skin(nil), t.skins...)
		for i := range extra {
			s := t.more
			s.ID = fmt.Sprintf("%v %d", s.Kind, i+1)
			skins = append(skins, s)
		}
		plan, err := t.nest(ctx, skins, effort/2, seed, tell)
		if err == nil && plan.Complete() {
			plan, err = t.smaller(ctx, plan, effort/2, seed)
		}
		if err != nil || plan.Complete() {
			return result{skins: &plan}, err
		}
		left := len(plan.Unplaced)
		switch {
		case stopped(ctx):
			return result{cancelled: true}, nil
		case t.more.Area == 0:
			return result{}, &noRoom{panel: plan.Unplaced[0].Panel, count: left, skins: len(skins)}
		case unplaced >= 0 && left >= unplaced:
			return result{}, &noRoom{panel: plan.Unplaced[0].Panel, count: left, skins: len(skins), never: true}
		case len(skins) >= layout.MostSkins:
			return result{}, check.Refuse("", fmt.Sprint(len(skins)), layout.ErrTooMany, fmt.Sprintf("a job for at most %d hides", layout.MostSkins))
		}
		unplaced = left
		extra = min(extra+max(1, len(skins)/4), layout.MostSkins-len(t.skins))
	}
}

func stopped(ctx context.Context) bool { return ctx.Err() != nil }

func (t task) nest(ctx context.Context, skins []material.Skin, effort unit.Ratio, seed uint64, tell func(unit.Ratio, string)) (layout.SkinPlan, error) {
	return layout.NestSkins(ctx, skins, t.panels, layout.NestOptions{Effort: max(effort, leastNest), Seed: seed, Gap: t.gap,
		Progress: func(p layout.NestProgress) { tell(p.Done, fmt.Sprintf("%d hides", p.Skins)) }})
}

// smaller tries the smallest hides there are, as many as the plan uses: a search
// of little effort stops at the first hides that suffice.
func (t task) smaller(ctx context.Context, plan layout.SkinPlan, effort unit.Ratio, seed uint64) (layout.SkinPlan, error) {
	order := make([]int, len(plan.Skins))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(plan.Skins[a].SoldArea(), plan.Skins[b].SoldArea()) })
	few := slices.Sorted(slices.Values(order[:len(plan.Used)]))
	var area unit.Area
	for _, i := range few {
		area += plan.Skins[i].SoldArea() // at most 200 hides of 120 sq ft
	}
	if area >= plan.Bought || stopped(ctx) {
		return plan, nil
	}
	skins := make([]material.Skin, len(few))
	for k, i := range few {
		skins[k] = plan.Skins[i]
	}
	other, err := t.nest(ctx, skins, effort, seed, func(unit.Ratio, string) {})
	if err != nil || !other.Complete() || len(other.Used) != len(few) {
		return plan, err
	}
	// The plan keeps all hides, so that those not needed can be told.
	other.Skins = plan.Skins
	for i := range other.Used {
		other.Used[i] = few[other.Used[i]]
	}
	for i := range other.Placements {
		other.Placements[i].Skin = few[other.Placements[i].Skin]
	}
	for i := range other.Offcuts {
		other.Offcuts[i].Skin = few[other.Offcuts[i].Skin]
	}
	other.Least, other.LeastWhy = plan.Least, plan.LeastWhy
	return other, other.Verify()
}

// noRoom says that panels find no place on the hides.
type noRoom struct {
	panel, count, skins int
	never               bool // a hide more would not help
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
			return unit.InField(p.at, check.Refuse("", p.Part+", cut "+p.Cut.Cut.Width.String()+" x "+p.Cut.Cut.Length.String(), layout.ErrNoLayout,
				"a part that fits on one of the hides, off its holes, marks and poorer grades; a tight fit takes more effort to find"))
		}
		return unit.InField(w.at.Dot("hides"), check.Refuse("", fmt.Sprintf("%d panels left over", none.count), layout.ErrNoLayout,
			"more hides, or a hide_area for hides to add"))
	}
	var e *unit.InputError
	if !errors.As(err, &e) {
		return unit.InField(w.at, err)
	}
	out := unit.InputError{Field: w.at, Value: e.Value, Err: e.Err, Want: e.Want}
	switch list, i, indexed, _ := e.Field.Head(); {
	case indexed && (list == "pieces" || list == "panels") && i < len(w.pieces):
		out.Field, out.Value = w.pieces[i].at, w.pieces[i].Part+", cut "+e.Value
	case indexed && list == "skins":
		out.Field = w.at.Dot("hides").At(i)
	}
	return &out
}
