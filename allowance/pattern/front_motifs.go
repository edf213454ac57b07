package pattern

import (
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Pens of the front.
var (
	sightPen   = svg.Attrs("class", "sight", "stroke", "#000", "stroke-width", "1.1", "stroke-dasharray", "5 3", "fill", "none")
	seenBar    = svg.Attrs("class", "bar", "stroke", "#7a7a7a", "stroke-width", "0.8")
	hiddenBar  = svg.Attrs("class", "hidden bar", "stroke", "#d8d8d8", "stroke-width", "0.7")
	hiddenArea = svg.Attrs("class", "hidden", "fill", "#f3f3f3", "stroke", "#b0b0b0", "stroke-width", "0.7")
)

// frontTile is a photo of a cloth on the page.
type frontTile struct {
	id            string
	across, along float64
}

// photos puts the photo of each cloth into the drawing once.
func (v *frontView) photos() error {
	for _, p := range v.pieces {
		cloth := v.Cloths[p.goods]
		if _, done := v.tiles[p.goods]; done || len(cloth.Photo) == 0 {
			continue
		}
		data, across, along, err := cloth.tile()
		if err != nil {
			return unit.InField("cloths["+p.goods+"]", err)
		}
		t := frontTile{fmt.Sprintf("%s-%d", v.id, len(v.tiles)+1), across * v.scale, along * v.scale}
		v.tiles[p.goods] = t
		v.d.Tile(t.id, t.across, t.along)
		v.d.Image(svg.Point{}, t.across, t.along, data)
		v.d.End()
	}
	return nil
}

// shown is what of a piece is seen; all of one that is wholly hidden.
func (p frontPiece) shown() []shape.Point {
	if len(p.visible) == 0 {
		return p.ring
	}
	return p.visible
}

// drawPieces draws what is hidden, and over it what is seen.
func (v *frontView) drawPieces() {
	for k, p := range v.pieces {
		for i, h := range p.sights {
			if ring := h.opposite().keep(p.ring); ring != nil {
				v.drawPart(p, ring, fmt.Sprintf("%s-h%d-%d", v.id, k, i), true)
			}
		}
	}
	for k, p := range v.pieces {
		if p.visible != nil {
			v.drawPart(p, p.visible, fmt.Sprintf("%s-p%d", v.id, k), false)
		}
	}
	for _, p := range v.pieces {
		for _, h := range p.sights {
			for _, c := range chords(p.ring, h.at, shape.Point{X: -h.out.Y, Y: h.out.X}) {
				a, b := v.point(p, c[0]), v.point(p, c[1])
				v.d.Line(a, b, svg.Attrs("stroke", "#fff", "stroke-width", "2")...) // the border of what hides it
				v.d.Line(a, b, sightPen...)
			}
		}
	}
}

// drawPart draws a part of a piece with the pattern on it.
func (v *frontView) drawPart(p frontPiece, ring []shape.Point, id string, hidden bool) {
	border := v.points(p, ring)
	area, bar := svg.Attrs("class", "piece", "fill", "#fff", "stroke", "none"), seenBar
	if hidden {
		area, bar = hiddenArea, hiddenBar
	}
	v.d.Polygon(border, area...)
	if t, photo := v.tiles[p.goods]; photo {
		v.photo(p, border, t, hidden)
	} else {
		for _, b := range v.bars(p, ring) {
			v.d.Line(v.point(p, b[0]), v.point(p, b[1]), bar...)
		}
	}
	v.figures(p, ring, id, hidden)
	if !hidden {
		v.d.Polygon(border, svg.Attrs("class", "seam", "fill", "none", "stroke", "#000", "stroke-width", "1.2")...)
	}
}

// photo fills a part with the photo, a motif of which has a corner on that of the
// piece.
func (v *frontView) photo(p frontPiece, border []svg.Point, t frontTile, hidden bool) {
	m := v.point(p, p.Motif)
	// From the nearest repeat: the numbers stay small.
	m.X, m.Y = hundredth(m.X-float64(t.across*math.Floor(m.X/t.across))), hundredth(m.Y-float64(t.along*math.Floor(m.Y/t.along)))
	for i := range border {
		border[i].X, border[i].Y = border[i].X-m.X, border[i].Y-m.Y
	}
	v.d.Group(svg.Attrs("transform", "translate("+svg.Number(m.X)+" "+svg.Number(m.Y)+")")...)
	pale := "1"
	if hidden {
		pale = "0.3"
	}
	v.d.Polygon(border, svg.Attrs("class", "photo", "fill", "url(#"+t.id+")", "fill-opacity", pale, "stroke", "none")...)
	v.d.End()
	for i := range border {
		border[i].X, border[i].Y = border[i].X+m.X, border[i].Y+m.Y
	}
}

// binds tells in which directions the pattern lies fast on a piece and is large
// enough to draw.
func (v *frontView) binds(p frontPiece) (across, along bool) {
	c := v.Cloths[p.goods]
	across = p.Across.Number > 0 && c.Across > 0
	along = p.Along.Number > 0 && c.Along > 0
	return across && float64(c.Across)*v.scale >= leastBar, along && float64(c.Along)*v.scale >= leastBar
}

// figured tells whether a piece has figures.
func (v *frontView) figured(p frontPiece) bool {
	across, along := v.binds(p)
	return across && along && len(v.Cloths[p.goods].Photo) == 0
}

// bars gives the bars on a part of a piece: up every column of motifs, and through
// the motifs of each, as wide as it is.
func (v *frontView) bars(p frontPiece, ring []shape.Point) (out [][2]shape.Point) {
	c := v.Cloths[p.goods]
	across, along := v.binds(p)
	v.small = v.small || !across && p.Across.Number > 0 && c.Across > 0 || !along && p.Along.Number > 0 && c.Along > 0
	box := boxOf(ring)
	up, right := shape.Point{Y: unit.Metre}, shape.Point{X: unit.Metre}
	if across {
		first, last := c.columnsIn(float64(p.Motif.X), float64(box.Low.X), float64(box.High.X))
		for i := first; i <= last; i++ {
			out = append(out, chords(ring, shape.Point{X: p.Motif.X + unit.Length(i)*c.Across}, up)...)
		}
	}
	switch {
	case !along:
	case !across:
		// In any column: every height at which one has a motif.
		c.Along /= unit.Length(max(c.Columns, 1))
		c.Columns = 0
		for _, y := range c.rowsIn(0, float64(p.Motif.Y), float64(box.Low.Y), float64(box.High.Y)) {
			out = append(out, chords(ring, shape.Point{Y: unit.Length(math.Round(y))}, right)...)
		}
	default:
		first, last := c.columnsIn(float64(p.Motif.X), float64(box.Low.X-c.Across/2), float64(box.High.X+c.Across/2))
		for i := first; i <= last; i++ {
			x := p.Motif.X + unit.Length(i)*c.Across
			for _, y := range c.rowsIn(i, float64(p.Motif.Y), float64(box.Low.Y), float64(box.High.Y)) {
				for _, b := range chords(ring, shape.Point{Y: unit.Length(math.Round(y))}, right) {
					b[0].X, b[1].X = max(b[0].X, x-c.Across/2), min(b[1].X, x+c.Across/2)
					if b[0].X < b[1].X {
						out = append(out, b)
					}
				}
			}
		}
	}
	return out
}

// figures draws a figure at every motif on a part of a piece, cut off at its border;
// on a photo the motifs are only noted, so that names keep off them.
func (v *frontView) figures(p frontPiece, ring []shape.Point, id string, hidden bool) {
	across, along := v.binds(p)
	if !across || !along {
		return
	}
	c := v.Cloths[p.goods]
	size := min(max(0.3*float64(min(c.Across, c.Along))*v.scale, 3), 10)
	border := v.points(p, ring)
	open := false
	for _, at := range p.motifs(c, boxOf(ring), unit.Length(size/v.scale)) {
		figure := bud(v.point(p, at), size)
		if !slices.ContainsFunc(figure, func(q svg.Point) bool { return within(mapBox{q.X, q.Y, q.X, q.Y}, border) }) {
			continue
		}
		if !hidden {
			v.figure = append(v.figure, boxOfPoints(figure))
		}
		if len(c.Photo) > 0 {
			continue
		}
		if !open {
			v.d.Clip(id)
			v.d.Polygon(border)
			v.d.End()
			v.d.Group(svg.Attrs("clip-path", "url(#"+id+")")...)
			open = true
		}
		fill := "#8a8a8a"
		switch {
		case hidden:
			fill = "#d8d8d8"
		case p.Wish > 0 && at == p.Motif:
			fill = "#000"
		}
		v.d.Polygon(figure, svg.Attrs("class", "motif", "fill", fill)...)
	}
	if open {
		v.d.End()
	}
}

// motifs gives the motifs in a box of the piece and round it.
func (p frontPiece) motifs(c Cloth, in Box, round unit.Length) []shape.Point {
	var out []shape.Point
	first, last := c.columnsIn(float64(p.Motif.X), float64(in.Low.X-round), float64(in.High.X+round))
	for i := first; i <= last; i++ {
		for _, y := range c.rowsIn(i, float64(p.Motif.Y), float64(in.Low.Y-round), float64(in.High.Y+round)) {
			out = append(out, shape.Point{X: p.Motif.X + unit.Length(i)*c.Across, Y: unit.Length(math.Round(y))})
		}
	}
	return out
}

// bud is the figure of a motif: a bud on its stem, with two leaves, of a height of
// twice the size.
func bud(at svg.Point, size float64) []svg.Point {
	half := [][2]float64{{0, -1}, {0.34, -0.45}, {0.28, -0.08}, {0.07, 0.02}, {0.07, 0.55}, {0.58, 0.1}, {0.5, 0.62}, {0.07, 0.95}}
	out := make([]svg.Point, 0, 2*len(half))
	for _, p := range half {
		out = append(out, svg.Point{X: hundredth(at.X + float64(p[0]*size)), Y: hundredth(at.Y + float64(p[1]*size))})
	}
	for _, p := range slices.Backward(half[1:]) {
		out = append(out, svg.Point{X: hundredth(at.X - float64(p[0]*size)), Y: hundredth(at.Y + float64(p[1]*size))})
	}
	return out
}
