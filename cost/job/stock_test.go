package job

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Eight seats take 96 in, 100 in with 2 in for each end, so that 2 7/8 yd, 103 1/2 in,
// are bought for 115.00 USD, 143.75 USD with markup. What is at hand is charged by that
// length.
func TestStockOfTheShop(t *testing.T) {
	for name, c := range map[string]struct {
		goods  string
		supply material.Supply
		left   unit.Length
		length unit.Length // bought
		total  string
	}{
		"as long as the order": {`"at_hand": [{"name": "bolt", "length": "103 1/2 in"}]`, material.Enough, 15 * unit.Inch / 2, 0, "143.75 USD"},
		"with the margin":      {`"at_hand": [{"name": "bolt", "length": "100 in"}]`, material.Enough, 4 * unit.Inch, 0, "143.75 USD"},
		"tight":                {`"at_hand": [{"name": "bolt", "length": "99 in"}]`, material.Tight, 3 * unit.Inch, 0, "143.75 USD"},
		"just the layout":      {`"at_hand": [{"name": "bolt", "length": "96 in"}]`, material.Tight, 0, 0, "143.75 USD"},
		"lacking":              {`"at_hand": [{"name": "bolt", "length": "95 in"}]`, material.Lacking, 0, 23 * unit.Yard / 8, "143.75 USD"},
		"too narrow":           {`"at_hand": [{"name": "bolt", "length": "9 yd", "width": "20 in"}]`, 0, 0, 23 * unit.Yard / 8, "143.75 USD"},
		"one a row":            {`"at_hand": [{"name": "bolt", "length": "5 1/2 yd", "width": "36 in"}]`, material.Enough, 6 * unit.Inch, 0, "143.75 USD"},
		"at cost":              {`"charged": "cost", "at_hand": [{"name": "bolt", "length": "4 yd"}]`, material.Enough, 48 * unit.Inch, 0, "115.00 USD"},
		"not charged":          {`"charged": "nothing", "at_hand": [{"name": "bolt", "length": "4 yd"}]`, material.Enough, 48 * unit.Inch, 0, "0.00 USD"},
		"the first that will do": {`"at_hand": [{"name": "short", "length": "1 yd"}, {"name": "tight", "length": "97 in"}, {"name": "bolt", "length": "4 yd"},
			{"name": "longer", "length": "8 yd"}]`, material.Enough, 48 * unit.Inch, 0, "143.75 USD"},
		"the first that lacks least":  {`"at_hand": [{"name": "bolt", "length": "95 in"}, {"name": "short", "length": "1 yd"}]`, material.Lacking, 0, 23 * unit.Yard / 8, "143.75 USD"},
		"the second that lacks least": {`"at_hand": [{"name": "short", "length": "1 yd"}, {"name": "bolt", "length": "95 in"}]`, material.Lacking, 0, 23 * unit.Yard / 8, "143.75 USD"},
		"the first that is tight":     {`"at_hand": [{"name": "bolt", "length": "97 in"}, {"name": "other", "length": "98 in"}]`, material.Tight, unit.Inch, 0, "143.75 USD"},
	} {
		o := ordering(t, eightSeats(", "+c.goods))
		p := o.Purchases[0]
		require.NotNil(t, p.Stock, name)
		assert.Equal(t, c.supply, p.Stock.Supply, name)
		assert.Equal(t, c.length, p.Length, name)
		assert.Equal(t, c.length > 0, p.Ordered != nil, name)
		assert.Equal(t, c.total, o.Quote.Total.String(), name)
		assert.Equal(t, 23*unit.Yard/8, p.Stock.Alone.Order, name)
		if c.supply != 0 {
			assert.Equal(t, c.left, p.Stock.Sufficiency.Left, name)
			assert.Equal(t, "bolt", p.Stock.Length, name)
		}
		require.NoError(t, p.Plan.Verify(), name)
	}
}

