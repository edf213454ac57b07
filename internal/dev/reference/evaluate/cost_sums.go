package evaluate

import (
	"errors"
	"math/big"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// moneyEvaluators are those of the arithmetic of money, of what is sold in packs,
// and of an account.
var moneyEvaluators = map[string]reference.Evaluator{
	"money_sum": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		a := f.money(in.Text("a"))
		var m cost.Money
		var err error
		switch {
		case in.Has("plus"):
			m, err = a.Plus(f.money(in.Text("plus")))
		case in.Has("minus"):
			m, err = a.Minus(f.money(in.Text("minus")))
		case in.Has("times"):
			m, err = a.Times(in.Int("times"))
		case in.Has("scale"):
			m, err = a.Scale(in.Ratio("scale"), cost.HalfUp)
		case in.Bool("size"):
			m = a.Neg().Abs()
		default:
			m = a.Neg()
		}
		f.note(err)
		return moneyValue(m, f.err)
	},
	"money_share": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		r, err := f.money(in.Text("a")).Per(f.money(in.Text("of")))
		f.note(err)
		return percent(r, f.err)
	},
	"money_split": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		whole := f.money(in.Text("whole"))
		var parts []cost.Money
		var err error
		switch {
		case in.Has("ways"):
			parts, err = cost.Split(whole, in.Int("ways"))
		case in.Has("shares"):
			var shares []unit.Ratio
			for _, text := range in.List("shares") {
				r, parseErr := unit.ParseRatio(text)
				f.note(parseErr)
				shares = append(shares, r)
			}
			parts, err = cost.AllocateByShare(whole, shares)
		default:
			var by []cost.Money
			for _, text := range in.List("by") {
				by = append(by, f.money(text+" "+string(whole.Currency())))
			}
			parts, err = cost.AllocateByMoney(whole, by)
		}
		f.note(err)
		out := make([]string, len(parts))
		for i, p := range parts {
			out[i] = p.Amount()
		}
		return reference.Text(strings.Join(out, ";")), f.err
	},
	"minor_units": func(in *reference.Inputs, _ string) (reference.Value, error) {
		return moneyValue(cost.MinorUnits(int64(in.Int("count")), cost.Currency(in.Text("currency"))))
	},
	"fraction": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		m, err := cost.RoundMoney(big.NewRat(int64(in.Int("over")), int64(in.Int("under"))), cost.USD, f.mode(in.Text("mode")))
		f.note(err)
		return moneyValue(m, f.err)
	},
	"pack_charge": func(in *reference.Inputs, _ string) (reference.Value, error) {
		p, err := cost.ParsePrice[unit.Length](in.Text("price"))
		if err != nil {
			return reference.Value{}, err
		}
		e, err := cost.NewEntry("tape", cost.Goods, "tape", p)
		if in.Has("step") {
			e.Step = cost.AnyOf(in.Length("step"))
		}
		if in.Has("pack") {
			e.Pack = cost.AnyOf(in.Length("pack"))
		}
		c, chargeErr := e.Charge(cost.AnyOf(in.Length("used")), cost.HalfUp)
		return moneyValue(c.Amount, errors.Join(err, chargeErr))
	},
	"quote_margin": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		l, err := cost.LumpSum(cost.Labour, "work", f.money(in.Text("labour")))
		f.note(err)
		g, err := cost.LumpSum(cost.Goods, "cloth", f.money(in.Text("goods")))
		f.note(err)
		g.Uplift = cost.Markup(in.Ratio("markup"))
		if f.err != nil {
			return reference.Value{}, f.err
		}
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD, Rounding: cost.HalfUp}, l, g)
		return percent(q.Margin(), err)
	},
	"account": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		tax := cost.Tax{Levies: []cost.Levy{{Name: "tax", Rate: in.Ratio("tax")}}}
		a := account.Account{
			Changes:  []account.Change{{What: "more", Amount: f.money(in.Text("change")), Kind: cost.Labour, Agreed: someDay(&f)}},
			Received: []account.Receipt{{What: "deposit", Amount: f.money(in.Text("received")), On: someDay(&f)}},
		}
		s, err := account.Settle(a, f.money(in.Text("quoted")), tax, cost.HalfUp)
		f.note(err)
		return reference.Text(s.Changed.Amount() + ";" + s.Sum.Amount() + ";" + s.Balance.Amount()), f.err
	},
	"overhead_share": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		r, err := rate.OverheadShare(f.money(in.Text("overhead")), f.money(in.Text("base")))
		f.note(err)
		return percent(r, f.err)
	},
	"learning_lot": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		d, err := readLearning(in, &f).Lot(in.Duration("first"), in.Int("after"), in.Int("up_to"))
		f.note(err)
		return reference.Numbers(d.Hours()), f.err
	},
	"shop_prices": func(in *reference.Inputs, _ string) (reference.Value, error) {
		var f first
		r, err := rate.ShopRate{Wage: hourPrice(in, "wage", &f), Burden: in.Ratio("burden"), Uplift: cost.Markup(in.Ratio("markup"))}.Rate(cost.HalfUp)
		f.note(err)
		at, err := r.AtCostPrice()
		f.note(err)
		sold, err := r.SoldPrice()
		f.note(err)
		return reference.Text(at.String() + ";" + sold.String()), f.err
	},
	"span_sum": func(in *reference.Inputs, _ string) (reference.Value, error) {
		s, err := bench.Span{From: in.Duration("from"), To: in.Duration("to")}.Plus(bench.Span{From: in.Duration("and_from"), To: in.Duration("and_to")})
		return reference.Numbers(s.From.Minutes(), s.To.Minutes()), err
	},
}

// someDay is a day of an account, which its sums do not turn on.
func someDay(f *first) cost.Date {
	d, err := cost.NewDate(2026, 3, 2)
	f.note(err)
	return d
}
