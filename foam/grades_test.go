package foam_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
)

// An example of a grade is what its name says, in lb/ft³ and lbf.
func TestExampleGradesAreWhatTheyAreCalled(t *testing.T) {
	for _, g := range foam.ExampleGrades() {
		var density, firmness float64
		_, err := fmt.Sscanf(g.Name, "%f lb %f", &density, &firmness)
		require.NoError(t, err, g.Name)
		assert.InDelta(t, density, g.Density.PoundsPerCubicFoot(), 1e-9, g.Name)
		assert.InDelta(t, firmness, g.IFD25.PoundsForce(), 1e-9, g.Name)
	}
}
