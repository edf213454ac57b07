package shape_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Split parts have the lengths asked for, and Joined makes them whole again.
func TestSplitEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o, err := shape.Crowned(20*unit.Inch, 16*unit.Inch, unit.Length(rapid.IntRange(1, 30).Draw(t, "rise"))*unit.Inch/10)
		require.NoError(t, err)
		edge := rapid.SampledFrom(o.Edges()).Draw(t, "edge")
		l, err := o.EdgeLength(edge)
		require.NoError(t, err)
		n := rapid.IntRange(2, 5).Draw(t, "parts")
		var places []unit.Length
		var names []string
		for i := range n {
			names = append(names, fmt.Sprint("part ", i))
			if i > 0 {
				at, err := l.MulDiv(i, n, unit.Nearest)
				require.NoError(t, err)
				places = append(places, at)
			}
		}
		s, err := o.Split(edge, places, names)
		require.NoError(t, err)
		require.Len(t, s.Edges(), len(o.Edges())+n-1)
		for _, name := range names {
			part, err := s.EdgeLength(name)
			require.NoError(t, err)
			require.InDelta(t, float64(l)/float64(n), float64(part), 4)
		}
		require.InDelta(t, float64(o.Area()), float64(s.Area()), 1e6) // 1 mm²: points are rounded
		back, err := s.Joined(edge, names[0], names[n-1])
		require.NoError(t, err)
		whole, err := back.EdgeLength(edge)
		require.NoError(t, err)
		require.InDelta(t, float64(l), float64(whole), 8)
	})
}

func TestSplitRefuses(t *testing.T) {
	o, err := shape.Rectangle(20*unit.Inch, 10*unit.Inch)
	require.NoError(t, err)
	for name, r := range map[string]struct {
		edge   string
		places []unit.Length
		names  []string
		want   string
	}{
		"no such edge":   {"side", nil, []string{"a"}, "edge"},
		"too few names":  {"top", []unit.Length{unit.Inch}, []string{"a"}, "names"},
		"past the end":   {"top", []unit.Length{20 * unit.Inch}, []string{"a", "b"}, "places[0]"},
		"not rising":     {"top", []unit.Length{2 * unit.Inch, unit.Inch}, []string{"a", "b", "c"}, "places[1]"},
		"taken by other": {"top", []unit.Length{unit.Inch}, []string{"a", "left"}, "names[1]"},
		"twice":          {"top", []unit.Length{unit.Inch}, []string{"a", "a"}, "names[1]"},
	} {
		_, err := o.Split(r.edge, r.places, r.names)
		var in *unit.InputError
		if assert.ErrorAs(t, err, &in, name) {
			assert.Equal(t, r.want, string(in.Field), name)
		}
	}
}

func ExampleOutline_Split() {
	o, err := shape.Rectangle(20*unit.Inch, 10*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	o, err = o.Split("bottom", []unit.Length{15 * unit.Inch}, []string{"open", "closed"})
	fmt.Println(o.Edges(), err)
	// Output:
	// [open closed right top left] <nil>
}
