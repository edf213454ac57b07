package job

import (
	"errors"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Layers of goods the needle passes: two in a plain seam, and two more of
// welt cover where there is a welt.
const (
	seamLayers = 2
	weltLayers = 4
)

func (b *builder) panel(field, piece string, n int, q Panel) {
	before := len(b.errs)
	b.name(field+".name", q.Name)
	b.side(field+".width", q.Width)
	b.side(field+".length", q.Length)
	count := n * b.count(field+".count", q.Count)
	g, ok := b.find(field+".goods", q.Goods)
	if !ok || len(b.errs) > before {
		return
	}
	pick := func(e *Edge) allowance.Edge {
		switch {
		case e != nil:
			return e.Edge
		case q.Edges != nil:
			return q.Edges.Edge
		}
		return allowance.Edge{}
	}
	rect := allowance.RectPanel{Name: q.Name, Width: q.Width, Height: q.Length, Top: pick(q.Top), Right: pick(q.Right),
		Bottom: pick(q.Bottom), Left: pick(q.Left), Across: g.stretch(), Along: g.stretch()}
	b.rect(field, piece, count, g, rect, railroad(q.MayRailroad))
	if k := len(b.out.Cuts); q.Unmatched && k > 0 && len(b.errs) == before {
		b.out.Cuts[k-1].free = true
	}
}

func railroad(may bool) material.Turn {
	if may {
		return material.QuarterTurn
	}
	return material.KeepGrain
}

// rect cuts a rectangular panel, puts it on the list and counts its seams.
func (b *builder) rect(field, piece string, count int, g Goods, p allowance.RectPanel, turn material.Turn) {
	c, err := p.Cut()
	if err != nil {
		b.fail(field, panelField(err))
		return
	}
	line := Cut{Piece: piece, Part: p.Name, Goods: g.ID, Count: count, Finished: Size{p.Width, p.Height},
		Trim: Size{c.TrimWidth, c.TrimHeight}, Cut: Size{c.Width, c.Height}, Grain: g.grain(), Edges: &Edges{c.Top, c.Right, c.Bottom, c.Left}, turn: turn, field: field}
	if turn == material.QuarterTurn && g.Kind == RollGoods && !g.Nap && g.Repeat == 0 {
		line.Grain = "either way"
	}
	line.Basis = edgeBasis(c)
	if line.Area, err = c.Area.Times(count); err != nil {
		b.fail(field, err)
		return
	}
	b.out.Cuts = append(b.out.Cuts, line)
	// Two panels meet in a seam, so each brings half of it; a hem is its own.
	var sewn unit.Length
	layers := seamLayers
	for _, e := range c.Edges() {
		switch {
		case e.Finish.Seam():
			sewn += (e.Length + 1) / 2
			if e.Finish == allowance.WeltedSeam {
				layers = weltLayers
			}
		case e.Finish.Sewn():
			sewn += e.Length
		}
	}
	b.stitch(piece+": "+p.Name, g, sewn, count, layers)
}

// stitch notes rows of stitching: one of the given length for each of count.
func (b *builder) stitch(name string, g Goods, length unit.Length, count, layers int) {
	if length > 0 {
		b.seams = append(b.seams, seam{goods: g.ID, name: name, length: length, rows: count, layers: layers})
	}
}

// panelField renames the fields of package allowance to those of a spec.
func panelField(err error) error {
	var in *unit.InputError
	if errors.As(err, &in) {
		out := *in
		if out.Field == "height" {
			out.Field = "length"
		}
		return &out
	}
	return err
}

func trimField(prefix string, err error) error {
	var in *unit.InputError
	if errors.As(err, &in) {
		out := *in
		out.Field = strings.TrimPrefix(strings.TrimPrefix(out.Field, prefix), ".")
		return &out
	}
	return err
}

func edgeBasis(c allowance.RectCut) []cite.Basis {
	var out []cite.Basis
	seen := map[cite.Basis]bool{}
	for _, e := range c.Edges() {
		if e.Basis.Status != 0 && !seen[e.Basis] {
			seen[e.Basis] = true
			out = append(out, e.Basis)
		}
	}
	return out
}

func (b *builder) cushion(field, piece string, n int, c Cushion) {
	before := len(b.errs)
	b.name(field+".name", c.Name)
	b.side(field+".width", c.Width)
	b.side(field+".depth", c.Depth)
	b.side(field+".thickness", c.Thickness)
	count := n * b.count(field+".count", c.Count)
	top, _ := b.find(field+".top", c.Top)
	goods := func(name, id string) Goods {
		if id == "" {
			return top
		}
		g, _ := b.find(field+"."+name, id)
		return g
	}
	bottom, boxing := goods("bottom", c.Bottom), goods("boxing", c.Boxing)
	var welt Goods
	if c.Welt != nil {
		welt = goods("welt.goods", c.Welt.Goods)
	}
	if len(b.errs) > before || top.ID == "" {
		return
	}
	edge := allowance.Edge{Finish: allowance.BoxedSeam}
	layers := seamLayers
	if c.Welt != nil {
		edge.Finish, layers = allowance.WeltedSeam, weltLayers
	}
	for _, plate := range []struct {
		name string
		g    Goods
	}{{"top plate", top}, {"bottom plate", bottom}} {
		b.rect(field, piece, count, plate.g, allowance.RectPanel{Name: c.Name + ", " + plate.name, Width: c.Width, Height: c.Depth,
			Across: plate.g.stretch(), Along: plate.g.stretch()}.AllEdges(edge), railroad(c.MayRailroad))
	}
	b.boxing(field, piece, count, c, boxing)
	if c.Welt != nil {
		b.welt(field, piece, count, c, welt, layers)
	}
	if c.Foam != nil {
		b.filling(field, piece, count, c)
	}
}

func (c Cushion) perimeter() unit.Length { return 2 * (c.Width + c.Depth) } // sides are at most 10 m

func (b *builder) boxing(field, piece string, count int, c Cushion, g Goods) {
	box := allowance.Boxing{Perimeter: c.perimeter(), Depth: c.Thickness, Longest: g.longest()}
	if c.Zip {
		box.Zip = allowance.ZipStrip{Back: c.Width}
	}
	cut, err := box.Cut()
	if err != nil {
		b.fail(field, err)
		return
	}
	for _, s := range cut.Pieces {
		b.strip(field, piece, count, c.Name+", "+s.Use, strip{s, g.ID}, g)
	}
	// The boxing brings its half of both plate seams; its joins and the two
	// rows along the zip are its own.
	sewn := c.perimeter() + unit.Length(len(cut.Joins))*c.Thickness + 2*cut.ZipLength
	b.stitch(piece+": "+c.Name+", boxing", g, sewn, count, seamLayers)
	if cut.ZipTape > 0 {
		b.out.Cuts[len(b.out.Cuts)-1].ZipTape = cut.ZipTape
	}
}

func (b *builder) welt(field, piece string, count int, c Cushion, g Goods, layers int) {
	width, err := allowance.WeltStrip{Cord: c.Welt.Cord, Cloth: g.thickness(), Step: unit.Inch / 8}.Width()
	if err != nil {
		b.fail(field+".welt", err)
		return
	}
	w, err := allowance.WeltRun{Runs: []unit.Length{c.perimeter(), c.perimeter()}, Width: width, Longest: g.longest()}.Cut()
	if err != nil {
		b.fail(field+".welt", err)
		return
	}
	for _, s := range w.Strips {
		b.strip(field, piece, count, c.Name+", "+s.Use+" strip", strip{s, g.ID}, g)
	}
	last := &b.out.Cuts[len(b.out.Cuts)-1]
	last.Cord, last.Welt = c.Welt.Cord, w.Welt
	b.stitch(piece+": "+c.Name+", welt", g, w.Welt, count, layers) // closing the welt round its cord
}

// strip puts strips on the list: cut across a roll, along a hide.
func (b *builder) strip(field, piece string, count int, name string, s strip, g Goods) {
	c := Cut{Piece: piece, Part: name, Goods: s.goods, Count: s.Count * count, Cut: Size{Width: s.Length, Length: s.Width},
		Grain: "across", turn: material.KeepGrain, free: true, field: field}
	if g.Kind == Hides {
		c.Cut, c.Grain = Size{Width: s.Width, Length: s.Length}, g.grain()
	}
	area, err := s.Area()
	if err == nil {
		c.Area, err = area.Times(count)
	}
	if err != nil {
		b.fail(field, err)
		return
	}
	b.out.Cuts = append(b.out.Cuts, c)
}

func (b *builder) filling(field, piece string, count int, c Cushion) {
	cover := foam.Block{Length: c.Width, Width: c.Depth, Thickness: c.Thickness}
	over := foam.DefaultOversize()
	cut, err := foam.CutSize(cover, over)
	if err != nil {
		b.fail(field, err)
		return
	}
	b.foamBlock(field, field+".foam", FoamBlock{Piece: piece, Part: c.Name, Count: count, Finished: cover, Cut: cut, Oversize: over}, *c.Foam)
}
