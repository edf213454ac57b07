package job

import (
	"context"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// cardOf gives the card of a job.
func cardOf(t testing.TB, text string, o Options) []CardLength {
	t.Helper()
	s, err := ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	card, err := YardageCard(context.Background(), s, o)
	require.NoError(t, err)
	return card
}

const fourSquares = `{"name": "seat", "panels": [{"name": "seat", "goods": "cloth", "count": 4, "width": "20 in", "length": "20 in", "motif": "10 in, 10 in"}]}`

// Worked by hand. Four pieces cut 21 in square lie two and two on 54 and on 48 in: plain
// 42 in, and 4 in to square the ends, 46 in, 1 3/8 yd in eighths. With a motif on each,
// the second row lies a whole number of repeats further on, 28, 40 or 27 in, and ends 21 in
// after that; the bolt may start anywhere, which is a repeat more.
func TestYardageCard(t *testing.T) {
	t.Parallel()
	card := cardOf(t, strings.Replace(timedJob(fourSquares, ""), `"width": "54 in"}`, `"width": "54 in", "repeat": "9 in", "first_motif": "3 in, 3 in"}`, 1), quick)
	require.Len(t, card, 8)
	need := []unit.Length{42 * unit.Inch, (28 + 21 + 14) * unit.Inch, (40 + 21 + 20) * unit.Inch, (27 + 21 + 27) * unit.Inch}
	for i, c := range card {
		assert.Equal(t, []unit.Length{54 * unit.Inch, 48 * unit.Inch}[i/4], c.Width)
		assert.Equal(t, cardRepeats[i%4], c.Repeat)
		assert.Equal(t, need[i%4], c.Need, "%v %v", c.Width, c.Repeat)
		assert.Equal(t, cite.Layout, c.Kind)
		assert.False(t, c.Stopped)
		want, err := (c.Need + 4*unit.Inch).RoundTo(unit.Yard/8, unit.Up)
		require.NoError(t, err)
		assert.Equal(t, want, c.Length)
	}
	assert.Equal(t, 11*unit.Yard/8, card[0].Length)
}

// The other width is that of the goods; a piece that does not fit across is named.
func TestYardageCardWidths(t *testing.T) {
	t.Parallel()
	card := cardOf(t, timedJob(`{"name": "bench", "panels": [{"name": "top", "goods": "cloth", "width": "52 in", "length": "20 in"}]}`, ""), quick)
	for _, c := range card {
		if c.Width == 48*unit.Inch {
			assert.Contains(t, c.TooNarrow, "top, cut 53 in wide")
			assert.Zero(t, c.Length)
		} else {
			assert.Empty(t, c.TooNarrow)
			assert.Positive(t, c.Length)
		}
	}
	card = cardOf(t, strings.NewReplacer(`"width": "54 in"`, `"width": "60 in"`, `, "motif": "10 in, 10 in"`, ``).Replace(timedJob(fourSquares, "")), quick)
	assert.Equal(t, 60*unit.Inch, card[4].Width)
}

// The same card for any number of workers; hides have none; plain goods take no more
// than patterned ones on the demo job, whose cloth is proved or searched with little
// effort.
func TestYardageCardOfTheDemo(t *testing.T) {
	t.Parallel()
	text := demo(t)
	one, four := cardOf(t, text, Options{Effort: 0.01, Workers: 1}), cardOf(t, text, Options{Effort: 0.01, Workers: 4})
	assert.Equal(t, one, four)
	var plain CardLength
	for _, c := range one {
		assert.NotEqual(t, "hide", c.Goods)
		if c.Repeat == 0 {
			plain = c
		}
		if c.TooNarrow == "" {
			assert.GreaterOrEqual(t, c.Need, plain.Need, "%s %v %v", c.Goods, c.Width, c.Repeat)
			assert.GreaterOrEqual(t, c.Length, c.Need)
		}
	}
}

func TestYardageCardFaults(t *testing.T) {
	t.Parallel()
	_, err := YardageCard(context.Background(), Spec{}, quick)
	var fs strictjson.Faults
	require.ErrorAs(t, err, &fs)
	_, err = YardageCard(context.Background(), Spec{}, Options{Workers: 100})
	require.ErrorIs(t, err, unit.ErrRange)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	s, err := ReadSpec(strings.NewReader(demo(t)))
	require.NoError(t, err)
	_, err = YardageCard(ctx, s, quick)
	require.ErrorIs(t, err, context.Canceled)
}

// Every anatomy has a card; TestYardageCardOfEveryAnatomy takes them all.
func TestYardageCardOfAnatomies(t *testing.T) {
	t.Parallel()
	yardageCardOf(t, 4)
}

// yardageCardOf makes the card of one anatomy of so many.
func yardageCardOf(t *testing.T, of int) {
	t.Helper()
	all := anatomies(t)
	for i, name := range slices.Sorted(maps.Keys(all)) {
		if i%of > 0 {
			continue
		}
		card, err := YardageCard(context.Background(), all[name], quick)
		require.NoError(t, err, name)
		require.NotEmpty(t, card, name)
		for _, c := range card {
			assert.True(t, c.Length > 0 || c.TooNarrow != "", name)
		}
	}
}
