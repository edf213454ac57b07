package evaluate

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/sheet"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var foamEvaluators = map[string]reference.Evaluator{
	"ifd_newtons": func(in *reference.Inputs, _ string) (reference.Value, error) {
		return reference.Numbers(ifd25(in).Force().Newtons()), nil
	},
	"ifd_mean_pressure": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := ifd25(in).Force().Over(foam.Plate)
		return reference.Numbers(p.Kilopascals()), err
	},
	"ifd65_from_support": func(in *reference.Inputs, _ string) (reference.Value, error) {
		i, err := foam.IFD65Of(ifd25(in), in.Ratio("support"))
		return reference.Numbers(i.PoundsForce()), err
	},
	"support_factor": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foam.SupportFactor(ifd25(in), foam.IFD65(in.Force("ifd65")))
		return reference.Numbers(float64(s)), err
	},
	"guide_factor": func(in *reference.Inputs, _ string) (reference.Value, error) {
		g, err := foam.GuideFactor(ifd25(in), in.Density("density"))
		return reference.Numbers(float64(g)), err
	},
	"board_feet": func(in *reference.Inputs, _ string) (reference.Value, error) {
		v, err := foamBlock(in, "block").Volume()
		return reference.Numbers(v.BoardFeet()), err
	},
	"block_mass": func(in *reference.Inputs, u string) (reference.Value, error) {
		m, err := foam.MassOf(foamBlock(in, "block"), in.Density("density"))
		if u == "lb" {
			return reference.Numbers(m.Pounds()), err
		}
		return reference.Numbers(m.Kilograms()), err
	},
	"ifd_tolerance": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := foam.IFDTolerance(foam.IFD25(in.Force("nominal")))
		return foamForces(f.Range).On(f.Basis), err
	},
	"slab_length_limits": slab(func(b *foam.Block) *unit.Length { return &b.Length },
		func(l foam.SlabLimits) foam.Range[unit.Length] { return l.Length }),
	"slab_width_limits": slab(func(b *foam.Block) *unit.Length { return &b.Width },
		func(l foam.SlabLimits) foam.Range[unit.Length] { return l.Width }),
	"slab_thickness_limits": slab(func(b *foam.Block) *unit.Length { return &b.Thickness },
		func(l foam.SlabLimits) foam.Range[unit.Length] { return l.Thickness }),
	"roll_limits":       slabLimits(foam.RollTolerance),
	"convoluted_limits": slabLimits(foam.ConvolutedTolerance),
	"bun_height_limits": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := foam.BunHeightTolerance(in.Length("ordered"))
		return reference.Numbers(f.Range.Low.Inches(), f.Range.High.Inches()).On(f.Basis), err
	},
	"hysteresis_figure": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := foamFigure(foam.HysteresisFigures(), in.Text("about"))
		return reference.Numbers(f.Range.Low.Percent(), f.Range.High.Percent()).On(f.Basis), err
	},
	"foam_cut_size": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o := foam.DefaultOversize()
		if in.Has("rule") {
			name := in.Text("rule")
			i := slices.IndexFunc(foam.Oversizes(), func(o foam.Oversize) bool { return o.Name == name })
			if i < 0 {
				return reference.Value{}, fmt.Errorf("no oversize rule %q", name)
			}
			o = foam.Oversizes()[i]
		}
		b, err := foam.CutSize(foamBlock(in, "cover"), o)
		return reference.Numbers(b.Length.Inches(), b.Width.Inches(), b.Thickness.Inches()).On(o.Basis), err
	},
	"sheet_thickness": func(in *reference.Inputs, _ string) (reference.Value, error) {
		t, err := sheet.ThicknessFor(in.Length("boxing"))
		return reference.Numbers(t.Inches()), err
	},
	"firmness_figure": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamSelect(in)
		if err != nil {
			return reference.Value{}, err
		}
		f, err := foamFigure(s.IFDFigures, in.Text("about"))
		return foamForces(f.Range).On(f.Basis), err
	},
	"firmness_span": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamSelect(in)
		return foamForces(s.IFD).On(basesOf(s.IFDFigures)...), err
	},
	"density_figure": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := foamSelect(in)
		if err != nil {
			return reference.Value{}, err
		}
		f, err := foamFigure(s.DensityFigures, in.Text("about"))
		return foamDensities(f.Range, u).On(f.Basis), err
	},
	"density_span": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := foamSelect(in)
		return foamDensities(s.Density, u).On(s.DensityBasis), err
	},
	"density_kgm3": func(in *reference.Inputs, _ string) (reference.Value, error) {
		d, err := foam.WeighedDensity(foam.Weighing{Block: foamBlock(in, "block"), Mass: in.Mass("mass")})
		return reference.Numbers(d.Value.KilogramsPerCubicMetre()).On(d.Basis), err
	},
	"index_grades": func(in *reference.Inputs, _ string) (reference.Value, error) {
		g, basis := foam.IndexGrades()
		x := make([]float64, len(g))
		for i := range g {
			x[i] = g[i].Newtons()
		}
		return reference.Numbers(x...).On(basis), noInputs(in)
	},
	"plate_diameter": func(in *reference.Inputs, _ string) (reference.Value, error) {
		return reference.Numbers(foam.PlateDiameter().Millimetres()), noInputs(in)
	},
	"recovery": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := foam.Recovery(ifd25(in), foam.IFD25(in.Force("back")))
		return reference.Numbers(r.Percent()), err
	},
	"hysteresis_loss": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := foam.HysteresisLoss(ifd25(in), foam.IFD25(in.Force("back")))
		return reference.Numbers(r.Percent()), err
	},
	"ifd_height": func(in *reference.Inputs, _ string) (reference.Value, error) {
		h, err := foam.HeightAt(in.Length("thickness"), in.Ratio("percent"))
		return reference.Numbers(h.Inches()), err
	},
	"compression_set": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := foam.CompressionSet(in.Length("before"), in.Length("after"))
		return reference.Numbers(r.Percent()), err
	},
	"height_loss_verdict": func(in *reference.Inputs, _ string) (reference.Value, error) {
		j, err := foam.Judge(foam.OldFoam{New: in.Length("before"), Now: in.Length("after")})
		return reference.Text(j.Verdict.String()).On(j.Basis), err
	},
	"one_inch_least": func(in *reference.Inputs, _ string) (reference.Value, error) {
		return reference.Numbers(foam.OneInchLeast.Millimetres()), noInputs(in)
	},
	"one_inch_strain": func(in *reference.Inputs, _ string) (reference.Value, error) {
		r, err := foam.OneInchStrain(in.Length("thickness"))
		return reference.Numbers(r.Percent()), err
	},
	"densest": func(in *reference.Inputs, _ string) (reference.Value, error) {
		return reference.Numbers(foam.Densest.KilogramsPerCubicMetre()), noInputs(in)
	},
	"foam_densities": func(in *reference.Inputs, u string) (reference.Value, error) {
		f, err := foamFigure(foam.FoamDensities(), in.Text("about"))
		return foamDensities(f.Range, u).On(f.Basis), err
	},
	"firmness_term": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := foamFigure(foam.FirmnessTerms(), in.Text("about"))
		return foamForces(f.Range).On(f.Basis), err
	},
	"test_method": func(in *reference.Inputs, _ string) (reference.Value, error) {
		name := in.Text("name")
		for _, m := range foam.TestMethods() {
			if m.Name == name {
				var x []float64
				for _, d := range m.Depths {
					x = append(x, d.Percent())
				}
				return reference.Numbers(append(x, m.Hold.Hours()*3600)...).On(m.Basis), nil
			}
		}
		return reference.Value{}, fmt.Errorf("no test %q", name)
	},
	"contact_discs": func(in *reference.Inputs, _ string) (reference.Value, error) {
		ds, basis := foam.ContactDiscs()
		x := make([]float64, len(ds))
		for i, d := range ds {
			x[i] = d.Centimetres()
		}
		return reference.Numbers(x...).On(basis), noInputs(in)
	},
	"posture_change": func(in *reference.Inputs, _ string) (reference.Value, error) {
		name := in.Text("name")
		for _, p := range foam.Postures() {
			if p.Name == name {
				return reference.Numbers(p.Change.Low.Percent(), p.Change.High.Percent()).On(p.Basis), nil
			}
		}
		return reference.Value{}, fmt.Errorf("no posture %q", name)
	},
	"rigid_seat": func(in *reference.Inputs, _ string) (reference.Value, error) {
		a, p, b := foam.RigidSeat()
		return reference.Numbers(a.SquareInches(), p.PoundsPerSquareInch()).On(b), noInputs(in)
	},
	"prediction_error": func(in *reference.Inputs, _ string) (reference.Value, error) {
		at := in.Ratio("strain")
		for _, p := range foam.PredictionErrors() {
			if p.Strain == at {
				return reference.Numbers(p.Error.Percent()).On(p.Basis), nil
			}
		}
		return reference.Value{}, fmt.Errorf("no prediction at %v", at)
	},
	"seat_pressure": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := foam.Sitter{Mass: in.Mass("mass"), Share: in.Ratio("share"), Disc: in.Length("disc")}.Pressure()
		return reference.Numbers(p.Kilopascals()), err
	},
	"seat_pressure_on_plate": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := foam.Sitter{Mass: in.Mass("mass"), Share: in.Ratio("share"), Disc: in.Length("disc")}.Pressure()
		if err != nil {
			return reference.Value{}, err
		}
		f, err := p.On(foam.Plate)
		return reference.Numbers(f.PoundsForce()), err
	},
	"sitting_strain": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foamCurve(in)
		if err != nil {
			return reference.Value{}, err
		}
		s, err := foam.Sit(foam.Stack{{Thickness: in.Length("thickness"), Curve: c}}, foam.Sitter{Mass: in.Mass("mass")})
		return reference.Numbers(s.Pressed.Strain.Percent()).On(s.Sink.Basis), err
	},
	"layer_series": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamStack(in)
		if err != nil {
			return reference.Value{}, err
		}
		i, err := s.HarmonicIFD25()
		return reference.Numbers(i.PoundsForce()), err
	},
	"layer_sink": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamStack(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := in.Force("force").Over(foam.Plate)
		if err != nil {
			return reference.Value{}, err
		}
		d, err := s.Under(p)
		return reference.Numbers(d.Sink.Inches()), err
	},
	"curve_force_ratio": func(in *reference.Inputs, _ string) (reference.Value, error) {
		i := foam.IFD25(100 * unit.Newton)
		i65, err := foam.IFD65Of(i, in.Ratio("support"))
		if err != nil {
			return reference.Value{}, err
		}
		f, err := foam.Curve{IFD25: i, IFD65: i65}.Force(in.Ratio("strain"))
		return reference.Numbers(f.Newtons() / 100), err
	},
	"curve_strain": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foamCurve(in)
		if err != nil {
			return reference.Value{}, err
		}
		e, err := c.Strain(in.Force("force"))
		return reference.Numbers(float64(e)), err
	},
	"cellular_modulus": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foam.CellularModel(in.Density("density"))
		return reference.Numbers(c.Modulus.Kilopascals()).On(c.Basis), err
	},
	"cellular_plateau": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foam.CellularModel(in.Density("density"))
		return reference.Numbers(c.Plateau.Kilopascals()).On(c.Basis), err
	},
	"cellular_densification": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foam.CellularModel(in.Density("density"))
		return reference.Numbers(float64(c.Densification)).On(c.Basis), err
	},
	"hardness_estimate": func(in *reference.Inputs, _ string) (reference.Value, error) {
		e, err := foam.EstimateHardnessA(ifd25(in))
		return reference.Numbers(e.Low.Newtons(), e.Value.Newtons(), e.High.Newtons()).On(e.Basis), err
	},
	"parse_american_grade": func(in *reference.Inputs, _ string) (reference.Value, error) {
		g, err := foam.ParseGradeCode(foam.AmericanTrade, in.Text("code"))
		return reference.Numbers(g.Density.PoundsPerCubicFoot(), g.IFD25.PoundsForce()).On(g.Basis), err
	},
	"parse_european_grade": func(in *reference.Inputs, _ string) (reference.Value, error) {
		g, err := foam.ParseGradeCode(foam.EuropeanBedding, in.Text("code"))
		return reference.Numbers(g.Density.KilogramsPerCubicMetre(), g.Stress.Kilopascals(), g.Hardness.Newtons()).On(g.Basis), err
	},
	"service_class_loss": func(in *reference.Inputs, _ string) (reference.Value, error) {
		class := in.Text("class")
		for _, c := range foam.ServiceClasses() {
			if c.Class == class {
				return reference.Numbers(c.MostLoss.Percent()).On(c.LossBasis), nil
			}
		}
		return reference.Value{}, fmt.Errorf("no class %q", class)
	},
	"service_class": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var u foam.Use
		var d foam.Duty
		if err := errors.Join(u.UnmarshalText([]byte(in.Text("use"))), d.UnmarshalText([]byte(in.Text("duty")))); err != nil {
			return reference.Value{}, err
		}
		c, err := foam.ServiceClassFor(u, d)
		return reference.Text(c.Class).On(c.Basis), err
	},
	"batting_loft": func(in *reference.Inputs, _ string) (reference.Value, error) {
		name := in.Text("name")
		for _, b := range wrap.Battings() {
			if b.Name == name {
				return reference.Numbers(b.Loft.Inches()).On(b.Basis), nil
			}
		}
		return reference.Value{}, fmt.Errorf("no batting %q", name)
	},
	"batting_cut": func(in *reference.Inputs, _ string) (reference.Value, error) {
		w := wrap.Rule{Batting: wrap.Batting{Loft: in.Length("loft")}, Layers: in.Int("layers"), Overlap: in.Length("overlap"), Back: in.Bool("back")}
		c, err := wrap.CutFor(foamBlock(in, "block"), w)
		return reference.Numbers(c.Length.Inches(), c.Around.Inches(), c.Area.SquareFeet(), c.Crown.Inches()).On(c.Basis), err
	},
	"sheet_size": func(in *reference.Inputs, _ string) (reference.Value, error) {
		name := in.Text("name")
		for _, s := range sheet.Common(unit.Inch) {
			if s.Name == name {
				return reference.Numbers(s.Width.Inches(), s.Length.Inches()).On(s.Basis), nil
			}
		}
		return reference.Value{}, fmt.Errorf("no sheet %q", name)
	},
	"packed_density": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := foam.FillCover(foam.Fill{
			Cut: foamBlock(in, "cut"), Cover: foamBlock(in, "cover"), Density: in.Density("density"),
			Curve: foam.Curve{IFD25: 100, IFD65: 200},
		})
		return reference.Numbers(f.Density.PoundsPerCubicFoot(), f.Strain.Percent()), err
	},
}

