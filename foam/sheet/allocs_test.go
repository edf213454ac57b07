//go:build !race

package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// The memory of a plan that the rows answer alone is kept.
func TestAllocations(t *testing.T) {
	parts := []Part{{"a", foam.Block{Length: 20 * unit.Inch, Width: 20 * unit.Inch, Thickness: 4 * unit.Inch}, 3, false}}
	rules := Rules{Stock: Common(2 * unit.Inch)[:1], Kerf: unit.Inch / 8, MostPlies: 2}
	got := testing.AllocsPerRun(100, func() {
		if _, err := Lay(t.Context(), parts, rules); err != nil {
			t.Fatal(err)
		}
	})
	assert.LessOrEqual(t, got, 200.0)
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		if _, err := ThicknessFor(4 * unit.Inch); err != nil {
			t.Fatal(err)
		}
	}))
}
