package rate_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
)

func money(t testing.TB, s string) cost.Money {
	t.Helper()
	m, err := cost.ParseMoney(s)
	require.NoError(t, err)
	return m
}

func price[Q cost.Quantity](t testing.TB, s string) cost.Price[Q] {
	t.Helper()
	p, err := cost.ParsePrice[Q](s)
	require.NoError(t, err)
	return p
}

func line(t testing.TB, l cost.Line, err error) cost.Line {
	t.Helper()
	require.NoError(t, err)
	return l
}
