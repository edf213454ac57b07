package layout

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// hideTolerance is that of curves in a drawing.
const hideTolerance = unit.Millimetre / 4

// hidePage is the drawing of a hide in the making.
type hidePage struct {
	draughtsman
	view
	letters lettering
	plan    Plan
	hide    int
	lie     bool // the neck to the right
	datum   HideDatum
	marks   []HideMark
	parts   [][][]svg.Point // of each mark, what lies on the hide
	border  []svg.Point
	// low and high are the corners of the box round the hide, in its axes.
	boxLow, boxHigh shape.Point
	noteSize        float64 // of letters and what is left over
	offcuts         [][]svg.Point
	unsaid          []string
}

// hide draws one hide of a plan, the grain side up and the neck up: border, grid, marks,
// zones, holes, pieces as they lie, left-overs, and below it how to read it. A hide much
// longer than wide lies on its side, the neck to the right, which fills the page better.
func (s draughtsman) hide(plan Plan, hide int) (string, error) {
	p, err := s.newHidePage(plan, hide)
	if err != nil {
		return "", err
	}
	p.write()
	p.writeLeftOver()
	foot := p.foot()
	top := p.top + float64(float64(p.high.Y-p.low.Y)*p.scale) + belowHide
	d := svg.New(s.wide, top+foot.high(), fmt.Sprintf("Cutting layout of %s, hide %s", s.Title, hideName(plan, hide)))
	if err := p.ground(d); err != nil {
		return "", err
	}
	p.cuts(d)
	p.spoilt(d)
	p.rulers(d)
	p.letters.draw(d)
	foot.draw(d, top)
	return d.String(), nil
}

func hideName(plan Plan, hide int) string {
	if id := plan.Hides[hide].ID; id != "" {
		return id
	}
	return fmt.Sprint(hide + 1)
}

// The rims of the drawing of a hide: for the rulers and for the word at the neck.
const (
	besideHide = 40.0
	belowHide  = 36.0
	neckRim    = 16.0
)

func (s draughtsman) newHidePage(plan Plan, hide int) (*hidePage, error) {
	p := &hidePage{draughtsman: s, plan: plan, hide: hide}
	whole, err := plan.Hides[hide].Shape()
	if err != nil {
		return nil, err
	}
	if p.datum, err = plan.HideDatum(hide); err != nil {
		return nil, err
	}
	if p.marks, err = plan.HideMarks(hide); err != nil {
		return nil, err
	}
	p.boxLow, p.boxHigh = whole.Bounds()
	p.lie = float64(p.boxHigh.Y-p.boxLow.Y) > 1.3*float64(p.boxHigh.X-p.boxLow.X)
	low, high := boundsOf(p.turned([]shape.Point{p.boxLow, p.boxHigh}))
	w, h := float64(max(high.X-low.X, 1)), float64(max(high.Y-low.Y, 1))
	scale := min((s.wide-besideHide-neckRim)/w, s.wide*0.92/h)
	left := besideHide + (s.wide-besideHide-neckRim-float64(w*scale))/2
	p.view = view{low: low, high: high, left: left, top: neckRim, scale: scale}
	p.letters = lettering{sizes: []float64{labelType, noteType}, heads: []float64{8, 5.5}}
	p.letters.sheet = quad{svg.Point{X: left + float64(w*scale)/2, Y: neckRim + float64(h*scale)/2}, svg.Point{X: 1}, w * scale / 2, h * scale / 2}
	p.noteSize = noteType
	return p, p.lines()
}

// lines brings what is on the hide to the page.
func (p *hidePage) lines() error {
	k := p.plan.Hides[p.hide]
	whole, err := k.Shape()
	if err != nil {
		return err
	}
	if p.border, err = p.outline(whole); err != nil {
		return err
	}
	marks, err := markOutlines(k)
	if err != nil {
		return err
	}
	p.parts = nil
	for _, o := range marks {
		parts, err := p.onHide(o)
		if err != nil {
			return err
		}
		p.parts = append(p.parts, parts)
	}
	p.letters.bars = [][]svg.Point{p.border}
	for _, h := range k.Holes {
		line, err := p.outline(h)
		if err != nil {
			return err
		}
		p.letters.bars = append(p.letters.bars, line)
	}
	return nil
}

