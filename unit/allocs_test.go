//go:build !race

package unit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The race detector allocates on its own account, so this is left out there.
func TestSmallOpsAllocateWhatTheTableSays(t *testing.T) {
	for _, op := range smallOps() {
		var err error
		got := testing.AllocsPerRun(50, func() { err = op.do() })
		require.NoError(t, err, op.name)
		assert.Equal(t, op.most, int(got), "%s: allocations; the table says what it costs", op.name)
	}
}
