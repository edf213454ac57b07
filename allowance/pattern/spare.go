package pattern

import (
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Gap is a stretch of a straight line that no sheet shows: sheets that would hold
// nothing else are left out, and a rule finishes the line between two others.
type Gap struct {
	Kind Kind        `json:"kind"`
	From shape.Point `json:"from"` // where it leaves the sheet Off, on the pattern
	To   shape.Point `json:"to"`   // where it comes on to the sheet On
	Off  string      `json:"off"`
	On   string      `json:"on"`
}

// Rule gives how far to go on with a rule: a whole number of steps of the units, from
// From to a tick on the other sheet, at most one step beyond To. The error is one of
// units.
func (g Gap) Rule(u Units) (far unit.Length, tick shape.Point, err error) {
	if err := enum.Check(u, "units", unitNames); err != nil {
		return 0, tick, err
	}
	long := unit.Length(openLength([]shape.Point{g.From, g.To}))
	if far, err = long.RoundTo(u.step(), unit.Up); err != nil {
		return 0, tick, err
	}
	return far, moved(g.From, direction(g.From, g.To), float64(far)), nil
}

// straightSlack is how far a point may lie off a line that is straight.
const straightSlack = unit.Micrometre

// leastRun is how much of a line a sheet must show that a rule is laid on to.
const leastRun = 40 * unit.Millimetre

// stretch is a straight line from corner to corner, by the sheets that it lies on.
type stretch struct {
	kind Kind
	runs []run
}

// run is the part of a stretch that a sheet answers for.
type run struct {
	tile     int
	t0, t1   float64 // how far along
	from, to shape.Point
}

// spared leaves out the sheets that hold nothing but straight lines, or nothing. A
// sheet stays that has a corner, a curve, a notch or a mark, and one that is needed so
// that every part of the cut line has enough on paper to lay a rule on.
func (p Pattern) spared(t Tiling) Tiling {
	stretches := p.stretches(t)
	stay := p.needed(t)
	for again := true; again; {
		again = false
		for _, s := range stretches {
			if s.kind != CutLine && s.kind != FoldLine {
				continue
			}
			if more := s.lengthen(stay); more >= 0 {
				stay[more], again = true, true
			}
		}
	}
	gaps := gapsOf(t, stretches, stay)
	if !connected(t, gaps, stay) {
		return t
	}
	return t.only(stay, gaps)
}

// only keeps some of the sheets.
func (t Tiling) only(stay []bool, gaps []Gap) Tiling {
	all := t.Tiles
	t.Tiles, t.Gaps = nil, gaps
	there := map[[2]int]bool{}
	for i, q := range all {
		if stay[i] {
			there[[2]int{q.Row, q.Column}] = true
		}
	}
	for i, q := range all {
		if stay[i] {
			q.Joins = nil
			q.join(there)
			t.Tiles = append(t.Tiles, q)
		}
	}
	return t
}

// stretches gives the straight lines of the closed lines, and of the fold.
func (p Pattern) stretches(t Tiling) []stretch {
	var out []stretch
	for k, c := range []shape.Contour{CutLine: p.Cut, TrimLine: p.Trim, SeamLine: p.Seam} {
		for _, ring := range rings(c) {
			corners := cornersOf(ring)
			for i, a := range corners {
				s := stretch{kind: Kind(k)}
				b := corners[(i+1)%len(corners)]
				if p.folded() && i == len(corners)-1 {
					if s.kind != CutLine {
						continue // drawn once
					}
					s.kind = FoldLine
				}
				s.runs = runsOf(t, a, b)
				out = append(out, s)
			}
		}
	}
	return out
}

// cornersOf leaves out the points of a closed line where it runs straight on. It
// starts at a corner, for a half at the end of its fold.
func cornersOf(ring []shape.Point) []shape.Point {
	first := 0
	for i, q := range ring {
		if q.X < ring[first].X || q.X == ring[first].X && q.Y < ring[first].Y {
			first = i
		}
	}
	n := len(ring)
	at := func(i int) shape.Point { return ring[(first+i)%n] }
	corner := make([]bool, n)
	for from, to := 0, 1; to <= n; to++ {
		for i := from + 1; i < to; i++ {
			if distance(at(i), at(from), at(to)) > float64(straightSlack) {
				from = to - 1
				corner[(first+from)%n] = true
				break
			}
		}
	}
	corner[first] = true
	var out []shape.Point
	for i, q := range ring {
		if corner[i] {
			out = append(out, q)
		}
	}
	return out
}

// runsOf gives the sheets that answer for the parts of a line, in its order. What two
// sheets answer for, along their border, is the first one's.
func runsOf(t Tiling, a, b shape.Point) []run {
	var runs []run
	for i, q := range t.Tiles {
		if from, to, ok := q.Own.segment(a, b); ok && from != to {
			runs = append(runs, run{i, openLength([]shape.Point{a, from}), openLength([]shape.Point{a, to}), from, to})
		}
	}
	slices.SortStableFunc(runs, func(x, y run) int {
		switch {
		case x.t0 < y.t0:
			return -1
		case x.t0 > y.t0:
			return 1
		}
		return 0
	})
	out := runs[:0]
	for _, r := range runs {
		if len(out) > 0 && r.t1 <= out[len(out)-1].t1 {
			continue
		}
		out = append(out, r)
	}
	return out
}

// lengthen gives a sheet that must stay as well, so that every part of the stretch on
// paper is long enough, or -1.
func (s stretch) lengthen(stay []bool) int {
	for i := 0; i < len(s.runs); i++ {
		if !stay[s.runs[i].tile] {
			continue
		}
		k := i
		for k+1 < len(s.runs) && stay[s.runs[k+1].tile] {
			k++
		}
		if s.runs[k].t1-s.runs[i].t0 < float64(leastRun) {
			switch {
			case k+1 < len(s.runs):
				return s.runs[k+1].tile
			case i > 0:
				return s.runs[i-1].tile
			}
		}
		i = k
	}
	return -1
}

// needed tells which sheets have more than straight lines: those that answer for a
// corner, a notch or a mark.
func (p Pattern) needed(t Tiling) []bool {
	var corners []shape.Point
	for _, c := range []shape.Contour{p.Cut, p.Trim, p.Seam} {
		for _, ring := range rings(c) {
			corners = append(corners, cornersOf(ring)...)
		}
	}
	stay := make([]bool, len(t.Tiles))
	for i, q := range t.Tiles {
		stay[i] = slices.ContainsFunc(corners, func(c shape.Point) bool { return q.Own.holds([]shape.Point{c}) })
		for _, l := range p.Lines() {
			if l.Kind == NotchLine || l.Kind == MarkLine {
				_, _, meets := q.Own.segment(l.Points[0], l.Points[1])
				stay[i] = stay[i] || meets
			}
		}
	}
	return stay
}

// gapsOf lists what the sheets that stay do not show.
func gapsOf(t Tiling, of []stretch, stay []bool) []Gap {
	var gaps []Gap
	for _, s := range of {
		for i := 0; i < len(s.runs); i++ {
			if stay[s.runs[i].tile] {
				continue
			}
			k := i
			for k+1 < len(s.runs) && !stay[s.runs[k+1].tile] {
				k++
			}
			if i > 0 && k+1 < len(s.runs) { // corners are on paper
				gaps = append(gaps, Gap{s.kind, s.runs[i].from, s.runs[k].to, t.Tiles[s.runs[i-1].tile].Label, t.Tiles[s.runs[k+1].tile].Label})
			}
			i = k
		}
	}
	return gaps
}

// connected tells whether the sheets that stay can be laid one after the other, by
// the sides they join at and by rule along the cut line or the fold.
func connected(t Tiling, gaps []Gap, stay []bool) bool {
	at := map[string]int{}
	next := make([]int, len(t.Tiles))
	for i, q := range t.Tiles {
		at[q.Label], next[i] = i, i
	}
	group := func(i int) int {
		for next[i] != i {
			next[i] = next[next[i]]
			i = next[i]
		}
		return i
	}
	merge := func(a, b int) { next[group(a)] = group(b) }
	for i, q := range t.Tiles {
		for _, j := range q.Joins {
			if k := at[j.Label]; stay[i] && stay[k] {
				merge(i, k)
			}
		}
	}
	for _, g := range gaps {
		if g.Kind == CutLine || g.Kind == FoldLine {
			merge(at[g.Off], at[g.On])
		}
	}
	one := -1
	for i := range t.Tiles {
		if stay[i] && one >= 0 && group(i) != one {
			return false
		}
		if stay[i] {
			one = group(i)
		}
	}
	return true
}
