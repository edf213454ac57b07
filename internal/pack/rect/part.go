package rect

import "slices"

// part is one rectangle to lay: a copy of a piece, or a segment of a joined copy.
type part struct {
	piece, copy       int
	segment, segments int
	lays              []lay
	match             Axes
	group, set        int
}

// lay is one way to lay a part.
type lay struct {
	turn   Turns
	w, h   int64
	mx, my int64 // from the lower left corner to the point on a motif, less what the motifs are moved
}

// parts lists what has to be laid when every splittable piece is divided as chosen (nil for pieces that are not).
func (j *Job) parts(division [][]int64) []part {
	var out []part
	for i := range j.Pieces {
		p := &j.Pieces[i]
		for c := range p.Count {
			if p.Split == nil {
				out = append(out, part{piece: i, copy: c, segments: 1, lays: j.lays(p, p.W, p.H), match: j.bound(p), group: p.Group, set: p.Set})
				continue
			}
			parts := division[i]
			for k := range parts {
				w, h := p.W, p.H
				if cut := cutLength(parts, k, p.Split.Allowance); p.Split.Along == X {
					w = cut
				} else {
					h = cut
				}
				out = append(out, part{piece: i, copy: c, segment: k, segments: len(parts), lays: j.lays(p, w, h)})
			}
		}
	}
	return out
}

// bound is the set of directions in which the pattern binds the piece.
func (j *Job) bound(p *Piece) Axes {
	var a Axes
	if p.Match&X != 0 && j.Repeat.PeriodX > 0 {
		a |= X
	}
	if p.Match&Y != 0 && j.Repeat.PeriodY > 0 {
		a |= Y
	}
	return a
}

// lays lists the ways to lay a piece cut to w by h that fit the strip. Ways that differ only by a turn that does not
// matter are listed once.
func (j *Job) lays(p *Piece, w, h int64) []lay {
	q := *p
	q.W, q.H = w, h
	match := j.bound(p)
	var out []lay
	for _, t := range q.turns() {
		l := lay{turn: t}
		l.w, l.h = q.size(t)
		if l.w > j.Width || j.MaxLength > 0 && l.h > j.MaxLength {
			continue
		}
		spots := q.Spots
		if match == 0 || len(spots) == 0 {
			spots = []Spot{{}}
		}
		for _, s := range spots {
			if !s.holds(t) {
				continue
			}
			if match != 0 {
				l.mx, l.my = q.turned(s, t)
				l.mx, l.my = l.mx-q.MovedX, l.my-q.MovedY
			}
			heights := []int64{0}
			if match == Y {
				heights = j.Repeat.raises()
			}
			at := l.my
			for _, d := range heights {
				l.my = at - d
				if !slices.ContainsFunc(out, func(o lay) bool { return alike(match, o, l) && (o.turn == t || len(p.Cells) == 0) }) {
					out = append(out, l)
				}
			}
		}
	}
	return out
}

// alike reports whether two ways to lay a piece differ by nothing that matters.
func alike(match Axes, a, b lay) bool {
	return a.w == b.w && a.h == b.h && (match&X == 0 || a.mx == b.mx) && (match&Y == 0 || a.my == b.my)
}
