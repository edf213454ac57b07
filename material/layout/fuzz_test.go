package layout

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Outlines of any kind, degenerate and crossing themselves, give a plan that
// verifies or an error that names its field.
func FuzzNestOutlines(f *testing.F) {
	f.Fuzz(func(t *testing.T, path string, angle uint16, form uint8) {
		if len(path) > 400 {
			return
		}
		o, err := shape.Path(path, unit.Millimetre)
		if err != nil {
			require.True(t, typed(err), "%v", err)
			return
		}
		w, h := o.Size()
		if w > 3*unit.Metre || h > 3*unit.Metre {
			return // slow, and nothing new
		}
		grain := []Grain{{}, FreeGrain(), EitherWay(5), {Angles: []unit.Angle{unit.Angle(angle % 720)}}}[form%4]
		hand := []Hand{AsDrawn, EitherHand, Paired}[form%3]
		skin := material.Skin{Outline: rectOutline(t, 40*in, 60*in)}
		switch form / 12 % 4 {
		case 1:
			skin = material.Skin{Outline: o, Border: unit.Length(angle%50) * unit.Millimetre}
		case 2:
			skin.Holes = []shape.Outline{o}
		case 3:
			skin.Zones, skin.Grade = []material.QualityZone{{Outline: o}}, material.FairGrade
		}
		plan, err := hidesOf(skin, []Piece{{Outline: o, Count: 2, Grain: grain, Hand: hand}}, Options{Effort: 0.02})
		if err != nil {
			require.True(t, typed(err), "%v", err)
		} else {
			require.NoError(t, plan.Verify())
			_, err := plan.Draw(Picture{})
			require.NoError(t, err)
		}
		roll, err := onRoll(material.Roll{Width: 54 * in, Repeat: unit.Length(form%4) * 4 * in}, []Piece{{Outline: o, Count: 2, Hand: []Hand{Paired, AsDrawn}[form%2], Turn: Turn(form % 3)}}, Options{Effort: 0.02})
		if err != nil {
			require.True(t, typed(err), "%v", err)
			return
		}
		require.NoError(t, roll.Verify())
	})
}

// A skin read from JSON gives a plan or an error that names its field.
func FuzzSkinJSON(f *testing.F) {
	f.Fuzz(func(t *testing.T, text string) {
		var s material.Skin
		if len(text) > 2000 || json.Unmarshal([]byte(text), &s) != nil {
			return
		}
		err := s.Check()
		if err != nil {
			require.True(t, typed(err), "%v", err)
			return
		}
		panel := Piece{Outline: rectOutline(t, 8*in, 6*in), Count: 1, Stretch: &StretchWish{Axis: 90, Tolerance: 20}, Least: material.GoodGrade}
		plan, err := hidesOf(s, []Piece{panel}, Options{Effort: 0.02})
		if err != nil {
			require.True(t, typed(err), "%v", err)
			return
		}
		require.NoError(t, plan.Verify())
	})
}
