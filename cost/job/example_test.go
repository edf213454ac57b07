package job_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// Six drop-in seats in leather, from finished size to price.
func ExampleBuild() {
	perFoot, err := cost.ParsePrice[unit.Area]("9.50 USD/sq ft")
	if err != nil {
		fmt.Println(err)
		return
	}
	hour, err := cost.ParsePrice[unit.Duration]("64.55 USD/h")
	if err != nil {
		fmt.Println(err)
		return
	}
	pull := allowance.Edge{Finish: allowance.PullOver, Allowance: allowance.Exactly(3 * unit.Inch)}
	order, err := job.Build(context.Background(), job.Spec{
		Schema: job.SpecSchema, Name: "reading room seats", Currency: cost.USD,
		Goods: []job.GoodsSpec{{ID: "hide", Kind: job.HideGoods, Name: "tan leather", Material: thread.Leather,
			Price: job.GoodsPrice{PerArea: perFoot}, HideArea: 50 * unit.SquareFoot}},
		Pieces: []job.Furniture{{Name: "drop-in seat", Count: 6,
			Panels: []job.PanelSpec{{Name: "cover", Goods: "hide", Width: 20 * unit.Inch, Length: 16 * unit.Inch, Edges: pull}},
			Labour: []job.LabourSpec{{Task: "strip and cover", Time: 55 * unit.Minute}}}},
		Quote: job.QuoteSpec{LabourRate: hour, Markup: 0.25},
	}, job.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	c := order.Cuts[0]
	fmt.Println("cut", c.Count, "at", c.Cut.Width, "x", c.Cut.Length.Decimal(unit.Inch, 1, unit.Nearest))
	fmt.Println("buy", order.Purchases[0].Hides, "hide,", order.Purchases[0].Answers[1].Kind)
	fmt.Println("price", order.Quote.Total)
	// Output:
	// cut 6 at 25 1/2 in x 21.6 in
	// buy 1 hide, rule of thumb
	// price 948.78 USD
}

// A job on top of a shop file names only what is its own.
func ExampleShop_Read() {
	shop, err := job.ReadShop(strings.NewReader(`{"schema": "coverwright/shop/1", "currency": "USD", "shop": {"name": "Quillmere Upholstery"},
		"goods": [{"id": "tweed", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"quote": {"labour_rate": "60.00 USD/h", "markup": "25 %"}}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, markup := range []string{`{}`, `{"markup": "0 %"}`, `{"markup": "lots"}`} {
		order, err := shop.Read(context.Background(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "bench", "quote": `+markup+`,
			"pieces": [{"name": "bench", "panels": [{"name": "top", "goods": "tweed", "width": "40 in", "length": "14 in"}]}]}`), job.Options{})
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(order.Shop.Name, order.Quote.Total)
	}
	// Output:
	// Quillmere Upholstery 32.81 USD
	// Quillmere Upholstery 26.25 USD
	// line 1: quote.markup: “lots”: not a quantity; want a ratio such as 25 % or 0.25
}

// A job file with two faults: both are named, with field and line.
func ExampleRead() {
	_, err := job.Read(context.Background(), strings.NewReader(`{
  "schema": "coverwright/job/1", "name": "stool", "currency": "USD",
  "goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40 USD/yd", "width": "54 in"}],
  "pieces": [{"name": "stool", "panels": [
    {"name": "top", "goods": "cloth", "width": "18", "length": "18 in"},
    {"name": "side", "goods": "tweed", "width": "18 in", "length": "4 in"}
  ]}],
  "quote": {"labour_rate": "50 USD/h"}
}`), job.Options{})
	fmt.Println(err)
	// Output:
	// line 5: pieces[0].panels[0].width: “18”: unit missing; want one of: in, ft, yd, mm, cm, m, mil, um, nm
	// line 6: pieces[0].panels[1].goods: “tweed”: unknown; want one of cloth
}

