package evaluate

import (
	"context"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// placeEvaluators are those of where pieces lie on a roll and on hides, of what a
// layout leaves, and of ways to buy leather side by side.
var placeEvaluators = map[string]reference.Evaluator{
	"roll_leftovers": rollLeftovers,
	"roll_boxes":     rollBoxes,
	"roll_found": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := onRoll(in)
		c, _ := p.Found(p.Method)
		return reference.Numbers(c.Length.Inches()), err
	},
	"hide_leftovers": hideLeftovers,
	"hide_spot": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := onHide(in)
		if err != nil {
			return reference.Value{}, err
		}
		d, err := p.HideDatum(0)
		at := d.Spot(shape.Point{X: in.Length("x"), Y: in.Length("y")})
		return reference.Numbers(at.Across.Inches(), at.FromTail.Inches()), err
	},
	"hide_place": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := onHide(in)
		if err != nil {
			return reference.Value{}, err
		}
		places, err := p.HidePlaces(0)
		var out []float64
		for _, h := range places {
			for _, at := range h.Points {
				out = append(out, at.Across.Inches(), at.FromTail.Inches())
			}
			out = append(out, h.Top.Degrees())
		}
		return reference.Numbers(append(out, float64(len(p.On(0))))...), err
	},
	"motif_on_piece": motifOnPiece,
	"hide_grain": func(in *reference.Inputs, _ string) (reference.Value, error) {
		pieces, err := countedPieces(in.List("pieces"))
		if err != nil {
			return reference.Value{}, err
		}
		skin, err := shape.Rectangle(in.Length("width"), in.Length("length"))
		if err != nil {
			return reference.Value{}, err
		}
		var out []float64
		for _, g := range []layout.Grain{layout.EitherWay(0), layout.FreeGrain()} {
			for i := range pieces {
				pieces[i].Grain = g
			}
			p, err := layout.Solve(context.Background(), layout.Job{Hides: &layout.Hides{OnOffer: []material.Skin{{Outline: skin}}}, Pieces: pieces}, layout.Options{Effort: 0.01})
			if err != nil {
				return reference.Value{}, err
			}
			out = append(out, float64(len(p.Places)))
		}
		return reference.Numbers(out...), nil
	},
	"usual_hides": func(in *reference.Inputs, _ string) (reference.Value, error) {
		k, err := skinKind(in)
		if err != nil {
			return reference.Value{}, err
		}
		hides, err := layout.UsualHides(k, in.Area("area"), in.Int("count"))
		var out []float64
		for _, h := range hides {
			o, err := h.Shape()
			if err != nil {
				return reference.Value{}, err
			}
			out = append(out, o.Area().SquareFeet())
		}
		return reference.Numbers(out...), err
	},
	"leather_compared": leatherCompared,
}

// onRoll lays pieces on a plain roll.
func onRoll(in *reference.Inputs) (layout.Plan, error) {
	pieces, err := countedPieces(in.List("pieces"))
	if err != nil {
		return layout.Plan{}, err
	}
	return layout.Solve(context.Background(), layout.Job{Roll: &material.Roll{Width: in.Length("width")}, Pieces: pieces}, layout.Options{Effort: 0.01})
}

// rollLeftovers gives width and length of what is left of a length of goods, and of
// the length that is bought.
func rollLeftovers(in *reference.Inputs, _ string) (reference.Value, error) {
	p, err := onRoll(in)
	if err != nil {
		return reference.Value{}, err
	}
	var out []float64
	left, err := p.Leftovers(in.Length("of"), in.Length("least"), in.Length("least"))
	if err != nil {
		return reference.Value{}, err
	}
	for _, s := range left {
		out = append(out, s.Roll.Width.Inches(), s.Length.Inches())
	}
	offcuts, err := p.RollOffcuts(in.Length("least"), in.Length("least"))
	for _, o := range offcuts {
		out = append(out, o.Width.Inches(), o.Length.Inches())
	}
	return reference.Numbers(out...), err
}

