package layout

import (
	"cmp"
	"context"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// left gives the parts of a ring outside others, all in steps.
func left(outer geom.Ring, taken []geom.Ring) ([]geom.Polygon, error) {
	rings := []geom.Ring{anticlockwise(outer)}
	for _, h := range taken {
		rings = append(rings, anticlockwise(h).Reverse())
	}
	return geom.Resolve(rings, geom.Positive)
}

// areaLeft gives the area of a ring outside others.
func areaLeft(outer geom.Ring, taken []geom.Ring) (unit.Area, error) {
	parts, err := left(outer, taken)
	if err != nil {
		return 0, plainGeom(err)
	}
	var sum geom.Int128
	for _, p := range parts {
		sum = sum.Add(p.TwiceArea())
	}
	// Twice the area in steps of 125 nm: a square micrometre is 64 of them.
	return unit.Area(sum.Float64() / 128), nil
}

// usable gives the area of a skin inside its border and outside holes.
func (t *hideTable) usable(hide int) (unit.Area, error) {
	return areaLeft(t.ground[hide].outer, t.ground[hide].holes)
}

func (t *hideTable) soldArea(hide int) unit.Area {
	if a := t.hides[hide].Area; a != 0 {
		return a
	}
	return t.ground[hide].gross
}

// allowanceFor is what the polygon of a skin may be smaller than its true
// outline: its perimeter times the tolerance. Bounds give the skin that much.
func (t *hideTable) allowanceFor(hide int) unit.Area {
	per := 0.0
	for _, r := range append([]geom.Ring{t.ground[hide].outer}, t.ground[hide].holes...) {
		per += float64(r.Perimeter() * nestStep)
	}
	for _, r := range t.ground[hide].regions {
		per += float64(r.ring.Perimeter() * nestStep)
	}
	return unit.Area(per*float64(t.tol)/1e6) + 1
}

// bounds gives numbers of hides that no plan can stay under, however many usual
// hides are added, the best claim first. extra counts further usual hides.
func (t *hideTable) bounds(ctx context.Context, extra []material.Skin) ([]Claim, error) {
	all := append(slices.Clone(t.hides), extra...)
	claims := []Claim{{Kind: cite.Bound, Method: BySomethingToCut, Hides: 1}}
	fit, err := t.byFitArea(extra)
	if err != nil {
		return nil, err
	}
	claims = append(claims, fit)
	job := bound.HideJob{}
	for i, s := range all {
		if i > 0 && alike(s, all[i-1]) {
			job.Hides = append(job.Hides, job.Hides[i-1])
			continue
		}
		h, err := outerHide(s, t.tol)
		if err != nil {
			return nil, err
		}
		job.Hides = append(job.Hides, h)
	}
	var of []int
	for i, p := range t.pieces {
		q, err := boundPiece(p)
		if err != nil {
			return nil, unit.InField(check.At("pieces", i), err)
		}
		if len(q.Ways) > 0 {
			job.Pieces, of = append(job.Pieces, q), append(of, i)
		}
	}
	found, err := bound.Hides(ctx, job)
	if err != nil {
		found = nil // a piece finds no room at all; it is listed as unplaced
	}
	for _, f := range found {
		c := Claim{Kind: cite.Bound, Method: methodOf(f.Method), Hides: f.Hides}
		for _, k := range f.Pieces {
			c.Pieces = append(c.Pieces, of[k])
		}
		claims = append(claims, c)
	}
	sortClaims(claims)
	return claims, nil
}

// outerHide gives a hide that holds the ground of a true one.
func outerHide(s material.Skin, tol unit.Length) (bound.Hide, error) {
	border, err := s.Shape()
	if err != nil {
		return bound.Hide{}, err
	}
	outer, err := ringOf(border, 1, 0, tol, nestStep, true)
	if err != nil {
		return bound.Hide{}, err
	}
	h := bound.Hide{Outer: outer}
	if s.Border > 0 {
		if r, err := offsetRing(outer, -(int64(s.Border)/nestStep - 1)); err == nil {
			h.Outer = r
		}
	}
	for _, o := range s.Holes {
		if r, err := ringOf(o, -1, 0, tol, nestStep, true); err == nil { // else too small to count
			h.Holes = append(h.Holes, r)
		}
	}
	return h, nil
}

// boundPiece gives a piece to package bound, in steps, a hair smaller than it is;
// without a way to lie where nothing is left of it.
func boundPiece(p Piece) (bound.Piece, error) {
	ring, err := innerRing(p.Outline)
	if err != nil {
		return bound.Piece{}, err
	}
	if len(ring) > 0 && !onGrid(ring, nestStep) {
		if ring, err = offsetRing(ring, -2*nestStep); err != nil {
			return bound.Piece{}, nil //nolint:nilerr // nothing is left
		}
	}
	steps := toSteps(ring, nestStep)
	if len(steps) < 3 {
		return bound.Piece{}, nil
	}
	g := grainOf(p.Grain)
	q := bound.Piece{Count: p.Count, AnyAngle: !g.steady(), Ways: waysOf(steps, Phase{}, []int64{0})}
	if q.AnyAngle {
		return q, nil
	}
	var quarters []int64
	for _, a := range g.angles {
		quarters = append(quarters, (a%360_000_000+360_000_000)%360_000_000)
	}
	q.Ways = waysOf(steps, Phase{}, quarters)
	if p.Hand != AsDrawn {
		mirror := make(geom.Ring, len(steps))
		for k, c := range steps {
			mirror[len(steps)-1-k] = geom.Point{X: -c.X, Y: c.Y}
		}
		q.Ways = append(q.Ways, waysOf(mirror, Phase{}, quarters)...)
	}
	return q, nil
}

// byFitArea sets the area of the pieces that ask for a grade or clear leather
// against the ground fit for them, the largest hides first. Further usual
// hides count as wholly fit, with a hundredth to spare.
func (t *hideTable) byFitArea(extra []material.Skin) (Claim, error) {
	best := Claim{Kind: cite.Bound, Method: ByFitArea, Hides: 1}
	type demand struct {
		least material.Grade
		worst material.Severity
	}
	var asked []demand
	for _, p := range t.pieces {
		if d := (demand{p.Least, p.Worst}); !slices.Contains(asked, d) {
			asked = append(asked, d)
		}
	}
	for _, d := range asked {
		var need unit.Area
		var of []int
		for i, p := range t.pieces {
			if p.Least > d.least || p.Worst > d.worst {
				continue
			}
			a, err := p.Outline.Area().Times(p.Count)
			if err == nil {
				need, err = need.Plus(a)
			}
			if err != nil {
				return best, err
			}
			of = append(of, i)
		}
		var have []unit.Area
		for i, g := range t.ground {
			taken := slices.Clone(g.holes)
			for _, r := range g.regions {
				if r.stretch == nil && (r.grade > d.least || r.mark > d.worst) {
					taken = append(taken, r.ring)
				}
			}
			a, err := areaLeft(g.outer, taken)
			if err != nil {
				return best, err
			}
			have = append(have, a+t.allowanceFor(i))
		}
		for _, s := range extra {
			have = append(have, s.SoldArea()/100*101)
		}
		slices.SortFunc(have, func(a, b unit.Area) int { return cmp.Compare(b, a) })
		n := 0
		var sum unit.Area
		for n < len(have) && sum < need {
			sum += have[n]
			n++
		}
		if sum < need {
			n = len(have) + 1
		}
		if n > best.Hides {
			best.Hides, best.Pieces = n, of
		}
	}
	return best, nil
}
