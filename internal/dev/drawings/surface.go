package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// channels shows the two profiles of a filled channel.
func channels() (*sheet, error) {
	const width, rise = 3 * unit.Inch, unit.Inch
	arc, err := shape.ArcFromChord(width, rise)
	if err != nil {
		return nil, err
	}
	round, err := shape.Chord(width, rise)
	if err != nil {
		return nil, err
	}
	flat, err := shape.Ellipse(width, 2*rise)
	if err != nil {
		return nil, err
	}
	s := newSheet(376, "Channels in section")
	y := s.given("Each channel "+inch(width)+" wide between seams, filled to",
		"rise "+inch(rise)+". The cloth follows the full line.")
	for i, p := range []struct {
		profile made.ChannelProfile
		outline shape.Outline
	}{{made.ArcProfile, round}, {made.EllipseProfile, flat}} {
		cover, err := made.ChannelCover(p.profile, width, rise)
		if err != nil {
			return nil, err
		}
		full, err := cover.Per(width)
		if err != nil {
			return nil, err
		}
		points, err := p.outline.Flatten(unit.Millimetre / 20)
		if err != nil {
			return nil, err
		}
		low, high := p.outline.Bounds()
		top := points[:0:0]
		base := high.Y - rise // the level of the seams
		for _, q := range points {
			if q.Y >= base {
				top = append(top, shape.Point{X: q.X - low.X, Y: q.Y - base})
			}
		}
		y0 := y + 66 + float64(160*i)
		for k := range 3 {
			v := view{x: 34 + 108*float64(k), y: y0, scale: 36}
			s.Polygon(v.points(ordered(top)), filled(stroke("#000", 0, ""), cloth)...)
			s.Polyline(v.points(ordered(top)), filled(cutLine, "none")...)
		}
		v := view{x: 34, y: y0, scale: 36}
		s.Line(v.at(0, 0), v.at(3*width, 0), thin...)
		for k := range 4 {
			q := v.at(unit.Length(k)*width, 0)
			s.Line(place(q.X, q.Y), place(q.X, q.Y+10), cutLine...)
		}
		s.under(v.x, v.x+v.length(width), y0+18, inch(width))
		s.upright(v.x+v.length(3*width)+8, y0-v.length(rise), y0, inch(rise))
		s.bold(margin, y0-48, p.profile.String())
		text := "cloth " + hundredths(cover) + ", " + times(full)
		if p.profile == made.ArcProfile {
			text += ", radius " + hundredths(arc.Radius)
		}
		s.left(margin, y0+54, text)
	}
	return s, nil
}

// ordered turns the corners of a closed upper half so that they run from one
// foot to the other.
func ordered(ps []shape.Point) []shape.Point {
	start := 0
	for i, p := range ps {
		if p.Y < ps[start].Y || (p.Y == ps[start].Y && p.X > ps[start].X) {
			start = i
		}
	}
	return append(append([]shape.Point{}, ps[start:]...), ps[:start]...)
}

// tufting shows the grid on the face and on the cloth.
func tufting() (*sheet, error) {
	in := made.Tufting{
		Width: 20 * unit.Inch, Height: 14 * unit.Inch, Border: unit.Inch,
		Across: 3, Down: 2, Depth: unit.Inch, Rule: made.TwiceDepth,
	}
	p, err := in.Plan()
	if err != nil {
		return nil, err
	}
	s := newSheet(684, "Diamond tufting: face and cloth")
	y := s.given(fmt.Sprintf("Panel %s x %s, border %s, %d x %d diamonds,", inch(in.Width), inch(in.Height), inch(in.Border), in.Across, in.Down),
		"buttons "+inch(in.Depth)+" deep, rule: "+in.Rule.String(),
		"("+p.Basis.Status.String()+").")
	grid := func(v view, onCloth bool) {
		at := func(r made.TuftRow, i int) svg.Point {
			if onCloth {
				return place(v.x+v.length(r.ClothX[i]), v.y+v.length(r.ClothY))
			}
			return place(v.x+v.length(r.FaceX[i]), v.y+v.length(r.FaceY))
		}
		for k, r := range p.Rows {
			for i := range r.FaceX {
				a := at(r, i)
				if k+1 < len(p.Rows) {
					next := p.Rows[k+1]
					for j := range next.FaceX {
						d := next.FaceX[j] - r.FaceX[i]
						if max(d, -d) < 3*p.DiamondWidth/4 {
							s.Line(a, at(next, j), seamLine...)
						}
					}
				}
			}
		}
		for _, r := range p.Rows {
			for i := range r.FaceX {
				s.Circle(at(r, i), 4, svg.Attr{Name: "fill", Value: "#000"})
			}
		}
	}
	const scale = 11
	s.bold(margin, y+8, "Face: mark the foam")
	v := view{x: 24, y: y + 40, scale: scale}
	s.Rect(place(v.x, v.y), v.length(in.Width), v.length(in.Height), filled(cutLine, "none")...)
	grid(v, false)
	s.across(v.x, v.x+v.length(in.Width), v.y-8, inch(in.Width))
	s.upright(v.x+v.length(in.Width)+10, v.y, v.y+v.length(in.Height), inch(in.Height))
	s.left(margin, v.y+v.length(in.Height)+20, "diamond "+inch(p.DiamondWidth)+" x "+inch(p.DiamondHeight))
	y = v.y + v.length(in.Height) + 52
	s.bold(margin, y, "Cloth: mark the back, same scale")
	// the tack edge lies outside the net panel
	tack := (p.CutWidth - p.NetWidth) / 2
	w := view{x: 24 + scale*tack.Inches(), y: y + 36 + scale*tack.Inches(), scale: scale}
	s.Rect(place(w.x-w.length(tack), w.y-w.length(tack)), w.length(p.CutWidth), w.length(p.CutHeight), filled(cutLine, cloth)...)
	s.Rect(place(w.x, w.y), w.length(p.NetWidth), w.length(p.NetHeight), filled(stroke("#000", 1, "2 3"), paper)...)
	grid(w, true)
	s.across(w.x-w.length(tack), w.x-w.length(tack)+w.length(p.CutWidth), w.y-w.length(tack)-8, inch(p.CutWidth))
	s.upright(w.x-w.length(tack)+w.length(p.CutWidth)+10, w.y-w.length(tack), w.y-w.length(tack)+w.length(p.CutHeight), inch(p.CutHeight))
	y = w.y - w.length(tack) + w.length(p.CutHeight) + 22
	y = s.lines(margin, y, "diamond "+inch(p.ClothDiamondWidth)+" x "+inch(p.ClothDiamondHeight)+"; tack edge "+inch(tack)+" all round",
		fmt.Sprintf("%d buttons; the rules differ, tuft a sample", p.Buttons))
	s.legend(y+4, key{cutLine, "cut"}, key{stroke("#000", 1, "2 3"), "edge of the net panel"}, key{seamLine, "fold"})
	return s, nil
}

