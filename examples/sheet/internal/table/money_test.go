package table

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func call(t require.TestingT, name string, values ...any) Result {
	r, bad := Call(name, values)
	require.Nil(t, bad, "%s %v: %v", name, values, bad)
	return r
}

func refused(t *testing.T, want Code, says, name string, values ...any) {
	t.Helper()
	_, bad := Call(name, values)
	if assert.NotNil(t, bad, "%s %v", name, values) {
		assert.Equal(t, want, bad.Code, "%s %v: %s", name, values, bad.Message)
		assert.Contains(t, bad.Message, says)
	}
}

// Every amount to fifty, as a sheet has it: typed, or worked out by it.
func TestEveryCentIsTaken(t *testing.T) {
	for n := 1; n <= 5000; n++ {
		typed, err := strconv.ParseFloat(strconv.Itoa(n/100)+"."+strconv.Itoa(n/10%10)+strconv.Itoa(n%10), 64)
		require.NoError(t, err)
		for _, x := range []float64{typed, float64(n) * 0.01, float64(n)/10 - float64(n)*0.09, 0.1 + (typed - 0.1)} {
			assert.Equal(t, typed, call(t, "MARKUPPRICE", x, 0.0).Number) //nolint:testifylint // to the last bit
		}
	}
}

func TestMoreDecimalsThanTheMoneyHasAreRefused(t *testing.T) {
	for _, x := range []float64{19.995, 0.001, 1.15000001, 100.005, 1e-8} {
		refused(t, Num, "more than 2 decimals", "MARKUPPRICE", x, 0.25)
	}
	refused(t, Num, "more than 0 decimals", "MARKUPPRICE", 19.5, 0.25, "JPY")
	refused(t, Missing, "", "MARKUPPRICE", 19.5, 0.25, "XYZ")
	refused(t, Num, "under 10000000000", "MARKUPPRICE", 1e10, 0.25)
	refused(t, Value, "", "MARKUPPRICE", "19.99", 0.25)
	assert.InDelta(t, 1256, call(t, "MARKUPPRICE", 1005.0, 0.25, "jpy").Number, 0) // 1256.25
	assert.InDelta(t, 1.543, call(t, "MARKUPPRICE", 1.234, 0.25, "KWD").Number, 0) // 1.5425
}

// A sum of amounts in a sheet is off by a few bits: it is still taken, however
// large.
func TestSumsOfASheetAreTaken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sum float64
		var cents int64
		for _, n := range rapid.SliceOfN(rapid.Int64Range(0, 40_000_000_00), 1, 200).Draw(t, "cents") {
			cents += n
			sum += float64(n) / 100
		}
		assert.Equal(t, float64(cents)/100, call(t, "ROUNDAMOUNT", sum, 0.01).Number) //nolint:testifylint // to the last bit
	})
}

func TestPercentagesAreFractions(t *testing.T) {
	for _, x := range []any{0.25, "25 %", "25%", " 25 percent "} {
		assert.InDelta(t, 125, call(t, "MARKUPPRICE", 100.0, x).Number, 0)
	}
	assert.InDelta(t, 400, call(t, "MARKUPPRICE", 100.0, 3.0).Number, 0)
	refused(t, Num, "for 25 % write it with the sign, or 0.25", "MARKUPPRICE", 100.0, 25.0)
	refused(t, Num, "got 2500 %", "MARKUPPRICE", 100.0, "2500 %")
	refused(t, Num, "from 0 % to 300 %", "MARKUPPRICE", 100.0, -0.05)
	refused(t, Value, "such as 25 %", "MARKUPPRICE", 100.0, "25")
	refused(t, Value, "", "MARKUPPRICE", 100.0, "a quarter")
	refused(t, Num, "for 8.25 %", "TAX", 100.0, 8.25)
	refused(t, Num, "", "TAX", 100.0, 1.0)
	refused(t, Num, "", "MARGINPRICE", 100.0, 1.0)
	refused(t, Num, "for 33 %", "BUYAREASQFT", 67.0, 33.0)
	refused(t, Num, "for 2.5 %", "CUTSIZEIN", 25.0, 0.5, 0.5, 2.5)
	refused(t, Num, "for 50 %", "DEPOSIT", 100.0, 50.0)
	refused(t, Num, "for 10 %", "DISCOUNT", 100.0, 10.0)
	refused(t, Num, "for 95 %", "LEARNINGHOURS", 1.0, 6.0, 95.0)
}

func TestNonsenseIsRefused(t *testing.T) {
	refused(t, Num, "from zero", "MARGINOF", 80.0, -0.05)
	refused(t, Num, "from zero", "MARKUPOF", -80.0, 5.0)
	refused(t, Num, "", "TAX", 123.45, -0.05)
	refused(t, Num, "", "TAX", -123.45, 0.05)
	refused(t, Num, "", "TAXINSIDE", 120.0, -0.05)
	refused(t, Num, "", "LEATHERSEAMIN", 0.0)
	refused(t, Num, "", "LEATHERSEAMIN", -10.0)
	assert.InDelta(t, -0.25, call(t, "MARGINOF", 100.0, 80.0).Number, 1e-15, "sold at a loss")
}

