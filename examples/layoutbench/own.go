package main

import (
	"context"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/dissect"
	"github.com/coverwright/coverwright/internal/pack/rect"
)

// runOwn lays the suite of our own instances and prints the table of the README: one line for each group and effort.
//
//	go -C examples run ./layoutbench own -efforts 1,10
//	go -C examples run ./layoutbench own -group large -pieces 2500 -efforts 1 -each
//	go -C examples run ./layoutbench own -group waste -efforts 10 -readme layoutbench/README.md
//
// Seconds are processor seconds, so that they mean the same on a busy machine. The whole table takes a quarter of an
// hour of one core, so it may be written in parts: lines of the README that are measured anew take the place of the old ones.
func runOwn(ctx context.Context, args []string, std stdio) error {
	fs := flag.NewFlagSet("own", flag.ContinueOnError)
	fs.SetOutput(std.err)
	efforts := fs.String("efforts", "1", "work per instance, several with commas between")
	group := fs.String("group", "", "only the groups whose name holds this")
	pieces := fs.Int("pieces", 0, "only instances of as many pieces")
	seed := fs.Uint64("seed", 1, "seed of the search")
	from := fs.Uint64("from", 1, "first seed of the instances")
	each := fs.Bool("each", false, "print every instance and a digest of its plan, too")
	workers := fs.Int("workers", 0, "searches that work at the same time: 1, or 0 for both; plans do not depend on it")
	readme := fs.String("readme", "", "file whose table takes the lines")
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return err
		}
		return inputError{err}
	}
	if fs.NArg() > 0 || *workers < 0 {
		return badInput("own reads no file, and -workers is 0 or more")
	}
	var es []float64
	for _, f := range strings.Split(*efforts, ",") {
		e, err := strconv.ParseFloat(f, 64)
		if err != nil || math.IsNaN(e) || e < 0.0001 || e > 100000 {
			return badInput("-efforts %v: want numbers from 0.0001 to 100000", f)
		}
		es = append(es, e)
	}
	sets, err := ownSets(*from)
	if err != nil {
		return err
	}
	fmt.Fprint(std.out, ownHead)
	var lines []string
	for _, s := range sets {
		if !strings.Contains(s.group, *group) || *pieces != 0 && s.pieces != *pieces {
			continue
		}
		for _, e := range es {
			line, err := s.lay(ctx, std, rect.Options{Effort: e, Seed: *seed, AtOnce: *workers}, *each)
			if err != nil {
				return err
			}
			fmt.Fprint(std.out, line)
			lines = append(lines, line)
		}
	}
	if *readme == "" {
		return nil
	}
	return between(*readme, ownFrom, ownTo, func(old []byte) []byte { return ownTable(old, lines) })
}

// Between these lines of the README stands the table of runOwn.
const (
	ownFrom = "<!-- own: written by layoutbench own -->\n"
	ownTo   = "<!-- own: end -->\n"
	ownHead = "| instances | pieces | turning | effort | mean gap to the bound | greatest | processor seconds an instance |\n|---|---|---|---|---|---|---|\n"
)

// ownTable is a table with some of its lines measured anew. What a line is of stands in its first four columns.
func ownTable(old []byte, lines []string) []byte {
	of := func(line string) string {
		return strings.Join(strings.SplitN(line, "|", 6)[:min(5, strings.Count(line, "|"))], "|")
	}
	var out []string
	for line := range strings.Lines(strings.TrimPrefix(string(old), ownHead)) {
		if k := slices.IndexFunc(lines, func(l string) bool { return of(l) == of(line) }); k >= 0 {
			line = lines[k]
			lines = slices.Delete(lines, k, k+1)
		}
		out = append(out, line)
	}
	return []byte(ownHead + strings.Join(append(out, lines...), ""))
}

// ownSet is a group of instances of one line of the table.
type ownSet struct {
	group   string
	pieces  int
	turning bool
	each    []rectInstance
}

// lay lays the instances of a group and gives its line.
func (s *ownSet) lay(ctx context.Context, std stdio, o rect.Options, each bool) (string, error) {
	var sum, most float64
	start := processorSeconds()
	for i := range s.each {
		in := &s.each[i]
		was := processorSeconds()
		p, err := rect.Solve(ctx, &in.job, o)
		if err == nil {
			err = in.check(p)
		}
		if err != nil {
			return "", fmt.Errorf("%s: %w", in.name, err)
		}
		if err := ctx.Err(); err != nil {
			return "", err
		}
		gap := percent(p.Length, max(p.Bound, in.optimum))
		sum, most = sum+gap, max(most, gap)
		if each {
			fmt.Fprintf(std.out, "%s: %d, bound %d, %.3f %%, %.2f s, work %d, plan %x\n", in.name, p.Length, p.Bound, gap, processorSeconds()-was, p.Work, digest(p))
		}
	}
	n := float64(len(s.each))
	turning := "no"
	if s.turning {
		turning = "by 90 degrees"
	}
	return fmt.Sprintf("| %d %s | %d | %s | %g | %.2f %% | %.2f %% | %.1f |\n",
		len(s.each), s.group, s.pieces, turning, o.Effort, sum/n, most, (processorSeconds()-start)/n), nil
}

