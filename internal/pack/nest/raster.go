package nest

import (
	"cmp"
	"context"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// rasterFit places pieces one by one on bit maps: largest first, hide by
// hide, leftmost and then lowest over a set of angles. Pieces are drawn
// outwards and free ground inwards, so every place found is legal; the
// exact test confirms it.
type rasterFit struct {
	s     *turnSep
	cell  float64
	turns int // angles tried where every angle is allowed
	maps  map[[2]int]*bitmap
	taken map[int]*bitmap
	masks map[maskKey]*mask
	seen  map[seenKey]int // first place not tried in vain, in the order of the scan
	rings [][]geom.Ring   // placed outlines per ground
	ctx   context.Context
	most  int64 // work after which the pieces are left over
}

// over tells that the other pieces are to be left over.
func (r *rasterFit) over() bool { return r.s.work >= r.most || r.ctx.Err() != nil }

// seenKey is a drawn piece on a ground. What has no place for it gets none later:
// grounds only fill up.
type seenKey struct {
	mask maskKey
	g    int
}

type bitmap struct {
	w, h, words int
	x0, y0      float64 // centre of cell (0, 0)
	bits        []uint64
}

func (b *bitmap) set(x, y int) { b.bits[y*b.words+x>>6] |= 1 << (x & 63) }

type maskKey struct {
	body     int
	a        Angle
	mirrored bool
}

// mask is a drawn piece; its centre is the middle of cell (cx, cy).
type mask struct {
	bitmap
	cx, cy int
	rows   []int // rows in the order they are tested
}

func newRasterFit(ctx context.Context, s *turnSep, cells, turns int) *rasterFit {
	span := 0.0
	for _, g := range s.grounds {
		span = max(span, float64(g.box.Max.X-g.box.Min.X), float64(g.box.Max.Y-g.box.Min.Y))
	}
	return &rasterFit{s: s, cell: math.Ceil(span / float64(cells)), turns: turns, maps: make(map[[2]int]*bitmap), taken: make(map[int]*bitmap),
		masks: make(map[maskKey]*mask), seen: make(map[seenKey]int), rings: make([][]geom.Ring, len(s.grounds)), ctx: ctx, most: math.MaxInt64}
}

// ground draws what is blocked for a class.
func (r *rasterFit) ground(g, class int) *bitmap {
	if m := r.maps[[2]int{g, class}]; m != nil {
		return m
	}
	gr := r.s.grounds[g]
	l := r.s.land(g, class)
	m := r.blank(gr)
	r.s.work += int64(m.w*m.h) / 2
	for y := range m.h {
		for x := range m.w {
			px, py := m.x0+float64(float64(x)*r.cell), m.y0+float64(float64(y)*r.cell)
			d := max(px-float64(gr.box.Max.X), float64(gr.box.Min.X)-px, py-float64(gr.box.Max.Y), float64(gr.box.Min.Y)-py)
			if l.f != nil {
				d = max(d, l.f.at(px, py))
			}
			if d > -0.75*r.cell {
				m.set(x, y)
			}
		}
	}
	r.maps[[2]int{g, class}] = m
	return m
}

func (r *rasterFit) blank(g *ground) *bitmap {
	m := &bitmap{x0: float64(g.box.Min.X) + math.Round(r.cell/2), y0: float64(g.box.Min.Y) + math.Round(r.cell/2)}
	m.w = int(float64(g.box.Max.X-g.box.Min.X)/r.cell) + 1
	m.h = int(float64(g.box.Max.Y-g.box.Min.Y)/r.cell) + 1
	m.words = (m.w + 63) / 64
	m.bits = make([]uint64, m.words*m.h)
	return m
}

// mask draws a piece; nil if it is larger than the ground it should lie on.
func (r *rasterFit) mask(bi int, a Angle, mirrored bool, on *bitmap) *mask {
	key := maskKey{bi, a, mirrored}
	if m := r.masks[key]; m != nil {
		return m
	}
	b := r.s.bodies[bi]
	ring, _ := b.ringAt(0, 0, a, mirrored)
	bx := ring.Bounds()
	grow := float64(0.75*r.cell) + r.s.gap/2 + 1
	m := &mask{}
	m.cx = int(math.Ceil((grow-float64(bx.Min.X))/r.cell)) + 1
	m.cy = int(math.Ceil((grow-float64(bx.Min.Y))/r.cell)) + 1
	m.w = m.cx + int(math.Ceil((grow+float64(bx.Max.X))/r.cell)) + 2
	m.h = m.cy + int(math.Ceil((grow+float64(bx.Max.Y))/r.cell)) + 2
	if m.w > on.w || m.h > on.h {
		return nil
	}
	m.words = (m.w + 63) / 64
	m.bits = make([]uint64, m.words*m.h)
	sn, cs := a.sincos()
	r.s.work += int64(m.w*m.h) / 2
	for y := range m.h {
		for x := range m.w {
			dx, dy := float64(x-m.cx)*r.cell, float64(y-m.cy)*r.cell
			lx, ly := float64(dx*cs)+float64(dy*sn), float64(dy*cs)-float64(dx*sn)
			if mirrored {
				lx = -lx
			}
			if b.f.at(lx, ly) > -grow {
				m.set(x, y)
			}
		}
	}
	// Middle row first, then the ends, then the rest: fails early.
	m.rows = append(m.rows, m.cy, m.h/4, 3*m.h/4)
	for y := range m.h {
		m.rows = append(m.rows, y)
	}
	r.masks[key] = m
	return m
}

// free reports whether the mask fits with its corner at cell (x, y).
func (m *mask) free(blocked, taken *bitmap, x, y int) bool {
	sh := uint(x & 63)
	for _, row := range m.rows {
		src := m.bits[row*m.words : (row+1)*m.words]
		at := (y + row) * blocked.words
		for k, v := range src {
			if v == 0 {
				continue
			}
			q := at + x>>6 + k
			if (blocked.bits[q]|taken.bits[q])&(v<<sh) != 0 {
				return false
			}
			if hi := v >> (64 - sh); sh > 0 && hi != 0 {
				if (x>>6)+k+1 >= blocked.words || (blocked.bits[q+1]|taken.bits[q+1])&hi != 0 {
					return false
				}
			}
		}
	}
	return true
}

func (m *mask) draw(taken *bitmap, x, y int) {
	for row := range m.h {
		for c := range m.w {
			if m.bits[row*m.words+c>>6]>>(c&63)&1 != 0 {
				taken.set(x+c, y+row)
			}
		}
	}
}

// orientations lists what the raster tries for a body.
func (r *rasterFit) orientations(b *body) []pose {
	var angles []Angle
	if b.turn.any {
		for k := range r.turns {
			angles = append(angles, fullTurn/Angle(r.turns)*Angle(k))
		}
	} else {
		angles = b.turn.list()
	}
	var out []pose
	for _, m := range mirrors(b.mirror) {
		for _, a := range angles {
			out = append(out, pose{a: a, mirrored: m})
		}
	}
	return out
}

// place puts piece i on ground g if the raster finds room.
func (r *rasterFit) place(i, g int) bool {
	s := r.s
	bi := s.items[i]
	b := s.bodies[bi]
	gr := s.grounds[g]
	blocked := r.ground(g, b.class)
	taken := r.taken[g]
	if taken == nil {
		taken = r.blank(gr)
		r.taken[g] = taken
	}
	bestX, bestY := math.MaxInt, math.MaxInt
	var best pose
	var bestMask *mask
	for _, o := range r.orientations(b) {
		if r.over() {
			return false
		}
		m := r.mask(bi, o.a, o.mirrored, blocked)
		if m == nil {
			continue
		}
		key := seenKey{maskKey{bi, o.a, o.mirrored}, g}
		at, rows := r.seen[key], blocked.h-m.h+1
		for ; at/rows <= blocked.w-m.w; at++ {
			x, y := at/rows, at%rows
			if x > bestX || x == bestX && y >= bestY {
				break
			}
			if s.work&0xfff == 0 && r.over() {
				break
			}
			if s.work++; !m.free(blocked, taken, x, y) {
				continue
			}
			p := pose{g, blocked.x0 + float64(float64(x+m.cx)*r.cell), blocked.y0 + float64(float64(y+m.cy)*r.cell), o.a, o.mirrored}
			if s.work += 20; !r.legal(i, p) {
				continue
			}
			bestX, bestY, best, bestMask = x, y, p, m
			break
		}
		r.seen[key] = at
	}
	if bestMask == nil {
		return false
	}
	s.put(i, best)
	bestMask.draw(taken, bestX, bestY)
	ring, _ := b.ringAt(int64(best.x), int64(best.y), best.a, best.mirrored)
	r.rings[g] = append(r.rings[g], ring)
	return true
}

func (r *rasterFit) legal(i int, p pose) bool {
	b := r.s.bodies[r.s.items[i]]
	ring, _ := b.ringAt(int64(p.x), int64(p.y), p.a, p.mirrored)
	if !r.s.grounds[p.g].takes(ring, b.class) || !b.keeps(ring, p.a) {
		return false
	}
	for _, o := range r.rings[p.g] {
		if touches(ring, o, int64(r.s.gap)) {
			return false
		}
	}
	return true
}

// fill places all pieces on the grounds in the given order and returns the
// pieces without a place.
func (r *rasterFit) fill(grounds []int) (left []int) {
	s := r.s
	order := make([]int, s.n)
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		if c := cmp.Compare(s.bodies[s.items[b]].area2, s.bodies[s.items[a]].area2); c != 0 {
			return c
		}
		return a - b
	})
	type stuck struct{ body, g int }
	full := make(map[stuck]bool) // an equal piece found no room there
	for _, i := range order {
		done := false
		for _, g := range grounds {
			if full[stuck{s.items[i], g}] {
				continue
			}
			if r.place(i, g) {
				done = true
				break
			}
			full[stuck{s.items[i], g}] = true
		}
		if !done {
			left = append(left, i)
		}
	}
	return left
}
