package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// leastOffcut is the smallest left-over rectangle that is drawn with its size.
const leastOffcut = 8 * unit.Inch

// rollView is a layout on a roll as it is drawn, of rectangles or of panels of
// any shape.
type rollView struct {
	name        string
	roll        material.Roll
	need, order unit.Length
	placed      []placedView // in the order of cutting
	offcuts     []layout.Offcut
}

// placedView is one piece on the roll: X across the usable width, Y along the roll.
type placedView struct {
	outline   []shape.Point
	low, high shape.Point // of the box around it
	name      string
	number    string
	size      job.Size // of the piece as it is drawn in the cut list
	degrees   int
	mirrored  bool
}

func rectangle(left, bottom, wide, high unit.Length) []shape.Point {
	right, top := left+wide, bottom+high
	return []shape.Point{{X: left, Y: bottom}, {X: right, Y: bottom}, {X: right, Y: top}, {X: left, Y: top}}
}

func sizeOf(w, l unit.Length) job.Size { return job.Size{Width: w, Length: l} }

// partName gives the part of "piece: part".
func partName(name string) string {
	if _, part, found := strings.Cut(name, ": "); found {
		return part
	}
	return name
}

// turned says how the piece lies, where it is not up the roll.
func (p placedView) turned() string {
	var out []string
	if p.degrees != 0 {
		out = append(out, fmt.Sprintf("turned %d°", p.degrees))
	}
	if p.mirrored {
		out = append(out, "mirrored")
	}
	return strings.Join(out, ", ")
}

// numberIn gives the number of a piece of a layout in the cut list. Layouts list
// the cuts of their goods in the order of the cut list.
func numberIn(cuts []drawnCut, i int) string {
	if i >= len(cuts) {
		return ""
	}
	return strconv.Itoa(cuts[i].number)
}

// layoutRoll gives a layout of rectangles.
func layoutRoll(l layout.BoxPlan, name string, cuts []drawnCut) (rollView, error) {
	offcuts, err := l.Offcuts(leastOffcut, leastOffcut)
	if err != nil {
		return rollView{}, err
	}
	v := rollView{name: name, roll: l.Roll, need: l.Need, order: l.Order, offcuts: offcuts}
	for _, p := range l.Placements {
		piece := l.Pieces[p.Piece]
		q := placedView{outline: rectangle(p.X, p.Y, p.Width, p.Length), name: piece.Name, number: numberIn(cuts, p.Piece),
			size: sizeOf(piece.Width, piece.Length), degrees: p.Degrees, mirrored: p.Piece < len(cuts) && cuts[p.Piece].cut.Pair && p.Copy%2 == 1}
		if p.Segments > 1 {
			q.name = fmt.Sprintf("%s, part %d of %d", piece.Name, p.Segment+1, p.Segments)
		}
		v.placed = append(v.placed, q)
	}
	v.sort()
	return v, nil
}

// planRoll gives a plan of panels of any shape.
func planRoll(l layout.RollPlan, name string, cuts []drawnCut) rollView {
	v := rollView{name: name, roll: l.Roll, need: l.Need, order: l.Order}
	for _, p := range l.Placements {
		panel := l.Panels[p.Panel]
		w, h := panel.Outline.Size()
		v.placed = append(v.placed, placedView{outline: p.Outline, name: panel.Name, number: numberIn(cuts, p.Panel), size: sizeOf(w, h), degrees: p.Degrees, mirrored: p.Mirrored})
	}
	v.sort()
	return v
}

func (v *rollView) sort() {
	for i := range v.placed {
		v.placed[i].low, v.placed[i].high = boundsOf(v.placed[i].outline)
	}
	slices.SortStableFunc(v.placed, func(a, b placedView) int { return cmp.Or(cmp.Compare(a.low.Y, b.low.Y), cmp.Compare(a.low.X, b.low.X)) })
}

