package paper_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/job/paper"
)

// A job of blocks of foam and time alone, by any terms, adds up on every paper, and
// every piece of furniture is on it.
func TestEveryPaperAddsUp(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		share := func(name string) string {
			return fmt.Sprintf("%.2f %%", float64(rapid.IntRange(1, 3000).Draw(r, name))/100)
		}
		money := func(name string) string {
			return fmt.Sprintf("%.2f USD", float64(rapid.IntRange(1, 90_000).Draw(r, name))/100)
		}
		var pieces []string
		for i := range rapid.IntRange(1, 4).Draw(r, "pieces") {
			pieces = append(pieces, fmt.Sprintf(`{"name": "piece %d", "count": %d, "foam": [{"name": "seat", "width": "20 in", "depth": "18 in", "thickness": "%d in",
				"filling": {"use": "seat", "duty": "normal", "base": "board", "price": %q}}], "labour": [{"task": "work", "time": "%d min", "does": [%q]}]}`,
				i, rapid.IntRange(1, 7).Draw(r, "count"), rapid.IntRange(1, 5).Draw(r, "thickness"), strings.Replace(money("foam"), "USD", "USD/bd ft", 1),
				rapid.IntRange(1, 900).Draw(r, "time"), rapid.SampledFrom([]string{"strip", "sew"}).Draw(r, "does")))
		}
		stage := ""
		if rapid.Bool().Draw(r, "stages") {
			stage = fmt.Sprintf(`, "deposit": %q`, share("deposit"))
		}
		text := fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "x", "currency": "USD", "goods": [], "pieces": [%s],
			"changes": [{"what": "more", "amount": %q, "kind": %q, "agreed": "2027-03-02"}, {"what": "less", "amount": "-%s", "kind": "labour", "agreed": "2027-03-02"}],
			"received": [{"what": "deposit", "amount": %q, "on": "2027-02-02"}], "invoice": {"number": "31", "issued": "2027-03-30"},
			"customer_copy": {"by": %q, "tax": %q},
			"quote": {"labour_rate": "60.00 USD/h", "markup": %q, "contingency": %q, "class": %d, "least": %q, "step": "5.00 USD", "prices_include_tax": %v, "tax_level": %q,
				"extras": [{"kind": "delivery", "name": "delivery", "amount": %q}],
				"discounts": [{"name": "a", "rate": %q}, {"name": "b", "rate": %q, "after_tax": true}, {"name": "c", "rate": "3 %%", "kinds": ["labour"]}],
				"taxes": [{"name": "state", "rate": %q, "on": ["foam", "labour"], "except": ["repair and application labour"]}, {"name": "city", "rate": %q, "on": ["foam", "delivery", "contingency", "minimum charge", "rounding up"]}]%s}}`,
			strings.Join(pieces, ", "), money("more"), rapid.SampledFrom([]string{"foam", "labour", "delivery"}).Draw(r, "kind"), money("less"), money("received"),
			rapid.SampledFrom([]account.By{account.Pieces, account.Work}).Draw(r, "by"), rapid.SampledFrom([]account.Tax{account.Within, account.Below}).Draw(r, "tax"),
			share("markup"), share("contingency"), rapid.IntRange(1, 4).Draw(r, "class"), money("least"), rapid.Bool().Draw(r, "inclusive"),
			rapid.SampledFrom([]string{"per invoice", "per line"}).Draw(r, "level"), money("extra"), share("discount"), share("credit"), share("state"), share("city"), stage)
		o := build(r, text)
		for _, k := range kinds {
			p, err := paper.Of(o, k, nil)
			require.NoError(r, err)
			addsUp(r, o, p)
		}
	})
}
