package nest

import (
	"context"
	"fmt"
	"math"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/gate"
)

// Limits of the pair tables: beyond them a strip is searched by distance
// maps, which take any outline and any angle but find no exact fits.
const (
	maxShapes    = 300
	maxParts     = 50 // convex parts of one shape
	tableCorners = 400
)

// wantsMaps reports whether the pieces are beyond the pair tables.
func wantsMaps(pieces []Piece) bool {
	shapes := 0
	for i := range pieces {
		if !pieces[i].Turn.discrete() || len(pieces[i].Ring) > tableCorners {
			return true
		}
		shapes += len(pieces[i].Turn.list()) * len(mirrors(pieces[i].Mirror))
	}
	return shapes > maxShapes
}

// turningRun shortens a strip of pieces that turn freely: a hide as long as
// all pieces in a row, whose right edge moves to the left.
type turningRun struct {
	*hideRun
	width, slack int64
	row          []pose // the pieces one after the other: always legal
	end          int64  // of the row
	area2, lower int64
	length       float64 // of the best layout
	progress     func(Progress)
}

// newTurningRun lays the pieces in a row, which needs neither maps nor tables. What a
// stage draws the next ones go on with.
func newTurningRun(ctx context.Context, width int64, pieces []Piece, opt Options) (*turningRun, error) {
	r := &turningRun{width: width, slack: max(width/20000, 2), lower: 1}
	r.hideRun = &hideRun{ctx: ctx, opt: opt, gate: gate.New(opt.AtOnce), pieces: pieces, strip: true}
	r.opt.Progress = nil // a hunt tells about hides
	for pi := range pieces {
		if err := r.append(pi); err != nil {
			return nil, err
		}
	}
	if r.end >= MaxCoord-8 {
		return nil, &InputError{"pieces", fmt.Sprint(r.end), "all pieces in a row are longer than 2^30", ErrRange}
	}
	r.lower = max(r.lower, (r.area2+2*width-1)/(2*width))
	r.layGround(r.end + 8)
	r.best, r.used, r.length = r.row, []int{0}, r.lengthOf(r.row)
	return r, nil
}

// stage shortens the strip, beginning with what stages before it found: among them may
// be some that went by pair tables.
func (r *turningRun) stage(st stage, start []Placement, tell func(Progress)) StripLayout {
	r.progress = tell
	if r.begin(st) {
		if at, ok := r.posesOf(start); ok {
			r.best, r.length = at, r.lengthOf(at)
		} else {
			r.first()
		}
		r.shorten()
	}
	return r.layout()
}

// append puts the copies of a piece at the end of the row.
func (r *turningRun) append(pi int) error {
	p := &r.pieces[pi]
	name := fmt.Sprintf("piece %d (%s)", pi, p.ID)
	if p.PhaseX.Every > 0 || p.PhaseY.Every > 0 {
		return &InputError{name + ": phase", fmt.Sprint(p.PhaseX, p.PhaseY), "a repeat needs fixed angles and plain outlines", ErrRange}
	}
	b := newBody(pi, p)
	r.bodies = append(r.bodies, b)
	flat, box := b.flat(p, r.width-2*r.slack)
	switch {
	case flat.g < 0:
		return &InputError{name, fmt.Sprint(p.Ring.Bounds()), tooThin, ErrRing}
	case box.Height() > r.width-2*r.slack:
		return &InputError{name, fmt.Sprint(box.Height()), "wider than the roll in every allowed position", ErrNoRoom}
	}
	r.lower = max(r.lower, shortest(p.Ring, p.Turn, p.Mirror, r.width))
	for c := range p.Count {
		q := flat
		q.x, q.y = float64(r.end-box.Min.X+r.opt.Gap+4), float64(-box.Min.Y+r.slack)
		r.end += box.Width() + r.opt.Gap + 8
		r.row = append(r.row, q)
		r.items = append(r.items, len(r.bodies)-1)
		r.copyOf = append(r.copyOf, c)
	}
	// Where this overflows, the row is refused for its length.
	r.area2 += int64(p.Count) * b.area2
	return nil
}

// flat is an allowed position of a height, and its box about the origin. Where none
// is so low it is one of least height; pose.g is -1 if none is allowed.
func (b *body) flat(p *Piece, height int64) (pose, geom.Box) {
	best, bestBox := pose{g: -1}, geom.Box{Max: geom.Pt(0, math.MaxInt64)}
	try := func(a Angle, m bool) {
		if bestBox.Height() <= height {
			return
		}
		a = a.norm()
		ring, _ := b.ringAt(0, 0, a, m)
		if bx := ring.Bounds(); bx.Height() < bestBox.Height() && b.keeps(ring, a) {
			best, bestBox = pose{a: a, mirrored: m}, bx
		}
	}
	for _, m := range mirrors(p.Mirror) {
		if p.Turn.any {
			for k := Angle(0); k < 180; k++ {
				try(k*Degree, m)
			}
			h := geom.Hull(p.Ring) // the flattest position has an edge along the roll
			for i := range h {
				e := h[(i+1)%len(h)].Sub(h[i])
				try(Angle(math.Round(-geom.Atan2(float64(e.Y), float64(e.X))*180/math.Pi*float64(Degree))), m)
			}
			continue
		}
		for _, a := range p.Turn.list() {
			for k := Angle(-8); k <= 8; k++ {
				try(a+p.Turn.tol*k/8, m)
			}
		}
	}
	return best, bestBox
}