// turned brings points of the hide to the page.
func (p *hidePage) turned(l []shape.Point) []shape.Point {
	out := slices.Clone(l)
	for i, q := range out {
		if p.lie {
			out[i] = shape.Point{X: q.Y, Y: -q.X}
		}
	}
	return out
}

// spot brings a point of the hide to the page.
func (p *hidePage) spot(q shape.Point) svg.Point { return p.at(p.turned([]shape.Point{q})[0]) }

// outline brings an outline on the hide to the page.
func (p *hidePage) outline(o shape.Outline) ([]svg.Point, error) {
	points, err := o.Flatten(hideTolerance)
	return p.line(p.turned(points)), err
}

// write finds the places of all that is written: on the pieces, beside those that are too
// small, at the marks, and on what is left over.
func (p *hidePage) write() {
	var outlines [][]shape.Point
	on := p.plan.On(p.hide)
	for _, q := range on {
		outlines = append(outlines, p.turned(q.Outline))
		p.letters.pieces = append(p.letters.pieces, p.line(outlines[len(outlines)-1]))
	}
	for i, m := range p.marks {
		for _, line := range p.parts[i] {
			if !m.Zone {
				low, high := boxRound(line)
				p.letters.shy = append(p.letters.shy, quad{svg.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}, svg.Point{X: 1}, (high.X - low.X) / 2, (high.Y - low.Y) / 2})
				continue
			}
			for k, a := range line {
				p.letters.shy = append(p.letters.shy, thread(a, line[(k+1)%len(line)]))
			}
		}
	}
	var small []int
	for i, q := range on {
		if !p.letters.label(p.view, outlines[i], topOf(q.Turned, p.lie), p.text(q)) {
			small = append(small, i)
		}
	}
	for i, m := range p.marks {
		p.letter(m, p.parts[i])
	}
	for _, i := range small {
		if t := p.letters.name(p.view, outlines[i], p.text(on[i])); t != "" {
			p.unsaid = append(p.unsaid, t)
		}
	}
}

// writeLeftOver finds the places of the sizes of what is left over.
func (p *hidePage) writeLeftOver() {
	for _, o := range p.plan.Offcuts {
		if o.Hide != p.hide {
			continue
		}
		box := p.offcut(o)
		size := p.size(o.Width, o.Length, unit.Down)
		mid := svg.Point{X: (box[0].X + box[2].X) / 2, Y: (box[0].Y + box[2].Y) / 2}
		if p.letters.on(box, mid, []float64{p.noteSize}, form{[]string{"left over", size}, 0}, form{[]string{"left over " + size}, 0}, form{[]string{size}, 0}) {
			p.offcuts = append(p.offcuts, box)
		}
	}
}

func (p *hidePage) offcut(o Offcut) []svg.Point {
	return p.line(p.turned([]shape.Point{{X: o.X, Y: o.Y}, {X: o.X + o.Width, Y: o.Y}, {X: o.X + o.Width, Y: o.Y + o.Length}, {X: o.X, Y: o.Y + o.Length}}))
}

// leftOver gives the left-over rectangles on the hide.
func (p *hidePage) leftOver() [][]svg.Point {
	var out [][]svg.Point
	for _, o := range p.plan.Offcuts {
		if o.Hide == p.hide {
			out = append(out, p.offcut(o))
		}
	}
	return out
}

// text gives what may be written on a piece.
func (p *hidePage) text(q Place) pieceText {
	l := p.label(p.plan, q.Piece)
	w, h := p.plan.Job.Pieces[q.Piece].Outline.Size()
	t := pieceText{number: l.Number, name: l.Name, size: p.size(w, h, unit.Up)}
	if q.Mirrored {
		t.hand = mirroredShort
	}
	return t
}

