package material_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Where a piece has its leather beside its cloth, a yard of cloth is 18 sq ft of
// leather.
func TestYardageAndLeatherAgree(t *testing.T) {
	found := 0
	for _, y := range material.FurnitureYardage() {
		assert.LessOrEqual(t, y.From, y.To, y.Piece)
		var leather float64
		if _, err := fmt.Sscanf(y.Note, "%f sq ft of leather", &leather); err == nil {
			found++
			assert.InDelta(t, leather, 18*y.From.Metres()/unit.Yard.Metres(), 1e-9, y.Piece)
			assert.Equal(t, y.From, y.To, y.Piece)
		}
	}
	assert.Equal(t, 4, found)
}
