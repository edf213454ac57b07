//go:build long

package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is drawn has an order. That it is the same on every machine, for any number of
// workers, is compared by .ci/run.
func TestOrdersOfDrawnJobs(t *testing.T) {
	var drawn, digests bytes.Buffer
	require.NoError(t, run(t.Context(), []string{"-draw", "2", "-steps", "1", "-root", "../../.."}, nil, &drawn))
	require.NoError(t, run(t.Context(), []string{"-effort", "0.0001", "-workers", "1"}, &drawn, &digests))
	assert.Len(t, strings.Fields(digests.String()), 4, "two numbers, two digests")
	require.Error(t, run(t.Context(), nil, strings.NewReader("{}\n"), &digests))
}
