package job

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// tapedJob is a chair with panels and a cushion of some outlines.
func tapedJob(t *testing.T, cushion string, outlines ...string) (Spec, error) {
	t.Helper()
	var panels []string
	for i, o := range outlines {
		panels = append(panels, fmt.Sprintf(`{"name": "panel %d", "goods": "cloth", "outline": %s}`, i+1, o))
	}
	if cushion != "" {
		cushion = fmt.Sprintf(`, "cushions": [{"name": "cushion", "top": "cloth", "thickness": "4 in", "outline": %s}]`, cushion)
	}
	s, err := ReadSpec(strings.NewReader(`{"schema": "coverwright/job/1", "name": "taken by tape", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain cloth", "material": "woven", "price": "30 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "chair", "count": 2, "panels": [` + strings.Join(panels, ",") + `]` + cushion + `}],
		"quote": {"labour_rate": "60 USD/h"}}`))
	return s, err
}

const armByTape = `{"quadrilateral": {"bottom": "24 in", "right": "18 1/4 in", "top": "21 1/2 in", "left": "18 in", "diagonal": "29 1/2 in"%s}}`

func tapedOrder(t *testing.T, cushion string, outlines ...string) WorkOrder {
	t.Helper()
	s, err := tapedJob(t, cushion, outlines...)
	require.NoError(t, err)
	o, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	return o
}

// The tolerance of a measured outline goes with its cut to the bench, in words of the
// shop; what was drawn has none.
func TestToleranceOnTheOrder(t *testing.T) {
	o := tapedOrder(t, "",
		fmt.Sprintf(armByTape, `, "second_diagonal": "28 5/8 in"`),
		fmt.Sprintf(armByTape, `, "second_diagonal": "28 7/16 in"`),
		fmt.Sprintf(armByTape, ""),
		`{"rectangle": {"width": "20 in", "height": "18 in"}}`,
		`{"baseline": {"length": "24 in", "points": [{"from_start": "30 in", "from_end": "22 in"}, {"from_start": "37 in", "from_end": "44 in"}]}}`,
		`{"offsets": {"step": "1 in", "right": [`+strings.Repeat(`"9 in", `, 40)+`"9 in"]}, "tolerance": "3/16 in"}`,
	)
	require.Len(t, o.Cuts, 6)
	want, err := shape.Form{Quadrilateral: &shape.QuadrilateralForm{Bottom: 24 * unit.Inch, Right: 73 * unit.Inch / 4, Top: 43 * unit.Inch / 2, Left: 18 * unit.Inch, Diagonal: 59 * unit.Inch / 2,
		SecondDiagonal: 229 * unit.Inch / 8}}.Taped()
	require.NoError(t, err)
	assert.Equal(t, &want.Tolerance, o.Cuts[0].Tolerance)
	assert.Equal(t, []string{
		"by tape, each measure ± 1/16 in: cut size ± 3/32 in (95 of 100), never off by more than 1/8 in",
		"area ± 0.3 %", "seams ± 3/32 in, at most 1/8 in", "the second diagonal agrees within 1/32 in",
	}, o.Cuts[0].TapeNotes(pattern.Inches))
	assert.Equal(t, []string{
		"by tape, each measure ± 1.6 mm: cut size ± 1.8 mm (95 of 100), never off by more than 2.6 mm across and 2.5 mm along",
		"area ± 0.3 %",
		"seams bottom ± 1.8 mm, at most 2.6 mm; right, left ± 1.8 mm, at most 2.5 mm; top ± 1.7 mm, at most 2.7 mm", "the second diagonal agrees within 0.4 mm",
	}, o.Cuts[0].TapeNotes(pattern.Metric))
	last := func(i int) string {
		notes := o.Cuts[i].TapeNotes(pattern.Inches)
		return notes[len(notes)-1]
	}
	assert.Equal(t, "the second diagonal is off by 3/16 in, which is doubtful: measure all again", last(1))
	assert.Equal(t, "no second diagonal was taken, so that nothing checks the others: it should be 28 5/8 in ± 5/32 in", last(2))
	assert.Empty(t, o.Cuts[3].TapeNotes(pattern.Inches))
	assert.Nil(t, o.Cuts[3].Tolerance)
	assert.Equal(t, "at point 2 the tapes meet under 33 degrees, where they tell little: use a longer baseline", last(4))
	assert.Equal(t, "the wobble of the points makes right some 15/32 in too long: tape the seam itself", last(5))
}

