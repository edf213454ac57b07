package paper_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/job"
	findings "github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/internal/dev/exported"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

var kinds = []paper.Kind{paper.Estimate, paper.Quotation, paper.WorkOrder, paper.Invoice}

var quick = job.Options{Effort: 0.01, NoMatching: true, Workers: 1}

func build(t require.TestingT, text string) job.WorkOrder {
	o, err := job.Read(context.Background(), strings.NewReader(text), quick)
	require.NoError(t, err)
	return o
}

func demo(t require.TestingT) job.WorkOrder {
	shop, err := os.ReadFile("../../../examples/workorder/larkfield-shop.json")
	require.NoError(t, err)
	text, err := os.ReadFile("../../../examples/workorder/larkfield.json")
	require.NoError(t, err)
	s, err := job.ReadShop(bytes.NewReader(shop))
	require.NoError(t, err)
	o, err := s.Read(context.Background(), bytes.NewReader(text), quick)
	require.NoError(t, err)
	return o
}

// stools is a job of a stool and a bench without layouts. Its figures that no
// customer is to see stand nowhere else.
const stools = `{"schema": "coverwright/job/1", "name": "stools", "currency": "USD", "number": "7",
	"goods": [{"id": "cloth", "kind": "roll", "name": "green wool", "fibre": "100 % wool", "material": "woven", "price": "41.37 USD/yd", "width": "54 in", "increment": "9 in", "margin": {}},
		{"id": "hers", "kind": "roll", "name": "her own velvet", "whose": "customer", "material": "woven", "width": "54 in", "increment": "9 in", "margin": {}}],
	"pieces": [
		{"name": "stool", "count": 3, "panels": [{"name": "seat", "goods": "cloth", "width": "18 in", "length": "18 in", "edges": "raw"}],
			"labour": [{"task": "strip and cover", "time": "1 h 17 min", "does": ["strip", "cover"]}]},
		{"name": "bench", "panels": [{"name": "seat", "goods": "hers", "width": "54 in", "length": "18 in", "edges": "raw"}],
			"foam": [{"name": "seat", "width": "54 in", "depth": "18 in", "thickness": "2 in", "filling": {"use": "seat", "duty": "normal", "base": "board", "price": "5.23 USD/bd ft"}}],
			"labour": [{"task": "new cover", "time": "2 h 43 min", "does": ["cut", "sew"]}, {"task": "glue joints", "time": "37 min", "does": ["frame"]}]}],
	"errands": [{"task": "quote"}, {"task": "deliver", "time": "53 min"}],
	"changes": [{"what": "one leg more", "amount": "40.00 USD", "kind": "thread and sundries", "agreed": "2027-03-02", "piece": "bench"}],
	"received": [{"what": "deposit", "amount": "100.00 USD", "on": "2027-02-02"}],
	"invoice": {"number": "31", "issued": "2027-03-30"},
	"customer_copy": {"without_asking": "60.00 USD"},
	"quote": {"labour_rate": "71.31 USD/h", "markup": "37.19 %", "contingency": "6.43 %", "class": 2, "least": "10.00 USD", "step": "5.00 USD",
		"discounts": [{"name": "for neighbours", "rate": "2.5 %"}],
		"taxes": [{"name": "sales tax", "rate": "6.25 %", "on": ["goods", "foam", "thread and sundries", "labour"], "except": ["repair and application labour"]}],
		"stages": [{"name": "deposit", "share": "50 %"}, {"name": "balance", "due": "on delivery"}], "issued": "2027-01-15", "valid_days": 30}}`

// ours are words of the shop's own, and figures of the job that a customer is not to
// see.
var ours = []string{"cost", "markup", "margin", "profit", "labour_rate", "hour", "waste", "contingency", "minimum charge", "rounding up", "uplift", "wage", "overhead",
	"37.19", "71.31", "6.43", "41.37", "5.23", "17 min", "43 min", "37 min", "53 min", " h ", "1.28", "2.72"}

