//go:build jsonschema

package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/schema"
)

// What the schema of the shop file refuses, the reader refuses too, and a shop file
// need not be whole.
func TestSchemaOfShopFile(t *testing.T) {
	shop := compiled(t, schema.Shop())
	good := `{"schema": "coverwright/shop/1", "currency": "USD", "shop": {"phone": "555 0142"},
		"goods": [{"id": "hide", "kind": "hide"}], "prices": [{"code": "cord", "kind": "thread and sundries", "description": "cord", "price": "0.12 USD/yd"}],
		"quote": {"shop_rate": {"burden": "50 %"}, "taxes": [{"name": "tax", "rate": "5 %", "on": ["goods"]}]}, "bench": {"pieces": [{"name": "seat"}]}, "defaults": {"facing": true}}`
	require.NoError(t, validate(t, shop, good))
	_, err := job.ReadShop(strings.NewReader(good))
	require.NoError(t, err)
	for _, c := range [][2]string{
		{"shop/1", "shop/2"}, {`"schema": "coverwright/shop/1", `, ``}, {`"id": "hide", `, ``}, {`"description": "cord", `, ``}, {`"rate": "5 %", `, ``}, {`{"name": "seat"}`, `{}`},
		{`"facing": true`, `"facing": "left"`}, {`"50 %"`, `"half"`}, {`"currency"`, `"pieces": [], "currency"`}, {`0.12 USD/yd`, `0.12`}, {`"phone"`, `"fax"`},
	} {
		bad := strings.Replace(good, c[0], c[1], 1)
		require.NotEqual(t, good, bad, c[0])
		assert.Error(t, validate(t, shop, bad), "schema takes %s", c[1])
		_, err := job.ReadShop(strings.NewReader(bad))
		assert.Error(t, err, "reader takes %s", c[1])
	}
}
