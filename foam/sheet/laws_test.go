package sheet

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

func TestLayLaws(t *testing.T) { few.Check(t, 25, layLaws) }

func layLaws(t *rapid.T) {
	stock := Common(unit.Inch, 2*unit.Inch, 3*unit.Inch)[:15]
	n := rapid.IntRange(1, 4).Draw(t, "parts")
	parts := make([]Part, n)
	for i := range parts {
		parts[i] = Part{
			Name: string(rune('a' + i)),
			Block: foam.Block{
				Length:    unit.Length(rapid.IntRange(4, 100).Draw(t, "l")) * unit.Inch,
				Width:     unit.Length(rapid.IntRange(4, 40).Draw(t, "w")) * unit.Inch,
				Thickness: unit.Length(rapid.IntRange(1, 6).Draw(t, "t")) * unit.Inch,
			},
			Count: rapid.IntRange(1, 6).Draw(t, "count"),
			Fixed: rapid.Bool().Draw(t, "fixed"),
		}
	}
	rules := Rules{Stock: stock, Kerf: unit.Inch / 8, MostPlies: 3, MostJoins: 2}
	got, err := Lay(context.Background(), parts, rules)
	require.NoError(t, err)
	assert.LessOrEqual(t, got.Used, got.Bought)
	made := map[string]unit.Volume{}
	for _, o := range got.Orders {
		assert.GreaterOrEqual(t, o.Count, o.Bound)
		assert.Positive(t, o.Bound)
		for _, p := range o.Cuts {
			v, err := foam.Block{Length: p.Length, Width: p.Width, Thickness: o.Stock.Thickness}.Volume()
			require.NoError(t, err)
			made[p.Part] += v
		}
	}
	for _, p := range parts {
		v, err := p.Block.Volume()
		require.NoError(t, err)
		assert.InDelta(t, float64(v)*float64(p.Count), float64(made[p.Name]), 200, "the cuts make the parts")
	}
	again, err := Lay(context.Background(), parts, rules)
	require.NoError(t, err)
	assert.Equal(t, got, again, "deterministic")
}
