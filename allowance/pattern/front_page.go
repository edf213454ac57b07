package pattern

import (
	"fmt"
	"hash/fnv"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Sizes of the front, in user units.
const (
	frontGap   = 24.0 // between groups
	frontMark  = 6.0  // radius of a tick
	leastBar   = 6.0  // distance of bars
	frontRed   = "#c00000"
	frontGreen = "#1a6b2f"
)

// frontView is a front on the page.
type frontView struct {
	*unfolding
	d      *svg.Drawing
	id     string // begins the names of what is referred to
	scale  float64
	corner []svg.Point // of every group, its upper left
	tiles  map[string]frontTile
	taken  []mapBox // by marks and texts
	figure []mapBox // by motifs
	listed []entry
	small  bool // a repeat is too small to draw
	top    float64
}

// page draws the front.
func (u *unfolding) page() (string, error) {
	width := float64(u.Width)
	v := &frontView{unfolding: u, id: u.name(), tiles: map[string]frontTile{}}
	v.fit(width - 2*mapMargin)
	y := 30.0
	keys, y := v.keys(y, width)
	v.top = y - 8
	bottom := v.place(y, width)
	v.d = svg.New(width, 1, u.Title)
	if err := v.photos(); err != nil {
		return "", err
	}
	v.drawPieces()
	v.marks()
	v.names()
	if v.small {
		v.listed = append(v.listed, entry{text: "A repeat too small to draw has no bars."})
	}
	for _, b := range v.taken {
		bottom = max(bottom, math.Ceil(b.bottom)+6)
	}
	lines := wrapEntries(v.listed, width-2*mapMargin)
	height := math.Ceil(bottom + float64(float64(len(lines))*(mapLine+1)) + mapMargin)
	drawn := v.d
	v.d = svg.New(width, height, u.Title)
	v.d.Rect(svg.Point{}, width, height, svg.Attrs("fill", "#fff")...)
	v.d.Write(svg.Point{X: mapMargin, Y: 22}, 14, "start", u.Title, svg.Attrs("font-weight", "bold")...)
	keys(v.d)
	v.d.Append(drawn)
	for _, l := range lines {
		bottom += mapLine + 1
		if l.head != "" {
			v.d.Write(svg.Point{X: mapMargin, Y: bottom - 4}, mapType, "start", l.head, svg.Attrs("font-weight", "bold")...)
		}
		v.d.Write(svg.Point{X: mapMargin + l.in, Y: bottom - 4}, mapType, "start", l.text)
	}
	return v.d.String(), nil
}

// name makes a name of what is drawn, so that two drawings on one page that share
// it share what it names.
func (u *unfolding) name() string {
	h := fnv.New64a()
	fmt.Fprint(h, u.Width, u.Title, len(u.Off)) //nolint:errcheck // a hash takes everything
	for _, p := range u.pieces {
		fmt.Fprint(h, p.Name, p.goods, p.Motif, p.Across, p.Along, p.ring, p.sights, p.at, p.group) //nolint:errcheck // as above
		h.Write(u.Cloths[p.goods].Photo)                                                            //nolint:errcheck // as above
		c := u.Cloths[p.goods]
		fmt.Fprint(h, c.Across, c.Along, c.Lower, c.Columns) //nolint:errcheck // as above
	}
	return fmt.Sprintf("front%016x", h.Sum64())
}

// fit finds the scale at which every group fits the width, and none is larger than
// it need be.
func (v *frontView) fit(width float64) {
	v.scale = math.Inf(1)
	for _, g := range v.groups {
		w, h := float64(max(g.high.X-g.low.X, 1)), float64(max(g.high.Y-g.low.Y, 1))
		v.scale = min(v.scale, width/w, 1.3*min(width, 480)/h, 0.75*min(width, 480)/math.Sqrt(float64(w*h)))
	}
}

// place lays the groups in rows below a height, and gives the height below them. A
// group goes into the first row that has room for it and is as high.
func (v *frontView) place(y, width float64) float64 {
	type row struct {
		groups     []int
		wide, high float64
	}
	size := func(g int) (w, h float64) {
		return float64(float64(v.groups[g].high.X-v.groups[g].low.X) * v.scale), float64(float64(v.groups[g].high.Y-v.groups[g].low.Y) * v.scale)
	}
	var rows []row
	for g := range v.groups {
		w, h := size(g)
		k := slices.IndexFunc(rows, func(r row) bool { return r.wide+frontGap+w <= width-2*mapMargin && h <= r.high+0.01 })
		if k < 0 {
			k = len(rows)
			rows = append(rows, row{wide: -frontGap, high: h})
		}
		rows[k].groups, rows[k].wide = append(rows[k].groups, g), rows[k].wide+frontGap+w
	}
	v.corner = make([]svg.Point, len(v.groups))
	for _, r := range rows {
		x := (width - r.wide) / 2
		for _, g := range r.groups { // feet level
			w, h := size(g)
			v.corner[g] = svg.Point{X: hundredth(x), Y: hundredth(y + r.high - h)}
			x += w + frontGap
		}
		y = math.Ceil(y + r.high + frontGap)
	}
	return y
}

// point brings a point of a piece to the page.
func (v *frontView) point(p frontPiece, q shape.Point) svg.Point {
	g, c := v.groups[p.group], v.corner[p.group]
	q = p.on(q)
	return svg.Point{X: hundredth(c.X + float64(float64(q.X-g.low.X)*v.scale)), Y: hundredth(c.Y + float64(float64(g.high.Y-q.Y)*v.scale))}
}

func (v *frontView) points(p frontPiece, ring []shape.Point) []svg.Point {
	out := make([]svg.Point, len(ring))
	for i, q := range ring {
		out[i] = v.point(p, q)
	}
	return out
}

// keys explains the marks that there are, as many to a line as fit; it gives what
// draws them and the y below.
func (v *frontView) keys(y, width float64) (func(*svg.Drawing), float64) {
	type key struct {
		at   svg.Point
		draw func(*svg.Drawing, svg.Point)
		text string
	}
	var all []key
	add := func(is bool, text string, draw func(*svg.Drawing, svg.Point)) {
		if is {
			all = append(all, key{draw: draw, text: text})
		}
	}
	runs, off := false, false
	for i, x := range v.flow.Crossings {
		_, p := v.at[x.From]
		_, q := v.at[x.To]
		runs, off = runs || p && q && v.off(i) == (shape.Point{}), off || p && q && v.off(i) != (shape.Point{})
	}
	add(runs, "the pattern runs on", func(d *svg.Drawing, p svg.Point) { tick(d, p, true) })
	add(off, "it is off by so much", func(d *svg.Drawing, p svg.Point) { tick(d, p, false) })
	add(slices.ContainsFunc(v.pieces, func(p frontPiece) bool { return len(p.sights) > 0 }), "pale: hidden behind the dashed line", func(d *svg.Drawing, p svg.Point) {
		d.Line(svg.Point{X: p.X - 9, Y: p.Y}, svg.Point{X: p.X + 9, Y: p.Y}, sightPen...)
	})
	add(slices.ContainsFunc(v.pieces, func(p frontPiece) bool { return p.Wish > 0 && v.figured(p) }), "dark: the motif asked for", func(d *svg.Drawing, p svg.Point) {
		d.Polygon(bud(p, 7), svg.Attrs("fill", "#000")...)
	})
	x := mapMargin
	y += 8
	for i := range all {
		wide := 24 + svg.TextWidth(all[i].text, mapType)
		if x > mapMargin && x+wide > width-mapMargin {
			x, y = mapMargin, y+mapLine+4
		}
		all[i].at = svg.Point{X: x, Y: y}
		x += wide + 14
	}
	return func(d *svg.Drawing) {
		for _, k := range all {
			k.draw(d, svg.Point{X: k.at.X + 9, Y: k.at.Y - 3.5})
			d.Write(svg.Point{X: k.at.X + 24, Y: k.at.Y}, mapType, "start", k.text)
		}
	}, y + 18
}

// tick draws the mark of a crossing.
func tick(d *svg.Drawing, p svg.Point, runs bool) {
	if runs {
		d.Circle(p, frontMark, svg.Attrs("class", "runs", "fill", "#fff", "stroke", frontGreen, "stroke-width", "0.9")...)
		d.Polyline([]svg.Point{{X: p.X - 3, Y: p.Y}, {X: p.X - 0.8, Y: p.Y + 2.6}, {X: p.X + 3.2, Y: p.Y - 2.8}}, svg.Attrs("fill", "none", "stroke", frontGreen, "stroke-width", "1.6")...)
		return
	}
	d.Circle(p, frontMark, svg.Attrs("class", "off", "fill", "#fff", "stroke", frontRed, "stroke-width", "1.2")...)
	for _, s := range []float64{-1, 1} {
		d.Line(svg.Point{X: p.X - 2.6, Y: p.Y - float64(2.6*s)}, svg.Point{X: p.X + 2.6, Y: p.Y + float64(2.6*s)}, svg.Attrs("stroke", frontRed, "stroke-width", "1.6")...)
	}
}

// marks draws what becomes of the pattern at every crossing: once where its two
// points lie on each other, else at both.
func (v *frontView) marks() {
	type note struct {
		at   svg.Point
		text string
	}
	var notes []note
	for i, x := range v.flow.Crossings {
		a, drawn := v.at[x.From]
		b, both := v.at[x.To]
		if !drawn || !both {
			continue
		}
		p, q := v.pieces[a], v.pieces[b]
		places := []svg.Point{v.point(p, x.FromAt)}
		if p.group != q.group || p.on(x.FromAt) != q.on(x.ToAt) {
			places = append(places, v.point(q, x.ToAt))
		}
		off := v.off(i)
		text := v.offText(off)
		if x.Seam != "" {
			text = x.Seam + ": " + text
		}
		for _, at := range places {
			tick(v.d, at, off == (shape.Point{}))
			v.taken = append(v.taken, boxAbout(at, 2*frontMark+1, 2*frontMark+1))
			if off != (shape.Point{}) {
				notes = append(notes, note{at, text})
			}
		}
		if off != (shape.Point{}) {
			at := "seam " + x.Seam
			if x.Seam == "" {
				at = "meet"
			}
			v.listed = append(v.listed, entry{text: fmt.Sprintf("Cannot close at %s, %s to %s: out by %s.", at, strings.Join(x.FromEdge, " + "), strings.Join(x.ToEdge, " + "), v.offWords(off))})
		}
	}
	for _, n := range notes {
		v.beside(n.at, n.text, frontRed)
	}
}

// offText is short, offWords says which way.
func (v *frontView) offText(off shape.Point) string {
	x, y := max(off.X, -off.X), max(off.Y, -off.Y)
	switch {
	case y == 0:
		return v.Units.Length(x, unit.Nearest)
	case x == 0:
		return v.Units.Length(y, unit.Nearest)
	}
	return v.Units.Length(x, unit.Nearest) + " × " + v.Units.Length(y, unit.Nearest)
}

func (v *frontView) offWords(off shape.Point) string {
	var out []string
	if off.X != 0 {
		out = append(out, v.Units.Length(max(off.X, -off.X), unit.Nearest)+" across")
	}
	if off.Y != 0 {
		out = append(out, v.Units.Length(max(off.Y, -off.Y), unit.Nearest)+" along")
	}
	return strings.Join(out, " and ")
}
