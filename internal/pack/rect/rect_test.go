package rect

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/dissect"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

func solve(t require.TestingT, j *Job, effort float64) *Plan {
	p, err := Solve(context.Background(), j, Options{Effort: effort, Seed: 1})
	require.NoError(t, err)
	require.LessOrEqual(t, p.Bound, p.Length)
	require.Equal(t, p.Proved, p.Bound == p.Length)
	return p
}

func pieces(sizes ...[2]int64) []Piece {
	var ps []Piece
	for _, s := range sizes {
		ps = append(ps, Piece{W: s[0], H: s[1], Count: 1})
	}
	return ps
}

// Hopper and Turton 2001, EJOR 128(1):34-57, instance C1-P1: optimum 20 with and without turning.
var hopperTurton = [][2]int64{
	{2, 12}, {7, 12}, {8, 6}, {3, 6}, {3, 5}, {5, 5}, {3, 12}, {3, 7},
	{5, 7}, {2, 6}, {3, 2}, {4, 2}, {3, 4}, {4, 4}, {9, 2}, {11, 2},
}

// Beasley 1985, instance gcut01: optimum 1016 upright, 696 with quarter turns.
var beasley = [][2]int64{
	{184, 167}, {118, 114}, {152, 167}, {140, 83}, {86, 70}, {166, 143}, {160, 120}, {148, 66}, {141, 87}, {165, 69},
}

func TestPublishedOptima(t *testing.T) {
	turned := func(ps []Piece) []Piece {
		for i := range ps {
			ps[i].Turns = Upright | QuarterTurn
		}
		return ps
	}
	for _, c := range []struct {
		name    string
		job     Job
		optimum int64
		proved  bool
	}{
		{"C1-P1", Job{Width: 20, Pieces: pieces(hopperTurton...)}, 20, true},
		{"C1-P1 turned", Job{Width: 20, Pieces: turned(pieces(hopperTurton...))}, 20, true},
		{"gcut01", Job{Width: 250, Pieces: pieces(beasley...)}, 1016, true},
		{"gcut01 turned", Job{Width: 250, Pieces: turned(pieces(beasley...))}, 696, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := solve(t, &c.job, 0.1)
			assert.Equal(t, c.optimum, p.Length)
			assert.LessOrEqual(t, p.Bound, c.optimum)
			if c.proved {
				assert.True(t, p.Proved)
			}
		})
	}
}

// cutJob is a job of known optimum: the pieces of a dissected rectangle.
func cutJob(t require.TestingT, w, h int64, n int, style dissect.Style, seed uint64) *Job {
	rs, err := dissect.Cut(w, h, n, style, seed)
	require.NoError(t, err)
	j := &Job{Width: w}
	for _, r := range rs {
		j.Pieces = append(j.Pieces, Piece{W: r.W, H: r.H, Count: 1})
	}
	return j
}

// TestDissectionGap holds the level on dissections that were not used while the search was tuned. Work is counted, so
// the result is the same on every machine.
func TestDissectionGap(t *testing.T) { dissectionGap(t, 0.02) }

func dissectionGap(t *testing.T, effort float64) {
	sum, n := 0.0, 0
	for _, c := range []struct {
		w, h int64
		n    int
	}{{40, 15, 25}, {60, 60, 49}, {200, 200, 97}, {160, 240, 197}} {
		for style := dissect.Guillotine; style <= dissect.Even; style++ {
			p := solve(t, cutJob(t, c.w, c.h, c.n, style, 9001), effort)
			require.Equal(t, c.h, max(c.h, p.Bound), "a bound above the optimum")
			sum += 100 * (float64(p.Length)/float64(c.h) - 1)
			n++
		}
	}
	t.Logf("mean gap %.3f %%", sum/float64(n))
	assert.LessOrEqual(t, sum/float64(n), 1.5)
}

func TestLargeJob(t *testing.T) {
	j := cutJob(t, 5000, 8000, 3000, dissect.Pinwheel, 5)
	p := solve(t, j, 0.02)
	assert.LessOrEqual(t, p.Length, int64(8800))
}

