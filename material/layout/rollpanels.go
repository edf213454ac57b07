package layout

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// RollPanel is a panel of any shape to cut from a roll. The zero value is
// refused.
type RollPanel struct {
	Name    string        `json:"name,omitempty"`
	Outline shape.Outline `json:"outline"` // the cut line, Y up the roll
	Count   int           `json:"count"`   // at least 1
	Turn    Turn          `json:"turn,omitzero"`
	// Paired cuts every second copy mirrored left for right: copies 1, 3, 5 ….
	Paired bool `json:"paired,omitempty"`
	// Unmatched says that the panel need not lie on the repeat.
	Unmatched bool `json:"unmatched,omitempty"`
	// Match is the point of the panel, in the axes of its outline, that must
	// lie on a motif; the zero value is the origin of those axes. Of a mirrored
	// copy it is the mirrored point.
	Match shape.Point `json:"match,omitzero"`
}

// RollPlacement is one panel on the roll: its outline mirrored left for right
// if Mirrored, turned about the origin of its axes by Degrees, then moved by X
// across the usable width and Y along the roll.
type RollPlacement struct {
	Panel    int         `json:"panel"`   // index into the panels of the plan
	Copy     int         `json:"copy"`    // from 0
	Degrees  int         `json:"degrees"` // turned anti-clockwise: 0, 90, 180 or 270
	Mirrored bool        `json:"mirrored,omitempty"`
	X        unit.Length `json:"x"`
	Y        unit.Length `json:"y"`
	// Outline is the panel as it lies: a polygon that holds the true outline and
	// is larger by the tolerance of the plan at most, inside the box of the true
	// outline.
	Outline []shape.Point `json:"outline"`
}

// RollPlan is a plan with panels of any shape placed on a roll.
type RollPlan struct {
	Roll       material.Roll   `json:"roll"`
	Panels     []RollPanel     `json:"panels"`
	Gap        unit.Length     `json:"gap,omitzero"`
	Tolerance  unit.Length     `json:"tolerance"` // of curved outlines
	Placements []RollPlacement `json:"placements"`
	Need       unit.Length     `json:"need"`  // the length the placements take
	Order      unit.Length     `json:"order"` // to buy: Need with shrinkage, rounded up to the increment
	// Bound is a length that no plan of these panels can beat: their area over
	// the usable width, or the longest panel.
	Bound unit.Length `json:"bound"`
	// Boxes is the length a layout of the boxes around the panels takes, by
	// Boxes at a like effort; Need is never more. Zero where boxes cannot be
	// laid, since a match point lies far outside its panel.
	Boxes  unit.Length `json:"boxes"`
	Method string      `json:"method"` // how the plan was found
	Kind   cite.Kind   `json:"kind"`   // always cite.Layout
	// Stopped says that the search was cancelled: the plan is right, but more
	// effort might have made it shorter.
	Stopped bool `json:"stopped,omitempty"`
}

const (
	nestedMethod = "outlines nested"
	boxMethod    = "boxes around the outlines"
)

// NestRoll lays panels of any shape on a roll and keeps the length short:
// panels keep the grain, are not turned by 180 degrees on goods with a nap, lie
// with their match points on motifs of patterned goods, which may drop from
// column to column, and keep off flaws, at least the gap away.
//
// It also lays out the boxes around the panels, and keeps that plan where it is
// the shorter one, or the only one, for jobs beyond the engine: more than 100
// flaws, or outlines and turns too many for its tables on goods with a repeat
// or flaws. The plan is checked by RollPlan.Verify before it is returned. When
// the context ends, the best plan so far is returned with Stopped set. Errors
// are those of Boxes, and shape.ErrCrossing or shape.ErrTooComplex for
// outlines.
func NestRoll(ctx context.Context, roll material.Roll, panels []RollPanel, o NestOptions) (RollPlan, error) {
	o, err := o.checked()
	if err != nil {
		return RollPlan{}, err
	}
	t, err := newRollTable(roll, panels, o.Tolerance, o.Gap)
	if err != nil {
		return RollPlan{}, err
	}
	p := RollPlan{Roll: roll, Panels: slices.Clone(panels), Gap: o.Gap, Tolerance: o.Tolerance, Kind: cite.Layout}
	if p.Bound, err = t.bound(); err != nil {
		return RollPlan{}, err
	}
	boxes, errBoxes := t.boxes(ctx, o)
	if errBoxes != nil && !errors.Is(errBoxes, errFarMatch) {
		return RollPlan{}, errBoxes
	}
	if errBoxes == nil {
		p.Boxes, p.Need, p.Method, p.Stopped = boxes.Need, boxes.Need, boxMethod, boxes.Stopped
		p.Placements = t.fromBoxes(boxes)
	}
	if err := p.nest(ctx, t, o); err != nil {
		return RollPlan{}, err
	}
	if p.Need == 0 {
		return RollPlan{}, errBoxes
	}
	slices.SortStableFunc(p.Placements, func(a, b RollPlacement) int {
		return cmp.Or(cmp.Compare(a.Panel, b.Panel), cmp.Compare(a.Copy, b.Copy))
	})
	if p.Order, err = roll.Order(p.Need); err != nil {
		return RollPlan{}, err
	}
	return p, p.verify(t)
}

