package layout

import (
	"github.com/coverwright/coverwright/internal/geom"
)

// mostDents is the largest number of inward corners of an outline that is
// nested as it is on goods with a repeat or flaws: with them it falls into no
// more convex parts than the engine takes.
const mostDents = 24

// filled gives an outline round r with at most most inward corners: it fills the
// smallest dents first, each with the triangle over its corner, as long as
// nothing else stands there; at the end it is the convex hull.
func filled(r geom.Ring, most int) geom.Ring {
	if dents(r) <= most {
		return r
	}
	out := append(geom.Ring(nil), r...)
	for dents(out) > most {
		best, least := -1, geom.Int128{}
		for i := range out {
			a, b, c := neighbours(out, i)
			if geom.Orient(a, b, c) >= 0 {
				continue
			}
			size := geom.Ring{a, b, c}.TwiceArea().Abs()
			if (best < 0 || size.Cmp(least) < 0) && clearOver(out, i) {
				best, least = i, size
			}
		}
		if best < 0 {
			return geom.Hull(r)
		}
		out = append(out[:best], out[best+1:]...)
	}
	return out.Clean()
}

func neighbours(r geom.Ring, i int) (a, b, c geom.Point) {
	n := len(r)
	return r[(i+n-1)%n], r[i], r[(i+1)%n]
}

func dents(r geom.Ring) int {
	n := 0
	for i := range r {
		if a, b, c := neighbours(r, i); geom.Orient(a, b, c) < 0 {
			n++
		}
	}
	return n
}

// clearOver tells whether no other corner stands in the triangle over a dent.
func clearOver(r geom.Ring, i int) bool {
	a, b, c := neighbours(r, i)
	for _, p := range r {
		if p != a && p != b && p != c && geom.Orient(a, b, p) <= 0 && geom.Orient(b, c, p) <= 0 && geom.Orient(c, a, p) <= 0 {
			return false
		}
	}
	return true
}
