package geom

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// outline is the ring through points given by their coordinates in turn.
func outline(xy ...int64) Ring {
	r := make(Ring, len(xy)/2)
	for i := range r {
		r[i] = Point{xy[2*i], xy[2*i+1]}
	}
	return r
}

func TestTidy(t *testing.T) {
	tri := outline(0, 0, 2, 0, 2, 2)
	for name, r := range map[string]Ring{
		"plain":            outline(0, 0, 2, 0, 2, 2),
		"closed":           outline(0, 0, 2, 0, 2, 2, 0, 0),
		"closed twice":     outline(0, 0, 2, 0, 2, 2, 0, 0, 0, 0),
		"repeated":         outline(0, 0, 0, 0, 2, 0, 2, 0, 2, 2),
		"on straight runs": outline(0, 0, 1, 0, 2, 0, 2, 1, 2, 2, 1, 1),
		"spike":            outline(0, 0, 2, 0, 5, 0, 2, 0, 2, 2),
		"spike at a run":   outline(0, 0, 1, 0, 1, 9, 1, 0, 2, 0, 2, 2),
		"clockwise":        outline(2, 2, 2, 0, 0, 0),
	} {
		assert.Equal(t, tri, r.Tidy().Normal(), name)
	}
	for name, r := range map[string]Ring{
		"empty": {}, "one": {{1, 1}}, "same": outline(1, 1, 1, 1, 1, 1), "line": outline(0, 0, 1, 1, 5, 5, 2, 2),
	} {
		assert.Empty(t, r.Tidy(), name)
	}
}

func TestCrossingAtACorner(t *testing.T) {
	for _, c := range []struct {
		name string
		ring Ring
		bad  bool
	}{
		{"two triangles meet at a corner", outline(0, 0, 20, 0, 10, 10, 20, 20, 0, 20, 10, 10), false},
		{"the way comes back to a corner", outline(0, 0, 10, 10, 20, 0, 20, 20, 10, 10, 0, 20), false},
		{"an hourglass", outline(0, 0, 10, 10, 20, 20, 20, 0, 10, 10, 0, 20), true},
		{"a corner touches an edge from inside", outline(0, 0, 20, 0, 20, 20, 10, 0, 0, 20), false},
		{"a corner passes through an edge", outline(0, 0, 20, 0, 20, 20, 10, 0, 5, -9, 0, 20), true},
	} {
		t.Run(c.name, func(t *testing.T) {
			for k := range c.ring { // whichever corner comes first
				r := append(slices.Clone(c.ring[k:]), c.ring[:k]...)
				_, _, bad := r.FindCrossing()
				require.Equal(t, c.bad, bad, "from corner %d", k)
				slices.Reverse(r)
				_, _, bad = r.FindCrossing()
				require.Equal(t, c.bad, bad, "backwards from corner %d", k)
			}
		})
	}
}
