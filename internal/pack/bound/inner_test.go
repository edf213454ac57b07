package bound

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
)

func rectangle(x, y, w, h int64) geom.Ring {
	return geom.Ring{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// Places from 0 to 6, 5 to 11 and 10 to 16 on goods 20 wide: from the left the
// first two have 5 to 6 in common, and 12.5 is in the third, beside its middle;
// from the right the last two have 10 to 11, and 3.5 is in the first. In halves.
func TestUprightsByHand(t *testing.T) {
	s := &strip{job: &StripJob{Width: 20}}
	for _, x := range []int64{0, 5, 10} {
		s.items = append(s.items, item{options: []option{{shape: newShape(rectangle(0, 0, 6, 3), 0), places: []int64{x}}}})
	}
	assert.Equal(t, [][]int64{{21}, {19}, {11, 25}, {7, 21}}, s.uprights())
	s.job.Width = 21
	assert.Equal(t, [][]int64{{21}, {21}}, s.uprights()[:2])
	s.items = nil
	assert.Len(t, s.uprights(), 2, "nothing is bound across")
}

// A line along the goods through a comb: arms from 10 to 12, 15 to 18 and 20 to
// 22 beside a back of 2. The longest arm counts, the first of equals; in the
// back, all of it; on a side, nothing.
func TestAlongByHand(t *testing.T) {
	comb := geom.Ring{
		{X: 0, Y: 10}, {X: 8, Y: 10}, {X: 8, Y: 12}, {X: 2, Y: 12}, {X: 2, Y: 15}, {X: 8, Y: 15},
		{X: 8, Y: 18}, {X: 2, Y: 18}, {X: 2, Y: 20}, {X: 7, Y: 20}, {X: 7, Y: 22}, {X: 0, Y: 22},
	}
	for _, gap := range []int64{0, 1} {
		s := newShape(comb, gap)
		for x, want := range map[int64][2]int64{-1: {}, 0: {}, 1: {10, 22}, 3: {10, 22}, 4: {15, 18}, 9: {15, 18}, 15: {15, 18}, 16: {}, 17: {}} {
			from, to := s.along(x, gap)
			assert.Equal(t, want, [2]int64{from, to}, "%d halves, gap %d", x, gap)
		}
	}
	from, to := newShape(comb.Translate(geom.Point{Y: -30}), 0).along(9, 0)
	assert.Equal(t, [2]int64{-15, -12}, [2]int64{from, to})
	equal := geom.Ring{{}, {X: 4}, {X: 4, Y: 2}, {X: 1, Y: 2}, {X: 1, Y: 3}, {X: 4, Y: 3}, {X: 4, Y: 5}, {Y: 5}}
	from, to = newShape(equal, 0).along(5, 0)
	assert.Equal(t, [2]int64{0, 2}, [2]int64{from, to})
}

// A stair of so many steps, each a unit high and less wide by one, is kept by
// threes: every chord as short as that of its highest step.
func TestThinnedStairsByHand(t *testing.T) {
	for _, steps := range []int64{1100, 1200, 1201, 1202} {
		ring := geom.Ring{{}}
		for y := range steps {
			ring = append(ring, geom.Point{X: steps - y, Y: y}, geom.Point{X: steps - y, Y: y + 1})
		}
		ring = append(ring, geom.Point{Y: steps})
		s := newShape(ring, 0)
		bands := (steps + 2) / 3
		require.Len(t, s.level, int(bands)+1, "%d", steps)
		require.Len(t, s.slabs, int(bands), "%d", steps)
		for k := range bands {
			require.Equal(t, 3*k, s.level[k])
			w := sub * (steps - min(3*k+2, steps-1))
			require.Equal(t, slab{0, 0, w, w}, s.slabs[k], "%d of %d", k, steps)
		}
		require.Equal(t, steps, s.level[bands])
	}
}

// Chords reach over the gap, but not over the next chord of the same outline.
func TestGapInSlabsByHand(t *testing.T) {
	const u = sub
	assert.Equal(t, []slab{{0, 0, 12 * u, 12 * u}}, newShape(rectangle(0, 0, 10, 5), 2).slabs)
	fork := geom.Ring{{}, {X: 9}, {X: 9, Y: 4}, {X: 5, Y: 4}, {X: 5, Y: 1}, {X: 4, Y: 1}, {X: 4, Y: 4}, {Y: 4}}
	assert.Equal(t, []slab{{0, 0, 12 * u, 12 * u}, {0, 0, 5*u - 1, 5*u - 1}, {5 * u, 5 * u, 12 * u, 12 * u}}, newShape(fork, 3).slabs)
	assert.Equal(t, []slab{{0, 0, 9 * u, 9 * u}, {0, 0, 4 * u, 4 * u}, {5 * u, 5 * u, 9 * u, 9 * u}}, newShape(fork, 0).slabs)
	// A triangle of 9 by 3: at a height of 1, from 3 on and to 6 before it.
	s := newShape(geom.Ring{{}, {X: 9}, {X: 4, Y: 3}, {X: 1, Y: 1}}, 0)
	for _, c := range []struct {
		y     int64
		above bool
		want  []chord
	}{
		{0, true, []chord{{0, 9 * u}}},
		{0, false, nil},
		{1, false, []chord{{u, 7*u + 85}}}, // 9 - 5/3 = 7.333, rounded down
		{1, true, []chord{{u, 7*u + 85}}},
		{2, true, []chord{{2*u + 128, 5*u + 170}}}, // 1 + 3/2, and 9 - 10/3 = 5.667 less what 85/256 lost of it
		{3, false, []chord{{4 * u, 4 * u}}},
		{3, true, nil},
		{4, false, nil},
		{-1, true, nil},
	} {
		assert.Equal(t, c.want, s.chords(c.y, c.above, nil), "%d %v", c.y, c.above)
	}
	assert.Equal(t, []slab{{5, 5, 10, 10}, {20, 20, 22, 22}, {25, 25, 30, 30}},
		common([]slab{{0, 0, 10, 10}, {20, 20, 30, 30}}, []slab{{5, 5, 22, 22}, {25, 24, 40, 41}}))
	assert.Empty(t, common([]slab{{0, 0, 10, 10}}, []slab{{10, 10, 12, 12}}))
}

// Arcs of a circle of 100: the shortest that holds them all.
func TestShortestArcByHand(t *testing.T) {
	for _, c := range []struct {
		arcs []arc
		want int64
	}{
		{nil, 0},
		{[]arc{{10, 10}}, 0},
		{[]arc{{10, 25}}, 15},
		{[]arc{{50, 60}, {10, 20}}, 50},
		{[]arc{{10, 20}, {80, 90}}, 40}, // over the end
		{[]arc{{90, 110}, {5, 15}}, 25},
		{[]arc{{10, 60}, {20, 30}, {50, 70}}, 60},
		{[]arc{{0, 50}, {50, 100}}, 100},
		{[]arc{{0, 0}, {30, 30}, {65, 65}}, 65},
	} {
		assert.Equal(t, c.want, shortestArc(c.arcs, 100), "%v", c.arcs)
	}
	assert.Equal(t, []int64{0, 2, 5, 7}, thin([]int64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, 4))
	assert.Equal(t, []int64{4, 5}, thin([]int64{4, 5}, 2))
}

// Work is counted down, and looking ends where it is out: then the length is one
// that was not yet ruled out, no more than the true one.
func TestRowsSpendWork(t *testing.T) {
	j := StripJob{Width: 100, Repeat: Repeat{Along: 10}}
	for i := range int64(5) {
		j.Pieces = append(j.Pieces, Piece{Count: 1, Match: Y, Ways: []Way{{Ring: rectangle(0, 0, 30+i, 25+i)}, {Ring: rectangle(0, 0, 30+i, 25+i), Match: geom.Point{Y: 3}}}})
	}
	s, err := newStrip(&j)
	require.NoError(t, err)
	l := newLines(s)
	l.survey(t.Context())
	set := []sample{{3, true}, {7, true}}
	solve := func(work int) (int64, int) {
		r := l.rows(set, &work)
		require.NotNil(t, r)
		return r.least(0), work
	}
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	c, more := l.byRows(ended, 0)
	assert.False(t, more, "ended before it looked")
	assert.Zero(t, c.Length)
	_, more = l.byRows(t.Context(), 0)
	assert.True(t, more)
	full, left := solve(1 << 20)
	assert.Less(t, left, 1<<20)
	require.Positive(t, left)
	spent := 1<<20 - left
	last := int64(0)
	for work := 1; work < spent; work *= 2 {
		least, rest := solve(work)
		assert.LessOrEqual(t, rest, 0, "%d", work)
		assert.LessOrEqual(t, least, full, "%d", work)
		assert.GreaterOrEqual(t, least, last, "%d: more work proves no less", work)
		last = least
	}
	assert.LessOrEqual(t, spent, 10_000, "lines that are full are seen at once")
}

// Places across that the columns allow: up to 64 of them, wherever the pattern
// begins; of a drop each class of columns has its own. More are as good as free.
func TestColumnsByHand(t *testing.T) {
	o := option{shape: newShape(rectangle(0, 0, 1, 3), 0)}
	for _, first := range []int64{0, 1000, -1000, 2} {
		for width, want := range map[int64]int{1: 1, 2: 1, 3: 2, 127: 64, 128: 64, 129: 0} {
			s := &strip{job: &StripJob{Width: width, Repeat: Repeat{Across: 2, Along: 10, FirstX: first}}}
			out := s.columns(o, geom.Point{}, true, true)
			require.Len(t, out, 1)
			assert.Len(t, out[0].places, want, "%d on %d", first, width)
			for i, x := range out[0].places {
				assert.Equal(t, int64(2*i), x)
			}
			assert.Nil(t, s.columns(o, geom.Point{}, false, true)[0].places)
		}
	}
	// Columns at 1, 4, 7, ... that fall by 0 and 4 in turn, of a piece with its point
	// at 1, 2: at 0, 6, 12 its point is on the motifs, at 3 and 9 it lies 4 lower.
	s := &strip{job: &StripJob{Width: 13, Repeat: Repeat{Across: 3, Along: 10, FirstX: 1, Falls: []int64{0, 4}}}}
	out := s.columns(o, geom.Point{X: 1, Y: 2}, true, true)
	require.Len(t, out, 2)
	assert.Equal(t, []int64{0, 6, 12}, out[0].places)
	assert.Equal(t, []int64{3, 9}, out[1].places)
	assert.Equal(t, [2]int64{8, 4}, [2]int64{out[0].base, out[1].base})
	s.job.Width = 3 // no room in the second column
	assert.Len(t, s.columns(o, geom.Point{X: 1, Y: 2}, true, true), 1)
}

// Lines of a pattern of 10 whose first motif lies 3 above the end of the roll:
// where they lie, how many of them a roll holds, approached from both sides, and
// what an outline of 4 by 25, 2 above the motifs, covers of them.
func TestPatternLinesByHand(t *testing.T) {
	l := &lines{strip: &strip{job: &StripJob{Repeat: Repeat{Along: 10}}, start: 3}, r: 10}
	for _, c := range []struct {
		p      sample
		height int64
		under  map[int64]int64
	}{
		{sample{0, true}, 3, map[int64]int64{0: 0, 3: 0, 4: 1, 13: 1, 14: 2}},
		{sample{2, true}, 5, map[int64]int64{5: 0, 6: 1, 15: 1, 16: 2}},
		{sample{2, false}, 5, map[int64]int64{4: 0, 5: 1, 14: 1, 15: 2}},
		{sample{7, true}, 0, map[int64]int64{0: 0, 1: 1, 10: 1, 11: 2}},
		{sample{7, false}, 10, map[int64]int64{0: 0, 9: 0, 10: 1, 19: 1, 20: 2}},
	} {
		assert.Equal(t, c.height, l.height(c.p), "%+v", c.p)
		for end, n := range c.under {
			assert.Equal(t, n, l.under(end, c.p), "%+v on %d", c.p, end)
		}
	}
	assert.Equal(t, int64(1), l.first(&crossing{below: 8}, sample{0, true}))
	assert.Zero(t, l.first(&crossing{below: 3}, sample{0, true}))
	assert.Equal(t, int64(1), l.first(&crossing{below: 4}, sample{0, true}))
	assert.Zero(t, l.length(need{sample: sample{2, true}}))
	assert.Equal(t, int64(35), l.length(need{sample: sample{2, true}, lines: 3, first: 1}))
	l.job.Whole = true
	assert.Equal(t, int64(36), l.length(need{sample: sample{2, true}, lines: 3, first: 1}))
	assert.Equal(t, int64(35), l.length(need{sample: sample{2, false}, lines: 3, first: 1}))
	l.job.Repeat.FreeStart = true
	assert.Zero(t, l.first(&crossing{below: 8}, sample{0, true}))

	o := option{shape: newShape(rectangle(0, 100, 4, 25), 0), base: 2 - 100}
	for _, c := range []struct {
		p     sample
		below int64
		n     int
	}{
		{sample{5, true}, 3, 3}, {sample{5, false}, 3, 3}, {sample{2, true}, 0, 3}, {sample{2, false}, 10, 2},
		{sample{7, true}, 5, 2}, {sample{7, false}, 5, 3}, {sample{1, true}, 9, 2}, {sample{1, false}, 9, 2},
	} {
		got := l.cross(&o, c.p)
		assert.Equal(t, c.below, got.below, "%+v", c.p)
		assert.Len(t, got.ends, c.n, "%+v", c.p)
		assert.Len(t, got.chords, c.n, "%+v", c.p)
		assert.Equal(t, int64(c.n*4*sub), got.total, "%+v", c.p)
	}
	for h, n := range map[int64]int64{9: 0, 10: 1, 11: 1, 19: 1, 20: 2, 25: 2, 30: 3, 640: 64, 641: 0} {
		it := item{options: []option{{shape: newShape(rectangle(0, 0, 4, h), 0)}, {shape: newShape(rectangle(0, 7, 5, h), 0), base: 3}}}
		assert.Equal(t, n*4*sub, l.always(&it), "%d high", h)
	}
	wide := item{count: 3, options: []option{o}}
	l.items, l.width, l.steady = []item{wide}, 10*sub, 0
	d := l.load(sample{5, true}, true)
	assert.Equal(t, int64(3*3*4*sub), d.sum)
	assert.Equal(t, 3, d.pieces)
	assert.InDelta(t, 3*3/2.0, d.most, 1e-9, "two of 4 lie side by side on 10")
	assert.Equal(t, [][]int64{{4 * sub, 4 * sub, 4 * sub}}, d.sizes)
	assert.Equal(t, int64(4), l.plain(d).lines, "36 on 10")
	l.steady = 5 * sub
	assert.Equal(t, int64(5), l.plain(l.load(sample{5, true}, false)).lines, "41 on 10")
}

// Points at one distance from columns 10 apart, on goods 30 wide: a piece 12 wide that
// lies at 0 or at 10 covers one of those at 5, 15 and 25, and no piece the last; of those at 1, 11
// and 21 it covers two; on its sides it covers none.
func TestPointsByHand(t *testing.T) {
	for at, want := range map[int64]int64{0: 2, 1: 2, 2: 2, 5: 2, 9: 2} {
		l := &lines{strip: &strip{job: &StripJob{Repeat: Repeat{Across: 10}}, width: 30 * sub}, items: []item{{count: 3}}}
		work := 100
		covers := []cover{{item: 0, chords: []chord{{0, 12 * sub}}, places: []int64{0, 10}}}
		assert.Equal(t, want, l.points(covers, at*sub, &work), "at %d", at)
		assert.Equal(t, 98, work)
		l.items[0].count = 4 // of three points, two each, or of two, one
		if want = 2; at == 1 {
			want = 3
		}
		assert.Equal(t, want, l.points(covers, at*sub, &work), "at %d", at)
	}
}

// The highest and the lowest whole phase that still needs as many lines are found by
// halving, as long as there is work.
func TestHalvingFindsTheLastPhase(t *testing.T) {
	l := &lines{strip: &strip{job: &StripJob{Repeat: Repeat{Along: 100}}, width: sub}, r: 100, options: 1}
	looks := 0
	needs := func(ok func(phase int64) bool) func(load) need {
		return func(d load) need {
			looks++
			n := need{sample: d.sample}
			if ok(d.phase) {
				n.lines = 3
			}
			return n
		}
	}
	for _, last := range []int64{10, 11, 37, 63, 88, 89} {
		for _, seek := range []int{100, 3} {
			l.seek, looks = seek, 0
			up := l.upmost(need{sample: sample{10, true}, lines: 3}, 90, needs(func(p int64) bool { return p <= last }))
			assert.Equal(t, seek-looks, l.seek)
			assert.LessOrEqual(t, looks, 7)
			assert.LessOrEqual(t, up.phase, last)
			assert.Equal(t, int64(3), up.lines)
			if seek == 100 {
				assert.Equal(t, last, up.phase)
			}
			l.seek, looks = seek, 0
			down := l.downmost(need{sample: sample{90, false}, lines: 3}, 9, needs(func(p int64) bool { return p >= last }))
			assert.Equal(t, seek-looks, l.seek)
			assert.LessOrEqual(t, looks, 7)
			assert.GreaterOrEqual(t, down.phase, last)
			if seek == 100 {
				assert.Equal(t, last, down.phase)
			}
		}
	}
}

// weighedLine is the bound by weighed chords on a line of a job 100 wide whose pattern
// repeats each 10, with pieces 51 wide, no two of which lie side by side.
func weighedLine(t *testing.T, free bool, pieces ...Piece) Claim {
	s, err := newStrip(&StripJob{Width: 100, Repeat: Repeat{Along: 10, FreeStart: free}, Pieces: pieces})
	require.NoError(t, err)
	l := newLines(s)
	l.survey(t.Context())
	c, ok := l.byWeighedLine(t.Context(), l.byLine(t.Context()))
	require.True(t, ok)
	return c
}

// Three pieces 8 high need three lines at all phases from 0 to 8: 20 and 8 more. Where
// others, one at a time, meet the lines before and after, those count that three meet.
func TestWeighedLinesByHand(t *testing.T) {
	piece := func(n int, h, from int64) Piece {
		return Piece{Count: n, Match: Y, Ways: []Way{{Ring: rectangle(0, 0, 51, h), Match: geom.Point{Y: -from}}}}
	}
	for _, free := range []bool{false, true} {
		assert.Equal(t, int64(28), weighedLine(t, free, piece(3, 8, 0)).Length, free)
	}
	assert.Equal(t, int64(27), weighedLine(t, false, piece(3, 3, 4), piece(1, 2, 1), piece(1, 1, 8)).Length)
	assert.Equal(t, int64(27), weighedLine(t, false, piece(3, 3, 4), piece(1, 1, 1), piece(1, 1, 2), piece(1, 1, 8)).Length)
	assert.Equal(t, int64(23), weighedLine(t, true, piece(3, 3, 4), piece(1, 2, 1), piece(1, 1, 8)).Length)
	// Three that widen from 4 to 52 and three that narrow need three lines at their ends, and
	// two where all are 28 wide: only the ends count, 2 apart over the end of the repeat.
	widen := Piece{Count: 3, Match: Y, Ways: []Way{{Ring: geom.Ring{{}, {X: 4}, {X: 52, Y: 8}, {Y: 8}}}}}
	narrow := Piece{Count: 3, Match: Y, Ways: []Way{{Ring: geom.Ring{{}, {X: 52}, {X: 4, Y: 8}, {Y: 8}}}}}
	assert.Equal(t, int64(22), weighedLine(t, true, widen, narrow).Length)
}

// Where no weighing can reach what is wanted, or the plain chords need as much, none is
// looked at, nor where work is out.
func TestHopelessWeighingsAreLeftOut(t *testing.T) {
	s, err := newStrip(&StripJob{Width: 100, Repeat: Repeat{Along: 10}, Pieces: []Piece{{Count: 3, Match: Y, Ways: []Way{{Ring: rectangle(0, 0, 51, 8)}}}}})
	require.NoError(t, err)
	l := newLines(s)
	d := l.load(sample{3, true}, false)
	for _, c := range []struct {
		work          int
		target, lines int64
		most          float64
	}{{1000, 1, 3, d.most}, {1000, 3, 3, d.most}, {1000, 4, 2, d.most}, {0, 1, 2, d.most}, {-1, 3, 2, d.most}, {1000, 1, 2, 2}} {
		w := &weigher{lines: l, work: c.work}
		look := d
		look.most = c.most
		assert.Equal(t, c.lines, w.need(look, c.target).lines, "%+v", c)
		assert.Equal(t, c.lines == 3, w.work < c.work, "%+v", c)
	}
}

// Outlines are cut into slabs while there is room for their corners.
func TestRoomForSlabs(t *testing.T) {
	s := &strip{job: &StripJob{Width: 10}, room: 9}
	for _, slabs := range []int{1, 1, 0, 0} {
		sh := s.slice(rectangle(0, 0, 3, 3))
		assert.Len(t, sh.slabs, slabs)
		assert.Equal(t, int64(3), sh.box.Width())
		s.room = min(s.room, 4) // just enough for the next
	}
}

// Two pieces that lie at any angle hold discs of 100 across, of which on 150 no two
// lie side by side where they are over 75 wide: on 64 of their height, as the polygons of
// 16 corners that stand for them. Their area takes 105.
func TestDiscsOfPiecesAtAnyAngle(t *testing.T) {
	round := make(geom.Ring, 0, 64)
	for k := range 64 {
		s, c := math.Sincos(float64(k) * math.Pi / 32)
		round = append(round, geom.Point{X: int64(math.Round(50_000 * c)), Y: int64(math.Round(50_000 * s))})
	}
	cs, err := Strip(t.Context(), StripJob{Width: 150_000, Pieces: []Piece{{Count: 2, AnyAngle: true, Ways: []Way{{Ring: round}}}}})
	require.NoError(t, err)
	assert.Equal(t, ByChords, cs[0].Method)
	assert.Greater(t, cs[0].Length, int64(2*64_000))
	assert.Less(t, cs[0].Length, int64(200_000))
}