// pleats shows the three folds in section.
func pleats() (*sheet, error) {
	const finished = 12 * unit.Inch
	s := newSheet(546, "Pleats in section")
	y := s.given("Each "+inch(finished)+" long when finished; u is the underfold.",
		"Seen from above, the face at the top, with the",
		"layers drawn apart.")
	const gap = 11.0
	for i, p := range []made.Pleats{
		{Kind: made.KnifePleat, Finished: finished, Count: 4, Underfold: 2 * unit.Inch},
		{Kind: made.BoxPleat, Finished: finished, Count: 2, Underfold: 3 * unit.Inch / 2},
		{Kind: made.InvertedPleat, Finished: finished, Count: 2, Underfold: 3 * unit.Inch / 2},
	} {
		c, err := p.Cloth()
		if err != nil {
			return nil, err
		}
		y0 := y + 52 + float64(150*i)
		v := view{x: 30, y: y0, scale: 29}
		at := func(x unit.Length, level int) svg.Point {
			q := v.at(x, 0)
			return place(q.X, y0+gap*float64(level))
		}
		var line []svg.Point
		u, sp := p.Underfold, c.Spacing
		var from, to svg.Point // of the underfold that is measured
		for k := range p.Count {
			x := unit.Length(k) * sp
			switch p.Kind {
			case made.KnifePleat:
				shift := func(q svg.Point, dx float64) svg.Point { return place(q.X+dx, q.Y) }
				if k == 0 {
					line = append(line, at(x, 0))
				} else {
					line = append(line, shift(at(x, 0), 6))
				}
				line = append(line, at(x+sp, 0), at(x+sp, 1), at(x+sp-u, 1), at(x+sp-u, 2))
				from, to = at(x+sp-u, 2), at(x+sp, 2)
				line = append(line, shift(at(x+sp, 2), 6))
			case made.BoxPleat:
				m := x + sp/2
				line = append(line, at(x, 2), at(m, 2))
				line = insideFold(line, at(m, 2), at(m, 1), -2)
				line = append(line, at(m-u, 1), at(m-u, 0), at(m+u, 0), at(m+u, 1))
				line = insideFold(line, at(m, 1), at(m, 2), 2)
				line = append(line, at(x+sp, 2))
				from, to = at(m, 2), at(m+u, 2)
			case made.InvertedPleat:
				m := x + sp/2
				line = append(line, at(x, 0))
				line = insideFold(line, at(m, 0), at(m, 1), -2)
				line = append(line, at(m-u, 1), at(m-u, 2), at(m+u, 2), at(m+u, 1))
				line = insideFold(line, at(m, 1), at(m, 0), 2)
				line = append(line, at(x+sp, 0))
				from, to = at(m, 2), at(m+u, 2)
			}
		}
		s.Polyline(line, filled(stroke("#000", 2.4, ""), "none")...)
		s.bold(margin, y0-32, fmt.Sprintf("%s, %d in the length", p.Kind, p.Count))
		s.under(from.X, to.X, y0+2*gap+12, "u "+inch(u))
		if p.Kind == made.KnifePleat {
			s.across(at(0, 0).X, at(sp, 0).X, y0-9, inch(sp))
		} else {
			s.across(at(sp/2, 0).X, at(3*sp/2, 0).X, y0-9, inch(sp))
		}
		s.left(margin, y0+2*gap+50, "spacing "+inch(sp)+"; cloth "+inch(c.Cloth)+", "+times(c.Ratio))
	}
	return s, nil
}

// insideFold goes round a fold at the middle of a pleat, kept clear of the
// fold that comes from the other side.
func insideFold(line []svg.Point, a, b svg.Point, apart float64) []svg.Point {
	return append(line, place(a.X+apart, a.Y), place(b.X+apart, b.Y))
}
