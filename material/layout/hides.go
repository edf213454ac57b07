package layout

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// MostHides is the largest number of hides in one plan.
const MostHides = 200

// UsualHides gives n equal hides of a usual shape, to plan with before the
// hides are there. Errors are those of NaturalShape; n is from 1 to MostHides.
func UsualHides(kind material.SkinKind, area unit.Area, n int) ([]material.Skin, error) {
	if err := check.Count("hides", n, 1, MostHides); err != nil {
		return nil, err
	}
	if _, err := material.NaturalShape(kind, area); err != nil {
		return nil, err
	}
	return usual(material.Skin{Kind: kind, Area: area}, n), nil
}

// usual numbers n hides that are alike.
func usual(s material.Skin, n int) []material.Skin {
	out := make([]material.Skin, n)
	for i := range out {
		out[i] = s
		out[i].ID = fmt.Sprintf("%s %d", s.Kind, i+1)
	}
	return out
}

// given lists the hides of a job, those at hand first.
func (h Hides) given() []material.Skin {
	return append(slices.Clone(h.AtHand), h.OnOffer...)
}

// bought gives the hides of some in use that are not at hand.
func (t *hideTable) bought(used []int) []int {
	var out []int
	for _, i := range used {
		if i >= t.atHand {
			out = append(out, i)
		}
	}
	return out
}

// solveHides lays a job on hides: on those at hand where they suffice, else on
// as few more as it finds.
func solveHides(ctx context.Context, j Job, o Options) (Plan, error) {
	given := j.Hides.given()
	if len(given) == 0 && j.Hides.Usual.Area == 0 {
		return Plan{}, check.Required("hides.at_hand", "hides at hand or on offer, or a usual one to add")
	}
	if len(given) > MostHides {
		return Plan{}, check.Refuse("hides", fmt.Sprint(len(given)), ErrTooMany, fmt.Sprintf("at most %d hides", MostHides))
	}
	mine := len(j.Hides.AtHand)
	if mine > 0 && (mine < len(given) || j.Hides.Usual.Area != 0) {
		if p, err := layHides(ctx, j, given, firsts(mine), o); err != nil || p.Complete() {
			return p.finished(ctx, o, err)
		}
	}
	extra, err := j.Hides.start(j.Pieces, len(given))
	if err != nil {
		return Plan{}, err
	}
	left := -1
	for {
		hides := append(slices.Clone(given), usual(j.Hides.Usual, extra)...)
		p, err := layHides(ctx, j, hides, firsts(len(hides)), o)
		if err != nil {
			return Plan{}, err
		}
		if p.Complete() {
			return p.cheaper(ctx, o)
		}
		stuck := left >= 0 && len(p.Unplaced) >= left
		if j.Hides.Usual.Area == 0 || stuck || ctx.Err() != nil || len(hides) >= MostHides {
			return p.finished(ctx, o, nil)
		}
		left = len(p.Unplaced)
		extra = min(extra+max(1, len(hides)/4), MostHides-len(given))
	}
}

