package evaluate

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var threadEvaluators = map[string]reference.Evaluator{
	"spec_strength":    threadSpecStrength,
	"spec_yarn":        threadSpecYarn,
	"spec_yield":       threadSpecYield,
	"finished_count":   threadFinishedCount,
	"count":            threadCount,
	"find":             threadFind,
	"table":            threadTable,
	"stitch_length":    threadStitchLength,
	"density":          threadDensity,
	"density_advice":   threadDensityAdvice,
	"back_tack":        threadBackTack,
	"spacing":          threadSpacing,
	"needles":          threadNeedles,
	"needles_numbered": threadNeedlesNumbered,
	"needle_blade":     threadNeedleBlade,
	"needle_advice":    threadNeedleAdvice,
	"needle_view":      threadNeedleView,
	"needle_eye":       threadNeedleEye,
	"needle_finest":    threadNeedleFinest,
	"consumption":      threadConsumption,
	"sewing":           threadSewing,
	"seam_strength":    threadSeamStrength,
	"recommend":        threadRecommend,
	"seam_thread":      threadSeamThread,
	"fibre":            threadFibre,
	"influence":        threadInfluence,
	"model_fit":        threadModelFit,
	"weather_loss":     threadWeatherLoss,
	"cone":             threadCone,
	"wound":            threadWound,
}

// missing reports a gap where a row expects a figure.
func missing(what string) error { return fmt.Errorf("%s is a gap", what) }

func threadSpec(in *reference.Inputs) (thread.Specified, error) {
	return thread.SpecFor(in.Text("document"), in.Text("kind"), in.Text("size"))
}

func threadSpecStrength(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := threadSpec(in)
	if err != nil {
		return reference.Value{}, err
	}
	f, ok := s.MinStrength.Value()
	if !ok {
		return reference.Value{}, missing("strength")
	}
	return reference.Numbers(f.PoundsForce()).On(s.MinStrength.Basis()), nil
}

func threadSpecYield(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := threadSpec(in)
	if err != nil {
		return reference.Value{}, err
	}
	yield := s.MinYield
	if in.Has("nominal") && in.Bool("nominal") {
		yield = s.Nominal
	}
	y, ok := yield.Value()
	if !ok {
		return reference.Value{}, missing("yield")
	}
	ypp, err := y.YardsPerPound()
	return reference.Numbers(ypp).On(yield.Basis()), err
}

func threadSpecYarn(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := threadSpec(in)
	if err != nil {
		return reference.Value{}, err
	}
	d, _ := s.Yarn.Value()
	n, ok := s.Plies.Value()
	if !ok {
		return reference.Value{}, missing("yarn")
	}
	return reference.Numbers(d.Denier(), float64(n)).On(s.Yarn.Basis(), s.Plies.Basis()), nil
}

func threadFinishedCount(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := thread.ParseSize(in.Text("size"))
	return reference.Numbers(s.Finished().Tex()), err
}

// threadCount writes a count in another system, after twisting plies of it
// together when the row gives plies.
func threadCount(in *reference.Inputs, _ string) (reference.Value, error) {
	var from, to thread.CountSystem
	if err := from.UnmarshalText([]byte(in.Text("from"))); err != nil {
		return reference.Value{}, err
	}
	if err := to.UnmarshalText([]byte(in.Text("to"))); err != nil {
		return reference.Value{}, err
	}
	d, err := from.Of(in.Float("count"))
	if err == nil && in.Has("plies") {
		d, err = thread.Ply(d, in.Int("plies"))
	}
	if err != nil {
		return reference.Value{}, err
	}
	x, err := to.In(d)
	return reference.Numbers(x), err
}

func threadFind(in *reference.Inputs, _ string) (reference.Value, error) {
	m, err := thread.FindSizes(in.Text("text"))
	return reference.Text(m.String()), err
}

