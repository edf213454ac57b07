package layout

import (
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// fitLabel writes lines into a box of the roll, as many as fit, along its
// longer side where it is narrow. A way of 1 and more draws the arrow to the
// top of the piece: 1 with the roll, then each degree anticlockwise.
func fitLabel(d *svg.Drawing, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, y1, y2, x, w unit.Length, pt float64, way int, lines ...string) {
	if y2 <= y1 {
		return
	}
	wide, high := px(y2-y1), px(w)
	c := at(x+w/2, (y1+y2)/2)
	upright := wide < high*0.8
	long, narrow := wide, high
	if upright {
		long, narrow = high, wide
	}
	lines = slices.DeleteFunc(slices.Clone(lines), func(l string) bool { return l == "" })
	arrow := 0.0
	if way > 0 && narrow >= 34 {
		arrow = 14
	}
	rows, size := labelRows(lines, long-6, narrow-2-arrow, pt)
	if len(rows) == 0 {
		return
	}
	for i, l := range rows {
		off := size * (1.15*(float64(i)-float64(len(rows)-1)/2) + 0.36)
		p := svg.Point{X: c.X, Y: c.Y + off + arrow/2}
		var more []svg.Attr
		if i == 0 && way > 0 {
			more = svg.Attrs("font-weight", "bold")
		}
		if upright {
			more = append(more, svg.Upward(c))
		}
		d.Halo(p, size, "middle", l, more...)
	}
	if arrow > 0 {
		over := float64(len(rows))*size*1.15/2 + 10 - arrow/2
		if upright {
			c.X -= over
		} else {
			c.Y -= over
		}
		topArrow(d, c, way-1)
	}
}

// labelRows sets lines in a box of a width and height: all of them wrapped, or
// the first ones, or the first alone in smaller type; none where even that
// cannot be read.
func labelRows(lines []string, wide, high, pt float64) ([]string, float64) {
	const least = 6.0
	for ; len(lines) > 0; lines = lines[:len(lines)-1] {
		for _, size := range []float64{pt, pt - 1.5, pt - 3} {
			rows, ok := wrapWords(strings.Join(lines, " "), wide, size)
			if ok && size >= least && float64(len(rows))*size*1.15 <= high {
				return rows, size
			}
		}
		// A narrow strip takes one line of small type.
		for size := min(pt, high/1.02); size >= least; size -= 0.5 {
			if one := strings.Join(lines, " "); svg.TextWidth(one, size) <= wide {
				return []string{one}, size
			}
		}
	}
	return nil, 0
}

// wrapWords breaks text into rows no wider than wide; false when a word is wider.
func wrapWords(text string, wide, pt float64) ([]string, bool) {
	var rows []string
	row := ""
	for _, w := range strings.Split(text, " ") {
		switch {
		case svg.TextWidth(w, pt) > wide:
			return nil, false
		case row == "":
			row = w
		case svg.TextWidth(row+" "+w, pt) <= wide:
			row += " " + w
		default:
			rows = append(rows, row)
			row = w
		}
	}
	if row != "" {
		rows = append(rows, row)
	}
	return rows, true
}

// topArrow points to the top of a piece; unturned that is along the roll.
func topArrow(d *svg.Drawing, c svg.Point, degrees int) {
	dir := map[int]svg.Point{0: {X: 1}, 90: {Y: -1}, 180: {X: -1}, 270: {Y: 1}}[degrees]
	const n = 7.0
	d.Arrow(svg.Point{X: c.X - dir.X*n, Y: c.Y - dir.Y*n}, svg.Point{X: c.X + dir.X*n, Y: c.Y + dir.Y*n}, 5, svg.Attrs("stroke", "#000", "stroke-width", "1.1")...)
}

// textBox is the place that a line of text takes.
type textBox struct{ left, top, right, bottom float64 }

func (b textBox) meets(o textBox) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

// labelOn writes the longest of some texts that fits on a piece about a clear
// point, level, upright or along its longer side, and draws the arrow to the
// top of the piece beside it.
func labelOn(d *svg.Drawing, v view, piece []shape.Point, at shape.Point, room float64, top svg.Point, broad bool, texts ...string) textBox {
	c := v.at(at)
	long := top
	if broad {
		long = svg.Point{X: -top.Y, Y: top.X}
	}
	if long.X < -1e-9 || math.Abs(long.X) < 1e-9 && long.Y > 0 {
		long = svg.Point{X: -long.X, Y: -long.Y} // text reads from the left, or from below
	}
	lines := v.line(piece)
	arrow := room > 16
	for _, t := range texts {
		for _, pt := range []float64{10.5, 9, 7.5, 6.5} {
			if 2*room < pt*1.1 {
				continue
			}
			for _, dir := range []svg.Point{{X: 1}, {Y: -1}, long} {
				if 2*reachIn(lines, c, dir) < svg.TextWidth(t, pt)+4 {
					continue
				}
				p, o := svg.Point{X: c.X, Y: c.Y + pt*0.36}, c
				if arrow { // text below, arrow above
					p.Y += 9
					o.X, o.Y = o.X+dir.Y*8, o.Y-dir.X*8
				}
				more := svg.Attrs("font-weight", "bold")
				if dir.Y != 0 {
					more = append(more, svg.Attr{Name: "transform", Value: "rotate(" + svg.Number(math.Atan2(dir.Y, dir.X)*180/math.Pi) + " " + svg.Number(c.X) + " " + svg.Number(c.Y) + ")"})
				}
				d.Write(p, pt, "middle", t, more...)
				if arrow {
					d.Arrow(svg.Point{X: o.X - top.X*7, Y: o.Y - top.Y*7}, svg.Point{X: o.X + top.X*7, Y: o.Y + top.Y*7}, 5, svg.Attrs("stroke", "#000", "stroke-width", "1.1")...)
				}
				// The text turns about c with its base line below it.
				w, h := svg.TextWidth(t, pt)/2, max(math.Abs(p.Y-c.Y), pt)
				w, h = math.Abs(dir.X)*w+math.Abs(dir.Y)*h, math.Abs(dir.Y)*w+math.Abs(dir.X)*h
				return textBox{c.X - w, c.Y - h, c.X + w, c.Y + h}
			}
		}
	}
	return textBox{}
}

// reachIn gives how far one can go from a point inside a polygon in a direction
// and its opposite before one of them meets the border.
func reachIn(border []svg.Point, c, dir svg.Point) float64 {
	least := math.Inf(1)
	for i, a := range border {
		b := border[(i+1)%len(border)]
		ex, ey := b.X-a.X, b.Y-a.Y
		det := dir.X*ey - dir.Y*ex
		if det == 0 {
			continue
		}
		t := ((a.X-c.X)*ey - (a.Y-c.Y)*ex) / det
		u := ((a.X-c.X)*dir.Y - (a.Y-c.Y)*dir.X) / det
		if u >= 0 && u <= 1 {
			least = min(least, math.Abs(t))
		}
	}
	return least
}

// lineIn writes the longest of some texts that fits in a box, level or upright.
func lineIn(d *svg.Drawing, c svg.Point, wide, tall, pt float64, bold bool, texts ...string) textBox {
	more := svg.Attrs()
	if bold {
		more = svg.Attrs("font-weight", "bold")
	}
	for _, t := range texts {
		switch {
		case pt < 5.5:
		case svg.TextWidth(t, pt) <= wide-4 && tall >= pt*1.1:
			d.Write(svg.Point{X: c.X, Y: c.Y + pt*0.36}, pt, "middle", t, more...)
			return textBox{c.X - svg.TextWidth(t, pt)/2, c.Y - pt/2, c.X + svg.TextWidth(t, pt)/2, c.Y + pt/2}
		case svg.TextWidth(t, pt) <= tall-4 && wide >= pt*1.1:
			d.Write(svg.Point{X: c.X, Y: c.Y + pt*0.36}, pt, "middle", t, append(more, svg.Upward(c))...)
			return textBox{c.X - pt/2, c.Y - svg.TextWidth(t, pt)/2, c.X + pt/2, c.Y + svg.TextWidth(t, pt)/2}
		}
	}
	return textBox{}
}
