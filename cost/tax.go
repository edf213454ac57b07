package cost

import (
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Levy is one tax with its rate and the lines it falls on.
type Levy struct {
	// Name is printed, such as "sales tax". It is required.
	Name string `json:"name"`
	// Rate is from 0 to 100 %.
	Rate unit.Ratio `json:"rate"`
	// On lists the classes it falls on; empty means every line. A class must
	// be the name of a kind or stand on a line of the quote, so that a
	// misspelt one does not go untaxed.
	On []TaxClass `json:"on,omitempty"`
	// Except lists classes it does not fall on.
	Except []TaxClass `json:"except,omitempty"`
}

// Falls tells whether the levy falls on lines of a class.
func (l Levy) Falls(on TaxClass) bool {
	return (len(l.On) == 0 || slices.Contains(l.On, on)) && !slices.Contains(l.Except, on)
}

// doubles tells whether l is m once more, for all lines or for one of these.
func (l Levy) doubles(m Levy, lines []Line) bool {
	if l.Name != m.Name || l.Rate != m.Rate {
		return false
	}
	return slices.Equal(l.On, m.On) && slices.Equal(l.Except, m.Except) ||
		slices.ContainsFunc(lines, func(x Line) bool { c := x.filled().TaxClass; return l.Falls(c) && m.Falls(c) })
}

// TaxLevel says where tax is rounded: PerInvoice, the zero value, or PerLine.
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
		return check.Refuse("level", string(text), unit.ErrUnknown, "per invoice or per line")
	}
	return nil
}

func (l TaxLevel) check() error {
	if l > PerLine {
		return check.Refuse("level", "", unit.ErrUnknown, "per invoice or per line")
	}
	return nil
}

