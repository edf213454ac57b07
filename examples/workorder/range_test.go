package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
)

// The range is on the basis of the price: with tax where that has tax. Class 3 is from
// 20 % below to 30 % above, of 5632.02 from 4505.62 to 7321.63.
func TestMayComeTo(t *testing.T) {
	demo := orders(t)["demo"]
	require.Equal(t, "5632.02 USD", demo.Quote.Total.String())
	text, err := mayComeTo(demo)
	require.NoError(t, err)
	assert.Equal(t, "an estimate of class 3: it may come out between 4,500 USD and 7,400 USD with tax", text)
	demo.Quote.Class = 0
	text, err = mayComeTo(demo)
	require.NoError(t, err)
	assert.Empty(t, text)
}

func TestWhole(t *testing.T) {
	for _, c := range []struct {
		amount   string
		currency cost.Currency
		want     string
	}{
		{"4500.00", cost.USD, "4,500 USD"},
		{"4500.10", cost.USD, "4,500.10 USD"},
		{"4500", cost.JPY, "4,500 JPY"},
	} {
		m, err := cost.NewMoney(c.amount, c.currency)
		require.NoError(t, err)
		assert.Equal(t, c.want, whole(m))
	}
}
