package evaluate

import (
	"errors"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Evaluators of made-up parts: cushions, bias strips, tufting, channels,
// pleats, skirts and seams.

// optional reads an override when the row gives it.
func optional(in *reference.Inputs, name string) allowance.Override {
	if !in.Has(name) {
		return allowance.Override{}
	}
	return allowance.Exactly(in.Length(name))
}

// optionalLength reads a length when the row gives it.
func optionalLength(in *reference.Inputs, name string) unit.Length {
	if !in.Has(name) {
		return 0
	}
	return in.Length(name)
}

// parsed reads a named value, such as a rule, when the row gives it.
func parsed[T any, P interface {
	*T
	UnmarshalText([]byte) error
}](in *reference.Inputs, name string) (T, error) {
	var v T
	if !in.Has(name) {
		return v, nil
	}
	return v, P(&v).UnmarshalText([]byte(in.Text(name)))
}

// cushionOf reads a cushion of some kind.
func cushionOf(in *reference.Inputs, kind made.CushionKind) (made.Cushion, error) {
	fit, err := parsed[made.CushionFit](in, "fit")
	c := made.Cushion{Kind: kind, Top: made.Goods{ID: "cloth"}, Fit: fit, Width: optionalLength(in, "width"), Depth: optionalLength(in, "depth"),
		Thickness: optionalLength(in, "thickness"), Seam: optional(in, "seam"), TakeUp: optional(in, "take_up")}
	for name, set := range map[string]*bool{"core": &c.CoreGiven, "zip": &c.Zip, "round": &c.RoundFront} {
		if in.Has(name) {
			*set = in.Bool(name)
		}
	}
	if in.Has("welted") && in.Bool("welted") {
		c.Cord = unit.Inch / 8
	}
	return c, err
}

// worked makes a cushion and gives what follows from its cover, and one of its
// panels as it is cut.
func worked(c made.Cushion, err error, panel string) (made.Part, allowance.CoverWork, allowance.PanelCut, error) {
	if err != nil {
		return made.Part{}, allowance.CoverWork{}, allowance.PanelCut{}, err
	}
	p, err := c.Make()
	if err != nil {
		return made.Part{}, allowance.CoverWork{}, allowance.PanelCut{}, err
	}
	limits, _ := allowance.FirmWoven.Limits()
	w, err := p.Cover.Work(map[string]allowance.SewnGoods{"cloth": {Ease: limits}})
	if err != nil {
		return made.Part{}, allowance.CoverWork{}, allowance.PanelCut{}, err
	}
	for _, piece := range w.Pieces {
		if piece.Name == panel {
			cut, err := piece.Panel.Cut()
			return p, w, cut, err
		}
	}
	return p, w, allowance.PanelCut{}, nil
}

// margins gives what the allowances of a cut panel rest on.
func margins(c allowance.PanelCut) []cite.Basis {
	var out []cite.Basis
	for _, e := range c.Edges {
		out = append(out, e.Basis)
	}
	return out
}

func boxedPerimeter(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Boxed)
	p, _, _, err := worked(c, err, "")
	if err != nil {
		return reference.Value{}, err
	}
	return inUnit(u, nil, p.Boxing.Main+p.Boxing.Opening)
}

func boxedPlate(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Boxed)
	_, _, cut, err := worked(c, err, "top plate")
	return on(margins(cut)...)(inUnit(u, err, cut.Width, cut.Height))
}

func zipTape(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Boxed)
	_, w, _, err := worked(c, err, "")
	if err != nil {
		return reference.Value{}, err
	}
	return inUnit(u, nil, w.Zips[0].Tape)
}

// zipPlaque evaluates the two halves of the zip panel side by side.
func zipPlaque(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Boxed)
	_, _, cut, err := worked(c, err, "zip panel upper")
	return on(margins(cut)...)(inUnit(u, err, 2*cut.Height))
}

func boxedWelt(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Boxed)
	_, w, _, err := worked(c, err, "")
	var sum unit.Length
	for _, r := range w.Welts {
		sum += r.Run
	}
	return inUnit(u, err, sum)
}