// rollBoxes gives the area of the boxes round all pieces in the order of cutting,
// and how far up the roll the last of them ends.
func rollBoxes(in *reference.Inputs, _ string) (reference.Value, error) {
	p, err := onRoll(in)
	if err != nil {
		return reference.Value{}, err
	}
	var area unit.Area
	var end unit.Length
	for _, q := range p.InOrder() {
		low, high := q.Bounds()
		a, err := (high.X - low.X).By(high.Y - low.Y)
		if err != nil {
			return reference.Value{}, err
		}
		area, end = area+a, max(end, high.Y)
	}
	return reference.Numbers(area.SquareInches(), end.Inches()), nil
}

// onHide is a plan of one piece on a rectangle of leather, put where the row says.
func onHide(in *reference.Inputs) (layout.Plan, error) {
	skin, err := shape.Rectangle(in.Length("width"), in.Length("length"))
	if err != nil {
		return layout.Plan{}, err
	}
	backbone := in.Length("backbone")
	p := layout.Plan{Hides: []material.Skin{{Outline: skin, Backbone: &backbone}}}
	if !in.Has("piece") {
		return p, nil
	}
	if p.Job.Pieces, err = countedPieces(in.List("piece")); err != nil {
		return p, err
	}
	p.Places = []layout.Place{{X: in.Length("x"), Y: in.Length("y"), Turned: in.Angle("turned"), Mirrored: in.Bool("mirrored"), Segments: 1}}
	return p, nil
}

// hideLeftovers gives width and length of the left-over rectangles of a hide that
// are large enough to be skins at hand.
func hideLeftovers(in *reference.Inputs, _ string) (reference.Value, error) {
	p, err := onHide(in)
	if err != nil {
		return reference.Value{}, err
	}
	p.Job.Hides = &layout.Hides{OnOffer: p.Hides}
	left, err := countedPieces(in.List("left"))
	if err != nil {
		return reference.Value{}, err
	}
	for _, l := range left {
		w, h := l.Outline.Size()
		p.Offcuts = append(p.Offcuts, layout.Offcut{Width: w, Length: h})
	}
	skins, err := p.LeftoverSkins()
	var out []float64
	for _, s := range skins {
		w, l := s.Outline.Size()
		out = append(out, w.Inches(), l.Inches())
	}
	return reference.Numbers(out...), err
}

// motifOnPiece gives where a motif falls on a piece that lies where the row says.
func motifOnPiece(in *reference.Inputs, _ string) (reference.Value, error) {
	r, err := patternRoll(in)
	if err != nil {
		return reference.Value{}, err
	}
	pieces, err := countedPieces(in.List("piece"))
	if err != nil {
		return reference.Value{}, err
	}
	at := layout.Place{X: in.Length("x"), Y: in.Length("y"), Turned: in.Angle("turned"), Segments: 1}
	p := layout.Plan{Job: layout.Job{Roll: &r, Pieces: pieces}, Places: []layout.Place{at}}
	z, way := p.MotifOn(at)
	return reference.Text(strings.Join([]string{z.X.String(), z.Y.String(), way.String()}, ", ")), nil
}

// leatherCompared gives the skins by every way to buy leather, the bound first, and
// the area that the layout saves.
func leatherCompared(in *reference.Inputs, _ string) (reference.Value, error) {
	pieces, err := countedPieces(in.List("panels"))
	if err != nil {
		return reference.Value{}, err
	}
	o, err := shape.Rectangle(in.Length("width"), in.Length("length"))
	if err != nil {
		return reference.Value{}, err
	}
	var on []material.Skin
	for range in.Int("skins") {
		on = append(on, material.Skin{Outline: o})
	}
	p, err := layout.Solve(context.Background(), layout.Job{Hides: &layout.Hides{OnOffer: on}, Pieces: pieces}, layout.Options{Effort: 0.01})
	if err != nil {
		return reference.Value{}, err
	}
	y := in.Ratio("yield")
	c, err := layout.CompareBuying(p, material.WasteFactor{Waste: in.Ratio("waste")}, material.SkinSupply{Mean: o.Area()}, material.YieldRange{From: y, To: y}, 0.9)
	var out []float64
	for _, a := range c.Answers() {
		out = append(out, float64(a.Skins))
	}
	return reference.Numbers(append(out, c.AreaSaved.SquareFeet())...), err
}
