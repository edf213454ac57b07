package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A remnant that takes nothing is named, one in use is not.
func TestRemnantsThatTakeNothing(t *testing.T) {
	t.Parallel()
	for long, idle := range map[string]bool{"30 in": false, "10 in": true} {
		job := strings.Replace(framed(heldAllRound, `, "build": {"feet": 4}`, ""), `"width": "54 in"}`,
			`"width": "54 in", "at_hand": [{"name": "end", "length": "`+long+`", "remnant": true}]}`, 1)
		o, err := read(t, job)
		require.NoError(t, err)
		said := false
		for _, c := range o.Cautions {
			said = said || strings.HasPrefix(c.Text, "Of cloth at hand, nothing is cut from end")
		}
		assert.Equal(t, idle, said, long)
	}
}
