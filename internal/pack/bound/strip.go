package bound

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

const (
	mostPlaces  = 64 // places across that a piece may have before it counts as free
	mostRepeats = 64 // repeats a piece may be high before it counts as unmatched

	mostSliced = 1 << 20 // corners of all outlines that are cut into slabs
	discCost   = 5000    // what a disc costs, in corners
)

// option is one way to lie together with the columns that give it one phase.
type option struct {
	shape *shape
	base  int64 // height of a point of the outline above the motifs of column 0: y + base, modulo Along
	// places are the shifts across, when they are bound and few.
	places []int64
}

// item is a piece as bounds see it.
type item struct {
	piece, count int
	options      []option
	lined        bool // bound along the roll
	any          *anyAngle
}

// anyAngle is a piece that may lie at every angle. Its options hold a disc
// inside it.
type anyAngle struct {
	area2 geom.Int128
	hull  geom.Ring
}

// strip is a checked job.
type strip struct {
	job   *StripJob
	width int64 // with the gap, in 1/sub
	start int64 // height of the first motif of column 0, in [0, Along)
	items []item
	room  int // corners that may still be cut into slabs
}

func newStrip(j *StripJob) (*strip, error) {
	if err := j.Validate(); err != nil {
		return nil, err
	}
	s := &strip{job: j, width: (j.Width + j.Gap) * sub, room: mostSliced}
	if j.Repeat.Along > 0 {
		s.start = mod(j.Repeat.FirstY, j.Repeat.Along)
	}
	// Equal pieces become one, in an order of their own: what is proved does not
	// depend on how the job lists them.
	order := make([]int, len(j.Pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return comparePieces(&j.Pieces[a], &j.Pieces[b]) })
	for n, i := range order {
		if n > 0 && comparePieces(&j.Pieces[order[n-1]], &j.Pieces[i]) == 0 {
			s.items[len(s.items)-1].count += j.Pieces[i].Count
			continue
		}
		it, err := s.item(i)
		if err != nil {
			return nil, err
		}
		s.items = append(s.items, it)
	}
	return s, nil
}

// comparePieces orders pieces by all but their count and the place of their
// outlines.
func comparePieces(a, b *Piece) int {
	if c := cmp.Or(cmp.Compare(a.Match, b.Match), cmp.Compare(len(a.Ways), len(b.Ways))); c != 0 {
		return c
	}
	if a.AnyAngle != b.AnyAngle {
		if b.AnyAngle {
			return -1
		}
		return 1
	}
	for k, v := range a.Ways {
		w := b.Ways[k]
		points := func(v Way) geom.Ring {
			out := make(geom.Ring, 0, len(v.Ring))
			for _, q := range v.Ring[1:] {
				out = append(out, q.Sub(v.Ring[0]))
			}
			return append(out, v.Match.Sub(v.Ring[0]))
		}
		if c := slices.CompareFunc(points(v), points(w), func(p, q geom.Point) int {
			return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
		}); c != 0 {
			return c
		}
	}
	return 0
}

// item lists the options of a piece: only those that fit the width.
func (s *strip) item(i int) (item, error) {
	p := &s.job.Pieces[i]
	it := item{piece: i, count: p.Count}
	if p.AnyAngle {
		ring := p.Ways[0].Ring
		it.any = &anyAngle{ring.TwiceArea().Abs(), geom.Hull(ring)}
		if leastWidth(it.any.hull) > s.job.Width {
			return it, refuse(fmt.Sprintf("Pieces[%d].Ways[0]", i), ring.Bounds(), fmt.Sprintf("an outline that fits a width of %d", s.job.Width))
		}
		it.options = []option{{shape: &shape{}}}
		if s.room -= discCost; s.room >= 0 {
			it.options[0].shape = newShape(disc(ring), s.job.Gap)
		}
		return it, nil
	}
	r := &s.job.Repeat
	it.lined = p.Match&Y != 0 && r.Along > 0
	var last geom.Ring
	var sh *shape
	for _, w := range p.Ways {
		if len(w.Ring) != len(last) || &w.Ring[0] != &last[0] { // not the same outline with another match point
			last, sh = w.Ring, s.slice(w.Ring)
		}
		if sh.box.Width() > s.job.Width {
			continue
		}
		if sh.box.Height() > mostRepeats*r.Along {
			it.lined = false
		}
		it.options = append(it.options, s.columns(option{shape: sh}, w.Match, p.Match&X != 0 && r.Across > 0, p.Match&Y != 0 && r.Along > 0)...)
	}
	if len(it.options) == 0 {
		return it, refuse(fmt.Sprintf("Pieces[%d].Ways", i), len(p.Ways), fmt.Sprintf("a way to lie that fits a width of %d and the columns", s.job.Width))
	}
	return it, nil
}

// slice cuts an outline into slabs, while there is room.
func (s *strip) slice(r geom.Ring) *shape {
	if s.room -= len(r); s.room < 0 {
		return &shape{box: r.Bounds(), area2: r.TwiceArea().Abs()}
	}
	return newShape(r, s.job.Gap)
}

// columns gives an option for every class of columns that lie at one height.
func (s *strip) columns(o option, match geom.Point, across, along bool) []option {
	r := &s.job.Repeat
	falls := r.Falls
	if !along || len(falls) == 0 {
		falls = []int64{0}
	}
	var out []option
	for k, fall := range falls {
		c := o
		if along {
			c.base = mod(-match.Y-fall, r.Along)
		}
		if across {
			step := r.Across * int64(len(falls))
			t := r.FirstX + int64(k)*r.Across - match.X
			from, to := ceilDiv(-o.shape.box.Min.X-t, step), floorDiv(s.job.Width-o.shape.box.Max.X-t, step)
			if from > to {
				continue
			}
			for n := from; n <= to && to-from < mostPlaces; n++ {
				c.places = append(c.places, t+n*step)
			}
		}
		out = append(out, c)
	}
	return out
}

// Strip returns what can be proved about the length of a job, the best claim
// first. A method is left out when a simpler one says as much. When the context
// ends, the claims proved so far come back; area and longest piece always do.
// The error is an [*InputError].
func Strip(ctx context.Context, j StripJob) ([]Claim, error) {
	s, err := newStrip(&j)
	if err != nil {
		return nil, err
	}
	claims := []Claim{s.byArea(), s.byLongest()}
	best := max(claims[0].Length, claims[1].Length)
	keep := func(c Claim, ok bool) {
		if ok {
			claims = append(claims, c)
			best = max(best, c.Length)
		}
	}
	if ctx.Err() == nil {
		keep(s.byChords(ctx, claims[0].Length))
	}
	if l := newLines(s); l != nil && ctx.Err() == nil {
		l.survey(ctx)
		line := l.byLine(ctx)
		keep(line, line.Length > 0)
		weighed, ok := l.byWeighedLine(ctx, line)
		keep(weighed, ok)
		keep(l.byColumns(ctx, weighed))
		keep(l.byRows(ctx, best))
	}
	if ctx.Err() == nil {
		keep(s.bySequence(ctx, best))
	}
	byStrength(claims)
	return claims, nil
}

// Best returns the best claim of [Strip].
func Best(ctx context.Context, j StripJob) (Claim, error) {
	cs, err := Strip(ctx, j)
	if err != nil {
		return Claim{}, err
	}
	return cs[0], nil
}
