package thread_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

func drawSize(t *rapid.T) thread.Size { return rapid.SampledFrom(thread.Sizes()).Draw(t, "size") }

func drawCount(t *rapid.T, label string) unit.LinearDensity {
	return unit.LinearDensity(math.Exp(rapid.Float64Range(math.Log(0.5), math.Log(4000)).Draw(t, label)))
}

// A count written in any system and read back is the same thread.
func TestCountsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawCount(t, "tex")
		c := rapid.SampledFrom(thread.CountSystems()).Draw(t, "system")
		x, err := c.In(d)
		require.NoError(t, err)
		back, err := c.Of(x)
		require.NoError(t, err)
		assert.InEpsilon(t, d.Tex(), back.Tex(), 1e-14)
	})
}

// A finer thread has more length per mass; systems that shrink give it the
// greater count, the others the smaller.
func TestFinerCountIsLonger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawCount(t, "a"), drawCount(t, "b")
		if a == b {
			return
		}
		fine, coarse := min(a, b), max(a, b)
		long, err := fine.Length(unit.Kilogram)
		require.NoError(t, err)
		short, err := coarse.Length(unit.Kilogram)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, long, short)
		for _, c := range thread.CountSystems() {
			xf, err := c.In(fine)
			require.NoError(t, err)
			xc, err := c.In(coarse)
			require.NoError(t, err)
			if c.Shrinks() {
				assert.GreaterOrEqual(t, xf, xc, c)
			} else {
				assert.LessOrEqual(t, xf, xc, c)
			}
		}
	})
}

// The two ways to the same count agree: package unit through exact fractions,
// this package through its constants.
func TestCountsAgreeWithUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawCount(t, "tex")
		for _, c := range []struct {
			system thread.CountSystem
			exact  func() (float64, error)
		}{
			{thread.CountMetric, d.MetricCount},
			{thread.CountCotton, d.CottonCount},
			{thread.CountYardsPerPound, d.YardsPerPound},
		} {
			want, err := c.exact()
			require.NoError(t, err)
			got, err := c.system.In(d)
			require.NoError(t, err)
			assert.InEpsilon(t, want, got, 1e-14, c.system)
		}
	})
}

func TestPlies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, n := drawCount(t, "single"), rapid.IntRange(1, 24).Draw(t, "plies")
		p, err := thread.Ply(d, n)
		require.NoError(t, err)
		// Fixed-length counts multiply by the plies, fixed-weight ones divide.
		single, err := thread.CountMetric.In(d)
		require.NoError(t, err)
		plied, err := thread.CountMetric.In(p)
		require.NoError(t, err)
		assert.InEpsilon(t, single/float64(n), plied, 1e-14)
	})
}

func drawSeam(t *rapid.T) thread.Seam {
	s := thread.Seam{
		Length:       unit.Length(rapid.Int64Range(int64(unit.Millimetre), int64(20*unit.Metre)).Draw(t, "length")),
		Thickness:    unit.Length(rapid.Int64Range(int64(100*unit.Micrometre), int64(10*unit.Millimetre)).Draw(t, "thickness")),
		Stitch:       rapid.SampledFrom([]thread.Stitch{101, 209, 301, 304, 401, 504, 516}).Draw(t, "stitch"),
		StitchLength: unit.Length(rapid.Int64Range(int64(unit.Millimetre), int64(10*unit.Millimetre)).Draw(t, "stitch length")),
		Width:        unit.Length(rapid.Int64Range(int64(unit.Millimetre), int64(10*unit.Millimetre)).Draw(t, "width")),
		Rows:         rapid.IntRange(0, 4).Draw(t, "rows"),
		Compression:  unit.Ratio(rapid.Float64Range(0, 0.9).Draw(t, "compression")),
		Balance:      unit.Ratio(rapid.Float64Range(0, 1).Draw(t, "balance")),
		BackTack:     unit.Length(rapid.Int64Range(0, 3).Draw(t, "tacks")) * unit.Centimetre,
		Closed:       rapid.Bool().Draw(t, "closed"),
	}
	if rapid.Bool().Draw(t, "with thread") {
		s.Thread = drawSize(t)
	}
	return s
}

