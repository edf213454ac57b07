package evaluate

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

var costEvaluators = map[string]reference.Evaluator{
	"round":            roundMoney,
	"round_to":         roundTo,
	"unit_cost":        unitCost,
	"currency_digits":  currencyDigits,
	"uplift":           uplift,
	"markup_margin":    markupMargin,
	"markup_of_margin": markupOfMargin,
	"margin_of_markup": marginOfMarkup,
	"allocate":         allocateMoney,
	"line":             lineAmount,
	"subtotal":         subtotal,
	"tax":              tax,
	"tax_inside":       taxInside,
	"tax_methods":      taxMethods,
	"tax_together":     taxTogether,
	"quote":            quoteTotals,
	"regime":           regime,
	"round_modes":      roundModes,
	"cash":             cash,
	"cash_step":        cashStep,
	"cash_in":          cashIn,
	"estimate_range":   estimateRange,

	"overhead_rate":    overheadRate,
	"overhead_budget":  overheadBudget,
	"overhead_pool":    overheadPool,
	"over_applied":     overApplied,
	"job_cost":         jobCost,
	"lot":              lot,
	"add_up":           addUp,
	"shop_rate":        shopRate,
	"productive_hours": productiveHours,
	"burden":           burden,
	"benefit_share":    benefitShare,
	"loaded_rate":      loadedRate,
	"machine_hour":     machineHour,
	"break_even":       breakEven,
	"break_even_hours": breakEvenHours,
	"margin_of_safety": marginOfSafety,
	"target_price":     targetPrice,

	"learning":          learning,
	"learning_factor":   learningFactor,
	"learning_unit":     learningUnit,
	"learning_exponent": learningExponent,
	"learning_rate":     learningRate,
	"repeats":           repeats,
	"standard_time":     standardTime,

	"bench_total": benchTotal,
	"bench_time":  benchTime,
}

// first keeps the first error of a chain of reads and calls.
type first struct{ err error }

func (f *first) money(s string) cost.Money {
	m, err := cost.ParseMoney(s)
	f.note(err)
	return m
}

func (f *first) mode(s string) cost.Rounding {
	r, err := cost.ParseRounding(s)
	f.note(err)
	return r
}

func (f *first) note(err error) {
	if f.err == nil {
		f.err = err
	}
}

// amount gives the amount of m as a number.
func amount(m cost.Money) float64 {
	x, err := strconv.ParseFloat(m.Amount(), 64)
	if err != nil {
		return -1
	}
	return x
}

func moneyValue(m cost.Money, err error) (reference.Value, error) {
	return reference.Text(m.String()), err
}

func percent(r unit.Ratio, err error) (reference.Value, error) {
	return reference.Numbers(r.Percent()), err
}

func roundMoney(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m, mode := f.money(in.Text("amount")), f.mode(in.Text("mode"))
	if f.err != nil {
		return reference.Value{}, f.err
	}
	return moneyValue(m.Round(mode))
}

// roundTo rounds an amount of dollars to a step in each of several modes.
func roundTo(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m, step := f.money(in.Text("amount")+" USD"), f.money(in.Text("step")+" USD")
	var out []float64
	for _, name := range in.List("modes") {
		r, err := m.RoundTo(step, f.mode(name))
		f.note(err)
		out = append(out, amount(r))
	}
	return reference.Numbers(out...), f.err
}

func unitCost(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m, mode := f.money(in.Text("whole")), f.mode(in.Text("mode"))
	if f.err != nil {
		return reference.Value{}, f.err
	}
	return moneyValue(m.MulDiv(1, int64(in.Int("pieces")), mode))
}

func currencyDigits(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	var out []float64
	for _, code := range in.List("codes") {
		d, err := cost.Currency(code).Digits()
		f.note(err)
		out = append(out, float64(d))
	}
	return reference.Numbers(out...), f.err
}

func readUplift(in *reference.Inputs, f *first) cost.Uplift {
	var u cost.Uplift
	f.note(u.UnmarshalText([]byte(in.Text("uplift"))))
	return u
}

func uplift(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m, mode, u := f.money(in.Text("cost")), f.mode(in.Text("mode")), readUplift(in, &f)
	if f.err != nil {
		return reference.Value{}, f.err
	}
	return moneyValue(u.Price(m, mode))
}

func markupMargin(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	c, p := f.money(in.Text("cost")), f.money(in.Text("price"))
	m, err := cost.MarkupOf(c, p)
	f.note(err)
	g, err := cost.MarginOf(c, p)
	f.note(err)
	return reference.Numbers(m.Percent(), g.Percent()), f.err
}

