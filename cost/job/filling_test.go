package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// filledJob reads a job of one piece of furniture with the given lists.
func filledJob(t *testing.T, piece string) (job.WorkOrder, error) {
	t.Helper()
	s, err := job.ReadSpec(strings.NewReader(`{"schema": "coverwright/job/1", "name": "filled", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "wool tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "chair", ` + piece + `}], "quote": {"labour_rate": "60.00 USD/h"}}`))
	require.NoError(t, err)
	return job.Build(t.Context(), s, job.Options{Effort: 0.001})
}

// Nobody sits on a headrest or an arm: a sitter there is a fault.
func TestNoSitterWhereNobodySits(t *testing.T) {
	for use, carries := range map[string]bool{"headrest": false, "arm": false, "back": false, "seat": true, "berth": true} {
		o, err := filledJob(t, `"foam": [{"name": "pad", "width": "12 in", "depth": "8 in", "thickness": "3 in",
			"filling": {"use": "`+use+`", "duty": "normal", "base": "board", "sitter": "90 kg", "price": "3.40 USD/bd ft"}}]`)
		if carries {
			require.NoError(t, err, use)
			assert.NotNil(t, o.Foam[0].Selection.Sitting, use)
			continue
		}
		var found job.Faults
		require.ErrorAs(t, err, &found, use)
		assert.ErrorIs(t, err, job.ErrMisplaced, use)
		assert.ErrorContains(t, err, "pieces[0].foam[0].filling.sitter")
	}
}

const price = `"use": "seat", "duty": "heavy", "base": "board", "price": "3.40 USD/bd ft"`

// cushion gives the foam of a job with one boxed cushion 22 x 22 x 4 in.
func cushion(t *testing.T, more, filling string) ([]job.FoamBlock, error) {
	t.Helper()
	o, err := filledJob(t, `"cushions": [{"name": "seat", "width": "22 in", "depth": "22 in", "thickness": "4 in", "top": "cloth", `+more+`
		"foam": {`+price+filling+`}}]`)
	return o.Foam, err
}

// One take-up: B - C = k for bare foam, and none where a wrap takes up (cover.md 6).
// A wrap under 1/2 in counts as bare.
func TestOneTakeUp(t *testing.T) {
	for name, c := range map[string]struct {
		more, filling string
		k             unit.Length
		fault         string
	}{
		"bare":          {"", "", unit.Inch / 2, ""},
		"firm":          {`"fit": "firm fit",`, "", unit.Inch / 4, ""},
		"given":         {`"take_up": "1 in",`, "", unit.Inch, ""},
		"wrapped":       {"", `, "wrap": {"loft": "3/4 in"}`, 0, ""},
		"two thin":      {"", `, "wrap": {"loft": "1/4 in", "layers": 2}`, 0, ""},
		"thin":          {"", `, "wrap": {"loft": "3/8 in"}`, unit.Inch / 2, ""},
		"thin, wrapped": {`"fit": "wrapped fit",`, `, "wrap": {"loft": "3/8 in"}`, 0, "pieces[0].cushions[0].fit"},
		"twice":         {`"take_up": "1/2 in",`, `, "wrap": {"loft": "1 in"}`, 0, "pieces[0].cushions[0].take_up"},
		"firm, wrapped": {`"fit": "firm fit",`, `, "wrap": {"loft": "1 in"}`, 0, "pieces[0].cushions[0].fit"},
	} {
		got, err := cushion(t, c.more, c.filling)
		if c.fault != "" {
			require.ErrorIs(t, err, job.ErrMisplaced, name)
			require.ErrorContains(t, err, c.fault, name)
			continue
		}
		require.NoError(t, err, name)
		b := got[0]
		assert.Equal(t, c.k, b.TakeUp, name)
		assert.Equal(t, foam.Block{Length: 22 * unit.Inch, Width: 22 * unit.Inch, Thickness: 4 * unit.Inch}, b.Finished, name)
		assert.Equal(t, foam.Block{Length: 22*unit.Inch + c.k, Width: 22*unit.Inch + c.k, Thickness: 4 * unit.Inch}, b.Cut, name)
	}
}

