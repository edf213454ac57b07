package nest

import (
	"fmt"
	"slices"
	"sync/atomic"

	"github.com/coverwright/coverwright/internal/geom"
)

// shape is one outline in one orientation, moved so that its box starts
// at (0, 0).
type shape struct {
	ring   geom.Ring
	parts  []geom.Ring
	w, h   int64
	shift  geom.Point // from the turned ring to ring
	angle  Angle
	mirror bool
	anchor geom.Point // match point in the coordinates of ring
	half   int        // the shape half a turn away, -1 if there is none
}

// kind is a piece with its orientations as indices into catalogue.shapes.
// Orientations of the same outline share a shape.
type kind struct {
	piece  int
	shapes []int
	// turn per entry of shapes; equal outlines keep the first angle.
	area2   int64
	hull2   int64
	minSide int64
}

// catalogue holds the shapes of a job with fixed orientations and the
// pair tables, built when first asked for. Building is a pure function of
// the two shapes, so two workers may build the same table.
type catalogue struct {
	shapes []*shape
	kinds  []kind
	items  []int // kind of every single piece
	copyOf []int // copy number of every single piece
	tables []atomic.Pointer[pairTable]
	gap    int64
	cells  int
}

func newShape(r geom.Ring, anchor geom.Point, a Angle, mirror bool) *shape {
	t := turned(r, a, mirror)
	b := t.Bounds()
	s := &shape{ring: t.Translate(geom.Pt(-b.Min.X, -b.Min.Y)), w: b.Max.X - b.Min.X, h: b.Max.Y - b.Min.Y,
		shift: geom.Pt(-b.Min.X, -b.Min.Y), angle: a, mirror: mirror}
	at := turned(geom.Ring{anchor}, a, mirror)[0]
	s.anchor = geom.Pt(at.X-b.Min.X, at.Y-b.Min.Y)
	return s
}

// newCatalogue returns false if an outline is not simple enough for pair
// tables.
func newCatalogue(pieces []Piece, gap int64) (*catalogue, bool) {
	c := &catalogue{gap: gap}
	seen := make(map[string]int)
	for pi := range pieces {
		p := &pieces[pi]
		k := kind{piece: pi, area2: twiceArea(p.Ring), hull2: twiceArea(geom.Hull(p.Ring)), minSide: -1}
		phased := p.PhaseX.Every > 0 || p.PhaseY.Every > 0
		for _, mirror := range mirrors(p.Mirror) {
			for _, a := range p.Turn.list() {
				s := newShape(p.Ring, p.Anchor, a, mirror)
				key := fmt.Sprint(s.ring.Normal())
				if phased {
					key += fmt.Sprint("@", s.anchor)
				}
				id, old := seen[key]
				if old && slices.ContainsFunc(k.shapes, func(o int) bool { return o == id }) {
					continue
				}
				// The angle belongs to the piece, so only orientations of
				// the same piece may share; tables are shared by outline.
				if old {
					s.parts = c.shapes[id].parts
				} else {
					parts, ok := convexParts(s.ring)
					if !ok || len(parts) > maxParts {
						return nil, false
					}
					s.parts = parts
				}
				if old && c.shapes[id].angle == s.angle && c.shapes[id].mirror == s.mirror && c.shapes[id].shift == s.shift {
					k.shapes = append(k.shapes, id)
					continue
				}
				seen[key] = len(c.shapes)
				k.shapes = append(k.shapes, len(c.shapes))
				c.shapes = append(c.shapes, s)
			}
		}
		for _, si := range k.shapes {
			m := min(c.shapes[si].w, c.shapes[si].h)
			if k.minSide < 0 || m < k.minSide {
				k.minSide = m
			}
		}
		c.kinds = append(c.kinds, k)
		for n := range p.Count {
			c.items = append(c.items, len(c.kinds)-1)
			c.copyOf = append(c.copyOf, n)
		}
	}
	c.pairHalves()
	n := len(c.shapes)
	c.tables = make([]atomic.Pointer[pairTable], n*(n+1)/2)
	c.cells = 48
	if n > 160 {
		c.cells = 32
	}
	if n > 300 {
		c.cells = 24
	}
	return c, true
}

func mirrors(m Mirroring) []bool {
	switch m {
	case MayMirror:
		return []bool{false, true}
	case AlwaysMirrored:
		return []bool{true}
	}
	return []bool{false}
}

// lookup finds, among the four pairs of shapes that answer the same
// question, the one with the smallest numbers.
func (c *catalogue) lookup(a, b int) lookup {
	lo, hi, l := a, b, lookup{flip: 1}
	better := func(x, y int, m lookup) {
		if x <= y && (lo > hi || x < lo || (x == lo && y < hi)) {
			lo, hi, l = x, y, m
		}
	}
	better(b, a, lookup{flip: -1})
	if ha, hb := c.shapes[a].half, c.shapes[b].half; ha >= 0 && hb >= 0 {
		ox, oy := c.shapes[a].w-c.shapes[b].w, c.shapes[a].h-c.shapes[b].h
		better(ha, hb, lookup{flip: -1, ox: ox, oy: oy})
		better(hb, ha, lookup{flip: 1, ox: -ox, oy: -oy})
	}
	l.t = c.table(lo, hi)
	return l
}

// pairHalves finds the shapes that are half a turn apart.
func (c *catalogue) pairHalves() {
	at := make(map[string]int, len(c.shapes))
	for i, s := range c.shapes {
		k := fmt.Sprint(s.ring.Normal())
		if _, old := at[k]; !old {
			at[k] = i
		}
	}
	for _, s := range c.shapes {
		r := make(geom.Ring, len(s.ring))
		for k, p := range s.ring {
			r[k] = geom.Pt(s.w-p.X, s.h-p.Y)
		}
		s.half = -1
		if i, ok := at[fmt.Sprint(r.Normal())]; ok {
			s.half = i
		}
	}
}

// tableWork estimates the steps it takes to build all tables.
func (c *catalogue) tableWork() int64 {
	var parts, n int64
	for _, s := range c.shapes {
		parts += int64(len(s.parts))
		n++
	}
	return parts*parts/2*250 + n*n/2*2000
}

// table returns the table for shapes a <= b.
func (c *catalogue) table(a, b int) *pairTable {
	p := &c.tables[b*(b+1)/2+a]
	if t := p.Load(); t != nil {
		return t
	}
	t := newPairTable(c.shapes[a], c.shapes[b], c.gap, c.cells)
	p.Store(t)
	return t
}
