package foam_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// A figure for a seat of so many inches speaks of seats to half an inch from
// that, the one for thin seats of no thicker ones.
func TestFiguresKeepToTheirThickness(t *testing.T) {
	hair := unit.Micrometre
	for _, r := range []struct {
		figure   string
		duty     foam.Duty
		from, to unit.Length // 0 where figures of both sides are shown beyond
	}{
		{"seat 2 in thick", foam.SevereDuty, 7 * unit.Inch / 4, 9 * unit.Inch / 4},
		{"thin seat, 1 to 2 in", foam.SevereDuty, 0, 2 * unit.Inch},
		{"seat 4 in thick", foam.NormalDuty, 0, 9 * unit.Inch / 2},
		{"seat 5 in thick", foam.NormalDuty, 9 * unit.Inch / 2, 11 * unit.Inch / 2},
		{"seat 6 in thick", foam.NormalDuty, 11 * unit.Inch / 2, 13 * unit.Inch / 2},
	} {
		shown := func(thickness unit.Length) bool {
			s, err := foam.Select(foam.Request{Use: foam.Seat, Duty: r.duty, Base: foam.Springs, Thickness: thickness})
			require.NoError(t, err)
			for _, f := range s.IFDFigures {
				if f.About == r.figure {
					return true
				}
			}
			return false
		}
		at := fmt.Sprint(r)
		if r.from > 0 {
			assert.True(t, shown(r.from), at)
			assert.False(t, shown(r.from-hair), at)
		}
		assert.True(t, shown(r.to), at)
		assert.False(t, shown(r.to+hair), at)
	}
}
