package cost

import (
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Change says how a line differs between two quotes: Same, Changed, Added or
// Dropped. The zero value is Same.
type Change uint8

const (
	// Same is a line with the same quantity, price and amount in both.
	Same Change = iota
	// Changed is a line in both that differs in any of them.
	Changed
	// Added is a line of the second quote only.
	Added
	// Dropped is a line of the first quote only.
	Dropped
)

// String gives the name, such as "changed".
func (c Change) String() string {
	return [...]string{"same", "changed", "added", "dropped"}[min(c, Dropped)]
}

// MarshalText writes the name.
func (c Change) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (c *Change) UnmarshalText(text []byte) error {
	for v := Same; v <= Dropped; v++ {
		if v.String() == string(text) {
			*c = v
			return nil
		}
	}
	return &unit.InputError{Value: string(text), Err: unit.ErrUnknown, Want: "one of same, changed, added, dropped"}
}

// CompareRow is one line of two quotes side by side.
type CompareRow struct {
	ID string `json:"id"`
	// What the line is for, in the words of the first quote that has it.
	What   string `json:"what"`
	Change Change `json:"change"`
	// A and B are the lines as text, such as "7.25 yd at 42.00 USD/yd"; empty
	// where a quote has no such line.
	A string `json:"a,omitempty"`
	B string `json:"b,omitempty"`
	// AmountA and AmountB are nothing where a quote has no such line, and
	// Difference is AmountB - AmountA.
	AmountA    Money `json:"amount_a"`
	AmountB    Money `json:"amount_b"`
	Difference Money `json:"difference"`
}

// Comparison is two quotes line by line. The differences of the lines add up
// to that of the subtotals; those of Discount, Tax and Credit lead from there
// to the total.
type Comparison struct {
	Lines []CompareRow `json:"lines"`
	// Sums has the rows subtotal, discount, tax and total. Discount is shown
	// as what it takes off, before and after tax together.
	Sums []CompareRow `json:"sums"`
}

// Compare sets two quotes side by side, say cloth against leather. Lines are
// matched by their ID, in the order of the first quote, then of the second.
// It wraps ErrCurrency.
func Compare(a, b Quote) (Comparison, error) {
	if a.Currency != b.Currency {
		return Comparison{}, unit.InField("currency", &MismatchError{a.Currency, b.Currency})
	}
	zero, err := Zero(a.Currency)
	if err != nil {
		return Comparison{}, err
	}
	var out Comparison
	for _, l := range a.Lines {
		row := CompareRow{ID: l.ID, What: l.What, Change: Dropped, A: l.terms(), AmountA: l.Amount, AmountB: zero}
		if m, ok := b.Line(l.ID); ok {
			row.B, row.AmountB = m.terms(), m.Amount
			if row.Change = change(l.Amount, m.Amount); row.A != row.B {
				row.Change = Changed // it may be more of it at less
			}
		}
		out.Lines = append(out.Lines, row)
	}
	for _, m := range b.Lines {
		if _, ok := a.Line(m.ID); !ok {
			out.Lines = append(out.Lines, CompareRow{ID: m.ID, What: m.What, Change: Added, B: m.terms(), AmountA: zero, AmountB: m.Amount})
		}
	}
	for _, f := range []struct {
		name string
		of   func(Quote) (Money, error)
	}{
		{"subtotal", func(q Quote) (Money, error) { return q.Subtotal, nil }},
		{"discount", func(q Quote) (Money, error) { return q.Discount.Plus(q.Credit) }},
		{"tax", func(q Quote) (Money, error) { return q.Tax, nil }},
		{"total", func(q Quote) (Money, error) { return q.Total, nil }},
	} {
		x, err := f.of(a)
		if err != nil {
			return Comparison{}, err
		}
		y, err := f.of(b)
		if err != nil {
			return Comparison{}, err
		}
		out.Sums = append(out.Sums, CompareRow{ID: f.name, What: f.name, Change: change(x, y), AmountA: x, AmountB: y})
	}
	for _, rows := range [][]CompareRow{out.Lines, out.Sums} {
		for i := range rows {
			if rows[i].Difference, err = rows[i].AmountB.Minus(rows[i].AmountA); err != nil {
				return Comparison{}, err
			}
		}
	}
	return out, nil
}

func change(a, b Money) Change {
	if a.Equal(b) {
		return Same
	}
	return Changed
}

// Line finds a line by its ID.
func (q Quote) Line(id string) (QuoteLine, bool) {
	for _, l := range q.Lines {
		if l.ID == id {
			return l, true
		}
	}
	return QuoteLine{}, false
}

// From gives the lines that were made of a source, such as one place of a job, in the
// order of the quote; none where there are none.
func (q Quote) From(source string) []QuoteLine {
	var out []QuoteLine
	for _, l := range q.Lines {
		if l.Source == source {
			out = append(out, l)
		}
	}
	return out
}

// terms writes what a line is priced by.
func (l QuoteLine) terms() string {
	if l.Price == "" {
		return l.Quantity
	}
	s := l.What + ": " + l.Quantity + " at " + l.Price
	if !l.Exact.Fixed.IsZero() {
		s += " and " + l.Exact.Fixed.String()
	}
	if l.Uplift != (Uplift{}) {
		s += ", " + l.Uplift.String()
	}
	return s
}

// String writes the comparison as a table of ID, first, second, difference.
func (c Comparison) String() string {
	cells := [][]string{{"", "first", "second", "difference"}}
	for _, rows := range [][]CompareRow{c.Lines, c.Sums} {
		for _, r := range rows {
			a, b := r.AmountA.Amount(), r.AmountB.Amount()
			switch r.Change {
			case Added:
				a = "-"
			case Dropped:
				b = "-"
			}
			cells = append(cells, []string{r.ID, a, b, signedAmount(r.Difference)})
		}
	}
	return grid(cells)
}

func signedAmount(m Money) string {
	if m.Sign() > 0 {
		return "+" + m.Amount()
	}
	return m.Amount()
}

// grid writes cells in columns, the first to the left and all others to the
// right.
func grid(cells [][]string) string {
	var widths []int
	for _, row := range cells {
		for i, c := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], len([]rune(c)))
		}
	}
	var b strings.Builder
	for _, row := range cells {
		for i, c := range row {
			pad := strings.Repeat(" ", widths[i]-len([]rune(c)))
			if i == 0 {
				b.WriteString(c + pad)
			} else {
				b.WriteString("  " + pad + c)
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}
