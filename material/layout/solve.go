package layout

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Solve lays a job out and keeps what must be bought small.
//
// On a roll it puts the motifs where they serve best, as far as it may: along the
// roll where the start of the bolt is not known, both ways under the pieces of a
// common number. A piece that may be joined and lies on the pattern it cuts as
// [Piecing] says, and lays as its segments. It lays the boxes round the pieces and, where a piece is no rectangle,
// nests the outlines too, unless the boxes are proved shortest: the shorter plan
// counts, that of the boxes where both are as long. The nesting engine takes a
// shade group as one block of boxes, any other piece that may be joined in the fewest
// equal segments, an outline that is too intricate for it filled out, and each
// piece with that of its points on a motif that the boxes found best; all
// other pieces stay as they are. More than 16 pieces on a pattern, without flaws,
// shade groups and joins, are laid one after another at the lowest place, in an order that is
// improved, as boxes and as the rectangles that cover them; nesting begins there. Every
// bound is one of the true outlines.
//
// On hides it lays outlines on those at hand; where they do not suffice it buys
// as few more as it can, of those on offer and of usual ones, then as little
// area (or price). Every piece keeps off holes, off marks worse than its Worst,
// off grades poorer than its Least, in its directions and to its wished stretch.
// Pieces that find no room although no usual hide is left to add are listed as
// unplaced, which is no error.
//
// The plan is checked by [Plan.Verify] before it is returned. When the context
// ends, the best plan so far is returned with Stopped set. Errors name the field
// and wrap ErrTooWide, ErrTooMany, ErrNoLayout, ErrNotLaid, unit.ErrRange,
// unit.ErrRequired, unit.ErrUnknown, unit.ErrForgottenUnit, unit.ErrNotFinite,
// unit.ErrOverflow, shape.ErrCrossing or shape.ErrTooComplex.
func Solve(ctx context.Context, j Job, o Options) (Plan, error) {
	o, err := o.checked()
	if err != nil {
		return Plan{}, err
	}
	if err := j.check(); err != nil {
		return Plan{}, err
	}
	j.Pieces = slices.Clone(j.Pieces)
	if j.Hides != nil {
		return solveHides(ctx, j, o)
	}
	return solveRoll(ctx, j, o)
}

// solveRoll lays a job on a roll.
func solveRoll(ctx context.Context, j Job, o Options) (Plan, error) {
	u := j.stood()
	s, err := u.job.parted()
	if err != nil {
		return Plan{}, u.blame(err)
	}
	p, err := solveUpright(ctx, s, o)
	if err != nil {
		return Plan{}, u.blame(s.blame(err))
	}
	p = u.back(s.back(p, u.job), j)
	p.Spare = u.job.spare()
	p.sort()
	need, err := p.Need.Plus(p.Spare)
	if err != nil {
		return Plan{}, err
	}
	if p.Order, err = j.Roll.Order(need); err != nil {
		return Plan{}, err
	}
	return p, p.Verify()
}

// solveUpright lays a job whose pattern runs up the roll.
func solveUpright(ctx context.Context, s parted, o Options) (Plan, error) {
	p := Plan{Job: s.job, Tolerance: o.Tolerance, Kind: cite.Layout}
	boxes, err := newBoxTable(s.job, o.Tolerance)
	if err != nil {
		return Plan{}, err
	}
	if err := boxes.outOfReach(); err != nil {
		return Plan{}, err
	}
	bounds, err := rollBounds(ctx, s.loose)
	if err != nil {
		return Plan{}, err
	}
	best := bounds[0].Length
	if tell := o.Progress; tell != nil {
		o.Progress = func(q Progress) {
			q.Bound = best
			tell(q)
		}
	}
	half := unit.Ratio(1)
	if boxes.shaped {
		half = 0.5
	}
	motifs := boxes.resting()
	l, err := boxes.lay(ctx, o.part(0, half))
	if err != nil && (!boxes.shaped || !errors.Is(err, ErrNoLayout)) {
		return Plan{}, err
	}
	if err == nil {
		p.offer(l.method, l.need)
		p.Places, p.Joins = boxes.places(l)
		p.Stopped = l.stopped
		if motifs = l.motifs; l.moved {
			p.Motifs = motifs
		}
		if !boxes.shaped && s.exact && l.bound > 0 {
			bounds = append(bounds, Claim{Kind: cite.Bound, Method: ByBoxes, Length: l.bound})
		}
	}
	if boxes.shaped && (p.Need == 0 || p.Need > best) {
		if err := p.nest(ctx, o.part(half, 1), boxes, motifs); err != nil {
			return Plan{}, err
		}
	}
	if len(p.Places) == 0 {
		return Plan{}, fmt.Errorf("%w: no way to lie on the motifs, off the flaws", ErrNoLayout)
	}
	p.Claims = append(p.Claims, bounds...)
	sortClaims(p.Claims)
	p.Proved = p.Need == p.Bound().Length
	return p, nil
}

