package cost

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Regime is the rounding rule of one tax law: which modes and which level it
// knows. Rates and tax bases are not part of it; they change, and are yours to
// give.
type Regime struct {
	// Code is what Tax.Regime takes, such as "AU".
	Code string `json:"code"`
	Name string `json:"name"`
	// Roundings are the modes it allows; the first is taken when none is
	// chosen.
	Roundings []Rounding `json:"roundings"`
	// Levels are the levels it allows.
	Levels []TaxLevel `json:"levels"`
	Note   string     `json:"note,omitempty"`
	Basis  cite.Basis `json:"basis,omitzero"`
}

var bothLevels = []TaxLevel{PerInvoice, PerLine}

// regimes are the rounding rules that were read. Nearest with half up is also
// the sense of "carry to the third decimal, up if it is above 4".
var regimes = [...]Regime{
	{"US-SST", "United States, streamlined sales tax states", []Rounding{HalfUp}, bothLevels,
		"the seller chooses item or invoice; state and local tax may be rounded together (Tax.Together)", standard("SSUTA-324")},
	{"US-MA", "Massachusetts", []Rounding{HalfUp}, bothLevels, "item or invoice, as chosen", standard("MA-64H-4")},
	{"GB", "United Kingdom", []Rounding{HalfUp}, bothLevels,
		"0.5 penny goes up; other ways are allowed where they are fair", published("HMRC-VATREC")},
	{"GB-INVOICE", "United Kingdom, invoice traders", []Rounding{Down}, []TaxLevel{PerInvoice},
		"the total tax may be rounded down; not for retailers", published("HMRC-VATREC")},
	{"AU", "Australia", []Rounding{HalfUp}, bothLevels, "0.5 cent goes up; the supplier chooses the level", standard("AU-GST-9-90")},
	{"NZ", "New Zealand", []Rounding{HalfDown}, bothLevels,
		"half a cent or less is dropped; the same level through the whole period", standard("NZ-GST-19O")},
	{"JP", "Japan, qualified invoice", []Rounding{Down, HalfUp, Up}, []TaxLevel{PerInvoice},
		"once an invoice for each rate, never per line; the issuer chooses the mode", practice},
	{"EU-CONVERSION", "European Union, conversion to the euro", []Rounding{HalfUp}, bothLevels,
		"amounts converted, not VAT: for VAT each member state has its own rule", standard("EU-1103-97")},
}

// Regimes gives the rounding rules of the table.
func Regimes() []Regime {
	out := slices.Clone(regimes[:])
	for i := range out {
		out[i].Roundings, out[i].Levels = slices.Clone(out[i].Roundings), slices.Clone(out[i].Levels)
	}
	return out
}

// RegimeOf gives the rounding rule of a code. It wraps unit.ErrUnknown.
func RegimeOf(code string) (Regime, error) {
	var codes []string
	for _, r := range Regimes() {
		if r.Code == code {
			return r, nil
		}
		codes = append(codes, r.Code)
	}
	return Regime{}, check.Refuse("regime", code, unit.ErrUnknown, "one of "+strings.Join(codes, ", "))
}

// settle checks level and mode against the regime and fills in its mode.
func (t Tax) settle(fallback Rounding) (Tax, error) {
	if t.Regime == "" {
		if t.Rounding == 0 {
			t.Rounding = fallback
		}
		return t, t.Rounding.check()
	}
	r, err := RegimeOf(t.Regime)
	if err != nil {
		return t, err
	}
	if t.Rounding == 0 {
		t.Rounding = r.Roundings[0]
	}
	if !slices.Contains(r.Roundings, t.Rounding) {
		return t, check.Refuse("rounding", t.Rounding.String(), unit.ErrRange, "a mode that "+r.Name+" allows")
	}
	if !slices.Contains(r.Levels, t.Level) {
		return t, check.Refuse("level", t.Level.String(), unit.ErrRange, "a level that "+r.Name+" allows")
	}
	return t, nil
}

// TaxMethod is what the tax of a quote would come to by another method.
type TaxMethod struct {
	Level    TaxLevel `json:"level"`
	Rounding Rounding `json:"rounding"`
	Tax      Money    `json:"tax"`
	// Difference is Tax less the tax of the quote.
	Difference Money `json:"difference"`
}

// TaxMethods shows what the tax would be per invoice and per line in each
// mode, beside the tax of the quote; without modes it takes that of the quote.
// It wraps ErrMode.
func (q Quote) TaxMethods(modes ...Rounding) ([]TaxMethod, error) {
	if len(modes) == 0 {
		modes = []Rounding{q.TaxRounding}
	}
	amounts, classes := q.taxBase()
	var out []TaxMethod
	for _, level := range bothLevels {
		for i, mode := range modes {
			t := q.Terms.Tax
			t.Level, t.Rounding = level, mode
			if err := mode.check(); err != nil {
				return nil, unit.InField(unit.Path("modes").At(i), err)
			}
			x, err := t.on(amounts, classes, q.Currency)
			if err != nil {
				return nil, err
			}
			d, err := x.total.Minus(q.Tax)
			if err != nil {
				return nil, err
			}
			out = append(out, TaxMethod{level, mode, x.total, d})
		}
	}
	return out, nil
}
