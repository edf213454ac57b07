package rect

import "math/bits"

// When few boxes are left, a beam looks at what their sides can add up to. A level of free ground between two walls can be
// covered only by a sum of widths, and a column up to the limit only by a sum of heights; what no sum reaches is
// wasted whatever follows. Partial layouts that must waste more than they may are given up long before their last
// box finds no room.

// endgame knows the sums of sides of the boxes left.
type endgame struct {
	unit          [2]int64    // common divisor of widths and of heights; 0 if the sums are too many to be known
	across, along []uint64    // the sums of widths and of heights
	old           [2][]uint64 // scratch
	levels        []seg
}

// endgameSums is the most sums kept, in units of the common divisor.
const endgameSums = 2048

// endgameFrom is the number of boxes left from which on the sums are looked at.
const endgameFrom = 24

// setEndgame prepares for a height.
func (b *beam) setEndgame() {
	var g [2]int64
	for i := range b.ents {
		g[0], g[1] = gcd(g[0], b.ents[i].w), gcd(g[1], b.ents[i].h)
	}
	e := &b.end
	e.unit = [2]int64{}
	if g[0] == 0 || g[1] == 0 || b.width/g[0] > endgameSums || b.limit/g[1] > endgameSums {
		return
	}
	e.unit = g
	n, m := int(b.width/g[0]/64)+1, int(b.limit/g[1]/64)+1
	e.across, e.along = make([]uint64, n), make([]uint64, m)
	e.old = [2][]uint64{make([]uint64, n), make([]uint64, m)}
}

// lost is a lower bound for the area wasted above a skyline when the boxes that are not used are laid there.
func (b *beam) lost(used []uint64, sky []seg) float64 {
	e := &b.end
	clear(e.across)
	clear(e.along)
	e.across[0], e.along[0] = 1, 1
	for w := range used {
		for m := ^used[w]; m != 0; m &= m - 1 {
			k := w*64 + bits.TrailingZeros64(m)
			if k >= len(b.ents) {
				break
			}
			t := b.twin[k]
			if t >= 0 && int(t) < k {
				continue
			}
			copy(e.old[0], e.across)
			copy(e.old[1], e.along)
			shifted(e.across, e.old[0], b.ents[k].w/e.unit[0])
			shifted(e.along, e.old[1], b.ents[k].h/e.unit[1])
			if t >= 0 {
				shifted(e.across, e.old[0], b.ents[t].w/e.unit[0])
				shifted(e.along, e.old[1], b.ents[t].h/e.unit[1])
			}
			b.units += int64(10 + 2*len(e.across) + 2*len(e.along))
		}
	}
	columns := 0.0
	for _, s := range sky {
		room := b.limit - s.y
		columns += float64(float64(s.w) * float64(room-below(e.along, room, e.unit[1])))
	}
	rows := 0.0
	e.levels = append(e.levels[:0], sky...)
	for levels := e.levels; ; {
		low := lowest(levels)
		s := levels[low]
		rise := b.limit - s.y
		if low > 0 {
			rise = min(rise, levels[low-1].y-s.y)
		}
		if low+1 < len(levels) {
			rise = min(rise, levels[low+1].y-s.y)
		}
		rows += float64(float64(rise) * float64(s.w-below(e.across, s.w, e.unit[0])))
		if len(levels) == 1 {
			break
		}
		levels[low].y += rise
		levels = mergeAt(levels, low)
	}
	b.units += int64(10*len(sky) + 3*len(sky)*len(sky))
	return max(columns, rows)
}

// below is the greatest sum up to v; v is at least 0.
func below(set []uint64, v, unit int64) int64 {
	q := v / unit
	w := int(q >> 6)
	if w >= len(set) {
		w, q = len(set)-1, int64(len(set))*64-1
	}
	m := set[w] << (63 - uint(q&63)) >> (63 - uint(q&63))
	for m == 0 {
		w--
		m = set[w]
	}
	return int64(w<<6+63-bits.LeadingZeros64(m)) * unit
}