// offer notes a layout that a method found, and tells whether it is the best so
// far.
func (p *Plan) offer(m Method, need unit.Length) bool {
	if i := slices.IndexFunc(p.Claims, func(c Claim) bool { return c.Method == m }); i >= 0 {
		p.Claims[i].Length = min(p.Claims[i].Length, need)
	} else {
		p.Claims = append(p.Claims, Claim{Kind: cite.Layout, Method: m, Length: need})
	}
	if p.Need != 0 && p.Need <= need {
		return false
	}
	p.Need, p.Method = need, m
	return true
}

// nest nests the outlines and keeps that plan where it is shorter. Motifs lie, and
// pieces lie on those of their points, as in the plan from which nesting starts: that of
// the boxes, or a shorter one of many outlines on a pattern.
func (p *Plan) nest(ctx context.Context, o Options, boxes *boxTable, motifs []shape.Point) error {
	j := p.Job
	copies := 0
	cuts := map[int][]unit.Length{}
	for i, q := range j.Pieces {
		copies += q.Count
		if q.Join != nil {
			c, ok := evenCuts(q, *j.Roll)
			if !ok {
				return nil // the boxes have it
			}
			cuts[i] = c
		}
	}
	if copies > mostNested && len(p.Places) > 0 {
		return nil
	}
	start := *p
	switch {
	case j.stacks():
		start = p.stacked(ctx, o.part(0, 0.5), boxes)
		if start.Motifs != nil {
			motifs = start.Motifs
		}
		o = o.part(0.5, 1)
	case !slices.ContainsFunc(j.Pieces, func(q Piece) bool { return q.matched(*j.Roll) }):
		start.Places = nil // plain outlines nest better from scratch
	}
	t, err := newRollTable(j, cuts, o.Tolerance, motifs, start.spots())
	if err != nil && len(p.Places) > 0 {
		return nil // a repeat off the grid of the engine: the boxes have it
	}
	if err != nil {
		return err
	}
	grouped := len(j.Shades) > 0
	if grouped {
		o.Effort /= 2
	}
	if err := p.nestUnits(ctx, t, t.singles(), o.part(0, 0.5), start.Places); err != nil || !grouped {
		return err
	}
	if units, ok := t.clusters(ctx, o.Seed); ok {
		return p.nestUnits(ctx, t, units, o.part(0.5, 1), nil)
	}
	return nil
}

// spots notes which point of each copy lies on a motif; the first of them needs no
// note.
func (p Plan) spots() map[Copy]int {
	out := map[Copy]int{}
	for _, q := range p.Places {
		if k, _ := p.onMotif(q, 50*unit.Micrometre); k > 0 { // falls are met to the next step
			out[Copy{q.Piece, q.Copy}] = k
		}
	}
	return out
}

// nestUnits lays units, and keeps that plan where it is shorter and keeps the
// shade groups.
func (p *Plan) nestUnits(ctx context.Context, t *rollTable, units []rollUnit, o Options, start []Place) error {
	lay, err := t.lay(ctx, units, o, p.Need, start)
	switch {
	case err != nil && len(p.Places) > 0 && (errors.Is(err, nest.ErrRange) || errors.Is(err, nest.ErrNoRoom)):
		return nil // beyond the engine: the boxes stand
	case err != nil && errors.Is(err, nest.ErrRange):
		return fmt.Errorf("%w: the job is beyond the nesting engine, and boxes cannot be laid", ErrNoLayout)
	case err != nil:
		return nestError(err)
	}
	p.Stopped = p.Stopped || lay.Stopped
	places := t.places(units, lay)
	if _, spread := t.job.spread(places); !spread && p.offer(OutlinesNested, unit.Length(lay.Length*t.step)) {
		p.Places, p.Joins = places, t.joins()
		if p.Motifs != nil {
			p.Motifs = t.motifs
		}
	}
	return nil
}

