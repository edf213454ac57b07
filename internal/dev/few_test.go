package dev_test

import (
	"flag"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
)

// A law is checked as often as is said, at most as often as the flag says, and
// the flag is then what it was.
func TestFewDraws(t *testing.T) {
	asked := flag.Lookup("rapid.checks").Value.String()
	all, err := strconv.Atoi(asked)
	require.NoError(t, err)
	for _, n := range []int{1, 7, all + 1} {
		ran := 0
		few.Check(t, n, func(t *rapid.T) {
			rapid.Int().Draw(t, "any")
			ran++
		})
		assert.Equal(t, min(n, all), ran)
		assert.Equal(t, asked, flag.Lookup("rapid.checks").Value.String())
	}
}
