package cost

import (
	"strings"

	"github.com/coverwright/coverwright/internal/check"
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

// cashRules are the rules that were found, in order of place. A currency that
// is paid in one way in one place and in another way in the next, as the euro
// is, stands once for each place.
var cashRules = [...]cashRow{
	{"Australia", AUD, "0.05", HalfUp, "refunds in cash by the tax office: 2.5 cents go up", standard("AU-GST-REG-168-5")},
	{"Barbados", "BBD", "0.05", HalfUp, "the total only; item prices stay", published("BB-CENT")},
	{"Belgium", EUR, "0.05", HalfUp, "what a consumer pays who is present, above five cents", published("BE-ROUNDING")},
	{"Canada", CAD, "0.05", HalfUp, "the total after tax", published("CA-MINT-ROUNDING")},
	{"Colombia", "COP", "50", HalfUp, "the smallest coin that is still made; a letter of the central bank lists one of 20 too; no rule was found", recalled},
	{"Czechia", "CZK", "1", HalfUp, "to the nearest coin in circulation", published("CZ-HELLER")},
	{"Denmark", "DKK", "0.50", HalfUp, "unless otherwise agreed", standard("DK-BEK-928")},
	{"Estonia", EUR, "0.05", HalfUp, "", recalled},
	{"Finland", EUR, "0.05", HalfUp, "", published("BOF-EURO-COINS")},
	{"Hungary", "HUF", "5", HalfUp, "", published("MNB-COINS")},
	{"Indonesia", "IDR", "100", HalfUp, "the smallest coin that is still made; no rule was found", recalled},
	{"Ireland", EUR, "0.05", HalfUp, "where customer and shop agree to it", recalled},
	{"Italy", EUR, "0.05", HalfUp, "", recalled},
	{"Lithuania", EUR, "0.05", HalfUp, "", recalled},
	{"Netherlands", EUR, "0.05", HalfUp, "where the shop says so", recalled},
	{"New Zealand", NZD, "0.10", HalfDown, "five cents go down by custom; each firm may choose", published("RBNZ-COINS")},
	{"Norway", "NOK", "1", HalfUp, "50 øre go up", standard("NO-2011-294")},
	{"Slovakia", EUR, "0.05", HalfUp, "", recalled},
	{"Sweden", SEK, "1", HalfUp, "50 öre go up", published("RIKSBANK-50-ORE")},
	{"Switzerland", CHF, "0.05", HalfUp, "the smallest coin in circulation", published("SNB-COINS")},
	{"Taiwan", "TWD", "1", HalfUp, "the coin of half a dollar is hardly seen", recalled},
}

var recalled = cite.Basis{Status: cite.FromMemory}

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

// CashRuleOf gives the rule for a currency that is paid in one way wherever it
// is money. A currency without a rule is paid to its minor unit, and ok is false;
// so it is for the euro, which is paid to the cent here and to five cents there:
// see [CashRuleIn].
func CashRuleOf(c Currency) (rule CashRule, ok bool) {
	for _, row := range cashRules {
		if row.currency == c && c != EUR {
			r, err := row.rule()
			return r, err == nil
		}
	}
	return CashRule{}, false
}

// CashRuleIn gives the rule of a place, such as Ireland, spelt as [CashRules]
// spells it. It wraps unit.ErrUnknown.
func CashRuleIn(place string) (CashRule, error) {
	var places []string
	for _, row := range cashRules {
		if row.place == place {
			return row.rule()
		}
		places = append(places, row.place)
	}
	return CashRule{}, check.Refuse("", place, unit.ErrUnknown, "one of "+strings.Join(places, ", "))
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
