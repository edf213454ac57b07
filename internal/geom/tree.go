package geom

// edge is a directed segment of a ring.
type edge struct{ a, b Point }

// boxTree is a binary tree of bounding boxes over a list of edges in ring
// order. Neighbours in a ring are neighbours in the plane, so the boxes of the
// upper levels overlap little for ordinary outlines and all queries are about
// logarithmic.
//
// Node k has children 2k+1 and 2k+2; level by level the nodes cover blocks of
// edges of equal size.
type boxTree struct {
	edges  []edge
	boxes  []Box
	leaves int  // number of leaf nodes, a power of two
	first  int  // index of the first leaf node
	work   *int // box tests left
}

// leafSize is the number of edges under one leaf.
const leafSize = 4

// treeWork bounds the box tests of one call: far more than any panel of 10,000
// vertices needs, small enough to end within seconds.
const treeWork = 1 << 26

// newBoxTree builds the tree; its queries stop when work reaches zero.
func newBoxTree(edges []edge, work *int) *boxTree {
	t := &boxTree{edges: edges, leaves: 1, work: work}
	for t.leaves*leafSize < len(edges) {
		t.leaves *= 2
	}
	t.first = t.leaves - 1
	t.boxes = make([]Box, t.first+t.leaves)
	for i := range t.leaves {
		lo, hi := t.span(t.first + i)
		if lo >= hi {
			t.boxes[t.first+i] = emptyBox
			continue
		}
		b := boxOf(edges[lo].a, edges[lo].b)
		for _, e := range edges[lo+1 : hi] {
			b = b.Union(boxOf(e.a, e.b))
		}
		t.boxes[t.first+i] = b
	}
	for k := t.first - 1; k >= 0; k-- {
		t.boxes[k] = t.boxes[2*k+1].Union(t.boxes[2*k+2])
	}
	return t
}

// emptyBox overlaps nothing and adds nothing to a union.
var emptyBox = Box{Point{1 << 62, 1 << 62}, Point{-1 << 62, -1 << 62}}

// span returns the edges [lo, hi) under leaf node k.
func (t *boxTree) span(k int) (lo, hi int) {
	lo = min((k-t.first)*leafSize, len(t.edges))
	return lo, min(lo+leafSize, len(t.edges))
}

// pairs calls f for every pair of different edges (i < j) whose boxes share a
// point. It reports false when the work limit was reached or f said stop.
func (t *boxTree) pairs(f func(i, j int) bool) bool { return t.self(0, f) }

func (t *boxTree) self(k int, f func(i, j int) bool) bool {
	if k < t.first {
		return t.self(2*k+1, f) && t.cross(2*k+1, 2*k+2, f) && t.self(2*k+2, f)
	}
	lo, hi := t.span(k)
	*t.work -= leafSize * leafSize / 2
	for i := lo; i < hi; i++ {
		bi := boxOf(t.edges[i].a, t.edges[i].b)
		for j := i + 1; j < hi; j++ {
			if bi.Overlaps(boxOf(t.edges[j].a, t.edges[j].b)) && !f(i, j) {
				return false
			}
		}
	}
	return *t.work > 0
}

// cross handles two different nodes of the same level, k before l.
func (t *boxTree) cross(k, l int, f func(i, j int) bool) bool {
	*t.work--
	if *t.work <= 0 {
		return false
	}
	if !t.boxes[k].Overlaps(t.boxes[l]) {
		return true
	}
	if k < t.first {
		return t.cross(2*k+1, 2*l+1, f) && t.cross(2*k+1, 2*l+2, f) &&
			t.cross(2*k+2, 2*l+1, f) && t.cross(2*k+2, 2*l+2, f)
	}
	lo, hi := t.span(k)
	lo2, hi2 := t.span(l)
	*t.work -= leafSize * leafSize
	for i := lo; i < hi; i++ {
		bi := boxOf(t.edges[i].a, t.edges[i].b)
		if !bi.Overlaps(t.boxes[l]) {
			continue
		}
		for j := lo2; j < hi2; j++ {
			if bi.Overlaps(boxOf(t.edges[j].a, t.edges[j].b)) && !f(i, j) {
				return false
			}
		}
	}
	return true
}

// at calls f for every edge whose box contains p. It reports false when the
// work limit was reached.
func (t *boxTree) at(p Point, f func(i int)) bool { return t.atNode(0, p, f) }

func (t *boxTree) atNode(k int, p Point, f func(i int)) bool {
	*t.work--
	if *t.work <= 0 {
		return false
	}
	if !t.boxes[k].Contains(p) {
		return true
	}
	if k < t.first {
		return t.atNode(2*k+1, p, f) && t.atNode(2*k+2, p, f)
	}
	lo, hi := t.span(k)
	*t.work -= leafSize
	for i := lo; i < hi; i++ {
		if boxOf(t.edges[i].a, t.edges[i].b).Contains(p) {
			f(i)
		}
	}
	return true
}
