package verify_test

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// outline is the ring through points given by their coordinates in turn.
func outline(xy ...int64) geom.Ring {
	r := make(geom.Ring, len(xy)/2)
	for i := range r {
		r[i] = geom.Pt(xy[2*i], xy[2*i+1])
	}
	return r
}

func square(x, y, s int64) geom.Ring { return outline(x, y, x+s, y, x+s, y+s, x, y+s) }

// plus is a cross of five unit squares; two of them pushed against one
// wall overlap without any proper crossing of edges.
func plus(x, y, u int64) geom.Ring {
	r := outline(1, 0, 2, 0, 2, 1, 3, 1, 3, 2, 2, 2, 2, 3, 1, 3, 1, 2, 0, 2, 0, 1, 1, 1)
	for i := range r {
		r[i] = geom.Pt(x+r[i].X*u, y+r[i].Y*u)
	}
	return r
}

func TestOverlap(t *testing.T) {
	ell := outline(0, 0, 4, 0, 4, 2, 2, 2, 2, 4, 0, 4)
	for _, c := range []struct {
		name string
		a, b geom.Ring
		want bool
	}{
		{"apart", square(0, 0, 2), square(5, 0, 2), false},
		{"side by side", square(0, 0, 2), square(2, 0, 2), false},
		{"side by side, shifted", square(0, 0, 2), square(2, 1, 2), false},
		{"corner to corner", square(0, 0, 2), square(2, 2, 2), false},
		{"the same", square(0, 0, 2), square(0, 0, 2), true},
		{"the same, clockwise", square(0, 0, 2), outline(0, 2, 2, 2, 2, 0, 0, 0), true},
		{"inside", square(0, 0, 9), square(3, 3, 2), true},
		{"inside on the border", square(0, 0, 9), square(0, 0, 2), true},
		{"shifted along one axis", square(0, 0, 4), square(1, 0, 4), true},
		{"two plus shapes on one wall", plus(0, 0, 2), plus(0, 2, 2), true},
		{"two plus shapes nested", plus(0, 0, 2), plus(4, 2, 2), false},
		{"in the notch", ell, square(2, 2, 2), false},
		{"in the notch, too big", ell, square(1, 2, 3), true},
		{"diamond touching", outline(0, 0, 2, -2, 4, 0, 2, 2), outline(4, 0, 6, -2, 8, 0, 6, 2), false},
		{"diamond in square", square(0, 0, 4), outline(2, 0, 4, 2, 2, 4, 0, 2), true},
		{"corner through corner", outline(0, 0, 4, 0, 4, 4, 0, 4), outline(4, 4, 0, 8, -4, 4, 0, 0), true},
		{"too few corners", square(0, 0, 4), outline(0, 0, 4, 4), false},
	} {
		assert.Equal(t, c.want, verify.Overlap(c.a, c.b), c.name)
		assert.Equal(t, c.want, verify.Overlap(c.b, c.a), c.name+", other way")
	}
}

func TestInside(t *testing.T) {
	u := outline(0, 0, 9, 0, 9, 9, 6, 9, 6, 3, 3, 3, 3, 9, 0, 9)
	assert.True(t, verify.Inside(square(0, 0, 9), square(0, 0, 9)))
	assert.True(t, verify.Inside(square(0, 3, 3), u))
	assert.True(t, verify.Inside(outline(0, 0, 9, 0, 9, 3, 0, 3), u))
	assert.False(t, verify.Inside(outline(0, 0, 9, 0, 9, 4, 0, 4), u))
	assert.False(t, verify.Inside(square(3, 4, 3), u))
	assert.False(t, verify.Inside(square(0, 0, 9), u))
	assert.False(t, verify.Inside(square(7, 7, 4), square(0, 0, 9)))
}

func TestCloser(t *testing.T) {
	a := square(0, 0, 10)
	assert.False(t, verify.Closer(a, square(13, 0, 10), 3))
	assert.True(t, verify.Closer(a, square(13, 0, 10), 4))
	assert.False(t, verify.Closer(a, square(13, 14, 10), 5)) // 3-4-5
	assert.True(t, verify.Closer(a, square(13, 14, 10), 6))
	assert.True(t, verify.Closer(a, outline(11, 5, 20, 0, 20, 10), 2))
}

