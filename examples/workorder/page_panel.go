package main

import (
	"fmt"
	"html/template"
	"reflect"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// panelView is the drawing of a panel, or of several that are cut alike.
type panelView struct {
	Name, Count, Sizes string
	Picture            template.HTML
	Edges              []edgeView
	Notes              []string
	Buttons            []gridRow
}

type edgeView struct{ Mark, Edges, Finish, Added, Length string }

// viewPanels draws the panels that are no plain rectangles; those of one shape are one
// drawing.
func (s *sheet) viewPanels(v *benchCopy, o job.WorkOrder, cuts []drawnCut) error {
	var shapes [][]drawnCut
next:
	for _, p := range cuts {
		if !p.drawn() {
			continue
		}
		for k, q := range shapes {
			if p.drawnAs(q[0]) {
				shapes[k] = append(q, p)
				continue next
			}
		}
		shapes = append(shapes, []drawnCut{p})
	}
	for _, alike := range shapes {
		w, err := s.panel(o, alike)
		if err != nil {
			return err
		}
		v.Panels = append(v.Panels, w)
	}
	return nil
}

// drawnAs tells whether one drawing and what is said of its edges serve for both.
func (p drawnCut) drawnAs(q drawnCut) bool {
	if p.cut.Goods != q.cut.Goods || p.Pair != q.Pair || p.cut.Finished != q.cut.Finished || p.cut.Trim != q.cut.Trim || len(p.Edges) != len(q.Edges) {
		return false
	}
	for i, e := range p.Edges {
		if f := q.Edges[i]; e.Name != f.Name || withoutLetter(p.cut, e) != withoutLetter(q.cut, f) {
			return false
		}
	}
	return reflect.DeepEqual(p.cut.Tolerance, q.cut.Tolerance) && reflect.DeepEqual(p.Lines(), q.Lines())
}

// withoutLetter says what becomes of an edge, whatever the letter of its seam.
func withoutLetter(c job.Cut, e allowance.PanelEdge) string {
	if u := useOf(c, e.Name); u != nil {
		return u.Finish + " " + u.On
	}
	return e.Finish.String()
}

// panel shows panels that are drawn alike.
func (s *sheet) panel(o job.WorkOrder, alike []drawnCut) (panelView, error) {
	p := alike[0]
	c := p.cut
	numbers, count := []int{}, 0
	var names []string
	counts := map[string]int{}
	for _, q := range alike {
		numbers, names, count = append(numbers, q.number), append(names, q.name()), count+q.cut.Count
		counts[q.name()] += q.cut.Count
	}
	w := panelView{Name: runs(numbers) + " " + each(names, counts), Count: hands(count, c.Pair) + " of " + goodsName(o.Purchases, c.Goods), Sizes: "cut " + s.nbSize(s.cutSize(c.Cut)),
		Notes: s.withCut(c), Buttons: s.grid(c)}
	if c.Trim != (job.Size{}) && c.Trim != c.Cut {
		w.Sizes += ", trim line " + s.nbSize(s.cutSize(c.Trim))
	}
	if c.Finished != (job.Size{}) {
		w.Sizes += ", finished " + s.across(c.Finished)
	}
	picture, err := s.panelDrawing(p)
	if err != nil {
		return w, err
	}
	w.Picture = drawing(picture)
	groups := s.edgeGroups(p)
	for i, g := range groups {
		e := edgeView{Mark: letter(i), Edges: strings.Join(g.parts, ", "), Finish: finishOf(c, g.edge), Added: s.margins(g.edge), Length: s.nb(g.long)}
		if len(groups) == 1 {
			e.Mark, e.Edges = "", "all round"
		}
		for _, q := range alike[1:] {
			k := slices.IndexFunc(q.Edges, func(f allowance.PanelEdge) bool { return f.Name == g.edge.Name })
			if text := finishOf(q.cut, q.Edges[k]); !strings.Contains(e.Finish+", ", text+", ") {
				e.Finish += ", " + text
			}
		}
		w.Edges = append(w.Edges, e)
	}
	return w, nil
}

// panelDrawing draws a panel with its sizes, and a letter for each group of
// edges.
func (s *sheet) panelDrawing(p drawnCut) (string, error) {
	o := pattern.Picture{Width: panelWide, Title: fmt.Sprintf("Panel %d, %s: cut %s", p.number, p.name(), s.nbSize(s.cutSize(p.cut.Cut))), Units: s.units()}
	if groups := s.edgeGroups(p); len(groups) > 1 {
		o.Letters = map[string]string{}
		for i, g := range groups {
			for _, name := range g.names {
				o.Letters[name] = letter(i)
			}
		}
	}
	return p.Picture(o)
}

// thumb is the small outline in the cut list; all of one piece of furniture
// are drawn to one scale.
func (p drawnCut) thumb(scale unit.Ratio) (string, error) {
	return p.Picture(pattern.Picture{Title: "Outline of " + p.cut.Part, Plain: true, Scale: scale})
}

// thumbScales gives, for each piece of furniture, the scale at which the largest
// of its parts fits.
func thumbScales(cuts []drawnCut) (map[string]unit.Ratio, error) {
	scales := map[string]unit.Ratio{}
	for _, p := range cuts {
		r, err := pattern.Picture{Plain: true}.ScaleOf(p.Pattern)
		if err != nil {
			return nil, err
		}
		if least, seen := scales[p.cut.Piece]; !seen || r < least {
			scales[p.cut.Piece] = r
		}
	}
	return scales, nil
}

// edgeGroup is a set of edges that are finished alike.
type edgeGroup struct {
	names []string            // as drawn
	parts []string            // in words
	edge  allowance.PanelEdge // the first
	long  unit.Length         // of all, along the seam line
}

// edgeGroups puts edges together that have the same finish and margins.
func (s *sheet) edgeGroups(p drawnCut) []edgeGroup {
	var out []edgeGroup
next:
	for _, e := range p.Edges {
		for k := range out {
			g := &out[k]
			if finishOf(p.cut, g.edge) == finishOf(p.cut, e) && g.edge.Allowance == e.Allowance && g.edge.Handling == e.Handling {
				g.names, g.parts, g.long = append(g.names, e.Name), append(g.parts, s.edgeName(p.cut, e)), g.long+e.Length
				continue next
			}
		}
		out = append(out, edgeGroup{[]string{e.Name}, []string{s.edgeName(p.cut, e)}, e, e.Length})
	}
	return out
}

// letter names the i-th group of edges: a to z, then aa and so on.
func letter(i int) string {
	out := ""
	for n := i + 1; n > 0; n = (n - 1) / 26 {
		out = string(rune('a'+(n-1)%26)) + out
	}
	return out
}

// margins says what is added at an edge.
func (s *sheet) margins(e allowance.PanelEdge) string {
	switch {
	case e.Allowance == 0 && e.Handling == 0:
		return "nothing added"
	case e.Handling == 0:
		return s.nb(e.Allowance)
	}
	return s.nb(e.Allowance) + " + " + s.nb(e.Handling) + " to trim off"
}