func ifd25(in *reference.Inputs) foam.IFD25 { return foam.IFD25(in.Force("ifd25")) }

// foamBlock reads "24 27 5 in".
func foamBlock(in *reference.Inputs, name string) foam.Block {
	f := in.List(name)
	if len(f) != 4 {
		return foam.Block{}
	}
	var side [3]unit.Length
	for i := range side {
		side[i], _ = unit.ParseLength(f[i] + " " + f[3]) //nolint:errcheck // what does not parse is refused as zero
	}
	return foam.Block{Length: side[0], Width: side[1], Thickness: side[2]}
}

func foamForces(r foam.Range[foam.IFD25]) reference.Value {
	return reference.Numbers(r.Low.PoundsForce(), r.High.PoundsForce())
}

func basesOf[Q ~int64 | ~float64](figures []foam.Figure[Q]) []cite.Basis {
	var out []cite.Basis
	for _, f := range figures {
		out = append(out, f.Basis)
	}
	return out
}

func foamDensities(r foam.Range[unit.Density], u string) reference.Value {
	if u == "lb/ft3" {
		return reference.Numbers(r.Low.PoundsPerCubicFoot(), r.High.PoundsPerCubicFoot())
	}
	return reference.Numbers(r.Low.KilogramsPerCubicMetre(), r.High.KilogramsPerCubicMetre())
}

