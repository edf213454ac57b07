package job

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// boxing puts the pieces of a boxing strip on the list.
func (b *builder) boxing(field, piece string, count int, prefix string, box made.Boxing, g Goods, asks demand) {
	cut, err := box.Cut()
	if err != nil {
		b.fail(field, err)
		return
	}
	for _, s := range cut.Pieces {
		if s.Length > g.longest() {
			s = pieced(s, g.longest())
		}
		b.strip(field, piece, count, prefix+s.Use, strip{s, g.ID}, g, asks)
	}
	// The boxing brings its half of both plate seams; its joins and the two
	// rows along the zip are its own.
	sewn := box.Perimeter + unit.Length(len(cut.Joins))*box.Depth + 2*cut.ZipLength
	b.stitch(piece+": "+prefix+"boxing", g, sewn, count, seamLayers)
	if cut.ZipTape > 0 {
		b.out.Cuts[len(b.out.Cuts)-1].ZipTape = cut.ZipTape
	}
}

// pieced divides a strip that is longer than the goods allow into equal
// pieces, with a seam allowance at each join.
func pieced(s made.Strip, longest unit.Length) made.Strip {
	seam, _ := allowance.PlainSeam.Default()
	if longest <= 4*seam {
		return s // the layout will say that it does not fit
	}
	n := (s.Length - 2*seam + longest - 2*seam - 1) / (longest - 2*seam)
	s.Length = (s.Length + 2*seam*(n-1) + n - 1) / n
	s.Count *= int(n)
	return s
}

// weltJob is welt to cut for one part.
type weltJob struct {
	cord         unit.Length
	runs         []unit.Length
	double, bias bool
	layers       int
	asks         demand
}

func (b *builder) welt(field, piece string, count int, prefix string, w weltJob, g Goods) {
	width, err := made.WeltStrip{Cord: w.cord, Cloth: g.thickness(), Step: unit.Inch / 8}.Width()
	if err == nil && w.double {
		width, _, err = made.DoubleWeltWidth(width)
	}
	if err != nil {
		b.fail(field, err)
		return
	}
	run := made.WeltRun{Runs: w.runs, Width: width}
	if !w.bias {
		run.Longest = g.longest()
	}
	cut, err := run.Cut()
	if err != nil {
		b.fail(field, err)
		return
	}
	before := len(b.out.Cuts)
	if w.bias {
		b.bias(field, piece, count, prefix+"welt, continuous bias", cut.Length, width, g, w.asks)
	} else {
		for _, s := range cut.Strips {
			b.strip(field, piece, count, prefix+s.Use+" strip", strip{s, g.ID}, g, w.asks)
		}
	}
	if len(b.out.Cuts) == before {
		return
	}
	last := &b.out.Cuts[len(b.out.Cuts)-1]
	last.Cord, last.Welt = w.cord, cut.Welt
	if w.double {
		last.Welt *= 2 // two cords
	}
	b.stitch(piece+": "+prefix+"welt", g, cut.Welt, count, w.layers) // closing the welt round its cord
}

// bias puts on the list the square that is sewn to a tube and cut round and
// round into a strip.
func (b *builder) bias(field, piece string, count int, name string, length, width unit.Length, g Goods, asks demand) {
	sq, err := made.BiasSquareFor(length, width, unit.Inch/4)
	if err != nil {
		b.fail(field, err)
		return
	}
	b.strip(field, piece, count, name, strip{made.Strip{Use: "bias square", Count: 1, Width: sq.Side, Length: sq.Side}, g.ID}, g, asks)
	if c := &b.out.Cuts[len(b.out.Cuts)-1]; c.Part == name {
		c.Bias = &BiasStrip{Width: width, Length: sq.Length, Turns: sq.Turns}
		c.Grain = "square to the grain; the strip runs at 45 degrees"
	}
}

