package layout

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// hideTable is a job on hides in the steps of the engine.
type hideTable struct {
	hides    []material.Skin
	atHand   int // so many, the first ones, are at hand
	pieces   []Piece
	gap, tol unit.Length
	ground   []ground
	cuts     []cutPiece
}

// ground is a hide as the engine sees it.
type ground struct {
	outer   geom.Ring
	gross   unit.Area // inside the outline
	holes   []geom.Ring
	regions []region
}

// region is a part of a hide that some pieces must keep off.
type region struct {
	ring geom.Ring
	what string
	// What it is: a grade, a mark or a direction of stretch.
	grade   material.Grade
	mark    material.Severity
	stretch *unit.Angle
}

// cutPiece is a piece, or the copies of one hand of a pair.
type cutPiece struct {
	piece    int
	count    int
	ring     geom.Ring
	mirror   nest.Mirroring
	turn     directions
	first    int // number of the first copy
	stepping int // from copy to copy
}

func (c cutPiece) copyAt(i int) int { return c.first + i*c.stepping }

// directions are the angles the engine may use for a piece, in millionths of
// a degree.
type directions struct {
	free   bool
	angles []int64
	tol    int64
}

func (d directions) turn() nest.Turn {
	if d.free {
		return nest.TurnAny()
	}
	as := make([]nest.Angle, len(d.angles))
	for i, a := range d.angles {
		as[i] = nest.Angle(a)
	}
	if d.tol == 0 {
		return nest.TurnSet(as...)
	}
	return nest.TurnAround(nest.Angle(d.tol), as...)
}

// steady tells whether a piece lies at quarter turns alone.
func (d directions) steady() bool {
	if d.free || d.tol != 0 {
		return false
	}
	return !slices.ContainsFunc(d.angles, func(a int64) bool { return a%90_000_000 != 0 })
}

func newHideTable(j Job, hides []material.Skin, tol unit.Length) (*hideTable, error) {
	if len(hides) == 0 {
		return nil, check.Required("hides.at_hand", "hides at hand or on offer, or a usual one to add")
	}
	if err := check.Count("hides", len(hides), 1, MostHides); err != nil {
		return nil, err
	}
	t := &hideTable{hides: hides, atHand: len(j.Hides.AtHand), pieces: j.Pieces, gap: j.Gap, tol: tol}
	for i, s := range hides {
		if i > 0 && alike(s, hides[i-1]) { // usual hides follow each other
			t.ground = append(t.ground, t.ground[i-1])
			continue
		}
		g, err := newGround(s, tol)
		if err != nil {
			return nil, unit.InField(j.hidePath(i), err)
		}
		t.ground = append(t.ground, g)
	}
	for i, p := range j.Pieces {
		if err := t.add(i, p); err != nil {
			return nil, unit.InField(check.At("pieces", i), err)
		}
	}
	return t, nil
}

// alike tells whether two hides differ in name alone.
func alike(a, b material.Skin) bool {
	a.ID = b.ID
	return reflect.DeepEqual(a, b)
}

// hidePath names a hide of a plan in the words of the job.
func (j Job) hidePath(i int) string {
	n := len(j.Hides.AtHand)
	switch {
	case i < n:
		return check.At("hides.at_hand", i)
	case i < n+len(j.Hides.OnOffer):
		return check.At("hides.on_offer", i-n)
	}
	return "hides.usual"
}

func (t *hideTable) add(i int, p Piece) error {
	hand := p.Hand
	if w := p.Stretch; hand == EitherHand && w != nil && math.Mod(float64(w.Axis), 90) != 0 {
		hand = AsDrawn // the axis of the mirrored piece is another one
	}
	add := func(c cutPiece) error {
		c.piece = i
		c.turn = t.turnOf(p, c.mirror == nest.AlwaysMirrored)
		ring, err := ringOf(p.Outline, 1, 0, t.tol, nestStep, c.turn.steady())
		if err != nil {
			return unit.InField("outline", check.Inner(err, "outline"))
		}
		c.ring = ring
		t.cuts = append(t.cuts, c)
		return nil
	}
	switch hand {
	case EitherHand:
		return add(cutPiece{count: p.Count, mirror: nest.MayMirror, stepping: 1})
	case Paired:
		if err := add(cutPiece{count: (p.Count + 1) / 2, mirror: nest.NeverMirrored, stepping: 2}); err != nil || p.Count < 2 {
			return err
		}
		return add(cutPiece{count: p.Count / 2, mirror: nest.AlwaysMirrored, first: 1, stepping: 2})
	}
	return add(cutPiece{count: p.Count, mirror: nest.NeverMirrored, stepping: 1})
}

func micro(a unit.Angle) int64 { return int64(math.Round(float64(a) * 1e6)) }

