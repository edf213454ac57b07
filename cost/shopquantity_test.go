package cost_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// Volumes are written to a tenth, up, in the units of the price's country; the
// amount stays that of the exact volume.
func TestShopQuantity(t *testing.T) {
	for _, c := range []struct {
		of      unit.Volume
		price   string
		want    string
		rounded bool
		cost    string
	}{
		{16 * unit.BoardFoot, "3.00 USD/bd ft", "16.0 bd ft", false, "48.00"},
		{16*unit.BoardFoot + unit.CubicInch, "3.00 USD/bd ft", "16.1 bd ft", true, "48.02"},
		{unit.CubicFoot, "30.00 USD/cu ft", "12.0 bd ft", false, "30.00"},
		{33_164_371 * unit.Litre / 1_000_000, "0.06 USD/l", "33.2 l", true, "1.99"},
		{33_164_371 * unit.Litre / 1_000_000, "60.00 USD/m3", "33.2 l", true, "1.99"},
		{33_100_000 * unit.Litre / 1_000_000, "60.00 USD/m3", "33.1 l", false, "1.99"},
	} {
		p, err := cost.ParsePrice[unit.Volume](c.price)
		require.NoError(t, err)
		line, err := cost.Item[unit.Volume]{Kind: cost.Foam, What: "foam", Quantity: c.of, Price: p}.Line()
		require.NoError(t, err)
		q, err := cost.NewQuote(cost.Terms{Currency: "USD"}, line)
		require.NoError(t, err)
		text, rounded := q.Lines[0].ShopQuantity()
		assert.Equal(t, c.want, text, c.price)
		assert.Equal(t, c.rounded, rounded, c.want)
		assert.Equal(t, c.cost, q.Lines[0].Cost.Amount(), c.want)
	}
	p, err := cost.ParsePrice[unit.Length]("42.00 USD/yd")
	require.NoError(t, err)
	line, err := cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 2*unit.Yard + unit.Inch, Price: p}.Line()
	require.NoError(t, err)
	q, err := cost.NewQuote(cost.Terms{Currency: "USD"}, line)
	require.NoError(t, err)
	text, rounded := q.Lines[0].ShopQuantity()
	assert.Equal(t, q.Lines[0].Quantity, text)
	assert.False(t, rounded)
}
