package main

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
)

func call(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(args, &o, &e)
	return code, o.String(), e.String()
}

func TestChoices(t *testing.T) {
	code, out, errs := call("-goods", "leather", "-layers", "4", "-where", "outdoors")
	require.Zero(t, code, errs)
	assert.Contains(t, out, "1. polyester 92, needle 120/19, stitch 4.5 mm\n")
	assert.Contains(t, out, "\n3. ")
	assert.Contains(t, out, "fibre polyester: for light and weather")

	code, out, errs = call("-goods", "leather", "-size", "T-135", "-needle", "90/14")
	require.Zero(t, code, errs)
	assert.Contains(t, out, "needle too fine")
}

// Twelve yards of two threads, each a little longer than the seam, with a tenth for waste.
func TestConsumption(t *testing.T) {
	code, out, errs := call("-goods", "vinyl", "-length", "12 yd", "-thickness", "1/8 in")
	require.Zero(t, code, errs)
	assert.Regexp(t, `\n\d\d\.\d yd of nylon 69 for 12 yd of lockstitch, .*: estimate\n$`, out)
}

func TestJSON(t *testing.T) {
	code, out, errs := call("-goods", "woven", "-json")
	require.Zero(t, code, errs)
	var a thread.Advice
	require.NoError(t, json.Unmarshal([]byte(out), &a))
	assert.Positive(t, a.Len())
}

func TestWhatIsWrongIsSaid(t *testing.T) {
	for says, c := range map[string]struct {
		code int
		args []string
	}{
		"silk":            {2, []string{"-goods", "silk"}},
		"one of light":    {1, nil},
		"more than one":   {2, []string{"-goods", "woven", "-size", "30"}},
		"unit missing":    {2, []string{"-goods", "woven", "-length", "12"}},
		"belong together": {1, []string{"-goods", "woven", "-length", "12 yd"}},
		"layers":          {1, []string{"-goods", "woven", "-layers", "0"}},
		"no flag":         {2, []string{"-goods", "woven", "leather"}},
	} {
		code, out, errs := call(c.args...)
		assert.Equal(t, c.code, code, says)
		assert.Empty(t, out, says)
		assert.Contains(t, errs, says)
	}
	code, _, errs := call("-h")
	assert.Zero(t, code)
	assert.Contains(t, errs, "-goods")
}
