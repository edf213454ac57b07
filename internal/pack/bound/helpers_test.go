package bound

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/geom"
)

// A square, a rectangle on its side and a right-angled triangle, whose height on
// the longest side is 3 · 4 / 5.
func TestLeastWidthByHand(t *testing.T) {
	for want, ring := range map[int64]geom.Ring{
		100: {{}, {X: 100}, {X: 100, Y: 100}, {Y: 100}},
		70:  {{}, {X: 1000}, {X: 1000, Y: 70}, {Y: 70}},
		240: {{}, {X: 400}, {Y: 300}},
		50:  {{}, {X: 400, Y: 300}, {X: 370, Y: 340}, {X: -30, Y: 40}},
		86:  {{}, {X: 100}, {X: 50, Y: 86}}, // 86.0 to its base; 86.46 to the others
	} {
		for turn := range ring {
			assert.Equal(t, want, leastWidth(append(append(geom.Ring{}, ring[turn:]...), ring[:turn]...)))
		}
	}
}

// The largest disc in a square, in a triangle of 3, 4 and 5, and in an angle of
// arms 2 wide and 4 long, where it lies against the inner corner: r = (2 - r) √2.
func TestInnerRadiusByHand(t *testing.T) {
	const k = 1_000_000
	for want, ring := range map[float64]geom.Ring{
		1:                                 {{}, {X: 2 * k}, {X: 2 * k, Y: 2 * k}, {Y: 2 * k}},
		1.000001:                          {{}, {X: 4 * k}, {Y: 3 * k}},
		2 * math.Sqrt2 / (1 + math.Sqrt2): {{}, {X: 4 * k}, {X: 4 * k, Y: 2 * k}, {X: 2 * k, Y: 2 * k}, {X: 2 * k, Y: 4 * k}, {Y: 4 * k}},
	} {
		r := innerRadius(ring)
		assert.LessOrEqual(t, float64(r), want*k)
		assert.GreaterOrEqual(t, float64(r), want*k*0.999)
	}
	assert.Zero(t, clearance(geom.Ring{{}, {X: 4}, {Y: 3}}, geom.Point{X: 4, Y: 3}), "outside")
	assert.InDelta(t, 5, clearance(geom.Ring{{X: -100, Y: -100}, {X: 100, Y: -100}, {X: 100, Y: 100}, {X: 3, Y: 4}, {X: -100, Y: 100}}, geom.Point{}), 1e-9, "a corner that points in")
}

// Quotients of wide numbers as math/big has them.
func TestQuotientsAgreeWithBig(t *testing.T) {
	sizes := rapid.OneOf(rapid.Int64Range(0, 50), rapid.Int64Range(1<<31-3, 1<<31+3), rapid.Int64Range(0, math.MaxInt64))
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := sizes.Draw(t, "a"), sizes.Draw(t, "b"), max(sizes.Draw(t, "c"), 1)
		p := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
		q, r := new(big.Int).QuoRem(p, big.NewInt(c), new(big.Int))
		if q.IsInt64() {
			gotQ, gotR := mulDiv(a, b, c)
			require.Equal(t, [2]int64{q.Int64(), r.Int64()}, [2]int64{gotQ, gotR})
		}
		wide := geom.Int128{Hi: int64(new(big.Int).Rsh(p, 64).Uint64()), Lo: new(big.Int).And(p, new(big.Int).SetUint64(math.MaxUint64)).Uint64()}
		most := big.NewInt(math.MaxInt64)
		for _, up := range []bool{false, true} {
			want := new(big.Int).Set(q)
			if up && r.Sign() > 0 {
				want.Add(want, big.NewInt(1))
			}
			if want.Cmp(most) > 0 {
				want = most
			}
			require.Equal(t, want.Int64(), divide(wide, c, up), "%v", up)
		}
		// Between two values: at both ends the ends, never further, and up is one
		// more than down but where it is whole.
		v0, v1 := a/2-1<<61, b/2-1<<61
		num := min(sizes.Draw(t, "num"), c)
		down, up := between(v0, v1, num, c)
		exact := new(big.Rat).SetFrac(new(big.Int).Mul(new(big.Int).Sub(big.NewInt(v1), big.NewInt(v0)), big.NewInt(num)), big.NewInt(c))
		exact.Add(exact, new(big.Rat).SetInt64(v0))
		require.LessOrEqual(t, new(big.Rat).SetInt64(down).Cmp(exact), 0)
		require.GreaterOrEqual(t, new(big.Rat).SetInt64(up).Cmp(exact), 0)
		if exact.IsInt() {
			require.Equal(t, down, up)
		} else {
			require.Equal(t, down+1, up)
		}
		n, d := a-1<<62, max(b, 1)
		require.Equal(t, new(big.Int).Div(big.NewInt(n), big.NewInt(d)).Int64(), floorDiv(n, d))
		require.Equal(t, -floorDiv(-n, d), ceilDiv(n, d))
	})
}