// threadTable reads one cell of the size table.
func threadTable(in *reference.Inputs, u string) (reference.Value, error) {
	var f thread.Fibre
	if err := f.UnmarshalText([]byte(in.Text("fibre"))); err != nil {
		return reference.Value{}, err
	}
	s, err := thread.ParseSize(in.Text("size"))
	if err != nil {
		return reference.Value{}, err
	}
	r, err := thread.Thread{Fibre: f, Size: s}.Row()
	if err != nil {
		return reference.Value{}, err
	}
	switch cell := in.Text("cell"); cell {
	case "label":
		return known(r.Label, unit.LinearDensity.Tex)
	case "ticket":
		return known(r.Ticket, func(n int) float64 { return float64(n) })
	case "greige":
		return known(r.Greige, unit.LinearDensity.Denier)
	case "min strength":
		return known(r.MinStrength, unit.Force.PoundsForce)
	case "strength":
		return known(r.Strength, unit.Force.PoundsForce)
	case "cautious":
		return known(r.Cautious, unit.Force.PoundsForce)
	case "diameter":
		return known(r.Diameter, unit.Length.Millimetres)
	case "letter":
		v, ok := r.Letter.Value()
		if !ok {
			return reference.Value{}, missing(cell)
		}
		return reference.Text(v).On(r.Letter.Basis()), nil
	default:
		return reference.Value{}, fmt.Errorf("cell %q in %s", cell, u)
	}
}

// known gives the number of a cell, or an error for a gap.
func known[T any](c thread.Cell[T], number func(T) float64) (reference.Value, error) {
	v, ok := c.Value()
	if !ok {
		return reference.Value{}, missing("cell")
	}
	return reference.Numbers(number(v)).On(c.Basis()), nil
}

func threadStitchLength(in *reference.Inputs, _ string) (reference.Value, error) {
	l, err := thread.StitchesPerInch(in.Float("spi")).StitchLength()
	return reference.Numbers(l.Millimetres()), err
}

func goods(in *reference.Inputs) (thread.Goods, error) {
	var g thread.Goods
	err := g.UnmarshalText([]byte(in.Text("goods")))
	return g, err
}

func threadDensity(in *reference.Inputs, _ string) (reference.Value, error) {
	g, err := goods(in)
	if err != nil {
		return reference.Value{}, err
	}
	r, err := thread.StitchDensityFor(g)
	return reference.Numbers(float64(r.From), float64(r.To)).On(r.Basis), err
}

func threadNeedles(in *reference.Inputs, u string) (reference.Value, error) {
	g, err := goods(in)
	if err != nil {
		return reference.Value{}, err
	}
	s, err := thread.ParseSize(in.Text("size"))
	if err != nil {
		return reference.Value{}, err
	}
	r, err := thread.NeedlesFor(s, g)
	if err != nil {
		return reference.Value{}, err
	}
	if u == "Nm" {
		return reference.Numbers(float64(r.From), float64(r.To)).On(r.Basis), nil
	}
	from, _ := r.From.Number()
	to, _ := r.To.Number()
	return reference.Numbers(float64(from)/10, float64(to)/10).On(r.Basis, r.From.Basis(), r.To.Basis()), nil
}

func threadNeedlesNumbered(in *reference.Inputs, _ string) (reference.Value, error) {
	n, err := thread.NeedlesByNumber(in.Int("number"))
	x, bases := make([]float64, len(n)), make([]cite.Basis, len(n))
	for i := range n {
		x[i], bases[i] = float64(n[i]), n[i].Basis()
	}
	return reference.Numbers(x...).On(bases...), err
}

// threadDensityAdvice looks an advice up by its use.
func threadDensityAdvice(in *reference.Inputs, _ string) (reference.Value, error) {
	use := in.Text("use")
	for _, d := range thread.StitchDensities() {
		if d.Use == use {
			return reference.Numbers(float64(d.Density.From), float64(d.Density.To)).On(d.Density.Basis), nil
		}
	}
	return reference.Value{}, fmt.Errorf("no density for %q", use)
}

