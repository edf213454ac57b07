//go:build long

package bound_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

func TestBoundsAgainstCompleteSearchInFull(t *testing.T) { boundsAgainstCompleteSearch(t, 1500) }

func TestHidesAgainstCompleteSearchInFull(t *testing.T) { hidesAgainstCompleteSearch(t, 120) }

// The largest jobs come to an end: work is bounded, and what is not looked at
// counts by area and box.
func TestLargeJobs(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	j := bound.StripJob{Width: 1 << 30, Repeat: bound.Repeat{Across: 1 << 20, Along: 1 << 22, FreeStart: true}}
	var area float64
	for i := range 400 {
		ring := bound.Star(r, 100, 1<<22)
		p := bound.Piece{Count: 50, Match: bound.Axes(i % 4), AnyAngle: i%50 == 0}
		for k := range 40 {
			turned := ring
			if k%10 == 0 {
				turned = ring.Transform(geom.Transform(k / 10))
			}
			p.Ways = append(p.Ways, bound.Way{Ring: turned, Match: geom.Point{X: r.Int64N(1 << 22), Y: r.Int64N(1 << 22)}})
		}
		j.Pieces = append(j.Pieces, p)
		area += 50 * ring.Area()
	}
	c, err := bound.Best(context.Background(), j)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, float64(c.Length), area/(1<<30)-1)
	hs, err := bound.Hides(context.Background(), bound.HideJob{Hides: slices.Repeat([]bound.Hide{{Outer: box(0, 0, 1<<24, 1<<24)}}, 10_000), Pieces: j.Pieces})
	require.NoError(t, err)
	assert.GreaterOrEqual(t, float64(hs[0].Hides), area/(1<<48))
}
