package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// sheet prints a work order for the wall: short lines, one measure to a
// column, in inches or in metric units.
type sheet struct {
	w      io.Writer
	metric bool
}

func printText(w io.Writer, o job.WorkOrder, metric bool) error {
	out := &errWriter{w: w}
	s := &sheet{w: out, metric: metric}
	s.title("WORK ORDER: " + o.Name)
	s.cuts(o)
	s.buy(o)
	s.sewing(o)
	s.foam(o)
	s.quote(o)
	s.cautions(o)
	return out.err
}

// errWriter keeps the first error, so that printing reads straight through.
type errWriter struct {
	w   io.Writer
	err error
}

func (e *errWriter) Write(p []byte) (int, error) {
	if e.err != nil {
		return 0, e.err
	}
	n, err := e.w.Write(p)
	e.err = err
	return n, err
}

func (s *sheet) line(format string, a ...any) { fmt.Fprintf(s.w, format+"\n", a...) }

func (s *sheet) title(t string) { s.line("%s\n%s", t, strings.Repeat("=", len([]rune(t)))) }

func (s *sheet) head(t string) { s.line("\n%s\n%s", t, strings.Repeat("-", len([]rune(t)))) }

func (s *sheet) table(rows func(row func(cells ...string))) {
	t := tabwriter.NewWriter(s.w, 0, 8, 2, ' ', 0)
	rows(func(cells ...string) { fmt.Fprintln(t, "  "+strings.TrimRight(strings.Join(cells, "\t"), "\t")) })
	t.Flush() //nolint:errcheck // the writer below keeps the error
}

// len writes a length for the bench: to the nearest 1/16 in, or to the
// nearest millimetre.
func (s *sheet) len(l unit.Length) string {
	if s.metric {
		return l.Decimal(unit.Millimetre, 0, unit.Nearest)
	}
	return l.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest)
}

func (s *sheet) size(x job.Size) string {
	if x == (job.Size{}) {
		return ""
	}
	if s.metric {
		return strings.TrimSuffix(s.len(x.Width), " mm") + " x " + s.len(x.Length)
	}
	return strings.TrimSuffix(s.len(x.Width), " in") + " x " + s.len(x.Length)
}

// buyLen writes a length to buy: never less than it is.
func (s *sheet) buyLen(l unit.Length) string {
	if s.metric {
		return l.Decimal(unit.Metre, 2, unit.Up)
	}
	return l.Mixed(unit.Yard, unit.Eighths, unit.Up)
}

// atLeast writes a bound: never more than it is.
func (s *sheet) atLeast(l unit.Length) string {
	if s.metric {
		return l.Decimal(unit.Metre, 2, unit.Down)
	}
	return l.Mixed(unit.Yard, unit.Eighths, unit.Down)
}

func hides(n int) string { return plural(n, "hide") }

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func (s *sheet) area(a unit.Area) string {
	if s.metric {
		return a.Decimal(unit.SquareMetre, 2, unit.Up)
	}
	return a.Decimal(unit.SquareFoot, 1, unit.Up)
}

func (s *sheet) threadLen(l unit.Length) string {
	if s.metric {
		return l.Decimal(unit.Metre, 0, unit.Up)
	}
	return l.Decimal(unit.Yard, 0, unit.Up)
}

func (s *sheet) cuts(o job.WorkOrder) {
	s.head("Cut list (width across the goods x length along them)")
	s.table(func(row func(...string)) {
		row("piece", "part", "goods", "count", "finished", "cut", "grain")
		for _, c := range o.Cuts {
			row(c.Piece, c.Part, c.Goods, fmt.Sprint(c.Count), s.size(c.Finished), s.size(c.Cut), c.Grain)
		}
	})
	s.line("\n  Edges and notes")
	s.table(func(row func(...string)) {
		for _, c := range o.Cuts {
			note := s.note(c)
			if c.Trim != (job.Size{}) && c.Trim != c.Cut {
				note += "; trim line " + s.size(c.Trim)
			}
			if note != "" {
				row("  "+c.Piece, c.Part, note)
			}
		}
	})
	if notes := basisNotes(o); len(notes) > 0 {
		s.line("\n  Allowances not given in the job")
		for _, n := range notes {
			s.line("    %s", n)
		}
	}
}