// Thread use grows with length and thickness and falls with longer stitches
// and compression; a thicker thread has the longer way.
func TestConsumptionLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeam(t)
		if s.Stitch == thread.Lockstitch301 && rapid.Bool().Draw(t, "elliptic") {
			s.Model = thread.EllipticPath
		}
		use, err := thread.Consume(s)
		require.NoError(t, err)
		assert.Equal(t, use.Needle+use.Under, use.Total)
		rows := unit.Length(max(s.Rows, 1))
		assert.GreaterOrEqual(t, use.Needle, rows*s.Length-8, "a needle thread is at least as long as its rows")

		thicker := s
		thicker.Thickness += unit.Millimetre
		more, err := thread.Consume(thicker)
		require.NoError(t, err)
		assert.Greater(t, more.Total, use.Total)

		longer := s
		longer.Length *= 2
		twice, err := thread.Consume(longer)
		require.NoError(t, err)
		assert.InDelta(t, float64(2*use.Total), float64(twice.Total), 8)

		coarser := s
		coarser.StitchLength += unit.Millimetre
		less, err := thread.Consume(coarser)
		require.NoError(t, err)
		if s.Stitch != thread.Zigzag304 || s.Model == thread.SquarePath {
			assert.LessOrEqual(t, less.Total, use.Total+8)
		}
		if s.Thread != 0 {
			s.Thread = 0
			thin, err := thread.Consume(s)
			require.NoError(t, err)
			assert.Less(t, thin.Total, use.Total)
		}
	})
}

// The square path is never shorter than the elliptic one.
func TestSquareIsUpperBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeam(t)
		s.Stitch = thread.Lockstitch301
		square, err := thread.Consume(s)
		require.NoError(t, err)
		s.Model = thread.EllipticPath
		round, err := thread.Consume(s)
		require.NoError(t, err)
		assert.LessOrEqual(t, round.Needle, square.Needle+8)
		assert.LessOrEqual(t, round.Under, square.Under+8)
	})
}

// Every bobbin wound is used up or left over, places lie on the seam and
// changes go forward.
func TestTotalBooksBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := thread.Sewing{
			Tail:      unit.Length(rapid.Int64Range(0, 100).Draw(t, "tail")) * unit.Millimetre,
			Waste:     unit.Ratio(rapid.SampledFrom([]float64{0, 0.1, 0.15, 0.333}).Draw(t, "waste")),
			Restart:   unit.Length(rapid.Int64Range(0, 30).Draw(t, "restart")) * unit.Millimetre,
			Bobbin:    unit.Length(rapid.Int64Range(2, 60).Draw(t, "bobbin")) * unit.Metre,
			KeepWhole: rapid.Bool().Draw(t, "keep whole"),
			Cone:      500 * unit.Metre,
		}
		w.Seams = rapid.SliceOfN(rapid.Custom(drawSeam), 1, 8).Draw(t, "seams")
		c, err := thread.Total(w)
		require.NoError(t, err)
		require.Len(t, c.Seams, len(w.Seams))

		var bobbins, plain unit.Length
		for i, s := range w.Seams {
			alone, err := thread.Consume(s)
			require.NoError(t, err)
			plain += alone.Total
			assert.GreaterOrEqual(t, c.Seams[i].Total, alone.Total)
			if s.Stitch == thread.Lockstitch301 || s.Stitch == thread.Zigzag304 {
				bobbins += c.Seams[i].Under
			}
		}
		assert.GreaterOrEqual(t, c.Total, plain)
		assert.Equal(t, unit.Length(c.Bobbins)*w.Bobbin, bobbins+c.Left)
		assert.GreaterOrEqual(t, unit.Length(c.Cones)*w.Cone, c.Total)
		assert.Less(t, unit.Length(c.Cones-1)*w.Cone, c.Total)

		for i, ch := range c.Changes {
			s := w.Seams[ch.Seam]
			assert.Equal(t, i+2, ch.Bobbin)
			assert.True(t, ch.At >= 0 && ch.At <= s.Length, "%v of %v", ch.At, s.Length)
			assert.True(t, ch.Row >= 1 && ch.Row <= max(s.Rows, 1))
			if i == 0 {
				continue
			}
			before := c.Changes[i-1]
			assert.False(t, ch.Seam < before.Seam)
			if ch.Seam == before.Seam {
				assert.False(t, ch.Row < before.Row)
				if ch.Row == before.Row {
					assert.GreaterOrEqual(t, ch.At, before.At)
				}
			}
		}
	})
}

