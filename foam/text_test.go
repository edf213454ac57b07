package foam_test

import (
	"encoding"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

type name interface {
	comparable
	encoding.TextMarshaler
	String() string
}

// roundTrip writes every value of an enumeration and reads it back.
func roundTrip[E name, P interface {
	*E
	encoding.TextUnmarshaler
}](t *testing.T, zero, beyond E, values ...E) {
	t.Helper()
	for _, v := range values {
		text, err := v.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, v.String(), string(text))
		var back E
		require.NoError(t, P(&back).UnmarshalText(text))
		assert.Equal(t, v, back)
	}
	text, err := zero.MarshalText()
	require.NoError(t, err)
	assert.Empty(t, text, "none")
	back := beyond
	require.NoError(t, P(&back).UnmarshalText(text))
	assert.Equal(t, zero, back)
	for _, v := range []E{beyond} {
		_, err := v.MarshalText()
		require.Error(t, err)
		assert.Contains(t, v.String(), "(")
	}
	var v E
	require.ErrorIs(t, P(&v).UnmarshalText([]byte("Sofa")), unit.ErrUnknown)
	assert.Equal(t, zero, v, "left alone")
}

func TestNames(t *testing.T) {
	roundTrip(t, 0, 99, foam.Uses()...)
	roundTrip(t, 0, 99, foam.Duties()...)
	roundTrip(t, 0, 99, foam.Bases()...)
	roundTrip(t, 0, 99, foam.AmericanTrade, foam.EuropeanBedding)
	roundTrip(t, 0, 99, foam.Keep, foam.Doubt, foam.Replace)
}

func TestForcesRoundTrip(t *testing.T) {
	i65, h := foam.IFD65(60*unit.PoundForce), foam.HardnessA(180)
	text, err := json.Marshal(map[string]any{"i": i65, "h": h})
	require.NoError(t, err)
	var back struct {
		I foam.IFD65
		H foam.HardnessA
	}
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, i65, back.I)
	assert.Equal(t, h, back.H)
	for _, v := range []encoding.TextMarshaler{foam.IFD25(math.NaN()), foam.IFD65(math.Inf(1)), foam.HardnessA(math.NaN())} {
		_, err := v.MarshalText()
		require.ErrorIs(t, err, unit.ErrNotFinite)
	}
}

// A selection goes through JSON unchanged, so that a work order can keep it.
func TestSelectionThroughJSON(t *testing.T) {
	want, err := foam.Select(foam.Request{Use: foam.Seat, Duty: foam.HeavyDuty, Base: foam.Springs, Thickness: 5 * unit.Inch, Sitter: 90 * unit.Kilogram,
		Stock: []foam.Grade{{Name: "own", Density: 40, IFD25: 150, IFD65: 360}, {Name: "flat", Density: 40, IFD25: 150, IFD65: 150}}})
	require.NoError(t, err)
	require.NotNil(t, want.Sitting)
	require.NotNil(t, want.Grades[0].Sitting)
	text, err := json.Marshal(want)
	require.NoError(t, err)
	var got foam.Selection
	require.NoError(t, json.Unmarshal(text, &got))
	assert.Equal(t, want, got)
}

// The verdict on the stock: what bottoms out does not fit, whatever its firmness.
func TestSelectRejectsBottomingOut(t *testing.T) {
	r := foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Board, Thickness: 4 * unit.Inch, Sitter: 120 * unit.Kilogram, Stock: []foam.Grade{
		{Name: "soft", Density: 30, IFD25: foam.IFD25(28 * unit.PoundForce), IFD65: foam.IFD65(45 * unit.PoundForce)},
		{Name: "firm", Density: 30, IFD25: foam.IFD25(36 * unit.PoundForce), IFD65: foam.IFD65(90 * unit.PoundForce)},
		{Name: "light", Density: 15, IFD25: foam.IFD25(33 * unit.PoundForce), IFD65: foam.IFD65(90 * unit.PoundForce)},
		{Name: "hard", Density: 30, IFD25: foam.IFD25(70 * unit.PoundForce), IFD65: foam.IFD65(190 * unit.PoundForce)},
	}}
	s, err := foam.Select(r)
	require.NoError(t, err)
	assert.Equal(t, "firm", s.Grades[0].Grade.Name)
	assert.True(t, s.Grades[0].Fits)
	reasons := map[string][]string{}
	for _, g := range s.Grades[1:] {
		assert.False(t, g.Fits, g.Grade.Name)
		for _, r := range g.Reasons {
			reasons[g.Grade.Name] = append(reasons[g.Grade.Name], r.Metric())
		}
	}
	assert.Contains(t, reasons["soft"], "bottoms out under 120 kg")
	assert.Contains(t, reasons["light"][1], "lighter than")
	assert.Contains(t, reasons["hard"][0], "firmer than")

	r.Use = foam.Back
	s, err = foam.Select(r)
	require.NoError(t, err)
	assert.Nil(t, s.Sitting, "nobody sits on a back")
}

func TestJudge(t *testing.T) {
	j, err := foam.Judge(foam.OldFoam{Crumbles: true})
	require.NoError(t, err)
	assert.Equal(t, foam.Replace, j.Verdict)
	j, err = foam.Judge(foam.OldFoam{New: 4 * unit.Inch, Now: 4 * unit.Inch, Density: 20, Use: foam.Seat, Duty: foam.HeavyDuty})
	require.NoError(t, err)
	assert.Equal(t, foam.Doubt, j.Verdict, "sound in height, light for the duty")
	require.Len(t, j.Cautions, 2)
	assert.Equal(t, "F12", j.Cautions[0].ID)
	assert.Equal(t, "H4", j.Cautions[1].ID)
}

// A firmness is read in the pounds it was said in, and written without loss.
func TestFirmnessForPeopleAndForFiles(t *testing.T) {
	i := foam.IFD25(33 * unit.PoundForce)
	assert.Equal(t, "33 lbf IFD25", i.String())
	text, err := i.MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "33 lbf IFD25", string(text))
	for _, third := range []unit.Force{100.0 / 3, unit.PoundForce / 3} {
		text, err := foam.HardnessA(third).MarshalText()
		require.NoError(t, err)
		var back foam.HardnessA
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, foam.HardnessA(third), back)
	}
}
