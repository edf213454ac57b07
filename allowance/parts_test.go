package allowance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// Equal edges give zero ease and sew flat, whatever the limits.
func TestEqualEdgesSewFlat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(unit.Millimetre, 100*unit.Metre).Draw(t, "edge")
		limits, _ := allowance.SoftLeather.Limits()
		m, err := allowance.MatchSeam(l, l, limits)
		require.NoError(t, err)
		require.Zero(t, m.Difference)
		require.Zero(t, m.Ease)
		require.Equal(t, allowance.SewsFlat, m.Verdict)
		marks, err := m.Marks(l/7 + unit.Millimetre)
		require.NoError(t, err)
		for _, k := range marks {
			require.Equal(t, k.First, k.Second)
		}
	})
}

// Swapping the edges changes nothing but the sides, and more ease never gets
// a milder verdict.
func TestMatchSeamIsEvenHanded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "a")
		b := drawLength(a, 4*a).Draw(t, "b")
		limits, _ := allowance.FirmWoven.Limits()
		m, err := allowance.MatchSeam(a, b, limits)
		require.NoError(t, err)
		n, err := allowance.MatchSeam(b, a, limits)
		require.NoError(t, err)
		require.Equal(t, m.Ease, n.Ease)
		require.Equal(t, m.Verdict, n.Verdict)
		more, err := allowance.MatchSeam(a, b+unit.Centimetre, limits)
		require.NoError(t, err)
		require.GreaterOrEqual(t, more.Verdict, m.Verdict)

		taken, err := m.EasePer(a)
		require.NoError(t, err)
		require.InDelta(t, float64(m.Difference), float64(taken), 1)
	})
}

// Between any two marks the ease is shared in proportion, and outside the
// eased part the seam lies flat.
func TestMarksSpreadTheEase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLength(50*unit.Centimetre, 3*unit.Metre).Draw(t, "a")
		b := drawLength(50*unit.Centimetre, 3*unit.Metre).Draw(t, "b")
		limits, _ := allowance.FirmWoven.Limits()
		m, err := allowance.MatchSeam(a, b, limits)
		require.NoError(t, err)
		short := min(a, b)
		from := drawLength(unit.Millimetre, short/3).Draw(t, "from")
		to := drawLength(short/2, short-unit.Millimetre).Draw(t, "to")
		spacing := drawLength(unit.Centimetre, unit.Metre).Draw(t, "spacing")
		marks, err := m.MarksBetween(spacing, from, to)
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(marks), 2)

		onShort := func(k allowance.MatchMark) (s, l unit.Length) {
			if a <= b {
				return k.First, k.Second
			}
			return k.Second, k.First
		}
		s0, l0 := onShort(marks[0])
		require.Equal(t, from, s0)
		require.Equal(t, from, l0)
		sn, ln := onShort(marks[len(marks)-1])
		require.Equal(t, to, sn)
		require.Equal(t, to+m.Difference, ln)
		share := float64(m.Difference) / float64(to-from)
		for i := 1; i < len(marks); i++ {
			s, l := onShort(marks[i])
			ps, pl := onShort(marks[i-1])
			require.LessOrEqual(t, s-ps, spacing+1)
			require.InDelta(t, share*float64(s-ps), float64((l-pl)-(s-ps)), 4+2*share)
		}
	})
}

// A bow lies on an arc of the wide panel over the narrow one as chord; a bend
// gives both panels back.
func TestBowAndBendComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		narrow := drawLength(10*unit.Centimetre, 3*unit.Metre).Draw(t, "narrow")
		wide := drawLength(narrow+narrow/1000, 3*narrow).Draw(t, "wide")
		a, err := allowance.BowOf(wide, narrow)
		require.NoError(t, err)
		require.InDelta(t, float64(wide), float64(a.Length), 4)
		require.InDelta(t, float64(narrow), 2*float64(a.Radius)*math.Abs(math.Sin(a.Angle.Radians()/2)), 20+float64(a.Radius)*1e-8)

		r := drawLength(10*unit.Centimetre, 2*unit.Metre).Draw(t, "radius")
		d := drawLength(unit.Centimetre, 20*unit.Centimetre).Draw(t, "apart")
		turn := rapid.Float64Range(0.1, 6.28).Draw(t, "turn")
		inner, outer := unit.Length(float64(r)*turn), unit.Length(float64(r+d)*turn)
		b, err := allowance.BendOf(outer, inner, d)
		require.NoError(t, err)
		require.InEpsilon(t, turn, b.Angle.Radians(), 1e-5)
		require.InEpsilon(t, float64(r), float64(b.Radius), 1e-5)
	})
}

func TestMatchRefuses(t *testing.T) {
	const in = unit.Inch
	limits, _ := allowance.FirmWoven.Limits()
	_, err := allowance.MatchSeam(20*in, 20*in, allowance.EaseLimits{})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = allowance.MatchSeam(20*in, 20*in, allowance.EaseLimits{Flat: 0.1, Ease: 0.05, Gather: 1})
	require.ErrorContains(t, err, "limits.ease")
	_, err = allowance.MatchSeam(20*in, 20*in, allowance.EaseLimits{Flat: -0.1, Ease: 0.05, Gather: 1})
	require.ErrorContains(t, err, "limits.flat")
	_, err = allowance.MatchSeam(0, 20*in, limits)
	require.ErrorContains(t, err, "first")
	m, err := allowance.MatchSeam(20*in, 21*in, limits)
	require.NoError(t, err)
	_, err = m.EasePer(-in)
	require.ErrorContains(t, err, "span")
	_, err = m.Marks(0)
	require.ErrorContains(t, err, "spacing")
	_, err = m.MarksBetween(in, 10*in, 5*in)
	require.ErrorContains(t, err, "to")
	_, err = m.MarksBetween(in, 20*in+1, 30*in)
	require.ErrorContains(t, err, "from")
	_, err = m.MarksBetween(in, -in, 10*in)
	require.ErrorContains(t, err, "from")
	_, err = m.MarksBetween(in, 0, 30*in)
	require.ErrorContains(t, err, "to")
	// Too close for a thousand marks, the least spacing is told, and does: of 3 m 3 mm.
	far, err := allowance.MatchSeam(5*unit.Metre, 5*unit.Metre, limits)
	require.NoError(t, err)
	_, err = far.MarksBetween(unit.Millimetre, unit.Metre, 4*unit.Metre)
	require.ErrorContains(t, err, "3.000001 mm")
	marks, err := far.MarksBetween(3*unit.Millimetre+unit.Nanometre, unit.Metre, 4*unit.Metre)
	require.NoError(t, err)
	require.Len(t, marks, 1001)
	_, err = allowance.SeamMatch{}.Marks(in)
	require.Error(t, err)
	_, err = allowance.BowOf(20*in, 20*in)
	require.ErrorContains(t, err, "wide")
	_, err = allowance.BendOf(20*in, 20*in, in)
	require.ErrorContains(t, err, "outer")
	_, err = allowance.BendOf(19*in, 20*in, in)
	require.ErrorContains(t, err, "outer")
	_, err = allowance.BendOf(20*in, 0, in)
	require.ErrorContains(t, err, "inner")
	_, err = allowance.BendOf(21*in, 20*in, 0)
	require.ErrorContains(t, err, "apart")
	_, err = allowance.BendOf(40*in, 20*in, in)
	require.ErrorContains(t, err, "angle")
	_, err = allowance.BendOf(20*in+1, 20*in, 10*in)
	require.ErrorIs(t, err, unit.ErrRange)
}
