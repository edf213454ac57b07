package nest

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// These tests make much garbage and keep little: collecting it more seldom takes
// a sixth off their time.
var _ = debug.SetGCPercent(400)

// outline is the ring through points given by their coordinates in turn.
func outline(xy ...int64) geom.Ring {
	r := make(geom.Ring, len(xy)/2)
	for i := range r {
		r[i] = geom.Pt(xy[2*i], xy[2*i+1])
	}
	return r
}

func flaw(x0, y0, x1, y1 int64) geom.Box { return geom.Box{Min: geom.Pt(x0, y0), Max: geom.Pt(x1, y1)} }

func rect(w, h int64) geom.Ring { return outline(0, 0, w, 0, w, h, 0, h) }

// cut is a dissection of a box by random straight cuts, in whole numbers:
// its pieces fit together again without waste.
func cut(r *rand.Rand, box geom.Ring, n int) []geom.Ring {
	parts := []geom.Ring{box}
	for len(parts) < n {
		k := 0 // the largest
		for i := range parts {
			if twiceArea(parts[i]) > twiceArea(parts[k]) {
				k = i
			}
		}
		p := parts[k]
		i := r.IntN(len(p))
		j := (i + 1 + r.IntN(len(p)-1)) % len(p)
		mid := func(i int) geom.Point {
			a, b := p[i], p[(i+1)%len(p)]
			// Cuts start at whole points of an edge: edges are kept multiples of 64.
			t := 1 + r.Int64N(3)
			return geom.Pt(a.X+(b.X-a.X)/4*t, a.Y+(b.Y-a.Y)/4*t)
		}
		onEdge := func(i int, q geom.Point) bool { return orient(p[i], p[(i+1)%len(p)], q) == 0 }
		a, b := mid(i), mid(j)
		if !onEdge(i, a) || !onEdge(j, b) {
			continue
		}
		var one, two geom.Ring
		one = append(one, a)
		for q := (i + 1) % len(p); q != (j+1)%len(p); q = (q + 1) % len(p) {
			one = append(one, p[q])
		}
		one = append(one, b)
		two = append(two, b)
		for q := (j + 1) % len(p); q != (i+1)%len(p); q = (q + 1) % len(p) {
			two = append(two, p[q])
		}
		two = append(two, a)
		one, two = one.Tidy(), two.Tidy()
		if len(one) < 3 || len(two) < 3 || twiceArea(one)+twiceArea(two) != twiceArea(p) || twiceArea(one)*4 < twiceArea(two) || twiceArea(two)*4 < twiceArea(one) {
			continue
		}
		parts[k] = one
		parts = append(parts, two)
	}
	return parts
}

func pieceArea2(ps []Piece) (a int64) {
	for _, p := range ps {
		a += twiceArea(p.Ring) * int64(max(p.Count, 1))
	}
	return a
}

// Two equal L shapes, four squares: exact fits the search has to hit to
// the unit. The optimum is derived from the area.
func TestStripExactFit(t *testing.T) {
	ell := outline(0, 0, 2000, 0, 2000, 1000, 1000, 1000, 1000, 2000, 0, 2000)
	for _, c := range []struct {
		name   string
		width  int64
		pieces []Piece
		want   int64
	}{
		{"four squares", 2000, []Piece{{Ring: rect(1000, 1000), Count: 4}}, 2000},
		{"L and L", 2000, []Piece{{Ring: ell, Count: 2, Turn: TurnSet(0, 180*Degree)}}, 3000},
		{"rectangles", 3000, []Piece{{Ring: rect(1000, 2000), Count: 2}, {Ring: rect(1000, 1000), Count: 2}}, 2000},
		{"square in a notch", 3000, []Piece{{Ring: outline(0, 0, 3000, 0, 3000, 3000, 2000, 3000, 2000, 1000, 1000, 1000, 1000, 3000, 0, 3000)},
			{Ring: rect(1000, 2000)}}, 3000},
		{"mirrored pair", 1000, []Piece{{Ring: outline(0, 0, 1000, 0, 0, 1000)},
			{Ring: outline(0, 0, 1000, 0, 0, 1000), Mirror: AlwaysMirrored, Turn: TurnSet(90 * Degree)}}, 1000},
	} {
		out, err := Strip(context.Background(), StripJob{Width: c.width, Pieces: c.pieces, Options: Options{Effort: 12}})
		require.NoError(t, err, c.name)
		assert.Equal(t, c.want, out.Length, c.name)
		assert.LessOrEqual(t, out.LowerBound, c.want, c.name)
	}
}

// A dissection has a known optimum of 100 %; little effort must come near.
func TestStripDissection(t *testing.T) {
	for _, c := range []struct {
		n    int
		want float64
	}{{4, 0.999}, {8, 0.88}} {
		sum := 0.0
		for seed := uint64(1); seed <= 2; seed++ {
			box := rect(1<<14, 1<<14)
			var ps []Piece
			for _, r := range cut(rand.New(rand.NewPCG(seed, 1)), box, c.n) {
				ps = append(ps, Piece{Ring: r})
			}
			require.Equal(t, twiceArea(box), pieceArea2(ps))
			out, err := Strip(context.Background(), StripJob{Width: 1 << 14, Pieces: ps, Options: Options{Effort: 40, Seed: seed}})
			require.NoError(t, err)
			require.LessOrEqual(t, out.Density(1<<14), 1.0)
			sum += out.Density(1<<14) / 2
		}
		assert.Greater(t, sum, c.want, "%d pieces", c.n)
	}
}

