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
	var c cost.Comparison
	require.NoError(t, json.Unmarshal([]byte(said(exitOK, "-job", other, "-against", saved, "-format", "json")), &c))
	differ := 0
	for _, r := range c.Lines {
		if r.Change != cost.Same {
			differ++
			assert.Contains(t, printed, r.Difference.Amount())
		}
	}
	assert.Positive(t, differ)
	assert.Contains(t, said(exitOK, "-job", "testdata/stool.json", "-against", saved), plural(len(c.Lines), "line")+" the same")

	assert.Empty(t, said(exitInput, "-against", saved, "-job", "testdata/seats.json"), "another job")
	assert.Empty(t, said(exitInput, "-against", other, "-job", other), "no order")
	assert.Empty(t, said(exitInput, "-against", filepath.Join(dir, "none"), "-job", other))
	assert.Empty(t, said(exitInput, "-against", saved, "-format", "html", "-out", filepath.Join(dir, "page")))
}

// Lines that came and went are told as such.
func TestRepricingInWords(t *testing.T) {
	t.Parallel()
	order := func(line, price string) job.WorkOrder {
		p, err := cost.ParsePrice[cost.Pieces](price)
		require.NoError(t, err)
		l, err := cost.Item[cost.Pieces]{Kind: cost.Outwork, What: line, Quantity: 2, Price: p, Uplift: cost.Markup(1)}.Line()
		require.NoError(t, err)
		q, err := cost.NewQuote(cost.Terms{Currency: cost.USD}, l)
		require.NoError(t, err)
		return job.WorkOrder{Name: "stool", Quote: q}
	}
	saved, now := order("felt", "5 USD/piece"), order("stairs", "4 USD/piece")
	c, err := now.Against(saved)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, printRepricing(&b, saved, now, c))
	var words []string
	for _, line := range strings.Split(b.String(), "\n") {
		words = append(words, strings.Join(strings.Fields(line), " "))
	}
	assert.Equal(t, []string{"felt was 2 pieces 5.00 USD/piece, 100 % markup 20.00", "is left out -20.00",
		"stairs is new 2 pieces 4.00 USD/piece, 100 % markup 16.00 16.00", "", "0 lines the same"}, words[3:8])
}