// Without bobbins, tails, tacks and waste the total is what the seams take.
func TestPlainTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeam(t)
		s.BackTack, s.Rows = 0, 1
		alone, err := thread.Consume(s)
		require.NoError(t, err)
		c, err := thread.Total(thread.Sewing{Seams: []thread.Seam{s, s}})
		require.NoError(t, err)
		assert.Equal(t, 2*alone.Total, c.Total)
		assert.Zero(t, c.Bobbins)
	})
}

// The heavier thread of two never gets the finer needle, nor the weaker seam,
// whatever the goods, the layers and the purpose.
func TestRecommendRisesWithSize(t *testing.T) {
	for _, g := range thread.AllGoods() {
		for layers := 1; layers <= 20; layers++ {
			for _, purpose := range []thread.Purpose{thread.JoinSeam, thread.TopStitch} {
				for _, f := range thread.Fibres() {
					var last thread.Recommendation
					for _, s := range thread.Sizes() {
						a, err := thread.Recommend(thread.Need{Goods: g, Layers: layers, Purpose: purpose, Fibre: f, Size: s})
						require.NoError(t, err)
						p := a.Best()
						assert.Equal(t, thread.Thread{Fibre: f, Size: s}, p.Thread)
						assert.GreaterOrEqual(t, p.Needle, last.Needle)
						assert.Greater(t, p.SeamStrength, last.SeamStrength)
						assert.False(t, p.Flags.Has(thread.NeedleTooFine) || p.Flags.Has(thread.NeedleTooCoarse))
						assert.True(t, p.Needles.Contains(p.Needle))
						last = p
					}
				}
			}
		}
	}
}

// Every recommendation starts inside the ranges it names, and the list is
// sorted by the number of flags.
func TestRecommendIsConsistent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := thread.Need{
			Goods:    rapid.SampledFrom(thread.AllGoods()).Draw(t, "goods"),
			Layers:   rapid.IntRange(1, 20).Draw(t, "layers"),
			Purpose:  rapid.SampledFrom([]thread.Purpose{thread.JoinSeam, thread.TopStitch}).Draw(t, "purpose"),
			Exposure: rapid.SampledFrom(thread.Exposures()).Draw(t, "exposure"),
			Strength: thread.LineForce(rapid.Float64Range(0, 60000).Draw(t, "strength")),
		}
		if rapid.Bool().Draw(t, "needle given") {
			r.Needle = rapid.SampledFrom(thread.Needles()).Draw(t, "needle")
		}
		a, err := thread.Recommend(r)
		require.NoError(t, err)
		require.Equal(t, 3, a.Len())
		flags := 0
		for _, p := range a.All() {
			spi, err := thread.StitchesPerInchOf(p.StitchLength)
			require.NoError(t, err)
			assert.True(t, spi >= p.Density.From && spi <= p.Density.To, "%v of %v to %v", spi, p.Density.From, p.Density.To)
			assert.NotEmpty(t, p.Reason)
			assert.NotZero(t, p.Basis.Status)
			assert.Equal(t, p.SeamStrength < r.Strength, p.Flags.Has(thread.ThreadTooWeak))
			n := len(p.Flags.Texts())
			assert.GreaterOrEqual(t, n, flags)
			flags = n
			if r.Needle != 0 {
				assert.Equal(t, r.Needle, p.Needle)
			}
			assert.Equal(t, r.Exposure == thread.Indoors, p.Thread.Fibre == thread.Nylon)
		}
	})
}