// A few large pieces among many small ones: the small ones find room in the holes of the large ones.
func TestTwoScales(t *testing.T) {
	j := &Job{Width: 3000}
	r := rnd{7}
	between := func(lo, hi int) int64 { return int64(lo + r.intn(hi-lo+1)) }
	for range 30 {
		j.Pieces = append(j.Pieces, Piece{W: between(400, 1400), H: between(300, 1200), Count: 1})
	}
	for range 500 {
		j.Pieces = append(j.Pieces, Piece{W: between(15, 45), H: between(15, 45), Count: 1})
	}
	p := solve(t, j, 0.15)
	assert.LessOrEqual(t, percentOver(p), 4.0)
	for i := range j.Pieces {
		j.Pieces[i].Turns = AnyTurn
	}
	p = solve(t, j, 0.15)
	assert.LessOrEqual(t, percentOver(p), 4.0)
}

func percentOver(p *Plan) float64 { return 100 * (float64(p.Length)/float64(p.Bound) - 1) }

// A search with less work is the beginning of one with more.
func TestMoreEffortIsNeverWorse(t *testing.T) { few.Check(t, 6, moreEffort) }

func moreEffort(t *rapid.T) {
	j := cutJob(t, 200, 100, rapid.IntRange(17, 120).Draw(t, "pieces"), dissect.Style(rapid.IntRange(0, 3).Draw(t, "style")), rapid.Uint64().Draw(t, "cut"))
	if rapid.Bool().Draw(t, "two scales") {
		for i := range j.Pieces {
			j.Pieces[i].H *= 20
			j.Pieces[i].W *= 20
		}
		j.Width *= 20
		j.Pieces = append(j.Pieces, Piece{W: 30, H: 20, Count: 200}, Piece{W: 19, H: 31, Count: 200})
	}
	if rapid.Bool().Draw(t, "turning") {
		for i := range j.Pieces {
			j.Pieces[i].Turns = AnyTurn
		}
	}
	o := Options{Seed: rapid.Uint64().Draw(t, "seed")}
	last := int64(0)
	// From 1<<19 steps a worker on, an effort of 0.001, the workers know of each other.
	for _, effort := range []float64{0.0005, rapid.Float64Range(0.0006, 0.004).Draw(t, "effort"), rapid.Float64Range(0.0045, 0.04).Draw(t, "more effort")} {
		o.Effort = effort
		p, err := Solve(context.Background(), j, o)
		require.NoError(t, err)
		if last > 0 {
			require.LessOrEqual(t, p.Length, last)
		}
		last = p.Length
	}
}

