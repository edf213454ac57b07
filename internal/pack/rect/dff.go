package rect

import "slices"

// A dual feasible function f maps sizes so that sizes which fit side by side into c keep a sum of at most f(c) after
// the mapping. Summing f(width) x height over all boxes and dividing by f(c) therefore bounds the height, and boxes
// that can hardly stand beside others weigh more than their area. The families are those of Fekete and Schepers 2001
// and Boschetti and Mingozzi 2003; see Clautiaux, Alves and Valerio de Carvalho, Annals of OR 179 (2010).
type dff struct {
	kind int
	c    int64 // capacity
	k    int64 // parameter
}

const (
	dffPlain    = iota // f(x) = x
	dffRound           // x > c-k counts as c, x < k as 0
	dffShare           // whole shares of c/(k+1)
	dffBoundary        // steps of k, counted from both ends
)

// top is f(c).
func (f dff) top() int64 {
	switch f.kind {
	case dffShare:
		return f.k * (f.k + 1)
	case dffBoundary:
		return 2 * (f.c / f.k)
	}
	return f.c
}

// at is f(x) for 0 < x <= c.
func (f dff) at(x int64) int64 {
	switch f.kind {
	case dffRound:
		switch {
		case x > f.c-f.k:
			return f.c
		case x < f.k:
			return 0
		}
		return x
	case dffShare: // x (k+1)/c if whole, over k+1; otherwise rounded down, over k
		m := wide{}
		m.addMul(x, f.k+1)
		q := m.ceilDiv(f.c)
		var back wide
		back.addMul(q, f.c)
		if back == m {
			return q * f.k
		}
		return (q - 1) * (f.k + 1)
	case dffBoundary:
		switch {
		case x > f.c-x:
			return 2 * (f.c/f.k - (f.c-x)/f.k)
		case x == f.c-x:
			return f.c / f.k
		}
		return 2 * (x / f.k)
	}
	return x
}

// dffs lists functions worth trying for the given sizes: thresholds at the sizes themselves. At most about most of
// them.
func dffs(c int64, sizes []int64, most int) []dff {
	out := []dff{{dffPlain, c, 0}}
	var ks []int64
	for _, x := range sizes {
		if x <= c/2 {
			ks = append(ks, x)
		} else if k := c - x + 1; k <= c/2 && x < c {
			ks = append(ks, k)
		}
		if k := c - x; k >= 1 && k <= c/2 {
			ks = append(ks, k)
		}
	}
	if c >= 2 {
		ks = append(ks, c/2, (c+3)/4, (c+2)/3)
	}
	slices.Sort(ks)
	ks = slices.Compact(ks)
	if len(ks) > 0 && ks[0] < 1 {
		ks = ks[1:]
	}
	stride := max(1, (2*len(ks)+most-1)/max(1, most))
	for i := 0; i < len(ks); i += stride {
		if k := ks[i]; k <= c/2 {
			out = append(out, dff{dffRound, c, k}, dff{dffBoundary, c, k})
		}
	}
	for k := int64(1); k <= min(12, int64(most), c); k++ {
		out = append(out, dff{dffShare, c, k})
	}
	return out
}
