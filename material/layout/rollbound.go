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

// rollBounds gives what can be proved about the length of an upright job, of its
// true outlines, the best claim first. Pieces that may be joined count in the
// area alone. Of pieces whose motifs the layout may move each common number is
// looked at by itself, all others bound to nothing.
func rollBounds(ctx context.Context, j Job) ([]Claim, error) {
	area, longest, err := plainBounds(j)
	if err != nil {
		return nil, err
	}
	claims := []Claim{area, longest}
	for _, common := range commons(j) {
		strip, of, err := boundJob(j, common)
		if err != nil {
			return nil, err
		}
		if len(strip.Pieces) == 0 {
			break
		}
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

// commons lists the common numbers of the pieces that lie on the pattern, at
// least one number.
func commons(j Job) []int {
	var out []int
	for _, p := range j.Pieces {
		if p.matched(*j.Roll) && !slices.Contains(out, p.Phase.Common) {
			out = append(out, p.Phase.Common)
		}
	}
	if len(out) == 0 {
		out = []int{0}
	}
	slices.Sort(out)
	return out
}

// boundJob gives an upright job to package bound, in nanometres, with the pieces
// of one common number on the pattern, and of each of its pieces which piece of
// the job it is. Where the layout may move the motifs both ways, those pieces are
// bound along the roll alone.
func boundJob(j Job, common int) (bound.StripJob, []int, error) {
	r := *j.Roll
	out := bound.StripJob{Width: int64(r.Usable()), Gap: int64(j.Gap), Whole: true, Repeat: bound.Repeat{Across: int64(r.Across), Along: int64(r.Repeat),
		FirstX: int64(r.First.X), FirstY: int64(r.First.Y), FreeStart: common > 0 || r.UnknownStart}}
	// Nested outlines meet falls to the next step of their grid only.
	even := true
	motifs := material.Motifs{Along: r.Repeat, Drop: r.Drop}
	for k := range r.Drop.Den {
		rise := int64(motifs.Rise(k))
		out.Repeat.Falls = append(out.Repeat.Falls, -rise)
		even = even && rise%coarsest(r) == 0 && int64(r.Repeat)*int64(r.Drop.Num)%int64(r.Drop.Den) == 0
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
		q := bound.Piece{Count: p.Count, Ways: waysOf(ring, p.Phase, p.angles(r))}
		if p.matched(r) && even && p.Phase.Common == common {
			if p.Phase.across(r) && common == 0 {
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
		right.Ways = waysOf(mirror, p.Phase.mirrored(), p.angles(r))
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

// waysOf gives an outline at every turn with every point that may then lie on a
// motif.
func waysOf(ring geom.Ring, phase Phase, angles []int64) []bound.Way {
	var out []bound.Way
	for _, a := range angles {
		turn := []geom.Transform{geom.Identity, geom.Rotate90, geom.Rotate180, geom.Rotate270}[a/90_000_000]
		lies := ring.Transform(turn)
		for _, s := range phase.spots() {
			if s.holds(int(a / 1_000_000)) {
				out = append(out, bound.Way{Ring: lies, Match: turn.Apply(geom.Point{X: int64(s.Point.X), Y: int64(s.Point.Y)})})
			}
		}
	}
	return out
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
