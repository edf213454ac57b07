package cost_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

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
	assert.Equal(t, "2 1/8 yd", text)
	assert.True(t, rounded)
}

func TestShop(t *testing.T) {
	yard, metre, foot := cost.AnyOf(unit.Yard), cost.AnyOf(unit.Metre), cost.AnyOf(unit.Foot)
	for _, c := range []struct {
		q, per  cost.AnyQuantity
		want    string
		rounded bool
	}{
		{cost.AnyOf(325 * unit.Inch), yard, "9 1/8 yd", true},
		{cost.AnyOf(333 * unit.Inch), cost.AnyQuantity{}, "9 1/4 yd", false},
		{cost.AnyOf(708 * unit.Inch), yard, "19 2/3 yd", false},
		{cost.AnyOf(708 * unit.Inch), metre, "17.99 m", true},
		{cost.AnyOf(43 * unit.Metre / 10), metre, "4.30 m", false},
		{cost.AnyOf(43 * unit.Metre / 10), cost.AnyOf(unit.Centimetre), "4.30 m", false},
		{cost.AnyOf(2397*unit.Yard + 9*unit.Inch), yard, "2,397 1/4 yd", false},
		{cost.AnyOf(1234 * unit.Metre), metre, "1,234.00 m", false},
		{cost.AnyOf(19 * unit.Foot), foot, "19 ft", false},
		{cost.AnyOf(19*unit.Foot + unit.Inch), foot, "19 1/8 ft", true},
		{cost.AnyOf(91 * unit.SquareFoot), cost.AnyOf(unit.SquareFoot), "91.0 sq ft", false},
		{cost.AnyOf(91*unit.SquareFoot + 1), yard, "91.1 sq ft", true},
		{cost.AnyOf(9 * unit.SquareFoot / 4), cost.AnyOf(unit.SquareYard), "0.25 sq yd", false},
		{cost.AnyOf(123 * unit.SquareDecimetre), cost.AnyOf(unit.SquareDecimetre), "1.23 m2", false},
		{cost.AnyOf(28 * unit.BoardFoot), cost.AnyQuantity{}, "28.0 bd ft", false},
		{cost.AnyOf(3 * (unit.USGallon / 20)), cost.AnyOf(unit.USGallon), "0.15 gal", false},
		{cost.AnyOf(unit.USGallon / 19), cost.AnyOf(unit.USGallon), "0.06 gal", true},
		{cost.AnyOf(unit.Pound / 2), cost.AnyOf(unit.Pound), "0.5 lb", false},
		{cost.AnyOf(unit.Pound / 3), cost.AnyOf(unit.Pound), "0.34 lb", true},
		{cost.AnyOf(unit.Pound), cost.AnyOf(unit.Kilogram), "0.46 kg", true},
		{cost.AnyOf(unit.Mass(0)), cost.AnyOf(unit.Kilogram), "0 kg", false},
		{cost.AnyOf(cost.Pieces(2649)), cost.AnyOf(cost.Pieces(1000)), "2,649 pieces", false},
		{cost.AnyOf(cost.Pieces(1)), cost.AnyQuantity{}, "1 piece", false},
		{cost.AnyOf(90 * unit.Minute), cost.AnyQuantity{}, "1 h 30 min", false},
		{cost.AnyQuantity{}, yard, "", false},
	} {
		text, rounded := c.q.Shop(c.per)
		assert.Equal(t, c.want, text, "%v", c.q)
		assert.Equal(t, c.rounded, rounded, c.want)
	}
}

// What a shop reads is never less than what must be bought.
func TestShopNeverSaysLess(t *testing.T) {
	per := []cost.AnyQuantity{{}, cost.AnyOf(unit.Yard), cost.AnyOf(unit.Foot), cost.AnyOf(unit.Inch), cost.AnyOf(unit.Metre)}
	rapid.Check(t, func(t *rapid.T) {
		l := unit.Length(rapid.Int64Range(0, int64(10_000*unit.Metre)).Draw(t, "l"))
		text, rounded := cost.AnyOf(l).Shop(rapid.SampledFrom(per).Draw(t, "per"))
		said, err := unit.ParseLength(strings.ReplaceAll(text, ",", ""))
		require.NoError(t, err, text)
		require.GreaterOrEqual(t, said, l, text)
		require.Equal(t, said != l, rounded, text)
	})
}

func TestGrouped(t *testing.T) {
	for amount, want := range map[string]string{
		"0": "0.00", "999.99": "999.99", "1000": "1,000.00", "1234.5": "1,234.50", "-1234567.891": "-1,234,567.891", "123456": "123,456.00",
	} {
		m, err := cost.NewMoney(amount, "USD")
		require.NoError(t, err)
		assert.Equal(t, want, m.GroupedAmount())
		assert.Equal(t, want+" USD", m.Grouped())
	}
	assert.Equal(t, "0", cost.Money{}.Grouped())
	yen, err := cost.NewMoney("1234567", "JPY")
	require.NoError(t, err)
	assert.Equal(t, "1,234,567 JPY", yen.Grouped())
	assert.Equal(t, "1,000 pieces", cost.Pieces(1000).Grouped())
	assert.Equal(t, "1 piece", cost.Pieces(1).Grouped())
}