// Two remnants of 26 in take two seats each, so that four rows become two, and 48 in with
// the margin are bought: 1 1/2 yd. Both together are charged as all would be.
func TestRemnantsTakeWholePieces(t *testing.T) {
	o := ordering(t, eightSeats(`, "at_hand": [{"name": "a", "length": "26 in", "remnant": true}, {"name": "b", "length": "25 in", "remnant": true}, {"name": "small", "length": "20 in", "remnant": true}]`))
	p := o.Purchases[0]
	require.Len(t, p.Stock.Remnants, 2)
	assert.Equal(t, "b", p.Stock.Remnants[0].On, "the smallest first")
	assert.Equal(t, 12*unit.Yard/8, p.Length)
	assert.Equal(t, material.Supply(0), p.Stock.Supply)
	assert.Equal(t, "143.75 USD", o.Quote.Total.String())
	assert.Equal(t, "55.00 USD", p.Stock.Charge.String())
	n := len(p.Plan.Places)
	for _, r := range p.Stock.Remnants {
		require.NoError(t, r.Plan.Verify())
		assert.Equal(t, []int{0}, r.Cuts)
		n += len(r.Plan.Places)
	}
	assert.Equal(t, 8, n, "every seat lies once")

	// A remnant that spares no row stays.
	p = ordering(t, eightSeats(`, "at_hand": [{"name": "a", "width": "26 in", "length": "26 in", "remnant": true}]`)).Purchases[0]
	assert.Empty(t, p.Stock.Remnants)
	assert.Equal(t, 23*unit.Yard/8, p.Length)

	// Remnants may hold all.
	o = ordering(t, eightSeats(`, "charged": "nothing", "at_hand": [{"name": "a", "length": "100 in", "remnant": true}]`))
	for _, c := range o.Cautions {
		assert.NotEqual(t, "leather", c.About, c.Text)
	}
	p = o.Purchases[0]
	assert.Nil(t, p.Plan)
	assert.Zero(t, p.Length)
	assert.Equal(t, material.Enough, p.Stock.Supply)
	assert.Equal(t, "0.00 USD", o.Quote.Total.String())
}

// Of a pair both hands go together, and the cuts of what is left keep their names.
func TestRemnantsKeepPairs(t *testing.T) {
	text := `{"schema": "coverwright/job/1", "name": "arms", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "velvet", "material": "woven", "price": "40 USD/yd", "width": "54 in", "nap": true, "repeat": "9 in",
			"at_hand": [{"name": "rest", "length": "36 in", "remnant": true, "first_motif": "0 in, 3 in"}]}],
		"pieces": [{"name": "chair", "panels": [{"name": "back", "goods": "cloth", "width": "40 in", "length": "50 in", "edges": "raw", "motif": "20 in, 20 in"},
			{"name": "arm", "goods": "cloth", "pair": true, "outline": {"trapezoid": {"bottom": "22 in", "top": "20 in", "height": "20 in", "shift": "1/2 in"}}, "edges": "raw", "motif": "10 in, 10 in"}]}],
		"quote": {"labour_rate": "50 USD/h"}}`
	o := ordering(t, text)
	p := o.Purchases[0]
	require.Len(t, p.Stock.Remnants, 1)
	r := p.Stock.Remnants[0]
	assert.Equal(t, []int{1}, r.Cuts)
	assert.Len(t, r.Plan.Places, 2)
	assert.NotEqual(t, r.Plan.Places[0].Mirrored, r.Plan.Places[1].Mirrored)
	require.NoError(t, r.Plan.Verify())
	assert.Equal(t, []int{0}, p.Pieces)
	assert.NotEmpty(t, o.Cuts[0].Motifs, "motifs on what is bought")
	assert.NotEmpty(t, o.Cuts[1].Motifs, "and on the remnant")
}

