package main

import (
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// dome shows half a sphere, its gores from above and one gore flat.
func dome() (*sheet, error) {
	d := made.Dome{Radius: 10 * unit.Inch, Gores: 8, Intervals: 6}
	g, err := d.Gore()
	if err != nil {
		return nil, err
	}
	// the line is drawn through closer stations than the ones written
	fine := d
	fine.Intervals = 48
	smooth, err := fine.Gore()
	if err != nil {
		return nil, err
	}
	var st []shape.Station
	for _, t := range smooth.Stations {
		st = append(st, shape.Station{At: t.FromRim, Left: t.HalfWidth, Right: t.HalfWidth})
	}
	outline, err := shape.Stations(st, true)
	if err != nil {
		return nil, err
	}
	cut, err := allowance.Panel{Outline: outline, Corner: shape.ClippedCorner}.Cut()
	if err != nil {
		return nil, err
	}
	s := newSheet(736, "Dome from gores")
	y := s.given(fmt.Sprintf("Half a sphere, radius %s, %d gores, %s.", inch(d.Radius), g.Count, d.Form),
		"Seam allowance "+inch(cut.Edges[0].Allowance)+" all round.")
	v := view{x: 110, y: y + 80, scale: 7.6}
	o := v.at(0, 0)
	r := v.length(d.Radius)
	s.Circle(o, r, filled(cutLine, cloth)...)
	for i := range d.Gores {
		a := 2 * math.Pi * (float64(i) + 0.5) / float64(d.Gores)
		s.Line(o, place(o.X+r*math.Cos(a), o.Y+r*math.Sin(a)), seamLine...)
	}
	s.middle(o.X, o.Y+r+20, "from above")
	w := view{x: 310, y: o.Y + r/2, scale: 7.6}
	e := w.at(0, 0)
	var arc []svg.Point
	for i := range 61 {
		a := math.Pi * float64(i) / 60
		arc = append(arc, place(e.X+r*math.Cos(a), e.Y-r*math.Sin(a)))
	}
	s.Polygon(arc, filled(cutLine, cloth)...)
	s.measure(place(e.X-r, e.Y+10), place(e.X, e.Y+10))
	s.middle(e.X-r/2, e.Y+26, inch(d.Radius))
	s.middle(e.X, o.Y+r+20, "from the side")
	y = o.Y + r + 52
	s.bold(margin, y, "One gore, flat")
	s.right(pageWidth-margin, y, "from rim, half width")
	f := view{x: 100, y: y + 334, scale: 19}
	s.panel(f, cut)
	s.Line(f.at(0, 0), f.at(0, g.Length), hair...)
	for _, t := range g.Stations {
		p := f.at(t.HalfWidth, t.FromRim)
		s.Line(f.at(-t.HalfWidth, t.FromRim), p, thin...)
		s.Line(place(p.X+3, p.Y), place(230, p.Y), hair...)
		s.left(238, p.Y+5, hundredths(t.FromRim))
		s.right(pageWidth-margin, p.Y+5, hundredths(t.HalfWidth))
	}
	y = f.y + 36
	s.lines(margin, y, "seam line "+hundredths(g.Length)+" long, "+hundredths(g.Width)+" wide,",
		"cut "+hundredths(g.CutWidth)+" wide at the rim",
		"all gores inside the seam lines "+squareInches(g.TotalArea))
	s.legend(y+58, key{cutLine, "cut"}, key{seamLine, "seam"})
	return s, nil
}

// sector gives the points of a band laid flat about its middle, the centre of
// the circles at the origin and the wider edge at the bottom.
func sector(v view, outer, inner unit.Length, angle unit.Angle) (wide, narrow []svg.Point) {
	const steps = 90
	arc := func(r unit.Length) []svg.Point {
		var ps []svg.Point
		for i := range steps + 1 {
			a := angle.Radians() * (float64(i)/steps - 0.5)
			ps = append(ps, place(v.x+v.length(r)*math.Sin(a), v.y+v.length(r)*math.Cos(a)))
		}
		return ps
	}
	return arc(outer), arc(inner)
}

func backwards(ps []svg.Point) []svg.Point {
	out := make([]svg.Point, len(ps))
	for i, p := range ps {
		out[len(ps)-1-i] = p
	}
	return out
}

func degrees(a unit.Angle) string { return a.Decimal(unit.Degree, 1, unit.Nearest) }

// frustumSide draws a cone frustum from the side.
func (s *sheet) frustumSide(v view, c made.ConeFrustum, wideUp bool) {
	bottom, top := c.Large, c.Small
	if wideUp {
		bottom, top = top, bottom
	}
	s.Polygon([]svg.Point{v.at(-bottom, 0), v.at(bottom, 0), v.at(top, c.Height), v.at(-top, c.Height)}, filled(cutLine, cloth)...)
	p, q := v.at(0, 0), v.at(0, c.Height)
	s.under(p.X, p.X+v.length(bottom), p.Y+10, inch(bottom))
	s.across(q.X, q.X+v.length(top), q.Y-9, inch(top))
	s.Line(place(p.X, p.Y+5), place(q.X, q.Y-5), hair...)
	m := v.at(max(bottom, top), 0)
	s.upright(m.X+14, p.Y, q.Y, inch(c.Height))
}

// frustum shows a tapered band and the sector it unrolls to.
func frustum() (*sheet, error) {
	in := made.ConeFrustum{Large: 10 * unit.Inch, Small: 7 * unit.Inch, Height: 15 * unit.Inch / 2}
	d, err := in.Develop()
	if err != nil {
		return nil, err
	}
	s := newSheet(548, "Cone frustum laid flat")
	y := s.given("A round band: radius "+inch(in.Large)+" and "+inch(in.Small)+", "+inch(in.Height)+" high,", "all the way round.")
	v := view{x: 160, y: y + 98, scale: 10}
	s.frustumSide(v, in, false)
	y += 148
	s.bold(margin, y, "Seam line on the flat")
	f := view{x: pageWidth / 2, y: y + 24, scale: 7.4}
	wide, narrow := sector(f, d.Outer, d.Inner, d.Angle)
	s.Polygon(slices.Concat(wide, backwards(narrow)), filled(seamLine, cloth)...)
	o := place(f.x, f.y)
	s.Line(o, narrow[0], hair...)
	s.Line(o, narrow[len(narrow)-1], hair...)
	s.Circle(o, 3, svg.Attr{Name: "fill", Value: "#000"})
	s.middle(o.X, o.Y+60, degrees(d.Angle))
	mid := len(wide) / 2
	s.measure(narrow[mid], wide[mid])
	s.left(wide[mid].X+6, (narrow[mid].Y+wide[mid].Y)/2, "slant "+hundredths(d.Slant))
	y = wide[mid].Y + 26
	s.lines(margin, y,
		"wide edge: radius "+hundredths(d.Outer)+", arc "+hundredths(d.OuterArc),
		"narrow edge: radius "+hundredths(d.Inner)+", arc "+hundredths(d.InnerArc),
		"laid out evenly it needs "+hundredths(d.BoxWidth)+" x "+hundredths(d.BoxHeight),
		"area "+squareInches(d.Area)+", allowances come outside")
	return s, nil
}

// tubBand shows the band of a tub chair with its allowances.
func tubBand() (*sheet, error) {
	in := made.TubBand{
		Shape:  made.ConeFrustum{Large: 14 * unit.Inch, Small: 11 * unit.Inch, Height: 12 * unit.Inch, Wrap: 200 * unit.Degree},
		Wide:   allowance.Edge{Finish: allowance.PullOver, Handling: unit.Inch},
		Narrow: allowance.Edge{Finish: allowance.PlainSeam},
		Ends:   allowance.Edge{Finish: allowance.TurnedUnder},
	}
	c, err := in.Cut()
	if err != nil {
		return nil, err
	}
	d := c.Seam
	wide, err := in.Wide.Resolve()
	if err != nil {
		return nil, err
	}
	narrow, err := in.Narrow.Resolve()
	if err != nil {
		return nil, err
	}
	end, err := in.Ends.Resolve()
	if err != nil {
		return nil, err
	}
	s := newSheet(586, "Tub-chair band laid flat")
	y := s.given("Inside back of a tub chair: radius "+inch(in.Shape.Large)+" at the top,",
		inch(in.Shape.Small)+" at the seat, "+inch(in.Shape.Height)+" high, "+in.Shape.Wrap.String()+" round.",
		"Margins: top pull-over "+inch(wide.Allowance)+" + "+inch(wide.Handling)+" to hold,",
		"seat seam "+inch(narrow.Allowance)+", ends turned under "+inch(end.Allowance)+".")
	s.bold(margin, y+10, "From above")
	s.tubFromAbove(view{x: pageWidth / 2, y: y + 124, scale: 7}, in.Shape)
	y += 172
	s.bold(margin, y, "On the flat")
	y = s.tubFlat(y+18, c, wide.Allowance)
	y = s.lines(margin, y+30,
		"wide edge: arc "+hundredths(d.OuterArc)+", rise "+hundredths(d.OuterRise),
		"narrow edge: arc "+hundredths(d.InnerArc)+", rise "+hundredths(d.InnerRise),
		"seam radii "+hundredths(d.Outer)+" and "+hundredths(d.Inner)+", angle "+degrees(d.Angle),
		"cut radii "+hundredths(c.CutOuter)+" and "+hundredths(c.CutInner)+", ends "+inch(c.EndMargin)+" more",
		"area inside the cut line "+squareInches(c.Area))
	s.legend(y+4, key{cutLine, "cut"}, key{trimLine, "trim"}, key{seamLine, "seam"})
	return s, nil
}

// turnedUp gives a sector with its wider edge at the top.
func turnedUp(v view, outer, inner unit.Length, angle unit.Angle) (wide, narrow []svg.Point) {
	wide, narrow = sector(v, outer, inner, angle)
	for _, ps := range [2][]svg.Point{wide, narrow} {
		for i, p := range ps {
			ps[i] = place(p.X, 2*v.y-p.Y)
		}
	}
	return wide, narrow
}

func (s *sheet) tubFromAbove(v view, band made.ConeFrustum) {
	wide, narrow := turnedUp(v, band.Large, band.Small, band.Wrap)
	s.Polygon(slices.Concat(wide, backwards(narrow)), filled(thin, cloth)...)
	o := place(v.x, v.y)
	s.Line(o, narrow[0], hair...)
	s.Line(o, narrow[len(narrow)-1], hair...)
	s.Circle(o, 3, svg.Attr{Name: "fill", Value: "#000"})
	s.middle(o.X, o.Y-14, band.Wrap.String())
}

// tubFlat draws the band with its margins below y, the wider edge at the top,
// and gives how far down it comes. The centre lies far below the page.
func (s *sheet) tubFlat(y float64, c made.TubCut, pull unit.Length) float64 {
	d := c.Seam
	f := view{x: pageWidth / 2, scale: 7}
	f.y = y + f.length(c.CutOuter)
	cw, cn := turnedUp(f, c.CutOuter, c.CutInner, d.Angle)
	sw, sn := turnedUp(f, d.Outer, d.Inner, d.Angle)
	tw, _ := turnedUp(f, d.Outer+pull, d.Inner, d.Angle)
	// the ends are added square to the end seam lines
	half := d.Angle.Radians() / 2
	ex, ey := f.length(c.EndMargin)*math.Cos(half), f.length(c.EndMargin)*math.Sin(half)
	ended := func(ps []svg.Point) []svg.Point {
		a, z := ps[0], ps[len(ps)-1]
		return slices.Concat([]svg.Point{place(a.X-ex, a.Y+ey)}, ps, []svg.Point{place(z.X+ex, z.Y+ey)})
	}
	s.Polygon(slices.Concat(ended(cw), backwards(ended(cn))), filled(cutLine, cloth)...)
	s.Polygon(slices.Concat(sw, backwards(sn)), filled(seamLine, paper)...)
	s.Polyline(ended(tw), filled(trimLine, "none")...)
	last := len(cw) - 1
	mid := last / 2
	s.measure(sn[mid], sw[mid])
	s.left(sw[mid].X+6, (sw[mid].Y+sn[mid].Y)/2+5, "slant "+hundredths(d.Slant))
	s.measure(sn[0], sn[last])
	s.middle(f.x, sn[0].Y-7, "chord "+hundredths(d.InnerChord))
	return cn[0].Y
}
