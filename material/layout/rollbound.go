package layout

import (
	"context"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// rollBounds gives what can be proved about the length of a job on a roll, of
// its true outlines, the best claim first. Pieces that may be joined count in the
// area alone.
func rollBounds(ctx context.Context, j Job) ([]Claim, error) {
	area, longest, err := plainBounds(j)
	if err != nil {
		return nil, err
	}
	claims := []Claim{area, longest}
	strip, of, err := boundJob(j)
	if err != nil {
		return nil, err
	}
	if len(strip.Pieces) > 0 {
		found, err := bound.Strip(ctx, strip)
		if err != nil {
			found = nil // no layout exists; the engines say so in the words of the job
		}
		for _, f := range found {
			c := Claim{Kind: cite.Bound, Method: methodOf(f.Method), Length: unit.Length(f.Length), Phase: unit.Length(f.Phase), Lines: int(f.Lines), Line: unit.Length(f.Line)}
			if f.Piece >= 0 {
				c.Pieces = []int{of[f.Piece]}
			}
			claims = append(claims, c)
		}
	}
	sortClaims(claims)
	// Of each method the best: area and longest piece are also known from the
	// outlines themselves.
	var seen [len(methodNames)]bool
	return slices.DeleteFunc(claims, func(c Claim) bool {
		was := seen[c.Method]
		seen[c.Method] = true
		return was
	}), nil
}

// plainBounds gives area over usable width, and the longest piece as it may lie.
func plainBounds(j Job) (area, longest Claim, err error) {
	area, longest = Claim{Kind: cite.Bound, Method: ByArea}, Claim{Kind: cite.Bound, Method: ByLongest}
	var sum unit.Area
	for i, p := range j.Pieces {
		a, err := p.Outline.Area().Times(p.Count)
		if err == nil {
			sum, err = sum.Plus(a)
		}
		if err != nil {
			return area, longest, unit.InField(check.At("pieces", i), err)
		}
		w, h := p.Outline.Size()
		switch {
		case p.Join != nil:
			h = 0
		case p.mayQuarter(*j.Roll) && h > w && h <= j.Roll.Usable() || w > j.Roll.Usable():
			h = w // it may lie, or has to lie, across
		}
		if h > longest.Length {
			longest.Length, longest.Pieces = h, []int{i}
		}
	}
	area.Length, err = sum.Over(j.Roll.Usable(), unit.Down)
	return area, longest, err
}

// boundJob gives a job to package bound, in nanometres, and of each of its pieces
// which piece of the job it is.
func boundJob(j Job) (bound.StripJob, []int, error) {
	r := *j.Roll
	out := bound.StripJob{Width: int64(r.Usable()), Gap: int64(j.Gap), Repeat: bound.Repeat{Across: int64(r.Across), Along: int64(r.Repeat)}, Whole: true}
	// Nested outlines meet falls to the next step of their grid only.
	even := true
	for k := range r.Drop.Den {
		out.Repeat.Falls = append(out.Repeat.Falls, -int64(r.Fall(k)))
		even = even && int64(r.Fall(k))%coarsest(r) == 0 && int64(r.Repeat)*int64(r.Drop.Num)%int64(r.Drop.Den) == 0
	}
	var of []int
	for i, p := range j.Pieces {
		if p.Join != nil {
			continue
		}
		ring, err := innerRing(p.Outline)
		if err != nil {
			return out, nil, unit.InField(check.At("pieces", i), err)
		}
		if len(ring) < 3 {
			continue // thinner than what is taken off: nothing is said of it
		}
		match := p.Phase.point()
		q := bound.Piece{Count: p.Count, Ways: waysOf(ring, match, p.angles(r))}
		if p.matched(r) && even {
			if p.Phase.across(r) {
				q.Match |= bound.X
			}
			if p.Phase.along(r) {
				q.Match |= bound.Y
			}
		}
		add := func(q bound.Piece) { out.Pieces, of = append(out.Pieces, q), append(of, i) }
		if p.Hand != Paired || p.Count == 1 {
			add(q)
			continue
		}
		mirror := make(geom.Ring, len(ring))
		for k, c := range ring {
			mirror[len(ring)-1-k] = geom.Point{X: -c.X, Y: c.Y}
		}
		right := q
		q.Count, right.Count = (p.Count+1)/2, p.Count/2
		right.Ways = waysOf(mirror, shape.Point{X: -match.X, Y: match.Y}, p.angles(r))
		add(q)
		add(right)
	}
	return out, of, nil
}

// coarsest is the step on which falls must lie to be met exactly by every plan.
func coarsest(r material.Roll) int64 {
	for _, s := range slices.Backward(rollSteps) {
		if int64(r.Repeat)%s == 0 && int64(r.Across)%s == 0 {
			return s
		}
	}
	return 1
}

func waysOf(ring geom.Ring, match shape.Point, angles []int64) []bound.Way {
	var turns []geom.Transform
	for _, a := range angles {
		turns = append(turns, []geom.Transform{geom.Identity, geom.Rotate90, geom.Rotate180, geom.Rotate270}[a/90_000_000])
	}
	return bound.Ways(ring, geom.Point{X: int64(match.X), Y: int64(match.Y)}, turns...)
}

// curveOff is what the chords of a curve may stand outside it.
const curveOff = 10 * unit.Micrometre

// innerRing gives an outline in nanometres: as it is where its chords lie
// inside it, else a hair inside, nothing where that leaves nothing.
func innerRing(o shape.Outline) (geom.Ring, error) {
	pts, err := o.Flatten(curveOff)
	if err != nil {
		return nil, err
	}
	ring := gridRing(pts)
	if isStraight(o, pts) || o.Convex() { // chords of a convex curve lie inside it
		return ring, nil
	}
	inner, err := offsetRing(ring, -int64(curveOff))
	if err != nil {
		return nil, nil //nolint:nilerr // too thin: nothing is left to say anything of
	}
	return inner, nil
}

func sortClaims(cs []Claim) {
	slices.SortStableFunc(cs, func(a, b Claim) int {
		switch {
		case a.Kind != b.Kind:
			if a.Kind == cite.Layout {
				return -1
			}
			return 1
		case a.Kind == cite.Layout: // the shortest first
			a, b = b, a
		}
		switch {
		case a.Length != b.Length:
			return int(min(1, max(-1, b.Length-a.Length)))
		case a.Hides != b.Hides:
			return b.Hides - a.Hides
		}
		return int(a.Method) - int(b.Method)
	})
}
