package nest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/geom"
)

// fading is a context that ends when it has been asked so many times.
type fading struct {
	context.Context
	left *atomic.Int64
}

func fadingAfter(n int64) fading {
	f := fading{context.Background(), new(atomic.Int64)}
	f.left.Store(n)
	return f
}

func (f fading) Err() error {
	if f.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

// circles are n different ones.
func circles(n int, turn Turn) (out []Piece) {
	for i := range n {
		var r geom.Ring
		for k := range Angle(72) {
			s, c := (k * 5 * Degree).sincos()
			r = append(r, geom.Pt(int64(float64(500+5*i)*c), int64(float64(500+5*i)*s)))
		}
		out = append(out, Piece{ID: fmt.Sprint(i), Ring: r, Turn: turn})
	}
	return out
}

// The stages of an effort are those of less effort, the last of which may be longer.
func TestStages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		effort := rapid.IntRange(1, 1<<30).Draw(t, "effort")
		all := slices.Collect(stages(effort))
		less := slices.Collect(stages(rapid.IntRange(1, effort).Draw(t, "less")))
		sum := 0
		for i, s := range all {
			require.Equal(t, sum, s.before)
			require.LessOrEqual(t, s.most, s.plan)
			if sum += s.most; i < len(less) {
				require.Equal(t, s.plan, less[i].plan)
				require.GreaterOrEqual(t, s.most, less[i].most)
			}
		}
		require.Equal(t, effort, sum)
		require.LessOrEqual(t, len(less), len(all))
	})
}

// efforts draws one and another that is greater, which end anywhere in the first stages.
func efforts(t *rapid.T) [2]int {
	less := rapid.IntRange(1, 7).Draw(t, "less effort")
	return [2]int{less, rapid.IntRange(less+1, 9).Draw(t, "more effort")}
}

// With the same seed more effort never gives a longer strip, wherever it ends.
func TestMoreEffortNeverLongens(t *testing.T) { few.Check(t, 3, moreEffortNeverLongens) }