// What a program tells of each fault: its line, the field, and what is wanted there.
func ExampleFaults() {
	_, err := job.Read(context.Background(), strings.NewReader(`{
  "schema": "coverwright/job/1", "name": "stool", "currency": "USD",
  "goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "wool", "price": "40 USD/yd", "width": "54 in"}],
  "pieces": [{"name": "stool", "panels": [{"name": "top", "goods": "cloth", "width": "18", "length": "18 in"}]}],
  "quote": {"labour_rate": "50 USD/h"}
}`), job.Options{})
	var faults job.Faults
	if !errors.As(err, &faults) {
		fmt.Println(err)
		return
	}
	for _, f := range faults {
		var input *unit.InputError
		if errors.As(f, &input) {
			fmt.Printf("%d: %s is %q\n", f.Line, input.Field, input.Value)
		}
	}
	// Output:
	// 3: goods[0].material is "wool"
	// 4: pieces[0].panels[0].width is "18"
}

// The same cloth in two widths: the wider one costs more a yard and less in all.
func ExampleCompareRolls() {
	narrow, _ := cost.ParsePrice[unit.Length]("20 USD/yd")
	wide, _ := cost.ParsePrice[unit.Length]("38 USD/yd")
	seat, _ := layout.RectPiece("seat", 27*unit.Inch, 27*unit.Inch, 6)
	out, best, err := job.CompareRolls(context.Background(), []job.RollOffer{
		{Roll: material.Roll{Name: "45 in", Width: 45 * unit.Inch, Increment: unit.Yard / 8}, Price: narrow},
		{Roll: material.Roll{Name: "54 in", Width: 54 * unit.Inch, Increment: unit.Yard / 8}, Price: wide},
	}, []layout.Piece{seat}, layout.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range out {
		fmt.Println(r.Offer.Roll.Name, r.Ordered.Order.Mixed(unit.Yard, unit.Eighths, unit.Up), r.Cost)
	}
	fmt.Println("buy", out[best].Offer.Roll.Name)
	// Output:
	// 45 in 4 5/8 yd 92.50 USD
	// 54 in 2 3/8 yd 90.25 USD
	// buy 54 in
}

// Six drop-in seats from their kind: two measures, the rest is usual.
func ExampleRead_fromKind() {
	order, err := job.Read(context.Background(), strings.NewReader(`{
		"schema": "coverwright/job/1", "name": "six seats", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "dining chair", "count": 6, "from": "drop-in seat", "goods": "cloth", "width": "19 in", "depth": "17 in"}],
		"quote": {"labour_rate": "60.00 USD/h"}}`), job.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	c := order.Cuts[0]
	fmt.Println(c.Part, c.Count, "cut", c.Cut.Width, "x", c.Cut.Length)
	// Output: seat 6 cut 26 1/2 in x 24 1/2 in
}

// Two stools and a bench of one cloth: what each piece of furniture costs the shop
// and brings, with the price rounded up and a deposit that pays for the cloth.
func ExampleRead_byPiece() {
	order, err := job.Read(context.Background(), strings.NewReader(`{
		"schema": "coverwright/job/1", "name": "stools and a bench", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [
			{"name": "stool", "count": 2, "panels": [{"name": "seat", "goods": "cloth", "width": "22 in", "length": "22 in"}], "labour": [{"task": "cover", "time": "1 h"}]},
			{"name": "bench", "panels": [{"name": "seat", "goods": "cloth", "width": "50 in", "length": "22 in"}], "labour": [{"task": "cover", "time": "2 h"}]}],
		"quote": {"labour_rate": "60.00 USD/h", "markup_by": {"goods": "40 %"}, "step": "5.00 USD", "deposit": "20 %", "deposit_covers": ["goods"],
			"extras": [{"kind": "delivery", "name": "delivery", "amount": "45.00 USD"}]}}`), job.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, g := range order.Quote.Groups {
		each, err := g.Each(order.Quote.Rounding)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(g.Name, g.Items, "cost", g.Cost, "price", g.Net, "margin", g.Margin.PercentText(1, unit.Nearest), "each", each)
	}
	fmt.Println(order.Quote.Total, order.Quote.Payments[0].Amount, order.Quote.Payments[0].Covers)
	// Output:
	// stool 2 cost 149.88 USD price 162.61 USD margin 7.8 % each 81.31 USD
	// bench 1 cost 153.12 USD price 167.17 USD margin 8.4 % each 167.17 USD
	// whole job 1 cost 45.00 USD price 45.22 USD margin 0.5 % each 45.22 USD
	// 375.00 USD 88.20 USD [goods]
}

// A seat by its sides and diagonals: what the bench may rely on, in a metric shop.
func ExampleCut_TapeNotes() {
	seat, err := shape.Form{Tolerance: 2 * unit.Millimetre, Quadrilateral: &shape.QuadrilateralForm{
		Bottom: 520 * unit.Millimetre, Right: 480 * unit.Millimetre, Top: 440 * unit.Millimetre, Left: 481 * unit.Millimetre,
		Diagonal: 677 * unit.Millimetre, SecondDiagonal: 679 * unit.Millimetre,
	}}.Taped()
	if err != nil {
		fmt.Println(err)
		return
	}
	cut := job.Cut{Part: "seat", Tolerance: &seat.Tolerance}
	for _, note := range cut.TapeNotes(pattern.Metric) {
		fmt.Println(note)
	}
	// Output:
	// by tape, each measure ± 2.0 mm: cut size ± 2.2 mm across and 2.1 mm along (95 of 100), never off by more than 3.2 mm across and 3.1 mm along
	// area ± 0.4 %
	// seams bottom ± 2.2 mm, at most 3.2 mm; right, top, left ± 2.2 mm, at most 3.3 mm
	// the second diagonal agrees within 0.1 mm
}

// The same job a year later, when the cloth has become dearer.
func ExampleWorkOrder_Against() {
	bench := func(price string) job.WorkOrder {
		o, err := job.Read(context.Background(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "bench", "currency": "USD",
			"goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "`+price+`", "width": "54 in", "margin": {"squaring": "0 in"}}],
			"pieces": [{"name": "bench", "panels": [{"name": "seat", "goods": "cloth", "width": "40 in", "length": "35 in"}], "labour": [{"task": "sew", "time": "3 h"}]}],
			"quote": {"labour_rate": "60.00 USD/h"}}`), job.Options{Effort: 0.001})
		if err != nil {
			log.Fatal(err)
		}
		return o
	}
	saved, err := json.Marshal(bench("42.00 USD/yd"))
	if err != nil {
		log.Fatal(err)
	}
	last, err := job.ReadOrder(bytes.NewReader(saved))
	if err != nil {
		log.Fatal(err)
	}
	c, err := bench("50.00 USD/yd").Against(last)
	if err != nil {
		log.Fatal(err)
	}
	for _, r := range c.Lines {
		fmt.Println(r.Change, r.B, r.Difference)
	}
	// Output:
	// changed wool tweed: 1 yd at 50.00 USD/yd 8.00 USD
	// same bench: sew: 3 h at 60.00 USD/h 0.00 USD
}

// Four seats of 20 in before the cloth is chosen: plain goods 54 in wide.
func ExampleYardageCard() {
	spec, err := job.ReadSpec(strings.NewReader(`{"schema": "coverwright/job/1", "name": "four seats", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "seat", "panels": [{"name": "seat", "goods": "cloth", "count": 4, "width": "20 in", "length": "20 in"}]}],
		"quote": {"labour_rate": "60.00 USD/h"}}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	card, err := job.YardageCard(context.Background(), spec, job.Options{Effort: 0.01})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(card[0].Width, card[0].Need, "->", card[0].Length.Mixed(unit.Yard, unit.Eighths, unit.Nearest))
	// Output: 54 in 42 in -> 1 3/8 yd
}
