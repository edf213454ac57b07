package layout

import (
	"context"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// NestOptions steer NestRoll and NestSkins. The zero value is useful.
type NestOptions struct {
	// Effort is the work to spend, counted in steps, never in time, so that
	// the same effort gives the same plan on every machine: 1 is about a
	// second of two cores. Zero takes 1. From 0.02 to 10 000.
	Effort unit.Ratio
	// Seed chooses the random numbers of the search.
	Seed uint64
	// Gap is kept between panels, for the knife; zero for none, at most 100 mm.
	Gap unit.Length
	// Tolerance is how far a curved outline may be drawn outside its true
	// curve (inside, for the border of a skin), so that true curves never
	// overlap; the point of a sharp corner up to four times. Zero takes
	// DefaultNestTolerance; from 0.1 mm to 5 mm. Straight outlines are taken
	// as they are, or a micrometre larger when they may be turned freely.
	Tolerance unit.Length
	// OffcutShort and OffcutLong are the sides of the least rectangle worth
	// keeping; zero takes 6 in. From 1 in.
	OffcutShort unit.Length
	OffcutLong  unit.Length
	// Progress is called now and then with the state of the search; nil is
	// allowed.
	Progress func(NestProgress)
}

// DefaultNestTolerance is the tolerance of curved outlines in a plan where none
// is given.
const DefaultNestTolerance = unit.Millimetre / 2

// NestProgress is the state of a running search.
type NestProgress struct {
	Done   unit.Ratio  `json:"done"`           // share of the effort spent
	Placed int         `json:"placed"`         // panels that have a place
	Skins  int         `json:"skins,omitzero"` // skins in use; zero on a roll
	Need   unit.Length `json:"need,omitzero"`  // best length so far; zero on skins
}

// engineEffort is the engine's effort for an Effort of 1.
const engineEffort = nest.DefaultEffort

func (o NestOptions) checked() (NestOptions, error) {
	if o.Effort == 0 {
		o.Effort = 1
	}
	if err := check.Ratio("effort", o.Effort, 0.02, 10_000); err != nil {
		return o, err
	}
	if err := check.Length("gap", o.Gap, 0, 100*unit.Millimetre); err != nil {
		return o, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = DefaultNestTolerance
	}
	if err := check.Length("tolerance", o.Tolerance, unit.Millimetre/10, 5*unit.Millimetre); err != nil {
		return o, err
	}
	for _, s := range []struct {
		field string
		l     *unit.Length
	}{{"offcut_short", &o.OffcutShort}, {"offcut_long", &o.OffcutLong}} {
		if *s.l == 0 {
			*s.l = 6 * unit.Inch
		}
		if err := check.Length(s.field, *s.l, unit.Inch, 10*unit.Metre); err != nil {
			return o, err
		}
	}
	return o, nil
}

func (o NestOptions) engine(step int64) nest.Options {
	e := nest.Options{Seed: o.Seed, Effort: max(1, int(math.Round(float64(o.Effort)*engineEffort))),
		Gap: (int64(o.Gap) + step - 1) / step}
	if o.Progress != nil {
		e.Progress = func(p nest.Progress) {
			o.Progress(NestProgress{Done: unit.Ratio(float64(p.Work) / float64(max(p.Budget, 1))), Placed: p.Placed,
				Skins: p.Hides, Need: unit.Length(p.Length * step)})
		}
	}
	return e
}

// MostSkins is the largest number of skins in one plan.
const MostSkins = 200

// NominalSkins gives n equal skins of a usual shape, to plan with before the
// skins are there. Errors are those of NaturalShape; n is from 1 to MostSkins.
func NominalSkins(kind material.SkinKind, area unit.Area, n int) ([]material.Skin, error) {
	if err := check.Count("skins", n, 1, MostSkins); err != nil {
		return nil, err
	}
	if _, err := material.NaturalShape(kind, area); err != nil {
		return nil, err
	}
	out := make([]material.Skin, n)
	for i := range out {
		out[i] = material.Skin{ID: fmt.Sprintf("%s %d", kind, i+1), Kind: kind, Area: area}
	}
	return out, nil
}

// NestSkins lays panels of any shape on skins: on as few skins as possible, then on
// as little area (or price), then with the waste in one place. Every panel
// keeps off holes, off marks worse than its Worst, off grades poorer than its
// Least, in its directions and to its wished stretch.
//
// Skins are used as given, each once; panels that find no room are listed as
// unplaced, which is no error. The plan is checked by SkinPlan.Verify before it
// is returned. When the context ends, the best plan so far is returned with
// Stopped set. Errors name the field and wrap unit.ErrRange, unit.ErrRequired,
// unit.ErrUnknown, unit.ErrForgottenUnit, unit.ErrNotFinite, ErrTooMany,
// shape.ErrCrossing or shape.ErrTooComplex.
//
// Where the demands of the panels cannot be brought into one order, from the
// most to the least demanding (one refuses marks but takes a poor grade,
// another the reverse), some panels are kept off ground that they could use;
// Narrowed is set then. A panel with a stretch wish is likewise tried in one
// set of directions, that of the largest region.
func NestSkins(ctx context.Context, skins []material.Skin, panels []SkinPanel, o NestOptions) (SkinPlan, error) {
	o, err := o.checked()
	if err != nil {
		return SkinPlan{}, err
	}
	t, err := newTable(skins, panels, o)
	if err != nil {
		return SkinPlan{}, err
	}
	job, narrowed := t.job(o)
	lay, err := nest.Hides(ctx, job)
	if err != nil {
		return SkinPlan{}, nestError(err)
	}
	p := SkinPlan{Skins: slices.Clone(skins), Panels: slices.Clone(panels), Gap: o.Gap, Tolerance: o.Tolerance, Used: lay.Used,
		Kind: cite.Layout, Stopped: lay.Stopped, Narrowed: narrowed}
	for _, pl := range lay.Placements {
		q := t.pieces[pl.Piece]
		p.Placements = append(p.Placements, SkinPlacement{Panel: q.panel, Copy: q.copyAt(pl.Copy), Skin: pl.Hide,
			Angle: unit.Angle(pl.Angle.Degrees()), Mirrored: pl.Mirrored, X: unit.Length(pl.At.X * nestStep), Y: unit.Length(pl.At.Y * nestStep),
			Outline: pointsOf(pl.Ring, nestStep)})
	}
	for _, pl := range lay.Unplaced {
		q := t.pieces[pl.Piece]
		p.Unplaced = append(p.Unplaced, SkinCopy{Panel: q.panel, Copy: q.copyAt(pl.Copy)})
	}
	p.sort()
	if err := t.measure(&p, lay); err != nil {
		return SkinPlan{}, err
	}
	p.Offcuts = p.offcuts(t, o.OffcutShort, o.OffcutLong)
	return p, p.verify(t)
}

// table is a job on skins in the steps of the engine.
type table struct {
	skins  []material.Skin
	panels []SkinPanel
	tol    unit.Length
	ground []ground
	pieces []cutPiece
}

// ground is a skin as the engine sees it.
type ground struct {
	outer   geom.Ring
	gross   unit.Area // inside the outline
	holes   []geom.Ring
	regions []region
}

// region is a part of a skin that some panels must keep off.
type region struct {
	ring geom.Ring
	what string
	// What it is: a grade, a mark or a direction of stretch.
	grade   material.Grade
	mark    material.Severity
	stretch *unit.Angle
}

// cutPiece is a panel, or the copies of one hand of a pair.
type cutPiece struct {
	panel    int
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

func newTable(skins []material.Skin, panels []SkinPanel, o NestOptions) (*table, error) {
	if len(skins) == 0 {
		return nil, check.Required("skins", "at least one skin")
	}
	if len(panels) == 0 {
		return nil, check.Required("panels", "at least one panel")
	}
	if err := check.Count("skins", len(skins), 1, MostSkins); err != nil {
		return nil, err
	}
	t := &table{skins: skins, panels: panels, tol: o.Tolerance}
	if t.tol == 0 {
		t.tol = DefaultNestTolerance
	}
	for i, s := range skins {
		g, err := newGround(s, t.tol)
		if err != nil {
			return nil, unit.InField(fmt.Sprintf("skins[%d]", i), err)
		}
		t.ground = append(t.ground, g)
	}
	total := 0
	for i, p := range panels {
		at := fmt.Sprintf("panels[%d]", i)
		if err := p.check(); err != nil {
			return nil, unit.InField(at, err)
		}
		if total += p.Count; total > MostPanels {
			return nil, check.Refuse(at+".count", fmt.Sprint(p.Count), ErrTooMany, fmt.Sprintf("at most %d panels in all", MostPanels))
		}
		if err := t.addPanel(i, p); err != nil {
			return nil, unit.InField(at, err)
		}
	}
	return t, nil
}

func (t *table) addPanel(i int, p SkinPanel) error {
	hand := p.Hand
	if w := p.Stretch; hand == EitherHand && w != nil && math.Mod(float64(w.Axis), 90) != 0 {
		hand = AsDrawn // the axis of the mirrored panel is another one
	}
	add := func(c cutPiece) error {
		c.panel = i
		c.turn = t.turnOf(p, c.mirror == nest.AlwaysMirrored)
		ring, err := ringOf(p.Outline, 1, 0, t.tol, nestStep, c.turn.steady())
		if err != nil {
			return unit.InField("outline", check.Inner(err, "outline"))
		}
		c.ring = ring
		t.pieces = append(t.pieces, c)
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

// newGround checks a skin and brings it to the engine's steps.
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
func (t *table) allows(c cutPiece, r region) bool {
	p := t.panels[c.panel]
	if r.stretch != nil {
		return p.Stretch == nil || c.meets(*p.Stretch, *r.stretch)
	}
	return r.grade <= p.Least && r.mark <= p.Worst
}

// job builds the engine's job. Demands are ranked from the strictest to the
// laxest; a region takes every rank from which on all pieces may lie on it.
// narrowed says that this keeps some piece off ground that it might use.
func (t *table) job(o NestOptions) (job nest.HideJob, narrowed bool) {
	job.Options = o.engine(nestStep)
	var all []region
	for _, g := range t.ground {
		all = append(all, g.regions...)
	}
	// Pieces with the same answers share a rank.
	accept := make([][]bool, len(t.pieces))
	var ranks [][]bool
	for i, c := range t.pieces {
		accept[i] = make([]bool, len(all))
		for k, r := range all {
			accept[i][k] = t.allows(c, r)
		}
		if !slices.ContainsFunc(ranks, func(a []bool) bool { return slices.Equal(a, accept[i]) }) {
			ranks = append(ranks, accept[i])
		}
	}
	taken := func(a []bool) (n int) {
		for _, ok := range a {
			if ok {
				n++
			}
		}
		return n
	}
	slices.SortStableFunc(ranks, func(a, b []bool) int { return taken(a) - taken(b) })
	from := make([]int, len(all)) // the rank from which on a region is open
	for k := range all {
		from[k] = len(ranks)
		for r := len(ranks) - 1; r >= 0 && ranks[r][k]; r-- {
			from[k] = r
		}
		for r := range from[k] {
			narrowed = narrowed || ranks[r][k]
		}
	}
	for i, c := range t.pieces {
		rank := slices.IndexFunc(ranks, func(a []bool) bool { return slices.Equal(a, accept[i]) })
		job.Pieces = append(job.Pieces, nest.Piece{ID: t.panels[c.panel].Name, Ring: c.ring, Count: c.count, Turn: c.turn.turn(), Mirror: c.mirror,
			Demand: nest.AtLeast(-rank)})
	}
	priced := slices.ContainsFunc(t.skins, func(s material.Skin) bool { return s.PriceFactor != 0 })
	k := 0
	for i, g := range t.ground {
		h := nest.Hide{ID: t.skins[i].ID, Outer: g.outer, Holes: g.holes}
		for _, r := range g.regions {
			if from[k] > 0 { // open to all: no zone
				h.Zones = append(h.Zones, nest.Zone{Quality: -from[k], Ring: r.ring})
			}
			k++
		}
		if priced {
			f := t.skins[i].PriceFactor
			if f == 0 {
				f = 1
			}
			h.Cost = int64(math.Round(float64(t.skins[i].SoldArea()) / float64(unit.SquareMillimetre) * float64(f)))
		}
		job.Hides = append(job.Hides, h)
	}
	return job, narrowed
}
