package main

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/examples/internal/folder"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

//go:embed page.html.tmpl
var pageTemplate string

//go:embed page.css
var pageStyle string

// renderHTML writes the folder of -format html: one page that needs nothing else.
func renderHTML(o job.WorkOrder, set settings) error {
	page, err := pageHTML(o, set)
	if err != nil {
		return err
	}
	return folder.Write(set.out, "html", []folder.File{{Name: "index.html", Data: page}}, set.force)
}

// pageHTML makes the page of a work order. Everything a job file may say passes
// through html/template or package svg, which escape it.
func pageHTML(o job.WorkOrder, set settings) ([]byte, error) {
	t, err := template.New("page").Parse(pageTemplate)
	if err != nil {
		return nil, err
	}
	v, err := (&sheet{metric: set.metric, why: set.explain, photos: set.cloths}).view(o)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := t.Execute(&out, v); err != nil {
		return nil, err
	}
	return printable(out.Bytes()), nil
}

// printable replaces what no page may hold, as package svg does.
func printable(page []byte) []byte {
	return bytes.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7f || r == 0xfffe || r == 0xffff {
			return '\ufffd'
		}
		return r
	}, bytes.ToValidUTF8(page, []byte("\ufffd")))
}

// What the template shows. Figures are text already; drawings are SVG made by
// package svg.
type (
	pageView struct {
		Style               template.CSS
		Name                string
		Letterhead          []string
		Particulars         []fact
		Metric              bool
		Total               string
		Facts               []fact
		Buy                 []buyView
		Stopped             bool
		Groups              []cutGroup
		Notes               []string
		Strips              []string // for pulling
		Layouts             []layoutView
		Fronts              []template.HTML // with the pattern through them
		Landings            []landingView
		Panels              []panelView
		TakeOff             []takeOffView
		Assembly            []assemblyView
		Fibres              []string
		SetUps              []setUpView
		Threads             []string
		Seams               []seamView
		Foam                []foamView
		Stock               []string // sheets of foam to buy
		Why                 bool     // with the evidence
		Forms               []string
		Findings            []findingRow
		NotInPrice          string
		Questions           []string
		Labour              []benchView
		Usual               []usualRow
		LeftOut             []string
		RuleOfHours         string
		Taken               []takenRow
		Rough               []roughRow
		RuleOfRough         string
		Quote               quoteView
		Options             []optionView
		Cautions            []cautionView
		Papers              []string
		PaperRule, Unmarked string
		Sources             []cite.Source
		Sheets              string // how the sizes are rounded
	}
	fact    struct{ Name, Text string }
	buyView struct {
		Name, ID, Amount, Used string
		Order                  string // from need to order
		AtHand                 []string
		Kept                   string // left over
		Money                  string // by the rule against by the layout
		Matching               []string
		Answers                []answerView
	}
	answerView struct{ Kind, Amount, Text, Basis string }
	cutGroup   struct {
		Piece string
		Rows  []cutRow
	}
	cutRow struct {
		Number, Count, Part, Goods, Finished, Cut, Grain, Details string
		Picture                                                   template.HTML
	}
	layoutView struct {
		ID, Title, Intro string
		Drawings         []drawingView
		Rows             []placeRow
		Missing          []string // panels that found no room
	}
	drawingView struct {
		Picture template.HTML
		Caption string
	}
	placeRow  struct{ Number, Part, FromEnd, FromLeft, Size, Turned string }
	panelView struct {
		Number      int
		Name, Sizes string
		Count       string
		Picture     template.HTML
		Edges       []edgeView
		Buttons     []gridRow
	}
	assemblyView struct {
		Title           string
		Map             template.HTML
		Rings           []template.HTML // boxings as strips
		Seams           []seamRow
		Sewing, Fitting []string
		Pattern         []string
		Hands           string // whose left and right they are; none of a cover without
	}
	edgeView struct{ Mark, Edges, Finish, Added, Length string }
	seamView struct{ Number, Part, Edges, Finish, Allowance, Length, Count, Goods string }
	foamView struct {
		foamWords
		Plan, Curve template.HTML
	}
	benchView struct{ Piece, Task, Time string }
	quoteView struct {
		Currency string
		Lines    []quoteRow
		Sums     []quoteRow
		Payments []quoteRow
		Notes    []string
		Pieces   []pieceMoney
		Said     []string // of what they cost
	}
	quoteRow struct {
		What, How, Amount string
		Total             bool
	}
	optionView struct {
		Name, Total, Difference string
		Words                   []string
		Rows                    []compareView
	}
	compareView struct {
		What, A, B, Difference string
		Sum                    bool
	}
	cautionView struct{ About, Text, Founded string }
)

