package evaluate

import (
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// eachSeamEvaluators are those of two sides that are sewn together, of strips
// and of skirts.
var eachSeamEvaluators = map[string]reference.Evaluator{
	"seam_verdicts": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var class allowance.EaseClass
		if err := class.UnmarshalText([]byte(in.Text("goods"))); err != nil {
			return reference.Value{}, err
		}
		limits, basis := class.Limits()
		var out []string
		for _, text := range in.List("longer") {
			long, err := unit.ParseLength(text + " in")
			if err != nil {
				return reference.Value{}, err
			}
			m, err := allowance.MatchSeam(long, in.Length("shorter"), limits)
			if err != nil {
				return reference.Value{}, err
			}
			out = append(out, m.Verdict.String())
		}
		return reference.Text(strings.Join(out, ";")).On(basis), nil
	},
	"seam_ease_per": func(in *reference.Inputs, u string) (reference.Value, error) {
		m, _, err := seamMatch(in)
		if err != nil {
			return reference.Value{}, err
		}
		l, err := m.EasePer(in.Length("span"))
		return inUnit(u, err, l)
	},
	"seam_marks": func(in *reference.Inputs, u string) (reference.Value, error) {
		m, _, err := seamMatch(in)
		if err != nil {
			return reference.Value{}, err
		}
		var marks []allowance.MatchMark
		if in.Has("from") {
			marks, err = m.MarksBetween(in.Length("spacing"), in.Length("from"), in.Length("to"))
		} else {
			marks, err = m.Marks(in.Length("spacing"))
		}
		var all []unit.Length
		for _, k := range marks {
			all = append(all, k.First, k.Second)
		}
		return inUnit(u, err, all...)
	},
	"seam_tolerance": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := allowance.SeamTolerance(in.Length("shorter"))
		return on(cite.Practice(""))(inUnit(u, err, l))
	},
	"strip_total": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s := made.Strip{Count: in.Int("count"), Width: in.Length("width"), Length: in.Length("length")}
		l, err := s.Total()
		if err != nil {
			return reference.Value{}, err
		}
		a, err := s.Area()
		return reference.Numbers(l.Inches(), a.SquareInches()), err
	},
	"welt_square": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := made.WeltSquare(in.Length("welt"), in.Length("width"))
		return reference.Numbers(float64(s.Turns), s.Side.Inches(), s.Length.Inches()).On(cite.Practice("1/4 in for each seam of the tube")), err
	},
	"arc_from_length": func(in *reference.Inputs, u string) (reference.Value, error) {
		a, err := shape.ArcFromLength(in.Length("chord"), in.Length("arc"))
		return inUnit(u, err, a.Rise)
	},
	"trapezoid_side": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := shape.TrapezoidSide(in.Length("a"), in.Length("b"), in.Length("h"))
		return inUnit(u, err, l)
	},
	"pleated_skirt": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p := made.PleatedSkirt{Drop: in.Length("drop"), Longest: in.Length("longest")}
		p.Pleats = made.Pleats{Finished: in.Length("finished"), Count: in.Int("count"), Underfold: in.Length("underfold")}
		if err := p.Pleats.Kind.UnmarshalText([]byte(in.Text("kind"))); err != nil {
			return reference.Value{}, err
		}
		c, err := p.Cut()
		var out []float64
		for _, s := range c.Pieces {
			out = append(out, float64(s.Count), s.Length.Inches(), s.Width.Inches())
		}
		return reference.Numbers(out...), err
	},
	"tub_band_straight": func(in *reference.Inputs, _ string) (reference.Value, error) {
		half := allowance.Edge{Finish: allowance.PlainSeam, Allowance: allowance.Exactly(in.Length("seams"))}
		c, err := made.TubBand{Shape: made.ConeFrustum{Large: in.Length("radius"), Small: in.Length("radius"), Height: in.Length("height")},
			Wide: half, Narrow: half, Ends: half}.Cut()
		return reference.Numbers(c.CutOuterArc.Inches(), c.CutSlant.Inches(), c.Area.SquareInches()), err
	},
}