// nest lays the outlines themselves and keeps that plan unless it is longer.
func (p *RollPlan) nest(ctx context.Context, t *rollTable, o NestOptions) error {
	lay, err := nest.Strip(ctx, t.job(o, p.Boxes))
	switch need := unit.Length(lay.Length * t.step); {
	case err != nil && errors.Is(err, nest.ErrRange):
		p.Method += ": the job is beyond the nesting engine"
	case err != nil:
		return nestError(err)
	case p.Need == 0 || need <= p.Need:
		p.Placements, p.Need, p.Method, p.Stopped = t.fromStrip(lay), need, nestedMethod, lay.Stopped
	default:
		p.Stopped = p.Stopped || lay.Stopped
	}
	return nil
}

// errFarMatch says that boxes cannot be laid.
var errFarMatch = fmt.Errorf("match point far outside its panel: %w", ErrNoLayout)

// rollTable is a job on a roll in the steps of the engine, whose x axis runs
// along the roll and whose y axis runs across it from right to left.
type rollTable struct {
	roll   material.Roll
	panels []RollPanel
	step   int64
	width  int64 // usable, in steps
	gap    int64
	pieces []rollPiece
	reach  float64 // nanometres; no plan need be longer
}

type rollPiece struct {
	panel    int
	count    int
	first    int
	stepping int
	mirrored bool
	ring     geom.Ring // in the engine's axes
	angles   []int64
	anchor   geom.Point
	phaseX   nest.Phase
	phaseY   nest.Phase
	falls    []int64
	unmatch  bool
}

func (c rollPiece) copyAt(i int) int { return c.first + i*c.stepping }

// rollSteps are the grids a plan on a roll may use, the finest first: whole
// micrometres and 64ths of an inch, micrometres, 64ths of an inch.
var rollSteps = []int64{nestStep, 1000, 3175, 25_400}

func newRollTable(roll material.Roll, panels []RollPanel, tol, gap unit.Length) (*rollTable, error) {
	if err := roll.Check(); err != nil {
		return nil, err
	}
	if len(panels) == 0 {
		return nil, check.Required("panels", "at least one panel")
	}
	t := &rollTable{roll: roll, panels: panels}
	total, row, longest := 0, 0.0, 0.0
	for i, p := range panels {
		at := fmt.Sprintf("panels[%d]", i)
		if err := p.check(); err != nil {
			return nil, unit.InField(at, err)
		}
		if total += p.Count; total > MostPanels {
			return nil, check.Refuse(at+".count", fmt.Sprint(p.Count), ErrTooMany, fmt.Sprintf("at most %d panels in all", MostPanels))
		}
		w, h := p.Outline.Size()
		long := float64(max(w, h) + gap + 2*roll.Repeat)
		row, longest = row+float64(p.Count)*long, max(longest, long)
	}
	// Each flaw pushes what lies behind it on by its own length and less than
	// the longest panel.
	for _, f := range roll.Flaws {
		row += float64(f.Length) + longest
	}
	t.reach = row
	for _, s := range rollSteps {
		if int64(roll.Repeat)%s == 0 && int64(roll.Across)%s == 0 && (t.step == 0 || row/float64(t.step) >= 1<<29) {
			t.step = s
		}
	}
	if t.step == 0 {
		return nil, check.Refuse("roll.repeat", fmt.Sprintf("%v by %v", roll.Repeat, roll.Across), unit.ErrRange, "repeats in whole 64ths of an inch or micrometres")
	}
	t.width, t.gap = int64(roll.Usable())/t.step, (int64(gap)+t.step-1)/t.step
	for i, p := range panels {
		if err := t.add(i, p, tol); err != nil {
			return nil, unit.InField(fmt.Sprintf("panels[%d]", i), err)
		}
	}
	return t, nil
}

