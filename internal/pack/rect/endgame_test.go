package rect

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/few"
)

// What the sums of sides say is lost is never more than what a whole layout leaves empty, wherever it is interrupted.
func TestLostIsNeverMoreThanEmpty(t *testing.T) { few.Check(t, 60, lostLaw) }

func lostLaw(t *rapid.T) {
	width := rapid.Int64Range(5, 70).Draw(t, "width")
	boxes := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) box {
		return box{rapid.Int64Range(1, width).Draw(t, "w"), rapid.Int64Range(1, width).Draw(t, "h"), rapid.Bool().Draw(t, "turn")}
	}), 2, 20).Draw(t, "boxes")
	f := newFiller(width, boxes)
	f.table, f.limit = scorings[0], totalHeight(boxes)
	for i := range f.prio {
		f.prio[i] = rapid.Int64Range(0, 99).Draw(t, "priority")
	}
	_, all := f.run(0, math.Inf(1))
	require.True(t, all)
	b := newBeam(width, boxes, 1)
	b.limit = f.height() + rapid.Int64Range(0, 3).Draw(t, "room")
	b.setEndgame()
	used := make([]uint64, b.words)
	empty := float64(width * b.limit)
	for _, x := range boxes {
		empty -= float64(x.w * x.h)
	}
	sky := []seg{{0, 0, width}}
	for _, s := range f.steps {
		low := int(s.seg)
		if s.box < 0 {
			empty -= float64(min(s.hl, s.hr) * s.gap)
			sky[low].y += min(s.hl, s.hr)
			sky = mergeAt(sky, low)
		} else {
			sky = laidOn(sky, low, s.pw, s.ph, s.px != s.x)
			for k, e := range b.ents {
				if e.box == s.box {
					used[k>>6] |= 1 << (k & 63)
				}
			}
		}
		did := b.units
		require.LessOrEqual(t, b.lost(used, sky), empty)
		require.Greater(t, b.units, did)
	}
}

// Sums are kept up to 2048 units of what divides all widths, or heights.
func TestSumsThatAreKept(t *testing.T) {
	for _, c := range []struct {
		width, limit int64
		unit         [2]int64
	}{{4097, 10, [2]int64{2, 5}}, {4098, 10, [2]int64{}}, {20, 10_244, [2]int64{2, 5}}, {20, 10_245, [2]int64{}}} {
		b := newBeam(c.width, []box{{4, 10, false}, {6, 15, false}}, 1)
		b.limit = c.limit
		b.setEndgame()
		require.Equal(t, c.unit, b.end.unit, "%+v", c)
	}
}
