package job

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// built works out a job of one piece of furniture in leather, lining, vinyl and
// backing cloth.
func built(t *testing.T, piece, sewing string) WorkOrder {
	t.Helper()
	o, err := read(t, `{"schema": "coverwright/job/1", "name": "seat", "currency": "USD", "jurisdictions": ["united states", "united kingdom"],
		"goods": [
			{"id": "hide", "kind": "hide", "name": "hide", "material": "leather", "thickness": "1.1 mm", "price": "9 USD/sq ft", "hide_area": "50 sq ft", "stretch": "0 %"},
			{"id": "lining", "kind": "roll", "name": "lining", "material": "light woven", "thickness": "0.4 mm", "price": "9 USD/yd", "width": "54 in"},
			{"id": "vinyl", "kind": "roll", "name": "vinyl", "material": "vinyl", "thickness": "0.045 in", "price": "30 USD/yd", "width": "54 in"},
			{"id": "backing", "kind": "roll", "name": "backing", "material": "light woven", "thickness": "0.015 in", "price": "9 USD/yd", "width": "54 in"}],
		"pieces": [`+piece+`], "sewing": `+sewing+`, "quote": {"labour_rate": "50 USD/h"}}`)
	require.NoError(t, err)
	return o
}

// A welted seam of leather to lining has one thread, that of the leather, and is
// counted once.
func TestSeamHasOneThread(t *testing.T) {
	o := built(t, `{"name": "seat",
		"panels": [{"name": "top", "goods": "hide", "width": "30 in", "length": "20 in"}, {"name": "deck", "goods": "lining", "width": "30 in", "length": "20 in"}],
		"seams": [{"sew": "top.bottom", "to": "deck.top", "finish": "welted seam", "cord": "5/32 in", "welt": "hide"}],
		"fastenings": [{"fasten": ["top.left", "top.top", "top.right", "deck.left", "deck.bottom", "deck.right"], "finish": "stapled flat", "staple": "0 in"}]}`, `{}`)
	require.Len(t, o.Sewing.SetUps, 1)
	s := o.Sewing.SetUps[0]
	assert.Equal(t, thread.Thread{Fibre: thread.Nylon, Size: thread.Size92}, s.Thread)
	assert.Equal(t, thread.CutSlanted, s.Point)
	var closing []SewnRow
	for _, r := range s.Rows {
		if r.Kind == allowance.SeamRow {
			closing = append(closing, r)
		}
	}
	require.Len(t, closing, 1)
	assert.Equal(t, 4, closing[0].Layers, "1 + 2 + 1")
	assert.Equal(t, 30*unit.Inch, closing[0].Length)
	assert.Equal(t, 1, closing[0].Count)
	require.Len(t, o.Sewing.Threads, 1)
	assert.Equal(t, s.Length, o.Sewing.Threads[0].Length)
}

// A vehicle seat of two vinyl panels, the seam opened and top-stitched on both
// sides over a backing: the figures are worked by hand, in inches.
func TestTopStitchingIsCounted(t *testing.T) {
	o := built(t, `{"name": "seat", "lives": "vehicle",
		"panels": [{"name": "insert", "goods": "vinyl", "width": "22 in", "length": "18 in"}, {"name": "front", "goods": "vinyl", "width": "22 in", "length": "6 in"}],
		"seams": [{"sew": "insert.bottom", "to": "front.top", "finish": "double top-stitched seam", "row": "3/16 in", "backing": "backing"}],
		"fastenings": [{"fasten": ["insert.left", "insert.top", "insert.right", "front.left", "front.bottom", "front.right"], "finish": "pulled over", "over": "2 in", "staple": "1 in"}]}`,
		`{"size": 92, "stitch_length": "1/6 in", "top_stitch": {"stitch_length": "1/5 in"}}`)
	require.Len(t, o.Sewing.SetUps, 2)
	require.Len(t, o.Sewing.Threads, 2)
	for i, want := range []struct {
		thread string
		rows   int
		total  float64
	}{{"polyester 92", 1, 112.976}, {"polyester 138", 2, 224.02}} {
		s, u := o.Sewing.SetUps[i], o.Sewing.Threads[i]
		assert.Equal(t, want.thread, s.Thread.String())
		assert.Len(t, s.Rows, want.rows)
		for _, r := range s.Rows {
			assert.Equal(t, 28*unit.Inch, r.Length, "through the pull")
			assert.Equal(t, i == 1, r.Kind == allowance.TopRow)
		}
		assert.Equal(t, s.Thread, u.Thread)
		assert.InDelta(t, want.total, u.Consumption.Total.Inches(), 1e-4)
	}
	assert.Equal(t, thread.SetUpCount{SetUps: 2, Changes: 1, Least: 1}, o.Sewing.Changes)
	for _, u := range o.Sewing.Threads { // half each in the needle and on the bobbin
		assert.Equal(t, u.Consumption.Needle, u.Consumption.Under)
	}
	require.Len(t, o.Cuts, 3)
	assert.Equal(t, [2]Size{{28 * unit.Inch, 43 * unit.Inch / 2}, {28 * unit.Inch, 19 * unit.Inch / 2}}, [2]Size{o.Cuts[0].Cut, o.Cuts[1].Cut})
	assert.Equal(t, "backing strip of A", o.Cuts[2].Part)
	assert.Equal(t, "backing", o.Cuts[2].Goods)
	assert.Equal(t, Size{28 * unit.Inch, 5 * unit.Inch / 4}, o.Cuts[2].Cut)
	assert.True(t, slices.ContainsFunc(o.Purchases, func(p Purchase) bool { return p.Goods == "backing" }))

	own := built(t, `{"name": "seat", "panels": [{"name": "insert", "goods": "vinyl", "width": "22 in", "length": "18 in", "edges": "top-stitched seam"}]}`, `{}`)
	require.Len(t, own.Sewing.SetUps, 2, "a panel that works from its own edges brings half the row")
	assert.Equal(t, own.Sewing.SetUps[0].Length, own.Sewing.SetUps[1].Length)
	assert.Equal(t, thread.Size92, own.Sewing.SetUps[1].Thread.Size)
}

