package evaluate

import (
	"errors"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// coverEvaluators are those of single edges, of what they are held by, of the rows
// of stitching of a cover, and of an old panel that is taken for a new one.
var coverEvaluators = map[string]reference.Evaluator{
	"edge_margin": func(in *reference.Inputs, u string) (reference.Value, error) {
		var e allowance.Edge
		if err := e.UnmarshalText([]byte(in.Text("edge"))); err != nil {
			return reference.Value{}, err
		}
		m, err := e.Resolve()
		return on(m.Basis)(inUnit(u, err, m.Allowance, m.Handling))
	},
	"fastening_edge": func(in *reference.Inputs, u string) (reference.Value, error) {
		kind, err := parsed[allowance.FasteningKind](in, "finish")
		if err != nil {
			return reference.Value{}, err
		}
		f := allowance.Fastening{Kind: kind, Over: optional(in, "over"), Hold: optional(in, "hold"), Rail: optionalLength(in, "rail")}
		e, err := f.Edge()
		l, _ := e.Allowance.Get()
		if f.Over.IsZero() || f.Hold.IsZero() {
			_, _, basis := kind.Default()
			return on(basis)(inUnit(u, err, l))
		}
		return inUnit(u, err, l)
	},
	"cover_stitched":       coverStitched,
	"panel_sewn":           panelSewn,
	"panel_seam_deviation": panelSeamDeviation,
	"ripped":               ripped,
	"ripped_notch":         rippedNotch,

	"boxing_strips": func(in *reference.Inputs, u string) (reference.Value, error) {
		c, err := boxing(in)
		var out []float64
		for _, s := range c.Strips() {
			out = append(out, float64(s.Count), s.Width.Inches(), s.Length.Inches())
		}
		return reference.Numbers(out...), err
	},
	"tuft_rules": func(in *reference.Inputs, u string) (reference.Value, error) {
		rules, err := made.CompareTuftRules(in.Length("width"), in.Length("height"), in.Length("depth"))
		var all []unit.Length
		var bases []cite.Basis
		for _, r := range rules {
			all, bases = append(all, r.Width, r.Height), append(bases, r.Basis)
		}
		return on(bases...)(inUnit(u, err, all...))
	},
}

// coverStitched sews two rectangles together along their width, hemmed on all
// other sides, beside a row of its own, and gives all rows of stitching.
func coverStitched(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := shape.Rectangle(in.Length("width"), in.Length("height"))
	if err != nil {
		return reference.Value{}, err
	}
	half := allowance.Panel{Outline: o, AllEdges: allowance.Edge{Finish: allowance.SingleHem, Allowance: allowance.Exactly(in.Length("hem"))}}
	upper, lower := half, half
	upper.Name, lower.Name = "upper", "lower"
	limits, _ := allowance.FirmWoven.Limits()
	c := allowance.Cover{
		Panels: []allowance.CoverPanel{{Panel: upper, Goods: "cloth"}, {Panel: lower, Goods: "cloth"}},
		Seams: []allowance.Seam{{Allowance: allowance.Exactly(in.Length("seam")),
			Sides: []allowance.Side{{{Panel: "upper", Edge: "bottom"}}, {{Panel: "lower", Edge: "top"}}}}},
	}
	if in.Has("beside") {
		c.Rows = append(c.Rows, allowance.RowOn("label", "cloth", in.Length("beside"), 2))
	}
	w, err := c.Work(map[string]allowance.SewnGoods{"cloth": {Ease: limits}})
	return inUnit(u, err, w.Stitched())
}

// panelSewn gives what the edges of a panel bring to its seams, the layers that
// the needle passes, and the length of all edges with stitches.
func panelSewn(in *reference.Inputs, _ string) (reference.Value, error) {
	c, err := panelCut(in)
	length, layers := c.Sewn()
	return reference.Numbers(length.Inches(), float64(layers), c.SewnLength().Inches()), err
}

// panelSeamDeviation gives how far the seam line strays that is found again from
// the cut line.
func panelSeamDeviation(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := outline(in)
	if err != nil {
		return reference.Value{}, err
	}
	e, _, err := edge(in, "all")
	if err != nil {
		return reference.Value{}, err
	}
	off, err := allowance.Panel{Outline: o, AllEdges: e}.SeamDeviation()
	return inUnit(u, err, off)
}

// old takes a traced rectangle for a new one: cloth beyond its seams, staples
// below, a length of the panel and of the frame, and a nick in the bottom edge.
func old(in *reference.Inputs) (allowance.Recovered, error) {
	o, err := shape.Rectangle(in.Length("w"), in.Length("h"))
	if err != nil {
		return allowance.Recovered{}, err
	}
	r := allowance.Ripped{
		OldEdge: allowance.OldEdge{Line: allowance.OldCut, Allowance: in.Length("seam")},
		Edges:   map[string]allowance.OldEdge{"bottom": {Line: allowance.OldStaples, Allowance: in.Length("pull")}},
		Frame:   []allowance.FrameMeasure{{Panel: in.Length("panel"), Frame: in.Length("frame")}},
		Sigma:   in.Length("sigma"),
	}
	if in.Has("nick") {
		r.Notches = []allowance.Notch{{Edge: "bottom", At: in.Length("nick")}}
	}
	return r.Finished(o)
}

// ripped gives the size of the new panel, and how sure it is.
func ripped(in *reference.Inputs, u string) (reference.Value, error) {
	r, err := old(in)
	return inUnit(u, err, r.Width, r.Height, r.WidthWithin, r.HeightWithin)
}

// rippedNotch gives where the nick of the old panel is on the new one.
func rippedNotch(in *reference.Inputs, u string) (reference.Value, error) {
	r, err := old(in)
	if err != nil {
		return reference.Value{}, err
	}
	p, err := r.Marked(allowance.Panel{})
	if err == nil && len(p.Notches) == 0 {
		err = errors.New("no notch")
	}
	if err != nil {
		return reference.Value{}, err
	}
	return inUnit(u, nil, p.Notches[0].At)
}
