package layout

import "github.com/coverwright/coverwright/unit"

// mostSides is how many segments a matched piece may have to each side of its
// centre: 64 joins.
const mostSides = 32

// division is a piece on the goods that is to be joined so that the pattern runs
// on. It is cut into an odd number of segments: a centre as wide as its motif
// lets it be, and as few as can be to each side, left and right alike, so that
// no join is in the middle. Cut at p(1), p(2), … from its left edge, with an
// allowance s at both sides of a join, its segment k reaches on the piece
//
//	from p(k-1) - s to p(k) + s
//
// and, where the piece would have its left edge at x on goods that repeat every H,
// lies on them at
//
//	x + p(k-1) - s + i H    for some whole i, i columns along
//
// which leaves the pattern at every point of a join the same on both its sides. A
// segment whose right edge is r from the left of the piece thus ends at x + r + i H at
// most as far as the usable width W, and can be no wider than
//
//	W - (W - x - r) mod H
type division struct {
	width, usable    unit.Length
	at, every        unit.Length // x and H; without H a segment lies anywhere across
	allowance, least unit.Length
}

// whole tells whether the piece needs no join.
func (d division) whole() bool {
	if d.every == 0 {
		return d.width <= d.usable
	}
	return modulo(d.at, d.every) <= d.usable-d.width
}

// beside gives the least that lies to each side of the centre, up to its joins,
// which is best where the middle of the piece comes nearest to that of the goods.
func (d division) beside() unit.Length {
	room := d.usable - d.width
	over := func(x unit.Length) unit.Length { return max(-x, x-room) + d.allowance }
	centred := d.centred()
	if d.every == 0 {
		return over(centred)
	}
	low := centred - modulo(centred-d.at, d.every)
	return min(over(low), over(low+d.every))
}

// centred gives where the left edge lies when the piece is in the middle of the goods.
func (d division) centred() unit.Length {
	room := d.usable - d.width
	return (room - modulo(room, 2)) / 2
}

// widest gives how wide a segment may be that ends at r from the left of the
// piece, and so may its mirror image.
func (d division) widest(r unit.Length) unit.Length {
	if d.every == 0 {
		return d.usable
	}
	return d.usable - max(modulo(d.usable-d.at-r, d.every), modulo(d.at+d.width-r, d.every))
}

// joins gives where the piece is cut with some segments to each side of the
// centre: the cuts to its left all as far out as they can be, so that the centre and those next
// to it are as wide as can be. Each cut asks for a least place of the one left of it,
// by the width of the goods, and of the one right of it, by the least length: they
// are moved inwards until all agree. ok is false where they never do.
func (d division) joins(sides int) (at []unit.Length, ok bool) {
	cut := make([]unit.Length, sides+1)
	cut[sides] = d.beside()
	for moved := true; moved; {
		moved = false
		to := func(k int, p unit.Length) {
			if p > cut[k] {
				cut[k], moved = p, true
			}
		}
		for k := sides; k > 0; k-- {
			end := cut[k] + d.allowance
			from := end - d.widest(end)
			if k > 1 {
				to(k-1, from+d.allowance)
			} else if from > 0 {
				return nil, false
			}
		}
		for k := range sides {
			to(k+1, cut[k]+d.least)
		}
		if d.width-2*cut[sides] < d.least {
			return nil, false
		}
	}
	at = cut[1:]
	for k := sides; k > 0; k-- {
		at = append(at, d.width-cut[k])
	}
	return at, true
}

// fewest gives the joins with as few segments as can be.
func (d division) fewest() (at []unit.Length, ok bool) {
	for n := 1; n <= mostSides; n++ {
		if at, ok = d.joins(n); ok {
			return at, true
		}
	}
	return nil, false
}
