package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
)

// savedOrder reads the order of -against.
func savedOrder(file string) (job.WorkOrder, error) {
	f, err := os.Open(file)
	if err != nil {
		return job.WorkOrder{}, err
	}
	defer f.Close() //nolint:errcheck // only read
	o, err := job.ReadOrder(f)
	if err != nil {
		return job.WorkOrder{}, fmt.Errorf("%s: %w", file, err)
	}
	return o, nil
}

// against gives out what differs between a saved order and the new one.
func against(saved, order job.WorkOrder, format string, o settings) error {
	c, err := order.Against(saved)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if format == "json" {
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		err = enc.Encode(c)
	} else {
		err = printRepricing(&b, saved, order, c)
	}
	if err == nil {
		_, err = o.stdout.Write(b.Bytes())
	}
	return err
}

func printRepricing(b *bytes.Buffer, saved, order job.WorkOrder, c cost.Comparison) error {
	out := &errWriter{w: b}
	s := &sheet{w: out}
	s.line("RE-PRICED: %s", order.Name)
	if day := saved.Quote.Issued; !day.IsZero() {
		s.line("  saved quote of %s", day)
	}
	if day := order.Quote.Issued; !day.IsZero() {
		s.line("  new quote of %s", day)
	}
	differ := slices.DeleteFunc(slices.Clone(c.Lines), func(r cost.CompareRow) bool { return r.Change == cost.Same })
	s.line("")
	s.table(func(row func(...string)) {
		if len(differ) > 0 {
			row("line", "", "quantity", "price", "amount", "difference")
		}
		for _, r := range differ {
			was, _ := saved.Quote.Line(r.ID)
			is, _ := order.Quote.Line(r.ID)
			switch r.Change {
			case cost.Same:
			case cost.Changed:
				row(r.What, "was", shopQuantity(was), soldAt(was), r.AmountA.GroupedAmount())
				row("", "is", shopQuantity(is), soldAt(is), r.AmountB.GroupedAmount(), r.Difference.GroupedAmount())
			case cost.Added:
				row(r.What, "is new", shopQuantity(is), soldAt(is), r.AmountB.GroupedAmount(), r.Difference.GroupedAmount())
			case cost.Dropped:
				row(r.What, "was", shopQuantity(was), soldAt(was), r.AmountA.GroupedAmount())
				row("", "is left out", "", "", "", r.Difference.GroupedAmount())
			}
		}
	})
	s.line("\n  %s the same\n", plural(len(c.Lines)-len(differ), "line"))
	s.table(func(row func(...string)) {
		row("", "was", "is", "difference")
		for _, x := range c.Sums {
			row(x.ID, x.AmountA.GroupedAmount(), x.AmountB.GroupedAmount(), x.Difference.GroupedAmount())
		}
	})
	return out.err
}

// shopQuantity writes how much of a line there is.
func shopQuantity(l cost.QuoteLine) string {
	text, _ := l.ShopQuantity()
	return text
}

// soldAt writes what a line is charged at: price, what is paid once, markup.
func soldAt(l cost.QuoteLine) string {
	out := l.Price
	if !l.Exact.Fixed.IsZero() {
		out += " and " + l.Exact.Fixed.Grouped()
	}
	if l.Uplift != (cost.Uplift{}) {
		out += ", " + l.Uplift.String()
	}
	return out
}
