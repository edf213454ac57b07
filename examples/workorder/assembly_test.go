package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The side of a seam that is eased in is told as its edges are.
func TestEasedSideIsNamed(t *testing.T) {
	eased := 0
	for _, o := range toLabel(t) {
		for _, a := range o.Assembly {
			for _, r := range (&sheet{}).seamRows(a, func(string) string { return "7 " }) {
				sides, side, more := strings.Cut(r.Edges, "; ")
				if !more {
					continue
				}
				eased++
				name, _, _ := strings.Cut(side, ": ")
				assert.Contains(t, strings.Split(sides, " with "), name, a.Piece)
			}
		}
	}
	assert.Greater(t, eased, 3)
}
