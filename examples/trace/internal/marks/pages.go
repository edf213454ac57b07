package marks

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
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
// odd marks from left to right as the pages lie, however the camera was held. Rings
// that belong to no page are given too; mirrored tells that rings make pages only
// when the picture is turned over.
//
// A page is found from its odd mark. A ring near it is taken for the next one up
// the page; the ellipse of a ring says how a millimetre is seen about it in any
// direction once one direction is known, so each ring foretells its neighbours.
// Of all that can be tried, the one is kept whose rings lie nearest to where they
// were foretold.
//
// A page is taken only when some camera could see its marks where they are.
func Pages(width, height int, rings []Ring) (pages [][]Seen, left []Ring, mirrored bool) {
	pages, left = pagesOf(width, height, rings, 1)
	if len(pages) == 0 {
		p, _ := pagesOf(width, height, rings, -1)
		mirrored = len(p) > 0
	}
	return pages, left, mirrored
}

// mostOff is how far the marks of one page may be off what a camera sees, in pixels.
const mostOff = 3

// seeable tells whether a camera could see a page so, the rings as large as they are. hand is as in about.
func seeable(width, height int, seen []Seen, hand float64) bool {
	all := markpage.Marks()
	var page photo.Page
	for _, s := range seen {
		x := s.Ring.X
		if hand < 0 {
			x = float64(width) - x
		}
		page = append(page, photo.Mark{Seen: photo.Pixel{X: shape.Pixels(x), Y: shape.Pixels(s.Ring.Y)}, At: all[s.Mark].At})
	}
	view, err := photo.See(width, height, []photo.Page{page}, photo.Options{})
	if err != nil {
		return false
	}
	if sigma, _ := view.Sigma(); sigma > mostOff || len(view.Off()) > 0 {
		return false
	}
	for _, s := range seen {
		want := markpage.Radius.Millimetres() / view.PixelSize(all[s.Mark].At).Millimetres()
		if off := s.Ring.mean() / want; off < 0.88 || off > 1.12 {
			return false
		}
	}
	return true
}

func pagesOf(width, height int, rings []Ring, hand float64) (pages [][]Seen, left []Ring) {
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
			seen, off := follow(rings, odd, next, hand)
			better := len(seen) > len(best.seen) || len(seen) == len(best.seen) && off < best.off
			if len(seen) >= least && better && seeable(width, height, seen, hand) {
				best = found{seen, off}
			}
		}
		if best.seen != nil {
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
	x, y := acrossOf(pages)
	slices.SortStableFunc(pages, func(a, b []Seen) int {
		place := func(p []Seen) float64 { return float64(x*p[0].Ring.X) + float64(y*p[0].Ring.Y) }
		return cmp.Compare(place(a), place(b))
	})
	for _, r := range rings {
		if !taken[r] {
			left = append(left, r)
		}
	}
	return pages, left
}

// acrossOf is the direction across the pages as they are seen, all together: up them,
// from their lower to their upper half, turned clockwise.
func acrossOf(pages [][]Seen) (x, y float64) {
	for _, p := range pages {
		var n, mx, my [2]float64
		for _, s := range p {
			half := 2 * (s.Mark / markpage.Columns) / markpage.Rows
			n[half]++
			mx[half] += s.Ring.X
			my[half] += s.Ring.Y
		}
		x -= my[1]/n[1] - my[0]/n[0]
		y += mx[1]/n[1] - mx[0]/n[0]
	}
	return x, y
}

// local is how the plane is seen about a ring: x and y of a millimetre across and
// up the page.
type local struct{ xAcross, yAcross, xUp, yUp float64 }

func (l local) step(r Ring, across, up float64) (x, y float64) {
	return r.X + float64(l.xAcross*across) + float64(l.xUp*up), r.Y + float64(l.yAcross*across) + float64(l.yUp*up)
}

// millimetres gives how far apart places are in the plane that are seen so far
// apart.
func (l local) millimetres(x, y float64) float64 {
	det := float64(l.xAcross*l.yUp) - float64(l.xUp*l.yAcross)
	return math.Hypot((float64(l.yUp*x)-float64(l.xUp*y))/det, (float64(l.xAcross*y)-float64(l.yAcross*x))/det)
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
	_, long := about(odd, next.X, next.Y, hand)
	if long < 0.75*up || long > 1.35*up {
		return nil, 0
	}
	g := grid{rings: rings, next: next, hand: hand}
	g.at[0][0], g.at[1][0] = &odd, &next
	g.climb(0)
	for r := range markpage.Rows {
		g.cross(r, 0, 1, across)
	}
	g.climb(1)
	for r := range markpage.Rows {
		g.cross(r, 1, 0, -across)
	}
	g.climb(0)
	used := map[Ring]bool{}
	for r := range g.at {
		for c, ring := range g.at[r] {
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
	return seen, g.off / float64(len(seen))
}

// grid is a page being followed: the rings at its places.
type grid struct {
	rings []Ring
	next  Ring // the second one, that gave the direction
	hand  float64
	at    [markpage.Rows][markpage.Columns]*Ring
	off   float64 // in all, as parts of the steps
}

// look takes the ring nearest to where one is foretold, in millimetres about the ring
// that foretells it.
func (g *grid) look(from Ring, l local, dx, dy float64) *Ring {
	x, y := l.step(from, dx, dy)
	step := math.Hypot(dx, dy)
	// Another ring of the page is never nearer than a row.
	best, least := -1, min(0.3*step, 0.45*markpage.Up.Millimetres())
	for i, r := range g.rings {
		if d := l.millimetres(r.X-x, r.Y-y); d < least && !r.Odd && r != g.next {
			best, least = i, d
		}
	}
	if best < 0 {
		return nil
	}
	g.off += least / step
	return &g.rings[best]
}

// about gives how the plane is seen about a ring, with the direction of up from the
// two rings of a column nearest to it: of its own or, when that has not two, of the
// other.
func (g *grid) about(row, column int) (l local, ok bool) {
	for _, c := range [2]int{column, markpage.Columns - 1 - column} {
		var lower, upper *Ring
		near := math.MaxInt
		for a := range markpage.Rows {
			for b := a + 1; b < markpage.Rows; b++ {
				if far := max(row-a, a-row) + max(row-b, b-row); g.at[a][c] != nil && g.at[b][c] != nil && far < near {
					lower, upper, near = g.at[a][c], g.at[b][c], far
				}
			}
		}
		if lower != nil {
			ring := *g.at[row][column]
			l, _ = about(ring, ring.X+upper.X-lower.X, ring.Y+upper.Y-lower.Y, g.hand)
			return l, true
		}
	}
	return l, false
}

// climb looks for the rings of a column that are missing, each from the next one
// below, over one that is hidden too.
func (g *grid) climb(column int) {
	for r := 1; r < markpage.Rows; r++ {
		for steps := 1; steps <= min(r, 2) && g.at[r][column] == nil; steps++ {
			if g.at[r-steps][column] == nil {
				continue
			}
			if l, ok := g.about(r-steps, column); ok {
				g.at[r][column] = g.look(*g.at[r-steps][column], l, 0, float64(steps)*markpage.Up.Millimetres())
			}
		}
	}
}

// cross looks for a ring that is missing from the other one of its row.
func (g *grid) cross(row, from, to int, across float64) {
	if g.at[row][from] == nil || g.at[row][to] != nil {
		return
	}
	if l, ok := g.about(row, from); ok {
		g.at[row][to] = g.look(*g.at[row][from], l, across, 0)
	}
}
