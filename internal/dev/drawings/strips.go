package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// boxing shows the strip round a cushion, its joins and the zip at the back.
func boxing() (*sheet, error) {
	const width, depth = 22 * unit.Inch, 20 * unit.Inch
	plate, err := shape.Rectangle(width, depth)
	if err != nil {
		return nil, err
	}
	corner := func(name string, at unit.Length) made.RingCorner { return made.RingCorner{Name: name, At: at} }
	b := made.Boxing{
		Perimeter: plate.Perimeter(), Depth: 4 * unit.Inch, Zip: true,
		Corners: []made.RingCorner{corner("back and left", width/2), corner("left and front", width/2+depth),
			corner("front and right", width/2+depth+width), corner("right and back", width/2+2*depth+width)},
	}
	const longest = 41 * unit.Inch
	c, err := b.Cut(made.Goods{Across: longest, Directed: true})
	if err != nil {
		return nil, err
	}
	s := newSheet(536, "Boxing with its joins and the zip")
	y := s.given("Plate 22 x 20 in at the stitch line, boxing 4 in",
		"high, longest piece "+inch(longest)+". From above:")
	joins := make([]unit.Length, len(c.Joins))
	for i, j := range c.Joins {
		joins[i] = j.At
	}
	s.boxingRound(view{x: 120, y: y + 176, scale: 8}, width, depth, joins)
	y += 208
	s.bold(margin, y, "Pieces to cut")
	def, _ := allowance.BoxedSeam.Default()
	zip, _ := allowance.ZipSeam.Default()
	y = s.boxingPieces(y+14, c.Strips(), def, zip)
	s.legend(y+10, key{cutLine, "cut"}, key{seamLine, "seam"}, key{thick, "join"}, key{zipLine, "zip"})
	s.lines(margin, y+36, "Seams "+inch(def)+", along the zip "+inch(zip)+"; zip tape "+inch(c.Tape)+".",
		"All pieces "+squareInches(c.Area)+".")
	return s, nil
}

// roundPlate gives the place d round a plate from the middle of its back, by
// the right side, and one a little outside it.
func roundPlate(v view, width, depth, d unit.Length) (on, outside svg.Point) {
	const out = 8
	d += width / 2
	if d > 2*(width+depth) {
		d -= 2 * (width + depth)
	}
	switch {
	case d <= width:
		p := v.at(d, depth)
		return p, place(p.X, p.Y-out)
	case d <= width+depth:
		p := v.at(width, width+depth-d)
		return p, place(p.X+out, p.Y)
	case d <= 2*width+depth:
		p := v.at(2*width+depth-d, 0)
		return p, place(p.X, p.Y+out)
	}
	p := v.at(0, d-2*width-depth)
	return p, place(p.X-out, p.Y)
}

// boxingRound draws the boxing from above, with its joins and the zip from
// the last join through the back to the first.
func (s *sheet) boxingRound(v view, width, depth unit.Length, joins []unit.Length) {
	at := func(d unit.Length) (svg.Point, svg.Point) { return roundPlate(v, width, depth, 2*(width+depth)-d) }
	s.Rect(v.at(0, depth), v.length(width), v.length(depth), filled(cutLine, cloth)...)
	a, _ := at(joins[len(joins)-1])
	z, _ := at(joins[0])
	s.Polyline([]svg.Point{a, v.at(width, depth), v.at(0, depth), z}, filled(zipLine, "none")...)
	for _, j := range joins {
		p, q := at(j)
		s.Line(place(2*p.X-q.X, 2*p.Y-q.Y), q, thick...)
		dx, anchor := 6.0, "start"
		if q.X < p.X {
			dx, anchor = -6, "end"
		}
		s.write(q.X+dx, q.Y+5, inch(j), anchor, textSize, "")
	}
	p0, q0 := at(0)
	s.Line(p0, q0, cutLine...)
	s.middle(q0.X, q0.Y-4, "0")
	m := v.at(width/2, depth)
	s.middle(m.X, m.Y+20, "back, zip across")
	m = v.at(width/2, 0)
	s.middle(m.X, m.Y-10, "front")
	s.middle(m.X, v.at(0, depth/2).Y, "joins, from the middle")
	s.middle(m.X, v.at(0, depth/2).Y+18, "of the back round, by the left")
}

