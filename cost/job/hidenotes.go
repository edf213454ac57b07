package job

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
)

// HideNote says what is known of a hide of the plan: whether it was traced, and whether
// flaws were noted. A flaw placed on a usual shape is a guess. Empty for a number that no
// hide has.
func (p Purchase) HideNote(hide int) string {
	if p.Plan == nil || hide < 0 || hide >= len(p.Plan.Hides) {
		return ""
	}
	k := p.Plan.Hides[hide]
	noted := notedOn(k)
	switch traced := !k.Outline.IsZero(); {
	case traced && noted == "":
		return "traced, no flaws noted"
	case traced:
		return "traced, with " + noted
	case noted == "":
		return "known by its area alone, no flaws noted"
	}
	return "known by its area alone, so that the places of " + noted + " are a guess"
}

// notedOn counts what keeps pieces off a hide.
func notedOn(k material.Skin) string {
	var out []string
	for _, x := range []struct {
		n    int
		what string
	}{{len(k.Holes), "hole"}, {len(k.Defects), "mark"}, {len(k.Zones), "zone"}} {
		switch {
		case x.n == 1:
			out = append(out, "1 "+x.what)
		case x.n > 1:
			out = append(out, fmt.Sprintf("%d %ss", x.n, x.what))
		}
	}
	return strings.Join(out, ", ")
}

// leatherCaution says how far the number of hides can be trusted, hide by hide.
func (p Purchase) leatherCaution() string {
	if p.Plan == nil {
		if p.Hides == 0 && (p.Stock == nil || len(p.Stock.Remnants) > 0) {
			return "" // remnants of a roll hold all of it
		}
		return "The number of hides of " + p.Name + " is a rule of thumb. Holes, flaws and the shape of each hide decide; lay the panels out on the hides before cutting."
	}
	if p.Plan.Job.Hides == nil || len(p.Plan.Used) == 0 {
		return ""
	}
	var notes []string
	of := map[string][]string{} // read by key only
	for _, i := range p.Plan.Used {
		note := p.HideNote(i)
		if of[note] == nil {
			notes = append(notes, note)
		}
		of[note] = append(of[note], p.Plan.Hides[i].ID)
	}
	text := "The layout of " + p.Name + " knows of its hides:"
	for k, note := range notes {
		names := of[note]
		who := strings.Join(names, ", ")
		if len(names) > mostNamed {
			who = fmt.Sprintf("%d of them", len(names))
		}
		text += map[bool]string{true: " ", false: "; "}[k == 0] + who + ": " + note
	}
	if slices.ContainsFunc(p.Plan.Used, func(i int) bool { return p.Plan.Hides[i].Outline.IsZero() }) {
		text += ". A hide that was not traced has the usual shape here: lay the panels out on it before cutting"
	}
	return text + ". Look every hide over again on both sides."
}

// placed refuses a shape on a hide that was drawn nowhere in particular, as a circle is
// by its diameter: it would lie in the corner.
func placed(at string, f *shape.Form) error {
	if f == nil || f.At != nil || f.Polygon != nil || f.Path != nil || f.Trace != nil || f.Half != nil || f.Photo != nil {
		return nil
	}
	return check.Required(at+".at", "where the lower left corner of the box round it lies on the hide")
}
