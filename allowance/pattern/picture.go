package pattern

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Picture says how a pattern is drawn small, on a page. The zero value is a
// drawing with its sizes, 330 wide.
type Picture struct {
	Title string `json:"title,omitempty"` // read out by screen readers; the name when empty
	Units Units  `json:"units,omitzero"`
	// Width and Height are what the drawing may take up, in user units of
	// 1/96 in, up to 10 000. Zero means 330 by 197, and for a plain drawing 60
	// by 36. A drawing takes up all of its width and as much height as it needs.
	Width  int `json:"width,omitzero"`
	Height int `json:"height,omitzero"`
	// Scale is drawn to true size, so that several pieces may be drawn alike;
	// zero draws the piece as large as it fits. Up to 1, and up to what fits.
	Scale unit.Ratio `json:"scale,omitzero"`
	// Plain leaves out all but the cut line, the seam line and the arrow.
	Plain bool `json:"plain,omitzero"`
	// Letters are written in a ring at the middle of the edges they name.
	Letters map[string]string `json:"letters,omitempty"`
}

// pixel is the user unit of pictures.
const pixel = unit.Inch / 96

// The room round the panel: beside it and above and below it for the dimension
// lines, and the least height between those above and below.
const (
	besidePanel = 36.0
	roundPanel  = 35.0
	leastPanel  = 46.0
	roundPlain  = 2.0
	pen         = 3.0 // user units for each millimetre of the pen
)

// Picture draws the piece as SVG: its lines, notches, marks and grain, the cut
// size below and on the left, rounded up, and the size between seam lines above
// and on the right, to the nearest step. Errors are those of Check, and of o at
// the field picture.
func (p Pattern) Picture(o Picture) (string, error) {
	if err := p.ready(o.Units); err != nil {
		return "", err
	}
	o, err := o.checked()
	if err != nil {
		return "", unit.InField("picture", err)
	}
	scale, err := o.scale(p)
	if err != nil {
		return "", unit.InField("picture", err)
	}
	if o.Title == "" {
		o.Title = p.title()
	}
	if o.Plain {
		return p.plain(o, scale), nil
	}
	return p.sized(o, scale), nil
}

// ScaleOf gives the scale at which a plain picture of the piece fits o; the least
// of several pieces is one for all of them.
func (o Picture) ScaleOf(p Pattern) (unit.Ratio, error) {
	if err := p.Check(); err != nil {
		return 0, err
	}
	o, err := o.checked()
	if err != nil {
		return 0, unit.InField("picture", err)
	}
	return unit.Ratio(min(o.fit(p)*float64(pixel), 1)), nil
}

// checked fills in what is not given.
func (o Picture) checked() (Picture, error) {
	width, height := 330, 197
	if o.Plain {
		width, height = 60, 36
	}
	if o.Width == 0 {
		o.Width = width
	}
	if o.Height == 0 {
		o.Height = height
	}
	least := 2 * (besidePanel + 1)
	if o.Plain {
		least = 2 * (roundPlain + 1)
	}
	if err := check.Count("width", o.Width, int(least), 10_000); err != nil {
		return o, err
	}
	if err := check.Count("height", o.Height, int(least), 10_000); err != nil {
		return o, err
	}
	return o, check.Ratio("scale", o.Scale, 0, 1)
}

// scale gives user units for each nanometre.
func (o Picture) scale(p Pattern) (float64, error) {
	fit := o.fit(p)
	if o.Scale == 0 {
		return fit, nil
	}
	scale := float64(o.Scale) / float64(pixel)
	if scale > fit*1.001 { // the scale of ScaleOf was rounded
		return 0, check.Refuse("scale", o.Scale.String(), unit.ErrRange, "one at which the piece fits")
	}
	return scale, nil
}

// fit is the scale at which a piece takes up the drawing.
func (o Picture) fit(p Pattern) float64 {
	beside, round := besidePanel, roundPanel
	if o.Plain {
		beside, round = roundPlain, roundPlain
	}
	b := p.Bounds()
	return min((float64(o.Width)-2*beside)/float64(max(b.High.X-b.Low.X, 1)), (float64(o.Height)-2*round)/float64(max(b.High.Y-b.Low.Y, 1)))
}

