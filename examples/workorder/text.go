package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// sheet prints a work order for the wall: short lines, one measure to a
// column, in inches or in metric units.
type sheet struct {
	w      io.Writer
	metric bool
	why    bool           // with the evidence
	photos photos         // of cloths, for the page
	as     paper.Kind     // the customer's copy; the usual one when none
	was    *job.WorkOrder // an earlier order, for the customer's copy
}

func printText(w io.Writer, o job.WorkOrder, metric, explain bool) error {
	between, err := mayComeTo(o)
	if err != nil {
		return err
	}
	out := &errWriter{w: w}
	s := &sheet{w: out, metric: metric, why: explain}
	s.heading(o)
	s.cuts(o)
	s.buy(o)
	s.takeOff(o)
	s.assembly(o)
	s.sewing(o)
	s.foam(o)
	s.forms(o)
	s.findings(o)
	s.questions(o)
	s.hours(o)
	s.rough(o)
	s.quote(o, between)
	s.pieces(o.Quote)
	if explain {
		s.explain(o)
	}
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

// head begins a section, whose lines are indented.
func (s *sheet) head(t string) { s.line("\n%s", t) }

func (s *sheet) table(rows func(row func(cells ...string))) {
	t := tabwriter.NewWriter(s.w, 0, 8, 2, ' ', 0)
	rows(func(cells ...string) { fmt.Fprintln(t, "  "+strings.TrimRight(strings.Join(cells, "\t"), "\t")) })
	t.Flush() //nolint:errcheck // the writer below keeps the error
}

// len writes a length for the bench: to the nearest 1/16 in, or to the
// nearest millimetre.
func (s *sheet) len(l unit.Length) string { return s.units().Length(l, unit.Nearest) }

// fineLen writes a small length or one that was measured: to the hundredth of an inch or
// the tenth of a millimetre.
func (s *sheet) fineLen(l unit.Length) string {
	if s.metric {
		return l.Decimal(unit.Millimetre, 1, unit.Nearest)
	}
	return l.Decimal(unit.Inch, 2, unit.Nearest)
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

func (s *sheet) system() unit.System {
	if s.metric {
		return unit.Metric
	}
	return unit.Inches
}

func (s *sheet) units() pattern.Units {
	if s.metric {
		return pattern.Metric
	}
	return pattern.Inches
}

// cutSize writes the size of a cut, never less than it is.
func (s *sheet) cutSize(x job.Size) string { return s.units().Size(x.Width, x.Length) }

// buyLen writes a length of goods, never less than it is.
func (s *sheet) buyLen(l unit.Length) string {
	per := cost.AnyOf(unit.Yard)
	if s.metric {
		per = cost.AnyOf(unit.Metre)
	}
	text, _ := cost.AnyOf(l).Shop(per)
	return text
}

// goodsLen writes what is sold by length: in yards with eighths and thirds, or in metres
// to the centimetre.
func (s *sheet) goodsLen(l unit.Length, r unit.Rounding) string {
	if s.metric {
		return l.Decimal(unit.Metre, 2, r)
	}
	return l.Yardage(r)
}

func hides(n int) string { return plural(n, "hide") }

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func (s *sheet) area(a unit.Area, r unit.Rounding) string {
	if s.metric {
		return a.Decimal(unit.SquareMetre, 2, r)
	}
	return a.Decimal(unit.SquareFoot, 1, r)
}

func (s *sheet) threadLen(l unit.Length) string {
	if s.metric {
		return l.Decimal(unit.Metre, 0, unit.Up)
	}
	return l.Decimal(unit.Yard, 0, unit.Up)
}

func (s *sheet) cuts(o job.WorkOrder) {
	if len(o.Cuts) == 0 {
		return // all of it is unmeasured, or foam
	}
	to := "1/16 in"
	if s.metric {
		to = "the millimetre"
	}
	s.head("Cut list (width across the goods x length along them, to " + to + ", cut sizes rounded up)")
	s.table(func(row func(...string)) {
		row("piece", "part", "goods", "count", "finished", "cut", "grain")
		for _, l := range o.CutLines() {
			c := o.Cuts[l.Cuts[0]]
			row(c.Piece, l.Part, goodsName(o.Purchases, c.Goods), hands(l.Count, c.Pair), s.size(c.Finished), s.cutSize(c.Cut)+shaped(c), c.Grain)
		}
	})
	s.line("  Edges and notes")
	for _, c := range o.Cuts {
		note := s.note(c)
		if c.Trim != (job.Size{}) && c.Trim != c.Cut {
			note += "; trim line " + s.cutSize(c.Trim)
		}
		if note != "" {
			s.wrap(c.Piece+", "+c.Part+": "+note, 100)
		}
	}
	s.made(o)
	if strips := s.pullStrips(o); len(strips) > 0 {
		s.line("  Pull strips")
		for _, l := range strips {
			s.wrapIn("    ", l, 100)
		}
	}
	if notes := s.basisNotes(o); len(notes) > 0 {
		s.line("  Allowances not given in the job")
		for _, n := range notes {
			s.line("    %s", n)
		}
	}
}

// shaped says that a size is that of the box round a panel.
func shaped(c job.Cut) string {
	if c.Rectangular() {
		return ""
	}
	return ", shaped"
}

// note says what happens at the edges of a panel ("pull-over 3 in all
// round"), how it is marked and joined, and what goes with it.
func (s *sheet) note(c job.Cut) string {
	var notes []string
	if c.Panel != nil {
		notes = append(notes, s.edges(c))
	}
	notes = append(notes, s.withCut(c)...)
	if c.Boxing != nil {
		places := make([]string, len(c.Boxing.Joins))
		for i, j := range c.Boxing.Joins {
			places[i] = s.join(j)
		}
		notes = append(notes, "boxing joined "+strings.Join(places, ", "))
	}
	return strings.Join(notes, "; ")
}

// withCut says how far the sizes of a cut may be off, and what goes with it.
func (s *sheet) withCut(c job.Cut) []string {
	notes := c.TapeNotes(s.units())
	if c.ZipTape > 0 {
		// The pieces are alike, so that each takes as much.
		notes = append(notes, "zip tape "+s.len(c.ZipTape*unit.Length(c.Made)/unit.Length(max(c.Count, 1)))+forEach(c.Count))
	}
	if c.Welt > 0 {
		notes = append(notes, "cord "+s.cord(c.Cord)+", "+s.buyLen(c.Welt)+" of welt"+forEach(c.Made))
	}
	if t := c.Tufting; t != nil {
		notes = append(notes, fmt.Sprintf("%d buttons, diamonds %s x %s on the face, %s x %s on the cloth; %d pleats from the outer buttons to the edge",
			t.Buttons, s.len(t.DiamondWidth), s.len(t.DiamondHeight), s.len(t.ClothDiamondWidth), s.len(t.ClothDiamondHeight), t.EdgePleats))
	}
	return notes
}

// join says where a boxing is joined.
func (s *sheet) join(j made.BoxingJoin) string {
	out := "at the corner of " + j.Corner
	switch {
	case j.Corner == "":
		out = s.len(j.At) + " round from the middle of the back"
	case j.Beyond > 0:
		out = s.len(j.Beyond) + " past the corner of " + j.Corner
	case j.Beyond < 0:
		out = s.len(-j.Beyond) + " before the corner of " + j.Corner
	}
	if j.Front {
		out += " (in the front)"
	}
	return out
}

// edges says what happens at the edges of a panel.
func (s *sheet) edges(c job.Cut) string {
	var kinds []string
	where := map[string][]string{}
	for _, e := range c.Panel.Edges {
		t := finishOf(c, e)
		if e.Allowance > 0 {
			t += " " + s.len(e.Allowance)
		}
		if e.Handling > 0 {
			t += " + " + s.len(e.Handling) + " to trim"
		}
		if where[t] == nil {
			kinds = append(kinds, t)
		}
		where[t] = append(where[t], s.edgeName(c, e))
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
func (s *sheet) basisNotes(o job.WorkOrder) []string {
	var out []string
	seen := map[string]bool{}
	note := func(finish, size string, b cite.Basis) {
		if b.Status != 0 && !seen[finish+b.Note] {
			seen[finish+b.Note] = true
			out = append(out, finish+size+": "+s.sentence(b.String()))
		}
	}
	for _, c := range o.Cuts {
		if c.Panel == nil {
			continue
		}
		for _, u := range c.Uses {
			note(u.Finish, "", u.Basis)
		}
		for _, e := range c.Panel.Edges {
			if !e.ByHand && e.Allowance > 0 && useOf(c, e.Name) == nil {
				note(e.Finish.String(), " "+s.len(e.Allowance), e.Basis)
			}
		}
	}
	return out
}

// forEach says that a length is that of one of several.
func forEach(n int) string {
	if n == 1 {
		return ""
	}
	return fmt.Sprintf(" for each of %d", n)
}

// useOf finds what a cover makes of an edge; nil is nothing.
func useOf(c job.Cut, edge string) *allowance.EdgeUse {
	i := slices.IndexFunc(c.Uses, func(u allowance.EdgeUse) bool { return u.Edge == edge })
	if i < 0 {
		return nil
	}
	return &c.Uses[i]
}

// edgeName names an edge, or says which part of one it is.
func (s *sheet) edgeName(c job.Cut, e allowance.PanelEdge) string {
	edge, from := wholeEdge(c, e.Name)
	if edge == e.Name {
		return e.Name
	}
	part := allowance.EdgePart{Edge: edge, From: from}
	for _, other := range c.Panel.Edges {
		if name, at := wholeEdge(c, other.Name); name == edge && at > from {
			part.To = from + e.Length // it is not the last
		}
	}
	return s.edgePart(part)
}

// finishOf words what becomes of an edge: its seam with its letter, what it is
// fastened to, or the finish it has of its own.
func finishOf(c job.Cut, e allowance.PanelEdge) string {
	u := useOf(c, e.Name)
	switch {
	case u == nil:
		return e.Finish.String()
	case u.Letter != "" && c.Pair: // the letters of both hands
		base, _, _ := strings.Cut(u.Letter, "-")
		return u.Finish + " " + base
	case u.Letter != "":
		return u.Finish + " " + u.Letter
	case u.On != "":
		return u.Finish + " (" + u.On + ")"
	}
	return u.Finish
}

// amount gives how much of the goods to buy.
func (s *sheet) amount(p job.Purchase) string {
	switch own := p.Stock; {
	case own != nil && own.Whose == stock.Customers:
		return "nothing; the customer's own"
	case p.Hides+p.AtHand > 0:
		return s.leather(p)
	case p.Length == 0:
		return "nothing; from stock"
	case own != nil && len(own.Remnants) > 0:
		return s.buyLen(p.Length) + ", and " + plural(len(own.Remnants), "remnant") + " from stock"
	}
	return s.buyLen(p.Length)
}

// answer gives how much one of the ways to estimate says: a bound rounded down, the
// others up.
func (s *sheet) answer(a job.Answer) string {
	r := unit.Up
	if a.Kind == cite.Bound {
		r = unit.Down
	}
	if a.Hides > 0 || a.Area > 0 {
		return s.area(a.Area, r) + ", " + hides(a.Hides)
	}
	return s.goodsLen(a.Length, r)
}

// met tells whether an answer is a bound that the layout meets, and says so.
func met(p job.Purchase, a job.Answer) bool {
	return a.Kind == cite.Bound && p.Plan != nil && p.Plan.Proved
}

func (s *sheet) buy(o job.WorkOrder) {
	if len(o.Purchases) == 0 {
		return
	}
	s.head("What to buy")
	for _, p := range o.Purchases {
		s.line("  %s (%s): %s", p.Name, p.Goods, s.amount(p))
		for _, a := range p.Answers {
			if met(p, a) {
				continue
			}
			s.entry(a.Kind.String()+":", s.answer(a)+": "+a.Text)
			if a.Basis.Status != cite.Derived {
				s.entry("", "  "+a.Basis.String())
			}
		}
		if p.Ordered != nil {
			s.entry("order:", s.ordered(*p.Ordered)+s.usedOfIt(p))
		}
		for i, l := range s.atHand(p) {
			s.entry(map[bool]string{true: "at hand:"}[i == 0], l)
		}
		s.use(p)
		if kept := s.kept(p); kept != "" {
			s.entry("left over:", kept)
		}
		for i, l := range s.landings(o, p.Goods) {
			s.entry(map[bool]string{true: "on the pieces:"}[i == 0], l)
		}
		word := "matching:"
		for _, l := range s.matching(o, p) {
			s.entry(word, l)
			word = ""
		}
		s.saving(p.Saving)
	}
	if o.Stopped {
		s.line("  The layouts were stopped before their time: every piece has its place, but more effort might need less.")
	}
	for _, p := range o.Purchases {
		s.layouts(p)
	}
}

// leather says how many hides to buy, and how many are at hand.
func (s *sheet) leather(p job.Purchase) string {
	own := ""
	if p.AtHand > 0 {
		own = hides(p.AtHand) + " at hand"
		if p.Hides == 0 {
			return "nothing; " + own
		}
		own = " and " + own
	}
	return fmt.Sprintf("%s, %s together%s", hides(p.Hides), s.area(p.Area, unit.Up), own)
}

// entry writes one answer under its goods: a word and what it says, wrapped.
func (s *sheet) entry(word, text string) {
	for i, l := range wrapped(text, 100) {
		if i > 0 {
			word = ""
		}
		s.line("    %-14s %s", word, l)
	}
}

// use says how much of what is bought ends in the work.
func (s *sheet) use(p job.Purchase) {
	if p.Plan == nil || p.Plan.Job.Roll == nil {
		return
	}
	if y, err := used(p); err == nil && s.usedOfIt(p) == "" {
		of := "goods bought"
		if p.Length == 0 {
			of = "length that the layout takes"
		}
		s.entry("used:", y.PercentText(0, unit.Nearest)+" of the "+of)
	}
	word := "pattern:"
	for _, note := range p.Plan.PatternNotes(s.units()) {
		s.entry(word, note)
		word = ""
	}
}

// usedOfIt says how much of what is ordered by a layout on a roll ends in the work.
func (s *sheet) usedOfIt(p job.Purchase) string {
	if p.Ordered == nil || p.Length == 0 || p.Plan == nil || p.Plan.Job.Roll == nil {
		return ""
	}
	y, err := used(p)
	if err != nil {
		return ""
	}
	return "; " + y.PercentText(0, unit.Nearest) + " of it is used"
}

// saving sets the money for buying by rule beside that for buying by layout.
func (s *sheet) saving(x *job.Saving) {
	if x == nil {
		return
	}
	text := fmt.Sprintf("%s by the rule of thumb (%s), %s by the layout (%s): ", x.ByRule.Grouped(), hides(x.RuleHides), x.ByLayout.Grouped(), hides(x.LayoutHides))
	switch x.Saved.Sign() {
	case 0:
		text += "the same"
	case -1:
		if x.LayoutHides > x.RuleHides {
			text += "this layout takes " + hides(x.LayoutHides-x.RuleHides) + " more than the rule"
		} else {
			text += "the hides of the layout are larger than the average, " + x.Saved.Neg().Grouped() + " more"
		}
	default:
		text += "saves " + x.Saved.Grouped()
	}
	s.entry("money:", text+" (before markup and tax, "+x.Kind.String()+")")
}

// layouts says where every piece lies, in the order of cutting.
func (s *sheet) layouts(p job.Purchase) {
	for _, l := range p.Layouts() {
		if l.Plan.Job.Roll == nil {
			s.skins(p)
			continue
		}
		s.onRoll(laidOn(p, l), l.Plan)
	}
}

// laidOn names the goods of a layout, with the length at hand.
func laidOn(p job.Purchase, l stock.Laid) string {
	if l.On == "" {
		return p.Name
	}
	return p.Name + ", " + l.On
}

// onRoll says where the pieces of a layout on a roll lie.
func (s *sheet) onRoll(name string, plan layout.Plan) {
	s.head("Cutting layout: " + name + " (from the end of the roll and from its left usable edge)")
	s.table(func(row func(...string)) {
		row("from end", "from left", "piece", "width x length", "")
		for _, r := range s.laidRows(plan) {
			row(r.End, r.Left, r.Piece, r.Size, r.Laid)
		}
	})
	if plan.Method == layout.OutlinesNested {
		s.line("  (places and sizes are those of the box round each panel; boxes of curved panels may overlap)")
	}
}

// laidRow is a place on a roll as it is listed, or several places abreast.
type laidRow struct{ End, Left, Piece, Size, Laid string }

// laidRows lists the places in the order of cutting; pieces that are alike and lie
// abreast are one row.
func (s *sheet) laidRows(plan layout.Plan) []laidRow {
	var out []laidRow
	abreast := 0
	var last laidRow
	for _, x := range plan.InOrder() {
		low, high := x.Bounds()
		r := laidRow{s.len(low.Y), "", plan.Job.Pieces[x.Piece].Name + segmentOf(x), s.cutSize(job.Size{Width: high.X - low.X, Length: high.Y - low.Y}), asLaid(x)}
		left := s.len(low.X)
		if abreast > 0 && r == last {
			abreast++
			of := &out[len(out)-1]
			of.Left, of.Piece = of.Left+", "+left, r.Piece+fmt.Sprintf(" x %d", abreast)
			continue
		}
		last, abreast = r, 1
		r.Left = left
		out = append(out, r)
	}
	return out
}

// segmentOf names the segment of a joined piece.
func segmentOf(p layout.Place) string {
	if p.Segments < 2 {
		return ""
	}
	return fmt.Sprintf(", part %d of %d", p.Segment+1, p.Segments)
}

// asLaid says how a piece lies, where it is not as drawn.
func asLaid(p layout.Place) string {
	var out []string
	if p.Mirrored {
		out = append(out, "mirrored")
	}
	if p.Turned != 0 {
		out = append(out, fmt.Sprintf("turned %.0f degrees", float64(p.Turned)))
	}
	return strings.Join(out, ", ")
}

// skins sums up a layout on hides: what lies on each, and what is left.
func (s *sheet) skins(b job.Purchase) {
	p := *b.Plan
	s.head("Cutting layout: " + b.Name)
	used := ""
	if ground, err := p.Density(); err == nil {
		used = "; " + ground.PercentText(0, unit.Nearest) + " of the usable leather used"
	}
	if yield, err := p.Yield(); err == nil {
		used += ", " + yield.PercentText(0, unit.Nearest) + " of the hides as sold"
	}
	s.line("  %s in use, at least %d needed%s", hides(len(p.Used)), p.Bound().Hides, used)
	for _, i := range p.Used {
		k := p.Hides[i]
		own := ""
		if !slices.Contains(p.Bought, i) {
			own = ", at hand"
		}
		s.line("  %s, %s, %s%s: %s", k.ID, s.area(k.SoldArea(), unit.Nearest), k.Kind, own, b.HideNote(i))
		var parts []string
		drawn, mirrored := map[string]int{}, map[string]int{}
		for _, q := range p.On(i) {
			n := p.Job.Pieces[q.Piece].Name
			if drawn[n]+mirrored[n] == 0 {
				parts = append(parts, n)
			}
			if q.Mirrored {
				mirrored[n]++
			} else {
				drawn[n]++
			}
		}
		for k, n := range parts {
			switch {
			case mirrored[n] > 0 && drawn[n] > 0:
				parts[k] = fmt.Sprintf("%s x %d + %d mirrored", n, drawn[n], mirrored[n])
			case mirrored[n] > 1:
				parts[k] = fmt.Sprintf("%s x %d mirrored", n, mirrored[n])
			case mirrored[n] > 0:
				parts[k] += " mirrored"
			case drawn[n] > 1:
				parts[k] = fmt.Sprintf("%s x %d", n, drawn[n])
			}
		}
		s.wrapIn("    ", strings.Join(parts, "; "), 100)
		s.offcuts(p, i)
	}
	for i, k := range p.Hides {
		if !slices.Contains(p.Used, i) {
			s.line("  %s, %s: not needed", k.ID, s.area(k.SoldArea(), unit.Nearest))
		}
	}
}

// offcuts lists the largest pieces that are left of a hide.
func (s *sheet) offcuts(p layout.Plan, skin int) {
	var out []string
	for _, x := range p.Offcuts {
		if x.Hide == skin && len(out) < 4 {
			out = append(out, s.size(job.Size{Width: x.Width, Length: x.Length}))
		}
	}
	if len(out) > 0 {
		s.wrapIn("    ", "left over: "+strings.Join(out, "; "), 100)
	}
}

func (s *sheet) force(f unit.Force) string {
	if s.metric {
		return f.Decimal(unit.Newton, 0, unit.Nearest)
	}
	return f.Decimal(unit.PoundForce, 0, unit.Nearest)
}

func (s *sheet) reason(r foam.Reason) string {
	if s.metric {
		return r.Metric()
	}
	return r.String()
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

func (s *sheet) quote(o job.WorkOrder, between string) {
	s.head("Quote")
	q := o.Quote
	some := false
	s.table(func(row func(...string)) {
		row("what", "quantity", "price", "amount "+string(q.Currency))
		for _, l := range q.Lines {
			quantity, rounded := l.ShopQuantity()
			price := l.Price
			some = some || rounded
			if quantity == "1 piece" && beyond(l) == "" {
				quantity, price = "", ""
			}
			row(l.What, quantity, price+beyond(l), l.Amount.GroupedAmount())
		}
		if len(q.Lines) > 1 || q.Total.GroupedAmount() != q.Subtotal.GroupedAmount() {
			row("subtotal", "", "", q.Subtotal.GroupedAmount())
		}
		for _, d := range q.Discounts {
			if !d.AfterTax {
				row(d.Name, "on "+d.Base.GroupedAmount(), rateText(d.Rate), d.Amount.Neg().GroupedAmount())
			}
		}
		for _, t := range q.Taxes {
			row(t.Name, "on "+t.Base.GroupedAmount(), t.Rate.String(), t.Tax.GroupedAmount())
		}
		for _, d := range q.Discounts {
			if d.AfterTax {
				row(d.Name, "on "+d.Base.GroupedAmount(), rateText(d.Rate), d.Amount.Neg().GroupedAmount())
			}
		}
		row("total", "", "", q.Total.GroupedAmount())
		if q.Cash.Payable.Currency() != "" {
			row("total when paid in cash", "", "", q.Cash.Payable.GroupedAmount())
		}
		for _, p := range q.Payments {
			row(p.Name, p.Due, paidFor(p), p.Amount.GroupedAmount())
		}
	})
	if text := outOfPrice(o); text != "" {
		for i, l := range wrapped("not in this price: "+text, 108) {
			s.line("  %s%s", strings.Repeat("  ", min(i, 1)), l)
		}
	}
	if some {
		s.line("  %s", roundedUp)
	}
	if q.Inclusive {
		s.line("  prices contain the taxes")
	}
	if between != "" {
		s.line("  %s", between)
	}
	if q.ValidUntil.String() != "" {
		s.line("  issued %s, holds until %s", q.Issued, q.ValidUntil)
	}
	for _, p := range o.Options {
		s.line("\n  Option: %s, total %s", p.Name, p.Quote.Total.Grouped())
		for _, t := range s.optionWords(o, p) {
			s.wrapIn("    ", t, 100)
		}
		s.table(func(row func(...string)) {
			row("  line", "as above", "option", "difference")
			for _, r := range slices.Concat(p.Compare.Lines, p.Compare.Sums) {
				if !r.Difference.IsZero() {
					row("  "+r.What, r.AmountA.GroupedAmount(), r.AmountB.GroupedAmount(), r.Difference.GroupedAmount())
				}
			}
		})
	}
}

func rateText(r unit.Ratio) string {
	if r == 0 {
		return ""
	}
	return r.String()
}

// explain prints how every figure of the quote came about.
func (s *sheet) explain(o job.WorkOrder) {
	s.head("How the figures of the quote came about")
	for _, f := range o.Quote.Figures() {
		s.wrap(f.String(), 100)
	}
}

func (s *sheet) cautions(o job.WorkOrder) {
	s.head("Cautions (" + caution.Unmarked + ")")
	for _, c := range o.Cautions {
		if c.ID != notPriced && c.ID != unpriced { // they stand below the quote
			s.wrap(c.String(), 100)
		}
	}
	if len(o.Papers) > 0 {
		s.head("Papers to ask for")
		s.wrap(caution.PaperRule, 100)
		for _, p := range o.Papers {
			s.wrap(p.String(), 100)
		}
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
func (s *sheet) wrap(text string, width int) { s.wrapIn("  ", text, width) }

func (s *sheet) wrapIn(indent, text string, width int) {
	line := indent + "-"
	for _, word := range strings.Fields(text) {
		if len([]rune(line))+1+len([]rune(word)) > width && strings.TrimSpace(line) != "" {
			s.line("%s", line)
			line = indent + " "
		}
		line += " " + word
	}
	s.line("%s", line)
}

// wrapped breaks text at spaces into lines of at most width characters.
func wrapped(text string, width int) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > width {
			out = append(out, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(out, line)
}
