package job

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

const longBack = `{"schema": "coverwright/job/1", "name": "a long back", "currency": "USD",
	"goods": [{"id": "a", "kind": "roll", "name": "damask", "material": "woven", "price": "40.00 USD/yd", "width": "54 in",
		"repeat": "27 in", "repeat_across": "18 in", "first_motif": "9 in, 0 in", "unknown_start": true}],
	"pieces": [{"name": "sofa", "panels": [{"name": "back", "goods": "a", "width": "83 in", "length": "25 in", "edges": "plain seam", "motif": "41 1/2 in, 13 1/2 in",
		"join": {"along_width": true, "least": "12 in", "most": 2}}]}],
	"quote": {"labour_rate": "60.00 USD/h"}}`

// A back of 83 in with a motif in its middle, cut 84 x 26 in, is joined so that it
// matches: a full width of 54 in in the centre, 53 in finished, and two sides of
// 15 1/2 in finished and 16 in cut, abreast a repeat further on: 27 + 26 = 53 in,
// and 27 in more to find the motif.
func TestJoinedPanelMatches(t *testing.T) {
	t.Parallel()
	o, err := Read(context.Background(), strings.NewReader(longBack), quick)
	require.NoError(t, err)
	plan := o.Purchases[0].Plan
	assert.Equal(t, []layout.Join{{At: 31 * unit.Inch / 2}, {At: 137 * unit.Inch / 2}}, plan.Joins)
	assert.Equal(t, 53*unit.Inch, plan.Need)
	assert.Equal(t, 27*unit.Inch, plan.Spare)
	assert.True(t, plan.Proved)
	assert.Equal(t, "up the roll, on the repeat", o.Cuts[0].Grain)
	assert.Empty(t, o.Purchases[0].OffRepeat())
	for _, c := range o.Cautions {
		assert.NotContains(t, c.Text, "do not match")
	}
	require.Len(t, o.Sewing.SetUps, 1)
	sewn := map[string]int{}
	for _, r := range o.Sewing.SetUps[0].Rows {
		sewn[r.Of] += r.Count
	}
	assert.Equal(t, 2, sewn["back, join"])
}

// Faults of a joined panel that is to match have their place in the job.
func TestJoinedPanelIsRefused(t *testing.T) {
	t.Parallel()
	refused(t, longBack, map[string]fault{
		"one join":        {`"most": 2`, `"most": 1`, "pieces[0].panels[0]", unit.ErrRange},
		"large segments":  {`"least": "12 in"`, `"least": "29 in"`, "pieces[0].panels[0]", unit.ErrRange},
		"motif at a side": {`"repeat_across": "18 in", "first_motif": "9 in, 0 in"`, `"repeat_across": "54 in", "first_motif": "3 in, 0 in"`, "pieces[0].panels[0]", layout.ErrNoLayout},
		"shade beside it": {`"join": {`, `"shade": "s", "join": {`, "pieces[0].panels[0].join", ErrMisplaced},
	})
}

// A piece that the goods are too narrow for is told what would help: turning where the
// goods have no direction, joining where it is a rectangle.
func TestTooWideSaysWhatWouldHelp(t *testing.T) {
	const turn, join = "; may_railroad would let it lie the other way", "; join with along_width true would make it of pieces"
	for goods, want := range map[string]string{``: turn + join, `, "repeat": "4 in"`: join} {
		panel := func(fields string) string {
			return `"panels": [{"name": "seat", "goods": "cloth", "edges": "raw", ` + fields + `}]`
		}
		cushion := func(fields string) string {
			return `"cushions": [{"name": "seat", "top": "cloth", "kind": "boxed", "width": "62 in", "depth": "20 in", "thickness": "4 in"` + fields + `}]`
		}
		for part, joins := range map[string]bool{
			panel(`"width": "62 in", "length": "20 in"`):                             true,
			panel(`"outline": {"rectangle": {"width": "62 in", "height": "20 in"}}`): true,
			panel(`"width": "62 in", "length": "20 in", "shade": "a"`):               false,
			panel(`"outline": {"ellipse": {"width": "62 in", "height": "20 in"}}`):   false,
			cushion(``): true,
			panel(`"width": "62 in", "length": "20 in", "join": {"least": "12 in", "most": 2}`): true,
			cushion(`, "rise": "1 in"`):                          false,
			cushion(`, "left_ear": "2 in", "ear_depth": "3 in"`): false,
		} {
			_, err := read(t, `{"schema": "coverwright/job/1", "name": "a job", "currency": "USD",
				"goods": [{"id": "cloth", "kind": "roll", "name": "plain", "material": "woven", "price": "40.00 USD/yd", "width": "54 in", "shades": [{"name": "a", "window": "9 yd"}]`+goods+`}],
				"pieces": [{"name": "bench", `+part+`}], "quote": {"labour_rate": "60.00 USD/h"}}`)
			w := want
			if !joins {
				w = strings.TrimSuffix(w, join)
			}
			require.ErrorIs(t, err, layout.ErrTooWide)
			require.Regexp(t, "across the goods"+w+"(\n|$)", err.Error(), part)
		}
	}
}