// Both plates of a cushion are as good as the outline they are made to; its boxing
// has no tolerance of its own.
func TestToleranceOfPlates(t *testing.T) {
	o := tapedOrder(t, fmt.Sprintf(armByTape, `, "second_diagonal": "28 5/8 in"`))
	var with []string
	for _, c := range o.Cuts {
		if c.Tolerance != nil {
			with = append(with, c.Part)
		}
	}
	assert.Equal(t, []string{"cushion, top plate", "cushion, bottom plate"}, with)
}

// Faults of measures are told at their field of the file, once.
func TestFaultsOfMeasures(t *testing.T) {
	for outline, field := range map[string]unit.Path{
		fmt.Sprintf(armByTape, `, "second_diagonal": "28 1/4 in"`):                                                         "quadrilateral.second_diagonal",
		`{"quadrilateral": {"bottom": "24 in", "right": "9 in", "top": "9 in", "left": "24 in", "diagonal": "33 1/2 in"}}`: "quadrilateral.diagonal",
		`{"circle": {"diameter": "9 in"}, "tolerance": "1/8 in"}`:                                                          "tolerance",
		`{"crowned": {"width": "9 in", "height": "9 in", "rise": "1 in"}, "tolerance": "9 in"}`:                            "tolerance",
		`{"offsets": {"step": "1/8 in", "right": ["9 in", "9 in"]}}`:                                                       "offsets.step",
		`{"baseline": {"length": "24 in", "points": [{"from_start": "3 in", "from_end": "2 in"}]}}`:                        "baseline.length",
	} {
		for _, place := range []string{"panels", "cushions"} {
			var s Spec
			var err error
			if place == "panels" {
				s, err = tapedJob(t, "", outline)
			} else {
				s, err = tapedJob(t, outline)
			}
			require.NoError(t, err)
			_, err = Build(context.Background(), s, quick)
			var faults Faults
			require.ErrorAs(t, err, &faults, outline)
			require.Len(t, faults, 1, outline)
			var in *unit.InputError
			require.ErrorAs(t, faults[0], &in)
			assert.Equal(t, unit.Path("pieces[0]."+place+"[0].outline").Dot(field), in.Field)
		}
	}
}

// What is told of a measured cut, at the borders of what is told: an area to the tenth of
// a per cent, rounded up, a bias of more than 1/32 in, tapes that meet under less than 40
// or more than 140 degrees.
func TestTapeNotesAtTheirBorders(t *testing.T) {
	t.Parallel()
	notes := func(change func(*shape.Tolerance)) []string {
		x := shape.Tolerance{Measure: unit.Inch / 16, Area: shape.TapedArea{Size: 1000 * unit.SquareInch, Sigma: 5 * unit.SquareInch, Worst: 100 * unit.SquareInch},
			Edges:  []shape.TapedEdge{{Name: "top", Length: shape.TapedLength{Size: 20 * unit.Inch, Sigma: unit.Inch / 16, Worst: unit.Inch / 4, Bias: unit.Inch / 32}}},
			Angles: []unit.Angle{40 * unit.Degree, 140 * unit.Degree}}
		change(&x)
		return Cut{Tolerance: &x}.TapeNotes(pattern.Inches)[1:]
	}
	assert.Equal(t, []string{"area ± 1.0 %", "seams ± 1/8 in, at most 1/4 in"}, notes(func(*shape.Tolerance) {}))
	assert.Equal(t, "area ± 1.1 %", notes(func(x *shape.Tolerance) { x.Area.Sigma += unit.SquareInch / 100 })[0])
	assert.Equal(t, "the wobble of the points makes top some 1/16 in too long: tape the seam itself", notes(func(x *shape.Tolerance) { x.Edges[0].Length.Bias++ })[2])
	for _, off := range []unit.Angle{39.9 * unit.Degree, 140.1 * unit.Degree} {
		assert.Len(t, notes(func(x *shape.Tolerance) { x.Angles[0] = off }), 3)
	}
}
