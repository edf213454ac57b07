package job

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// withPrices puts a price list into the demo job, on line 2.
func withPrices(t testing.TB, entries string) string {
	t.Helper()
	return strings.Replace(demo(t), `"schema":`, `"prices": [`+entries+"],\n"+`"schema":`, 1)
}

func TestPriceListOfAJob(t *testing.T) {
	spec, err := ReadSpec(strings.NewReader(withPrices(t, `{"code": "webbing", "kind": "thread and sundries", "description": "jute", "price": "0.90 USD/yd"}`)))
	require.NoError(t, err)
	require.Len(t, spec.Prices.Entries(), 1)
	written, err := json.Marshal(spec)
	require.NoError(t, err)
	back, err := ReadSpec(strings.NewReader(string(written)))
	require.NoError(t, err)
	assert.Equal(t, spec, back)
}

func TestPriceListRefused(t *testing.T) {
	const good = `{"code": "cord", "kind": "thread and sundries", "description": "cord", "price": "0.12 USD/yd"}`
	for entries, want := range map[string]string{
		strings.Replace(good, "0.12 USD/yd", "0.12 EUR/yd", 1):                                           "prices[0].price",
		good + ", " + strings.NewReplacer("0.12 USD/yd", "0.12 USD", `"cord"`, `"piping"`).Replace(good): "prices[1].price",
		good + ", " + good: "prices[1].code",
		strings.Replace(good, `"cord"`, `"cord", "hue": "ecru"`, 1):    "prices[0].hue",
		strings.Replace(good, `"cord"`, `"cord", "code": "piping"`, 1): "prices[0].code",
		strings.Replace(good, `"description": "cord", `, ``, 1):        "prices[0].description",
		`"cord"`: "prices",
		strings.Replace(good, `"0.12 USD/yd"`, `0.12`, 1): "prices[0].price",
	} {
		_, err := read(t, withPrices(t, entries))
		var found Faults
		require.ErrorAs(t, err, &found, entries)
		require.Len(t, found, 1, entries)
		var in *unit.InputError
		require.ErrorAs(t, found[0], &in)
		assert.Equal(t, unit.Path(want), in.Field, entries)
		assert.Equal(t, 2, found[0].Line, entries)
	}
}
