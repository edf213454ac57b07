package cost_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

func TestItemRefused(t *testing.T) {
	t.Parallel()
	good := cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 7 * unit.Yard, Price: price[unit.Length](t, "42.00 USD/yd")}
	_, err := good.Line()
	require.NoError(t, err)
	for _, tc := range []struct {
		name  string
		spoil func(*cost.Item[unit.Length])
		field string
		err   error
	}{
		{"no kind", func(i *cost.Item[unit.Length]) { i.Kind = 0 }, "kind", unit.ErrRequired},
		{"odd kind", func(i *cost.Item[unit.Length]) { i.Kind = 99 }, "kind", unit.ErrRequired},
		{"no description", func(i *cost.Item[unit.Length]) { i.What = "" }, "what", unit.ErrRequired},
		{"no price", func(i *cost.Item[unit.Length]) { i.Price = cost.LengthPrice{} }, "price", unit.ErrRequired},
		{"negative", func(i *cost.Item[unit.Length]) { i.Quantity = -unit.Yard }, "quantity", unit.ErrRange},
		{"forgotten unit", func(i *cost.Item[unit.Length]) { i.Quantity = 7 }, "quantity", unit.ErrForgottenUnit},
		{"net above quantity", func(i *cost.Item[unit.Length]) { i.Net = 8 * unit.Yard }, "net", unit.ErrRange},
		{"negative net", func(i *cost.Item[unit.Length]) { i.Net = -unit.Yard }, "net", unit.ErrRange},
		{"margin of 100 %", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Margin(1) }, "margin", unit.ErrRange},
		{"negative markup", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Markup(-0.1) }, "markup", unit.ErrRange},
		{"NaN markup", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Markup(unit.Ratio(math.NaN())) }, "markup", unit.ErrNotFinite},
		{"infinite margin", func(i *cost.Item[unit.Length]) { i.Uplift = cost.Margin(unit.Ratio(math.Inf(-1))) }, "margin", unit.ErrNotFinite},
	} {
		t.Run(tc.name, func(t *testing.T) {
			it := good
			tc.spoil(&it)
			_, err := it.Line()
			require.ErrorIs(t, err, tc.err)
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			require.Contains(t, in.Field, tc.field)
		})
	}
}

