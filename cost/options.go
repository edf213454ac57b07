package cost

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Option is one way to do the job, such as "better": its own lines beside
// those that all options share. A line with the ID of a shared one replaces
// it.
type Option struct {
	Name  string `json:"name"`
	Lines []Line `json:"lines"`
}

// OptionQuote is an option with its price.
type OptionQuote struct {
	Name  string `json:"name"`
	Quote Quote  `json:"quote"`
}

// Options are the ways to do one job, priced side by side.
type Options struct {
	Options []OptionQuote `json:"options"`
}

// PriceOptions prices every option under the same terms. Names must differ.
// Errors name the option and are those of NewQuote.
func PriceOptions(t Terms, shared []Line, options ...Option) (Options, error) {
	if len(options) == 0 {
		return Options{}, check.Refuse("options", "", unit.ErrRequired, "at least one option")
	}
	var out Options
	for i, o := range options {
		at := unit.Path("options").At(i)
		if o.Name == "" {
			return Options{}, check.Refuse(at.Dot("name"), "", unit.ErrRequired, "a name such as better")
		}
		if _, ok := out.Option(o.Name); ok {
			return Options{}, check.Refuse(at.Dot("name"), o.Name, unit.ErrRange, "a name that no other option has")
		}
		q, err := NewQuote(t, merge(shared, o.Lines)...)
		if err != nil {
			return Options{}, unit.InField(at, err)
		}
		out.Options = append(out.Options, OptionQuote{o.Name, q})
	}
	return out, nil
}

// merge puts the lines of an option in the place of shared ones with the same
// ID, and the others behind them.
func merge(shared, own []Line) []Line {
	out := append([]Line(nil), shared...)
	used := make([]bool, len(own))
	for i := range out {
		for k, l := range own {
			if !used[k] && l.filled().ID == out[i].filled().ID {
				out[i], used[k] = l, true
				break
			}
		}
	}
	for k, l := range own {
		if !used[k] {
			out = append(out, l)
		}
	}
	return out
}

// Option finds an option by its name.
func (o Options) Option(name string) (OptionQuote, bool) {
	for _, x := range o.Options {
		if x.Name == name {
			return x, true
		}
	}
	return OptionQuote{}, false
}

// String writes the options side by side: a row for each line that any of them
// has, then subtotal, discount, tax and total.
func (o Options) String() string {
	head := []string{""}
	var ids []string
	seen := map[string]bool{}
	for _, x := range o.Options {
		head = append(head, x.Name)
		for _, l := range x.Quote.Lines {
			if !seen[l.ID] {
				seen[l.ID] = true
				ids = append(ids, l.ID)
			}
		}
	}
	cells := [][]string{head}
	row := func(name string, of func(Quote) string) {
		r := []string{name}
		for _, x := range o.Options {
			r = append(r, of(x.Quote))
		}
		cells = append(cells, r)
	}
	for _, id := range ids {
		row(id, func(q Quote) string {
			if l, ok := q.Line(id); ok {
				return l.Amount.Amount()
			}
			return "-"
		})
	}
	row("subtotal", func(q Quote) string { return q.Subtotal.Amount() })
	for _, x := range o.Options {
		if len(x.Quote.Discounts) > 0 {
			row("discount", func(q Quote) string {
				d, err := q.Discount.Plus(q.Credit)
				if err != nil {
					return "-"
				}
				return d.Neg().Amount()
			})
			break
		}
	}
	row("tax", func(q Quote) string { return q.Tax.Amount() })
	row("total", func(q Quote) string { return q.Total.Amount() })
	return grid(cells)
}
