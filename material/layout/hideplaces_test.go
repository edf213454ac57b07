package layout

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// The two points of a piece lie on its outline on the hide, they and the hand alone give
// its place and its turn again, and the turn is the angle told.
func TestHidePlacesGiveTheLayout(t *testing.T) { few.Check(t, 10, hidePlacesGiveTheLayout) }

func hidePlacesGiveTheLayout(t *rapid.T) {
	plan, _, ok := someHidePlan(t, 5)
	if !ok {
		return
	}
	for _, k := range plan.Used {
		rows, err := plan.HidePlaces(k)
		require.NoError(t, err)
		require.Len(t, rows, len(plan.On(k)))
		datum, err := plan.HideDatum(k)
		require.NoError(t, err)
		for _, r := range rows {
			q := placeOf(plan, r)
			assert.Equal(t, q.Mirrored, r.Mirrored)
			assertMeasured(t, plan.Tolerance, datum, q, r)
		}
	}
}

func placeOf(p Plan, r HidePlace) Place {
	for _, q := range p.Places {
		if q.Piece == r.Piece && q.Copy == r.Copy {
			return q
		}
	}
	return Place{}
}

// assertMeasured works a place out again with what a tape finds.
func assertMeasured(t require.TestingT, tol unit.Length, datum HideDatum, q Place, r HidePlace) {
	const slack = 3e-6 // mm: nanometres, rounded
	var of, on [2][2]float64
	for i, z := range r.Points {
		of[i] = [2]float64{z.Of.X.Millimetres(), z.Of.Y.Millimetres()}
		if r.Mirrored {
			of[i][0] = -of[i][0]
		}
		across := z.Across.Millimetres()
		if z.Left {
			across = -across
		}
		on[i] = [2]float64{datum.Line.Millimetres() + across, datum.Tail.Millimetres() + z.FromTail.Millimetres()}
		assert.InDelta(t, 0, offPolygon(q.Outline, on[i][0], on[i][1]), tol.Millimetres()+0.2, "on the outline of the place")
		assert.GreaterOrEqual(t, z.Across, unit.Length(0))
	}
	assert.InDelta(t, math.Hypot(of[1][0]-of[0][0], of[1][1]-of[0][1]), math.Hypot(on[1][0]-on[0][0], on[1][1]-on[0][1]), slack)
	turn := math.Atan2(on[1][1]-on[0][1], on[1][0]-on[0][0]) - math.Atan2(of[1][1]-of[0][1], of[1][0]-of[0][0])
	assert.InDelta(t, 0, math.Remainder(turn*180/math.Pi-float64(r.Top), 360), 1e-4, "the turn is the angle of the top")
	assert.InDelta(t, 0, math.Remainder(float64(q.Turned)-float64(r.Top), 360), 1e-9)
	assert.True(t, r.Top >= 0 && r.Top < 360, "%v", r.Top)
	sin, cos := math.Sincos(turn)
	assert.InDelta(t, q.X.Millimetres(), on[0][0]-of[0][0]*cos+of[0][1]*sin, 0.01)
	assert.InDelta(t, q.Y.Millimetres(), on[0][1]-of[0][0]*sin-of[0][1]*cos, 0.01)
}

// offPolygon is how far a point is from the border of a polygon, in millimetres.
func offPolygon(p []shape.Point, x, y float64) float64 {
	least := math.Inf(1)
	for i, a := range p {
		b := p[(i+1)%len(p)]
		ax, ay := a.X.Millimetres(), a.Y.Millimetres()
		dx, dy := b.X.Millimetres()-ax, b.Y.Millimetres()-ay
		f := math.Max(0, math.Min(1, ((x-ax)*dx+(y-ay)*dy)/math.Max(dx*dx+dy*dy, 1e-12)))
		least = math.Min(least, math.Hypot(x-ax-f*dx, y-ay-f*dy))
	}
	return least
}

