package bound_test

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

var update = flag.Bool("update", false, "write the files in testdata anew, with what complete search finds")

// proved are the lengths that the methods up to each one prove together, the
// simplest first: a stronger simple method may make a later one superfluous.
func proved(cs []bound.Claim) string {
	var out strings.Builder
	best := int64(0)
	for m := bound.ByArea; m <= bound.BySplit; m++ {
		for _, c := range cs {
			if c.Method == m {
				best = max(best, c.Length)
			}
		}
		fmt.Fprintf(&out, " %d", best)
	}
	return out.String()
}

// numbers reads what proved wrote.
func numbers(t *testing.T, s string) []int64 {
	t.Helper()
	var out []int64
	for _, f := range strings.Fields(s) {
		var v int64
		_, err := fmt.Sscan(f, &v)
		require.NoError(t, err)
		out = append(out, v)
	}
	return out
}

const (
	smallJobs  = 600
	smallFile  = "testdata/strips.txt"
	mostSearch = 26 // as long as complete search looks
)

// The file holds, for each small job, the optimum by complete search and what
// was proved when it was written, with whole places and without. No claim may
// exceed the optimum, and no method may fall back.
func TestSmallJobsStayAsStrong(t *testing.T) {
	if *update {
		writeSmall(t)
	}
	text, err := os.ReadFile(smallFile)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	require.Len(t, lines, smallJobs)
	for seed, line := range lines {
		j := smallJob(rand.New(rand.NewPCG(uint64(seed), 1)))
		_, err := bound.Strip(context.Background(), j)
		best, was, _ := strings.Cut(line, ":")
		if best == "refused" {
			require.ErrorAs(t, err, new(*bound.InputError), "seed %d", seed)
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		optimum := numbers(t, best)[0]
		whole, free, _ := strings.Cut(was, "|")
		for i, part := range []string{whole, free} {
			j.Whole = i == 0
			cs, err := bound.Strip(context.Background(), j)
			require.NoError(t, err)
			now := numbers(t, proved(cs))
			for m, v := range numbers(t, part) {
				require.GreaterOrEqual(t, now[m], v, "seed %d, whole %v: the methods up to %v prove less than they did: %+v", seed, j.Whole, bound.Method(m), j)
			}
			require.LessOrEqual(t, cs[0].Length, optimum, "seed %d: %+v of %+v", seed, cs[0], j)
			for _, c := range cs {
				explained(t, j, c)
			}
		}
	}
}

func writeSmall(t *testing.T) {
	t.Helper()
	var out strings.Builder
	for seed := range uint64(smallJobs) {
		j := smallJob(rand.New(rand.NewPCG(seed, 1)))
		cs, err := bound.Strip(context.Background(), j)
		if err != nil {
			out.WriteString("refused:\n")
			continue
		}
		best := optimum(j, mostSearch)
		if best > mostSearch {
			best = 1 << 40 // longer than the search looks
		}
		j.Whole = false
		unbound, err := bound.Strip(context.Background(), j)
		require.NoError(t, err)
		fmt.Fprintf(&out, "%d:%s |%s\n", best, proved(cs), proved(unbound))
	}
	require.NoError(t, os.WriteFile(smallFile, []byte(out.String()), 0o600))
}

// What is proved of larger jobs, too large for complete search: curved and
// thinned outlines, more phases and functions than are tried. Pieces one after
// the other are a layout.
func TestLargerJobsStayAsStrong(t *testing.T) {
	const file = "testdata/larger.txt"
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
	var out strings.Builder
	for _, j := range jobs {
		cs, err := bound.Strip(context.Background(), j)
		if err != nil {
			require.ErrorAs(t, err, new(*bound.InputError))
			out.WriteString("refused\n")
			continue
		}
		fmt.Fprintln(&out, proved(cs))
		for _, c := range cs {
			explained(t, j, c)
		}
		if length, ok := stacked(j); ok {
			require.LessOrEqual(t, cs[0].Length, length, "%+v", cs[0])
		}
	}
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(out.String()), 0o600))
	}
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	was, now := strings.Split(string(text), "\n"), strings.Split(out.String(), "\n")
	require.Len(t, now, len(was))
	for i := range was {
		if was[i] == "refused" {
			require.Equal(t, was[i], now[i], "job %d", i)
			continue
		}
		is := numbers(t, now[i])
		for m, v := range numbers(t, was[i]) {
			require.GreaterOrEqual(t, is[m], v, "job %d: the methods up to %v prove less than they did", i, bound.Method(m))
		}
	}
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
