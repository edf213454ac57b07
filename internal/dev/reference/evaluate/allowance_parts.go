package evaluate

import (
	"errors"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
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

func boxedCut(in *reference.Inputs) (made.BoxedCut, error) {
	fit, err := parsed[made.CushionFit](in, "fit")
	if err != nil {
		return made.BoxedCut{}, err
	}
	b := made.BoxedCushion{
		Width: in.Length("width"), Depth: in.Length("depth"), Thickness: in.Length("thickness"),
		Fit: fit, Seam: optional(in, "seam"),
	}
	if in.Has("zip") {
		b.Zip = in.Bool("zip")
	}
	if in.Has("welted") {
		b.Welted = in.Bool("welted")
	}
	return b.Cut()
}

func boxedPerimeter(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxedCut(in)
	return inUnit(u, err, c.Perimeter)
}

func boxedPlate(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxedCut(in)
	return inUnit(u, err, c.Plate.Width, c.Plate.Height)
}

func zipTape(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxedCut(in)
	return inUnit(u, err, c.Boxing.ZipTape)
}

// zipPlaque evaluates the two halves of the zip strip side by side.
func zipPlaque(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxedCut(in)
	return inUnit(u, err, 2*c.Boxing.ZipWidth)
}

func boxedWelt(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxedCut(in)
	if err != nil {
		return reference.Value{}, err
	}
	l, err := unit.SumLengths(c.Welt...)
	return inUnit(u, err, l)
}

func knifeEdge(in *reference.Inputs, u string) (reference.Value, error) {
	fit, err := parsed[made.CushionFit](in, "fit")
	if err != nil {
		return reference.Value{}, err
	}
	c, err := made.KnifeEdgeCushion{Width: in.Length("width"), Height: in.Length("height"), Fit: fit, Seam: optional(in, "seam")}.Cut()
	return inUnit(u, err, c.Panel.Width, c.Panel.Height, c.Panel.SeamWidth, c.Panel.SeamHeight)
}

func waterfall(in *reference.Inputs) (made.WaterfallCut, error) {
	w := made.WaterfallCushion{
		Width: in.Length("width"), Depth: in.Length("depth"), Thickness: in.Length("thickness"), Seam: optional(in, "seam"),
	}
	if in.Has("round") {
		w.Round = in.Bool("round")
	}
	return w.Cut()
}

func waterfallMain(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := waterfall(in)
	return inUnit(u, err, c.MainWidth, c.MainLength)
}

func waterfallSide(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := waterfall(in)
	return inUnit(u, err, c.SideWidth)
}

func bolster(in *reference.Inputs) (made.BolsterCut, error) {
	return made.Bolster{
		Length: in.Length("length"), Diameter: in.Length("diameter"),
		Smaller: optionalLength(in, "smaller"), Seam: optional(in, "seam"),
	}.Cut()
}

func bolsterBody(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := bolster(in)
	return inUnit(u, err, c.BodyLength, c.BodyGirth)
}

func bolsterEnd(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := bolster(in)
	return inUnit(u, err, c.End)
}

func bolsterGirth(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := bolster(in)
	return inUnit(u, err, c.Girth)
}

func roundBoxing(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := made.RoundCushion{Diameter: in.Length("diameter"), Thickness: in.Length("thickness"), Seam: optional(in, "seam")}.Cut()
	return inUnit(u, err, c.Boxing.Length)
}

func tCushionPlate(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := made.TCushion{
		Width: in.Length("width"), Depth: in.Length("depth"), Thickness: in.Length("thickness"),
		LeftEar: in.Length("ear"), RightEar: in.Length("ear"), EarDepth: in.Length("ear_depth"), Seam: optional(in, "seam"),
	}.Cut()
	return areaIn(c.PlateArea, u, err)
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
	s, _, err := made.StripsAcrossFor(in.Length("length"), in.Length("goods"), in.Length("strip"))
	if u == "strips" {
		return reference.Numbers(float64(s.Count)), err
	}
	return inUnit(u, err, s.Goods)
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
	l, _, err := made.BiasChartYield(in.Length("goods"), in.Length("strip"))
	return inUnit(u, err, l)
}

func biasFactor(in *reference.Inputs, _ string) (reference.Value, error) {
	in.Text("")
	f := made.BiasYieldFactor()
	return reference.Numbers(float64(f.Least), float64(f.Usual), float64(f.Most)), nil
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
		return inUnit(u, err, s[0], s[1])
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
	return inUnit(u, err, w, h)
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
	return inUnit(u, err, c.Width, c.Height)
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
	return reference.Numbers(float64(f.Ratio)), err
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
	return inUnit(u, err, c.Sewn)
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

func seamMatch(in *reference.Inputs) (allowance.SeamMatch, error) {
	class := allowance.FirmWoven
	if in.Has("goods") {
		if err := class.UnmarshalText([]byte(in.Text("goods"))); err != nil {
			return allowance.SeamMatch{}, err
		}
	}
	limits, _ := class.Limits()
	return allowance.MatchSeam(in.Length("first"), in.Length("second"), limits)
}

func seamEase(in *reference.Inputs, _ string) (reference.Value, error) {
	m, err := seamMatch(in)
	return reference.Numbers(float64(m.Ease)), err
}

func seamVerdict(in *reference.Inputs, _ string) (reference.Value, error) {
	m, err := seamMatch(in)
	return reference.Text(m.Verdict.String()), err
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
