package made

import (
	"strconv"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// pulled makes panels that are pulled over all round, but for what is sewn or
// fastened otherwise.
func pulled(c allowance.Cover, pull unit.Length) allowance.Cover {
	for i := range c.Panels {
		c.Panels[i].AllEdges = allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(pull)}
	}
	return c
}

// Cover gives the panel of a tufted surface: the net cloth of Plan with the tack
// edge all round. Where it is wider than the goods allow it is joined
// along the sides of diamonds, the seam in the pleats from button to button. Errors
// are those of Plan, and at goods.
func (t Tufting) Cover(g Goods) (allowance.Cover, error) {
	plan, err := t.Plan()
	if err != nil {
		return allowance.Cover{}, err
	}
	def, _ := allowance.PullOver.Default()
	tack, err := given(t.Tack, "tack", def)
	if err != nil {
		return allowance.Cover{}, err
	}
	n := 1
	if g.Across != 0 {
		n = int(min(nano.CeilDiv(plan.CutWidth, g.Across), int64(t.Across)))
	}
	var widest unit.Length
	for ; n <= t.Across; n++ {
		c, err := plan.pieces(g, t.Across, n, tack)
		if err != nil {
			return allowance.Cover{}, err
		}
		if widest, err = widestCut(c); err != nil {
			return allowance.Cover{}, err
		}
		if g.Across == 0 || widest <= g.Across {
			return c, nil
		}
	}
	return allowance.Cover{}, check.Refuse("goods", g.Across.String(), unit.ErrRange,
		"goods at least "+onTape(widest, unit.Up, g.Across, t.Width).String()+" wide for one column of diamonds")
}

// widestCut gives the width of the widest of panels in a row, joined by plain
// seams.
func widestCut(c allowance.Cover) (unit.Length, error) {
	var widest unit.Length
	for i, p := range c.Panels {
		p.Edges = map[string]allowance.Edge{}
		if i > 0 {
			p.Edges["left"] = allowance.Edge{}
		}
		if i < len(c.Panels)-1 {
			p.Edges["right"] = allowance.Edge{}
		}
		cut, err := p.Panel.Cut()
		if err != nil {
			return 0, err
		}
		widest = max(widest, cut.Width)
	}
	return widest, nil
}

// columns gives where n pieces of a field of diamonds begin and end, in diamonds.
func columns(across, n int) []int {
	at := []int{0}
	for i := range n {
		at = append(at, at[i]+across/n)
		if i < across%n {
			at[i+1]++
		}
	}
	return at
}

// line gives the line between two pieces from the top down: the side of the
// panel, or along the diamonds from button to button.
func (p TuftPlan) line(column, across int) []shape.Point {
	up := func(y unit.Length) unit.Length { return p.NetHeight - y }
	switch column {
	case 0:
		return []shape.Point{{X: 0, Y: p.NetHeight}, {X: 0, Y: 0}}
	case across:
		return []shape.Point{{X: p.NetWidth, Y: p.NetHeight}, {X: p.NetWidth, Y: 0}}
	}
	var out []shape.Point
	for i, r := range p.Rows {
		// Of rows in the middles of the diamonds the button to the right of the
		// line, of the others the one on it.
		x := r.ClothX[column]
		if i == 0 && r.ClothY > 0 {
			out = append(out, shape.Point{X: x, Y: p.NetHeight})
		}
		out = append(out, shape.Point{X: x, Y: up(r.ClothY)})
		if i == len(p.Rows)-1 && up(r.ClothY) > 0 {
			out = append(out, shape.Point{X: x, Y: 0})
		}
	}
	return out
}