// Tax says how a quote is taxed. The zero value is no tax.
type Tax struct {
	Levies []Levy `json:"levies,omitempty"`
	// Level says where tax is rounded: per invoice unless said otherwise.
	Level TaxLevel `json:"level"`
	// Inclusive says that the prices contain the tax already: of a gross
	// amount G with rates that add up to R, a levy of rate r takes
	// G × r / (1 + R).
	Inclusive bool `json:"prices_include_tax,omitempty"`
	// Together rounds the sum of the levies once, at the level, and splits it
	// over them by largest remainder, instead of rounding each levy: state
	// and local tax as one.
	Together bool `json:"together,omitempty"`
	// Regime is the code of a rounding rule, such as "AU"; see Regimes. It
	// checks level and rounding. Empty checks nothing.
	Regime string `json:"regime,omitempty"`
	// Rounding is how tax is rounded; the zero value takes that of the
	// regime, or else of the terms.
	Rounding Rounding `json:"rounding"`
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
		at := unit.Path("levies").At(i)
		if l.Name == "" {
			return check.Refuse(at.Dot("name"), "", unit.ErrRequired, "a name such as sales tax")
		}
		if err := check.Ratio("rate", l.Rate, 0, 1); err != nil {
			return unit.InField(at, err)
		}
		for k, m := range t.Levies[:i] {
			if l.doubles(m, lines) {
				return check.Refuse(at, l.Name, unit.ErrRange, fmt.Sprintf("taxes that differ; this one falls on lines that number %d taxes with the same name and rate", k+1))
			}
		}
		for _, c := range slices.Concat(l.On, l.Except) {
			known := slices.Contains(kindNames, string(c)) || slices.ContainsFunc(lines, func(l Line) bool { return l.filled().TaxClass == c })
			if !known {
				return check.Refuse(at.Dot("on"), string(c), unit.ErrUnknown, "the name of a kind or the tax class of a line")
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
	zero := nothing(c)
	due, err := t.exact(amounts, classes)
	if err != nil {
		return taxed{}, err
	}
	rounds := t.apart
	if t.Together {
		rounds = t.together
	}
	parts, err := rounds(due, c)
	if err != nil {
		return taxed{}, err
	}
	out := taxed{total: zero, lines: make([]Money, len(amounts))}
	for i := range out.lines {
		out.lines[i] = zero
	}
	for k, l := range t.Levies {
		sum, base := zero, zero
		for i, a := range amounts {
			if !l.Falls(classes[i]) {
				continue
			}
			base, sum = more(base, a), more(sum, parts[k][i])
			if out.lines[i], err = out.lines[i].Plus(parts[k][i]); err != nil {
				return taxed{}, err
			}
		}
		if out.total, err = out.total.Plus(sum); err != nil {
			return taxed{}, err
		}
		out.levies = append(out.levies, LevyAmount{Name: l.Name, Rate: l.Rate, Base: base, Tax: sum})
	}
	return out, nil
}

// exact gives the tax of each levy on each line before rounding.
func (t Tax) exact(amounts []Money, classes []TaxClass) ([][]exact.Rat, error) {
	rates := make([]exact.Rat, len(t.Levies))
	for k, l := range t.Levies {
		var err error
		if rates[k], err = ratio("rate", l.Rate); err != nil {
			return nil, err
		}
	}
	all := make([]exact.Rat, len(t.Levies)*len(amounts))
	out := make([][]exact.Rat, len(t.Levies))
	for k, l := range t.Levies {
		out[k] = all[k*len(amounts):][:len(amounts)]
		for i, a := range amounts {
			if !l.Falls(classes[i]) {
				continue
			}
			out[k][i] = a.amount.Mul(rates[k])
			if t.Inclusive {
				out[k][i] = out[k][i].Quo(t.gross(rates, classes[i]))
			}
		}
	}
	return out, nil
}

// gross gives 1 + R, R being the sum of the rates that fall on a class.
func (t Tax) gross(rates []exact.Rat, class TaxClass) exact.Rat {
	whole := exact.Int(1)
	for k, l := range t.Levies {
		if l.Falls(class) {
			whole = whole.Add(rates[k])
		}
	}
	return whole
}

// apart rounds each levy by itself, once an invoice or once a line, and gives
// its part of each line.
func (t Tax) apart(due [][]exact.Rat, c Currency) ([][]Money, error) {
	out := make([][]Money, len(due))
	for k, lines := range due {
		if t.Level == PerInvoice {
			total, err := rounded(total(lines), c, t.Rounding)
			if err != nil {
				return nil, err
			}
			if out[k], err = shares(total, lines); err != nil {
				return nil, err
			}
			continue
		}
		out[k] = make([]Money, len(lines))
		for i, x := range lines {
			var err error
			if out[k][i], err = rounded(x, c, t.Rounding); err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}

// together rounds all levies as one and splits them afterwards.
func (t Tax) together(due [][]exact.Rat, c Currency) ([][]Money, error) {
	out := make([][]Money, len(due))
	if len(due) == 0 {
		return out, nil
	}
	if t.Level == PerInvoice {
		sums := make([]exact.Rat, len(due))
		for k, lines := range due {
			sums[k] = total(lines)
		}
		all, err := rounded(total(sums), c, t.Rounding)
		if err != nil {
			return nil, err
		}
		levies, err := shares(all, sums)
		if err != nil {
			return nil, err
		}
		for k, lines := range due {
			if out[k], err = shares(levies[k], lines); err != nil {
				return nil, err
			}
		}
		return out, nil
	}
	for k := range due {
		out[k] = make([]Money, len(due[k]))
	}
	for i := range due[0] {
		line := make([]exact.Rat, len(due))
		for k := range due {
			line[k] = due[k][i]
		}
		all, err := rounded(total(line), c, t.Rounding)
		if err != nil {
			return nil, err
		}
		levies, err := shares(all, line)
		if err != nil {
			return nil, err
		}
		for k := range due {
			out[k][i] = levies[k]
		}
	}
	return out, nil
}

func total(xs []exact.Rat) exact.Rat {
	var sum exact.Rat
	for _, x := range xs {
		sum = sum.Add(x)
	}
	return sum
}

// shares splits a rounded whole in proportion to exact parts; a whole of
// nothing in parts of nothing.
func shares(whole Money, parts []exact.Rat) ([]Money, error) {
	if !whole.IsZero() {
		return allocate(whole, parts)
	}
	out := make([]Money, len(parts))
	for i := range out {
		out[i] = whole
	}
	return out, nil
}