func TestNothingOfTheShopsOwn(t *testing.T) {
	o := build(t, stools)
	for _, by := range []account.By{account.Pieces, account.Work} {
		for _, tax := range []account.Tax{account.Within, account.Below} {
			for _, k := range kinds {
				o.Copy.By, o.Copy.Tax = by, tax
				p, err := paper.Of(o, k, &o)
				require.NoError(t, err)
				text, err := json.Marshal(p)
				require.NoError(t, err)
				for _, word := range ours {
					assert.NotContains(t, strings.ToLower(string(text)), word, "%v by %v, tax %v", k, by, tax)
				}
				for _, l := range o.Quote.Lines {
					if !l.Cost.IsZero() {
						assert.NotContains(t, string(text), `"`+l.Cost.String()+`"`, "what %s comes to for the shop", l.What)
					}
				}
				addsUp(t, o, p)
			}
		}
	}
}

// addsUp asks what must be so of every paper.
func addsUp(t require.TestingT, o job.WorkOrder, p paper.Paper) {
	zero, err := cost.Zero(o.Quote.Currency)
	require.NoError(t, err)
	sum := func(of ...cost.Money) cost.Money {
		s := zero
		for _, m := range of {
			s, err = s.Plus(m)
			require.NoError(t, err)
		}
		return s
	}
	items, taxes, after, paid := zero, zero, zero, zero
	for _, x := range p.Items {
		items = sum(items, x.Amount)
		if x.Count > 1 {
			back, err := x.Each.Times(x.Count)
			require.NoError(t, err)
			require.Equal(t, x.Rounded, !back.Equal(x.Amount))
		}
	}
	for _, x := range p.Taxes {
		taxes = sum(taxes, x.Amount)
	}
	for _, d := range p.Discounts {
		if d.AfterTax {
			after = sum(after, d.Amount)
		}
	}
	require.True(t, p.Total.Equal(o.Quote.Total))
	require.True(t, sum(p.Net, taxes, after.Neg()).Equal(p.Total), "%v + %v - %v = %v", p.Net, taxes, after, p.Total)
	if p.Tax == account.Below {
		require.True(t, items.Equal(p.Net), "%v = %v", items, p.Net)
	} else {
		require.True(t, items.Equal(p.Total), "%v = %v", items, p.Total)
	}
	if p.Kind == paper.Invoice {
		require.Empty(t, p.Payments)
		require.True(t, sum(p.Statement.Balance, p.Statement.Received).Equal(sum(p.Total, p.Statement.Changed)))
	} else if len(o.Quote.Payments) > 0 {
		for _, x := range p.Payments {
			paid = sum(paid, x.Amount)
		}
		owed := p.Total
		if p.Statement != nil {
			owed = p.Statement.Sum
		}
		require.True(t, paid.Equal(owed), "%v = %v", paid, owed)
	}
	if p.Kind == paper.Estimate {
		contains(t, *p.Range, p.Total)
		for _, x := range p.Options {
			contains(t, *x.Range, x.Total)
		}
	} else {
		require.Nil(t, p.Range)
	}
	var told []string
	for _, x := range p.Pieces {
		told = append(told, x.Name)
		require.Positive(t, x.Count)
		if p.By == account.Pieces {
			require.True(t, slices.ContainsFunc(p.Items, func(i paper.Item) bool { return i.What == x.Name && i.Count == x.Count }), x.Name)
		}
	}
	for _, g := range o.Quote.Terms.Groups {
		require.Contains(t, told, g.Name)
	}
	require.Len(t, told, len(o.Quote.Terms.Groups))
}

func contains(t require.TestingT, r paper.Range, m cost.Money) {
	low, err := r.Low.Cmp(m)
	require.NoError(t, err)
	high, err := r.High.Cmp(m)
	require.NoError(t, err)
	require.True(t, low <= 0 && high >= 0, "%v to %v of %v", r.Low, r.High, m)
}

