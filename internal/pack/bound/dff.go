package bound

import (
	"fmt"
	"slices"
	"sort"

	"github.com/coverwright/coverwright/internal/geom"
)

// Weighing is a dual feasible function: f(x) >= 0 for sizes x up to a width c,
// rising, with
//
//	x1 + ... + xn <= c   implies   f(x1) + ... + f(xn) <= f(c).
//
// What fits side by side keeps a weight of at most f(c), so the weights of all
// pieces together, over f(c), are widths that must be found. A piece that
// hardly lets another stand beside it weighs more than its width.
//
// With c = Of, e = K and whole sizes, x is:
//
//	Plain   x, of c.
//	Shares  m = K+1 shares: x m/c times K if that is whole, else rounded down
//	        and times K+1; of K (K+1). Proof, over K (K+1): let A be the sizes
//	        whose share is whole and a = m sum(A)/c. The others sum to less
//	        than m - a after rounding down. If a is whole, they sum to at most
//	        K - a, and the weights to a K + (K-a)(K+1) <= K (K+1); a is a sum
//	        of whole numbers.
//	Big     0 below e, c above c-e, x otherwise; of c, for e <= c/2. Proof: if
//	        one size is above c-e, all others are below e; else weights are at
//	        most sizes.
//	Few     0 below e, 1 up to c/2, above it M - floor((c-x)/e); of M =
//	        floor(c/e), for e <= c/2. Proof: at most one size x is above c/2,
//	        and at most floor((c-x)/e) of the rest are e or more. If none is,
//	        at most M are.
//	Steps   2 floor(x/e) below c/2, M at c/2, above it 2 (M - floor((c-x)/e));
//	        of 2M. Proof: at most one size x is above c/2; the others sum to
//	        at most c-x, their floors to at most floor((c-x)/e). Without it, at
//	        most two sizes are c/2; two leave nothing, one leaves c/2, of which
//	        the floors are at most floor(c/(2e)) <= M/2.
//
// The families are usual in bin packing; the proofs are derived, and a test
// searches them in full for small widths.
type Weighing struct {
	Kind Kind
	K    int64 // the number of Shares, else a size
	Of   int64 // the width, in the unit of K; 0 for Plain of a claim without one
}

// Kind is a family of dual feasible functions.
type Kind int

// The families; see [Weighing].
const (
	Plain Kind = iota
	Shares
	Big
	Few
	Steps
)

// String says in words how chords are weighed.
func (w Weighing) String() string {
	size := func(k int64) string { return fmt.Sprintf("%.4f of the width", float64(k)/float64(max(1, w.Of))) }
	switch w.Kind {
	case Plain:
		return "every chord by its length"
	case Shares:
		return fmt.Sprintf("chords in whole shares of 1/%d of the width", w.K+1)
	case Big:
		return "chords over " + size(w.Of-w.K) + " as whole widths, those under " + size(w.K) + " as nothing"
	case Few:
		return "chords from " + size(w.K) + " up by how many of them fit"
	case Steps:
		return "chords in whole steps of " + size(w.K)
	}
	return "unknown"
}

// top is f(c).
func (w Weighing) top() int64 {
	switch w.Kind {
	case Shares:
		return w.K * (w.K + 1)
	case Few:
		return w.Of / w.K
	case Steps:
		return 2 * (w.Of / w.K)
	}
	return w.Of
}

// at is f(x) for a whole x, 0 <= x <= c. As f rises, it is at most f of any
// size that rounds down to x.
func (w Weighing) at(x int64) int64 {
	c, e := w.Of, w.K
	switch w.Kind {
	case Shares:
		q, r := mulDiv(x, e+1, c)
		if r == 0 {
			return q * e
		}
		return q * (e + 1)
	case Big:
		switch {
		case x > c-e:
			return c
		case x < e:
			return 0
		}
		return x
	case Few:
		switch {
		case x < e:
			return 0
		case x <= c-x:
			return 1
		}
		return c/e - (c-x)/e
	case Steps:
		switch {
		case x < c-x:
			return 2 * (x / e)
		case x == c-x:
			return c / e
		}
		return 2 * (c/e - (c-x)/e)
	}
	return x
}

