//go:build !race

package thread_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

func TestLookUpsDoNotAllocate(t *testing.T) {
	for _, l := range lookUps {
		t.Run(l.name, func(t *testing.T) {
			assert.Zero(t, testing.AllocsPerRun(100, func() {
				if err := l.call(); err != nil {
					t.Error(err)
				}
			}))
		})
	}
}

// The thread of a hundred seams takes the lists of its answer and no more.
func TestTotalAllocates(t *testing.T) {
	w := thread.Sewing{Bobbin: 60 * unit.Metre, Cone: 1000 * unit.Metre}
	for range 100 {
		w.Seams = append(w.Seams, thread.Seam{Length: 2 * unit.Metre, Thickness: 3 * unit.Millimetre, Stitch: 301, StitchLength: 4 * unit.Millimetre})
	}
	assert.LessOrEqual(t, testing.AllocsPerRun(100, func() {
		if _, err := thread.Total(w); err != nil {
			t.Error(err)
		}
	}), 6.0)
}
