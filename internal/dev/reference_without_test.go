//go:build long

package dev_test

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/rules"
)

// mostWithoutRow is how many calculators have no row of the check table. It goes
// down only: a new calculator comes with a row.
const mostWithoutRow = 29

// Every exported calculator is called by a row of the check table, but for those on
// a list that says why not of each, and that gets shorter.
func TestCalculatorsHaveRows(t *testing.T) {
	all, err := rules.Calculators()
	require.NoError(t, err)
	text, err := os.ReadFile(filepath.Join("testdata", "without_row.txt"))
	require.NoError(t, err)
	listed := map[string]string{}
	for line := range strings.Lines(string(text)) {
		name, why, _ := strings.Cut(strings.TrimSpace(line), ": ")
		assert.Empty(t, listed[name], "%s stands twice", name)
		assert.NotEmpty(t, why, "%s: why has it no row?", name)
		called, known := all[name]
		assert.True(t, known, "%s gives no quantity, or is gone: take it off the list", name)
		assert.False(t, called, "%s has a row: take it off the list", name)
		listed[name] = why
	}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		assert.True(t, all[name] || listed[name] != "", "%s gives a quantity and no row of the check table calls it: add one", name)
	}
	assert.Len(t, listed, mostWithoutRow, "the list got shorter or longer: the number goes down only")

	// One that a row calls, and one that none does.
	assert.True(t, all["foam.Select"])
	assert.Contains(t, all, "allowance/pattern.A4")
	assert.NotContains(t, all, "foam.Use.String")
}