// A rate of three decimals, such as city and state together.
func TestTaxInsideTakesAnyRate(t *testing.T) {
	assert.InDelta(t, 8.15, call(t, "TAXINSIDE", 100.0, 0.08875).Number, 0) // 100 x 0.08875 / 1.08875 = 8.1515
}

// Where two sizes mean the same, their order does not matter.
func TestTheOrderOfEqualSizesDoesNotMatter(t *testing.T) {
	assert.InDelta(t, call(t, "BIASLENGTHIN", 40.0, 30.0, 2.0).Number, call(t, "BIASLENGTHIN", 30.0, 40.0, 2.0).Number, 0)
	more := map[string][]any{"BIASLENGTHIN": {2.0, 0.25}, "EASESHARE": nil, "EASETEXT": nil, "RINGIN": nil, "WEBBINGIN": nil}
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(12, 90).Draw(t, "width"), rapid.Float64Range(12, 90).Draw(t, "height")
		for name, rest := range more {
			a, bad := Call(name, append([]any{w, h}, rest...))
			b, bad2 := Call(name, append([]any{h, w}, rest...))
			assert.Equal(t, bad == nil, bad2 == nil, name)
			assert.Equal(t, a, b, name)
		}
	})
}

// A line adds up, and the deposit is never more than the total.
func TestALineAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hundredths, cents := rapid.IntRange(0, 10_000).Draw(t, "hundredths"), rapid.IntRange(0, 100_000).Draw(t, "cents")
		share := func(of string) float64 { return float64(rapid.IntRange(0, 99).Draw(t, of)) / 100 }
		r := call(t, "PRICELINE", float64(hundredths)/100, float64(cents)/100, share("markup"), share("discount"), share("tax"))
		line := make([]float64, 5)
		for i := range line {
			line[i], _ = r.Grid[0][i].(float64)
		}
		assert.InDelta(t, line[4], line[1]-line[2]+line[3], 1e-6)
		assert.LessOrEqual(t, math.Abs(math.Round(line[0]*100)*100-float64(hundredths*cents)), 50.0, "half a cent at most")
		deposit := call(t, "DEPOSIT", line[4], share("deposit"), math.Min(line[4], 20)).Number
		assert.LessOrEqual(t, deposit, line[4])
		assert.GreaterOrEqual(t, deposit, math.Min(line[4], 20))
	})
}

func TestAColumnOfPricesGivesAColumn(t *testing.T) {
	r := call(t, "MARKUPPRICE", [][]any{{19.99}, {""}, {19.995}, {100.0}}, [][]any{{0.25}, {nil}, {0.25}, {"50 %"}})
	require.Len(t, r.Grid, 4)
	assert.Equal(t, []any{24.99}, r.Grid[0])
	assert.Equal(t, []any{nil}, r.Grid[1])
	assert.Equal(t, []any{150.0}, r.Grid[3])
	bad, ok := r.Grid[2][0].(*Fault)
	require.True(t, ok)
	assert.Equal(t, Num, bad.Code)
	told := call(t, "WHY", "MARKUPPRICE", [][]any{{19.99}, {""}, {19.995}}, 0.25)
	assert.Contains(t, told.Text, "cell 3: cost: 19.995 has more than 2 decimals")
}

func TestWhySaysWhy(t *testing.T) {
	assert.Equal(t, "thickness: “0 in”: out of range; want a length above zero", call(t, "WHY", "BOARDFEET", 24.0, 24.0, 0.0).Text)
	assert.Empty(t, call(t, "WHY", "SHOP.BOARDFEET", 24.0, 24.0, 4.0, nil, nil).Text)
	assert.Contains(t, call(t, "WHY", "BORDFEET", 24.0).Text, "no function is called BORDFEET")
	assert.Contains(t, call(t, "WHY", "INTOMM", 1.0, 2.0).Text, "too many arguments")
	assert.Contains(t, call(t, "WHY", "INTOMM", "24").Text, "length_in")
	assert.Empty(t, call(t, "WHY", "WHY", "INTOMM", "24").Text, "WHY has a value")
	refused(t, Value, "function", "WHY", 24.0)
	assert.Equal(t, "pieces in row 3, width: “60 in”: piece wider than the goods; want at most the usable width of 54 in",
		call(t, "WHY", "YARDAGEYD", [][]any{{26.0, 31.0, 2.0}, {"", nil, nil}, {60.0, 31.0, 2.0}}, 54.0).Text)
	assert.Equal(t, "fit: “tight”: unknown; want one of snug fit, firm fit, wrapped fit, neutral fit", call(t, "WHY", "CUSHIONFOAMIN", 22.0, 20.0, 4.0, "tight").Text)
	assert.Equal(t, "runs_in: “x”: not a quantity; want a length such as 25 5/8 in", call(t, "WHY", "WELTCUTIN", [][]any{{88.0}, {"x"}}, 1.5).Text)
}
