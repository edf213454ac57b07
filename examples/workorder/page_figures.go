package main

import (
	"html/template"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// across writes a size for the page, where it stays on one line.
func (s *sheet) across(x job.Size) string { return s.nbSize(s.size(x)) }

// nbSize keeps a size on one line.
func (s *sheet) nbSize(size string) string {
	return strings.ReplaceAll(strings.Replace(size, " x ", " × ", 1), " ", noBreak)
}

// nb writes a length that stays on one line.
func (s *sheet) nb(l unit.Length) string { return strings.ReplaceAll(s.len(l), " ", noBreak) }

const noBreak = "\u00a0"

func drawing(svg string) template.HTML { return template.HTML(svg) } //nolint:gosec // made by package svg, which escapes
