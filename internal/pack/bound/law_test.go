package bound_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// anyJob draws a job of up to 12 pieces with outlines of every kind.
func anyJob(seed uint64, size int64) bound.StripJob {
	r := rand.New(rand.NewPCG(seed, 3))
	j := bound.StripJob{Width: size + r.Int64N(2*size), Whole: r.IntN(2) == 0}
	if r.IntN(4) == 0 {
		j.Gap = r.Int64N(size/8 + 1)
	}
	if r.IntN(4) > 0 {
		j.Repeat = bound.Repeat{Across: r.Int64N(size), Along: r.Int64N(2 * size), FirstX: r.Int64N(size), FirstY: r.Int64N(2*size) - size, FreeStart: r.IntN(3) == 0}
		if j.Repeat.Across > 0 && j.Repeat.Along > 0 && r.IntN(3) == 0 {
			for range 2 + r.IntN(3) {
				j.Repeat.Falls = append(j.Repeat.Falls, r.Int64N(2*size)-size)
			}
		}
	}
	for range 1 + r.IntN(4) {
		p := bound.Piece{Count: 1 + r.IntN(3), Match: bound.Axes(r.IntN(4)), AnyAngle: r.IntN(8) == 0}
		ring := bound.Star(r, 4+r.IntN(20), max(2, size/2))
		for range 1 + r.IntN(3) {
			p.Ways = append(p.Ways, bound.Ways(ring, geom.Point{X: r.Int64N(size), Y: r.Int64N(size)}, geom.Transform(r.IntN(8)))...)
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// stacked is the length of a layout that lays the pieces one after the other,
// each at the first place that the pattern allows. Some job has none like that.
func stacked(j bound.StripJob) (int64, bool) {
	y, r := int64(0), j.Repeat
	for _, p := range j.Pieces {
		for range p.Count {
			end := int64(math.MaxInt64)
			for _, w := range p.Ways {
				b := w.Ring.Bounds()
				for x := -b.Min.X; x+b.Max.X <= j.Width; x++ {
					col := int64(0)
					if r.Across > 0 {
						d := w.Match.X + x - r.FirstX
						if p.Match&bound.X != 0 && d%r.Across != 0 && !p.AnyAngle {
							continue
						}
						col = (d - ((d%r.Across)+r.Across)%r.Across) / r.Across
					}
					up := y - b.Min.Y
					if p.Match&bound.Y != 0 && r.Along > 0 && !p.AnyAngle {
						fall := int64(0)
						if n := int64(len(r.Falls)); n > 0 {
							fall = r.Falls[((col%n)+n)%n]
						}
						m := (r.FirstY - fall - w.Match.Y - up) % r.Along
						up += (m + r.Along) % r.Along
					}
					end = min(end, up+b.Max.Y)
				}
			}
			if end == math.MaxInt64 {
				return 0, false
			}
			y = end + j.Gap
		}
	}
	return y - j.Gap, true
}

// lawful checks what must hold of the bounds of any job.
func lawful(t require.TestingT, j bound.StripJob) {
	cs, err := bound.Strip(context.Background(), j)
	var bad *bound.InputError
	if err != nil {
		require.ErrorAs(t, err, &bad)
		return
	}
	require.GreaterOrEqual(t, len(cs), 2)
	for i, c := range cs {
		require.GreaterOrEqual(t, c.Length, int64(0))
		require.True(t, i == 0 || cs[i-1].Length >= c.Length, "best first")
		require.True(t, c.Phase == 0 || c.Phase > 0 && c.Phase < j.Repeat.Along, "%+v", c)
		require.True(t, c.Line >= 0 && c.Line <= c.Length, "%+v", c)
		require.NotEqual(t, "unknown method", c.Method.String())
	}
	if length, ok := stacked(j); ok {
		require.LessOrEqual(t, cs[0].Length, length, "%+v", cs[0])
	}
}

func TestNoBoundExceedsAStack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lawful(t, anyJob(rapid.Uint64().Draw(t, "seed"), rapid.Int64Range(2, 200).Draw(t, "size")))
	})
}