// view maps the axes of a panel, y up, to a drawing, y down.
type view struct {
	box       Box
	left, top float64
	scale     float64 // user units for each nanometre
}

func (v view) at(q shape.Point) svg.Point {
	return svg.Point{X: v.left + float64(float64(q.X-v.box.Low.X)*v.scale), Y: v.top + float64(float64(v.box.High.Y-q.Y)*v.scale)}
}

func (p Pattern) plain(o Picture, scale float64) string {
	b := p.Bounds()
	w, h := float64(float64(b.High.X-b.Low.X)*scale), float64(float64(b.High.Y-b.Low.Y)*scale)
	d := svg.New(float64(o.Width), h+2*roundPlain, o.Title)
	v := view{b, (float64(o.Width) - w) / 2, roundPlain, scale}
	thin := 2.0
	if min(w, h) < 8 {
		thin = 1.3
	}
	lines := byKind(p.Lines())
	drawLines(d, lines[CutLine], v.at, thin, "#f4f4f4")
	drawLines(d, lines[SeamLine], v.at, thin/2, "none")
	if h > 14 && w > 14 {
		d.Arrow(v.at(p.Grain.Foot), v.at(p.Grain.Head), 3.5, svg.Attrs("stroke", "#000", "stroke-width", "0.7")...)
	}
	return d.String()
}

func (p Pattern) sized(o Picture, scale float64) string {
	b := p.Bounds()
	wide, long := float64(float64(b.High.X-b.Low.X)*scale), float64(float64(b.High.Y-b.Low.Y)*scale)
	height := max(long, leastPanel) + 2*roundPanel
	d := svg.New(float64(o.Width), height, o.Title)
	v := view{b, (float64(o.Width) - wide) / 2, (height - long) / 2, scale}
	lines := byKind(p.Lines())
	drawLines(d, lines[CutLine], v.at, pen, "#fff")
	drawLines(d, lines[TrimLine], v.at, pen, "none")
	for _, l := range rings(p.Finished) {
		points := make([]svg.Point, len(l))
		for i, q := range l {
			points[i] = v.at(q)
		}
		d.Area([][]svg.Point{points}, svg.Attrs("class", "finished", "fill", "none", "stroke", "#777", "stroke-width", "0.8", "stroke-dasharray", "1 2")...)
	}
	drawLines(d, lines[SeamLine], v.at, pen, "none")
	drawLines(d, lines[NotchLine], v.at, pen, "none")
	// Marks and the head of the arrow keep their size on the page.
	for _, m := range p.Marks {
		c := v.at(m)
		d.Line(svg.Point{X: c.X - 3, Y: c.Y}, svg.Point{X: c.X + 3, Y: c.Y}, svg.Attrs("stroke", "#000", "stroke-width", "1")...)
		d.Line(svg.Point{X: c.X, Y: c.Y - 3}, svg.Point{X: c.X, Y: c.Y + 3}, svg.Attrs("stroke", "#000", "stroke-width", "1")...)
	}
	p.dimensions(d, v, o.Units)
	taken := pictured{within: mapBox{v.left, v.top, v.left + wide, v.top + long}}
	taken.put(v, slices.Concat(lines[CutLine], lines[TrimLine], lines[SeamLine], lines[NotchLine]))
	for _, l := range rings(p.Finished) {
		taken.put(v, []Line{{Closed: true, Points: l}})
	}
	for _, m := range p.Marks {
		taken.boxes = append(taken.boxes, boxAbout(v.at(m), 8, 8))
	}
	for i, m := range p.edgeMiddles() {
		if o.Letters[p.Edges[i].Name] != "" {
			taken.boxes = append(taken.boxes, boxAbout(v.at(p.inwards(m, 11/scale)), 17, 17))
		}
	}
	taken.grain(d, v.at(p.Grain.Foot), v.at(p.Grain.Head))
	for i, m := range p.edgeMiddles() {
		if t := o.Letters[p.Edges[i].Name]; t != "" {
			at := v.at(p.inwards(m, 11/scale))
			d.Circle(at, 7.5, svg.Attrs("fill", "#fff", "stroke", "#000", "stroke-width", "0.8")...)
			d.Write(svg.Point{X: at.X, Y: at.Y + 3.6}, 10.5, "middle", t)
		}
	}
	return d.String()
}

