package job

import (
	"cmp"
	"errors"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// cushionGoods are the goods of a cushion, its parts without goods of their
// own made of the top's.
type cushionGoods struct{ top, bottom, boxing, welt Goods }

func (b *builder) cushion(field, piece string, n int, c Cushion) {
	before := len(b.errs)
	b.name(field+".name", c.Name)
	c.Kind = cmp.Or(c.Kind, BoxedCushion)
	count := n * b.count(field+".count", c.Count)
	b.suits(field, c)
	top, _ := b.find(field+".top", c.Top)
	goods := func(name, id string) Goods {
		if id == "" {
			return top
		}
		g, _ := b.find(field+"."+name, id)
		return g
	}
	g := cushionGoods{top: top, bottom: goods("bottom", c.Bottom), boxing: goods("boxing", c.Boxing)}
	if c.Welt != nil {
		g.welt = goods("welt.goods", c.Welt.Goods)
	}
	b.leather(field, c.asks())
	if len(b.errs) > before || top.ID == "" {
		return
	}
	if c.MayRailroad && top.directed() && g.bottom.directed() {
		b.fail(field+".may_railroad", check.Refuse("", "true", ErrMisplaced, "goods without nap and repeat, which can be railroaded"))
		return
	}
	switch c.Kind {
	case KnifeEdgeCushion, BoxedCushion:
		b.plated(field, piece, count, c, g)
	case WaterfallCushion:
		b.waterfall(field, piece, count, c, g)
	case BolsterCushion:
		b.bolster(field, piece, count, c, g)
	}
	if c.Foam != nil && len(b.errs) == before {
		b.filling(field, piece, count, c)
	}
}

// asks is what all parts of a cushion ask of leather; strips lie any way.
func (c Cushion) asks() demand { return demand{c.Grain, c.Grade, c.Marks, nil} }

// suits refuses what means nothing on a kind of cushion.
func (b *builder) suits(field string, c Cushion) {
	boxed, knife, bolster := c.Kind == BoxedCushion, c.Kind == KnifeEdgeCushion, c.Kind == BolsterCushion
	for _, x := range []struct {
		name  string
		given bool
		kinds bool
	}{
		{"outline", c.Outline != nil, boxed || knife},
		{"thickness", c.Thickness != 0, !knife && !bolster},
		{"zip_edge", c.ZipEdge != "", boxed && c.Zip && c.Outline != nil},
		{"zip_back", c.ZipBack != 0, boxed && c.Zip},
		{"zip", c.Zip, !knife && !bolster},
		{"bottom", c.Bottom != "", boxed || knife},
		{"boxing", c.Boxing != "", !knife},
		{"fit", c.Fit != 0, boxed || knife},
		{"round_front", c.RoundFront, c.Kind == WaterfallCushion},
		{"smaller", c.Smaller != 0, bolster},
		{"welt", c.Welt != nil, c.Kind != WaterfallCushion},
		{"foam", c.Foam != nil, !knife && !bolster},
	} {
		if x.given && !x.kinds {
			b.fail(field+"."+x.name, check.Refuse("", "", ErrMisplaced, "only fields of this kind of cushion ("+string(c.Kind)+")"))
		}
	}
	if c.Outline == nil {
		for _, side := range []struct {
			name string
			l    unit.Length
		}{{"width", c.Width}, {"depth", c.Depth}} {
			if side.l == 0 {
				b.fail(field+"."+side.name, check.Required("", "a length such as \"22 in\""))
				continue
			}
			b.side(field+"."+side.name, side.l)
		}
	}
	if !knife && !bolster {
		if c.Thickness == 0 {
			b.fail(field+".thickness", check.Required("", "the finished height of the boxing"))
		} else {
			b.side(field+".thickness", c.Thickness)
		}
	}
	b.fail(field+".fit", check.OneOf("", c.Fit.String(), names(made.NeutralFit, made.SnugFit)...))
	if c.ZipBack != 0 {
		b.side(field+".zip_back", c.ZipBack)
	}
}

// plated makes a boxed or a knife-edge cushion: two plates of any outline and,
// of a boxed one, the strip between them.
func (b *builder) plated(field, piece string, count int, c Cushion, g cushionGoods) {
	o := b.outline(field, c.Outline, map[string]unit.Length{"width": c.Width, "depth": c.Depth}, "width", "depth")
	if o.IsZero() {
		return
	}
	edge := allowance.Edge{Finish: allowance.BoxedSeam}
	layers := seamLayers
	switch {
	case c.Welt != nil:
		edge.Finish, layers = allowance.WeltedSeam, weltLayers
	case c.Kind == KnifeEdgeCushion:
		edge.Finish = allowance.PlainSeam
	}
	thick := c.Thickness
	seam, _ := edge.Finish.Default()
	panel := allowance.Panel{Outline: o, AllEdges: edge}
	if c.Fit == made.SnugFit {
		// Cut to the filling, so that the cover ends two allowances smaller.
		panel.Across, panel.Along = allowance.Stretch{Compression: 2 * seam}, allowance.Stretch{Compression: 2 * seam}
		var err error
		if thick, err = allowance.FinishedFromCut(c.Thickness, seam, seam); err != nil && c.Kind == BoxedCushion {
			b.failAs(field+".thickness", err)
			return
		}
	}
	before := len(b.out.Cuts)
	for _, plate := range []struct {
		name string
		g    Goods
	}{{"top plate", g.top}, {"bottom plate", g.bottom}} {
		// No stretch is taken out of a cushion: its foam is cut larger instead,
		// and plates and boxing must keep the same length of seam.
		panel.Name = c.Name + ", " + plate.name
		p := part{piece: piece, count: count, goods: plate.g, panel: panel, turn: railroad(c.MayRailroad), asks: c.asks()}
		b.shaped(field, p)
	}
	if len(b.out.Cuts) < before+2 {
		return
	}
	cut := b.out.Cuts[before].Panel
	var perimeter unit.Length
	for _, e := range cut.Edges {
		perimeter += e.Length
	}
	if c.Kind == BoxedCushion {
		box := made.Boxing{Perimeter: perimeter, Depth: thick, Longest: g.boxing.longest()}
		if c.Zip {
			back, ok := b.zipBack(field, c, cut)
			if !ok {
				return
			}
			box.Zip = made.ZipStrip{Back: back}
		}
		b.boxing(field, piece, count, c.Name+", ", box, g.boxing, c.asks())
	}
	if c.Welt != nil {
		runs := []unit.Length{perimeter}
		if c.Kind == BoxedCushion {
			runs = append(runs, perimeter)
		}
		b.welt(field+".welt", piece, count, c.Name+", ", weltJob{cord: c.Welt.Cord, runs: runs, bias: c.Welt.Bias, layers: layers, asks: c.asks()}, g.welt)
	}
}

// zipBack gives the length of the back that opens.
func (b *builder) zipBack(field string, c Cushion, cut *allowance.PanelCut) (unit.Length, bool) {
	if c.ZipBack != 0 {
		return c.ZipBack, true
	}
	name := cmp.Or(c.ZipEdge, "top")
	i := slices.IndexFunc(cut.Edges, func(e allowance.PanelEdge) bool { return e.Name == name })
	if i >= 0 {
		return cut.Edges[i].Length, true
	}
	names := make([]string, len(cut.Edges))
	for k, e := range cut.Edges {
		names[k] = e.Name
	}
	err := check.OneOf("", name, names...)
	if c.ZipEdge == "" {
		err = check.Required("", "the edge that the zip lies on, or zip_back")
	}
	b.fail(field+".zip_edge", err)
	return 0, false
}

func (b *builder) waterfall(field, piece string, count int, c Cushion, g cushionGoods) {
	w := made.WaterfallCushion{Width: c.Width, Depth: c.Depth, Thickness: c.Thickness, Round: c.RoundFront}
	cut, err := w.Cut()
	if err != nil {
		b.fail(field, err)
		return
	}
	seam := allowance.Edge{Finish: allowance.BoxedSeam}
	asks := c.asks()
	before := len(b.errs)
	add := func(name string, n int, goods Goods, width, length unit.Length, front bool) {
		o, err := shape.Rectangle(width, length)
		if front && c.RoundFront {
			r := width / 2
			o, err = shape.RoundedRectangle(width, length, shape.CornerRadii{BottomLeft: r, BottomRight: r})
		}
		if err != nil {
			b.fail(field, err)
			return
		}
		b.shaped(field, part{piece: piece, count: n * count, goods: goods, turn: railroad(c.MayRailroad && !goods.directed()), asks: asks,
			panel: allowance.Panel{Name: c.Name + ", " + name, Outline: o, AllEdges: seam}})
		if k := len(b.out.Cuts); len(b.errs) == before {
			b.out.Cuts[k-1].Made = count
		}
	}
	add("top, front and bottom", 1, g.top, c.Width, cut.Wrap, false)
	add("side", 2, g.boxing, c.Thickness, c.Depth, true)
	if len(b.errs) > before {
		return
	}
	b.strip(field, piece, count, c.Name+", back", strip{made.Strip{Use: "zip", Count: 2, Width: cut.ZipWidth, Length: cut.ZipLength}, g.boxing.ID}, g.boxing, asks)
	if c.Zip {
		b.out.Cuts[len(b.out.Cuts)-1].ZipTape = c.Width
	}
	b.stitch(piece+": "+c.Name+", back", g.boxing, 2*c.Width, count, seamLayers)
}

func (b *builder) bolster(field, piece string, count int, c Cushion, g cushionGoods) {
	bo := made.Bolster{Length: c.Width, Diameter: c.Depth, Smaller: c.Smaller, Welted: c.Welt != nil}
	cut, err := bo.Cut()
	if err != nil {
		var in *unit.InputError
		if errors.As(err, &in) {
			b.fail(field, check.Refuse(map[unit.Path]string{"length": "width", "diameter": "depth"}[in.Field], in.Value, in.Err, in.Want))
			return
		}
		b.fail(field, err)
		return
	}
	finish := allowance.PlainSeam
	if c.Welt != nil {
		finish = allowance.WeltedSeam
	}
	seam, _ := allowance.PlainSeam.Default()
	ends, all := allowance.Edge{Finish: finish, Allowance: allowance.Exactly(seam)}, allowance.Edge{}
	body, err := shape.Rectangle(cut.BodyLength-2*seam, cut.Girth)
	if err != nil {
		b.fail(field, err)
		return
	}
	end, err := shape.Circle(cut.End - 2*seam)
	if err != nil {
		b.fail(field, err)
		return
	}
	asks := c.asks()
	before := len(b.errs)
	b.shaped(field, part{piece: piece, count: count, goods: g.top, turn: railroad(c.MayRailroad && !g.top.directed()), asks: asks,
		panel: allowance.Panel{Name: c.Name + ", body", Outline: body, AllEdges: all, Edges: map[string]allowance.Edge{"left": ends, "right": ends}}})
	b.shaped(field, part{piece: piece, count: 2 * count, goods: g.boxing, turn: layout.KeepGrain, asks: asks,
		panel: allowance.Panel{Name: c.Name + ", end", Outline: end, AllEdges: ends}})
	if len(b.errs) > before {
		return
	}
	b.out.Cuts[len(b.out.Cuts)-1].Made = count
	if c.Welt != nil {
		b.welt(field+".welt", piece, count, c.Name+", ", weltJob{cord: c.Welt.Cord, runs: cut.Welt, bias: c.Welt.Bias, layers: weltLayers, asks: asks}, g.welt)
	}
}

func (b *builder) filling(field, piece string, count int, c Cushion) {
	cover := foam.Block{Length: c.Width, Width: c.Depth, Thickness: c.Thickness}
	if c.Outline != nil {
		o, err := c.Outline.Outline()
		if err != nil {
			return // said already
		}
		cover.Length, cover.Width = o.Size()
	}
	over := foam.DefaultOversize()
	cut, err := foam.CutSize(cover, over)
	if err != nil {
		b.fail(field, err)
		return
	}
	b.foamBlock(field, field+".foam", FoamBlock{Piece: piece, Part: c.Name, Count: count, Finished: cover, Cut: cut, Oversize: over}, *c.Foam)
}