// note says what happens at the edges of a panel ("pull-over 3 in all
// round"), or what goes with a strip.
func (s *sheet) note(c job.Cut) string {
	switch {
	case c.ZipTape > 0:
		return "zip tape " + s.len(c.ZipTape) + " for each cushion"
	case c.Welt > 0:
		return "cord " + s.cord(c.Cord) + ", " + s.len(c.Welt) + " of welt for each cushion"
	case c.Edges == nil:
		return ""
	}
	var kinds []string
	where := map[string][]string{}
	for _, e := range []struct {
		name string
		edge allowance.CutEdge
	}{{"top", c.Edges.Top}, {"right", c.Edges.Right}, {"bottom", c.Edges.Bottom}, {"left", c.Edges.Left}} {
		t := e.edge.Finish.String()
		if e.edge.Allowance > 0 {
			t += " " + s.len(e.edge.Allowance)
		}
		if e.edge.Handling > 0 {
			t += " + " + s.len(e.edge.Handling) + " to trim"
		}
		if where[t] == nil {
			kinds = append(kinds, t)
		}
		where[t] = append(where[t], e.name)
	}
	if len(kinds) == 1 {
		return kinds[0] + " all round"
	}
	for i, k := range kinds {
		kinds[i] = strings.Join(where[k], ", ") + ": " + k
	}
	return strings.Join(kinds, "; ")
}

// cord writes a diameter, which a 1/16 would be too coarse for.
func (s *sheet) cord(l unit.Length) string {
	if s.metric {
		return l.Decimal(unit.Millimetre, 1, unit.Nearest)
	}
	return l.Mixed(unit.Inch, unit.ThirtySeconds, unit.Nearest)
}

// basisNotes says once what each default allowance is founded on.
func basisNotes(o job.WorkOrder) []string {
	var out []string
	seen := map[cite.Basis]bool{}
	for _, c := range o.Cuts {
		for _, b := range c.Basis {
			if !seen[b] {
				seen[b] = true
				out = append(out, b.String())
			}
		}
	}
	return out
}

func (s *sheet) buy(o job.WorkOrder) {
	s.head("What to buy")
	for _, p := range o.Purchases {
		what := s.buyLen(p.Length)
		if p.Hides > 0 {
			what = fmt.Sprintf("%s, %s together", hides(p.Hides), s.area(p.Area))
		}
		s.line("  %s (%s): %s", p.Name, p.Goods, what)
		for _, a := range p.Answers {
			amount := s.buyLen(a.Length)
			switch {
			case a.Hides > 0 || a.Area > 0:
				amount = s.area(a.Area) + ", " + hides(a.Hides)
			case a.Kind == cite.Bound:
				amount = s.atLeast(a.Length)
			}
			s.line("    %-14s %s: %s", a.Kind.String()+":", amount, a.Text)
			if a.Basis.Status != cite.Derived {
				s.line("    %-14s   %s", "", a.Basis)
			}
		}
		if p.Layout != nil {
			if y, err := p.Layout.Yield(); err == nil {
				s.line("    %-14s %s of the goods bought", "used:", y.PercentText(0, unit.Nearest))
			}
			if r := p.Layout.Roll.Repeat; r > 0 {
				s.line("    %-14s every panel starts on the %s repeat; strips fill the gaps", "pattern:", s.len(r))
			}
		}
	}
}

func (s *sheet) sewing(o job.WorkOrder) {
	s.head("Thread, needle and stitch")
	for _, x := range o.Sewing {
		p := x.Pick
		s.line("  %s: %s thread, needle %s (%s), stitch %s", x.Goods, p.Thread, p.Needle, p.Point, p.StitchLength.Decimal(unit.Millimetre, 1, unit.Nearest))
		s.line("    why: %s", p.Reason)
		s.line("    founded on: %s", p.Basis)
		for _, f := range p.Flags.Texts() {
			s.line("    take care: %s", f)
		}
		s.line("    %s of stitching in up to %d layers takes %s of needle thread and %s of bobbin thread,", s.threadLen(x.Seams), x.Layers,
			s.threadLen(x.Thread.Needle), s.threadLen(x.Thread.Under))
		s.line("    with tails, and %s added for waste (%s, %s)", x.Waste, x.Kind, x.Basis)
		if x.Thread.Bobbins > 0 {
			s.line("    wind %s", plural(x.Thread.Bobbins, "bobbin"))
		}
		if x.Thread.Cones > 0 {
			s.line("    buy %s", plural(x.Thread.Cones, "cone"))
		}
	}
}

