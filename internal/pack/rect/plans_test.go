package rect

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/dissect"
)

var update = flag.Bool("update", false, "write the file in testdata anew, by trying every place")

// draws are whole numbers of a generator.
type draws struct{ *rand.Rand }

func numbered(stream, seed int) draws {
	return draws{rand.New(rand.NewPCG(uint64(seed), uint64(stream)))}
}

func (r draws) from(lo, hi int64) int64 { return lo + r.Int64N(hi-lo+1) }

// tiny draws a job that trying every place can solve.
func tiny(seed int) *Job {
	r := numbered(1, seed)
	j := &Job{Width: r.from(3, 8), Gap: r.from(0, 1) * r.from(0, 1)}
	if r.IntN(2) == 0 {
		j.Repeat = Repeat{PeriodX: r.from(0, 3), PeriodY: r.from(0, 4), OriginX: r.from(-3, 3), OriginY: r.from(-3, 3)}
		if j.Repeat.PeriodX > 0 && j.Repeat.PeriodY > 0 && r.IntN(2) == 0 {
			j.Repeat.DropNum, j.Repeat.DropDen = 1, r.from(2, 3)
		}
	}
	for range r.from(2, 5) {
		p := Piece{W: r.from(1, 5), H: r.from(1, 4), Count: 1, Turns: Turns(r.from(0, 15)), Match: Axes(r.from(0, 3)), MovedX: r.from(0, 2), MovedY: r.from(-1, 2)}
		for range r.from(0, 2) {
			p.Spots = append(p.Spots, Spot{X: r.from(0, 4), Y: r.from(0, 4), Turns: Turns(r.from(0, 15))})
		}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

// Small jobs are proved, and rightly: the file holds the optimum found by trying
// every place, -1 where there is none on the pattern.
func TestTinyJobsAreProved(t *testing.T) {
	const file, jobs = "testdata/tiny.txt", 200
	var drawn []*Job
	for seed := 0; len(drawn) < jobs; seed++ {
		if j := tiny(seed); j.Validate() == nil {
			drawn = append(drawn, j)
		}
	}
	if *update {
		var out strings.Builder
		for _, j := range drawn {
			best := int64(-1)
			if _, err := Solve(context.Background(), j, Options{Effort: 0.01}); err == nil {
				best = gridOptimum(j.Width, j.Pieces, j.Repeat, j.Gap)
			}
			fmt.Fprintln(&out, best)
		}
		require.NoError(t, os.WriteFile(file, []byte(out.String()), 0o600))
	}
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	lines := strings.Fields(string(text))
	require.Len(t, lines, jobs)
	for i, j := range drawn {
		optimum, err := strconv.ParseInt(lines[i], 10, 64)
		require.NoError(t, err)
		p, err := Solve(context.Background(), j, Options{Effort: 0.01})
		if optimum < 0 {
			require.ErrorIs(t, err, ErrNoLayout, "job %d", i)
			continue
		}
		require.NoError(t, err, "job %d", i)
		require.True(t, p.Proved, "job %d", i)
		require.Equal(t, optimum, p.Length, "job %d", i)
		require.LessOrEqual(t, j.LowerBound(), optimum, "job %d", i)
		inOrder(t, j, p)
		// It fits a strip of that length, and none shorter.
		j.MaxLength = p.Length
		just, err := Solve(context.Background(), j, Options{Effort: 0.01})
		require.NoError(t, err, "job %d", i)
		require.Equal(t, p.Length, just.Length, "job %d", i)
		require.True(t, just.Proved, "job %d", i)
		if j.MaxLength--; j.MaxLength > 0 {
			_, err = Solve(context.Background(), j, Options{Effort: 0.01})
			require.True(t, errors.Is(err, ErrNoLayout) || errors.As(err, new(*InputError)), "job %d: %v", i, err)
		}
	}
}

// The searches alone reach what trying every place finds, or nearly always do, and are
// never below it: the placer's on all jobs, the other on plain ones.
func TestTinyJobsAreFound(t *testing.T) {
	text, err := os.ReadFile("testdata/tiny.txt")
	require.NoError(t, err)
	jobs, reached, plain, found := 0, 0, 0, 0
	lines := strings.Fields(string(text))
	for seed := 0; len(lines) > 0; seed++ {
		j := tiny(seed)
		if j.Validate() != nil {
			continue
		}
		optimum, err := strconv.ParseInt(lines[0], 10, 64)
		require.NoError(t, err)
		if lines = lines[1:]; optimum < 0 {
			continue
		}
		parts := j.parts(nil)
		o := newOrdered(j, parts, 0, 1, nil)
		o.start(t.Context(), 1<<14)
		o.search(t.Context(), 1<<15, nil)
		require.GreaterOrEqual(t, o.best, optimum, "job %d", seed)
		if jobs++; o.best == optimum {
			reached++
		}
		if j.Repeat.binds(parts) {
			continue
		}
		var boxes []box
		for _, q := range parts {
			boxes = append(boxes, box{q.lays[0].w + j.Gap, q.lays[0].h + j.Gap, len(q.lays) == 2})
		}
		p := newPlain(j.Width+j.Gap, 0, boxes, 1)
		p.start(t.Context())
		p.search(t.Context(), 1<<17, nil)
		require.GreaterOrEqual(t, p.best-j.Gap, optimum, "job %d", seed)
		if plain++; p.best-j.Gap == optimum {
			found++
		}
	}
	require.Greater(t, reached, jobs*9/10)
	require.Greater(t, found, plain*9/10)
}

// searched draws a job for the search: plain, of two scales, on a pattern, with
// flaws, groups, a gap and joined pieces.
func searched(t *testing.T, seed int) *Job {
	r := numbered(2, seed)
	if seed%4 == 0 {
		j := cutJob(t, 60*r.from(2, 4), 50*r.from(2, 4), int(r.from(17, 60)), dissect.Style(seed/4%4), uint64(seed))
		for i := range j.Pieces {
			j.Pieces[i].Turns = []Turns{Upright, AnyTurn}[seed/16%2]
		}
		return j
	}
	j := &Job{Width: r.from(80, 160), Gap: r.from(0, 2) * r.from(0, 1)}
	turns := []Turns{Upright, Upright | HalfTurn, AnyTurn}[r.IntN(3)]
	most := r.from(20, 70)
	for range r.from(8, 30) {
		j.Pieces = append(j.Pieces, Piece{W: r.from(5, most), H: r.from(5, most), Count: int(r.from(1, 3)), Turns: turns})
	}
	if seed%4 == 1 {
		for range 60 * r.from(0, 1) {
			j.Pieces = append(j.Pieces, Piece{W: r.from(1, 4), H: r.from(1, 4), Count: 1, Turns: turns})
		}
		return j
	}
	j.Repeat = Repeat{PeriodX: r.from(0, 40), PeriodY: r.from(0, 40), OriginX: r.from(-20, 20), OriginY: r.from(-20, 20)}
	if j.Repeat.PeriodX > 0 && j.Repeat.PeriodY > 0 && r.IntN(2) == 0 {
		j.Repeat.DropNum, j.Repeat.DropDen = 1, r.from(2, 3)
	}
	for range r.from(0, 2) {
		j.Flaws = append(j.Flaws, Flaw{X: r.from(-5, 100), Y: r.from(0, 200), W: r.from(5, 150), H: r.from(2, 8)})
	}
	j.Groups = []Group{{Window: r.from(150, 400)}}
	for i := range j.Pieces {
		p := &j.Pieces[i]
		p.Mirror = i%2 == 1
		switch r.IntN(4) {
		case 0:
			p.Match, p.Spots = Axes(r.from(1, 3)), []Spot{{X: p.W / 2, Y: p.H / 2}}
		case 1:
			p.Group = int(r.from(0, 1))
		case 2:
			if seed%4 == 3 {
				p.Split = &Split{Along: Axes(r.from(1, 2)), Allowance: r.from(0, 3), Min: 4, MaxSeams: int(r.from(1, 3))}
			}
		}
	}
	return j
}

// inOrder holds a plan to the order that it promises: by piece, copy and
// segment, seams by piece, copy and place; and to what it hands on.
func inOrder(t *testing.T, j *Job, p *Plan) {
	t.Helper()
	n := 0
	for i := range j.Pieces {
		for c := range j.Pieces[i].Count {
			segments := p.Placed[n].Segments
			for k := range segments {
				q := p.Placed[n]
				require.Equal(t, [4]int{i, c, k, segments}, [4]int{q.Piece, q.Copy, q.Segment, q.Segments})
				require.Equal(t, j.Pieces[i].Mirror, q.Mirror)
				n++
			}
		}
	}
	require.Len(t, p.Placed, n)
	require.True(t, slices.IsSortedFunc(p.Seams, func(a, b Seam) int {
		return cmp.Or(a.Piece-b.Piece, a.Copy-b.Copy, cmp.Compare(a.At, b.At))
	}))
	top := int64(0)
	for _, q := range p.Placed {
		top = max(top, q.Y+q.H)
	}
	require.Equal(t, top, p.Length)
}

// Plans of a fixed set are in their order and above their bounds, and progress only
// goes on.
func TestPlansOfTheSearch(t *testing.T) {
	laid := 0
	for seed := range 40 {
		j := searched(t, seed)
		effort := 0.0005
		if seed%4 < 2 { // plain ones, with larger beams
			effort = 0.003
		}
		last := Progress{Length: maxCoord}
		p, err := Solve(context.Background(), j, Options{Effort: effort, Seed: 3, Progress: func(q Progress) {
			require.True(t, q.Done >= last.Done && q.Done <= 1 && q.Length <= last.Length && q.Bound == j.LowerBound(), "job %d: %+v after %+v", seed, q, last)
			last = q
		}})
		if errors.Is(err, ErrNoLayout) {
			continue
		}
		require.NoError(t, err, "job %d", seed)
		require.LessOrEqual(t, p.Bound, p.Length)
		require.GreaterOrEqual(t, p.Bound, j.LowerBound())
		inOrder(t, j, p)
		laid++
	}
	require.Greater(t, laid, 30)
}
