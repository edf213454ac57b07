//go:build crossbuild

package addin

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The program made for every platform is found out for what it is, and is
// packed with the others.
func TestAddInForEveryPlatform(t *testing.T) {
	var programs []Program
	for _, p := range Platforms() {
		program, err := ReadProgram(build(t, p))
		require.NoError(t, err)
		assert.Equal(t, p, program.Platform)
		_, err = programOf(program.Data[:len(program.Data)*3/4])
		require.Error(t, err, "%v cut off", p)
		programs = append(programs, program)
	}
	oxt, err := Pack(programs)
	require.NoError(t, err)
	t.Logf("%d bytes", len(oxt))
}