// More stitches and stronger thread carry more; goods cap the seam.
func TestStrengthLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := thread.LoadedSeam{
			Stitch:       rapid.SampledFrom([]thread.Stitch{301, 401, 209}).Draw(t, "stitch"),
			StitchLength: unit.Length(rapid.Int64Range(int64(unit.Millimetre), int64(10*unit.Millimetre)).Draw(t, "stitch length")),
			Needle:       unit.Force(rapid.Float64Range(1, 400).Draw(t, "needle")),
			Under:        unit.Force(rapid.Float64Range(0, 400).Draw(t, "under")),
			Goods:        thread.LineForce(rapid.Float64Range(100, 1e5).Draw(t, "goods")),
		}
		s, err := thread.Strength(l)
		require.NoError(t, err)
		assert.LessOrEqual(t, s.Seam, l.Goods)
		assert.LessOrEqual(t, s.Seam, s.Thread)
		share, ok := s.Efficiency.Value()
		require.True(t, ok)
		assert.Equal(t, s.Governs == thread.GoodsGovern, share > 1)
		assert.NotEmpty(t, s.Cautions)

		closer := l
		closer.StitchLength -= 100 * unit.Micrometre
		more, err := thread.Strength(closer)
		require.NoError(t, err)
		assert.Greater(t, more.Thread, s.Thread)

		l.Needle, l.Under = l.Under, l.Needle
		if l.Needle > 0 {
			same, err := thread.Strength(l)
			require.NoError(t, err)
			assert.Equal(t, s.Thread, same.Thread, "needle and bobbin thread count alike")
		}
	})
}

// What a type writes it reads back.
func TestTextRoundTrips(t *testing.T) {
	for _, s := range thread.Sizes() {
		text, err := s.MarshalText()
		require.NoError(t, err)
		var back thread.Size
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, s, back)
	}
	for _, n := range thread.Needles() {
		text, err := n.MarshalText()
		require.NoError(t, err)
		var back thread.Needle
		require.NoError(t, back.UnmarshalText(text), "%s", text)
		assert.Equal(t, n, back)
	}
	req := thread.Need{Goods: thread.Vinyl, Layers: 3, Size: thread.Size92, Fibre: thread.Polyester, Needle: 150, Purpose: thread.TopStitch}
	data, err := json.Marshal(req)
	require.NoError(t, err)
	var back thread.Need
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Equal(t, req, back)
	for _, beyond := range []any{thread.Size(12), thread.Fibre(3), thread.Goods(7), thread.Needle(61), thread.NeedlePoint(6), thread.Naming(8), thread.CountSystem(10), thread.Purpose(2), thread.Exposure(6), thread.Model(3), thread.Governs(2)} {
		_, err := json.Marshal(beyond)
		assert.ErrorIs(t, err, unit.ErrUnknown, "%T", beyond)
	}
}

// A sewing list survives JSON, and the answer can be written.
func TestSewingJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := thread.Sewing{Seams: []thread.Seam{drawSeam(t)}, Bobbin: 30 * unit.Metre}
		data, err := json.Marshal(w)
		require.NoError(t, err)
		var back thread.Sewing
		require.NoError(t, json.Unmarshal(data, &back), "%s", data)
		assert.Equal(t, w, back)
		c, err := thread.Total(w)
		require.NoError(t, err)
		_, err = json.Marshal(c)
		require.NoError(t, err)
	})
}

// The safety stitch is a chainstitch and an overedge stitch side by side: it
// takes the thread of both, needle and looper each.
func TestSafetyStitchIsTwoStitches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeam(t)
		s.Model, s.Rows = thread.SquarePath, 1
		s.Length = s.StitchLength // one stitch
		of := func(st thread.Stitch) thread.Usage {
			s.Stitch = st
			u, err := thread.Consume(s)
			require.NoError(t, err)
			return u
		}
		chain, edge, both := of(thread.Chainstitch401), of(thread.Overedge504), of(thread.Safety516)
		assert.InDelta(t, int64(chain.Needle+edge.Needle), int64(both.Needle), 2, "nanometres")
		assert.InDelta(t, int64(chain.Under+edge.Under), int64(both.Under), 2, "nanometres")
	})
}
