package photo_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON. A View is what marks and options
// make, which are written in its place.
func TestEveryTypeIsJSON(t *testing.T) {
	faults, err := roundtrip.Faults(os.DirFS("."), []any{
		photo.Mark{Seen: photo.Pixel{X: 1.5, Y: 2e3}, At: place(3, 4)}, photo.Line{Drawn: 150 * mm, Measured: 151 * mm},
		photo.Options{Straight: true, MarkSpread: .1, EdgeSpread: .2, PlaceSpread: mm, Circles: []unit.Length{mm}, ScaleError: .01, Thickness: mm},
		photo.Off{Page: 1, Mark: -1, By: 2.5}, photo.Camera{Height: mm, Foot: place(1, 2), Tilt: 30, Focal: 3000, Usual: true},
		photo.Place{Turn: 20, Move: place(1, 2)}, photo.Error{Outline: mm, Picture: mm, Scale: mm, Thickness: mm, Lengths: .005, Known: true, Unmeasured: true},
		photo.FitOptions{Tolerance: mm, Arm: mm, CornerTurn: 20, Names: []string{"a"}},
		photo.FitReport{Tolerance: mm, Noise: mm, Raised: true, Worst: mm, Corners: []shape.Point{place(1, 2)}, Lines: 2, Curves: 3},
	}, "View")
	require.NoError(t, err)
	require.Empty(t, faults)
}