func markupOfMargin(in *reference.Inputs, _ string) (reference.Value, error) {
	return percent(cost.MarkupOfMargin(in.Ratio("margin")))
}

func marginOfMarkup(in *reference.Inputs, _ string) (reference.Value, error) {
	return percent(cost.MarginOfMarkup(in.Ratio("markup")))
}

func allocateMoney(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	whole := f.money(in.Text("whole"))
	var weights []int
	for _, s := range in.List("weights") {
		w, err := strconv.Atoi(s)
		f.note(err)
		weights = append(weights, w)
	}
	parts, err := cost.Allocate(whole, weights)
	f.note(err)
	var out []float64
	for _, p := range parts {
		out = append(out, amount(p))
	}
	return reference.Numbers(out...), f.err
}

// lineAmount prices one line of a quote, whatever its quantity is.
func lineAmount(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	u, mode := readUplift(in, &f), f.mode(in.Text("mode"))
	quantity, price := in.Text("quantity"), in.Text("price")
	var l cost.Line
	var err error
	_, per, _ := strings.Cut(price, "/")
	switch per {
	case "yd", "m", "ft":
		l, err = itemOf(quantity, price, u, unit.ParseLength)
	case "h":
		l, err = itemOf(quantity, price, u, unit.ParseDuration)
	case "sq ft", "dm2":
		l, err = itemOf(quantity, price, u, unit.ParseArea)
	case "bd ft":
		l, err = itemOf(quantity, price, u, unit.ParseVolume)
	case "lb":
		l, err = itemOf(quantity, price, u, unit.ParseMass)
	default:
		l, err = itemOf(quantity, price, u, func(s string) (cost.Pieces, error) {
			var p cost.Pieces
			return p, p.UnmarshalText([]byte(s))
		})
	}
	f.note(err)
	if f.err != nil {
		return reference.Value{}, f.err
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: mode}, l)
	return reference.Numbers(amount(q.Subtotal)), err
}

func itemOf[Q cost.Quantity](quantity, price string, u cost.Uplift, parse func(string) (Q, error)) (cost.Line, error) {
	var f first
	q, err := parse(quantity)
	f.note(err)
	p, err := cost.ParsePrice[Q](price)
	f.note(err)
	if f.err != nil {
		return cost.Line{}, f.err
	}
	return cost.Item[Q]{Kind: cost.Goods, What: "item", Quantity: q, Price: p, Uplift: u}.Line()
}

// lumps makes lines of plain amounts.
func lumps(in *reference.Inputs, name string, c cost.Currency, f *first) []cost.Line {
	var out []cost.Line
	for _, s := range in.List(name) {
		m, err := cost.NewMoney(s, c)
		f.note(err)
		l, err := cost.LumpSum(cost.Goods, "line", m)
		f.note(err)
		out = append(out, l)
	}
	return out
}

func subtotal(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	c := cost.Currency(in.Text("currency"))
	q, err := cost.NewQuote(cost.Terms{Currency: c, Rounding: cost.HalfUp}, lumps(in, "lines", c, &f)...)
	f.note(err)
	return reference.Numbers(amount(q.Subtotal)), f.err
}

func tax(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	c := cost.Currency(in.Text("currency"))
	t := cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: in.Ratio("rate")}}}
	f.note(t.Level.UnmarshalText([]byte(in.Text("level"))))
	q, err := cost.NewQuote(cost.Terms{Currency: c, Rounding: f.mode(in.Text("mode")), Tax: t}, lumps(in, "lines", c, &f)...)
	f.note(err)
	return reference.Numbers(amount(q.Tax)), f.err
}

func taxInside(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	c := cost.Currency(in.Text("currency"))
	t := cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: in.Ratio("rate")}}, Inclusive: true}
	q, err := cost.NewQuote(cost.Terms{Currency: c, Rounding: f.mode(in.Text("mode")), Tax: t}, lumps(in, "gross", c, &f)...)
	f.note(err)
	return reference.Numbers(amount(q.Tax)), f.err
}

// taxMethods gives the tax per invoice, per line and the difference.
func taxMethods(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	c := cost.Currency(in.Text("currency"))
	t := cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: in.Ratio("rate")}}}
	q, err := cost.NewQuote(cost.Terms{Currency: c, Rounding: f.mode(in.Text("mode")), Tax: t}, lumps(in, "lines", c, &f)...)
	f.note(err)
	rows, err := q.TaxMethods()
	f.note(err)
	if f.err != nil {
		return reference.Value{}, f.err
	}
	return reference.Numbers(amount(rows[0].Tax), amount(rows[1].Tax), amount(rows[1].Difference)), nil
}

