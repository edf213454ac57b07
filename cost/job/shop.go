package job

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"reflect"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

// Shop is what the jobs of a shop have in common. A job is read on top of it: what
// the job says holds, field by field, a zero, a false and an empty list too, and what
// it does not say is as in the shop file. A list of the job takes the place of that of
// the shop, but for goods, prices and times of the bench, which are joined by id, code
// and name. Of the goods, those come into a job that it names. A field that a job must
// have need not be in the shop file.
//
// [Shop.Read] reads a job so; the zero value is no shop.
type Shop struct {
	Schema   Schema        `json:"schema" required:"true" hint:"\"coverwright/shop/1\""`
	Currency cost.Currency `json:"currency,omitzero"` // of all prices; that of a job must be the same
	// Letterhead is whose work it is, at the top of every order.
	Letterhead *Party `json:"shop,omitzero"`
	// Jurisdictions are the places whose rules go on work orders.
	Jurisdictions []caution.Jurisdiction `json:"jurisdictions,omitempty"`
	Goods         []GoodsSpec            `json:"goods,omitempty"` // the goods that jobs name by their ids
	Prices        cost.PriceList         `json:"prices,omitzero"` // what the shop pays for what it buys beside goods and foam, by code
	Sewing        *SewingSpec            `json:"sewing,omitzero"` // the thread
	Bench         *bench.Table           `json:"bench,omitzero"`  // times of the shop's own
	Quote         *QuoteSpec             `json:"quote,omitzero"`  // rates, taxes and terms
	// Findings are how the shop uses findings, by their names, in place of what is usual.
	Findings map[string]build.Use `json:"findings,omitempty"`
	Defaults *DefaultsSpec        `json:"defaults,omitzero"`      // what the shop does where a job does not say
	Copy     *account.Copy        `json:"customer_copy,omitzero"` // how the papers are that customers get

	file *strictjson.Document // that it was read from
}

// inShop are the rules by which a job lies over a shop file.
var inShop = strictjson.Joins{
	By: map[unit.Path]string{"goods": "id", "prices": "code", "bench.pieces": "name", "bench.extras": "name", "bench.goods": "name", "bench.errands": "task"},
	Instead: map[unit.Path][][]string{
		"goods":           {{"repeat_across", "repeat_level"}},
		"quote":           {{"labour_rate", "shop_rate"}, {"deposit", "stages"}, {"deposit_covers", "stages"}},
		"quote.shop_rate": {{"margin", "markup"}},
		"quote.sundries":  {{"share", "amount"}},
	},
	Apart: []unit.Path{"schema"},
}

// ReadShop reads a shop file. Every fault of its form, and of what means the same
// in every job, is reported at once, as [Read] does.
func ReadShop(r io.Reader) (Shop, error) {
	const name = "shop file"
	doc, err := strictjson.Parse(r)
	if err != nil {
		var f *Fault
		if errors.As(err, &f) {
			f.File = name
		}
		return Shop{}, err
	}
	doc = doc.Named(name)
	s, err := shopOf(doc)
	if err != nil {
		return Shop{}, err
	}
	if f := s.check(); len(f) > 0 {
		return Shop{}, doc.Locate(f)
	}
	return s, nil
}

// shopOf gives the shop of a document.
func shopOf(doc *strictjson.Document) (Shop, error) {
	s := Shop{file: doc}
	if err := doc.DecodePart(&s, inShop); err != nil {
		return Shop{}, err
	}
	return s, nil
}