func moreEffortNeverLongens(t *rapid.T) {
	job := StripJob{Width: 3000, Pieces: garment(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shapes"), 5)), rapid.IntRange(2, 9).Draw(t, "pieces"))}
	job.Seed = rapid.Uint64().Draw(t, "seed")
	if rapid.Bool().Draw(t, "free turning") {
		for i := range job.Pieces {
			job.Pieces[i].Turn = TurnAny()
		}
	}
	before := int64(0)
	for _, e := range efforts(t) {
		job.Effort = e
		l, err := Strip(context.Background(), job)
		require.NoError(t, err)
		if before > 0 {
			require.LessOrEqual(t, l.Length, before)
		}
		before = l.Length
	}
}

// Nor does it leave more pieces over, or take more hides, or dearer ones.
func TestMoreEffortNeverTakesMoreHides(t *testing.T) { few.Check(t, 3, moreEffortNeverTakesMoreHides) }

func moreEffortNeverTakesMoreHides(t *rapid.T) {
	job := HideJob{Pieces: garment(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shapes"), 5)), rapid.IntRange(2, 9).Draw(t, "pieces"))}
	for i := range job.Pieces {
		job.Pieces[i].Turn = TurnAny()
	}
	for k := range rapid.IntRange(1, 4).Draw(t, "hides") {
		job.Hides = append(job.Hides, roundHide(fmt.Sprint(k), 3000+300*float64(k), 200))
	}
	job.Seed = rapid.Uint64().Draw(t, "seed")
	type result struct{ left, hides, area int64 }
	var before *result
	for _, e := range efforts(t) {
		job.Effort = e
		l, err := Hides(context.Background(), job)
		require.NoError(t, err)
		now := result{int64(len(l.Unplaced)), int64(len(l.Used)), l.NetArea2}
		if before != nil {
			require.LessOrEqual(t, now.left, before.left)
			if before.left == 0 {
				require.LessOrEqual(t, now.hides, before.hides)
				if now.hides == before.hides {
					require.LessOrEqual(t, now.area, before.area)
				}
			}
		}
		before = &now
	}
}

// What it takes to begin counts: little effort on many different shapes is little
// work, and there is a layout all the same.
func TestEffortBoundsWork(t *testing.T) {
	for name, turn := range map[string]Turn{"tables": {}, "maps": TurnAny()} {
		pieces := circles(120, turn)
		out, err := Strip(context.Background(), StripJob{Width: 3000, Pieces: pieces, Options: Options{Effort: 1}})
		require.NoError(t, err, name)
		assert.Len(t, out.Placements, len(pieces), name)
		assert.Less(t, out.Work, int64(20_000_000), name)
	}
	out, err := Hides(context.Background(), HideJob{Hides: []Hide{roundHide("A", 10000, 300), roundHide("B", 10000, 300)},
		Pieces: []Piece{{Ring: rect(900, 700), Count: 300, Turn: TurnAny()}}, Options: Options{Effort: 1}})
	require.NoError(t, err)
	assert.Empty(t, out.Unplaced)
	assert.Less(t, out.Work, int64(4_000_000))
}

// A context that has ended leaves time for nothing but a layout to return: no table,
// no map. One that ends in the middle ends the search there.
func TestEndedContext(t *testing.T) {
	for _, turn := range []Turn{{}, TurnAny()} {
		job := StripJob{Width: 3000, Pieces: circles(120, turn), Options: Options{Effort: 1 << 20}}
		for after, most := range map[int64]int64{0: 100_000, 300: 30_000_000} {
			out, err := Strip(fadingAfter(after), job)
			require.NoError(t, err)
			assert.True(t, out.Stopped)
			assert.Len(t, out.Placements, 120)
			assert.Less(t, out.Work, most, "%d", after)
		}
	}
	job := HideJob{Hides: []Hide{roundHide("A", 10000, 300)}, Pieces: circles(40, TurnAny()), Options: Options{Effort: 1 << 20}}
	for after, most := range map[int64]int64{0: 1000, 300: 30_000_000} {
		out, err := Hides(fadingAfter(after), job)
		require.NoError(t, err)
		assert.True(t, out.Stopped)
		assert.Len(t, out.Placements, 40-len(out.Unplaced))
		assert.Less(t, out.Work, most, "%d", after)
	}
}

// The pair tables of many different circles stay within what is allowed for tables,
// as estimated and as built: on a coarse grid, or not at all.
func TestTablesAreBounded(t *testing.T) {
	for count, want := range map[int]bool{60: true, 150: true, 200: false} {
		cat, simple := newCatalogue(context.Background(), circles(count, Turn{}), 0)
		require.True(t, simple)
		held, _ := cat.setGrid(1 << 40)
		require.Equal(t, want, held, count)
		if !held {
			continue
		}
		work, size := cat.tableCost(int64(cat.cells))
		require.LessOrEqual(t, size, int64(mostTableBytes))
		var built, steps, n int64
		for a := 0; a < count; a += 17 {
			for b := a; b < count; b += 13 {
				tab := cat.table(a, b)
				built += int64(8*len(tab.cells)+24*cap(tab.edges)) + 120
				steps += tab.work
				n++
			}
		}
		pairs := int64(len(cat.tables))
		assert.Less(t, built*pairs/n, int64(mostTableBytes)*5/4, count)
		assert.InEpsilon(t, work, steps*pairs/n, 0.4, "the estimate that chooses the grid")
	}
}

// The memory of a search goes by the job, not by the shapes: for two hundred different
// circles it holds less than 50 MB, by maps and, where a flaw leaves no choice, by as many
// tables as may be. What was let go and not yet freed does not count: it goes by how busy
// the machine is.
func TestMemoryIsBounded(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(10))
	sample := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	held := func() uint64 {
		metrics.Read(sample)
		return sample[0].Value.Uint64()
	}
	jobs := map[string]StripJob{
		"maps":         {Pieces: circles(200, Turn{})},
		"free turning": {Pieces: circles(200, TurnAny())},
		"tables":       {Pieces: circles(150, Turn{}), Flaws: []geom.Box{flaw(3, 2, 6, 20)}},
	}
	for name, job := range jobs {
		runtime.GC()
		before, peak := held(), uint64(0)
		job.Width, job.Effort = 3000, 1
		job.Progress = func(Progress) { peak = max(peak, held()) }
		_, err := Strip(context.Background(), job)
		require.NoError(t, err, name)
		assert.Positive(t, peak, name)
		assert.Less(t, peak, before+50<<20, name)
		t.Logf("%s: %d MB", name, (max(peak, before)-before)>>20)
	}
}
