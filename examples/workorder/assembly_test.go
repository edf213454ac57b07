package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

// The side of a seam that is eased in is told as its edges are.
func TestEasedSideIsNamed(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "chair", "currency": "USD",
		"goods": [{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "20 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "chair", "panels": [{"name": "back", "goods": "plain", "width": "20 in", "length": "24 in"},
			{"name": "seat", "goods": "plain", "width": "20 1/2 in", "length": "20 in"}],
			"seams": [{"sew": "back.bottom", "to": "seat.top"}],
			"fastenings": [{"fasten": ["back.right", "back.top", "back.left"]}, {"fasten": ["seat.left", "seat.bottom", "seat.right"]}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{})
	require.NoError(t, err)
	rows := (&sheet{}).seamRows(o.Assembly[0], func(panel string) string { return map[string]string{"back": "1 ", "seat": "2 "}[panel] })
	require.Len(t, rows, 1)
	assert.Equal(t, "1 bottom with 2 top; 2 top: 1/2 in longer, ease in", rows[0].Edges)
}
