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

// smallHides draws a job that complete search can solve.
func smallHides(seed uint64) bound.HideJob {
	r := rand.New(rand.NewPCG(seed, 2))
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
	return j
}

func TestHidesAgainstCompleteSearch(t *testing.T) { hidesAgainstCompleteSearch(t, 12) }

func hidesAgainstCompleteSearch(t *testing.T, jobs int) {
	met, byArea := 0, 0
	decides := map[bound.Method]int{}
	for seed := range jobs {
		j := smallHides(uint64(seed))
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
		{hide(box(9, 4, 2, 2)), 1},                  // over the edge: does not count
		{hide(box(-1, -1, 20, 20)), 1},              // nor does one around it all
		{hide(box(4, 4, 2, 2), box(5, 5, 2, 2)), 2}, // one of the two counts
		{hide(box(1, 1, 1, 1), box(8, 8, 1, 1)), 2}, // both count
		// A hole that touches a side is not wholly inside.
		{hide(geom.Ring{{X: 4, Y: 4}, {X: 4, Y: 6}, {X: 0, Y: 5}}), 1},
		{hide(geom.Ring{{X: 6, Y: 6}, {X: 6, Y: 4}, {X: 10, Y: 5}}), 1},
		{hide(geom.Ring{{X: 6, Y: 4}, {X: 4, Y: 4}, {X: 5, Y: 0}}), 1},
		{hide(geom.Ring{{X: 4, Y: 6}, {X: 6, Y: 6}, {X: 5, Y: 10}}), 1},
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

// No claim of a small job exceeds the fewest hides by complete search.
func TestSmallHidesAgainstSearch(t *testing.T) {
	lines := optima(t, "testdata/hides.txt", 150, func(seed int) (int64, error) {
		j := smallHides(uint64(seed))
		if _, err := bound.Hides(context.Background(), j); err != nil {
			return 0, err
		}
		return int64(fewest(j)), nil
	})
	for seed, line := range lines {
		j := smallHides(uint64(seed))
		cs, err := bound.Hides(context.Background(), j)
		if line == "refused" {
			require.ErrorAs(t, err, new(*bound.InputError), "seed %d", seed)
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		noMore(t, line, int64(cs[0].Hides), j)
	}
}

// Two pieces that share no hide though their area does, and the same ones on
// hides a little larger, where they may:
//
//   - squares of 6 at any angle hold discs of 3, whose centres lie at most 4.2
//     apart each way in a square of 10.2, so 5.94 < 6; in one of 10.3, 6.08;
//   - upright, they need 12 of width or of height;
//   - discs of 4.5 in a square on its corner, 14.14 along its sides: 7.27 < 9
//     apart, though in its box of 20 they would be 15.6; in one of 15.56, 9.28.
func TestPairsByHand(t *testing.T) {
	square := func(side int64, turns bool) bound.Piece {
		return bound.Piece{Count: 1, AnyAngle: turns, Ways: bound.Ways(box(0, 0, side, side), geom.Point{}, geom.Identity)}
	}
	tip := func(half int64) geom.Ring {
		return geom.Ring{{Y: -half}, {X: half}, {Y: half}, {X: -half}}
	}
	for _, c := range []struct {
		name  string
		hide  geom.Ring
		piece bound.Piece
		apart bool
	}{
		{"discs", box(0, 0, 10_200, 10_200), square(6000, true), true},
		{"discs on a larger hide", box(0, 0, 10_300, 10_300), square(6000, true), false},
		{"upright", box(0, 0, 11_999, 11_999), square(6000, false), true},
		{"upright, side by side", box(0, 0, 12_000, 11_000), square(6000, false), false},
		{"upright, one on the other", box(0, 0, 11_000, 12_000), square(6000, false), false},
		{"on its corner", tip(10_000), square(9000, true), true},
		{"on its corner, larger", tip(11_000), square(9000, true), false},
		{"areas", box(0, 0, 30_000, 2399), bound.Piece{Count: 1, Ways: bound.Ways(box(0, 0, 30_000, 1200), geom.Point{}, geom.Identity)}, true},
	} {
		for k := range 2 * len(c.hide) {
			two := k%2 == 1
			hide := append(slices.Clone(c.hide[k/2:]), c.hide[:k/2]...) // from each corner on
			j := bound.HideJob{Hides: slices.Repeat([]bound.Hide{{Outer: hide}}, 4), Pieces: []bound.Piece{c.piece, c.piece, c.piece}}
			if two { // as copies of one
				j.Pieces = j.Pieces[:1]
				j.Pieces[0].Count = 3
			}
			cs, err := bound.Hides(context.Background(), j)
			require.NoError(t, err)
			most := 0
			for _, k := range cs {
				most = max(most, k.Hides)
				if k.Method == bound.ByPairs && !two {
					assert.Equal(t, []int{0, 1, 2}, k.Pieces, c.name)
				}
			}
			if c.apart {
				assert.Equal(t, 3, most, c.name)
				for hides, want := range map[int]int{1: 2, 2: 3, 3: 3} { // one more than there are says that they do not suffice
					j.Hides = j.Hides[:hides]
					cs, err := bound.Hides(context.Background(), j)
					require.NoError(t, err)
					assert.Equal(t, want, cs[0].Hides, "%s on %d", c.name, hides)
					j.Hides = j.Hides[:4]
				}
			} else {
				assert.Less(t, most, 3, c.name)
			}
		}
	}
}

// Of ways to lie that differ in area the least counts, wherever it stands in the
// list; at any angle the first one.
func TestLeastAreaCounts(t *testing.T) {
	small, large := bound.Way{Ring: box(0, 0, 5, 5)}, bound.Way{Ring: box(0, 0, 6, 6)}
	for _, c := range []struct {
		ways []bound.Way
		any  bool
		want int
	}{
		{[]bound.Way{small, large}, false, 1}, {[]bound.Way{large, small}, false, 1}, {[]bound.Way{large, small, large}, false, 1},
		{[]bound.Way{large}, false, 2}, {[]bound.Way{large, small}, true, 2}, {[]bound.Way{small, large}, true, 1},
	} {
		cs, err := bound.Hides(context.Background(), bound.HideJob{Hides: slices.Repeat([]bound.Hide{{Outer: box(0, 0, 10, 10)}}, 4),
			Pieces: []bound.Piece{{Count: 4, AnyAngle: c.any, Ways: c.ways}}})
		require.NoError(t, err)
		i := slices.IndexFunc(cs, func(k bound.HideClaim) bool { return k.Method == bound.ByArea })
		assert.Equal(t, c.want, cs[i].Hides, "%+v", c)
	}
}

func TestRefusedHides(t *testing.T) {
	hide, piece := bound.Hide{Outer: box(0, 0, 9, 9)}, bound.Piece{Count: 1, Ways: []bound.Way{{Ring: box(0, 0, 3, 3)}}}
	flat, large := piece, piece
	flat.Ways, large.Ways = []bound.Way{{Ring: box(0, 0, 3, 0)}}, []bound.Way{{Ring: box(0, 0, 10, 10)}}
	for field, j := range map[string]bound.HideJob{
		"Hides":                  {Pieces: []bound.Piece{piece}},
		"Hides[1].Outer":         {Hides: []bound.Hide{hide, {Outer: box(0, 0, 0, 4)}}, Pieces: []bound.Piece{piece}},
		"Hides[0].Holes[1]":      {Hides: []bound.Hide{{Outer: hide.Outer, Holes: []geom.Ring{box(1, 1, 1, 1), box(3, 3, 0, 1)}}}, Pieces: []bound.Piece{piece}},
		"Pieces[1].Ways[0].Ring": {Hides: []bound.Hide{hide}, Pieces: []bound.Piece{piece, flat}},
		"Pieces[0].Ways":         {Hides: []bound.Hide{hide}, Pieces: []bound.Piece{large}},
	} {
		_, err := bound.Hides(context.Background(), j)
		var bad *bound.InputError
		require.ErrorAs(t, err, &bad, field)
		assert.Equal(t, field, bad.Field)
	}
	many := bound.HideJob{Hides: slices.Repeat([]bound.Hide{hide}, 10_000), Pieces: []bound.Piece{piece}}
	cs, err := bound.Hides(context.Background(), many)
	require.NoError(t, err)
	assert.Equal(t, 1, cs[0].Hides)
	many.Hides = append(many.Hides, hide)
	_, err = bound.Hides(context.Background(), many)
	require.ErrorAs(t, err, new(*bound.InputError))
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
