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

// A length that a piece has no room on is named; of one that is too short the order says
// what it lacks.
func TestLengthsThatTakeNothing(t *testing.T) {
	t.Parallel()
	for size, narrow := range map[string]bool{`"length": "3 yd", "width": "12 in"`: true, `"length": "10 in"`: false, `"length": "9 yd"`: false} {
		job := strings.Replace(framed(heldAllRound, `, "build": {"feet": 4}`, ""), `"width": "54 in"}`,
			`"width": "54 in", "at_hand": [{"name": "rest", `+size+`}]}`, 1)
		o, err := read(t, job)
		require.NoError(t, err)
		said := false
		for _, c := range o.Cautions {
			said = said || strings.HasPrefix(c.Text, "Of cloth at hand, nothing is cut from rest")
		}
		assert.Equal(t, narrow, said, size)
		assert.Equal(t, narrow, o.Purchases[0].Stock == nil || o.Purchases[0].Stock.Length == "")
	}
}
