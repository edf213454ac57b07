package evaluate

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

func hourPrice(in *reference.Inputs, name string, f *first) cost.HourPrice {
	p, err := cost.ParsePrice[unit.Duration](in.Text(name))
	f.note(err)
	return p
}

func overheadRate(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	p, err := rate.OverheadPer(f.money(in.Text("overhead")), in.Duration("base"))
	f.note(err)
	m, err := p.Of(in.Duration("hours"), cost.HalfUp)
	f.note(err)
	return reference.Numbers(amount(m)), f.err
}

func overheadBudget(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	b := rate.OverheadBudget[unit.Duration]{Fixed: f.money(in.Text("fixed")), Variable: hourPrice(in, "variable", &f), Base: in.Duration("base")}
	overhead, rate, err := b.Rate(cost.HalfUp)
	f.note(err)
	hour, err := rate.Of(unit.Hour, cost.HalfUp)
	f.note(err)
	return reference.Numbers(amount(overhead), amount(hour)), f.err
}

// overheadPool adds the costs that are overhead for sure and those that a shop
// may charge to jobs, glue and paint.
func overheadPool(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	direct := in.Text("direct")
	var items []rate.OverheadItem
	for _, s := range in.List("indirect") {
		items = append(items, rate.OverheadItem{Amount: f.money(s + " USD")})
	}
	for i, s := range in.List("open") {
		name := [...]string{"glue", "paint"}[min(i, 1)]
		items = append(items, rate.OverheadItem{Name: name, Amount: f.money(s + " USD"), Direct: strings.Contains(direct, name)})
	}
	pool, err := rate.OverheadPool(items...)
	f.note(err)
	rate, err := rate.OverheadPer(pool, in.Duration("base"))
	f.note(err)
	hour, err := rate.Of(unit.Hour, cost.HalfUp)
	f.note(err)
	return reference.Numbers(amount(pool), amount(hour)), f.err
}

func overApplied(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m, err := rate.OverApplied(f.money(in.Text("applied")), f.money(in.Text("actual")))
	f.note(err)
	return reference.Numbers(amount(m)), f.err
}

func readJob(in *reference.Inputs, f *first) rate.JobCost {
	return rate.JobCost{Material: f.money(in.Text("material")), Labour: f.money(in.Text("labour")), Overhead: f.money(in.Text("overhead"))}
}

func jobCost(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m, err := readJob(in, &f).Total()
	f.note(err)
	return reference.Numbers(amount(m)), f.err
}

// lot counts the pieces of each price.
func lot(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	each, err := readJob(in, &f).EachOf(in.Int("pieces"))
	f.note(err)
	var out []string
	for i := 0; i < len(each); {
		n := 0
		for i+n < len(each) && each[i+n].Equal(each[i]) {
			n++
		}
		out = append(out, strconv.Itoa(n)+" x "+each[i].String())
		i += n
	}
	return reference.Text(strings.Join(out, ";")), f.err
}

func addUp(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	start := f.money(in.Text("start"))
	var steps []rate.Addition
	for _, s := range in.List("steps") {
		if strings.HasSuffix(s, "%") {
			r, err := unit.ParseRatio(s)
			f.note(err)
			steps = append(steps, rate.Addition{Rate: r})
			continue
		}
		steps = append(steps, rate.Addition{Amount: f.money(s + " USD")})
	}
	rows, err := rate.AddUp(start, cost.HalfUp, steps...)
	f.note(err)
	var out []float64
	for _, r := range rows {
		out = append(out, amount(r.Total))
	}
	return reference.Numbers(out...), f.err
}

func shopRate(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	s := rate.ShopRate{Wage: hourPrice(in, "wage", &f), Burden: in.Ratio("burden"), Uplift: readUplift(in, &f)}
	if in.Has("overhead") {
		s.Overhead, s.Hours = f.money(in.Text("overhead")), in.Duration("hours")
	}
	if in.Has("paid") {
		s.Year = rate.WorkYear{Paid: in.Duration("paid"), Other: in.Duration("absent")}
	}
	r, err := s.Rate(cost.HalfUp)
	f.note(err)
	return reference.Numbers(amount(r.Burdened), amount(r.Absence), amount(r.Overhead), amount(r.AtCost), amount(r.Sold)), f.err
}

func productiveHours(in *reference.Inputs, _ string) (reference.Value, error) {
	d, err := rate.WorkYear{Paid: in.Duration("paid"), Holidays: in.Duration("holidays"), Sick: in.Duration("sick"),
		Leave: in.Duration("leave"), Other: in.Duration("other")}.Productive()
	return reference.Numbers(d.Hours()), err
}

func burden(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	r, err := rate.Burden(f.money(in.Text("on_top")), f.money(in.Text("wages")))
	f.note(err)
	return reference.Numbers(r.Percent()), f.err
}

