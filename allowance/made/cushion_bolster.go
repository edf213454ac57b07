package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// drawHem is turned in at an end that is drawn up, over the thread, as common
// practice has it.
const drawHem = unit.Inch / 2

// bolster makes a body whose two long edges are sewn to each other, with the zip or
// a length closed by hand in the middle, and two ends. With length L and diameter
// d the body is L by π d, the ends are circles of d: their seam lines agree. Without
// ends it is L + d by π d, hemmed at both ends for what draws them up.
func (c Cushion) bolster(k unit.Length) (Part, error) {
	l, err := c.finished("width", c.Width, k)
	if err != nil {
		return Part{}, err
	}
	d, err := c.finished("depth", c.Depth, k)
	if err != nil {
		return Part{}, err
	}
	end, err := shape.Circle(d)
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"diameter": "depth"})
	}
	if err := inRange("width", l, 4*unit.Centimetre, 50*unit.Metre); err != nil {
		return Part{}, err
	}
	open, err := c.inSeam(l)
	if err != nil {
		return Part{}, err
	}
	core := Core{Width: l + k, Depth: d + k, TakeUp: k, CoverWidth: l, CoverDepth: d}
	if c.GatheredEnds {
		l += d
	}
	body, err := shape.Rectangle(l, end.Perimeter())
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"width": "width", "height": "depth"})
	}
	cover := allowance.Cover{Panels: []allowance.CoverPanel{sewnPanel("body", c.Top, body)}}
	from := (l - open) / 2
	to := from + open
	// The two edges run against each other.
	part := func(kind allowance.SeamKind, a allowance.Override, from, to unit.Length) {
		e := allowance.EdgePart{Panel: "body", Edge: "bottom", From: from, To: to}
		m := allowance.EdgePart{Panel: "body", Edge: "top", From: l - to, To: l - from}
		cover.Seams = append(cover.Seams, allowance.Seam{Kind: kind, Allowance: a, Sides: []allowance.Side{{e}, {m}}})
	}
	kind, a := allowance.HandJoin, c.Seam
	if c.Zip {
		kind, a = allowance.ZipJoin, c.zipInSeam()
	}
	part(allowance.PlainJoin, c.Seam, 0, from)
	part(kind, a, from, to)
	part(allowance.PlainJoin, c.Seam, to, l)
	if c.GatheredEnds {
		hem := allowance.Edge{Finish: allowance.SingleHem, Allowance: allowance.Exactly(drawHem)}
		cover.Panels[0].Edges = map[string]allowance.Edge{"left": hem, "right": hem}
		return Part{Cover: cover, Core: core}, nil
	}
	ends := sewnPanel("end", c.Boxing, end)
	ends.Count = 2
	cover.Panels = append(cover.Panels, ends)
	for _, e := range []struct{ edge, end string }{{"left", "end 1"}, {"right", "end 2"}} {
		cover.Seams = append(cover.Seams, c.plated(allowance.Side{{Panel: e.end, Edge: "rim"}}, allowance.Side{{Panel: "body", Edge: e.edge}}))
	}
	return Part{Cover: cover, Core: core}, nil
}