func (p RollPanel) check() error {
	if p.Outline.IsZero() {
		return check.Required("outline", "an outline")
	}
	if err := check.Count("count", p.Count, 1, MostPanels); err != nil {
		return err
	}
	if err := enum.Check(p.Turn, "turn", turnNames); err != nil {
		return err
	}
	for _, c := range []struct {
		field string
		v     unit.Length
	}{{"match.x", p.Match.X}, {"match.y", p.Match.Y}} {
		if err := check.Between(c.field, c.v, -50*unit.Metre, 50*unit.Metre); err != nil {
			return err
		}
	}
	return nil
}

func (p RollPanel) matched(r material.Roll) bool { return r.Patterned() && !p.Unmatched }

// angles gives the turns a panel may take on a roll.
func (p RollPanel) angles(r material.Roll) []int64 {
	const quarter = 90_000_000
	switch {
	case p.Turn == Railroad && !r.Nap && !r.Patterned():
		return []int64{0, quarter, 2 * quarter, 3 * quarter}
	case p.Turn != KeepGrain && !r.Nap:
		return []int64{0, 2 * quarter}
	}
	return []int64{0}
}

func (t *rollTable) add(i int, p RollPanel, tol unit.Length) error {
	one := func(mirrored bool, count, first, stepping int) error {
		o, match := p.Outline, p.Match
		if mirrored {
			o, match.X = o.Mirrored(), -match.X
		}
		ring, err := ringOf(o, 1, 0, tol, t.step, true)
		if err != nil {
			return unit.InField("outline", check.Inner(err, "outline"))
		}
		c := rollPiece{panel: i, count: count, first: first, stepping: stepping, mirrored: mirrored, angles: p.angles(t.roll), unmatch: !p.matched(t.roll)}
		for _, q := range ring {
			c.ring = append(c.ring, geom.Point{X: q.Y, Y: -q.X})
		}
		if !c.unmatch {
			if err := t.match(&c, match); err != nil {
				return err
			}
		}
		t.pieces = append(t.pieces, c)
		return nil
	}
	if !p.Paired {
		return one(false, p.Count, 0, 1)
	}
	if err := one(false, (p.Count+1)/2, 0, 2); err != nil || p.Count < 2 {
		return err
	}
	return one(true, p.Count/2, 1, 2)
}

// match ties a piece to the repeat: motifs lie at whole repeats from the left
// edge of the usable width and the end of the roll.
func (t *rollTable) match(c *rollPiece, m shape.Point) error {
	if int64(m.X)%t.step != 0 || int64(m.Y)%t.step != 0 {
		return check.Refuse("match", m.String(), unit.ErrRange, "a point in whole 64ths of an inch or micrometres")
	}
	c.anchor = geom.Point{X: int64(m.Y) / t.step, Y: -int64(m.X) / t.step}
	if r := int64(t.roll.Repeat) / t.step; r > 0 {
		c.phaseX = nest.Phase{Every: r}
	}
	if r := int64(t.roll.Across) / t.step; r > 0 {
		c.phaseY = nest.Phase{Every: r, At: t.width % r}
		// The engine counts columns from the right.
		for k := range int64(t.roll.Drop.Den) {
			c.falls = append(c.falls, int64(t.roll.Fall(int(t.width/r-k)))/t.step)
		}
	}
	return nil
}

// bound gives area over usable width, or the longest panel as it may lie.
func (t *rollTable) bound() (unit.Length, error) {
	var sum unit.Area
	var longest unit.Length
	for i, p := range t.panels {
		a, err := p.Outline.Area().Times(p.Count)
		if err != nil {
			return 0, unit.InField(fmt.Sprintf("panels[%d]", i), err)
		}
		if sum, err = sum.Plus(a); err != nil {
			return 0, err
		}
		w, h := p.Outline.Size()
		if len(p.angles(t.roll)) == 4 && h > w && h <= t.roll.Usable() || w > t.roll.Usable() {
			h = w // it may lie, or has to lie, across
		}
		longest = max(longest, h)
	}
	l, err := sum.Over(t.roll.Usable(), unit.Down)
	return max(l, longest), err
}