func (s *sheet) view(o job.WorkOrder) (pageView, error) {
	v := pageView{Style: template.CSS(pageStyle), Name: o.Name, Letterhead: letterhead(o.Shop), Particulars: particulars(o), Metric: s.metric, Total: o.Quote.Total.String(), Sources: o.Sources} //nolint:gosec // our own style sheet
	v.Sheets = "to 1/16 in, cut sizes rounded up and others to the nearest"
	if s.metric {
		v.Sheets = "to the millimetre, cut sizes rounded up and others to the nearest"
	}
	patterns, err := drawnCuts(o)
	if err != nil {
		return v, err
	}
	s.viewFacts(&v, o)
	s.viewBuy(&v, o)
	if err := s.viewCuts(&v, o, patterns); err != nil {
		return v, err
	}
	if err := s.viewLayouts(&v, o, patterns); err != nil {
		return v, err
	}
	if err := s.viewPattern(&v, o, patterns); err != nil {
		return v, err
	}
	if err := s.viewPanels(&v, patterns); err != nil {
		return v, err
	}
	if err := s.viewAssembly(&v, o); err != nil {
		return v, err
	}
	v.TakeOff, v.Strips = s.takeOffs(o), s.pullStrips(o)
	s.viewSewing(&v, o, patterns)
	if err := s.viewFoam(&v, o); err != nil {
		return v, err
	}
	v.Forms = s.formLines(o)
	v.Findings, v.NotInPrice, v.Questions = s.findingRows(o), notInPrice(o), questionLines(o)
	for _, b := range o.Labour {
		v.Labour = append(v.Labour, benchView{b.Piece, b.Task, b.Time.String()})
	}
	v.Usual, v.LeftOut, v.RuleOfHours = usualRows(o), leftOut(o), ruleOfHours
	if o.Afterwards != nil {
		v.Taken = s.takenRows(*o.Afterwards)
	}
	v.Rough, v.RuleOfRough = s.roughRows(o), ruleOfRough
	s.viewQuote(&v, o)
	for _, c := range o.Cautions {
		v.Cautions = append(v.Cautions, cautionView{c.Heading(), c.Text, c.Founded()})
	}
	for _, p := range o.Papers {
		v.Papers = append(v.Papers, p.String())
	}
	v.PaperRule, v.Unmarked = caution.PaperRule, "They are "+caution.Unmarked+"."
	return v, nil
}

// across writes a size for the page, where it stays on one line.
func (s *sheet) across(x job.Size) string { return s.nbSize(s.size(x)) }

// nbSize keeps a size on one line.
func (s *sheet) nbSize(size string) string {
	return strings.ReplaceAll(strings.Replace(size, " x ", " × ", 1), " ", noBreak)
}

// nb writes a length that stays on one line.
func (s *sheet) nb(l unit.Length) string { return strings.ReplaceAll(s.len(l), " ", noBreak) }

const noBreak = "\u00a0"

func drawing(svg string) template.HTML { return template.HTML(svg) } //nolint:gosec // made by package svg, which escapes