// taxTogether gives the tax of several levies rounded apart and together.
func taxTogether(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	lines := lumps(in, "lines", cost.USD, &f)
	var t cost.Tax
	for i, s := range in.List("rates") {
		r, err := unit.ParseRatio(s)
		f.note(err)
		t.Levies = append(t.Levies, cost.Levy{Name: "levy " + strconv.Itoa(i+1), Rate: r})
	}
	mode := f.mode(in.Text("mode"))
	var out []float64
	for _, together := range []bool{false, true} {
		t.Together = together
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: mode, Tax: t}, lines...)
		f.note(err)
		out = append(out, amount(q.Tax))
	}
	return reference.Numbers(out...), f.err
}

// quoteTotals gives tax, total, deposit and balance of a quote whose goods and
// labour are taxed apart.
func quoteTotals(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	var lines []cost.Line
	for _, k := range []struct {
		name string
		kind cost.Kind
	}{{"goods", cost.Goods}, {"labour", cost.Labour}, {"delivery", cost.Delivery}} {
		for _, s := range in.List(k.name) {
			l, err := cost.LumpSum(k.kind, k.name, f.money(s+" USD"))
			f.note(err)
			lines = append(lines, l)
		}
	}
	levy := cost.Levy{Name: "sales tax", Rate: in.Ratio("rate")}
	if in.Text("on") == "goods" {
		levy.On = []cost.TaxClass{cost.Goods.TaxClass()}
	}
	q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp, Tax: cost.Tax{Levies: []cost.Levy{levy}},
		Stages: []cost.Stage{{Name: "deposit", Share: in.Ratio("deposit")}, {Name: "balance"}}}, lines...)
	f.note(err)
	if f.err != nil {
		return reference.Value{}, f.err
	}
	return reference.Numbers(amount(q.Tax), amount(q.Total), amount(q.Payments[0].Amount), amount(q.Payments[1].Amount)), nil
}

// regime gives the modes and levels that a rounding rule allows.
func regime(in *reference.Inputs, _ string) (reference.Value, error) {
	r, err := cost.RegimeOf(in.Text("code"))
	var modes, levels []string
	for _, m := range r.Roundings {
		modes = append(modes, m.String())
	}
	for _, l := range r.Levels {
		levels = append(levels, l.String())
	}
	return reference.Text(strings.Join(modes, " or ") + "; " + strings.Join(levels, " or ")).On(r.Basis), err
}

func roundModes(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m := f.money(in.Text("amount"))
	var out []string
	for _, name := range in.List("modes") {
		r, err := m.Round(f.mode(name))
		f.note(err)
		out = append(out, r.String())
	}
	return reference.Text(strings.Join(out, ";")), f.err
}

func cashRule(in *reference.Inputs) (cost.CashRule, cost.Currency, error) {
	c := cost.Currency(in.Text("currency"))
	r, ok := cost.CashRuleOf(c)
	if !ok {
		return r, c, fmt.Errorf("no cash rule for %s", c)
	}
	return r, c, nil
}

func cash(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	r, c, err := cashRule(in)
	f.note(err)
	var out []float64
	for _, s := range in.List("totals") {
		t, err := r.Of(f.money(s + " " + string(c)))
		f.note(err)
		out = append(out, amount(t.Payable))
	}
	return reference.Numbers(out...).On(r.Basis), f.err
}

// cashIn gives totals as they are paid in cash at a place.
func cashIn(in *reference.Inputs, currency string) (reference.Value, error) {
	var f first
	r, err := cost.CashRuleIn(in.Text("place"))
	f.note(err)
	var out []float64
	for _, s := range in.List("totals") {
		t, err := r.Of(f.money(s + " " + currency))
		f.note(err)
		out = append(out, amount(t.Payable))
	}
	return reference.Numbers(out...), f.err
}

func cashStep(in *reference.Inputs, _ string) (reference.Value, error) {
	r, _, err := cashRule(in)
	return reference.Numbers(amount(r.Step)).On(r.Basis), err
}

func estimateRange(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	class := cost.EstimateClass(in.Int("class"))
	low, high, err := class.Range(f.money(in.Text("estimate")), f.mode(in.Text("mode")))
	f.note(err)
	a, err := class.Accuracy()
	f.note(err)
	return reference.Numbers(amount(low), amount(high)).On(a.Basis), f.err
}
