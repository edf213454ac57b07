package job

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// madeJob reads a job with one piece of furniture.
func madeJob(t *testing.T, piece string) Spec {
	t.Helper()
	s, err := ReadSpec(strings.NewReader(`{"schema": "coverwright/job/1", "name": "made", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain cloth", "material": "woven", "price": "40.00 USD/yd", "width": "64 in", "nap": true},
			{"id": "mesh", "kind": "roll", "name": "mesh", "material": "canvas", "price": "9.00 USD/yd", "width": "64 in"}],
		"pieces": [` + piece + `], "quote": {"labour_rate": "60.00 USD/h"}}`))
	require.NoError(t, err)
	return s
}

// A skirt is sewn to the panel it hangs from by its top, whatever it is joined
// from.
func TestSkirtHangsFromASeam(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "stool",
		"panels": [{"name": "band", "goods": "cloth", "width": "48 in", "length": "4 in"}],
		"skirts": [{"name": "skirt", "goods": "cloth", "kind": "gathered", "sides": ["12 in", "12 in", "12 in", "12 in"], "drop": "6 in", "fullness": 2}],
		"seams": [{"sew": "band.right", "to": "band.left"}, {"sew": "band.bottom", "to": "skirt.top"}],
		"fastenings": [{"fasten": ["band.top"], "finish": "folded in"}]}`)
	work := workOf(t, s)
	last := work.Seams[len(work.Seams)-1]
	assert.Len(t, last.Sides[1], 2, "96 in of skirt out of 64 in cloth")
	rows := map[allowance.RowKind]unit.Length{}
	for _, r := range work.Rows {
		rows[r.Kind] = max(rows[r.Kind], r.Length)
	}
	assert.Equal(t, 48*unit.Inch, rows[allowance.SeamRow])
	assert.Equal(t, 96*unit.Inch, rows[allowance.GatherRow])
}

// Cushions of port and starboard are cut left and right, above and below, and have
// foam each.
func TestCushionsOfBothSides(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "cockpit", "cushions": [{"name": "settee", "pair": true, "thickness": "4 in", "top": "cloth", "bottom": "mesh", "boxing": "cloth", "zip": true,
		"zip_edge": "hull", "foam": {"use": "berth", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"},
		"outline": {"polygon": {"corners": ["0 in, 0 in", "60 in, 0 in", "60 in, 22 in", "24 in, 22 in", "24 in, 44 in", "0 in, 44 in"]},
			"names": ["front", "end", "inner", "well", "top", "hull"]}}]}`)
	o, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	plates := map[string]int{}
	for _, c := range o.Cuts {
		if strings.Contains(c.Part, "plate") {
			plates[c.Goods] += c.Count
			assert.True(t, c.Pair || c.Hand != allowance.Either, c.Part)
		}
	}
	assert.Equal(t, map[string]int{"cloth": 2, "mesh": 2}, plates)
	require.Len(t, o.Foam, 1)
	assert.Equal(t, 2, o.Foam[0].Count)
	assert.Equal(t, []unit.Length{60*unit.Inch + unit.Inch/2, 44*unit.Inch + unit.Inch/2}, []unit.Length{o.Foam[0].Cut.Length, o.Foam[0].Cut.Width})
	joins := 0
	for _, c := range o.Cuts {
		if c.Boxing != nil {
			joins += len(c.Boxing.Joins)
		}
	}
	assert.GreaterOrEqual(t, joins, 2, "the order says where the boxing is joined")
}
