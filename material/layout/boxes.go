package layout

import (
	"context"
	"errors"
	"fmt"
	"reflect"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/rect"
	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// box is the box round a piece, or round the copies of one hand of a pair: what
// the engine of rectangles lays.
type box struct {
	piece, count    int
	first, stepping int // numbers of the copies
	width, length   unit.Length
	turn            Turn
	bindX, bindY    bool   // lies on the pattern
	spots           []Spot // that may lie on a motif, from the lower left corner
	common          int
	shade           int
	join            *Piecing
}

// boxTable is an upright job on a roll as boxes. The outlines are in nanometres.
type boxTable struct {
	job    Job
	boxes  []box
	rings  [][2]geom.Ring // of each piece, as drawn and mirrored, in its own axes
	shaped bool           // some piece is no rectangle
}

func newBoxTable(j Job, tol unit.Length) (*boxTable, error) {
	t := &boxTable{job: j}
	for i, p := range j.Pieces {
		if err := t.add(i, p, tol); err != nil {
			return nil, unit.InField(fmt.Sprintf("pieces[%d]", i), err)
		}
	}
	return t, nil
}

// handRings gives the outlines of a piece and of its mirror image in
// nanometres: rectangles as they are, others as they are cut, on a grid.
func handRings(o shape.Outline, tol unit.Length, step int64) (rings [2]geom.Ring, rect bool, err error) {
	if rectangular(o) {
		low, high := o.Bounds()
		b := geom.Box{Min: geom.Point{X: int64(low.X), Y: int64(low.Y)}, Max: geom.Point{X: int64(high.X), Y: int64(high.Y)}}
		mirror := geom.Box{Min: geom.Point{X: -b.Max.X, Y: b.Min.Y}, Max: geom.Point{X: -b.Min.X, Y: b.Max.Y}}
		return [2]geom.Ring{b.Ring(), mirror.Ring()}, true, nil
	}
	for hand, o := range []shape.Outline{o, o.Mirrored()} {
		r, err := ringOf(o, 1, 0, tol, step, true)
		if err != nil {
			return rings, false, err
		}
		for k := range r {
			r[k] = geom.Point{X: r[k].X * step, Y: r[k].Y * step}
		}
		rings[hand] = r
	}
	return rings, false, nil
}

func (t *boxTable) add(i int, p Piece, tol unit.Length) error {
	rings, plain, err := handRings(p.Outline, tol, nestStep)
	if err != nil {
		return unit.InField("outline", err)
	}
	t.rings, t.shaped = append(t.rings, rings), t.shaped || !plain
	roll := *t.job.Roll
	one := func(hand, count, first, stepping int) box {
		r := rings[hand].Bounds()
		b := box{piece: i, count: count, first: first, stepping: stepping, width: unit.Length(r.Width()), length: unit.Length(r.Height()),
			turn: p.Turn, shade: p.Shade, join: p.Join}
		if p.matched(roll) {
			b.bindX, b.bindY, b.common = p.Phase.across(roll), p.Phase.along(roll), p.Phase.Common
			phase := p.Phase
			if hand == 1 {
				phase = phase.mirrored()
			}
			for _, s := range phase.spots() {
				s.Point = b.near(roll, shape.Point{X: s.Point.X - unit.Length(r.Min.X), Y: s.Point.Y - unit.Length(r.Min.Y)})
				b.spots = append(b.spots, s)
			}
		}
		return b
	}
	if p.Hand != Paired {
		t.boxes = append(t.boxes, one(0, p.Count, 0, 1))
		return nil
	}
	left := one(0, p.Count, 0, 1)
	if right := one(1, p.Count, 0, 1); p.Count == 1 || reflect.DeepEqual(left, right) { // of one size and motif
		t.boxes = append(t.boxes, left)
		return nil
	}
	t.boxes = append(t.boxes, one(0, (p.Count+1)/2, 0, 2), one(1, p.Count/2, 1, 2))
	return nil
}

// near brings a point that may lie on a motif next to the box, by steps that lead
// from motif to motif exactly.
func (b box) near(r material.Roll, m shape.Point) shape.Point {
	level := r.Across
	if b.bindY && r.Drop.Den > 1 {
		level *= unit.Length(r.Drop.Den)
	}
	into := func(v, side, period unit.Length, binds bool) unit.Length {
		switch {
		case !binds: // where it is means nothing
			return min(max(v, 0), side)
		case v < 0 || v > side:
			return modulo(v, period)
		}
		return v
	}
	return shape.Point{X: into(m.X, b.width, level, b.bindX), Y: into(m.Y, b.length, r.Repeat, b.bindY)}
}

// modulo gives v less whole periods, from zero.
func modulo(v, period unit.Length) unit.Length { return (v%period + period) % period }

// placed is a box, or a segment of one, as it lies: its lower left corner and its
// size.
type placed struct {
	box, copy, segment, segments int
	x, y, width, length          unit.Length
	degrees                      int
}

// boxed is a layout of boxes.
type boxed struct {
	placed  []placed
	joins   []rect.Seam // Piece is the number of the box
	need    unit.Length
	bound   unit.Length // of the boxes
	proved  bool        // for the boxes
	stopped bool
	method  Method
	motifs  []shape.Point // where a motif lies, by common number
	moved   bool          // some were chosen
}

// layOn searches a short layout of the boxes with the motifs where they are:
// from many orders, with the optimum of small jobs proved. It keeps the rows on
// paper where they are shorter.
func (t *boxTable) layOn(ctx context.Context, o Options, motifs []shape.Point) (boxed, error) {
	plan, err := rect.Solve(ctx, t.engine(motifs), o.rect())
	if err != nil {
		if errors.Is(err, rect.ErrNoLayout) {
			return boxed{}, fmt.Errorf("%w: flaws, the horizontal repeat or a shade group leave no room", ErrNoLayout)
		}
		var in *rect.InputError
		if errors.As(err, &in) {
			if list, k, indexed, rest := unit.Path(in.Field).Head(); list == "Pieces" && indexed && rest.Under("Split") {
				return boxed{}, check.Refuse(check.At("pieces", t.boxes[k].piece)+".join", "", ErrTooWide, "as many joins, and segments as short, as fit across the goods")
			}
		}
		return boxed{}, err
	}
	return t.boxed(plan, motifs), nil
}

// boxed is a plan of the engine, or the rows on paper where they are shorter.
func (t *boxTable) boxed(plan *rect.Plan, motifs []shape.Point) boxed {
	out := boxed{need: unit.Length(plan.Length), bound: unit.Length(plan.Bound), proved: plan.Proved, stopped: plan.Stopped, joins: plan.Seams, method: BoxesSearched, motifs: motifs}
	for _, p := range plan.Placed {
		out.placed = append(out.placed, placed{box: p.Piece, copy: p.Copy, segment: p.Segment, segments: p.Segments,
			x: unit.Length(p.X), y: unit.Length(p.Y), width: unit.Length(p.W), length: unit.Length(p.H), degrees: degrees(p.Turn)})
	}
	if rows, ok := t.rows(motifs); ok && rows.need < out.need {
		rows.bound, rows.stopped, rows.motifs = out.bound, out.stopped, motifs
		rows.proved = rows.need == rows.bound
		out = rows
	}
	return out
}

func turnsOf(degrees []int) rect.Turns {
	var out rect.Turns
	for _, d := range degrees {
		out |= rect.Upright << (d / 90)
	}
	return out
}

func degrees(t rect.Turns) int {
	switch t {
	case rect.QuarterTurn:
		return 90
	case rect.HalfTurn:
		return 180
	case rect.ThreeQuarterTurn:
		return 270
	}
	return 0
}

// rising gives the pattern of a roll to the engine of rectangles, which has the
// next column to the right higher, not lower.
func rising(d material.Drop) (num, den int64) {
	if d == (material.Drop{}) {
		return 0, 0
	}
	return int64(d.Den - d.Num), int64(d.Den)
}

// engine gives the job to the engine of rectangles, with the motifs where they are
// told to lie by common number.
func (t *boxTable) engine(motifs []shape.Point) *rect.Job {
	roll := *t.job.Roll
	num, den := rising(roll.Drop)
	job := &rect.Job{Width: int64(roll.Usable()), Gap: int64(t.job.Gap), Repeat: rect.Repeat{PeriodX: int64(roll.Across), PeriodY: int64(roll.Repeat),
		DropNum: num, DropDen: den}}
	for _, f := range roll.Flaws {
		if w := f.Across(roll); w > 0 {
			job.Flaws = append(job.Flaws, rect.Flaw{X: int64(f.X), Y: int64(f.Y), W: int64(w), H: int64(f.Length)})
		}
	}
	for _, s := range t.job.Shades {
		job.Groups = append(job.Groups, rect.Group{Window: int64(s.Window)})
	}
	for _, b := range t.boxes {
		q := rect.Piece{W: int64(b.width), H: int64(b.length), Count: b.count, Turns: rect.Upright, Group: b.shade}
		q.MovedX, q.MovedY = int64(motifs[b.common].X), int64(motifs[b.common].Y)
		for _, s := range b.spots {
			q.Spots = append(q.Spots, rect.Spot{X: int64(s.Point.X), Y: int64(s.Point.Y), Turns: turnsOf(s.Degrees)})
		}
		if b.bindX {
			q.Match |= rect.X
		}
		if b.bindY {
			q.Match |= rect.Y
		}
		if b.turn != KeepGrain && !roll.Directed() {
			q.Turns |= rect.HalfTurn
		}
		if b.turn.quarter(roll) {
			q.Turns = rect.AnyTurn
		}
		if j := b.join; j != nil {
			q.Split = &rect.Split{Along: rect.Y, Allowance: int64(j.Allowance), Min: int64(j.Least), MaxSeams: j.Most}
			if j.AlongWidth {
				q.Split.Along = rect.X
			}
		}
		job.Pieces = append(job.Pieces, q)
	}
	return job
}

// places puts each outline into its box.
func (t *boxTable) places(l boxed) ([]Place, []Join) {
	out := make([]Place, len(l.placed))
	for i, q := range l.placed {
		b := t.boxes[q.box]
		p := Place{Piece: b.piece, Copy: b.first + q.copy*b.stepping, Segment: q.segment, Segments: max(q.segments, 1), Turned: unit.Angle(q.degrees)}
		p.Mirrored = t.job.Pieces[b.piece].Hand == Paired && p.Copy%2 == 1
		ring := t.ring(p, q.width, q.length)
		low := ring.Bounds().Min
		p.X, p.Y = q.x-unit.Length(low.X), q.y-unit.Length(low.Y)
		p.Outline = pointsAt(ring, p.X, p.Y)
		out[i] = p
	}
	var joins []Join
	for _, s := range l.joins {
		b := t.boxes[s.Piece]
		joins = append(joins, Join{Piece: b.piece, Copy: b.first + s.Copy*b.stepping, At: unit.Length(s.At)})
	}
	return out, joins
}

// ring gives the outline of a piece turned about the origin of its axes; a
// segment of a joined piece is a rectangle of the size in which it lies.
func (t *boxTable) ring(p Place, wide, long unit.Length) geom.Ring {
	quarters := int(p.Turned) / 90
	if p.Segments > 1 {
		if quarters%2 == 1 {
			wide, long = long, wide
		}
		return turnedQuarters(geom.Box{Max: geom.Point{X: int64(wide), Y: int64(long)}}.Ring(), quarters)
	}
	hand := 0
	if p.Mirrored {
		hand = 1
	}
	return turnedQuarters(t.rings[p.Piece][hand], quarters)
}

// turnedQuarters gives a copy turned anticlockwise about the origin.
func turnedQuarters(r geom.Ring, quarters int) geom.Ring {
	out := append(geom.Ring(nil), r...)
	for range quarters {
		for i, q := range out {
			out[i] = geom.Point{X: -q.Y, Y: q.X}
		}
	}
	return out
}

func pointsAt(r geom.Ring, x, y unit.Length) []shape.Point {
	out := make([]shape.Point, len(r))
	for i, q := range r {
		out[i] = shape.Point{X: unit.Length(q.X) + x, Y: unit.Length(q.Y) + y}
	}
	return out
}

// verifyBoxes checks a plan that was laid as boxes: the boxes by their verifier,
// and that each outline is that of its piece.
func (p Plan) verifyBoxes(t *boxTable) error {
	roll := *p.Job.Roll
	num, den := rising(roll.Drop)
	s := verify.Strip{Width: int64(roll.Usable()), Length: int64(p.Need), Claimed: int64(p.Need), Gap: int64(p.Job.Gap),
		Repeat: verify.Repeat{PeriodX: int64(roll.Across), PeriodY: int64(roll.Repeat), DropNum: num, DropDen: den},
		Write:  func(v int64) string { return unit.Length(v).String() }}
	for _, f := range roll.Flaws {
		s.Flaws = append(s.Flaws, verify.Rect{X: int64(f.X), Y: int64(f.Y), W: int64(f.Across(roll)), H: int64(f.Length)})
	}
	for _, g := range p.Job.Shades {
		s.Windows = append(s.Windows, int64(g.Window))
	}
	of := map[Copy][2]int{} // the box of a copy and its number there; read by key only
	for i, b := range t.boxes {
		d := verify.Demand{Name: p.Job.Pieces[b.piece].Name, W: int64(b.width), H: int64(b.length), Count: b.count, Turns: []int{0}, Group: b.shade, MatchX: b.bindX, MatchY: b.bindY}
		at := p.motif(b.common)
		d.MovedX, d.MovedY = int64(at.X), int64(at.Y)
		for _, s := range b.spots {
			d.Spots = append(d.Spots, verify.Spot{X: int64(s.Point.X), Y: int64(s.Point.Y), Turns: s.Degrees})
		}
		if b.turn != KeepGrain && !roll.Directed() {
			d.Turns = append(d.Turns, 180)
		}
		if b.turn.quarter(roll) {
			d.Turns = append(d.Turns, 90, 270)
		}
		if j := b.join; j != nil {
			d.Join = &verify.Join{AlongX: j.AlongWidth, Allowance: int64(j.Allowance), Least: int64(j.Least), Most: j.Most}
		}
		s.Demands = append(s.Demands, d)
		for k := range b.count {
			of[Copy{b.piece, b.first + k*b.stepping}] = [2]int{i, k}
		}
	}
	for i, q := range p.Places {
		where, ok := of[Copy{q.Piece, q.Copy}]
		if !ok {
			return badPlan("place %d: no such piece or copy", i)
		}
		if err := p.shapely(t, i, q); err != nil {
			return err
		}
		if _, ok := p.onMotif(q, 2*unit.Nanometre); !ok { // falls are rounded; the verifier of boxes has them exactly
			return badPlan("place %d: off the repeat", i)
		}
		low, high := q.Bounds()
		s.Laid = append(s.Laid, verify.Laid{Demand: where[0], Copy: where[1], Segment: q.Segment, Segments: q.Segments, Turn: int(q.Turned),
			Rect: verify.Rect{X: int64(low.X), Y: int64(low.Y), W: int64(high.X - low.X), H: int64(high.Y - low.Y)}})
	}
	for i, m := range p.Joins {
		where, ok := of[Copy{m.Piece, m.Copy}]
		if !ok {
			return badPlan("join %d: no such piece or copy", i)
		}
		s.Seams = append(s.Seams, verify.Seam{Demand: where[0], Copy: where[1], At: int64(m.At)})
	}
	if err := verify.Boxes(&s); err != nil {
		return fmt.Errorf("%w: %w", ErrBadLayout, err)
	}
	return nil
}

// shapely checks the outline, the hand and the turn of a place.
func (p Plan) shapely(t *boxTable, i int, q Place) error {
	switch {
	case q.Turned != 0 && q.Turned != 90 && q.Turned != 180 && q.Turned != 270:
		return badPlan("place %d: turned by %v", i, q.Turned)
	case q.Mirrored != (p.Job.Pieces[q.Piece].Hand == Paired && q.Copy%2 == 1):
		return badPlan("place %d: the wrong hand of a pair", i)
	case len(q.Outline) < 3 || q.Segments < 1:
		return badPlan("place %d: nothing there", i)
	}
	low, high := q.Bounds()
	want := pointsAt(t.ring(q, high.X-low.X, high.Y-low.Y), q.X, q.Y)
	if len(want) != len(q.Outline) {
		return badPlan("place %d: wrong shape", i)
	}
	for k := range want {
		if want[k] != q.Outline[k] {
			return badPlan("place %d: wrong shape", i)
		}
	}
	return nil
}