func slab(side func(*foam.Block) *unit.Length, limits func(foam.SlabLimits) foam.Range[unit.Length]) reference.Evaluator {
	return func(in *reference.Inputs, _ string) (reference.Value, error) {
		b := foam.Block{Length: unit.Foot, Width: unit.Foot, Thickness: unit.Foot}
		*side(&b) = in.Length("ordered")
		l, err := foam.SlabTolerance(b)
		return reference.Numbers(limits(l).Low.Inches(), limits(l).High.Inches()).On(l.Basis), err
	}
}

// slabLimits gives the limits of length, width and thickness.
func slabLimits(limits func(foam.Block) (foam.SlabLimits, error)) reference.Evaluator {
	return func(in *reference.Inputs, _ string) (reference.Value, error) {
		l, err := limits(foamBlock(in, "ordered"))
		return reference.Numbers(l.Length.Low.Inches(), l.Length.High.Inches(), l.Width.Low.Inches(), l.Width.High.Inches(),
			l.Thickness.Low.Inches(), l.Thickness.High.Inches()).On(l.Basis), err
	}
}

func foamSelect(in *reference.Inputs) (foam.Selection, error) {
	r := foam.Request{Thickness: in.Length("thickness")}
	err := errors.Join(
		r.Use.UnmarshalText([]byte(in.Text("use"))),
		r.Duty.UnmarshalText([]byte(in.Text("duty"))),
		r.Base.UnmarshalText([]byte(in.Text("base"))),
	)
	if err != nil {
		return foam.Selection{}, err
	}
	return foam.Select(r)
}

