package job

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/unit"
)

// Lengths beside each other are of one unit.
func TestSidesAreOfOneUnit(t *testing.T) {
	assert.Equal(t, "23 x 4 1/2 x 2 in", sides(23*unit.Inch, 9*unit.Inch/2, 2*unit.Inch))
	assert.Equal(t, "584 x 114 x 50 mm", sides(23*unit.Inch, 9*unit.Inch/2, 50*unit.Millimetre))
	assert.Equal(t, "1854 x 1302 mm", sides(73*unit.Inch, 1302_143_254*unit.Nanometre))
	assert.Equal(t, "63 in", sides(63*unit.Inch))
}
