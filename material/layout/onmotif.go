package layout

import (
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// onMotif tells whether a place of a plan of an upright job has one of its points
// on a motif, within some distance along the roll, and which comes nearest: by
// the definition, looking at every column of a drop where the pattern does not
// bind across.
func (p Plan) onMotif(q Place, near unit.Length) (spot int, ok bool) {
	roll, phase := *p.Job.Roll, p.Job.Pieces[q.Piece].Phase
	if !p.Job.Pieces[q.Piece].matched(roll) {
		return 0, true
	}
	if q.Mirrored {
		phase = phase.mirrored()
	}
	at, columns := p.motif(phase.Common), max(1, roll.Drop.Den)
	meet := func(k int, off unit.Length) {
		if off <= near && (!ok || off < near) {
			spot, near, ok = k, off, true
		}
	}
	for k, s := range phase.spots() {
		if !s.holds(int(q.Turned)) {
			continue
		}
		m := turnedPoint(s.Point, int(q.Turned)/90)
		x, y := q.X+m.X-at.X, q.Y+m.Y-at.Y
		switch {
		case phase.across(roll) && x%roll.Across != 0:
		case !phase.along(roll):
			meet(k, 0)
		case phase.across(roll):
			meet(k, offColumn(roll, y, modulo(x/roll.Across, unit.Length(columns))))
		default:
			for c := range columns {
				from := c
				if q.Turned == 180 { // the columns that fall for the piece rise on the roll
					from = (columns - c) % columns
				}
				meet(k*columns+c, offColumn(roll, y, unit.Length(from)))
			}
		}
	}
	return spot, ok
}

// offColumn gives how far a height is from the motifs of a column, which lie
// lower by the drop from each column to the next.
func offColumn(r material.Roll, y, column unit.Length) unit.Length {
	if r.Drop.Den > 0 {
		y += unit.Length(int64(column) * int64(r.Drop.Num) * int64(r.Repeat) / int64(r.Drop.Den))
	}
	off := modulo(y, r.Repeat)
	return min(off, r.Repeat-off)
}
