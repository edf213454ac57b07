package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
)

// What is given of shop, number, customer and day stands on top, and nothing where
// it is not given.
func TestHeading(t *testing.T) {
	due, err := cost.NewDate(2027, 5, 28)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		o    job.WorkOrder
		text string
	}{
		"bare": {job.WorkOrder{Name: "seat"}, "WORK ORDER: seat\n"},
		"all": {job.WorkOrder{Name: "seat", Number: "14", Due: due, Shop: &job.Party{Name: "Quillmere", Address: []string{"2 Sample Yard", "Nowhere"}, Phone: "555 0142", Mail: "a@b.example", TaxNumber: "XX 1"},
			Customer: &job.Party{Name: "A. Sitter", Address: []string{"1 Example Square"}, Mail: "c@d.example"}},
			"Quillmere\n2 Sample Yard\nNowhere\n555 0142, a@b.example\nTax number XX 1\n\nWORK ORDER: seat\n" +
				"  number    14\n  customer  A. Sitter\n            1 Example Square\n            c@d.example\n  due       2027-05-28\n"},
		"some": {job.WorkOrder{Name: "seat", Shop: &job.Party{Name: "Quillmere"}, Customer: &job.Party{Name: "A. Sitter"}},
			"Quillmere\n\nWORK ORDER: seat\n  customer  A. Sitter\n"},
	} {
		var b bytes.Buffer
		(&sheet{w: &b}).heading(c.o)
		assert.Equal(t, c.text, b.String(), name)
	}
}

// The page has the same on top.
func TestPageHeading(t *testing.T) {
	o := orders(t)["demo"]
	page := string(pageOf(t, "demo", "office", false))
	head, _, _ := strings.Cut(page, "</header>")
	for _, text := range append(letterhead(o.Shop), o.Number, o.Due.String(), o.Customer.Name+"\n"+o.Customer.Address[0], o.Customer.Mail) {
		assert.Contains(t, head, text)
	}
	bare, _, _ := strings.Cut(string(pageOf(t, "shapes", "bench", false)), "</header>")
	assert.NotContains(t, bare, `class="particulars"`)
	assert.NotContains(t, bare, "class=\"letterhead\"")
}

// A shop whose workers stand before the piece is told how the sitter's left and right
// are seen from there; nothing else changes.
func TestFacing(t *testing.T) {
	o := orders(t)["demo"]
	facing := o
	facing.Facing = true
	var a, b bytes.Buffer
	require.NoError(t, printText(&a, o, false, false))
	require.NoError(t, printText(&b, facing, false, false))
	const more = ": as you stand before it, its left is on your right"
	assert.NotContains(t, a.String(), more)
	assert.Contains(t, b.String(), more)
	assert.Equal(t, a.String(), strings.ReplaceAll(b.String(), more, ""))
	page, err := copyHTML(facing, settings{}, "bench")
	require.NoError(t, err)
	assert.Contains(t, string(page), "Left and right of a piece are the sitter&#39;s: as you stand before it")
}