// digest is equal for equal plans.
func digest(p *rect.Plan) []byte {
	sum := sha256.Sum256(fmt.Appendf(nil, "%+v", p.Placed))
	return sum[:4]
}

// ownSets generates the suite: always the same for one seed.
func ownSets(seed uint64) ([]ownSet, error) {
	var out []ownSet
	for _, n := range []int{17, 25, 29, 49, 73, 97, 199} {
		s := ownSet{group: "without waste", pieces: n}
		for k := range uint64(2) {
			for style := dissect.Guillotine; style <= dissect.Woven; style++ {
				in, err := dissected(200, 200, n, style, seed+k)
				if err != nil {
					return nil, err
				}
				s.each = append(s.each, in)
			}
		}
		out = append(out, s)
	}
	for _, n := range []int{600, 1000, 1500, 2500} {
		s := ownSet{group: "large", pieces: n}
		for _, c := range []struct {
			w, h  int64
			style dissect.Style
		}{{1000, 1000, dissect.Even}, {3000, 1500, dissect.Guillotine}, {400, 4000, dissect.Pinwheel}, {700, 2000, dissect.Woven}} {
			in, err := dissected(c.w, c.h, n, c.style, seed)
			if err != nil {
				return nil, err
			}
			s.each = append(s.each, in)
		}
		for kind := range 3 {
			s.each = append(s.each, drawn(n, kind, seed))
		}
		t := ownSet{group: s.group, pieces: n, turning: true}
		for _, in := range s.each {
			t.each = append(t.each, in.turned())
		}
		out = append(out, s, t)
	}
	return out, nil
}

// dissected is an instance of known optimum.
func dissected(w, h int64, n int, style dissect.Style, seed uint64) (rectInstance, error) {
	rs, err := dissect.Cut(w, h, n, style, seed)
	in := rectInstance{name: fmt.Sprintf("%s-%dx%d-%d-%d", style, w, h, n, seed), count: n, optimum: h, job: rect.Job{Width: w}}
	for _, r := range rs {
		in.job.Pieces = append(in.job.Pieces, rect.Piece{W: r.W, H: r.H, Count: 1})
	}
	return in, err
}

// drawn is an instance of random sizes: pieces of middling shape, long thin ones, or thirty large ones among small ones that
// take a fortieth of their area.
func drawn(n, kind int, seed uint64) rectInstance {
	rng := rand.New(rand.NewPCG(seed, uint64(n*3+kind)))
	between := func(lo, hi int64) int64 { return lo + rng.Int64N(hi-lo+1) }
	in := rectInstance{name: fmt.Sprintf("%s-%d-%d", []string{"middling", "thin", "mixed"}[kind], n, seed), count: n, optimum: -1}
	in.job.Width = []int64{1000, 2000, 3000}[kind]
	add := func(w, h int64) { in.job.Pieces = append(in.job.Pieces, rect.Piece{W: w, H: h, Count: 1}) }
	switch kind {
	case 0:
		for range n {
			add(between(10, 120), between(10, 120))
		}
	case 1:
		for range n {
			w, h := between(10, 40), between(100, 700)
			if rng.IntN(2) == 0 {
				w, h = h, w
			}
			add(w, h)
		}
	case 2:
		var area float64
		for range 30 {
			w, h := between(400, 1400), between(300, 1200)
			add(w, h)
			area += float64(w * h)
		}
		side := int64(math.Sqrt(area / 40 / float64(n-30)))
		for range n - 30 {
			add(between(side/2, side*3/2), between(side/2, side*3/2))
		}
	}
	return in
}

// turned is the same instance with turns of 90 degrees allowed.
func (in rectInstance) turned() rectInstance {
	in.name += " turning"
	in.job.Pieces = append([]rect.Piece(nil), in.job.Pieces...)
	for i := range in.job.Pieces {
		in.job.Pieces[i].Turns = rect.Upright | rect.QuarterTurn
	}
	return in
}
