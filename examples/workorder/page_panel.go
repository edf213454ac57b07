package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/unit"
)

// panelDrawing draws a panel with its sizes, and a letter for each group of
// edges.
func (s *sheet) panelDrawing(p drawnCut) (string, error) {
	o := pattern.Picture{Width: panelWide, Title: fmt.Sprintf("Panel %d, %s: cut %s", p.number, p.name(), s.nbSize(s.cutSize(p.cut.Cut))), Units: s.units()}
	if groups := p.edgeGroups(); len(groups) > 1 {
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
	names []string
	edge  allowance.PanelEdge // the first
	long  unit.Length         // of all, along the seam line
}

// edgeGroups puts edges together that have the same finish and margins.
func (p drawnCut) edgeGroups() []edgeGroup {
	var out []edgeGroup
next:
	for _, e := range p.Edges {
		for k := range out {
			g := &out[k]
			if finishOf(p.cut, g.edge) == finishOf(p.cut, e) && g.edge.Allowance == e.Allowance && g.edge.Handling == e.Handling {
				g.names, g.long = append(g.names, edgeName(p.cut, e)), g.long+e.Length
				continue next
			}
		}
		out = append(out, edgeGroup{[]string{edgeName(p.cut, e)}, e, e.Length})
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
