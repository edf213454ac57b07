package job

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// finder works out what one piece of furniture needs.
type finder struct {
	spec     Spec
	goods    catalog
	cut      cutting
	foam     []FoamBlock
	piece    int
	of       Furniture
	at       unit.Path
	fastened bool // on a frame
	needs    []need
	asks     []build.Question
	faults   faults
}

func (x *finder) add(times int, n build.Need) {
	x.needs = append(x.needs, need{n, x.piece, times})
}

func (x *finder) ask(field unit.Path, text string) {
	x.asks = append(x.asks, build.Question{Piece: x.of.Name, Text: text, Field: field})
}

// run adds lengths of a finding; none are left out.
func (x *finder) run(times int, id, how string, runs []unit.Length) {
	if len(runs) == 0 {
		return
	}
	s, err := build.Run(id, runs).Order(findings.Buying[unit.Length]{})
	if err != nil {
		x.faults.addAs(x.at, err)
		return
	}
	n := build.Need{ID: id, Net: cost.AnyOf(s.Net), How: how, Basis: cite.Basis{Status: cite.Derived}}
	if s.Ends != 0 {
		n.Ends, n.Basis = cost.AnyOf(s.Ends), cite.Practice("ends and joins")
	}
	x.add(times, n)
}

// count adds pieces; none are left out.
func (x *finder) count(times int, id string, k int, how string, basis cite.Basis) {
	if k > 0 {
		x.add(times, build.Need{ID: id, Net: cost.AnyOf(cost.Pieces(k)), How: how, Basis: basis})
	}
}

// cover adds what the cover tells.
func (x *finder) cover() {
	for i, a := range x.cut.assembly {
		if x.cut.of[i] == x.piece {
			x.seams(a)
			x.fastenings(a)
			x.trims(a)
		}
	}
	if b := x.of.Build; b != nil && b.Nails != nil && !slices.ContainsFunc(x.of.Trims, func(t TrimSpec) bool { return t.Kind == allowance.Nails }) {
		x.ask(x.at.Dot("trims"), "not worked out: decorative nails, for want of a trim that says where they go")
	}
	x.ownEdges()
	n := copies(x.of.Count)
	for _, w := range x.of.Welts {
		runs := w.Runs
		if w.Double {
			runs = slices.Concat(runs, runs)
		}
		x.run(n*copies(w.Count), cordOf(w.Cord), w.Name, runs)
	}
	for _, b := range x.of.Boxings {
		if b.ZipBack != 0 {
			x.zips(n*copies(b.Count), b.Name, []unit.Length{b.ZipBack})
		}
	}
	x.buttons()
	if b := x.of.Build; b != nil && b.Interliner {
		x.interliner()
	}
}

func cordOf(diameter unit.Length) string { return "cord, " + diameter.String() }

