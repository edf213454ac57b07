package evaluate

import (
	"errors"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/reference"
	"github.com/coverwright/coverwright/unit"
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
		m, err := foam.Mass(foamBlock(in, "block"), in.Density("density"))
		if u == "lb" {
			return reference.Numbers(m.Pounds()), err
		}
		return reference.Numbers(m.Kilograms()), err
	},
	"ifd_tolerance": func(in *reference.Inputs, _ string) (reference.Value, error) {
		f, err := foam.IFDTolerance(foam.IFD25(in.Force("nominal")))
		return foamForces(f.Range), err
	},
	"slab_length_limits": slab(func(b *foam.Block) *unit.Length { return &b.Length },
		func(l foam.SlabLimits) foam.Range[unit.Length] { return l.Length }),
	"slab_width_limits": slab(func(b *foam.Block) *unit.Length { return &b.Width },
		func(l foam.SlabLimits) foam.Range[unit.Length] { return l.Width }),
	"slab_thickness_limits": slab(func(b *foam.Block) *unit.Length { return &b.Thickness },
		func(l foam.SlabLimits) foam.Range[unit.Length] { return l.Thickness }),
	"foam_cut_size": func(in *reference.Inputs, _ string) (reference.Value, error) {
		name := in.Text("rule")
		for _, o := range foam.Oversizes() {
			if o.Name == name {
				b, err := foam.CutSize(foamBlock(in, "cover"), o)
				return reference.Numbers(b.Length.Inches(), b.Width.Inches(), b.Thickness.Inches()), err
			}
		}
		return reference.Value{}, fmt.Errorf("no oversize rule %q", name)
	},
	"sheet_thickness": func(in *reference.Inputs, _ string) (reference.Value, error) {
		t, err := foam.SheetThickness(in.Length("boxing"))
		return reference.Numbers(t.Inches()), err
	},
	"firmness_figure": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamSelect(in)
		if err != nil {
			return reference.Value{}, err
		}
		f, err := foamFigure(s.IFDFigures, in.Text("about"))
		return foamForces(f.Range), err
	},
	"firmness_span": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamSelect(in)
		return foamForces(s.IFD), err
	},
	"density_figure": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := foamSelect(in)
		if err != nil {
			return reference.Value{}, err
		}
		f, err := foamFigure(s.DensityFigures, in.Text("about"))
		return foamDensities(f.Range, u), err
	},
	"density_span": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := foamSelect(in)
		return foamDensities(s.Density, u), err
	},
	"caution_from": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foamCaution(in.Text("rule"), in.Text("edition"))
		return reference.Text(c.From), err
	},
	"caution_edition": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := foamCaution(in.Text("rule"), "")
		return reference.Text(c.Edition), err
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
		side[i], _ = unit.ParseLength(f[i] + " " + f[3]) // what does not parse is refused as zero
	}
	return foam.Block{Length: side[0], Width: side[1], Thickness: side[2]}
}

func foamForces(r foam.Range[foam.IFD25]) reference.Value {
	return reference.Numbers(r.Low.PoundsForce(), r.High.PoundsForce())
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
		return reference.Numbers(limits(l).Low.Inches(), limits(l).High.Inches()), err
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

// foamCaution finds a caution by rule and, when given, edition, commas apart.
func foamCaution(rule, edition string) (foam.Caution, error) {
	all, err := foam.Cautions()
	for _, c := range all {
		if c.Rule == rule && (edition == "" || strings.ReplaceAll(c.Edition, ",", "") == edition) {
			return c, err
		}
	}
	return foam.Caution{}, fmt.Errorf("no caution for %s %s", rule, edition)
}
