package main

import (
	"regexp"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// inInches is a length in a sentence of the library, which writes inches and yards.
var inInches = regexp.MustCompile(`(?:\d+ )?\d+(?:/\d+|\.\d+)? (?:in|yd)\b`)

// sentence writes the lengths of a sentence in the unit of the order.
func (s *sheet) sentence(text string) string {
	if !s.metric {
		return text
	}
	return inInches.ReplaceAllStringFunc(text, func(m string) string {
		l, err := unit.ParseLength(m)
		if err != nil {
			return m
		}
		if strings.HasSuffix(m, "yd") {
			return l.Decimal(unit.Metre, 2, unit.Nearest)
		}
		return s.len(l)
	})
}