func TestStripGap(t *testing.T) {
	out, err := Strip(context.Background(), StripJob{Width: 1000, Pieces: []Piece{{Ring: rect(1000, 1000), Count: 3}}, Options: Options{Effort: 1, Gap: 30}})
	require.NoError(t, err)
	// Rounding outwards costs at most a few units a gap.
	assert.InDelta(t, 3060, out.Length, 8)
	assert.GreaterOrEqual(t, out.Length, int64(3060))
	round := geom.Ring{}
	for k := Angle(0); k < 36; k++ {
		s, c := (k * 10 * Degree).sincos()
		round = append(round, geom.Pt(int64(1000*c), int64(1000*s)))
	}
	out, err = Strip(context.Background(), StripJob{Width: 4100, Pieces: []Piece{{Ring: round, Count: 6}}, Options: Options{Effort: 1, Gap: 50}})
	require.NoError(t, err)
	for i, a := range out.Placements {
		for _, b := range out.Placements[i+1:] {
			assert.False(t, verify.Closer(a.Ring, b.Ring, 50))
		}
	}
}

func TestStripRepeat(t *testing.T) {
	p := Piece{Ring: outline(0, 0, 700, 0, 900, 400, 700, 800, 0, 800), Count: 5, Turn: TurnSet(0, 180*Degree),
		Anchor: geom.Pt(300, 400), PhaseX: Phase{250, 50}, PhaseY: Phase{400, 0}}
	out, err := Strip(context.Background(), StripJob{Width: 2100, Pieces: []Piece{p}, Options: Options{Effort: 1}})
	require.NoError(t, err)
	for _, pl := range out.Placements {
		a := turned(geom.Ring{p.Anchor}, pl.Angle, pl.Mirrored).Translate(pl.At)[0]
		assert.Zero(t, (a.X-50)%250)
		assert.Zero(t, a.Y%400)
	}
	// A repeat can only lengthen the roll.
	free := p
	free.PhaseX, free.PhaseY = Phase{}, Phase{}
	loose, err := Strip(context.Background(), StripJob{Width: 2100, Pieces: []Piece{free}, Options: Options{Effort: 1}})
	require.NoError(t, err)
	assert.LessOrEqual(t, loose.Length, out.Length)
}

// On goods with a drop the columns of the repeat begin one after another.
func TestStripFalls(t *testing.T) {
	for _, c := range []struct {
		name  string
		falls []int64
		count int
		want  int64
	}{
		{"no drop", nil, 4, 60},
		{"half drop", []int64{0, 20}, 1, 20},
		{"half drop", []int64{0, 20}, 2, 40},
		{"half drop", []int64{0, 20}, 4, 80},
		{"the first column falls", []int64{20, 0}, 1, 20},
		{"no column begins at the end of the roll", []int64{7, 27}, 4, 87},
		{"the columns follow each other as they do without", []int64{0, 0, 0}, 4, 60},
	} {
		t.Run(fmt.Sprint(c.name, c.count), func(t *testing.T) {
			p := Piece{ID: "p", Ring: rect(20, 50), Count: c.count, PhaseX: Phase{Every: 40}, PhaseY: Phase{Every: 50}, Falls: c.falls}
			l, err := Strip(context.Background(), StripJob{Width: 100, Pieces: []Piece{p}, Options: Options{Effort: 1}})
			require.NoError(t, err)
			require.Equal(t, c.want, l.Length)
			require.LessOrEqual(t, l.LowerBound, l.Length)
		})
	}
}

func TestStripFlaws(t *testing.T) {
	for _, c := range []struct {
		name   string
		flaws  []geom.Box
		length int64
	}{
		{"none", nil, 180},
		{"across the roll, a piece before it", []geom.Box{flaw(100, 0, 150, 100)}, 270},
		{"across the roll and sticking out of it", []geom.Box{flaw(100, -40, 150, 140)}, 270},
		{"no room before it", []geom.Box{flaw(50, 0, 70, 100)}, 250},
		{"in one corner, at the end of the roll", []geom.Box{flaw(0, 0, 10, 10)}, 190},
		{"before the end and behind everything", []geom.Box{flaw(-20, 0, 0, 100), flaw(180, 0, 5000, 100)}, 180},
		{"two that overlap", []geom.Box{flaw(60, 0, 80, 60), flaw(70, 40, 90, 100)}, 210},
		{"beside the roll", []geom.Box{flaw(0, 100, 90, 120)}, 180},
		{"without area", []geom.Box{flaw(30, 30, 30, 60)}, 180},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := Strip(context.Background(), StripJob{Width: 100, Flaws: c.flaws,
				Pieces: []Piece{{ID: "p", Ring: rect(60, 100), Count: 3}}, Options: Options{Effort: 1}})
			require.NoError(t, err)
			require.Equal(t, c.length, l.Length)
			require.Len(t, l.Placements, 3)
		})
	}
}

func TestFlawsRefused(t *testing.T) {
	piece := Piece{ID: "p", Ring: rect(60, 100)}
	for _, c := range []struct {
		name  string
		flaws []geom.Box
		turn  Turn
	}{
		{"inside out", []geom.Box{flaw(20, 0, 10, 50)}, Turn{}},
		{"beyond the coordinates", []geom.Box{flaw(0, 0, MaxCoord, 50)}, Turn{}},
		{"too many", make([]geom.Box, mostFlaws+1), Turn{}},
		{"with free turning", []geom.Box{flaw(0, 0, 10, 50)}, TurnAny()},
	} {
		piece.Turn = c.turn
		_, err := Strip(context.Background(), StripJob{Width: 100, Flaws: c.flaws, Pieces: []Piece{piece}, Options: Options{Effort: 1}})
		require.ErrorIs(t, err, ErrRange, c.name)
		var in *InputError
		require.ErrorAs(t, err, &in, c.name)
		assert.Contains(t, in.Field, "flaw", c.name)
	}
}

