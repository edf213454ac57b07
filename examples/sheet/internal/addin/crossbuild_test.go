//go:build crossbuild

package addin

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The program made for every platform is found out for what it is, and is
// packed with the others. Where CROSSBUILD names a system, only for that one.
func TestAddInForEveryPlatform(t *testing.T) {
	var programs []Program
	for _, p := range Platforms() {
		if !strings.HasPrefix(p.OS, os.Getenv("CROSSBUILD")) {
			continue
		}
		program, err := ReadProgram(build(t, p))
		require.NoError(t, err)
		assert.Equal(t, p, program.Platform)
		_, err = programOf(program.Data[:len(program.Data)*3/4])
		require.Error(t, err, "%v cut off", p)
		programs = append(programs, program)
	}
	require.NotEmpty(t, programs)
	oxt, err := Pack(programs)
	require.NoError(t, err)
	t.Logf("%d bytes", len(oxt))
}