// job is the work of the engine. A plan longer than most, if that is not zero,
// is of no use: what lies behind it is left out.
func (t *rollTable) job(o NestOptions, most unit.Length) nest.StripJob {
	job := nest.StripJob{Width: t.width, Options: o.engine(t.step)}
	for _, f := range t.roll.Flaws {
		if (most == 0 || f.Y < most) && float64(f.Y) < t.reach {
			r := t.flaw(f)
			job.Flaws = append(job.Flaws, geom.Box{Min: r[0], Max: r[2]})
		}
	}
	for _, c := range t.pieces {
		as := make([]nest.Angle, len(c.angles))
		for i, a := range c.angles {
			as[i] = nest.Angle(a)
		}
		job.Pieces = append(job.Pieces, nest.Piece{ID: t.panels[c.panel].Name, Ring: c.ring, Count: c.count, Turn: nest.TurnSet(as...),
			Anchor: c.anchor, PhaseX: c.phaseX, PhaseY: c.phaseY, Falls: c.falls})
	}
	return job
}

// onRoll brings a ring of the engine back to the roll.
func (t *rollTable) onRoll(r geom.Ring) []shape.Point {
	out := make([]shape.Point, len(r))
	for i, q := range r {
		out[i] = shape.Point{X: unit.Length((t.width - q.Y) * t.step), Y: unit.Length(q.X * t.step)}
	}
	return out
}

func (t *rollTable) fromStrip(lay nest.StripLayout) []RollPlacement {
	out := make([]RollPlacement, len(lay.Placements))
	for i, q := range lay.Placements {
		c := t.pieces[q.Piece]
		out[i] = RollPlacement{Panel: c.panel, Copy: c.copyAt(q.Copy), Degrees: int(q.Angle / nest.Degree), Mirrored: c.mirrored,
			X: unit.Length((t.width - q.At.Y) * t.step), Y: unit.Length(q.At.X * t.step), Outline: t.onRoll(q.Ring)}
	}
	return out
}

// boxes lays out the boxes around the pieces.
func (t *rollTable) boxes(ctx context.Context, o NestOptions) (BoxPlan, error) {
	var pieces []Box
	for _, c := range t.pieces {
		b := c.ring.Bounds()
		p := Box{Name: t.panels[c.panel].Name, Width: unit.Length(b.Height() * t.step), Length: unit.Length(b.Width() * t.step), Count: c.count,
			Turn: t.panels[c.panel].Turn, Unmatched: c.unmatch}
		if !c.unmatch {
			p.MotifX, p.MotifY = t.inBox(unit.Length((b.Max.Y-c.anchor.Y)*t.step), unit.Length((c.anchor.X-b.Min.X)*t.step), p)
			if p.MotifX > p.Width || p.MotifY > p.Length {
				return BoxPlan{}, errFarMatch
			}
		}
		pieces = append(pieces, p)
	}
	l, err := Boxes(ctx, t.roll, pieces, BoxOptions{Effort: max(o.Effort/10, 0.0001), Seed: o.Seed, Gap: unit.Length(t.gap * t.step)})
	if err != nil {
		return BoxPlan{}, t.panelField(err)
	}
	// Boxes may lie off the grid of plans. Their sizes are on it, so all of them
	// can move down to it.
	l.Need -= l.Need % unit.Length(t.step)
	return l, nil
}

// inBox brings a match point into its box by whole repeats where it can; a
// repeat larger than the box may leave it outside. From column to column the
// point moves by the drop.
func (t *rollTable) inBox(x, y unit.Length, p Box) (unit.Length, unit.Length) {
	across, repeat := t.roll.Across, t.roll.Repeat
	switch {
	case across == 0:
		x = min(max(x, 0), p.Width)
	case x < 0 || x > p.Width:
		in := (x%across + across) % across
		y += t.roll.Fall(int((in - x) / across))
		x = in
	}
	switch {
	case repeat == 0:
		y = min(max(y, 0), p.Length)
	case y < 0 || y > p.Length:
		y = (y%repeat + repeat) % repeat
	}
	return x, y
}

