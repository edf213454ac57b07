package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// formEvaluators are those of foam that is no plain block, of the batting round it,
// and of measures of firmness read as forces.
var formEvaluators = map[string]reference.Evaluator{
	"shape_volume": func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := foamForm(in)
		if err != nil {
			return reference.Value{}, err
		}
		v, err := s.volume()
		if u == "in3" {
			return reference.Numbers(v.CubicInches()), err
		}
		return volumeIn(v, u, err)
	},
	"shape_envelope": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := foamForm(in)
		if err != nil {
			return reference.Value{}, err
		}
		b, err := s.envelope()
		return reference.Numbers(b.Length.Inches(), b.Width.Inches(), b.Thickness.Inches()), err
	},
	"crown_piece": func(in *reference.Inputs, _ string) (reference.Value, error) {
		b, err := wrap.CrownPiece(foamBlock(in, "block"))
		return reference.Numbers(b.Length.Inches(), b.Width.Inches(), b.Thickness.Inches()), err
	},
	"batting_round": func(in *reference.Inputs, _ string) (reference.Value, error) {
		w := wrap.Rule{Batting: wrap.Batting{Loft: in.Length("loft")}, Layers: in.Int("layers"), Overlap: in.Length("overlap")}
		c, err := wrap.CutRound(foam.Cylinder{Diameter: in.Length("diameter"), Length: in.Length("length")}, w)
		return reference.Numbers(c.Length.Inches(), c.Around.Inches(), c.Crown.Inches()).On(c.Basis), err
	},
	"hardness_force": func(in *reference.Inputs, _ string) (reference.Value, error) {
		if in.Text("kind") == "ifd65" {
			return reference.Numbers(foam.IFD65(in.Force("value")).Force().Newtons()), nil
		}
		return reference.Numbers(foam.HardnessA(in.Force("value")).Force().PoundsForce()), nil
	},
}

// solid is a shape of foam by what is worked out from it.
type solid struct {
	volume   func() (unit.Volume, error)
	envelope func() (foam.Block, error)
}

// foamForm reads a shape with its sizes in inches.
func foamForm(in *reference.Inputs) (solid, error) {
	f := in.List("shape")
	var size [5]unit.Length
	for i, text := range f[1:] {
		if i == len(size) {
			return solid{}, fmt.Errorf("too many sizes")
		}
		var err error
		if size[i], err = unit.ParseLength(text + " in"); err != nil {
			return solid{}, err
		}
	}
	switch b := (foam.Block{Length: size[0], Width: size[1], Thickness: size[2]}); f[0] {
	case "block":
		return solid{b.Volume, b.Envelope}, nil
	case "wedge":
		s := foam.Wedge{Length: size[0], Width: size[1], Front: size[2], Rear: size[3]}
		return solid{s.Volume, s.Envelope}, nil
	case "cylinder":
		s := foam.Cylinder{Diameter: size[0], Length: size[1]}
		return solid{s.Volume, s.Envelope}, nil
	case "rounded":
		s := foam.Rounded{Block: b, Radius: size[3], Corners: 4}
		return solid{s.Volume, s.Envelope}, nil
	case "tee":
		s := foam.Tee{Width: size[0], Stem: size[1], Depth: size[2], Ear: size[3], Thickness: size[4]}
		return solid{s.Volume, s.Envelope}, nil
	}
	return solid{}, fmt.Errorf("no shape %q", f[0])
}