// joins lists the seams of the pieces that are cut into segments.
func (t *rollTable) joins() []Join {
	var out []Join
	for i, p := range t.job.Pieces {
		for c := range p.Count {
			for _, at := range t.cuts[i] {
				out = append(out, Join{i, c, at})
			}
		}
	}
	return out
}

// verifyRoll checks a plan on a roll.
func (p Plan) verifyRoll(tol unit.Length) error {
	if len(p.Unplaced) > 0 {
		return badPlan("%d pieces have no place", len(p.Unplaced))
	}
	for i, q := range p.Places {
		if q.Piece < 0 || q.Piece >= len(p.Job.Pieces) {
			return badPlan("place %d: no such piece or copy", i)
		}
	}
	u, roll := p.Job.stood(), p.Job.Roll
	p, err := u.plan(p)
	if err != nil {
		return err
	}
	s, err := p.Job.parted()
	if err != nil {
		return u.blame(err)
	}
	if err := p.verifyMotifs(); err != nil {
		return err
	}
	need, err := p.Need.Plus(p.Spare)
	if err != nil {
		return err
	}
	order, err := roll.Order(need)
	if err != nil {
		return err
	}
	if p.Order != order {
		return badPlan("the order is %v, not %v", p.Order, order)
	}
	if p.Method != OutlinesNested {
		if err := p.verifyRunsOn(2 * unit.Nanometre); err != nil { // falls are rounded
			return err
		}
		if p, err = s.plan(p); err != nil {
			return err
		}
		t, err := newBoxTable(p.Job, tol)
		if err != nil {
			return err
		}
		return p.verifyBoxes(t)
	}
	joined := p
	if p, err = s.plan(p); err != nil {
		return err
	}
	cuts, err := p.cutsOf()
	if err != nil {
		return err
	}
	motifs := make([]shape.Point, mostCommon+1)
	for c := range motifs {
		motifs[c] = p.motif(c)
	}
	t, err := newRollTable(p.Job, cuts, tol, motifs, p.spots())
	if err != nil {
		return err
	}
	if err := joined.verifyRunsOn(t.near()); err != nil {
		return err
	}
	return p.verifyNested(t)
}

// Railroaded is a job laid out both ways.
type Railroaded struct {
	UpTheRoll *Plan `json:"up_the_roll,omitempty"` // nil when a piece is too wide for it
	Railroad  *Plan `json:"railroad,omitempty"`    // every piece a quarter turn; nil when a piece is too long for it
	// Better is the one that needs less, up the roll when both need the same.
	Better *Plan `json:"better,omitempty"`
}

// CompareRailroad lays a job on a roll out up the roll and railroaded, with every
// piece turned so that its top points to the left selvage, and says which needs
// less. The goods must allow it: a one-way nap or pattern then points across the
// piece. Errors are those of Solve when neither way works.
func CompareRailroad(ctx context.Context, j Job, o Options) (Railroaded, error) {
	if j.Roll == nil {
		return Railroaded{}, check.Required("roll", "a roll")
	}
	var out Railroaded
	up, errUp := Solve(ctx, j, o)
	if errUp == nil {
		out.UpTheRoll, out.Better = &up, &up
	} else if !errors.Is(errUp, ErrTooWide) {
		return Railroaded{}, errUp
	}
	if err := j.check(); err != nil && !errors.Is(err, ErrTooWide) {
		return Railroaded{}, err
	}
	j.Pieces = slices.Clone(j.Pieces)
	for i := range j.Pieces {
		j.Pieces[i].quarterTurn()
	}
	rail, errRail := Solve(ctx, j, o)
	switch {
	case errRail == nil:
		out.Railroad = &rail
		if out.Better == nil || rail.Need < out.Better.Need {
			out.Better = &rail
		}
	case errUp != nil:
		return Railroaded{}, errUp
	case !errors.Is(errRail, ErrTooWide):
		return Railroaded{}, errRail
	}
	return out, nil
}

// quarterTurn turns the drawing of a piece by 90 degrees anticlockwise.
func (p *Piece) quarterTurn() {
	p.Outline = p.Outline.Turned(1)
	p.Phase = p.Phase.turned(1)
	if p.Join != nil {
		j := *p.Join
		j.AlongWidth = !j.AlongWidth
		p.Join = &j
	}
}
