package main

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"html/template"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/unit"
)

//go:embed customer.html.tmpl
var customerPage string

//go:embed customer.css
var customerStyle string

// customerCopy is what the customer's copy shows: a paper in words.
type (
	customerCopy struct {
		copyHead
		Letter              string // of the revision
		To                  []string
		Facts               []fact
		Says, Why           string
		Currency, Foot      string
		PriceTitle, Amounts string
		Items               []itemView
		Counted             bool // some item is of several
		Sums                []sumView
		Range, RangeWords   string
		Small               []string
		Payments            []paymentView
		RevisionOf          string
		Revision            []differenceView
		WorkTitle           string
		Pieces              []workView
		Around              string
		Covers              []coverView
		Options             []choiceView
		Told                []toldView
		AcceptTitle, Accept string
		Chosen              []string // of the options, to tick
	}
	itemView struct{ What, Count, Each, Amount string }
	sumView  struct {
		Name, How, Amount string
		Strong            bool
	}
	paymentView    struct{ Name, Due, Amount string }
	differenceView struct {
		What, Was, Is, Difference string
		Strong                    bool
	}
	workView struct {
		Name, Count string
		Facts       []fact
		Picture     template.HTML
	}
	coverView struct {
		Name, Words, Quantity string
		Swatch                template.URL
	}
	choiceView struct {
		Name                     string
		Swatches                 []template.URL
		Changes                  []string
		Total, Difference, Range string
	}
	toldView struct {
		Name  string
		Lines []string
	}
)

// paperTitles are the headings of the papers.
var paperTitles = map[paper.Kind]string{paper.Estimate: "Estimate", paper.Quotation: "Quotation", paper.WorkOrder: "Work order", paper.Invoice: "Invoice"}

func viewCustomer(s *sheet, head copyHead, o job.WorkOrder) (any, error) {
	p, err := paper.Of(o, s.as, s.was)
	if err != nil {
		return nil, err
	}
	head.Style += template.CSS(customerStyle) //nolint:gosec // our own style sheet
	head.Title, head.Name = paperTitles[p.Kind], capital(head.Name)
	v := customerCopy{copyHead: head, Says: p.Says, WorkTitle: "What we do", Accept: p.Accept}
	v.Foot = beside(head.Title, p.Number, p.Name)
	v.addressed(p)
	v.priced(p)
	v.revised(p)
	v.paid(p)
	pictures, err := s.fronts(o)
	if err != nil {
		return nil, err
	}
	v.worked(p, pictures)
	for _, c := range p.Covers {
		v.Covers = append(v.Covers, s.coverView(c))
	}
	v.choose(s, p)
	v.tell(p)
	return v, nil
}

// addressed fills in whom the paper is for, and its days.
func (v *customerCopy) addressed(p paper.Paper) {
	if c := p.Customer; c != nil {
		v.To = append([]string{c.Name}, c.Address...)
	}
	put := func(name, text string) {
		if text != "" {
			v.Facts = append(v.Facts, fact{name, text})
		}
	}
	put("Invoice", p.Invoice)
	put("Job", p.Number)
	put("Date", dayText(p.Issued))
	put("Valid until", dayText(p.Valid))
	put("Pay by", dayText(p.PayBy))
	if p.Kind != paper.Invoice {
		put("Ready by", dayText(p.Ready))
	}
	if r := p.Revision; r != nil && p.Kind != paper.Invoice {
		v.Letter = r.Letter
		if r.Why != "" {
			v.Why = "Revised: " + strings.TrimSuffix(r.Why, ".") + "."
		}
	}
	if p.Kind == paper.Invoice {
		v.WorkTitle = "What we did"
	}
}

// dayText writes a day for people everywhere; nothing for none.
func dayText(d cost.Date) string {
	t, err := time.Parse(time.DateOnly, d.String())
	if d.IsZero() || err != nil {
		return ""
	}
	return t.Format("2 January 2006")
}

