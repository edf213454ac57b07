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
)

// seatOnShop is a job that its shop makes whole.
const seatOnShop = `{"schema": "coverwright/job/1", "name": "seat", "number": "7", "customer": {"name": "A. Sitter"}, "quote": {"issued": "2027-01-15"},
	"pieces": [{"name": "seat", "panels": [{"name": "top", "goods": "tweed", "width": "20 in", "length": "20 in"}]}]}`

func written(t *testing.T, name, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	return file
}

// A job is read on top of a shop file and a price list, whose faults say where they
// are.
func TestShopFile(t *testing.T) {
	seat := written(t, "seat.json", seatOnShop)
	prices := written(t, "prices.csv", "code,kind,description,price\ncord,thread and sundries,cord,0.12 USD/yd\n")
	var out, errs bytes.Buffer
	args := append(slices.Clip(little), "-job", seat, "-shop", "larkfield-shop.json", "-prices", prices)
	require.Equal(t, exitOK, run(context.Background(), args, &out, &errs), errs.String())
	for _, text := range []string{"Quillmere Upholstery\n", "plain wool tweed (tweed)", "54.00 USD/yd + 25 % markup"} {
		assert.Contains(t, out.String(), text)
	}
	assert.NotContains(t, out.String(), "damask", "goods that the job does not name")

	out.Reset()
	assert.Equal(t, exitInput, run(context.Background(), append(slices.Clip(little), "-job", seat), &out, &errs), "without its shop it is no whole job")
	for name, c := range map[string]struct{ shop, prices, want string }{
		"shop":          {strings.Replace(string(demoShop), `"25 %"`, `"25 in"`, 1), "", "in the shop file, line "},
		"goods":         {strings.Replace(string(demoShop), `"58 in"`, `"58 yd"`, 1), "", "goods[1].width: "},
		"rows":          {string(demoShop), "code,kind,description,price\ncord,thread and sundries,cord,dear\n", "row 2, column price"},
		"other money":   {string(demoShop), "code,kind,description,price\ncord,thread and sundries,cord,1 EUR/m\n", "in the price list, line 2: prices[0].price: "},
		"money of shop": {strings.ReplaceAll(string(demoShop), "USD", "EUR"), "code,kind,description,price\ncord,thread and sundries,cord,1 USD/m\n", "in the price list, line 2: "},
	} {
		args := append(slices.Clip(little), "-job", seat, "-shop", written(t, "shop.json", c.shop))
		if c.prices != "" {
			args = append(args, "-prices", written(t, "prices.csv", c.prices))
		}
		errs.Reset()
		assert.Equal(t, exitInput, run(context.Background(), args, &out, &errs), name)
		assert.Contains(t, errs.String(), c.want, name)
		assert.Empty(t, out.String(), name)
	}
}

// A measuring card bears the head of the shop, and of a job where there is one; a card
// alone leaves room for the customer.
func TestCardHead(t *testing.T) {
	seat := written(t, "seat.json", seatOnShop)
	for name, c := range map[string]struct {
		args     []string
		has, not []string
	}{
		"alone":  {nil, []string{`aria-label="customer"`}, []string{"Quillmere", "<p><b>", `class="given"`}},
		"shop":   {[]string{"-shop", "larkfield-shop.json"}, []string{"<b>Quillmere Upholstery</b><br>2 Sample Yard", `aria-label="customer"`}, []string{`class="given"`}},
		"facing": {[]string{"-shop", written(t, "shop.json", `{"schema": "coverwright/shop/1", "defaults": {"facing": true}}`)}, []string{"its left is on your right"}, []string{"<p><b>"}},
		"job":    {[]string{"-shop", "larkfield-shop.json", "-job", seat}, []string{"Quillmere", "number: 7", "customer: A. Sitter"}, []string{`aria-label="customer"`, "due:"}},
	} {
		var out, errs bytes.Buffer
		c.has = append(c.has, "left and right of a piece are the sitter")
		require.Equal(t, exitOK, run(context.Background(), append([]string{"-format", "measure", "-from", "drop-in seat"}, c.args...), &out, &errs), errs.String())
		for _, text := range c.has {
			assert.Contains(t, out.String(), text, name)
		}
		for _, text := range c.not {
			assert.NotContains(t, out.String(), text, name)
		}
	}
}