// foamFigure finds a figure by what it is about, commas apart.
func foamFigure[Q ~int64 | ~float64](figures []foam.Figure[Q], about string) (foam.Figure[Q], error) {
	for _, f := range figures {
		if strings.ReplaceAll(f.About, ",", "") == about {
			return f, nil
		}
	}
	return foam.Figure[Q]{}, fmt.Errorf("no figure about %q", about)
}

func noInputs(in *reference.Inputs) error {
	if t := in.Text(""); t != "-" {
		return fmt.Errorf("inputs %q: want -", t)
	}
	return nil
}

func foamCurve(in *reference.Inputs) (foam.Curve, error) {
	i := ifd25(in)
	i65, err := foam.IFD65Of(i, in.Ratio("support"))
	return foam.Curve{IFD25: i, IFD65: i65}, err
}

// foamStack reads layers such as "3@40 1@20", inches at IFD25 in lbf, all with
// one support factor.
func foamStack(in *reference.Inputs) (foam.Stack, error) {
	var s foam.Stack
	support := in.Ratio("support")
	for _, text := range in.List("layers") {
		t, f, _ := strings.Cut(text, "@")
		thickness, err := unit.ParseLength(t + " in")
		if err != nil {
			return nil, err
		}
		force, err := unit.ParseForce(f + " lbf")
		if err != nil {
			return nil, err
		}
		i65, err := foam.IFD65Of(foam.IFD25(force), support)
		if err != nil {
			return nil, err
		}
		s = append(s, foam.Layer{Thickness: thickness, Curve: foam.Curve{IFD25: foam.IFD25(force), IFD65: i65}})
	}
	return s, nil
}
