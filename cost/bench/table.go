package bench

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Table is how long things take, usually or in a shop. The
// zero value has no rows.
type Table struct {
	Pieces []Piece `json:"pieces,omitempty"` // times of pieces, each name once
	Extras []Extra `json:"extras,omitempty"` // times of extras, each name once
	Goods  []Goods `json:"goods,omitempty"`  // goods that take longer, each name once
	// Match is what matching a pattern adds to cutting, sewing and covering; a
	// share from 0 to 200 %.
	Match   Factor   `json:"match,omitzero"`
	Errands []Errand `json:"errands,omitempty"` // times of tasks around the bench, each task once
	// Share is how far up each range the usual lies, from 0 to 100 %; a third when
	// there is none.
	Share *unit.Ratio `json:"share,omitzero"`
}

// Piece is the time of one piece of furniture in plain cloth, task by task. A task
// without a time is not usual on it. Times are from zero to 1000 h.
type Piece struct {
	Name string `json:"name" required:"true" hint:"what the piece is called"`
	Note string `json:"note,omitempty"` // what the row is of, such as "seat and back"
	// Per is the length that a row of running furniture is of, such as a foot, from
	// a centimetre to 100 m; zero for a row of one piece.
	Per    unit.Length `json:"per,omitzero"`
	Strip  Span        `json:"strip,omitzero"`  // to take off what is old
	Frame  Span        `json:"frame,omitzero"`  // for frame, webbing and springs
	Pad    Span        `json:"pad,omitzero"`    // to build up the filling
	Cut    Span        `json:"cut,omitzero"`    // to lay out, mark and cut
	Sew    Span        `json:"sew,omitzero"`    // to join the cover
	Cover  Span        `json:"cover,omitzero"`  // to put the cover on, or the filling in
	Finish Span        `json:"finish,omitzero"` // to close, trim, and put on dust cover and feet
	// Made says that the row is of something made new, such as a cushion.
	Made  bool       `json:"made,omitempty"`
	Holds []Held     `json:"holds,omitempty"` // extras that its times have in them
	Basis cite.Basis `json:"basis,omitzero"`  // of a shop's own row none
}

// Held is an extra that the times of a piece have in them already.
type Held struct {
	Extra string `json:"extra" required:"true" hint:"the name of an extra"`
	Count int    `json:"count,omitzero"` // so many of one that is counted; zero for all there are
	// Upper says that its task then takes the upper end of its span.
	Upper bool `json:"upper,omitempty"`
}

// Extra is the time of something that pieces have more or less of.
type Extra struct {
	Name string `json:"name" required:"true" hint:"what the extra is called"`
	Note string `json:"note,omitempty"`                                  // what it is of
	Task Task   `json:"task" required:"true" hint:"a task at the bench"` // that it belongs to, one at the bench
	// Per is the length that the time is for, such as a foot, from a centimetre to
	// 100 m; zero for an extra that is counted.
	Per   unit.Length `json:"per,omitzero"`
	Time  Span        `json:"time" required:"true" hint:"its time, from and to"`
	Basis cite.Basis  `json:"basis,omitzero"` // of a shop's own row none
}

// Goods are a cover that takes longer to cut, sew and put on than plain cloth.
type Goods struct {
	Name   string     `json:"name" required:"true" hint:"what they are called"`
	Factor Factor     `json:"factor" required:"true" hint:"from and to, such as 1.1 and 1.3"` // from 0.1 to 10
	Basis  cite.Basis `json:"basis,omitzero"`                                                 // of a shop's own row none
}

// Errand is the time of a task around the bench, each time that it is done.
type Errand struct {
	Task  Task       `json:"task" required:"true" hint:"a task around the bench"`
	Time  Span       `json:"time" required:"true" hint:"its time, from and to"`
	Basis cite.Basis `json:"basis,omitzero"` // of a shop's own row none
}

// Time gives the time of a task at the bench; no time for any other.
func (p Piece) Time(t Task) Span {
	if !t.atBench() {
		return Span{}
	}
	return [...]Span{p.Strip, p.Frame, p.Pad, p.Cut, p.Sew, p.Cover, p.Finish}[t-Strip]
}

// Total gives the time of all tasks together. It wraps unit.ErrOverflow.
func (p Piece) Total() (Span, error) {
	var sum Span
	for _, t := range Tasks() {
		var err error
		if sum, err = sum.Plus(p.Time(t)); err != nil {
			return Span{}, err
		}
	}
	return sum, nil
}

// With gives the table with rows of own in place of those of the same name, and
// those that have none beside them. Match and share count where own has one. Errors
// are those of Check, of either table.
func (t Table) With(own Table) (Table, error) {
	for _, x := range []Table{t, own} {
		if err := x.Check(); err != nil {
			return Table{}, err
		}
	}
	out := Table{Match: t.Match, Share: t.Share,
		Pieces:  replaced(t.Pieces, own.Pieces, func(p Piece) string { return p.Name }),
		Extras:  replaced(t.Extras, own.Extras, func(e Extra) string { return e.Name }),
		Goods:   replaced(t.Goods, own.Goods, func(g Goods) string { return g.Name }),
		Errands: replaced(t.Errands, own.Errands, func(e Errand) string { return e.Task.String() })}
	if own.Match != (Factor{}) {
		out.Match = own.Match
	}
	if own.Share != nil {
		out.Share = own.Share
	}
	return out, out.Check()
}

