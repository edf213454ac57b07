package main

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// The committed drawings are what the command draws. After a change of the
// drawings run: go run ./allowance/doc allowance/doc
func TestDrawingsAreCurrent(t *testing.T) {
	pictures, err := draw()
	require.NoError(t, err)
	for _, p := range pictures {
		want, err := os.ReadFile(p.file)
		require.NoError(t, err)
		require.Equal(t, string(want), p.drawing, p.file)
	}
}