// Whatever the flaws and the repeat: the referee agrees (Strip asks it), the
// bound holds, and a flaw across the end of the roll pushes all behind it.
func TestStripFlawsAndFalls(t *testing.T) { few.Check(t, 8, stripFlawsAndFalls) }

func stripFlawsAndFalls(t *rapid.T) {
	pieces := garment(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 5)), rapid.IntRange(1, 6).Draw(t, "pieces"))
	for i, p := range pieces {
		for k, q := range p.Ring {
			pieces[i].Ring[k] = geom.Pt(q.X/3, q.Y/3)
		}
	}
	if rapid.Bool().Draw(t, "patterned") {
		at := rapid.Int64Range(-500, 500)
		for i := range pieces {
			pieces[i].Turn = Turn{}
			pieces[i].PhaseX, pieces[i].PhaseY = Phase{350, at.Draw(t, "x")}, Phase{270, at.Draw(t, "y")}
			pieces[i].Falls = rapid.SliceOfN(at, 0, 3).Draw(t, "falls")
		}
	}
	var flaws []geom.Box
	for range rapid.IntRange(0, 4).Draw(t, "flaws") {
		x, y := rapid.Int64Range(-100, 3000).Draw(t, "x"), rapid.Int64Range(-100, 1000).Draw(t, "y")
		flaws = append(flaws, flaw(x, y, x+rapid.Int64Range(0, 400).Draw(t, "w"), y+rapid.Int64Range(0, 1200).Draw(t, "h")))
	}
	band := rapid.Int64Range(0, 300).Draw(t, "band")
	flaws = append(flaws, flaw(0, 0, band, 1400))
	gap := rapid.SampledFrom([]int64{0, 12}).Draw(t, "gap")
	l, err := Strip(context.Background(), StripJob{Width: 1400, Pieces: pieces, Flaws: flaws, Options: Options{Effort: 1, Gap: gap}})
	if errors.Is(err, ErrNoRoom) { // the repeat leaves none across the roll
		return
	}
	require.NoError(t, err)
	require.GreaterOrEqual(t, l.Length, l.LowerBound)
	for _, p := range l.Placements {
		require.GreaterOrEqual(t, p.Ring.Bounds().Min.X, band)
	}
}

// Free turning helps: a long bar that is wider than the roll in its given
// position fits across it at an angle or along it.
func TestStripTurning(t *testing.T) {
	bar := Piece{Ring: rect(400, 3000), Count: 3, Turn: TurnAny()}
	out, err := Strip(context.Background(), StripJob{Width: 2000, Pieces: []Piece{bar}, Options: Options{Effort: 4}})
	require.NoError(t, err)
	assert.Less(t, out.Length, int64(5000))
	tol := Piece{Ring: outline(0, 0, 1000, 100, 1000, 600, 0, 500), Count: 4, Turn: TurnAround(5*Degree, 0, 180*Degree)}
	out, err = Strip(context.Background(), StripJob{Width: 2500, Pieces: []Piece{tol}, Options: Options{Effort: 2}})
	require.NoError(t, err)
	for _, p := range out.Placements {
		d := p.Angle % (180 * Degree)
		assert.LessOrEqual(t, min(d, 180*Degree-d), 5*Degree)
	}
	_, err = Strip(context.Background(), StripJob{Width: 300, Pieces: []Piece{bar}})
	assert.ErrorIs(t, err, ErrNoRoom)
}

func garment(r *rand.Rand, n int) []Piece {
	var out []Piece
	for i := range n {
		var ring geom.Ring
		m := 8 + r.IntN(20)
		a, b := 300+r.Float64()*900, 300+r.Float64()*900
		wave := r.Float64() * 0.25
		for k := range m {
			s, c := (Angle(k) * fullTurn / Angle(m)).sincos()
			s3, _ := (Angle(3*k) * fullTurn / Angle(m)).sincos()
			f := 1 + wave*s3
			ring = append(ring, geom.Pt(int64(a*c*f), int64(b*s*f)))
		}
		out = append(out, Piece{ID: fmt.Sprint(i), Ring: ring, Turn: TurnSet(0, 180*Degree)})
	}
	return out
}

func TestStripDeterministic(t *testing.T) {
	job := StripJob{Width: 4000, Pieces: garment(rand.New(rand.NewPCG(1, 2)), 9), Options: Options{Effort: 2, Seed: 5}}
	first, err := Strip(context.Background(), job)
	require.NoError(t, err)
	old := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(old)
	second, err := Strip(context.Background(), job)
	require.NoError(t, err)
	assert.Equal(t, first, second)
	job.AtOnce = 1
	second, err = Strip(context.Background(), job)
	require.NoError(t, err)
	assert.Equal(t, first, second, "one search at a time finds the same")
	job.Seed++
	third, err := Strip(context.Background(), job)
	require.NoError(t, err)
	assert.NotEqual(t, first.Placements, third.Placements)
}

func TestStripCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	job := StripJob{Width: 4000, Pieces: garment(rand.New(rand.NewPCG(1, 2)), 20), Options: Options{Effort: 1 << 20}}
	calls := 0
	job.Progress = func(p Progress) {
		calls++
		assert.LessOrEqual(t, p.Work, p.Budget)
		cancel()
	}
	go cancel()
	out, err := Strip(ctx, job)
	require.NoError(t, err)
	assert.True(t, out.Stopped)
	assert.Len(t, out.Placements, 20)
	assert.Positive(t, calls)
}

func TestRefusals(t *testing.T) {
	ok := Piece{Ring: rect(10, 10)}
	for _, c := range []struct {
		name string
		job  StripJob
		want error
	}{
		{"no width", StripJob{Pieces: []Piece{ok}}, ErrRange},
		{"no pieces", StripJob{Width: 100}, ErrEmpty},
		{"two corners", StripJob{Width: 100, Pieces: []Piece{{Ring: outline(0, 0, 1, 1)}}}, ErrRing},
		{"no area", StripJob{Width: 100, Pieces: []Piece{{Ring: outline(0, 0, 5, 5, 9, 9)}}}, ErrRing},
		{"bow tie", StripJob{Width: 100, Pieces: []Piece{{Ring: outline(0, 0, 9, 9, 9, 0, 0, 8)}}}, ErrRing},
		{"huge", StripJob{Width: 100, Pieces: []Piece{{Ring: outline(0, 0, 1<<40, 0, 0, 9)}}}, ErrRange},
		{"too wide", StripJob{Width: 9, Pieces: []Piece{ok}}, ErrNoRoom},
		{"count", StripJob{Width: 100, Pieces: []Piece{{Ring: ok.Ring, Count: -1}}}, ErrRange},
		{"many", StripJob{Width: 100, Pieces: []Piece{{Ring: ok.Ring, Count: 1 << 30}}}, ErrRange},
		{"gap", StripJob{Width: 100, Pieces: []Piece{ok}, Options: Options{Gap: -1}}, ErrRange},
		{"effort", StripJob{Width: 100, Pieces: []Piece{ok}, Options: Options{Effort: -1}}, ErrRange},
		{"workers", StripJob{Width: 100, Pieces: []Piece{ok}, Options: Options{Workers: 1000}}, ErrRange},
		{"off the repeat", StripJob{Width: 100, Pieces: []Piece{{Ring: ok.Ring, PhaseY: Phase{1000, 500}}}}, ErrNoRoom},
	} {
		_, err := Strip(context.Background(), c.job)
		require.ErrorIs(t, err, c.want, c.name)
		var in *InputError
		require.ErrorAs(t, err, &in, c.name)
		assert.NotEmpty(t, in.Field)
		assert.NotEmpty(t, in.Why)
	}
	_, err := Hides(context.Background(), HideJob{Pieces: []Piece{ok}})
	require.ErrorIs(t, err, ErrEmpty)
	_, err = Hides(context.Background(), HideJob{Hides: []Hide{{Outer: rect(9, 9), Holes: []geom.Ring{rect(9, 9)}}}, Pieces: []Piece{ok}})
	require.ErrorIs(t, err, ErrRing)
}

func roundHide(id string, radius float64, n int) Hide {
	h := Hide{ID: id}
	for k := range n {
		s, c := (Angle(k) * fullTurn / Angle(n)).sincos()
		s5, _ := (Angle(5*k) * fullTurn / Angle(n)).sincos()
		h.Outer = append(h.Outer, geom.Pt(int64(radius*c*(1+0.1*s5)), int64(1.1*radius*s*(1+0.1*s5))))
	}
	return h
}

func TestHides(t *testing.T) {
	hides := []Hide{roundHide("A", 10000, 300), roundHide("B", 11000, 300), roundHide("C", 10500, 300), roundHide("D", 9500, 300)}
	for i := range hides {
		hides[i].Holes = []geom.Ring{rect(300, 300).Translate(geom.Pt(int64(i)*1000, -2000))}
		hides[i].Zones = []Zone{{1, rect(4000, 3000).Translate(geom.Pt(-8000, 2000))}, {3, rect(2000, 3000).Translate(geom.Pt(3000, 4000))}}
	}
	wing := outline(0, 0, 3000, 0, 4200, 2500, 3500, 5200, 1500, 6000, 300, 3000)
	pieces := []Piece{
		{ID: "seat", Ring: rect(6000, 5500), Count: 4, Turn: TurnAny()},
		{ID: "wing", Ring: wing, Count: 3, Turn: TurnAny(), Takes: KindsOf(3)},
		{ID: "wing, other side", Ring: wing, Count: 3, Turn: TurnAny(), Mirror: AlwaysMirrored, Takes: KindsOf(3)},
		{ID: "band", Ring: rect(9000, 900), Count: 4, Turn: TurnAround(10*Degree, 0), Takes: KindsOf(1, 3)},
	}
	job := HideJob{Hides: hides, Pieces: pieces, Options: Options{Effort: 2, Seed: 3}}
	out, err := Hides(context.Background(), job)
	require.NoError(t, err)
	require.Empty(t, out.Unplaced)
	require.Len(t, out.Placements, 14)
	assert.GreaterOrEqual(t, len(out.Used), out.Least)
	assert.Less(t, out.Utilisation(), 1.0)
	for _, p := range out.Placements {
		assert.Equal(t, pieces[p.Piece].Mirror == AlwaysMirrored, p.Mirrored)
	}
	job.Baseline = true
	base, err := Hides(context.Background(), job)
	require.NoError(t, err)
	assert.LessOrEqual(t, len(out.Used), len(base.Used), "the search must not lose against first-fit")

	job.Baseline = false
	job.Effort = 1
	one, err := Hides(context.Background(), job)
	require.NoError(t, err)
	old := runtime.GOMAXPROCS(1)
	two, err := Hides(context.Background(), job)
	runtime.GOMAXPROCS(old)
	require.NoError(t, err)
	assert.Equal(t, one, two, "determinism")

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	out, err = Hides(ctx, job)
	require.NoError(t, err)
	assert.True(t, out.Stopped)
}

