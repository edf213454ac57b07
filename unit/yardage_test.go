package unit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/unit"
)

func TestYardage(t *testing.T) {
	for _, c := range []struct {
		l    unit.Length
		r    unit.Rounding
		want string
	}{
		{0, unit.Up, "0 yd"},
		{325 * unit.Inch, unit.Up, "9 1/8 yd"}, // 9.028 yd
		{325 * unit.Inch, unit.Down, "9 yd"},
		{325 * unit.Inch, unit.Nearest, "9 yd"},
		{333 * unit.Inch, unit.Up, "9 1/4 yd"},
		{708 * unit.Inch, unit.Nearest, "19 2/3 yd"}, // 19.667 yd
		{12 * unit.Inch, unit.Up, "1/3 yd"},
		{12*unit.Inch + 1, unit.Up, "3/8 yd"},
		{18 * unit.Inch, unit.Up, "1/2 yd"},
		{unit.Yard - 1, unit.Up, "1 yd"},
		{unit.Yard - 1, unit.Nearest, "1 yd"},
		{2*unit.Yard - 1, unit.Down, "1 7/8 yd"},
		{unit.Yard / 16, unit.Nearest, "1/8 yd"}, // a tie
		{-325 * unit.Inch, unit.Up, "-9 yd"},
		{-325 * unit.Inch, unit.Down, "-9 1/8 yd"},
		{-1, unit.Up, "0 yd"},
		{math.MaxInt64, unit.Up, "10086802315 1/8 yd"},
		{math.MinInt64, unit.Down, "-10086802315 1/8 yd"},
	} {
		assert.Equal(t, c.want, c.l.Yardage(c.r), "%v %v", c.l, c.r)
	}
}

// What is written reads back as a length on the side that was asked for, less than an
// eighth of a yard off.
func TestYardageNeverSaysLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := unit.Length(rapid.Int64Range(0, int64(1000*unit.Yard)).Draw(t, "l"))
		up, err := unit.ParseLength(l.Yardage(unit.Up))
		require.NoError(t, err)
		down, err := unit.ParseLength(l.Yardage(unit.Down))
		require.NoError(t, err)
		near, err := unit.ParseLength(l.Yardage(unit.Nearest))
		require.NoError(t, err)
		require.GreaterOrEqual(t, up, l)
		require.LessOrEqual(t, down, l)
		require.Less(t, up-down, unit.Yard/8+1)
		require.LessOrEqual(t, near, up)
		require.GreaterOrEqual(t, near, down)
		require.LessOrEqual(t, max(near-l, l-near), min(up-l, l-down))
	})
}
