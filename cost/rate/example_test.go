package rate_test

import (
	"fmt"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/unit"
)

// must keeps the examples to what they show.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// What 20.00 an hour costs the shop, and what it must charge.
func ExampleShopRate() {
	wage := must(cost.ParsePrice[unit.Duration]("20.00 USD/h"))
	overhead := must(cost.ParseMoney("175000 USD"))
	r, err := rate.ShopRate{Wage: wage, Burden: 56.5 * unit.Percent, Overhead: overhead, Hours: 8604 * unit.Hour,
		Uplift: cost.Margin(20 * unit.Percent)}.Rate(cost.HalfUp)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range r.Figures {
		fmt.Println(f)
	}
	// Output:
	// burdened wage = wage × (1 + burden) = 20.00 USD/h × (1 + 56.5 %) = 31.3 -> 31.30 USD (half-up to the minor unit, once)
	// paid absence = burdened wage × (paid / productive - 1) = 0 = 0 -> 0.00 USD (half-up to the minor unit, once)
	// overhead = overhead of the year / productive hours of the shop = 175000.00 USD / 8604 h = 20.339377… -> 20.34 USD (half-up to the minor unit, once)
	// rate at cost = burdened wage + paid absence + overhead = 31.30 + 0.00 + 20.34 -> 51.64 USD
	// rate charged = rate at cost, 20 % margin = 51.64 -> 64.55 USD (half-up to the minor unit, once)
}

func ExampleWorkYear_Productive() {
	h := must(rate.WorkYear{Paid: 2080 * unit.Hour, Holidays: 68 * unit.Hour, Sick: 75 * unit.Hour,
		Leave: 155*unit.Hour + 42*unit.Minute, Other: 4*unit.Hour + 48*unit.Minute}.Productive())
	fmt.Println(h.Decimal(unit.Hour, 1, unit.Nearest))
	// Output:
	// 1776.5 h
}

func ExampleBurden() {
	top := must(cost.ParseMoney("10.73 USD"))
	wages := must(cost.ParseMoney("23.42 USD"))
	b := must(rate.Burden(top, wages))
	fmt.Println(b.PercentText(2, unit.Nearest))
	// Output:
	// 45.82 %
}

func ExampleLoadedRate() {
	sales := must(cost.ParseMoney("100000 USD"))
	material := must(cost.ParseMoney("25000 USD"))
	p := must(rate.LoadedRate(sales, material, 640*unit.Hour))
	hour := must(p.Of(unit.Hour, cost.HalfUp))
	fmt.Println(hour)
	// Output:
	// 117.19 USD
}

// Overhead by labour hours, and what a job of 300 hours bears of it.
func ExampleOverheadPer() {
	overhead := must(cost.ParseMoney("144000 USD"))
	rate := must(rate.OverheadPer(overhead, 18000*unit.Hour))
	hour := must(rate.Of(unit.Hour, cost.HalfUp))
	job := must(rate.Of(300*unit.Hour, cost.HalfUp))
	fmt.Println(hour, job)
	// Output:
	// 8.00 USD 2400.00 USD
}

func ExampleOverheadShare() {
	overhead := must(cost.ParseMoney("8800 USD"))
	wages := must(cost.ParseMoney("22000 USD"))
	r := must(rate.OverheadShare(overhead, wages))
	fmt.Println(r)
	// Output:
	// 40 %
}

func ExampleOverheadBudget() {
	fixed := must(cost.ParseMoney("96000 USD"))
	variable := must(cost.ParsePrice[unit.Duration]("3.00 USD/h"))
	overhead, rate, err := rate.OverheadBudget[unit.Duration]{Fixed: fixed, Variable: variable, Base: 40000 * unit.Hour}.Rate(cost.HalfUp)
	hour := must(rate.Of(unit.Hour, cost.HalfUp))
	fmt.Println(overhead, hour, err)
	// Output:
	// 216000.00 USD 5.40 USD <nil>
}

// Glue is charged to jobs, thread lies in the overhead.
func ExampleOverheadPool() {
	rent := must(cost.ParseMoney("30000 USD"))
	glue := must(cost.ParseMoney("500 USD"))
	thread := must(cost.ParseMoney("300 USD"))
	pool := must(rate.OverheadPool(rate.OverheadItem{Name: "rent", Amount: rent},
		rate.OverheadItem{Name: "glue", Amount: glue, Direct: true}, rate.OverheadItem{Name: "thread", Amount: thread}))
	fmt.Println(pool)
	// Output:
	// 30300.00 USD
}

func ExampleOverApplied() {
	applied := must(cost.ParseMoney("136000 USD"))
	actual := must(cost.ParseMoney("132000 USD"))
	m := must(rate.OverApplied(applied, actual))
	fmt.Println(m)
	// Output:
	// 4000.00 USD
}

