package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

const oldChair = `{"schema": "coverwright/job/1", "name": "old chair", "currency": "USD",
	"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
	"pieces": [{"name": "chair", "take_off": {"order": ["outside back", "seat"], "photos": ["left.jpg", "right.jpg"]},
		"panels": [{"name": "seat", "goods": "cloth", "width": "21 in", "length": "20 in", "ripped": {"allowance": "1/2 in",
			"frame": [{"panel": "20 in", "frame": "19 1/2 in"}]}, "take_off": {"notes": ["eased at the <front>"]}}]}],
	"quote": {"labour_rate": "60.00 USD/h"}}`

// The bench reads how the old cover came off, and what was done to its panels,
// with how sure it is.
func TestOldCoverForTheBench(t *testing.T) {
	s, err := job.ReadSpec(strings.NewReader(oldChair))
	require.NoError(t, err)
	o, err := job.Build(t.Context(), s, job.Options{})
	require.NoError(t, err)
	var text strings.Builder
	require.NoError(t, printText(&text, o, false, false))
	page, err := copyHTML(o, settings{metric: true}, "bench")
	require.NoError(t, err)
	for _, want := range []string{"The old cover: chair", "1. outside back", "2. seat", "Photos: left.jpg, right.jpg", "eased at the <front>",
		"Finished 19.50 in x 19.00 in, within 0.14 in and 0.10 in either way, 19 times of 20.", "the top step is not a step"} {
		assert.Contains(t, strings.Join(strings.Fields(text.String()), " "), want)
	}
	for _, want := range []string{"<li>outside back</li>", "eased at the &lt;front&gt;", "Finished 495.3 mm x 482.6 mm, within 3.6 mm and 2.6 mm either way"} {
		assert.Contains(t, string(page), want)
	}
}
