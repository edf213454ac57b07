package bound_test

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// A small outline has its corners on whole points and its sides along the
// axes or the diagonals of the cells, so it is a set of quarters of cells: the
// triangles between the middle of a cell and one of its sides.
type quarters map[[3]int64]bool

// quartersOf are the quarters of an outline. A quarter belongs to it when a
// point of it does.
func quartersOf(r geom.Ring) quarters {
	big := make(geom.Ring, len(r))
	for i, p := range r {
		big[i] = geom.Point{X: 4 * p.X, Y: 4 * p.Y}
	}
	out := quarters{}
	b := r.Bounds()
	for x := b.Min.X; x < b.Max.X; x++ {
		for y := b.Min.Y; y < b.Max.Y; y++ {
			for k, d := range [4]geom.Point{{X: 2, Y: 1}, {X: 3, Y: 2}, {X: 2, Y: 3}, {X: 1, Y: 2}} {
				if big.Locate(geom.Point{X: 4*x + d.X, Y: 4*y + d.Y}) == geom.Inside {
					out[[3]int64{x, y, int64(k)}] = true
				}
			}
		}
	}
	return out
}

// spot is a place that a piece may take.
type spot struct {
	set quarters // where it lies
	box geom.Box
	top int64
}

func near(a, b spot, gap int64) bool {
	if gap > 0 { // boxes only
		dx := max(0, a.box.Min.X-b.box.Max.X, b.box.Min.X-a.box.Max.X)
		dy := max(0, a.box.Min.Y-b.box.Max.Y, b.box.Min.Y-a.box.Max.Y)
		return dx*dx+dy*dy < gap*gap
	}
	if !a.box.Overlaps(b.box) {
		return false
	}
	for q := range a.set {
		if b.set[q] {
			return true
		}
	}
	return false
}

// spots lists every whole place of a piece with its top at most most, lowest
// first, by the definition of the pattern.
func spots(j bound.StripJob, p bound.Piece, most int64) []spot {
	var out []spot
	r := j.Repeat
	onMotif := func(x, y int64) bool {
		for i := int64(-40); i <= 40; i++ {
			at := r.FirstX + i*r.Across
			if p.Match&bound.X != 0 && r.Across > 0 && x != at {
				continue
			}
			if p.Match&bound.Y == 0 || r.Along == 0 {
				return true
			}
			fall := int64(0)
			if n := int64(len(r.Falls)); n > 0 {
				fall = r.Falls[((i%n)+n)%n]
			}
			if (y-r.FirstY+fall)%r.Along == 0 {
				return true
			}
		}
		return false
	}
	ways := p.Ways
	if p.AnyAngle {
		ways = bound.Ways(ways[0].Ring, ways[0].Match, geom.Identity, geom.Rotate90, geom.Rotate180, geom.Rotate270)
	}
	for _, w := range ways {
		b := w.Ring.Bounds()
		set := quartersOf(w.Ring)
		for x := -b.Min.X; x+b.Max.X <= j.Width; x++ {
			for y := -b.Min.Y; y+b.Max.Y <= most; y++ {
				if !p.AnyAngle && !onMotif(w.Match.X+x, w.Match.Y+y) {
					continue
				}
				s := spot{quarters{}, geom.Box{Min: b.Min.Add(geom.Point{X: x, Y: y}), Max: b.Max.Add(geom.Point{X: x, Y: y})}, b.Max.Y + y}
				for q := range set {
					s.set[[3]int64{q[0] + x, q[1] + y, q[2]}] = true
				}
				out = append(out, s)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b spot) int { return cmp.Compare(a.top, b.top) })
	return out
}

// optimum is the least length of a layout on whole places, by complete search.
// It is most+1 when there is none.
func optimum(j bound.StripJob, most int64) int64 {
	if j.Repeat.FreeStart {
		j.Repeat.FreeStart = false
		best := most + 1
		for y := range max(1, j.Repeat.Along) {
			j.Repeat.FirstY = y
			best = min(best, optimum(j, best-1))
		}
		return best
	}
	type kind struct {
		spots []spot
		count int
	}
	var kinds []kind
	for _, p := range j.Pieces {
		kinds = append(kinds, kind{spots(j, p, most), p.Count})
	}
	slices.SortStableFunc(kinds, func(a, b kind) int { return cmp.Compare(len(a.spots), len(b.spots)) })
	best := most + 1
	var laid []spot
	var lay func(k, n, from int, top int64)
	lay = func(k, n, from int, top int64) {
		if n == kinds[k].count {
			k, n, from = k+1, 0, 0
		}
		if k == len(kinds) {
			best = top
			return
		}
		for i := from; i < len(kinds[k].spots) && max(top, kinds[k].spots[i].top) < best; i++ {
			s := kinds[k].spots[i]
			if slices.ContainsFunc(laid, func(o spot) bool { return near(s, o, j.Gap) }) {
				continue
			}
			laid = append(laid, s)
			lay(k, n+1, i, max(top, s.top))
			laid = laid[:len(laid)-1]
		}
	}
	lay(0, 0, 0, 0)
	return best
}

// smallOutlines are convex and concave, with straight and slanting sides.
var smallOutlines = []geom.Ring{
	{{X: 0, Y: 0}, {X: 3, Y: 0}, {X: 3, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 3}, {X: 0, Y: 3}},                             // L
	{{X: 0, Y: 0}, {X: 3, Y: 0}, {X: 3, Y: 3}, {X: 2, Y: 3}, {X: 2, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 3}, {X: 0, Y: 3}}, // U
	{{X: 1, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 1}, {X: 3, Y: 1}, {X: 3, Y: 2}, {X: 0, Y: 2}, {X: 0, Y: 1}, {X: 1, Y: 1}}, // T
	{{X: 0, Y: 0}, {X: 3, Y: 0}, {X: 0, Y: 3}},                                                                       // triangle
	{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 1}, {X: 3, Y: 2}, {X: 1, Y: 2}, {X: 0, Y: 1}},                             // crowned back
	{{X: 1, Y: 0}, {X: 2, Y: 0}, {X: 3, Y: 1}, {X: 3, Y: 2}, {X: 2, Y: 3}, {X: 1, Y: 3}, {X: 0, Y: 2}, {X: 0, Y: 1}}, // octagon
	{{X: 0, Y: 0}, {X: 2, Y: 2}, {X: 4, Y: 0}, {X: 4, Y: 2}, {X: 2, Y: 4}, {X: 0, Y: 2}},                             // chevron
	{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 3}, {X: 3, Y: 2}, {X: 2, Y: 3}, {X: 1, Y: 2}, {X: 0, Y: 3}},               // scallop
	{{X: 0, Y: 0}, {X: 3, Y: 0}, {X: 3, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 2}, {X: 3, Y: 2}, {X: 3, Y: 3}, {X: 0, Y: 3}}, // C
	{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 3, Y: 2}, {X: 3, Y: 4}, {X: 2, Y: 4}, {X: 2, Y: 3}, {X: 0, Y: 1}},               // arm
}

