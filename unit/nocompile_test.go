package unit_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/nocompile"
)

// Mixing quantities up is a compile error: each file of testdata/nocompile
// has one such mistake a line.
func TestMixingKindsDoesNotCompile(t *testing.T) {
	faults, err := nocompile.Check("testdata/nocompile")
	require.NoError(t, err)
	for _, f := range faults {
		t.Error(f)
	}
}
