package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Goods at hand that nothing is cut from are named: a remnant too small for a piece, a
// length that a piece has no room on. One in use is not, and of one that is too short the
// order says what it lacks.
func TestGoodsAtHandThatTakeNothing(t *testing.T) {
	t.Parallel()
	for rest, idle := range map[string]bool{
		`"length": "30 in", "remnant": true`: false, `"length": "10 in", "remnant": true`: true,
		`"length": "3 yd", "width": "12 in"`: true, `"length": "10 in"`: false, `"length": "9 yd"`: false,
	} {
		job := strings.Replace(framed(heldAllRound, `, "build": {"feet": 4}`, ""), `"width": "54 in"}`,
			`"width": "54 in", "at_hand": [{"name": "rest", `+rest+`}]}`, 1)
		o, err := read(t, job)
		require.NoError(t, err)
		said := false
		for _, c := range o.Cautions {
			said = said || strings.HasPrefix(c.Text, "Of cloth at hand, nothing is cut from rest")
		}
		assert.Equal(t, idle, said, rest)
	}
}