// check gives what is wrong with a shop in every job.
func (s Shop) check() faults {
	var f faults
	f.add("schema", s.Schema.is(ShopSchema))
	if s.Currency != "" {
		_, err := s.Currency.Digits()
		f.addAs("currency", err)
	}
	ids := map[string]bool{}
	for i, g := range s.Goods {
		at := unit.Path("goods").At(i).Dot("id")
		if f.add(at, checkName(g.ID)); ids[g.ID] {
			f.add(at, check.Refuse("", g.ID, ErrTwice, "an id that no other goods have"))
		}
		ids[g.ID] = true
	}
	in := Spec{Currency: s.Currency, Shop: s.Letterhead, Jurisdictions: s.Jurisdictions, Goods: s.Goods, Prices: s.Prices, Bench: s.Bench, Findings: s.Findings, Defaults: s.Defaults, Copy: s.Copy}
	if s.Quote != nil {
		in.Quote = *s.Quote
	}
	_, terms := in.terms()
	for _, err := range slices.Concat(in.texts(), in.everyJob(), terms) {
		if !errors.Is(err, unit.ErrRequired) { // which the job may have
			f = append(f, err)
		}
	}
	return f
}

// WithPrices gives the shop with the entries of a price list from another file, in
// place of those of the same code and beside the others. Faults in them are told by
// their row, the first entry being in row 2, as a spreadsheet counts.
func (s Shop) WithPrices(l cost.PriceList) (Shop, error) {
	if len(l.Entries()) == 0 {
		return s, nil
	}
	base, err := s.document()
	if err != nil {
		return Shop{}, err
	}
	text := bytes.NewBufferString(`{"prices": [`)
	for i, e := range l.Entries() {
		if i > 0 {
			text.WriteByte(',')
		}
		entry, err := json.Marshal(e)
		if err != nil {
			return Shop{}, err
		}
		text.WriteByte('\n')
		text.Write(entry)
	}
	text.WriteString("]}")
	doc, err := strictjson.Parse(text)
	if err != nil {
		return Shop{}, err
	}
	return shopOf(doc.Named("price list").Over(base, strictjson.Joins{By: inShop.By}))
}

// document gives the file of the shop, or one as it would be where the shop was
// written in Go or changed there.
func (s Shop) document() (*strictjson.Document, error) {
	if s.file != nil {
		if was, err := shopOf(s.file); err == nil && reflect.DeepEqual(was, s) {
			return s.file, nil
		}
	}
	text, err := json.Marshal(s)
	if err != nil {
		return nil, err
	}
	doc, err := strictjson.Parse(bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	return doc.Named("shop"), nil
}

// over reads a job on top of the shop.
func (s Shop) over(r io.Reader) (*strictjson.Document, error) {
	doc, err := strictjson.Parse(r)
	if err != nil || reflect.ValueOf(s).IsZero() {
		return doc, err
	}
	if c, given := doc.Text("currency"); given && s.Currency != "" && c != string(s.Currency) {
		return nil, doc.Locate(faults{check.Refuse("currency", c, cost.ErrCurrency, string(s.Currency)+", as in the shop file")})
	}
	base, err := s.document()
	if err != nil {
		return nil, err
	}
	rules, named := inShop, doc.Texts("name", "pieces", "options")
	rules.Take = func(list unit.Path, key string) bool { return list != "goods" || named[key] }
	return doc.Over(base, rules), nil
}

// Read reads a job on top of the shop and works it out, as the function [Read] does.
// A fault in what the shop brought says so, with its place in the shop file. A job in
// another currency is refused with cost.ErrCurrency.
func (s Shop) Read(ctx context.Context, r io.Reader, o Options) (WorkOrder, error) {
	if err := o.check(ctx); err != nil {
		return WorkOrder{}, err
	}
	doc, err := s.over(r)
	if err != nil {
		return WorkOrder{}, err
	}
	return readDoc(ctx, doc, o)
}

// ReadSpec reads a job on top of the shop without working it out, as the function
// [ReadSpec] does.
func (s Shop) ReadSpec(r io.Reader) (Spec, error) {
	doc, err := s.over(r)
	if err != nil {
		return Spec{}, err
	}
	var spec Spec
	if err := doc.Decode(&spec); err != nil {
		return Spec{}, err
	}
	return spec, nil
}
