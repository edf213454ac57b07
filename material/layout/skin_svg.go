package layout

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// SVG draws one skin of the plan to scale, neck end up: its outline, border,
// holes, marks by severity, grades, and every panel with its name, an arrow to
// its top and a mark where it is mirrored; usable offcuts with their size.
// Small panels have a number that a list under the picture explains. Lengths
// are written in inches, or in millimetres. An index out of range wraps
// unit.ErrRange; a plan that Verify refuses is an error.
func (p SkinPlan) SVG(skin int, in unit.System) (string, error) {
	if err := in.Check(); err != nil {
		return "", err
	}
	if err := check.Count("skin", skin, 0, len(p.Skins)-1); err != nil {
		return "", err
	}
	t, err := newTable(p.Skins, p.Panels, NestOptions{Tolerance: p.Tolerance})
	if err != nil {
		return "", err
	}
	if err := p.verify(t); err != nil {
		return "", err
	}
	border, err := p.Skins[skin].Shape()
	if err != nil {
		return "", err
	}
	on := p.On(skin)
	low, high := border.Bounds()
	const wide, tall = 700.0, 860.0
	scale := min(wide/float64(high.X-low.X), tall/float64(high.Y-low.Y))
	const head, foot = 44.0, 78.0
	w, h := max(float64(high.X-low.X)*scale, 420), float64(high.Y-low.Y)*scale
	left := sheetMargin + (w-float64(high.X-low.X)*scale)/2
	s := &sheet{scale: scale, inch: in == unit.Inches}
	s.at = func(q shape.Point) svg.Point {
		return svg.Point{X: left + float64(float64(q.X-low.X)*scale), Y: head + float64(float64(high.Y-q.Y)*scale)}
	}
	// The list of keys is as long as the pieces need; draw once to count.
	s.d = svg.New(1, 1, "")
	s.skin(p, skin, border, on)
	keys := s.list(0, 0, w)
	total := head + h + foot + keys
	s.keys = nil
	s.d = svg.New(w+2*sheetMargin, total, "Cutting plan on "+skinName(p.Skins[skin], skin))
	s.d.Rect(svg.Point{}, w+2*sheetMargin, total, attr("fill", "#fff")...)
	s.text(svg.Point{X: sheetMargin, Y: 18}, 14, 0, skinTitle(p.Skins[skin], skin, in), attr("font-weight", "bold")...)
	s.text(svg.Point{X: sheetMargin, Y: 34}, 10, 0, p.skinLine(t, skin, on))
	s.skin(p, skin, border, on)
	y := head + h + 18
	s.scaleBar(sheetMargin, y)
	s.legend(sheetMargin, y+20, w, p.Skins[skin])
	s.list(sheetMargin, y+57, w)
	return s.d.String(), nil
}

func skinName(s material.Skin, i int) string {
	if s.ID != "" {
		return s.ID
	}
	return fmt.Sprintf("skin %d", i+1)
}

func skinTitle(s material.Skin, i int, in unit.System) string {
	out := skinName(s, i)
	if s.Kind != material.MeasuredSkin && !strings.HasPrefix(out, s.Kind.String()) {
		out += ", " + s.Kind.String()
	}
	a := s.SoldArea().Decimal(unit.SquareFoot, 1, unit.Nearest)
	if in == unit.Metric {
		a = s.SoldArea().Decimal(unit.SquareMetre, 2, unit.Nearest)
	}
	out += ", " + a
	if s.Thickness != 0 {
		out += ", " + s.Thickness.Decimal(unit.Millimetre, 1, unit.Nearest)
	}
	return out
}

// skinLine says what lies on a skin.
func (p SkinPlan) skinLine(t *table, skin int, on []SkinPlacement) string {
	if len(on) == 0 {
		return "nothing is cut from this skin"
	}
	var placed unit.Area
	for _, q := range on {
		placed += p.Panels[q.Panel].Outline.Area()
	}
	usable, err := t.usable(skin)
	if err != nil {
		usable = 0
	}
	panels := "panels"
	if len(on) == 1 {
		panels = "panel"
	}
	return fmt.Sprintf("%d %s, %s of the usable ground; arrows point to the top of a panel; neck end up, grain side up",
		len(on), panels, share(placed, usable).PercentText(0, unit.Nearest))
}

