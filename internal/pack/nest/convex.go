package nest

import "github.com/coverwright/coverwright/internal/geom"

// convexParts cuts a simple anti-clockwise ring into convex rings: ears
// first, then neighbours are merged while the union stays convex (Hertel
// and Mehlhorn). ok is false if the ring is not simple.
func convexParts(r geom.Ring) (parts []geom.Ring, ok bool) {
	if r.Convex() {
		return []geom.Ring{r}, true
	}
	tris, ok := ears(r)
	if !ok {
		return nil, false
	}
	return mergeConvex(r, tris), true
}

// ears cuts the ring into triangles of corner indices.
func ears(r geom.Ring) ([][]int, bool) {
	n := len(r)
	idx := make([]int, n)
	for i := range idx {
		idx[i] = i
	}
	var out [][]int
	start := 0
	for len(idx) > 3 {
		m := len(idx)
		found := false
		for k := range m {
			i := (start + k) % m
			ia, ib, ic := idx[(i+m-1)%m], idx[i], idx[(i+1)%m]
			a, b, c := r[ia], r[ib], r[ic]
			t := orient(a, b, c)
			if t < 0 {
				continue
			}
			if t == 0 {
				// A flat corner left by earlier cuts carries no area.
				idx = append(idx[:i], idx[i+1:]...)
				found, start = true, i
				break
			}
			empty := true
			for _, j := range idx {
				if j == ia || j == ib || j == ic {
					continue
				}
				p := r[j]
				if p == a || p == b || p == c {
					continue
				}
				if orient(a, b, p) >= 0 && orient(b, c, p) >= 0 && orient(c, a, p) >= 0 {
					empty = false
					break
				}
			}
			if !empty {
				continue
			}
			out = append(out, []int{ia, ib, ic})
			idx = append(idx[:i], idx[i+1:]...)
			found, start = true, i
			break
		}
		if !found {
			return nil, false
		}
	}
	if orient(r[idx[0]], r[idx[1]], r[idx[2]]) > 0 {
		out = append(out, []int{idx[0], idx[1], idx[2]})
	}
	var sum int64
	for _, t := range out {
		sum += orient(r[t[0]], r[t[1]], r[t[2]])
	}
	return out, sum == r.TwiceArea().Int64()
}

// mergeConvex joins parts across a shared diagonal as long as the result
// is convex.
func mergeConvex(r geom.Ring, polys [][]int) []geom.Ring {
	for merged := true; merged; {
		merged = false
		type key struct{ a, b int }
		edge := make(map[key]int, len(polys)*3)
		for i, p := range polys {
			for k := range p {
				edge[key{p[k], p[(k+1)%len(p)]}] = i
			}
		}
		gone := make([]bool, len(polys))
		dirty := make([]bool, len(polys))
		for i := range polys {
			if gone[i] || dirty[i] {
				continue
			}
			for k := 0; k < len(polys[i]); k++ {
				p := polys[i]
				a, b := p[k], p[(k+1)%len(p)]
				j, shared := edge[key{b, a}]
				if !shared || j == i || gone[j] || dirty[j] {
					continue
				}
				if q, fits := joined(r, p, polys[j], a, b); fits {
					polys[i] = q
					gone[j], dirty[i] = true, true
					merged = true
					break
				}
			}
		}
		kept := polys[:0]
		for i, p := range polys {
			if !gone[i] {
				kept = append(kept, p)
			}
		}
		polys = kept
	}
	out := make([]geom.Ring, 0, len(polys))
	for _, p := range polys {
		ring := make(geom.Ring, len(p))
		for k, i := range p {
			ring[k] = r[i]
		}
		if t := ring.Tidy(); len(t) >= 3 {
			out = append(out, t)
		}
	}
	return out
}

func joined(r geom.Ring, p, q []int, a, b int) ([]int, bool) {
	// p runs ... a b ..., q runs ... b a ...
	var out []int
	n, m := len(p), len(q)
	ip, iq := 0, 0
	for p[ip] != b {
		ip++
	}
	for q[iq] != a {
		iq++
	}
	for k := range n { // b ... a of p
		out = append(out, p[(ip+k)%n])
	}
	for k := 1; k < m-1; k++ { // after a up to before b of q
		out = append(out, q[(iq+k)%m])
	}
	s := len(out)
	for i := range out {
		if orient(r[out[i]], r[out[(i+1)%s]], r[out[(i+2)%s]]) < 0 {
			return nil, false
		}
	}
	return out, true
}
