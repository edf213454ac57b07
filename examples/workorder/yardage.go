package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/jobfile"
	"github.com/coverwright/coverwright/unit"
)

// yardage prints the lengths to buy of a job before its cloth is chosen.
func yardage(ctx context.Context, files jobfile.Files, o job.Options, metric bool, stdout, stderr io.Writer) int {
	spec, err := readSpec(files)
	var card []job.CardLength
	if err == nil {
		card, err = job.YardageCard(ctx, spec, o)
	}
	if err != nil {
		return refuse(stderr, err)
	}
	var b bytes.Buffer
	out := &errWriter{w: &b}
	s := &sheet{w: out, metric: metric}
	s.yardage(spec.Name, card)
	if err = out.err; err == nil {
		_, err = stdout.Write(b.Bytes())
	}
	if err != nil {
		fmt.Fprintln(stderr, "workorder:", err)
		return exitWrite
	}
	return exitOK
}

// readSpec reads a job without working it out.
func readSpec(files jobfile.Files) (job.Spec, error) {
	shop, err := shopOf(files)
	if err != nil {
		return job.Spec{}, err
	}
	if files.Job == "" {
		return shop.ReadSpec(bytes.NewReader(demo))
	}
	var spec job.Spec
	err = files.Open(func(r io.Reader) error {
		var err error
		spec, err = shop.ReadSpec(r)
		return err
	})
	return spec, err
}

// yardage writes the card: a line for goods of a width, a column for a repeat.
func (s *sheet) yardage(name string, card []job.CardLength) {
	s.line("YARDAGE CARD: %s", name)
	var repeats []unit.Length
	for _, c := range card {
		if !slices.Contains(repeats, c.Repeat) {
			repeats = append(repeats, c.Repeat)
		}
	}
	s.line("")
	s.table(func(row func(...string)) {
		cells := []string{"goods", "width"}
		for _, r := range repeats {
			if r == 0 {
				cells = append(cells, "plain")
			} else {
				cells = append(cells, "repeat "+s.len(r))
			}
		}
		row(cells...)
		for i, c := range card {
			if i > 0 && c.Goods == card[i-1].Goods && c.Width == card[i-1].Width {
				continue
			}
			cells := []string{c.Goods, s.len(c.Width)}
			for _, x := range card[i:] {
				if x.Goods == c.Goods && x.Width == c.Width {
					cells = append(cells, s.cardLength(x))
				}
			}
			row(cells...)
		}
	})
	s.wrapIn("  ", "The length to buy, by a layout of every piece: with what squaring the ends takes, and of goods with a repeat one repeat more, as a bolt may start "+
		"anywhere in it. Repeats are along the roll; a pattern across takes more.", 100)
	said := map[string]bool{} // read by key only
	for _, c := range card {
		if text := c.Goods + ", " + s.len(c.Width) + " wide: " + c.TooNarrow + " does not fit across."; c.TooNarrow != "" && !said[text] {
			said[text] = true
			s.wrapIn("  ", text, 100)
		}
	}
	if slices.ContainsFunc(card, func(c job.CardLength) bool { return c.Stopped }) {
		s.wrapIn("  ", "Stopped: more effort might find less.", 100)
	}
}

func (s *sheet) cardLength(c job.CardLength) string {
	switch {
	case c.TooNarrow != "":
		return "too narrow"
	case c.Length == 0:
		return "-"
	}
	return s.buyLen(c.Length)
}
