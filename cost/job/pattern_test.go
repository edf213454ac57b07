package job

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// fourBacks is the job of four backs of 22 x 24 in, each with the motif in the
// middle, or wherever it is told, on some goods.
func fourBacks(goods, motif string) string {
	return fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "backs", "currency": "USD",
		"goods": [{"id": "damask", "kind": "roll", "name": "damask", "material": "woven", "price": "60 USD/yd", "width": "54 in", "selvage": "1/2 in", "margin": {}, %s}],
		"pieces": [{"name": "chair", "count": 4, "panels": [{"name": "back", "goods": "damask", "width": "22 in", "length": "24 in", "edges": "raw", "motif": %q}]}],
		"quote": {"labour_rate": "50 USD/h"}}`, goods, motif)
}

// The cloth repeats every 27 in and 26 1/2 in across. With a motif cut through at the
// selvage only the one in the middle of the cloth, 26 1/2 in from the edge, has a
// back about it: one a row, and as a motif lies at the end too, the first back
// starts 15 in in: 15 + 3 x 27 + 24 = 120 in. With motifs at 13 1/4 and 39 3/4 in they
// lie two abreast, 12 in below the motif: 27 + 24 = 51 in, under 2 yd. From a bolt
// that starts anywhere a repeat more is bought: 78 in, 2 1/4 yd.
func TestWhereTheMotifsLie(t *testing.T) {
	for name, c := range map[string]struct {
		goods, motif string
		need, length unit.Length
	}{
		"at the selvage":         {`"repeat": "27 in", "repeat_across": "26 1/2 in"`, "11 in, 12 in", 120 * unit.Inch, 27 * unit.Yard / 8},
		"inside":                 {`"repeat": "27 in", "repeat_across": "26 1/2 in", "first_motif": "13 1/4 in, 12 in"`, "11 in, 12 in", 51 * unit.Inch, 12 * unit.Yard / 8},
		"unknown start":          {`"repeat": "27 in", "repeat_across": "26 1/2 in", "first_motif": "13 1/4 in, 0 in", "unknown_start": true`, "11 in, 12 in", 51 * unit.Inch, 18 * unit.Yard / 8},
		"motif off the panel":    {`"repeat": "27 in", "repeat_across": "26 1/2 in", "first_motif": "13 1/4 in, 12 in"`, "11 in, 39 in", 51 * unit.Inch, 12 * unit.Yard / 8},
		"half drop, level":       {`"repeat": "27 in", "repeat_level": "53 in", "drop": "1/2", "first_motif": "13 1/4 in, 0 in", "unknown_start": true`, "11 in, 12 in", 129 * unit.Inch / 2, 21 * unit.Yard / 8},
		"top to the left edge":   {`"repeat": "26 1/2 in", "repeat_across": "27 in", "first_motif": "39 3/4 in, 11 in", "up": "to the left edge"`, "11 in, 12 in", 49 * unit.Inch, 11 * unit.Yard / 8},
		"stripes up the pattern": {`"repeat_across": "26 1/2 in", "first_motif": "13 1/4 in, 0 in", "even": true`, "11 in, 12 in", 48 * unit.Inch, 11 * unit.Yard / 8},
	} {
		o, err := Read(t.Context(), strings.NewReader(fourBacks(c.goods, c.motif)), quick)
		require.NoError(t, err, name)
		p := o.Purchases[0]
		assert.Equal(t, c.need, p.Plan.Need, name)
		assert.Equal(t, c.length, p.Length, name)
		assert.True(t, p.Plan.Proved, name)
		last := p.Answers[len(p.Answers)-1]
		assert.Equal(t, p.Plan.Need, last.Length, name)
		assert.Equal(t, p.Plan.Spare, p.Ordered.Spare, name)
		assert.Equal(t, strings.Contains(c.goods, "unknown_start"), p.Ordered.Spare > 0, name)
		if strings.Contains(name, "edge") {
			for _, q := range p.Plan.Places {
				assert.InDelta(t, 90, float64(q.Turned), 0, "on their side")
			}
			assert.Contains(t, o.Cuts[0].Grain, "to the left edge")
		}
	}
}

// Four backs take 48 in of plain goods and 51 in matched, 27 in more to find the
// start; with the motifs cut through at the selvage 120 in. The rules of thumb say
// 45 % more than plain, as for repeats of 53 1/2 in on 54 in goods, which is 35 %
// there, and two rows of a repeat each: neither knows where the motifs lie.
func TestMatchingCosts(t *testing.T) {
	for goods, c := range map[string]struct{ saved, less unit.Length }{
		`"repeat": "27 in", "repeat_across": "26 1/2 in", "first_motif": "13 1/4 in, 0 in", "unknown_start": true`: {3 * unit.Inch, 7 * unit.Yard / 8},
		`"repeat": "27 in", "repeat_across": "26 1/2 in"`:                                                          {72 * unit.Inch, 2 * unit.Yard},
	} {
		text := fourBacks(goods, "11 in, 12 in")
		o, err := Read(t.Context(), strings.NewReader(text), quick)
		require.NoError(t, err)
		p := o.Purchases[0]
		require.NotNil(t, p.Matching)
		assert.Equal(t, 48*unit.Inch, p.Matching.Plain.Need)
		assert.Equal(t, 11*unit.Yard/8, p.Matching.Plain.Order)
		assert.Equal(t, c.saved, p.Matching.Plain.Saved)
		assert.Equal(t, c.less, p.Matching.Plain.Less)
		assert.Equal(t, []layout.Wish{{Relaxed: p.Matching.Plain}}, p.Matching.Wishes)
		assert.True(t, p.Matching.Plain.Exact)
		var rules []unit.Length
		for _, a := range p.Answers {
			if a.Kind == cite.RuleOfThumb {
				assert.Equal(t, cite.CommonPractice, a.Basis.Status)
				rules = append(rules, a.Length)
			}
		}
		assert.Equal(t, []unit.Length{48 * 135 * unit.Inch / 100, 102 * unit.Inch}, rules)
		assert.Equal(t, cite.Layout, p.Answers[len(p.Answers)-1].Kind, "bought by the layout")

		short := quick
		short.NoMatching = true
		o, err = Read(t.Context(), strings.NewReader(text), short)
		require.NoError(t, err)
		assert.Nil(t, o.Purchases[0].Matching)
		assert.Equal(t, p.Plan, o.Purchases[0].Plan)
	}
	plain := strings.Replace(fourBacks(`"nap": true`, ""), `, "motif": ""`, "", 1)
	o, err := Read(t.Context(), strings.NewReader(plain), quick)
	require.NoError(t, err)
	assert.Nil(t, o.Purchases[0].Matching, "plain goods")
}

// Progress covers layouts and patterns; an order that is stopped between them has
// its layouts, and says that the rest was not worked out.
func TestMatchingStops(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	o := quick
	last := unit.Ratio(0)
	o.Progress = func(p Progress) {
		assert.GreaterOrEqual(t, p.Done, last)
		if last = p.Done; p.Done >= 0.5 {
			cancel()
		}
	}
	order, err := Read(ctx, strings.NewReader(fourBacks(`"repeat": "27 in", "repeat_across": "26 1/2 in"`, "11 in, 12 in")), o)
	require.NoError(t, err)
	assert.InDelta(t, 1, float64(last), 1e-9)
	assert.False(t, order.Stopped, "the layouts were done")
	assert.Equal(t, 120*unit.Inch, order.Purchases[0].Plan.Need)
	require.NotNil(t, order.Purchases[0].Matching)
	assert.True(t, order.Purchases[0].Matching.Stopped)
}

func TestPatternFaults(t *testing.T) {
	for name, c := range map[string]struct {
		goods string
		field string
		want  error
	}{
		"two distances":    {`"repeat": "27 in", "repeat_across": "9 in", "repeat_level": "18 in", "drop": "1/2"`, "goods[0].repeat_level", unit.ErrRange},
		"level, no drop":   {`"repeat": "27 in", "repeat_level": "18 in"`, "goods[0].repeat_level", unit.ErrRange},
		"motif outside":    {`"repeat": "27 in", "first_motif": "-1 in, 0 in"`, "goods[0].first_motif", unit.ErrRange},
		"start and place":  {`"repeat": "27 in", "first_motif": "0 in, 1 in", "unknown_start": true`, "goods[0].first_motif", unit.ErrRange},
		"too long a panel": {`"repeat": "27 in", "up": "to the right edge", "width": "20 in"`, "pieces[0].panels[0]", layout.ErrTooWide},
	} {
		text := fourBacks(c.goods, "11 in, 12 in")
		if strings.Contains(c.goods, `"width"`) {
			text = strings.Replace(text, `"width": "54 in", `, "", 1)
		}
		_, err := Read(t.Context(), strings.NewReader(text), quick)
		require.ErrorIs(t, err, c.want, name)
		assert.ErrorContains(t, err, c.field, name)
	}
}
