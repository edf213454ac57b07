package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// SVG draws the layout to scale: the roll from left to right, its usable
// width from top to bottom, every piece with its name and an arrow to its top,
// repeat lines, flaws, and offcuts of at least 10 by 10 in with their size.
// Lengths are written in the system given.
func (l BoxPlan) SVG(in unit.System) (string, error) {
	if err := in.Check(); err != nil {
		return "", err
	}
	if err := l.Verify(); err != nil {
		return "", err
	}
	offcuts, err := l.Offcuts(10*unit.Inch, 10*unit.Inch)
	if err != nil {
		return "", err
	}
	const margin, foot = 12.0, 34.0
	scale := 460 / float64(l.Roll.Usable()) // the usable width is 460 units high
	if long := 2400 / float64(max(l.Order, 1)); long < scale {
		scale = long
	}
	px := func(v unit.Length) float64 { return float64(v) * scale }
	size := func(v unit.Length) string {
		if in == unit.Metric {
			return v.Decimal(unit.Millimetre, 0, unit.Nearest)
		}
		return v.Mixed(unit.Inch, unit.Eighths, unit.Nearest)
	}
	high := px(l.Roll.Usable())
	d := svg.New(px(l.Order)+2*margin, high+margin+foot, "Cutting layout on "+l.Roll.Name)
	at := func(x, y unit.Length) svg.Point { return svg.Point{X: margin + px(y), Y: margin + high - px(x)} }
	box := func(x, y, w, h unit.Length, attrs ...svg.Attr) {
		p := at(x+w, y)
		d.Rect(p, px(h), px(w), attrs...)
	}
	text := func(p svg.Point, s string, pt float64, attrs ...svg.Attr) {
		d.Text(p, s, append([]svg.Attr{{Name: "font-family", Value: "sans-serif"}, {Name: "font-size", Value: svg.Number(pt)},
			{Name: "text-anchor", Value: "middle"}, {Name: "fill", Value: "#222"}}, attrs...)...)
	}
	box(0, 0, l.Roll.Usable(), l.Order, svg.Attr{Name: "fill", Value: "#f6f1e7"}, svg.Attr{Name: "stroke", Value: "#554"}, svg.Attr{Name: "stroke-width", Value: "1.5"})
	for _, o := range offcuts {
		box(o.X, o.Y, o.Width, o.Length, svg.Attr{Name: "fill", Value: "none"}, svg.Attr{Name: "stroke", Value: "#998"}, svg.Attr{Name: "stroke-dasharray", Value: "3 3"})
		c := at(o.X+o.Width/2, o.Y+o.Length/2)
		lines := []string{"left over", size(o.Width) + " x " + size(o.Length)}
		label(text, c, px(o.Length), px(o.Width), 11, lines...)
	}
	if r := l.Roll.Repeat; r > 0 {
		for y := r; y < l.Order && y/r < 1000; y += r {
			d.Line(at(0, y), at(l.Roll.Usable(), y), svg.Attr{Name: "stroke", Value: "#a4603a"}, svg.Attr{Name: "stroke-dasharray", Value: "8 4"})
		}
	}
	for _, f := range l.Roll.Flaws {
		f, ok := drawn(f, l.Roll, l.Order)
		if !ok {
			continue
		}
		box(f.X, f.Y, f.Width, f.Length, svg.Attr{Name: "fill", Value: "#b33"}, svg.Attr{Name: "fill-opacity", Value: "0.5"})
	}
	for _, p := range l.Placements {
		piece := l.Pieces[p.Piece]
		fill := "#cfd9c8"
		if l.Roll.Patterned() && !piece.matched(l.Roll) {
			fill = "#dcdcd2"
		}
		box(p.X, p.Y, p.Width, p.Length, svg.Attr{Name: "fill", Value: fill}, svg.Attr{Name: "stroke", Value: "#222"}, svg.Attr{Name: "stroke-width", Value: "1"})
		w, h := px(p.Length), px(p.Width)
		c := at(p.X+p.Width/2, p.Y+p.Length/2)
		lines := []string{piece.Name}
		if min(w, h) > 34 && max(w, h) > 50 {
			lines = append(lines, size(piece.Width)+" x "+size(piece.Length))
		}
		if label(text, c, w, h, 12, lines...) {
			c.Y = c.Y - h/2 + min(w, h)*0.16 + 20 // clear of a label that runs up the piece
		}
		topArrow(d, c, p.Degrees, min(w, h))
	}
	text(svg.Point{X: margin + px(l.Order)/2, Y: margin + high + 24}, fmt.Sprintf("%s: usable width %s, length %s, buy %s; the roll runs to the right",
		l.Roll.Name, size(l.Roll.Usable()), size(l.Need), size(l.Order)), 13)
	return d.String(), nil
}

// label writes lines in the middle of a box of w by h, as large as fits, along
// its longer side when it is narrow; nothing where it could not be read. It
// tells whether the lines run upright.
func label(text func(svg.Point, string, float64, ...svg.Attr), c svg.Point, w, h, most float64, lines ...string) (upright bool) {
	long := 1
	for _, l := range lines {
		long = max(long, len([]rune(l)))
	}
	upright = w < h && w < float64(long)*5
	if upright {
		w, h = h, w
	}
	pt := min(most, h*0.75/float64(len(lines)), w/float64(long)*1.7)
	if pt < 4 {
		return false
	}
	for i, l := range lines {
		at := svg.Point{X: c.X, Y: c.Y + pt*(1.2*float64(i)+0.35-0.6*float64(len(lines)-1))}
		if upright {
			text(at, l, pt, svg.Attr{Name: "transform", Value: "rotate(-90 " + svg.Number(c.X) + " " + svg.Number(c.Y) + ")"})
			continue
		}
		text(at, l, pt)
	}
	return upright
}

// topArrow points to the top of a piece. Up the roll is to the right.
func topArrow(d *svg.Drawing, c svg.Point, degrees int, room float64) {
	if room < 24 {
		return
	}
	dir := map[int]svg.Point{0: {X: 1}, 90: {Y: -1}, 180: {X: -1}, 270: {Y: 1}}[degrees]
	n := min(room*0.16, 14)
	side := svg.Point{X: dir.Y, Y: -dir.X}
	c.Y -= min(room*0.36, 24)
	tip := svg.Point{X: c.X + dir.X*n, Y: c.Y + dir.Y*n}
	tail := svg.Point{X: c.X - dir.X*n, Y: c.Y - dir.Y*n}
	stroke := svg.Attr{Name: "stroke", Value: "#222"}
	d.Line(tail, tip, stroke)
	for _, s := range []float64{1, -1} {
		d.Line(tip, svg.Point{X: tip.X - dir.X*n/3 + s*side.X*n/3, Y: tip.Y - dir.Y*n/3 + s*side.Y*n/3}, stroke)
	}
}
