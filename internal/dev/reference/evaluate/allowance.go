package evaluate

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var allowanceEvaluators = map[string]reference.Evaluator{
	"finish_allowance": finishAllowance,
	"seam_allowance":   seamAllowance,
	"rule_allowance":   ruleAllowance,
	"rect_cut":         rectCut,
	"rect_finished":    rectFinished,
	"patch_lap":        patchLap,
	"stretch":          stretch,
	"leather_stretch":  leatherStretch,
	"boxing_length":    boxingLength,
	"boxing_width":     boxingWidth,
	"zip_strip":        zipStrip,
	"margin_total": func(in *reference.Inputs, u string) (reference.Value, error) {
		return inUnit(u, nil, allowance.Margin{Allowance: in.Length("allowance"), Handling: in.Length("handling")}.Total())
	},
	"welt_strip": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := made.Welt{Cord: in.Length("cord")}.Width(made.Goods{})
		return on(cite.Practice(""))(inUnit(u, err, l))
	},
	"welt_width":          weltWidth,
	"welt_width_by_girth": weltWidthByGirth,
	"welt_width_by_eight": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, basis, err := made.WeltWidthByMultiple(in.Length("cord"))
		return on(basis)(inUnit(u, err, l))
	},
	"double_welt_width": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, basis, err := made.DoubleWeltWidth(in.Length("single"))
		return on(basis)(inUnit(u, err, l))
	},
	"vinyl_stretch": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, basis := allowance.VinylStretch()
		f, err := s.Apply(in.Length("finished"))
		return on(basis)(inUnit(u, err, f.Seam))
	},
	"measured_stretch": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := allowance.MeasuredStretch(in.Length("relaxed"), in.Length("pulled"))
		if err != nil {
			return reference.Value{}, err
		}
		f, err := s.Apply(in.Length("finished"))
		return inUnit(u, err, f.Seam)
	},

	// cushions
	"boxed_perimeter": boxedPerimeter,
	"boxed_plate":     boxedPlate,
	"zip_tape":        zipTape,
	"zip_plaque":      zipPlaque,
	"knife_edge":      knifeEdge,
	"waterfall_main":  waterfallMain,
	"waterfall_side":  waterfallSide,
	"bolster_body":    bolsterBody,
	"bolster_end":     bolsterEnd,
	"bolster_girth":   bolsterGirth,
	"round_boxing":    roundBoxing,
	"boxed_welt":      boxedWelt,
	"t_cushion_plate": tCushionPlate,
	"wrap_length":     wrapLength,

	// bias
	"strips_across":     stripsAcross,
	"longest_bias":      length1(made.LongestBias, "width"),
	"bias_yield_bound":  biasYieldBound,
	"bias_square_bound": biasSquareBound,
	"bias_square":       biasSquare,
	"bias_tube_yield":   biasTubeYield,
	"best_bias_tube": func(in *reference.Inputs, u string) (reference.Value, error) {
		t, y, err := made.BestBiasTube(made.BiasTube{Width: in.Length("width"), Height: in.Length("height"), Strip: in.Length("strip"), Seam: in.Length("seam")})
		return inUnit(u, err, t.Width, t.Height, y.Length)
	},
	"bias_tube_height":   biasTubeHeight,
	"bias_strips_yield":  biasStripsYield,
	"bias_strips_height": biasStripsHeight,
	"bias_chart":         biasChart,
	"bias_factor":        biasFactor,

	// tufting, channels, pleats
	"tuft_net":            tuftSize(func(p made.TuftPlan) [2]unit.Length { return [2]unit.Length{p.NetWidth, p.NetHeight} }),
	"tuft_cut":            tuftSize(func(p made.TuftPlan) [2]unit.Length { return [2]unit.Length{p.CutWidth, p.CutHeight} }),
	"tuft_field":          tuftSize(func(p made.TuftPlan) [2]unit.Length { return [2]unit.Length{p.FieldWidth, p.FieldHeight} }),
	"tuft_diamond":        tuftSize(func(p made.TuftPlan) [2]unit.Length { return [2]unit.Length{p.DiamondWidth, p.DiamondHeight} }),
	"tuft_spacing":        tuftSpacing,
	"tuft_edge":           tuftEdge,
	"biscuit_cover":       biscuitCover,
	"channel_cover":       channelCover,
	"channels_cut":        channelsCut,
	"knife_pleat_ratio":   knifePleatRatio,
	"box_pleat_ratio":     boxPleatRatio,
	"pleats_ratio":        pleatsRatio,
	"fullness":            fullness,
	"corner_pleat_length": cornerPleatLength,
	"gathered_skirt":      gatheredSkirt,
	"kick_pleat_panel":    kickPleatPanel,

	// seams
	"seam_ease":    seamEase,
	"seam_verdict": seamVerdict,
	"bow_rise":     bowRise,
	"bend":         bend,

	// geometry
	"circle_circumference":   length1(shape.CircleCircumference, "d"),
	"circle_area":            area1(shape.CircleArea, "d"),
	"cap_area":               area2(shape.SphericalCapArea, "radius", "rise"),
	"ellipse_area":           area2(shape.EllipseArea, "a", "b"),
	"ellipse_perimeter":      length2(shape.EllipsePerimeter, "a", "b"),
	"ellipse_ramanujan_1":    length2(shape.EllipsePerimeterRamanujan1, "a", "b"),
	"ellipse_ramanujan_2":    length2(shape.EllipsePerimeterRamanujan2, "a", "b"),
	"stadium_area":           area2(shape.StadiumArea, "r", "straight"),
	"stadium_perimeter":      length2(shape.StadiumPerimeter, "r", "straight"),
	"rounded_rect_area":      area3(shape.RoundedRectangleArea, "l", "w", "r"),
	"rounded_rect_perimeter": length3(shape.RoundedRectanglePerimeter, "l", "w", "r"),
	"trapezoid_area":         area3(shape.TrapezoidArea, "a", "b", "h"),
	"trapezoid_perimeter":    length3(shape.TrapezoidPerimeter, "a", "b", "h"),
	"polygon_area":           polygonArea,
	"polygon_perimeter":      polygonLength(shape.RegularPolygonPerimeter),
	"polygon_apothem":        polygonLength(shape.RegularPolygonApothem),
	"polygon_circumradius":   polygonLength(shape.RegularPolygonCircumradius),
	"arc_radius":             arc(func(a shape.ChordArc) unit.Length { return a.Radius }),
	"arc_length":             arc(func(a shape.ChordArc) unit.Length { return a.Length }),
	"arc_angle":              arcAngle,
	"segment_area":           segmentArea,
	"offset_area":            offsetArea,
	"offset_perimeter":       offsetPerimeter,

	// developed surfaces
	"frustum_slant":  sector(func(s made.Sector) []unit.Length { return []unit.Length{s.Slant} }),
	"frustum_radii":  sector(func(s made.Sector) []unit.Length { return []unit.Length{s.Outer, s.Inner} }),
	"frustum_arcs":   sector(func(s made.Sector) []unit.Length { return []unit.Length{s.OuterArc, s.InnerArc} }),
	"frustum_chords": sector(func(s made.Sector) []unit.Length { return []unit.Length{s.OuterChord, s.InnerChord} }),
	"frustum_rises":  sector(func(s made.Sector) []unit.Length { return []unit.Length{s.OuterRise, s.InnerRise} }),
	"frustum_area":   sectorArea,
	"frustum_angle":  sectorAngle,
	"gore_width":     gore(func(g made.Gore) unit.Length { return g.Width }),
	"gore_length":    gore(func(g made.Gore) unit.Length { return g.Length }),
	"gore_half":      goreHalf,
	"gore_area":      goreArea,
	"dome_area":      domeArea,
	"welt_length":    weltLength,
}

