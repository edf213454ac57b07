package bound_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// fewest is the least number of hides of a layout on whole places, by complete
// search; one more than there are when there is none.
func fewest(j bound.HideJob) int {
	free := make([]quarters, len(j.Hides))
	for i, h := range j.Hides {
		free[i] = quartersOf(h.Outer)
		for _, o := range h.Holes {
			for q := range quartersOf(o) {
				delete(free[i], q)
			}
		}
	}
	type place struct {
		hide int
		set  quarters
	}
	var kinds [][]place // one for each copy
	for _, p := range j.Pieces {
		var ps []place
		for i, h := range j.Hides {
			b := h.Outer.Bounds()
			for _, w := range p.Ways {
				whole := quartersOf(w.Ring)
				for x := int64(-8); x <= b.Max.X+8; x++ {
					for y := int64(-8); y <= b.Max.Y+8; y++ {
						set, ok := quarters{}, true
						for q := range whole {
							at := [3]int64{q[0] + x, q[1] + y, q[2]}
							set[at] = true
							ok = ok && free[i][at]
						}
						if ok {
							ps = append(ps, place{i, set})
						}
					}
				}
			}
		}
		for range p.Count {
			kinds = append(kinds, ps)
		}
	}
	best := len(j.Hides) + 1
	used := make([]int, len(j.Hides))
	var lay func(k, n int)
	lay = func(k, n int) {
		if n >= best {
			return
		}
		if k == len(kinds) {
			best = n
			return
		}
		for _, p := range kinds[k] {
			ok := true
			for q := range p.set {
				ok = ok && free[p.hide][q]
			}
			if !ok {
				continue
			}
			for q := range p.set {
				delete(free[p.hide], q)
			}
			more := n
			if used[p.hide]++; used[p.hide] == 1 {
				more++
			}
			lay(k+1, more)
			used[p.hide]--
			for q := range p.set {
				free[p.hide][q] = true
			}
		}
	}
	lay(0, 0)
	return best
}

func TestHidesAgainstCompleteSearch(t *testing.T) { hidesAgainstCompleteSearch(t, 12) }

func hidesAgainstCompleteSearch(t *testing.T, jobs int) {
	met, byArea := 0, 0
	decides := map[bound.Method]int{}
	for seed := range jobs {
		r := rand.New(rand.NewPCG(uint64(seed), 2))
		j := bound.HideJob{}
		for range 2 + r.IntN(2) {
			h := bound.Hide{Outer: box(0, 0, 3+r.Int64N(3), 3+r.Int64N(3))}
			if r.IntN(3) == 0 {
				h.Outer = smallOutlines[r.IntN(len(smallOutlines))]
			}
			if r.IntN(3) == 0 {
				h.Holes = append(h.Holes, box(1, 1, 1, 1), box(1, 1+r.Int64N(2), 2, 1))
			}
			j.Hides = append(j.Hides, h)
		}
		for range 1 + r.IntN(3) {
			p := bound.Piece{Count: 1 + r.IntN(2), AnyAngle: r.IntN(4) == 0}
			ring := box(0, 0, 1+r.Int64N(3), 1+r.Int64N(4))
			if r.IntN(2) == 0 {
				ring = smallOutlines[r.IntN(len(smallOutlines))]
			}
			p.Ways = bound.Ways(ring, geom.Point{}, []geom.Transform{geom.Identity, geom.Rotate90, geom.Rotate180, geom.MirrorX}[:1+r.IntN(2)]...)
			j.Pieces = append(j.Pieces, p)
		}
		best := fewest(j)
		cs, err := bound.Hides(context.Background(), j)
		if err != nil {
			var bad *bound.InputError
			require.ErrorAs(t, err, &bad)
			require.Equal(t, len(j.Hides)+1, best, "seed %d: refused, but it has a layout", seed)
			continue
		}
		for _, c := range cs {
			require.LessOrEqual(t, c.Hides, best, "seed %d: %+v of %+v", seed, c, j)
			if c.Method == bound.ByArea && c.Hides == best {
				byArea++
			}
		}
		if cs[0].Hides == best {
			met++
			decides[cs[0].Method]++
		}
	}
	t.Logf("%d jobs, %d bounds met the optimum (%d of them by area): %v", jobs, met, byArea, decides)
	require.Greater(t, met, jobs/2)
	require.Greater(t, met, byArea)
}

// Pieces told otherwise need as many hides; a hole that hangs over the edge or
// over another hole takes off no more than there is.
func TestHoles(t *testing.T) {
	seat := bound.Piece{Count: 4, Ways: bound.Ways(box(0, 0, 5, 5), geom.Point{}, geom.Identity)}
	hide := func(holes ...geom.Ring) bound.Hide { return bound.Hide{Outer: box(0, 0, 10, 10), Holes: holes} }
	for _, c := range []struct {
		hide bound.Hide
		want int
	}{
		{hide(), 1},
		{hide(box(4, 4, 2, 2)), 2},
		{hide(box(9, 4, 2, 2)), 1},                     // over the edge: does not count
		{hide(box(-1, -1, 20, 20)), 1},                 // nor does one around it all
		{hide(box(4, 4, 2, 2), box(5, 5, 2, 2)), 2},    // one of the two counts
		{hide(box(1, 1, 1, 1), box(8, 8, 1, 1)), 2},    // both count
		{hide(slices.Repeat(geom.Ring{}, 1), nil), -1}, // no holes at all
	} {
		j := bound.HideJob{Hides: []bound.Hide{c.hide, c.hide, c.hide}, Pieces: []bound.Piece{seat}}
		cs, err := bound.Hides(context.Background(), j)
		if c.want < 0 {
			var bad *bound.InputError
			require.ErrorAs(t, err, &bad)
			continue
		}
		require.NoError(t, err)
		got := 0
		for _, k := range cs {
			if k.Method == bound.ByArea {
				got = k.Hides
			}
		}
		assert.Equal(t, c.want, got, "%v", c.hide.Holes)
	}
}

func BenchmarkHides(b *testing.B) {
	j := bound.HideJob{Pieces: fifty(57, 1).Pieces}
	for range 20 {
		j.Hides = append(j.Hides, bound.Hide{Outer: crowned(90, 80, 6, 60)})
	}
	for b.Loop() {
		if _, err := bound.Hides(context.Background(), j); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzHides(f *testing.F) {
	f.Add(uint64(1), int64(40))
	f.Add(uint64(2), int64(7))
	f.Fuzz(func(t *testing.T, seed uint64, size int64) {
		r := rand.New(rand.NewPCG(seed, 5))
		size = 2 + (size%500+500)%500
		j := bound.HideJob{Pieces: anyJob(seed, size).Pieces}
		copies := 0
		for _, p := range j.Pieces {
			copies += p.Count
		}
		for range copies { // a hide that holds each piece, for each piece
			h := bound.Hide{Outer: box(-2*size, -2*size, 4*size, 4*size)}
			for range r.IntN(3) {
				h.Holes = append(h.Holes, bound.Star(r, 4+r.IntN(5), size).Translate(geom.Point{X: 3 * size, Y: 3 * size})) // outside
			}
			j.Hides = append(j.Hides, h)
		}
		cs, err := bound.Hides(context.Background(), j)
		require.NoError(t, err)
		require.GreaterOrEqual(t, cs[0].Hides, 1)
		require.LessOrEqual(t, cs[0].Hides, copies)
	})
}
