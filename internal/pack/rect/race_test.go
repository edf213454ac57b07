package rect

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/pack/gate"
)

// drawn is a search whose steps take drawn amounts of work, some of them that of many slices, and which goes on by what it
// knows. A step that the limit cuts off finds nothing.
type drawn struct {
	known[int]
	r            *race[int]
	rng          rnd
	long         int
	units, limit int64
}

func (d *drawn) ready(_ context.Context, limit int64) { d.limit = limit }
func (d *drawn) count(most int64)                     { d.units = min(d.units, most) }

func (d *drawn) work(end int64) {
	for d.units < min(end, d.limit) && d.best > d.r.bound && !d.r.solved(d.units) {
		step := int64(1000 + d.rng.intn(1<<16))
		if d.rng.intn(4) == 0 {
			step += int64(d.rng.intn(d.long))
		}
		gain := int64(1)<<d.rng.intn(30) - 1<<20
		if d.units+step > d.limit {
			d.units = d.limit
			return
		}
		d.units += step
		if gain > 0 {
			d.r.better(&d.known, found[int]{max(d.r.bound, d.best-gain), d.units, []int{int(d.units)}})
		}
		for range d.best % 7 { // what it knows leads elsewhere
			d.rng.next()
		}
	}
}

func run(seed uint64, long int, atOnce int, units ...int64) *race[int] {
	r := &race[int]{gate: gate.New(atOnce)}
	r.init(0, 1<<40)
	ss := make([]searcher[int], 3)
	for i := range ss {
		d := &drawn{r: r, rng: rnd{seed + uint64(i)*977}, long: long}
		d.best = 1 << 40
		ss[i] = d
	}
	for _, n := range units {
		r.run(context.Background(), ss, n, nil)
	}
	return r
}

func TestRaceKeepsWhatLessWorkFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, long := rapid.Uint64().Draw(t, "seed"), rapid.IntRange(1<<20, 1<<23).Draw(t, "long step")
		for seed := from; seed != from+50; seed++ { // drawn numbers are often small
			g := rnd{seed * 31}
			less := int64(g.intn(1 << 24))
			more := less + int64(g.intn(1<<21))
			a, b := run(seed, long, 1, less), run(seed, long, 3, more)
			require.LessOrEqual(t, b.best, a.best, seed)
			again := run(seed, long, 1, more)
			require.Equal(t, b.best, again.best)
			require.Equal(t, b.spots, again.spots)
		}
	})
}

func TestRaceTellsOfLayoutsInTime(t *testing.T) {
	r := &race[int]{}
	r.init(0, 100)
	early, late := &drawn{}, &drawn{}
	early.finds = []found[int]{{90, 5, []int{1}}, {70, 20, []int{2}}}
	late.finds = []found[int]{{90, 4, []int{3}}}
	ss := []searcher[int]{early, late}
	r.tell(ss, 10)
	assert.Equal(t, int64(90), r.best)
	assert.Equal(t, []int{3}, r.spots) // took less work
	r.tell(ss, 19)
	assert.Equal(t, int64(90), r.best) // the other is not there yet
	r.tell(ss, 20)
	assert.Equal(t, int64(70), r.best)
	assert.Empty(t, early.finds)
}

// Work beyond the least with which the bound was reached is pointless.
func TestRaceNotesTheLeastWork(t *testing.T) {
	r := &race[int]{}
	r.init(10, 100)
	var k known[int]
	for _, c := range []struct{ length, at, solved int64 }{{11, 2, math.MaxInt64}, {10, 7, 7}, {10, 9, 7}, {9, 3, 3}, {8, 3, 3}} {
		r.better(&k, found[int]{c.length, c.at, nil})
		assert.Equal(t, c.solved, r.solvedAt.Load(), "%+v", c)
		assert.Equal(t, c.length, k.best)
		for at := range int64(10) {
			assert.Equal(t, at > c.solved, r.solved(at))
		}
	}
	assert.Len(t, k.finds, 5)
}
