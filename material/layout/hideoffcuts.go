package layout

import (
	"context"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// offcutCells is how many squares the longer side of a hide is divided into to
// look for clear rectangles.
const offcutCells = 400

// mostOffcuts bounds the rectangles listed for a hide.
const mostOffcuts = 12

// hideOffcuts lists clear rectangles of the hides in use, parallel to the backbone,
// largest first, none overlapping another: off holes, marks of any severity and
// pieces. Grades do not count. When the context ends the hides not looked at have none.
func (p Plan) hideOffcuts(ctx context.Context, t *hideTable, short, long unit.Length) []Offcut {
	if short > long {
		short, long = long, short
	}
	var out []Offcut
	for _, i := range p.Used {
		if ctx.Err() != nil {
			break
		}
		r := newRaster(t.ground[i].outer)
		for _, h := range t.ground[i].holes {
			r.block(h)
		}
		for _, q := range t.ground[i].regions {
			if q.mark != material.NoMark {
				r.block(q.ring)
			}
		}
		for _, q := range p.On(i) {
			ring, _ := exactSteps(q.Outline)
			r.block(ring)
		}
		for range mostOffcuts {
			x0, y0, x1, y1, ok := r.largest(int(short), int(long))
			if !ok {
				break
			}
			out = append(out, Offcut{Hide: i, X: r.at(r.x0, x0), Y: r.at(r.y0, y0),
				Width: r.at(0, x1-x0), Length: r.at(0, y1-y0)})
			r.take(x0, y0, x1, y1)
		}
	}
	return out
}

// raster is a hide in squares that are wholly clear or blocked.
type raster struct {
	x0, y0, cell int64 // in steps
	nx, ny       int
	clear        []bool
}

func newRaster(outer geom.Ring) *raster {
	b := outer.Bounds()
	r := &raster{x0: b.Min.X, y0: b.Min.Y, cell: max(max(b.Width(), b.Height())/offcutCells, 1)}
	r.nx, r.ny = int(b.Width()/r.cell), int(b.Height()/r.cell)
	r.clear = make([]bool, r.nx*r.ny)
	r.fill(outer, true)
	r.border(outer)
	return r
}

// at gives a place or a length on the leather.
func (r *raster) at(from int64, cells int) unit.Length {
	return unit.Length((from + int64(cells)*r.cell) * nestStep)
}

func (r *raster) block(ring geom.Ring) {
	r.fill(ring, false)
	r.border(ring)
}

// fill sets the squares whose middle lies in the ring, row by row.
func (r *raster) fill(ring geom.Ring, to bool) {
	var cuts []int64
	for y := range r.ny {
		// Doubled, so that middles are whole and lie on no corner.
		mid := 2*(r.y0+int64(y)*r.cell) + r.cell | 1
		cuts = cuts[:0]
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if a.Y > b.Y {
				a, b = b, a
			}
			if 2*a.Y < mid && mid < 2*b.Y {
				cuts = append(cuts, a.X+int64(float64(b.X-a.X)*(float64(mid-2*a.Y)/float64(2*(b.Y-a.Y)))))
			}
		}
		slices.Sort(cuts)
		for k := 0; k+1 < len(cuts); k += 2 {
			from := max(0, (cuts[k]-r.x0)/r.cell)
			for x := from; x < int64(r.nx) && r.x0+x*r.cell+r.cell/2 <= cuts[k+1]; x++ {
				if r.x0+x*r.cell+r.cell/2 >= cuts[k] {
					r.clear[y*r.nx+int(x)] = to
				}
			}
		}
	}
}

// border blocks the squares that an edge of the ring runs through, and their
// neighbours in the row where rounding might tell otherwise.
func (r *raster) border(ring geom.Ring) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if a.Y > b.Y {
			a, b = b, a
		}
		lo, hi := (a.Y-r.y0-1)/r.cell, (b.Y-r.y0+1)/r.cell
		for y := max(lo, 0); y <= min(hi, int64(r.ny)-1); y++ {
			x0, x1 := a.X, b.X
			if b.Y > a.Y { // the part of the edge in this row
				at := func(h int64) int64 {
					h = min(max(h, a.Y), b.Y)
					return a.X + int64(float64(b.X-a.X)*(float64(h-a.Y)/float64(b.Y-a.Y)))
				}
				x0, x1 = at(r.y0+y*r.cell-1), at(r.y0+(y+1)*r.cell+1)
			}
			if x0 > x1 {
				x0, x1 = x1, x0
			}
			for x := max((x0-r.x0-2)/r.cell, 0); x <= min((x1-r.x0+2)/r.cell, int64(r.nx)-1); x++ {
				r.clear[int(y)*r.nx+int(x)] = false
			}
		}
	}
}

func (r *raster) take(x0, y0, x1, y1 int) {
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			r.clear[y*r.nx+x] = false
		}
	}
}

// largest gives the largest clear rectangle with sides of at least short and
// long, either way; the lowest and leftmost of equal ones.
func (r *raster) largest(short, long int) (x0, y0, x1, y1 int, ok bool) {
	need := func(l int) int {
		c := int(r.cell) * nestStep
		return (l + c - 1) / c
	}
	short, long = need(short), need(long)
	high := make([]int, r.nx+1) // clear squares one above the other, ending in this row
	best := 0
	var stack []int // columns of rising height
	for y := range r.ny {
		from := 0 // the first column after a blocked square
		for x := range high {
			if x < r.nx && r.clear[y*r.nx+x] {
				high[x]++
			} else {
				high[x] = 0
			}
			for len(stack) > 0 && high[stack[len(stack)-1]] >= high[x] {
				h := high[stack[len(stack)-1]]
				stack = stack[:len(stack)-1]
				left := from
				if len(stack) > 0 {
					left = stack[len(stack)-1] + 1
				}
				if w := x - left; min(w, h) >= short && max(w, h) >= long && w*h > best {
					best, ok = w*h, true
					x0, y0, x1, y1 = left, y-h+1, x, y+1
				}
			}
			if high[x] == 0 {
				from = x + 1
			} else {
				stack = append(stack, x)
			}
		}
	}
	return x0, y0, x1, y1, ok
}
