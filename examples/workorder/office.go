package main

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

//go:embed office.html.tmpl
var officePage string

// officeCopy is what the office copy shows.
type (
	officeCopy struct {
		copyHead
		Total       string
		Taxed       bool   // with tax
		Between     string // what it may come out at
		Facts       []fact
		Buy         []buyView
		Stopped     bool
		Findings    []findingRow
		NotInPrice  string
		Questions   []string
		Labour      []hoursView
		Hours       string // of all labour
		Usual       []usualRow
		LeftOut     []string
		RuleOfHours string
		Taken       []takenRow
		Rough       []roughRow
		RuleOfRough string
		Quote       quoteView
		Options     []optionView
		Sources     []cite.Source
	}
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
	hoursView  struct{ Piece, Task, Time string }
	quoteView  struct {
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
)

func viewOffice(s *sheet, head copyHead, o job.WorkOrder) (any, error) {
	v := officeCopy{copyHead: head, Total: o.Quote.Total.Grouped(), Taxed: len(o.Quote.Taxes) > 0, Sources: o.Sources}
	between, err := mayComeTo(o)
	if err != nil {
		return nil, err
	}
	v.Between = between
	s.viewFacts(&v, o)
	s.viewBuy(&v, o)
	v.Findings, v.NotInPrice, v.Questions = s.findingRows(o), notInPrice(o), questionLines(o)
	var hours unit.Duration
	for _, b := range o.Labour {
		v.Labour = append(v.Labour, hoursView{b.Piece, b.Task, b.Time.String()})
		if hours, err = hours.Plus(b.Time); err != nil {
			return nil, err
		}
	}
	v.Hours = hours.String()
	v.Usual, v.LeftOut, v.RuleOfHours = usualRows(o), leftOut(o), ruleOfHours
	if o.Afterwards != nil {
		v.Taken = s.takenRows(*o.Afterwards)
	}
	v.Rough, v.RuleOfRough = s.roughRows(o), ruleOfRough
	s.viewQuote(&v, o)
	return v, nil
}

func (s *sheet) viewFacts(v *officeCopy, o job.WorkOrder) {
	add := func(name, text string) {
		if text != "" {
			v.Facts = append(v.Facts, fact{name, text})
		}
	}
	q := o.Quote
	whole := moneyRow(q.Cost, q.CostTax, q.CostUnknown, q.Net, q.Credit, q.Total, q.Margin())
	add("price without tax", whole.Price+" "+string(q.Currency))
	add("cost", whole.Cost+" "+string(q.Currency))
	add("margin", whole.Margin)
	for _, p := range q.Payments {
		text := p.Amount.Grouped()
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
	for _, p := range o.Purchases {
		add(p.Name, s.amount(p))
	}
}

func (s *sheet) viewBuy(v *officeCopy, o job.WorkOrder) {
	for _, p := range o.Purchases {
		b := buyView{Name: p.Name, ID: p.Goods, Amount: s.amount(p), Matching: s.matching(o, p)}
		for _, a := range p.Answers {
			if met(p, a) {
				continue
			}
			basis := ""
			if a.Basis.Status != cite.Derived {
				basis = a.Basis.String()
			}
			b.Answers = append(b.Answers, answerView{a.Kind.String(), s.answer(a), a.Text, basis})
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

func (s *sheet) viewQuote(v *officeCopy, o job.WorkOrder) {
	q := o.Quote
	v.Quote.Currency = string(q.Currency)
	v.Quote.Pieces, _ = byPiece(q)
	v.Quote.Said = said(q)
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
		v.Quote.Lines = append(v.Quote.Lines, quoteRow{What: l.What, How: how + beyond(l), Amount: l.Amount.GroupedAmount()})
	}
	sum := func(what, how string, m cost.Money, total bool) {
		v.Quote.Sums = append(v.Quote.Sums, quoteRow{what, how, m.GroupedAmount(), total})
	}
	sum("subtotal", "", q.Subtotal, false)
	for _, after := range []bool{false, true} {
		for _, d := range q.Discounts {
			if d.AfterTax == after {
				sum(d.Name, strings.TrimSpace(rateText(d.Rate)+" on "+d.Base.GroupedAmount()), d.Amount.Neg(), false)
			}
		}
		if !after {
			for _, t := range q.Taxes {
				sum(t.Name, t.Rate.String()+" on "+t.Base.GroupedAmount(), t.Tax, false)
			}
		}
	}
	sum("total", "", q.Total, true)
	if q.Cash.Payable.Currency() != "" {
		sum("total when paid in cash", "", q.Cash.Payable, false)
	}
	for _, p := range q.Payments {
		v.Quote.Payments = append(v.Quote.Payments, quoteRow{p.Name, strings.TrimSpace(paidFor(p) + " " + p.Due), p.Amount.GroupedAmount(), false})
	}
	if some {
		v.Quote.Notes = append(v.Quote.Notes, strings.ToUpper(roundedUp[:1])+roundedUp[1:]+".")
	}
	if q.Inclusive {
		v.Quote.Notes = append(v.Quote.Notes, "Prices contain the taxes.")
	}
	if q.ValidUntil.String() != "" {
		v.Quote.Notes = append(v.Quote.Notes, fmt.Sprintf("Issued %s, holds until %s.", q.Issued, q.ValidUntil))
	}
	for _, p := range o.Options {
		w := optionView{Name: p.Name, Total: p.Quote.Total.Grouped(), Words: s.optionWords(o, p)}
		for i, r := range slices.Concat(p.Compare.Lines, p.Compare.Sums) {
			if !r.Difference.IsZero() {
				w.Rows = append(w.Rows, compareView{r.What, r.AmountA.GroupedAmount(), r.AmountB.GroupedAmount(), r.Difference.GroupedAmount(), i >= len(p.Compare.Lines)})
			}
			if r.ID == "total" && i >= len(p.Compare.Lines) {
				w.Difference = r.Difference.GroupedAmount()
			}
		}
		v.Options = append(v.Options, w)
	}
}
