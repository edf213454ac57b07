package cost_test

import (
	"fmt"
	"math/big"
	"os"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// must keeps the examples to what they show.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func ExampleParseMoney() {
	m, err := cost.ParseMoney("12.925 USD")
	if err != nil {
		fmt.Println(err)
		return
	}
	up := must(m.Round(cost.HalfUp))
	even := must(m.Round(cost.HalfEven))
	fmt.Println(m, up, even)
	_, err = cost.ParseMoney("1,250.00 USD")
	fmt.Println(err)
	// Output:
	// 12.925 USD 12.93 USD 12.92 USD
	// amount: “1,250.00”: comma in a number; want a decimal point and no thousands sign, such as 1250.50
}

func ExampleMoney_Plus() {
	a := must(cost.NewMoney("10.10", cost.USD))
	b := must(cost.MinorUnits(20, cost.USD))
	sum := must(a.Plus(b))
	fmt.Println(sum)
	e := must(cost.NewMoney("1.00", cost.EUR))
	_, err := a.Plus(e)
	fmt.Println(err)
	// Output:
	// 10.30 USD
	// “1.00 EUR”: different currencies: USD and EUR; want one currency
}

func ExampleCurrency_Digits() {
	for _, c := range []cost.Currency{cost.JPY, cost.USD, cost.KWD} {
		d := must(c.Digits())
		fmt.Println(c, c.Name(), d)
	}
	// Output:
	// JPY Yen 0
	// USD US Dollar 2
	// KWD Kuwaiti Dinar 3
}

// Leather by the square foot and by the square decimetre: a length instead of
// an area would not compile.
func ExamplePer() {
	hide := must(cost.NewMoney("9.80", cost.USD))
	perFoot := must(cost.Per(hide, unit.SquareFoot))
	perDecimetre := must(cost.ParsePrice[unit.Area]("1.05 USD/dm2"))
	area := 48 * unit.SquareFoot
	a := must(perFoot.Of(area, cost.HalfUp))
	b := must(perDecimetre.Of(area, cost.HalfUp))
	fmt.Println(perFoot, a)
	fmt.Println(perDecimetre, b)
	// Output:
	// 9.80 USD/sq ft 470.40 USD
	// 1.05 USD/dm2 468.23 USD
}

// A delivery over three pieces in proportion to their price.
func ExampleAllocate() {
	van := must(cost.NewMoney("85.00", cost.USD))
	parts := must(cost.Allocate(van, []int{1250, 640, 315}))
	fmt.Println(parts)
	// Output:
	// [48.19 USD 24.67 USD 12.14 USD]
}

func ExampleSplit() {
	whole := must(cost.NewMoney("100.00", cost.USD))
	parts := must(cost.Split(whole, 3))
	fmt.Println(parts)
	// Output:
	// [33.34 USD 33.33 USD 33.33 USD]
}

func ExampleMargin() {
	c := must(cost.NewMoney("51.64", cost.USD))
	margin := must(cost.Margin(20*unit.Percent).Price(c, cost.HalfUp))
	markup := must(cost.Markup(20*unit.Percent).Price(c, cost.HalfUp))
	fmt.Println(margin, markup)
	// Output:
	// 64.55 USD 61.97 USD
}

func ExampleMarkupOfMargin() {
	m := must(cost.MarkupOfMargin(35 * unit.Percent))
	g := must(cost.MarginOfMarkup(m))
	fmt.Println(m.PercentText(4, unit.Nearest), g.PercentText(4, unit.Nearest))
	// Output:
	// 53.8462 % 35.0000 %
}

func ExampleEstimateClass_Range() {
	m := must(cost.ParseMoney("1533.05 USD"))
	low, high, err := cost.EstimateClass(3).Range(m, cost.HalfUp)
	a := must(cost.EstimateClass(3).Accuracy())
	fmt.Println(low, high, a.Contingency, a.Basis, err)
	// Output:
	// 1226.44 USD 1992.97 USD 5 % common practice <nil>
}

func ExampleCashRuleOf() {
	rule, _ := cost.CashRuleOf(cost.CAD)
	total := must(cost.ParseMoney("5.98 CAD"))
	c := must(rule.Of(total))
	fmt.Println(c.Payable, c.Difference)
	fmt.Println(rule.Place, rule.Step, rule.Basis)
	// Output:
	// 6.00 CAD 0.02 CAD
	// Canada 0.05 CAD published (Rounding)
}

