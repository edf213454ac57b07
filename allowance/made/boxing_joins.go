package made

import (
	"cmp"
	"slices"

	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// mostBoxing bounds the pieces of one ring.
const mostBoxing = 200

// between divides a part of the ring into pieces that the goods allow, the end
// ones shorter by the pocket. Corners alone are tried first, then places off
// them, then the front, at last places near a corner.
func (r ring) between(a, b, pocket unit.Length) ([]stretch, bool) {
	if r.most < r.least || (b-a)/max(r.most, 1) >= mostBoxing {
		return nil, false
	}
	alike := r.symmetric(a, b)
	from, to := r.front()
	for _, try := range []freedom{{broken: to-from > r.most}, {off: true, broken: to-from > r.most}, {off: true, broken: true}, {off: true, broken: true, close: true}} {
		at := r.places(a, b, try)
		var cuts []unit.Length
		var ok bool
		if alike {
			cuts, ok = r.half(at, a, b, pocket, try.broken)
		} else {
			cuts, ok = r.fewest(at, a, b, pocket)
		}
		if !ok {
			continue
		}
		out := []stretch{}
		from := a
		for _, c := range append(cuts, b) {
			out = append(out, stretch{from, c})
			from = c
		}
		return out, true
	}
	return nil, false
}

// freedom is what joins may do when they must.
type freedom struct {
	off    bool // lie off the corners
	broken bool // divide the front
	close  bool // lie near a corner
}

// spot is a place where the ring may be joined.
type spot struct {
	at  unit.Length
	off bool // no corner
}

// same is a difference of places that comes of rounding.
const same = unit.Micrometre

// symmetric tells whether the part of the ring is the same from both ends.
func (r ring) symmetric(a, b unit.Length) bool {
	mirrored := func(x, y unit.Length) bool { d := a + b - x - y; return max(d, -d) <= same }
	from, to := r.front()
	if !mirrored(from, to) {
		return false
	}
	in := r.inside(a, b)
	for i := range in {
		if !mirrored(in[i], in[len(in)-1-i]) {
			return false
		}
	}
	return true
}

// inside lists the corners between two places.
func (r ring) inside(a, b unit.Length) []unit.Length {
	var out []unit.Length
	for _, turn := range []unit.Length{0, r.Perimeter} {
		for _, c := range r.Corners {
			if at := c.At + turn; at > a+same && at < b-same {
				out = append(out, at)
			}
		}
	}
	return out
}

// places lists where joins may be: at corners, in equal parts of runs that are
// too long, and elsewhere as far as joins are free.
func (r ring) places(a, b unit.Length, try freedom) []spot {
	corners := r.inside(a, b)
	from, to := r.front()
	broken := try.broken
	fits := func(at unit.Length) bool {
		if at <= a+same || at >= b-same || !broken && at > from+same && at < to-same || !broken && at == (from+to)/2 {
			return false
		}
		return try.close || !slices.ContainsFunc(corners, func(c unit.Length) bool { return max(c-at, at-c) < clearCorner })
	}
	var out []spot
	for _, c := range corners {
		if broken || c <= from+same || c >= to-same {
			out = append(out, spot{c, false})
		}
	}
	ends := append(append([]unit.Length{a}, corners...), b)
	for i := 1; i < len(ends); i++ {
		run := ends[i] - ends[i-1]
		n := int(nano.CeilDiv(run, r.most))
		if mid := (from + to) / 2; n%2 == 0 && (len(corners) == 0 || r.Match && ends[i-1] < mid && mid < ends[i]) {
			n++ // the middle of the front is whole
		}
		at := ends[i-1]
		for _, l := range share(run, n)[1:] {
			if at += l; fits(at) {
				out = append(out, spot{at, true})
			}
		}
	}
	if try.off {
		step := max(unit.Inch, (b-a)/500)
		for at := a + step; at < b; at += step {
			if fits(at) {
				out = append(out, spot{at, true})
			}
		}
	}
	slices.SortFunc(out, func(x, y spot) int { return cmp.Compare(x.at, y.at) })
	return slices.CompactFunc(out, func(x, y spot) bool { return max(y.at-x.at, x.at-y.at) <= same })
}

// way is the best way to a place: pieces, joins off corners, the longest piece.
type way struct {
	pieces, off int
	longest     unit.Length
	from        int // -1 is the beginning
	ok          bool
}

func (w way) worse(v way) bool {
	return !w.ok || cmp.Or(cmp.Compare(w.pieces, v.pieces), cmp.Compare(w.off, v.off), cmp.Compare(w.longest, v.longest)) > 0
}

// then adds a piece to a way.
func (w way) then(l unit.Length, off bool, from int) way {
	w.pieces, w.longest, w.from = w.pieces+1, max(w.longest, l), from
	if off {
		w.off++
	}
	return w
}

// ways finds the best way from the beginning to every place.
func (r ring) ways(at []spot, a, pocket unit.Length) []way {
	out := make([]way, len(at))
	for i, s := range at {
		if l := s.at - a; l >= r.least && l <= r.most-pocket {
			out[i] = way{ok: true}.then(l, s.off, -1)
		}
		for k := i - 1; k >= 0 && s.at-at[k].at <= r.most; k-- {
			if l := s.at - at[k].at; out[k].ok && l >= r.least {
				if w := out[k].then(l, s.off, k); out[i].worse(w) {
					out[i] = w
				}
			}
		}
	}
	return out
}

// fewest joins the whole part.
func (r ring) fewest(at []spot, a, b, pocket unit.Length) ([]unit.Length, bool) {
	ways := r.ways(at, a, pocket)
	var best way
	for i, s := range at {
		if l := b - s.at; ways[i].ok && l >= r.least && l <= r.most-pocket {
			if w := ways[i].then(l, false, i); best.worse(w) {
				best = w
			}
		}
	}
	return trail(at, ways, best)
}

// half joins one half of a part that is the same from both ends, and mirrors it:
// one piece lies over the middle, or a join where the front must be divided.
func (r ring) half(at []spot, a, b, pocket unit.Length, broken bool) ([]unit.Length, bool) {
	mid := a + (b-a)/2
	at = slices.DeleteFunc(slices.Clone(at), func(s spot) bool { return s.at > mid })
	ways := r.ways(at, a, pocket)
	var best way
	middle := false
	for i, s := range at {
		if !ways[i].ok {
			continue
		}
		if mid-s.at <= same {
			if w := ways[i]; broken && best.worse(way{2 * w.pieces, 2 * w.off, w.longest, 0, true}) {
				best, middle = way{2 * w.pieces, 2 * w.off, w.longest, i, true}, true
			}
			continue
		}
		if l := 2 * (mid - s.at); l >= r.least && l <= r.most {
			w := ways[i].then(l, false, i)
			w.pieces, w.off = 2*w.pieces-1, 2*w.off
			if best.worse(w) {
				best, middle = w, false
			}
		}
	}
	cuts, ok := trail(at, ways, best)
	for i := len(cuts) - 1; i >= 0; i-- {
		if middle && i == len(cuts)-1 {
			continue
		}
		mirror := a + b - cuts[i]
		for _, c := range r.inside(a, b) {
			if max(c-mirror, mirror-c) <= same {
				mirror = c
			}
		}
		cuts = append(cuts, mirror)
	}
	return cuts, ok
}

// trail lists the places of a way, in rising order.
func trail(at []spot, ways []way, end way) ([]unit.Length, bool) {
	var out []unit.Length
	for i := end.from; end.ok && i >= 0; i = ways[i].from {
		out = append(out, at[i].at)
	}
	slices.Reverse(out)
	return out, end.ok
}
