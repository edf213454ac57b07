package bench

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Build is what the time is asked of: one piece of furniture, or a length of it. The
// zero value is refused.
type Build struct {
	// Piece names a row of the table. It may be empty where there are but extras and
	// tasks around the bench.
	Piece string `json:"piece,omitempty"`
	// Length is that of running furniture, from a centimetre to 1 km; zero for a
	// row of one piece.
	Length unit.Length `json:"length,omitzero"`
	// Tasks are those that the build needs, each once; when there are none, all that
	// the row has a time for. Tasks around the bench are named here too.
	Tasks  []Task `json:"tasks,omitempty"`
	Extras []Work `json:"extras,omitempty"` // each once
	// Goods names a row of goods that take longer; empty for plain cloth.
	Goods string `json:"goods,omitempty"`
	Match bool   `json:"match,omitempty"` // a pattern is matched
	// Share is how far up each range the usual lies, from 0 to 100 %; that of the
	// table when there is none.
	Share *unit.Ratio `json:"share,omitempty"`
}

// Work is so much of an extra: a Count of one that is counted, from 1 to 100 000, a
// Length of one that runs, above zero and at most 1 km.
type Work struct {
	Extra  string      `json:"extra" required:"true" hint:"the name of an extra"`
	Count  int         `json:"count,omitzero"`  // of one that is counted
	Length unit.Length `json:"length,omitzero"` // of one that runs
}

// Estimate is the usual time of a build. Its lines add up to it.
type Estimate struct {
	Lines []Line        `json:"lines"` // the tasks in their order, then the extras
	Time  Span          `json:"time"`
	Usual unit.Duration `json:"usual"`
	Kind  cite.Kind     `json:"kind"` // always cite.RuleOfThumb
}

// Line is a task of a build, or an extra.
type Line struct {
	Task  Task          `json:"task"` // of an extra the one that it belongs to
	Work  Work          `json:"work,omitzero"`
	Time  Span          `json:"time"`
	Usual unit.Duration `json:"usual"`
	// Held is how much of the extra the times of the piece have in them already; it
	// takes no time here.
	Held     Work          `json:"held,omitzero"`
	How      string        `json:"how"` // the figures that it comes from
	TaxClass cost.TaxClass `json:"tax_class"`
	Basis    cite.Basis    `json:"basis,omitzero"`
}

// Name gives that of the extra, or of the task.
func (l Line) Name() string {
	if l.Work.Extra != "" {
		return l.Work.Extra
	}
	return l.Task.String()
}

// Caution tells of a figure of the shop that lies outside the line; see
// [Span.Caution].
func (l Line) Caution(own unit.Duration) (string, error) { return l.Time.Caution(l.Name(), own) }

// Estimate gives the usual time of a build with its range:
//
//	T = f (cut + sew + cover) (1 + m) + strip + frame + pad + finish + errands + sum of n e
//
// f is the factor of the goods, m what matching adds, n how many or how much of an
// extra there is and e the time of one. Of the tasks only those that the build needs
// count. Each of the figures is a range; the usual one lies a share s of the way up:
//
//	usual = from + s (to - from),   s = 1/3 when neither build nor table gives one
//
// Extras are not multiplied by f and m. What the piece holds counts once: it is listed
// without a time as long as the build has the task that it belongs to; where the row
// says so, that task then takes its upper end. Each line is rounded once, what is usual
// to the nearest minute and its range outwards; the total is the sum of the lines.
//
// Errors are those of Table.Check, or name the field of the build and wrap
// unit.ErrRequired, unit.ErrRange, unit.ErrUnknown, unit.ErrNotFinite,
// unit.ErrForgottenUnit or unit.ErrOverflow.
func (t Table) Estimate(b Build) (Estimate, error) {
	w, err := t.working(b)
	if err != nil {
		return Estimate{}, err
	}
	out := Estimate{Kind: cite.RuleOfThumb}
	var extras []Line
	upper := map[Task]string{} // the task, and the extra that it has in it
	for i, x := range b.Extras {
		l, raised, err := w.extra(x)
		if err != nil {
			return Estimate{}, unit.InField(check.At("extras", i), err)
		}
		if slices.ContainsFunc(b.Extras[:i], func(o Work) bool { return o.Extra == x.Extra }) {
			return Estimate{}, check.Refuse(check.At("extras", i)+".extra", x.Extra, unit.ErrRange, "each extra once")
		}
		if raised {
			upper[l.Task] = x.Extra
		}
		extras = append(extras, l)
	}
	for _, task := range w.tasks {
		out.Lines = append(out.Lines, w.task(task, upper[task]))
	}
	out.Lines = append(out.Lines, extras...)
	for _, l := range out.Lines {
		if out.Time, err = out.Time.Plus(l.Time); err != nil {
			return Estimate{}, err
		}
		if out.Usual, err = out.Usual.Plus(l.Usual); err != nil {
			return Estimate{}, err
		}
	}
	return out, nil
}

