package job

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

func offer(t *testing.T, width int, price string) RollOffer {
	t.Helper()
	p, err := cost.ParsePrice[unit.Length](price)
	require.NoError(t, err)
	return RollOffer{Roll: material.Roll{Width: unit.Length(width) * unit.Inch, Increment: unit.Yard / 8}, Price: p, Margin: &material.WorkingMargin{}}
}

func TestCompareRolls(t *testing.T) {
	o := layout.Options{Effort: 0.001}
	seat, err := layout.RectPiece("seat", 27*unit.Inch, 27*unit.Inch, 6)
	require.NoError(t, err)
	pieces := []layout.Piece{seat}
	// Two a row on 54 in goods, one on 45 in: 2 1/4 yd against 4 1/2 yd.
	out, best, err := CompareRolls(context.Background(), []RollOffer{offer(t, 45, "20 USD/yd"), offer(t, 54, "38 USD/yd"), offer(t, 20, "1 USD/yd")}, pieces, o)
	require.NoError(t, err)
	assert.Equal(t, 1, best)
	assert.Equal(t, "90.00 USD", out[0].Cost.String())
	assert.Equal(t, "85.50 USD", out[1].Cost.String())
	assert.True(t, out[2].TooNarrow)

	// 4 in to square the ends take one eighth of a yard more of each.
	usual := []RollOffer{offer(t, 45, "20 USD/yd"), offer(t, 54, "38 USD/yd")}
	usual[0].Margin, usual[1].Margin = nil, nil
	out, _, err = CompareRolls(context.Background(), usual, pieces, o)
	require.NoError(t, err)
	assert.Equal(t, "92.50 USD", out[0].Cost.String())
	assert.Equal(t, 19*unit.Yard/8, out[1].Ordered.Order)

	_, best, err = CompareRolls(context.Background(), []RollOffer{offer(t, 20, "1 USD/yd")}, pieces, o)
	require.NoError(t, err)
	assert.Equal(t, -1, best)
	_, _, err = CompareRolls(context.Background(), []RollOffer{offer(t, 54, "1 USD/yd"), offer(t, 54, "1 EUR/yd")}, pieces, o)
	require.ErrorIs(t, err, cost.ErrCurrency)
	_, _, err = CompareRolls(context.Background(), nil, pieces, o)
	require.ErrorIs(t, err, unit.ErrRequired)
}
