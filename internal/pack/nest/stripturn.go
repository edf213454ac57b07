package nest

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sync"

	"github.com/coverwright/coverwright/internal/geom"
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

// turningStrip shortens a strip of pieces that turn freely.
func turningStrip(ctx context.Context, width int64, pieces []Piece, opt Options) (StripLayout, error) {
	r := &hideRun{ctx: ctx, opt: opt, pieces: pieces, budget: int64(opt.Effort) * turnUnit}
	r.chunk = r.budget/80 + 1
	var area2, row int64
	var at []pose
	lower := int64(1)
	for pi := range pieces {
		p := &pieces[pi]
		name := fmt.Sprintf("piece %d (%s)", pi, p.ID)
		if p.PhaseX.Every > 0 || p.PhaseY.Every > 0 {
			return StripLayout{}, &InputError{name + ": phase", fmt.Sprint(p.PhaseX, p.PhaseY), "a repeat needs fixed angles and plain outlines", ErrRange}
		}
		b := newBody(pi, p)
		r.bodies = append(r.bodies, b)
		// The flattest allowed position decides whether it fits at all.
		best, bestH := pose{}, int64(math.MaxInt64)
		tryAngle := func(a Angle, m bool) {
			ring, _ := b.ringAt(0, 0, a, m)
			bx := ring.Bounds()
			if h := bx.Max.Y - bx.Min.Y; h < bestH && b.keeps(ring, a) {
				best, bestH = pose{a: a, mirrored: m}, h
			}
		}
		for _, m := range mirrors(p.Mirror) {
			if p.Turn.any {
				for k := Angle(0); k < 180; k++ {
					tryAngle(k*Degree, m)
				}
				h := geom.Hull(p.Ring) // the flattest position has an edge along the roll
				for i := range h {
					e := h[(i+1)%len(h)].Sub(h[i])
					tryAngle(Angle(math.Round(-math.Atan2(float64(e.Y), float64(e.X))*180/math.Pi*float64(Degree))).norm(), m)
				}
				continue
			}
			for _, a := range p.Turn.list() {
				for k := Angle(-8); k <= 8; k++ {
					tryAngle((a + p.Turn.tol*k/8).norm(), m)
				}
			}
		}
		slack := max(width/20000, 2)
		if bestH == math.MaxInt64 {
			return StripLayout{}, &InputError{name, fmt.Sprint(p.Ring.Bounds()), tooThin, ErrRing}
		}
		if bestH > width-2*slack {
			return StripLayout{}, &InputError{name, fmt.Sprint(bestH), "wider than the roll in every allowed position", ErrNoRoom}
		}
		ring, _ := b.ringAt(0, 0, best.a, best.mirrored)
		bx := ring.Bounds()
		for c := range p.Count {
			q := best
			q.x, q.y = float64(row-bx.Min.X+opt.Gap+4), float64(-bx.Min.Y+slack)
			row += bx.Max.X - bx.Min.X + opt.Gap + 8
			at = append(at, q)
			r.items = append(r.items, len(r.bodies)-1)
			r.copyOf = append(r.copyOf, c)
		}
		if area2 > math.MaxInt64/4-int64(p.Count)*b.area2 {
			return StripLayout{}, &InputError{name + ": area", fmt.Sprint(b.area2), "areas add up beyond range", ErrRange}
		}
		area2 += int64(p.Count) * b.area2
	}
	if row >= MaxCoord-8 {
		return StripLayout{}, &InputError{"pieces", fmt.Sprint(row), "all pieces in a row are longer than 2^30", ErrRange}
	}
	row += 8
	lower = max(lower, (area2+2*width-1)/(2*width))
	g := &ground{plain: true, outer: geom.Box{Max: geom.Pt(row, width)}.Ring(), demand: []Demand{{}}, lands: make([]*land, 1), once: make([]sync.Once, 1)}
	g.box = g.outer.Bounds()
	g.net2 = twiceArea(g.outer)
	r.grounds, r.cost = []*ground{g}, []int64{0}
	for k := range opt.Workers {
		w := newTurnSep(r.bodies, r.items, r.grounds, opt.Gap, newRNG(opt.Seed, uint64(k)))
		w.slack = max(float64(width)/20000, 2)
		w.active = []int{0}
		r.ws = append(r.ws, w)
	}
	// In a row, one after the other: always legal.
	r.best, r.used = at, []int{0}
	length := func() float64 {
		var l int64
		for i, p := range r.best {
			ring, _ := r.bodies[r.items[i]].ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
			l = max(l, ring.Bounds().Max.X)
		}
		return float64(l)
	}
	best := length()
	report := func() {
		if opt.Progress != nil {
			opt.Progress(Progress{Work: min(r.work(), r.budget) * int64(opt.Workers), Budget: r.budget * int64(opt.Workers), Length: int64(best), Placed: len(r.items)})
		}
	}
	share := r.opt
	r.opt.Progress = nil
	// A raster first-fit is the start, if it beats the row.
	start := newRasterFit(ctx, r.ws[0], 1, 8)
	start.cell = max(math.Ceil(float64(width)/120), math.Ceil(float64(row)/20000))
	if len(start.fill([]int{0})) == 0 {
		row := r.best
		r.best = r.ws[0].save()
		if l := length(); l < best {
			best = l
		} else {
			r.best = row
		}
	}
	for step := 0.03; r.work() < r.budget && ctx.Err() == nil && best > float64(lower); {
		report()
		l := math.Round(best * (1 - step))
		ok := r.hunt(min(r.work()+r.budget/12, r.budget), func(_ int, w *turnSep) bool {
			w.limit[0] = l
			w.load(r.best)
			return true
		})
		if ok {
			best = length()
		} else if step /= 2; step < 0.0005 {
			step = 0.0005
		}
	}
	r.opt = share
	out := StripLayout{Length: int64(best), LowerBound: lower, Area2: area2, Stopped: ctx.Err() != nil}
	for _, w := range r.ws {
		out.Work += w.work
	}
	for i, p := range r.best {
		b := r.bodies[r.items[i]]
		ring, at := b.ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
		out.Placements = append(out.Placements, Placement{Piece: b.piece, Copy: r.copyOf[i], Angle: p.a, Mirrored: p.mirrored, At: at, Ring: ring})
	}
	report()
	if err := checkStrip(width, out.Length, pieces, nil, slices.Clone(out.Placements), opt.Gap); err != nil {
		return StripLayout{}, fmt.Errorf("nest: own layout refused, please report: %w", err)
	}
	return out, nil
}
