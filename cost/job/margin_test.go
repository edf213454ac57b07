package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

// eightSeats is the job of eight panels of 24 x 24 in, two abreast: 96 in of goods 54 in
// wide.
func eightSeats(goods string) string {
	return `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "40 USD/yd", "width": "54 in"` + goods + `}],
		"pieces": [{"name": "seat", "count": 8, "panels": [{"name": "cover", "goods": "cloth", "width": "24 in", "length": "24 in", "edges": "raw"}]}],
		"quote": {"labour_rate": "50 USD/h", "markup": "25 %"}}`
}

func ordering(t *testing.T, text string) WorkOrder {
	t.Helper()
	o, err := Read(t.Context(), strings.NewReader(text), quick)
	require.NoError(t, err)
	return o
}

// 96 in by the layout are 2 2/3 yd: without a margin 2 3/4 yd are bought, with 2 in for
// each end 100 in, 2 7/8 yd, or 3 yd where the seller cuts quarters. It is rounded once.
func TestMarginOfAnOrder(t *testing.T) {
	for name, c := range map[string]struct {
		goods         string
		margin, order unit.Length
	}{
		"usual":        {``, 4 * unit.Inch, 23 * unit.Yard / 8},
		"quarters":     {`, "increment": "1/4 yd"`, 4 * unit.Inch, 3 * unit.Yard},
		"none":         {`, "margin": {}`, 0, 22 * unit.Yard / 8},
		"of zero":      {`, "margin": {"squaring": "0 in"}`, 0, 22 * unit.Yard / 8},
		"a test piece": {`, "margin": {"squaring": "1 in", "test": "6 in"}`, 8 * unit.Inch, 24 * unit.Yard / 8},
		"flaws":        {`, "margin": {"flaw_every": "40 in", "flaw_length": "4 1/2 in"}`, 9 * unit.Inch, 24 * unit.Yard / 8},
		"a finisher":   {`, "margin": {"treatment": "3 %", "least_treatment": "18 in"}`, 18 * unit.Inch, 26 * unit.Yard / 8},
	} {
		p := ordering(t, eightSeats(c.goods)).Purchases[0]
		assert.Equal(t, 96*unit.Inch, p.Ordered.Need, name)
		assert.Equal(t, c.margin, p.Ordered.Margin.Total, name)
		assert.Equal(t, 96*unit.Inch+c.margin, p.Ordered.Gross, name)
		assert.Equal(t, c.order, p.Ordered.Order, name)
		assert.Equal(t, c.order, p.Length, name)
	}
}

// An option has the margin of its own goods.
func TestMarginOfAnOption(t *testing.T) {
	text := strings.Replace(eightSeats(`, "margin": {}`), `}],
		"pieces"`, `}, {"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "30 USD/yd", "width": "54 in"}],
		"options": [{"name": "plain", "replace": [{"goods": "cloth", "with": "plain"}]}], "pieces"`, 1)
	o := ordering(t, text)
	assert.Equal(t, 22*unit.Yard/8, o.Purchases[0].Length)
	assert.Equal(t, 23*unit.Yard/8, o.Options[0].Purchases[0].Length)
}

func TestMarginFaults(t *testing.T) {
	for goods, want := range map[string]string{
		`, "margin": {"squaring": "2 m"}`:    "goods[0].margin.squaring",
		`, "margin": {"treatment": "60 %"}`:  "goods[0].margin.treatment",
		`, "margin": {"flaw_every": "1 in"}`: "goods[0].margin.flaw_every",
	} {
		_, err := Read(t.Context(), strings.NewReader(eightSeats(goods)), quick)
		require.ErrorIs(t, err, unit.ErrRange, goods)
		assert.Contains(t, err.Error(), want)
	}
	_, err := Read(t.Context(), strings.NewReader(strings.Replace(eightSeats(`, "margin": {}`), `"roll"`, `"hide"`, 1)), quick)
	require.ErrorIs(t, err, ErrMisplaced)
}

// An order is need, spare and margin, rounded up once: never shorter than their sum, and
// by less than a step longer.
func TestLawOrderIsRoundedOnce(t *testing.T) {
	few.Check(t, 10, func(r *rapid.T) {
		text := eightSeats(`, "margin": {"squaring": "` + (unit.Length(rapid.IntRange(0, 64).Draw(r, "sixteenths")) * unit.Inch / 16).String() + `"}`)
		o, err := Read(t.Context(), strings.NewReader(text), quick)
		if err != nil {
			r.Fatal(err)
		}
		p := o.Purchases[0]
		sum := p.Ordered.Need + p.Ordered.Spare + p.Ordered.Margin.Total
		if p.Length < sum || p.Length >= sum+unit.Yard/8 || p.Length%(unit.Yard/8) != 0 || p.Ordered.Need != p.Plan.Need {
			r.Fatalf("%v bought for %v", p.Length, sum)
		}
	})
}
