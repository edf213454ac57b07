package dev_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/nocompile"
)

func TestWhatMustNotCompile(t *testing.T) {
	faults, err := nocompile.Check("testdata/nocompile/good")
	require.NoError(t, err)
	assert.Empty(t, faults)

	faults, err = nocompile.Check("testdata/nocompile/compiles")
	require.NoError(t, err)
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0], "a.go:3: compiles, but should fail")

	faults, err = nocompile.Check("testdata/nocompile/other")
	require.NoError(t, err)
	require.Len(t, faults, 2)
	assert.Contains(t, faults[0], "does not match")
	assert.Contains(t, faults[1], "a.go:4: unexpected error")

	for _, dir := range []string{"testdata/nocompile/empty", "testdata/missing", "testdata/unmarked"} {
		_, err = nocompile.Check(dir)
		assert.Error(t, err, dir)
	}
}
