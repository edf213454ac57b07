package allowance_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// The zero value of every type is either useful or refused with a typed error.
func TestZeroValuesUseful(t *testing.T) {
	m, err := allowance.Edge{}.Resolve()
	require.NoError(t, err)
	assert.Equal(t, allowance.PlainSeam, m.Finish)
	assert.Equal(t, unit.Inch/2, m.Total())

	f, err := allowance.Stretch{}.Apply(unit.Foot)
	require.NoError(t, err)
	assert.Equal(t, unit.Foot, f.Seam)

	assert.True(t, allowance.Override{}.IsZero())
	assert.False(t, allowance.Exactly(0).IsZero())
	assert.Zero(t, allowance.RectCut{}.SewnLength())
	assert.Equal(t, "sews flat", allowance.Verdict(0).String())
	assert.Zero(t, allowance.TuftRule(0).Basis())
	total, err := allowance.Strip{}.Total()
	require.NoError(t, err)
	assert.Zero(t, total)
}

func TestZeroValuesRefused(t *testing.T) {
	for name, f := range map[string]func() error{
		"RectPanel":        func() error { _, err := allowance.RectPanel{}.Cut(); return err },
		"Boxing":           func() error { _, err := allowance.Boxing{}.Cut(); return err },
		"WeltStrip":        func() error { _, err := allowance.WeltStrip{}.Width(); return err },
		"WeltRun":          func() error { _, err := allowance.WeltRun{}.Cut(); return err },
		"BiasTube":         func() error { _, err := allowance.BiasTube{}.Yield(); return err },
		"BiasStrips":       func() error { _, err := allowance.BiasStrips{}.Yield(); return err },
		"Channels":         func() error { _, err := allowance.Channels{}.Cut(); return err },
		"Tufting":          func() error { _, err := allowance.Tufting{}.Plan(); return err },
		"Pleats":           func() error { _, err := allowance.Pleats{}.Cloth(); return err },
		"GatheredSkirt":    func() error { _, err := allowance.GatheredSkirt{}.Cut(); return err },
		"PleatedSkirt":     func() error { _, err := allowance.PleatedSkirt{}.Cut(); return err },
		"KickPleatSkirt":   func() error { _, err := allowance.KickPleatSkirt{}.Cut(); return err },
		"Wrap":             func() error { _, err := allowance.Wrap{}.Cut(); return err },
		"KnifeEdgeCushion": func() error { _, err := allowance.KnifeEdgeCushion{}.Cut(); return err },
		"BoxedCushion":     func() error { _, err := allowance.BoxedCushion{}.Cut(); return err },
		"RoundCushion":     func() error { _, err := allowance.RoundCushion{}.Cut(); return err },
		"TCushion":         func() error { _, err := allowance.TCushion{}.Cut(); return err },
		"WaterfallCushion": func() error { _, err := allowance.WaterfallCushion{}.Cut(); return err },
		"Bolster":          func() error { _, err := allowance.Bolster{}.Cut(); return err },
		"Dome":             func() error { _, err := allowance.Dome{}.Gore(); return err },
		"ConeFrustum":      func() error { _, err := allowance.ConeFrustum{}.Develop(); return err },
		"TubBand":          func() error { _, err := allowance.TubBand{}.Cut(); return err },
		"SeamMatch":        func() error { _, err := allowance.SeamMatch{}.Marks(unit.Inch); return err },
		"TuftRule":         func() error { _, err := allowance.TuftRule(0).Spacing(unit.Inch, unit.Inch); return err },
	} {
		t.Run(name, func(t *testing.T) {
			var in *unit.InputError
			require.ErrorAs(t, f(), &in)
			assert.NotEmpty(t, in.Field)
		})
	}
}

// Made-up parts pass through JSON unchanged.
func TestPartsJSON(t *testing.T) {
	tuft := allowance.Tufting{Width: 30 * unit.Inch, Height: 20 * unit.Inch, Across: 4, Down: 3, Rule: allowance.TwiceDepth, Tack: allowance.Exactly(0)}
	text, err := json.Marshal(tuft)
	require.NoError(t, err)
	var back allowance.Tufting
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, tuft, back)

	cushion := allowance.BoxedCushion{Width: 22 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Fit: allowance.SnugFit, Zip: true}
	text, err = json.Marshal(cushion)
	require.NoError(t, err)
	var cushionBack allowance.BoxedCushion
	require.NoError(t, json.Unmarshal(text, &cushionBack))
	assert.Equal(t, cushion, cushionBack)
	cut, err := cushion.Cut()
	require.NoError(t, err)
	text, err = json.Marshal(cut)
	require.NoError(t, err)
	var cutBack allowance.BoxedCut
	require.NoError(t, json.Unmarshal(text, &cutBack))
	assert.Equal(t, cut, cutBack)

	s, err := allowance.ConeFrustum{Large: 10 * unit.Inch, Small: 6 * unit.Inch, Height: 8 * unit.Inch}.Develop()
	require.NoError(t, err)
	text, err = json.Marshal(s)
	require.NoError(t, err)
	var sBack allowance.Sector
	require.NoError(t, json.Unmarshal(text, &sBack))
	assert.Equal(t, s, sBack)
}