// boxingPieces draws the pieces to cut one below the other and gives where
// they end.
func (s *sheet) boxingPieces(y float64, pieces []made.Strip, def, zip unit.Length) float64 {
	w := view{x: margin, scale: 9}
	for _, p := range pieces {
		h, l := w.length(p.Width), w.length(p.Length)
		s.Rect(place(w.x, y), l, h, filled(cutLine, cloth)...)
		seam := w.length(def)
		mid := y + h/2 + 5
		if p.Use == "zip panel" {
			s.Rect(place(w.x+seam, y+seam), l-2*seam, h-seam-w.length(zip), filled(seamLine, paper)...)
			mid = y + (h+seam-w.length(zip))/2 + 4.5
		} else {
			s.Rect(place(w.x+seam, y+seam), l-2*seam, h-2*seam, filled(seamLine, paper)...)
		}
		text := fmt.Sprintf("%d x %s, %s x %s", p.Count, p.Use, inch(p.Width), inch(p.Length))
		if l > 230 {
			s.middle(w.x+l/2, mid, text)
		} else {
			s.left(w.x+l+10, mid, text)
		}
		y += h + 14
	}
	return y
}

// welt shows the strip round a cord.
func welt() (*sheet, error) {
	in := made.WeltStrip{Cord: unit.Inch / 4, Cloth: unit.Inch / 16}
	tail, _ := allowance.WeltedSeam.Default()
	width, err := in.Width()
	if err != nil {
		return nil, err
	}
	bare := in
	bare.Seam = allowance.Exactly(0)
	girth, err := bare.Width()
	if err != nil {
		return nil, err
	}
	in.Step = unit.Inch / 8
	cut, err := in.Width()
	if err != nil {
		return nil, err
	}
	s := newSheet(426, "Welt strip round a cord")
	y := s.given("Cord d = "+inch(in.Cord)+", cloth t = "+inch(in.Cloth)+",",
		"tail s = "+inch(tail)+" (the default of a welted seam).")
	v := view{x: 150, y: y + 80, scale: 190}
	o := v.at(0, 0)
	r, t := v.length(in.Cord)/2, v.length(in.Cloth)
	// cloth round the cord, then both tails lying together
	s.Rect(place(o.X, o.Y-t), r+v.length(tail), 2*t, filled(thin, cloth)...)
	s.Circle(o, r+t, filled(thin, cloth)...)
	s.Rect(place(o.X+r+1, o.Y-t+0.5), t+6, 2*t-1, svg.Attr{Name: "fill", Value: cloth})
	s.Line(place(o.X+r, o.Y), place(o.X+r+v.length(tail), o.Y), thin...)
	s.Circle(o, r, filled(thin, paper)...)
	s.Circle(o, r+t/2, filled(seamLine, "none")...)
	s.Line(place(o.X+r+3, o.Y-t-14), place(o.X+r+3, o.Y+t+14), seamLine...)
	s.middle(o.X, o.Y+5, "cord")
	s.left(o.X+r+9, o.Y-t-8, "stitches")
	s.under(o.X-r, o.X+r, o.Y+r+t+10, "d")
	s.under(o.X+r, o.X+r+v.length(tail), o.Y+r+t+10, "s")
	s.Line(place(o.X+r+v.length(tail), o.Y+t), place(o.X+r+v.length(tail), o.Y+r+t+14), hair...)
	s.upright(o.X+r+v.length(tail)+12, o.Y-t, o.Y+t, "2 t")
	s.left(margin, y+14, "middle of the cloth")
	s.pointer(place(margin+66, y+19), place(o.X-(r+t/2)*0.8, o.Y-(r+t/2)*0.6))
	y = o.Y + 104
	s.bold(margin, y, "The strip laid flat")
	w := view{x: 34, scale: 176}
	y += 34
	full := w.length(width)
	s.Rect(place(w.x, y), full, 60, filled(cutLine, cloth)...)
	for _, x := range [2]float64{w.length(tail), w.length(tail + girth)} {
		s.Line(place(w.x+x, y), place(w.x+x, y+60), seamLine...)
	}
	s.across(w.x, w.x+w.length(tail), y-8, "s "+inch(tail))
	s.across(w.x+w.length(tail), w.x+w.length(tail+girth), y-8, "π (d + t) "+hundredths(girth))
	s.across(w.x+w.length(tail+girth), w.x+full, y-8, "s "+inch(tail))
	s.under(w.x, w.x+full, y+70, "width "+hundredths(width))
	s.lines(margin, y+112, "Cut "+inch(cut)+" wide, rounded up to the next "+inch(in.Step)+".")
	return s, nil
}