// inUnit gives lengths as numbers of the row's unit, or the error before it.
func inUnit(u string, err error, ls ...unit.Length) (reference.Value, error) {
	if err != nil {
		return reference.Value{}, err
	}
	one, err := unit.ParseLength("1 " + u)
	if err != nil {
		return reference.Value{}, err
	}
	out := make([]float64, len(ls))
	for i, l := range ls {
		r, err := l.Per(one)
		if err != nil {
			return reference.Value{}, err
		}
		out[i] = float64(r)
	}
	return reference.Numbers(out...), nil
}

func finishAllowance(in *reference.Inputs, u string) (reference.Value, error) {
	f, err := allowance.ParseFinish(in.Text(""))
	l, basis := f.Default()
	return on(basis)(inUnit(u, err, l))
}

// seamAllowance is the allowance of a side of a kind of seam.
func seamAllowance(in *reference.Inputs, u string) (reference.Value, error) {
	var k allowance.SeamKind
	err := k.UnmarshalText([]byte(in.Text("")))
	l, basis := k.Default()
	return on(basis)(inUnit(u, err, l))
}

func ruleAllowance(in *reference.Inputs, u string) (reference.Value, error) {
	r, err := allowance.RuleNamed(in.Text(""))
	return on(r.Basis)(inUnit(u, err, r.Allowance))
}

// edge reads an edge, the name of a rule or a finish or an allowance, and what
// a rule rests on.
func edge(in *reference.Inputs, name string) (allowance.Edge, cite.Basis, error) {
	s := in.Text(name)
	if l, err := unit.ParseLength(s); err == nil {
		return allowance.Edge{Allowance: allowance.Exactly(l)}, cite.Basis{}, nil
	}
	if r, err := allowance.RuleNamed(s); err == nil {
		return r.Edge(), r.Basis, nil
	}
	f, err := allowance.ParseFinish(s)
	return allowance.Edge{Finish: f}, cite.Basis{}, err
}

