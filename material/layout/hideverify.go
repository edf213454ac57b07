package layout

import (
	"math"
	"reflect"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// verifyHides checks a plan on hides.
func (p Plan) verifyHides(t *hideTable) error {
	var pieces []verify.Piece
	at := map[Copy][2]int{} // read by key only
	for i, c := range t.cuts {
		g := grainOf(t.pieces[c.piece].Grain)
		pieces = append(pieces, verify.Piece{Ring: c.ring, Count: c.count, AnyAngle: g.free, Angles: g.angles, Tolerance: g.tol + 1,
			MayMirror: c.mirror == nest.MayMirror, MustMirror: c.mirror == nest.AlwaysMirrored})
		for k := range c.count {
			at[Copy{c.piece, c.copyAt(k)}] = [2]int{i, k}
		}
	}
	var grounds []verify.Container
	for _, g := range t.ground {
		c := verify.Container{Outer: g.outer}
		c.Holes = append(c.Holes, g.holes...)
		grounds = append(grounds, c)
	}
	var lay []verify.Placement
	seen := map[Copy]bool{}
	var used []int
	for i, q := range p.Places {
		where, ok := at[Copy{q.Piece, q.Copy}]
		if !ok {
			return badPlan("place %d: no such piece or copy", i)
		}
		ring, ok := exactSteps(q.Outline)
		if !ok || q.X%nestStep != 0 || q.Y%nestStep != 0 {
			return badPlan("place %d: off the grid of plans", i)
		}
		if q.Hide < 0 || q.Hide >= len(t.hides) || q.Segments != 1 {
			return badPlan("place %d: no such hide, or a segment", i)
		}
		if math.IsNaN(float64(q.Turned)) || math.Abs(float64(q.Turned)) > 720 {
			return badPlan("place %d: angle out of range", i)
		}
		lay = append(lay, verify.Placement{Piece: where[0], Copy: where[1], Container: q.Hide, Angle: micro(q.Turned), Mirrored: q.Mirrored,
			At: geom.Point{X: int64(q.X) / nestStep, Y: int64(q.Y) / nestStep}, Ring: ring})
		seen[Copy{q.Piece, q.Copy}] = true
		if !slices.Contains(used, q.Hide) {
			used = append(used, q.Hide)
		}
	}
	slices.Sort(used)
	if !slices.Equal(used, p.Used) {
		return badPlan("hides in use are %v, not %v", used, p.Used)
	}
	if bought := t.bought(used); !slices.Equal(bought, p.Bought) {
		return badPlan("hides to buy are %v, not %v", bought, p.Bought)
	}
	if given := p.Job.Hides.given(); len(p.Hides) < len(given) || !reflect.DeepEqual(given, p.Hides[:len(given)]) && len(given) > 0 {
		return badPlan("the hides are not those of the job")
	}
	for _, u := range p.Unplaced {
		if _, ok := at[u]; !ok || seen[u] {
			return badPlan("copy %d of piece %d is not unplaced", u.Copy, u.Piece)
		}
		seen[u] = true
	}
	if len(seen) != len(at) {
		return badPlan("%d pieces of %d are accounted for", len(seen), len(at))
	}
	gap := (int64(p.Job.Gap) + nestStep - 1) / nestStep
	for _, f := range verify.Outlines(pieces, grounds, gap, false, lay) {
		return badPlan("%v", f)
	}
	for i, q := range lay {
		for _, r := range t.ground[q.Container].regions {
			if verify.Overlap(q.Ring, r.ring) && !t.mayLie(p.Places[i], r) {
				return badPlan("place %d lies on %s of hide %d", i, r.what, q.Container)
			}
		}
	}
	if err := p.verifyAreas(t); err != nil {
		return err
	}
	return nil
}

// verifyAreas works the areas of the plan out again.
func (p Plan) verifyAreas(t *hideTable) error {
	is, err := p.areas(t)
	if err != nil {
		return err
	}
	switch {
	case is != p.Areas:
		return badPlan("areas %+v are not %+v", p.Areas, is)
	case is.Placed > is.Usable:
		return badPlan("pieces of %v on %v", is.Placed, is.Usable)
	}
	return nil
}

// mayLie tells whether a placed panel may lie on a region.
func (t *hideTable) mayLie(q Place, r region) bool {
	p := t.pieces[q.Piece]
	if r.stretch == nil {
		return r.grade <= p.Least && r.mark <= p.Worst
	}
	w := p.Stretch
	return w == nil || halfTurnOff(float64(q.Turned)+axisOf(*w, q.Mirrored), float64(*r.stretch)) <= float64(w.Tolerance)+2*angleSlack
}

// exactSteps brings a line of a plan back to steps.
func exactSteps(pts []shape.Point) (geom.Ring, bool) {
	out := make(geom.Ring, len(pts))
	for i, p := range pts {
		if p.X%nestStep != 0 || p.Y%nestStep != 0 {
			return nil, false
		}
		out[i] = geom.Point{X: int64(p.X) / nestStep, Y: int64(p.Y) / nestStep}
	}
	return out, true
}
