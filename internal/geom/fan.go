package geom

// On the inside of a curve tighter than the offset all strips overlap and the
// raw curve crosses itself about n^2 times. A run of such edges is called a
// fan here. Its strips are first united among themselves, halves by halves, so
// that every union has only about n crossings; the raw curve then passes the
// fan along the outline itself, and the united strips are added as rings of
// their own. The sum of winding numbers stays the same where it matters: over
// zero exactly inside the union.

// fanSize is the number of edges from which a run is treated as a fan.
const fanSize = 6

// arrange puts the raw curve into an arrangement, fans united.
func (o *offsetter) arrange() (*arrangement, error) {
	fans := o.fans()
	ar := &arrangement{
		edges: make([]edge, 0, len(o.raw)),
		ids:   make([]int32, 0, len(o.raw)),
		work:  &o.work,
	}
	if len(fans) == 0 {
		ids := make([]int32, len(o.raw))
		for i := range ids {
			ids[i] = int32(i)
		}
		ar.addRing(o.raw, ids)
		return ar, nil
	}
	n, m := len(o.pts), len(o.raw)
	side := int32(len(o.from))
	o.from = append(o.from, rawEdge{side: true, corner: true})
	var main tracedRing
	put := func(p Point, id int32) {
		main.pts, main.src = append(main.pts, p), append(main.src, id)
	}
	// Start behind the first fan's first corner and go once round.
	for k, f := range fans {
		// Along the fan: from the last raw point of its first corner in to the
		// outline and out again at the first raw point of its last corner.
		put(o.raw[o.lastRaw(f.first)], side)
		for e := 0; e <= f.edges; e++ {
			put(o.pts[(f.first+e)%n], side)
		}
		// Then the raw curve up to the next fan.
		end := (f.first + f.edges) % n
		next := fans[(k+1)%len(fans)]
		stop := o.lastRaw(next.first)
		for i := o.mark[end]; ; i = (i + 1) % m {
			if i == stop {
				break
			}
			put(o.raw[i], int32(i))
		}
		rings, err := o.unite(f, 0, f.edges, side)
		if err != nil {
			return nil, err
		}
		for _, p := range rings {
			ar.addTraced(p)
		}
	}
	ar.addRing(main.pts, main.src)
	return ar, nil
}

func (ar *arrangement) addTraced(p tracedPolygon) {
	ar.addRing(p.outer.pts, p.outer.src)
	for _, h := range p.holes {
		ar.addRing(h.pts, h.src)
	}
}

// lastRaw returns the index of the last raw point of vertex v.
func (o *offsetter) lastRaw(v int) int {
	next := (v + 1) % len(o.pts)
	return (o.mark[next] + len(o.raw) - 1) % len(o.raw)
}

// fan is a run of edges with deep points between them: the edges that leave
// points first, first+1, ... of the outline.
type fan struct{ first, edges int }

func (o *offsetter) fans() []fan {
	n := len(o.pts)
	start := -1 // a point that is not deep
	for i, d := range o.deep {
		if !d {
			start = i
			break
		}
	}
	var fs []fan
	if start < 0 {
		// All points are deep: cut the ring into two fans.
		if n < fanSize {
			return nil
		}
		return []fan{{0, n / 2}, {n / 2, n - n/2}}
	}
	for k := 0; k < n; {
		run := 1
		for k+run < n && o.deep[(start+k+run)%n] {
			run++
		}
		if run >= fanSize {
			fs = append(fs, fan{(start + k) % n, run})
		}
		k += run
	}
	return fs
}

// unite returns the union of the strips of edges lo to hi-1 of a fan.
func (o *offsetter) unite(f fan, lo, hi int, side int32) ([]tracedPolygon, error) {
	ar := arrangement{work: &o.work}
	if hi-lo <= 2 {
		ar.addTraced(tracedPolygon{outer: o.strips(f, lo, hi, side)})
	} else {
		mid := (lo + hi) / 2
		for _, part := range [2][2]int{{lo, mid}, {mid, hi}} {
			ps, err := o.unite(f, part[0], part[1], side)
			if err != nil {
				return nil, err
			}
			for _, p := range ps {
				ar.addTraced(p)
			}
		}
	}
	ps, err := ar.resolve(Positive)
	if err != nil {
		return nil, err
	}
	// Rounding leaves slivers between strips; they would pile up.
	kept := ps[:0]
	for _, p := range ps {
		if p.outer.pts.residue() {
			continue
		}
		holes := p.holes[:0]
		for _, h := range p.holes {
			if !h.pts.residue() {
				holes = append(holes, h)
			}
		}
		p.holes = holes
		kept = append(kept, p)
	}
	return kept, nil
}

// strips returns the closed curve round the strips of edges lo to hi-1: out at
// the first point, along the raw curve, in at the last point and back.
func (o *offsetter) strips(f fan, lo, hi int, side int32) tracedRing {
	n, m := len(o.pts), len(o.raw)
	var t tracedRing
	put := func(p Point, id int32) { t.pts, t.src = append(t.pts, p), append(t.src, id) }
	from, to := (f.first+lo)%n, (f.first+hi)%n
	for i := o.lastRaw(from); ; i = (i + 1) % m {
		if i == o.mark[to] {
			put(o.raw[i], side)
			break
		}
		put(o.raw[i], int32(i))
	}
	for e := hi; e >= lo; e-- {
		put(o.pts[(f.first+e)%n], side)
	}
	return t
}
