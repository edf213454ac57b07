package allowance

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Limits of a cover, far beyond any piece of furniture.
const (
	mostPieces    = 2000
	mostParts     = 20000
	mostRelations = 4000 // between single pieces
)

// graph is a cover with every relation resolved to single pieces of goods.
type graph struct {
	cover  Cover
	taken  []bool // open seams that found their mates
	goods  map[string]SewnGoods
	refs   map[string]ref
	drawn  []drawn // by panel
	nodes  []node
	first  []int // of each panel, its first node
	joints []joint
	holds  []held
	trims  []put
	uses   map[place][]use
	glue   map[vertex][]glued
	around [][]next // by joint: what each side needs to be whole
	order  []step
	fitted []FitStep
	faults coverFaults
}

// node is one piece of goods of one cover.
type node struct {
	panel  int
	hand   Hand
	number int // from 1 where there are several
	name   string
}

// ref is what a name of the cover stands for.
type ref struct {
	panel  int
	hand   Hand // Either of a pair: both
	number int  // 0 of several: each
}

// place is a part of the border of a piece, or one of its inner lines.
type place struct{ node, part int }

// use is one relation at a place.
type use struct {
	by   string // the relation, for people
	edge Edge
	seam bool
}

// span is an edge part on one piece.
type span struct {
	node  int
	parts []int // of the drawn panel, in the direction of the side
	ahead bool  // anticlockwise as drawn
	line  bool
	back  bool // the panel's back is up
	at    unit.Path
}

// joint is a seam between single pieces.
type joint struct {
	seam  int
	label string // of the hand and number it stands for
	at    unit.Path
	sides [][]span
	ring  bool
	sewn  unit.Length // of a row
}

// held is a fastening of single pieces.
type held struct {
	fastening int
	label     string
	at        unit.Path
	side      []span
	hidden    []int // nodes that hide it
}

// put is a trim with the pieces that hide it and those it covers.
type put struct {
	trim           int
	hidden, covers []int
}

// next is a junction of a side: the joints that bring two pieces together.
type next struct {
	side   int
	joints []int
}

// coverFaults collects what is wrong, each thing once.
type coverFaults struct {
	list []error
	seen map[string]bool
}

func (f *coverFaults) add(at unit.Path, err error) {
	if err == nil {
		return
	}
	err = unit.InField(at, err)
	if text := err.Error(); !f.seen[text] {
		if f.seen == nil {
			f.seen = map[string]bool{}
		}
		f.seen[text] = true
		f.list = append(f.list, err)
	}
}

func (f *coverFaults) err() error { return errors.Join(f.list...) }

// related tells whether edges of the cover are joined or fastened at all.
func (c Cover) related() bool { return len(c.Seams)+len(c.Fastenings) > 0 }

// newGraph resolves a cover. What does not resolve is among its faults and left
// out.
func newGraph(c Cover, goods map[string]SewnGoods) *graph {
	c, taken := c.closed()
	g := &graph{cover: c, taken: taken, goods: goods, refs: map[string]ref{}, uses: map[place][]use{}, glue: map[vertex][]glued{}}
	g.checkGoods()
	if !g.name() {
		return g
	}
	relations := g.read()
	g.draw(relations)
	for _, r := range relations {
		g.expand(r)
	}
	g.join()
	return g
}

// name lists the pieces and all names they go by.
func (g *graph) name() bool {
	for i, p := range g.cover.Panels {
		at := unit.Path("panels").At(i)
		g.first = append(g.first, len(g.nodes))
		if p.Name == "" {
			g.faults.add(at.Dot("name"), check.Required("", "a name"))
			continue
		}
		if err := check.Count("count", p.Count, 0, 999); err != nil {
			g.faults.add(at, err)
			continue
		}
		hands := []Hand{Either}
		if p.Pair {
			hands = []Hand{LeftHand, RightHand}
			g.call(at, p.Name, ref{i, Either, 0})
		}
		for _, hand := range hands {
			name := p.Name
			if hand != Either {
				name += " " + hand.String()
			}
			if p.Copies() == 1 {
				g.call(at, name, ref{i, hand, 1})
				g.nodes = append(g.nodes, node{i, hand, 1, name})
				continue
			}
			g.call(at, name, ref{i, hand, 0})
			for n := 1; n <= p.Copies(); n++ {
				of := name + " " + strconv.Itoa(n)
				g.call(at, of, ref{i, hand, n})
				g.nodes = append(g.nodes, node{i, hand, n, of})
			}
		}
		if len(g.nodes) > mostPieces {
			g.faults.add(at.Dot("count"), check.Count("", len(g.nodes), 0, mostPieces))
			return false
		}
	}
	return true
}

