package job

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A piece that is padded with nothing is named, or the dearest thing after the cover
// would be missing without a word; felt is enough.
func TestPaddedWithNothing(t *testing.T) {
	t.Parallel()
	for with, named := range map[string]bool{``: true, `, "felt": [{"width": "20 in", "depth": "20 in"}]`: false} {
		o, err := read(t, framed(heldAllRound, `, "build": {"feet": 4`+with+`}, "usual": {"piece": "club chair"}`, ""))
		require.NoError(t, err)
		said := false
		for _, c := range o.Cautions {
			said = said || c.Text == "chair takes time to pad, and the order has no foam, felt or wrap for it: what is there stays, or the quote leaves it out."
		}
		assert.Equal(t, named, said, with)
	}
}