// Foam is cut to the outline of its cover; the box is paid unless the job says that
// the outline is. A T of 22 x 22 in, ears 3 in wide and 5 in deep, larger by 1/2 in
// all round: 22 1/2 squared less two corners of 3 by 17 in, by hand.
func TestFoamHasTheOutlineOfItsCover(t *testing.T) {
	ears := `"left_ear": "3 in", "right_ear": "3 in", "ear_depth": "5 in",`
	for by, priced := range map[string]float64{"box": 22.5 * 22.5 * 4, "outline": (22.5*22.5 - 2*3*17) * 4} {
		got, err := cushion(t, ears, `, "priced_by": "`+by+`"`)
		require.NoError(t, err)
		b := got[0]
		assert.Equal(t, job.FoamOutline, b.Form)
		assert.InDelta(t, 22.5*22.5-2*3*17, b.Outline.Area().SquareInches(), 0.01)
		assert.InDelta(t, (22.5*22.5-2*3*17)*4, b.Shaped.CubicInches(), 0.05)
		assert.InDelta(t, priced, b.Volume.CubicInches(), 0.05)
	}
	o, err := filledJob(t, `"foam": [{"name": "L", "thickness": "3 in", "filling": {`+price+`}, "outline": {"path": {"data": "M0 0 L30 0 L30 10 L10 10 L10 25 L0 25 Z", "unit": "1 in"}}},
		{"name": "wedge", "width": "20 in", "depth": "18 in", "thickness": "5 in", "back_thickness": "3 in", "filling": {`+price+`}}]`)
	require.NoError(t, err)
	assert.Equal(t, []job.FoamForm{job.FoamOutline, job.FoamWedge}, []job.FoamForm{o.Foam[0].Form, o.Foam[1].Form})
	assert.InDelta(t, (300+150)*3, o.Foam[0].Shaped.CubicInches(), 0.01)
	assert.InDelta(t, 20*18*4, o.Foam[1].Shaped.CubicInches(), 0.01)
	assert.InDelta(t, 20*18*5, o.Foam[1].Volume.CubicInches(), 0.01)
}

// A firm core under a soft top: a block and a line for each, and one sitter on all.
func TestLayers(t *testing.T) {
	layers := func(top string) string {
		return `, "sitter": "90 kg", "layers": [{"name": "soft top", "thickness": "` + top + `", "use": "back"},
			{"name": "firm core", "thickness": "3 in", "wanted_firmness": {"ifd25": "45 lbf"}, "price": "4.00 USD/bd ft"}]`
	}
	got, err := cushion(t, "", layers("1 in"))
	require.NoError(t, err)
	require.Len(t, got, 2)
	top, core := got[0], got[1]
	assert.Equal(t, []string{"seat, soft top", "seat, firm core"}, []string{top.Name(), core.Name()})
	assert.Less(t, top.Selection.Target, core.Selection.Target)
	assert.InDelta(t, 45, core.Selection.Target.PoundsForce(), 1e-9)
	assert.Equal(t, top.Selection.Density, core.Selection.Density, "as dense as the seat needs")
	assert.InDelta(t, 22.5*22.5*1, top.Volume.CubicInches(), 0.01)
	assert.InDelta(t, 22.5*22.5*3, core.Volume.CubicInches(), 0.01)
	require.NotNil(t, top.Stack)
	assert.Len(t, top.Stack.Pressed.Layers, 2)
	assert.Nil(t, top.Selection.Sitting)
	assert.Nil(t, core.Sitting())
	_, err = cushion(t, "", layers("2 in"))
	require.ErrorIs(t, err, unit.ErrRange)
	require.ErrorContains(t, err, "pieces[0].cushions[0].foam.layers: “5 in”")
}

// A bolster 20 in long and 6 in thick is filled by a cylinder, or by a sheet 1 in
// thick rolled up: as long as π/4 · 36 in, by hand 28.27.
func TestBolsterFilling(t *testing.T) {
	bolster := func(filling string) []job.FoamBlock {
		o, err := filledJob(t, `"cushions": [{"name": "roll", "kind": "bolster", "width": "20 in", "depth": "6 in", "top": "cloth", "fit": "neutral fit",
			"foam": {"use": "headrest", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"`+filling+`}}]`)
		require.NoError(t, err)
		return o.Foam
	}
	b := bolster("")[0]
	assert.Equal(t, job.FoamCylinder, b.Form)
	assert.InDelta(t, 20*28.2743, b.Shaped.CubicInches(), 0.01)
	assert.InDelta(t, 20*36, b.Volume.CubicInches(), 0.01)
	b = bolster(`, "rolled": "1 in", "wrap": {"loft": "1 in", "sides": true}`)[0]
	assert.Equal(t, job.FoamRolled, b.Form)
	assert.Equal(t, []unit.Length{20 * unit.Inch, unit.Inch}, []unit.Length{b.Cut.Length, b.Cut.Thickness})
	assert.InDelta(t, 28.2743, b.Cut.Width.Inches(), 1e-3)
	assert.InDelta(t, 20*28.2743, b.Volume.CubicInches(), 0.01)
	assert.Equal(t, 2, b.Wrap.Sides)
	assert.True(t, b.Wrap.Round)
}