func TestPapersOfTheDemo(t *testing.T) {
	o := demo(t)
	assert.Equal(t, paper.Estimate, paper.Usual(o))
	for _, k := range kinds {
		p, err := paper.Of(o, k, nil)
		require.NoError(t, err)
		addsUp(t, o, p)
		assert.Equal(t, k, p.Kind)
		assert.Equal(t, "B", p.Revision.Letter)
		assert.Equal(t, k == paper.Quotation || k == paper.WorkOrder, p.Accept != "")
		assert.Equal(t, k == paper.Estimate || k == paper.Quotation, len(p.Options) == 1)
		assert.Equal(t, k == paper.Invoice, p.Damage == "")
		assert.Equal(t, k == paper.WorkOrder || k == paper.Invoice, p.Statement != nil)
		assert.Equal(t, caution.CustomersDeference, p.Minded[len(p.Minded)-1])
		for _, x := range p.Pieces { // the goods that it has most of come first
			assert.Equal(t, map[string]string{"wing chair": "patterned damask, grey and green"}[x.Name] == "", x.Cover[0] == "tan upholstery leather", x.Name)
		}

		text, err := json.Marshal(o)
		require.NoError(t, err)
		saved, err := job.ReadOrder(bytes.NewReader(text))
		require.NoError(t, err)
		again, err := paper.Of(saved, k, nil)
		require.NoError(t, err)
		assert.Equal(t, asJSON(t, p), asJSON(t, again), "a saved order gives the same paper")
	}
	p, err := paper.Of(o, 0, nil)
	require.NoError(t, err)
	chair := p.Pieces[0]
	assert.Equal(t, "wing chair", chair.Name)
	assert.Contains(t, chair.Work, "strip, check frame, renew webbing")
	assert.Contains(t, chair.New, "zigzag springs")
	assert.Contains(t, chair.New, "foam: inside back")
	assert.Contains(t, chair.Cover, "patterned damask, grey and green")
	assert.Equal(t, []string{"plain wool tweed in place of patterned damask, grey and green"}, p.Options[0].Changes)
	assert.Equal(t, "tweed", p.Options[0].Covers[0].Goods)
	assert.Equal(t, "55 % cotton, 45 % viscose", p.Covers[0].Fibre)
	assert.Contains(t, p.Damage, "Up to 60.00 USD")
	assert.Equal(t, []string{"polishing and repair of show wood"}, p.NotIncluded)
	assert.Equal(t, "collection and delivery", p.Items[3].What)
}

func asJSON(t *testing.T, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	return string(text)
}

// By the kind of work, amounts are those that tax rules tell apart.
func TestByWork(t *testing.T) {
	o := build(t, stools)
	o.Copy.By, o.Copy.Tax = account.Work, account.Below
	p, err := paper.Of(o, paper.Quotation, nil)
	require.NoError(t, err)
	var what []string
	for _, x := range p.Items {
		what = append(what, x.What)
		assert.Equal(t, x.What, x.Group)
	}
	for _, l := range o.Quote.Lines {
		if l.Price != "" && !l.Amount.IsZero() {
			assert.Contains(t, what, paper.Work(l), l.What)
		}
	}
	assert.Equal(t, []string{"materials", "fabrication", "repair and application", "workmanship", "collection and delivery"}, what)
	addsUp(t, o, p)
}

// Her velvet is not in the price, its length is told, and what goes to the stools
// is not hers.
func TestOwnGoods(t *testing.T) {
	o := build(t, stools)
	p, err := paper.Of(o, paper.Quotation, nil)
	require.NoError(t, err)
	require.Len(t, p.Covers, 2)
	hers := p.Covers[slices.IndexFunc(p.Covers, func(c paper.Cover) bool { return c.Yours })]
	assert.Equal(t, "her own velvet", hers.Name)
	assert.Equal(t, unit.Yard/2, hers.Length)
	assert.Equal(t, unit.Yard/2, hers.Bring)
	assert.Equal(t, []string{"bench"}, hers.Pieces)
	assert.Equal(t, []string{"her own velvet, which is your own"}, p.NotIncluded)
	assert.Equal(t, []string{"Still to come from you: her own velvet, as much as stands beside it."}, p.Open)
}

