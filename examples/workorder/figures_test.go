package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Goods sold by length are in yards with eighths and thirds or in metres to the
// centimetre, thousands in groups, and goods stand by their names.
func TestFiguresAsAShopWritesThem(t *testing.T) {
	for name, o := range orders(t) {
		for _, metric := range []bool{false, true} {
			var out bytes.Buffer
			require.NoError(t, printText(&out, o, metric, false))
			texts := map[string]string{"text": out.String()}
			for _, c := range copies() {
				texts[c.name] = parse(t, pageOf(t, name, c.name, metric)).words()
			}
			for what, text := range texts {
				assert.NotRegexp(t, `[0-9]\.[0-9]+[ \x{a0}]yd`, text, "%s, %s", name, what)
				assert.NotRegexp(t, `[0-9]\.[0-9]{3,}[ \x{a0}]m\b`, text, "%s, %s", name, what)
				assert.NotRegexp(t, `[0-9]{4,}\.[0-9]{2}\b`, text, "%s, %s", name, what)
			}
			cuts, _, _ := strings.Cut(out.String(), "Edges and notes")
			for _, p := range o.Purchases {
				assert.NotRegexp(t, `  `+p.Goods+`  `, cuts)
				assert.Contains(t, cuts, p.Name)
			}
		}
	}
}

// The lines of an option that differ are those of the quote, by their words.
func TestOptionsByName(t *testing.T) {
	o := orders(t)["demo"]
	require.NotEmpty(t, o.Options)
	for _, p := range o.Options {
		for _, r := range p.Compare.Lines {
			is, inQuote := o.Quote.Line(r.ID)
			other, inOption := p.Quote.Line(r.ID)
			require.True(t, inQuote || inOption)
			if inQuote {
				assert.Equal(t, is.What, r.What)
			} else {
				assert.Equal(t, other.What, r.What)
			}
		}
		words := strings.Join((&sheet{}).optionWords(o, p), "\n")
		for _, g := range p.Goods {
			assert.Contains(t, words, goodsName(o.Purchases, g.Goods)+":")
			assert.Contains(t, words, goodsName(p.Purchases, g.With)+":")
		}
	}
}
