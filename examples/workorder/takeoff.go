package main

import (
	"strings"

	"github.com/coverwright/coverwright/cost/job"
)

// takeOffView is the record of how an old cover came off.
type takeOffView struct {
	Title  string
	Order  []string
	Notes  []string
	Panels []oldPanelView
}

// oldPanelView is what is known of an old panel.
type oldPanelView struct {
	Name  string
	Notes []string
}

// takeOffs gives the records of an order.
func (s *sheet) takeOffs(o job.WorkOrder) []takeOffView {
	var out []takeOffView
	for _, t := range o.TakeOff {
		v := takeOffView{Title: t.Piece, Order: t.Order, Notes: noted(t.TakenOff)}
		for _, p := range t.Panels {
			x := oldPanelView{Name: p.Panel}
			if p.Old != nil {
				x.Notes = p.Old.Words(s.fineLen)
			}
			x.Notes = append(x.Notes, noted(p.TakenOff)...)
			v.Panels = append(v.Panels, x)
		}
		out = append(out, v)
	}
	return out
}

// noted gives notes, and the photos.
func noted(t job.TakenOff) []string {
	out := append([]string(nil), t.Notes...)
	if len(t.Photos) > 0 {
		out = append(out, "Photos: "+strings.Join(t.Photos, ", "))
	}
	return out
}

// takeOff prints the records.
func (s *sheet) takeOff(o job.WorkOrder) {
	for _, t := range s.takeOffs(o) {
		s.head("The old cover: " + t.Title)
		if len(t.Order) > 0 {
			s.line("  Came off in this order; the new cover goes on the other way round")
			for i, step := range t.Order {
				s.line("    %3d. %s", i+1, step)
			}
		}
		s.dashes(t.Notes)
		for _, p := range t.Panels {
			s.line("  %s", p.Name)
			s.dashes(p.Notes)
		}
	}
}

// dashes prints notes one below the other.
func (s *sheet) dashes(notes []string) {
	for _, n := range notes {
		for k, l := range wrapped(n, 105) {
			dash := " "
			if k == 0 {
				dash = "-"
			}
			s.line("    %3s %s", dash, l)
		}
	}
}
