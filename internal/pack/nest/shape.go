package nest

import (
	"context"
	"fmt"
	"slices"
	"sync"

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
	boxy   bool       // it fills most of its box
}

// mostOfBox is the share of its box from which a shape is looked for a place as if it
// were that box: more than round panels have, less than most tapered and crowned ones.
const mostOfBox = 0.88

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
// pair tables, each built once, when it is first asked for.
type catalogue struct {
	shapes []*shape
	kinds  []kind
	items  []int // kind of every single piece
	copyOf []int // copy number of every single piece
	tables []tableSlot
	spare  sync.Pool // of table builders
	gap    int64
	cells  int      // along the longer side of a table
	setup  int64    // steps it took to cut the outlines into parts
	paid   [][]bool // by worker and table: its work is counted
}

// tableSlot is the place of a table.
type tableSlot struct {
	once sync.Once
	t    *pairTable
}

func newShape(r geom.Ring, anchor geom.Point, a Angle, mirror bool) *shape {
	t := turned(r, a, mirror)
	b := t.Bounds()
	s := &shape{ring: t.Translate(geom.Pt(-b.Min.X, -b.Min.Y)), w: b.Max.X - b.Min.X, h: b.Max.Y - b.Min.Y,
		shift: geom.Pt(-b.Min.X, -b.Min.Y), angle: a, mirror: mirror}
	at := turned(geom.Ring{anchor}, a, mirror)[0]
	s.anchor = geom.Pt(at.X-b.Min.X, at.Y-b.Min.Y)
	s.boxy = float64(twiceArea(t)) >= 2*mostOfBox*float64(s.w)*float64(s.h)
	return s
}

// newCatalogue returns false if an outline is not simple enough for pair
// tables. When the context ends the shapes get no parts, and no table may be asked
// for.
func newCatalogue(ctx context.Context, pieces []Piece, gap int64) (*catalogue, bool) {
	c := &catalogue{gap: gap, cells: grids[0]}
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
				} else if ctx.Err() == nil {
					parts, ok := convexParts(s.ring)
					if !ok || len(parts) > maxParts {
						return nil, false
					}
					s.parts = parts
					if c.setup += int64(len(s.ring)); len(parts) > 1 {
						c.setup += int64(len(s.ring)) * int64(len(s.ring)) / 4
					}
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
	c.tables = make([]tableSlot, n*(n+1)/2)
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

// lookup leads from the displacement d of one shape from another to their table
// and the place in it, flip*d + (px, py) from its corner. What nearly every answer
// takes of the table stands here too: 64 bytes in all.
type lookup struct {
	t      *pairTable
	cells  []tableCell
	px, py int64
	nx, ny int32
	shift  uint8
	flip   int8
}

// lookup finds, among the four pairs of shapes that answer the same
// question, the one with the smallest numbers, and which table it is. Turning both
// shapes by half a turn, or exchanging them, leads to the same table.
func (c *catalogue) lookup(a, b int) (l lookup, table int) {
	lo, hi := a, b
	l.flip = 1
	better := func(x, y int, m lookup) {
		if x <= y && (lo > hi || x < lo || (x == lo && y < hi)) {
			lo, hi, l = x, y, m
		}
	}
	better(b, a, lookup{flip: -1})
	if ha, hb := c.shapes[a].half, c.shapes[b].half; ha >= 0 && hb >= 0 {
		ox, oy := c.shapes[a].w-c.shapes[b].w, c.shapes[a].h-c.shapes[b].h
		better(ha, hb, lookup{flip: -1, px: ox, py: oy})
		better(hb, ha, lookup{flip: 1, px: -ox, py: -oy})
	}
	t := c.table(lo, hi)
	l.t, l.cells, l.nx, l.ny, l.shift = t, t.cells, t.nx, t.ny, uint8(t.shift)
	l.px, l.py = l.px-t.x0, l.py-t.y0
	return l, hi*(hi+1)/2 + lo
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

// grids are the numbers of cells along a table from which a job takes the largest
// that it can pay for and hold. Coarse cells cost depth inside, never a fit.
var grids = []int{32, 24, 16, 12, 8}

// Limits of all tables of a job together: mostTableBytes of memory, a quarter of the
// work there is, if a coarser grid takes less. Beyond patientTables steps, and half of
// the work, maps serve better than the coarsest.
const (
	mostTableBytes = 96 << 20
	patientTables  = 50_000_000
)

// setGrid chooses the grid for an amount of work of all searches. It tells whether the
// tables can be held, and whether that work pays for them.
func (c *catalogue) setGrid(budget int64) (held, paid bool) {
	old := c.cells
	defer func() {
		if c.cells != old {
			c.tables, c.paid = make([]tableSlot, len(c.tables)), nil
		}
	}()
	for _, g := range grids {
		c.cells = g
		if work, size := c.tableCost(int64(g)); size <= mostTableBytes && work <= budget/4 {
			return true, true
		}
	}
	work, size := c.tableCost(int64(c.cells))
	return size <= mostTableBytes, work <= max(budget/2, patientTables)
}

// paidBy notes for which tables a worker has counted the work, in any stage.
func (c *catalogue) paidBy(worker int) []bool {
	for len(c.paid) <= worker {
		c.paid = append(c.paid, make([]bool, len(c.tables)))
	}
	return c.paid[worker]
}

// tableCost estimates the steps it takes to build all tables of a grid, and their
// bytes.
func (c *catalogue) tableCost(cells int64) (work, size int64) {
	var n, parts, edges, halves int64
	for i, s := range c.shapes {
		n++
		parts += int64(len(s.parts))
		for _, p := range s.parts {
			edges += int64(len(p))
		}
		if s.half >= 0 && s.half != i {
			halves++
		}
	}
	pairs := n * (n + 1) / 2
	// Of each pair of shapes the grid, of each pair of parts a border through it, of
	// each edge a half-plane in a cell or two.
	work = pairs*2*cells*cells + parts*parts*cells + 5*parts*edges
	size = pairs*(4*cells*cells+200) + 24*(n*parts*cells+parts*edges*5/4)
	if 2*halves > n { // most tables serve two pairs
		work, size = work/2, size/2
	}
	return work, size
}

// table returns the table for shapes a <= b.
func (c *catalogue) table(a, b int) *pairTable {
	slot := &c.tables[b*(b+1)/2+a]
	slot.once.Do(func() {
		builder, ok := c.spare.Get().(*tableBuilder)
		if !ok {
			builder = new(tableBuilder)
		}
		slot.t = builder.table(c.shapes[a], c.shapes[b], c.gap, c.cells)
		c.spare.Put(builder)
	})
	return slot.t
}