// The larger square lies on the smaller hide: neither fits where it is, nor
// anywhere while the other stays. Changing places helps.
func TestExchange(t *testing.T) {
	r, err := newHideRun(context.Background(), HideJob{
		Hides:  []Hide{{Outer: rect(7400, 7400)}, {Outer: rect(6400, 6400)}},
		Pieces: []Piece{{ID: "large", Ring: rect(7000, 7000), Turn: TurnSet(0, 90*Degree)}, {ID: "small", Ring: rect(6000, 6000)}},
	})
	require.NoError(t, err)
	require.True(t, r.begin(stage{plan: 60, most: 60}))
	w := r.ws[0]
	w.active = []int{0, 1}
	w.put(0, pose{g: 1, x: 3200, y: 3200})
	w.put(1, pose{g: 0, x: 3700, y: 3700})
	loss := func() float64 {
		return w.eval(0, w.at[0], math.MaxFloat64) + w.eval(1, w.at[1], math.MaxFloat64)
	}
	for range 50 {
		before, at := loss(), w.save()
		exchange(w, 0)
		if now := loss(); now == before {
			assert.Equal(t, at, w.at)
		} else {
			assert.Less(t, now, before)
		}
		if w.at[0].g == 0 {
			break
		}
	}
	assert.Equal(t, []int{0, 1}, []int{w.at[0].g, w.at[1].g})
	assert.Equal(t, [][]int{{0}, {1}}, w.on)
}

// On cases small enough to be exact: a defect never lowers the number of
// hides, and takes one more where it must.
func TestDefectsCost(t *testing.T) {
	square := func(holes ...geom.Ring) Hide { return Hide{Outer: rect(10000, 10000), Holes: holes} }
	four := []Piece{{Ring: rect(4700, 4700), Count: 4, Turn: TurnSet(0)}}
	used := func(hides ...Hide) int {
		out, err := Hides(context.Background(), HideJob{Hides: hides, Pieces: four, Options: Options{Effort: 4}})
		require.NoError(t, err)
		require.Empty(t, out.Unplaced)
		require.GreaterOrEqual(t, len(out.Used), out.Least)
		return len(out.Used)
	}
	plain := square()
	assert.Equal(t, 1, used(plain, plain, plain))
	assert.Equal(t, 1, used(square(rect(100, 100).Translate(geom.Pt(4950, 4950))), plain, plain), "a hole between the pieces")
	hurt := square(rect(800, 800).Translate(geom.Pt(2200, 2200)))
	assert.Equal(t, 2, used(hurt, hurt, hurt))
	many := square(rect(800, 800).Translate(geom.Pt(2200, 2200)), rect(800, 800).Translate(geom.Pt(7000, 7000)))
	assert.Equal(t, 2, used(many, many, many))
}

func TestLeast(t *testing.T) {
	run := func(hides []Hide, pieces ...Piece) (int, string) {
		r, err := newHideRun(context.Background(), HideJob{Hides: hides, Pieces: pieces})
		require.NoError(t, err)
		require.True(t, r.begin(stage{plan: 60, most: 60}))
		return r.least()
	}
	h := Hide{Outer: rect(10000, 10000)}
	n, why := run([]Hide{h, h, h}, Piece{Ring: rect(5000, 5000), Count: 9})
	assert.Equal(t, 3, n, why)
	n, why = run([]Hide{h, h, h}, Piece{Ring: rect(5100, 5100), Count: 2})
	assert.Equal(t, 1, n, why)
	// Two squares of 7100 never share a hide of 10000, though the area
	// would do for none of the others: circles of 3550 keep 7100 apart and
	// their centres have only 2900 by 2900 to lie in.
	n, why = run([]Hide{h, h, h}, Piece{Ring: rect(7000, 7000), Count: 2})
	assert.Equal(t, 1, n, "the bound of large pieces is not exact: %s", why)
	zoned := h
	zoned.Zones = []Zone{{1, rect(9000, 9000).Translate(geom.Pt(500, 500))}}
	n, why = run([]Hide{zoned, zoned, zoned}, Piece{Ring: rect(4000, 4000), Count: 2})
	assert.Equal(t, 2, n, why)
	n, _ = run([]Hide{zoned, zoned, zoned}, Piece{Ring: rect(4000, 4000), Count: 2, Takes: KindsOf(1)})
	assert.Equal(t, 1, n)
}

// More than fits: the layout says what is left.
func TestUnplaced(t *testing.T) {
	out, err := Hides(context.Background(), HideJob{Hides: []Hide{{Outer: rect(10000, 10000)}},
		Pieces: []Piece{{Ring: rect(6000, 6000), Count: 3, Turn: TurnAny()}}, Options: Options{Effort: 4}})
	require.NoError(t, err)
	assert.Len(t, out.Placements, 1)
	assert.Len(t, out.Unplaced, 2)
	// The search goes on to the end of its budget.
	assert.GreaterOrEqual(t, out.Work, int64(4*turnUnit*2*9/10))
}