// turn is positive where b lies to the left of the way from c to a.
func turn(c, a, b geom.Point) int64 { return (a.X-c.X)*(b.Y-c.Y) - (a.Y-c.Y)*(b.X-c.X) }

// randomRing is a star-shaped ring about (x, y), sometimes on a coarse grid so that
// borders touch and run along each other.
func randomRing(r *rand.Rand, x, y, size int64) geom.Ring {
	step := int64(1)
	if r.IntN(2) == 0 {
		step = size / 4
	}
	for {
		var pts []geom.Point
		for n := 3 + r.IntN(7); n > 0; n-- {
			p := geom.Pt(x+(r.Int64N(2*size+1)-size)/step*step, y+(r.Int64N(2*size+1)-size)/step*step)
			if p != (geom.Pt(x, y)) && !slices.Contains(pts, p) {
				pts = append(pts, p)
			}
		}
		c := geom.Pt(x, y)
		half := func(p geom.Point) bool { return p.Y < y || (p.Y == y && p.X < x) }
		slices.SortFunc(pts, func(a, b geom.Point) int {
			if half(a) != half(b) {
				if half(a) {
					return 1
				}
				return -1
			}
			return cmp.Compare(0, turn(c, a, b))
		})
		ok := len(pts) >= 3
		for i := range pts {
			q := pts[(i+1)%len(pts)]
			ok = ok && turn(c, pts[i], q) > 0
		}
		if ok {
			return pts
		}
	}
}

// Laws: overlap does not depend on the order, on the sense of the rings,
// on where they start, nor on a common move or turn.
func TestOverlapLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		a := randomRing(r, 0, 0, 12)
		b := randomRing(r, r.Int64N(30)-15, r.Int64N(30)-15, 12)
		want := verify.Overlap(a, b)
		require.Equal(t, want, verify.Overlap(b, a))
		turned := func(g geom.Ring) geom.Ring {
			out := slices.Clone(g)
			for i, p := range out {
				out[i] = geom.Pt(-p.Y+7, p.X-3)
			}
			k := int(r.Int64N(int64(len(out))))
			out = append(out[k:], out[:k]...)
			if r.IntN(2) == 0 {
				slices.Reverse(out)
			}
			return out
		}
		require.Equal(t, want, verify.Overlap(turned(a), turned(b)))
		if verify.Inside(a, b) {
			require.True(t, want)
		}
	})
}

func goodLayout() ([]verify.Piece, []verify.Container, []verify.Placement) {
	ps := []verify.Piece{
		{Ring: square(0, 0, 10), Count: 2, Angles: []int64{0, 90_000_000}},
		{Ring: outline(0, 0, 10, 0, 0, 10), Count: 1, MustMirror: true},
		{Ring: square(0, 0, 10), Count: 1, Takes: []int{2}, PhaseX: verify.Phase{20, 0}},
	}
	cs := []verify.Container{{Outer: square(0, 0, 40), Holes: []geom.Ring{square(20, 20, 5)},
		Zones: []verify.Zone{{1, square(30, 30, 5)}, {2, square(0, 30, 5)}}}}
	pl := []verify.Placement{
		{0, 0, 0, 0, false, geom.Pt(0, 0), square(0, 0, 10)},
		{0, 1, 0, 90_000_000, false, geom.Pt(20, 0), outline(20, 0, 20, 10, 10, 10, 10, 0)},
		{1, 0, 0, 0, true, geom.Pt(30, 0), outline(30, 10, 20, 0, 30, 0)},
		{2, 0, 0, 0, false, geom.Pt(0, 30), square(0, 30, 10)},
	}
	return ps, cs, pl
}

