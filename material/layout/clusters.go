package layout

import (
	"context"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/rect"
)

// clusterEffort is what finding one cluster may take.
const clusterEffort = 0.001

// clusters gives the units of a job whose shade groups are laid as one block
// each, so that nesting keeps them together: the boxes of the group, as compact
// as its window allows. ok is false where a group has no such block.
func (t *rollTable) clusters(ctx context.Context, seed uint64) (units []rollUnit, ok bool) {
	grouped := make([][]int, len(t.job.Shades)+1)
	for i, c := range t.pieces {
		g := t.job.Pieces[c.piece].Shade
		if g == 0 {
			units = append(units, rollUnit{rollPiece: c, index: i})
			continue
		}
		grouped[g] = append(grouped[g], i)
	}
	for g, of := range grouped {
		if len(of) == 0 {
			continue
		}
		best, found := rollUnit{}, false
		for k := int64(1); k <= 4; k++ {
			u, ok := t.cluster(ctx, of, t.width*k/4, int64(t.job.Shades[g-1].Window)/t.step, seed)
			if ok && (!found || u.ring.TwiceArea().Cmp(best.ring.TwiceArea()) < 0) {
				best, found = u, true
			}
		}
		if !found {
			return nil, false
		}
		units = append(units, best)
	}
	return units, true
}

// cluster lays the boxes of some pieces within a width and a window.
func (t *rollTable) cluster(ctx context.Context, of []int, width, window int64, seed uint64) (rollUnit, bool) {
	u := rollUnit{rollPiece: rollPiece{piece: t.pieces[of[0]].piece, copies: []int{0}, angles: []int64{0}}}
	num, den := rising(t.roll.Drop)
	job := &rect.Job{Width: width, Gap: t.gap, Repeat: rect.Repeat{PeriodX: int64(t.roll.Across) / t.step, PeriodY: int64(t.roll.Repeat) / t.step,
		DropNum: num, DropDen: den}}
	// The corner of the block lies on a motif.
	var motif *shape.Point
	for _, i := range of {
		c := t.pieces[i]
		b := c.ring.Bounds()
		q := rect.Piece{W: b.Height(), H: b.Width(), Count: len(c.copies), Spots: []rect.Spot{{X: b.Max.Y, Y: -b.Min.X}}}
		for _, a := range c.angles {
			q.Turns |= rect.Upright << (a / 90_000_000)
		}
		if c.phaseX.Every > 0 || c.phaseY.Every > 0 {
			at := t.motifs[t.job.Pieces[c.piece].Phase.Common]
			if motif != nil && *motif != at {
				return u, false // the block would have two corners
			}
			motif = &at
		}
		if c.phaseY.Every > 0 {
			q.Match |= rect.X
			u.phaseY, u.falls = c.phaseY, c.falls
		}
		if c.phaseX.Every > 0 {
			q.Match |= rect.Y
			u.phaseX = c.phaseX
		}
		job.Pieces = append(job.Pieces, q)
	}
	plan, err := rect.Solve(ctx, job, rect.Options{Effort: clusterEffort, Seed: seed})
	if err != nil || plan.Length > window {
		return u, false
	}
	used := int64(0)
	for _, p := range plan.Placed {
		used = max(used, p.X+p.W)
		quarters := degrees(p.Turn) / 90
		r := turnedQuarters(t.pieces[of[p.Piece]].ring, quarters).Bounds()
		// The left edge on the roll is the largest y of the engine.
		u.members = append(u.members, member{of[p.Piece], p.Copy, quarters, geom.Point{X: p.Y - r.Min.X, Y: -p.X - r.Max.Y}})
	}
	u.ring = sideways(geom.Box{Max: geom.Point{X: used, Y: plan.Length}}.Ring())
	if u.phaseX.Every == 0 || u.phaseY.Every == 0 {
		u.falls = nil
	}
	return u, true
}