// A piece very much larger than the hide has no place, and takes no memory.
func TestUnplacedHuge(t *testing.T) {
	for _, turn := range []Turn{{}, TurnAny()} {
		out, err := Hides(context.Background(), HideJob{Hides: []Hide{{Outer: rect(100, 100)}}, Baseline: true,
			Pieces: []Piece{{Ring: rect(MaxCoord-1, MaxCoord-1), Turn: turn}}, Options: Options{Effort: 1}})
		require.NoError(t, err)
		assert.Len(t, out.Unplaced, 1)
	}
}

// Of all states the searches met, the one with most pieces clear of each other
// is taken, whichever worker met it and whatever it went on to.
func TestPrune(t *testing.T) {
	r, err := newHideRun(context.Background(), HideJob{Hides: []Hide{{Outer: rect(10000, 10000)}},
		Pieces: []Piece{{Ring: rect(4000, 4000), Count: 4, Turn: TurnSet(0)}}})
	require.NoError(t, err)
	require.True(t, r.begin(stage{plan: 60, most: 60}))
	at := func(xy ...float64) (p []pose) {
		for k := 0; k < len(xy); k += 2 {
			p = append(p, pose{x: xy[k], y: xy[k+1]})
		}
		return p
	}
	r.best = at(2500, 2500, 2500, 2500, 2500, 2500, 2500, 2500)
	for i := range r.best[1:] {
		r.best[i+1].g = -1
	}
	r.ws[0].load(at(2500, 2500, 2600, 2600, 2700, 2700, 2800, 2800)) // where it ended
	r.prune([]*separation{nil, {low: at(2500, 2500, 2500, 2500, 7500, 7500, 7500, 7500), top: at(2500, 2500, 7500, 2500, 2500, 7500, 3000, 7500)},
		{low: at(2500, 2500, 2500, 2500, 2500, 2500, 7500, 7500)}})
	assert.Equal(t, []int{0, 0, 0, -1}, []int{r.best[0].g, r.best[1].g, r.best[2].g, r.best[3].g})
}

// The table of a pair agrees with the exact referee at random places, on
// the grid of the corners where pieces touch, and with a gap never allows
// less than the gap.
func TestPairTable(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	shapes := []geom.Ring{
		rect(1000, 600),
		outline(0, 0, 3000, 0, 3000, 3000, 2000, 3000, 2000, 1000, 1000, 1000, 1000, 3000, 0, 3000),
		outline(1000, 0, 2000, 0, 2000, 1000, 3000, 1000, 3000, 2000, 2000, 2000, 2000, 3000, 1000, 3000, 1000, 2000, 0, 2000, 0, 1000, 1000, 1000),
		outline(0, 0, 1700, 300, 2400, 1900, 900, 900, 200, 2200),
	}
	var cat []*shape
	for _, s := range shapes {
		sh := newShape(s.Tidy(), geom.Point{}, 0, false)
		parts, ok := convexParts(sh.ring)
		require.True(t, ok)
		sh.parts = parts
		cat = append(cat, sh)
	}
	for i, a := range cat {
		for _, b := range cat[i:] {
			tab := newPairTable(a, b, 0, 48)
			wide := newPairTable(a, b, 70, 48)
			for n := range 1200 {
				dx, dy := r.Int64N(a.w+b.w+200)-b.w-100, r.Int64N(a.h+b.h+200)-b.h-100
				if n%2 == 0 {
					dx, dy = dx/100*100, dy/100*100
				}
				at := b.ring.Translate(geom.Pt(dx, dy))
				want := verify.Overlap(a.ring, at)
				require.Equal(t, want, tab.depth(dx, dy) > 0, "%v %v at %d, %d", a.ring, b.ring, dx, dy)
				half := func(s *shape) geom.Ring {
					out := make(geom.Ring, len(s.ring))
					for i, p := range s.ring {
						out[i] = geom.Pt(s.w-p.X, s.h-p.Y)
					}
					return out
				}
				want180 := verify.Overlap(half(a), half(b).Translate(geom.Pt(dx, dy)))
				require.Equal(t, want180, tab.depth(a.w-b.w-dx, a.h-b.h-dy) > 0, "half a turn")
				if wide.depth(dx, dy) == 0 {
					require.False(t, want || verify.Closer(a.ring, at, 70))
				}
			}
		}
	}
}

// Shapes of more parts than a table can list: no place is called free that is
// not, whatever the grid.
func TestPairTableFull(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	scattered := func() *shape {
		s := &shape{w: 100_000, h: 100_000}
		for range 160 {
			x, y := r.Int64N(99_000), r.Int64N(99_000)
			s.parts = append(s.parts, outline(x, y, x+1000, y+r.Int64N(400), x+r.Int64N(400), y+1000))
		}
		return s
	}
	a, b := scattered(), scattered()
	for _, cells := range []int{4, 48} {
		tab := newPairTable(a, b, 0, cells)
		for range 300 {
			p, q := a.parts[r.IntN(160)], b.parts[r.IntN(160)]
			dx, dy := p[0].X-q[0].X+r.Int64N(1000)-500, p[0].Y-q[0].Y+r.Int64N(1000)-500
			if verify.Overlap(p, q.Translate(geom.Pt(dx, dy))) {
				require.Positive(t, tab.depth(dx, dy))
			}
		}
	}
}

