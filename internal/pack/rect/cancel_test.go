package rect

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/pack/gate"
)

// many is a job of many pieces of two scales, a fifth of them large.
func many(n int, turns Turns) *Job {
	rng := rand.New(rand.NewPCG(1, uint64(n)))
	j := &Job{Width: 2000}
	for i := range n {
		p := Piece{W: 20 + rng.Int64N(100), H: 20 + rng.Int64N(100), Count: 1, Turns: turns}
		if i%5 == 0 {
			p.W, p.H = 6*p.W, 6*p.H
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

func boxesOf(j *Job) []box {
	var out []box
	for _, p := range j.Pieces {
		out = append(out, box{p.W, p.H, p.Turns&QuarterTurn != 0})
	}
	return out
}

// A unit is about 2 ns: a tenth of a second is 5e7 of them.
const tenth = int64(5e7)

// Of the first layout only so much is done after an interrupt as takes a tenth of a second; it holds every box all the
// same.
func TestFirstLayoutEndsSoon(t *testing.T) {
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	j := many(MaxPieces, AnyTurn)
	boxes := boxesOf(j)
	p := newPlain(j.Width, 0, boxes, 1)
	assert.LessOrEqual(t, p.start(ended), tenth)
	require.Len(t, p.spots, len(boxes))
	assert.Equal(t, p.best, heightOf(boxes, p.spots))

	j.Flaws = []Flaw{{0, 1000, 100, 100}}
	o := newOrdered(j, j.parts(make([][]int64, len(j.Pieces))), 0, 1, nil)
	o.start(ended, 1<<40)
	assert.LessOrEqual(t, o.work, tenth)
	assert.Less(t, o.best, maxCoord)
}

// lookout notes the most work that a search does between two looks at its context.
type lookout struct {
	context.Context
	now       func() int64
	was, most int64
}

func (l *lookout) Err() error {
	now := l.now()
	l.most, l.was = max(l.most, now-l.was), now
	return nil
}

// A search looks at its context at least once in a tenth of a second, in all its parts.
func TestSearchLooksOften(t *testing.T) {
	p, most := looked(t, many(700, Upright), 4e7)
	assert.LessOrEqual(t, most, tenth/5)
	for _, w := range p.ws {
		assert.Positive(t, w.coarse.refilled)
		assert.Positive(t, w.did[0])
		assert.Positive(t, w.did[1])
	}
}

// looked is the most work that a search does between two looks.
func looked(t *testing.T, j *Job, units int64) (*plain, int64) {
	p := newPlain(j.Width, 0, boxesOf(j), 1)
	p.gate = gate.New(1) // one worker at a time, so that each look is that of the one at work
	p.start(t.Context())
	p.scale(t.Context())
	l := &lookout{Context: t.Context(), now: func() int64 { return p.ws[0].now() + p.ws[1].now() }}
	l.was = l.now()
	p.search(l, units, nil)
	return p, l.most
}
