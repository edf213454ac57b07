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

// clustering is a job while its boxes are joined.
type clustering struct {
	width, limit int64
	boxes        []box
	all          []cluster
	gone         []bool            // by cluster: joined into another
	byW, byH     map[int64][]int32 // clusters left, by width and by height
	ready        []side            // lengths that occurred at least twice, in the order they came up
	rng          *rnd
}

// clusters joins up to most pairs whose common side occurs at most rare times. Only boxes that must not turn are
// joined. It returns early when stopped. It returns all clusters made and which of them are left as boxes to lay.
func clusters(width, limit int64, boxes []box, most, rare int, rng *rnd, stopped func() bool) (all []cluster, left []int32) {
	c := &clustering{width: width, limit: limit, boxes: boxes, byW: map[int64][]int32{}, byH: map[int64][]int32{}, rng: rng}
	for i, b := range boxes {
		c.put(cluster{b.w, b.h, int32(i), -1, false})
	}
	for n := 0; most > 0 && len(c.ready) > 0; n++ {
		if n&255 == 255 && stopped() {
			break
		}
		at, count := c.rarest()
		if at < 0 || count > rare { // drop the sides that are used up
			c.ready = slices.DeleteFunc(c.ready, func(s side) bool {
				n := len(c.having(s))
				return n < 2 || n > rare
			})
			continue
		}
		if c.join(at) {
			most--
		}
	}
	for i := range c.all {
		if !c.gone[i] {
			left = append(left, int32(i))
		}
	}
	return c.all, left
}

// put adds a cluster.
func (c *clustering) put(n cluster) {
	id := int32(len(c.all))
	c.all, c.gone = append(c.all, n), append(c.gone, false)
	if n.b < 0 && c.boxes[n.a].turn {
		return
	}
	c.byW[n.w] = append(c.byW[n.w], id)
	c.byH[n.h] = append(c.byH[n.h], id)
	for _, s := range []side{{n.w, false}, {n.h, true}} {
		if len(c.having(s)) >= 2 {
			c.ready = append(c.ready, s)
		}
	}
}

// drop takes a cluster out.
func (c *clustering) drop(id int32) {
	c.gone[id] = true
	n := &c.all[id]
	del := func(m map[int64][]int32, v int64) {
		if at := slices.Index(m[v], id); at >= 0 {
			m[v] = slices.Delete(m[v], at, at+1)
		}
	}
	del(c.byW, n.w)
	del(c.byH, n.h)
}

// rarest is the place in ready of the rarest of a few random sides, -1 if none of them occurs twice.
func (c *clustering) rarest() (at, count int) {
	at = -1
	for range 6 {
		k := c.rng.intn(len(c.ready))
		if n := len(c.having(c.ready[k])); n >= 2 && (at < 0 || n < count) {
			at, count = k, n
		}
	}
	return at, count
}

// join makes one of two random clusters with a side; if that is too large the side is given up.
func (c *clustering) join(at int) bool {
	s := c.ready[at]
	ids := c.having(s)
	i := c.rng.intn(len(ids))
	j := c.rng.intn(len(ids) - 1)
	if j >= i {
		j++
	}
	n := cluster{a: ids[i], b: ids[j], beside: s.high}
	a, b := &c.all[n.a], &c.all[n.b]
	if s.high {
		n.w, n.h = a.w+b.w, s.v
	} else {
		n.w, n.h = s.v, a.h+b.h
	}
	if n.w > c.width || n.h > c.limit {
		c.ready[at] = c.ready[len(c.ready)-1]
		c.ready = c.ready[:len(c.ready)-1]
		return false
	}
	c.drop(n.a)
	c.drop(n.b)
	c.put(n)
	return true
}

// having lists the clusters with a side.
func (c *clustering) having(s side) []int32 {
	if s.high {
		return c.byH[s.v]
	}
	return c.byW[s.v]
}

// side is a length shared by boxes: their height or their width.
type side struct {
	v    int64
	high bool
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
	all, ids := clusters(w.p.width, h, w.p.boxes, most, rare, rng, w.stopped)
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