// priced fills in what the price is of.
func (v *customerCopy) priced(p paper.Paper) {
	currency := string(p.Total.Currency())
	v.Currency = currency
	v.PriceTitle, v.Amounts = "Price", "Amounts in "+currency+", tax included"
	if p.Tax == account.Below {
		v.Amounts = "Amounts in " + currency + ", without tax"
	}
	if len(p.Taxes) == 0 {
		v.Amounts = "Amounts in " + currency
	}
	for _, x := range p.Items {
		row := itemView{What: capital(x.What), Amount: x.Amount.GroupedAmount()}
		if x.Count > 1 {
			v.Counted = true
			row.Count, row.Each = strconv.Itoa(x.Count), x.Each.GroupedAmount()
			if x.Rounded {
				row.Each = "about " + row.Each
			}
		}
		v.Items = append(v.Items, row)
	}
	put := func(name, how string, m cost.Money, strong bool) {
		v.Sums = append(v.Sums, sumView{name, how, minus(m), strong})
	}
	if p.Tax == account.Below && len(p.Taxes) > 0 {
		put("Without tax", "", p.Net, false)
		for _, t := range p.Taxes {
			put(capital(t.Name), rateText(t.Rate)+" of "+t.Base.GroupedAmount(), t.Amount, false)
		}
		for _, d := range p.Discounts {
			if d.AfterTax {
				put(capital(d.Name), discountRate(d), d.Amount.Neg(), false)
			}
		}
	}
	put("Total", "", p.Total, true)
	changed := p.Statement != nil && len(p.Statement.Changes) > 0 // all taxes stand below
	if p.Tax == account.Within && !changed {
		for _, t := range p.Taxes {
			put("of which "+t.Name, rateText(t.Rate)+" of "+t.Base.GroupedAmount(), t.Amount, false)
		}
	}
	if r := p.Range; r != nil {
		v.RangeWords, v.Range = "may come out at", rangeText(*r)
	}
	for _, d := range p.Discounts {
		if !d.AfterTax || p.Tax == account.Within {
			v.Small = append(v.Small, strings.TrimSpace("Discount, taken off already: "+d.Name+" "+discountRate(d))+", "+d.Amount.GroupedAmount()+".")
		}
	}
}

func discountRate(d paper.Discount) string {
	if d.Rate == 0 {
		return ""
	}
	return rateText(d.Rate)
}

// rangeText writes a range, which is in whole units of the currency.
func rangeText(r paper.Range) string {
	whole := func(m cost.Money) string {
		text, cents, _ := strings.Cut(m.GroupedAmount(), ".")
		if strings.Trim(cents, "0") != "" {
			return m.GroupedAmount()
		}
		return text
	}
	return whole(r.Low) + " to " + whole(r.High) + " " + string(r.High.Currency())
}

// revised fills in what an earlier paper said.
func (v *customerCopy) revised(p paper.Paper) {
	r := p.Revision
	if r == nil || r.Total == nil {
		return
	}
	v.RevisionOf = "Beside the earlier paper"
	if r.Was != "" {
		v.RevisionOf += " " + r.Was
	}
	if d := dayText(r.Since); d != "" {
		v.RevisionOf += " of " + d
	}
	v.RevisionOf += ", tax included"
	for _, d := range r.Pieces {
		v.Revision = append(v.Revision, differenceView{capital(d.What), d.Was.GroupedAmount(), d.Is.GroupedAmount(), signed(d.Difference), false})
	}
	t := r.Total
	v.Revision = append(v.Revision, differenceView{"Total", t.Was.GroupedAmount(), t.Is.GroupedAmount(), signed(t.Difference), true})
}

// minus writes an amount, one below zero with a true minus.
func minus(m cost.Money) string {
	if m.Sign() < 0 {
		return signed(m)
	}
	return m.GroupedAmount()
}

// signed writes a difference with its sign.
func signed(m cost.Money) string {
	switch {
	case m.Sign() > 0:
		return "+ " + m.GroupedAmount()
	case m.Sign() < 0:
		return "− " + m.Neg().GroupedAmount()
	}
	return "no difference"
}