// skin draws everything on the skin.
func (s *sheet) skin(p SkinPlan, skin int, border shape.Outline, on []SkinPlacement) {
	k := p.Skins[skin]
	outline := s.outline(border)
	s.d.Polygon(outline, attr("fill", "#fbf8f2", "stroke", inkColour, "stroke-width", "1.8", "stroke-linejoin", "round")...)
	for _, z := range k.Zones {
		for _, part := range s.inside(border, z.Outline) {
			s.grade(part, z.Grade)
		}
	}
	for _, r := range k.Stretch {
		if r.Outline.IsZero() {
			continue
		}
		for _, part := range s.inside(border, r.Outline) {
			s.d.Polygon(part, attr("fill", "none", "stroke", "#888", "stroke-width", "0.7", "stroke-dasharray", "1 4")...)
			if b, ok := newMask(part, -90).room([]string{"  "}, false); ok {
				s.stretchArrow(b.mid, r.Direction, 10)
			}
		}
	}
	for _, o := range p.Offcuts {
		if o.Skin == skin {
			s.offcut(o)
		}
	}
	for _, q := range on {
		panel := p.Panels[q.Panel]
		name := panel.Name
		if name == "" {
			name = fmt.Sprintf("panel %d", q.Panel+1)
		}
		if panel.Count > 1 {
			name += fmt.Sprintf(" %d", q.Copy+1)
		}
		w, h := panel.Outline.Size()
		s.piece(s.line(q.Outline), name, s.size(w, h), q.Mirrored, -90-float64(q.Angle))
	}
	for _, z := range k.Zones { // the border of a grade shows on panels too
		if z.Grade != k.Grade {
			for _, part := range s.inside(border, z.Outline) {
				s.d.Polygon(part, attr("fill", "none", "stroke", "#666", "stroke-width", "0.8", "stroke-dasharray", "7 4")...)
			}
		}
	}
	if k.Border > 0 {
		if t, err := ringOf(border, -1, k.Border, p.Tolerance, nestStep, true); err == nil {
			s.d.Polygon(s.line(pointsOf(t, nestStep)), attr("fill", "none", "stroke", "#888", "stroke-width", "0.7", "stroke-dasharray", "3 3")...)
		}
	}
	for _, d := range k.Defects {
		if o, err := d.Border(); err == nil {
			s.mark(s.outline(o), d.Weight())
		}
	}
	for _, h := range k.Holes {
		s.mark(s.outline(h), material.ThroughMark)
	}
}

// outline flattens an outline for the page.
func (s *sheet) outline(o shape.Outline) []svg.Point {
	pts, err := o.Flatten(unit.Millimetre)
	if err != nil {
		return nil
	}
	return s.line(pts)
}

// inside gives the parts of a region that lie on the skin.
func (s *sheet) inside(border, region shape.Outline) [][]svg.Point {
	a, errA := border.Flatten(unit.Millimetre)
	b, errB := region.Flatten(unit.Millimetre)
	if errA != nil || errB != nil {
		return nil
	}
	parts, err := common(gridRing(a), gridRing(b))
	if err != nil {
		return nil
	}
	var out [][]svg.Point
	for _, p := range parts {
		line := make([]svg.Point, len(p.Outer))
		for i, q := range p.Outer {
			line[i] = s.at(shape.Point{X: unit.Length(q.X), Y: unit.Length(q.Y)})
		}
		out = append(out, line)
	}
	return out
}

// grade hatches a region: the poorer, the denser.
func (s *sheet) grade(pts []svg.Point, g material.Grade) {
	thin := attr("stroke", "#b8b2a6", "stroke-width", "0.6")
	switch g {
	case material.GoodGrade:
		s.hatch(pts, 16, false, thin...)
	case material.FairGrade:
		s.hatch(pts, 9, false, thin...)
	case material.RoughGrade:
		s.hatch(pts, 9, false, thin...)
		s.hatch(pts, 9, true, thin...)
	}
}

// mark draws a mark by its severity.
func (s *sheet) mark(pts []svg.Point, v material.Severity) {
	switch v {
	case material.FaintMark:
		s.d.Polygon(pts, attr("fill", "none", "stroke", "#444", "stroke-width", "0.9", "stroke-dasharray", "1 2")...)
	case material.PlainMark:
		s.d.Polygon(pts, attr("fill", "none", "stroke", "#222", "stroke-width", "1", "stroke-dasharray", "4 2")...)
	case material.DeepMark:
		s.d.Polygon(pts, attr("fill", "#fff", "fill-opacity", "0.6", "stroke", "#111", "stroke-width", "1.3")...)
		s.hatch(pts, 3.5, true, attr("stroke", "#333", "stroke-width", "0.8")...)
	case material.ThroughMark:
		s.d.Polygon(pts, attr("fill", "#333", "stroke", "#000", "stroke-width", "1")...)
	}
}