// biasTube shows the square for a continuous bias strip.
func biasTube() (*sheet, error) {
	const strip, seam, want = unit.Inch, unit.Inch / 4, 95 * unit.Inch
	sq, err := made.BiasSquareFor(want, strip, seam)
	if err != nil {
		return nil, err
	}
	tube, err := made.BiasTube{Width: sq.Side, Height: sq.Side, Strip: strip, Seam: seam}.Yield()
	if err != nil {
		return nil, err
	}
	step, err := made.LongestBias(strip) // the strip's width along a side
	if err != nil {
		return nil, err
	}
	side := sq.Side
	s := newSheet(710, "Continuous bias strip from a square")
	y := s.given("At least "+inch(want)+" of strip "+inch(strip)+" wide, seams "+inch(seam)+".",
		"Square of "+hundredths(side)+" a side.")
	s.bold(margin, y+8, "1  Cut the square from corner to corner")
	v := view{x: 60, y: y + 202, scale: 17}
	s.Rect(v.at(0, side), v.length(side), v.length(side), filled(cutLine, cloth)...)
	s.Line(v.at(0, 0), v.at(side, side), cutLine...)
	a, b := v.at(0, 0), v.at(side, 0)
	s.under(a.X, b.X, a.Y+9, hundredths(side))
	a, b = v.at(0, side/2), v.at(side, side/2)
	s.right(a.X-8, a.Y, "A")
	s.left(b.X+8, b.Y, "A")
	p := v.at(2*side/3, side/4)
	s.middle(p.X, p.Y, "1")
	p = v.at(side/3, 3*side/4)
	s.middle(p.X, p.Y, "2")
	s.lines(290, y+90, "A and A are", "sewn together,", "face to face")
	y += 254
	s.bold(margin, y, "2  Sew A to A and mark the strips")
	w := view{x: 16, y: y + 232, scale: 18.6}
	right := 2*side - 2*seam
	s.Polygon([]svg.Point{w.at(0, 0), w.at(side-seam, 0), w.at(side-seam, seam), w.at(right, side), w.at(side-seam, side), w.at(side-seam, side-seam)},
		filled(cutLine, cloth)...)
	s.Line(w.at(side-seam, 0), w.at(side-seam, side), stroke("#000", 1, "2 3")...)
	for _, h := range [2]unit.Length{seam, side - seam} {
		s.Line(w.at(h, h), w.at(side-2*seam+h, h), seamLine...)
	}
	for i := range sq.Turns + 1 {
		x := seam + unit.Length(i)*step
		s.Line(w.at(x, seam), w.at(x+side-2*seam, side-seam), thin...)
		foot, head := w.at(x, 0), w.at(x+side-2*seam, side)
		s.middle(foot.X, foot.Y+16, fmt.Sprint(i))
		s.middle(head.X, head.Y-8, fmt.Sprint(i))
	}
	p = w.at(0, side/2)
	s.left(p.X, p.Y-40, "marks "+hundredths(step))
	s.left(p.X, p.Y-22, "apart")
	y = w.y + 44
	s.bold(margin, y, "3  Sew the top to the bottom, one strip on")
	s.lines(margin, y+20,
		fmt.Sprintf("Top 0 meets bottom 1, 1 meets 2, to %d meets %d: a tube", sq.Turns-1, sq.Turns),
		"that is cut round and round along the marks.",
		fmt.Sprintf("%d turns, %s of strip, %s of what the area holds.", tube.Strips, inch(tube.Length), tube.Share.PercentText(0, unit.Nearest)))
	s.legend(y+82, key{seamLine, "top, bottom seam"}, key{stroke("#000", 1, "2 3"), "seam A"})
	return s, nil
}
