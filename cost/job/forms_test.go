package job

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// A knife-edge cushion is filled with a form that is larger than its cover by the
// take-up of a snug fit, 1/2 in, and priced by the piece.
func TestPillowForms(t *testing.T) {
	t.Parallel()
	const text = `{"schema": "coverwright/job/1", "name": "pillows", "currency": "USD",
		"goods": [{"id": "a", "kind": "roll", "name": "plain", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "sofa", "count": 2, "cushions": [{"name": "pillow", "count": 3, "kind": "knife edge", "width": "18 in", "depth": "16 in", "top": "a",
			"pillow_form": {%s}}]}],
		"quote": {"labour_rate": "60.00 USD/h"}}`
	build := func(price string) WorkOrder {
		o, err := Read(context.Background(), strings.NewReader(strings.Replace(text, "%s", price, 1)), quick)
		require.NoError(t, err)
		return o
	}
	o := build(`"price": "7.50 USD"`)
	require.Len(t, o.Forms, 1)
	assert.Equal(t, [3]any{6, 18*unit.Inch + unit.Inch/2, 16*unit.Inch + unit.Inch/2}, [3]any{o.Forms[0].Count, o.Forms[0].Width, o.Forms[0].Depth})
	without := build("")
	assert.False(t, without.Forms[0].Priced)
	more, err := o.Quote.Total.Minus(without.Quote.Total)
	require.NoError(t, err)
	assert.Equal(t, "45.00 USD", more.String())
	_, err = ReadSpec(strings.NewReader(strings.Replace(strings.Replace(text, "knife edge", "boxed", 1), "%s", "", 1)))
	require.NoError(t, err)
	_, err = Read(context.Background(), strings.NewReader(strings.Replace(strings.Replace(text, "knife edge", "bolster", 1), "%s", "", 1)), quick)
	require.ErrorContains(t, err, "pillow_form")
}
