package job

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance"
)

// CutLine is what one line of a cut list says: pieces that are cut alike, whatever
// they are sewn to.
type CutLine struct {
	Part  string `json:"part"` // such as channel 2 to 4
	Count int    `json:"count"`
	Cuts  []int  `json:"cuts"` // places in WorkOrder.Cuts
}

// CutLines gives the lines of the cut list. Cuts of one piece of furniture whose
// names differ in a number stand on one line where goods, sizes, outline, grain and
// the finish of every edge are the same; their letters and notches may differ.
func (o WorkOrder) CutLines() []CutLine {
	type line struct {
		cuts   []int
		number int // the word of the name that differs, -1 for none yet
	}
	var lines []line
next:
	for i, c := range o.Cuts {
		for k := range lines {
			l := &lines[k]
			first := o.Cuts[l.cuts[0]]
			if first.Piece != c.Piece || first.Panel == nil || c.Panel == nil || !first.cutAs(c) {
				continue
			}
			if at, ok := differing(first.Part, c.Part); ok && (l.number < 0 || l.number == at) {
				l.number, l.cuts = at, append(l.cuts, i)
				continue next
			}
		}
		lines = append(lines, line{[]int{i}, -1})
	}
	out := make([]CutLine, len(lines))
	for i, l := range lines {
		out[i] = CutLine{Part: o.Cuts[l.cuts[0]].Part, Cuts: l.cuts}
		var numbers []int
		for _, k := range l.cuts {
			out[i].Count += o.Cuts[k].Count
			if l.number >= 0 {
				n, _ := strconv.Atoi(strings.TrimSuffix(strings.Fields(o.Cuts[k].Part)[l.number], ",")) //nolint:errcheck // digits alone
				numbers = append(numbers, n)
			}
		}
		if l.number >= 0 {
			words := strings.Fields(out[i].Part)
			comma := words[l.number][len(strings.TrimSuffix(words[l.number], ",")):]
			words[l.number] = numbered(numbers) + comma
			out[i].Part = strings.Join(words, " ")
		}
	}
	return out
}

// CutLinesOf gives the lines of some goods, those of different pieces of furniture
// together where they are the same but for the piece: name, sizes, outline, grain and
// finishes, of a strip its cord and bias too.
func (o WorkOrder) CutLinesOf(goods string) []CutLine {
	var out []CutLine
	for _, l := range o.CutLines() {
		c := o.Cuts[l.Cuts[0]]
		if c.Goods != goods {
			continue
		}
		k := slices.IndexFunc(out, func(m CutLine) bool { return m.Part == l.Part && o.Cuts[m.Cuts[0]].cutAs(c) })
		if k < 0 {
			out = append(out, l)
			continue
		}
		out[k].Count += l.Count
		out[k].Cuts = append(out[k].Cuts, l.Cuts...)
	}
	return out
}

// cutAs tells whether two cuts are the same but for their place and their seams.
func (c Cut) cutAs(d Cut) bool {
	if c.Goods != d.Goods || c.Grain != d.Grain || c.Pair != d.Pair || c.Hand != d.Hand || c.Finished != d.Finished ||
		c.Trim != d.Trim || c.Cut != d.Cut || c.Grade != d.Grade || c.Marks != d.Marks || c.Cord != d.Cord || (c.Panel == nil) != (d.Panel == nil) ||
		!reflect.DeepEqual(c.Bias, d.Bias) || !reflect.DeepEqual(c.Tufting, d.Tufting) {
		return false
	}
	if c.Panel == nil {
		return true
	}
	if len(c.Panel.Edges) != len(d.Panel.Edges) {
		return false
	}
	if !slices.Equal(c.Panel.CutLine.Outer, d.Panel.CutLine.Outer) || !slices.Equal(c.Panel.SeamLine.Outer, d.Panel.SeamLine.Outer) {
		return false
	}
	finish := func(c Cut, e allowance.PanelEdge) string {
		for _, u := range c.Uses {
			if u.Edge == e.Name {
				return u.Finish + u.On
			}
		}
		return e.Finish.String()
	}
	for i, e := range c.Panel.Edges {
		f := d.Panel.Edges[i]
		if e.Name != f.Name || e.Allowance != f.Allowance || e.Handling != f.Handling || finish(c, e) != finish(d, f) {
			return false
		}
	}
	return true
}

// differing finds the one word in which two names differ, when both have a number
// there.
func differing(a, b string) (at int, ok bool) {
	first, second := strings.Fields(a), strings.Fields(b)
	if len(first) != len(second) {
		return 0, false
	}
	for i := range first {
		if first[i] == second[i] {
			continue
		}
		if ok || !isNumber(first[i]) || !isNumber(second[i]) || strings.HasSuffix(first[i], ",") != strings.HasSuffix(second[i], ",") {
			return 0, false
		}
		at, ok = i, true
	}
	return at, ok
}

func isNumber(s string) bool {
	s = strings.TrimSuffix(s, ",")
	return s != "" && len(s) < 10 && strings.Trim(s, "0123456789") == ""
}

// numbered lists numbers: 1 and 2; 2 to 5; 1, 4 and 7.
func numbered(ns []int) string {
	run := len(ns) > 2
	for i := range ns {
		run = run && ns[i] == ns[0]+i
	}
	if run {
		return strconv.Itoa(ns[0]) + " to " + strconv.Itoa(ns[len(ns)-1])
	}
	texts := make([]string, len(ns))
	for i, n := range ns {
		texts[i] = strconv.Itoa(n)
	}
	last := len(texts) - 1
	if last == 0 {
		return texts[0]
	}
	return strings.Join(texts[:last], ", ") + " and " + texts[last]
}