// mostSteps is the most steps of a function between 0 and c.
const mostSteps = 64

// weighings lists about most functions worth trying for chords of the given
// sizes, sorted, on a width c: thresholds at the sizes and at what they leave.
func weighings(c int64, sizes []int64, most int) []Weighing {
	out := []Weighing{{Plain, 0, c}}
	for k := int64(1); k <= min(10, c); k++ {
		out = append(out, Weighing{Shares, k, c})
	}
	var es []int64
	add := func(e int64) {
		if e >= 1 && e <= c/2 && c/e <= mostSteps {
			es = append(es, e)
		}
	}
	for _, x := range sizes {
		add(x)
		add(c - x)
		add(c - x + 1)
	}
	add(c / 2)
	add(c/3 + 1)
	add(c / 3)
	add(c/4 + 1)
	slices.Sort(es)
	es = slices.Compact(es)
	room := max(4, (most-len(out))/3)
	for i := range min(room, len(es)) {
		e := es[i*len(es)/min(room, len(es))]
		out = append(out, Weighing{Big, e, c}, Weighing{Few, e, c}, Weighing{Steps, e, c})
	}
	return out
}

// profile is a function as a staircase: v[i] from t[i] on, for every size that
// is not whole as for the whole one below it. That never exceeds f, as f rises.
type profile struct {
	Weighing
	t, v []int64
}

// stairs makes the staircase of a function. It is left empty for Plain and
// Big, which slope.
func (w Weighing) stairs() profile {
	p := profile{Weighing: w}
	var ts []int64
	c, e := w.Of, w.K
	switch w.Kind {
	case Shares:
		for q := int64(1); q <= e+1; q++ {
			t, r := mulDiv(q, c, e+1)
			if r > 0 {
				t++
			}
			ts = append(ts, t, t+1)
		}
	case Few, Steps:
		for q := int64(1); q <= c/e; q++ {
			ts = append(ts, q*e, c-q*e, c-q*e+1)
		}
		ts = append(ts, c/2, (c+1)/2, c/2+1, c)
	}
	slices.Sort(ts)
	last := int64(0)
	for _, t := range ts {
		if t < 1 || t > c {
			continue
		}
		if v := w.at(t); v > last {
			p.t, p.v, last = append(p.t, t), append(p.v, v), v
		}
	}
	return p
}

// over is the integral of f along a height h of a chord that runs straight
// from size a to size b, rounded down, never above the truth:
//
//	integral of f = sum over the steps of f of (rise x height on which the chord is at least there)
//
// Where f slopes as x does, from e to c-e, the steps become an integral, which
// is the area of the trapezoid between the two sizes.
func (p *profile) over(h, a, b int64) geom.Int128 {
	lo, hi := min(a, b), max(a, b)
	if p.Kind == Plain || p.Kind == Big {
		e, d := p.K, p.Of-p.K // Plain is Big with e = 0
		sum := geom.Mul64(e, reach(h, lo, hi, e)+reach(h, lo, hi, d+1))
		from, to := min(max(lo, e), d), min(max(hi, e), d)
		sum = sum.Add(geom.Mul64(from-e, h))
		if to > from {
			mean, _ := mulDiv(h, 2*hi-from-to, 2*(hi-lo))
			sum = sum.Add(geom.Mul64(to-from, mean))
		}
		return sum
	}
	i := sort.Search(len(p.t), func(i int) bool { return p.t[i] > lo })
	var sum geom.Int128
	v := int64(0)
	if i > 0 {
		v = p.v[i-1]
		sum = geom.Mul64(v, h)
	}
	for ; i < len(p.t) && p.t[i] <= hi; i++ {
		sum = sum.Add(geom.Mul64(p.v[i]-v, reach(h, lo, hi, p.t[i])))
		v = p.v[i]
	}
	return sum
}

// reach is the height on which a chord that runs straight from lo to hi over a
// height h is at least t, rounded down.
func reach(h, lo, hi, t int64) int64 {
	switch {
	case lo >= t:
		return h
	case hi <= t:
		return 0
	}
	q, _ := mulDiv(h, hi-t, hi-lo)
	return q
}
