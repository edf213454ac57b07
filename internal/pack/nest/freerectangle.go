package nest

import "github.com/coverwright/coverwright/internal/geom"

// cellGrid is a ground cut into square cells, some of them free.
type cellGrid struct {
	at     geom.Point // the lower left corner of cell 0, 0
	cell   int64
	nx, ny int
	free   []bool
}

// corner is the lower left corner of a cell.
func (c *cellGrid) corner(x, y int) geom.Point {
	return geom.Pt(c.at.X+int64(x)*c.cell, c.at.Y+int64(y)*c.cell)
}

// around is the cells that a box may touch: from x0, y0 to before x1, y1.
func (c *cellGrid) around(b geom.Box) (x0, y0, x1, y1 int) {
	x0, x1 = int((b.Min.X-c.at.X)/c.cell)-1, int((b.Max.X-c.at.X)/c.cell)+2
	y0, y1 = int((b.Min.Y-c.at.Y)/c.cell)-1, int((b.Max.Y-c.at.Y)/c.cell)+2
	return max(x0, 0), max(y0, 0), min(x1, c.nx), min(y1, c.ny)
}

// inside sets the cells whose middle lies inside a ring.
func (c *cellGrid) inside(r geom.Ring, free bool) {
	x0, y0, x1, y1 := c.around(r.Bounds())
	for y := y0; y < y1; y++ {
		row := seenFrom(r, c.corner(0, y).Y+c.cell/2)
		for x := x0; x < x1; x++ {
			low := c.corner(x, y)
			if c.free[y*c.nx+x] != free && row.Locate(geom.Pt(low.X+c.cell/2, low.Y+c.cell/2)) == geom.Inside {
				c.free[y*c.nx+x] = free
			}
		}
	}
}

// strike takes the cells whose sides an edge of a ring meets.
func (c *cellGrid) strike(r geom.Ring) {
	for i, p := range r {
		edge := geom.Ring{p, r[(i+1)%len(r)]}
		x0, y0, x1, y1 := c.around(edge.Bounds())
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				low := c.corner(x, y)
				if c.free[y*c.nx+x] && meets(edge, geom.Box{Min: low, Max: geom.Pt(low.X+c.cell, low.Y+c.cell)}.Ring()) {
					c.free[y*c.nx+x] = false
				}
			}
		}
	}
}

// seenFrom is a ring without the corners between others of the same side of a
// level line: every point of the line lies to both alike.
func seenFrom(r geom.Ring, level int64) geom.Ring {
	var out geom.Ring
	before := r[len(r)-1].Y
	for i, p := range r {
		after := r[(i+1)%len(r)].Y
		above := before > level && p.Y > level && after > level
		below := before < level && p.Y < level && after < level
		if !above && !below {
			out = append(out, p)
		}
		before = p.Y
	}
	return out
}

// largest is the largest rectangle of free cells.
func (c *cellGrid) largest() (best Offcut, ok bool) {
	high := make([]int, c.nx+1) // free cells one above the other, ending in this row
	most := 0
	for y := range c.ny {
		for x := range c.nx {
			if c.free[y*c.nx+x] {
				high[x]++
			} else {
				high[x] = 0
			}
		}
		var stack []int
		for x := 0; x <= c.nx; x++ {
			for len(stack) > 0 && high[stack[len(stack)-1]] >= high[x] {
				top := stack[len(stack)-1]
				stack = stack[:len(stack)-1]
				left := 0
				if len(stack) > 0 {
					left = stack[len(stack)-1] + 1
				}
				if a := high[top] * (x - left); a > most {
					most = a
					best.Min, best.Max = c.corner(left, y-high[top]+1), c.corner(x, y+1)
				}
			}
			stack = append(stack, x)
		}
	}
	return best, most > 0
}

// freeRectangle is the largest rectangle on a grid of cells that holds no
// piece and nothing blocked for the strictest use.
func freeRectangle(g *ground, rings []geom.Ring, cells int) (Offcut, bool) {
	w, h := g.box.Max.X-g.box.Min.X, g.box.Max.Y-g.box.Min.Y
	c := cellGrid{at: g.box.Min, cell: max(max(w, h)/int64(cells), 1)}
	c.nx, c.ny = int(w/c.cell), int(h/c.cell)
	c.free = make([]bool, c.nx*c.ny)
	c.inside(g.outer, true)
	c.strike(g.outer)
	block := func(r geom.Ring) {
		c.strike(r)
		c.inside(r, false)
	}
	for _, r := range g.holes {
		block(r)
	}
	for _, z := range g.zones {
		block(z.Ring)
	}
	for _, r := range rings {
		block(r)
	}
	best, ok := c.largest()
	if ok {
		g.widen(&best, rings, c.cell)
	}
	return best, ok
}

// widen moves the sides of a free rectangle outwards, by up to a cell each,
// as far as whole-number tests allow.
func (g *ground) widen(o *Offcut, rings []geom.Ring, cell int64) {
	vacant := func(c Offcut) bool {
		r := geom.Box{Min: c.Min, Max: c.Max}.Ring()
		if !g.takes(r, -1) {
			return false
		}
		for _, p := range rings {
			if touches(r, p, 0) {
				return false
			}
		}
		return true
	}
	if !vacant(*o) {
		return
	}
	for step := max(cell/2, 1); ; step /= 2 {
		for side := range 4 {
			c := *o
			switch side {
			case 0:
				c.Min.X -= step
			case 1:
				c.Max.X += step
			case 2:
				c.Min.Y -= step
			default:
				c.Max.Y += step
			}
			if vacant(c) {
				*o = c
			}
		}
		if step == 1 {
			return
		}
	}
}
