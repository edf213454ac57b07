package material

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// readingRoom is the leather of the demo job: a window-seat cushion with its
// boxing, and six drop-in seats.
func readingRoom(t testing.TB) []Panel {
	rect := func(w, h unit.Length) allowance.Outline {
		o, err := allowance.RectangleOutline(w, h)
		require.NoError(t, err)
		return o
	}
	seat, err := allowance.TrapezoidOutline(23*in, 20*in, 21*in, 3*in/2)
	require.NoError(t, err)
	return []Panel{
		{Name: "cushion top", Outline: rect(49*in, 21*in), Count: 2, Grain: FreeGrain()},
		{Name: "boxing", Outline: rect(5*in, 48*in), Count: 3, Grain: FreeGrain(), Least: FairGrade},
		{Name: "seat", Outline: seat, Count: 6, Grain: FreeGrain()},
	}
}

func TestNestReadingRoom(t *testing.T) {
	skins, err := NominalSkins(WholeHide, 50*unit.SquareFoot, 3)
	require.NoError(t, err)
	start := time.Now()
	plan, err := Nest(context.Background(), skins, readingRoom(t), NestOptions{})
	require.NoError(t, err)
	t.Log(time.Since(start), plan.Used, plan.Least, plan.LeastWhy, plan.Utilisation(), plan.UtilisationGross(), plan.Yield())
	assert.True(t, plan.Complete())
	require.NoError(t, plan.Verify())
}

func TestNaturalShapes(t *testing.T) {
	for _, k := range SkinKinds() {
		for _, a := range []unit.Area{unit.SquareFoot, 7 * unit.SquareFoot, 50 * unit.SquareFoot} {
			o, err := NaturalShape(k, a)
			require.NoError(t, err, k)
			assert.InEpsilon(t, float64(a), float64(o.Area()), 1e-6, k)
			if a == 50*unit.SquareFoot {
				w, h := o.Size()
				t.Log(k, w.Feet(), h.Feet(), float64(a)/float64(w)/float64(h)*1e6)
			}
		}
	}
}