func ExampleCashRuleIn() {
	rule := must(cost.CashRuleIn("Ireland"))
	c := must(rule.Of(must(cost.ParseMoney("14.48 EUR"))))
	fmt.Println(c.Payable)
	_, ok := cost.CashRuleOf(cost.EUR)
	fmt.Println(ok)
	// Output:
	// 14.50 EUR
	// false
}

func ExampleRegimeOf() {
	r := must(cost.RegimeOf("NZ"))
	fmt.Printf("%s: %v, %v\n", r.Name, r.Roundings, r.Levels)
	fmt.Println(r.Note)
	// Output:
	// New Zealand: [half-down], [per invoice per line]
	// half a cent or less is dropped; the same level through the whole period
}

// chair makes the lines of a wing chair of the Larkfield Reading Room.
func chair() []cost.Line {
	cloth := must(cost.ParsePrice[unit.Length]("42.00 USD/yd"))
	hour := must(cost.ParsePrice[unit.Duration]("64.55 USD/h"))
	foam := must(cost.ParsePrice[unit.Volume]("5.40 USD/bd ft"))
	van := must(cost.ParseMoney("85.00 USD"))
	up := cost.Markup(25 * unit.Percent)
	a := must(cost.Item[unit.Length]{ID: "cover", Kind: cost.Goods, What: "patterned cloth", Quantity: 7*unit.Yard + unit.Yard/4,
		Net: 6 * unit.Yard, Price: cloth, Uplift: up}.Line())
	b := must(cost.Item[unit.Volume]{ID: "seat foam", Kind: cost.Foam, What: "seat foam", Quantity: 16 * unit.BoardFoot, Price: foam, Uplift: up}.Line())
	c := must(cost.Item[unit.Duration]{ID: "bench", Kind: cost.Labour, What: "bench work", Quantity: 14*unit.Hour + 30*unit.Minute, Price: hour}.Line())
	d := must(cost.LumpSum(cost.Delivery, "collection and delivery", van))
	return []cost.Line{a, b, c, d}
}

// A whole quote: material taxed and labour not, a discount before tax, half in
// advance.
func ExampleNewQuote() {
	issued := must(cost.NewDate(2026, 11, 30))
	q, err := cost.NewQuote(cost.Terms{
		Currency: cost.USD, Rounding: cost.HalfUp,
		Tax:       cost.Tax{Levies: []cost.Levy{{Name: "sales tax", Rate: 6.25 * unit.Percent, On: []cost.TaxClass{"goods", "foam"}}}, Regime: "US-SST"},
		Discounts: []cost.Discount{{Name: "pair of chairs", Rate: 5 * unit.Percent, Kinds: []cost.Kind{cost.Labour}}},
		Stages:    []cost.Stage{{Name: "deposit", Share: 50 * unit.Percent}, {Name: "balance"}},
		Issued:    issued, ValidDays: 90,
	}, chair()...)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(q)
	fmt.Println("holds until", q.ValidUntil, "- waste", q.Lines[0].Waste, q.Lines[0].WasteCost)
	// Output:
	// patterned cloth (7.25 yd)           380.63
	// seat foam (16 bd ft)                108.00
	// bench work (14.5 h)                 935.98
	// collection and delivery (1 piece)    85.00
	// subtotal                           1509.61
	// pair of chairs 5 % of 935.98        -46.80
	// sales tax 6.25 % on 488.63           30.54
	// total USD                          1493.35
	// deposit                             746.68
	// balance                             746.67
	// holds until 2027-02-28 - waste 1.25 yd 52.50 USD
}

