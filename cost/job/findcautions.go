package job

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/thread"
)

// chargedTwice names extras of the quote whose name is that of a finding that is
// priced or in the sundries.
func chargedTwice(s Spec, lines []build.Line) []string {
	var out []string
	for _, x := range s.Quote.Extras {
		name := " " + strings.Join(strings.FieldsFunc(strings.ToLower(x.Name), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }), " ") + " "
		var twice []string
		for _, l := range lines {
			of, err := build.Named(l.ID)
			if err == nil && l.Paid != build.Unpriced && slices.ContainsFunc(append([]string{of.ID}, of.Words...), func(w string) bool {
				return strings.Contains(name, " "+w+" ")
			}) {
				twice = append(twice, l.ID)
			}
		}
		if len(twice) > 0 {
			out = append(out, fmt.Sprintf("The extra “%s” (%s) may be charged twice: the order has %s.", x.Name, x.Amount, strings.Join(twice, ", ")))
		}
	}
	return out
}

// unpricedNote says how many findings are not on the quote, and what is not worked
// out.
func unpricedNote(o WorkOrder) []string {
	var out []string
	if o.Unpriced > 0 {
		var names []string
		for _, l := range o.Findings {
			if l.Paid == build.Unpriced {
				names = append(names, strings.ReplaceAll(l.ID, ", ", " ")) // a list has commas of its own
			}
		}
		out = append(out, fmt.Sprintf("The quote leaves out %s without a price: %s.", plural(o.Unpriced, "finding"), strings.Join(names, ", ")))
	}
	if n := len(o.Questions); n > 0 {
		out = append(out, fmt.Sprintf("The quote leaves out what is not worked out for %s.", plural(n, "open question")))
	}
	return out
}

// findingCautions gives what the bench must mind with the findings of the order.
func findingCautions(s Spec, o WorkOrder) []string {
	var out []string
	for _, l := range o.Findings {
		if l.ID != "felt" && l.ID != "dust cover" {
			continue
		}
		for _, p := range s.Pieces {
			wet := p.Lives == thread.Outdoors || p.Lives == thread.OnBoat
			if wet && slices.ContainsFunc(l.Pieces, func(x build.Share) bool { return x.Piece == p.Name }) {
				out = append(out, fmt.Sprintf("%s: %s holds water and rots out of doors and aboard: leave it out.", p.Name, l.ID))
			}
		}
	}
	for _, c := range []struct{ id, text string }{{"zigzag spring", findings.ZigzagCaution}, {"glue", findings.GlueCaution}} {
		if slices.ContainsFunc(o.Findings, func(l build.Line) bool { return l.ID == c.id }) {
			out = append(out, c.text)
		}
	}
	return out
}
