package foam_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// Every use, duty, base and thickness has an answer with figures and reasons.
func TestSelectAnswersEveryCase(t *testing.T) {
	for _, use := range foam.Uses() {
		for _, duty := range foam.Duties() {
			for _, base := range foam.Bases() {
				for _, half := range []int{1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 24} {
					r := foam.Request{Use: use, Duty: duty, Base: base, Thickness: unit.Length(half) * unit.Inch / 2}
					s, err := foam.Select(r)
					name := fmt.Sprintf("%v %v %v %v", use, duty, base, r.Thickness)
					require.NoError(t, err, name)
					assert.NotEmpty(t, s.IFDFigures, name)
					assert.NotEmpty(t, s.Reasons, name)
					assert.LessOrEqual(t, s.IFD.Low, s.IFD.High, name)
					assert.True(t, s.IFD.Has(s.Target), name)
					assert.True(t, s.Delivered.Range.Has(s.Target), name)
					assert.Less(t, s.Density.Low, s.Density.High, name)
					assert.Len(t, s.Grades, len(foam.ExampleGrades()), name)
					for i := 1; i < len(s.Grades); i++ {
						assert.False(t, s.Grades[i].Fits && !s.Grades[i-1].Fits, name)
					}
					_, err = json.Marshal(s)
					require.NoError(t, err, name)
				}
			}
		}
	}
}

func TestSelectShowsDisagreement(t *testing.T) {
	s, err := foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 6 * unit.Inch})
	require.NoError(t, err)
	require.NotNil(t, s.Shared)
	assert.InDelta(t, 30, s.Shared.Low.PoundsForce(), 1e-9)
	assert.Len(t, s.IFDFigures, 5)
	assert.Contains(t, s.Disagreements[0].String(), "25 lbf to 40 lbf")

	s, err = foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch})
	require.NoError(t, err)
	assert.Nil(t, s.Shared, "34 lbf and 25 to 30 lbf exclude each other")
	assert.Contains(t, s.Disagreements[0].String(), "no value in common")
}

func TestSelectRefuses(t *testing.T) {
	good := foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch}
	for _, c := range []struct {
		name, field string
		change      func(*foam.Request)
		want        error
	}{
		{"no use", "use", func(r *foam.Request) { r.Use = 0 }, unit.ErrRequired},
		{"no duty", "duty", func(r *foam.Request) { r.Duty = 0 }, unit.ErrRequired},
		{"no base", "base", func(r *foam.Request) { r.Base = 0 }, unit.ErrRequired},
		{"unknown use", "use", func(r *foam.Request) { r.Use = 99 }, unit.ErrUnknown},
		{"bare number", "thickness", func(r *foam.Request) { r.Thickness = 4 }, unit.ErrForgottenUnit},
		{"too thin", "thickness", func(r *foam.Request) { r.Thickness = unit.Inch / 4 }, unit.ErrRange},
		{"sitter", "sitter", func(r *foam.Request) { r.Sitter = 2 * unit.Kilogram }, unit.ErrRange},
		{"impossible IFD", "stock[0].ifd65", func(r *foam.Request) {
			r.Stock = []foam.Grade{{Density: 30, IFD25: 130, IFD65: 120}}
		}, foam.ErrImpossibleIFD},
		{"nothing to match", "wanted.ifd25", func(r *foam.Request) { r.Wanted.Range.High = 10 }, unit.ErrRange},
		{"match outside its range", "wanted.range.low", func(r *foam.Request) { r.Wanted = foam.Wanted{100, foam.Range[foam.IFD25]{110, 120}} }, unit.ErrRange},
		{"match above its range", "wanted.range.high", func(r *foam.Request) { r.Wanted = foam.Wanted{100, foam.Range[foam.IFD25]{90, 95}} }, unit.ErrRange},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := good
			c.change(&r)
			_, err := foam.Select(r)
			require.ErrorIs(t, err, c.want)
			var in *unit.InputError
			require.True(t, errors.As(err, &in))
			assert.Equal(t, c.field, string(in.Field))
		})
	}
}

func TestIFDTextKeepsTheTest(t *testing.T) {
	i := foam.IFD25(30 * unit.PoundForce)
	text, err := json.Marshal(i)
	require.NoError(t, err)
	var back foam.IFD25
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, i, back)
	require.NoError(t, json.Unmarshal([]byte(`"30 lbf"`), &back))
	assert.Equal(t, i, back)

	var h foam.HardnessA
	err = json.Unmarshal(text, &h)
	require.ErrorIs(t, err, foam.ErrOtherTest)
	var i65 foam.IFD65
	require.ErrorIs(t, json.Unmarshal(text, &i65), foam.ErrOtherTest)
	require.ErrorIs(t, json.Unmarshal([]byte(`"180 N ISO-A40"`), &back), foam.ErrOtherTest)
}
