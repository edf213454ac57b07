package layout

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"

	"github.com/coverwright/coverwright/unit"
)

func jobNamed(t require.TestingT, name string) Job {
	all := patternedJobs()
	i := slices.IndexFunc(all, func(c patternedJob) bool { return c.name == name })
	require.GreaterOrEqual(t, i, 0, name)
	return all[i].job(t)
}

// What matching costs in worked jobs whose optimum complete search has proved, with
// all pieces bound, with none, and without each of them; quarters of an inch.
func TestCompareMatching(t *testing.T) {
	for _, c := range []struct {
		job         string
		need, plain unit.Length
		across      unit.Length   // zero where it is not known
		without     []unit.Length // by piece; none where it is not known
	}{
		// The inside back, the cushion, the boxing, the border and the skirt.
		{job: "chair chain with skirt", need: 226, plain: 164, across: 164, without: []unit.Length{190, 190, 226, 190, 188}},
		{job: "three cushions with fronts", need: 328, plain: 200, without: []unit.Length{228, 208}},
		{job: "four backs, motif inside", need: 204, plain: 192, without: []unit.Length{192}},
		{job: "four backs, motif at the edge", need: 420, plain: 192},
		{job: "four backs, half drop", need: 258, plain: 192},
		{job: "six seats", need: 140, plain: 136},
		{job: "six seats, half drop", need: 176, plain: 136},
		{job: "arms as a pair", need: 197, plain: 96},
		{job: "joined back, two motifs across", need: 320, plain: 208},
		{job: "joined back, three motifs across", need: 212, plain: 208},
		{job: "sofa up the roll", need: 422, plain: 404},
		{job: "sofa railroaded", need: 336, plain: 336},
	} {
		p, err := Solve(t.Context(), jobNamed(t, c.job), Options{Effort: 0.05})
		require.NoError(t, err)
		require.Equal(t, c.need*in/4, p.Need, c.job)
		m, err := CompareMatching(t.Context(), p, Options{Effort: 0.1})
		require.NoError(t, err)
		assert.Equal(t, c.plain*in/4, m.Plain.Need, c.job)
		assert.True(t, m.Plain.Exact, c.job)
		assert.Zero(t, m.Plain.Spare)
		assert.Equal(t, m.Plain.Saved+p.Spare, m.Plain.Less, "the seller cuts to any length")
		require.NotNil(t, m.Across, c.job)
		if c.across > 0 {
			assert.Equal(t, c.across*in/4, m.Across.Need, c.job)
		}
		assert.Len(t, m.Wishes, len(p.Job.Pieces), c.job)
		for _, w := range m.Wishes {
			if len(c.without) > 0 {
				assert.Equal(t, c.without[w.Piece]*in/4, w.Need, "%s without %d", c.job, w.Piece)
			}
		}
	}
}

// The laws of dropping wishes: nothing gets longer, plain goods take least, and
// what is called proved stands against more effort.
func TestCompareMatchingLaws(t *testing.T) {
	few.Check(t, 12, func(t *rapid.T) {
		c := drawCoarse(t, 5)
		c.roll.Increment = unit.Length(rapid.IntRange(0, 3).Draw(t, "increment")) * in
		p, ok := c.solve(t)
		if !ok || len(p.Job.Wishes()) == 0 {
			return
		}
		m, err := CompareMatching(t.Context(), p, quick)
		require.NoError(t, err)
		sound := func(r Relaxed, j Job) {
			assert.GreaterOrEqual(t, r.Saved, unit.Length(0))
			assert.GreaterOrEqual(t, r.Less, unit.Length(0))
			assert.Equal(t, p.Need, r.Need+r.Saved)
			assert.Equal(t, p.Order, r.Order+r.Less)
			assert.GreaterOrEqual(t, r.Need, m.Plain.Need)
			assert.LessOrEqual(t, r.Order-r.Need-r.Spare, max(0, c.roll.Increment-1))
			q, err := Solve(t.Context(), j, light)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, r.Need, q.Bound().Length)
			if r.Proved {
				assert.LessOrEqual(t, r.Need, q.Need)
			}
			if r.Exact && q.Proved {
				assert.Equal(t, q.Need, r.Need)
			}
		}
		sound(m.Plain, p.Job.free(p.Job.Wishes()...))
		assert.Zero(t, m.Plain.Spare)
		if m.Across != nil {
			// Goods without a repeat along the roll bind across alone.
			flat := p.Job
			roll := c.roll
			roll.Repeat, roll.Drop = 0, material.Drop{}
			flat.Roll = &roll
			sound(*m.Across, flat)
		}
		for i, w := range m.Wishes {
			sound(w.Relaxed, p.Job.free(w.Piece))
			assert.NotEqual(t, Unbound, p.Job.Pieces[w.Piece].Phase.Axes)
			if i > 0 {
				assert.LessOrEqual(t, w.Less, m.Wishes[i-1].Less, "largest saving first")
			}
		}
		assert.Len(t, m.Wishes, len(p.Job.Wishes())-m.Untried)
		one := quick
		one.Workers = 1
		again, err := CompareMatching(t.Context(), p, one)
		require.NoError(t, err)
		assert.Equal(t, m, again)
	})
}

