package job

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// meant gives what an order asks "is this meant" of.
func meant(o WorkOrder) []string {
	var out []string
	for _, c := range o.Cautions {
		if c.ID == "J1" {
			out = append(out, c.Text)
		}
	}
	return out
}

// Each slip of the pen is asked about with its figure, and nothing else is. By hand:
// 500 pleats on 100 in are one every 1/5 in; diamonds 4 by 3 in have buttons 2 1/2 in
// apart, on half as much cloth again 3 3/4 in, and 2 in down and up take
// 2 √(1.25² + 2²) = 4.72 in.
func TestHardlyMeant(t *testing.T) {
	t.Parallel()
	const (
		seat   = `"panels": [{"name": "top", "goods": "cloth", "width": "20 in", "length": "20 in"`
		labour = `, "labour": [{"task": "cover", "time": "2 h"}]`
		foam   = `, "foam": [{"name": "pad", "width": "20 in", "depth": "20 in", "thickness": "1/2 in", "filling": {"use": "seat", "duty": "normal", "base": "board", "price": "3 USD/bd ft"}}]`
	)
	large := `"panels": [`
	for i := range largePanels {
		large += `{"name": "p` + string(rune('a'+i)) + `", "goods": "cloth", "width": "20 in", "length": "20 in"},`
	}
	large = strings.TrimSuffix(large, ",") + `]`
	for name, c := range map[string]struct {
		top, piece, quote, price string
		want                     string
	}{
		"nothing odd":        {piece: seat + `}]` + labour},
		"markup":             {quote: `, "markup": 2.5`, want: "The markup is 250 %."},
		"tax":                {quote: `, "taxes": [{"name": "sales tax", "rate": "62.5 %", "on": ["goods"]}]`, want: "sales tax is 62.5 %."},
		"discount":           {quote: `, "markup": 2, "discounts": [{"name": "friend", "rate": "60 %"}]`, want: "The discount “friend” is 60 %."},
		"a loss":             {quote: `, "discounts": [{"name": "friend", "amount": "10 USD"}]`, want: "The shop loses 10.00 USD: the quote is below what goods and hours cost."},
		"for a day":          {quote: `, "issued": "2026-03-01"`, want: "The quote of 2026-03-01 holds on that day alone: no valid_days."},
		"due before":         {top: `, "due": "2026-02-28"`, quote: `, "issued": "2026-03-01", "valid_days": 30`, want: "The work is due on 2026-02-28, before the quote of 2026-03-01."},
		"price to come":      {price: `42.00 USD/yd", "dated": "2026-03-02`, quote: `, "issued": "2026-03-01", "valid_days": 30`, want: "Prices are of days after the quote of 2026-03-01: wool tweed (2026-03-02)."},
		"for some days":      {quote: `, "issued": "2026-03-01", "valid_days": 30`},
		"goods for nothing":  {price: "0 USD/yd", want: "wool tweed is not charged: its price is nothing."},
		"foam for nothing":   {piece: seat + `}]` + strings.NewReplacer("3 USD", "0 USD", `1/2 in`, `2 in`).Replace(foam), want: "foam, seat: pad is not charged: its price is nothing."},
		"point in the wrong": {quote: `, "labour_rate": "6000 USD/h"`, want: "An hour is charged at 6000.00 USD."},
		"many":               {piece: `"count": 600, ` + seat + `}]`, want: "There are 600 of seat."},
		"many panels":        {piece: seat + `, "count": 200}]`, want: "There are 200 of seat: top in one piece."},
		"wide seam":          {piece: seat + `, "left": "plain seam 3 in"}]`, want: "seat: top has a seam allowance of 3 in at its edge left."},
		"thin foam":          {piece: seat + `}]` + foam, want: "seat: pad has 1/2 in of foam to sit on."},
		"layers are one":     {piece: seat + `}]` + strings.Replace(strings.Replace(foam, "1/2 in", "1 in", 1), `"price"`, `"layers": [{"name": "a", "thickness": "1/2 in"}, {"name": "b", "thickness": "1/2 in"}], "price"`, 1)},
		"pleats": {piece: `"skirts": [{"name": "skirt", "goods": "cloth", "kind": "pleated", "sides": ["50 in", "50 in"], "drop": "7 in", "pleat": "box pleat", "pleats": 500, "underfold": "1/10 in"}]`,
			want: "seat: skirt has 500 pleats on 100 in, one every 0.20 in."},
		"channels": {piece: `"channels": [{"name": "back", "goods": "cloth", "width": "20 in", "length": "20 in", "number": 80, "rise": "1/8 in"}]`,
			want: "seat: back has 80 channels on 20 in, each 0.25 in wide."},
		"deep buttons": {piece: `"tufted": [{"name": "back", "goods": "cloth", "width": "20 in", "length": "15 in", "across": 5, "down": 5, "depth": "2 in", "rule": "half again"}]`,
			want: "seat: back is tufted 2 in deep, which takes 4.72 in of goods from button to button; its rule gives 3.75 in."},
		"twice the depth": {piece: `"tufted": [{"name": "back", "goods": "cloth", "width": "20 in", "length": "15 in", "across": 5, "down": 5, "depth": "2 in", "rule": "twice the depth"}]`},
		"a thick cushion": {piece: `"cushions": [{"name": "cube", "top": "cloth", "width": "20 in", "depth": "18 in", "thickness": "20 in"}]`, want: "seat: cube is thicker than wide: 20 in on 18 in."},
		"welt alone":      {piece: `"welts": [{"name": "welt", "goods": "cloth", "cord": "5/32 in", "runs": ["90 in"]}]`},
		"hours":           {piece: seat + `}], "labour": [{"task": "cover", "time": "145 h"}]`, want: "seat: cover takes 145 h."},
		"no labour":       {piece: seat + `}]}, {"name": "other", ` + seat + `}]` + labour, want: "seat has no labour."},
		"an errand":       {top: `, "errands": [{"task": "measure", "time": "45 min"}]`, piece: seat + `}]`},
		"a rough piece":   {piece: seat + `}]` + labour + `}, {"name": "by telephone", "from": "drop-in seat", "goods": "cloth", "rough": {}`},
		// Just as far as is not asked about, and just beyond.
		"markup to 200 %":     {quote: `, "markup": 2`},
		"markup from 200 %":   {quote: `, "markup": 2.01`, want: "The markup is 201 %."},
		"tax to 30 %":         {quote: `, "taxes": [{"name": "sales tax", "rate": "30 %", "on": ["goods"]}]`},
		"tax from 30 %":       {quote: `, "taxes": [{"name": "sales tax", "rate": "30.1 %", "on": ["goods"]}]`, want: "sales tax is 30.1 %."},
		"discount to 50 %":    {quote: `, "markup": 2, "discounts": [{"name": "friend", "rate": "50 %"}]`},
		"discount from 50 %":  {quote: `, "markup": 2, "discounts": [{"name": "friend", "rate": "51 %"}]`, want: "The discount “friend” is 51 %."},
		"fewer than 500":      {piece: `"count": 499, ` + seat + `}]`},
		"500":                 {piece: `"count": 500, ` + seat + `}]`, want: "There are 500 of seat."},
		"fewer panels":        {piece: seat + `, "count": 99}]`},
		"100 panels":          {piece: seat + `, "count": 100}]`, want: "There are 100 of seat: top in one piece."},
		"seam of 2 in":        {piece: seat + `, "left": "plain seam 2 in"}]`},
		"seam over 2 in":      {piece: seat + `, "left": "plain seam 2 1/16 in"}]`, want: "seat: top has a seam allowance of 2 1/16 in at its edge left."},
		"foam of 3/4 in":      {piece: seat + `}]` + strings.Replace(foam, "1/2 in", "3/4 in", 1)},
		"foam under 3/4 in":   {piece: seat + `}]` + strings.Replace(foam, "1/2 in", "47/64 in", 1), want: "seat: pad has 47/64 in of foam to sit on."},
		"channels of 1/2 in":  {piece: `"channels": [{"name": "back", "goods": "cloth", "width": "20 in", "length": "20 in", "number": 40, "rise": "1/8 in"}]`},
		"channels under it":   {piece: `"channels": [{"name": "back", "goods": "cloth", "width": "20 in", "length": "20 in", "number": 41, "rise": "1/8 in"}]`, want: "seat: back has 41 channels on 20 in, each 0.49 in wide."},
		"100 hours":           {piece: seat + `}], "labour": [{"task": "cover", "time": "100 h"}]`},
		"more than 100 hours": {piece: seat + `}], "labour": [{"task": "cover", "time": "100 h 30 min"}]`, want: "seat: cover takes 100 h 30 min."},
		"a sofa at once":      {piece: large + strings.Replace(labour, "2 h", "30 min", 1), want: "seat, of 6 panels, takes 30 min."},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			piece, price, quote := c.piece, c.price, c.quote
			if piece == "" {
				piece = seat + `}]`
			}
			if price == "" {
				price = "42.00 USD/yd"
			}
			if !strings.Contains(quote, "labour_rate") {
				quote += `, "labour_rate": "60.00 USD/h"`
			}
			o, err := Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "odd", "currency": "USD"`+c.top+`,
				"goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "`+price+`", "width": "54 in"}],
				"pieces": [{"name": "seat", `+piece+`}], "quote": {`+strings.TrimPrefix(quote, ", ")+`}}`), quick)
			require.NoError(t, err)
			if c.want == "" {
				assert.Empty(t, meant(o))
			} else {
				assert.Equal(t, []string{c.want}, meant(o))
			}
		})
	}
}

// Thread of many times the cover is asked about.
func TestMoreThreadThanCloth(t *testing.T) {
	o, err := demoOrder()
	require.NoError(t, err)
	assert.Empty(t, oddSizes(Spec{}, o))
	o.Sewing.Threads = slices.Clone(o.Sewing.Threads)
	for i := range o.Sewing.Threads {
		o.Sewing.Threads[i].Length *= 100
	}
	require.Len(t, oddSizes(Spec{}, o), 1)
	assert.Contains(t, oddSizes(Spec{}, o)[0], "of thread sew")

	// 5 in of thread to the square inch are not asked about, more are.
	o = WorkOrder{Cuts: []Cut{{Area: 100 * unit.SquareInch}}, Sewing: Sewing{Threads: []ThreadUse{{Length: 500 * unit.Inch}}}}
	assert.Empty(t, oddSizes(Spec{}, o))
	o.Sewing.Threads[0].Length += unit.Inch
	assert.Equal(t, []string{"14 yd of thread sew 0.7 sq ft of goods."}, oddSizes(Spec{}, o))
}

// Counts, sides and texts are taken as far as the job file says, and no further.
func TestLimitsOfTheFile(t *testing.T) {
	t.Parallel()
	require.NoError(t, checkCount(1000))
	require.ErrorIs(t, checkCount(1001), unit.ErrRange)
	require.NoError(t, checkSide(400*unit.Inch))
	require.ErrorIs(t, checkSide(400*unit.Inch+1), unit.ErrRange)
	require.NoError(t, checkSide(unit.Inch/16))
	require.ErrorIs(t, checkSide(unit.Inch/16-1), unit.ErrRange)
	long := func(n int) string { return strings.Repeat("é", n) }
	require.NoError(t, checkText(long(1000)))
	require.ErrorIs(t, checkText(long(1001)), unit.ErrRange)
	many := func(n int) []string { return slices.Repeat([]string{"a"}, n) }
	require.Empty(t, TakeOffSpec{TakenOff: TakenOff{Photos: []string{long(200)}, Notes: []string{long(500)}}, Order: []string{long(200)}}.check("at"))
	for at, f := range map[string]faults{
		"at.photos[0]": TakeOffSpec{TakenOff: TakenOff{Photos: []string{long(201)}}}.check("at"),
		"at.notes[0]":  TakeOffSpec{TakenOff: TakenOff{Notes: []string{long(501)}}}.check("at"),
		"at.order[0]":  TakeOffSpec{Order: []string{long(201)}}.check("at"),
		"at.notes":     TakeOffSpec{TakenOff: TakenOff{Notes: many(201)}}.check("at"),
	} {
		require.Len(t, f, 1, at)
		require.ErrorContains(t, f[0], at)
	}
	require.Empty(t, TakeOffSpec{TakenOff: TakenOff{Notes: many(200)}}.check("at"))
}

// Goods that nothing is made of are named; those of an option, of a welt or of a pull
// strip are in use.
func TestGoodsThatNothingIsMadeOf(t *testing.T) {
	t.Parallel()
	goods := func(id string) string {
		return `{"id": "` + id + `", "kind": "roll", "name": "cloth ` + id + `", "material": "woven", "price": "30.00 USD/yd", "width": "54 in"}`
	}
	o, err := read(t, `{"schema": "coverwright/job/1", "name": "a chair", "currency": "USD", "goods": [`+strings.Join([]string{goods("a"), goods("b"), goods("c"), goods("d"), goods("e")}, ", ")+`],
		"pieces": [{"name": "chair", "panels": [{"name": "seat", "goods": "a", "width": "20 in", "length": "20 in", "left": "raw", "right": "raw"}, {"name": "border", "goods": "a", "width": "20 in", "length": "4 in", "left": "raw", "right": "raw", "bottom": "raw"}],
			"seams": [{"sew": "seat.bottom", "to": "border.top", "finish": "welted seam", "cord": "5/32 in", "welt": "b"}],
			"fastenings": [{"fasten": ["seat.top"], "pull_strip": "c"}]}],
		"options": [{"name": "other", "replace": [{"goods": "a", "with": "d"}]}], "quote": {"labour_rate": "60.00 USD/h"}}`)
	require.NoError(t, err)
	var got []string
	for _, c := range o.Cautions {
		if strings.HasPrefix(c.Text, "Nothing is made of") {
			got = append(got, c.Text)
		}
	}
	assert.Equal(t, []string{"Nothing is made of cloth e (“e”)."}, got)
}
