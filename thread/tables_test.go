package thread_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// A size of a government table that is named by its tex has that tex.
func TestSpecifiedSizesAreTheirTex(t *testing.T) {
	named := 0
	for _, s := range thread.Specifications() {
		text, ok := strings.CutPrefix(s.Size, "tex ")
		if !ok {
			continue
		}
		named++
		var want unit.LinearDensity
		require.NoError(t, want.UnmarshalText([]byte(text+" tex")))
		got, ok := s.Nominal.Value()
		require.True(t, ok, s.Size)
		assert.Equal(t, want, got, "%s %s", s.Document, s.Size)
	}
	assert.Equal(t, 31, named)
}

// What a document gives is above zero; what it does not give is a gap.
func TestSpecifiedFiguresAreAboveZero(t *testing.T) {
	for _, s := range thread.Specifications() {
		force, given := s.MinStrength.Value()
		assert.Equal(t, given, force > 0, s.Size)
		plies, given := s.Plies.Value()
		assert.Equal(t, given, plies > 0, s.Size)
		for _, c := range []thread.Cell[unit.LinearDensity]{s.MinYield, s.Nominal, s.Yarn} {
			count, given := c.Value()
			assert.Equal(t, given, count > 0, s.Size)
		}
	}
}

// The number of a size is its denier after the twist, which adds about a tenth,
// in tens.
func TestSizeNumbersAreTheirDenier(t *testing.T) {
	for _, size := range thread.Sizes() {
		row, err := thread.Thread{Fibre: thread.Nylon, Size: size}.Row()
		require.NoError(t, err)
		greige, _ := row.Greige.Value()
		assert.Equal(t, size.Number(), int(1.1*greige.Denier()/10+1e-9), size)
	}
}

// Each stitch takes the threads that its name or its parts say, and uses thread
// on the sides where it has some.
func TestStitchesHaveTheirThreads(t *testing.T) {
	threads := func(s thread.Stitch) [2]int {
		k, err := s.Type()
		require.NoError(t, err)
		return [2]int{k.Needles, k.Under}
	}
	count := map[string]int{"one": 1, "two": 2, "three": 3}
	for _, k := range thread.StitchTypes() {
		if _, text, ok := strings.Cut(k.Name, ", "); ok {
			word, _, _ := strings.Cut(text, " ")
			assert.Equal(t, count[word], k.Needles+k.Under, k.Name)
		}
		use, err := thread.Consume(thread.Seam{Length: unit.Metre, Thickness: unit.Millimetre, Stitch: k.Stitch, StitchLength: 3 * unit.Millimetre, Width: 4 * unit.Millimetre})
		if err == nil {
			assert.Equal(t, use.Under > 0, k.Under > 0, k.Name)
		}
	}
	assert.Equal(t, [2]int{1, 0}, threads(209), "one needle, no looper")
	assert.Equal(t, [2]int{1, 1}, threads(301), "needle and bobbin")
	assert.Equal(t, threads(301), threads(304))
	assert.Equal(t, [2]int{1, 1}, threads(503))
	chain, edge := threads(401), threads(504)
	assert.Equal(t, [2]int{chain[0] + edge[0], chain[1] + edge[1]}, threads(516), "both side by side")
}

// A stitch without under thread has all its thread in the needle. What was
// measured needle by looper adds up, and the lockstitch is as the square path
// has it where the goods are a quarter of a stitch thick.
func TestUsageRatiosAddUp(t *testing.T) {
	measured := [][2]float64{{3.00, 2.67}, {1.3, 4.1}}
	for _, r := range thread.UsageRatios() {
		k, err := r.Stitch.Type()
		require.NoError(t, err)
		if k.Under == 0 {
			assert.Equal(t, r.Total, r.Needle, k.Name)
		}
		switch r.Stitch {
		case thread.Lockstitch301, thread.Zigzag304:
			assert.Equal(t, r.Total/2, r.Needle, k.Name)
		case thread.Chainstitch401:
			assert.InDelta(t, measured[0][0], float64(r.Needle), 1e-12)
			assert.InDelta(t, measured[0][0]+measured[0][1], float64(r.Total), 1e-12)
			measured = measured[1:]
		}
	}
	assert.Empty(t, measured)
	quarter, err := thread.Consume(thread.Seam{Length: unit.Metre, Thickness: unit.Millimetre, Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre})
	require.NoError(t, err)
	for _, r := range thread.UsageRatios() {
		if r.Stitch == thread.Lockstitch301 {
			assert.InDelta(t, float64(r.Needle)*1e9, float64(quarter.Needle), 1)
		}
	}
}