func TestTermsRefused(t *testing.T) {
	t.Parallel()
	lump := func(s string) cost.Line {
		l, err := cost.LumpSum(cost.Goods, "line", money(t, s))
		return line(t, l, err)
	}
	issued, err := cost.NewDate(2026, 2, 1)
	require.NoError(t, err)
	for _, tc := range []struct {
		name  string
		spoil func(*cost.Terms)
		field string
		err   error
	}{
		{"no currency", func(c *cost.Terms) { c.Currency = "" }, "currency", cost.ErrNoCurrency},
		{"unknown currency", func(c *cost.Terms) { c.Currency = "QQQ" }, "currency", unit.ErrUnknown},
		{"gold", func(c *cost.Terms) { c.Currency = "XAU" }, "currency", unit.ErrRange},
		{"other currency", func(c *cost.Terms) { c.Currency = cost.EUR }, "lines[0]", cost.ErrCurrency},
		{"no rounding", func(c *cost.Terms) { c.Rounding = 0 }, "rounding", cost.ErrMode},
		{"nameless levy", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Rate: 0.1}} }, "tax.levies[0].name", unit.ErrRequired},
		{"levy above 100 %", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", Rate: 1.1}} }, "tax.levies[0].rate", unit.ErrRange},
		{"NaN levy", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", Rate: unit.Ratio(math.NaN())}} }, "tax.levies[0].rate", unit.ErrNotFinite},
		{"misspelt class", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", On: []cost.TaxClass{"good"}}} }, "tax.levies[0].on", unit.ErrUnknown},
		{"misspelt exception", func(c *cost.Terms) { c.Tax.Levies = []cost.Levy{{Name: "x", Except: []cost.TaxClass{"labuor"}}} }, "tax.levies[0].on", unit.ErrUnknown},
		{"odd level", func(c *cost.Terms) { c.Tax.Level = 7 }, "tax.level", unit.ErrUnknown},
		{"unknown regime", func(c *cost.Terms) { c.Tax.Regime = "MOON" }, "tax.regime", unit.ErrUnknown},
		{"mode against the regime", func(c *cost.Terms) { c.Tax.Regime, c.Tax.Rounding = "NZ", cost.HalfUp }, "tax.rounding", unit.ErrRange},
		{"level against the regime", func(c *cost.Terms) { c.Tax.Regime, c.Tax.Level = "JP", cost.PerLine }, "tax.level", unit.ErrRange},
		{"nameless discount", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Rate: 0.1}} }, "discounts[0].name", unit.ErrRequired},
		{"discount above 100 %", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Rate: 1.5}} }, "discounts[0].rate", unit.ErrRange},
		{"discount both ways", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Rate: 0.1, Amount: money(t, "1 USD")}}
		}, "discounts[0].amount", unit.ErrRange},
		{"negative discount", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "-1 USD")}} }, "discounts[0].amount", unit.ErrRange},
		{"discount above the price", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "101 USD")}} }, "discounts[0].amount", unit.ErrRange},
		{"discount after tax above the total", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "101 USD"), AfterTax: true}}
		}, "discounts[0].amount", unit.ErrRange},
		{"discount finer than a cent", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "1.005 USD")}} }, "discounts[0]", cost.ErrFraction},
		{"discount in euros", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Amount: money(t, "1 EUR")}} }, "discounts[0]", cost.ErrCurrency},
		{"discount on an odd kind", func(c *cost.Terms) { c.Discounts = []cost.Discount{{Name: "x", Rate: 0.1, Kinds: []cost.Kind{0}}} }, "discounts[0].kinds[0]", unit.ErrRequired},
		{"kinds after tax", func(c *cost.Terms) {
			c.Discounts = []cost.Discount{{Name: "x", Rate: 0.1, Kinds: []cost.Kind{cost.Goods}, AfterTax: true}}
		}, "discounts[0].kinds", unit.ErrRange},
		{"nameless stage", func(c *cost.Terms) { c.Stages = []cost.Stage{{}} }, "stages[0].name", unit.ErrRequired},
		{"shares that do not add up", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Share: 0.3}, {Name: "b", Share: 0.3}} }, "stages", unit.ErrRange},
		{"shares above the total", func(c *cost.Terms) {
			c.Stages = []cost.Stage{{Name: "a", Share: 0.8}, {Name: "b", Share: 0.8}, {Name: "c"}}
		}, "stages[2]", unit.ErrRange},
		{"two balances", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a"}, {Name: "b"}} }, "stages[1]", unit.ErrRange},
		{"stage both ways", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Share: 0.5, Amount: money(t, "1 USD")}} }, "stages[0].amount", unit.ErrRange},
		{"negative stage", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Amount: money(t, "-1 USD")}} }, "stages[0].amount", unit.ErrRange},
		{"stage in euros", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", Amount: money(t, "1 EUR")}, {Name: "b"}} }, "stages[0].amount", cost.ErrCurrency},
		{"stage finer than a cent", func(c *cost.Terms) {
			c.Stages = []cost.Stage{{Name: "a", Amount: money(t, "0.001 USD")}, {Name: "b"}}
		}, "stages[0]", cost.ErrFraction},
		{"stage at least of no kind", func(c *cost.Terms) { c.Stages = []cost.Stage{{Name: "a", AtLeast: []cost.Kind{0}}, {Name: "b"}} }, "stages[0].at_least[0]", unit.ErrRequired},
		{"contingency above 100 %", func(c *cost.Terms) { c.Contingency = 2 }, "contingency", unit.ErrRange},
		{"class 6", func(c *cost.Terms) { c.Class = 6 }, "class", unit.ErrRange},
		{"negative days", func(c *cost.Terms) { c.Issued, c.ValidDays = issued, -1 }, "valid_days", unit.ErrRange},
		{"cash of another country", func(c *cost.Terms) { c.Cash, _ = cost.CashRuleOf(cost.CAD) }, "cash", cost.ErrCurrency},
		{"cash without a mode", func(c *cost.Terms) { c.Cash = cost.CashRule{Step: money(t, "0.05 USD")} }, "cash", cost.ErrMode},
	} {
		t.Run(tc.name, func(t *testing.T) {
			terms := cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}
			tc.spoil(&terms)
			_, err := cost.NewQuote(terms, lump("100 USD"))
			require.ErrorIs(t, err, tc.err)
			var in *unit.InputError
			require.ErrorAs(t, err, &in)
			require.Contains(t, in.Field, tc.field)
		})
	}
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, cost.Line{})
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, lump("999999999999999 USD"), lump("1 USD"))
	require.ErrorIs(t, err, unit.ErrOverflow)
}

