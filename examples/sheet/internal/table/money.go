package table

import (
	"math"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// mostAmount bounds an amount: below it a float64 tells any two minor units
// apart by far more than the error of a sum in a sheet.
const mostAmount = 1e10

// anyMoney is the currency where none is named. It never shows: any money with
// a hundredth as its minor unit works alike.
const anyMoney = cost.USD

var currencyArg = word("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts").or("any money of two decimals")

func (a *args) currency() cost.Currency {
	v, _ := a.at(currencyArg.key)
	if v == nil {
		return anyMoney
	}
	c, err := cost.ParseCurrency(strings.ToUpper(a.text(currencyArg.key)))
	if err != nil {
		a.fail(Missing, currencyArg.Name, err.Error())
		return anyMoney
	}
	return c
}

// minorUnits gives how many minor units make a unit.
func minorUnits(c cost.Currency) (float64, error) {
	digits, err := c.Digits()
	return math.Pow10(digits), err
}

// amount gives money in major units: the nearest whole minor unit, when the
// number is that but for the error of the sheet's own arithmetic.
func (a *args) amount(key string) cost.Money {
	x, c := a.number(key), a.currency()
	_, arg := a.at(key)
	scale, err := minorUnits(c)
	if err != nil || a.fault != nil {
		a.refuse(arg.Name, err)
		return cost.Money{}
	}
	if math.Abs(x) >= mostAmount {
		a.fail(Num, arg.Name, "an amount under "+strconv.FormatFloat(mostAmount, 'f', -1, 64)+" is wanted")
		return cost.Money{}
	}
	n := math.Round(x * scale)
	// A sum of two hundred amounts is off by a hundred of its last bits at most.
	bit := math.Nextafter(math.Abs(x), math.Inf(1)) - math.Abs(x)
	if math.Abs(x-n/scale) > max(1e-9, 100*bit) {
		a.fail(Num, arg.Name, strconv.FormatFloat(x, 'g', -1, 64)+" has more than "+strconv.Itoa(int(math.Log10(scale)))+" decimals: round it in the sheet first")
		return cost.Money{}
	}
	m, err := cost.MinorUnits(int64(n), c)
	a.refuse(arg.Name, err)
	return m
}

// paid gives an amount that cannot be under zero, such as a cost or a price.
func (a *args) paid(key string) cost.Money {
	if _, arg := a.at(key); a.number(key) < 0 {
		a.fail(Num, arg.Name, "an amount from zero is wanted")
	}
	return a.amount(key)
}

func money(m cost.Money, err error) (Result, error) {
	x, err := majorUnits(m, err)
	return number(x), err
}

func majorUnits(m cost.Money, err error) (float64, error) {
	if err != nil {
		return 0, err
	}
	n, err := m.Minor()
	if err == nil && (n > 1<<53 || n < -1<<53) {
		err = check.Refuse("", m.String(), unit.ErrOverflow, "under 2^53 minor units")
	}
	if err != nil {
		return 0, err
	}
	scale, err := minorUnits(m.Currency())
	return float64(n) / scale, err
}

func moneyColumn(ms []cost.Money, err error) (Result, error) {
	out := make([]float64, len(ms))
	for i, m := range ms {
		x, e := majorUnits(m, err)
		if e != nil {
			return Result{}, e
		}
		out[i] = x
	}
	return column(out), err
}

// share gives a fraction between bounds, from a number or a text such as 25 %.
// 25 where a quarter is meant would be 2500 %: it is refused.
func (a *args) share(key string, least, most unit.Ratio) unit.Ratio {
	v, arg := a.at(key)
	var r unit.Ratio
	switch x := v.(type) {
	case float64:
		r = unit.Ratio(x)
	case string:
		if _, err := strconv.ParseFloat(trimmed(x), 64); err == nil {
			a.fail(Value, arg.Name, "a text with the sign is wanted, such as "+clip(trimmed(x))+" %")
			return 0
		}
		var err error
		if r, err = unit.ParseRatio(trimmed(x)); err != nil {
			a.fail(codeOf(err), arg.Name, err.Error())
			return 0
		}
	default:
		return 0
	}
	if r < least || r > most {
		message := "from " + least.String() + " to " + most.String() + " is wanted, got " + percents(r)
		if r > 1 && r <= 100 {
			message += ": for " + strconv.FormatFloat(float64(r), 'g', 12, 64) + " % write it with the sign, or " + strconv.FormatFloat(float64(r)/100, 'g', 12, 64)
		}
		a.fail(Num, arg.Name, message)
		return 0
	}
	return r
}

// percents writes a share always as a percentage.
func percents(r unit.Ratio) string { return strconv.FormatFloat(r.Percent(), 'g', 12, 64) + " %" }
