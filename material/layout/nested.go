package layout

import (
	"context"
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// rollTable is a job on a roll in the steps of the nesting engine, whose x axis
// runs along the roll and whose y axis runs across it from right to left.
type rollTable struct {
	job    Job // upright
	roll   material.Roll
	step   int64
	width  int64 // usable, in steps
	gap    int64
	pieces []rollPiece
	cuts   map[int][]unit.Length // joins of each copy of a piece that is joined
	motifs []shape.Point         // where a motif lies, by common number
	spot   map[Copy]int          // which of its points lies on a motif, the first where none is noted; read by key only
	reach  float64               // nanometres; no plan need be longer
}

// rollPiece is a piece, the copies of one hand of a pair, or one segment of a
// joined piece, with one point on the motifs. That point is the origin of its
// ring.
type rollPiece struct {
	piece             int
	copies            []int
	segment, segments int
	mirrored          bool
	ring              geom.Ring   // in the engine's axes
	origin            shape.Point // of the outline's own axes, from the match point
	angles            []int64
	phaseX, phaseY    nest.Phase
	falls             []int64
}

// rollSteps are the grids a plan on a roll may use, the finest first: whole
// micrometres and 64ths of an inch, micrometres, 64ths of an inch.
var rollSteps = []int64{nestStep, 1000, 3175, 25_400}

// newRollTable brings an upright job to the steps of the engine, with the motifs
// where they are told to lie. Pieces that may be joined are cut where cuts say,
// and of several points that may lie on a motif the one that is noted does.
func newRollTable(j Job, cuts map[int][]unit.Length, tol unit.Length, motifs []shape.Point, spot map[Copy]int) (*rollTable, error) {
	t := &rollTable{job: j, roll: *j.Roll, cuts: cuts, motifs: motifs, spot: spot}
	row, longest := 0.0, 0.0
	for _, p := range j.Pieces {
		w, h := p.Outline.Size()
		long := float64(max(w, h) + j.Gap + 2*j.Roll.Repeat)
		row, longest = row+float64(float64(p.Count)*long), max(longest, long)
	}
	// Each flaw pushes what lies behind it on by its own length and less than
	// the longest piece.
	for _, f := range j.Roll.Flaws {
		row += float64(f.Length) + longest
	}
	t.reach = row
	for _, s := range rollSteps {
		even := int64(j.Roll.Repeat)%s == 0 && int64(j.Roll.Across)%s == 0
		for _, m := range motifs {
			even = even && int64(m.X)%s == 0 && int64(m.Y)%s == 0
		}
		if even && (t.step == 0 || row/float64(t.step) >= 1<<29) {
			t.step = s
		}
	}
	if t.step == 0 {
		return nil, check.Refuse("roll.repeat", fmt.Sprintf("%v by %v", j.Roll.Repeat, j.Roll.Across), unit.ErrRange, "repeats, and a first motif, in whole 64ths of an inch or micrometres")
	}
	t.width, t.gap = int64(j.Roll.Usable())/t.step, (int64(j.Gap)+t.step-1)/t.step
	for i, p := range j.Pieces {
		if err := t.add(i, p, tol); err != nil {
			return nil, unit.InField(check.At("pieces", i), err)
		}
	}
	return t, nil
}

// angles gives the turns a piece may take on a roll, in millionths of a degree.
func (p Piece) angles(r material.Roll) []int64 {
	const quarter = 90_000_000
	switch {
	case p.mayQuarter(r):
		return []int64{0, quarter, 2 * quarter, 3 * quarter}
	case p.Turn != KeepGrain && !r.Directed():
		return []int64{0, 2 * quarter}
	}
	return []int64{0}
}

func (t *rollTable) add(i int, p Piece, tol unit.Length) error {
	if cuts := t.cuts[i]; len(cuts) > 0 {
		return t.addSegments(i, p, cuts)
	}
	hands := [2][]int{}
	for c := range p.Count {
		hand := 0
		if p.Hand == Paired {
			hand = c % 2
		}
		hands[hand] = append(hands[hand], c)
	}
	for hand, copies := range hands {
		// The copies with the same point on a motif together, in the order of points.
		spots := t.spotsOf(p, hand == 1)
		for k, s := range spots {
			var own []int
			for _, c := range copies {
				if min(t.spot[Copy{i, c}], len(spots)-1) == k {
					own = append(own, c)
				}
			}
			if len(own) == 0 {
				continue
			}
			if err := t.addHand(i, p, hand == 1, own, s, tol); err != nil {
				return err
			}
		}
	}
	return nil
}

// spotsOf gives the points of a piece, or of its mirror image, that may lie on a
// motif of the columns that bind it: where none does, in any column.
func (t *rollTable) spotsOf(p Piece, mirrored bool) []Spot {
	if !p.matched(t.roll) {
		return []Spot{{}}
	}
	phase := p.Phase
	if mirrored {
		phase = phase.mirrored()
	}
	if p.Phase.across(t.roll) || t.roll.Drop == (material.Drop{}) {
		return phase.spots()
	}
	var out []Spot
	for _, s := range phase.spots() {
		for k := range t.roll.Drop.Den {
			q := s
			q.Point.Y -= t.rise(k) / unit.Length(t.step) * unit.Length(t.step) // as columns fall in the engine
			out = append(out, q)
		}
	}
	return out
}

// rise is how much further along the motifs of a column lie.
func (t *rollTable) rise(column int) unit.Length {
	return material.Motifs{Along: t.roll.Repeat, Drop: t.roll.Drop}.Rise(column)
}

// addHand adds copies of one hand of a piece that have one point on the motifs.
func (t *rollTable) addHand(i int, p Piece, mirrored bool, copies []int, s Spot, tol unit.Length) error {
	o := p.Outline
	if mirrored {
		o = o.Mirrored()
	}
	c := rollPiece{piece: i, copies: copies, segments: 1, mirrored: mirrored, origin: shape.Point{X: -s.Point.X, Y: -s.Point.Y}}
	for _, a := range p.angles(t.roll) {
		if s.holds(int(a / 1_000_000)) {
			c.angles = append(c.angles, a)
		}
	}
	if len(c.angles) == 0 {
		return nil // the check of the job: another point holds
	}
	o, err := o.Moved(c.origin)
	if err != nil {
		return unit.InField("phase.spots[0].point", err)
	}
	ring, err := ringOf(o, 1, 0, tol, t.step, true)
	if err != nil {
		return unit.InField("outline", check.Inner(err, "outline"))
	}
	c.ring = sideways(ring)
	t.match(&c, p)
	t.pieces = append(t.pieces, c)
	return nil
}

// addSegments adds the segments of a joined piece. Their rectangles lie on the
// grid, outwards.
func (t *rollTable) addSegments(i int, p Piece, cuts []unit.Length) error {
	sizes, err := segmentsOf(p, cuts)
	if err != nil {
		return err
	}
	for k, s := range sizes {
		up := func(l unit.Length) int64 { return (int64(l) + t.step - 1) / t.step }
		r := geom.Box{Max: geom.Point{X: up(s.X), Y: up(s.Y)}}
		t.pieces = append(t.pieces, rollPiece{piece: i, copies: counted(p.Count), segment: k, segments: len(sizes), angles: p.angles(t.roll), ring: sideways(r.Ring())})
	}
	return nil
}

func counted(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// sideways brings a ring from the roll to the axes of the engine.
func sideways(r geom.Ring) geom.Ring {
	out := make(geom.Ring, len(r))
	for i, q := range r {
		out[i] = geom.Point{X: q.Y, Y: -q.X}
	}
	return out
}

// match ties a piece to the motifs.
func (t *rollTable) match(c *rollPiece, p Piece) {
	if !p.matched(t.roll) {
		return
	}
	at := t.motifs[p.Phase.Common]
	if r := int64(t.roll.Repeat) / t.step; p.Phase.along(t.roll) {
		c.phaseX = nest.Phase{Every: r, At: mod(int64(at.Y)/t.step, r)}
	}
	if r := int64(t.roll.Across) / t.step; p.Phase.across(t.roll) {
		from := t.width - int64(at.X)/t.step
		c.phaseY = nest.Phase{Every: r, At: mod(from, r)}
		if p.Phase.along(t.roll) {
			// The engine counts columns from the right.
			column := (from - c.phaseY.At) / r
			for k := range int64(t.roll.Drop.Den) {
				c.falls = append(c.falls, int64(t.rise(int(column-k)))/t.step)
			}
		}
	}
}

func mod(v, m int64) int64 { return (v%m + m) % m }

// lay nests the outlines. Outlines too intricate for the engine are filled out
// first, those alone; where that is not enough, further ones. A plan longer than
// most, if that is not zero, is of no use: what lies behind it is left out. The engine
// begins with the places of a plan where they lie on its grid, clear of each other.
func (t *rollTable) lay(ctx context.Context, units []rollUnit, o Options, most unit.Length, start []Place) (nest.StripLayout, error) {
	var lay nest.StripLayout
	var err error
	for _, fill := range []int{1 << 30, mostDents, mostDents / 4, 0} {
		job := t.engine(units, o, most, fill)
		job.Start, _ = t.startOf(units, start)
		lay, err = nest.Strip(ctx, job)
		if !errors.Is(err, nest.ErrRange) {
			break
		}
	}
	return lay, err
}

// rollUnit is what the engine lays: a piece, or a cluster of them, whose members
// lie at fixed places from its match point.
type rollUnit struct {
	rollPiece
	index   int // of the piece, where there are no members
	members []member
}

type member struct {
	index, copy, quarters int
	at                    geom.Point
}

// singles gives every piece as a unit of its own.
func (t *rollTable) singles() []rollUnit {
	var out []rollUnit
	for i, c := range t.pieces {
		out = append(out, rollUnit{rollPiece: c, index: i})
	}
	return out
}

// engine is the job for the engine, with no outline of more inward corners than
// fill.
func (t *rollTable) engine(units []rollUnit, o Options, most unit.Length, fill int) nest.StripJob {
	job := nest.StripJob{Width: t.width, Options: o.nest(t.step, unit.Length(t.gap*t.step))}
	for _, f := range t.roll.Flaws {
		if (most == 0 || f.Y < most) && float64(f.Y) < t.reach {
			r := t.flaw(f)
			job.Flaws = append(job.Flaws, geom.Box{Min: r[0], Max: r[2]})
		}
	}
	for _, c := range units {
		as := make([]nest.Angle, len(c.angles))
		for i, a := range c.angles {
			as[i] = nest.Angle(a)
		}
		job.Pieces = append(job.Pieces, nest.Piece{ID: t.job.Pieces[c.piece].Name, Ring: filled(c.ring, fill), Count: max(1, len(c.copies)), Turn: nest.TurnSet(as...),
			PhaseX: c.phaseX, PhaseY: c.phaseY, Falls: c.falls})
	}
	return job
}

// place puts a copy of a piece with its match point at a point of the engine's
// axes, in steps.
func (t *rollTable) place(c rollPiece, copied, quarters int, at geom.Point) Place {
	ring := turnedQuarters(c.ring, quarters)
	q := Place{Piece: c.piece, Copy: c.copies[copied], Segment: c.segment, Segments: c.segments, Turned: unit.Angle(90 * quarters), Mirrored: c.mirrored}
	x, y := unit.Length((t.width-at.Y)*t.step), unit.Length(at.X*t.step)
	o := turnedPoint(c.origin, quarters)
	q.X, q.Y = x+o.X, y+o.Y
	q.Outline = make([]shape.Point, len(ring))
	for i, r := range ring {
		q.Outline[i] = shape.Point{X: x - unit.Length(r.Y*t.step), Y: y + unit.Length(r.X*t.step)}
	}
	return q
}

func turnedPoint(p shape.Point, quarters int) shape.Point {
	for range quarters {
		p.X, p.Y = -p.Y, p.X
	}
	return p
}

// places gives a layout of the engine as places on the roll.
func (t *rollTable) places(units []rollUnit, lay nest.StripLayout) []Place {
	var out []Place
	for _, q := range lay.Placements {
		u := units[q.Piece]
		if u.members == nil {
			out = append(out, t.place(t.pieces[u.index], q.Copy, int(q.Angle/(90*nest.Degree)), q.At))
		}
		for _, m := range u.members {
			out = append(out, t.place(t.pieces[m.index], m.copy, m.quarters, q.At.Add(m.at)))
		}
	}
	return out
}

// flaw gives a flaw to the engine and the verifier, outwards to the next steps.
func (t *rollTable) flaw(f material.Flaw) geom.Ring {
	w := f.Across(t.roll)
	up := func(l unit.Length) int64 { return (int64(l) + t.step - 1) / t.step }
	x0, x1 := int64(f.Y)/t.step, up(f.Y+f.Length)
	y0, y1 := t.width-up(f.X+w), t.width-int64(f.X)/t.step
	return geom.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// verifyNested checks a plan whose outlines were nested.
func (p Plan) verifyNested(t *rollTable) error {
	if int64(p.Need)%t.step != 0 {
		return badPlan("length %v off the grid of plans", p.Need)
	}
	type segment struct{ piece, copy, segment int }
	var pieces []verify.Piece
	of := map[segment][2]int{} // read by key only
	for i, c := range t.pieces {
		pieces = append(pieces, verify.Piece{Ring: c.ring, Count: len(c.copies), Angles: c.angles})
		for k, copied := range c.copies {
			of[segment{c.piece, copied, c.segment}] = [2]int{i, k}
		}
	}
	long := int64(p.Need) / t.step
	goods := verify.Container{Outer: geom.Ring{{}, {X: long}, {X: long, Y: t.width}, {Y: t.width}}}
	for _, f := range t.roll.Flaws {
		goods.Holes = append(goods.Holes, t.flaw(f))
	}
	var lay []verify.Placement
	for i, q := range p.Places {
		where, ok := of[segment{q.Piece, q.Copy, q.Segment}]
		if !ok {
			return badPlan("place %d: no such piece or copy", i)
		}
		c := t.pieces[where[0]]
		quarters := int(q.Turned) / 90
		switch {
		case q.Mirrored != c.mirrored:
			return badPlan("place %d: the wrong hand of a pair", i)
		case q.Segments != c.segments:
			return badPlan("place %d: %d segments, not %d", i, q.Segments, c.segments)
		case q.Turned != unit.Angle(90*quarters) || quarters < 0 || quarters > 3:
			return badPlan("place %d: turned by %v", i, q.Turned)
		}
		o := turnedPoint(c.origin, quarters)
		match := shape.Point{X: q.X - o.X, Y: q.Y - o.Y}
		ring, ok := t.steps(append(append([]shape.Point(nil), q.Outline...), match))
		if !ok {
			return badPlan("place %d: off the grid of plans", i)
		}
		n := len(ring) - 1
		lay = append(lay, verify.Placement{Piece: where[0], Copy: where[1], Angle: int64(quarters) * int64(90*nest.Degree), At: ring[n], Ring: ring[:n]})
		if _, ok := p.onMotif(q, t.near()); !ok {
			return badPlan("place %d: off the repeat", i)
		}
	}
	for _, f := range verify.Outlines(pieces, []verify.Container{goods}, t.gap, true, lay) {
		return badPlan("%v", f)
	}
	return p.verifyShades()
}

// steps brings points of the roll to the axes of the engine.
func (t *rollTable) steps(pts []shape.Point) (geom.Ring, bool) {
	out := make(geom.Ring, len(pts))
	for i, c := range pts {
		if int64(c.X)%t.step != 0 || int64(c.Y)%t.step != 0 {
			return nil, false
		}
		out[i] = geom.Point{X: int64(c.Y) / t.step, Y: t.width - int64(c.X)/t.step}
	}
	return out, true
}

// near is how far from a motif a point may lie: falls are met to the next step.
func (t *rollTable) near() unit.Length {
	if t.evenFalls() {
		return 0
	}
	return unit.Length(t.step)
}

// evenFalls tells whether the falls of a drop lie on the grid of plans.
func (t *rollTable) evenFalls() bool {
	d := t.roll.Drop
	return d == material.Drop{} || int64(t.roll.Repeat)*int64(d.Num)%(int64(d.Den)*t.step) == 0
}

// verifyShades checks that shade groups keep together.
func (p Plan) verifyShades() error {
	if g, spread := p.Job.spread(p.Places); spread {
		return badPlan("shade group %d spreads over more than %v", g+1, p.Job.Shades[g].Window)
	}
	return nil
}

// spread gives the first shade group that does not lie within its window.
func (j Job) spread(places []Place) (group int, spread bool) {
	for g, s := range j.Shades {
		var from, to unit.Length
		some := false
		for _, q := range places {
			if j.Pieces[q.Piece].Shade != g+1 {
				continue
			}
			low, high := q.Bounds()
			if !some {
				from, to, some = low.Y, high.Y, true
			}
			from, to = min(from, low.Y), max(to, high.Y)
		}
		if to-from > s.Window {
			return g, true
		}
	}
	return 0, false
}