func (s *sheet) viewFacts(v *pageView, o job.WorkOrder) {
	add := func(name, text string) {
		if text != "" {
			v.Facts = append(v.Facts, fact{name, text})
		}
	}
	q := o.Quote
	for _, p := range q.Payments {
		text := p.Amount.String()
		if p.Due != "" {
			text += " " + p.Due
		}
		add(p.Name, text)
	}
	if q.ValidUntil.String() != "" {
		add("quote holds until", q.ValidUntil.String())
	}
	var pieces []string
	panels := 0
	for _, c := range o.Cuts {
		panels += c.Count
		if !slices.Contains(pieces, c.Piece) {
			pieces = append(pieces, c.Piece)
		}
	}
	add("furniture", strings.Join(pieces, ", "))
	if panels > 0 {
		add("to cut", plural(panels, "piece")+" of "+plural(len(o.Purchases), "kind")+" of goods")
	}
	blocks := 0
	for _, f := range o.Foam {
		blocks += f.Count
	}
	if blocks > 0 {
		add("foam", plural(blocks, "block"))
	}
}

func (s *sheet) viewBuy(v *pageView, o job.WorkOrder) {
	for _, p := range o.Purchases {
		b := buyView{Name: p.Name, ID: p.Goods, Amount: s.amount(p), Matching: s.matching(o, p)}
		for _, a := range p.Answers {
			basis := ""
			if a.Basis.Status != cite.Derived {
				basis = a.Basis.String()
			}
			b.Answers = append(b.Answers, answerView{a.Kind.String(), s.answer(p, a), a.Text, basis})
		}
		if p.Ordered != nil {
			b.Order = s.ordered(*p.Ordered)
		}
		b.AtHand, b.Kept = s.atHand(p), s.kept(p)
		if share, err := used(p); err == nil && share > 0 {
			b.Used = share.PercentText(0, unit.Nearest)
		}
		b.Money = strings.Join(strings.Fields(strings.TrimPrefix(strings.Join(s.asLines(func(t *sheet) { t.saving(p.Saving) }), " "), "money:")), " ")
		v.Buy = append(v.Buy, b)
	}
	v.Stopped = o.Stopped
}

// asLines gives what the text form prints, line by line.
func (s *sheet) asLines(printed func(*sheet)) []string {
	var text strings.Builder
	printed(&sheet{w: &text, metric: s.metric})
	var out []string
	for l := range strings.Lines(text.String()) {
		if l = strings.Trim(l, " \n()"); l != "" {
			out = append(out, l)
		}
	}
	return out
}

func (s *sheet) viewCuts(v *pageView, o job.WorkOrder, patterns []drawnCut) error {
	scales, err := thumbScales(patterns)
	if err != nil {
		return err
	}
	for _, l := range o.CutLines() {
		p := patterns[l.Cuts[0]]
		c := p.cut
		thumb, err := p.thumb(scales[c.Piece])
		if err != nil {
			return err
		}
		i := slices.IndexFunc(v.Groups, func(g cutGroup) bool { return g.Piece == c.Piece })
		if i < 0 {
			i = len(v.Groups)
			v.Groups = append(v.Groups, cutGroup{Piece: c.Piece})
		}
		v.Groups[i].Rows = append(v.Groups[i].Rows, cutRow{Number: numbersOf(l), Count: hands(l.Count, c.Pair), Part: l.Part, Goods: c.Goods, Finished: s.across(c.Finished),
			Cut: s.nbSize(s.cutSize(c.Cut)), Grain: c.Grain, Details: s.lineNote(o, l), Picture: drawing(thumb)})
	}
	v.Notes = s.basisNotes(o)
	return nil
}

// numbersOf gives the numbers that the cuts of a line have on layouts and patterns.
func numbersOf(l job.CutLine) string {
	var out []string
	for _, k := range l.Cuts {
		out = append(out, strconv.Itoa(k+1))
	}
	return strings.Join(out, ", ")
}