// smallJob draws a job that complete search can solve.
func smallJob(r *rand.Rand) bound.StripJob {
	pick := func(from, to int) int64 { return int64(from + r.IntN(to-from+1)) }
	j := bound.StripJob{Width: pick(4, 7), Whole: true}
	boxes := r.IntN(2) == 0
	if boxes && r.IntN(4) == 0 {
		j.Gap = pick(1, 2)
	}
	if r.IntN(4) > 0 {
		j.Repeat = bound.Repeat{Across: pick(0, 4), Along: pick(0, 6), FirstX: pick(-3, 3), FirstY: pick(-3, 8), FreeStart: r.IntN(3) == 0}
		if j.Repeat.Across > 0 && j.Repeat.Along > 0 && r.IntN(3) == 0 {
			j.Repeat.Falls = []int64{0, pick(-3, 5), pick(-3, 5)}[:pick(2, 3)]
		}
	}
	left := pick(2, 4)
	for left > 0 {
		n := pick(1, int(left))
		left -= n
		ring := box(0, 0, pick(1, 4), pick(1, 5))
		if !boxes {
			ring = smallOutlines[r.IntN(len(smallOutlines))]
		}
		p := bound.Piece{Count: int(n), Match: bound.Axes(pick(0, 3)), AnyAngle: r.IntN(12) == 0}
		turns := []geom.Transform{geom.Transform(r.IntN(8))}
		for len(turns) < 4 && r.IntN(3) == 0 {
			turns = append(turns, geom.Transform(r.IntN(8)))
		}
		for _, t := range turns {
			p.Ways = append(p.Ways, bound.Ways(ring, geom.Point{X: pick(-2, 4), Y: pick(-2, 5)}, t)...)
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// No bound exceeds the optimum of complete search, and most meet it.
func TestBoundsAgainstCompleteSearch(t *testing.T) { boundsAgainstCompleteSearch(t, 80) }

func boundsAgainstCompleteSearch(t *testing.T, jobs int) {
	const most = 26
	solved, met, simple := 0, 0, 0
	decides := map[bound.Method]int{}
	for seed := range jobs {
		j := smallJob(rand.New(rand.NewPCG(uint64(seed), 1)))
		best := optimum(j, most)
		cs, err := bound.Strip(context.Background(), j)
		var bad *bound.InputError
		if err != nil {
			require.ErrorAs(t, err, &bad)
			require.Greater(t, best, int64(most), "seed %d: refused, but it has a layout: %v", seed, err)
			continue
		}
		if best > most {
			continue // longer than the search looks
		}
		solved++
		easy := false
		for _, c := range cs {
			require.LessOrEqual(t, c.Length, best, "seed %d: %+v of %+v", seed, c, j)
			easy = easy || c.Method <= bound.ByLongest && c.Length == best
		}
		if easy {
			simple++
		}
		if cs[0].Length == best {
			met++
			decides[cs[0].Method]++
		}
		j.Whole = false
		unbound, err := bound.Best(context.Background(), j)
		require.NoError(t, err)
		require.LessOrEqual(t, unbound.Length, cs[0].Length, "seed %d: whole lengths bind more", seed)
		require.GreaterOrEqual(t, unbound.Length, cs[0].Length-2, "seed %d: only by rounding, at both ends of an arc at most", seed)
	}
	t.Logf("%d jobs solved, %d bounds met the optimum (%d of them by area or the longest piece): %v", solved, met, simple, decides)
	require.Greater(t, solved, jobs*7/10)
	require.Greater(t, met, solved*45/100)
}