// A customer's own is never charged and never bought: what lacks is said.
func TestCustomersOwn(t *testing.T) {
	own := func(rest string) WorkOrder {
		return ordering(t, strings.Replace(eightSeats(`, "whose": "customer"`+rest), `"price": "40 USD/yd", `, "", 1))
	}
	o := own(`, "at_hand": [{"name": "hers", "length": "2 3/4 yd"}]`)
	p := o.Purchases[0]
	assert.Equal(t, material.Tight, p.Stock.Supply, "99 in of the 100 wanted")
	assert.Equal(t, unit.Inch, p.Stock.Sufficiency.ShortOfMargin)
	assert.Nil(t, p.Stock.Bring)
	assert.Equal(t, "0.00 USD", o.Quote.Total.String())
	assert.Equal(t, cost.OwnMaterial, o.Quote.Lines[0].Kind)

	o = own(`, "at_hand": [{"name": "hers", "length": "2 yd"}]`)
	p = o.Purchases[0]
	assert.Equal(t, material.Lacking, p.Stock.Supply)
	assert.Equal(t, 24*unit.Inch, p.Stock.Sufficiency.Short)
	assert.Equal(t, 23*unit.Yard/8, p.Stock.Bring.Order)
	assert.Zero(t, p.Length)
	assert.Nil(t, p.Ordered)
	assert.Equal(t, "0.00 USD", o.Quote.Total.String())

	p = own("").Purchases[0]
	assert.Zero(t, p.Stock.Supply, "nobody said how much there is")
	assert.Equal(t, 23*unit.Yard/8, p.Stock.Bring.Order)
}

// The fee for a customer's own: by the length that the layout takes, a fixed amount, or
// a share of the markup on what would be bought, 25 % of 115.00 USD.
func TestHandling(t *testing.T) {
	for handling, want := range map[string]string{
		`{"per_length": "6.00 USD/yd"}`: "16.00 USD",
		`{"amount": "25.00 USD"}`:       "25.00 USD",
		`{"share": "50 %"}`:             "14.38 USD",
		`{"share": "100 %"}`:            "28.75 USD",
		`{"amount": "1000.0 USD"}`:      "1000.00 USD",
	} {
		o := ordering(t, eightSeats(`, "whose": "customer", "handling": `+handling+`, "at_hand": [{"name": "hers", "length": "3 yd"}]`))
		assert.Equal(t, want, o.Quote.Total.String(), handling)
		assert.Equal(t, want, o.Purchases[0].Stock.Fee.String(), handling)
		assert.Equal(t, cost.OwnMaterial, o.Quote.Lines[0].Kind, handling)
	}
}

func TestStockFaults(t *testing.T) {
	for goods, c := range map[string]struct {
		err   error
		field string
	}{
		`, "whose": "mine"`:                                                                               {unit.ErrUnknown, "goods[0].whose"},
		`, "whose": "customer", "charged": "cost"`:                                                        {ErrMisplaced, "goods[0].charged"},
		`, "handling": {"amount": "5 USD"}`:                                                               {ErrMisplaced, "goods[0].handling"},
		`, "whose": "customer", "handling": {"amount": "5 USD", "share": "5 %"}`:                          {unit.ErrRange, "goods[0].handling"},
		`, "whose": "customer", "handling": {"amount": "5 EUR"}`:                                          {cost.ErrCurrency, "goods[0].handling.amount"},
		`, "whose": "customer", "handling": {"amount": "-5 USD"}`:                                         {unit.ErrRange, "goods[0].handling.amount"},
		`, "whose": "customer", "handling": {"per_area": "5 USD/sq ft"}`:                                  {ErrMisplaced, "goods[0].handling.per_area"},
		`, "whose": "customer", "handling": {"share": "120 %"}`:                                           {unit.ErrRange, "goods[0].handling.share"},
		`, "at_hand": [{"name": "a", "length": "0 in"}]`:                                                  {unit.ErrRange, "goods[0].at_hand[0].length"},
		`, "at_hand": [{"name": "a", "length": "1 yd", "width": "5 in"}]`:                                 {unit.ErrRange, "goods[0].at_hand[0].width"},
		`, "at_hand": [{"name": "a", "length": "1 yd"}, {"name": "a", "length": "1 yd"}]`:                 {ErrTwice, "goods[0].at_hand[1].name"},
		`, "at_hand": [{"name": "a", "length": "1 yd", "flaws": [{"y": "1 in", "length": "101 m"}]}]`:     {unit.ErrRange, "goods[0].at_hand[0].flaws[0].length"},
		`, "at_hand": [{"name": "a", "length": "1 yd", "first_motif": "-1 in, 0 in"}], "repeat": "20 in"`: {unit.ErrRange, "goods[0].at_hand[0].first_motif"},
		`, "keep": {"width": "2 in", "length": "20 in"}`:                                                  {unit.ErrRange, "goods[0].keep.width"},
	} {
		_, err := Read(t.Context(), strings.NewReader(eightSeats(goods)), quick)
		require.ErrorIs(t, err, c.err, goods)
		assert.Contains(t, err.Error(), c.field, goods)
	}
}