// A backbone is told of only where the hide says where it runs; without one places are
// measured from the left edge, and a hide that was not traced says so.
func TestHideDatum(t *testing.T) {
	traced, mid := boxAt(t, 10, 20, 80, 90), 50*in
	for name, c := range map[string]struct {
		skin material.Skin
		want HideDatum
		spot HideSpot
	}{
		"backbone": {material.Skin{Outline: traced, Backbone: &mid}, HideDatum{true, true, 50 * in, 20 * in}, HideSpot{inches(30, 40), 20 * in, true, 20 * in}},
		"traced":   {material.Skin{Outline: traced}, HideDatum{false, true, 10 * in, 20 * in}, HideSpot{inches(30, 40), 20 * in, false, 20 * in}},
		"by area":  {material.Skin{Kind: material.WholeHide, Area: 50 * unit.SquareFoot}, HideDatum{}, HideSpot{inches(30, 40), 30 * in, false, 40 * in}},
	} {
		d, err := Plan{Hides: []material.Skin{c.skin}}.HideDatum(0)
		require.NoError(t, err, name)
		assert.Equal(t, c.want, d, name)
		assert.Equal(t, c.spot, d.Spot(inches(30, 40)), name)
	}
	for _, k := range []int{-1, 1} {
		p := Plan{Hides: []material.Skin{{Outline: traced}}}
		_, err := p.HideDatum(k)
		require.ErrorIs(t, err, unit.ErrRange)
		_, err = p.HidePlaces(k)
		require.ErrorIs(t, err, unit.ErrRange)
		_, err = p.HideMarks(k)
		require.ErrorIs(t, err, unit.ErrRange)
	}
	for name, bad := range map[string]Plan{
		"no such piece": {Hides: []material.Skin{{Outline: traced}}, Places: []Place{{Piece: 3}}},
		"no outline":    {Job: Job{Pieces: []Piece{{}}}, Hides: []material.Skin{{Outline: traced}}, Places: []Place{{}}},
	} {
		_, err := bad.HidePlaces(0)
		require.ErrorIs(t, err, unit.ErrRequired, name)
	}
	_, err := Plan{Hides: make([]material.Skin, 1)}.HidePlaces(0)
	require.ErrorIs(t, err, unit.ErrUnknown, "no outline and no kind")
}

// A mark under a piece names it; one beside it does not.
func TestHideMarks(t *testing.T) {
	skin := material.Skin{ID: "A", Outline: boxAt(t, 0, 0, 80, 90),
		Defects: []material.Defect{{Kind: material.Vein, At: inches(10, 10), Across: 2 * in, Note: "faint"}, {Kind: material.Brand, At: inches(70, 80), Across: 4 * in}},
		Zones:   []material.QualityZone{{Name: "belly", Grade: material.FairGrade, Outline: boxAt(t, 0, 0, 30, 30)}}}
	plan := onHides(t, []material.Skin{skin}, []Piece{{Name: "seat", Outline: boxAt(t, 0, 0, 79, 70), Count: 1, Worst: material.FaintMark, Least: material.FairGrade}}, quick)
	marks, err := plan.HideMarks(0)
	require.NoError(t, err)
	require.Len(t, marks, 3)
	for i, want := range []HideMark{
		{Letter: "a", Kind: material.Vein, Severity: material.FaintMark, Note: "faint", Middle: HideSpot{inches(10, 10), 10 * in, false, 10 * in}, Over: []Copy{{0, 0}}},
		{Letter: "b", Kind: material.Brand, Severity: material.DeepMark, Middle: HideSpot{inches(70, 80), 70 * in, false, 80 * in}},
		{Letter: "c", Zone: true, Name: "belly", Grade: material.FairGrade, Middle: HideSpot{inches(15, 15), 15 * in, false, 15 * in}, Over: []Copy{{0, 0}}},
	} {
		assert.Equal(t, want, marks[i])
	}
	drawn, err := plan.Draw(Picture{Labels: []Label{{"7", "seat"}}})
	require.NoError(t, err)
	texts, _ := readDrawing(t, drawn[0].SVG)
	words := ""
	for _, x := range texts {
		words += x.words + " "
	}
	assert.Contains(t, words, "a  vein (faint mark), its middle 10 in from the left edge, 10 in from the tail end: faint. It lies under 7 (seat), which allows faint marks.")
	assert.Contains(t, words, "b  brand (deep mark), its middle 70 in from the left edge, 80 in from the tail end. ")
	assert.Contains(t, words, "c  belly, zone of fair leather, its middle 15 in from the left edge, 15 in from the tail end. It lies under 7 (seat), which allows fair leather.")
	assert.NotContains(t, words, "plain mark", "no severity that does not occur")
	assert.Equal(t, []string{"a", "z", "aa", "ab", "zz", "aaa"}, []string{lettersOf(0), lettersOf(25), lettersOf(26), lettersOf(27), lettersOf(701), lettersOf(702)})
}
