package bound_test

import (
	"context"
	"math"
	"testing"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/bound"
)

// crowned is a back of 1/64 in: straight below, its top an arc that rises over
// the middle, as a polygon inside the arc.
func crowned(w, h, rise float64, steps int) geom.Ring {
	u := func(x float64) int64 { return int64(math.Round(x * 64)) }
	r := (w*w/4 + rise*rise) / (2 * rise)
	out := geom.Ring{{X: 0, Y: 0}, {X: u(w), Y: 0}}
	for i := range steps + 1 {
		x := w/2 - w*float64(i)/float64(steps)
		out = append(out, geom.Point{X: u(w/2 + x), Y: u(h - r + math.Sqrt(r*r-x*x))})
	}
	return out
}

func fifty(steps, turns int) bound.StripJob {
	j := bound.StripJob{Width: 54 * 64, Repeat: bound.Repeat{Along: 25 * 64, Across: 27 * 64, FirstX: 27 * 32}}
	for i := range 50 {
		w, h := float64(18+i%9), float64(14+i%17)
		ring := crowned(w, h, 1+float64(i%5)/2, steps)
		at := geom.Point{X: int64(32 * w), Y: int64(32 * h)}
		p := bound.Piece{Count: 1 + i%2, Match: bound.X | bound.Y, Ways: bound.Ways(ring, at, []geom.Transform{geom.Identity, geom.Rotate180, geom.MirrorX, geom.MirrorY}[:turns]...)}
		j.Pieces = append(j.Pieces, p)
	}
	return j
}

func BenchmarkStrip(b *testing.B) {
	half := fifty(57, 2)
	half.Repeat.Falls = []int64{0, 25 * 32}
	free := fifty(57, 1)
	free.Repeat.FreeStart = true
	plain := fifty(57, 4)
	plain.Repeat = bound.Repeat{}
	for _, c := range []struct {
		name string
		job  bound.StripJob
	}{{"one way", fifty(57, 1)}, {"free start", free}, {"two ways, half drop", half}, {"plain, four ways", plain}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := bound.Strip(context.Background(), c.job); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