// lineNote gives the notes of the cuts of a line, each by its number where they
// differ.
func (s *sheet) lineNote(o job.WorkOrder, l job.CutLine) string {
	var notes []string
	for _, k := range l.Cuts {
		notes = append(notes, s.note(o.Cuts[k]))
	}
	if len(slices.Compact(slices.Clone(notes))) == 1 {
		return notes[0]
	}
	for i, k := range l.Cuts {
		notes[i] = strconv.Itoa(k+1) + ": " + notes[i]
	}
	return strings.Join(notes, ". ")
}

func (s *sheet) viewLayouts(v *pageView, o job.WorkOrder, patterns []drawnCut) error {
	for i, p := range o.Purchases {
		cuts := slices.DeleteFunc(slices.Clone(patterns), func(q drawnCut) bool { return q.cut.Goods != p.Goods })
		for k, laid := range p.Layouts() {
			l := layoutView{ID: fmt.Sprintf("layout-%d", i+1), Title: laidOn(p, laid) + " (" + p.Goods + ")"}
			if k > 0 {
				l.ID += fmt.Sprintf("-%d", k+1)
			}
			labels := labelsOf(laid, cuts)
			pictures, err := laid.Plan.Draw(layout.Picture{Title: laidOn(p, laid), Labels: labels, Units: s.units(), Width: pageWide})
			if err != nil {
				return err
			}
			if laid.Plan.Job.Hides == nil {
				buy := p.Length
				if laid.On != "" {
					buy = 0
				}
				s.addRoll(&l, laid.Plan, buy, pictures, labels)
			} else if err := s.addHides(&l, p, pictures); err != nil {
				return err
			}
			v.Layouts = append(v.Layouts, l)
		}
	}
	return nil
}

// labelsOf numbers and names the pieces of a layout as the cut list does.
func labelsOf(laid stock.Laid, cuts []drawnCut) []layout.Label {
	out := make([]layout.Label, len(laid.Cuts))
	for i, k := range laid.Cuts {
		out[i] = layout.Label{Name: laid.Plan.Job.Pieces[i].Name}
		if k < len(cuts) {
			out[i] = layout.Label{Number: strconv.Itoa(cuts[k].number), Name: cuts[k].cut.Part}
		}
	}
	return out
}

// addHides adds the drawing of each hide in use.
func (s *sheet) addHides(l *layoutView, p job.Purchase, pictures []layout.Drawing) error {
	plan := *p.Plan
	used, err := plan.Density()
	if err != nil {
		return err
	}
	l.Intro = fmt.Sprintf("%s, %s of the ground that can be used is used. Grain side up; arrows point to the top of each piece; grey places are marks, dotted lines bound zones of a grade.",
		hides(len(plan.Used)), used.PercentText(0, unit.Nearest)) + handKey(plan)
	if plan.Stopped {
		l.Intro += stoppedEarly
	}
	for _, q := range plan.Unplaced {
		l.Missing = append(l.Missing, plan.Job.Pieces[q.Piece].Name)
	}
	for _, d := range pictures {
		k := plan.Hides[d.Hide]
		what := k.ID
		if what == "" {
			what = strconv.Itoa(d.Hide + 1)
		}
		caption := fmt.Sprintf("Hide %s, %s, sold as %s", what, k.Kind, s.area(k.SoldArea(), unit.Nearest))
		if !slices.Contains(plan.Bought, d.Hide) {
			caption = fmt.Sprintf("Hide %s, %s of %s, at hand", what, k.Kind, s.area(k.SoldArea(), unit.Nearest))
		}
		caption += "; " + p.HideNote(d.Hide)
		l.Drawings = append(l.Drawings, drawingView{drawing(d.SVG), caption})
	}
	return nil
}

const stoppedEarly = " The search was stopped early; more effort may save goods."

