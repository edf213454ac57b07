package bench_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/unit"
)

func anyBuild(t *rapid.T) bench.Build {
	u := bench.Usual()
	p := rapid.SampledFrom(u.Pieces).Draw(t, "piece")
	b := bench.Build{Piece: p.Name, Match: rapid.Bool().Draw(t, "match"), Share: ratio(unit.Ratio(rapid.IntRange(0, 20).Draw(t, "share")) / 20)}
	if p.Per > 0 {
		b.Length = unit.Inch * unit.Length(rapid.IntRange(1, 600).Draw(t, "length"))
	}
	if rapid.Bool().Draw(t, "in goods") {
		b.Goods = rapid.SampledFrom(u.Goods).Draw(t, "goods").Name
	}
	for _, e := range u.Extras {
		switch {
		case !rapid.Bool().Draw(t, e.Name):
		case e.Per > 0:
			b.Extras = append(b.Extras, bench.Work{Extra: e.Name, Length: unit.Inch * unit.Length(rapid.IntRange(1, 600).Draw(t, "run"))})
		default:
			b.Extras = append(b.Extras, bench.Work{Extra: e.Name, Count: rapid.IntRange(1, 60).Draw(t, "count")})
		}
	}
	return b
}

func estimate(t *rapid.T, b bench.Build) bench.Estimate {
	e, err := bench.Usual().Estimate(b)
	require.NoError(t, err)
	return e
}

// Lines add up to the total; what is usual lies within its range; times are whole
// minutes; and what is usual is cautioned of nowhere.
func TestLawLinesAddUp(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		e := estimate(t, anyBuild(t))
		var sum bench.Estimate
		for _, l := range e.Lines {
			sum.Time.From += l.Time.From
			sum.Time.To += l.Time.To
			sum.Usual += l.Usual
			require.LessOrEqual(t, l.Time.From, l.Usual, l.Name())
			require.LessOrEqual(t, l.Usual, l.Time.To, l.Name())
			require.Zero(t, l.Usual%unit.Minute)
			said, err := l.Caution(l.Usual)
			require.NoError(t, err)
			require.Empty(t, said)
		}
		require.Equal(t, sum.Time, e.Time)
		require.Equal(t, sum.Usual, e.Usual)
	})
}

// More to do never takes less time: a task, an extra, slower goods, a match, a larger
// share.
func TestLawMoreTakesNoLess(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		more := anyBuild(t)
		less := more
		less.Extras = slices.Clone(more.Extras)
		switch rapid.SampledFrom([]string{"extra", "goods", "match", "share", "task"}).Draw(t, "less of") {
		case "extra":
			less.Extras = less.Extras[:len(less.Extras)/2]
		case "goods":
			less.Goods = ""
		case "match":
			less.Match = false
		case "share":
			less.Share = ratio(*more.Share / 2)
		case "task":
			// What was held in a task that is done elsewhere is counted by itself.
			less.Extras, more.Extras = nil, nil
			less.Tasks = []bench.Task{bench.Strip, bench.Cut, bench.Cover}
		}
		a, b := estimate(t, less), estimate(t, more)
		require.LessOrEqual(t, a.Usual, b.Usual)
		require.LessOrEqual(t, a.Time.To, b.Time.To)
	})
}

// The order in which tasks and extras are named does not matter to the time.
func TestLawOrder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b := anyBuild(t)
		b.Tasks = bench.Tasks()
		turned := b
		turned.Tasks, turned.Extras = slices.Clone(b.Tasks), slices.Clone(b.Extras)
		slices.Reverse(turned.Tasks)
		slices.Reverse(turned.Extras)
		require.Equal(t, estimate(t, b).Usual, estimate(t, turned).Usual)
	})
}

// Whatever a table and a build say, an answer is one with a sound range or an error;
// nothing panics.
func FuzzEstimate(f *testing.F) {
	f.Add(int64(unit.Hour), int64(2*unit.Hour), 1.2, 0.3, int64(unit.Foot), int64(unit.Yard), 3, 0.5, uint8(5))
	f.Add(int64(1000*unit.Hour), int64(1000*unit.Hour), 10.0, 2.0, int64(unit.Centimetre), int64(1000*unit.Metre), 100_000, 1.0, uint8(1))
	f.Fuzz(func(t *testing.T, from, to int64, factor, match float64, per, length int64, count int, share float64, task uint8) {
		span := bench.Span{From: unit.Duration(from), To: unit.Duration(to)}
		own := bench.Table{
			Pieces: []bench.Piece{{Name: "p", Per: unit.Length(per), Sew: span}},
			Extras: []bench.Extra{{Name: "n", Task: bench.Task(task), Time: span}, {Name: "r", Task: bench.Sew, Per: unit.Length(per), Time: span}},
			Goods:  []bench.Goods{{Name: "g", Factor: bench.Factor{From: unit.Ratio(factor), To: unit.Ratio(factor)}}},
			Match:  bench.Factor{To: unit.Ratio(match)},
		}
		e, err := own.Estimate(bench.Build{Piece: "p", Length: unit.Length(length), Goods: "g", Match: true, Share: ratio(unit.Ratio(share)),
			Extras: []bench.Work{{Extra: "n", Count: count}, {Extra: "r", Length: unit.Length(length)}}})
		if err != nil {
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			return
		}
		require.LessOrEqual(t, unit.Duration(0), e.Time.From)
		require.LessOrEqual(t, e.Time.From, e.Usual)
		require.LessOrEqual(t, e.Usual, e.Time.To)
	})
}