// Worked by hand, class 3 from 20 % below to 30 % above: of 4 812.55, 3 850.04 and
// 6 256.315, outwards to 100; of 99.40, 79.52 and 129.22, outwards to 1.
func TestRange(t *testing.T) {
	o := build(t, stools)
	for total, want := range map[string]string{"4812.55": "3800.00 to 6300.00", "99.40": "79.00 to 130.00", "1000.00": "800.00 to 1300.00", "0.00": "0.00 to 0.00", "12500.00": "10000.00 to 17000.00"} {
		o.Quote.Class = 3
		m, err := cost.NewMoney(total, "USD")
		require.NoError(t, err)
		r, err := paper.RangeOf(o.Quote, m)
		require.NoError(t, err)
		assert.Equal(t, want, r.Low.Amount()+" to "+r.High.Amount(), total)
	}
}

const phoned = `{"schema": "coverwright/job/1", "name": "by telephone", "currency": "USD",
	"goods": [{"id": "cloth", "kind": "roll", "name": "green wool", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
	"pieces": [{"name": "his chair", "count": 2, "from": "wing chair", "goods": "cloth", "rough": {}}], "quote": {"labour_rate": "60.00 USD/h"}}`

func TestWhatWouldNotBeSoIsRefused(t *testing.T) {
	rough, plain := build(t, phoned), build(t, stools)
	assert.Equal(t, paper.Estimate, paper.Usual(rough))
	p, err := paper.Of(rough, 0, nil)
	require.NoError(t, err)
	assert.Equal(t, paper.Estimate, p.Kind)
	assert.True(t, p.Pieces[0].Unmeasured)
	assert.True(t, p.Covers[0].About)
	assert.Contains(t, p.NotIncluded, "repairs")
	assert.Contains(t, p.NotIncluded, "collection and delivery")
	assert.Contains(t, p.Pieces[0].Work, "what is old taken off")
	addsUp(t, rough, p)
	for _, k := range kinds[1:] {
		_, err = paper.Of(rough, k, nil)
		require.ErrorIs(t, err, unit.ErrRange)
	}
	plain.Quote.Class = 5
	_, err = paper.Of(plain, paper.Quotation, nil)
	require.ErrorIs(t, err, unit.ErrRange)
	plain.Quote.Class = 0
	assert.Equal(t, paper.Quotation, paper.Usual(plain))
	_, err = paper.Of(plain, paper.Estimate, nil)
	require.ErrorIs(t, err, unit.ErrRequired)
	plain.Invoice = nil
	_, err = paper.Of(plain, paper.Invoice, nil)
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = paper.Of(plain, paper.Kind(9), nil)
	require.ErrorIs(t, err, unit.ErrUnknown)
	_, err = paper.Of(plain, paper.Quotation, &rough)
	require.ErrorIs(t, err, job.ErrMisplaced)
}

// What was received above what is owed is a credit, and the whole of it.
func TestCredit(t *testing.T) {
	o := build(t, strings.Replace(stools, `"amount": "100.00 USD", "on"`, `"amount": "5000.00 USD", "on"`, 1))
	p, err := paper.Of(o, paper.Invoice, nil)
	require.NoError(t, err)
	assert.True(t, p.Statement.Balance.Neg().Equal(p.Statement.Credit))
	assert.Equal(t, 1, p.Statement.Credit.Sign())
	addsUp(t, o, p)
}

func TestRevision(t *testing.T) {
	earlier := build(t, strings.Replace(stools, `"count": 3,`, `"count": 2,`, 1))
	o := build(t, strings.Replace(stools, `"number": "7",`, `"number": "7", "revision": {"letter": "B", "why": "a third stool"},`, 1))
	p, err := paper.Of(o, paper.Quotation, &earlier)
	require.NoError(t, err)
	require.NotNil(t, p.Revision)
	assert.Equal(t, "a third stool", p.Revision.Why)
	assert.Equal(t, earlier.Quote.Issued, p.Revision.Since)
	sum, err := cost.Zero("USD")
	require.NoError(t, err)
	for _, d := range p.Revision.Pieces {
		sum, err = sum.Plus(d.Difference)
		require.NoError(t, err)
	}
	assert.True(t, sum.Equal(p.Revision.Total.Difference), "%v, %v", sum, p.Revision.Total)
	assert.Equal(t, 1, p.Revision.Pieces[0].Difference.Sign())
}