// drawJob draws a small job that uses every feature now and then.
func drawJob(t *rapid.T) *Job {
	num := func(lo, hi int64, what string) int64 { return rapid.Int64Range(lo, hi).Draw(t, what) }
	j := &Job{Width: num(8, 40, "width"), Gap: num(0, 2, "gap") * num(0, 1, "with gap")}
	if num(0, 2, "repeat") == 0 {
		j.Repeat = Repeat{PeriodX: num(0, 9, "px"), PeriodY: num(0, 9, "py"), OriginX: num(-20, 20, "ox"), OriginY: num(-20, 20, "oy")}
		if j.Repeat.PeriodX > 0 && j.Repeat.PeriodY > 0 && num(0, 1, "drop") == 0 {
			j.Repeat.DropDen = num(1, 4, "den")
			j.Repeat.DropNum = num(0, j.Repeat.DropDen-1, "num")
		}
	}
	for range num(0, 3, "flaws") * num(0, 1, "with flaws") {
		j.Flaws = append(j.Flaws, Flaw{num(-3, 40, "fx"), num(-3, 60, "fy"), num(1, 50, "fw"), num(1, 5, "fh")})
	}
	if num(0, 2, "groups") == 0 {
		j.Groups = []Group{{Window: num(20, 80, "window")}}
	}
	for range num(1, 8, "pieces") {
		p := Piece{
			W: num(1, 30, "w"), H: num(1, 30, "h"), Count: int(num(1, 3, "count")), Turns: Turns(num(0, 15, "turns")),
			Mirror: num(0, 1, "mirror") == 1, Match: Axes(num(0, 3, "match")), Spots: drawSpots(t, -5, 30), MovedX: num(-9, 9, "moved"), MovedY: num(-9, 9, "moved"),
			Group: int(num(0, int64(len(j.Groups)), "group")),
		}
		if num(0, 4, "split") == 0 {
			p.Match, p.Group = 0, 0
			p.Split = &Split{Along: Axes(num(1, 2, "along")), Allowance: num(0, 3, "allowance"), Min: num(1, 5, "min"), MaxSeams: int(num(1, 4, "seams"))}
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// A piece alone in its group must lie within the window too: refused when it
// is longer every way, turned when that helps.
func TestGroupOfOne(t *testing.T) {
	j := &Job{Width: 30, Groups: []Group{{Window: 20}}, Pieces: []Piece{{W: 5, H: 21, Count: 1, Group: 1}}}
	_, err := Solve(context.Background(), j, Options{Effort: 0.001})
	require.ErrorIs(t, err, ErrNoLayout)
	j.Pieces[0].Turns = Upright | QuarterTurn
	p, err := Solve(context.Background(), j, Options{Effort: 0.001})
	require.NoError(t, err)
	require.Equal(t, int64(5), p.Length)
}

// Every plan passes the verifier (Solve runs it), and no plan is shorter than the bound. Jobs that are refused are
// refused with a typed error.
func TestAnyJob(t *testing.T) { few.Check(t, 20, anyJob) }

func anyJob(t *rapid.T) {
	j := drawJob(t)
	p, err := Solve(context.Background(), j, Options{Effort: 0.0005, Seed: rapid.Uint64().Draw(t, "seed")})
	if err != nil {
		require.True(t, errors.As(err, new(*InputError)) || errors.Is(err, ErrNoLayout), "%v", err)
		return
	}
	require.LessOrEqual(t, p.Bound, p.Length)
	require.GreaterOrEqual(t, p.Bound, j.LowerBound())
}

// drawSpots draws up to two spots.
func drawSpots(t *rapid.T, lo, hi int64) []Spot {
	var out []Spot
	for range rapid.IntRange(0, 2).Draw(t, "spots") {
		out = append(out, Spot{X: rapid.Int64Range(lo, hi).Draw(t, "mx"), Y: rapid.Int64Range(lo, hi).Draw(t, "my"), Turns: Turns(rapid.IntRange(0, 15).Draw(t, "holds"))})
	}
	return out
}

// onMotif tells whether a piece at (x, y) has a spot on a motif, by looking at every motif near.
func onMotif(p *Piece, turn Turns, rep Repeat, x, y int64) bool {
	spots := p.Spots
	if len(spots) == 0 {
		spots = []Spot{{}}
	}
	byX, byY := p.Match&X != 0 && rep.PeriodX > 0, p.Match&Y != 0 && rep.PeriodY > 0
	if !byX && !byY {
		return true
	}
	for _, s := range spots {
		if !s.holds(turn) {
			continue
		}
		mx, my := p.turned(s, turn)
		mx, my = mx-p.MovedX, my-p.MovedY
		for i := int64(-40); i <= 40; i++ {
			drop := int64(0)
			if rep.DropNum > 0 {
				drop = mod(i, rep.DropDen) * rep.DropNum * rep.PeriodY / rep.DropDen
			}
			if (!byX || x+mx == rep.OriginX+i*rep.PeriodX) && (!byY || mod(y+my-rep.OriginY-drop, rep.PeriodY) == 0) {
				return true
			}
		}
	}
	return false
}

// The optimum by trying every place on the grid, for a few tiny pieces: a second, unrelated route.
func gridOptimum(width int64, ps []Piece, rep Repeat, gap int64) int64 {
	type sz struct{ x, y, w, h int64 }
	var laid []sz
	var try func(k int, limit int64) bool
	try = func(k int, limit int64) bool {
		if k == len(ps) {
			return true
		}
		p := &ps[k]
		for _, t := range p.turns() {
			w, h := p.size(t)
			for y := int64(0); y+h <= limit; y++ {
			next:
				for x := int64(0); x+w <= width; x++ {
					if !onMotif(p, t, rep, x, y) {
						continue
					}
					for _, q := range laid {
						if x < q.x+q.w+gap && q.x < x+w+gap && y < q.y+q.h+gap && q.y < y+h+gap {
							continue next
						}
					}
					laid = append(laid, sz{x, y, w, h})
					if try(k+1, limit) {
						return true
					}
					laid = laid[:len(laid)-1]
				}
			}
		}
		return false
	}
	for limit := int64(1); ; limit++ {
		laid = laid[:0]
		if try(0, limit) {
			return limit
		}
	}
}

func TestExactAgainstGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := func(lo, hi int64, what string) int64 { return rapid.Int64Range(lo, hi).Draw(t, what) }
		j := &Job{Width: num(3, 8, "width"), Gap: num(0, 1, "gap")}
		if num(0, 1, "repeat") == 0 {
			j.Repeat = Repeat{PeriodX: num(0, 3, "px"), PeriodY: num(0, 4, "py"), OriginX: num(-3, 3, "ox"), OriginY: num(-3, 3, "oy")}
			if j.Repeat.PeriodX > 0 && j.Repeat.PeriodY > 0 && num(0, 1, "drop") == 0 {
				j.Repeat.DropNum, j.Repeat.DropDen = 1, num(2, 3, "den")
			}
		}
		for range num(1, 4, "pieces") {
			p := Piece{W: num(1, 5, "w"), H: num(1, 4, "h"), Count: 1, Turns: Turns(num(0, 15, "turns")),
				Match: Axes(num(0, 3, "match")), Spots: drawSpots(t, 0, 4), MovedX: num(0, 2, "moved"), MovedY: num(-1, 2, "moved")}
			j.Pieces = append(j.Pieces, p)
		}
		if j.Validate() != nil {
			return
		}
		p, err := Solve(context.Background(), j, Options{Effort: 0.01})
		if errors.Is(err, ErrNoLayout) {
			for i := range j.Pieces { // no legal column for some piece
				q := &j.Pieces[i]
				if q.Match&X != 0 {
					return
				}
			}
		}
		require.NoError(t, err)
		require.True(t, p.Proved)
		require.Equal(t, gridOptimum(j.Width, j.Pieces, j.Repeat, j.Gap), p.Length)
	})
}

