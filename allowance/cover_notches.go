package allowance

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// The spacing of notches, as common practice has it.
const (
	notchGap       = 6 * unit.Inch
	notchGapEase   = 4 * unit.Inch // where ease is worked in
	notchGapLong   = 10 * unit.Inch
	longSeam       = 60 * unit.Inch
	nearestNotch   = unit.Inch
	sameNotch      = unit.Inch / 8
	mirroredNotch  = unit.Inch / 4
	flatEnds       = unit.Inch
	sharpestSmooth = math.Pi / 6 // a turn of 30 degrees is a corner
	leastBend      = math.Pi / 36
)

// CoverNotch is a place where the sides of a seam meet: At is the length from the
// start of each side. The second and later sides run against the first, so that
// theirs fall as its rise.
type CoverNotch struct {
	Label string        `json:"label"` // such as C2, of the right hand C2-R
	At    []unit.Length `json:"at"`
	// Double notches tell one end of the seam from the other.
	Double bool `json:"double,omitzero"`
}

// corner is a place along a side where its panel turns.
type corner struct {
	at   unit.Length
	turn float64
}

// corners lists the corners within a side.
func (g *graph) corners(side []span) []corner {
	var out []corner
	at := unit.Length(0)
	for n, s := range side {
		d := g.drawn[g.nodes[s.node].panel]
		for i, p := range s.parts {
			follows := i > 0 || n > 0 && side[n-1].node == s.node && !side[n-1].line
			if follows && !s.line {
				v := p
				if !s.ahead {
					v = (p + 1) % d.border
				}
				if turn := d.parts[v].corner; math.Abs(turn) >= sharpestSmooth {
					out = append(out, corner{at, turn})
				}
			}
			at += d.parts[p].length
		}
	}
	return out
}

// zone is where ease is worked in, along the longer side.
type zone struct{ from, to unit.Length }

// easeMap takes places on the shorter side to the longer, as both run one way. Ease
// lies in zones.
type easeMap struct {
	short, long unit.Length
	zones       []zone
	share       unit.Ratio // of a zone on the longer side that is eased away
}

// easing finds where the ease of the longer side goes: where its edge bulges,
// but not within the flat ends; all over when that is nowhere.
func (g *graph) easing(s Seam, short, long []span) easeMap {
	m := easeMap{short: g.run(short), long: g.run(long)}
	flat := s.FlatEnds
	if flat == 0 {
		flat = flatEnds
	}
	if s.Kind == GatheredJoin {
		flat = 0
	}
	var at, sum unit.Length
	for _, sp := range long {
		d := g.drawn[g.nodes[sp.node].panel]
		for _, p := range sp.parts {
			l := d.parts[p].length
			if s.Kind == GatheredJoin || d.parts[p].bend >= leastBend {
				from, to := at+flat, at+l-flat
				if to > from {
					m.zones = append(m.zones, zone{from, to})
					sum += to - from
				}
			}
			at += l
		}
	}
	if sum < 2*(m.long-m.short) || m.long == m.short {
		m.zones, sum = []zone{{0, m.long}}, m.long
	}
	m.share, _ = (m.long - m.short).Per(sum) //nolint:errcheck // a seam of no length has no ease
	return m
}

// turn has the longer side run from its end.
func (m *easeMap) turn() {
	slices.Reverse(m.zones)
	for i, z := range m.zones {
		m.zones[i] = zone{m.long - z.to, m.long - z.from}
	}
}

// longer takes a place on the shorter side to the longer one.
func (m easeMap) longer(at unit.Length) unit.Length {
	out := at // grows by the ease passed
	for _, z := range m.zones {
		width := z.to - z.from
		eased, _ := width.Scale(m.share, unit.Nearest) //nolint:errcheck // a part of it
		switch kept := width - eased; {
		case out <= z.from:
			return out
		case out >= z.from+kept:
			out += eased
		default:
			in := float64(out-z.from) / (1 - float64(m.share))
			return z.from + unit.Length(math.Round(in))
		}
	}
	return min(out, m.long)
}

// shorter takes a place on the longer side to the shorter one.
func (m easeMap) shorter(at unit.Length) unit.Length {
	out := at
	for _, z := range m.zones {
		in, _ := (min(max(at, z.from), z.to) - z.from).Scale(m.share, unit.Nearest) //nolint:errcheck // a part of it
		out -= in
	}
	return min(max(out, 0), m.short)
}

// eased tells whether a place on the longer side lies in a zone.
func (m easeMap) eased(at unit.Length) bool {
	return m.long != m.short && slices.ContainsFunc(m.zones, func(z zone) bool { return z.from <= at && at <= z.to })
}

// fixed is a notch that something asks for, by its place on the shortest side
// and its own on the side it belongs to.
type fixed struct {
	at  unit.Length
	own map[int]unit.Length
}

