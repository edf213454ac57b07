package bound_test

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

var update = flag.Bool("update", false, "write the files in testdata anew, with what complete search finds")

// optima reads a file of what complete search finds, a line for each job, and
// where asked writes it anew; none is a job that is refused.
func optima(t *testing.T, file string, jobs int, search func(seed int) (int64, error)) []string {
	t.Helper()
	if *update {
		var out strings.Builder
		for seed := range jobs {
			if best, err := search(seed); err != nil {
				out.WriteString("refused\n")
			} else {
				fmt.Fprintln(&out, best)
			}
		}
		require.NoError(t, os.WriteFile(file, []byte(out.String()), 0o600))
	}
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	require.Len(t, lines, jobs)
	return lines
}

// noMore holds a bound to the optimum of its line.
func noMore(t *testing.T, line string, bound int64, job any) {
	t.Helper()
	optimum, err := strconv.ParseInt(line, 10, 64)
	require.NoError(t, err)
	require.LessOrEqual(t, bound, optimum, "%+v", job)
}

const mostSearch = 26 // as long as complete search looks

// No claim of a small job exceeds the optimum by complete search, with whole places
// and without.
func TestSmallJobsAgainstSearch(t *testing.T) {
	job := func(seed int) bound.StripJob { return smallJob(rand.New(rand.NewPCG(uint64(seed), 1))) }
	lines := optima(t, "testdata/strips.txt", 600, func(seed int) (int64, error) {
		if _, err := bound.Strip(context.Background(), job(seed)); err != nil {
			return 0, err
		}
		best := optimum(job(seed), mostSearch)
		if best > mostSearch {
			best = 1 << 40 // longer than the search looks
		}
		return best, nil
	})
	for seed, line := range lines {
		for _, whole := range []bool{true, false} {
			j := job(seed)
			j.Whole = whole
			cs, err := bound.Strip(context.Background(), j)
			if line == "refused" {
				require.ErrorAs(t, err, new(*bound.InputError), "seed %d", seed)
				continue
			}
			require.NoError(t, err, "seed %d", seed)
			noMore(t, line, cs[0].Length, j)
			for _, c := range cs {
				explained(t, j, c)
			}
		}
	}
}

// Larger jobs, too large for complete search: curved and thinned outlines, more
// phases and functions than are tried. Pieces one after the other are a layout,
// which no claim exceeds.
func TestLargerJobsAreExplained(t *testing.T) {
	var jobs []bound.StripJob
	for seed := range uint64(100) {
		jobs = append(jobs, anyJob(seed, 60))
	}
	half := fifty(6, 2)
	half.Repeat.Falls = []int64{0, 25 * 32}
	free := fifty(4, 1)
	free.Repeat.FreeStart = true
	plain := fifty(15, 4)
	plain.Repeat = bound.Repeat{}
	jobs = append(jobs, half, free, plain, fifty(12, 1))
	told := 0
	for _, j := range jobs {
		cs, err := bound.Strip(context.Background(), j)
		if err != nil {
			require.ErrorAs(t, err, new(*bound.InputError))
			continue
		}
		told++
		for _, c := range cs {
			explained(t, j, c)
		}
		if length, ok := stacked(j); ok {
			require.LessOrEqual(t, cs[0].Length, length, "%+v", cs[0])
		}
	}
	require.Greater(t, told, len(jobs)/2)
}

// explained holds the fields of a claim together: with a known start the last
// line needed lies on the roll, at a height that its phase has, and by the
// methods of one line the length is that height.
func explained(t *testing.T, j bound.StripJob, c bound.Claim) {
	t.Helper()
	if c.Method == bound.ByLongest {
		require.Less(t, c.Piece, len(j.Pieces))
		require.GreaterOrEqual(t, c.Piece, 0)
	} else {
		require.Equal(t, -1, c.Piece)
	}
	switch c.Method {
	case bound.ByLine, bound.ByWeighedLine, bound.ByColumns, bound.ByRows:
	default:
		require.Zero(t, [3]int64{c.Phase, c.Lines, c.Line}, "%+v looks at no line", c)
		return
	}
	r := j.Repeat
	if r.FreeStart {
		require.Zero(t, c.Line, "%+v", c)
		require.LessOrEqual(t, (c.Lines-1)*r.Along, c.Length, "%+v", c)
		return
	}
	above := c.Line - r.FirstY - c.Phase
	require.Zero(t, above%r.Along, "%+v of %+v: no line of its phase", c, j)
	switch {
	case c.Method == bound.ByRows:
		require.Less(t, c.Length-c.Line, r.Along+1, "%+v: a further line lies on the roll", c)
		require.LessOrEqual(t, (c.Lines-1)*r.Along, c.Length, "%+v", c)
	case j.Whole:
		require.Contains(t, []int64{c.Line, c.Line + 1}, c.Length, "%+v", c)
	default:
		require.Equal(t, c.Line, c.Length, "%+v", c)
	}
}

// A strip job in a finer unit: every length times a million, the bound in
// between the whole ones of before.
func TestFinerUnitSameBound(t *testing.T) {
	const k = 1_000_000
	at := func(p geom.Point) geom.Point { return geom.Point{X: k * p.X, Y: k * p.Y} }
	for seed := range uint64(150) {
		j := smallJob(rand.New(rand.NewPCG(seed, 1)))
		j.Whole = false
		want, err := bound.Best(context.Background(), j)
		if err != nil {
			continue
		}
		fine := j
		fine.Width, fine.Gap = k*j.Width, k*j.Gap
		fine.Repeat.Across, fine.Repeat.Along = k*j.Repeat.Across, k*j.Repeat.Along
		fine.Repeat.FirstX, fine.Repeat.FirstY = k*j.Repeat.FirstX, k*j.Repeat.FirstY
		fine.Repeat.Falls = nil
		for _, f := range j.Repeat.Falls {
			fine.Repeat.Falls = append(fine.Repeat.Falls, k*f)
		}
		fine.Pieces = nil
		for _, p := range j.Pieces {
			ways := p.Ways
			p.Ways = nil
			for _, w := range ways {
				ring := make(geom.Ring, len(w.Ring))
				for i, q := range w.Ring {
					ring[i] = at(q)
				}
				p.Ways = append(p.Ways, bound.Way{Ring: ring, Match: at(w.Match)})
			}
			fine.Pieces = append(fine.Pieces, p)
		}
		got, err := bound.Best(context.Background(), fine)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, got.Length, k*want.Length-1, "seed %d: %+v and %+v of %+v", seed, want, got, j)
		assert.Less(t, got.Length, k*(want.Length+1), "seed %d: %+v and %+v of %+v", seed, want, got, j)
	}
}