// The same pieces told otherwise have the same bound: shifted with their match
// points, in another order, copies listed one by one, the pattern named by
// another of its motifs, mirrored goods.
func TestSameJobSameBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		small := rapid.Bool().Draw(t, "small")
		j := anyJob(seed, rapid.Int64Range(2, 100).Draw(t, "size"))
		if small {
			j = smallJob(rand.New(rand.NewPCG(seed, 4)))
		}
		want, err := bound.Best(context.Background(), j)
		if err != nil {
			t.Skip("refused")
		}
		same := func(name string, k bound.StripJob) {
			got, err := bound.Best(context.Background(), k)
			require.NoError(t, err, name)
			assert.Equal(t, want.Length, got.Length, name)
		}
		each := func(f func(bound.Way) bound.Way) []bound.Piece {
			out := slices.Clone(j.Pieces)
			for i := range out {
				out[i].Ways = slices.Clone(out[i].Ways)
				for k := range out[i].Ways {
					out[i].Ways[k] = f(out[i].Ways[k])
				}
			}
			return out
		}
		shift := geom.Point{X: rapid.Int64Range(-500, 500).Draw(t, "x"), Y: rapid.Int64Range(-500, 500).Draw(t, "y")}
		k := j
		k.Pieces = each(func(w bound.Way) bound.Way {
			return bound.Way{Ring: w.Ring.Translate(shift), Match: w.Match.Add(shift)}
		})
		same("shifted", k)
		k.Pieces = slices.Clone(j.Pieces)
		slices.Reverse(k.Pieces)
		same("other order", k)
		k.Pieces = nil
		for _, p := range j.Pieces {
			for range p.Count {
				p.Count = 1
				k.Pieces = append(k.Pieces, p)
			}
		}
		same("one by one", k)
		k = j
		k.Repeat.FirstY += 3 * k.Repeat.Along
		k.Repeat.FirstX -= k.Repeat.Across * int64(max(1, len(k.Repeat.Falls)))
		same("another motif", k)
		if !small {
			return // sides that slant anyhow are rounded otherwise
		}
		k = j
		k.Repeat.FirstX = k.Width - j.Repeat.FirstX
		if n := len(k.Repeat.Falls); n > 0 {
			k.Repeat.Falls = make([]int64, n)
			for i, f := range j.Repeat.Falls {
				k.Repeat.Falls[(n-i)%n] = f
			}
		}
		k.Pieces = each(func(w bound.Way) bound.Way {
			return bound.Way{Ring: w.Ring.Transform(geom.MirrorX).Translate(geom.Point{X: k.Width}), Match: geom.Point{X: k.Width - w.Match.X, Y: w.Match.Y}}
		})
		same("mirrored goods", k)
	})
}

// A piece that may lie at any angle may lie upright, so its bound is no larger;
// and a job without a pattern is no longer than with it.
func TestFreedomShortens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(rapid.Uint64().Draw(t, "seed"), rapid.Int64Range(8, 200).Draw(t, "size"))
		if j.Repeat.FreeStart {
			j.Repeat.FreeStart = false
		}
		bounds := func(j bound.StripJob) (area, longest int64, ok bool) {
			cs, err := bound.Strip(context.Background(), j)
			if err != nil {
				return 0, 0, false
			}
			for _, c := range cs {
				switch c.Method {
				case bound.ByArea:
					area = c.Length
				case bound.ByLongest:
					longest = c.Length
				}
			}
			return area, longest, true
		}
		area, longest, ok := bounds(j)
		if !ok {
			t.Skip("refused")
		}
		j.Repeat = bound.Repeat{}
		a, l, ok := bounds(j)
		require.True(t, ok)
		assert.LessOrEqual(t, a, area)
		assert.LessOrEqual(t, l, longest)
		j.Pieces = slices.Clone(j.Pieces)
		for i := range j.Pieces {
			j.Pieces[i].AnyAngle = true
		}
		free, l, ok := bounds(j)
		require.True(t, ok)
		assert.Equal(t, a, free, "turning keeps the area")
		assert.LessOrEqual(t, l, longest)
	})
}

