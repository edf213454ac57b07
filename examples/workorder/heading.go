package main

import (
	"strings"

	"github.com/coverwright/coverwright/cost/job"
)

// letterhead gives the lines of a shop; none when it is not given.
func letterhead(l *job.Party) []string {
	if l == nil {
		return nil
	}
	lines := append([]string{l.Name}, l.Address...)
	if reached := beside(l.Phone, l.Mail); reached != "" {
		lines = append(lines, reached)
	}
	if l.TaxNumber != "" {
		lines = append(lines, "Tax number "+l.TaxNumber)
	}
	return lines
}

// particulars give the number of a job, whom it is for and when it is due, as far
// as they are given.
func particulars(o job.WorkOrder) []fact {
	var out []fact
	if o.Number != "" {
		out = append(out, fact{"number", o.Number})
	}
	if c := o.Customer; c != nil {
		lines := append([]string{c.Name}, c.Address...)
		if reached := beside(c.Phone, c.Mail); reached != "" {
			lines = append(lines, reached)
		}
		out = append(out, fact{"customer", strings.Join(lines, "\n")})
	}
	if !o.Due.IsZero() {
		out = append(out, fact{"due", o.Due.String()})
	}
	return out
}

// beside puts texts that are given side by side.
func beside(texts ...string) string {
	var given []string
	for _, t := range texts {
		if t != "" {
			given = append(given, t)
		}
	}
	return strings.Join(given, ", ")
}

// heading prints what stands above the work.
func (s *sheet) heading(o job.WorkOrder) {
	for _, line := range letterhead(o.Shop) {
		s.line("%s", line)
	}
	if o.Shop != nil {
		s.line("")
	}
	s.line("WORK ORDER: %s", o.Name)
	s.table(func(row func(cells ...string)) {
		for _, f := range particulars(o) {
			for i, line := range strings.Split(f.Text, "\n") {
				if i > 0 {
					f.Name = ""
				}
				row(f.Name, line)
			}
		}
	})
}
