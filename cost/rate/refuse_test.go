package rate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/internal/dev/nocompile"
	"github.com/coverwright/coverwright/unit"
)

func TestRateCalculatorsRefuse(t *testing.T) {
	t.Parallel()
	usd := func(s string) cost.Money { return money(t, s+" USD") }
	wage := price[unit.Duration](t, "20.00 USD/h")
	for name, f := range map[string]func() error{
		"no wage":      func() error { _, err := rate.ShopRate{}.Rate(cost.HalfUp); return err },
		"burden 400 %": func() error { _, err := rate.ShopRate{Wage: wage, Burden: 4}.Rate(cost.HalfUp); return err },
		"NaN burden": func() error {
			_, err := rate.ShopRate{Wage: wage, Burden: unit.Ratio(math.NaN())}.Rate(cost.HalfUp)
			return err
		},
		"unknown mode":       func() error { _, err := rate.ShopRate{Wage: wage}.Rate(99); return err },
		"overhead, no hours": func() error { _, err := rate.ShopRate{Wage: wage, Overhead: usd("1")}.Rate(cost.HalfUp); return err },
		"hours, no overhead": func() error { _, err := rate.ShopRate{Wage: wage, Hours: unit.Hour}.Rate(cost.HalfUp); return err },
		"overhead in euros": func() error {
			_, err := rate.ShopRate{Wage: wage, Overhead: money(t, "1 EUR"), Hours: unit.Hour}.Rate(cost.HalfUp)
			return err
		},
		"year without pay": func() error {
			_, err := rate.ShopRate{Wage: wage, Year: rate.WorkYear{Leave: unit.Hour}}.Rate(cost.HalfUp)
			return err
		},
		"all leave": func() error {
			_, err := rate.WorkYear{Paid: unit.Hour, Leave: 30 * unit.Minute, Sick: 30 * unit.Minute}.Productive()
			return err
		},
		"negative leave":       func() error { _, err := rate.WorkYear{Paid: unit.Hour, Leave: -1}.Productive(); return err },
		"burden on nothing":    func() error { _, err := rate.Burden(usd("1"), usd("0")); return err },
		"sales below material": func() error { _, err := rate.LoadedRate(usd("1"), usd("2"), unit.Hour); return err },
		"sales over no hours":  func() error { _, err := rate.LoadedRate(usd("2"), usd("1"), 0); return err },
		"overhead on nothing":  func() error { _, err := rate.OverheadPer(usd("1"), unit.Duration(0)); return err },
		"share of nothing":     func() error { _, err := rate.OverheadShare(usd("1"), usd("0")); return err },
		"negative overhead":    func() error { _, err := rate.OverheadShare(usd("-1"), usd("1")); return err },
		"negative cost": func() error {
			_, err := rate.OverheadPool(rate.OverheadItem{Amount: usd("-1")})
			return err
		},
		"mixed pool": func() error {
			_, err := rate.OverheadPool(rate.OverheadItem{Amount: usd("1")}, rate.OverheadItem{Amount: money(t, "1 EUR")})
			return err
		},
		"mixed job": func() error {
			_, err := rate.JobCost{Material: usd("1"), Labour: money(t, "1 EUR")}.Total()
			return err
		},
		"no pieces":     func() error { _, err := rate.JobCost{Material: usd("1")}.EachOf(0); return err },
		"negative step": func() error { _, err := rate.AddUp(usd("1"), cost.HalfUp, rate.Addition{Rate: -0.1}); return err },
		"step both ways": func() error {
			_, err := rate.AddUp(usd("1"), cost.HalfUp, rate.Addition{Rate: 0.1, Amount: usd("1")})
			return err
		},
		"worth more when worn": func() error {
			_, err := rate.MachineHour{Purchase: usd("1"), Residual: usd("2"), Life: unit.Hour}.Rate(cost.HalfUp)
			return err
		},
		"no life": func() error { _, err := rate.MachineHour{Purchase: usd("1")}.Rate(cost.HalfUp); return err },
		"no hours a year": func() error {
			_, err := rate.MachineHour{Purchase: usd("1"), Life: unit.Hour, Yearly: usd("1")}.Rate(cost.HalfUp)
			return err
		},
		"no contribution": func() error {
			_, err := rate.BreakEven[unit.Duration]{Fixed: usd("1"), Price: wage, Variable: wage, Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"no step": func() error {
			_, err := rate.BreakEven[unit.Duration]{Fixed: usd("1"), Price: wage, Variable: price[unit.Duration](t, "1 USD/h")}.Solve(cost.HalfUp)
			return err
		},
		"no variable cost": func() error {
			_, err := rate.BreakEven[unit.Duration]{Fixed: usd("1"), Price: wage, Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"negative fixed": func() error {
			_, err := rate.BreakEven[unit.Duration]{Fixed: usd("-1"), Price: wage, Variable: price[unit.Duration](t, "1 USD/h"), Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"a break-even beyond all hours": func() error {
			_, err := rate.BreakEven[unit.Duration]{Fixed: usd("999999999999999"), Price: price[unit.Duration](t, "0.000002 USD/h"),
				Variable: price[unit.Duration](t, "0.000001 USD/h"), Step: unit.Hour}.Solve(cost.HalfUp)
			return err
		},
		"target of nothing":     func() error { _, err := rate.TargetPrice(usd("1"), usd("1"), wage, 0, unit.Hour); return err },
		"target without a step": func() error { _, err := rate.TargetPrice(usd("1"), usd("1"), wage, unit.Hour, 0); return err },
		"target in euros": func() error {
			_, err := rate.TargetPrice(usd("1"), money(t, "1 EUR"), wage, unit.Hour, unit.Hour)
			return err
		},
		"safety of no sales": func() error { _, err := rate.MarginOfSafety(usd("0"), usd("1")); return err },
		"no model":           func() error { _, err := rate.Learning{Rate: 0.9}.Total(unit.Hour, 2); return err },
		"learning above 100 %": func() error {
			_, err := rate.Learning{Model: rate.UnitModel, Rate: 1.1}.Total(unit.Hour, 2)
			return err
		},
		"learning under 50 %": func() error {
			_, err := rate.Learning{Model: rate.UnitModel, Rate: 0.4}.Total(unit.Hour, 2)
			return err
		},
		"no first time": func() error { _, err := rate.Learning{Model: rate.UnitModel, Rate: 0.9}.Total(0, 2); return err },
		"a million pieces": func() error {
			_, err := rate.Learning{Model: rate.UnitModel, Rate: 0.9}.Total(unit.Hour, 1_000_000)
			return err
		},
		"a lot backwards": func() error {
			_, err := rate.Learning{Model: rate.UnitModel, Rate: 0.9}.Lot(unit.Hour, 3, 2)
			return err
		},
		"piece 0": func() error { _, err := rate.Learning{Model: rate.UnitModel, Rate: 0.9}.Unit(unit.Hour, 0); return err },
		"average of 0": func() error {
			_, err := rate.Learning{Model: rate.UnitModel, Rate: 0.9}.Average(unit.Hour, 0)
			return err
		},
		"rate from one piece":  func() error { _, err := rate.LearningRate(unit.Hour, unit.Hour, 1); return err },
		"slower with practice": func() error { _, err := rate.LearningRate(unit.Hour, 2*unit.Hour, 4); return err },
		"too fast":             func() error { _, err := rate.LearningRate(unit.Hour, unit.Minute, 2); return err },
		"repeats of nothing":   func() error { _, err := rate.Repeats{}.Total(unit.Hour, 0); return err },
		"repeats above 100 %":  func() error { _, err := rate.Repeats{Step: 1.1}.Total(unit.Hour, 2); return err },
		"allowance of all":     func() error { _, err := rate.StandardTime(unit.Hour, 1, 1, rate.OfShift); return err },
		"allowance of nothing": func() error { _, err := rate.StandardTime(unit.Hour, 1, 0.1, 0); return err },
		"pace 3":               func() error { _, err := rate.StandardTime(unit.Hour, 3, 0.1, rate.OfWork); return err },
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

// Wrong pairings of quantity and price must not compile.
func TestWrongUnitsDoNotCompile(t *testing.T) {
	t.Parallel()
	faults, err := nocompile.Check("testdata/nocompile")
	require.NoError(t, err)
	for _, f := range faults {
		t.Error(f)
	}
}