// drawPlain draws a plain job small enough to be proved.
func drawPlain(t *rapid.T) *Job {
	j := &Job{Width: rapid.Int64Range(6, 20).Draw(t, "width")}
	for range rapid.IntRange(1, 6).Draw(t, "pieces") {
		j.Pieces = append(j.Pieces, Piece{
			W: rapid.Int64Range(1, 6).Draw(t, "w"), H: rapid.Int64Range(1, 9).Draw(t, "h"), Count: 1,
			Turns: rapid.SampledFrom([]Turns{Upright, Upright | HalfTurn, AnyTurn}).Draw(t, "turns"),
		})
	}
	return j
}

func proved(t require.TestingT, j *Job) int64 {
	p := solve(t, j, 0.2)
	require.True(t, p.Proved)
	return p.Length
}

func TestLaws(t *testing.T) {
	laws(t, func(t *testing.T, law func(*rapid.T)) { few.Check(t, 10, law) })
}

// laws has each law checked.
func laws(t *testing.T, check func(*testing.T, func(*rapid.T))) {
	t.Run("more width never needs more length", func(t *testing.T) {
		check(t, func(t *rapid.T) {
			j := drawPlain(t)
			wider := *j
			wider.Width += rapid.Int64Range(1, 5).Draw(t, "more")
			require.LessOrEqual(t, proved(t, &wider), proved(t, j))
		})
	})
	t.Run("scaling scales the plan", func(t *testing.T) {
		check(t, func(t *rapid.T) {
			j := drawPlain(t)
			k := rapid.Int64Range(2, 1_000_000_000).Draw(t, "k")
			big := Job{Width: j.Width * k}
			for _, p := range j.Pieces {
				p.W, p.H = p.W*k, p.H*k
				big.Pieces = append(big.Pieces, p)
			}
			require.Equal(t, proved(t, j)*k, proved(t, &big))
		})
	})
	t.Run("removing a piece never raises the optimum", func(t *testing.T) {
		check(t, func(t *rapid.T) {
			j := drawPlain(t)
			if len(j.Pieces) < 2 {
				return
			}
			less := *j
			k := rapid.IntRange(0, len(j.Pieces)-1).Draw(t, "removed")
			less.Pieces = append(append([]Piece{}, j.Pieces[:k]...), j.Pieces[k+1:]...)
			require.LessOrEqual(t, proved(t, &less), proved(t, j))
		})
	})
	t.Run("repeat of zero equals plain", func(t *testing.T) {
		check(t, func(t *rapid.T) {
			j := drawPlain(t)
			plain := solve(t, j, 0.001)
			for i := range j.Pieces {
				j.Pieces[i].Match = X | Y
				j.Pieces[i].Spots = []Spot{{X: 3}}
			}
			j.Repeat = Repeat{OriginX: 5, OriginY: 7}
			require.Equal(t, plain, solve(t, j, 0.001))
		})
	})
	t.Run("a repeat never shortens the optimum", func(t *testing.T) {
		check(t, func(t *rapid.T) {
			j := drawPlain(t)
			plain := proved(t, j)
			for i := range j.Pieces {
				j.Pieces[i].Match = Y
			}
			j.Repeat.PeriodY = rapid.Int64Range(2, 9).Draw(t, "period")
			require.GreaterOrEqual(t, solve(t, j, 0.02).Length, plain)
		})
	})
	t.Run("allowing a turn never lengthens the optimum", func(t *testing.T) {
		check(t, func(t *rapid.T) {
			j := drawPlain(t)
			for i := range j.Pieces {
				j.Pieces[i].Turns = Upright
			}
			fixed := proved(t, j)
			j.Pieces[0].Turns = AnyTurn
			require.LessOrEqual(t, proved(t, j), fixed)
		})
	})
}

