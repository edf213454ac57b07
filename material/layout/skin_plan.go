package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// SkinPlacement is one panel on a skin: its outline mirrored across the upright
// through the origin of its own axes if Mirrored, turned about that origin by
// Angle, then moved by X and Y.
type SkinPlacement struct {
	Panel    int         `json:"panel"` // index into the panels of the plan
	Copy     int         `json:"copy"`  // from 0
	Skin     int         `json:"skin"`  // index into the skins of the plan
	Angle    unit.Angle  `json:"angle"` // anticlockwise
	Mirrored bool        `json:"mirrored,omitempty"`
	X        unit.Length `json:"x"`
	Y        unit.Length `json:"y"`
	// Outline is the panel as it lies, in the axes of the skin: a polygon that
	// holds the true outline and is larger by the tolerance of the plan at most.
	Outline []shape.Point `json:"outline"`
}

// SkinCopy names one copy of a panel.
type SkinCopy struct {
	Panel int `json:"panel"`
	Copy  int `json:"copy"`
}

// SkinOffcut is a clear rectangle of a skin that is left over.
type SkinOffcut struct {
	Skin   int         `json:"skin"`
	X      unit.Length `json:"x"` // lower left corner, in the axes of the skin
	Y      unit.Length `json:"y"`
	Width  unit.Length `json:"width"`
	Length unit.Length `json:"length"` // along the backbone
}

// SkinPlan is a plan with panels placed on skins.
type SkinPlan struct {
	Skins      []material.Skin `json:"skins"`
	Panels     []SkinPanel     `json:"panels"`
	Gap        unit.Length     `json:"gap,omitzero"`
	Tolerance  unit.Length     `json:"tolerance"` // of curved outlines
	Used       []int           `json:"used"`      // skins in use, in their order
	Placements []SkinPlacement `json:"placements"`
	Unplaced   []SkinCopy      `json:"unplaced,omitempty"`
	// Least is a number of skins that no plan of these panels on these skins
	// can stay under, and LeastWhy the reason. It is one more than there are
	// skins when they cannot suffice.
	Least    int    `json:"least"`
	LeastWhy string `json:"least_why"`
	// Areas: of the panels placed; of the skins in use as they are sold;
	// inside their outlines; and inside their borders less holes.
	Placed  unit.Area    `json:"placed"`
	Bought  unit.Area    `json:"bought"`
	Gross   unit.Area    `json:"gross"`
	Usable  unit.Area    `json:"usable"`
	Offcuts []SkinOffcut `json:"offcuts,omitempty"` // skin by skin, largest first
	Kind    cite.Kind    `json:"kind"`              // always cite.Layout
	// Narrowed says that demands had no common order; see NestSkins.
	Narrowed bool `json:"narrowed,omitempty"`
	// Stopped says that the search was cancelled: the plan is right, but more
	// effort might have made it better.
	Stopped bool `json:"stopped,omitempty"`
}

// Complete tells whether every panel has a place.
func (p SkinPlan) Complete() bool { return len(p.Unplaced) == 0 }

// Utilisation gives the share of the usable ground of the skins in use that the
// panels take: holes and border count as no ground. Zero for an empty plan.
func (p SkinPlan) Utilisation() unit.Ratio { return share(p.Placed, p.Usable) }

// UtilisationGross gives the share of everything inside the outlines of the
// skins in use, border and holes included. Zero for an empty plan.
func (p SkinPlan) UtilisationGross() unit.Ratio { return share(p.Placed, p.Gross) }

// Yield gives the share of the area bought. Zero for an empty plan.
func (p SkinPlan) Yield() unit.Ratio { return share(p.Placed, p.Bought) }

func share(a, b unit.Area) unit.Ratio {
	if r, err := a.Per(b); err == nil {
		return r
	}
	return 0
}

// On gives the placements on one skin, in the order of the plan.
func (p SkinPlan) On(skin int) []SkinPlacement {
	var out []SkinPlacement
	for _, q := range p.Placements {
		if q.Skin == skin {
			out = append(out, q)
		}
	}
	return out
}

// sort puts placements in the order of panels and copies.
func (p *SkinPlan) sort() {
	slices.SortStableFunc(p.Placements, func(a, b SkinPlacement) int {
		return cmp.Or(cmp.Compare(a.Panel, b.Panel), cmp.Compare(a.Copy, b.Copy))
	})
	slices.SortStableFunc(p.Unplaced, func(a, b SkinCopy) int {
		return cmp.Or(cmp.Compare(a.Panel, b.Panel), cmp.Compare(a.Copy, b.Copy))
	})
}

// measure fills in areas and bounds.
func (t *table) measure(p *SkinPlan, lay nest.HideLayout) error {
	for _, q := range p.Placements {
		sum, err := p.Placed.Plus(t.panels[q.Panel].Outline.Area())
		if err != nil {
			return err
		}
		p.Placed = sum
	}
	for _, i := range p.Used {
		usable, err := t.usable(i)
		if err != nil {
			return err
		}
		p.Usable += usable // at most MostSkins of mostSkin each
		p.Gross += t.ground[i].gross
		p.Bought += t.soldArea(i)
	}
	var err error
	p.Least, p.LeastWhy, err = t.least(lay)
	return err
}

