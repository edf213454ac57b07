package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// foamText prints a job of two pieces of foam, one of them on a boat, sold by the litre.
func foamText(t *testing.T, flags ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "job.json")
	require.NoError(t, os.WriteFile(file, []byte(`{"schema": "coverwright/job/1", "name": "filled", "currency": "EUR", "goods": [], "pieces": [
		{"name": "boat", "lives": "boat", "foam": [{"name": "helm", "count": 3, "width": "413 mm", "depth": "377 mm", "thickness": "71 mm",
			"filling": {"use": "seat", "duty": "heavy", "base": "board", "price": "0.06 EUR/l"}}]},
		{"name": "chair", "foam": [{"name": "inside arm", "width": "413 mm", "depth": "377 mm", "thickness": "71 mm",
			"filling": {"use": "arm", "duty": "severe", "base": "board", "price": "0.06 EUR/l"}}]}],
		"quote": {"labour_rate": "60.00 EUR/h"}}`), 0o600))
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(t.Context(), append([]string{"-job", file, "-units", "metric"}, flags...), &out, &errs), errs.String())
	return out.String()
}

// What to ask for comes first, with the volume as a shop writes it; the evidence
// comes when it is asked for.
func TestFoamIsAskedForFirst(t *testing.T) {
	short, long := foamText(t), foamText(t, "-explain")
	_, foam, _ := strings.Cut(short, "\nFoam\n")
	foam, quote, _ := strings.Cut(foam, "\nQuote\n")
	lines := strings.Split(strings.TrimSpace(foam), "\n")
	require.Greater(t, len(lines), 1)
	assert.Contains(t, lines[0], "helm")
	assert.Contains(t, lines[1], "ask for")
	assert.Contains(t, foam, "33.2 l")
	assert.NotContains(t, foam, "sources differ")
	assert.Contains(t, long, "sources differ")
	assert.NotRegexp(t, `[0-9]\.[0-9]{2,} l\b`, short)
	assert.Contains(t, quote, "33.2 l")
	assert.Contains(t, quote, "rounded up")
}

// What gets wet is told of foam that drains, what stays indoors is not.
func TestWetFoamIsTold(t *testing.T) {
	_, foam, _ := strings.Cut(foamText(t), "\nFoam\n")
	boat, chair, _ := strings.Cut(foam, "chair: inside arm")
	assert.Contains(t, boat, "closed-cell")
	foam, _, _ = strings.Cut(chair, "\nQuote\n")
	assert.NotContains(t, foam, "closed-cell")
	assert.NotContains(t, foamText(t, "-explain"), "a arm")
}
