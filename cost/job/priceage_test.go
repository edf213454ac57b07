package job

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit/caution"
)

// Prices are old when they are older than 180 days on the day of the quote, and then
// named where the order has them; a quote without a day knows no age. 180 days before 2026-11-30 is 2026-06-03.
func TestOldPrices(t *testing.T) {
	t.Parallel()
	defaults := ""
	order := func(goods, thread, quote string) []string {
		o, err := Read(t.Context(), strings.NewReader(fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "old", "currency": "USD"%s,
			"goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "42 USD/yd"%s, "width": "54 in"},
				{"id": "spare", "kind": "roll", "name": "linen", "material": "woven", "price": "42 USD/yd", "dated": "2001-01-01", "width": "54 in"}],
			"prices": [{"code": "thread", "kind": "thread and sundries", "description": "thread", "price": "0.02 USD/yd"%s},
				{"code": "silk", "kind": "thread and sundries", "description": "silk", "price": "2 USD/yd", "dated": "2001-01-01"}],
			"pieces": [{"name": "seat", "panels": [{"name": "top", "goods": "cloth", "width": "20 in", "length": "20 in"}]}], "quote": {"labour_rate": "50 USD/h"%s}}`, defaults, goods, thread, quote)), quick)
		require.NoError(t, err)
		var out []string
		for _, c := range o.Cautions {
			if c.ID == "J6" {
				assert.Equal(t, []caution.Reader{caution.Office}, c.Audience)
				out = append(out, c.Text)
			}
		}
		return out
	}
	const day, last, before = `, "issued": "2026-11-30", "valid_days": 30`, `, "dated": "2026-06-03"`, `, "dated": "2026-06-02"`
	assert.Empty(t, order(last, last, day))
	assert.Empty(t, order(before, before, ""))
	assert.Empty(t, order("", "", day))
	assert.Equal(t, []string{"On 2026-11-30 the prices of these are older than 180 days, ask again: wool tweed (2026-06-02)."}, order(before, last, day))
	assert.Equal(t, []string{"On 2026-11-30 the prices of these are older than 180 days, ask again: wool tweed (2026-06-02), thread (2026-06-02)."}, order(before, before, day))
	defaults = `, "defaults": {"price_days": 181}`
	assert.Empty(t, order(before, before, day))
	defaults = `, "defaults": {"price_days": 30}`
	assert.Equal(t, []string{"On 2026-11-30 the prices of these are older than 30 days, ask again: wool tweed (2026-06-03)."}, order(last, "", day))
}

func TestListed(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "a, b", listed([]string{"a", "b"}))
	assert.Equal(t, "a, a, a, a, a, a, a, a, a, a and 2 more", listed(strings.Split(strings.Repeat("a", 12), "")))
}