// What is closed by hand takes the same thread and no machine.
func TestSewnByHand(t *testing.T) {
	o := built(t, `{"name": "seat",
		"panels": [{"name": "top", "goods": "vinyl", "width": "30 in", "length": "20 in"}, {"name": "back", "goods": "vinyl", "width": "30 in", "length": "20 in"}],
		"seams": [{"sew": "top.bottom", "to": "back.top", "finish": "hand-closed seam"}],
		"fastenings": [{"fasten": ["top.left", "top.top", "top.right", "back.left", "back.bottom", "back.right"], "finish": "stapled flat"}]}`, `{"bobbin": "40 m"}`)
	require.Len(t, o.Sewing.SetUps, 1)
	s := o.Sewing.SetUps[0]
	assert.True(t, s.ByHand)
	assert.Equal(t, thread.SetUp{Thread: thread.Thread{Fibre: thread.Nylon, Size: thread.Size69}}, s.SetUp)
	require.Len(t, o.Sewing.Threads, 1)
	c := o.Sewing.Threads[0].Consumption
	assert.Positive(t, c.Needle)
	assert.Zero(t, c.Under)
	assert.Zero(t, c.Bobbins)
}

// A seat for a boat has polyester thread and says why; one for a vehicle has it
// too, and no fire rules for furniture; another for the house keeps both.
func TestWherePiecesLive(t *testing.T) {
	seat := func(name, lives string) string {
		return `{"name": "` + name + `", "lives": "` + lives + `", "panels": [{"name": "seat", "goods": "vinyl", "width": "20 in", "length": "20 in"}],
			"foam": [{"name": "foam", "width": "20 in", "depth": "20 in", "thickness": "2 in", "filling": {"use": "seat", "duty": "normal", "base": "board", "price": "3 USD/bd ft"}}]}`
	}
	has := func(o WorkOrder, about string) bool {
		return slices.ContainsFunc(o.Cautions, func(c caution.Caution) bool { return strings.HasPrefix(c.About+", "+c.Jurisdiction.String(), about) })
	}
	house := built(t, seat("chair", "indoors"), `{}`)
	assert.Equal(t, thread.Nylon, house.Sewing.SetUps[0].Thread.Fibre)
	assert.True(t, has(house, "fire, united kingdom"))
	assert.False(t, has(house, "vehicles"))

	boat := built(t, seat("berth", "boat"), `{}`)
	assert.Equal(t, thread.Polyester, boat.Sewing.SetUps[0].Thread.Fibre)
	require.Len(t, boat.Sewing.Fibres, 1)
	assert.Contains(t, boat.Sewing.Fibres[0].Reason, "mildew")
	assert.Equal(t, []string{"berth"}, boat.Sewing.Fibres[0].Pieces)

	car := built(t, seat("car seat", "vehicle"), `{"fibre": "nylon"}`)
	assert.True(t, car.Sewing.SetUps[0].Care.Has(thread.NylonInSun))
	assert.Equal(t, thread.Polyester, car.Sewing.Fibres[0].Usual)
	assert.True(t, car.Sewing.Fibres[0].Given)
	assert.False(t, has(car, "fire, united"), "rules for furniture")
	assert.True(t, has(car, "fire, everywhere"), "foam burns in vehicles too")
	assert.True(t, has(car, "vehicles"))

	both := built(t, seat("car seat", "vehicle")+","+seat("chair", "indoors"), `{}`)
	assert.True(t, has(both, "fire, united kingdom"))
	assert.True(t, has(both, "vehicles"))
	assert.Len(t, both.Sewing.Fibres, 2)
	assert.Len(t, both.Sewing.SetUps, 2)
}

// Every row stands in one set-up, lengths add up, and no two set-ups could be one.
func TestSetUpsHoldEveryRow(t *testing.T) {
	s, err := ReadSpec(strings.NewReader(demo(t)))
	require.NoError(t, err)
	d, err := prepare(context.Background(), s)
	require.NoError(t, err)
	rows, all := 0, unit.Length(0)
	for _, x := range d.sewing.SetUps {
		rows += len(x.Rows)
		var sum unit.Length
		for _, r := range x.Rows {
			sum += r.Length * unit.Length(r.Count)
		}
		assert.Equal(t, sum, x.Length)
		all += sum
		assert.NotEmpty(t, x.Why)
	}
	assert.Len(t, d.cut.rows, rows)
	for _, u := range d.sewing.Threads {
		all -= u.Length
		assert.Greater(t, u.Consumption.Total, 2*u.Length)
	}
	assert.Zero(t, all)
	assert.Equal(t, cite.Estimate, d.sewing.Kind)
}

func TestSewingFaults(t *testing.T) {
	refused(t, demo(t), map[string]fault{
		"no such place":       {`"name": "wing chair", "count": 2`, `"name": "wing chair", "lives": "cellar", "count": 2`, "pieces[0].lives", unit.ErrUnknown},
		"size of nothing":     {`"fibre": "nylon"`, `"size": 71`, "sewing.size", unit.ErrUnknown},
		"a stitch of a metre": {`"fibre": "nylon"`, `"stitch_length": "1 m"`, "sewing.stitch_length", unit.ErrRange},
		"top-stitches of 0.1": {`"fibre": "nylon"`, `"top_stitch": {"stitch_length": "0.1 mm"}`, "sewing.top_stitch.stitch_length", unit.ErrRange},
	})
}