func knifeEdge(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.KnifeEdge)
	_, w, cut, err := worked(c, err, "top plate")
	if err != nil {
		return reference.Value{}, err
	}
	width, height := w.Pieces[0].Panel.Outline.Size()
	return on(margins(cut)...)(inUnit(u, nil, cut.Width, cut.Height, width, height))
}

func waterfallMain(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Waterfall)
	_, _, cut, err := worked(c, err, "wrap")
	return on(margins(cut)...)(inUnit(u, err, cut.Width, cut.Height))
}

func waterfallSide(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Waterfall)
	_, _, cut, err := worked(c, err, "side left")
	return on(margins(cut)...)(inUnit(u, err, cut.Height))
}

// bolster evaluates a bolster by its length and diameter.
func bolster(in *reference.Inputs, panel string) (allowance.CoverWork, allowance.PanelCut, error) {
	c, err := cushionOf(in, made.Bolster)
	c.Width, c.Depth = in.Length("length"), in.Length("diameter")
	_, w, cut, err := worked(c, err, panel)
	return w, cut, err
}

func bolsterBody(in *reference.Inputs, u string) (reference.Value, error) {
	_, cut, err := bolster(in, "body")
	return on(margins(cut)...)(inUnit(u, err, cut.Width, cut.Height))
}

func bolsterEnd(in *reference.Inputs, u string) (reference.Value, error) {
	_, cut, err := bolster(in, "end 1")
	return on(margins(cut)...)(inUnit(u, err, cut.Width))
}

func bolsterGirth(in *reference.Inputs, u string) (reference.Value, error) {
	w, _, err := bolster(in, "")
	if err != nil {
		return reference.Value{}, err
	}
	_, girth := w.Pieces[0].Panel.Outline.Size()
	return inUnit(u, nil, girth)
}

func roundBoxing(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Round)
	c.Width = in.Length("diameter")
	p, _, _, err := worked(c, err, "")
	if err != nil {
		return reference.Value{}, err
	}
	return inUnit(u, nil, p.Boxing.Length)
}

func tCushionPlate(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := cushionOf(in, made.Boxed)
	c.LeftEar, c.RightEar, c.EarDepth = in.Length("ear"), in.Length("ear"), in.Length("ear_depth")
	_, _, cut, err := worked(c, err, "top plate")
	return on(margins(cut)...)(areaIn(cut.Area, u, err))
}

func wrapLength(in *reference.Inputs, u string) (reference.Value, error) {
	var w made.Wrap
	for _, s := range in.List("faces") {
		l, err := unit.ParseLength(s + " in")
		if err != nil {
			return reference.Value{}, err
		}
		w.Faces = append(w.Faces, l)
	}
	w.Start.Allowance = optional(in, "start")
	w.End.Allowance = optional(in, "end")
	l, err := w.Cut()
	return inUnit(u, err, l)
}

func stripsAcross(in *reference.Inputs, u string) (reference.Value, error) {
	s, basis, err := made.StripsAcrossFor(in.Length("length"), in.Length("goods"), in.Length("strip"))
	if u == "strips" {
		return reference.Numbers(float64(s.Count)).On(basis), err
	}
	return on(basis)(inUnit(u, err, s.Goods))
}

func biasYieldBound(in *reference.Inputs, u string) (reference.Value, error) {
	l, err := made.BiasYieldBound(in.Length("width"), in.Length("height"), in.Length("strip"))
	return inUnit(u, err, l)
}

func biasSquareBound(in *reference.Inputs, u string) (reference.Value, error) {
	l, err := made.BiasSquareBound(in.Length("length"), in.Length("strip"), optionalLength(in, "step"))
	return inUnit(u, err, l)
}

func biasSquare(in *reference.Inputs, u string) (reference.Value, error) {
	s, err := made.BiasSquareFor(in.Length("length"), in.Length("strip"), in.Length("seam"))
	switch u {
	case "strips":
		return reference.Numbers(float64(s.Turns)), err
	case "in":
		return inUnit(u, err, s.Side)
	}
	return reference.Value{}, errors.New("unit strips or in")
}