// A block 22 x 22 x 4 in takes a sheet 27 in by 49 in, by hand: length and
// thickness and an inch, twice the depth and the thickness and an inch. Three
// rows across a roll 54 in wide are shorter than two rows along it. Crown pieces are of two thirds of the face.
func TestBatting(t *testing.T) {
	o, err := filledJob(t, `"count": 3, "cushions": [{"name": "seat", "width": "22 in", "depth": "22 in", "thickness": "4 in", "top": "cloth",
		"foam": {`+price+`, "crowns": 2, "wrap": {"loft": "3/4 in", "width": "54 in", "price": "5.00 USD/yd"}}}]`)
	require.NoError(t, err)
	w := o.Foam[0].Wrap
	require.NotNil(t, w)
	assert.Equal(t, []unit.Length{27 * unit.Inch, 49 * unit.Inch}, []unit.Length{w.Cut.Length, w.Cut.Around})
	assert.Equal(t, 3, w.Sheets)
	assert.InDelta(t, 3*27*49, w.Area.SquareInches(), 1e-6)
	assert.Equal(t, 3*27*unit.Inch, w.Length, "three rows across the roll are shorter than two of two along it")
	require.Len(t, o.Foam, 2)
	crown := o.Foam[1]
	assert.Equal(t, job.FoamCrown, crown.Form)
	assert.Equal(t, 6, crown.Count)
	assert.InDelta(t, 22*2./3, crown.Cut.Length.Inches(), 1e-4)
	var lines []string
	for _, l := range o.Quote.Lines {
		lines = append(lines, l.What+" "+l.Amount.Amount())
	}
	assert.Contains(t, lines, "batting, chair: seat 11.25", "2 1/4 yd at 5.00")
	_, err = cushion(t, "", `, "wrap": {"loft": "1 in", "width": "20 in"}`)
	require.ErrorContains(t, err, "foam.wrap.width")
	_, err = cushion(t, "", `, "wrap": {"loft": "1 in", "price": "5.00 USD/yd"}`)
	require.ErrorContains(t, err, "foam.wrap.price")
	_, err = cushion(t, "", `, "crowns": 1`)
	require.ErrorIs(t, err, job.ErrMisplaced)
}

// The old foam pressed at the bench leads to the grade to ask for: that which
// foam.IdentifyIFD25 reads.
func TestPressedFoamIsMatched(t *testing.T) {
	press := `, "wanted_firmness": {"press": {"disc": "8 in", "weight": "33 lb", "sink": "1 in", "thickness": "4 in"}}`
	got, err := cushion(t, "", press)
	require.NoError(t, err)
	read, err := foam.IdentifyIFD25(foam.BenchTest{Disc: 8 * unit.Inch, Weight: 33 * unit.Pound, Sink: unit.Inch, Thickness: 4 * unit.Inch})
	require.NoError(t, err)
	assert.Equal(t, read.Value, got[0].Selection.Target)
	assert.Equal(t, &read, got[0].Pressed)
	assert.Equal(t, foam.Range[foam.IFD25]{Low: read.Low, High: read.High}, got[0].Selection.Accepted.Range)
	for field, c := range map[string]string{
		"wanted_firmness.ifd25":      `{}`,
		"wanted_firmness.press":      `{"ifd25": "33 lbf", "press": {"disc": "8 in", "weight": "33 lb", "sink": "1 in", "thickness": "4 in"}}`,
		"wanted_firmness.press.sink": `{"press": {"disc": "8 in", "weight": "33 lb", "sink": "4 in", "thickness": "4 in"}}`,
		"wanted_firmness":            `{"ifd25": "1 lbf"}`,
	} {
		_, err := cushion(t, "", `, "wanted_firmness": `+c)
		require.ErrorContains(t, err, "pieces[0].cushions[0].foam."+field+":", field)
	}
}

// With the size of the filling given, a wrap leaves the cover as large as that.
func TestWrappedFillingGiven(t *testing.T) {
	for filling, want := range map[string]unit.Length{"": 21*unit.Inch + unit.Inch/2, `, "wrap": {"loft": "3/4 in"}`: 22 * unit.Inch} {
		o, err := filledJob(t, `"cushions": [{"name": "seat", "width": "22 in", "depth": "22 in", "thickness": "4 in", "top": "cloth", "filling_given": true,
			"foam": {`+price+filling+`}}]`)
		require.NoError(t, err)
		assert.Equal(t, want, o.Cuts[0].Finished.Width, o.Cuts[0].Part)
		assert.Equal(t, 22*unit.Inch, o.Foam[0].Cut.Length)
		assert.Equal(t, want, o.Foam[0].Finished.Length)
	}
}