// Laws of the parts: convex, same area in sum.
func TestConvexParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		p := garment(r, 1)[0].Ring.Tidy()
		if _, _, bad := p.FindCrossing(); bad {
			t.Skip()
		}
		parts, ok := convexParts(p)
		require.True(t, ok)
		var sum int64
		for _, q := range parts {
			require.True(t, q.Convex())
			sum += twiceArea(q)
		}
		require.Equal(t, twiceArea(p), sum)
	})
}

// Turning keeps areas to rounding, quarter turns exactly, and four quarter
// turns or two mirrorings give the piece back.
func TestTurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 3))
		p := garment(r, 1)[0].Ring.Tidy()
		a := Angle(rapid.Int64Range(0, int64(fullTurn)).Draw(t, "angle"))
		q := turned(p, a, true)
		require.InEpsilon(t, float64(twiceArea(p)), float64(twiceArea(q)), 0.01)
		require.Positive(t, q.Orientation())
		require.Equal(t, p, turned(turned(p, 90*Degree, false), 270*Degree, false))
		require.Equal(t, p, turned(turned(p, 0, true), 0, true))
	})
	s, c := (30 * Degree).sincos()
	assert.InDelta(t, 0.5, s, 1e-15)
	assert.InDelta(t, 0.8660254037844387, c, 1e-15)
}

func FuzzStrip(f *testing.F) {
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9}, byte(20), byte(0))
	f.Add([]byte{0, 0, 9, 9, 9, 0, 0, 9}, byte(20), byte(3))
	f.Add([]byte{0, 0, 9, 0, 4, 0, 9, 9}, byte(40), byte(1))
	f.Add([]byte{0, 0, 20, 0, 20, 1, 0, 1, 5, 0}, byte(30), byte(2))
	f.Fuzz(func(t *testing.T, b []byte, width, turn byte) {
		var r geom.Ring
		for i := 0; i+1 < len(b) && len(r) < 24; i += 2 {
			r = append(r, geom.Pt(int64(int8(b[i])), int64(int8(b[i+1]))))
		}
		p := Piece{Ring: r, Count: 3}
		switch turn % 4 {
		case 1:
			p.Turn = TurnSet(0, 90*Degree, 33*Degree)
		case 2:
			p.Turn = TurnAny()
		case 3:
			p.Mirror = MayMirror
		}
		job := StripJob{Width: int64(width), Options: Options{Effort: 1}}
		if turn&8 != 0 {
			job.Flaws = []geom.Box{flaw(3, 2, 6, 20), flaw(40, 0, 41, 300)}
		}
		if turn&16 != 0 {
			p.PhaseX, p.PhaseY, p.Falls = Phase{Every: 7, At: 3}, Phase{Every: 5}, []int64{0, 3, -4}
		}
		job.Pieces = []Piece{p}
		ctx := fadingAfter(2000 * int64(turn&32/32))
		_, err := Strip(ctx, job)
		if err != nil {
			var in *InputError
			require.ErrorAs(t, err, &in)
		}
		if turn >= 64 { // slower
			return
		}
		_, err = Hides(ctx, HideJob{Hides: []Hide{{Outer: rect(60, 60), Holes: []geom.Ring{rect(5, 5)}}}, Pieces: []Piece{p}, Options: Options{Effort: 1}})
		if err != nil {
			var in *InputError
			require.ErrorAs(t, err, &in)
		}
	})
}

// An outline a unit thin can be turned by quarters only: at 33 degrees its
// rounded corners enclose nothing.
func TestTooThinToTurn(t *testing.T) {
	thin := Piece{ID: "thin", Ring: outline(0, 0, 9, 8, 9, 9, 0, 9), Count: 3}
	sliver := Piece{ID: "sliver", Ring: outline(0, 0, 9, 8, 9, 9), Turn: TurnSet(33 * Degree)}
	for _, turn := range []Turn{TurnSet(0, 33*Degree), TurnAny(), TurnAround(10*Degree, 33*Degree)} {
		thin.Turn = turn
		l, err := Strip(context.Background(), StripJob{Width: 40, Pieces: []Piece{thin}, Options: Options{Effort: 1}})
		require.NoError(t, err)
		require.Len(t, l.Placements, 3)
	}
	_, err := Strip(context.Background(), StripJob{Width: 40, Pieces: []Piece{sliver}, Options: Options{Effort: 1}})
	require.ErrorIs(t, err, ErrRing)
	require.ErrorContains(t, err, "piece 0 (sliver): turn")
}