func ExampleQuote_Explain() {
	q := must(cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp,
		Tax: cost.Tax{Levies: []cost.Levy{{Name: "sales tax", Rate: 6.25 * unit.Percent, On: []cost.TaxClass{"goods", "foam"}}}}}, chair()...))
	for _, name := range []string{"cover", "sales tax", "total"} {
		figures := must(q.Explain(name))
		for _, f := range figures {
			fmt.Println(f)
		}
	}
	// Output:
	// cover: cost = quantity × price = 7.25 yd × 42.00 USD/yd = 304.5 -> 304.50 USD (half-up to 0.01 USD, once)
	// cover: waste = (quantity - net) × price = (7.25 yd - 6 yd) × 42.00 USD/yd = 1.25 yd, 17.2 % of the quantity -> 52.50 USD (half-up to 0.01 USD, once)
	// cover: amount = cost × (1 + markup) = 304.5 × (1 + 25 %) = 380.625 -> 380.63 USD (half-up to 0.01 USD, once)
	// cover: tax = share of the tax of the invoice = 23.79 -> 23.79 USD (largest remainder)
	// sales tax = sum of its lines × rate = 488.63 × 6.25 % -> 30.54 USD (half-up, rounded per invoice)
	// total = net + tax = 1509.61 + 30.54 -> 1540.15 USD
}

func ExampleQuote_TaxMethods() {
	m := must(cost.ParseMoney("4.95 USD"))
	var lines []cost.Line
	for range 4 {
		l := must(cost.LumpSum(cost.Sundries, "zip", m))
		lines = append(lines, l)
	}
	q := must(cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp,
		Tax: cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: 7.5 * unit.Percent}}}}, lines...))
	rows := must(q.TaxMethods(cost.HalfUp, cost.HalfDown))
	for _, r := range rows {
		fmt.Println(r.Level, r.Rounding, r.Tax, r.Difference)
	}
	// Output:
	// per invoice half-up 1.49 USD 0.00 USD
	// per invoice half-down 1.48 USD -0.01 USD
	// per line half-up 1.48 USD -0.01 USD
	// per line half-down 1.48 USD -0.01 USD
}

func leatherCover() cost.Line {
	p := must(cost.ParsePrice[unit.Area]("9.80 USD/sq ft"))
	l := must(cost.Item[unit.Area]{ID: "cover", Kind: cost.Goods, What: "leather", Quantity: 75 * unit.SquareFoot, Price: p,
		Uplift: cost.Markup(25 * unit.Percent)}.Line())
	return l
}

// Cloth against leather.
func ExampleCompare() {
	t := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}
	cloth := must(cost.NewQuote(t, chair()...))
	lines := chair()
	lines[0] = leatherCover()
	leather := must(cost.NewQuote(t, lines...))
	c := must(cost.Compare(cloth, leather))
	fmt.Print(strings.ReplaceAll(c.String(), " \n", "\n"))
	// Output:
	//                            first   second  difference
	// cover                     380.63   918.75     +538.12
	// seat foam                 108.00   108.00        0.00
	// bench                     935.98   935.98        0.00
	// collection and delivery    85.00    85.00        0.00
	// subtotal                 1509.61  2047.73     +538.12
	// discount                    0.00     0.00        0.00
	// tax                         0.00     0.00        0.00
	// total                    1509.61  2047.73     +538.12
}

