package findings_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material/findings"
)

// The size of a tack once meant ounces of iron in 1000 of them, so that a pound has
// 16,000 by the size; the longer, the fewer.
func TestTacksAPoundByTheirName(t *testing.T) {
	sizes := findings.TackSizes()
	for i, s := range sizes {
		whole, half, _ := strings.Cut(strings.TrimSuffix(s.Name, " oz"), " ")
		ounces, err := strconv.ParseFloat(whole, 64)
		require.NoError(t, err)
		if half != "" {
			require.Equal(t, "1/2", half)
			ounces += 0.5
		}
		assert.Equal(t, int(16_000/ounces), s.Pound, s.Name)
		if i > 0 {
			assert.Greater(t, s.Length, sizes[i-1].Length)
			assert.Less(t, s.Pound, sizes[i-1].Pound)
		}
	}
}
