package foam_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/nocompile"
)

// Figures of different tests do not convert silently: each file of
// testdata/nocompile must fail to compile where it says so.
func TestNoSilentConversion(t *testing.T) {
	faults, err := nocompile.Check("testdata/nocompile")
	require.NoError(t, err)
	assert.Empty(t, faults)
}
