package layout

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// upright is a job on a roll as the engines take it: every pattern runs up the
// roll. On goods that run sideways the pieces are turned on their side, and the
// two hands of a pair become pieces of their own, as the turn of a mirror image
// is not the mirror image of the turn.
type upright struct {
	job      Job
	quarters int // that pieces were turned by, anticlockwise
	of       []hand
}

// hand is where a piece of an upright job comes from.
type hand struct {
	piece, first, stepping int
	mirrored               bool
}

// stood brings a job on a roll to one whose pattern runs up the roll.
func (j Job) stood() upright {
	u := upright{job: j}
	m, roll := j.Roll.Motifs(), *j.Roll
	roll.Repeat, roll.Across, roll.AcrossLevel, roll.Drop, roll.First, roll.Up = m.Along, m.Across, 0, m.Drop, m.First, 0
	u.job.Roll = &roll
	if !j.Roll.Up.Sideways() {
		return u
	}
	if u.quarters = 1; j.Roll.Up == material.UpToRight {
		u.quarters = 3
	}
	u.job.Pieces = nil
	add := func(i int, o shape.Outline, h hand, count int) {
		if count == 0 {
			return
		}
		p := j.Pieces[i]
		p.Outline, p.Count, p.Hand = o.Turned(u.quarters), count, AsDrawn
		if h.mirrored {
			p.Phase = p.Phase.mirrored()
		}
		p.Phase = p.Phase.turned(u.quarters)
		p.Phase.Axes = p.Phase.Axes.aside()
		if p.Join != nil {
			join := *p.Join
			join.AlongWidth = !join.AlongWidth
			p.Join = &join
		}
		u.job.Pieces, u.of = append(u.job.Pieces, p), append(u.of, h)
	}
	for i, p := range j.Pieces {
		if p.Hand != Paired {
			add(i, p.Outline, hand{piece: i, stepping: 1}, p.Count)
			continue
		}
		add(i, p.Outline, hand{piece: i, stepping: 2}, (p.Count+1)/2)
		add(i, p.Outline.Mirrored(), hand{i, 1, 2, true}, p.Count/2)
	}
	return u
}

// mirrored gives the phase of the mirror image of an outline.
func (p Phase) mirrored() Phase {
	p.Spots = append([]Spot(nil), p.Spots...)
	for i := range p.Spots {
		p.Spots[i].Point.X = -p.Spots[i].Point.X
	}
	return p
}

// blame gives an error of the upright job the number that the piece has in the job
// it was made from.
func (u upright) blame(err error) error {
	return renumbered(err, len(u.of), func(k int) int { return u.of[k].piece })
}

// reversed gives the other end of the side on which a piece of the upright job is
// divided, where the quarter turn has changed its ends: its length when turned to
// the left, its width when turned to the right.
func (u upright) reversed(piece int) (side unit.Length, ok bool) {
	p := u.job.Pieces[piece]
	if p.Join == nil || p.Join.AlongWidth != (u.quarters == 1) {
		return 0, false
	}
	w, h := p.Outline.Size()
	if p.Join.AlongWidth {
		return w, true
	}
	return h, true
}

// back gives a plan of an upright job as one of the job it was made from.
func (u upright) back(p Plan, j Job) Plan {
	p.Job = j
	if u.quarters == 0 {
		return p
	}
	for i, q := range p.Places {
		h := u.of[q.Piece]
		q.Piece, q.Copy, q.Mirrored = h.piece, h.first+q.Copy*h.stepping, h.mirrored
		q.Turned = unit.Angle((int(q.Turned) + 90*u.quarters) % 360)
		if _, ok := u.reversed(p.Places[i].Piece); ok {
			q.Segment = q.Segments - 1 - q.Segment
		}
		p.Places[i] = q.cornered()
	}
	for i, s := range p.Joins {
		h := u.of[s.Piece]
		if side, ok := u.reversed(s.Piece); ok {
			p.Joins[i].At = side - s.At
		}
		p.Joins[i].Piece, p.Joins[i].Copy = h.piece, h.first+s.Copy*h.stepping
	}
	for i, c := range p.Claims {
		for k, piece := range c.Pieces {
			p.Claims[i].Pieces[k] = u.of[piece].piece
		}
	}
	return p
}

// plan gives a plan as one of the upright job. An error wraps ErrBadLayout.
func (u upright) plan(p Plan) (Plan, error) {
	p.Job = u.job
	if u.quarters == 0 {
		return p, nil
	}
	at := map[Copy]Copy{} // read by key only
	for k, h := range u.of {
		for c := range u.job.Pieces[k].Count {
			at[Copy{h.piece, h.first + c*h.stepping}] = Copy{k, c}
		}
	}
	p.Places = append([]Place(nil), p.Places...)
	for i, q := range p.Places {
		c, ok := at[Copy{q.Piece, q.Copy}]
		switch {
		case !ok:
			return p, badPlan("place %d: no such piece or copy", i)
		case q.Mirrored != u.of[c.Piece].mirrored:
			return p, badPlan("place %d: the wrong hand of a pair", i)
		case q.Turned != 0 && q.Turned != 90 && q.Turned != 180 && q.Turned != 270:
			return p, badPlan("place %d: turned by %v", i, q.Turned)
		}
		q.Piece, q.Copy, q.Mirrored = c.Piece, c.Copy, false
		q.Turned = unit.Angle((int(q.Turned) + 360 - 90*u.quarters) % 360)
		if _, ok := u.reversed(c.Piece); ok {
			q.Segment = q.Segments - 1 - q.Segment
		}
		p.Places[i] = q.cornered()
	}
	p.Joins = append([]Join(nil), p.Joins...)
	for i, s := range p.Joins {
		c, ok := at[Copy{s.Piece, s.Copy}]
		if !ok {
			return p, badPlan("join %d: no such piece or copy", i)
		}
		if side, ok := u.reversed(c.Piece); ok {
			p.Joins[i].At = side - s.At
		}
		p.Joins[i].Piece, p.Joins[i].Copy = c.Piece, c.Copy
	}
	return p, nil
}

// cornered puts the origin of a segment of a joined piece where its turn has it:
// in the lower left corner before it is turned.
func (q Place) cornered() Place {
	if q.Segments < 2 {
		return q
	}
	low, high := q.Bounds()
	w, h := int64(high.X-low.X), int64(high.Y-low.Y)
	if int(q.Turned)%180 != 0 {
		w, h = h, w
	}
	corner := turnedQuarters(geom.Box{Max: geom.Point{X: w, Y: h}}.Ring(), int(q.Turned)/90).Bounds().Min
	q.X, q.Y = low.X-unit.Length(corner.X), low.Y-unit.Length(corner.Y)
	return q
}
