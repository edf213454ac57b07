// Package dissect cuts a rectangle at random into smaller ones. The pieces fill the rectangle without waste, so the
// shortest layout on a strip of the same width is known: it is the height of the rectangle. Layout engines are
// measured on such sets.
package dissect

import (
	"fmt"
	"math/rand/v2"
)

// Rect is one piece of a dissection: its place (X, Y) and size (W, H) inside the rectangle that was cut.
type Rect struct{ X, Y, W, H int64 }

// Style says how the rectangle is cut.
type Style int

const (
	// Guillotine cuts from edge to edge: every dissection can be undone by joining two neighbours at a time.
	Guillotine Style = iota
	// Pinwheel mixes edge-to-edge cuts with five-piece pinwheels, which no series of edge-to-edge cuts can make.
	Pinwheel
	// Even is a guillotine dissection that always cuts the largest piece across its longer side, near the middle:
	// pieces of similar size and shape.
	Even
	// Woven mixes the cuts of Even with pinwheels of similar arms: pieces of similar size that no series of
	// edge-to-edge cuts can make.
	Woven
)

// String names the style.
func (s Style) String() string {
	switch s {
	case Guillotine:
		return "guillotine"
	case Pinwheel:
		return "pinwheel"
	case Even:
		return "even"
	case Woven:
		return "woven"
	}
	return fmt.Sprintf("style(%d)", int(s))
}

// Cut divides a rectangle of w by h into n pieces with whole-number sides, in the order of a random shuffle. The same
// arguments give the same pieces. It fails when w or h is not positive or n pieces cannot be cut.
func Cut(w, h int64, n int, style Style, seed uint64) ([]Rect, error) {
	if w < 1 || h < 1 || n < 1 {
		return nil, fmt.Errorf("dissect: width %d, height %d and count %d must be positive", w, h, n)
	}
	if w <= int64(n) && h <= int64(n) && w*h < int64(n) {
		return nil, fmt.Errorf("dissect: %d by %d cannot be cut into %d pieces", w, h, n)
	}
	rng := rand.New(rand.NewPCG(seed, 0x5eed^uint64(style)))
	rs := []Rect{{0, 0, w, h}}
	for miss := 0; len(rs) < n; {
		i := pick(rs, style, rng)
		r := rs[i]
		if (style == Pinwheel || style == Woven) && len(rs)+4 <= n && r.W >= 3 && r.H >= 3 && rng.IntN(2) == 0 {
			rs[i] = rs[len(rs)-1]
			rs = append(rs[:len(rs)-1], pinwheel(r, style, rng)...)
			continue
		}
		a, b, ok := split(r, style, rng)
		if !ok {
			if miss++; miss > 1000*n {
				return nil, fmt.Errorf("dissect: could not cut %d by %d into %d pieces", w, h, n)
			}
			continue
		}
		rs[i] = a
		rs = append(rs, b)
	}
	rng.Shuffle(len(rs), func(i, j int) { rs[i], rs[j] = rs[j], rs[i] })
	return rs, nil
}

// pick chooses the piece to cut next: the largest one for Even and Woven, otherwise a random one, large ones more often.
func pick(rs []Rect, style Style, rng *rand.Rand) int {
	if style == Even || style == Woven {
		best := 0
		for i, r := range rs {
			if float64(r.W)*float64(r.H) > float64(rs[best].W)*float64(rs[best].H) {
				best = i
			}
		}
		return best
	}
	best, bestKey := 0, -1.0
	for range 3 {
		i := rng.IntN(len(rs))
		if k := float64(rs[i].W) * float64(rs[i].H); k > bestKey {
			best, bestKey = i, k
		}
	}
	return best
}

// split cuts a piece in two, usually across its longer side.
func split(r Rect, style Style, rng *rand.Rand) (a, b Rect, ok bool) {
	if r.W < 2 && r.H < 2 {
		return a, b, false
	}
	across := rng.Float64()*float64(r.W+r.H) < float64(r.W)
	even := style == Even || style == Woven
	if even {
		across = r.W >= r.H
	}
	if across && r.W < 2 || !across && r.H < 2 {
		across = !across
	}
	side := r.H
	if across {
		side = r.W
	}
	c := 1 + rng.Int64N(side-1)
	if even {
		lo := max(1, side*3/10)
		c = lo + rng.Int64N(max(1, side-2*lo))
	}
	a, b = r, r
	if across {
		a.W = c
		b.X, b.W = r.X+c, r.W-c
	} else {
		a.H = c
		b.Y, b.H = r.Y+c, r.H-c
	}
	return a, b, true
}

// pinwheel cuts a piece of at least 3 by 3 into four arms around a middle, each about a third as wide for Woven.
func pinwheel(r Rect, style Style, rng *rand.Rand) []Rect {
	two := func(n int64) (int64, int64) { // 0 < a < b < n
		if style == Woven && n >= 5 {
			a := n/5 + rng.Int64N(n/5)
			return a, n - n/5 - rng.Int64N(n/5)
		}
		a := 1 + rng.Int64N(n-2)
		b := a + 1 + rng.Int64N(n-a-1)
		return a, b
	}
	x1, x2 := two(r.W)
	y1, y2 := two(r.H)
	at := func(x, y, w, h int64) Rect { return Rect{r.X + x, r.Y + y, w, h} }
	if rng.IntN(2) == 0 {
		return []Rect{
			at(0, 0, x2, y1), at(x2, 0, r.W-x2, y2), at(x1, y2, r.W-x1, r.H-y2), at(0, y1, x1, r.H-y1), at(x1, y1, x2-x1, y2-y1),
		}
	}
	return []Rect{
		at(0, 0, x1, y2), at(x1, 0, r.W-x1, y1), at(x2, y1, r.W-x2, r.H-y1), at(0, y2, x2, r.H-y2), at(x1, y1, x2-x1, y2-y1),
	}
}