// dimensions draws the sizes of the cut and the seam line.
func (p Pattern) dimensions(d *svg.Drawing, v view, u Units) {
	low, high := v.at(v.box.Low), v.at(v.box.High)
	left, right, top, bottom := low.X, high.X, high.Y, low.Y
	w, l := p.size()
	d.Dimension(svg.Point{X: left, Y: bottom + 20}, svg.Point{X: right, Y: bottom + 20}, u.Length(w, unit.Up), svg.Point{X: left, Y: bottom}, svg.Point{X: right, Y: bottom})
	d.Dimension(svg.Point{X: left - 18, Y: bottom}, svg.Point{X: left - 18, Y: top}, u.Length(l, unit.Up), svg.Point{X: left, Y: bottom}, svg.Point{X: left, Y: top})
	if len(p.Seam.Outer) == 0 {
		return
	}
	s := boxOf(p.Seam.Outer)
	a, b := v.at(s.Low), v.at(s.High)
	d.Dimension(svg.Point{X: a.X, Y: top - 14}, svg.Point{X: b.X, Y: top - 14}, u.Length(s.High.X-s.Low.X, unit.Nearest), svg.Point{X: a.X, Y: b.Y}, svg.Point{X: b.X, Y: b.Y})
	d.Dimension(svg.Point{X: right + 18, Y: a.Y}, svg.Point{X: right + 18, Y: b.Y}, u.Length(s.High.Y-s.Low.Y, unit.Nearest), svg.Point{X: b.X, Y: a.Y}, svg.Point{X: b.X, Y: b.Y})
}

// edgeStarts finds how far along the seam line each edge begins, and where the
// last one ends: the seam line begins with the first edge and the edges follow
// each other anticlockwise.
func (p Pattern) edgeStarts() []float64 {
	line := p.Seam.Outer
	if len(line) == 0 {
		return nil
	}
	var total, edges, before float64
	total = openLength(line)
	if a, b := line[len(line)-1], line[0]; !p.folded() {
		total += geom.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	}
	for _, e := range p.Edges {
		edges += float64(e.Length)
	}
	out := []float64{0}
	for _, e := range p.Edges {
		before += float64(e.Length)
		out = append(out, before/max(edges, 1)*total) // chords fall short of the edges
	}
	return out
}

// edgeMiddles finds where along the seam line each edge lies.
func (p Pattern) edgeMiddles() []shape.Point {
	starts := p.edgeStarts()
	var out []shape.Point
	for i := 1; i < len(starts); i++ {
		at, _ := lineAt(p.Seam.Outer, (starts[i-1]+starts[i])/2)
		out = append(out, at)
	}
	return out
}

// inwards moves a point of the seam line into the panel by some nanometres,
// square to the nearest part of the line; to the middle where that misses.
func (p Pattern) inwards(m shape.Point, by float64) shape.Point {
	line := p.Seam.Outer
	best, at := math.Inf(1), 0
	for i, a := range line {
		if far := distance(m, a, line[(i+1)%len(line)]); far < best {
			best, at = far, i
		}
	}
	a, b := line[at], line[(at+1)%len(line)]
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	long := max(geom.Hypot(dx, dy), 1)
	q := shape.Point{X: m.X - unit.Length(dy/long*by), Y: m.Y + unit.Length(dx/long*by)}
	if !inside(q, [][]shape.Point{line}) {
		c := p.Bounds()
		q = shape.Point{X: (c.Low.X + c.High.X) / 2, Y: (c.Low.Y + c.High.Y) / 2}
	}
	return q
}