// newGround checks a hide and brings it to the engine's steps.
func newGround(s material.Skin, tol unit.Length) (ground, error) {
	if err := s.Check(); err != nil {
		return ground{}, err
	}
	border, err := s.Shape()
	if err != nil {
		return ground{}, err
	}
	g := ground{gross: border.Area()}
	if g.outer, err = ringOf(border, -1, s.Border, tol, nestStep, true); err != nil {
		return ground{}, unit.InField("border", check.Inner(err, "outline"))
	}
	out := func(field string, o shape.Outline) (geom.Ring, error) {
		r, err := ringOf(o, 1, 0, tol, nestStep, true)
		if err != nil {
			return nil, unit.InField(field, check.Inner(err, "outline"))
		}
		return r, nil
	}
	for i, h := range s.Holes {
		r, err := out(fmt.Sprintf("holes[%d]", i), h)
		if err != nil {
			return ground{}, err
		}
		g.holes = append(g.holes, r)
	}
	for i, d := range s.Defects {
		at := fmt.Sprintf("defects[%d]", i)
		b, err := d.Border()
		if err != nil {
			return ground{}, unit.InField(at, err)
		}
		r, err := out(at, b)
		if err != nil {
			return ground{}, err
		}
		if d.Weight() == material.ThroughMark {
			g.holes = append(g.holes, r)
			continue
		}
		g.regions = append(g.regions, region{ring: r, what: at, mark: d.Weight()})
	}
	return g, g.addGradesAndStretch(s, tol, out)
}

func (g *ground) addGradesAndStretch(s material.Skin, tol unit.Length, out func(string, shape.Outline) (geom.Ring, error)) error {
	var better []shape.Outline
	for i, z := range s.Zones {
		at := fmt.Sprintf("zones[%d]", i)
		if z.Grade <= s.Grade {
			better = append(better, z.Outline)
		}
		if z.Grade == material.PrimeGrade {
			continue
		}
		r, err := out(at, z.Outline)
		if err != nil {
			return err
		}
		g.regions = append(g.regions, region{ring: r, what: at, grade: z.Grade})
	}
	if s.Grade != material.PrimeGrade {
		// A grade of the whole skin holds outside the better zones.
		parts, err := g.rest(better, tol)
		if err != nil {
			return unit.InField("zones", err)
		}
		for _, r := range parts {
			g.regions = append(g.regions, region{ring: r, what: "grade", grade: s.Grade})
		}
	}
	var named []shape.Outline
	for i, r := range s.Stretch {
		if r.Outline.IsZero() {
			continue
		}
		named = append(named, r.Outline)
		ring, err := out(fmt.Sprintf("stretch[%d].outline", i), r.Outline)
		if err != nil {
			return err
		}
		d := r.Direction
		g.regions = append(g.regions, region{ring: ring, what: fmt.Sprintf("stretch[%d]", i), stretch: &d})
	}
	for i, r := range s.Stretch {
		if !r.Outline.IsZero() {
			continue
		}
		parts, err := g.rest(named, tol)
		if err != nil {
			return unit.InField("stretch", err)
		}
		d := r.Direction
		for _, ring := range parts {
			g.regions = append(g.regions, region{ring: ring, what: fmt.Sprintf("stretch[%d]", i), stretch: &d})
		}
	}
	return nil
}

// allows tells whether a piece may lie on a region, at all its angles.
func (t *hideTable) allows(c cutPiece, r region) bool {
	p := t.pieces[c.piece]
	if r.stretch != nil {
		return p.Stretch == nil || c.meets(*p.Stretch, *r.stretch)
	}
	return r.grade <= p.Least && r.mark <= p.Worst
}

// engine builds the engine's job: regions that the same pieces may lie on are of
// one kind, those open to all are no zones.
func (t *hideTable) engine(o Options) (nest.HideJob, error) {
	job := nest.HideJob{Options: o.nest(nestStep, t.gap)}
	var kinds [][]bool // which pieces take a kind
	takes := make([]nest.Kinds, len(t.cuts))
	for i, g := range t.ground {
		h := nest.Hide{ID: t.hides[i].ID, Outer: g.outer, Holes: g.holes, Cost: t.price(i)}
		for _, r := range g.regions {
			open := make([]bool, len(t.cuts))
			for k, c := range t.cuts {
				open[k] = t.allows(c, r)
			}
			if !slices.Contains(open, false) {
				continue
			}
			kind := slices.IndexFunc(kinds, func(k []bool) bool { return slices.Equal(k, open) })
			if kind < 0 {
				if kind = len(kinds); kind == nest.MostKinds {
					return job, check.Refuse(check.At("hides", i), t.hides[i].ID, ErrTooMany, fmt.Sprintf("at most %d kinds of ground", nest.MostKinds))
				}
				kinds = append(kinds, open)
			}
			h.Zones = append(h.Zones, nest.Zone{Kind: kind, Ring: r.ring})
		}
		job.Hides = append(job.Hides, h)
	}
	for kind, open := range kinds {
		for k, may := range open {
			if may {
				takes[k] = takes[k].With(kind)
			}
		}
	}
	for k, c := range t.cuts {
		job.Pieces = append(job.Pieces, nest.Piece{ID: t.pieces[c.piece].Name, Ring: c.ring, Count: c.count, Turn: c.turn.turn(), Mirror: c.mirror, Takes: takes[k]})
	}
	return job, nil
}

// price ranks equal numbers of hides: by area as sold and price, those at hand
// far below all others.
func (t *hideTable) price(hide int) int64 {
	c := priceOf(t.hides[hide])
	if hide < t.atHand {
		c /= 1e4
	}
	return max(1, int64(math.Round(c)))
}

// priceOf is the area of a hide as sold, in square millimetres, by its price.
func priceOf(s material.Skin) float64 {
	f := float64(s.PriceFactor)
	if f == 0 {
		f = 1
	}
	return float64(float64(s.SoldArea()) / float64(unit.SquareMillimetre) * f) // sums are not fused with it
}