// rectCut evaluates the cut size of a rectangle with the same edges all
// round, or with sides and ends of its own.
func rectCut(in *reference.Inputs, u string) (reference.Value, error) {
	p := allowance.RectPanel{Width: in.Length("width"), Height: in.Length("height")}
	var bases []cite.Basis
	for _, e := range []struct {
		name string
		to   *allowance.Edge
	}{{"all", nil}, {"top", &p.Top}, {"right", &p.Right}, {"bottom", &p.Bottom}, {"left", &p.Left}} {
		if !in.Has(e.name) {
			continue
		}
		x, basis, err := edge(in, e.name)
		if err != nil {
			return reference.Value{}, err
		}
		bases = append(bases, basis)
		if e.name == "all" {
			p = p.AllEdges(x)
			continue
		}
		*e.to = x
	}
	if in.Has("handling") {
		h := in.Length("handling")
		p.Top.Handling, p.Right.Handling, p.Bottom.Handling, p.Left.Handling = h, h, h, h
	}
	c, err := p.Cut()
	bases = append(bases, c.Top.Basis, c.Right.Basis, c.Bottom.Basis, c.Left.Basis)
	return on(bases...)(inUnit(u, err, c.Width, c.Height))
}

// rectFinished evaluates the seam size of a cover that is cut to the size of
// its filling.
func rectFinished(in *reference.Inputs, u string) (reference.Value, error) {
	l, err := allowance.FinishedFromCut(in.Length("cut"), in.Length("seam"), in.Length("seam"))
	return inUnit(u, err, l)
}

func patchLap(in *reference.Inputs, u string) (reference.Value, error) {
	l, err := made.PatchLap(in.Length("larger"), in.Length("fold"))
	return inUnit(u, err, l)
}

func stretch(in *reference.Inputs, u string) (reference.Value, error) {
	var s allowance.Stretch
	if in.Has("take_out") {
		s.TakeOut = in.Ratio("take_out")
	}
	if in.Has("below") {
		s.Below = in.Length("below")
	}
	if in.Has("compression") {
		s.Compression = in.Length("compression")
	}
	if in.Has("ease") {
		s.Ease = in.Length("ease")
	}
	if in.Has("shrinkage") {
		s.Shrinkage = in.Ratio("shrinkage")
	}
	f, err := s.Apply(in.Length("finished"))
	return inUnit(u, err, f.Seam)
}

func leatherStretch(in *reference.Inputs, u string) (reference.Value, error) {
	s, basis := allowance.LeatherStretch()
	f, err := s.Apply(in.Length("finished"))
	return on(basis)(inUnit(u, err, f.Seam))
}

func boxing(in *reference.Inputs) (made.BoxingCut, error) {
	b := made.Boxing{Perimeter: in.Length("perimeter"), Depth: in.Length("depth"), Seam: optional(in, "seam"), Zip: in.Has("zip"), ZipLength: optionalLength(in, "zip")}
	return b.Cut(made.Goods{Across: optionalLength(in, "longest"), Directed: true})
}

func boxingLength(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxing(in)
	return inUnit(u, err, c.Length)
}

func boxingWidth(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxing(in)
	return inUnit(u, err, c.Width)
}

func zipStrip(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := boxing(in)
	return inUnit(u, err, c.Zips, c.Tape)
}

func weltWidth(in *reference.Inputs, u string) (reference.Value, error) {
	w := made.WeltStrip{Cord: in.Length("cord")}
	if in.Has("cloth") {
		w.Cloth = in.Length("cloth")
	}
	if in.Has("seam") {
		w.Seam = allowance.Exactly(in.Length("seam"))
	}
	if in.Has("step") {
		w.Step = in.Length("step")
	}
	l, err := w.Width()
	return inUnit(u, err, l)
}

func weltWidthByGirth(in *reference.Inputs, u string) (reference.Value, error) {
	l, err := made.WeltWidthByGirth(in.Length("girth"), in.Length("seam"))
	return inUnit(u, err, l)
}

func weltLength(in *reference.Inputs, u string) (reference.Value, error) {
	w := made.WeltRun{Width: in.Length("width"), Ends: allowance.Exactly(in.Length("ends"))}
	run := in.Length("run")
	for range in.Int("count") {
		w.Runs = append(w.Runs, run)
	}
	if in.Has("longest") {
		w.Longest = in.Length("longest")
	}
	c, err := w.Cut()
	return inUnit(u, err, c.Length)
}