func (g *graph) call(at unit.Path, name string, r ref) {
	if _, taken := g.refs[name]; taken {
		g.faults.add(at.Dot("name"), check.Refuse("", name, unit.ErrRange, "a name that no other panel or copy has"))
		return
	}
	g.refs[name] = r
}

// nodeOf finds a piece.
func (g *graph) nodeOf(panel int, hand Hand, number int) int {
	p := g.cover.Panels[panel]
	i := g.first[panel] + number - 1
	if p.Pair && hand == RightHand {
		i += p.Copies()
	}
	return i
}

// relation is a seam or fastening as it is written, its names resolved.
type relation struct {
	seam, fastening int // one of them, the other -1
	at              unit.Path
	sides           [][]part
	broken          bool // faulty: it uses its edges, and joins nothing
}

// part is an edge part with its panel found.
type part struct {
	EdgePart
	ref
	at unit.Path
}

// read resolves the names of all seams, fastenings, trims and meets.
func (g *graph) read() []relation {
	var out []relation
	parts := 0
	for i, s := range g.cover.Seams {
		if g.taken[i] {
			continue
		}
		r := relation{seam: i, fastening: -1, at: unit.Path("seams").At(i)}
		for k, side := range s.Sides {
			found, ok := g.side(r.at.Dot("sides").At(k), side)
			parts += len(found)
			r.broken = r.broken || !ok
			if len(found) > 0 {
				r.sides = append(r.sides, found)
			}
		}
		if !g.checkSeam(i) {
			r.broken = true
		}
		out = append(out, r)
	}
	for i, f := range g.cover.Fastenings {
		r := relation{seam: -1, fastening: i, at: unit.Path("fastenings").At(i)}
		found, ok := g.side(r.at.Dot("side"), f.Side)
		parts += len(found)
		if _, err := f.Edge(); err != nil {
			g.faults.add(r.at, err)
			ok = false
		}
		g.known(r.at.Dot("hidden_by"), f.HiddenBy)
		r.broken = !ok
		if len(found) > 0 {
			r.sides = [][]part{found}
		}
		out = append(out, r)
	}
	if parts > mostParts {
		g.faults.add("seams", check.Count("", parts, 0, mostParts))
		return nil
	}
	g.readTrims()
	g.readMeets()
	return out
}

// side resolves the parts of a side.
func (g *graph) side(at unit.Path, s Side) ([]part, bool) {
	if len(s) == 0 {
		g.faults.add(at, check.Required("", "an edge, or several in order"))
		return nil, false
	}
	ok := true
	var out []part
	for _, p := range s {
		r, known := g.refs[p.Panel]
		if !known {
			g.faults.add(at, check.Refuse("", p.Panel, unit.ErrUnknown, g.wanted(p.Panel)))
			ok = false
			continue
		}
		if err := g.onPanel(p, r.panel); err != nil {
			g.faults.add(at, err)
			ok = false
			continue
		}
		out = append(out, part{p, r, at})
	}
	return out, ok
}

// wanted says what is wanted where a name is no panel's: of a made-up part its
// open edges, or else its panels.
func (g *graph) wanted(name string) string {
	var open, panels []string
	for _, s := range g.cover.Seams {
		if strings.HasPrefix(s.Open, name+".") {
			open = append(open, s.Open)
		}
	}
	for _, p := range g.cover.Panels {
		if strings.HasPrefix(p.Name, name+".") {
			panels = append(panels, p.Name)
		}
	}
	if len(open) > 0 {
		return "an open edge of it: " + strings.Join(open, ", ")
	}
	if len(panels) > 0 {
		return "a panel of it: " + strings.Join(panels, ", ")
	}
	return "the name of a panel, its hand and number after it"
}