func (s *sheet) foam(o job.WorkOrder) {
	if len(o.Foam) == 0 {
		return
	}
	s.head("Foam")
	for _, f := range o.Foam {
		sel := f.Selection
		s.line("  %s: %s, %d to cut", f.Piece, f.Part, f.Count)
		c := f.Cut
		s.line("    cut %s x %s x %s, %s in all", s.len(c.Length), s.len(c.Width), s.len(c.Thickness), s.volume(f.Volume))
		if c != f.Finished {
			s.line("    cut larger than the finished %s x %s x %s: %s (%s)", s.len(f.Finished.Length), s.len(f.Finished.Width),
				s.len(f.Finished.Thickness), f.Oversize.Name, f.Oversize.Basis.Status)
		}
		s.line("    ask for %.0f lbf at 25 %% (IFD25, ASTM D3574), %s", sel.Target.PoundsForce(), s.densities(sel.Density.Low, sel.Density.High))
		for _, r := range sel.Reasons {
			s.line("      %s", r)
		}
		for _, r := range sel.Disagreements {
			s.line("      sources differ: %s", r)
		}
		s.line("      %s, %s", sel.Kind, sel.DensityBasis)
		if t := f.Sitting; t != nil {
			s.line("    under %s: sinks %s (%s to %s), %s remain; %s of what the first layer bears before it bottoms out (%s)",
				s.mass(t.Sitter.Mass), s.len(t.Sink.Value), s.len(t.Sink.Low), s.len(t.Sink.High), s.len(t.Remaining.Value),
				(1/t.Margin).PercentText(0, unit.Nearest), t.Sink.Kind)
			for _, n := range t.Notes {
				s.line("      %s", n)
			}
		}
	}
}

func (s *sheet) mass(m unit.Mass) string {
	if s.metric {
		return m.Decimal(unit.Kilogram, 0, unit.Nearest)
	}
	return m.Decimal(unit.Pound, 0, unit.Nearest)
}

func (s *sheet) volume(v unit.Volume) string {
	if s.metric {
		return v.Decimal(unit.Litre, 1, unit.Up)
	}
	return v.Decimal(unit.BoardFoot, 1, unit.Up)
}

func (s *sheet) densities(lo, hi unit.Density) string {
	u, places := unit.PoundPerCubicFoot, 1
	if s.metric {
		u, places = unit.KilogramPerCubicMetre, 0
	}
	return lo.Decimal(u, places, unit.Nearest) + " to " + hi.Decimal(u, places, unit.Nearest)
}

func (s *sheet) quote(o job.WorkOrder) {
	s.head("Quote")
	s.line("%s", strings.TrimRight(o.Quote.String(), "\n"))
	if o.Payment != nil {
		s.table(func(row func(...string)) {
			row("deposit", o.Payment.Deposit.String())
			row("balance", o.Payment.Balance.String())
		})
	}
}

func (s *sheet) cautions(o job.WorkOrder) {
	s.head("Cautions")
	for _, c := range o.Cautions {
		text := c.About + ": " + c.Text
		if c.Rule != "" {
			text += " (" + c.Rule + ")"
		}
		s.wrap(text, 100)
	}
	if len(o.Sources) > 0 {
		s.head("Documents behind the figures")
		for _, d := range o.Sources {
			t := d.Title
			if d.Edition != "" {
				t += ", " + d.Edition
			}
			s.wrap(t, 100)
		}
	}
}

// wrap prints a paragraph with a hanging mark.
func (s *sheet) wrap(text string, width int) {
	line := "  -"
	for _, word := range strings.Fields(text) {
		if len([]rune(line))+1+len([]rune(word)) > width && strings.TrimSpace(line) != "" {
			s.line("%s", line)
			line = "   "
		}
		line += " " + word
	}
	s.line("%s", line)
}