// offcut draws a clear rectangle with its size.
func (s *sheet) offcut(o SkinOffcut) {
	a := s.at(shape.Point{X: o.X, Y: o.Y + o.Length})
	w, h := float64(o.Width)*s.scale, float64(o.Length)*s.scale
	s.d.Rect(a, w, h, attr("fill", "none", "stroke", "#777", "stroke-width", "0.8", "stroke-dasharray", "2 3")...)
	box := []svg.Point{a, {X: a.X + w, Y: a.Y}, {X: a.X + w, Y: a.Y + h}, {X: a.X, Y: a.Y + h}}
	m := newMask(box, -90)
	size := s.size(o.Width, o.Length)
	for _, lines := range [][]string{{"left over", size}, {size}} {
		if b, ok := m.room(lines, false); ok && b.pt >= leastPoint {
			b.pt = min(b.pt, 10)
			s.block(b, lines, noArrow)
			return
		}
	}
	key := []string{s.key("left over, " + size)}
	if b, ok := m.room(key, false); ok {
		b.pt = min(b.pt, 10)
		s.block(b, key, noArrow)
	}
}

// legend explains the marks that the skin has, in two lines if need be.
func (s *sheet) legend(left, y, width float64, k material.Skin) {
	x := left
	box := func(text string, draw func(pts []svg.Point)) {
		if x > left && x+21+float64(len(text))*9*charWidth > left+width {
			x, y = left, y+15
		}
		draw([]svg.Point{{X: x, Y: y - 9}, {X: x + 16, Y: y - 9}, {X: x + 16, Y: y + 1}, {X: x, Y: y + 1}})
		s.text(svg.Point{X: x + 21, Y: y}, 9, 0, text)
		x += 32 + float64(len(text))*9*charWidth
	}
	box("panel", func(pts []svg.Point) {
		s.d.Polygon(pts, attr("fill", "#e9ece6", "stroke", inkColour, "stroke-width", "1.2")...)
	})
	has := map[material.Severity]bool{material.ThroughMark: len(k.Holes) > 0}
	for _, d := range k.Defects {
		has[d.Weight()] = true
	}
	for v, text := range []string{material.FaintMark: "faint mark", material.PlainMark: "plain mark", material.DeepMark: "deep mark", material.ThroughMark: "hole"} {
		if has[material.Severity(v)] {
			box(text, func(pts []svg.Point) { s.mark(pts, material.Severity(v)) })
		}
	}
	graded := map[material.Grade]bool{}
	for _, z := range k.Zones {
		graded[z.Grade] = true
	}
	for g := material.GoodGrade; g <= material.RoughGrade; g++ {
		if graded[g] {
			box(g.String()+" grade", func(pts []svg.Point) {
				s.grade(pts, g)
				s.d.Polygon(pts, attr("fill", "none", "stroke", "#666", "stroke-width", "0.8", "stroke-dasharray", "7 4")...)
			})
		}
	}
	if k.Border > 0 {
		box("edge not used", func(pts []svg.Point) {
			s.d.Polyline(pts[:2], attr("fill", "none", "stroke", "#888", "stroke-width", "0.7", "stroke-dasharray", "3 3")...)
		})
	}
	for _, r := range k.Stretch { // one for the regions, one for the rest
		if r.Outline.IsZero() {
			box("gives most", func(pts []svg.Point) { s.stretchArrow(svg.Point{X: pts[0].X + 8, Y: pts[0].Y + 5}, r.Direction, 8) })
		}
	}
	if slices.ContainsFunc(k.Stretch, func(r material.StretchRegion) bool { return !r.Outline.IsZero() }) {
		box("region that gives otherwise", func(pts []svg.Point) {
			s.d.Polygon(pts, attr("fill", "none", "stroke", "#888", "stroke-width", "0.7", "stroke-dasharray", "1 4")...)
		})
	}
	if k.Grade != material.PrimeGrade {
		box(k.Grade.String()+" grade elsewhere", func([]svg.Point) {})
	}
}
