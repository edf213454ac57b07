package rect

// part is one rectangle to lay: a copy of a piece, or a segment of a joined copy.
type part struct {
	piece, copy       int
	segment, segments int
	lays              []lay
	match             Axes
	group             int
}

// lay is one way to lay a part.
type lay struct {
	turn   Turns
	w, h   int64
	mx, my int64 // motif point from the lower left corner
}

// parts lists what has to be laid when every splittable piece is divided as chosen (nil for pieces that are not).
func (j *Job) parts(division [][]int64) []part {
	var out []part
	for i := range j.Pieces {
		p := &j.Pieces[i]
		for c := range p.Count {
			if p.Split == nil {
				out = append(out, part{piece: i, copy: c, segments: 1, lays: j.lays(p, p.W, p.H), match: j.bound(p), group: p.Group})
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
	var out []lay
next:
	for _, t := range q.turns() {
		l := lay{turn: t}
		l.w, l.h = q.size(t)
		if l.w > j.Width || j.MaxLength > 0 && l.h > j.MaxLength {
			continue
		}
		if j.bound(p) != 0 {
			l.mx, l.my = q.motif(t)
		}
		for _, o := range out {
			if o.w == l.w && o.h == l.h && o.mx == l.mx && o.my == l.my {
				continue next
			}
		}
		out = append(out, l)
	}
	return out
}