// panelField renames the pieces of a box layout to panels: with pairs there are
// more pieces than panels.
func (t *rollTable) panelField(err error) error {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return err
	}
	name, i, indexed, rest := in.Field.Head()
	if name != "pieces" || !indexed || i >= len(t.pieces) || rest == "" {
		return err
	}
	c := *in
	c.Field = unit.Path("panels").At(t.pieces[i].panel).Dot(rest)
	return &c
}

// fromBoxes puts each outline into its box.
func (t *rollTable) fromBoxes(l BoxPlan) []RollPlacement {
	out := make([]RollPlacement, len(l.Placements))
	for i, q := range l.Placements {
		c := t.pieces[q.Piece]
		ring := turnedQuarters(c.ring, q.Degrees/90)
		b := ring.Bounds()
		// Left edge on the roll is the largest y of the engine.
		at := geom.Point{X: int64(q.Y)/t.step - b.Min.X, Y: t.width - int64(q.X)/t.step - b.Max.Y}
		for k := range ring {
			ring[k] = geom.Point{X: ring[k].X + at.X, Y: ring[k].Y + at.Y}
		}
		out[i] = RollPlacement{Panel: c.panel, Copy: c.copyAt(q.Copy), Degrees: q.Degrees, Mirrored: c.mirrored,
			X: unit.Length((t.width - at.Y) * t.step), Y: unit.Length(at.X * t.step), Outline: t.onRoll(ring)}
	}
	return out
}

// turnedQuarters gives a copy turned anticlockwise about the origin.
func turnedQuarters(r geom.Ring, quarters int) geom.Ring {
	out := slices.Clone(r)
	for range quarters {
		for i, q := range out {
			out[i] = geom.Point{X: -q.Y, Y: q.X}
		}
	}
	return out
}

// Saved gives the length that nesting saves against the boxes around the
// panels.
func (p RollPlan) Saved() unit.Length { return max(p.Boxes-p.Need, 0) }

// GapShare gives the gap of Need over Bound as a share of Bound: how much
// shorter the best plan could be at most.
func (p RollPlan) GapShare() unit.Ratio { return BoxPlan{Need: p.Need, Bound: p.Bound}.GapShare() }

// Placed gives the area of the panels.
func (p RollPlan) Placed() (unit.Area, error) {
	var sum unit.Area
	for _, q := range p.Panels {
		a, err := q.Outline.Area().Times(q.Count)
		if err != nil {
			return 0, err
		}
		if sum, err = sum.Plus(a); err != nil {
			return 0, err
		}
	}
	return sum, nil
}

// Density gives the share of the needed length, over the usable width, that the
// panels take. Zero for an empty plan.
func (p RollPlan) Density() (unit.Ratio, error) { return p.shareOf(p.Need, p.Roll.Usable()) }

// Yield gives the share of the ordered goods, over their full width, that the
// panels take. Zero for an empty plan.
func (p RollPlan) Yield() (unit.Ratio, error) { return p.shareOf(p.Order, p.Roll.Width) }

func (p RollPlan) shareOf(l, w unit.Length) (unit.Ratio, error) {
	used, err := p.Placed()
	if err != nil || l == 0 {
		return 0, err
	}
	all, err := l.By(w)
	if err != nil {
		return 0, err
	}
	return used.Per(all)
}

// Verify checks the plan by a verifier that shares no code with the engine:
// every copy of every panel stands once, inside the usable width and the needed
// length, with its shape and hand, turned only where it may be, on the repeat,
// off the flaws, overlapping no other and no closer to it than the gap. Curved
// outlines are compared within the tolerance, on the safe side. An error wraps
// ErrBadLayout, or is one of the input.
func (p RollPlan) Verify() error {
	o, err := NestOptions{Gap: p.Gap, Tolerance: p.Tolerance}.checked()
	if err != nil {
		return err
	}
	t, err := newRollTable(p.Roll, p.Panels, o.Tolerance, o.Gap)
	if err != nil {
		return err
	}
	return p.verify(t)
}