func biasTubeYield(in *reference.Inputs, u string) (reference.Value, error) {
	y, err := made.BiasTube{Width: in.Length("width"), Height: in.Length("height"), Strip: in.Length("strip"), Seam: in.Length("seam")}.Yield()
	return inUnit(u, err, y.Length)
}

func biasTubeHeight(in *reference.Inputs, u string) (reference.Value, error) {
	t, err := made.BiasTubeFor(in.Length("length"), in.Length("width"), in.Length("strip"), in.Length("seam"), optionalLength(in, "step"))
	return inUnit(u, err, t.Height)
}

func biasStripsYield(in *reference.Inputs, u string) (reference.Value, error) {
	y, err := made.BiasStrips{Width: in.Length("width"), Height: in.Length("height"), Strip: in.Length("strip"), Seam: optionalLength(in, "seam")}.Yield()
	if u == "strips" {
		return reference.Numbers(float64(y.Strips)), err
	}
	return inUnit(u, err, y.Length)
}

func biasStripsHeight(in *reference.Inputs, u string) (reference.Value, error) {
	b, err := made.BiasStripsFor(in.Length("length"), made.BiasStrips{Width: in.Length("width"), Strip: in.Length("strip")}, 0)
	return inUnit(u, err, b.Height)
}

func biasChart(in *reference.Inputs, u string) (reference.Value, error) {
	l, basis, err := made.BiasChartYield(in.Length("goods"), in.Length("strip"))
	return on(basis)(inUnit(u, err, l))
}

func biasFactor(in *reference.Inputs, _ string) (reference.Value, error) {
	in.Text("")
	f := made.BiasYieldFactor()
	return reference.Numbers(float64(f.Least), float64(f.Usual), float64(f.Most)).On(f.Basis), nil
}

func tuftPlan(in *reference.Inputs) (made.TuftPlan, error) {
	rule, err := parsed[made.TuftRule](in, "rule")
	if err != nil {
		return made.TuftPlan{}, err
	}
	return made.Tufting{
		Width: in.Length("width"), Height: in.Length("height"), Border: optionalLength(in, "border"),
		Across: in.Int("across"), Down: in.Int("down"), Depth: optionalLength(in, "depth"), Rule: rule, Tack: optional(in, "tack"),
	}.Plan()
}

func tuftSize(pick func(made.TuftPlan) [2]unit.Length) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := tuftPlan(in)
		s := pick(p)
		return on(p.Basis)(inUnit(u, err, s[0], s[1]))
	}
}

func tuftSpacing(in *reference.Inputs, u string) (reference.Value, error) {
	rule, err := parsed[made.TuftRule](in, "rule")
	if err != nil {
		return reference.Value{}, err
	}
	depth := in.Length("depth")
	w, err := rule.Spacing(in.Length("width"), depth)
	if err != nil {
		return reference.Value{}, err
	}
	h, err := rule.Spacing(in.Length("height"), depth)
	return on(rule.Basis())(inUnit(u, err, w, h))
}

func tuftEdge(in *reference.Inputs, u string) (reference.Value, error) {
	w, err := made.TuftEdge(in.Length("width"), in.Length("diamond_width"), in.Int("across"))
	if err != nil {
		return reference.Value{}, err
	}
	h, err := made.TuftEdge(in.Length("height"), in.Length("diamond_height"), in.Int("down"))
	return inUnit(u, err, w, h)
}

func biscuitCover(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := made.BiscuitCover(in.Int("across"), in.Int("down"), in.Length("square"), optionalLength(in, "tack"))
	return on(c.Basis)(inUnit(u, err, c.Width, c.Height))
}

func channelCover(in *reference.Inputs, u string) (reference.Value, error) {
	p, err := parsed[made.ChannelProfile](in, "profile")
	if err != nil {
		return reference.Value{}, err
	}
	l, err := made.ChannelCover(p, in.Length("width"), in.Length("rise"))
	return inUnit(u, err, l)
}