// moreOrLess writes how much more or less an option comes to.
func moreOrLess(m cost.Money) string {
	switch {
	case m.Sign() > 0:
		return m.GroupedAmount() + " more"
	case m.Sign() < 0:
		return m.Neg().GroupedAmount() + " less"
	}
	return "the same price"
}

// paid fills in what was changed and received, and the payments.
func (v *customerCopy) paid(p paper.Paper) {
	put := func(name, how string, m cost.Money, strong bool) {
		v.Sums = append(v.Sums, sumView{name, how, minus(m), strong})
	}
	if s := p.Statement; s != nil {
		for _, c := range s.Changes {
			how := "agreed " + dayText(c.Agreed)
			if !c.Tax.IsZero() {
				how += ", tax " + c.Tax.GroupedAmount() + " included"
			}
			put(capital(c.What), how, c.Total, false)
		}
		if len(s.Changes) > 0 {
			put("Total with changes", "", s.Sum, true)
			for _, t := range p.AllTaxes {
				put("of which "+t.Name, rateText(t.Rate)+" of "+t.Base.GroupedAmount(), t.Amount, false)
			}
		}
		for _, r := range s.Receipts {
			how := "received " + dayText(r.On)
			if r.How != "" {
				how += ", " + r.How
			}
			put(capital(r.What), how, r.Amount.Neg(), false)
		}
		switch {
		case !s.Credit.IsZero():
			put("Credit to you", "", s.Credit, true)
		case p.Kind == paper.Invoice:
			put("Balance due", "", s.Balance, true)
		case !s.Received.IsZero():
			put("Still to pay", "", s.Balance, true)
		}
	}
	if !p.Cash.IsZero() {
		v.Small = append(v.Small, "Paid in cash: "+p.Cash.Grouped()+".")
	}
	for _, x := range p.Payments {
		row := paymentView{Name: capital(x.Name), Due: x.Due, Amount: x.Amount.GroupedAmount()}
		if x.Share != 0 {
			row.Name += ", " + rateText(x.Share)
		}
		v.Payments = append(v.Payments, row)
	}
}

// worked fills in what is done for each piece of furniture.
func (v *customerCopy) worked(p paper.Paper, pictures map[string]template.HTML) {
	for _, x := range p.Pieces {
		w := workView{Name: capital(x.Name), Picture: pictures[x.Name]}
		if x.Count > 1 {
			w.Count = "× " + strconv.Itoa(x.Count)
		}
		for _, f := range []struct {
			name string
			list []string
		}{{"Work", x.Work}, {"New inside", x.New}, {"Covered in", x.Cover}} {
			if len(f.list) > 0 {
				w.Facts = append(w.Facts, fact{f.name, capital(strings.Join(f.list, "; "))})
			}
		}
		if x.Unmeasured {
			w.Facts = append(w.Facts, fact{"Measures", "not taken yet"})
		}
		v.Pieces = append(v.Pieces, w)
	}
	if len(p.Around) > 0 {
		v.Around = "For the whole order: " + strings.Join(p.Around, "; ") + "."
	}
}

// fronts draws the front of each piece of furniture whose cloth there is a photo of, as
// far as its pattern runs over it.
func (s *sheet) fronts(o job.WorkOrder) (map[string]template.HTML, error) {
	out := map[string]template.HTML{}
	if len(s.photos) == 0 {
		return out, nil
	}
	cuts, err := drawnCuts(o)
	if err != nil {
		return nil, err
	}
	cloths := clothsOf(o, s.photos)
	for i, a := range o.Assembly {
		pictured := slices.ContainsFunc(a.Work.Pieces, func(p allowance.CoverPiece) bool {
			_, patterned := cloths[p.Goods]
			return patterned && len(s.photos[p.Goods]) > 0
		})
		if a.Pattern == nil || a.Part != "" || !pictured {
			continue
		}
		flow, off := flowLaid(o, i+1, cuts)
		picture, err := pattern.Front{Title: a.Piece, Units: s.units(), Width: 320, Cloths: cloths, Off: off, Plain: true}.Draw(a.Work, flow)
		if err != nil {
			return nil, err
		}
		out[a.Piece] = drawing(picture)
	}
	return out, nil
}