func TestEveryTypeIsJSON(t *testing.T) {
	o := demo(t)
	p, err := paper.Of(o, paper.Estimate, &o)
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{p, *p.Revision, *p.Revision.Total, *p.Range, p.Items[0], paper.Discount{Name: "a", Rate: 0.05}, p.Taxes[0], p.Payments[0], p.Pieces[0], p.Covers[0], p.Options[0]})
	require.NoError(t, err)
	require.Empty(t, faults)
	exported.EnumsListed(t, ".")
	for _, k := range append(slices.Clone(kinds), 0) {
		text, err := k.MarshalText()
		require.NoError(t, err)
		var back paper.Kind
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, k, back)
	}
	assert.Equal(t, "none", paper.Kind(0).String())
}

// What is for no piece of furniture of its own is named by what it is.
// Errands are named once, whatever classes of labour and kinds of lines they are.
func TestWholeJobIsNamed(t *testing.T) {
	for _, c := range [][3]string{
		{`{"task": "measure"}`, `{"kind": "delivery", "name": "van", "amount": "50 USD"}`, "measuring at your place; collection and delivery"},
		{`{"task": "measure"}, {"task": "deliver"}, {"task": "set"}`, ``, "measuring at your place; delivery; setting up at your place"},
		{`{"task": "set"}`, `{"kind": "labour", "name": "storage", "amount": "20 USD"}`, "setting up at your place; workmanship"},
	} {
		o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
			"goods": [{"id": "tweed", "kind": "roll", "name": "tweed", "material": "woven", "price": "40 USD/yd", "width": "54 in"}],
			"pieces": [{"name": "seat", "panels": [{"name": "top", "goods": "tweed", "width": "20 in", "length": "20 in"}]}],
			"errands": [`+c[0]+`], "quote": {"labour_rate": "60 USD/h", "extras": [`+c[1]+`]}}`), job.Options{})
		require.NoError(t, err)
		p, err := paper.Of(o, 0, nil)
		require.NoError(t, err)
		assert.Equal(t, c[2], p.Items[len(p.Items)-1].What)
	}
}

// What nobody priced is not promised as new, and stands under what the price does not
// hold.
func TestUnpricedIsNotPromised(t *testing.T) {
	o := demo(t)
	o.Findings = slices.Clone(o.Findings)
	for i := range o.Findings {
		if o.Findings[i].ID == "glide" {
			o.Findings[i].Paid = findings.Unpriced
		}
	}
	before, err := paper.Of(demo(t), 0, nil)
	require.NoError(t, err)
	after, err := paper.Of(o, 0, nil)
	require.NoError(t, err)
	assert.Contains(t, before.Pieces[0].New, "glides")
	assert.NotContains(t, before.NotIncluded, "glides")
	assert.NotContains(t, after.Pieces[0].New, "glides")
	assert.Contains(t, after.NotIncluded, "glides")
}

// Two taxes of one name and rate stay apart when changes fall on the second.
func TestTaxesOfOneName(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "tweed", "kind": "roll", "name": "tweed", "material": "woven", "price": "40 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "seat", "panels": [{"name": "top", "goods": "tweed", "width": "20 in", "length": "20 in"}], "labour": [{"task": "cover", "time": "1 h"}]}],
		"changes": [{"what": "carried upstairs", "amount": "40 USD", "kind": "delivery", "agreed": "2027-02-01"}],
		"invoice": {"number": "7", "issued": "2027-03-01"},
		"quote": {"labour_rate": "60 USD/h", "taxes": [{"name": "sales tax", "rate": "5 %", "on": ["goods"]}, {"name": "sales tax", "rate": "5 %", "on": ["labour", "delivery"]}]}}`), job.Options{})
	require.NoError(t, err)
	p, err := paper.Of(o, paper.Invoice, nil)
	require.NoError(t, err)
	require.Len(t, p.Taxes, 2)
	require.Len(t, p.AllTaxes, 2)
	assert.Equal(t, p.Taxes[0], p.AllTaxes[0])
	assert.Equal(t, "60.00", p.Taxes[1].Base.Amount())
	assert.Equal(t, "100.00", p.AllTaxes[1].Base.Amount())
	assert.Equal(t, "5.00", p.AllTaxes[1].Amount.Amount())
}