// letter writes the letter of a mark on it or beside it: what of it lies on the hide.
func (p *hidePage) letter(m HideMark, parts [][]svg.Point) {
	f := form{[]string{m.Letter}, 1}
	for _, line := range parts {
		low, high := boxRound(line)
		mid := svg.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
		if !m.Zone {
			if p.letters.beside([]svg.Point{mid}, max(high.X-low.X, high.Y-low.Y)/2, p.noteSize, true, f) {
				return
			}
			continue
		}
		// What lies on a zone has its own text: the letter stands where nothing does.
		v := viewOf(line, svg.Point{X: 1})
		wide, tall := f.measure(p.noteSize)
		for _, over := range [][][]svg.Point{p.leftOver(), nil} {
			for _, c := range v.net(wide+3, tall+3, mid) {
				q := quad{c, v.along, wide, tall}
				if q.grown(3).insideOf(line) && p.letters.clear(q, false) && !slices.ContainsFunc(over, q.grown(2).cutBy) {
					p.letters.put(writing{f, p.noteSize, q})
					return
				}
			}
		}
		if p.letters.beside([]svg.Point{mid}, 0, p.noteSize, true, f) {
			return
		}
	}
}

// cuts draws the pieces and the two points that each is measured out by.
func (p *hidePage) cuts(d *svg.Drawing) {
	for _, line := range p.letters.pieces {
		d.Polygon(line, svg.Attrs("class", "piece", "fill", "#fff", "stroke", "#000", "stroke-width", "1.1")...)
	}
	p.grid(d)
	places, err := p.plan.HidePlaces(p.hide)
	if err != nil {
		return // a piece without an outline is not drawn either
	}
	for _, q := range places {
		d.Circle(p.spot(q.Points[0].At), 2.2, svg.Attrs("class", "first", "fill", "#000", "stroke", "#000", "stroke-width", "0.7")...)
		d.Circle(p.spot(q.Points[1].At), 2.2, svg.Attrs("class", "second", "fill", "#fff", "stroke", "#000", "stroke-width", "0.9")...)
	}
}

// ground draws the hide with its rim, its zones, its holes and what is left over.
func (p *hidePage) ground(d *svg.Drawing) error {
	k := p.plan.Hides[p.hide]
	d.Polygon(p.border, svg.Attrs("class", "hide", "fill", "#ececec", "stroke", "#000", "stroke-width", "1.6")...)
	if k.Border > 0 {
		g, err := newGround(k, p.plan.Tolerance)
		if err != nil {
			return err
		}
		d.Polygon(p.line(p.turned(pointsOf(g.outer, nestStep))), svg.Attrs("class", "rim", "fill", "none", "stroke", "#777", "stroke-width", "0.6")...)
	}
	for _, box := range p.offcuts {
		d.Polygon(box, svg.Attrs("class", "offcut", "fill", "#fafafa", "stroke", "#555", "stroke-width", "0.8", "stroke-dasharray", "3 3")...)
	}
	for _, h := range k.Holes {
		line, err := p.outline(h)
		if err != nil {
			return err
		}
		d.Polygon(line, svg.Attrs("class", "hole", "fill", "#fff", "stroke", "#000", "stroke-width", "1")...)
	}
	return nil
}

// spoilt draws the zones and the marks in the leather, over the pieces that lie on them.
func (p *hidePage) spoilt(d *svg.Drawing) {
	texts := p.letters.boxes()
	for i, m := range p.marks {
		for _, line := range p.parts[i] {
			if m.Zone {
				for _, part := range brokenRing(line, texts) {
					d.Polyline(part, svg.Attrs("class", "zone", "fill", "none", "stroke", "#000", "stroke-width", "0.9", "stroke-dasharray", "1.5 2.5")...)
				}
				continue
			}
			d.Polygon(line, svg.Attrs("class", "defect", "fill", "none", "stroke", "#000", "stroke-width", "0.8")...)
			for _, h := range hatchOf(m.Severity).hatch(line, 1) {
				for _, part := range broken(h[0], h[1], texts) {
					d.Line(part[0], part[1], svg.Attrs("class", m.Severity.String(), "stroke", "#000", "stroke-width", "0.6")...)
				}
			}
		}
	}
}