func specOf(t *testing.T, text string) Spec {
	t.Helper()
	s, err := ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	return s
}

// drawnStock is goods at hand, some of it remnants.
func drawnStock(r *rapid.T) []stock.Length {
	var out []stock.Length
	for i := range rapid.IntRange(1, 3).Draw(r, "lengths") {
		out = append(out, stock.Length{Name: fmt.Sprint(i), Length: unit.Length(rapid.IntRange(10, 120).Draw(r, "length")) * unit.Inch,
			Width: unit.Length(rapid.IntRange(20, 60).Draw(r, "width")) * unit.Inch, Remnant: rapid.Bool().Draw(r, "remnant")})
	}
	return out
}

// Goods at hand, whoever's they are and however they are charged, never make a job
// dearer, a fee apart; they suffice as their layout says; and every piece lies once.
func TestLawStockIsNeverDearer(t *testing.T) { few.Check(t, 6, stockLaws(t)) }

func stockLaws(t *testing.T) func(*rapid.T) {
	return func(r *rapid.T) {
		with := specOf(t, eightSeats(""))
		with.Pieces[0].Panels = append(with.Pieces[0].Panels, PanelSpec{Name: "strip", Goods: "cloth", Width: unit.Length(rapid.IntRange(4, 40).Draw(r, "wide")) * unit.Inch,
			Length: unit.Length(rapid.IntRange(4, 40).Draw(r, "long")) * unit.Inch, Count: 1})
		g := &with.Goods[0]
		g.Whose = rapid.SampledFrom([]stock.Whose{stock.Shops, stock.Customers}).Draw(r, "whose")
		if !g.customers() {
			g.Charged = rapid.SampledFrom([]stock.Charged{0, stock.AsIfBought, stock.AtCost, stock.NotCharged}).Draw(r, "charged")
		}
		g.AtHand = drawnStock(r)
		without := with
		without.Goods = []GoodsSpec{with.Goods[0]}
		without.Goods[0].AtHand, without.Goods[0].Whose, without.Goods[0].Charged = nil, 0, 0
		own, err := Build(t.Context(), with, quick)
		require.NoError(r, err)
		bought, err := Build(t.Context(), without, quick)
		require.NoError(r, err)
		if c, err := own.Quote.Total.Cmp(bought.Quote.Total); err != nil || c > 0 {
			r.Fatalf("%v with goods at hand, %v without", own.Quote.Total, bought.Quote.Total)
		}
		p := own.Purchases[0]
		placed := 0
		for _, l := range p.Layouts() {
			require.NoError(r, l.Plan.Verify())
			placed += len(l.Plan.Places)
			for _, s := range g.AtHand {
				if s.Name == l.On && l.Plan.Need > s.Length {
					r.Fatalf("%v on %v", l.Plan.Need, s.Length)
				}
			}
		}
		if placed != 16 {
			r.Fatalf("%d of 16 pieces lie somewhere", placed)
		}
		if s := p.Stock.Sufficiency; s != nil && p.Stock.Supply != material.Lacking {
			long := g.AtHand[indexOf(g.AtHand, p.Stock.Length)].Length
			if p.Length != 0 || p.Plan.Need > long || (p.Stock.Supply == material.Enough) != (s.Wanted <= long) {
				r.Fatalf("%v of %v for %v", p.Stock.Supply, long, s.Wanted)
			}
		}
	}
}