// layGround lays out a length of the roll.
func (r *turningRun) layGround(length int64) {
	g := &ground{plain: true, outer: geom.Box{Max: geom.Pt(length, r.width)}.Ring(), kinds: []Kinds{{}}}
	g.box = g.outer.Bounds()
	g.net2 = twiceArea(g.outer)
	r.grounds, r.cost = []*ground{g}, []int64{0}
}

// posesOf gives a layout as poses.
func (r *turningRun) posesOf(lay []Placement) ([]pose, bool) {
	of := map[[2]int]Placement{} // read by key only
	for _, q := range lay {
		of[[2]int{q.Piece, q.Copy}] = q
	}
	out := make([]pose, len(r.items))
	for i := range out {
		b := r.bodies[r.items[i]]
		q, ok := of[[2]int{b.piece, r.copyOf[i]}]
		if !ok {
			return nil, false
		}
		c := turned(geom.Ring{b.centre}, q.Angle, q.Mirrored)[0]
		out[i] = pose{x: float64(q.At.X + c.X), y: float64(q.At.Y + c.Y), a: q.Angle, mirrored: q.Mirrored}
	}
	return out, true
}

// first takes a raster first-fit if that is shorter than the row.
func (r *turningRun) first() {
	start := newRasterFit(r.ctx, r.ws[0], 1, 8)
	start.cell = max(math.Ceil(float64(r.width)/120), math.Ceil(float64(r.grounds[0].box.Max.X)/20000))
	start.most = r.most
	w := r.ws[0]
	for i := range r.items {
		w.put(i, pose{g: -1})
	}
	left := start.fill([]int{0})
	end := int64(0)
	for i, p := range w.at {
		if p.g >= 0 {
			ring, _ := r.bodies[r.items[i]].ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
			end = max(end, ring.Bounds().Max.X)
		}
	}
	for _, i := range left { // in a row behind the others
		p := r.row[i]
		ring, _ := r.bodies[r.items[i]].ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
		b := ring.Bounds()
		p.x += float64(end - b.Min.X + r.opt.Gap + 4)
		end += b.Width() + r.opt.Gap + 8
		w.put(i, p)
	}
	if p := w.save(); r.lengthOf(p) < r.length {
		r.best, r.length = p, r.lengthOf(p)
	}
}

// lengthOf is the length in use.
func (r *hideRun) lengthOf(at []pose) float64 {
	var l int64
	for i, p := range at {
		ring, _ := r.bodies[r.items[i]].ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
		l = max(l, ring.Bounds().Max.X)
	}
	return float64(l)
}

// shorten moves the edge to the left by steps, smaller ones where a length
// is not reached.
func (r *turningRun) shorten() {
	lower := float64(r.lower)
	for _, w := range r.ws {
		w.active = []int{0}
	}
	for step := 0.03; r.left(r.budget) && r.length > lower; {
		r.report()
		l := max(math.Round(r.length*(1-step)), lower)
		ok := r.hunt(r.work()+r.budget/12, func(_ int, w *turnSep) bool {
			w.limit[0] = l
			w.load(r.best)
			return true
		})
		if ok {
			r.length = r.lengthOf(r.best)
		} else if step /= 2; step < 0.0005 {
			step = 0.0005
		}
	}
}

func (r *turningRun) report() {
	if r.progress != nil {
		n := int64(r.opt.Workers)
		r.progress(Progress{Work: min(r.work(), r.most) * n, Budget: r.most * n, Length: int64(r.length), Placed: len(r.items)})
	}
}

// layout is the best one.
func (r *turningRun) layout() StripLayout {
	out := StripLayout{Length: int64(r.length), LowerBound: r.lower, Area2: r.area2, Stopped: r.ctx.Err() != nil}
	for _, w := range r.ws {
		out.Work += w.work
	}
	for i, p := range r.best {
		b := r.bodies[r.items[i]]
		ring, at := b.ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
		out.Placements = append(out.Placements, Placement{Piece: b.piece, Copy: r.copyOf[i], Angle: p.a, Mirrored: p.mirrored, At: at, Ring: ring})
	}
	r.report()
	return out
}