// addRoll adds the drawings of a roll and the list of places.
func (s *sheet) addRoll(l *layoutView, plan layout.Plan, buy unit.Length, pictures []layout.Drawing, labels []layout.Label) {
	l.Intro = s.rollIntro(plan, buy)
	for _, d := range pictures {
		l.Drawings = append(l.Drawings, drawingView{Picture: drawing(d.SVG)})
	}
	for _, p := range plan.InOrder() {
		low, high := p.Bounds()
		name := labels[p.Piece]
		l.Rows = append(l.Rows, placeRow{name.Number, name.Name + segmentOf(p), s.nb(low.Y), s.nb(low.X),
			s.nbSize(s.cutSize(job.Size{Width: high.Y - low.Y, Length: high.X - low.X})), asLaid(p)})
	}
}

// rollIntro says how to read a layout of goods of which a length is bought, or none.
func (s *sheet) rollIntro(plan layout.Plan, buy unit.Length) string {
	roll := *plan.Job.Roll
	text := fmt.Sprintf("Usable width %s, length needed %s", s.nb(roll.Usable()), s.nb(plan.Need))
	if buy > 0 {
		text += ", buy " + s.buyLen(buy)
	}
	text += ". The roll runs to the right, its left edge is above; arrows point to the top of each piece." + handKey(plan)
	if roll.Patterned() {
		text += " The pattern " + strings.Join(plan.PatternNotes(s.units()), "; ") + ". Crosses and marked lines are where the motifs lie, a ring is the point of a piece that is put on one."
		if a, b := roll.Repeat, roll.Columns(); a > 0 && a < unit.Inch || b > 0 && b < unit.Inch {
			text += " A repeat too small to draw has no lines."
		}
	}
	if roll.Nap && !roll.Patterned() {
		text += " Goods with one direction: turn no piece round."
	}
	if plan.Stopped {
		text += stoppedEarly
	}
	return text
}

func (s *sheet) viewPanels(v *pageView, patterns []drawnCut) error {
	for _, p := range patterns {
		if p.strip() && len(p.Marks) == 0 {
			continue
		}
		c := p.cut
		sizes := "cut " + s.nbSize(s.cutSize(c.Cut))
		if c.Trim != (job.Size{}) && c.Trim != c.Cut {
			sizes += ", trim line " + s.nbSize(s.cutSize(c.Trim))
		}
		if c.Finished != (job.Size{}) {
			sizes += ", finished " + s.across(c.Finished)
		}
		picture, err := s.panelDrawing(p)
		if err != nil {
			return err
		}
		w := panelView{Number: p.number, Name: p.name(), Sizes: sizes, Count: p.Tally(), Picture: drawing(picture), Buttons: s.grid(c)}
		groups := p.edgeGroups()
		for i, g := range groups {
			e := edgeView{Mark: letter(i), Edges: strings.Join(g.names, ", "), Finish: finishOf(p.cut, g.edge), Added: s.margins(g.edge), Length: s.nb(g.long)}
			if len(groups) == 1 {
				e.Mark, e.Edges = "", "all round"
			}
			w.Edges = append(w.Edges, e)
		}
		v.Panels = append(v.Panels, w)
	}
	return nil
}

func (s *sheet) viewSewing(v *pageView, o job.WorkOrder, patterns []drawnCut) {
	for _, x := range o.Sewing.SetUps {
		v.SetUps = append(v.SetUps, s.setUp(x))
	}
	if len(v.SetUps) > 0 {
		v.Fibres, v.Threads = s.fibres(o.Sewing), s.threads(o.Sewing)
	}
	for _, p := range patterns {
		if p.cut.Assembly != 0 {
			continue // its seams stand with how it goes together
		}
		groups := p.edgeGroups()
		for _, g := range groups {
			if !g.edge.Finish.Sewn() {
				continue
			}
			edges := strings.Join(g.names, ", ")
			if len(groups) == 1 {
				edges = "all round"
			}
			v.Seams = append(v.Seams, seamView{Number: fmt.Sprint(p.number), Part: p.name(), Edges: edges, Finish: g.edge.Finish.String(),
				Allowance: s.nb(g.edge.Allowance), Length: s.nb(g.long), Count: hands(p.cut.Count, p.cut.Pair), Goods: p.cut.Goods})
		}
	}
}