func (p RollPlan) verify(t *rollTable) error {
	order, err := p.Roll.Order(p.Need)
	if err != nil {
		return err
	}
	switch {
	case p.Order != order:
		return badPlan("the order is %v, not %v", p.Order, order)
	case p.Need < p.Bound:
		return badPlan("length %v under its bound %v", p.Need, p.Bound)
	case p.Boxes != 0 && p.Boxes < p.Need:
		return badPlan("length %v over that of the boxes, %v", p.Need, p.Boxes)
	case int64(p.Need)%t.step != 0:
		return badPlan("length %v off the grid of plans", p.Need)
	}
	var pieces []verify.Piece
	at := map[SkinCopy][2]int{} // read by key only
	for i, c := range t.pieces {
		v := verify.Piece{Ring: c.ring, Count: c.count, Angles: c.angles, Anchor: c.anchor}
		if t.roll.Drop == (material.Drop{}) {
			v.PhaseX, v.PhaseY = verify.Phase(c.phaseX), verify.Phase(c.phaseY)
		}
		pieces = append(pieces, v)
		for k := range c.count {
			at[SkinCopy{c.panel, c.copyAt(k)}] = [2]int{i, k}
		}
	}
	long := int64(p.Need) / t.step
	goods := verify.Container{Outer: geom.Ring{{}, {X: long}, {X: long, Y: t.width}, {Y: t.width}}}
	for _, f := range p.Roll.Flaws {
		goods.Holes = append(goods.Holes, t.flaw(f))
	}
	var lay []verify.Placement
	for i, q := range p.Placements {
		where, ok := at[SkinCopy{q.Panel, q.Copy}]
		if !ok {
			return badPlan("placement %d: no such panel or copy", i)
		}
		if q.Mirrored != t.pieces[where[0]].mirrored {
			return badPlan("placement %d: the wrong hand of a pair", i)
		}
		pl := verify.Placement{Piece: where[0], Copy: where[1], Angle: int64(q.Degrees) * int64(nest.Degree),
			At: geom.Point{X: int64(q.Y) / t.step, Y: t.width - int64(q.X)/t.step}}
		for _, c := range append(slices.Clone(q.Outline), shape.Point{X: q.X, Y: q.Y}) {
			if int64(c.X)%t.step != 0 || int64(c.Y)%t.step != 0 {
				return badPlan("placement %d: off the grid of plans", i)
			}
			pl.Ring = append(pl.Ring, geom.Point{X: int64(c.Y) / t.step, Y: t.width - int64(c.X)/t.step})
		}
		pl.Ring = pl.Ring[:len(pl.Ring)-1]
		if t.roll.Drop != (material.Drop{}) && !t.onDrop(t.pieces[where[0]], q) {
			return badPlan("placement %d: off the repeat", i)
		}
		lay = append(lay, pl)
	}
	for _, f := range verify.Outlines(pieces, []verify.Container{goods}, t.gap, true, lay) {
		return badPlan("%v", f)
	}
	return nil
}

// flaw gives a flaw to the verifier, outwards to the next steps.
func (t *rollTable) flaw(f material.Flaw) geom.Ring {
	w := f.Across(t.roll)
	up := func(l unit.Length) int64 { return (int64(l) + t.step - 1) / t.step }
	x0, x1 := int64(f.Y)/t.step, up(f.Y+f.Length)
	y0, y1 := t.width-up(f.X+w), t.width-int64(f.X)/t.step
	return geom.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// onDrop tells whether the match point of a placement lies on a motif of goods
// whose pattern drops. Falls off the grid of plans are met to the next step.
func (t *rollTable) onDrop(c rollPiece, q RollPlacement) bool {
	if c.unmatch {
		return true
	}
	m := geom.Ring{{X: c.anchor.X, Y: c.anchor.Y}}
	m = turnedQuarters(m, ((q.Degrees/90)%4+4)%4)
	x, y := int64(q.X)-m[0].Y*t.step, int64(q.Y)+m[0].X*t.step
	px, py := int64(t.roll.Across), int64(t.roll.Repeat)
	if x%px != 0 {
		return false
	}
	off := ((y-int64(t.roll.Fall(int(x/px))))%py + py) % py
	near := int64(0)
	if py*int64(t.roll.Drop.Num)%(int64(t.roll.Drop.Den)*t.step) != 0 {
		near = t.step
	}
	return min(off, py-off) <= near
}