// The rectangle inside an outline that is largest both ways against its box: of
// a back 4 wide below and 6 above, 4 by 6; of a step to the left the same; of a
// diamond 8 high, the square between its corners.
func TestCoreByHand(t *testing.T) {
	for want, ring := range map[geom.Point]geom.Ring{
		{X: 7, Y: 3}:  {{}, {X: 7}, {X: 7, Y: 3}, {Y: 3}},
		{X: 4, Y: 6}:  {{}, {X: 4}, {X: 4, Y: 3}, {X: 6, Y: 3}, {X: 6, Y: 6}, {Y: 6}},
		{X: 5, Y: 7}:  {{X: -5}, {}, {Y: 7}, {X: -6, Y: 7}, {X: -6, Y: 4}, {X: -5, Y: 4}},
		{X: 40, Y: 4}: {{X: 0, Y: 0}, {X: 20, Y: -20}, {X: 40, Y: 0}, {X: 40, Y: 4}, {X: 20, Y: 24}, {X: 0, Y: 4}},
	} {
		for _, up := range []int64{-1000, 0, 1000} {
			assert.Equal(t, want, newShape(ring.Translate(geom.Point{X: up, Y: up}), 0).core())
		}
	}
}

// Closed segments that cross, touch at an end, lie on each other, or miss.
func TestMeetByHand(t *testing.T) {
	a, b := geom.Point{}, geom.Point{X: 10, Y: 10}
	for _, c := range []struct {
		c, d geom.Point
		want bool
	}{
		{geom.Point{Y: 10}, geom.Point{X: 10}, true},
		{geom.Point{X: 5, Y: 5}, geom.Point{X: 9}, true},
		{geom.Point{X: 10, Y: 10}, geom.Point{X: 20, Y: 0}, true},
		{geom.Point{X: 10, Y: 10}, geom.Point{X: 0, Y: 20}, true},
		{geom.Point{X: -5, Y: 5}, geom.Point{}, true},
		{geom.Point{X: 5, Y: -5}, geom.Point{}, true},
		{geom.Point{X: 4, Y: 4}, geom.Point{X: 20, Y: 20}, true},
		{geom.Point{X: 11, Y: 11}, geom.Point{X: 20, Y: 20}, false},
		{geom.Point{X: -1, Y: -1}, geom.Point{X: -9, Y: -9}, false},
		{geom.Point{X: 6, Y: 5}, geom.Point{X: 9, Y: 1}, false},
		{geom.Point{X: 1, Y: 2}, geom.Point{X: 8, Y: 20}, false},
	} {
		for _, turn := range []geom.Transform{geom.Identity, geom.Rotate90, geom.Rotate180, geom.MirrorX} {
			p, q, r, s := turn.Apply(a), turn.Apply(b), turn.Apply(c.c), turn.Apply(c.d)
			assert.Equal(t, c.want, meet(p, q, r, s), "%v %v", c.c, c.d)
			assert.Equal(t, c.want, meet(s, r, q, p), "%v %v", c.c, c.d)
		}
	}
	for _, turn := range []geom.Transform{geom.Identity, geom.Rotate90, geom.Rotate180, geom.Rotate270} { // on one line along an axis
		at := func(x int64) geom.Point { return turn.Apply(geom.Point{X: x}) }
		assert.True(t, meet(at(0), at(10), at(10), at(20)))
		assert.False(t, meet(at(0), at(10), at(11), at(20)))
	}
}

// A hole is inside where no side of it meets the outline, as far as work goes: 16 pairs
// of sides of two squares.
func TestHolesAreLookedAtWithinWork(t *testing.T) {
	for work, want := range map[int]bool{16: true, 15: false, 400: true} {
		left := work
		assert.Equal(t, want, within(rectangle(3, 3, 2, 2), rectangle(0, 0, 9, 9), &left), "%d", work)
		assert.Equal(t, work-16, left)
	}
}

// A room as large as some is as large as each of them, in every frame; a few are kept as
// they are. A square on its corner is 141 wide, no less, and seen along its sides 100.
func TestFewRoomsByHand(t *testing.T) {
	square := geom.Ring{{X: 100_000}, {X: 200_000, Y: 100_000}, {X: 100_000, Y: 200_000}, {Y: 100_000}}
	flat := newRoom(rectangle(0, 0, 300_000, 10_000), geom.FromInt64(6))
	tip := newRoom(square, geom.FromInt64(4))
	assert.Equal(t, [2]float64{200_000, 200_000}, tip.frames[0])
	for _, v := range tip.frames[2] {
		assert.GreaterOrEqual(t, v, 100_000*math.Sqrt2)
		assert.InDelta(t, 100_000*math.Sqrt2, v, 1)
	}
	for _, order := range [][]room{{flat, tip}, {tip, flat}} {
		rooms := slices.Repeat(order, mostPairs/2)
		assert.Equal(t, rooms, fewRooms(rooms))
		all := fewRooms(append(rooms, order[0]))
		require.Len(t, all, 1)
		assert.Equal(t, flat.net2, all[0].net2)
		for i, f := range all[0].frames {
			assert.Equal(t, [2]float64{max(flat.frames[i][0], tip.frames[i][0]), max(flat.frames[i][1], tip.frames[i][1])}, f)
		}
	}
}