func indexOf(list []stock.Length, name string) int {
	for i, s := range list {
		if s.Name == name {
			return i
		}
	}
	return -1
}

// Goods at hand as long as the order buy nothing.
func TestLawTheOrderAtHandSuffices(t *testing.T) {
	few.Check(t, 10, func(r *rapid.T) {
		s := specOf(t, eightSeats(""))
		s.Pieces[0].Count = rapid.IntRange(1, 12).Draw(r, "count")
		s.Goods[0].Shrinkage = unit.Ratio(rapid.IntRange(0, 5).Draw(r, "percent")) / 100
		first, err := Build(t.Context(), s, quick)
		require.NoError(r, err)
		s.Goods[0].AtHand = []stock.Length{{Name: "bolt", Length: first.Purchases[0].Length}}
		second, err := Build(t.Context(), s, quick)
		require.NoError(r, err)
		p := second.Purchases[0]
		if p.Length != 0 || p.Stock.Supply != material.Enough {
			r.Fatalf("%v bought beside %v", p.Length, first.Purchases[0].Length)
		}
	})
}

// Leftovers are read as goods at hand, and what fits on one of them is laid on it.
func TestLawLeftoversAreStock(t *testing.T) {
	few.Check(t, 10, func(r *rapid.T) {
		s := specOf(t, eightSeats(""))
		s.Pieces[0].Count = rapid.SampledFrom([]int{1, 3, 5, 7}).Draw(r, "count")
		g := &s.Goods[0]
		g.Selvage = unit.Inch / 2
		if rapid.Bool().Draw(r, "patterned") {
			g.Repeat = unit.Length(rapid.IntRange(3, 27).Draw(r, "repeat")) * unit.Inch
			g.UnknownStart = rapid.Bool().Draw(r, "unknown start")
		}
		g.Shrinkage = unit.Ratio(rapid.IntRange(0, 3).Draw(r, "percent")) / 100
		o, err := Build(t.Context(), s, quick)
		require.NoError(r, err)
		left := o.Purchases[0].Leftovers
		require.NotEmpty(r, left, "half a row is left")
		text, err := json.Marshal(left)
		require.NoError(r, err)
		var back []stock.Length
		require.NoError(r, json.Unmarshal(text, &back))
		require.Equal(r, left, back)

		rest := rapid.SampledFrom(back).Draw(r, "rest")
		g.AtHand, g.Charged = back, stock.NotCharged
		s.Pieces[0].Count = 1
		s.Pieces[0].Panels = []PanelSpec{{Name: "small", Goods: "cloth", Width: rest.Width, Length: rest.Length, Edges: s.Pieces[0].Panels[0].Edges}}
		again, err := Build(t.Context(), s, quick)
		require.NoError(r, err)
		p := again.Purchases[0]
		if p.Length != 0 || len(p.Stock.Remnants) != 1 {
			r.Fatalf("%v x %v is not laid on %v x %v", rest.Width, rest.Length, rest.Width, rest.Length)
		}
	})
}