// Needle sizes go up in hundredths of a millimetre that five divides, and their
// numbers one by one but for two halves.
func TestNeedleNumbersGoUpByOne(t *testing.T) {
	var before thread.NeedleNumber
	for i, n := range thread.Needles() {
		assert.Zero(t, n%5, n)
		number, ok := n.Number()
		require.True(t, ok, n)
		switch {
		case i == 0:
			assert.Equal(t, thread.NeedleNumber(80), number)
		case number%10 == 5:
			assert.Contains(t, []string{"22.5", "23.5"}, number.String())
		default:
			assert.Equal(t, before/10*10+10, number, n)
		}
		before = number
	}
}

func TestPoundForcePerInchIsExact(t *testing.T) {
	assert.InEpsilon(t, float64(unit.PoundForce)/unit.Inch.Metres(), float64(thread.PoundForcePerInch), 1e-15)
}

// A seam that is recommended is as strong as the loop factor listed for its
// fibre makes the cautious strength of its thread.
func TestRecommendedSeamsUseTheListedLoopFactor(t *testing.T) {
	listed := map[string]unit.Ratio{}
	for _, f := range thread.LoopFactors() {
		if f.Stitch == thread.Lockstitch301 {
			listed[f.Thread] = f.Factor
		}
	}
	assert.Equal(t, listed["any"], listed["filament nylon 6.6"])
	for fibre, name := range map[thread.Fibre]string{thread.Nylon: "filament nylon 6.6", thread.Polyester: "filament polyester, cautious"} {
		a, err := thread.Recommend(thread.Need{Goods: thread.Woven, Layers: 2, Fibre: fibre})
		require.NoError(t, err)
		for _, p := range a.All() {
			row, err := p.Thread.Row()
			require.NoError(t, err)
			cautious, _ := row.Cautious.Value()
			assert.InEpsilon(t, float64(listed[name])*float64(cautious)/p.StitchLength.Metres(), float64(p.SeamStrength), 1e-12)
		}
	}
}

// A count between two sizes is given the size it is to a part in a thousand.
func TestSizesAroundToAPartInAThousand(t *testing.T) {
	count := thread.Size92.Finished()
	for part, same := range map[float64]bool{0.9991: true, 0.9989: false, 1.0009: true, 1.0012: false} {
		lighter, heavier, err := thread.SizesAround(count * unit.LinearDensity(part))
		require.NoError(t, err)
		assert.Equal(t, same, lighter == heavier, part)
	}
}

// A loop factor that stands on a loop strength is twice the middle of it.
func TestLoopFactorsAreTwiceTheLoopStrength(t *testing.T) {
	found := 0
	for _, f := range thread.LoopFactors() {
		var from, to float64
		if _, err := fmt.Sscanf(f.Basis.Note, "twice a loop strength of %f to %f %%", &from, &to); err == nil {
			found++
			assert.InDelta(t, (from+to)/100, float64(f.Factor), 1e-12, f.Thread)
		}
	}
	assert.Equal(t, 3, found)
}

// A zig-zag stitch of 3 mm along and 4 mm across runs 5 mm on the surface, as a
// straight stitch of 5 mm does.
func TestZigzagRunsAlongTheDiagonal(t *testing.T) {
	of := func(s thread.Stitch, length, width unit.Length) thread.Usage {
		use, err := thread.Consume(thread.Seam{Length: length, StitchLength: length, Width: width, Thickness: unit.Millimetre, Stitch: s})
		require.NoError(t, err)
		return use
	}
	zigzag, straight := of(thread.Zigzag304, 3*unit.Millimetre, 4*unit.Millimetre), of(thread.Lockstitch301, 5*unit.Millimetre, 0)
	assert.Equal(t, [2]unit.Length{straight.Needle, straight.Under}, [2]unit.Length{zigzag.Needle, zigzag.Under})
}