func threadBackTack(in *reference.Inputs, _ string) (reference.Value, error) {
	use, stitch, at := in.Text("use"), thread.Stitch(in.Int("stitch")), in.Text("at")
	for _, b := range thread.BackTacks() {
		if b.Use != use || b.Stitch != stitch {
			continue
		}
		if at == "breaks" {
			return known(b.Breaks, unit.Length.Inches)
		}
		return known(b.Ends, unit.Length.Inches)
	}
	return reference.Value{}, fmt.Errorf("no back-tack for %q", use)
}

func threadSpacing(in *reference.Inputs, _ string) (reference.Value, error) {
	goods, place := in.Text("goods"), in.Text("place")
	for _, s := range thread.RowSpacings() {
		if s.Goods == goods && s.Place == place {
			from, _ := s.From.Value()
			to, _ := s.To.Value()
			return reference.Numbers(from.Inches(), to.Inches()).On(s.From.Basis(), s.To.Basis()), nil
		}
	}
	return reference.Value{}, fmt.Errorf("no spacing for %q", goods)
}

func threadNeedleBlade(in *reference.Inputs, _ string) (reference.Value, error) {
	n, err := thread.ParseNeedle(in.Text("needle"))
	return reference.Numbers(n.Blade().Inches()), err
}

func threadNeedleAdvice(in *reference.Inputs, _ string) (reference.Value, error) {
	goods := in.Text("goods")
	for _, a := range thread.PublishedNeedles() {
		if a.Goods == goods {
			return reference.Text(a.Number.String()).On(a.Basis), nil
		}
	}
	return reference.Value{}, fmt.Errorf("no needle for %q", goods)
}

func threadNeedleFinest(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := thread.ParseSize(in.Text("size"))
	if err != nil {
		return reference.Value{}, err
	}
	n, err := thread.FinestNeedle(s)
	return reference.Numbers(float64(n)), err
}

func threadNeedleView(in *reference.Inputs, _ string) (reference.Value, error) {
	work := in.Text("work")
	s, err := thread.ParseSize(in.Text("size"))
	if err != nil {
		return reference.Value{}, err
	}
	for _, v := range thread.NeedleViews() {
		if v.Work == work && v.Size == s {
			return reference.Numbers(float64(v.Needles.From), float64(v.Needles.To)).On(v.Needles.Basis), nil
		}
	}
	return reference.Value{}, fmt.Errorf("no view of %v in %q", s, work)
}

func threadNeedleEye(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := thread.ParseSize(in.Text("size"))
	if err != nil {
		return reference.Value{}, err
	}
	l, err := thread.EyeFor(s)
	return reference.Numbers(l.Millimetres()), err
}

// threadSeam reads a seam a thousand units long, so that rounding to a
// nanometre does not show.
func threadSeam(in *reference.Inputs) (thread.Seam, error) {
	s := thread.Seam{
		Length:       1000 * unit.Inch,
		Thickness:    in.Length("thickness"),
		Stitch:       thread.Stitch(in.Int("stitch")),
		StitchLength: 4 * unit.Millimetre,
	}
	var err error
	if in.Has("spi") {
		s.StitchLength, err = thread.StitchesPerInch(in.Float("spi")).StitchLength()
	}
	if in.Has("width") {
		s.Width = in.Length("width")
	}
	if in.Has("model") && err == nil {
		err = s.Model.UnmarshalText([]byte(in.Text("model")))
	}
	return s, err
}

// threadConsumption gives needle, under or total thread per length of seam.
func threadConsumption(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := threadSeam(in)
	if err != nil {
		return reference.Value{}, err
	}
	u, err := thread.Consume(s)
	l := u.Total
	if in.Has("of") {
		switch in.Text("of") {
		case "needle":
			l = u.Needle
		case "under":
			l = u.Under
		}
	}
	return reference.Numbers(l.Inches() / 1000).On(u.Basis), err
}

