package cost_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// Each limit that an error or a comment states is where it says.
func TestLimitsAreWhereTheyAreSaid(t *testing.T) {
	t.Parallel()
	most, err := cost.NewMoney("999999999999999", "USD")
	require.NoError(t, err)
	_, err = cost.NewMoney("1000000000000000", "USD")
	require.ErrorIs(t, err, unit.ErrOverflow)

	parts, err := cost.Split(most, 100_000)
	require.NoError(t, err)
	assert.Len(t, parts, 100_000)
	parts, err = cost.Split(most, 1)
	require.NoError(t, err)
	assert.Equal(t, []cost.Money{most}, parts)
	_, err = cost.Split(most, 0)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = cost.Split(most, 100_001)
	require.ErrorIs(t, err, unit.ErrRange)

	day, err := cost.NewDate(2026, 3, 1)
	require.NoError(t, err)
	for _, n := range []int{36_600, -36_600} {
		_, err = day.AddDays(n)
		require.NoError(t, err)
		_, err = day.AddDays(n + n/36_600)
		require.ErrorIs(t, err, unit.ErrRange)
	}
}

// A price list has at most 19,999 entries, and tells of 20 faults.
func TestLongPriceList(t *testing.T) {
	t.Parallel()
	perYard := price[unit.Length](t, "1.00 USD/yd").Any()
	entries := make([]cost.Entry, 20_000)
	for i := range entries {
		entries[i] = cost.Entry{Code: fmt.Sprint("c", i), Kind: cost.Goods, What: "cloth", Price: perYard}
	}
	_, err := cost.PriceList{}.With(entries[1:]...)
	require.NoError(t, err)
	_, err = cost.PriceList{}.With(entries...)
	require.ErrorIs(t, err, unit.ErrRange)

	rows := "code,kind,description,price\n"
	for i := range 50 {
		rows += fmt.Sprintf("c%d,nothing,cloth,1.00 USD/yd\n", i)
	}
	_, err = cost.ReadPriceListCSV(strings.NewReader(rows))
	var faults *cost.ListError
	require.ErrorAs(t, err, &faults)
	assert.Len(t, faults.Cells, 20)
}

// A working shows six places of what was rounded.
func TestWorkingHasSixPlaces(t *testing.T) {
	line, err := cost.Item[unit.Length]{ID: "cord", Kind: cost.Goods, What: "cord", Quantity: unit.Foot, Price: price[unit.Length](t, "2.00 USD/yd")}.Line()
	require.NoError(t, err)
	q, err := cost.NewQuote(cost.Terms{Currency: "USD"}, line)
	require.NoError(t, err)
	figures, err := q.Explain("cord")
	require.NoError(t, err)
	var workings []string
	for _, f := range figures {
		workings = append(workings, f.Working)
	}
	assert.Equal(t, "unknown way to sell", cost.Selling(9).String())
	assert.Contains(t, strings.Join(workings, "\n"), " = 0.666666…\n")
	assert.Equal(t, "12.3456789012 % markup", cost.Markup(0.123456789012).String())
}

// What is off by no more than a microlitre is a whole hundredth of a gallon.
func TestTinyVolume(t *testing.T) {
	gallons := func(v unit.Volume) string {
		text, _ := cost.AnyOf(v).Shop(cost.AnyOf(unit.USGallon))
		return text
	}
	v := 15 * unit.USGallon / 100
	assert.Equal(t, "0.15 gal", gallons(v+1000))
	assert.Equal(t, "0.16 gal", gallons(v+1001))
}
