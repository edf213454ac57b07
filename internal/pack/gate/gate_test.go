package gate_test

import (
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/internal/pack/gate"
)

func TestNoMoreAtOnceThanPlaces(t *testing.T) {
	for _, places := range []int{1, 2, 3} {
		g := gate.New(places)
		var inside, most, done atomic.Int64
		var wg sync.WaitGroup
		for range 20 {
			wg.Go(func() {
				g.Do(func() {
					n := inside.Add(1)
					for old := most.Load(); n > old && !most.CompareAndSwap(old, n); old = most.Load() {
					}
					inside.Add(-1)
					done.Add(1)
				})
			})
		}
		wg.Wait()
		assert.LessOrEqual(t, most.Load(), int64(places))
		assert.Equal(t, int64(20), done.Load())
	}
}

func TestWithoutPlacesAllPass(t *testing.T) {
	g := gate.New(0)
	g.Enter()
	g.Enter()
	g.Leave()
	g.Leave()
}
