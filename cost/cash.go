package cost

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// CashRule says how a total paid in coins and notes is rounded. Tax is worked
// out to the minor unit first; cards and transfers pay the exact total. Make
// one of your own where the table has none, or an older one.
type CashRule struct {
	// Place names where the rule holds, such as "Canada".
	Place string `json:"place"`
	// Step is the smallest coin. A rule without one is no rule.
	Step Money `json:"step"`
	// Rounding says what happens to a tie.
	Rounding Rounding   `json:"rounding"`
	Note     string     `json:"note,omitempty"`
	Basis    cite.Basis `json:"basis,omitzero"`
}

// cashRow is a CashRule before its step is money.
type cashRow struct {
	place    string
	currency Currency
	step     string
	mode     Rounding
	note     string
	basis    cite.Basis
}

// cashRules are the cash steps that were found. The CLDR rows are steps in
// use; CLDR says nothing about ties, and at the digits of the minor unit the
// step of 0.05 has none.
var cashRules = [...]cashRow{
	{"Australia", AUD, "0.05", HalfUp, "refunds in cash by the tax office: 2.5 cents go up", standard("AU-GST-REG-168-5")},
	{"Barbados", "BBD", "0.05", HalfUp, "the total only; item prices stay", published("BB-CENT")},
	{"Canada", CAD, "0.05", HalfUp, "the total after tax", published("CA-MINT-ROUNDING")},
	{"Colombia", "COP", "1", HalfUp, "", published("CLDR-CURRENCY")},
	{"Czechia", "CZK", "1", HalfUp, "", published("CLDR-CURRENCY")},
	{"Denmark", "DKK", "0.50", HalfUp, "", published("CLDR-CURRENCY")},
	{"Hungary", "HUF", "1", HalfUp, "the coins in use are coarser", published("CLDR-CURRENCY")},
	{"Indonesia", "IDR", "1", HalfUp, "", published("CLDR-CURRENCY")},
	{"New Zealand", NZD, "0.10", HalfDown, "five cents go down; each firm may choose", practice},
	{"Norway", "NOK", "1", HalfUp, "", published("CLDR-CURRENCY")},
	{"Sweden", SEK, "1", HalfUp, "50 öre go up", published("CLDR-CURRENCY")},
	{"Switzerland", CHF, "0.05", HalfUp, "", published("CLDR-CURRENCY")},
	{"Taiwan", "TWD", "1", HalfUp, "", published("CLDR-CURRENCY")},
}

func standard(key string) cite.Basis  { return cite.Basis{Status: cite.Standard, Source: key} }
func published(key string) cite.Basis { return cite.Basis{Status: cite.Published, Source: key} }

func (r cashRow) rule() (CashRule, error) {
	step, err := NewMoney(r.step, r.currency)
	return CashRule{Place: r.place, Step: step, Rounding: r.mode, Note: r.note, Basis: r.basis}, err
}

// CashRules gives the rules of the table, in order of place.
func CashRules() ([]CashRule, error) {
	var out []CashRule
	for _, row := range cashRules {
		r, err := row.rule()
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, nil
}

// CashRuleOf gives the rule for a currency; a currency without one is paid to
// its minor unit, and ok is false.
func CashRuleOf(c Currency) (rule CashRule, ok bool) {
	for _, row := range cashRules {
		if row.currency == c {
			r, err := row.rule()
			return r, err == nil
		}
	}
	return CashRule{}, false
}

// CashTotal is a total as it is paid in cash.
type CashTotal struct {
	Payable Money `json:"payable"`
	// Difference is Payable - Total.
	Difference Money `json:"difference"`
}

// Of rounds a total for cash. It wraps ErrCurrency, ErrMode, unit.ErrRange for
// a rule without a step, or unit.ErrOverflow.
func (r CashRule) Of(total Money) (CashTotal, error) {
	p, err := total.RoundTo(r.Step, r.Rounding)
	if err != nil {
		return CashTotal{}, err
	}
	d, err := p.Minus(total)
	return CashTotal{p, d}, unit.InField("total", err)
}
