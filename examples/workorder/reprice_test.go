package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// An order that was saved is set beside the same job at another price of its cloth.
func TestAgainst(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	text, err := os.ReadFile("testdata/stool.json")
	require.NoError(t, err)
	var s job.Spec
	require.NoError(t, json.Unmarshal(text, &s))
	s.Goods[0].Price.PerLength, err = cost.ParsePrice[unit.Length]("99 " + string(s.Currency) + "/m")
	require.NoError(t, err)
	dear, err := json.Marshal(s)
	require.NoError(t, err)
	file := func(name string, text []byte) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, text, 0o600))
		return path
	}
	said := func(want int, args ...string) string {
		var out, errs bytes.Buffer
		require.Equal(t, want, run(t.Context(), append(little, args...), &out, &errs), errs.String())
		return out.String()
	}
	saved := file("order.json", []byte(said(exitOK, "-job", "testdata/stool.json", "-format", "json")))
	other := file("dear.json", dear)

	printed := said(exitOK, "-job", other, "-against", saved)
	assert.Contains(t, printed, "RE-PRICED: "+s.Name)
	assert.Contains(t, printed, "99.00")
	var r job.Repricing
	require.NoError(t, json.Unmarshal([]byte(said(exitOK, "-job", other, "-against", saved, "-format", "json")), &r))
	require.NotEmpty(t, r.Lines)
	for _, l := range r.Lines {
		assert.Contains(t, printed, l.NewPrice)
		assert.Contains(t, printed, l.Difference.Amount())
	}
	assert.Contains(t, said(exitOK, "-job", "testdata/stool.json", "-against", saved), "No line differs.")

	assert.Empty(t, said(exitInput, "-against", saved, "-job", "testdata/seats.json"), "another job")
	assert.Empty(t, said(exitInput, "-against", other, "-job", other), "no order")
	assert.Empty(t, said(exitInput, "-against", filepath.Join(dir, "none"), "-job", other))
	assert.Empty(t, said(exitInput, "-against", saved, "-format", "html", "-out", filepath.Join(dir, "page")))
}

// Lines that came and went are told as such.
func TestRepricingInWords(t *testing.T) {
	t.Parallel()
	five, err := cost.ParseMoney("5 USD")
	require.NoError(t, err)
	none, err := cost.Zero(cost.USD)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, printRepricing(&b, job.Repricing{Name: "stool", Same: 1, Lines: []job.RepricedLine{
		{ID: "stairs", Change: cost.Added, NewQuantity: "1 piece", NewPrice: "5.00 USD/piece", NewAmount: five, Difference: five},
		{ID: "felt", Change: cost.Dropped, Quantity: "2 yd", Price: "2.50 USD/yd", Amount: five, NewAmount: none, Difference: five.Neg()}}}))
	lines := strings.Split(b.String(), "\n")
	words := func(line string) string { return strings.Join(strings.Fields(line), " ") }
	assert.Equal(t, []string{"stairs is 1 piece 5.00 USD/piece 5.00 5.00", "felt was 2 yd 2.50 USD/yd 5.00", "is left out 0.00 -5.00", "", "1 line the same"},
		[]string{words(lines[4]), words(lines[5]), words(lines[6]), words(lines[7]), words(lines[8])})
}