// Verify checks the plan by a verifier that shares no code with the engine:
// every copy stands once or is listed as unplaced, with its true shape, at an
// angle and of the hand it may have, inside the border, off holes, off marks,
// grades and stretch it does not take, overlapping no other panel and no closer
// to it than the gap. Curved outlines are compared within the tolerance, on the
// safe side. An error wraps ErrBadLayout, or is one of the input.
func (p SkinPlan) Verify() error {
	t, err := newTable(p.Skins, p.Panels, NestOptions{Tolerance: p.Tolerance})
	if err != nil {
		return err
	}
	return p.verify(t)
}

func badPlan(format string, args ...any) error {
	return fmt.Errorf(format+": %w", append(args, ErrBadLayout)...)
}

func (p SkinPlan) verify(t *table) error {
	var pieces []verify.Piece
	at := map[SkinCopy][2]int{} // read by key only
	for i, c := range t.pieces {
		g := grainOf(t.panels[c.panel].Grain)
		pieces = append(pieces, verify.Piece{Ring: c.ring, Count: c.count, AnyAngle: g.free, Angles: g.angles, Tolerance: g.tol + 1,
			MayMirror: c.mirror == nest.MayMirror, MustMirror: c.mirror == nest.AlwaysMirrored, Lax: true, Least: math.MinInt})
		for k := range c.count {
			at[SkinCopy{c.panel, c.copyAt(k)}] = [2]int{i, k}
		}
	}
	var grounds []verify.Container
	for _, g := range t.ground {
		c := verify.Container{Outer: g.outer}
		for _, h := range g.holes {
			c.Holes = append(c.Holes, h)
		}
		grounds = append(grounds, c)
	}
	var lay []verify.Placement
	seen := map[SkinCopy]bool{}
	var used []int
	for i, q := range p.Placements {
		where, ok := at[SkinCopy{q.Panel, q.Copy}]
		if !ok {
			return badPlan("placement %d: no such panel or copy", i)
		}
		ring, ok := exactSteps(q.Outline)
		if !ok || q.X%nestStep != 0 || q.Y%nestStep != 0 {
			return badPlan("placement %d: off the grid of plans", i)
		}
		if math.IsNaN(float64(q.Angle)) || math.Abs(float64(q.Angle)) > 720 {
			return badPlan("placement %d: angle out of range", i)
		}
		lay = append(lay, verify.Placement{Piece: where[0], Copy: where[1], Container: q.Skin, Angle: micro(q.Angle), Mirrored: q.Mirrored,
			At: geom.Point{X: int64(q.X) / nestStep, Y: int64(q.Y) / nestStep}, Ring: ring})
		seen[SkinCopy{q.Panel, q.Copy}] = true
		if !slices.Contains(used, q.Skin) {
			used = append(used, q.Skin)
		}
	}
	slices.Sort(used)
	if !slices.Equal(used, p.Used) {
		return badPlan("skins in use are %v, not %v", used, p.Used)
	}
	for _, u := range p.Unplaced {
		if _, ok := at[u]; !ok || seen[u] {
			return badPlan("copy %d of panel %d is not unplaced", u.Copy, u.Panel)
		}
		seen[u] = true
	}
	if len(seen) != len(at) {
		return badPlan("%d panels of %d are accounted for", len(seen), len(at))
	}
	gap := (int64(p.Gap) + nestStep - 1) / nestStep
	for _, f := range verify.Outlines(pieces, grounds, gap, false, lay) {
		return badPlan("%v", f)
	}
	for i, q := range lay {
		for _, r := range t.ground[q.Container].regions {
			if verify.Overlap(q.Ring, r.ring) && !t.mayLie(p.Placements[i], r) {
				return badPlan("placement %d lies on %s of skin %d", i, r.what, q.Container)
			}
		}
	}
	if err := p.verifyAreas(t); err != nil {
		return err
	}
	if p.Complete() && len(p.Used) < p.Least {
		return badPlan("%d skins in use, under the bound of %d", len(p.Used), p.Least)
	}
	return nil
}

// verifyAreas works the areas of the plan out again.
func (p SkinPlan) verifyAreas(t *table) error {
	var placed, bought, gross, usable unit.Area
	for _, q := range p.Placements {
		placed += t.panels[q.Panel].Outline.Area()
	}
	for _, i := range p.Used {
		u, err := t.usable(i)
		if err != nil {
			return err
		}
		usable, bought, gross = usable+u, bought+t.soldArea(i), gross+t.ground[i].gross
	}
	switch {
	case placed != p.Placed || bought != p.Bought || gross != p.Gross || usable != p.Usable:
		return badPlan("areas %v, %v, %v, %v are not %v, %v, %v, %v", p.Placed, p.Bought, p.Gross, p.Usable, placed, bought, gross, usable)
	case p.Utilisation() > 1:
		return badPlan("utilisation %v", p.Utilisation())
	}
	return nil
}

// mayLie tells whether a placed panel may lie on a region.
func (t *table) mayLie(q SkinPlacement, r region) bool {
	p := t.panels[q.Panel]
	if r.stretch == nil {
		return r.grade <= p.Least && r.mark <= p.Worst
	}
	w := p.Stretch
	return w == nil || halfTurnOff(float64(q.Angle)+axisOf(*w, q.Mirrored), float64(*r.stretch)) <= float64(w.Tolerance)+2*angleSlack
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