// working is a build with its rows.
type working struct {
	table Table
	piece Piece
	tasks []Task
	share exact.Rat
	way   string  // the share, in words
	run   stretch // of a row by the length
	ran   string
	slow  stretch // goods and match
	slows string
}

// working looks up the rows of a build and checks it.
func (t Table) working(b Build) (working, error) {
	w := working{table: t, run: even(exact.Int(1)), slow: even(exact.Int(1)), share: exact.New(1, 3), way: "a third"}
	if err := t.Check(); err != nil {
		return w, unit.InField("table", err)
	}
	share := b.Share
	if share == nil {
		share = t.Share
	}
	if share != nil {
		if err := check.Ratio("share", *share, 0, 1); err != nil {
			return w, err
		}
		w.share, _ = exact.OfFloat(float64(*share))
		w.way = share.String()
	}
	if err := w.find(b); err != nil {
		return w, err
	}
	if b.Goods != "" {
		i := slices.IndexFunc(t.Goods, func(g Goods) bool { return g.Name == b.Goods })
		if i < 0 {
			return w, check.OneOf("goods", b.Goods, goodsNames(t.Goods)...)
		}
		f := t.Goods[i].Factor.at(w.share)
		w.slow, w.slows = w.slow.times(f), " × "+f.usual.Text(shownPlaces)+" for "+b.Goods
	}
	if b.Match {
		m := t.Match.at(w.share)
		one := exact.Int(1)
		m = stretch{one.Add(m.from), one.Add(m.usual), one.Add(m.to)}
		w.slow, w.slows = w.slow.times(m), w.slows+" × "+m.usual.Text(shownPlaces)+" for the match"
	}
	return w, check.Count("extras", len(b.Extras), 0, mostRows)
}

const shownPlaces = 4 // digits shown of a factor

func goodsNames(rows []Goods) []string {
	var out []string
	for _, g := range rows {
		out = append(out, g.Name)
	}
	return out
}

// find looks up the piece and its tasks.
func (w *working) find(b Build) error {
	if b.Piece != "" {
		i := slices.IndexFunc(w.table.Pieces, func(p Piece) bool { return p.Name == b.Piece })
		if i < 0 {
			var known []string
			for _, p := range w.table.Pieces {
				known = append(known, p.Name)
			}
			return check.OneOf("piece", b.Piece, known...)
		}
		w.piece = w.table.Pieces[i]
	}
	switch {
	case w.piece.Per > 0 && b.Length == 0:
		return check.Required("length", "how long the "+w.piece.Name+" is")
	case w.piece.Per > 0:
		if err := check.Length("length", b.Length, unit.Centimetre, check.Longest); err != nil {
			return err
		}
		w.run, w.ran = even(exact.New(int64(b.Length), int64(w.piece.Per))), perText(b.Length, w.piece.Per)
	case b.Length != 0:
		return check.Refuse("length", b.Length.String(), unit.ErrRange, "no length for a row of one piece")
	}
	if err := w.choose(b); err != nil {
		return err
	}
	if b.Piece == "" && len(b.Tasks)+len(b.Extras) == 0 {
		return check.Required("piece", "a row of the table, tasks around the bench or extras")
	}
	return nil
}