func TestDeterminism(t *testing.T) {
	jobs := map[string]*Job{"plain": cutJob(t, 200, 200, 40, dissect.Pinwheel, 3), "small": {Width: 250, Pieces: pieces(beasley...)}}
	for i := range jobs["small"].Pieces {
		jobs["small"].Pieces[i].Turns = AnyTurn
	}
	jobs["repeat"] = chair()
	jobs["solved"] = &Job{Width: 20, Pieces: pieces(hopperTurton...)}
	jobs["solved late"] = cutJob(t, 40, 60, 30, dissect.Guillotine, 4)
	for name, j := range jobs {
		t.Run(name, func(t *testing.T) {
			var first []byte
			for _, procs := range []int{1, 2, 4, 1, 2, 3} {
				old := runtime.GOMAXPROCS(procs)
				p, err := Solve(context.Background(), j, Options{Effort: 0.005, Seed: 7, AtOnce: procs % 3})
				runtime.GOMAXPROCS(old)
				require.NoError(t, err)
				data, err := json.Marshal(p)
				require.NoError(t, err)
				if first == nil {
					first = data
				}
				require.Equal(t, string(first), string(data), "GOMAXPROCS=%d", procs)
			}
		})
	}
}

// chair is a job of the size of a pair of wing chairs in 54 in cloth with a 27 in repeat, in sixteenths of an inch.
func chair() *Job {
	const in = 16
	j := &Job{
		Width:  53 * in,
		Repeat: Repeat{PeriodX: 27 * in, PeriodY: 27 * in},
		Groups: []Group{{Window: 80 * in}},
	}
	add := func(w, h int64, count int, match Axes, group int) {
		j.Pieces = append(j.Pieces, Piece{W: w * in, H: h * in, Count: count, Match: match, Spots: []Spot{{X: w * in / 2, Y: h * in / 2}}, Group: group})
	}
	add(25, 32, 2, X|Y, 0) // inside back
	add(24, 26, 2, X|Y, 0) // deck
	add(26, 28, 4, X|Y, 0) // cushion faces
	add(15, 22, 4, Y, 0)   // inside wing
	add(15, 24, 4, 0, 0)   // outside wing
	add(20, 27, 4, Y, 1)   // inside arm
	add(18, 22, 4, 0, 0)   // outside arm
	add(27, 30, 2, 0, 0)   // outside back
	add(5, 16, 8, 0, 0)    // arm fronts
	j.Pieces = append(j.Pieces,
		Piece{W: 100 * in, H: 5 * in, Count: 2, Split: &Split{Along: X, Allowance: in / 2, Min: 6 * in, MaxSeams: 4}},
		Piece{W: 45 * in, H: 7 * in, Count: 4, Turns: AnyTurn})
	return j
}