// sections says where a roll is divided for drawing: no part longer than about
// twice the width, cut where the fewest pieces are cut through.
func (v rollView) sections() []unit.Length {
	most := v.roll.Usable() * 23 / 10
	parts := max((v.order+most*9/10-1)/most, 1) // a little over makes no part of its own
	most = min(most, (v.order+parts-1)/parts) * 115 / 100
	out := []unit.Length{0}
	for from := unit.Length(0); v.order-from > most; {
		best, fewest := from+most, math.MaxInt
		try := func(y unit.Length) {
			if y <= from+most*2/3 || y > from+most || y >= v.order {
				return
			}
			n := 0
			for _, p := range v.placed {
				if p.low.Y < y && p.high.Y > y {
					n++
				}
			}
			if n < fewest || n == fewest && y > best {
				best, fewest = y, n
			}
		}
		try(from + most)
		for _, p := range v.placed {
			try(p.low.Y)
			try(p.high.Y)
		}
		from = best
		out = append(out, from)
	}
	return append(out, v.order)
}

// between gives the part of a polygon from one Y to another (the method of
// Sutherland and Hodgman).
func between(points []shape.Point, from, to unit.Length) []shape.Point {
	for _, edge := range []struct {
		y    unit.Length
		keep unit.Length // the sign of what stays
	}{{from, 1}, {to, -1}} {
		var out []shape.Point
		for i, a := range points {
			b := points[(i+1)%len(points)]
			ina, inb := (a.Y-edge.y)*edge.keep >= 0, (b.Y-edge.y)*edge.keep >= 0
			if ina {
				out = append(out, a)
			}
			if ina != inb {
				t := float64(edge.y-a.Y) / float64(b.Y-a.Y)
				out = append(out, shape.Point{X: a.X + unit.Length(math.Round(t*float64(b.X-a.X))), Y: edge.y})
			}
		}
		points = out
	}
	return points
}

