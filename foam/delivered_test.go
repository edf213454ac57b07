package foam_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// What is delivered differs by 3 lbf up to 30 lbf, and by a tenth above: the two
// rules meet there.
func TestDeliveredFirmness(t *testing.T) {
	for nominal, d := range map[unit.Force]unit.Force{20: 3, 30: 3, 31: 3.1, 50: 5} {
		f, err := foam.IFDTolerance(foam.IFD25(nominal * unit.PoundForce))
		require.NoError(t, err)
		assert.InDelta(t, float64(nominal-d), f.Range.Low.PoundsForce(), 1e-9)
		assert.InDelta(t, float64(nominal+d), f.Range.High.PoundsForce(), 1e-9)
	}
}