func TestChair(t *testing.T) {
	j := chair()
	p := solve(t, j, 0)
	assert.InDelta(t, 2*unitsPerEffort*DefaultEffort, p.Work, 0.3*2*unitsPerEffort*DefaultEffort, "two workers") // less where it is spent in part
	assert.Greater(t, p.Length, p.Bound/2)
	assert.Less(t, float64(p.Length), 1.5*float64(p.Bound))
	seams := map[int]int{}
	for _, s := range p.Seams {
		seams[s.Copy]++
	}
	assert.Len(t, seams, 2, "both boxings are joined")
	t.Logf("length %.2f in, bound %.2f in, %d seams", float64(p.Length)/16, float64(p.Bound)/16, len(p.Seams))
}

// A motif point far from the corner makes the place of a piece negative modulo the period.
func TestRepeatWithFarMotif(t *testing.T) {
	const in = 25_400_000
	j := &Job{Width: 53 * in, Repeat: Repeat{PeriodY: 27 * in}, Pieces: []Piece{
		{W: 26 * in, H: 30 * in, Count: 2, Match: Y, Spots: []Spot{{Y: 15 * in}}},
		{W: 26 * in, H: 22 * in, Count: 4, Match: Y},
		{W: 53 * in, H: 3 * in / 2, Count: 3},
	}}
	solve(t, j, 0.001)
	rapid.Check(t, func(t *rapid.T) {
		num := func(lo, hi int64, what string) int64 { return rapid.Int64Range(lo, hi).Draw(t, what) }
		j := &Job{Width: 54, Repeat: Repeat{PeriodX: num(0, 30, "px"), PeriodY: num(1, 30, "py"), OriginX: num(-90, 90, "ox"), OriginY: num(-90, 90, "oy")}}
		for range num(1, 20, "pieces") {
			j.Pieces = append(j.Pieces, Piece{W: num(1, 24, "w"), H: num(1, 40, "h"), Count: 1, Turns: Turns(num(0, 1, "half")) * HalfTurn,
				Match: Axes(num(0, 3, "match")), Spots: []Spot{{X: num(-90, 90, "mx"), Y: num(-90, 90, "my")}}})
		}
		p, err := Solve(context.Background(), j, Options{Effort: 0.0005})
		if !errors.Is(err, ErrNoLayout) {
			require.NoError(t, err)
			require.LessOrEqual(t, p.Bound, p.Length)
		}
	})
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	j := cutJob(t, 200, 200, 120, dissect.Pinwheel, 3)
	calls := 0
	p, err := Solve(ctx, j, Options{Effort: 1000, Progress: func(q Progress) {
		calls++
		assert.GreaterOrEqual(t, q.Length, q.Bound)
		assert.True(t, q.Done >= 0 && q.Done <= 1, q.Done)
		if calls == 3 {
			cancel()
		}
	}})
	require.NoError(t, err)
	assert.True(t, p.Stopped)
	assert.GreaterOrEqual(t, calls, 3)

	for name, j := range map[string]*Job{"plain": j, "repeat": chair(), "small": {Width: 250, Pieces: pieces(beasley...)}} {
		p, err = Solve(ctx, j, Options{Effort: 1000})
		require.NoError(t, err, name)
		assert.True(t, p.Stopped, name)
		assert.NotEmpty(t, p.Placed, name)
	}
}