// strip puts strips on the list: cut across a roll, along a hide.
func (b *builder) strip(field, piece string, count int, name string, s strip, g Goods, asks demand) {
	c := Cut{Piece: piece, Part: name, Goods: s.goods, Count: s.Count * count, Made: count, Cut: Size{Width: s.Length, Length: s.Width},
		Grain: "across", field: field}
	c.part = part{piece: piece, count: c.Count, goods: g, turn: layout.Railroad, free: true, asks: asks, panel: allowance.Panel{Name: name}}
	c.part.asks.grain = Grain{Way: AnyWay}
	if !g.directed() {
		c.Grain = "either way"
	}
	if g.Kind == Hides {
		c.Cut, c.Grain = Size{Width: s.Width, Length: s.Length}, c.part.asks.grain.on()
		c.Grade, c.Marks = asks.grade, asks.marks
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

func (b *builder) boxingPart(field, piece string, n int, x Boxing) {
	before := len(b.errs)
	b.name(field+".name", x.Name)
	count := n * b.count(field+".count", x.Count)
	b.fail(field+".perimeter", check.Length("", x.Perimeter, minSide, check.Longest))
	b.side(field+".depth", x.Depth)
	if x.ZipBack != 0 {
		b.side(field+".zip_back", x.ZipBack)
	}
	g, ok := b.find(field+".goods", x.Goods)
	if !ok || len(b.errs) > before {
		return
	}
	b.boxing(field, piece, count, x.Name+", ", made.Boxing{Perimeter: x.Perimeter, Depth: x.Depth, Longest: g.longest(), Zip: made.ZipStrip{Back: x.ZipBack}}, g, demand{})
}

func (b *builder) weltPart(field, piece string, n int, w WeltPart) {
	before := len(b.errs)
	b.name(field+".name", w.Name)
	count := n * b.count(field+".count", w.Count)
	b.fail(field+".runs", check.Count("", len(w.Runs), 1, maxCount))
	for i, r := range w.Runs {
		b.fail(field+"."+at("runs", i), check.Length("", r, minSide, check.Longest))
	}
	g, ok := b.find(field+".goods", w.Goods)
	if !ok || len(b.errs) > before {
		return
	}
	b.welt(field, piece, count, w.Name+", ", weltJob{cord: w.Cord, runs: w.Runs, double: w.Double, bias: w.Bias, layers: weltLayers}, g)
}

func (b *builder) skirt(field, piece string, n int, s Skirt) {
	before := len(b.errs)
	b.name(field+".name", s.Name)
	count := n * b.count(field+".count", s.Count)
	b.fail(field+".sides", check.Count("", len(s.Sides), 1, 100))
	var base unit.Length
	for i, l := range s.Sides {
		b.side(field+"."+at("sides", i), l)
		base += l
	}
	b.side(field+".drop", s.Drop)
	for _, x := range []struct {
		name  string
		given bool
		kind  SkirtKind
	}{
		{"fullness", s.Fullness != 0, GatheredSkirt}, {"pleat", s.Pleat != 0, PleatedSkirt}, {"pleats", s.Pleats != 0, PleatedSkirt},
		{"underfold", s.Underfold != 0, PleatedSkirt}, {"lined", s.Lined, KickPleatSkirt},
	} {
		if x.given && x.kind != s.Kind {
			b.fail(field+"."+x.name, check.Refuse("", "", ErrMisplaced, "only fields of this kind of skirt ("+string(s.Kind)+")"))
		}
	}
	g, ok := b.find(field+".goods", s.Goods)
	if !ok || len(b.errs) > before {
		return
	}
	top, bottom := allowance.Edge{}, allowance.Edge{Finish: allowance.DoubleHem}
	if s.Top != nil {
		top = s.Top.Edge
	}
	if s.Bottom != nil {
		bottom = s.Bottom.Edge
	}
	var cut made.SkirtCut
	var err error
	switch s.Kind {
	case GatheredSkirt:
		cut, err = made.GatheredSkirt{Base: base, Drop: s.Drop, Fullness: s.Fullness, Top: top, Bottom: bottom, Longest: g.longest()}.Cut()
	case PleatedSkirt:
		cut, err = made.PleatedSkirt{Pleats: made.Pleats{Kind: s.Pleat, Finished: base, Count: s.Pleats, Underfold: s.Underfold},
			Drop: s.Drop, Top: top, Bottom: bottom, Longest: g.longest()}.Cut()
		err = trimField("pleats", err)
	case KickPleatSkirt:
		cut, err = made.KickPleatSkirt{Sides: s.Sides, Drop: s.Drop, Lined: s.Lined, Top: top, Bottom: bottom}.Cut()
	default:
		err = check.OneOf("kind", string(s.Kind), string(GatheredSkirt), string(PleatedSkirt), string(KickPleatSkirt))
	}
	if err != nil {
		b.fail(field, err)
		return
	}
	for _, p := range cut.Pieces {
		// The drop of a skirt runs up the roll, its length across.
		if p.Length > g.longest() {
			p = pieced(p, g.longest())
		}
		b.strip(field, piece, count, s.Name+", "+p.Use, strip{p, g.ID}, g, demand{})
		c := &b.out.Cuts[len(b.out.Cuts)-1]
		c.part.turn, c.part.free = layout.KeepGrain, false
		if g.Kind == RollGoods {
			c.Grain = g.grain()
		}
	}
	// Its own joins, the hem, and half of the seam it hangs from.
	sewn := unit.Length(cut.Joins)*cut.Width + cut.Sewn + base/2
	b.stitch(piece+": "+s.Name, g, sewn, count, seamLayers)
}

func (b *builder) tufted(field, piece string, n int, t Tufted) {
	before := len(b.errs)
	b.name(field+".name", t.Name)
	count := n * b.count(field+".count", t.Count)
	b.side(field+".width", t.Width)
	b.side(field+".length", t.Length)
	g, ok := b.find(field+".goods", t.Goods)
	if !ok || len(b.errs) > before {
		return
	}
	tack, _ := allowance.PullOver.Default()
	over := allowance.Override{}
	if t.Tack != nil {
		tack, over = *t.Tack, allowance.Exactly(*t.Tack)
	}
	plan, err := made.Tufting{Width: t.Width, Height: t.Length, Border: t.Border, Across: t.Across, Down: t.Down, Depth: t.Depth, Rule: t.Rule, Tack: over}.Plan()
	if err != nil {
		b.fail(field, panelField(err))
		return
	}
	b.cloth(field, part{piece: piece, count: count, goods: g}, t.Name, plan.NetWidth, plan.NetHeight, allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(tack)})
	if len(b.errs) == before {
		c := &b.out.Cuts[len(b.out.Cuts)-1]
		c.Finished, c.Tufting = Size{t.Width, t.Length}, &plan
		c.Basis = append(c.Basis, plan.Basis)
	}
}

// cloth puts a rectangle of cloth on the list, by its size inside the edge.
func (b *builder) cloth(field string, p part, name string, width, length unit.Length, edge allowance.Edge) {
	o, err := shape.Rectangle(width, length)
	if err != nil {
		b.fail(field, err)
		return
	}
	p.panel = allowance.Panel{Name: name, Outline: o, AllEdges: edge}
	b.shaped(field, p)
}

func (b *builder) channels(field, piece string, n int, x Channels) {
	before := len(b.errs)
	b.name(field+".name", x.Name)
	count := n * b.count(field+".count", x.Count)
	b.side(field+".width", x.Width)
	b.side(field+".length", x.Length)
	g, ok := b.find(field+".goods", x.Goods)
	if !ok || len(b.errs) > before {
		return
	}
	ch := made.Channels{Width: x.Width, Height: x.Length, Count: x.Number, Rise: x.Rise, Profile: x.Profile}
	if x.Pull != nil {
		ch.Pull = allowance.Exactly(*x.Pull)
	}
	cut, err := ch.Cut()
	if err != nil {
		err = panelField(err)
		b.fail(field, renameField(err, "count", "number"))
		return
	}
	pieces := cut.Pieces
	if x.OnePiece {
		pieces = []made.Strip{{Use: "cover", Count: 1, Width: cut.OnePiece, Length: cut.Height}}
	}
	for _, p := range pieces {
		// Channels stand up the roll.
		b.strip(field, piece, count, x.Name+", "+p.Use, strip{p, g.ID}, g, demand{})
		c := &b.out.Cuts[len(b.out.Cuts)-1]
		c.Cut = Size{Width: p.Width, Length: p.Length}
		c.part.turn, c.part.free = layout.KeepGrain, false
		if g.Kind == RollGoods {
			c.Grain = g.grain()
		}
	}
	b.out.Cuts[len(b.out.Cuts)-1].Channels = &cut
	// Every line between channels is stitched once.
	b.stitch(piece+": "+x.Name, g, unit.Length(max(0, x.Number-1))*cut.Height, count, seamLayers)
}
