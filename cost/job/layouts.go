package job

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// task is one cutting layout to make. Two options that cut the same pieces from
// the same goods share it.
type task struct {
	name string
	gap  unit.Length
	// Of a roll: pieces, or panels of any shape.
	roll   material.Roll
	shades []layout.Shade
	pieces []layout.Box
	nested []layout.RollPanel // where a panel is no rectangle, beside the boxes in pieces
	// Of hides.
	skins  []material.Skin
	more   material.Skin // a hide to add while the others do not suffice
	start  int           // how many of them to start with
	panels []layout.SkinPanel
}

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

// newTask brings the cuts of some goods to a layout. Errors name the field of
// the spec.
func newTask(g Goods, cuts []Cut) (task, error) {
	t := task{name: g.Name, gap: g.Gap}
	if g.Kind == Hides {
		return t, t.onHides(g, cuts)
	}
	t.roll = g.roll()
	for _, s := range g.Shades {
		t.shades = append(t.shades, layout.Shade{Window: s.Window})
	}
	shaped, boxed := false, false
	for _, c := range cuts {
		shaped = shaped || c.Panel != nil && !c.rectangular()
		boxed = boxed || c.part.shade != 0 || c.part.join != nil
	}
	for _, c := range cuts {
		t.pieces = append(t.pieces, c.piece())
	}
	if !shaped || boxed {
		return t, nil
	}
	for _, c := range cuts {
		p, err := c.rollPanel()
		if err != nil {
			return t, unit.InField(c.field, err)
		}
		t.nested = append(t.nested, p)
	}
	return t, nil
}

func (t *task) onHides(g Goods, cuts []Cut) error {
	for _, c := range cuts {
		p, err := c.skinPanel()
		if err != nil {
			return unit.InField(c.field, err)
		}
		t.panels = append(t.panels, p)
	}
	for i, h := range g.Hides {
		s, err := h.skin()
		if err != nil {
			return unit.InField(at("hides", i), err)
		}
		t.skins = append(t.skins, s)
	}
	if g.HideArea != 0 {
		kind := g.Skin
		if kind == material.MeasuredSkin {
			kind = material.WholeHide
		}
		t.more = material.Skin{Kind: kind, Area: g.HideArea}
	}
	return nil
}

// rectangular tells whether the cut line is the box round it.
func (c Cut) rectangular() bool {
	if c.Panel == nil {
		return true
	}
	low, high := corners(c.Panel.CutLine)
	if len(c.Panel.CutLine.Outer) != 4 {
		return false
	}
	for _, p := range c.Panel.CutLine.Outer {
		if p.X != low.X && p.X != high.X || p.Y != low.Y && p.Y != high.Y {
			return false
		}
	}
	return true
}

func (c Cut) label() string { return c.Piece + ": " + c.Part }

// motif gives the point of the cut panel that lies on a motif: the one asked
// for, or the lower left corner of the box round it.
func (c Cut) motif() shape.Point {
	if c.Panel == nil {
		return shape.Point{}
	}
	low, _ := corners(c.Panel.CutLine)
	m := c.part.motif
	if m == nil {
		return low
	}
	// From the finished panel to the seam line, which keeps the corner of the
	// box in place.
	foot, _ := c.Outline.Bounds()
	x, errX := m.X.MulDiv(int(c.Panel.Across.Seam), int(c.Finished.Width), unit.Nearest)
	y, errY := m.Y.MulDiv(int(c.Panel.Along.Seam), int(c.Finished.Length), unit.Nearest)
	if errX != nil || errY != nil { // sides are at most 400 in
		return low
	}
	return shape.Point{X: foot.X + x, Y: foot.Y + y}
}

// piece gives the box of the cut to the layout.
func (c Cut) piece() layout.Box {
	p := layout.Box{Name: c.label(), Width: c.Cut.Width, Length: c.Cut.Length, Count: c.Count, Turn: c.part.turn, Unmatched: c.part.free,
		Shade: c.part.shade, Join: c.part.join}
	if c.part.motif != nil && c.Panel != nil {
		low, _ := corners(c.Panel.CutLine)
		m := c.motif()
		p.MotifX, p.MotifY = m.X-low.X, m.Y-low.Y
	}
	return p
}