func (s *sheet) viewFoam(v *pageView, o job.WorkOrder) error {
	v.Why, v.Stock = s.why, s.sheets(o)
	for i, words := range s.foamWords(o.Foam) {
		f, w := o.Foam[i], foamView{foamWords: words}
		plan, err := s.foamPlan(f)
		if err != nil {
			return err
		}
		if plan != "" {
			w.Plan = drawing(plan)
		}
		if s.why {
			curve, err := s.foamDrawing(f)
			if err != nil {
				return err
			}
			w.Curve = drawing(curve)
		} else {
			w.Evidence = nil
		}
		v.Foam = append(v.Foam, w)
	}
	return nil
}

func (s *sheet) viewQuote(v *pageView, o job.WorkOrder) {
	q := o.Quote
	v.Quote.Currency = string(q.Currency)
	v.Quote.Pieces, v.Quote.Said = byPiece(q)
	some := false
	for _, l := range q.Lines {
		how, rounded := l.ShopQuantity()
		some = some || rounded
		if l.Price != "" {
			how += " at " + l.Price
		}
		if l.Quantity == "1 piece" && beyond(l) == "" {
			how = ""
		}
		v.Quote.Lines = append(v.Quote.Lines, quoteRow{What: l.What, How: how + beyond(l), Amount: l.Amount.Amount()})
	}
	sum := func(what, how string, m cost.Money, total bool) {
		v.Quote.Sums = append(v.Quote.Sums, quoteRow{what, how, m.Amount(), total})
	}
	sum("subtotal", "", q.Subtotal, false)
	for _, after := range []bool{false, true} {
		for _, d := range q.Discounts {
			if d.AfterTax == after {
				sum(d.Name, strings.TrimSpace(rateText(d.Rate)+" on "+d.Base.Amount()), d.Amount.Neg(), false)
			}
		}
		if !after {
			for _, t := range q.Taxes {
				sum(t.Name, t.Rate.String()+" on "+t.Base.Amount(), t.Tax, false)
			}
		}
	}
	sum("total", "", q.Total, true)
	if q.Cash.Payable.Currency() != "" {
		sum("total when paid in cash", "", q.Cash.Payable, false)
	}
	for _, p := range q.Payments {
		v.Quote.Payments = append(v.Quote.Payments, quoteRow{p.Name, strings.TrimSpace(paidFor(p) + " " + p.Due), p.Amount.Amount(), false})
	}
	if some {
		v.Quote.Notes = append(v.Quote.Notes, strings.ToUpper(roundedVolumes[:1])+roundedVolumes[1:]+".")
	}
	if q.Inclusive {
		v.Quote.Notes = append(v.Quote.Notes, "Prices contain the taxes.")
	}
	if q.Class != 0 {
		v.Quote.Notes = append(v.Quote.Notes, fmt.Sprintf("An estimate of class %d: before tax it may come out between %s and %s.", q.Class, q.Low.Amount(), q.High.Amount()))
	}
	if q.ValidUntil.String() != "" {
		v.Quote.Notes = append(v.Quote.Notes, fmt.Sprintf("Issued %s, holds until %s.", q.Issued, q.ValidUntil))
	}
	for _, p := range o.Options {
		w := optionView{Name: p.Name, Total: p.Quote.Total.String(), Words: s.optionWords(o, p)}
		for i, r := range slices.Concat(p.Compare.Lines, p.Compare.Sums) {
			if !r.Difference.IsZero() {
				w.Rows = append(w.Rows, compareView{r.ID, r.AmountA.Amount(), r.AmountB.Amount(), r.Difference.Amount(), i >= len(p.Compare.Lines)})
			}
			if r.ID == "total" && i >= len(p.Compare.Lines) {
				w.Difference = r.Difference.Amount()
			}
		}
		v.Options = append(v.Options, w)
	}
}