// known refuses names that no panel has.
func (g *graph) known(at unit.Path, names []string) {
	for i, name := range names {
		if _, ok := g.refs[name]; !ok {
			g.faults.add(at.At(i), check.Refuse("", name, unit.ErrUnknown, g.wanted(name)))
		}
	}
}

func (g *graph) readTrims() {
	for i, t := range g.cover.Trims {
		at := unit.Path("trims").At(i)
		g.known(at.Dot("hidden_by"), t.HiddenBy)
		g.known(at.Dot("covers"), t.Covers)
		g.faults.add(at, check.OneOf("kind", t.Kind.String(), trimNames[:]...))
		g.faults.add(at, check.Positive("length", t.Length))
		g.checkWelt(at, t.Kind == StapledWelt, t.Cord, t.Welt)
		g.trims = append(g.trims, put{i, g.named(t.HiddenBy, Either), g.named(t.Covers, Either)})
	}
}

func (g *graph) readMeets() {
	for i, m := range g.cover.Meets {
		at := unit.Path("meets").At(i)
		g.faults.add(at.Dot("sides"), check.Count("", len(m.Sides), 2, 2))
		g.checkCrossing(at.Dot("pattern"), m.Pattern)
		for k, s := range m.Sides {
			here := at.Dot("sides").At(k)
			g.side(here.Dot("side"), s.Side)
			g.faults.add(here, check.NotNegative("in", s.In))
		}
	}
}

