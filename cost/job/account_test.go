package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/account"
)

// agreedOn is a job with a change and a payment, below taxes that tell labour apart.
const agreedOn = `{"schema": "coverwright/job/1", "name": "bench", "currency": "USD", "goods": [],
	"pieces": [{"name": "bench", "foam": [{"name": "seat", "width": "54 in", "depth": "18 in", "thickness": "2 in", "filling": {"use": "seat", "duty": "normal", "base": "board", "price": "5.00 USD/bd ft"}}]}],
	"changes": [{"what": "new rail", "amount": "80.00 USD", "kind": "labour", "tax_class": "fabrication labour", "agreed": "2027-03-02", "piece": "bench"},
		{"what": "joint glued", "amount": "40.00 USD", "kind": "labour", "tax_class": "repair and application labour", "agreed": "2027-03-02"}],
	"received": [{"what": "deposit", "amount": "30.00 USD", "on": "2027-02-02"}],
	"invoice": {"number": "31", "issued": "2027-03-30", "due": "2027-04-30"}, "revision": {"letter": "B"},
	"customer_copy": {"by": "work", "terms": ["ours"]},
	"quote": {"labour_rate": "60.00 USD/h", "taxes": [{"name": "tax", "rate": "10 %", "on": ["labour"], "except": ["repair and application labour"]}]}}`

// Worked by hand: foam of 67.50; 80.00 and a tenth, 40.00 without tax, though no line
// of the quote is labour; 67.50 + 88 + 40 - 30 is 165.50.
func TestAccountOfAJob(t *testing.T) {
	t.Parallel()
	o, err := read(t, agreedOn)
	require.NoError(t, err)
	require.NotNil(t, o.Statement)
	assert.Equal(t, "195.50", o.Statement.Sum.Amount())
	assert.Equal(t, "165.50", o.Statement.Balance.Amount())
	assert.Equal(t, "B", o.Revision.Letter)
	assert.Equal(t, account.Work, o.Copy.By)
}

func TestFaultsOfAnAccount(t *testing.T) {
	t.Parallel()
	for is, want := range map[string][2]string{
		`"amount": "80.00 USD"`:                 {`"amount": "80.00 EUR"`, "changes[0].amount"},
		`"tax_class": "fabrication labour"`:     {`"tax_class": "fabrication"`, "changes[0].tax_class"},
		`"agreed": "2027-03-02", "piece"`:       {`"agreed": "2027-03-31", "piece"`, "changes[0].agreed"},
		`"piece": "bench"`:                      {`"piece": "chair"`, "changes[0].piece"},
		`"amount": "30.00 USD"`:                 {`"amount": "30.005 USD"`, "received[0].amount"},
		`"due": "2027-04-30"`:                   {`"due": "2027-03-01"`, "invoice.due"},
		`"letter": "B"`:                         {`"letter": " "`, "revision.letter"},
		`"customer_copy": {"by": "work"`:        {`"customer_copy": {"by": "hour"`, "customer_copy.by"},
		`"customer_copy": {"by": "work", "term`: {`"customer_copy": {"without_asking": "5.00 EUR", "term`, "customer_copy.without_asking"},
	} {
		_, err := read(t, strings.Replace(agreedOn, is, want[0], 1))
		require.Error(t, err, want[1])
		assert.Contains(t, err.Error(), want[1]+":")
	}
}

// The customer's copy of the shop lies beneath that of the job, field by field.
func TestCopyOfTheShop(t *testing.T) {
	t.Parallel()
	s, err := ReadShop(strings.NewReader(`{"schema": "coverwright/shop/1", "currency": "USD", "customer_copy": {"tax": "below", "terms": ["theirs"], "hidden_damage": "we ask"}}`))
	require.NoError(t, err)
	spec, err := s.ReadSpec(strings.NewReader(agreedOn))
	require.NoError(t, err)
	assert.Equal(t, &account.Copy{By: account.Work, Tax: account.Below, Terms: []string{"ours"}, Damage: "we ask"}, spec.Copy)
	_, err = ReadShop(strings.NewReader(`{"schema": "coverwright/shop/1", "currency": "USD", "customer_copy": {"without_asking": "5.00 EUR"}}`))
	require.ErrorContains(t, err, "customer_copy.without_asking")
}