// threadSewing gives the thread of one seam by a measured ratio or an unpicked
// sample, with waste.
func threadSewing(in *reference.Inputs, u string) (reference.Value, error) {
	w := thread.Sewing{Seams: []thread.Seam{{
		Length:       in.Length("seam"),
		Thickness:    unit.Millimetre,
		Stitch:       thread.Stitch(in.Int("stitch")),
		StitchLength: 2 * unit.Millimetre,
		Model:        thread.Measured,
	}}}
	if in.Has("sample") {
		w.Seams[0].Unpicked = thread.UnpickedSample{Sample: in.Length("sample"), Needle: in.Length("needle"), Under: in.Length("under")}
	}
	if in.Has("waste") {
		w.Waste = in.Ratio("waste")
	}
	c, err := thread.Total(w)
	switch u {
	case "cm":
		return reference.Numbers(c.Total.Centimetres()), err
	case "cm needle":
		return reference.Numbers(c.Needle.Centimetres()), err
	default:
		return reference.Numbers(c.Total.Yards()), err
	}
}

func threadSeamStrength(in *reference.Inputs, _ string) (reference.Value, error) {
	l, err := thread.StitchesPerInch(in.Float("spi")).StitchLength()
	if err != nil {
		return reference.Value{}, err
	}
	load := thread.LoadedSeam{Stitch: thread.Stitch(in.Int("stitch")), StitchLength: l, Needle: in.Force("thread")}
	if in.Has("under") {
		load.Under = in.Force("under")
	}
	s, err := thread.Strength(load)
	return reference.Numbers(s.Seam.PoundsForcePerInch()).On(s.Basis), err
}

// threadRecommend gives size, fibre and needle numbers of the first
// recommendation.
func threadRecommend(in *reference.Inputs, _ string) (reference.Value, error) {
	g, err := goods(in)
	if err != nil {
		return reference.Value{}, err
	}
	r := thread.Need{Goods: g, Layers: in.Int("layers")}
	if in.Has("exposure") {
		if err := r.Exposure.UnmarshalText([]byte(in.Text("exposure"))); err != nil {
			return reference.Value{}, err
		}
	}
	if in.Has("purpose") {
		if err := r.Purpose.UnmarshalText([]byte(in.Text("purpose"))); err != nil {
			return reference.Value{}, err
		}
	}
	if in.Has("size") {
		if r.Size, err = thread.ParseSize(in.Text("size")); err != nil {
			return reference.Value{}, err
		}
	}
	a, err := thread.Recommend(r)
	p := a.Best()
	return reference.Text(fmt.Sprintf("%v, needle %v", p.Thread, p.Needle)).On(p.Basis, p.FibreBasis), err
}

// threadSeamThread gives thread, needle, point and layers of a row through
// members such as "1 leather, 2 light woven".
func threadSeamThread(in *reference.Inputs, _ string) (reference.Value, error) {
	var n thread.SeamNeed
	for _, text := range strings.Split(in.Text("members"), ", ") {
		count, name, _ := strings.Cut(text, " ")
		layers, err := strconv.Atoi(count)
		if err != nil {
			return reference.Value{}, err
		}
		m := thread.Member{Layers: layers}
		if err := m.Goods.UnmarshalText([]byte(name)); err != nil {
			return reference.Value{}, err
		}
		n.Members = append(n.Members, m)
	}
	if in.Has("exposure") {
		if err := n.Exposure.UnmarshalText([]byte(in.Text("exposure"))); err != nil {
			return reference.Value{}, err
		}
	}
	if in.Has("purpose") {
		if err := n.Purpose.UnmarshalText([]byte(in.Text("purpose"))); err != nil {
			return reference.Value{}, err
		}
	}
	p, err := thread.RecommendSeam(n)
	return reference.Text(fmt.Sprintf("%v, %v point, %d layers", p.Thread, p.Point, p.Layers)).On(p.Basis, p.FibreBasis, p.PointBasis), err
}

