package photo_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape/photo"
)

// Two pages of eight marks, their places unknown.
func BenchmarkSee(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	lies := setups()[1].pages(600)
	var all [][2]float64
	for _, l := range lies {
		for _, m := range l.marks {
			all = append(all, l.put(m))
		}
	}
	camera := shoot(rng, 4000, 3000, 45, .03, all)
	var pages []photo.Page
	for _, l := range lies {
		var page photo.Page
		for _, m := range l.marks {
			at := l.put(m)
			page = append(page, camera.mark(rng, at[0], at[1], .08, place(m[0], m[1])))
		}
		pages = append(pages, page)
	}
	for b.Loop() {
		_, err := photo.See(4000, 3000, pages, photo.Options{})
		require.NoError(b, err)
	}
}

// A border of 5000 points, and what it may be off.
func BenchmarkFit(b *testing.B) {
	border := spaced(b, panel600(b), .4, .02)
	for b.Loop() {
		_, _, err := photo.Fit(border, photo.FitOptions{})
		require.NoError(b, err)
	}
}