// On goods that run sideways the repeat along the roll is the horizontal one:
// across alone keeps the heights, which lie across the roll.
func TestCompareMatchingSideways(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Repeat: 27 * in, Across: 27 * in, First: inches(13, 0), Up: material.UpToRight}
	p, err := onRoll(roll, pieces(cloth{width: 25 * in, length: 22 * in, count: 3, motif: inches(12, 11)}), light)
	require.NoError(t, err)
	m, err := CompareMatching(t.Context(), p, light)
	require.NoError(t, err)
	roll.Across = 0
	flat, err := onRoll(roll, p.Job.Pieces, light)
	require.NoError(t, err)
	require.NotNil(t, m.Across)
	assert.Equal(t, flat.Need, m.Across.Need)
	assert.Positive(t, m.Across.Saved)
	assert.True(t, m.Across.Exact)
}

// Of many wishes those with most cloth are tried, and the rest is counted.
func TestCompareMatchingTriesTheLargest(t *testing.T) {
	var ps []Piece
	for i := range MostWishes + 3 {
		ps = append(ps, cloth{width: unit.Length(10+i) * in, length: 7 * in, count: 1}.piece())
	}
	p, err := onRoll(material.Roll{Width: 54 * in, Repeat: 9 * in}, ps, quick)
	require.NoError(t, err)
	m, err := CompareMatching(t.Context(), p, quick)
	require.NoError(t, err)
	assert.Len(t, m.Wishes, MostWishes)
	assert.Equal(t, 3, m.Untried)
	assert.Nil(t, m.Across, "nothing binds across")
	for _, w := range m.Wishes {
		assert.GreaterOrEqual(t, w.Piece, 3, "the three smallest are left")
	}
}

// A context that has ended gives plain goods as they are laid at once, and no wish.
func TestCompareMatchingStops(t *testing.T) {
	p, err := Solve(t.Context(), jobNamed(t, "chair chain with skirt"), light)
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	m, err := CompareMatching(ctx, p, light)
	require.NoError(t, err)
	assert.True(t, m.Stopped)
	assert.LessOrEqual(t, m.Plain.Need, p.Need)
	assert.Empty(t, m.Wishes)
	assert.Equal(t, 5, m.Untried)

	ctx, cancel = context.WithCancel(t.Context())
	defer cancel()
	o := light
	o.Progress = func(s Progress) { // the trials share the whole
		if s.Done > 0.5 {
			cancel()
		}
	}
	m, err = CompareMatching(ctx, p, o)
	require.NoError(t, err)
	assert.True(t, m.Stopped)
	assert.Equal(t, 5, len(m.Wishes)+m.Untried)
	assert.Positive(t, m.Untried)
	assert.NotEmpty(t, m.Wishes)
}

func TestCompareMatchingRefuses(t *testing.T) {
	p, err := Solve(t.Context(), jobNamed(t, "six seats"), light)
	require.NoError(t, err)
	_, err = CompareMatching(t.Context(), Plan{}, light)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = CompareMatching(t.Context(), p, Options{Effort: -1})
	require.ErrorIs(t, err, unit.ErrRange)
	short := p
	short.Need--
	_, err = CompareMatching(t.Context(), short, light)
	require.ErrorIs(t, err, ErrBadLayout)
	free, err := Solve(t.Context(), p.Job.free(0), light)
	require.NoError(t, err)
	_, err = CompareMatching(t.Context(), free, light)
	require.ErrorIs(t, err, unit.ErrRange)
}
