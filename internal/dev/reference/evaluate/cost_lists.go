package evaluate

import (
	"errors"
	"strconv"

	"github.com/shopspring/decimal"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// listEvaluators are those of what stands in a price list, of lines that are found
// again in a quote, of the times of single tasks, and of goods in stock.
var listEvaluators = map[string]reference.Evaluator{
	"money_from_nothing": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c := cost.Currency(in.Text("currency"))
		d, err := decimal.NewFromString(in.Text("amount"))
		if err != nil {
			return reference.Value{}, err
		}
		m, err := cost.MoneyOf(d, c)
		zero, zeroErr := cost.Zero(c)
		if err := errors.Join(err, zeroErr); err != nil {
			return reference.Value{}, err
		}
		return moneyValue(zero.Plus(m))
	},
	"price_list_line": priceListLine,
	"price_list":      priceList,
	"quote_from":      quoteFrom,
	"rate_as_margin": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		u := readUplift(in, &f)
		if f.err != nil {
			return reference.Value{}, f.err
		}
		return percent(cost.MarginOfMarkup(u.Rate()))
	},
	"cash_rules":       cashRules,
	"bench_some_tasks": benchSomeTasks,
	"bench_answer":     benchAnswer,
	"stock_again": func(in *reference.Inputs, _ string) (reference.Value, error) {
		goods := material.Roll{Width: in.Length("goods"), Selvage: in.Length("selvage"), Repeat: in.Length("repeat")}
		whole := stock.Length{Name: "whole", Length: in.Length("length")}.Of(goods)
		part, err := whole.Part(0, in.Length("y"), in.Length("width"), in.Length("along"))
		if err != nil {
			return reference.Value{}, err
		}
		again := stock.Remnant("rest", part, goods).Of(goods)
		return reference.Numbers(whole.Roll.Usable().Inches(), whole.Length.Inches(), again.Roll.Usable().Inches(), again.Length.Inches()), nil
	},
}

// priceListLine quotes a quantity of an entry of a price list, and gives how many
// times it is the unit of the price, its cost and what it is sold for.
func priceListLine(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	p, err := cost.ParsePrice[unit.Length](in.Text("price"))
	f.note(err)
	e, err := cost.NewEntry("cloth", cost.Goods, "cloth", p)
	f.note(err)
	e.Uplift = readUplift(in, &f)
	list, err := cost.PriceList{}.With(e)
	f.note(err)
	item, err := cost.ItemOf(list, "cloth", in.Length("quantity"))
	f.note(err)
	l, err := item.Line()
	f.note(err)
	if f.err != nil {
		return reference.Value{}, f.err
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, l)
	f.note(err)
	line, _ := q.Line("cloth")
	return reference.Numbers(float64(line.Exact.Units()), amount(line.Cost), amount(line.Amount)), f.err
}

// priceList adds up the prices of a list, and finds one of them by its number.
func priceList(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	var list cost.PriceList
	for i, text := range in.List("prices") {
		p, err := cost.ParsePrice[unit.Length](text + " USD/yd")
		f.note(err)
		if p.Amount().Sign() == 0 {
			return reference.Value{}, missing("a price")
		}
		e, err := cost.NewEntry(strconv.Itoa(i+1), cost.Goods, "goods", p)
		f.note(err)
		list, err = list.With(e)
		f.note(err)
	}
	var all []cost.Money
	for _, e := range list.Entries() {
		all = append(all, e.Price.Amount())
	}
	sum, err := cost.Sum(all...)
	f.note(err)
	one, err := list.Entry(in.Text("of"))
	f.note(err)
	return reference.Numbers(amount(sum), amount(one.Price.Amount())), f.err
}

// quoteFrom gives the amounts of the lines that were made of one source.
func quoteFrom(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	sources := in.List("sources")
	var lines []cost.Line
	for i, text := range in.List("lines") {
		p, err := cost.Per(f.money(text+" USD"), cost.Pieces(1))
		f.note(err)
		if i >= len(sources) {
			return reference.Value{}, missing("a source")
		}
		l, err := cost.Item[cost.Pieces]{ID: strconv.Itoa(i), Source: sources[i], Kind: cost.Goods, What: "goods", Quantity: 1, Price: p}.Line()
		f.note(err)
		lines = append(lines, l)
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, lines...)
	f.note(err)
	var out []float64
	for _, l := range q.From(in.Text("from")) {
		out = append(out, amount(l.Amount))
	}
	return reference.Numbers(out...), f.err
}

// cashRules pays totals of so many steps of each rule of the table in cash, and
// counts those that are paid as another sum.
func cashRules(in *reference.Inputs, _ string) (reference.Value, error) {
	rules, err := cost.CashRules()
	if err != nil {
		return reference.Value{}, err
	}
	changed := 0
	for _, r := range rules {
		total, err := r.Step.Scale(in.Ratio("steps"), cost.HalfUp)
		if err != nil {
			return reference.Value{}, err
		}
		paid, err := r.Of(total)
		if err != nil {
			return reference.Value{}, err
		}
		if !paid.Payable.Equal(total) {
			changed++
		}
	}
	return reference.Numbers(float64(changed)), nil
}

// ownPiece is a piece of a shop's own table of times.
func ownPiece(in *reference.Inputs) bench.Piece {
	p := bench.Piece{Name: "stool"}
	for name, span := range map[string]*bench.Span{"cut": &p.Cut, "sew": &p.Sew, "cover": &p.Cover} {
		span.From, span.To = in.Duration(name+"_from"), in.Duration(name+"_to")
	}
	return p
}

// someTasks reads tasks by their names.
func someTasks(in *reference.Inputs) ([]bench.Task, error) {
	var out []bench.Task
	for _, name := range in.List("tasks") {
		var t bench.Task
		if err := t.UnmarshalText([]byte(name)); err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	return out, nil
}

// benchSomeTasks adds up the times of some tasks of a piece.
func benchSomeTasks(in *reference.Inputs, _ string) (reference.Value, error) {
	p := ownPiece(in)
	tasks, err := someTasks(in)
	if err != nil {
		return reference.Value{}, err
	}
	var sum bench.Span
	for _, t := range tasks {
		if sum, err = sum.Plus(p.Time(t)); err != nil {
			return reference.Value{}, err
		}
	}
	return reference.Numbers(sum.From.Hours(), sum.To.Hours()), nil
}

// benchAnswer gives what some tasks take on all copies of a piece.
func benchAnswer(in *reference.Inputs, _ string) (reference.Value, error) {
	tasks, err := someTasks(in)
	if err != nil {
		return reference.Value{}, err
	}
	share := in.Ratio("share")
	e, err := bench.Table{Pieces: []bench.Piece{ownPiece(in)}}.Estimate(bench.Build{Piece: "stool", Share: &share})
	if err != nil {
		return reference.Value{}, err
	}
	a := bench.Answer{Parts: []bench.Part{{Count: in.Int("count"), Estimate: e}}}
	span, usual, err := a.Of(tasks...)
	return reference.Numbers(span.From.Hours(), span.To.Hours(), usual.Hours()), err
}
