package main

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// photographed is a panel among eight marks, seen from the front at 35 degrees, as
// somebody clicked it.
func photographed() shape.PhotoForm {
	mark := func(seen photo.Pixel, x, y unit.Length) shape.PhotoMark {
		return shape.PhotoMark{Seen: seen, At: &shape.Point{X: x * unit.Millimetre, Y: y * unit.Millimetre}}
	}
	return shape.PhotoForm{
		Width: 4000, Height: 3000,
		Marks: []shape.PhotoMark{
			mark(photo.Pixel{X: 991, Y: 2108}, -340, -250), mark(photo.Pixel{X: 2000, Y: 2110}, 0, -250), mark(photo.Pixel{X: 3009, Y: 2107}, 340, -250),
			mark(photo.Pixel{X: 2885, Y: 1500}, 340, 0), mark(photo.Pixel{X: 2776, Y: 976}, 340, 280), mark(photo.Pixel{X: 2000, Y: 976}, 0, 280),
			mark(photo.Pixel{X: 1224, Y: 976}, -340, 280), mark(photo.Pixel{X: 1115, Y: 1500}, -340, 0),
		},
		Edges: []shape.PhotoEdge{
			{Name: "front", Points: []photo.Pixel{{X: 1167, Y: 1947}}},
			{Name: "right", Points: []photo.Pixel{{X: 2862, Y: 1947}, {X: 2750, Y: 1711}, {X: 2691, Y: 1503}, {X: 2674, Y: 1317}}, Curve: true},
			{Name: "crown", Points: []photo.Pixel{{X: 2693, Y: 1148}, {X: 2354, Y: 1095}, {X: 2000, Y: 1077}, {X: 1646, Y: 1095}}, Curve: true},
			{Name: "left", Points: []photo.Pixel{{X: 1307, Y: 1148}}},
		},
	}
}

// photoOfPanel shows a photo with its marks, and the outline that it tells.
func photoOfPanel() (*sheet, error) {
	form := photographed()
	taken, err := shape.Form{Photo: &form, Tolerance: unit.Millimetre / 2}.Taped()
	if err != nil {
		return nil, err
	}
	o, e := taken.Outline, taken.Tolerance.Photo
	var page photo.Page
	for _, m := range form.Marks {
		page = append(page, photo.Mark{Seen: m.Seen, At: *m.At})
	}
	seen, err := photo.See(form.Width, form.Height, []photo.Page{page}, photo.Options{})
	if err != nil {
		return nil, err
	}
	ring, err := o.Flatten(0)
	if err != nil {
		return nil, err
	}
	s := newSheet(640, "A panel from a photo")
	s.given("Above: a photo. The places of the rings are known;", "the dots were clicked. Below: the outline.")
	// The part of the picture that shows something: 2600 x 1500 pixels.
	const top, wide, shown = 86.0, pageWidth - 2*margin, 2600.0
	at := func(p photo.Pixel) svg.Point {
		return place(margin+float64(float64(p.X-700)*wide)/shown, top+float64(float64(p.Y-800)*wide)/shown)
	}
	s.Rect(place(margin, top), wide, wide*1500/shown, filled(thin, paper)...)
	border := make([]svg.Point, len(ring))
	for i, p := range ring {
		q, err := seen.Pixel(p)
		if err != nil {
			return nil, err
		}
		border[i] = at(q)
	}
	s.Polygon(border, filled(hair, cloth)...)
	for _, m := range form.Marks {
		s.Circle(at(m.Seen), 5, filled(stroke("#000", 2.4, ""), paper)...)
	}
	for _, edge := range form.Edges {
		for _, p := range edge.Points {
			s.Circle(at(p), 3, svg.Attr{Name: "fill", Value: "#000"})
		}
	}
	// The panel, true to scale.
	w, h := o.Size()
	low, high := o.Bounds()
	v := view{x: pageWidth/2 - 20, y: 500, scale: 10}
	s.Polygon(v.points(ring), filled(cutLine, cloth)...)
	for _, m := range form.Marks {
		s.Circle(v.point(*m.At), 5, filled(stroke("#000", 2.4, ""), paper)...)
	}
	a, b := v.point(low), v.point(high)
	s.under(a.X, b.X, a.Y+42, inch(w))
	s.upright(b.X+32, b.Y, a.Y, inch(h))
	s.middle((a.X+b.X)/2, (a.Y+b.Y)/2, "within "+hundredths(e.Outline)+",")
	s.middle((a.X+b.X)/2, (a.Y+b.Y)/2+18, "95 times in 100")
	return s, nil
}
