package layout

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
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
func (t *table) usable(skin int) (unit.Area, error) {
	return areaLeft(t.ground[skin].outer, t.ground[skin].holes)
}

func (t *table) soldArea(skin int) unit.Area {
	if a := t.skins[skin].Area; a != 0 {
		return a
	}
	return t.ground[skin].gross
}

// allowanceFor is what the polygon of a skin may be smaller than its true
// outline: its perimeter times the tolerance. Bounds give the skin that much.
func (t *table) allowanceFor(skin int) unit.Area {
	per := 0.0
	for _, r := range append([]geom.Ring{t.ground[skin].outer}, t.ground[skin].holes...) {
		per += float64(r.Perimeter() * nestStep)
	}
	for _, r := range t.ground[skin].regions {
		per += float64(r.ring.Perimeter() * nestStep)
	}
	return unit.Area(per*float64(t.tol)/1e6) + 1
}

// least gives a number of skins that no plan can stay under: for each set of
// demands, the area of all panels that ask no less must find room on the ground
// open to them. Beside it stands the engine's bound for large pieces.
func (t *table) least(lay nest.HideLayout) (int, string, error) {
	best, why := 1, "there is something to cut"
	type demand struct {
		least material.Grade
		worst material.Severity
	}
	var asked []demand
	for _, p := range t.panels {
		if d := (demand{p.Least, p.Worst}); !slices.Contains(asked, d) {
			asked = append(asked, d)
		}
	}
	asked = append([]demand{{material.RoughGrade, material.DeepMark}}, asked...)
	for _, d := range asked {
		var need unit.Area
		for _, p := range t.panels {
			if p.Least <= d.least && p.Worst <= d.worst {
				a, err := p.Outline.Area().Times(p.Count)
				if err != nil {
					return 0, "", err
				}
				if need, err = need.Plus(a); err != nil {
					return 0, "", err
				}
			}
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
				return 0, "", unit.InField(fmt.Sprintf("skins[%d]", i), err)
			}
			have = append(have, a+t.allowanceFor(i))
		}
		slices.Sort(have)
		slices.Reverse(have)
		n := 0
		var sum unit.Area
		for n < len(have) && sum < need {
			sum += have[n]
			n++
		}
		if sum < need {
			n = len(have) + 1
		}
		if n > best {
			best, why = n, "area of all panels against the largest skins"
			if d != asked[0] {
				why = fmt.Sprintf("area of the panels that ask for %v or better with marks %v at most, against the ground fit for them", d.least, d.worst)
			}
		}
	}
	if lay.Least > best && strings.Contains(lay.LeastWhy, "large pieces") {
		best, why = lay.Least, lay.LeastWhy
	}
	return best, why, nil
}
