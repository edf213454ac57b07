package main

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// paper is a sheet of printer paper, upright.
type paper struct {
	name          string
	width, height unit.Length
}

var papers = []paper{
	{"a4", 210 * unit.Millimetre, 297 * unit.Millimetre}, // ISO 216
	{"letter", 17 * unit.Inch / 2, 11 * unit.Inch},       // ANSI Y14.1 size A
}

// The printed part of a page: printers leave an edge white, and a line of text
// stands under the frame.
const (
	pageEdge   = 10 * unit.Millimetre
	pageFoot   = 7 * unit.Millimetre
	halfLap    = 5 * unit.Millimetre // the frame shows this much beyond the joining lines
	frameInset = 1 * unit.Millimetre // lines keep clear of the frame at the outside of a pattern
)

// tiling is how a pattern is spread over pages. Pages join along the lines of a
// grid; each shows its cell of the grid and halfLap more on every side.
type tiling struct {
	paper         paper // turned already when the pages lie across
	landscape     bool
	cell          shape.Point // size of a cell
	origin        shape.Point // lower left corner of the grid
	rows, columns int
	tiles         []tile // those that show part of the piece, row by row from the top
}

// tile is one page: row 0 is the top, column 0 the left.
type tile struct {
	row, column int
	low, high   shape.Point // of the cell
}

// frame gives the corners of what the page shows.
func (t tile) frame() (low, high shape.Point) {
	return shape.Point{X: t.low.X - halfLap, Y: t.low.Y - halfLap}, shape.Point{X: t.high.X + halfLap, Y: t.high.Y + halfLap}
}

// label names a page: rows by letters from the top, columns by numbers from the left.
func (t tile) label() string { return tileLabel(t.row, t.column) }

// tileOn spreads a pattern over pages of a paper, upright or across, whichever
// takes fewer.
func tileOn(p pattern, sheet paper) tiling {
	upright := layTiles(p, sheet, false)
	across := layTiles(p, paper{sheet.name, sheet.height, sheet.width}, true)
	if len(across.tiles) < len(upright.tiles) {
		return across
	}
	return upright
}

func layTiles(p pattern, sheet paper, landscape bool) tiling {
	low, high := p.bounds()
	t := tiling{paper: sheet, landscape: landscape}
	t.cell = shape.Point{X: sheet.width - 2*pageEdge - 2*halfLap, Y: sheet.height - 2*pageEdge - pageFoot - 2*halfLap}
	count := func(long, cell unit.Length) int {
		long -= 2 * (halfLap - frameInset) // the outer laps show the piece too
		return int(max(1, (long+cell-1)/cell))
	}
	t.columns, t.rows = count(high.X-low.X, t.cell.X), count(high.Y-low.Y, t.cell.Y)
	t.origin = shape.Point{
		X: (low.X + high.X - unit.Length(t.columns)*t.cell.X) / 2,
		Y: (low.Y + high.Y - unit.Length(t.rows)*t.cell.Y) / 2,
	}
	for r := range t.rows {
		for c := range t.columns {
			x := t.origin.X + unit.Length(c)*t.cell.X
			y := t.origin.Y + unit.Length(t.rows-1-r)*t.cell.Y
			q := tile{row: r, column: c, low: shape.Point{X: x, Y: y}, high: shape.Point{X: x + t.cell.X, Y: y + t.cell.Y}}
			if t.needed(p, q) {
				t.tiles = append(t.tiles, q)
			}
		}
	}
	return t
}

// needed tells whether a page shows any of the piece beyond what its
// neighbours show: its cell meets the cut line or lies inside it.
func (t tiling) needed(p pattern, q tile) bool {
	low, high := t.reach(q)
	for _, l := range contourLines(p.cutLine) {
		for i, a := range l {
			if _, _, ok := clipSegment(a, l[(i+1)%len(l)], low, high); ok {
				return true
			}
		}
	}
	return inside(shape.Point{X: (q.low.X + q.high.X) / 2, Y: (q.low.Y + q.high.Y) / 2}, contourLines(p.cutLine))
}

// reach gives the part of the plane that a page alone answers for: its cell,
// and at the outside of the grid the lap as well.
func (t tiling) reach(q tile) (low, high shape.Point) {
	low, high = q.low, q.high
	fl, fh := q.frame()
	if q.column == 0 {
		low.X = fl.X
	}
	if q.column == t.columns-1 {
		high.X = fh.X
	}
	if q.row == 0 {
		high.Y = fh.Y
	}
	if q.row == t.rows-1 {
		low.Y = fl.Y
	}
	return low, high
}

// clipSegment gives the part of a line inside a box, borders included, or false
// when they do not meet (the method of Liang and Barsky).
func clipSegment(a, b, low, high shape.Point) (from, to shape.Point, ok bool) {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	t0, t1 := 0.0, 1.0
	for _, e := range []struct{ p, q float64 }{
		{-dx, float64(a.X - low.X)}, {dx, float64(high.X - a.X)}, {-dy, float64(a.Y - low.Y)}, {dy, float64(high.Y - a.Y)},
	} {
		switch {
		case e.p == 0:
			if e.q < 0 {
				return from, to, false
			}
		case e.p < 0:
			t0 = max(t0, e.q/e.p)
		default:
			t1 = min(t1, e.q/e.p)
		}
	}
	if t0 > t1 {
		return from, to, false
	}
	on := func(t float64) shape.Point {
		switch t {
		case 0:
			return a
		case 1:
			return b
		}
		return shape.Point{X: a.X + unit.Length(math.Round(t*dx)), Y: a.Y + unit.Length(math.Round(t*dy))}
	}
	return on(t0), on(t1), true
}

// clipLine gives the runs of a line that lie inside a box, in its own direction.
func clipLine(l patternLine, low, high shape.Point) [][]shape.Point {
	var runs [][]shape.Point
	n := len(l.points)
	segments := n - 1
	if l.closed {
		segments = n
	}
	for i := range segments {
		from, to, ok := clipSegment(l.points[i], l.points[(i+1)%n], low, high)
		if !ok || from == to {
			continue
		}
		if k := len(runs); k > 0 && runs[k-1][len(runs[k-1])-1] == from {
			runs[k-1] = append(runs[k-1], to)
			continue
		}
		runs = append(runs, []shape.Point{from, to})
	}
	// A closed line that starts inside the box goes on where it ended.
	if k := len(runs); l.closed && k > 1 && runs[k-1][len(runs[k-1])-1] == runs[0][0] {
		runs[0] = append(runs[k-1], runs[0][1:]...)
		runs = runs[:k-1]
	}
	return runs
}

// inside tells whether a point lies inside closed lines, holes left out.
func inside(q shape.Point, lines [][]shape.Point) bool {
	in := false
	for _, l := range lines {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if (a.Y > q.Y) != (b.Y > q.Y) && float64(q.X-a.X) < float64(b.X-a.X)*(float64(q.Y-a.Y)/float64(b.Y-a.Y)) {
				in = !in
			}
		}
	}
	return in
}

// distance gives how far a point is from a line between two others.
func distance(q, a, b shape.Point) float64 {
	ax, ay := float64(q.X-a.X), float64(q.Y-a.Y)
	bx, by := float64(b.X-a.X), float64(b.Y-a.Y)
	t := 0.0
	if long := float64(bx*bx) + float64(by*by); long > 0 {
		t = min(max((float64(ax*bx)+float64(ay*by))/long, 0), 1)
	}
	return math.Hypot(ax-float64(t*bx), ay-float64(t*by))
}
