package main

import (
	"cmp"
	"fmt"
	"html/template"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// joinedView is how a cover goes together, or several that do so alike and may differ
// in size: the map is that of the first.
type joinedView struct {
	ID, Title, Sum  string
	Of              []memberView // where there are several
	Maps            []template.HTML
	Rings           []ringView
	Seams           []seamRow
	Trims           []string
	Sewing, Fitting []string
	Pattern         []string
	Notches         []string
	Hands           string // whose left and right they are; none of a cover without
	Open            bool
}

// ringView is a boxing as a strip, and what else has one like it.
type ringView struct {
	Picture template.HTML
	Also    string
}

// memberView is one of several covers, with the numbers of its pieces.
type memberView struct{ Name, Numbers string }

// viewCovers shows the map of each cover, its seams, the strips of its cushions, and
// the orders of sewing and fitting. Covers that are joined alike are told once.
func (s *sheet) viewCovers(v *benchCopy, o job.WorkOrder) error {
	var alike [][]int
	at := map[string]int{}
	for i, a := range o.Assembly {
		key := joinedAs(a)
		k, known := at[key]
		if !known {
			k = len(alike)
			at[key], alike = k, append(alike, nil)
		}
		alike[k] = append(alike[k], i)
	}
	for _, of := range alike {
		w, err := s.cover(o, of)
		if err != nil {
			return err
		}
		w.ID, w.Open = fmt.Sprintf("cover-%d", len(v.Covers)+1), len(o.Assembly) <= manyThings
		v.Covers = append(v.Covers, w)
	}
	return nil
}

// joinedAs is the same for covers that go together alike, whatever their sizes.
func joinedAs(a job.Assembly) string {
	var b strings.Builder
	for _, p := range a.Work.Pieces {
		fmt.Fprintf(&b, "%q %q %v %d", p.Name, p.Of, p.Hand, p.Number)
		for _, u := range p.Uses {
			fmt.Fprintf(&b, " %q %q %q %q %q %q", u.Edge, u.Finish, u.Letter, u.To, u.On, u.HiddenBy)
		}
	}
	for _, x := range a.Work.Seams {
		fmt.Fprintf(&b, "\n%q %d %v %q %d %v", x.Letter, x.Seam, x.Kind, x.Sides, x.Eased, x.Match.Verdict)
	}
	fmt.Fprintf(&b, "\n%+v\n%+v\n%v", a.Work.Sewing, a.Work.Fitting, a.Pattern != nil)
	return b.String()
}

// cover shows covers that go together alike, by their places in the order.
func (s *sheet) cover(o job.WorkOrder, of []int) (joinedView, error) {
	first := o.Assembly[of[0]]
	numbers := pieceNumbers(o, of[0]+1)
	w := joinedView{Sewing: s.sewingSteps(first), Fitting: s.fittingSteps(first), Hands: handsOf(o, first)}
	maps, err := pattern.Map{Title: assembled(first), Width: pageWide, Units: s.units(), Numbers: numbers}.Pages(first.Cover, first.Work, mapHigh)
	if err != nil {
		return w, err
	}
	for _, m := range maps {
		w.Maps = append(w.Maps, drawing(m))
	}
	count := 0
	var names []string
	for _, i := range of {
		a := o.Assembly[i]
		names, count = append(names, assembled(a)), count+a.Count
		own := pieceNumbers(o, i+1)
		for _, n := range a.PatternNotes(s.units()) {
			if !slices.Contains(w.Pattern, n) {
				w.Pattern = append(w.Pattern, n)
			}
		}
		if len(of) > 1 {
			w.Of = append(w.Of, memberView{assembled(a), numberRun(own)})
		}
	}
	w.Seams, w.Notches = s.seamsOf(o, of, numbers), s.notchLines(o, of)
	for _, t := range first.Cover.Trims {
		w.Trims = append(w.Trims, fmt.Sprintf("%s: %v, %s", t.Name, t.Kind, s.len(t.Length)))
	}
	if w.Rings, err = s.rings(o, of); err != nil {
		return w, err
	}
	w.Title = names[0]
	if len(of) > 1 {
		w.Title += " and " + plural(len(of)-1, "other") + " sewn alike"
	}
	w.Sum = fmt.Sprintf("%s of %s", plural(count, "cover"), plural(len(first.Work.Pieces), "piece"))
	return w, nil
}

// numberRun writes the numbers of pieces as lists have them.
func numberRun(numbers []string) string {
	var ns []int
	for _, n := range numbers {
		var k int
		if _, err := fmt.Sscan(n, &k); err == nil {
			ns = append(ns, k)
		}
	}
	return runs(ns)
}

// rings draws the boxings of some covers, those that are alike once.
func (s *sheet) rings(o job.WorkOrder, of []int) ([]ringView, error) {
	var boxings []pattern.Ring
	var hand []string
	var also [][]string
	for _, c := range o.Cuts {
		if c.Boxing == nil || !slices.Contains(of, c.Assembly-1) {
			continue
		}
		k := slices.IndexFunc(boxings, func(r pattern.Ring) bool { return reflect.DeepEqual(r.Boxing, *c.Boxing) })
		if k >= 0 {
			also[k] = append(also[k], ofPart(c)+ofHand(c))
			continue
		}
		hand = append(hand, strings.TrimPrefix(ofHand(c), "; "))
		boxings = append(boxings, pattern.Ring{Title: "Boxing of " + ofPart(c), Units: s.units(), Boxing: *c.Boxing})
		also = append(also, nil)
	}
	out := make([]ringView, len(boxings))
	for k, r := range boxings {
		picture, err := r.Draw()
		if err != nil {
			return nil, err
		}
		more := hand[k]
		if len(also[k]) > 0 {
			more = strings.TrimPrefix(more+"; also "+together(also[k]), "; ")
		}
		out[k] = ringView{drawing(picture), more}
	}
	return out, nil
}

// seamsOf lists the seams of covers that go together alike, with the numbers of the
// first; lengths and parts of edges that differ are not told.
func (s *sheet) seamsOf(o job.WorkOrder, of []int, numbers []string) []seamRow {
	named := func(a job.Assembly) func(string) string {
		return func(panel string) string {
			var out []string
			for i, p := range a.Work.Pieces {
				if (p.Of == panel || p.Name == panel) && !slices.Contains(out, numbers[i]) {
					out = append(out, numbers[i])
				}
			}
			return strings.Join(out, ", ") + " "
		}
	}
	rows := s.seamRows(o.Assembly[of[0]], named(o.Assembly[of[0]]))
	for _, i := range of[1:] {
		for k, r := range s.seamRows(o.Assembly[i], named(o.Assembly[i])) {
			if r.Length != rows[k].Length {
				rows[k].Length = "by size"
			}
			if r.Edges != rows[k].Edges {
				rows[k].Edges = wholeEdges(o.Assembly[of[0]], rows[k].Letter, named(o.Assembly[of[0]]))
			}
		}
	}
	return rows
}

// wholeEdges names the edges of a seam without the parts of them that are sewn.
func wholeEdges(a job.Assembly, letter string, named func(string) string) string {
	letter, _, _ = strings.Cut(letter, ",")
	for _, seam := range a.Work.Seams {
		if seam.Letter != letter {
			continue
		}
		whole := a.Cover.Seams[seam.Seam]
		whole.Sides = slices.Clone(whole.Sides)
		for i, side := range whole.Sides {
			var edges []allowance.EdgePart
			for _, e := range side {
				e.From, e.To = 0, 0
				if len(edges) == 0 || e != edges[0] || len(side) == 1 {
					edges = append(edges, e)
				}
			}
			whole.Sides[i] = edges
		}
		text := (&sheet{}).sides(whole, named)
		if seam.Match.Verdict != allowance.SewsFlat && len(seam.Sides) > 1 {
			text += fmt.Sprintf("; %s, by size", takenUp(seam))
		}
		return text
	}
	return ""
}

// notchLines says for the pieces of some covers where the notches of their seams lie,
// edge by edge from its start; pieces of one name with the same notches are one line.
func (s *sheet) notchLines(o job.WorkOrder, of []int) []string {
	var lines []string
	numbers := map[string][]int{}
	for k, c := range o.Cuts {
		if c.Panel == nil || len(c.Letters) == 0 || !slices.Contains(of, c.Assembly-1) {
			continue
		}
		line := c.Part
		if c.Pair {
			line += " (the drawn hand; the other is its mirror image, clockwise, with letters of its own)"
		}
		line += ": " + strings.Join(s.notchesOf(c), "; ")
		if numbers[line] == nil {
			lines = append(lines, line)
		}
		numbers[line] = append(numbers[line], k+1)
	}
	for i, line := range lines {
		lines[i] = runs(numbers[line]) + " " + line
	}
	return lines
}

// notchesOf lists the notches of a cut, edge by edge; a divided edge is one.
func (s *sheet) notchesOf(c job.Cut) []string {
	type mark struct {
		label string
		at    unit.Length
	}
	var edges []string
	marks := map[string][]mark{}
	for i, m := range c.Letters {
		n := c.Panel.Notches[i]
		edge, from := wholeEdge(c, n.Edge)
		if marks[edge] == nil {
			edges = append(edges, edge)
		}
		label := m.Label
		if m.Double {
			label += " (double)"
		}
		marks[edge] = append(marks[edge], mark{label, from + n.At})
	}
	for k, e := range edges {
		slices.SortStableFunc(marks[e], func(a, b mark) int { return cmp.Compare(a.at, b.at) })
		var texts []string
		for i, m := range marks[e] {
			at := s.len(m.at)
			if i < len(marks[e])-1 { // the unit once
				at = strings.TrimSuffix(strings.TrimSuffix(at, " in"), " mm")
			}
			texts = append(texts, strings.ReplaceAll(m.label+" "+at, " ", noBreak))
		}
		edges[k] = e + " " + strings.Join(texts, ", ")
	}
	return edges
}

// wholeEdge names the edge that a part of one belongs to, and how far along it the
// part begins.
func wholeEdge(c job.Cut, name string) (edge string, from unit.Length) {
	u := useOf(c, name)
	at := strings.LastIndex(name, " (")
	if u == nil || u.Part == "" || at < 0 {
		return name, 0
	}
	part := func(n string) int {
		k, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(n, name[:at]+" ("), ")"))
		if err != nil {
			return 0
		}
		return k
	}
	for _, e := range c.Panel.Edges {
		if k := part(e.Name); k > 0 && k < part(name) {
			from += e.Length
		}
	}
	return name[:at], from
}
