package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
)

// renamed are the demo's own figures that no customer is to see, changed so that they
// stand nowhere else.
var renamed = []string{`"markup": "25 %"`, `"markup": "37.19 %"`, `"contingency": "3 %"`, `"contingency": "6.43 %"`, `"wage": "20.00 USD/h"`, `"wage": "21.37 USD/h"`}

func TestCustomerSeesNothingOfTheShopsOwn(t *testing.T) {
	shop, err := job.ReadShop(strings.NewReader(strings.NewReplacer(renamed...).Replace(string(demoShop))))
	require.NoError(t, err)
	o, err := shop.Read(context.Background(), bytes.NewReader(demo), job.Options{Effort: 0.001, NoMatching: true})
	require.NoError(t, err)
	for _, by := range []account.By{account.Pieces, account.Work} {
		for _, tax := range []account.Tax{account.Within, account.Below} {
			for _, k := range []paper.Kind{paper.Estimate, paper.Quotation, paper.WorkOrder, paper.Invoice} {
				o.Copy.By, o.Copy.Tax = by, tax
				page, err := copyHTML(o, settings{as: k, was: &o}, "customer")
				require.NoError(t, err)
				root := parse(t, page)
				wellFormed(t, "customer.html", root, nil)
				main := strings.ToLower(root.all("body", "")[0].words())
				for _, word := range []string{"cost", "markup", "margin", "profit", "labour", "hour", "waste", "contingency", "minimum charge", "rounding up", "uplift", "wage", "37.19", "6.43", "21.37", " h "} {
					assert.NotContains(t, main, word, "%v by %v, tax %v", k, by, tax)
				}
				figures := strings.Fields(main)
				for _, l := range o.Quote.Lines {
					if !l.Cost.IsZero() {
						assert.NotContains(t, figures, l.Cost.GroupedAmount(), "what %s comes to for the shop", l.What)
					}
				}
				assert.Contains(t, main, strings.ToLower(paperTitles[k]))
				assert.Contains(t, figures, o.Quote.Total.GroupedAmount())
				assert.Equal(t, k == paper.Quotation || k == paper.WorkOrder, strings.Contains(main, "signature"))
				assert.Equal(t, k == paper.Estimate, strings.Contains(main, "may come out at"))
			}
		}
	}
}

// What would not be so is refused before anything is written; an earlier order is set
// beside the new one.
func TestPaperOfTheCustomer(t *testing.T) {
	dir := t.TempDir()
	phone, was := filepath.Join(dir, "phone.json"), filepath.Join(dir, "was.json")
	require.NoError(t, os.WriteFile(phone, []byte(`{"schema": "coverwright/job/1", "name": "by telephone", "currency": "USD",
		"pieces": [{"name": "wing chair", "count": 2, "from": "wing chair", "goods": "tweed", "rough": {}}], "quote": {"issued": "2027-02-03"}}`), 0o600))
	html := []string{"-format", "html", "-out", filepath.Join(dir, "out"), "-force", "-copy", "customer", "-job", phone, "-shop", "larkfield-shop.json"}
	tell := func(args ...string) (int, string) {
		var out, errs bytes.Buffer
		code := run(context.Background(), args, &out, &errs)
		return code, out.String() + errs.String()
	}
	for as, want := range map[string]string{"quotation": "nobody has measured", "invoice": "nobody has measured", "bill": "-as"} {
		code, text := tell(append(slices.Clone(html), "-as", as)...)
		assert.Equal(t, exitInput, code)
		assert.Contains(t, text, want)
		assert.NoDirExists(t, filepath.Join(dir, "out"))
	}
	code, text := tell("-as", "invoice")
	assert.Equal(t, exitInput, code, text)
	code, text = tell("-format", "json", "-job", phone, "-shop", "larkfield-shop.json")
	require.Equal(t, exitOK, code)
	require.NoError(t, os.WriteFile(was, []byte(text), 0o600))
	code, text = tell(append(slices.Clone(html), "-against", was)...)
	require.Equal(t, exitOK, code, text)
	page, err := os.ReadFile(filepath.Join(dir, "out", "customer.html")) //nolint:gosec // made above
	require.NoError(t, err)
	words := parse(t, page).all("main", "")[0].words()
	assert.Contains(t, words, "Beside the earlier paper of 3 February 2027")
	assert.Contains(t, words, "no difference")
	assert.Contains(t, words, "about ")
	assert.Contains(t, words, "not taken yet")
}

func TestWordsOfAmounts(t *testing.T) {
	money := func(text string) cost.Money {
		m, err := cost.ParseMoney(text)
		require.NoError(t, err)
		return m
	}
	assert.Equal(t, "+ 1,234.50", signed(money("1234.5 USD")))
	assert.Equal(t, "− 12.00", minus(money("-12 USD")))
	assert.Equal(t, "no difference", signed(money("0 USD")))
	assert.Equal(t, "12.00 less", moreOrLess(money("-12 USD")))
	assert.Equal(t, "the same price", moreOrLess(money("0 USD")))
	assert.Equal(t, "3,800 to 6,300 USD", rangeText(paper.Range{Low: money("3800 USD"), High: money("6300 USD")}))
	assert.Equal(t, "1.50 to 2 USD", rangeText(paper.Range{Low: money("1.5 USD"), High: money("2 USD")}))
	assert.Equal(t, "Éléonore", capital("éléonore"))
	assert.Empty(t, capital(""))
	assert.Empty(t, dayText(cost.Date{}))
}
