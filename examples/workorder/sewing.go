package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// setUpView is a set-up of the machine in words.
type setUpView struct {
	Title, Bobbin, Needle, Stitch, Sum string
	Why, Care, Rows                    []string
}

// sewing writes thread, needle and stitch.
func (s *sheet) sewing(o job.WorkOrder) {
	if len(o.Sewing.SetUps) == 0 {
		return
	}
	s.head("Thread, needle and stitch")
	for _, f := range s.fibres(o.Sewing) {
		s.wrapIn("  ", f, 100)
	}
	for _, x := range o.Sewing.SetUps {
		v := s.setUp(x)
		how := "sewn by hand with a curved needle"
		if !x.ByHand {
			how = "bobbin " + v.Bobbin + ", needle " + v.Needle + ", stitch " + v.Stitch
			if x.Bobbin == x.Thread {
				how = "in needle and bobbin, needle " + v.Needle + ", stitch " + v.Stitch
			}
		}
		s.line("  %s %s", v.Title, how)
		for _, w := range v.Why {
			s.line("    why: %s", w)
		}
		for _, c := range v.Care {
			s.line("    take care: %s", c)
		}
		s.line("    sews %s", v.Sum)
		for _, r := range v.Rows {
			s.wrapIn("      ", r, 100)
		}
	}
	for _, t := range s.threads(o.Sewing) {
		s.wrapIn("  ", t, 100)
	}
}

// fibres says for each place where pieces live which fibre their thread has.
func (s *sheet) fibres(o job.Sewing) []string {
	var out []string
	for _, f := range o.Fibres {
		text := fmt.Sprintf("%s, %s: ", listed(f.Pieces), f.Lives.Where())
		if f.Given && f.Fibre != f.Usual {
			text += fmt.Sprintf("usual is %v thread, %s (%s); the job asks for %v", f.Usual, f.Reason, f.Basis, f.Fibre)
		} else {
			text += fmt.Sprintf("%v thread, %s (%s)", f.Usual, f.Reason, f.Basis)
		}
		out = append(out, text)
	}
	return out
}

// listed joins names: "chair, stool and bench".
func listed(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

func (s *sheet) setUp(x job.SetUp) setUpView {
	v := setUpView{Title: fmt.Sprint(x.Thread), Care: x.Care.Texts(),
		Sum: fmt.Sprintf("%s of stitching in up to %s", s.threadLen(x.Length), plural(x.Layers, "layer"))}
	if !x.ByHand {
		v.Bobbin, v.Needle = fmt.Sprint(x.Bobbin), fmt.Sprintf("%s (%s)", x.Needle, x.Point)
		v.Stitch = x.StitchLength.Decimal(unit.Millimetre, 1, unit.Nearest)
	}
	for i, w := range x.Why {
		if slices.ContainsFunc(x.Why, func(o job.Reason) bool { return o != x.Why[i] && strings.HasSuffix(o.Text, w.Text) }) {
			continue // another says it, and of which goods
		}
		v.Why = append(v.Why, fmt.Sprintf("%s (%s)", w.Text, w.Basis))
	}
	v.Rows = s.sewnRows(x.Rows)
	return v
}

// sewnRows lists rows by piece of furniture, those of a seam together.
func (s *sheet) sewnRows(rows []job.SewnRow) []string {
	var pieces []string
	seams := map[string][]string{}      // of a piece
	of := map[[2]string][]job.SewnRow{} // of a seam of a piece
	for _, r := range rows {
		piece := r.Piece
		if r.Part != "" {
			piece += ", " + r.Part
		}
		if seams[piece] == nil {
			pieces = append(pieces, piece)
		}
		key := [2]string{piece, r.Of}
		if of[key] == nil {
			seams[piece] = append(seams[piece], r.Of)
		}
		of[key] = append(of[key], r)
	}
	var out []string
	for _, piece := range pieces {
		var texts []string
		for _, name := range seams[piece] {
			texts = append(texts, s.rowsOf(name, of[[2]string{piece, name}]))
		}
		out = append(out, piece+": "+strings.Join(texts, "; "))
	}
	return out
}

// rowsOf names the rows of one seam with their lengths, what they are where they
// are more than a plain seam, and how many there are. What a panel brings of its
// seams is no row by itself.
func (s *sheet) rowsOf(name string, rows []job.SewnRow) string {
	if rows[0].Share {
		return "the edges of " + name
	}
	var lengths []unit.Length
	kinds := map[unit.Length][]string{}
	for _, r := range rows {
		if kinds[r.Length] == nil {
			lengths = append(lengths, r.Length)
		}
		kinds[r.Length] = append(kinds[r.Length], rowWords(r.Kind))
	}
	var parts []string
	for _, l := range lengths {
		part := s.len(l)
		if len(rows) > 1 || rows[0].Kind != allowance.SeamRow && rows[0].Kind != allowance.HandRow {
			part += " (" + strings.Join(kinds[l], ", ") + ")"
		}
		parts = append(parts, part)
	}
	text := name + " " + strings.Join(parts, ", ")
	if n := rows[0].Count; n > 1 {
		text += fmt.Sprintf(" x %d", n)
	}
	return text
}

// rowWords says what a row is.
func rowWords(k allowance.RowKind) string {
	if k == allowance.GatherRow {
		return "gathering, at the longest stitch"
	}
	return k.String()
}

// threads says what the rows take, thread by thread, and how often the machine is
// changed.
func (s *sheet) threads(o job.Sewing) []string {
	var out []string
	for _, t := range o.Threads {
		c := t.Consumption
		text := fmt.Sprintf("%v takes %s in the needle", t.Thread, s.threadLen(c.Needle))
		if c.Under > 0 {
			text += " and " + s.threadLen(c.Under) + " on the bobbin, " + s.threadLen(c.Total) + " in all"
		}
		text += fmt.Sprintf(", with tails and %s for waste", o.Waste)
		if c.Bobbins > 0 {
			text += "; wind " + plural(c.Bobbins, "bobbin")
		}
		if c.Cones > 0 {
			text += "; buy " + plural(c.Cones, "cone")
		}
		out = append(out, text)
	}
	var basis []string
	for _, b := range o.Basis {
		basis = append(basis, b.String())
	}
	out = append(out, fmt.Sprintf("what the rows take is an %s (%s)", o.Kind, strings.Join(basis, "; ")))
	if n := o.Changes; n.Changes > 0 {
		text := fmt.Sprintf("sewn in the order of the seams, the machine is changed %s", times(n.Changes))
		if n.Least < n.Changes {
			text += fmt.Sprintf("; %s is the least", times(n.Least))
		}
		if n.SecondMachine() {
			text += "; a second machine set up beside it saves changing"
		}
		out = append(out, text)
	}
	return out
}

// times says how often.
func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}