// onHide gives what of an outline lies on the hide.
func (p *hidePage) onHide(o shape.Outline) ([][]svg.Point, error) {
	whole, err := p.plan.Hides[p.hide].Shape()
	if err != nil {
		return nil, err
	}
	var rings [2]geom.Ring
	for i, o := range []shape.Outline{whole, o} {
		points, err := o.Flatten(hideTolerance)
		if err != nil {
			return nil, err
		}
		rings[i] = roundSteps(points)
	}
	parts, err := common(rings[0], rings[1])
	if err != nil {
		return nil, plainGeom(err)
	}
	out := make([][]svg.Point, len(parts))
	for i, part := range parts {
		out[i] = p.line(p.turned(pointsOf(part.Outer, nestStep)))
	}
	return out, nil
}

// topOf gives the direction to the top of a piece on the page. An angle is
// anticlockwise from the neck, which is up, or on the right of a hide that is
// drawn lying.
func topOf(angle unit.Angle, lie bool) svg.Point {
	sin, cos := geom.SinCos(wholeTurn(angle).Radians())
	if lie {
		return svg.Point{X: cos, Y: -sin}
	}
	return svg.Point{X: -sin, Y: -cos}
}

// view maps the axes of a hide, y up, to a drawing, y down.
type view struct {
	low, high shape.Point
	left, top float64
	scale     float64 // user units for each nanometre
}

func (v view) at(p shape.Point) svg.Point {
	return svg.Point{X: v.left + float64(float64(p.X-v.low.X)*v.scale), Y: v.top + float64(float64(v.high.Y-p.Y)*v.scale)}
}

func (v view) line(l []shape.Point) []svg.Point {
	out := make([]svg.Point, len(l))
	for i, q := range l {
		out[i] = v.at(q)
	}
	return out
}

func boundsOf(points []shape.Point) (low, high shape.Point) {
	for i, q := range points {
		if i == 0 {
			low, high = q, q
		}
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
		high.X, high.Y = max(high.X, q.X), max(high.Y, q.Y)
	}
	return low, high
}

// boxRound gives the corners of the box round points of a page.
func boxRound(points []svg.Point) (low, high svg.Point) {
	for i, q := range points {
		if i == 0 {
			low, high = q, q
		}
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
		high.X, high.Y = max(high.X, q.X), max(high.Y, q.Y)
	}
	return low, high
}

// words say what a mark is, and which pieces lie on it though it is there.
func (p *hidePage) words(m HideMark) string {
	text := m.Letter + "  "
	if m.Zone {
		text += listed(", ", m.Name, "zone of "+m.Grade.String()+" leather")
	} else {
		text += joined(m.Kind.String(), "("+severityWord(m.Severity)+")")
	}
	text += ", its middle " + p.where(m.Middle)
	if m.Note != "" {
		text += ": " + m.Note
	}
	return text + p.over(m) + "."
}

// over says which pieces lie on a mark, and what they allow.
func (p *hidePage) over(m HideMark) string {
	var names []string
	count := map[string]int{} // read by key only
	for _, c := range m.Over {
		q := slices.IndexFunc(p.plan.Places, func(q Place) bool { return q.Piece == c.Piece && q.Copy == c.Copy })
		t := p.text(p.plan.Places[q])
		name := t.short()
		if t.number != "" && t.name != "" {
			name += " (" + t.name + ")"
		}
		of := p.plan.Job.Pieces[c.Piece]
		if m.Zone {
			name += ", which allows " + of.Least.String() + " leather"
		} else {
			name += ", which allows " + severityWord(of.Worst) + "s"
		}
		if count[name]++; count[name] == 1 {
			names = append(names, name)
		}
	}
	text := ""
	for i, n := range names {
		text += map[bool]string{true: ". It lies under ", false: "; under "}[i == 0] + n
		if count[n] > 1 {
			text += fmt.Sprintf(" (%d of them)", count[n])
		}
	}
	return text
}

func severityWord(s material.Severity) string { return s.String() + " mark" }

// where says where a place is found with a tape.
func (p *hidePage) where(s HideSpot) string {
	side := "from the left edge"
	switch {
	case p.datum.Backbone && s.Left:
		side = "left of the backbone"
	case p.datum.Backbone:
		side = "right of the backbone"
	case s.Left:
		side = "left of the left edge"
	}
	return p.length(s.Across) + " " + side + ", " + p.length(s.FromTail) + " from the tail end"
}
