package bound

import (
	"context"
	"math"
	"slices"
)

const (
	columnWork  = 500_000 // chords looked at for points
	mostPoints  = 12      // distances from the columns tried on one line
	mostColumns = 256     // points of one distance on a line
)

// byColumns bounds the length by points instead of chords, for pieces that the
// pattern binds across. On the lines of phase phi take the points at one
// distance from every column that some piece covers in some place that it may
// take, P of them on each line. With K_i the number of these points that piece
// i covers, least over all it may do,
//
//	m(phi) = ceil(sum of K_i / P),   and L as for chords
//
// Proof: each of the points on a line lies inside one piece at most, and no
// other points are covered; so the pieces cover at most P on each line. It sees
// cloth beside a column that no panel can use.
func (l *lines) byColumns(ctx context.Context, known Claim) (Claim, bool) {
	best := known
	best.Method, best.Weigh = ByColumns, Weighing{}
	if l.job.Repeat.Across == 0 {
		return best, false
	}
	work := columnWork
	runs := l.runs()
	if l.job.Repeat.FreeStart {
		best = l.freeLine(ctx, best, l.parted(runs), counter{
			lines: func(d load, target int64) need { return l.columns(d, target, &work) },
			whole: func(stretch, int64) bool { return false },
		})
		return best, best.Length > known.Length
	}
	for _, s := range runs {
		if ctx.Err() != nil {
			break
		}
		low, high := l.columns(s.low, 1, &work), l.columns(s.high, 1, &work)
		best = l.raise(best, high)
		if best = l.raise(best, low); low.lines > high.lines && l.length(need{high.sample, low.lines, low.first, low.weigh}) > best.Length {
			best = l.raise(best, l.upmost(low, s.to, func(d load) need { return l.columns(d, low.lines, &work) }))
		}
	}
	return best, best.Length > known.Length
}

// parted divides runs, so that the gaps between phases that are looked at are
// narrow against those that count.
func (l *lines) parted(runs []stretch) []stretch {
	const parts = 8
	var out []stretch
	for _, s := range runs {
		for k := range int64(parts) {
			p := stretch{from: s.from + (s.to-s.from)*k/parts, to: s.from + (s.to-s.from)*(k+1)/parts, low: s.low, high: s.high}
			if p.from == p.to {
				continue
			}
			if k > 0 {
				p.low = l.load(sample{p.from, true}, false)
			}
			if k+1 < parts {
				p.high = l.load(sample{p.to, false}, false)
			}
			out = append(out, p)
		}
	}
	return out
}

// cover is what an option may cover of a line: its chords at each of its
// places.
type cover struct {
	item   int
	chords []chord
	places []int64
}

// columns is the number of lines that points prove.
func (l *lines) columns(d load, target int64, work *int) need {
	out := need{d.sample, 0, d.first, Weighing{}}
	if *work <= 0 || int64(d.pieces)*mostRepeats < target {
		return out
	}
	var covers []cover
	var tries []int64
	period := l.job.Repeat.Across * sub
	for i := range l.items {
		it := &l.items[i]
		for k := range it.options {
			o := &it.options[k]
			c := cover{i, slices.Clone(l.cross(o, d.sample).chords), o.places}
			covers = append(covers, c)
			*work -= 4
			for _, q := range c.chords {
				if q.r-q.l > 2 && len(o.places) > 0 {
					for _, x := range [3]int64{q.l + 1, q.l + (q.r-q.l)/2, q.r - 1} {
						tries = append(tries, mod(x+o.places[0]*sub, period))
					}
				}
			}
		}
	}
	slices.Sort(tries)
	tries = thin(slices.Compact(tries), mostPoints)
	for _, t := range tries {
		if l.width/period >= mostColumns {
			break
		}
		out.lines = max(out.lines, l.points(covers, t, work))
	}
	return out
}

// points is the number of lines that the points at one distance from the
// columns prove.
func (l *lines) points(covers []cover, at int64, work *int) int64 {
	period := l.job.Repeat.Across * sub
	usable := make([]bool, l.width/period+1)
	sum := int64(0)
	for i := 0; i < len(covers); {
		item := covers[i].item
		least := int64(math.MaxInt64)
		for ; i < len(covers) && covers[i].item == item; i++ {
			c := &covers[i]
			if len(c.places) == 0 { // free across: it may cover any point, or none
				least = 0
				for k := range usable {
					usable[k] = usable[k] || len(c.chords) > 0
				}
			}
			for _, x := range c.places {
				n := int64(0)
				for _, q := range c.chords {
					*work--
					// the points at + k period strictly inside
					from, to := floorDiv(q.l+x*sub-at, period)+1, ceilDiv(q.r+x*sub-at, period)-1
					for k := max(0, from); k <= to && k < int64(len(usable)); k++ {
						usable[k] = true
						n++
					}
				}
				least = min(least, n)
			}
		}
		sum += least * int64(l.items[item].count)
	}
	p := int64(0)
	for _, u := range usable {
		if u {
			p++
		}
	}
	if p == 0 {
		return 0
	}
	return ceilDiv(sum, p)
}