// A race of several lines gives a legal layout, the same whatever the
// processors, and stops on request.
func TestRace(t *testing.T) {
	pieces, err := checkedPieces(garment(rand.New(rand.NewPCG(7, 7)), 9))
	require.NoError(t, err)
	search := func(ctx context.Context, unit int64) (*stripRun, *snapshot, bool) {
		cat, simple := newCatalogue(ctx, pieces, 0)
		require.True(t, simple)
		var length int64
		for _, i := range cat.items {
			length += cat.shapes[cat.kinds[i].shapes[0]].w
		}
		opt, err := Options{Effort: 2}.checked()
		require.NoError(t, err)
		run := &stripRun{cat: cat, pieces: pieces, width: 3000, maxLen: length, lower: 1, opt: opt, plan: stage{plan: 2, most: 2}, lineUnit: unit}
		best, _, stopped := run.search(ctx)
		require.NoError(t, checkStrip(run.width, best.length, pieces, nil, run.placements(best), 0))
		return run, best, stopped
	}
	for _, unit := range []int64{12_500, 50_000, lineUnit} { // 16 lines, a few, one
		run, first, stopped := search(context.Background(), unit)
		require.False(t, stopped)
		old := runtime.GOMAXPROCS(1)
		_, again, _ := search(context.Background(), unit)
		runtime.GOMAXPROCS(old)
		require.Equal(t, run.placements(first), run.placements(again), "unit %d", unit)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, _, stopped := search(ctx, 12_500)
	require.True(t, stopped)
}

// Hides that are alike share their maps, others do not.
func TestGroundsAlike(t *testing.T) {
	hide := func(id string, change func(*Hide)) Hide {
		h := Hide{ID: id, Outer: outline(0, 0, 9000, 0, 9500, 9000, 0, 8000), Holes: []geom.Ring{rect(500, 500).Translate(geom.Pt(800, 800))}, Zones: []Zone{{1, rect(900, 900).Translate(geom.Pt(3000, 3000))}}}
		change(&h)
		return h
	}
	r, err := newHideRun(context.Background(), HideJob{Pieces: []Piece{{Ring: rect(700, 700)}}, Hides: []Hide{
		hide("a", func(*Hide) {}), hide("b", func(h *Hide) { h.Cost = 3 }), hide("c", func(h *Hide) { h.Zones[0].Kind = 2 }),
		hide("d", func(h *Hide) { h.Holes = nil }), hide("e", func(h *Hide) { h.Outer = rect(9000, 9000) }),
	}})
	require.NoError(t, err)
	require.True(t, r.begin(stage{plan: 60, most: 60}))
	shared := make([]bool, len(r.grounds))
	for i, g := range r.grounds[1:] {
		shared[i+1] = g.land(0) == r.grounds[i].land(0)
	}
	assert.Equal(t, []bool{false, true, false, false, false}, shared)
}

// A search that has not succeeded goes on where it was nearest: on the same hides from
// the least overlapping state, which nothing worse replaces, until there is a better
// layout.
func TestGoesOnFromTheNearest(t *testing.T) {
	hides := []Hide{{Outer: rect(10000, 10000)}, {Outer: rect(9000, 9000)}, {Outer: rect(8000, 8000)}}
	r, err := newHideRun(context.Background(), HideJob{Hides: hides, Pieces: []Piece{{Ring: rect(4990, 4990), Count: 4, Turn: TurnAny()}}})
	require.NoError(t, err)
	require.True(t, r.begin(stage{plan: 60, most: 60}))
	w := r.ws[0]
	r.onto(w, []int{0, 1})
	for i, p := range []pose{{x: 2500, y: 2500}, {x: 7500, y: 2500}, {x: 2500, y: 7500}, {g: 1, x: 4500, y: 4500}} {
		w.put(i, p)
	}
	r.keep(w)

	require.False(t, r.fewer([]int{0}, r.work()+1000), "too little work for a square hide that is full")
	first := r.near[1]
	require.Equal(t, []int{0}, first.on)
	for _, more := range []int64{0, 1000, 2000} {
		if r.fewer([]int{0}, r.work()+more) {
			break
		}
		require.LessOrEqual(t, r.near[1].loss, first.loss)
		if more == 0 { // nothing was done but to begin
			for _, w := range r.ws {
				assert.Equal(t, first.at, w.at)
			}
		}
	}

	r.note([]int{0, 2}, r.best, 5)
	r.note([]int{1, 2}, r.best, 7)
	assert.Equal(t, []int{0, 2}, r.near[2].on, "the nearer one")
	r.note([]int{0, 1}, r.best, 1)
	assert.Equal(t, []int{0, 2}, r.near[2].on, "what is in use is not looked for")
	require.True(t, r.goOn(w, 2))
	assert.Equal(t, []int{0, 2}, w.active)

	for i := range r.items {
		p := w.at[i]
		p.g = 2
		w.put(i, p)
	}
	r.keep(w)
	assert.False(t, r.goOn(w, 2), "two hides are no longer wanted")
	assert.False(t, r.goOn(w, 1), "nor is a dearer one")
	r.note([]int{1}, r.best, 1)
	assert.False(t, r.goOn(w, 1))
}

// gatherRun has two squares one above the other on a hide of the same height, at x.
func gatherRun(t *testing.T, x float64) *hideRun {
	r, err := newHideRun(context.Background(), HideJob{Hides: []Hide{{Outer: rect(20000, 10000)}}, Pieces: []Piece{{Ring: rect(4900, 4900), Count: 2, Turn: TurnSet(0)}}})
	require.NoError(t, err)
	require.True(t, r.begin(stage{plan: 60, most: 60}))
	w := r.ws[0]
	w.put(0, pose{x: x, y: 2500})
	w.put(1, pose{x: x, y: 7500})
	r.keep(w)
	return r
}

// What is left of a hide is in one place: the pieces lie at its left end.
func TestGather(t *testing.T) {
	r := gatherRun(t, 17000)
	r.gather()
	assert.Less(t, r.lengthOf(r.best), 5100.0)
	assert.Equal(t, []int{0}, r.used)
}

// Where a limit was too tight the first search goes back to the best layout, the second
// loosens what it has.
func TestGatherLoosens(t *testing.T) {
	r := gatherRun(t, 2455)
	best := append([]pose(nil), r.best...)
	r.most = r.work() + r.budget/40 + r.chunk*2/3 // the second limit is set, but has no work
	r.gather()
	require.True(t, r.cut)
	assert.Equal(t, best, r.ws[0].at)
	assert.NotEqual(t, best, r.ws[1].at)
}
