package material

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// wingChair is the curved panels of the pair of wing chairs of the demo job.
func wingChair(t testing.TB) []RollPanel {
	must := func(o allowance.Outline, err error) allowance.Outline {
		t.Helper()
		require.NoError(t, err)
		return o
	}
	pt := func(x, y unit.Length) allowance.Point { return allowance.Point{X: x, Y: y} }
	wing := must(allowance.TraceFrom(pt(0, 0)).Edge("bottom").Line(pt(11*in, 0)).Edge("front").Cubic(pt(16*in, 8*in), pt(14*in, 16*in), pt(9*in, 20*in)).
		Edge("top").Line(pt(3*in, 21*in)).Edge("back").Arc(pt(0, 0), -in).Close())
	arm := must(allowance.TraceFrom(pt(0, 0)).Edge("bottom").Line(pt(28*in, 2*in)).Edge("front").Arc(pt(27*in, 15*in), 2*in).Edge("top").
		Cubic(pt(18*in, 17*in), pt(8*in, 13*in), pt(0, 12*in)).Edge("back").Close())
	return []RollPanel{
		{Name: "inside back", Outline: must(allowance.CrownedOutline(26*in, 30*in, 4*in)), Count: 2, Match: pt(13*in, 15*in)},
		{Name: "outside back", Outline: must(allowance.CrownedOutline(25*in, 28*in, 3*in)), Count: 2, Match: pt(25*in/2, 14*in)},
		{Name: "wing", Outline: wing, Count: 4, Paired: true, Match: pt(6*in, 10*in)},
		{Name: "arm", Outline: arm, Count: 4, Paired: true, Match: pt(14*in, 8*in)},
		{Name: "seat", Outline: must(allowance.TrapezoidOutline(30*in, 26*in, 30*in, 2*in)), Count: 2, Match: pt(15*in, 15*in)},
		{Name: "facing", Outline: must(allowance.EllipseOutline(6*in, 9*in)), Count: 4, Unmatched: true, Turn: HalfTurn},
	}
}

func TestNestRollWingChairs(t *testing.T) {
	for _, roll := range []Roll{
		{Name: "plain", Width: 54 * in, Increment: unit.Yard / 8},
		{Name: "patterned", Width: 54 * in, Repeat: 27 * in, Across: 27 * in / 2, Nap: true, Increment: unit.Yard / 8},
		{Name: "half drop", Width: 54 * in, Repeat: 18 * in, Across: 27 * in / 2, Drop: Drop{Num: 1, Den: 2}},
		{Name: "flawed", Width: 54 * in, Flaws: []Flaw{{X: 10 * in, Y: 5 * in, Width: in, Length: in}}},
	} {
		start := time.Now()
		plan, err := NestRoll(context.Background(), roll, wingChair(t), NestOptions{})
		require.NoError(t, err, roll.Name)
		d, err := plan.Density()
		require.NoError(t, err)
		t.Log(roll.Name, time.Since(start), plan.Need, plan.Boxes, plan.Bound, plan.Method, d)
		assert.LessOrEqual(t, plan.Need, plan.Boxes)
		require.NoError(t, plan.Verify())
	}
}
