package job

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// As many options as there may be that change the goods, all alike, are laid once: two
// layouts in all, one before the options and one for them.
func TestEqualOptionsAreLaidOnce(t *testing.T) {
	t.Parallel()
	one := `{"name": "linen %d", "replace": [{"goods": "cloth", "with": "linen"}]}`
	options := make([]string, mostOptions)
	for i := range options {
		options[i] = fmt.Sprintf(one, i)
	}
	layouts := 0
	o := quick
	o.Progress = func(p Progress) {
		if p.State == "done" {
			layouts++
		}
	}
	order, err := Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "options", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"},
			{"id": "linen", "kind": "roll", "name": "linen", "material": "woven", "price": "30.00 USD/yd", "width": "48 in"}],
		"pieces": [{"name": "chair", "cushions": [{"name": "seat", "top": "cloth", "width": "22 in", "depth": "20 in", "thickness": "4 in"}]}],
		"options": [`+strings.Join(options, ", ")+`], "quote": {"labour_rate": "60.00 USD/h"}}`), o)
	require.NoError(t, err)
	assert.Len(t, order.Options, mostOptions)
	assert.Equal(t, 2, layouts)
}

// What cannot be laid or bought of an option is told of the option, with the place.
func TestOrderOfAnOptionThatFails(t *testing.T) {
	good := `{"schema": "coverwright/job/1", "name": "options", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"},
			{"id": "linen", "kind": "roll", "name": "linen", "material": "woven", "price": "30.00 USD/yd", "width": "53 in"}],
		"pieces": [{"name": "chair", "panels": [{"name": "seat", "goods": "cloth", "width": "52 in", "length": "50 in"}]}],
		"options": [{"name": "linen", "replace": [{"goods": "cloth", "with": "linen"}]}], "quote": {"labour_rate": "60.00 USD/h"}}`
	_, err := read(t, good)
	require.NoError(t, err)
	refused(t, good, map[string]fault{
		"too narrow": {`"width": "53 in"`, `"width": "52 in"`, "options[0]", layout.ErrTooWide},
		"too dear":   {`"price": "30.00 USD/yd"`, `"price": "999999999999999.00 USD/yd"`, "options[0]", unit.ErrOverflow},
	})
}