// seams adds cord, zips and tape of the seams.
func (x *finder) seams(a Assembly) {
	part := a.Part
	if part == "" {
		part = "seams"
	}
	cords := map[string][]unit.Length{}
	var order []string
	for _, w := range a.Work.Welts {
		id := cordOf(w.Cord)
		if cords[id] == nil {
			order = append(order, id)
		}
		cords[id] = append(cords[id], w.CordLength)
	}
	for _, id := range order {
		x.run(a.Count, id, fmt.Sprintf("%s: %s and 2 in each", part, plural(len(cords[id]), "run")), cords[id])
	}
	var openings, tape []unit.Length
	for _, z := range a.Work.Zips {
		openings = append(openings, z.Opening)
	}
	x.zips(a.Count, part, openings)
	for _, s := range a.Work.Seams {
		if s.Kind == allowance.HookAndLoopJoin {
			tape = append(tape, s.Sewn)
		}
	}
	x.run(a.Count, "hook and loop", part+": closings and 1 in each", tape)
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// zips adds chain and sliders.
func (x *finder) zips(times int, part string, openings []unit.Length) {
	if len(openings) == 0 {
		return
	}
	o, err := findings.Zips{Openings: openings}.Order(findings.Buying[unit.Length]{})
	if err != nil {
		x.faults.addAs(x.at, err)
		return
	}
	how := fmt.Sprintf("%s: %s and 2 in each", part, plural(len(openings), "opening"))
	x.add(times, build.Need{ID: "zip chain", Net: cost.AnyOf(o.Chain.Net), Ends: cost.AnyOf(o.Chain.Ends), How: how, Basis: o.Basis})
	x.count(times, "zip slider", o.Sliders, part+": 1 a zip, 2 above 48 in", o.Basis)
}

// fastenings adds staples, strips and tape of the fastened edges.
func (x *finder) fastenings(a Assembly) {
	var card, stick, curve, tape []unit.Length
	var groups stapled
	for _, h := range a.Work.Fastenings {
		straight := x.straight(a, h.Side)
		switch h.Kind {
		case allowance.Hemmed:
			continue
		case allowance.HookAndLoop:
			tape = append(tape, h.Length)
			continue
		case allowance.ToothedStrip:
			if straight {
				stick = append(stick, h.Length)
			} else {
				curve = append(curve, h.Length)
			}
			x.fastened = true
			continue
		case allowance.BlindTacked:
			if straight {
				card = append(card, h.Length)
			} else {
				curve = append(curve, h.Length)
				x.fastened = true
				continue
			}
		case allowance.PulledOver, allowance.PushedThrough, allowance.TurnedBelow, allowance.StapledFlat, allowance.FoldedIn:
		}
		x.fastened = true
		groups.add(x.stapleOf(a, h), h.Length)
	}
	part := a.Part
	if part == "" {
		part = "cover"
	}
	x.staples(a.Count, part, groups)
	x.run(a.Count, "card strip", plural(len(card), "straight blind edge"), card)
	x.run(a.Count, "curve strip", plural(len(curve), "curved edge"), curve)
	x.run(a.Count, "hook and loop", plural(len(tape), "edge")+" and 1 in each", tape)
	x.sticks(a.Count, stick)
}

// sticks adds tack strip: whole sticks a run, where the stick is known.
func (x *finder) sticks(times int, runs []unit.Length) {
	if len(runs) == 0 {
		return
	}
	sizes := x.spec.Findings["tack strip"].Sizes
	if len(sizes) == 0 {
		x.run(times, "tack strip", plural(len(runs), "straight edge")+" in teeth", runs)
		x.ask("findings.tack strip.sizes", "tack strip: the stick that it is sold in; whole sticks go on a run")
		return
	}
	n, err := findings.TackStrip{Runs: runs, Stick: sizes[0]}.Sticks()
	if err != nil {
		x.faults.addAs("findings.tack strip.sizes", err)
		return
	}
	x.add(times, build.Need{ID: "tack strip", Net: cost.AnyOf(unit.Length(n) * sizes[0]), How: plural(n, "whole stick") + " of " + sizes[0].String(), Basis: cite.Basis{Status: cite.Derived}})
}

// staple is how some edges are stapled.
type staple struct{ pitch, layers, bite unit.Length }

type stapled struct {
	kinds []staple
	edges [][]unit.Length
}

func (s *stapled) add(k staple, edge unit.Length) {
	i := slices.Index(s.kinds, k)
	if i < 0 {
		i = len(s.kinds)
		s.kinds, s.edges = append(s.kinds, k), append(s.edges, nil)
	}
	s.edges[i] = append(s.edges[i], edge)
}

const (
	coverPitch   = unit.Inch
	leatherPitch = 3 * unit.Inch / 4
	coverBite    = unit.Inch / 4
	trimBite     = 3 * unit.Inch / 16
	cardThick    = unit.Inch / 16
)

// staples adds the staples of edges, those of one leg and pitch together; nothing is
// listed of none.
func (x *finder) staples(times int, part string, s stapled) {
	type like struct{ leg, pitch unit.Length }
	var order []like
	of := map[like][]findings.Staples{}
	edges := map[like]int{}
	for i, k := range s.kinds {
		n := findings.Staples{Edges: s.edges[i], Pitch: k.pitch, Layers: k.layers, Bite: k.bite, Rail: x.rail(), Legs: x.spec.Findings["staple"].Sizes}
		p, err := n.Plan()
		if err != nil {
			x.faults.addAs(x.at, err)
			return
		}
		key := like{p.Leg, k.pitch}
		if of[key] == nil {
			order = append(order, key)
		}
		of[key], edges[key] = append(of[key], n), edges[key]+len(s.edges[i])
	}
	for _, key := range order {
		x.add(times, build.Need{ID: "staple", How: fmt.Sprintf("%s: %s at %v", part, plural(edges[key], "edge"), key.pitch), Staples: of[key],
			Basis: cite.Practice("pitch and bite")})
	}
}

// rail gives the thickness of the rails.
func (x *finder) rail() unit.Length {
	if b := x.of.Build; b != nil {
		return b.Stapled()
	}
	return build.Spec{}.Stapled()
}

// stapleOf gives how a fastened edge is stapled.
func (x *finder) stapleOf(a Assembly, h allowance.CoverFastening) staple {
	layers := 1
	if h.Kind == allowance.TurnedBelow || h.Kind == allowance.FoldedIn {
		layers = 2
	}
	var goods string
	if p := onPiece(a, h.Side); p != nil {
		goods = p.Goods
	}
	k := x.onRail(goods, layers)
	if h.Kind == allowance.BlindTacked {
		k.layers += cardThick
	}
	return k
}

// onRail gives how layers of goods are stapled on a rail.
func (x *finder) onRail(goods string, layers int) staple {
	g, _, _ := x.goods.find(goods) //nolint:errcheck // the cover was made with it
	k := staple{coverPitch, unit.Length(layers) * g.thickness(), coverBite}
	switch g.Material {
	case thread.Vinyl, thread.Leather, thread.HeavyLeather:
		k.pitch = leatherPitch
	case thread.LightWoven, thread.Woven, thread.Canvas:
	}
	return k
}

// onPiece gives the piece that a side begins on.
func onPiece(a Assembly, side []string) *allowance.CoverPiece {
	if len(side) == 0 {
		return nil
	}
	name, _ := atEdge(side[0])
	i := slices.IndexFunc(a.Work.Pieces, func(p allowance.CoverPiece) bool { return p.Name == name })
	if i < 0 {
		return nil
	}
	return &a.Work.Pieces[i]
}

// atEdge takes "inside back.top" apart.
func atEdge(s string) (piece, edge string) {
	i := strings.LastIndexByte(s, '.')
	if i < 0 {
		return s, ""
	}
	return s[:i], s[i+1:]
}

// straight tells whether every edge of a side is.
func (x *finder) straight(a Assembly, side []string) bool {
	for _, s := range side {
		p := onPiece(a, []string{s})
		if p == nil {
			continue
		}
		if _, edge := atEdge(s); !straightEdge(p.Panel.Outline, edge) {
			return false
		}
	}
	return true
}

// straightEdge tells whether an edge is hardly longer than the line between its
// ends: by a thousandth, which a bow of 1/2 in in 24 in has.
func straightEdge(o shape.Outline, edge string) bool {
	long, err := o.EdgeLength(edge)
	if err != nil {
		return true
	}
	span, err := o.EdgeSpan(edge)
	return err == nil && long-span <= span/1000
}

// trims adds gimp, nails and the staples of welt on the frame.
func (x *finder) trims(a Assembly) {
	var gimp, nails []unit.Length
	var welts stapled
	for _, t := range a.Cover.Trims {
		switch t.Kind {
		case allowance.Gimp:
			gimp = append(gimp, t.Length)
		case allowance.Nails:
			nails = append(nails, t.Length)
		case allowance.StapledWelt:
			g, _, _ := x.goods.find(t.Welt) //nolint:errcheck // the cover was made with it
			welts.add(staple{coverPitch, 2 * g.thickness(), trimBite}, t.Length)
		}
	}
	x.run(a.Count, "gimp", plural(len(gimp), "run")+" and 1 in each", gimp)
	x.staples(a.Count, "welt on the frame", welts)
	if len(nails) == 0 {
		return
	}
	b := x.of.Build
	if b == nil || b.Nails == nil {
		x.ask(x.at.Dot("build.nails.head"), "decorative nails: head and spacing")
		return
	}
	count := 0
	for _, l := range nails {
		p, err := findings.Nails{Sides: []unit.Length{l}, Head: b.Nails.Head, Pitch: b.Nails.Pitch, Strip: b.Nails.Strip}.Plan()
		if err != nil {
			x.faults.addAs(x.at.Dot("build.nails"), err)
			return
		}
		count += p.Nails
	}
	spaced := "head to head"
	if b.Nails.Pitch != 0 {
		spaced = "at " + b.Nails.Pitch.String()
	}
	x.count(a.Count, "decorative nail, "+b.Nails.Head.String(), count, plural(len(nails), "run")+" "+spaced, cite.Basis{Status: cite.Derived})
}

// ownEdges adds the staples of edges that are held by a finish of their own.
func (x *finder) ownEdges() {
	for _, p := range x.cut.pieces {
		if furnitureAt(p.at) != x.piece || p.Panel == nil {
			continue
		}
		var groups stapled
		for _, e := range p.Panel.Edges {
			if slices.ContainsFunc(p.Uses, func(u allowance.EdgeUse) bool { return u.Edge == e.Name }) {
				continue // sewn or fastened
			}
			layers := 0
			switch e.Finish { //nolint:exhaustive // what is stapled
			case allowance.PullOver:
				layers = 1
			case allowance.TurnedUnder:
				layers = 2
			}
			if layers > 0 && e.Length > 0 {
				groups.add(x.onRail(p.Cut.Goods, layers), x.onFrame(p, e))
				x.fastened = true
			}
		}
		x.staples(p.Count, p.Part, groups)
	}
}

// onFrame gives how long an edge of a panel is on the frame: that of a tufted one is
// drawn in by its buttons.
func (x *finder) onFrame(p piece, e allowance.PanelEdge) unit.Length {
	for k, t := range x.of.Tufted {
		if p.at != x.at.Dot("tufted").At(k) {
			continue
		}
		plan, err := t.tufting().Plan()
		if err != nil {
			return e.Length // said of the part
		}
		face, cloth := t.Width, plan.NetWidth
		if e.Name == "left" || e.Name == "right" {
			face, cloth = t.Length, plan.NetHeight
		}
		l, _ := e.Length.MulDiv(int(face), int(cloth), unit.Nearest) //nolint:errcheck // the cloth is never smaller than the face
		return l
	}
	return e.Length
}

// buttons adds those of tufting, of gathered bolsters, and others.
func (x *finder) buttons() {
	b := build.Buttons{}
	if x.of.Build != nil && x.of.Build.Buttons != nil {
		b = *x.of.Build.Buttons
	}
	n, of := b.Count*copies(x.of.Count), []string{}
	if n > 0 {
		of = append(of, "as given")
	}
	for _, c := range x.cut.pieces {
		if furnitureAt(c.at) == x.piece && c.Tufting != nil {
			n += c.Tufting.Buttons * c.Made
			of = append(of, c.Part)
		}
	}
	for _, c := range x.of.Cushions {
		if c.Kind == made.Bolster && c.GatheredEnds {
			n += 2 * copies(c.Count) * copies(x.of.Count)
			of = append(of, c.Name)
		}
	}
	if n == 0 {
		if b != (build.Buttons{}) {
			x.ask(x.at.Dot("build.buttons.count"), "not worked out: buttons, for want of their number")
		}
		return
	}
	id, at := "button", x.at.Dot("build.buttons")
	if b.Line != 0 {
		if _, err := findings.ButtonLine(b.Line); err != nil {
			x.faults.addAs(at.Dot("line"), err)
			return
		}
		id = fmt.Sprintf("button, %d line", b.Line)
	} else {
		x.ask(at.Dot("line"), "buttons: their size")
	}
	how := strings.Join(of, ", ")
	x.add(1, build.Need{ID: id, Net: cost.AnyOf(cost.Pieces(n)), Ends: cost.AnyOf(cost.Pieces((n + 19) / 20)), How: how + ", a spare for twenty", Basis: cite.Practice("a spare for twenty")})
	if b.Through == 0 {
		x.ask(at.Dot("through"), "not worked out: button twine, for want of what it passes through")
		return
	}
	o, err := findings.Buttons{Count: 1, Diameter: unit.Inch, Through: b.Through}.Order()
	if err != nil {
		x.faults.addAs(at.Dot("through"), err)
		return
	}
	x.add(n, build.Need{ID: "button twine", Net: cost.AnyOf(o.Each), How: "a button", Basis: cite.Practice("twice what it passes through and 12 in")})
}

// interliner adds a piece behind every panel of the cover.
func (x *finder) interliner() {
	var n build.Need
	for _, c := range x.cut.pieces {
		if furnitureAt(c.at) != x.piece || c.Panel == nil || x.skirted(c.Part) || strings.Contains(c.Part, "dust cover") || strings.Contains(c.Part, "decking") {
			continue
		}
		n.Cloth = append(n.Cloth, findings.ClothPiece{Width: c.Cut.Cut.Width, Length: c.Cut.Cut.Length, Count: c.Count})
	}
	if len(n.Cloth) == 0 {
		return
	}
	n.ID, n.How, n.Basis = "interliner", "behind the panels of the cover, as they are cut", cite.Practice("not skirts, welt and dust cover")
	x.add(1, n)
}

func (x *finder) skirted(part string) bool {
	return slices.ContainsFunc(x.of.Skirts, func(s SkirtSpec) bool { return part == s.Name || strings.HasPrefix(part, s.Name+", ") })
}