// rollPanel gives the outline of the cut to the layout, its match point at the
// origin.
func (c Cut) rollPanel() (layout.RollPanel, error) {
	p := layout.RollPanel{Name: c.label(), Count: c.Count, Turn: c.part.turn, Unmatched: c.part.free, Paired: c.Pair}
	o, err := c.cutOutline()
	if err != nil {
		return p, err
	}
	m := c.motif()
	p.Outline, err = o.Moved(shape.Point{X: -m.X, Y: -m.Y})
	return p, err
}

// cutOutline is the cut line: that of the panel, or a rectangle for a strip.
func (c Cut) cutOutline() (shape.Outline, error) {
	if c.Panel == nil {
		return shape.Rectangle(c.Cut.Width, c.Cut.Length)
	}
	return shape.Polygon(c.Panel.CutLine.Outer...)
}

func (c Cut) skinPanel() (layout.SkinPanel, error) {
	p := layout.SkinPanel{Name: c.label(), Count: c.Count, Grain: c.part.asks.grain.rule(), Least: c.Grade, Worst: c.Marks, Stretch: c.part.asks.stretch}
	if c.Pair {
		p.Hand = layout.Paired
	}
	var err error
	p.Outline, err = c.cutOutline()
	return p, err
}

// planner makes every layout of a job and its options once.
type planner struct {
	options Options
	tasks   []task
	results []result
	errs    []error
}

// add notes a task and gives its number.
func (p *planner) add(t task) int {
	for i, o := range p.tasks {
		if reflect.DeepEqual(o, t) {
			return i
		}
	}
	p.tasks = append(p.tasks, t)
	return len(p.tasks) - 1
}

// defaultEffort is that of a whole job.
const defaultEffort unit.Ratio = 1

// run makes the layouts one after the other, the effort of the job shared out
// among them.
func (p *planner) run(ctx context.Context) {
	effort := p.options.Effort
	if effort == 0 {
		effort = defaultEffort
	}
	whole := 0.0
	for _, t := range p.tasks {
		whole += t.weight()
	}
	done := 0.0
	for _, t := range p.tasks {
		share := t.weight() / whole
		tell := func(part unit.Ratio, state string) {
			if p.options.Progress != nil {
				p.options.Progress(Progress{Done: unit.Ratio(done + float64(share*float64(part))), Layout: t.name, State: state})
			}
		}
		tell(0, "")
		r, err := t.run(ctx, effort*unit.Ratio(share), p.options.Seed, tell)
		p.results, p.errs = append(p.results, r), append(p.errs, err)
		done += share
		tell(0, "done")
	}
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
	return layout.Boxes(ctx, t.roll, t.pieces, layout.BoxOptions{Effort: max(effort, leastRows), Seed: seed, Gap: t.gap, Shades: t.shades,
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

// layoutError names the field of the spec that a layout cannot place, and the
// part it belongs to; goods is the field of the goods.
func layoutError(err error, goods string, cuts []Cut) error {
	var none *noRoom
	if errors.As(err, &none) {
		c := cuts[none.panel]
		if none.never {
			return check.Refuse(c.field, c.Part+", cut "+c.Cut.Width.String()+" x "+c.Cut.Length.String(), layout.ErrNoLayout,
				"a part that fits on one of the hides, off its holes, marks and poorer grades; a tight fit takes more effort to find")
		}
		return check.Refuse(goods+".hides", fmt.Sprintf("%d panels left over", none.count), layout.ErrNoLayout,
			"more hides, or a hide_area for hides to add")
	}
	var e *unit.InputError
	if !errors.As(err, &e) {
		return unit.InField(goods, err)
	}
	switch name, i, indexed, _ := e.Field.Head(); {
	case (name == "pieces" || name == "panels") && indexed && i < len(cuts):
		return &unit.InputError{Field: unit.Path(cuts[i].field), Value: cuts[i].Part + ", cut " + e.Value, Err: e.Err, Want: e.Want}
	case name == "skins" && indexed:
		return &unit.InputError{Field: unit.Path(goods).Dot("hides").At(i), Value: e.Value, Err: e.Err, Want: e.Want}
	}
	return unit.InField(goods, &unit.InputError{Value: e.Value, Err: e.Err, Want: e.Want})
}