func TestRateCalculatorsRefuse(t *testing.T) {
	t.Parallel()
	usd := func(s string) cost.Money { return money(t, s+" USD") }
	wage := price[unit.Duration](t, "20.00 USD/h")
	for name, f := range map[string]func() error{
		"no wage":      func() error { _, err := cost.ShopRate{}.Rate(cost.HalfUp); return err },
		"burden 400 %": func() error { _, err := cost.ShopRate{Wage: wage, Burden: 4}.Rate(cost.HalfUp); return err },
		"NaN burden": func() error {
			_, err := cost.ShopRate{Wage: wage, Burden: unit.Ratio(math.NaN())}.Rate(cost.HalfUp)
			return err
		},
		"no mode":            func() error { _, err := cost.ShopRate{Wage: wage}.Rate(0); return err },
		"overhead, no hours": func() error { _, err := cost.ShopRate{Wage: wage, Overhead: usd("1")}.Rate(cost.HalfUp); return err },
		"hours, no overhead": func() error { _, err := cost.ShopRate{Wage: wage, Hours: unit.Hour}.Rate(cost.HalfUp); return err },
		"overhead in euros": func() error {
			_, err := cost.ShopRate{Wage: wage, Overhead: money(t, "1 EUR"), Hours: unit.Hour}.Rate(cost.HalfUp)
			return err
		},
		"year without pay": func() error {
			_, err := cost.ShopRate{Wage: wage, Year: cost.WorkYear{Leave: unit.Hour}}.Rate(cost.HalfUp)
			return err
		},
		"all leave": func() error {
			_, err := cost.WorkYear{Paid: unit.Hour, Leave: 30 * unit.Minute, Sick: 30 * unit.Minute}.Productive()
			return err
		},
		"negative leave":       func() error { _, err := cost.WorkYear{Paid: unit.Hour, Leave: -1}.Productive(); return err },
		"burden on nothing":    func() error { _, err := cost.Burden(usd("1"), usd("0")); return err },
		"sales below material": func() error { _, err := cost.LoadedRate(usd("1"), usd("2"), unit.Hour); return err },
		"sales over no hours":  func() error { _, err := cost.LoadedRate(usd("2"), usd("1"), 0); return err },
		"overhead on nothing":  func() error { _, err := cost.OverheadPer(usd("1"), unit.Duration(0)); return err },
		"share of nothing":     func() error { _, err := cost.OverheadShare(usd("1"), usd("0")); return err },
		"negative overhead":    func() error { _, err := cost.OverheadShare(usd("-1"), usd("1")); return err },
		"negative cost": func() error {
			_, err := cost.OverheadPool(cost.OverheadItem{Amount: usd("-1")})
			return err
		},
		"mixed pool": func() error {
			_, err := cost.OverheadPool(cost.OverheadItem{Amount: usd("1")}, cost.OverheadItem{Amount: money(t, "1 EUR")})
			return err
		},
		"mixed job": func() error {
			_, err := cost.JobCost{Material: usd("1"), Labour: money(t, "1 EUR")}.Total()
			return err
		},
		"no pieces":     func() error { _, err := cost.JobCost{Material: usd("1")}.EachOf(0); return err },
		"negative step": func() error { _, err := cost.AddUp(usd("1"), cost.HalfUp, cost.Addition{Rate: -0.1}); return err },
		"step both ways": func() error {
			_, err := cost.AddUp(usd("1"), cost.HalfUp, cost.Addition{Rate: 0.1, Amount: usd("1")})
			return err
		},
		"worth more when worn": func() error {
			_, err := cost.MachineHour{Purchase: usd("1"), Residual: usd("2"), Life: unit.Hour}.Rate(cost.HalfUp)
			return err
		},
		"no life": func() error { _, err := cost.MachineHour{Purchase: usd("1")}.Rate(cost.HalfUp); return err },
		"no hours a year": func() error {
			_, err := cost.MachineHour{Purchase: usd("1"), Life: unit.Hour, Yearly: usd("1")}.Rate(cost.HalfUp)
			return err
		},
		"no contribution": func() error {
			_, err := cost.BreakEven[unit.Duration]{Fixed: usd("1"), Price: wage, Variable: wage, Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"no step": func() error {
			_, err := cost.BreakEven[unit.Duration]{Fixed: usd("1"), Price: wage, Variable: price[unit.Duration](t, "1 USD/h")}.Solve(cost.HalfUp)
			return err
		},
		"no variable cost": func() error {
			_, err := cost.BreakEven[unit.Duration]{Fixed: usd("1"), Price: wage, Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"negative fixed": func() error {
			_, err := cost.BreakEven[unit.Duration]{Fixed: usd("-1"), Price: wage, Variable: price[unit.Duration](t, "1 USD/h"), Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"a break-even beyond all hours": func() error {
			_, err := cost.BreakEven[unit.Duration]{Fixed: usd("999999999999999"), Price: price[unit.Duration](t, "0.000002 USD/h"),
				Variable: price[unit.Duration](t, "0.000001 USD/h"), Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"target of nothing":     func() error { _, err := cost.TargetPrice(usd("1"), usd("1"), wage, 0, unit.Hour); return err },
		"target without a step": func() error { _, err := cost.TargetPrice(usd("1"), usd("1"), wage, unit.Hour, 0); return err },
		"target in euros": func() error {
			_, err := cost.TargetPrice(usd("1"), money(t, "1 EUR"), wage, unit.Hour, unit.Hour)
			return err
		},
		"safety of no sales": func() error { _, err := cost.MarginOfSafety(usd("0"), usd("1")); return err },
		"no model":           func() error { _, err := cost.Learning{Rate: 0.9}.Total(unit.Hour, 2); return err },
		"learning above 100 %": func() error {
			_, err := cost.Learning{Model: cost.UnitModel, Rate: 1.1}.Total(unit.Hour, 2)
			return err
		},
		"learning under 50 %": func() error {
			_, err := cost.Learning{Model: cost.UnitModel, Rate: 0.4}.Total(unit.Hour, 2)
			return err
		},
		"no first time": func() error { _, err := cost.Learning{Model: cost.UnitModel, Rate: 0.9}.Total(0, 2); return err },
		"a million pieces": func() error {
			_, err := cost.Learning{Model: cost.UnitModel, Rate: 0.9}.Total(unit.Hour, 1_000_000)
			return err
		},
		"a lot backwards": func() error {
			_, err := cost.Learning{Model: cost.UnitModel, Rate: 0.9}.Lot(unit.Hour, 3, 2)
			return err
		},
		"piece 0": func() error { _, err := cost.Learning{Model: cost.UnitModel, Rate: 0.9}.Unit(unit.Hour, 0); return err },
		"average of 0": func() error {
			_, err := cost.Learning{Model: cost.UnitModel, Rate: 0.9}.Average(unit.Hour, 0)
			return err
		},
		"rate from one piece":  func() error { _, err := cost.LearningRate(unit.Hour, unit.Hour, 1); return err },
		"slower with practice": func() error { _, err := cost.LearningRate(unit.Hour, 2*unit.Hour, 4); return err },
		"too fast":             func() error { _, err := cost.LearningRate(unit.Hour, unit.Minute, 2); return err },
		"repeats of nothing":   func() error { _, err := cost.Repeats{}.Total(unit.Hour, 0); return err },
		"repeats above 100 %":  func() error { _, err := cost.Repeats{Step: 1.1}.Total(unit.Hour, 2); return err },
		"allowance of all":     func() error { _, err := cost.StandardTime(unit.Hour, 1, 1, cost.OfShift); return err },
		"allowance of nothing": func() error { _, err := cost.StandardTime(unit.Hour, 1, 0.1, 0); return err },
		"pace 3":               func() error { _, err := cost.StandardTime(unit.Hour, 3, 0.1, cost.OfWork); return err },
		"margin 100 %":         func() error { _, err := cost.MarkupOfMargin(1); return err },
		"markup -100 %":        func() error { _, err := cost.MarginOfMarkup(-1); return err },
		"markup on nothing":    func() error { _, err := cost.MarkupOf(usd("0"), usd("1")); return err },
		"margin of nothing":    func() error { _, err := cost.MarginOf(usd("1"), usd("0")); return err },
		"no weights":           func() error { _, err := cost.Allocate(usd("1"), []int{}); return err },
		"weights of zero":      func() error { _, err := cost.Allocate(usd("1"), []int{0, 0}); return err },
		"negative weight":      func() error { _, err := cost.Allocate(usd("1"), []int{1, -1}); return err },
		"NaN share": func() error {
			_, err := cost.AllocateByShare(usd("1"), []unit.Ratio{unit.Ratio(math.NaN())})
			return err
		},
		"whole finer than a cent": func() error { _, err := cost.Allocate(usd("1.005"), []int{1}); return err },
		"split in none":           func() error { _, err := cost.Split(usd("1"), 0); return err },
		"split in a million":      func() error { _, err := cost.Split(usd("1"), 1_000_000); return err },
		"class 0":                 func() error { _, err := cost.EstimateClass(0).Accuracy(); return err },
	} {
		t.Run(name, func(t *testing.T) {
			err := f()
			require.Error(t, err)
			var in *unit.InputError
			require.ErrorAs(t, err, &in, "%v", err)
			require.NotEmpty(t, in.Error())
		})
	}
}