// B - C = k and C = F for every kind of cushion and every fit.
func TestTakeUpOfEveryKind(t *testing.T) {
	sizes := map[string]string{
		"boxed": `"width": "22 in", "depth": "20 in", "thickness": "4 in"`, "waterfall": `"width": "22 in", "depth": "20 in", "thickness": "4 in", "round_front": true`,
		"round": `"width": "20 in", "thickness": "4 in"`, "bolster": `"width": "22 in", "depth": "8 in"`,
	}
	forms := map[string]job.FoamForm{"boxed": job.FoamBox, "waterfall": job.FoamRoundFront, "round": job.FoamOutline, "bolster": job.FoamCylinder}
	for kind, size := range sizes {
		for fit, k := range map[string]unit.Length{"snug fit": unit.Inch / 2, "firm fit": unit.Inch / 4, "wrapped fit": 0, "neutral fit": 0} {
			o, err := filledJob(t, `"cushions": [{"name": "c", "kind": "`+kind+`", `+size+`, "top": "cloth", "fit": "`+fit+`", "foam": {`+price+`}}]`)
			require.NoError(t, err, kind)
			b := o.Foam[0]
			assert.Equal(t, forms[kind], b.Form)
			assert.Equal(t, k, b.TakeUp, kind)
			assert.InDelta(t, float64(k), float64(b.Cut.Length-b.Finished.Length), 2e3, kind)
			assert.InDelta(t, float64(k), float64(b.Cut.Width-b.Finished.Width), 2e3, kind)
			assert.InDelta(t, float64(o.Cuts[0].Finished.Width), float64(b.Finished.Length), 2e3, kind)
			assert.Less(t, b.Shaped, b.Volume+1, kind)
		}
	}
}

// Blocks of one foam share whole sheets: four of 19 x 23 in lie on one sheet 24 x
// 80 in three at a time, by hand, so two are bought and paid.
func TestFoamFromWholeSheets(t *testing.T) {
	block := func(name, count, more string) string {
		return `{"name": "` + name + `", "count": ` + count + `, "width": "23 in", "depth": "19 in", "thickness": "3 in", "filling": {` + price + more + `}}`
	}
	stock := `, "sheet": {"length": "80 in", "width": "24 in"}`
	o, err := filledJob(t, `"foam": [`+block("seat", "2", stock)+`, `+block("back", "3", stock)+`, `+block("odd", "1", "")+`]`)
	require.NoError(t, err)
	require.Len(t, o.Sheets, 1)
	x := o.Sheets[0]
	assert.Equal(t, []int{0, 1}, x.Blocks)
	assert.Equal(t, 2, x.Order.Count)
	assert.Equal(t, 2, x.Order.Bound)
	assert.Equal(t, 2*40*unit.BoardFoot, x.Volume)
	assert.Equal(t, job.BySheet, o.Foam[0].PricedBy)
	var lines []string
	for _, l := range o.Quote.Lines {
		lines = append(lines, l.What+": "+l.Cost.Amount())
	}
	assert.Equal(t, []string{"foam, chair: odd: 30.95", "foam, 2 × 80 in x 24 in x 3 in, for chair: seat and chair: back: 272.00"}, lines)
	for more, fault := range map[string]string{
		`, "sheet": {"length": "20 in", "width": "20 in"}`:                         "pieces[0].foam[0].filling.sheet:",
		`, "priced_by": "sheet"`:                                                   "pieces[0].foam[0].filling.sheet:",
		`, "priced_by": "outline", "sheet": {"length": "80 in", "width": "24 in"}`: "pieces[0].foam[0].filling.sheet:",
	} {
		_, err := filledJob(t, `"foam": [`+block("seat", "2", more)+`]`)
		require.ErrorContains(t, err, fault)
	}
}

// A cushion of 24 in at the front and 14 at the back, 12 deep, has sides of 13 in that
// fall off by 5. Its core lies 1/4 in outside of it, square to them: at the front it
// reaches out by 1/4 × 13/12 + 1/4 × 5/12 = 3/8 in on each hand.
func TestCoreOfASlantingCushion(t *testing.T) {
	o, err := filledJob(t, `"cushions": [{"name": "c", "outline": {"trapezoid": {"bottom": "24 in", "top": "14 in", "height": "12 in"}}, "thickness": "3 in", "top": "cloth", "foam": {`+price+`}}]`)
	require.NoError(t, err)
	b := o.Foam[0]
	assert.Equal(t, foam.Block{Length: 24 * unit.Inch, Width: 12 * unit.Inch, Thickness: 3 * unit.Inch}, b.Finished)
	assert.InDelta(t, 24.75, float64(b.Cut.Length)/float64(unit.Inch), 1e-4)
	assert.InDelta(t, 12.5, float64(b.Cut.Width)/float64(unit.Inch), 1e-4)
	assert.True(t, b.Slanting())
	o, err = filledJob(t, `"cushions": [{"name": "c", "width": "24 in", "depth": "12 in", "left_ear": "3 in", "ear_depth": "4 in", "thickness": "3 in", "top": "cloth", "foam": {`+price+`}}]`)
	require.NoError(t, err)
	assert.Equal(t, job.FoamOutline, o.Foam[0].Form)
	assert.False(t, o.Foam[0].Slanting())
}
