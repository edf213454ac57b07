package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"

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
	r, err := job.Reprice(saved, order)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if format == "json" {
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		err = enc.Encode(r)
	} else {
		err = printRepricing(&b, r)
	}
	if err == nil {
		_, err = o.stdout.Write(b.Bytes())
	}
	return err
}

func printRepricing(b *bytes.Buffer, r job.Repricing) error {
	out := &errWriter{w: b}
	s := &sheet{w: out}
	s.title("RE-PRICED: " + r.Name)
	if !r.Saved.IsZero() {
		s.line("  saved quote of %s", r.Saved)
	}
	if !r.Issued.IsZero() {
		s.line("  new quote of %s", r.Issued)
	}
	switch {
	case len(r.Lines) == 0:
		s.line("\n  No line differs.")
	default:
		s.line("")
		s.table(func(row func(...string)) {
			row("line", "", "quantity", "price", "amount", "difference")
			for _, l := range r.Lines {
				if l.Change != cost.Added {
					row(l.ID, "was", l.Quantity, l.Price, l.Amount.Amount())
				}
				now := []string{"", "is", l.NewQuantity, l.NewPrice, l.NewAmount.Amount(), l.Difference.Amount()}
				switch l.Change {
				case cost.Added:
					now[0] = l.ID
				case cost.Dropped:
					now = []string{"", "is", "left out", "", l.NewAmount.Amount(), l.Difference.Amount()}
				}
				row(now...)
			}
		})
		s.line("\n  %s the same", plural(r.Same, "line"))
	}
	s.line("")
	s.table(func(row func(...string)) {
		row("", "was", "is", "difference")
		for _, x := range r.Sums {
			row(x.ID, x.AmountA.Amount(), x.AmountB.Amount(), x.Difference.Amount())
		}
	})
	return out.err
}