func benefitShare(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	wages := f.money(in.Text("wages"))
	all, err := cost.Sum(wages, f.money(in.Text("on_top")))
	f.note(err)
	r, err := cost.MarginOf(wages, all)
	f.note(err)
	return reference.Numbers(r.Percent()), f.err
}

func loadedRate(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	p, err := rate.LoadedRate(f.money(in.Text("sales")), f.money(in.Text("material")), in.Duration("hours"))
	f.note(err)
	m, err := p.Of(unit.Hour, f.mode(in.Text("mode")))
	f.note(err)
	return reference.Numbers(amount(m)), f.err
}

func machineHour(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	m, err := rate.MachineHour{Purchase: f.money(in.Text("purchase")), Residual: f.money(in.Text("residual")), Life: in.Duration("life"),
		Yearly: f.money(in.Text("yearly")), HoursAYear: in.Duration("a_year")}.Rate(f.mode(in.Text("mode")))
	f.note(err)
	return reference.Numbers(amount(m)), f.err
}

func breakEven(in *reference.Inputs, _ string) (reference.Value, error) {
	r, err := solve(in, cost.Pieces(1))
	return reference.Numbers(amount(r.Contribution), float64(r.Quantity), amount(r.Sales), float64(r.Target)), err
}

func breakEvenHours(in *reference.Inputs, _ string) (reference.Value, error) {
	r, err := solve(in, unit.Hour)
	return reference.Numbers(amount(r.Contribution), r.Quantity.Hours(), amount(r.Sales), r.Target.Hours()), err
}

func solve[Q cost.Quantity](in *reference.Inputs, step Q) (rate.BreakEvenResult[Q], error) {
	var f first
	b := rate.BreakEven[Q]{Fixed: f.money(in.Text("fixed")), Profit: f.money(in.Text("profit")), Step: step}
	var err error
	b.Price, err = cost.ParsePrice[Q](in.Text("price"))
	f.note(err)
	b.Variable, err = cost.ParsePrice[Q](in.Text("variable"))
	f.note(err)
	r, err := b.Solve(cost.HalfUp)
	f.note(err)
	return r, f.err
}

func marginOfSafety(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	r, err := rate.MarginOfSafety(f.money(in.Text("sales")), f.money(in.Text("break_even")))
	f.note(err)
	return reference.Numbers(r.Percent()), f.err
}

func readLearning(in *reference.Inputs, f *first) rate.Learning {
	m, err := rate.ParseLearningModel(in.Text("model"))
	f.note(err)
	return rate.Learning{Model: m, Rate: in.Ratio("rate")}
}

// learning gives average, total and last piece in hours.
func learning(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	l, first, n := readLearning(in, &f), in.Duration("first"), in.Int("pieces")
	average, err := l.Average(first, n)
	f.note(err)
	total, err := l.Total(first, n)
	f.note(err)
	last, err := l.Unit(first, n)
	f.note(err)
	return reference.Numbers(average.Hours(), total.Hours(), last.Hours()), f.err
}

func learningFactor(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	r, err := readLearning(in, &f).Factor(in.Int("pieces"))
	f.note(err)
	return reference.Numbers(float64(r)), f.err
}

func learningUnit(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	r, err := readLearning(in, &f).UnitFactor(in.Int("piece"))
	f.note(err)
	return reference.Numbers(float64(r)), f.err
}

func learningExponent(in *reference.Inputs, _ string) (reference.Value, error) {
	b, err := rate.Learning{Rate: in.Ratio("rate")}.Exponent()
	return reference.Numbers(float64(b)), err
}

func learningRate(in *reference.Inputs, _ string) (reference.Value, error) {
	r, err := rate.LearningRate(in.Duration("first"), in.Duration("average"), in.Int("pieces"))
	return reference.Numbers(float64(r)), err
}

func repeats(in *reference.Inputs, _ string) (reference.Value, error) {
	d, err := rate.Repeats{Step: in.Ratio("step"), Most: in.Ratio("most")}.Total(in.Duration("first"), in.Int("pieces"))
	return reference.Numbers(d.Hours()), err
}

func standardTime(in *reference.Inputs, _ string) (reference.Value, error) {
	base := rate.OfWork
	if in.Text("base") == "shift" {
		base = rate.OfShift
	}
	d, err := rate.StandardTime(in.Duration("observed"), in.Ratio("pace"), in.Ratio("allowance"), base)
	return reference.Numbers(d.Minutes()), err
}

func targetPrice(in *reference.Inputs, _ string) (reference.Value, error) {
	var f first
	p, err := cost.ParsePrice[cost.Pieces](in.Text("variable"))
	f.note(err)
	m, err := rate.TargetPrice(f.money(in.Text("fixed")), f.money(in.Text("profit")), p, cost.Pieces(in.Int("pieces")), 1)
	f.note(err)
	return reference.Numbers(amount(m)), f.err
}
