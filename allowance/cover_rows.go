package allowance

import (
	"slices"

	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// RowKind is what a row of stitching does: [SeamRow], [MakingRow], [PuttingRow],
// [TopRow], [GatherRow], [ZipRow], [HandRow] or [HemRow]. The zero value is the
// row of a seam.
type RowKind uint8

const (
	// SeamRow closes a seam.
	SeamRow RowKind = iota
	// MakingRow closes a strip round the cord of a welt.
	MakingRow
	// PuttingRow sews a welt to the side that holds its shape.
	PuttingRow
	// TopRow is seen on the face: top-stitching, and the rows of a felled seam.
	TopRow
	// GatherRow draws up a gathered side; there are two of them.
	GatherRow
	// ZipRow sews one tape of a zip.
	ZipRow
	// HandRow is sewn by hand.
	HandRow
	// HemRow turns an edge on itself, under tape where there is some.
	HemRow
)

var rowNames = [...]string{"seam", "welt making", "welt to panel", "top-stitch", "gathering", "zip", "by hand", "hem"}

// String gives the kind in words.
func (k RowKind) String() string { return enum.Name(k, "kind", rowNames[:]) }

// MarshalText writes the words.
func (k RowKind) MarshalText() ([]byte, error) { return enum.Text(k, "kind", rowNames[:]) }

// UnmarshalText reads what String writes.
func (k *RowKind) UnmarshalText(text []byte) error { return enum.Read(k, text, "kind", rowNames[:]) }

// Member is what the needle of a row passes of one side.
type Member struct {
	Goods  string `json:"goods"`
	Layers int    `json:"layers"`
}

// CoverRow is a row of stitching of a cover. It has one thread, that of its
// heaviest member.
type CoverRow struct {
	Of   string  `json:"of"` // the letter of the seam, or the edge that is hemmed
	Kind RowKind `json:"kind,omitzero"`
	// Length is what the needle sews: the seam line, and at open ends the margins
	// of the edges across it as far as two sides have them, for the seam runs
	// through to the cut line.
	Length  unit.Length `json:"length"`
	Members []Member    `json:"members"`
	// Layers that the needle passes; the tape of a zip is one of them, the cord
	// of a welt is beside the needle.
	Layers    int         `json:"layers"`
	Thickness unit.Length `json:"thickness,omitzero"` // of the layers whose goods tell
	Heaviest  string      `json:"heaviest"`           // id of the goods whose thread the row takes
}

// RowOn gives a row through layers of one kind of goods.
func RowOn(of, goods string, length unit.Length, layers int) CoverRow {
	return CoverRow{Of: of, Length: length, Members: []Member{{goods, layers}}, Layers: layers, Heaviest: goods}
}

// stack is how one side lies under the needle.
type stack struct {
	goods  []string // of which one lies at any place
	layers int
}

// row makes a row from what lies under the needle.
func (g *graph) row(of string, kind RowKind, length unit.Length, tape int, stacks ...stack) CoverRow {
	r := CoverRow{Of: of, Kind: kind, Length: length, Layers: tape}
	var all []string
	for _, s := range stacks {
		var thick unit.Length
		for _, id := range s.goods {
			r.Members = append(r.Members, Member{id, s.layers})
			thick = max(thick, g.goods[id].Thickness)
		}
		all = append(all, s.goods...)
		r.Layers += s.layers
		r.Thickness += thick * unit.Length(s.layers)
	}
	if len(all) > 0 {
		r.Heaviest = g.heaviest(all)
	}
	return r
}

// rows gives the rows of one seam; with is the side that the welt goes to first.
func (g *graph) rows(j joint, label string) []CoverRow {
	s := g.cover.Seams[j.seam]
	length := j.sewn
	stacks := make([]stack, len(j.sides))
	for k, side := range j.sides {
		stacks[k] = stack{g.goodsOf(side), 1}
	}
	twice := func(k int) stack { return stack{stacks[k].goods, 2} }
	tape := 0
	switch {
	case s.Open != "" && len(s.Sides) == 1:
		length, tape = g.openRow(j), 1 // the other side counts the other half
	case s.Lap != 0:
		stacks[0].layers = 2
	}
	length -= s.Opening
	plain := g.row(label, SeamRow, length, tape, stacks...)
	if s.Opening != 0 {
		return append(g.rowsOf(j, label, length, plain, stacks), g.row(label, HandRow, s.Opening, 0, twice(0), twice(1)))
	}
	return g.rowsOf(j, label, length, plain, stacks)
}

// openRow gives half the row of a seam whose other side is in another cover.
func (g *graph) openRow(j joint) unit.Length {
	length := j.sewn
	if f := g.cover.Seams[j.seam].Fullness; f != 0 {
		length, _ = length.Scale(1/f, unit.Nearest) //nolint:errcheck // shorter than the side
	}
	return (length + 1) / 2
}

// rowsOf gives the rows of a seam by its kind.
func (g *graph) rowsOf(j joint, label string, length unit.Length, plain CoverRow, stacks []stack) []CoverRow {
	s := g.cover.Seams[j.seam]
	twice := func(k int) stack { return stack{stacks[k].goods, 2} }
	switch s.Kind {
	case WeltedJoin:
		strip := stack{[]string{s.Welt}, 2}
		return []CoverRow{
			g.row(label, MakingRow, g.welt(j).Strip, 0, strip),
			g.row(label, PuttingRow, j.sewn, 0, stacks[0], strip),
			g.row(label, SeamRow, length, 0, stacks[0], strip, stacks[1]),
		}
	case TopStitchedJoin:
		return []CoverRow{plain, g.row(label, TopRow, length, 0, stacks[0], twice(1))}
	case DoubleTopStitchedJoin:
		var backing []stack
		if s.Backing != "" {
			backing = []stack{{[]string{s.Backing}, 1}}
		}
		return []CoverRow{plain, g.row(label, TopRow, length, 0, append(backing, twice(0))...),
			g.row(label, TopRow, length, 0, append(backing, twice(1))...)}
	case FelledJoin:
		both := g.row(label, TopRow, length, 0, twice(0), twice(1))
		return []CoverRow{both, both}
	case ZipJoin:
		var out []CoverRow
		for k := range j.sides {
			out = append(out, g.row(label, ZipRow, length, 1, twice(k)))
		}
		return out
	case GatheredJoin:
		long := 0
		for k, side := range j.sides {
			if g.run(side) > g.run(j.sides[long]) {
				long = k
			}
		}
		gather := g.row(label, GatherRow, g.run(j.sides[long]), 0, stacks[long])
		return []CoverRow{gather, gather, plain}
	case HookAndLoopJoin:
		var out []CoverRow
		for k := range j.sides {
			tape := g.row(label, HemRow, length, 1, twice(k))
			out = append(out, tape, tape)
		}
		return out
	case TiedJoin:
		return []CoverRow{g.row(label, HemRow, length, 0, twice(0)), g.row(label, HemRow, length, 0, twice(1))}
	case HandJoin:
		return []CoverRow{g.row(label, HandRow, length, 0, twice(0), twice(1))}
	}
	return []CoverRow{plain}
}

// trimRows gives the rows that make the welt of trims.
func (g *graph) trimRows() []CoverRow {
	var out []CoverRow
	for _, t := range g.cover.Trims {
		if t.Kind == StapledWelt {
			out = append(out, g.row(t.Name, MakingRow, t.Length, 0, stack{[]string{t.Welt}, 2}))
		}
	}
	return out
}

// sewn gives the length of the row of a seam: of the shortest side, and through
// the margins at its ends as far as two sides have them, for one layer alone is not
// sewn.
func (g *graph) sewn(j joint) unit.Length {
	length := g.run(j.sides[g.shortest(j)])
	if j.ring {
		return length
	}
	var starts, ends []unit.Length
	for k, side := range j.sides {
		a, b := g.margins(side)
		if k > 0 { // it runs against the first
			a, b = b, a
		}
		starts, ends = append(starts, a), append(ends, b)
	}
	return length + second(starts) + second(ends)
}

// second gives the second largest of several lengths, or the only one.
func second(of []unit.Length) unit.Length {
	slices.Sort(of)
	return of[max(len(of)-2, 0)]
}

// through gives the length of a row along one side and through the margins.
func (g *graph) through(side []span) unit.Length {
	start, end := g.sideEnds(side)
	if start == end {
		return g.run(side)
	}
	a, b := g.margins(side)
	return g.run(side) + a + b
}

// margins gives the margins of the edges across the ends of a side. Where the
// edge runs on, or turns inwards, there is nothing to sew through.
func (g *graph) margins(side []span) (start, end unit.Length) {
	first, last := side[0], side[len(side)-1]
	from, _ := g.ends(first)
	_, to := g.ends(last)
	return g.across(first, from), g.across(last, to)
}

func (g *graph) across(s span, v vertex) unit.Length {
	d := g.drawn[g.nodes[s.node].panel]
	if s.line {
		return 0
	}
	before := (v.part + d.border - 1) % d.border
	other := v.part // the neighbour that is not of the span
	for _, p := range s.parts {
		if p == v.part {
			other = before
		}
	}
	if d.border == 1 || d.parts[before].edge == d.parts[v.part].edge || d.parts[v.part].corner < sharpestSmooth {
		return 0
	}
	m, err := g.edge(place{s.node, other}).Resolve()
	if err != nil {
		return 0 // found by Check
	}
	return m.Total()
}