// Hides at hand are charged only where the job says so, and a customer's own never are;
// what they lack is not bought.
func TestHidesAtHandAreChargedAsSaid(t *testing.T) {
	leather := func(goods, count string) WorkOrder {
		return ordering(t, `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
			"goods": [{"id": "ox", "kind": "hide", "name": "ox", "material": "leather", "price": "10 USD/sq ft"`+goods+`,
				"hides": [{"name": "mine", "area": "45 sq ft"}, {"name": "other", "area": "50 sq ft", "on_offer": true}]}],
			"pieces": [{"name": "seat", "count": `+count+`, "panels": [{"name": "cover", "goods": "ox", "width": "24 in", "length": "22 in", "grain": "any way"}]}],
			"quote": {"labour_rate": "50 USD/h", "markup": "10 %"}}`)
	}
	for _, c := range []struct{ goods, count, total string }{
		{"", "4", "0.00 USD"},
		{`, "charged": "price"`, "4", "495.00 USD"},
		{`, "charged": "cost"`, "4", "450.00 USD"},
		{`, "charged": "cost"`, "12", "1000.00 USD"},
		{`, "whose": "customer"`, "4", "0.00 USD"},
		{`, "whose": "customer"`, "12", "0.00 USD"},
		{`, "whose": "customer", "handling": {"per_area": "1 USD/sq ft"}`, "4", "45.00 USD"},
	} {
		o := leather(c.goods, c.count)
		p := o.Purchases[0]
		name := c.goods + c.count
		assert.Equal(t, c.total, o.Quote.Total.String(), name)
		if c.count == "4" {
			assert.Equal(t, material.Enough, p.Stock.Supply, name)
			assert.Zero(t, p.Hides, "a hide at hand would do: "+name)
			continue
		}
		assert.Equal(t, material.Lacking, p.Stock.Supply, name)
		if strings.Contains(c.goods, "customer") {
			assert.Zero(t, p.Hides, name)
			assert.Equal(t, 1, p.Stock.BringHides, name)
			assert.Equal(t, 50*unit.SquareFoot, p.Stock.BringArea, name)
		}
	}
}

// What a job took is set beside what was wanted of goods at hand; more of a customer's own
// costs the shop nothing.
func TestTakenFromStock(t *testing.T) {
	for goods, want := range map[string]string{
		`, "actual": "3 yd", "at_hand": [{"name": "bolt", "length": "4 yd"}]`:                         "5.00 USD",
		`, "actual": "3 yd", "whose": "customer", "at_hand": [{"name": "hers", "length": "4 yd"}]`:    "0.00 USD",
		`, "actual": "23/8 yd", "whose": "customer", "at_hand": [{"name": "hers", "length": "4 yd"}]`: "0.00 USD",
	} {
		x := ordering(t, eightSeats(goods)).Afterwards.Lines[0]
		assert.Equal(t, 23*unit.Yard/8, x.Quoted.Length, goods)
		assert.Equal(t, want, x.Cost.String(), goods)
	}
}

// Remnants are chosen alike by any number of workers, and a context that ends while they
// are looked at leaves an order that is right.
func TestStockIsTheSameEverywhere(t *testing.T) {
	s := specOf(t, eightSeats(`, "at_hand": [{"name": "a", "length": "50 in", "remnant": true}, {"name": "b", "length": "30 in", "width": "30 in", "remnant": true}, {"name": "bolt", "length": "50 in"}]`))
	var first []byte
	for _, workers := range []int{1, 2, 5} {
		o := quick
		o.Workers = workers
		order, err := Build(t.Context(), s, o)
		require.NoError(t, err)
		text, err := json.Marshal(order)
		require.NoError(t, err)
		if first == nil {
			first = text
		}
		assert.Equal(t, string(first), string(text))
	}
	for _, at := range []unit.Ratio{0, 0.3, 0.5, 0.8} {
		ctx, cancel := context.WithCancel(t.Context())
		o := quick
		o.Progress = func(p Progress) {
			if p.Done >= at {
				cancel()
			}
		}
		order, err := Build(ctx, s, o)
		cancel()
		require.NoError(t, err)
		placed := 0
		for _, l := range order.Purchases[0].Layouts() {
			require.NoError(t, l.Plan.Verify())
			placed += len(l.Plan.Places)
		}
		assert.Equal(t, 8, placed)
	}
}
