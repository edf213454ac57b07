package cost

import (
	"math/big"
	"slices"

	"github.com/coverwright/coverwright/unit"
)

// Levy is one tax with its rate and the lines it falls on.
type Levy struct {
	// Name is printed, such as "sales tax". It is required.
	Name string
	// Rate is from 0 to 100 %.
	Rate unit.Ratio
	// On lists the classes it falls on; empty means every line. A class must
	// be the name of a kind or stand on a line of the quote, so that a
	// misspelt one does not go untaxed.
	On []TaxClass
	// Except lists classes it does not fall on.
	Except []TaxClass
}

func (l Levy) falls(on TaxClass) bool {
	return (len(l.On) == 0 || slices.Contains(l.On, on)) && !slices.Contains(l.Except, on)
}

// TaxLevel says where tax is rounded.
type TaxLevel uint8

const (
	// PerInvoice rounds each levy once, on the sum of its lines.
	PerInvoice TaxLevel = iota
	// PerLine rounds each levy on each line, then adds up.
	PerLine
)

// String gives "per invoice" or "per line".
func (l TaxLevel) String() string {
	if l == PerLine {
		return "per line"
	}
	return "per invoice"
}

// MarshalText writes the level as String does.
func (l TaxLevel) MarshalText() ([]byte, error) { return []byte(l.String()), l.check() }

// UnmarshalText reads a level as String writes it.
func (l *TaxLevel) UnmarshalText(text []byte) error {
	switch string(text) {
	case "per invoice", "":
		*l = PerInvoice
	case "per line":
		*l = PerLine
	default:
		return refuse("level", string(text), unit.ErrUnknown, "per invoice or per line")
	}
	return nil
}

func (l TaxLevel) check() error {
	if l > PerLine {
		return refuse("level", "", unit.ErrUnknown, "per invoice or per line")
	}
	return nil
}

// Tax says how a quote is taxed. The zero value is no tax.
type Tax struct {
	Levies []Levy
	// Level says where tax is rounded: per invoice unless said otherwise.
	Level TaxLevel
	// Inclusive says that the prices contain the tax already: of a gross
	// amount G with rates that add up to R, a levy of rate r takes
	// G × r / (1 + R).
	Inclusive bool
	// Regime is the code of a rounding rule, such as "AU"; see Regimes. It
	// checks level and rounding. Empty checks nothing.
	Regime string
	// Rounding is how tax is rounded; the zero value takes that of the
	// regime, or else of the terms.
	Rounding Rounding
}

// LevyAmount is what one levy comes to.
type LevyAmount struct {
	Name string     `json:"name"`
	Rate unit.Ratio `json:"rate"`
	// Base is the sum of the lines it falls on: net of the tax when prices
	// exclude it, the gross amounts when they include it.
	Base Money `json:"base"`
	Tax  Money `json:"tax"`
}

func (t Tax) check(lines []Line) error {
	if err := t.Level.check(); err != nil {
		return err
	}
	for i, l := range t.Levies {
		at := index("levies", i)
		if l.Name == "" {
			return refuse(at+".name", "", unit.ErrRequired, "a name such as sales tax")
		}
		if _, err := ratioBetween("rate", l.Rate, 0, 1); err != nil {
			return unit.InField(at, err)
		}
		for _, c := range slices.Concat(l.On, l.Except) {
			known := slices.Contains(kindNames, string(c)) || slices.ContainsFunc(lines, func(l Line) bool { return l.class == c })
			if !known {
				return refuse(at+".on", string(c), unit.ErrUnknown, "the name of a kind or the tax class of a line")
			}
		}
	}
	return nil
}

// taxed is the tax of a quote before it is shown.
type taxed struct {
	levies []LevyAmount
	total  Money
	lines  []Money // share of each line; they add up to total
}

// on computes the tax on amounts, one for each line with its class. The levies
// have been checked and the mode is settled.
func (t Tax) on(amounts []Money, classes []TaxClass, c Currency) (taxed, error) {
	zero, err := Zero(c)
	if err != nil {
		return taxed{}, err
	}
	out := taxed{total: zero, lines: make([]Money, len(amounts))}
	for i := range out.lines {
		out.lines[i] = zero
	}
	rates := make([]*big.Rat, len(t.Levies))
	for k, l := range t.Levies {
		if rates[k], err = ratio("rate", l.Rate); err != nil {
			return taxed{}, err
		}
	}
	for k, l := range t.Levies {
		base := zero
		exact := make([]*big.Rat, len(amounts)) // tax of each line before rounding
		sum := new(big.Rat)
		for i, a := range amounts {
			exact[i] = new(big.Rat)
			if !l.falls(classes[i]) {
				continue
			}
			if base, err = base.Plus(a); err != nil {
				return taxed{}, err
			}
			exact[i] = mul(a.rat(), rates[k])
			if t.Inclusive {
				exact[i] = quo(exact[i], t.gross(rates, classes[i]))
			}
			sum.Add(sum, exact[i])
		}
		tax, parts, err := t.round(sum, exact, c)
		if err != nil {
			return taxed{}, err
		}
		if out.total, err = out.total.Plus(tax); err != nil {
			return taxed{}, err
		}
		for i := range parts {
			if out.lines[i], err = out.lines[i].Plus(parts[i]); err != nil {
				return taxed{}, err
			}
		}
		out.levies = append(out.levies, LevyAmount{Name: l.Name, Rate: l.Rate, Base: base, Tax: tax})
	}
	return out, nil
}

// gross gives 1 + R, R being the sum of the rates that fall on a class.
func (t Tax) gross(rates []*big.Rat, class TaxClass) *big.Rat {
	whole := ratInt(1)
	for k, l := range t.Levies {
		if l.falls(class) {
			whole.Add(whole, rates[k])
		}
	}
	return whole
}

// round rounds one levy at its level and gives the share of each line.
func (t Tax) round(sum *big.Rat, exact []*big.Rat, c Currency) (Money, []Money, error) {
	if t.Level == PerLine {
		total, err := Zero(c)
		parts := make([]Money, len(exact))
		for i := range exact {
			if err == nil {
				parts[i], err = rounded(exact[i], c, t.Rounding)
			}
			if err == nil {
				total, err = total.Plus(parts[i])
			}
		}
		return total, parts, err
	}
	total, err := rounded(sum, c, t.Rounding)
	if err != nil || sum.Sign() == 0 {
		return total, nil, err
	}
	parts, err := allocate(total, exact)
	return total, parts, err
}