// choose takes the tasks of the build in their order.
func (w *working) choose(b Build) error {
	for i, t := range b.Tasks {
		at := check.At("tasks", i)
		switch {
		case t < Strip || t > Set:
			return check.OneOf(at, t.String(), taskNames...)
		case slices.Contains(b.Tasks[:i], t):
			return check.Refuse(at, t.String(), unit.ErrRange, "each task once")
		case t.atBench() && b.Piece == "":
			return check.Required("piece", "a row of the table, for "+t.String())
		case !t.atBench() && !slices.ContainsFunc(w.table.Errands, func(e Errand) bool { return e.Task == t }):
			return check.Refuse(at, t.String(), unit.ErrUnknown, "a task that the table has a time for")
		}
	}
	for _, t := range slices.Concat(Tasks(), Errands()) {
		if slices.Contains(b.Tasks, t) || len(b.Tasks) == 0 && w.piece.Time(t) != (Span{}) {
			w.tasks = append(w.tasks, t)
		}
	}
	return nil
}

// task gives the line of a task; where an extra raised it, at its upper end.
func (w *working) task(t Task, raised string) Line {
	span, basis := w.piece.Time(t), w.piece.Basis
	by, how := w.run, w.ran
	switch t {
	case Cut, Sew, Cover:
		by, how = by.times(w.slow), how+w.slows
	case Measure, Quote, Order, Collect, Deliver, Set:
		i := slices.IndexFunc(w.table.Errands, func(e Errand) bool { return e.Task == t })
		span, basis, by, how = w.table.Errands[i].Time, w.table.Errands[i].Basis, even(exact.Int(1)), ""
	}
	x := span.at(w.share)
	how = w.of(span, how)
	if raised != "" {
		x.usual = x.to
		how = "the upper end of " + span.String() + ", for " + raised + w.ran
	}
	l := Line{Task: t, How: how, TaxClass: t.TaxClass(w.piece.Made), Basis: basis}
	l.Time, l.Usual = x.times(by).minutes()
	return l
}

// of says what of a span is usual, and what it is multiplied by.
func (w *working) of(s Span, by string) string {
	if s.From == s.To {
		return s.String() + by
	}
	if by != "" {
		by = "," + by
	}
	return w.way + " of the way from " + s.String() + by
}

// extra gives the line of an extra, and whether its task takes the upper end instead.
func (w *working) extra(x Work) (Line, bool, error) {
	i := slices.IndexFunc(w.table.Extras, func(e Extra) bool { return e.Name == x.Extra })
	if i < 0 {
		return Line{}, false, check.OneOf("extra", x.Extra, extraNames(w.table.Extras)...)
	}
	e := w.table.Extras[i]
	if err := x.check(e); err != nil {
		return Line{}, false, err
	}
	l := Line{Task: e.Task, Work: x, TaxClass: e.Task.TaxClass(w.piece.Made), Basis: e.Basis}
	h := slices.IndexFunc(w.piece.Holds, func(h Held) bool { return h.Extra == x.Extra })
	raised := false
	if h >= 0 && slices.Contains(w.tasks, e.Task) {
		held := w.piece.Holds[h]
		raised = held.Upper
		l.Held = x
		if held.Count > 0 && e.Per == 0 {
			l.Held.Count = min(held.Count, x.Count)
		}
		x.Count -= l.Held.Count
		x.Length -= l.Held.Length
	}
	if x.Count == 0 && x.Length == 0 {
		l.How = "in " + e.Task.String() + " of the " + w.piece.Name
		return l, raised, nil
	}
	n, how := even(exact.Int(int64(x.Count))), " × "+strconv.Itoa(x.Count)
	if e.Per > 0 {
		n, how = even(exact.New(int64(x.Length), int64(e.Per))), perText(x.Length, e.Per)
	}
	l.Time, l.Usual = e.Time.at(w.share).times(n).minutes()
	l.How = w.of(e.Time, how)
	return l, raised, nil
}

func perText(l, per unit.Length) string { return " × " + l.String() + " / " + per.String() }

func (x Work) check(e Extra) error {
	if e.Per == 0 {
		if err := check.Count("count", x.Count, 1, mostCount); err != nil {
			return err
		}
		if x.Length != 0 {
			return check.Refuse("length", x.Length.String(), unit.ErrRange, "no length of an extra that is counted")
		}
		return nil
	}
	if x.Count != 0 {
		return check.Refuse("count", strconv.Itoa(x.Count), unit.ErrRange, "no count of an extra that runs")
	}
	return check.Positive("length", x.Length)
}
