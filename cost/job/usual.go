package job

import (
	"cmp"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// timed is what the time is asked of: a piece of furniture, or one of its cushions.
type timed struct {
	part  string
	row   string
	count int       // in one piece of furniture
	at    unit.Path // of what is counted on the cover
	full  bool      // there is something to pad with
}

// table gives the usual times with those of the shop in their place.
func (s Spec) table() (bench.Table, faults) {
	var f faults
	if s.Bench == nil {
		return bench.Usual(), nil
	}
	own := *s.Bench
	founded := func(list string, i int, b cite.Basis) {
		if b != (cite.Basis{}) {
			f.misplaced(unit.Path("bench").Dot(unit.Path(list)).At(i).Dot("basis"), "none: it is the shop's own")
		}
	}
	for i, r := range own.Pieces {
		founded("pieces", i, r.Basis)
	}
	for i, r := range own.Extras {
		founded("extras", i, r.Basis)
	}
	for i, r := range own.Goods {
		founded("goods", i, r.Basis)
	}
	for i, r := range own.Errands {
		founded("errands", i, r.Basis)
	}
	t, err := bench.Usual().With(own)
	f.add("bench", err)
	return t, f
}

// usual gives the usual time of every piece that asks for it, by its place in the
// job; nil for one that does not.
func usual(s Spec, t bench.Table, c cutting, goods catalog) ([]*bench.Answer, faults) {
	var f faults
	out := make([]*bench.Answer, min(len(s.Pieces), maxCount))
	for i, p := range s.Pieces[:len(out)] {
		if p.Usual == nil || p.Usual.Piece == "" && goods.from.failed[i] { // its kind would name the row
			continue
		}
		at := unit.Path("pieces").At(i)
		time, own := p.usual(at, t, c, goods, goods.from.builds[i])
		if f = append(f, own...); len(own) == 0 {
			out[i] = &time
		}
	}
	return out, f
}

// usual gives the usual time of one piece of furniture.
func (p Furniture) usual(at unit.Path, t bench.Table, c cutting, goods catalog, way string) (bench.Answer, faults) {
	var f faults
	out := bench.Answer{Piece: p.Name, Count: copies(p.Count), Priced: len(p.Labour) == 0, Actual: p.Usual.Actual, Kind: cite.RuleOfThumb}
	f.add(at.Dot("usual.actual"), checkActual(p.Usual.Actual))
	if p.Usual.Actual != 0 && !out.Priced {
		f.misplaced(at.Dot("usual.actual"), "actual of each entry of the labour")
	}
	units := p.timed(at)
	if len(units) == 0 {
		var rows []string
		for _, r := range t.Pieces {
			rows = append(rows, r.Name)
		}
		f.add(at.Dot("usual.piece"), check.Required("", "a row of the times, one of "+strings.Join(rows, ", ")))
		return out, f
	}
	var err error
	for _, u := range units {
		part := bench.Part{Part: u.part, Count: u.count, Row: u.row}
		b := bench.Build{Piece: u.row, Length: p.Usual.Length, Tasks: p.Usual.Tasks, Goods: p.Usual.Goods, Share: p.Usual.Share}
		b.Extras = p.extras(u, c)
		if b.Goods == "" {
			b.Goods = c.slow(u.at, goods)
		}
		b.Match = c.matched(u.at)
		if p.Rough != nil { // nothing is cut that would tell
			g, _, _ := goods.find(p.Goods) //nolint:errcheck // said of the goods
			b.Goods, b.Match = cmp.Or(b.Goods, g.slow()), g.roll().Patterned()
		}
		if p.Usual.Match != nil {
			b.Match = *p.Usual.Match
		}
		if len(b.Tasks) == 0 {
			b.Tasks, part.LeftOut = p.needed(at, u, t, c, way)
		}
		if part.Estimate, err = t.Estimate(b); err != nil {
			f.add(at.Dot("usual"), err)
			return out, f // of its other cushions it would say the same
		}
		for range u.count {
			if out.Time, err = out.Time.Plus(part.Estimate.Time); err == nil {
				out.Usual, err = out.Usual.Plus(part.Estimate.Usual)
			}
			if err != nil {
				f.add(at.Dot("usual"), err)
				return out, f
			}
		}
		out.Parts = append(out.Parts, part)
	}
	return out, f
}

// timed says what the time is asked of; nothing where no row is known.
func (p Furniture) timed(at unit.Path) []timed {
	if p.Rough != nil {
		return []timed{{row: p.Usual.Piece, count: 1, at: at, full: true}}
	}
	parts := p.parts()
	loose := len(parts) > 0 && !slices.ContainsFunc(parts, func(x part) bool { return x.list != "cushions" })
	if !loose {
		if p.Usual.Piece == "" {
			return nil
		}
		return []timed{{row: p.Usual.Piece, count: 1, at: at, full: true}}
	}
	var out []timed
	for i, c := range p.Cushions {
		u := timed{part: c.Name, row: p.Usual.Piece, count: copies(c.Count), at: at.Dot("cushions").At(i), full: c.Foam != nil || c.PillowForm != nil}
		if c.Pair {
			u.count *= 2
		}
		if u.row == "" {
			u.row = c.row(p.Lives)
		}
		out = append(out, u)
	}
	return out
}

// row names the row of the table for a cushion. A knife edge, which has no row of its
// own, takes that of the bolster: a zip in a plain seam, and no boxing.
func (c CushionSpec) row(lives thread.Exposure) string {
	switch {
	case c.Kind == made.Bolster || c.Kind == made.KnifeEdge:
		return "bolster"
	case lives == thread.OnBoat:
		return "boat cushion"
	}
	return "boxed cushion"
}

// needed gives the tasks of the row that the build needs, and what is left out.
func (p Furniture) needed(at unit.Path, u timed, t bench.Table, c cutting, way string) ([]bench.Task, []bench.LeftOut) {
	i := slices.IndexFunc(t.Pieces, func(r bench.Piece) bool { return r.Name == u.row })
	if i < 0 {
		return nil, nil // said by the estimate
	}
	var out []bench.Task
	var left []bench.LeftOut
	for _, task := range bench.Tasks() {
		why := ""
		switch {
		case t.Pieces[i].Time(task) == (bench.Span{}):
			continue
		case task == bench.Frame && !p.renews(way):
			why = "nothing is renewed"
		case task == bench.Pad && !u.full:
			why = "no filling"
		case task == bench.Sew && p.Rough == nil && !c.sewn(at):
			why = "nothing is sewn"
			if slices.ContainsFunc(c.pieces, func(q piece) bool { return q.at.Under(at) && q.wish.join != nil }) {
				why += ", joins of panels apart"
			}
		}
		if why != "" {
			left = append(left, bench.LeftOut{Task: task, Why: why})
			continue
		}
		out = append(out, task)
	}
	return out, left
}

// renews tells whether work on frame, webbing and springs is known or likely: not where
// all that carries the piece is a board, or stays as it was found.
func (p Furniture) renews(way string) bool {
	b := p.Build
	if b == nil {
		return way != "board"
	}
	known := false
	for _, s := range []*build.Support{b.Seat, b.Back, b.Arms} {
		if s == nil || s.On == 0 {
			continue
		}
		if s.On != build.Board && s.On != build.AsFound {
			return true
		}
		known = true
	}
	return !known && way != "board"
}

// sewn tells whether the machine sews anything of a piece of furniture.
func (c cutting) sewn(at unit.Path) bool {
	return slices.ContainsFunc(c.rows, func(r row) bool { return r.at.Under(at) && r.Kind != allowance.HandRow && r.Length > 0 })
}

// matched tells whether anything cut for a place must lie on a pattern.
func (c cutting) matched(at unit.Path) bool {
	return slices.ContainsFunc(c.pieces, func(p piece) bool { return p.at.Under(at) && p.lies.phase.Axes != layout.Unbound })
}

// slow names the row of goods that take longer for the goods that most of a cover is
// cut from; none for plain cloth.
func (c cutting) slow(at unit.Path, goods catalog) string {
	most, areas := "", map[string]unit.Area{} // read by key only
	for _, p := range c.pieces {
		if !p.at.Under(at) {
			continue
		}
		areas[p.Goods] += p.Area // of what one job may cut, far below the type
		if most == "" || areas[p.Goods] > areas[most] {
			most = p.Goods
		}
	}
	g, _, _ := goods.find(most) //nolint:errcheck // something was cut from it
	return g.slow()
}

// slow names the row of goods that take longer; none for plain cloth.
func (g GoodsSpec) slow() string {
	switch {
	case g.Material == thread.Leather || g.Material == thread.HeavyLeather:
		return "leather"
	case g.Material == thread.Vinyl:
		return "vinyl"
	case g.Nap:
		return "velvet"
	}
	return ""
}

// extras counts what the cover of one has beside what its row is of; what the job
// says comes first.
func (p Furniture) extras(u timed, c cutting) []bench.Work {
	out := slices.Clone(p.Usual.Extras)
	each := func(name string, count int, length unit.Length) {
		n := copies(p.Count) * u.count
		w := bench.Work{Extra: name, Count: (count + n - 1) / n, Length: length / unit.Length(n)}
		known := slices.ContainsFunc(out, func(o bench.Work) bool { return o.Extra == name })
		if (w.Count > 0 || w.Length > 0) && !known {
			out = append(out, w)
		}
	}
	var single, double, hand unit.Length
	buttons := 0
	for _, x := range c.pieces {
		if !x.at.Under(u.at) {
			continue
		}
		twin := slices.ContainsFunc(p.Welts, func(w WeltSpec) bool { return w.Double && w.Name == x.Part })
		if welt := x.Welt * unit.Length(x.Made); twin {
			double += welt
		} else {
			single += welt
		}
		if x.Tufting != nil {
			buttons += x.Tufting.Buttons * x.Made
		}
	}
	for _, r := range c.rows {
		if r.at.Under(u.at) && r.Kind == allowance.HandRow {
			hand += r.Length * unit.Length(r.times)
		}
	}
	each("single welt", 0, single)
	each("double welt", 0, double)
	each("hand-sewn edge", 0, hand)
	each("deep button", buttons, 0)
	if u.part != "" {
		return out
	}
	channels := 0
	for _, x := range p.Channels {
		channels += x.Number * copies(x.Count)
	}
	var skirt, nails unit.Length
	for _, x := range p.Skirts {
		for _, side := range x.Sides {
			skirt += side * unit.Length(copies(x.Count))
		}
	}
	for _, x := range p.Trims {
		if x.Kind == allowance.Nails {
			nails += x.Length
		}
	}
	n := copies(p.Count) // each divides by it
	row := "spaced nails"
	if b := p.Build; b != nil {
		if b.Nails != nil && b.Nails.Pitch == 0 {
			row = "close nails"
		}
		if b.Buttons != nil {
			each("shallow button", b.Buttons.Count*n, 0)
		}
		if b.Seat != nil && b.Seat.On == build.Coils {
			each("coil seat", n, 0)
		}
	}
	each("channel", channels*n, 0)
	each("skirt", 0, skirt*unit.Length(n))
	each(row, 0, nails*unit.Length(n))
	return out
}

// unusual tells of figures of the shop that lie outside what is usual.
func unusual(o WorkOrder) []string {
	var out []string
	note := func(usual bench.Span, task string, own unit.Duration) {
		if text, err := usual.Caution(task, own); err == nil && text != "" { // checked where it was read
			out = append(out, text+". A rule of thumb.")
		}
	}
	for _, b := range o.Labour {
		if !b.FromTable && b.Range != (bench.Span{}) {
			task := b.Task
			if b.Piece != "" {
				task = b.Piece + ", " + task
			}
			note(b.Range, task, b.Each)
		}
	}
	for _, u := range o.Usual {
		if u.Own > 0 {
			note(u.Time, u.Piece+", all tasks together", u.Own)
		}
	}
	return out
}