func firsts(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// usualWaste is what plans begin with over the area of the pieces where all hides
// are usual ones.
const usualWaste = 0.6

// start says how many usual hides to begin with.
func (h Hides) start(pieces []Piece, given int) (int, error) {
	if given > 0 || h.Usual.Area == 0 {
		return 0, nil
	}
	var sum unit.Area
	for i, p := range pieces {
		a, err := p.Outline.Area().Times(p.Count)
		if err == nil {
			sum, err = sum.Plus(a)
		}
		if err != nil {
			return 0, unit.InField(check.At("pieces", i), err)
		}
	}
	return int(min(max(float64(sum)*(1+usualWaste)/float64(h.Usual.Area)+1, 1), MostHides)), nil
}

// layHides lays a job on some hides of a list, by index.
func layHides(ctx context.Context, j Job, hides []material.Skin, on []int, o Options) (Plan, error) {
	p := Plan{Job: j, Tolerance: o.Tolerance, Kind: cite.Layout, Method: OutlinesNested, Hides: hides}
	t, err := newHideTable(j, hides, o.Tolerance)
	if err != nil {
		return Plan{}, err
	}
	some := *t
	some.hides, some.ground, some.atHand = nil, nil, 0
	for _, i := range on {
		some.hides, some.ground = append(some.hides, t.hides[i]), append(some.ground, t.ground[i])
		if i < t.atHand {
			some.atHand++
		}
	}
	job, err := some.engine(o)
	if err != nil {
		return Plan{}, err
	}
	lay, err := nest.Hides(ctx, job)
	if err != nil {
		return Plan{}, nestError(err)
	}
	p.Stopped = lay.Stopped
	for _, pl := range lay.Placements {
		q := t.cuts[pl.Piece]
		p.Places = append(p.Places, Place{Piece: q.piece, Copy: q.copyAt(pl.Copy), Segments: 1, Hide: on[pl.Hide],
			Turned: unit.Angle(pl.Angle.Degrees()), Mirrored: pl.Mirrored, X: unit.Length(pl.At.X * nestStep), Y: unit.Length(pl.At.Y * nestStep),
			Outline: pointsOf(pl.Ring, nestStep)})
	}
	for _, pl := range lay.Unplaced {
		q := t.cuts[pl.Piece]
		p.Unplaced = append(p.Unplaced, Copy{q.piece, q.copyAt(pl.Copy)})
	}
	for _, i := range lay.Used {
		p.Used = append(p.Used, on[i])
	}
	slices.Sort(p.Used)
	p.Bought = t.bought(p.Used)
	p.sort()
	p.Areas, err = p.areas(t)
	return p, err
}

// areas sums the plan up.
func (p Plan) areas(t *hideTable) (Areas, error) {
	var a Areas
	for _, q := range p.Places {
		sum, err := a.Placed.Plus(t.pieces[q.Piece].Outline.Area())
		if err != nil {
			return a, err
		}
		a.Placed = sum
	}
	for _, i := range p.Used {
		usable, err := t.usable(i)
		if err != nil {
			return a, err
		}
		a.Usable += usable // at most MostHides of 120 sq ft each
		a.Gross += t.ground[i].gross
		a.Sold += t.soldArea(i)
	}
	for _, i := range p.Bought {
		a.Bought += t.soldArea(i)
	}
	return a, nil
}

// cheaper tries to buy less than a complete plan does: fewer hides beside those
// at hand, then the cheapest there are, as a search of little effort stops at the
// first hides that suffice.
func (p Plan) cheaper(ctx context.Context, o Options) (Plan, error) {
	mine := firsts(len(p.Job.Hides.AtHand))
	rest := firsts(len(p.Hides))[len(mine):]
	slices.SortStableFunc(rest, func(a, b int) int { return cmp.Compare(p.Hides[a].SoldArea(), p.Hides[b].SoldArea()) })
	cheapest := slices.Clone(rest)
	slices.SortStableFunc(cheapest, func(a, b int) int { return cmp.Compare(priceOf(p.Hides[a]), priceOf(p.Hides[b])) })
	price := func(of []int) (sum float64) {
		for _, i := range of {
			sum += priceOf(p.Hides[i])
		}
		return sum
	}
	quiet := o
	quiet.Progress = nil
	try := func(bought []int) bool {
		if ctx.Err() != nil {
			return false
		}
		on := slices.Sorted(slices.Values(append(slices.Clone(mine), bought...)))
		other, err := layHides(ctx, p.Job, p.Hides, on, quiet)
		if err != nil || !other.Complete() || len(other.Bought) > len(p.Bought) || len(other.Bought) == len(p.Bought) && price(other.Bought) >= price(p.Bought) {
			return false
		}
		p = other
		return true
	}
	for n := len(p.Bought) - 1; len(mine) > 0 && n > 0 && try(rest[len(rest)-n:]); n = len(p.Bought) - 1 {
	}
	if few := cheapest[:len(p.Bought)]; price(few) < price(p.Bought) {
		try(few)
	}
	return p.finished(ctx, o, nil)
}

// finished adds the claims and offcuts to a plan on hides, and checks it.
func (p Plan) finished(ctx context.Context, o Options, err error) (Plan, error) {
	if err != nil {
		return Plan{}, err
	}
	t, err := newHideTable(p.Job, p.Hides, p.Tolerance)
	if err != nil {
		return Plan{}, err
	}
	var extra []material.Skin
	if p.Job.Hides.Usual.Area != 0 {
		extra = usual(p.Job.Hides.Usual, max(1, len(p.Used)))
	}
	bounds, err := t.bounds(ctx, extra)
	if err != nil {
		return Plan{}, err
	}
	p.Claims = append([]Claim{{Kind: cite.Layout, Method: p.Method, Hides: len(p.Used)}}, bounds...)
	p.Proved = p.Complete() && p.Bound().Hides == len(p.Used)
	p.Offcuts = p.hideOffcuts(ctx, t, o.OffcutShort, o.OffcutLong)
	return p, p.Verify()
}
