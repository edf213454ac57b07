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

// edgy draws values around every limit and far beyond.
func edgy(t *rapid.T, label string) unit.Length {
	return unit.Length(rapid.OneOf(
		rapid.Int64(),
		rapid.SampledFrom([]int64{0, 1, -1, 9_999, 10_000, 400_000, 25_400_000, 25_400_001, 50_000_000, 1e12, 1e12 + 1, 1e14, math.MaxInt64, math.MinInt64}),
		rapid.Int64Range(10_000, 1e12),
	).Draw(t, label))
}

func edgyFloat(t *rapid.T, label string) float64 {
	return rapid.OneOf(
		rapid.Float64(),
		rapid.SampledFrom([]float64{0, 1, -1, 0.5, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64}),
		rapid.Float64Range(0, 1),
	).Draw(t, label)
}

func hostileSeam(t *rapid.T) thread.Seam {
	return thread.Seam{
		Length: edgy(t, "length"), Thickness: edgy(t, "thickness"), StitchLength: edgy(t, "stitch length"), Width: edgy(t, "width"),
		Stitch:      thread.Stitch(rapid.SampledFrom([]uint16{0, 101, 209, 301, 304, 401, 503, 504, 516, 999}).Draw(t, "stitch")),
		Thread:      thread.Size(rapid.Uint8Range(0, 13).Draw(t, "thread")),
		Model:       thread.Model(rapid.Uint8Range(0, 3).Draw(t, "model")),
		Compression: unit.Ratio(edgyFloat(t, "compression")),
		Balance:     unit.Ratio(edgyFloat(t, "balance")),
		Rows:        rapid.IntRange(-1, 101).Draw(t, "rows"),
		BackTack:    edgy(t, "back-tack"),
		Closed:      rapid.Bool().Draw(t, "closed"),
		Unpicked:    thread.UnpickedSample{Sample: edgy(t, "sample"), Needle: edgy(t, "needle"), Under: edgy(t, "under")},
	}
}

// Whatever the input, an answer has sane figures or there is an error that
// names a field.
func TestHostileSeams(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := hostileSeam(t)
		u, err := thread.Consume(s)
		if err != nil {
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			assert.NotEmpty(t, in.Field)
			assert.Zero(t, u)
		} else {
			assert.True(t, u.Needle > 0 && u.Under >= 0 && u.Total == u.Needle+u.Under, "%+v", u)
		}
		w := thread.Sewing{
			Seams: []thread.Seam{s, good(), s}, Tail: edgy(t, "tail"), Restart: edgy(t, "restart"),
			Waste: unit.Ratio(edgyFloat(t, "waste")), Bobbin: edgy(t, "bobbin"), Cone: edgy(t, "cone"), KeepWhole: rapid.Bool().Draw(t, "whole"),
		}
		c, err := thread.Total(w)
		if err == nil {
			assert.True(t, c.Total >= c.Needle && c.Total >= c.Under && c.Left >= 0, "%+v", c)
			assert.LessOrEqual(t, c.Left, unit.Length(c.Bobbins)*w.Bobbin)
		}
	})
}

// Seams at every upper limit at once still add up.
func TestLargestSeam(t *testing.T) {
	s := thread.Seam{
		Length: 1000 * unit.Metre, Thickness: 50 * unit.Millimetre, Width: 50 * unit.Millimetre,
		StitchLength: 400 * unit.Micrometre, Stitch: thread.Safety516, Thread: thread.Size554, Rows: 100, BackTack: 200 * unit.Millimetre,
	}
	c, err := thread.Total(thread.Sewing{Seams: []thread.Seam{s}, Waste: 1, Tail: 500 * unit.Millimetre, Cone: unit.Metre})
	require.NoError(t, err)
	u, err := thread.Consume(s)
	require.NoError(t, err)
	assert.Greater(t, c.Total, 2*u.Total)
	assert.Equal(t, 100*(1_000_800_000/400), c.Seams[0].Stitches)
}

func TestHostileNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := edgyFloat(t, "x"), edgyFloat(t, "y")
		s, err := thread.Strength(thread.LoadedSeam{
			Stitch: thread.Lockstitch301, StitchLength: edgy(t, "stitch length"), Needle: unit.Force(x), Under: unit.Force(y),
			LoopFactor: unit.Ratio(edgyFloat(t, "factor")), Goods: thread.LineForce(edgyFloat(t, "goods")),
		})
		if err == nil {
			require.NoError(t, s.Seam.Check())
			share, _ := s.Efficiency.Value()
			require.NoError(t, share.Check())
			_, err = json.Marshal(s)
			require.NoError(t, err)
		}
		if r, err := thread.SeamEfficiency(thread.LineForce(x), thread.LineForce(y)); err == nil {
			require.NoError(t, r.Check())
		}
		for _, c := range thread.CountSystems() {
			if d, err := c.Of(x); err == nil {
				require.NoError(t, d.Check())
				_, err = c.In(d)
				require.NoError(t, err, "%v %v", x, c)
			}
			if n, err := c.In(unit.LinearDensity(x)); err == nil {
				assert.False(t, math.IsNaN(n) || math.IsInf(n, 0))
			}
		}
		if f, err := thread.LineForceOf(unit.Force(x), edgy(t, "over")); err == nil {
			require.NoError(t, f.Check())
		}
		b := thread.Bobbin{Outer: edgy(t, "outer"), Core: edgy(t, "core"), Width: edgy(t, "width"), Wound: unit.Density(x)}
		if l, err := b.Holds(thread.Size69); err == nil {
			assert.Positive(t, l)
		}
		if l, err := thread.ConeLength(thread.Size69, unit.Mass(edgy(t, "mass"))); err == nil {
			assert.Positive(t, l)
		}
		if _, _, err := thread.SizesAround(unit.LinearDensity(x)); err != nil {
			require.Error(t, err)
		}
	})
}