func TestInputErrors(t *testing.T) {
	ok := func() Job { return Job{Width: 10, Pieces: []Piece{{W: 3, H: 4, Count: 1}}} }
	for field, change := range map[string]func(*Job){
		"Width":                     func(j *Job) { j.Width = 0 },
		"MaxLength":                 func(j *Job) { j.MaxLength = -1 },
		"Gap":                       func(j *Job) { j.Gap = -1 },
		"len(Pieces)":               func(j *Job) { j.Pieces = nil },
		"Pieces[0].W":               func(j *Job) { j.Pieces[0].W = 11 },
		"Pieces[0].H":               func(j *Job) { j.Pieces[0].H = -4 },
		"Pieces[0].Count":           func(j *Job) { j.Pieces[0].Count = 0 },
		"Pieces[0].Turns":           func(j *Job) { j.Pieces[0].Turns = 16 },
		"Pieces[0].Match":           func(j *Job) { j.Pieces[0].Match = 4 },
		"Pieces[0].Spots":           func(j *Job) { j.Pieces[0].Spots = []Spot{{Turns: HalfTurn}} },
		"Pieces[0].Spots[0].X":      func(j *Job) { j.Pieces[0].Spots = []Spot{{X: maxCoord}} },
		"Pieces[0].Spots[0].Y":      func(j *Job) { j.Pieces[0].Spots = []Spot{{Y: -maxCoord}} },
		"Pieces[0].MovedX":          func(j *Job) { j.Pieces[0].MovedX = maxCoord },
		"Pieces[0].MovedY":          func(j *Job) { j.Pieces[0].MovedY = -maxCoord },
		"Pieces[0].Group":           func(j *Job) { j.Pieces[0].Group = 1 },
		"Repeat.PeriodX":            func(j *Job) { j.Repeat.PeriodX = -1 },
		"Repeat.PeriodY":            func(j *Job) { j.Repeat.PeriodY = -1 },
		"Repeat.DropNum":            func(j *Job) { j.Repeat.DropNum, j.Repeat.DropDen = 1, 2 },
		"Repeat.DropDen":            func(j *Job) { j.Repeat.DropNum = 1 },
		"Flaws[0].W":                func(j *Job) { j.Flaws = []Flaw{{H: 1}} },
		"Flaws[0].Y":                func(j *Job) { j.Flaws = []Flaw{{Y: maxCoord, W: 1, H: 1}} },
		"Groups[0].Window":          func(j *Job) { j.Groups = []Group{{}} },
		"Pieces[0].Split.Along":     func(j *Job) { j.Pieces[0].Split = &Split{Min: 1, MaxSeams: 1} },
		"Pieces[0].Split.Min":       func(j *Job) { j.Pieces[0].Split = &Split{Along: X, MaxSeams: 1} },
		"Pieces[0].Split.Allowance": func(j *Job) { j.Pieces[0].Split = &Split{Along: X, Min: 1, MaxSeams: 1, Allowance: -1} },
		"Pieces[0].Split.MaxSeams":  func(j *Job) { j.Pieces[0].Split = &Split{Along: X, Min: 1} },
	} {
		j := ok()
		change(&j)
		var e *InputError
		_, err := Solve(context.Background(), &j, Options{})
		require.ErrorAs(t, err, &e, field)
		assert.Equal(t, field, e.Field)
		assert.Contains(t, e.Error(), field)
	}
	j := ok()
	_, err := Solve(context.Background(), &Job{}, Options{})
	assert.Error(t, err)
	_, err = Solve(context.Background(), &j, Options{Effort: -1})
	assert.Error(t, err)
	j.MaxLength = 7
	j.Pieces[0].Count = 5
	j.Pieces[0].Turns = AnyTurn
	_, err = Solve(context.Background(), &j, Options{})
	assert.NoError(t, err)
	j.Pieces[0].Count = 6
	_, err = Solve(context.Background(), &j, Options{})
	assert.ErrorIs(t, err, ErrNoLayout)
}

func TestHugeNumbers(t *testing.T) {
	const big = int64(1) << 55
	j := &Job{Width: 3 * big, Pieces: []Piece{{W: big, H: big, Count: 9}, {W: 2 * big, H: big / 2, Count: 2, Turns: AnyTurn}}}
	p := solve(t, j, 0.001)
	assert.GreaterOrEqual(t, p.Length, 3*big)
	j.Pieces[0].H = maxCoord - 1
	_, err := Solve(context.Background(), j, Options{})
	assert.ErrorAs(t, err, new(*InputError))
}

func TestFlawsAndEnd(t *testing.T) {
	// a band across the strip: two pieces before it, the rest after it
	j := &Job{Width: 10, Flaws: []Flaw{{X: 0, Y: 5, W: 10, H: 2}}, Pieces: []Piece{{W: 5, H: 4, Count: 6}}}
	p := solve(t, j, 0.01)
	assert.Equal(t, int64(15), p.Length)
	j.MaxLength = 14
	_, err := Solve(context.Background(), j, Options{Effort: 0.01})
	assert.ErrorIs(t, err, ErrNoLayout)
}

