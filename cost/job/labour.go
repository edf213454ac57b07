package job

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// worked is a line of time with how it is priced.
type worked struct {
	Bench
	at   unit.Path // of the job file
	kind cost.Kind
	how  []cost.Figure
}

// labour gives the time of the job: first that of the shop's own figures, in the order
// of the file, then the usual one of pieces without, then the tasks around the bench.
// The usual times are those beside which the shop's own stand.
func labour(s Spec, t bench.Table, usual []*bench.Answer) ([]worked, faults) {
	var f faults
	var out []worked
	for i, p := range s.Pieces[:min(len(s.Pieces), maxCount)] {
		own, faulty := p.labour(unit.Path("pieces").At(i), usual[i])
		out, f = append(out, own...), append(f, faulty...)
	}
	for i, p := range s.Pieces[:min(len(s.Pieces), maxCount)] {
		if u := usual[i]; u != nil && u.Priced {
			lines, faulty := usualLines(u, unit.Path("pieces").At(i).Dot("usual"), *p.Usual)
			out, f = append(out, lines...), append(f, faulty...)
		}
	}
	around, faulty := errands(s, t)
	return append(out, around...), append(f, faulty...)
}

// labour gives the time of the shop's own figures for a piece, beside what is usual.
func (p Furniture) labour(at unit.Path, u *bench.Answer) ([]worked, faults) {
	var f faults
	var out []worked
	var done []bench.Task
	var sum unit.Duration
	for k, l := range p.Labour {
		at := at.Dot("labour").At(k)
		w, own := l.time(at, p.Name, copies(p.Count))
		for i, t := range l.Does {
			switch {
			case !slices.Contains(bench.Tasks(), t):
				own.add(at.Dot("does").At(i), check.OneOf("", t.String(), taskNames()...))
			case slices.Contains(done, t):
				own.add(at.Dot("does").At(i), check.Refuse("", t.String(), ErrTwice, "a task that no other entry of the piece covers"))
			}
			done = append(done, t)
		}
		own.add(at.Dot("actual"), checkActual(l.Actual))
		if f = append(f, own...); len(own) > 0 {
			continue
		}
		w.Does, w.Actual, w.TaxClass = l.Does, l.Actual, u.TaxClass(l.Does...)
		var err error
		if w.Range, w.Usual, err = u.Of(l.Does...); err == nil {
			sum, err = sum.Plus(l.Time)
		}
		if f.add(at.Dot("time"), err); err == nil {
			out = append(out, w)
		}
	}
	if u != nil && len(done) == 0 && len(f) == 0 {
		f.add(at.Dot("labour"), check.Between("", sum, 0, mostOwn))
		u.Own = sum
	}
	return out, f
}

// mostOwn is the most that is set beside what is usual.
const mostOwn = 100_000 * unit.Hour

func taskNames() []string {
	var out []string
	for _, t := range bench.Tasks() {
		out = append(out, t.String())
	}
	return out
}

// usualLines gives the usual time as the labour of the piece, task by task.
func usualLines(u *bench.Answer, at unit.Path, s bench.Ask) ([]worked, faults) {
	var f faults
	var out []worked
	for _, p := range u.Parts {
		for _, l := range p.Estimate.Lines {
			if l.Usual == 0 {
				continue
			}
			name := l.Name()
			if p.Part != "" {
				name = p.Part + ": " + name
			}
			w, own := LabourSpec{Task: name, Time: l.Usual, Learning: s.Learning}.time(at, u.Piece, u.Count*p.Count)
			if len(own) > 0 {
				return nil, append(f, own...) // the others would say the same
			}
			w.Does, w.Range, w.Usual, w.FromTable, w.TaxClass = []bench.Task{l.Task}, l.Time, l.Usual, true, l.TaxClass
			w.how = append([]cost.Figure{fromTable(l)}, w.how...)
			out = append(out, w)
			var err error
			if u.Quoted, err = u.Quoted.Plus(w.Time); err != nil {
				f.add(at, err)
				return nil, f
			}
		}
	}
	return out, f
}

// checkTime accepts the time of a task.
func checkTime(d unit.Duration) error { return check.Between("", d, unit.Minute, 10_000*unit.Hour) }

// checkActual accepts a time that something took; nothing is not known.
func checkActual(d unit.Duration) error { return check.Between("", d, 0, mostOwn) }

// time adds up the time of n pieces, with or without learning, and says how.
func (l LabourSpec) time(at unit.Path, piece string, n int) (worked, faults) {
	var f faults
	out := worked{at: at, kind: cost.Labour, Bench: Bench{Piece: piece, Task: l.Task, Count: n, Each: l.Time, Learning: l.Learning}}
	f.add(at.Dot("task"), checkName(l.Task))
	if err := checkTime(l.Time); err != nil {
		f.add(at.Dot("time"), err)
		return out, f
	}
	var err error
	if l.Learning == nil {
		out.Time, err = l.Time.Times(n)
		f.add(at.Dot("time"), err)
		return out, f
	}
	curve := rate.Learning{Model: rate.UnitModel, Rate: *l.Learning}
	var how cost.Figure
	if out.Time, err = curve.Total(l.Time, n); err == nil {
		how, err = curve.Explain(l.Time, n)
	}
	f.addAs(at.Dot("learning"), err)
	if err == nil { // the bench counts in minutes
		out.Time, err = out.Time.RoundTo(unit.Minute, unit.Up)
		f.add(at.Dot("time"), err)
		out.how = []cost.Figure{how}
	}
	return out, f
}

// taxed gives terms under which a tax on labour falls on every class of it that
// stands on a line, but for those that it leaves out.
func taxed(t cost.Terms, lines []cost.Line) cost.Terms {
	stands := func(c cost.TaxClass) bool {
		return slices.ContainsFunc(lines, func(l cost.Line) bool { return l.TaxClass == c })
	}
	levies := slices.Clone(t.Tax.Levies)
	for i := range levies {
		x := &levies[i]
		x.On = slices.Clone(x.On)
		for _, c := range labourClasses {
			if slices.Contains(x.On, cost.Labour.TaxClass()) && stands(c) && !slices.Contains(x.On, c) {
				x.On = append(x.On, c)
			}
		}
		x.Except = slices.DeleteFunc(slices.Clone(x.Except), func(c cost.TaxClass) bool { return !stands(c) })
	}
	t.Tax.Levies = levies
	return t
}

// labourClasses are those of the work at the bench.
var labourClasses = []cost.TaxClass{bench.Fabrication, bench.Application}
