package evaluate

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var findingsEvaluators = map[string]reference.Evaluator{
	"finding_length": func(in *reference.Inputs, u string) (reference.Value, error) {
		return figure(in, u, findings.Lengths(), unit.ParseLength)
	},
	"finding_area": func(in *reference.Inputs, u string) (reference.Value, error) {
		return figure(in, u, findings.Areas(), unit.ParseArea)
	},
	"finding_mass": func(in *reference.Inputs, u string) (reference.Value, error) {
		return figure(in, u, findings.Masses(), unit.ParseMass)
	},
	"finding_volume": func(in *reference.Inputs, u string) (reference.Value, error) {
		return figure(in, u, findings.Volumes(), unit.ParseVolume)
	},
	"finding_count": func(in *reference.Inputs, _ string) (reference.Value, error) {
		return figure(in, "", findings.Counts(), func(string) (int, error) { return 1, nil })
	},
	"finding_share": func(in *reference.Inputs, u string) (reference.Value, error) {
		return figure(in, u, findings.Shares(), unit.ParseRatio)
	},
	"webbing": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := findings.Webbing{Width: in.Length("width"), Depth: in.Length("depth"), Gap: in.Length("gap")}.Plan()
		if err != nil {
			return reference.Value{}, err
		}
		one, err := unit.ParseLength("1 " + u)
		return reference.Numbers(float64(p.FrontToBack), float64(p.SideToSide), float64(p.Total)/float64(one)).On(p.Basis), err
	},
	"elastic_cut": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := findings.Elastic{Across: in.Length("span"), Span: in.Length("span"), Strip: 2 * unit.Inch, Stretch: in.Ratio("stretch")}.Plan()
		if err != nil {
			return reference.Value{}, err
		}
		return on(p.Basis)(lengthIn(p.Cut, u))
	},
	"zigzag_springs": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := findings.Zigzag{Width: in.Length("width"), Depth: 22 * unit.Inch, Back: in.Bool("back")}.Plan()
		return reference.Numbers(float64(p.Springs)).On(p.Basis), err
	},
	"zigzag_arc": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := findings.Zigzag{Width: 24 * unit.Inch, Depth: in.Length("depth"), Rise: in.Length("rise")}.Plan()
		if err != nil {
			return reference.Value{}, err
		}
		return on(p.Basis)(lengthIn(p.Arc, u))
	},
	"coil_springs": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := coilsOf(in).Plan()
		return reference.Numbers(float64(p.Across), float64(p.Deep), float64(p.Springs), float64(p.Strands), float64(p.Tacks)).On(p.Basis), err
	},
	"coil_rows": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c := coilsOf(in)
		c.Coil = in.Length("coil")
		p, err := c.Plan()
		return reference.Numbers(float64(p.Across), float64(p.Deep), float64(p.Springs)), err
	},
	"coil_twine": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := coilsOf(in).Plan()
		if err != nil {
			return reference.Value{}, err
		}
		return on(p.Basis)(lengthIn(p.Twine, u))
	},
	"coil_height": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := findings.Coils{Width: unit.Yard, Depth: unit.Yard, Rail: in.Length("rail")}.Plan()
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(p.Height, u)
	},
	"coil_strip": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := findings.Coils{Width: unit.Yard, Depth: unit.Yard, Margin: in.Length("margin"), Coil: in.Length("coil")}.StripAt(in.Length("strip"))
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(l, u)
	},
	"burlap_weight": func(in *reference.Inputs, u string) (reference.Value, error) {
		yard, err := unit.OuncesOf(in.Float("ounces"))
		if err != nil {
			return reference.Value{}, err
		}
		if !slices.ContainsFunc(findings.Burlaps(), func(b findings.Burlap) bool { return b.Yard == yard }) {
			return reference.Value{}, fmt.Errorf("no such burlap: %v", yard)
		}
		w, err := findings.BurlapWeight(yard, in.Length("width"))
		return weightIn(w, u, err)
	},
	"burlap_use": func(in *reference.Inputs, _ string) (reference.Value, error) {
		use := in.Text("use")
		var out []float64
		var bases []cite.Basis
		for _, b := range findings.Burlaps() {
			if b.Use == use {
				out, bases = append(out, b.Yard.Ounces()), append(bases, b.Basis)
			}
		}
		return reference.Numbers(out...).On(bases...), nil
	},
	"burlap_classes": func(in *reference.Inputs, _ string) (reference.Value, error) {
		source := in.Text("source")
		var out []float64
		var bases []cite.Basis
		for _, b := range findings.Burlaps() {
			if b.Basis.Source == source {
				out, bases = append(out, b.Yard.Ounces()), append(bases, b.Basis)
			}
		}
		return reference.Numbers(out...).On(bases...), nil
	},
	"cloth_rows": func(in *reference.Inputs, u string) (reference.Value, error) {
		c := findings.Cloth{Roll: in.Length("roll")}
		for _, size := range in.List("pieces") {
			var w, l unit.Length
			if _, err := fmt.Sscanf(size, "%dx%d", &w, &l); err != nil {
				return reference.Value{}, err
			}
			c.Pieces = append(c.Pieces, findings.ClothPiece{Width: w * unit.Inch, Length: l * unit.Inch})
		}
		plan, err := c.Plan()
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(plan.Length, u)
	},
	"cord": func(in *reference.Inputs, u string) (reference.Value, error) {
		return runningIn(findings.Cord(runsOf(in), false), in, u)
	},
	"gimp": func(in *reference.Inputs, u string) (reference.Value, error) {
		return runningIn(findings.Gimp(runsOf(in)), in, u)
	},
	"running": func(in *reference.Inputs, u string) (reference.Value, error) {
		return runningIn(findings.Running{Runs: runsOf(in)}, in, u)
	},
	"hook_and_loop": func(in *reference.Inputs, u string) (reference.Value, error) {
		return runningIn(findings.HookAndLoop(runsOf(in)), in, u)
	},
	"zip_chain": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := findings.Zips{Openings: runsOf(in)}.Order(findings.Buying[unit.Length]{})
		if err != nil {
			return reference.Value{}, err
		}
		return on(o.Basis)(lengthIn(o.Chain.Gross, u))
	},
	"staples": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := findings.Staples{Edges: runsOf(in), Pitch: in.Length("pitch"), Rail: unit.Inch}.Plan()
		return reference.Numbers(float64(p.Count)).On(p.Basis), err
	},
	"staple_leg": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := findings.Staples{Edges: []unit.Length{unit.Foot}, Layers: in.Length("layers"), Bite: in.Length("bite"), Rail: unit.Inch}.Plan()
		if err != nil {
			return reference.Value{}, err
		}
		one, err := unit.ParseLength("1 " + u)
		return reference.Numbers(float64(p.Least)/float64(one), float64(p.Leg)/float64(one)).On(p.Basis), err
	},
	"tack_length": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := tackOf(in.Text("size"))
		if err != nil {
			return reference.Value{}, err
		}
		return on(s.Basis)(lengthIn(s.Length, u))
	},
	"tacks_a_pound": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := tackOf(in.Text("size"))
		return reference.Numbers(float64(s.Pound)), err
	},
	"tack_use": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := tackOf(in.Text("size"))
		return reference.Text(s.Use), err
	},
	"nails": func(in *reference.Inputs, _ string) (reference.Value, error) {
		n := findings.Nails{Sides: runsOf(in), Head: in.Length("head"), Closed: in.Bool("closed")}
		if in.Has("pitch") {
			n.Pitch = in.Length("pitch")
		}
		p, err := n.Plan()
		return reference.Numbers(float64(p.Nails)).On(p.Basis), err
	},
	"button_line": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := findings.ButtonLine(in.Int("line"))
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(l, u)
	},
	"buttons": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := findings.Buttons{Count: in.Int("count"), Diameter: in.Length("diameter"), Through: in.Length("through")}.Order()
		if err != nil {
			return reference.Value{}, err
		}
		one, err := unit.ParseLength("1 " + u)
		return reference.Numbers(float64(o.Buttons), float64(o.Disc)/float64(one), float64(o.Each)/float64(one)).On(o.Basis), err
	},
	"felt": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := findings.Felt{Area: in.Area("area")}.Order(findings.Buying[unit.Mass]{Waste: in.Ratio("waste")})
		return massIn(s.Gross, u, err)
	},
	"tow": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := findings.Tow(in.Int("springs"), findings.Buying[unit.Mass]{})
		return massIn(s.Net, u, err)
	},
	"glue": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := findings.Glue{Area: in.Area("area"), Faces: in.Int("faces")}.Order(findings.Buying[unit.Volume]{Waste: in.Ratio("waste")})
		return on(o.Basis)(volumeIn(o.Volume.Gross, u, err))
	},
	"feet": func(in *reference.Inputs, _ string) (reference.Value, error) {
		n, err := findings.Feet(in.Length("width"))
		return reference.Numbers(float64(n)), err
	},
	"finding_use": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := findings.Buying[unit.Length]{Waste: in.Ratio("waste"), Step: in.Length("step")}.Steps(in.Length("net"), in.Length("ends"))
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(s.Use, u)
	},
	"finding_pieces": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := findings.Buying[int]{Waste: in.Ratio("waste")}.Steps(in.Int("net"), 0)
		return reference.Numbers(float64(s.Use)), err
	},
}