// pieces gives the panel in n pieces.
func (p TuftPlan) pieces(g Goods, across, n int, tack unit.Length) (allowance.Cover, error) {
	var c allowance.Cover
	at := columns(across, n)
	for i := range n {
		left, right := p.line(at[i], across), p.line(at[i+1], across)
		last := len(left) - 1
		t := shape.TraceFrom(left[last]).Edge("bottom").Line(right[len(right)-1]).Edge("right")
		for k := len(right) - 2; k >= 0; k-- {
			t = t.Line(right[k])
		}
		t = t.Edge("top").Line(left[0]).Edge("left")
		for _, q := range left[1:last] {
			t = t.Line(q)
		}
		o, err := t.Close()
		if err != nil {
			return allowance.Cover{}, unit.InField("width", err)
		}
		if o, err = toOrigin(o); err != nil {
			return allowance.Cover{}, unit.InField("width", err)
		}
		c.Panels = append(c.Panels, sewnPanel(numbered("tufted panel", i, n), g, o))
	}
	c.Seams = joined("tufted panel", n, false)
	return pulled(c, tack), nil
}

// toOrigin moves an outline so that its box begins at zero.
func toOrigin(o shape.Outline) (shape.Outline, error) {
	low, _ := o.Bounds()
	return o.Moved(shape.Point{X: -low.X, Y: -low.Y})
}

// Cover gives the channels, each a piece, sewn to its neighbours and with them to
// the lining, or one piece stitched through; pulled over all round. Errors are those
// of Cut, and at goods and lining.
func (c Channels) Cover(g Goods) (allowance.Cover, error) {
	cut, err := c.Cut()
	if err != nil {
		return allowance.Cover{}, err
	}
	pull, err := given(c.Pull, "pull", channelPull)
	if err != nil {
		return allowance.Cover{}, err
	}
	if err := inRange("height", c.Height, unit.Centimetre, 50*unit.Metre); err != nil {
		return allowance.Cover{}, err
	}
	if err := inRange("width", min(cut.Cover, max(cut.Top, cut.Cover)), 2*unit.Millimetre, 50*unit.Metre); err != nil {
		return allowance.Cover{}, err
	}
	pieces := make([]int, c.Count) // channels of each
	for i := range pieces {
		pieces[i] = 1
	}
	if c.OnePiece {
		if pieces, err = c.together(cut, pull, g); err != nil {
			return allowance.Cover{}, err
		}
	}
	out, err := c.panels(cut, g, pieces)
	if err != nil {
		return allowance.Cover{}, err
	}
	out = pulled(out, pull)
	if c.Lining == "" {
		return out, nil
	}
	return c.lined(out)
}

// together gives how many channels lie on each of the fewest pieces.
func (c Channels) together(cut ChannelsCut, pull unit.Length, g Goods) ([]int, error) {
	if g.Across == 0 || cut.OnePiece <= g.Across {
		return []int{c.Count}, nil
	}
	def, _ := allowance.PlainSeam.Default()
	s, err := given(c.Seam, "seam", def)
	if err != nil {
		return nil, err
	}
	most := (g.Across - max(2*s, s+pull)) / cut.Cover
	if most < 1 || c.Count == 1 {
		return nil, check.Refuse("goods", g.Across.String(), unit.ErrRange,
			"goods at least "+onTape(cut.Outer, unit.Up, g.Across, c.Width).String()+" wide for one channel, or more and narrower channels")
	}
	at := columns(c.Count, max(2, int(nano.CeilDiv(unit.Length(c.Count), most))))
	var out []int
	for i := 1; i < len(at); i++ {
		out = append(out, at[i]-at[i-1])
	}
	return out, nil
}