// notches places the marks of a seam: ends, corners and junctions of any side
// first, then the middle, then between them what is needed.
func (g *graph) notches(j joint) []CoverNotch {
	s := g.cover.Seams[j.seam]
	if len(j.sides) < 2 {
		return nil
	}
	short := g.shortest(j)
	length := g.run(j.sides[short])
	// The shortest side runs up; those that are sewn to it run against it. The
	// first side and all others run against each other.
	against := func(k int) bool { return (k == 0) != (short == 0) }
	maps := make([]easeMap, len(j.sides))
	for k, side := range j.sides {
		maps[k] = g.easing(s, j.sides[short], side)
		if against(k) {
			maps[k].turn()
		}
	}
	toShort := func(k int, at unit.Length) unit.Length {
		if against(k) {
			at = maps[k].long - at
		}
		return maps[k].shorter(at)
	}
	points := g.fixed(j, length, toShort)
	points = g.fill(points, length, func(at unit.Length) bool {
		return slices.ContainsFunc(maps, func(m easeMap) bool { return m.eased(m.longer(at)) })
	}, j.ring)
	out := make([]CoverNotch, len(points))
	for i, p := range points {
		for k := range j.sides {
			at, own := p.own[k]
			if !own {
				if at = maps[k].longer(p.at); against(k) {
					at = maps[k].long - at
				}
			}
			out[i].At = append(out[i].At, at)
		}
	}
	slices.SortStableFunc(out, func(a, b CoverNotch) int { return cmp.Compare(a.At[0], b.At[0]) })
	double(out, g.run(j.sides[0]), j.ring)
	return out
}

// fixed lists the notches that ends, corners and junctions ask for.
func (g *graph) fixed(j joint, length unit.Length, toShort func(int, unit.Length) unit.Length) []fixed {
	var out []fixed
	add := func(k int, own unit.Length) {
		at := toShort(k, own)
		for i := range out {
			if _, has := out[i].own[k]; !has && max(out[i].at-at, at-out[i].at) <= sameNotch {
				out[i].own[k] = own
				return
			}
		}
		out = append(out, fixed{at, map[int]unit.Length{k: own}})
	}
	for k, side := range j.sides {
		l := g.run(side)
		if k == 0 || !j.ring {
			add(k, 0)
		}
		if !j.ring {
			add(k, l)
		}
		at := unit.Length(0)
		for n, s := range side {
			if n > 0 && side[n-1].node != s.node {
				add(k, at)
			}
			at += g.length(s)
		}
		for _, c := range g.corners(side) {
			add(k, c.at)
		}
	}
	if open := g.cover.Seams[j.seam].Opening; open != 0 {
		add(0, open)
	}
	slices.SortStableFunc(out, func(a, b fixed) int { return cmp.Compare(a.at, b.at) })
	switch {
	case len(out) == 1 && j.ring:
		for i := 1; i < 4; i++ {
			at, _ := length.MulDiv(i, 4, unit.Nearest) //nolint:errcheck // a part of it
			out = append(out, fixed{at: (out[0].at + at) % length})
		}
	case len(out) == 2 && !j.ring:
		out = append(out, fixed{at: length / 2})
	}
	slices.SortStableFunc(out, func(a, b fixed) int { return cmp.Compare(a.at, b.at) })
	return out
}

// fill puts equal parts between fixed notches so that no gap is too wide.
func (g *graph) fill(points []fixed, length unit.Length, eased func(unit.Length) bool, ring bool) []fixed {
	out := slices.Clone(points)
	for i, p := range points {
		var to unit.Length
		switch {
		case i+1 < len(points):
			to = points[i+1].at
		case ring:
			to = points[0].at + length
		default:
			continue
		}
		gap := notchGap
		if length > longSeam {
			gap = notchGapLong
		}
		if eased((p.at + min(to, length)) / 2) {
			gap = min(gap, notchGapEase)
		}
		between := to - p.at
		n := int(nano.CeilDiv(between-unit.Micrometre, gap)) // rounding makes no part more
		if n > mostMarks || n > 1 && between/unit.Length(n) < nearestNotch {
			continue
		}
		for k := 1; k < n; k++ {
			at, _ := between.MulDiv(k, n, unit.Nearest) //nolint:errcheck // a part of it
			out = append(out, fixed{at: (p.at + at) % length})
		}
	}
	slices.SortStableFunc(out, func(a, b fixed) int { return cmp.Compare(a.at, b.at) })
	return out
}

// double marks the notch next to the start of a run that would look the same
// from both ends.
func double(ns []CoverNotch, length unit.Length, ring bool) {
	if ring || len(ns) < 4 {
		return
	}
	for i := range ns {
		if d := ns[i].At[0] + ns[len(ns)-1-i].At[0] - length; max(d, -d) > mirroredNotch {
			return
		}
	}
	ns[1].Double = true
}