// rollDrawings draws a layout to scale, the roll from left to right and its
// left edge below, in parts that fit a page.
func (s *sheet) rollDrawings(v rollView) []string {
	cuts := v.sections()
	var longest unit.Length
	for i := range len(cuts) - 1 {
		longest = max(longest, cuts[i+1]-cuts[i])
	}
	const left, right, top, foot = 4.0, 4.0, 16.0, 30.0
	usable := v.roll.Usable()
	scale := min((pageWide-left-right)/float64(max(longest, 1)), 330/float64(max(usable, 1)))
	high := float64(usable) * scale
	var out []string
	for i := range len(cuts) - 1 {
		from, to := cuts[i], cuts[i+1]
		title := fmt.Sprintf("Cutting layout of %s, from %s to %s along the roll", v.name, s.len(from), s.len(to))
		d := svg.New(pageWide, top+high+foot, title)
		px := func(v unit.Length) float64 { return float64(float64(v) * scale) }
		at := func(x, y unit.Length) svg.Point { return svg.Point{X: left + px(y-from), Y: top + high - px(x)} }
		box := func(x, y, w, long unit.Length, attrs ...svg.Attr) {
			a, b := max(y, from), min(y+long, to)
			if b > a {
				d.Rect(at(x+w, a), px(b-a), px(w), attrs...)
			}
		}
		box(0, from, usable, to-from, svg.Attrs("class", "goods", "fill", "#e9e9e9", "stroke", "none")...)
		for _, o := range v.offcuts {
			box(o.X, o.Y, o.Width, o.Length, svg.Attrs("class", "offcut", "fill", "#f8f8f8", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3")...)
		}
		for _, f := range v.roll.Flaws {
			w := f.Across(v.roll)
			box(f.X, f.Y, w, f.Length, svg.Attrs("class", "flaw", "fill", "#777", "stroke", "#000")...)
		}
		for _, p := range v.placed {
			var points []svg.Point
			for _, q := range between(p.outline, from, to) {
				points = append(points, at(q.X, q.Y))
			}
			d.Polygon(points, svg.Attrs("class", "piece", "fill", "#fff", "stroke", "#000", "stroke-width", "1.1")...)
		}
		repeatLines(d, v.roll, at, px, from, to, top)
		for _, o := range v.offcuts {
			s.fitLabel(d, at, px, max(o.Y, from), min(o.Y+o.Length, to), o.X, o.Width, 9, 0, "left over", s.across(sizeOf(o.Width, o.Length)))
		}
		for _, p := range v.placed {
			a, b := max(p.low.Y, from), min(p.high.Y, to)
			if b <= a || b-a < (p.high.Y-p.low.Y)/2 {
				continue // the label stands in the larger part
			}
			s.fitLabel(d, at, px, a, b, p.low.X, p.high.X-p.low.X, 10.5, p.degrees+1, p.number, partName(p.name), s.nbSize(s.cutSize(p.size)), p.turned())
		}
		// The border, dotted where the roll goes on.
		a, b, c, e := at(0, from), at(0, to), at(usable, to), at(usable, from)
		edge := svg.Attrs("stroke", "#000", "stroke-width", "1.6")
		d.Line(a, b, edge...)
		d.Line(e, c, edge...)
		for _, end := range []struct {
			p, q  svg.Point
			whole bool
		}{{a, e, from == 0}, {b, c, to == v.order}} {
			if end.whole {
				d.Line(end.p, end.q, edge...)
			} else {
				d.Line(end.p, end.q, svg.Attrs("stroke", "#000", "stroke-width", "1", "stroke-dasharray", "2 3")...)
			}
		}
		s.rollRule(d, at, px, from, to, v.need)
		out = append(out, d.String())
	}
	return out
}

// repeatLines marks where the pattern begins anew along the roll and across it.
// Where it drops, each column has marks of its own. Marks closer than can be
// told apart are left out.
func repeatLines(d *svg.Drawing, roll material.Roll, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, from, to unit.Length, top float64) {
	const least, label = 4, 46 // points between marks, and between their names
	r, across, usable := roll.Repeat, roll.Across, roll.Usable()
	line := func(a, b svg.Point) {
		d.Line(a, b, svg.Attrs("class", "repeat", "stroke", "#000", "stroke-width", "0.7", "stroke-dasharray", "7 3 1 3")...)
	}
	columns := across > 0 && px(across) >= least
	for k := unit.Length(1); columns && k*across < usable; k++ {
		line(at(k*across, from), at(k*across, to))
	}
	if r <= 0 || px(r) < least {
		return
	}
	name := unit.Length(1)
	for px(r)*float64(name) < label {
		name++
	}
	for k := max((from+r-1)/r, 1); k*r <= to; k++ {
		if roll.Drop == (material.Drop{}) {
			line(at(0, k*r), at(usable, k*r))
		}
		if k%name == 0 {
			d.Write(svg.Point{X: at(0, k*r).X, Y: top - 4}, 9, anchorAt(k*r, from, to), fmt.Sprintf("repeat %d", k))
		}
	}
	if roll.Drop == (material.Drop{}) || !columns {
		return
	}
	for c := unit.Length(0); c*across <= usable; c++ {
		x, y := c*across, roll.Fall(int(c))
		for y += max((from-y+r-1)/r, 0) * r; y <= to; y += r {
			d.Line(at(max(x-across/4, 0), y), at(min(x+across/4, usable), y), svg.Attrs("class", "repeat", "stroke", "#000", "stroke-width", "0.7")...)
		}
	}
}

func anchorAt(y, from, to unit.Length) string {
	switch y {
	case from:
		return "start"
	case to:
		return "end"
	}
	return "middle"
}

// rollRule draws a rule along the roll, with the distance from its end.
func (s *sheet) rollRule(d *svg.Drawing, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, from, to, need unit.Length) {
	step, write1 := 6*unit.Inch, 2
	if s.metric {
		step, write1 = 100*unit.Millimetre, 5
	}
	for px(step)*float64(write1) < 44 {
		step *= 2
	}
	for k := (from + step - 1) / step; k*step <= to; k++ {
		p := at(0, k*step)
		long := 4.0
		if k%unit.Length(write1) == 0 {
			long = 7
			d.Write(svg.Point{X: p.X, Y: p.Y + 17}, 9, anchorAt(k*step, from, to), s.len(k*step))
		}
		d.Line(p, svg.Point{X: p.X, Y: p.Y + long}, svg.Attrs("stroke", "#000", "stroke-width", "0.7")...)
	}
	if need > from && need <= to {
		p := at(0, need)
		anchor := "middle"
		if px(to-need) < 60 {
			anchor = "end"
		}
		d.Polygon([]svg.Point{{X: p.X, Y: p.Y + 1}, {X: p.X - 4, Y: p.Y + 9}, {X: p.X + 4, Y: p.Y + 9}}, svg.Attrs("fill", "#000")...)
		d.Halo(svg.Point{X: p.X, Y: p.Y + 28}, 9, anchor, "used to "+s.len(need))
	}
}

// fitLabel writes lines into a box of the roll, as many as fit, along its
// longer side where it is narrow. A way of 1 and more draws the arrow to the
// top of the piece: 1 with the roll, then each degree anticlockwise.
func (s *sheet) fitLabel(d *svg.Drawing, at func(x, y unit.Length) svg.Point, px func(unit.Length) float64, y1, y2, x, w unit.Length, pt float64, way int, lines ...string) {
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

// skinDrawing draws one skin of a plan: border, unusable rim as a line, holes,
// marks, zones, panels as they lie, and offcuts with their sizes. The neck is up.
func (s *sheet) skinDrawing(plan layout.SkinPlan, skin int, title string, cuts []drawnCut) (string, error) {
	k := plan.Skins[skin]
	whole, err := k.Shape()
	if err != nil {
		return "", err
	}
	const tolerance = unit.Millimetre
	border, err := whole.Flatten(tolerance)
	if err != nil {
		return "", err
	}
	low, high := boundsOf(border)
	// A skin is longer than wide: laid on its side it fills the page better.
	lie := high.Y-low.Y > high.X-low.X
	turn := func(p shape.Point) shape.Point {
		if lie { // the neck to the right
			return shape.Point{X: p.Y, Y: -p.X}
		}
		return p
	}
	each := func(l []shape.Point) []shape.Point {
		out := make([]shape.Point, len(l))
		for i, q := range l {
			out[i] = turn(q)
		}
		return out
	}
	low, high = boundsOf(each(border))
	const top, foot = 8.0, 22.0
	scale := min((pageWide-2)/float64(max(high.X-low.X, 1)), 375/float64(max(high.Y-low.Y, 1)))
	height := float64(high.Y-low.Y)*scale + top + foot
	d := svg.New(pageWide, height, title)
	v := view{low: low, high: high, left: (pageWide - float64(high.X-low.X)*scale) / 2, top: top, scale: scale}
	d.Polygon(v.line(each(border)), svg.Attrs("class", "hide", "fill", "#ececec", "stroke", "#000", "stroke-width", "1.6")...)
	outline := func(o shape.Outline, attrs ...svg.Attr) ([]shape.Point, error) {
		points, err := o.Flatten(tolerance)
		if err == nil {
			points = each(points)
			d.Polygon(v.line(points), attrs...)
		}
		return points, err
	}
	// Labels of zones and marks are written last, clear of those of the pieces.
	type zoneLabel struct {
		places []svg.Point // where it may begin, best first
		text   string
	}
	var labels []zoneLabel
	var taken []textBox
	for _, z := range k.Zones {
		points, err := outline(z.Outline, svg.Attrs("class", "zone", "fill", "none", "stroke", "#000", "stroke-width", "0.8", "stroke-dasharray", "2 2")...)
		if err != nil {
			return "", err
		}
		zl, zh := boundsOf(points)
		a, b := v.at(zl), v.at(zh)
		var places []svg.Point
		for x := a.X + 4; x < max(b.X-24, a.X+5); x += 16 {
			for _, y := range []float64{b.Y + 11, a.Y - 4, (a.Y + b.Y) / 2, a.Y + 11, b.Y - 4} {
				places = append(places, svg.Point{X: x, Y: y})
			}
		}
		labels = append(labels, zoneLabel{places, z.Grade.String()})
	}
	for _, h := range k.Holes {
		if _, err := outline(h, svg.Attrs("class", "hole", "fill", "#fff", "stroke", "#000", "stroke-width", "1")...); err != nil {
			return "", err
		}
	}
	for _, o := range plan.Offcuts {
		if o.Skin != skin {
			continue
		}
		points := each(rectangle(o.X, o.Y, o.Width, o.Length))
		d.Polygon(v.line(points), svg.Attrs("class", "offcut", "fill", "#fafafa", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3")...)
		ol, oh := boundsOf(points)
		a, b := v.at(ol), v.at(oh)
		taken = append(taken, s.lineIn(d, svg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, b.X-a.X, a.Y-b.Y, 9, false, "left over "+s.across(sizeOf(o.Width, o.Length)), s.across(sizeOf(o.Width, o.Length))))
	}
	for _, p := range plan.On(skin) {
		points := each(p.Outline)
		d.Polygon(v.line(points), svg.Attrs("class", "piece", "fill", "#fff", "stroke", "#000", "stroke-width", "1.1")...)
	}
	for _, f := range k.Defects {
		b, err := f.Border()
		if err != nil {
			return "", err
		}
		points, err := outline(b, svg.Attrs("class", "defect", "fill", "#777", "fill-opacity", "0.7", "stroke", "#000", "stroke-width", "0.8")...)
		if err != nil {
			return "", err
		}
		fl, fh := boundsOf(points)
		a, c := v.at(fl), v.at(fh)
		wide, mid := svg.TextWidth(f.Kind.String(), 9), svg.Point{X: (a.X + c.X) / 2, Y: (a.Y + c.Y) / 2}
		labels = append(labels, zoneLabel{[]svg.Point{{X: c.X + 3, Y: mid.Y + 3}, {X: a.X - 3 - wide, Y: mid.Y + 3}, {X: mid.X - wide/2, Y: c.Y - 3}, {X: mid.X - wide/2, Y: a.Y + 10}}, f.Kind.String()})
	}
	for _, p := range plan.On(skin) {
		q := plan.Panels[p.Panel]
		points := each(p.Outline)
		pl, ph := boundsOf(points)
		at, room := pattern.Pattern{Cut: shape.Contour{Outer: points}}.Room(pattern.Box{Low: pl, High: ph})
		w, h := q.Outline.Size()
		key := numberIn(cuts, p.Panel)
		name := key
		if p.Mirrored {
			name += " mirrored"
		}
		taken = append(taken, s.labelOn(d, v, points, at, float64(room)*scale, topOf(p.Angle, lie), w > h, name+" "+partName(q.Name), name, key))
	}
	for _, l := range labels {
		at, wide := l.places[0], svg.TextWidth(l.text, 9)
		for _, q := range l.places {
			box := textBox{q.X, q.Y - 9, q.X + wide, q.Y + 2}
			if box.left >= 0 && box.right <= pageWide && !slices.ContainsFunc(taken, box.meets) {
				at = q
				break
			}
		}
		taken = append(taken, textBox{at.X, at.Y - 9, at.X + wide, at.Y + 2})
		d.Halo(at, 9, "start", l.text)
	}
	neck := "the neck is up"
	if lie {
		neck = "the neck is on the right"
	}
	d.Write(svg.Point{X: pageWide / 2, Y: height - 6}, 9, "middle", neck+"; arrows point to the top of each piece")
	return d.String(), nil
}

// topOf gives the direction to the top of a piece on the page. An angle is
// anticlockwise from the neck, which is up, or on the right of a hide that is
// drawn lying.
func topOf(angle unit.Angle, lie bool) svg.Point {
	sin, cos := math.Sincos(angle.Radians())
	if lie {
		return svg.Point{X: cos, Y: -sin}
	}
	return svg.Point{X: -sin, Y: -cos}
}

// textBox is the place that a line of text takes.
type textBox struct{ left, top, right, bottom float64 }

func (b textBox) meets(o textBox) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

// labelOn writes the longest of some texts that fits on a piece about a clear
// point, level, upright or along its longer side, and draws the arrow to the
// top of the piece beside it.
func (s *sheet) labelOn(d *svg.Drawing, v view, piece []shape.Point, at shape.Point, room float64, top svg.Point, broad bool, texts ...string) textBox {
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
func (s *sheet) lineIn(d *svg.Drawing, c svg.Point, wide, tall, pt float64, bold bool, texts ...string) textBox {
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