// panels gives the pieces, the lines on them and the seams between them.
func (c Channels) panels(cut ChannelsCut, g Goods, pieces []int) (allowance.Cover, error) {
	var out allowance.Cover
	before := ""
	line := 0
	for i, n := range pieces {
		name := channelName(i, len(pieces))
		if c.OnePiece {
			name = numbered("channel panel", i, len(pieces))
		}
		top := cut.Top
		if top == 0 {
			top = cut.Cover
		}
		o, err := shape.Trapezoid(cut.Cover*unit.Length(n), top*unit.Length(n), c.Height, (cut.Cover-top)*unit.Length(n)/2)
		if err != nil {
			return out, check.Renamed(err, map[string]string{"bottom": "width", "top": "top_width", "shift": "top_width"})
		}
		p := sewnPanel(name, g, o)
		if i > 0 {
			line++
			out.Seams = append(out.Seams, c.between(line, edgeOf(before, "right"), edgeOf(name, "left")))
		}
		before = name
		for k := 1; k < n; k++ {
			line++
			x := cut.Cover * unit.Length(k)
			p.Lines = append(p.Lines, allowance.InnerLine{Name: lineName(line), From: shape.Point{X: x}, To: shape.Point{X: x, Y: c.Height}})
			if c.Lining != "" {
				out.Seams = append(out.Seams, c.between(line, edgeOf(name, lineName(line))))
				continue
			}
			out.Fastenings = append(out.Fastenings, allowance.Fastening{Name: "stitched through", Kind: allowance.Hemmed,
				Side: allowance.Side{edgeOf(name, lineName(line))}})
		}
		switch {
		case c.OnePiece || i == 0 || i == len(pieces)-1:
			out.Panels = append(out.Panels, p)
		case i == 1: // one panel stands for all between the ends
			p.Name, p.Count = "channel", len(pieces)-2
			out.Panels = append(out.Panels, p)
		}
	}
	return out, nil
}

// channelName names one of the channels from the left as drawn.
func channelName(i, n int) string {
	switch {
	case n == 1:
		return "only channel"
	case i == 0:
		return "first channel"
	case i == n-1:
		return "last channel"
	case n == 3:
		return "channel"
	}
	return "channel " + strconv.Itoa(i)
}

func lineName(i int) string { return "line " + strconv.Itoa(i) }

// between gives the seam on a line, with the lining where there is one.
func (c Channels) between(line int, parts ...allowance.EdgePart) allowance.Seam {
	s := allowance.Seam{Allowance: c.Seam}
	for _, p := range parts {
		s.Sides = append(s.Sides, allowance.Side{p})
	}
	if c.Lining != "" {
		s.Sides = append(s.Sides, allowance.Side{edgeOf("lining", lineName(line))})
	}
	return s
}

// lined adds the lining, flat under the channels, with a line for each seam.
func (c Channels) lined(out allowance.Cover) (allowance.Cover, error) {
	top := c.TopWidth
	if top == 0 {
		top = c.Width
	}
	o, err := shape.Trapezoid(c.Width, top, c.Height, (c.Width-top)/2)
	if err != nil {
		return out, check.Renamed(err, map[string]string{"bottom": "width", "top": "top_width", "shift": "top_width"})
	}
	p := sewnPanel("lining", Goods{ID: c.Lining}, o)
	p.Free = true                   // it is never seen
	from := max(0, (top-c.Width)/2) // where the bottom begins
	edge, err := out.Panels[0].Outline.EdgeLength("right")
	if err != nil {
		return out, err
	}
	tol, err := allowance.SeamTolerance(c.Height)
	if err != nil {
		return out, err
	}
	for i := 1; i < c.Count; i++ {
		x, err := c.Width.MulDiv(i, c.Count, unit.Nearest)
		if err != nil {
			return out, err
		}
		y, err := top.MulDiv(i, c.Count, unit.Nearest)
		if err != nil {
			return out, err
		}
		l := allowance.InnerLine{Name: lineName(i), From: shape.Point{X: from + x}, To: shape.Point{X: from + (c.Width-top)/2 + y, Y: c.Height}}
		slant, err := nano.Length(geom.Hypot(float64(l.To.X-l.From.X), float64(c.Height)))
		if err != nil {
			return out, err
		}
		if d := slant - edge; max(d, -d) > tol {
			return out, check.Refuse("lining", c.Lining, unit.ErrRange, "none, or channels that taper so little that a flat lining is as long at every line; line it in staves")
		}
		p.Lines = append(p.Lines, l)
	}
	p.AllEdges = allowance.Edge{Finish: allowance.Raw, Allowance: allowance.Exactly(unit.Inch)} // stapled flat
	out.Panels = append(out.Panels, p)
	return out, nil
}
