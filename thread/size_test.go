package thread_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
)

// Heavier thread never gets a finer needle, nor a lower strength or count.
func TestTableRisesWithSize(t *testing.T) {
	for _, g := range thread.AllGoods() {
		last := thread.NeedleRange{}
		for _, s := range thread.Sizes() {
			r, err := thread.NeedlesFor(s, g)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, r.From, last.From, "%v %v", g, s)
			assert.GreaterOrEqual(t, r.To, last.To, "%v %v", g, s)
			assert.LessOrEqual(t, r.From, r.To)
			finest, err := thread.FinestNeedle(s)
			require.NoError(t, err)
			assert.LessOrEqual(t, finest, r.From, "%v %v", g, s)
			last = r
		}
	}
}

func TestEveryCellHasBasisOrReason(t *testing.T) {
	for _, r := range thread.Table() {
		check(t, r.Thread, r.Label)
		check(t, r.Thread, r.Finished)
		check(t, r.Thread, r.Greige)
		check(t, r.Thread, r.Plies)
		check(t, r.Thread, r.Letter)
		check(t, r.Thread, r.Cords)
		check(t, r.Thread, r.Ticket)
		check(t, r.Thread, r.MinStrength)
		check(t, r.Thread, r.Strength)
		check(t, r.Thread, r.MinYield)
		check(t, r.Thread, r.Diameter)
	}
}

func check[T comparable](t *testing.T, th thread.Thread, c thread.Cell[T]) {
	t.Helper()
	v, known := c.Value()
	var zero T
	if known {
		assert.NotZero(t, c.Basis().Status, "%v", th)
		assert.NotEqual(t, zero, v, "%v", th)
		return
	}
	assert.NotEmpty(t, c.Basis().Note, "%v", th)
}