func TestCancelledWorkGivesWhatIsProved(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	cs, err := bound.Strip(ctx, fifty(57, 1))
	require.NoError(t, err)
	require.Len(t, cs, 2)
	hs, err := bound.Hides(ctx, bound.HideJob{Hides: []bound.Hide{{Outer: box(0, 0, 9, 9)}}, Pieces: []bound.Piece{{Count: 1, Ways: []bound.Way{{Ring: box(0, 0, 3, 3)}}}}})
	require.NoError(t, err)
	require.Len(t, hs, 1)
}

func TestRefusedJobs(t *testing.T) {
	one := []bound.Way{{Ring: box(0, 0, 3, 3)}}
	fine := bound.StripJob{Width: 10, Repeat: bound.Repeat{Across: 4, Along: 4}, Pieces: []bound.Piece{{Count: 1, Ways: one}}}
	for _, c := range []struct {
		field  string
		change func(*bound.StripJob)
	}{
		{"Width", func(j *bound.StripJob) { j.Width = 0 }},
		{"Gap", func(j *bound.StripJob) { j.Gap = -1 }},
		{"Repeat.Across", func(j *bound.StripJob) { j.Repeat.Across = -1 }},
		{"Repeat.Along", func(j *bound.StripJob) { j.Repeat.Along = geom.MaxCoord + 1 }},
		{"Repeat.FirstX", func(j *bound.StripJob) { j.Repeat.FirstX = math.MinInt64 }},
		{"Repeat.FirstY", func(j *bound.StripJob) { j.Repeat.FirstY = math.MaxInt64 }},
		{"Repeat.Falls", func(j *bound.StripJob) { j.Repeat.Across, j.Repeat.Falls = 0, []int64{0, 1} }},
		{"Repeat.Falls[1]", func(j *bound.StripJob) { j.Repeat.Falls = []int64{0, math.MinInt64} }},
		{"Pieces[0].Count", func(j *bound.StripJob) { j.Pieces[0].Count = 0 }},
		{"Pieces[0].Match", func(j *bound.StripJob) { j.Pieces[0].Match = 4 }},
		{"Pieces[0].Ways[0].Ring", func(j *bound.StripJob) { j.Pieces[0].Ways[0].Ring = box(0, 0, 3, 0) }},
		{"Pieces[0].Ways[0].Match", func(j *bound.StripJob) { j.Pieces[0].Ways[0].Match.X = math.MinInt64 }},
		{"Pieces[0].Ways", func(j *bound.StripJob) { j.Pieces[0].Ways[0].Ring = box(0, 0, 11, 3) }},
		{"Pieces[0].Ways[0]", func(j *bound.StripJob) { j.Pieces[0].AnyAngle, j.Pieces[0].Ways[0].Ring = true, box(0, 0, 11, 11) }},
		{"Pieces[0].Ways", func(j *bound.StripJob) { j.Pieces[0].Ways = nil }},
		{"Pieces[0].Ways", func(j *bound.StripJob) { j.Pieces[0].Match, j.Width = bound.X, 3; j.Pieces[0].Ways[0].Match.X = 1 }},
		{"Pieces[0].Ways[0].Ring", func(j *bound.StripJob) {
			j.Pieces[0].Ways[0].Ring = append(box(0, 0, 3, 3), geom.Point{X: math.MinInt64})
		}},
	} {
		j := fine
		j.Pieces = []bound.Piece{fine.Pieces[0]}
		j.Pieces[0].Ways = slices.Clone(one)
		c.change(&j)
		_, err := bound.Best(context.Background(), j)
		var bad *bound.InputError
		require.ErrorAs(t, err, &bad, c.field)
		assert.Equal(t, c.field, bad.Field)
		assert.Contains(t, err.Error(), "want ")
	}
}

func FuzzStrip(f *testing.F) {
	for seed := range uint64(8) {
		f.Add(seed, int64(5+40*seed))
	}
	f.Fuzz(func(t *testing.T, seed uint64, size int64) {
		lawful(t, anyJob(seed, 2+(size%500+500)%500))
	})
}
