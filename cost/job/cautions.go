package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// cautionsOf gives what can hurt someone, and what the price of pieces from kinds
// does not hold.
func cautionsOf(s Spec, o WorkOrder, unpriced []string) []Caution {
	var out []Caution
	add := func(c Caution) { out = append(out, c) }
	if len(o.Foam) > 0 {
		add(Caution{About: "rules and certificates", Text: foam.Deference})
		// The same for every block of furniture: by jurisdiction.
		first := max(slices.IndexFunc(o.Foam, func(b FoamBlock) bool { return b.Lives != thread.InVehicle }), 0)
		for _, c := range o.Foam[first].Selection.Cautions {
			basis := c.Basis
			rule := c.Rule
			if c.Edition != "" {
				rule += ", " + c.Edition
			}
			if c.From != "" {
				rule += ", from " + c.From
			}
			add(Caution{About: c.Hazard.String() + ", " + c.Jurisdiction.String(), Text: c.Text, Rule: rule, Basis: &basis})
		}
	}
	out = append(out, takeOffCautions(o.TakeOff)...)
	if text := vehicleCaution(s); text != "" {
		add(Caution{About: "vehicles", Text: text, Basis: &cite.Basis{Status: cite.CommonPractice}})
	}
	if len(o.Sewing.SetUps) > 0 {
		for _, t := range thread.Warnings() {
			add(Caution{About: "thread and seams", Text: t})
		}
	}
	for _, text := range hardlyMeant(s) {
		add(Caution{About: "is this meant", Text: text})
	}
	for _, text := range unpriced {
		add(Caution{About: "not priced", Text: text})
	}
	for _, p := range o.Purchases {
		if text := p.leatherCaution(); text != "" {
			add(Caution{About: "leather", Text: text})
		}
		if names := p.OffRepeat(); len(names) > 0 {
			add(Caution{About: "pattern", Text: "Nothing holds the pattern of " + p.Name + " on what may be joined from pieces: " + strings.Join(names, "; ") +
				". It lies off the repeat, and its joins do not match. Give it a motif where they must."})
		}
	}
	add(Caution{About: "frame", Text: "Check frame, joints, springs and webbing when the old cover is off. " +
		"Repairs that carry weight, and furniture for children, are work for someone licensed to do it where you are."})
	return out
}

// vehicleCaution says which pieces are for vehicles.
func vehicleCaution(s Spec) string {
	var names []string
	for _, p := range s.Pieces {
		if p.Lives == thread.InVehicle && !slices.Contains(names, p.Name) {
			names = append(names, p.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return strings.Join(names, ", ") + ": vehicles have rules of their own for what seats and linings are made of, fire among them; rules for furniture in homes " +
		"say nothing of them. Read the text in force where the vehicle is registered, and ask its inspectors or its maker when in doubt."
}

// OffRepeat names the panels that may be joined from pieces, without a motif, and so
// lie off the repeat of patterned goods.
func (p Purchase) OffRepeat() []string {
	if p.Plan == nil || p.Plan.Job.Roll == nil || !p.Plan.Job.Roll.Patterned() {
		return nil
	}
	var out []string
	for _, x := range p.Plan.Job.Pieces {
		if x.Join != nil && x.Phase.Axes == layout.Unbound && !slices.Contains(out, x.Name) {
			out = append(out, x.Name)
		}
	}
	return out
}

// leatherCaution says how far the number of hides can be trusted.
func (p Purchase) leatherCaution() string {
	const look = " Holes, flaws and the shape of each hide decide; lay the panels out on the hides before cutting."
	switch {
	case p.Hides == 0 && p.AtHand == 0:
		return ""
	case p.Answers[len(p.Answers)-1].Kind != cite.Layout:
		return "The number of hides of " + p.Name + " is a rule of thumb." + look
	case slices.ContainsFunc(p.Plan.Hides, func(s material.Skin) bool { return s.Outline.IsZero() }):
		return "The layout of " + p.Name + " takes a usual shape for each hide that was not traced, and knows only the flaws listed." + look
	}
	return "The layout of " + p.Name + " knows only what was measured: look every hide over again on both sides before cutting."
}

// hardlyMeant says what is possible in a job, but seldom what was meant.
func hardlyMeant(s Spec) []string {
	var out []string
	if s.Quote.Markup > 2 {
		out = append(out, "The markup is "+s.Quote.Markup.PercentText(0, unit.Nearest)+".")
	}
	for _, g := range s.Goods {
		if g.Price.amount().IsZero() {
			out = append(out, g.Name+" is not charged: its price is nothing.")
		}
	}
	return out
}