func ExamplePriceOptions() {
	t := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}
	arms := must(cost.ParseMoney("40.00 USD"))
	caps := must(cost.LumpSum(cost.Outwork, "arm caps", arms))
	o, err := cost.PriceOptions(t, chair(),
		cost.Option{Name: "good"},
		cost.Option{Name: "better", Lines: []cost.Line{caps}},
		cost.Option{Name: "best", Lines: []cost.Line{leatherCover(), caps}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(o)
	// Output:
	//                             good   better     best
	// cover                     380.63   380.63   918.75
	// seat foam                 108.00   108.00   108.00
	// bench                     935.98   935.98   935.98
	// collection and delivery    85.00    85.00    85.00
	// arm caps                       -    40.00    40.00
	// subtotal                 1509.61  1549.61  2087.73
	// tax                         0.00     0.00     0.00
	// total                    1509.61  1549.61  2087.73
}

func ExampleReadPriceListCSV() {
	list, err := cost.ReadPriceListCSV(strings.NewReader(`code,kind,description,price,uplift
CLOTH-12,goods,patterned cloth,42.00 USD/yd,25 % markup
HIDE-3,goods,leather,9.80 USD/sq ft,25 % markup
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	item := must(cost.ItemOf(list, "HIDE-3", 48*unit.SquareFoot))
	line := must(item.Line())
	q := must(cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, line))
	fmt.Println(q.Total)
	_, err = cost.Find[unit.Length](list, "HIDE-3")
	fmt.Println(err)

	_, err = cost.ReadPriceListCSV(strings.NewReader(`code,kind,description,price
CLOTH-12,cloth,patterned cloth,42.00 USD/yd
HIDE-3,goods,leather,"9,80 EUR/sq ft"
`))
	fmt.Println(err)
	// Output:
	// 588.00 USD
	// code: “HIDE-3, 9.80 USD/sq ft”: unknown unit; want a price such as 12.50 USD/yd
	// price list: row 2, column kind: “cloth”: unknown; want one of goods, foam, thread and sundries, labour, outwork, delivery, customer's own material, contingency, minimum charge, rounding up
	// row 3, column price: “9,80”: comma in a number; want a decimal point and no thousands sign, such as 1250.50
}

func ExampleReadPriceListJSON() {
	list, err := cost.ReadPriceListJSON(strings.NewReader(`[
	{"code": "BENCH", "kind": "labour", "description": "bench work", "price": "64.55 USD/h", "tax_class": "repair labour"}
]`))
	if err != nil {
		fmt.Println(err)
		return
	}
	p := must(cost.Find[unit.Duration](list, "BENCH"))
	fmt.Println(p, list.Entries()[0].TaxClass)
	// Output:
	// 64.55 USD/h repair labour
}

func ExamplePriceList_With() {
	yard := must(cost.Per(must(cost.ParseMoney("42.00 USD")), unit.Yard))
	cloth := must(cost.NewEntry("CLOTH-12", cost.Goods, "patterned cloth", yard))
	cloth.Uplift = cost.Markup(25 * unit.Percent)
	work := must(cost.NewEntry("BENCH", cost.Labour, "bench work", must(cost.ParsePrice[unit.Duration]("64.55 USD/h"))))
	list := must(cost.PriceList{}.With(cloth, work))

	// The same code again is a new price; the old list stays as it is.
	cloth.Price = must(cost.ParsePrice[unit.Length]("44.50 USD/yd")).Any()
	dearer := must(list.With(cloth))
	fmt.Println(must(cost.Find[unit.Length](list, "CLOTH-12")), must(cost.Find[unit.Length](dearer, "CLOTH-12")))
	if err := must(dearer.Without("BENCH")).WriteCSV(os.Stdout); err != nil {
		fmt.Println(err)
	}

	_, err := cost.NewEntry("HIDE-3", cost.Goods, "", yard)
	fmt.Println(err)
	// Output:
	// 42.00 USD/yd 44.50 USD/yd
	// code,kind,description,price,uplift,tax_class
	// CLOTH-12,goods,patterned cloth,44.50 USD/yd,25 % markup,
	// description: required; want a value
}

func ExampleEntry_Charge() {
	list := must(cost.ReadPriceListCSV(strings.NewReader(`code,kind,description,price,step,pack,cut charge,freight,supplier
webbing,thread and sundries,jute webbing,0.90 USD/yd,0.25 yd,72 yd,2.00 USD,14.00 USD,the mill
burlap,thread and sundries,burlap,2.40 USD/yd,0.25 yd,,,9.00 USD,the mill
`)))
	webbing := must(list.Entry("webbing"))
	charge := must(webbing.Charge(cost.AnyOf(500*unit.Inch), cost.HalfUp))
	for _, f := range charge.Figures {
		fmt.Println(f)
	}
	fmt.Println(charge.Amount)
	// Output:
	// use = used, rounded up to the step it is sold by = 13.889 yd -> 14 yd (sold by 0.25 yd)
	// packs to order = use / pack, rounded up = 14 yd / 72 yd -> 1 (what lies on the shelf is taken off by who orders)
	// cut charge = a fixed sum = 2.00 -> 2.00 USD (once, as the use is no whole number of packs)
	// 14.60 USD
}

func ExampleCharge_Line() {
	felt := must(cost.NewEntry("felt", cost.Foam, "cotton felt", must(cost.ParsePrice[unit.Mass]("2.80 USD/lb"))))
	felt.Step, felt.Uplift = cost.AnyOf(unit.Pound/2), cost.Markup(25*unit.Percent)
	charge := must(felt.Charge(cost.AnyOf(5*unit.Pound/2+unit.Pound/8), cost.HalfUp))
	quote := must(cost.NewQuote(cost.Terms{Currency: cost.USD}, must(charge.Line())))
	fmt.Print(quote)
	// Output:
	// cotton felt (3 lb)  10.50
	// subtotal            10.50
	// total USD           10.50
}

func ExampleFreight() {
	list := must(cost.ReadPriceListCSV(strings.NewReader(`code,kind,description,price,freight,supplier
webbing,thread and sundries,jute webbing,0.90 USD/yd,14.00 USD,the mill
burlap,thread and sundries,burlap,2.40 USD/yd,9.00 USD,the mill
`)))
	for _, line := range must(cost.Freight(list.Entries()...)) {
		fmt.Println(line.What, line.Amount.Price.Amount())
	}
	// Output:
	// freight, the mill 14.00 USD
}

func ExampleQuote_groups() {
	yard := must(cost.ParsePrice[unit.Length]("40.00 USD/yd"))
	cloth := must(cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 6 * unit.Yard, Price: yard, Uplift: cost.Markup(25 * unit.Percent),
		// By the area of the cuts: 4 of 12 sq ft are the chairs'.
		Shares: []cost.Share{{Group: "chair", Weight: int64(4 * unit.SquareFoot)}, {Group: "sofa", Weight: int64(8 * unit.SquareFoot)}}}.Line())
	work := must(cost.LumpSum(cost.Labour, "sofa, bench work", must(cost.ParseMoney("257.50 USD"))))
	work.Shares = []cost.Share{{Group: "sofa", Weight: 1}}
	van := must(cost.LumpSum(cost.Delivery, "delivery", must(cost.ParseMoney("50.00 USD"))))
	quote := must(cost.NewQuote(cost.Terms{Currency: cost.USD, Step: must(cost.ParseMoney("5.00 USD")), Groups: []cost.GroupCount{{Name: "chair", Items: 2}}}, cloth, work, van))
	for _, g := range quote.Groups {
		fmt.Println(g.Name, g.Items, g.Cost, g.Total, g.Margin.PercentText(1, unit.Nearest), must(g.Each(cost.HalfUp)))
	}
	fmt.Println(quote.Total)
	// Output:
	// chair 2 80.00 USD 100.41 USD 20.3 % 50.21 USD
	// sofa 1 417.50 USD 459.38 USD 9.1 % 459.38 USD
	// whole job 1 50.00 USD 50.21 USD 0.4 % 50.21 USD
	// 610.00 USD
}

func ExampleQuantityAs() {
	cloth := must(cost.Item[unit.Length]{Source: "pieces[0]", Kind: cost.Goods, What: "cover cloth", Quantity: 7*unit.Yard + 9*unit.Inch,
		Price: must(cost.ParsePrice[unit.Length]("42.00 USD/yd"))}.Line())
	quote := must(cost.NewQuote(cost.Terms{Currency: cost.USD}, cloth))
	for _, line := range quote.Lines {
		fmt.Println(line.Source, line.Quantity, line.Price)
		length, ok := cost.QuantityAs[unit.Length](line.Exact.Quantity)
		fmt.Println(length, ok, must(cost.PriceAs[unit.Length](line.Exact.Price)).Unit())
	}
	// Output:
	// pieces[0] 7.25 yd 42.00 USD/yd
	// 261 in true 36 in
}

func ExampleMoneyOf() {
	m := must(cost.MoneyOf(decimal.RequireFromString("12.50"), cost.USD))
	third := must(cost.RoundMoney(new(big.Rat).Quo(m.Rat(), big.NewRat(3, 1)), cost.USD, cost.HalfUp))
	fmt.Println(m, third, third.Decimal())
	// Output:
	// 12.50 USD 4.17 USD 4.17
}

func ExampleMoney_Grouped() {
	m, err := cost.NewMoney("1234.5", "USD")
	if err != nil {
		panic(err)
	}
	fmt.Println(m.Grouped())
	fmt.Println(m) // as files have it
	// Output:
	// 1,234.50 USD
	// 1234.50 USD
}

func ExampleAnyQuantity_Shop() {
	cord := cost.AnyOf(708 * unit.Inch)
	for _, per := range []cost.AnyQuantity{cost.AnyOf(unit.Yard), cost.AnyOf(unit.Metre)} {
		text, rounded := cord.Shop(per)
		fmt.Println(text, rounded)
	}
	// Output:
	// 19 2/3 yd false
	// 17.99 m true
}
