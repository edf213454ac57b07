package main

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// cutGroup is the cut list of some goods, in the order of their layout.
type cutGroup struct {
	ID, Goods, Count string
	Notes            []string // of every line that does not say otherwise
	Rows             []cutRow
	Open, Short      bool
}

type cutRow struct {
	Number, Count, Part, For, Cut, Finished string
	Details                                 []string
	Picture                                 template.HTML // of what is no rectangle
	edges, grain                            string
	counts                                  map[string]int // by piece of furniture
}

// wideNumbers is how many characters have room in the column of numbers.
const wideNumbers = 14

// viewCuts lists what is cut, goods by goods: cuts that are equal in all are one line,
// whatever furniture they are for, and what most lines share is said once.
func (s *sheet) viewCuts(v *benchCopy, o job.WorkOrder, cuts []drawnCut) error {
	scales, err := thumbScales(cuts)
	if err != nil {
		return err
	}
	for i, goods := range goodsInOrder(o) {
		lines := o.CutLinesOf(goods)
		if len(lines) == 0 {
			continue
		}
		first := firstCut(o, goods)
		slices.SortStableFunc(lines, func(a, b job.CutLine) int {
			earliest := func(l job.CutLine) int {
				at := math.MaxInt
				for _, k := range l.Cuts {
					if n, laid := first[k]; laid {
						at = min(at, n)
					}
				}
				return at
			}
			return cmp.Compare(earliest(a), earliest(b))
		})
		g := cutGroup{ID: fmt.Sprintf("cuts-%d", i+1), Goods: goodsName(o.Purchases, goods), Open: len(lines) <= longList, Short: len(lines) <= shortList}
		pieces := 0
		for _, l := range lines {
			row, err := s.cutRow(o, l, cuts, scales)
			if err != nil {
				return err
			}
			pieces += l.Count
			g.Rows = append(g.Rows, row)
		}
		g.Count = plural(pieces, "piece") + " on " + plural(len(lines), "line")
		g.share()
		v.Groups = append(v.Groups, g)
	}
	v.Sorts = slices.ContainsFunc(o.Cuts, func(c job.Cut) bool { return c.Piece != o.Cuts[0].Piece })
	v.Notes, v.Apart = s.basisNotes(o), len(o.CutLines()) > shortList
	return nil
}

// firstCut says for the cuts of some goods when the first of their pieces is cut, by
// the layouts.
func firstCut(o job.WorkOrder, goods string) map[int]int {
	var cuts []int
	for i, c := range o.Cuts {
		if c.Goods == goods {
			cuts = append(cuts, i)
		}
	}
	out := map[int]int{}
	n := 0
	for _, p := range o.Purchases {
		if p.Goods != goods {
			continue
		}
		for _, laid := range p.Layouts() {
			for _, q := range inCuttingOrder(laid.Plan) {
				k := cuts[laid.Cuts[q.Piece]]
				if _, seen := out[k]; !seen {
					out[k] = n
				}
				n++
			}
		}
	}
	return out
}

func (s *sheet) cutRow(o job.WorkOrder, l job.CutLine, cuts []drawnCut, scales map[string]unit.Ratio) (cutRow, error) {
	p := cuts[l.Cuts[0]]
	c := p.cut
	row := cutRow{Number: numbersOf(l), Count: hands(l.Count, c.Pair), Part: l.Part, Cut: s.nbSize(s.cutSize(c.Cut)), Finished: s.across(c.Finished),
		grain: c.Grain, counts: map[string]int{}}
	var pieces []string
	for _, k := range l.Cuts {
		name := o.Cuts[k].Piece
		if row.counts[name] == 0 {
			pieces = append(pieces, name)
		}
		row.counts[name] += o.Cuts[k].Count
	}
	row.For = each(pieces, row.counts)
	switch {
	case p.drawn():
		row.Details = []string{"drawn below"}
		thumb, err := p.thumb(scales[c.Piece])
		if err != nil {
			return row, err
		}
		row.Picture = drawing(thumb)
	case c.Panel != nil && c.Assembly > 0:
		row.edges = s.edgeWidths(c)
	case c.Panel != nil:
		row.edges = s.edges(c)
	}
	if !p.drawn() {
		row.Details = s.lineNotes(o, l)
	}
	if len(row.Number) > wideNumbers {
		row.Details = append(row.Details, "no. "+row.Number)
		row.Number, _, _ = strings.Cut(row.Number, ",")
		row.Number += " …"
	}
	return row, nil
}