// coverView writes goods.
func (s *sheet) coverView(c paper.Cover) coverView {
	v := coverView{Name: capital(c.Name), Quantity: s.quantity(c.Length, c.Hides, c.Area), Swatch: s.photos.swatch(c.Goods)}
	if c.About && v.Quantity != "" {
		v.Quantity = "about " + v.Quantity
	}
	var words []string
	if c.Fibre != "" {
		words = append(words, c.Fibre)
	}
	if c.Yours {
		words = append(words, "your own")
	}
	if len(c.Pieces) > 0 {
		words = append(words, "for "+strings.Join(c.Pieces, ", "))
	}
	if bring := s.quantity(c.Bring, c.BringHides, c.BringArea); bring != "" {
		words = append(words, "please bring "+bring)
	}
	v.Words = strings.Join(words, "; ")
	return v
}

// quantity writes so much of a roll or of hides; nothing for none.
func (s *sheet) quantity(l unit.Length, n int, a unit.Area) string {
	switch {
	case l != 0:
		return s.buyLen(l)
	case n != 0 && a != 0:
		if s.metric {
			return hides(n) + ", " + a.Decimal(unit.SquareMetre, 1, unit.Up)
		}
		return hides(n) + ", " + a.Decimal(unit.SquareFoot, 0, unit.Up)
	case n != 0:
		return hides(n)
	}
	return ""
}

// swatch gives the photo of some goods; none without.
func (p photos) swatch(id string) template.URL {
	data := p[id]
	if len(data) == 0 {
		return ""
	}
	kind := "image/jpeg"
	if bytes.HasPrefix(data, []byte("\x89PNG")) {
		kind = "image/png"
	}
	return template.URL("data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(data)) //nolint:gosec // a picture that was decoded
}

// choose sets the options beside the job.
func (v *customerCopy) choose(s *sheet, p paper.Paper) {
	if len(p.Options) == 0 {
		return
	}
	main := choiceView{Name: "As described above", Total: p.Total.Grouped()}
	for _, c := range p.Covers {
		if len(main.Changes) < 3 {
			main.Changes = append(main.Changes, c.Name)
		}
		if x := s.photos.swatch(c.Goods); x != "" {
			main.Swatches = append(main.Swatches, x)
		}
	}
	if p.Range != nil {
		main.Range = "may come out at " + rangeText(*p.Range)
	}
	v.Options = append(v.Options, main)
	for _, x := range p.Options {
		c := choiceView{Name: capital(x.Name), Changes: x.Changes, Total: x.Total.Grouped(), Difference: moreOrLess(x.Difference)}
		for _, g := range x.Covers {
			if w := s.photos.swatch(g.Goods); w != "" {
				c.Swatches = append(c.Swatches, w)
			}
		}
		if x.Range != nil {
			c.Range = "may come out at " + rangeText(*x.Range)
		}
		v.Options = append(v.Options, c)
	}
	if p.Accept != "" {
		for _, c := range v.Options {
			v.Chosen = append(v.Chosen, c.Name)
		}
	}
}

// tell fills in what must be read before one orders.
func (v *customerCopy) tell(p paper.Paper) {
	put := func(name string, lines ...string) {
		if len(lines) > 0 && lines[0] != "" {
			v.Told = append(v.Told, toldView{name, lines})
		}
	}
	put("Still open", p.Open...)
	put("Hidden damage", p.Damage)
	put("Not in the price", capital(strings.Join(p.NotIncluded, "; ")))
	put("Good to know", p.Minded...)
	put("Certificates we ask for", p.Papers...)
	put("Terms", p.Terms...)
	v.AcceptTitle = "Order"
	if p.Kind == paper.Quotation {
		v.AcceptTitle = "Acceptance"
	}
}

// capital begins a text with a capital letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
