package evaluate

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

var materialEvaluators = map[string]reference.Evaluator{
	"leather_thickness": func(in *reference.Inputs, u string) (reference.Value, error) {
		return lengthIn(in.Thickness("thickness"), u)
	},
	"footage_mark": func(in *reference.Inputs, u string) (reference.Value, error) {
		notation, err := parsed[material.Footage](in, "notation")
		if err != nil {
			return reference.Value{}, err
		}
		a, err := material.ParseFootage(in.Text("mark"), notation)
		return areaIn(a, u, err)
	},
	"running_yard": func(in *reference.Inputs, u string) (reference.Value, error) {
		a, err := material.RunningYard(in.Length("width"))
		return areaIn(a, u, err)
	},
	"leather_for_cloth": func(in *reference.Inputs, u string) (reference.Value, error) {
		a, err := material.LeatherForCloth(in.Length("length"), in.Length("width"), in.Ratio("yield"))
		return areaIn(a, u, err)
	},
	"gross_area": func(in *reference.Inputs, u string) (reference.Value, error) {
		a, err := material.GrossArea(in.Area("net"), in.Ratio("waste"))
		return areaIn(a, u, err)
	},
	"gross_length": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := material.GrossLength(in.Length("net"), in.Ratio("shrinkage"))
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(l, u)
	},
	"hide_count": func(in *reference.Inputs, _ string) (reference.Value, error) {
		e, err := material.HidesToBuy(in.Area("net"), material.Hide{Area: in.Area("hide")}, material.WasteFactor{Waste: in.Ratio("waste")})
		return reference.Numbers(float64(e.Hides)), err
	},
	"repeat_length": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := material.RepeatLength(in.Length("need"), in.Length("repeat"))
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(l, u)
	},
	"row_layout": func(in *reference.Inputs, u string) (reference.Value, error) {
		pieces, err := countedPieces(in.List("pieces"))
		if err != nil {
			return reference.Value{}, err
		}
		l, err := layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: in.Length("width")}, Pieces: pieces}, layout.Options{Effort: 0.01})
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(l.Need, u)
	},
	"width_chart": func(in *reference.Inputs, u string) (reference.Value, error) {
		c, err := material.ConvertByChart(in.Length("length"), in.Length("from"), in.Length("to"))
		if err != nil {
			return reference.Value{}, err
		}
		return on(c.Basis)(lengthIn(c.Length, u))
	},
	"width_area": func(in *reference.Inputs, u string) (reference.Value, error) {
		c, err := material.ConvertByArea(in.Length("length"), in.Length("from"), in.Length("to"))
		if err != nil {
			return reference.Value{}, err
		}
		return on(c.Basis)(lengthIn(c.Length, u))
	},
	"patterned": func(in *reference.Inputs, u string) (reference.Value, error) {
		c, err := material.PatternedLength(in.Length("plain"), in.Length("width"), in.Length("vertical"), in.Length("horizontal"))
		if err != nil {
			return reference.Value{}, err
		}
		return on(c.Basis)(lengthIn(c.Length, u))
	},
	"pattern_rows": func(in *reference.Inputs, u string) (reference.Value, error) {
		roll := material.Roll{Width: in.Length("width"), Repeat: in.Length("repeat")}
		var widths []unit.Length
		for range in.Int("pieces") {
			widths = append(widths, in.Length("piece"))
		}
		rules, err := material.PatternRules(in.Length("plain"), roll, widths)
		if err != nil {
			return reference.Value{}, err
		}
		return on(rules[len(rules)-1].Basis)(lengthIn(rules[len(rules)-1].Length, u))
	},
	"furniture_yardage": func(in *reference.Inputs, _ string) (reference.Value, error) {
		piece := in.Text("piece")
		for _, y := range material.FurnitureYardage() {
			if y.Piece != piece {
				continue
			}
			if y.From == y.To {
				return reference.Numbers(y.From.Yards()).On(y.Basis), nil
			}
			return reference.Numbers(y.From.Yards(), y.To.Yards()).On(y.Basis), nil
		}
		return reference.Value{}, fmt.Errorf("no such piece: %s", piece)
	},
	"margin": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, err := material.UsualMargins().Usual.Of(in.Length("need"))
		if err != nil {
			return reference.Value{}, err
		}
		return on(material.UsualMargins().Basis)(lengthIn(p.Total, u))
	},
	"order_with_margin": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := material.Roll{Increment: in.Length("increment")}.OrderWith(in.Length("need"), 0, material.UsualMargins().Usual)
		if err != nil {
			return reference.Value{}, err
		}
		return on(material.UsualMargins().Basis)(lengthIn(o.Order, u))
	},
	"suffices": func(in *reference.Inputs, _ string) (reference.Value, error) {
		own := material.Stock{Roll: material.Roll{Width: in.Length("width")}, Length: in.Length("have")}
		s, err := own.Suffices(in.Length("need"), 0, material.UsualMargins().Usual)
		return reference.Text(s.Supply.String()).On(material.UsualMargins().Basis), err
	},
	"order_length": func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := material.Roll{Increment: in.Length("increment")}.Order(in.Length("need"))
		if err != nil {
			return reference.Value{}, err
		}
		return lengthIn(l, u)
	},
}

// countedPieces reads 6x24x28: six pieces 24 in wide and 28 in long.
func countedPieces(list []string) ([]layout.Piece, error) {
	var out []layout.Piece
	for _, s := range list {
		f := strings.Split(s, "x")
		if len(f) != 3 {
			return nil, fmt.Errorf("piece %q: want count x width x length in inches", s)
		}
		n, err := strconv.Atoi(f[0])
		if err != nil {
			return nil, err
		}
		w, err := unit.ParseLength(f[1] + " in")
		if err != nil {
			return nil, err
		}
		l, err := unit.ParseLength(f[2] + " in")
		if err != nil {
			return nil, err
		}
		p, err := layout.RectPiece("", w, l, n)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}