// Every kind of fault, put into a good layout, is found.
func TestInjectedOutlineFaults(t *testing.T) {
	ps, cs, pl := goodLayout()
	require.Empty(t, verify.Outlines(ps, cs, 0, true, pl))
	shift := func(p *verify.Placement, dx, dy int64) {
		p.At.X += dx
		p.At.Y += dy
		p.Ring = slices.Clone(p.Ring)
		for i := range p.Ring {
			p.Ring[i].X += dx
			p.Ring[i].Y += dy
		}
	}
	for _, c := range []struct {
		kind verify.Kind
		do   func(ps []verify.Piece, cs []verify.Container, pl *[]verify.Placement) int64
	}{
		{verify.Missing, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 { *pl = (*pl)[1:]; return 0 }},
		{verify.Repeated, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			(*pl)[1].Copy = 0
			return 0
		}},
		{verify.Repeated, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			(*pl)[1].Container = 1
			return 0
		}},
		{verify.Shape, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			(*pl)[0].Ring = slices.Clone((*pl)[0].Ring)
			(*pl)[0].Ring[2].X--
			return 0
		}},
		{verify.Angle, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			(*pl)[1].Angle = 180_000_000
			return 0
		}},
		{verify.Mirror, func(ps []verify.Piece, _ []verify.Container, _ *[]verify.Placement) int64 {
			ps[1].MustMirror = false
			return 0
		}},
		{verify.Mirror, func(ps []verify.Piece, _ []verify.Container, _ *[]verify.Placement) int64 {
			ps[0].MustMirror = true
			return 0
		}},
		{verify.Outside, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			shift(&(*pl)[0], -1, 0)
			return 0
		}},
		{verify.OnHole, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			shift(&(*pl)[0], 11, 11)
			return 0
		}},
		{verify.OnZone, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			shift(&(*pl)[0], 30, 30)
			return 0
		}},
		{verify.OnZone, func(ps []verify.Piece, _ []verify.Container, _ *[]verify.Placement) int64 {
			ps[3-1].Takes = nil
			return 0
		}},
		{verify.Overlaps, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			shift(&(*pl)[0], 1, 0)
			return 0
		}},
		{verify.TooClose, func(_ []verify.Piece, _ []verify.Container, _ *[]verify.Placement) int64 { return 1 }},
		{verify.OffRepeat, func(ps []verify.Piece, _ []verify.Container, _ *[]verify.Placement) int64 {
			ps[2].PhaseX.At = 1
			return 0
		}},
		{verify.Range, func(_ []verify.Piece, _ []verify.Container, pl *[]verify.Placement) int64 {
			shift(&(*pl)[0], 1<<30, 0)
			return 0
		}},
	} {
		ps, cs, pl := goodLayout()
		gap := c.do(ps, cs, &pl)
		var kinds []verify.Kind
		for _, f := range verify.Outlines(ps, cs, gap, true, pl) {
			kinds = append(kinds, f.Kind)
			assert.NotEmpty(t, f.Error())
		}
		assert.Contains(t, kinds, c.kind, c.kind.String())
	}
}

func FuzzOverlap(f *testing.F) {
	f.Add([]byte{0, 0, 4, 0, 4, 4, 0, 4}, []byte{2, 2, 6, 2, 6, 6, 2, 6})
	f.Add([]byte{0, 0, 4, 4, 4, 0, 0, 4}, []byte{1, 1, 1, 1, 1, 1})
	f.Add([]byte{0, 0, 4, 0, 2, 0, 4, 4}, []byte{0, 0, 4, 0, 4, 4})
	f.Fuzz(func(t *testing.T, a, b []byte) {
		ring := func(v []byte) geom.Ring {
			var r geom.Ring
			for i := 0; i+1 < len(v) && len(r) < 30; i += 2 {
				r = append(r, geom.Pt(int64(int8(v[i])), int64(int8(v[i+1]))))
			}
			return r
		}
		// Any input, also degenerate or crossing itself: no panic, and the
		// answer does not depend on the order.
		ra, rb := ring(a), ring(b)
		if verify.Overlap(ra, rb) != verify.Overlap(rb, ra) {
			t.Fatal("order matters")
		}
		if len(ra) > 2 && len(rb) > 2 {
			verify.Inside(ra, rb)
			verify.Closer(ra, rb, 3)
		}
	})
}
