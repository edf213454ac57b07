package job

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// The end cushions of a sofa are as wide as a seat and the arm before which their
// ear stands: 24 in + 5 in.
func TestEndCushionsOfASofa(t *testing.T) {
	t.Parallel()
	const text = `{"schema": "coverwright/job/1", "name": "a sofa", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "grey wool", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"},
			{"id": "lining", "kind": "roll", "name": "decking", "material": "light woven", "price": "9.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "sofa", "goods": "cloth", "from": "three-seat sofa", "goods_for": {"lining": "lining"}, "measures": {
			"seat width of one cushion": "24 in", "seat depth": "22 in", "front border height": "7 in", "inside arm height": "14 in", "arm front width": "5 in",
			"arm front height": "20 in", "outside arm depth": "32 in", "outside arm height": "20 in", "inside back height": "24 in", "outside back width": "82 in",
			"outside back height": "28 in"}}],
		"quote": {"labour_rate": "60.00 USD/h"}}`
	s, err := ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	d, err := prepare(context.Background(), s)
	require.NoError(t, err)
	found := 0
	for _, p := range d.cut.pieces {
		switch p.Part {
		case "end cushion, top plate", "end cushion, bottom plate":
			assert.Equal(t, Size{29 * unit.Inch, 23 * unit.Inch}, p.Finished, p.Part)
			assert.True(t, p.Pair)
			found++
		case "centre cushion, top plate":
			assert.Equal(t, Size{24 * unit.Inch, 23 * unit.Inch}, p.Finished, p.Part)
			found++
		}
	}
	assert.Equal(t, 3, found)
}