// share puts what most lines have in common above them.
func (g *cutGroup) share() {
	most := func(of func(cutRow) string) string {
		counts := map[string]int{}
		best := ""
		for _, r := range g.Rows {
			text := of(r)
			if counts[text]++; text != "" && counts[text] > counts[best] {
				best = text
			}
		}
		return best
	}
	edges, grain := most(func(r cutRow) string { return r.edges }), most(func(r cutRow) string { return r.grain })
	if grain != "" {
		g.Notes = append(g.Notes, "Grain: "+grain)
	}
	if edges != "" {
		g.Notes = append(g.Notes, "Added at the edges: "+edges)
	}
	for i, r := range g.Rows {
		var own []string
		for _, x := range [][2]string{{r.grain, grain}, {r.edges, edges}} {
			if x[0] != "" && x[0] != x[1] {
				own = append(own, x[0])
			}
		}
		g.Rows[i].Details = slices.Concat(own, r.Details)
	}
}

// edgeWidths says how much is added at the edges of a panel, whose seams stand on the
// map of its cover.
func (s *sheet) edgeWidths(c job.Cut) string {
	var widths []string
	where := map[string][]string{}
	for _, e := range c.Panel.Edges {
		t := s.margins(e)
		if where[t] == nil {
			widths = append(widths, t)
		}
		name, _ := wholeEdge(c, e.Name)
		if slices.ContainsFunc(c.Panel.Edges, func(f allowance.PanelEdge) bool {
			other, _ := wholeEdge(c, f.Name)
			return other == name && s.margins(f) != t
		}) {
			name = s.edgeName(c, e)
		}
		if !slices.Contains(where[t], name) {
			where[t] = append(where[t], name)
		}
	}
	if len(widths) == 1 {
		return widths[0] + " all round"
	}
	for i, w := range widths {
		widths[i] = strings.Join(where[w], ", ") + " " + w
	}
	return strings.Join(widths, "; ")
}

// numbersOf gives the numbers that the cuts of a line have on layouts and patterns.
func numbersOf(l job.CutLine) string {
	numbers := make([]int, len(l.Cuts))
	for i, k := range l.Cuts {
		numbers[i] = k + 1
	}
	return runs(numbers)
}

// lineNotes gives what goes with the cuts of a line; what differs is said by number.
func (s *sheet) lineNotes(o job.WorkOrder, l job.CutLine) []string {
	var kinds []job.Cut // for one, with how many are made of it
	var numbers [][]int
	for _, k := range l.Cuts {
		c := o.Cuts[k]
		at := slices.IndexFunc(kinds, func(d job.Cut) bool {
			d.Made = c.Made
			return slices.Equal(s.withCut(c), s.withCut(d))
		})
		if at < 0 {
			at = len(kinds)
			kinds, numbers = append(kinds, c), append(numbers, nil)
			kinds[at].Made = 0
		}
		kinds[at].Made += c.Made
		numbers[at] = append(numbers[at], k+1)
	}
	var out []string
	for i, c := range kinds {
		text := strings.Join(s.withCut(c), "; ")
		if text != "" && len(kinds) > 1 {
			text = "no. " + runs(numbers[i]) + ": " + text
		}
		if text != "" {
			out = append(out, text)
		}
	}
	return out
}
