package photo_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
)

// The same marks give the same bits on every machine: a processor that fuses
// multiplication and addition would change the last of them, and this digest.
func TestSameBitsEverywhere(t *testing.T) {
	mark := func(seen, at string) photo.Mark {
		var m photo.Mark
		require.NoError(t, m.Seen.UnmarshalText([]byte(seen)))
		require.NoError(t, m.At.UnmarshalText([]byte(at)))
		return m
	}
	view, err := photo.See(4000, 3000, []photo.Page{{
		mark("991.1, 2107.5", "-340 mm, -250 mm"), mark("2000, 2109.7", "0 mm, -250 mm"), mark("3008.7, 2107.4", "340 mm, -250 mm"), mark("2884.8, 1500", "340 mm, 0 mm"),
		mark("2776, 976.4", "340 mm, 280 mm"), mark("2000.1, 975.4", "0 mm, 280 mm"), mark("1223.8, 976.5", "-340 mm, 280 mm"), mark("1115.3, 1500.1", "-340 mm, 0 mm"),
	}, {mark("1795.4, 1458.9", "-100 mm, 0 mm"), mark("2304.1, 1406.8", "100 mm, 0 mm"), mark("2031.0, 1313.0", "0 mm, 60 mm")}}, photo.Options{Thickness: 2 * mm, Circles: circlesOf(15, 9.9, 4.95)})
	require.NoError(t, err)
	sum := sha256.New()
	say := func(format string, args ...any) { fmt.Fprintf(sum, format+"\n", args...) }
	sigma, spare := view.Sigma()
	say("%b %d %b %v", float64(sigma), spare, float64(view.Lens()), view.Off())
	say("%d %v %b", view.Camera().Height, view.Camera().Foot, float64(view.Camera().Tilt))
	page, _ := view.Page(1)
	say("%b %v", float64(page.Turn), page.Move)
	var border []shape.Point
	ways := [4][4]float64{{1167, 1947, 2862, 1947}, {2862, 1947, 2693, 1148}, {2693, 1148, 1307, 1148}, {1307, 1148, 1167, 1947}}
	for i := range 4 * 60 {
		w, f := ways[i/60], float64(i%60)/60
		x, y := w[0]+float64(f*(w[2]-w[0])), w[1]+float64(f*(w[3]-w[1]))+float64(60*f*(1-f))
		p, err := view.Point(photo.Pixel{X: shape.Pixels(x), Y: shape.Pixels(y)})
		require.NoError(t, err)
		border = append(border, p)
	}
	say("%v", border)
	o, report, err := photo.Fit(border, photo.FitOptions{})
	require.NoError(t, err)
	say("%+v", report)
	text, err := o.MarshalJSON()
	require.NoError(t, err)
	say("%s", text)
	e, err := view.ErrorOf(o)
	require.NoError(t, err)
	say("%+v", e)
	assert.Equal(t, "5c66eb56bd2e6d66", hex.EncodeToString(sum.Sum(nil))[:16])
}