// Thirty chairs of one job: the unit costs add up to the job.
func ExampleJobCost() {
	material := must(cost.ParseMoney("7000 USD"))
	labour := must(cost.ParseMoney("6000 USD"))
	overhead := must(cost.ParseMoney("2400 USD"))
	j := rate.JobCost{Material: material, Labour: labour, Overhead: overhead}
	total := must(j.Total())
	each := must(j.EachOf(30))
	sum := must(cost.Sum(each...))
	fmt.Println(total, each[0], each[29], sum)
	// Output:
	// 15400.00 USD 513.34 USD 513.33 USD 15400.00 USD
}

// The costing of a small workshop for a year.
func ExampleAddUp() {
	wages := must(cost.ParseMoney("20000 USD"))
	material := must(cost.ParseMoney("11500 USD"))
	rows := must(rate.AddUp(wages, cost.HalfUp,
		rate.Addition{Name: "insurance", Rate: 10 * unit.Percent},
		rate.Addition{Name: "workshop", Rate: 40 * unit.Percent},
		rate.Addition{Name: "material with its profit", Amount: material},
		rate.Addition{Name: "indirect costs", Rate: 20 * unit.Percent}))
	for _, r := range rows {
		fmt.Println(r.Name, r.Added, r.Total)
	}
	// Output:
	// start 20000.00 USD 20000.00 USD
	// insurance 2000.00 USD 22000.00 USD
	// workshop 8800.00 USD 30800.00 USD
	// material with its profit 11500.00 USD 42300.00 USD
	// indirect costs 8460.00 USD 50760.00 USD
}

func ExampleMachineHour() {
	purchase := must(cost.ParseMoney("3600 USD"))
	residual := must(cost.ParseMoney("600 USD"))
	yearly := must(cost.ParseMoney("450 USD"))
	m := must(rate.MachineHour{Purchase: purchase, Residual: residual, Life: 10000 * unit.Hour,
		Yearly: yearly, HoursAYear: 1200 * unit.Hour}.Rate(cost.HalfUp))
	fmt.Println(m)
	// Output:
	// 0.68 USD
}

// How many hours a month must be sold.
func ExampleBreakEven() {
	fixed := must(cost.ParseMoney("6000 USD"))
	profit := must(cost.ParseMoney("1500 USD"))
	price := must(cost.ParsePrice[unit.Duration]("64.55 USD/h"))
	variable := must(cost.ParsePrice[unit.Duration]("31.30 USD/h"))
	r := must(rate.BreakEven[unit.Duration]{Fixed: fixed, Price: price, Variable: variable, Step: unit.Hour, Profit: profit}.Solve(cost.HalfUp))
	fmt.Println(r.Contribution, r.Quantity, r.Sales, r.Target)
	// Output:
	// 33.25 USD 181 h 11648.12 USD 226 h
}

func ExampleTargetPrice() {
	fixed := must(cost.ParseMoney("6000 USD"))
	profit := must(cost.ParseMoney("1500 USD"))
	variable := must(cost.ParsePrice[unit.Duration]("31.30 USD/h"))
	m := must(rate.TargetPrice(fixed, profit, variable, 240*unit.Hour, unit.Hour))
	fmt.Println(m)
	// Output:
	// 62.55 USD
}

func ExampleMarginOfSafety() {
	sales := must(cost.ParseMoney("15000 USD"))
	even := must(cost.ParseMoney("12000 USD"))
	r := must(rate.MarginOfSafety(sales, even))
	fmt.Println(r)
	// Output:
	// 20 %
}

// Six dining seats, the first in three hours: the two models differ.
func ExampleLearning() {
	for _, m := range []rate.LearningModel{rate.UnitModel, rate.CumulativeAverage} {
		l := rate.Learning{Model: m, Rate: 90 * unit.Percent}
		total := must(l.Total(3*unit.Hour, 6))
		fmt.Println(m, total.Decimal(unit.Hour, 4, unit.Nearest))
	}
	f := must(rate.Learning{Model: rate.UnitModel, Rate: 90 * unit.Percent}.Explain(3*unit.Hour, 6))
	fmt.Println(f.Formula, "|", f.Working)
	// Output:
	// unit 15.3023 h
	// cumulative average 13.7085 h
	// T1 × sum of i^b for i = 1 to n, b = ln(rate) / ln 2 | 3 h × 5.1008, rate 90 %
}

func ExampleLearningRate() {
	r := must(rate.LearningRate(12*unit.Hour+30*unit.Minute, 4*unit.Hour+17*unit.Minute+15*unit.Second, 8))
	fmt.Println(r.PercentText(1, unit.Nearest))
	// Output:
	// 70.0 %
}

func ExampleRepeats() {
	d := must(rate.Repeats{Step: 5 * unit.Percent, Most: 30 * unit.Percent}.Total(3*unit.Hour, 6))
	fmt.Println(d)
	// Output:
	// 15 h 45 min
}

func ExampleStandardTime() {
	work := must(rate.StandardTime(unit.Hour, 1, 15*unit.Percent, rate.OfWork))
	shift := must(rate.StandardTime(unit.Hour, 1, 15*unit.Percent, rate.OfShift))
	fmt.Println(work.Decimal(unit.Minute, 2, unit.Nearest), shift.Decimal(unit.Minute, 2, unit.Nearest))
	// Output:
	// 69.00 min 70.59 min
}
