package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

// Text and page say what an option has in the place of what.
func TestOptionsAreTold(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "bench", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "bench", "cushions": [{"name": "seat", "top": "cloth", "width": "40 in", "depth": "20 in", "thickness": "4 in",
			"foam": {"use": "bench", "duty": "normal", "base": "board", "price": "3.00 USD/bd ft"}}], "labour": [{"task": "sew", "time": "3 h"}]}],
		"options": [{"name": "to last", "replace": [{"labour": "sew", "time": "4 h"},
			{"filling": "seat", "foam": {"use": "bench", "duty": "heavy", "base": "board", "price": "5.00 USD/bd ft"}}]}],
		"quote": {"labour_rate": "60.00 USD/h"}}`), job.Options{Effort: 0.001})
	require.NoError(t, err)
	var text bytes.Buffer
	require.NoError(t, printText(&text, o, false, false))
	page, err := copyHTML(o, settings{}, "office")
	require.NoError(t, err)
	for _, w := range (&sheet{}).optionWords(o, o.Options[0]) {
		assert.Contains(t, string(page), w)
		assert.Contains(t, strings.Join(strings.Fields(text.String()), " "), w)
	}
	assert.Contains(t, text.String(), "bench: sew 4 h")
	assert.Contains(t, text.String(), "bench: seat: 33 lbf")
}