func TestGroupWindow(t *testing.T) {
	j := &Job{Width: 10, Groups: []Group{{Window: 6}}, Pieces: []Piece{
		{W: 5, H: 6, Count: 2, Group: 1}, {W: 10, H: 9, Count: 1}, {W: 5, H: 5, Count: 1}, {W: 5, H: 7, Count: 1},
	}}
	p := solve(t, j, 0.01)
	assert.Equal(t, int64(22), p.Length)
	j.Groups[0].Window = 5
	_, err := Solve(context.Background(), j, Options{Effort: 0.01})
	assert.ErrorIs(t, err, ErrNoLayout)
}

func TestJoined(t *testing.T) {
	// 108 by 8 on a strip of 54: two half strips
	j := &Job{Width: 54, Pieces: []Piece{{W: 108, H: 8, Count: 1, Split: &Split{Along: X, Min: 10, MaxSeams: 3}}}}
	p := solve(t, j, 0.01)
	assert.Equal(t, int64(16), p.Length)
	assert.Equal(t, []Seam{{Piece: 0, Copy: 0, At: 54}}, p.Seams)
	assert.True(t, p.Proved)
	// with an allowance two strips are too short
	j.Pieces[0].Split.Allowance = 1
	p = solve(t, j, 0.01)
	assert.Len(t, p.Seams, 2)
	j.Pieces[0].Split.MaxSeams = 1
	_, err := Solve(context.Background(), j, Options{})
	assert.ErrorAs(t, err, new(*InputError))
	// along the strip it needs no seam
	j.Pieces[0].Turns = AnyTurn
	p = solve(t, j, 0.05)
	assert.LessOrEqual(t, p.Length, int64(108))
}

func TestZeroValues(t *testing.T) {
	assert.Error(t, (&Job{}).Validate())
	assert.ErrorAs(t, (&Job{Width: 1, Pieces: []Piece{{}}}).Validate(), new(*InputError))
	var f verify.BoxFault
	assert.NotEmpty(t, f.Error())
}

func ExampleSolve() {
	j := &Job{
		Width: 54,
		Pieces: []Piece{
			{W: 27, H: 27, Count: 4},                    // seats
			{W: 20, H: 12, Count: 2, Turns: AnyTurn},    // arm rests of plain goods
			{W: 54, H: 6, Count: 1, Turns: Upright},     // a band
			{W: 7, H: 12, Count: 2, Match: 0, Group: 0}, // facings
		},
	}
	p, err := Solve(context.Background(), j, Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.Length, p.Bound, p.Proved)
	// Output: 72 72 true
}

func BenchmarkPlain100(b *testing.B) {
	j := cutJob(b, 200, 200, 100, dissect.Pinwheel, 1)
	for b.Loop() {
		solve(b, j, 0.1)
	}
}

func BenchmarkChair(b *testing.B) {
	j := chair()
	for b.Loop() {
		solve(b, j, 0)
	}
}

func BenchmarkLarge(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			j := cutJob(b, 100_000, 100_000, n, dissect.Guillotine, 1)
			b.ReportAllocs()
			for b.Loop() {
				solve(b, j, 0.1)
			}
		})
	}
}

// Many pieces in groups and under a repeat: the placer closes low ground when it remembers too much.
func TestManyPieces(t *testing.T) {
	j := cutJob(t, 540, 40_000, 2500, dissect.Even, 2)
	j.Repeat = Repeat{PeriodX: 30, PeriodY: 45, DropNum: 1, DropDen: 2}
	j.Groups = []Group{{Window: 3000}, {Window: 2500}}
	for i := range j.Pieces {
		p := &j.Pieces[i]
		switch {
		case i%50 == 0:
			p.Group = 1
		case i%60 == 1:
			p.Group = 2
		case i%3 == 0:
			p.Match = X | Y
		}
	}
	p := solve(t, j, 0.001)
	assert.Less(t, p.Length, int64(120_000))
}