func channelsCut(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := made.Channels{Width: in.Length("width"), Height: in.Length("height"), Count: in.Int("count"), Rise: in.Length("rise")}.Cut()
	return inUnit(u, err, c.Inner, c.Outer, c.Height)
}

func knifePleatRatio(in *reference.Inputs, _ string) (reference.Value, error) {
	r, err := made.KnifePleatRatio(in.Length("underfold"), in.Length("spacing"))
	return reference.Numbers(float64(r)), err
}

func boxPleatRatio(in *reference.Inputs, _ string) (reference.Value, error) {
	r, err := made.BoxPleatRatio(in.Length("face"), optionalLength(in, "gap"))
	return reference.Numbers(float64(r)), err
}

func pleatsRatio(in *reference.Inputs, _ string) (reference.Value, error) {
	k, err := parsed[made.PleatKind](in, "kind")
	if err != nil {
		return reference.Value{}, err
	}
	p := made.Pleats{Kind: k, Finished: in.Length("finished"), Count: in.Int("count"), Underfold: in.Length("underfold")}
	if in.Has("double") {
		p.Double = in.Bool("double")
	}
	c, err := p.Cloth()
	return reference.Numbers(float64(c.Ratio)), err
}

func fullness(in *reference.Inputs, _ string) (reference.Value, error) {
	f, err := made.FullnessNamed(in.Text(""))
	return reference.Numbers(float64(f.Ratio)).On(f.Basis), err
}

func cornerPleatLength(in *reference.Inputs, u string) (reference.Value, error) {
	l, err := made.CornerPleatLength(in.Length("base"), in.Int("corners"), in.Length("piece"))
	return inUnit(u, err, l)
}

func gatheredSkirt(in *reference.Inputs, u string) (reference.Value, error) {
	f, err := made.FullnessNamed(in.Text("fullness"))
	if err != nil {
		return reference.Value{}, err
	}
	c, err := made.GatheredSkirt{Base: in.Length("base"), Drop: in.Length("drop"), Fullness: f.Ratio}.Cut()
	return on(f.Basis)(inUnit(u, err, c.Sewn))
}

func kickPleatPanel(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := made.KickPleatSkirt{
		Sides: []unit.Length{in.Length("side")}, Drop: in.Length("drop"), Lined: true,
		Top: allowance.Edge{Allowance: allowance.Exactly(in.Length("top"))},
	}.Cut()
	if err != nil {
		return reference.Value{}, err
	}
	return inUnit(u, err, c.Pieces[0].Length, c.Pieces[0].Width, c.Pieces[1].Length)
}

func seamMatch(in *reference.Inputs) (allowance.SeamMatch, cite.Basis, error) {
	class := allowance.FirmWoven
	if in.Has("goods") {
		if err := class.UnmarshalText([]byte(in.Text("goods"))); err != nil {
			return allowance.SeamMatch{}, cite.Basis{}, err
		}
	}
	limits, basis := class.Limits()
	m, err := allowance.MatchSeam(in.Length("first"), in.Length("second"), limits)
	return m, basis, err
}

func seamEase(in *reference.Inputs, _ string) (reference.Value, error) {
	m, _, err := seamMatch(in) // the ease itself is no matter of limits
	return reference.Numbers(float64(m.Ease)), err
}

func seamVerdict(in *reference.Inputs, _ string) (reference.Value, error) {
	m, basis, err := seamMatch(in)
	return reference.Text(m.Verdict.String()).On(basis), err
}

func bowRise(in *reference.Inputs, u string) (reference.Value, error) {
	a, err := allowance.BowOf(in.Length("wide"), in.Length("narrow"))
	return inUnit(u, err, a.Rise)
}

func bend(in *reference.Inputs, u string) (reference.Value, error) {
	b, err := allowance.BendOf(in.Length("outer"), in.Length("inner"), in.Length("apart"))
	if u == "deg" {
		return reference.Numbers(b.Angle.Degrees()), err
	}
	return inUnit(u, err, b.Radius)
}