func replaced[R any](rows, own []R, name func(R) string) []R {
	rows = slices.Clone(rows)
	for _, o := range own {
		if i := slices.IndexFunc(rows, func(r R) bool { return name(r) == name(o) }); i >= 0 {
			rows[i] = o
		} else {
			rows = append(rows, o)
		}
	}
	return rows
}

const (
	mostRows  = 1000
	mostCount = 100_000
)

// Check gives nil for a table that Estimate accepts, else an error that names the
// field and wraps unit.ErrRequired, unit.ErrRange, unit.ErrUnknown,
// unit.ErrForgottenUnit or unit.ErrNotFinite. Names are no two alike, and an extra
// that a piece holds is a row of the table of the trade or of this one.
func (t Table) Check() error {
	if err := t.checkPieces(); err != nil {
		return err
	}
	if err := rows("extras", t.Extras, func(e Extra) string { return e.Name }, Extra.check); err != nil {
		return err
	}
	if err := rows("goods", t.Goods, func(g Goods) string { return g.Name }, Goods.check); err != nil {
		return err
	}
	if err := t.Match.check(0, 2); err != nil {
		return unit.InField("match", err)
	}
	if t.Share != nil {
		if err := check.Ratio("share", *t.Share, 0, 1); err != nil {
			return err
		}
	}
	return rows("errands", t.Errands, func(e Errand) string { return e.Task.String() }, Errand.check)
}

func (t Table) checkPieces() error {
	known := slices.Concat(t.Extras, usualExtras()) // own rows first
	return rows("pieces", t.Pieces, func(p Piece) string { return p.Name }, func(p Piece) error { return p.check(known) })
}

func extraNames(rows []Extra) []string {
	var out []string
	for _, e := range rows {
		out = append(out, e.Name)
	}
	return out
}

// rows checks each of a list, and that no two have one name.
func rows[R any](field string, list []R, name func(R) string, sound func(R) error) error {
	if err := check.Count(field, len(list), 0, mostRows); err != nil {
		return err
	}
	seen := map[string]bool{}
	for i, r := range list {
		at, n := check.At(field, i), name(r)
		switch {
		case strings.TrimSpace(n) == "":
			return check.Required(at+".name", "a name")
		case seen[n]:
			return check.Refuse(at+".name", n, unit.ErrRange, "a name that no other row has")
		}
		seen[n] = true
		if err := sound(r); err != nil {
			return unit.InField(at, err)
		}
	}
	return nil
}

func (p Piece) check(extras []Extra) error {
	if err := checkPer(p.Per); err != nil {
		return err
	}
	for _, t := range Tasks() {
		if err := p.Time(t).check(); err != nil {
			return unit.InField(t.String(), err)
		}
	}
	if err := check.Count("holds", len(p.Holds), 0, mostRows); err != nil {
		return err
	}
	for i, h := range p.Holds {
		if err := h.check(extras); err != nil {
			return unit.InField(check.At("holds", i), err)
		}
	}
	return nil
}

func (h Held) check(extras []Extra) error {
	i := slices.IndexFunc(extras, func(e Extra) bool { return e.Name == h.Extra })
	if i < 0 {
		return check.OneOf("extra", h.Extra, extraNames(extras)...)
	}
	if h.Count != 0 && (h.Upper || extras[i].Per != 0) {
		return check.Refuse("count", strconv.Itoa(h.Count), unit.ErrRange, "none, for all there are: it runs, or its task takes the upper end")
	}
	return check.Count("count", h.Count, 0, mostCount)
}

func checkPer(l unit.Length) error {
	if l == 0 {
		return nil
	}
	return check.Length("per", l, unit.Centimetre, 100*unit.Metre)
}

func (e Extra) check() error {
	if !e.Task.atBench() {
		return check.OneOf("task", e.Task.String(), names(Tasks())...)
	}
	if err := checkPer(e.Per); err != nil {
		return err
	}
	return unit.InField("time", e.Time.check())
}

func (g Goods) check() error { return unit.InField("factor", g.Factor.check(0.1, 10)) }

func (e Errand) check() error {
	if err := enum.Check(e.Task, "task", taskNames); err != nil {
		return err
	}
	if e.Task.atBench() || e.Task == 0 {
		return check.OneOf("task", e.Task.String(), names(Errands())...)
	}
	return unit.InField("time", e.Time.check())
}

func names(tasks []Task) []string {
	var out []string
	for _, t := range tasks {
		out = append(out, t.String())
	}
	return out
}
