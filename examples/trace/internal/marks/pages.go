package marks

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/examples/internal/markpage"
)

// Seen is a mark of the page, by its number in markpage.Marks, and its ring.
type Seen struct {
	Mark int
	Ring Ring
}

// least is the number of marks of a page that must be found, the odd one among
// them.
const least = 6

// Pages says which ring is which mark of which page, pages in the order of their
// odd marks from left to right. Rings that belong to no page are given too.
// mirrored tells that rings make pages only when the picture is turned over.
//
// A page is found from its odd mark. A ring near it is taken for the next one up
// the page; the ellipse of a ring says how a millimetre is seen about it in any
// direction once one direction is known, so each ring foretells its neighbours.
// Of all that can be tried, the one is kept whose rings lie nearest to where they
// were foretold.
func Pages(rings []Ring) (pages [][]Seen, left []Ring, mirrored bool) {
	pages, left = pagesOf(rings, 1)
	if len(pages) == 0 {
		p, _ := pagesOf(rings, -1)
		mirrored = len(p) > 0
	}
	return pages, left, mirrored
}

func pagesOf(rings []Ring, hand float64) (pages [][]Seen, left []Ring) {
	type found struct {
		seen []Seen
		off  float64
	}
	var all []found
	for _, odd := range rings {
		if !odd.Odd {
			continue
		}
		best := found{off: math.Inf(1)}
		for _, next := range rings {
			if seen, off := follow(rings, odd, next, hand); len(seen) > len(best.seen) || len(seen) == len(best.seen) && off < best.off {
				best = found{seen, off}
			}
		}
		if len(best.seen) >= least {
			all = append(all, best)
		}
	}
	// A ring is of one page: of the one it fits better.
	slices.SortStableFunc(all, func(a, b found) int {
		return cmp.Or(cmp.Compare(len(b.seen), len(a.seen)), cmp.Compare(a.off, b.off))
	})
	taken := map[Ring]bool{}
	for _, f := range all {
		if slices.ContainsFunc(f.seen, func(s Seen) bool { return taken[s.Ring] }) {
			continue
		}
		for _, s := range f.seen {
			taken[s.Ring] = true
		}
		pages = append(pages, f.seen)
	}
	slices.SortStableFunc(pages, func(a, b []Seen) int { return cmp.Compare(a[0].Ring.X, b[0].Ring.X) })
	for _, r := range rings {
		if !taken[r] {
			left = append(left, r)
		}
	}
	return pages, left
}

// local is how the plane is seen about a ring: x and y of a millimetre across and
// up the page.
type local struct{ xAcross, yAcross, xUp, yUp float64 }

func (l local) step(r Ring, across, up float64) (x, y float64) {
	return r.X + float64(l.xAcross*across) + float64(l.xUp*up), r.Y + float64(l.yAcross*across) + float64(l.yUp*up)
}

// about gives how the plane is seen about a ring when the direction to another
// place is known to be up the page. hand is 1, or -1 for a picture turned over.
func about(r Ring, x, y, hand float64) (l local, millimetres float64) {
	a, b, d := r.axes()
	det := float64(a*d) - float64(b*b)
	u, v := x-r.X, y-r.Y
	// On the circle of radius 1/2.
	e, f := (float64(d*u)-float64(b*v))/det, (float64(a*v)-float64(b*u))/det
	long := math.Hypot(e, f)
	e, f = e/long, f/long
	// A millimetre is 2 / radius there. Pixels run down, so up turned clockwise is
	// across where the picture is not turned over: (e, f) -> (-f, e).
	scale := 2 / markpage.Radius.Millimetres()
	up := [2]float64{float64(scale * e), float64(scale * f)}
	across := [2]float64{-hand * up[1], hand * up[0]}
	return local{
		float64(a*across[0]) + float64(b*across[1]), float64(b*across[0]) + float64(d*across[1]),
		float64(a*up[0]) + float64(b*up[1]), float64(b*up[0]) + float64(d*up[1]),
	}, long / scale
}

// follow names the rings of the page whose odd mark is odd and on which next
// stands above it. off is the mean distance from where they were foretold, as a
// part of the step.
func follow(rings []Ring, odd, next Ring, hand float64) (seen []Seen, off float64) {
	if next == odd || next.Odd {
		return nil, 0
	}
	across, up := markpage.Across.Millimetres(), markpage.Up.Millimetres()
	way, long := about(odd, next.X, next.Y, hand)
	if long < 0.75*up || long > 1.35*up {
		return nil, 0
	}
	var at [markpage.Rows][markpage.Columns]*Ring
	at[0][0], at[1][0] = &odd, &next
	look := func(from Ring, l local, dx, dy float64) *Ring {
		x, y := l.step(from, dx, dy)
		step := math.Hypot(x-from.X, y-from.Y)
		best, least := -1, 0.3*step
		for i, r := range rings {
			if d := math.Hypot(r.X-x, r.Y-y); d < least && !r.Odd && r != next {
				best, least = i, d
			}
		}
		if best < 0 {
			return nil
		}
		off += least / step
		return &rings[best]
	}
	// Up the first column, each ring with the direction from the one before.
	last := odd
	for r := 1; r < markpage.Rows && at[r][0] != nil; r++ {
		now := *at[r][0]
		way, _ = about(now, 2*now.X-last.X, 2*now.Y-last.Y, hand)
		if r+1 < markpage.Rows {
			at[r+1][0] = look(now, way, 0, up)
		}
		last = now
	}
	// Across from every ring of it.
	for r := range at {
		from := at[r][0]
		if from == nil {
			continue
		}
		toward := at[min(r+1, markpage.Rows-1)][0]
		switch {
		case toward != nil && toward != from:
			way, _ = about(*from, toward.X, toward.Y, hand)
		case at[r-1][0] != nil:
			way, _ = about(*from, 2*from.X-at[r-1][0].X, 2*from.Y-at[r-1][0].Y, hand)
		}
		at[r][1] = look(*from, way, across, 0)
	}
	// What the first column lacks, from the second.
	for r := 2; r < markpage.Rows; r++ {
		if at[r][1] == nil && at[r-1][1] != nil && at[r-2][1] != nil {
			from, before := at[r-1][1], at[r-2][1]
			way, _ = about(*from, 2*from.X-before.X, 2*from.Y-before.Y, hand)
			at[r][1] = look(*from, way, 0, up)
		}
	}
	used := map[Ring]bool{}
	for r := range at {
		for c, ring := range at[r] {
			if ring == nil {
				continue
			}
			if used[*ring] {
				return nil, 0
			}
			used[*ring] = true
			seen = append(seen, Seen{Mark: r*markpage.Columns + c, Ring: *ring})
		}
	}
	return seen, off / float64(len(seen))
}