// named lists the pieces that names stand for; of a pair, those of the hand.
func (g *graph) named(names []string, hand Hand) []int {
	var out []int
	for _, name := range names {
		r, ok := g.refs[name]
		if !ok {
			continue
		}
		for i, n := range g.nodes {
			if n.panel == r.panel && (r.number == 0 || r.number == n.number) &&
				(n.hand == r.hand || r.hand == Either && (hand == Either || n.hand == hand || n.hand == Either)) {
				out = append(out, i)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// expand turns a relation into those between single pieces: one for each hand
// and number that it stands for.
func (g *graph) expand(r relation) {
	g.each(r, func(hand Hand, number int) {
		if n := len(g.joints) + len(g.holds) + 1; n > mostRelations {
			g.faults.add(r.at, check.Count("", n, 0, mostRelations))
			return
		}
		g.expanded(r, hand, number)
	})
}

// each gives every hand and number that a relation stands for.
func (g *graph) each(r relation, do func(hand Hand, number int)) {
	hands, numbers := []Hand{Either}, 0
	for _, side := range r.sides {
		for _, p := range side {
			panel := g.cover.Panels[p.panel]
			if panel.Pair && p.hand == Either {
				hands = []Hand{LeftHand, RightHand}
			}
			if p.number != 0 || panel.Copies() == 1 {
				continue
			}
			if numbers != 0 && numbers != panel.Copies() {
				g.faults.add(p.at, check.Refuse("", p.String(), unit.ErrRange, "as many copies as the other panels of the seam, or the number of one"))
				return
			}
			numbers = panel.Copies()
		}
	}
	if len(r.sides) == 0 {
		return
	}
	for _, hand := range hands {
		for n := min(1, numbers); n <= numbers; n++ {
			do(hand, n)
		}
	}
}

// pieceOf gives the piece that a part is on, of a hand and number that the
// relation stands for.
func (g *graph) pieceOf(p part, hand Hand, number int) int {
	panel := g.cover.Panels[p.panel]
	h, n := p.hand, p.number
	if panel.Pair && h == Either {
		h = hand
	}
	switch {
	case panel.Copies() == 1:
		n = 1
	case n == 0:
		n = number
	}
	return g.nodeOf(p.panel, h, n)
}

func (g *graph) expanded(r relation, hand Hand, number int) {
	sides := make([][]span, len(r.sides))
	for k, side := range r.sides {
		turned := hand == RightHand
		for _, p := range side {
			turned = turned && g.cover.Panels[p.panel].Pair && p.hand == Either
			if !g.drawn[p.panel].ok {
				return // told already
			}
			s, err := g.drawn[p.panel].span(p.EdgePart)
			if err != nil {
				g.faults.add(p.at, err)
				return
			}
			s.node, s.at, s.back = g.pieceOf(p, hand, number), p.at, p.Reversed
			s.ahead = (g.nodes[s.node].hand == RightHand) == p.Reversed
			if !s.ahead {
				slices.Reverse(s.parts)
			}
			sides[k] = append(sides[k], s)
		}
		if turned {
			slices.Reverse(sides[k])
		}
	}
	label := ""
	if hand != Either {
		label = "-" + [...]string{LeftHand: "L", RightHand: "R"}[hand]
	}
	if number > 0 {
		label += "-" + strconv.Itoa(number)
	}
	by := g.relationText(r)
	if r.broken {
		for _, side := range sides {
			g.take(side, use{by, Edge{}, r.seam >= 0})
		}
		return
	}
	if r.seam >= 0 {
		g.joints = append(g.joints, joint{seam: r.seam, label: label, at: r.at, sides: sides})
		for k, side := range sides {
			g.take(side, use{by, g.cover.Seams[r.seam].sideEdge(k), true})
		}
		return
	}
	f := g.cover.Fastenings[r.fastening]
	edge, _ := f.Edge() //nolint:errcheck // checked when it was read
	if hand == Either {
		hand = g.nodes[sides[0][0].node].hand
	}
	g.holds = append(g.holds, held{r.fastening, label, r.at, sides[0], g.named(f.HiddenBy, hand)})
	g.take(sides[0], use{by, edge, false})
}

// relationText names a relation for people, by its edges.
func (g *graph) relationText(r relation) string {
	if r.seam < 0 {
		return "the fastening of " + g.cover.Fastenings[r.fastening].Side.String()
	}
	names := make([]string, len(g.cover.Seams[r.seam].Sides))
	for i, s := range g.cover.Seams[r.seam].Sides {
		names[i] = s.String()
	}
	return "the seam of " + strings.Join(names, " with ")
}

// take notes the relation at every place of a side, and refuses a second one.
func (g *graph) take(side []span, u use) {
	for _, s := range side {
		for _, part := range s.parts {
			at := place{s.node, part}
			if before := g.uses[at]; len(before) > 0 {
				g.faults.add(s.at, check.Refuse("", g.at(at), unit.ErrRange, "an edge that is not used already, as it is by "+before[0].by))
			}
			g.uses[at] = append(g.uses[at], u)
		}
	}
}

// at names a place for people.
func (g *graph) at(p place) string {
	n := g.nodes[p.node]
	return n.name + "." + g.drawn[n.panel].parts[p.part].name
}

// edge gives the finish of a place, from its relation or of its own.
func (g *graph) edge(p place) Edge {
	if used := g.uses[p]; len(used) > 0 {
		return used[0].edge
	}
	n := g.nodes[p.node]
	d := g.drawn[n.panel].parts[p.part]
	if e, _, ok := ownOf(g.cover.Panels[n.panel].Edges, d.edge); ok {
		return e
	}
	return g.cover.Panels[n.panel].AllEdges
}

// length gives the seam line of a span.
func (g *graph) length(s span) unit.Length {
	var sum unit.Length
	for _, p := range s.parts {
		sum += g.drawn[g.nodes[s.node].panel].parts[p].length
	}
	return sum
}

// run gives the seam line of a side.
func (g *graph) run(side []span) unit.Length {
	var sum unit.Length
	for _, s := range side {
		sum += g.length(s)
	}
	return sum
}

// goodsOf lists the ids of the goods of a side, each once.
func (g *graph) goodsOf(side []span) []string {
	var out []string
	for _, s := range side {
		if id := g.cover.Panels[g.nodes[s.node].panel].Goods; !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// heaviest gives the goods that rank highest, the first of equals.
func (g *graph) heaviest(ids []string) string {
	return slices.MaxFunc(ids, func(a, b string) int {
		x, y := g.goods[a], g.goods[b]
		return cmp.Or(cmp.Compare(x.Heft, y.Heft), cmp.Compare(x.Thickness, y.Thickness))
	})
}
