package rect

import "slices"

// Boxes that share a side exactly may be neighbours in a layout without waste, the more likely the rarer that side is.
// Clustering joins such pairs into one box, again and again, and leaves a job of fewer and larger boxes. What was cut
// from one rectangle by edge-to-edge cuts can be put together this way like a puzzle. Which pairs are joined is partly
// chance; a cluster that does not fit the rest costs one beam.

// cluster is a box made of two others, or of one box of the job.
type cluster struct {
	w, h   int64
	a, b   int32 // clusters it is made of; for a single box a is its index and b is -1
	beside bool  // a is left of b, otherwise below it
}

// clusters joins up to most pairs whose common side occurs at most rare times. Only boxes that must not turn are
// joined. It returns all clusters made and which of them are left as boxes to lay.
func clusters(width, limit int64, boxes []box, most, rare int, rng *rnd) (all []cluster, left []int32) {
	byW, byH := map[int64][]int32{}, map[int64][]int32{}
	gone := make([]bool, len(boxes), 2*len(boxes))
	// values that occur at least twice, in the order they came up; a stack of work
	var ready []side
	put := func(id int32) {
		c := &all[id]
		if c.b < 0 && boxes[c.a].turn {
			return
		}
		byW[c.w] = append(byW[c.w], id)
		byH[c.h] = append(byH[c.h], id)
		if len(byW[c.w]) >= 2 {
			ready = append(ready, side{c.w, false})
		}
		if len(byH[c.h]) >= 2 {
			ready = append(ready, side{c.h, true})
		}
	}
	for i, b := range boxes {
		all = append(all, cluster{b.w, b.h, int32(i), -1, false})
		put(int32(i))
	}
	drop := func(id int32) {
		gone[id] = true
		c := &all[id]
		del := func(m map[int64][]int32, v int64) {
			if at := slices.Index(m[v], id); at >= 0 {
				m[v] = slices.Delete(m[v], at, at+1)
			}
		}
		del(byW, c.w)
		del(byH, c.h)
	}
	for most > 0 && len(ready) > 0 {
		// of a few random sides take the rarest
		at, count := -1, 0
		for range 6 {
			k := rng.intn(len(ready))
			n := len(ready[k].in(byW, byH))
			if n < 2 {
				continue
			}
			if at < 0 || n < count {
				at, count = k, n
			}
		}
		if at < 0 || count > rare {
			// drop the sides that are used up
			ready = slices.DeleteFunc(ready, func(s side) bool {
				n := len(s.in(byW, byH))
				return n < 2 || n > rare
			})
			continue
		}
		s := ready[at]
		ids := s.in(byW, byH)
		i := rng.intn(len(ids))
		j := rng.intn(len(ids) - 1)
		if j >= i {
			j++
		}
		a, b := ids[i], ids[j]
		c := cluster{a: a, b: b, beside: s.high}
		if s.high {
			c.w, c.h = all[a].w+all[b].w, s.v
		} else {
			c.w, c.h = s.v, all[a].h+all[b].h
		}
		if c.w > width || c.h > limit {
			ready[at] = ready[len(ready)-1]
			ready = ready[:len(ready)-1]
			continue
		}
		drop(a)
		drop(b)
		all = append(all, c)
		gone = append(gone, false)
		put(int32(len(all) - 1))
		most--
	}
	for i := range all {
		if !gone[i] {
			left = append(left, int32(i))
		}
	}
	return all, left
}

// side is a length shared by boxes: their height or their width.
type side struct {
	v    int64
	high bool
}

func (s side) in(byW, byH map[int64][]int32) []int32 {
	if s.high {
		return byH[s.v]
	}
	return byW[s.v]
}

// unfold places the boxes of a cluster.
func unfold(all []cluster, id int32, at spot, out []spot) {
	c := &all[id]
	if c.b < 0 {
		out[c.a] = at
		return
	}
	unfold(all, c.a, at, out)
	if c.beside {
		at.x += all[c.a].w
	} else {
		at.y += all[c.a].h
	}
	unfold(all, c.b, at, out)
}

// puzzle runs one beam on clustered boxes.
func (w *plainWorker) puzzle(left int64) {
	n := len(w.p.boxes)
	rng := &w.rng
	gap := w.best - w.p.bound
	h := max(w.p.bound, w.best-max(w.minStep(), gap/int64(2+rng.intn(8))))
	if rng.intn(4) == 0 {
		h = w.p.bound
	}
	most := n
	if k := rng.intn(4); k > 0 {
		most = max(1, n/(4*k))
	}
	rare := 2 + rng.intn(3)
	if w.p.fine || rng.intn(4) == 0 {
		rare = n
	}
	all, ids := clusters(w.p.width, h, w.p.boxes, most, rare, rng)
	w.bm.units += int64(1000 + 500*n)
	boxes := make([]box, len(ids))
	for i, id := range ids {
		boxes[i] = box{all[id].w, all[id].h, all[id].b < 0 && w.p.boxes[all[id].a].turn}
	}
	g := w.randomGuide()
	size := 8 << rng.intn(4)
	width, limit := w.p.width, h
	across := rng.intn(2) == 0
	if across {
		for i, b := range boxes {
			boxes[i] = box{b.h, b.w, b.turn}
		}
		width, limit = limit, width
	}
	bm := newBeam(width, boxes, rng.next())
	got, ok := bm.search(limit, size, g, left, w.stopped)
	w.bm.units += bm.units
	if !ok {
		return
	}
	spots := make([]spot, n)
	for i, s := range got {
		if across {
			s.x, s.y = s.y, s.x
		}
		unfold(all, ids[i], s, spots)
	}
	if top := heightOf(w.p.boxes, spots); top < w.best {
		w.better(top, spots)
	}
}
