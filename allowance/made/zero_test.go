package made_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
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
	assert.Zero(t, made.TuftRule(0).Basis())
	total, err := made.Strip{}.Total()
	require.NoError(t, err)
	assert.Zero(t, total)
}

func TestZeroValuesRefused(t *testing.T) {
	for name, f := range map[string]func() error{
		"RectPanel":      func() error { _, err := allowance.RectPanel{}.Cut(); return err },
		"Boxing":         func() error { _, err := made.Boxing{}.Cut(made.Goods{}); return err },
		"WeltStrip":      func() error { _, err := made.WeltStrip{}.Width(); return err },
		"WeltRun":        func() error { _, err := made.WeltRun{}.Cut(); return err },
		"BiasTube":       func() error { _, err := made.BiasTube{}.Yield(); return err },
		"BiasStrips":     func() error { _, err := made.BiasStrips{}.Yield(); return err },
		"Channels":       func() error { _, err := made.Channels{}.Cut(); return err },
		"Tufting":        func() error { _, err := made.Tufting{}.Plan(); return err },
		"Pleats":         func() error { _, err := made.Pleats{}.Cloth(); return err },
		"GatheredSkirt":  func() error { _, err := made.GatheredSkirt{}.Cut(); return err },
		"PleatedSkirt":   func() error { _, err := made.PleatedSkirt{}.Cut(); return err },
		"KickPleatSkirt": func() error { _, err := made.KickPleatSkirt{}.Cut(); return err },
		"Wrap":           func() error { _, err := made.Wrap{}.Cut(); return err },
		"Cushion":        func() error { _, err := made.Cushion{}.Make(); return err },
		"Ottoman":        func() error { _, err := made.Ottoman{}.Make(); return err },
		"DropInSeat":     func() error { _, err := made.DropInSeat{}.Make(); return err },
		"Skirt":          func() error { _, err := made.Skirt{}.Cover(made.Goods{}); return err },
		"Dome":           func() error { _, err := made.Dome{}.Gore(); return err },
		"ConeFrustum":    func() error { _, err := made.ConeFrustum{}.Develop(); return err },
		"TubBand":        func() error { _, err := made.TubBand{}.Cut(); return err },
		"SeamMatch":      func() error { _, err := allowance.SeamMatch{}.Marks(unit.Inch); return err },
		"TuftRule":       func() error { _, err := made.TuftRule(0).Spacing(unit.Inch, unit.Inch); return err },
	} {
		t.Run(name, func(t *testing.T) {
			var in *unit.InputError
			require.ErrorAs(t, f(), &in)
			assert.NotEmpty(t, in.Field)
		})
	}
}