func threadFibre(in *reference.Inputs, _ string) (reference.Value, error) {
	var f thread.Fibre
	if err := f.UnmarshalText([]byte(in.Text("fibre"))); err != nil {
		return reference.Value{}, err
	}
	p, err := f.Properties()
	if err != nil {
		return reference.Value{}, err
	}
	switch property := in.Text("property"); property {
	case "melts":
		return known(p.Melts, thread.Temperature.Fahrenheit)
	case "least melting point":
		return known(p.SpecifiedMelt, thread.Temperature.Fahrenheit)
	case "sticks":
		return known(p.Sticks, thread.Temperature.Fahrenheit)
	case "sling limit":
		return known(p.SlingLimit, thread.Temperature.Fahrenheit)
	case "regain":
		return known(p.Regain, unit.Ratio.Percent)
	case "least stretch":
		return known(p.StretchFrom, unit.Ratio.Percent)
	case "most stretch":
		return known(p.StretchTo, unit.Ratio.Percent)
	case "non-wicking":
		v, ok := p.NonWicking.Value()
		return reference.Text(fmt.Sprint(v && ok)).On(p.NonWicking.Basis()), nil
	default:
		return reference.Value{}, fmt.Errorf("no property %q", property)
	}
}

func threadWeatherLoss(in *reference.Inputs, _ string) (reference.Value, error) {
	material, place, days := in.Text("material"), in.Text("place"), in.Int("days")
	for _, e := range thread.WeatherLosses() {
		if e.Material == material && e.Place == place && e.Days == days {
			from, _ := e.LostFrom.Value()
			to, _ := e.LostTo.Value()
			return reference.Numbers(from.Percent(), to.Percent()).On(e.LostFrom.Basis(), e.LostTo.Basis()), nil
		}
	}
	return reference.Value{}, fmt.Errorf("no weather loss of %q", material)
}

func threadInfluence(in *reference.Inputs, _ string) (reference.Value, error) {
	factor := in.Text("factor")
	for _, i := range thread.Influences() {
		if i.Factor == factor {
			return reference.Numbers(i.Share.Percent()).On(i.Basis), nil
		}
	}
	return reference.Value{}, fmt.Errorf("no influence %q", factor)
}

func threadModelFit(in *reference.Inputs, _ string) (reference.Value, error) {
	model, stitches := in.Text("model"), in.Text("stitches")
	for _, f := range thread.ModelFits() {
		if f.Model == model && f.Stitches == stitches {
			return reference.Numbers(f.From.Percent(), f.To.Percent()).On(f.Basis), nil
		}
	}
	return reference.Value{}, fmt.Errorf("no fit of %q", model)
}

// threadCone gives the length of a mass of thread by its count.
func threadCone(in *reference.Inputs, u string) (reference.Value, error) {
	m := in.Mass("net")
	if in.Has("size") {
		s, err := thread.ParseSize(in.Text("size"))
		if err != nil {
			return reference.Value{}, err
		}
		l, err := thread.ConeLength(s, m)
		if u == "yd" {
			return reference.Numbers(l.Yards()), err
		}
		return reference.Numbers(l.Metres()), err
	}
	single, err := thread.CountCotton.Of(in.Float("Ne"))
	if err != nil {
		return reference.Value{}, err
	}
	d, err := thread.Ply(single, in.Int("plies"))
	if err != nil {
		return reference.Value{}, err
	}
	l, err := d.Length(m)
	return reference.Numbers(l.Metres()), err
}

func threadWound(in *reference.Inputs, u string) (reference.Value, error) {
	b := thread.Bobbin{Outer: in.Length("outer"), Core: in.Length("core"), Width: in.Length("width")}
	v, err := b.Volume()
	if err != nil {
		return reference.Value{}, err
	}
	if u == "cm3" {
		return reference.Numbers(float64(v) / float64(unit.CubicCentimetre)), nil
	}
	d, err := in.Mass("net").Over(v)
	return reference.Numbers(float64(d) / 1000), err
}