// figure gives a usual figure: the range, the usual figure before it, or one
// number where both are the same.
func figure[Q findings.Quantity | unit.Ratio](in *reference.Inputs, u string, all []findings.Figure[Q], parse func(string) (Q, error)) (reference.Value, error) {
	of, what := in.Text("of"), in.Text("what")
	one, err := parse("1 " + u)
	if err != nil {
		return reference.Value{}, err
	}
	for _, f := range all {
		if f.Of != of || f.What != what {
			continue
		}
		usual, from, to := float64(f.Usual)/float64(one), float64(f.From)/float64(one), float64(f.To)/float64(one)
		switch {
		case f.From == f.To:
			return reference.Numbers(from).On(f.Basis), nil
		case f.Usual == 0:
			return reference.Numbers(from, to).On(f.Basis), nil
		}
		return reference.Numbers(usual, from, to).On(f.Basis), nil
	}
	return reference.Value{}, fmt.Errorf("no such figure: %s, %s", of, what)
}

// runsOf reads lengths in inches.
func runsOf(in *reference.Inputs) []unit.Length {
	var out []unit.Length
	for _, s := range in.List("inches") {
		l, err := unit.ParseLength(s + " in")
		if err != nil {
			return nil // refused as no runs
		}
		out = append(out, l)
	}
	return out
}

func runningIn(r findings.Running, in *reference.Inputs, u string) (reference.Value, error) {
	s, err := r.Order(findings.Buying[unit.Length]{Waste: in.Ratio("waste")})
	if err != nil {
		return reference.Value{}, err
	}
	return lengthIn(s.Gross, u)
}

func coilsOf(in *reference.Inputs) findings.Coils {
	return findings.Coils{Width: in.Length("width"), Depth: in.Length("depth"), Margin: in.Length("margin")}
}

func tackOf(name string) (findings.TackSize, error) {
	for _, s := range findings.TackSizes() {
		if s.Name == name {
			return s, nil
		}
	}
	return findings.TackSize{}, fmt.Errorf("no such tack: %s", name)
}

func massIn(m unit.Mass, u string, err error) (reference.Value, error) {
	return in(m, u, unit.ParseMass, err)
}

func volumeIn(v unit.Volume, u string, err error) (reference.Value, error) {
	return in(v, u, unit.ParseVolume, err)
}

func weightIn(d unit.AreaDensity, u string, err error) (reference.Value, error) {
	return in(d, u, unit.ParseAreaDensity, err)
}
