package made

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// WaterfallCushion has one piece that runs over the top, down the front and
// under the bottom without a seam, with boxing at the sides and a zip strip at
// the back. The zero value is refused.
type WaterfallCushion struct {
	Width     unit.Length `json:"width"` // of the filling, side to side
	Depth     unit.Length `json:"depth"` // front to back
	Thickness unit.Length `json:"thickness"`
	// Round makes the front a half circle (bull nose); otherwise it is square.
	Round   bool               `json:"round,omitempty"`
	Seam    allowance.Override `json:"seam,omitzero"`     // by default that of a boxed seam
	ZipSeam allowance.Override `json:"zip_seam,omitzero"` // by default that of a zip seam
}

// WaterfallCut is a waterfall cover as it is cut.
type WaterfallCut struct {
	Wrap       unit.Length `json:"wrap"`       // finished length of the main piece, back edge to back edge
	MainWidth  unit.Length `json:"main_width"` // cut
	MainLength unit.Length `json:"main_length"`
	SideWidth  unit.Length `json:"side_width"`  // cut height of each of two side pieces
	SideLength unit.Length `json:"side_length"` // cut length, front to back
	// ZipWidth and ZipLength are the cut size of each of the two halves of the
	// back strip.
	ZipWidth  unit.Length `json:"zip_width"`
	ZipLength unit.Length `json:"zip_length"`
	// SideSeam is the stitch line of one side, where the main piece meets it:
	// equal to Wrap.
	SideSeam unit.Length `json:"side_seam"`
}

// Cut gives the pieces:
//
//	wrap = 2 depth + thickness            square front
//	wrap = 2 depth - thickness + π t / 2  round front
//	main = (width + 2 s) × (wrap + 2 s)
//	side = (thickness + 2 s) × (depth + 2 s), rounded at the front to match
//	back = two strips of thickness / 2 + s + z by width + 2 s
//
// The rule, 1 in on every piece with 1/2 in seams, is common practice.
func (c WaterfallCushion) Cut() (WaterfallCut, error) {
	if err := check.Positives([]string{"width", "depth", "thickness"}, c.Width, c.Depth, c.Thickness); err != nil {
		return WaterfallCut{}, err
	}
	s, err := seamOr(c.Seam, allowance.BoxedSeam)
	if err != nil {
		return WaterfallCut{}, err
	}
	z, err := seamOr(c.ZipSeam, allowance.ZipSeam)
	if err != nil {
		return WaterfallCut{}, check.Renamed(err, map[string]string{"seam": "zip_seam"})
	}
	front := c.Thickness
	if c.Round {
		if err := check.Length("thickness", c.Thickness, 0, 2*c.Depth); err != nil {
			return WaterfallCut{}, err
		}
		nose, err := c.Thickness.Scale(math.Pi/2, unit.Nearest)
		if err != nil {
			return WaterfallCut{}, err
		}
		front = nose - c.Thickness
	}
	halfBack, err := c.Thickness.MulDiv(1, 2, unit.Up)
	if err != nil {
		return WaterfallCut{}, err
	}
	out := WaterfallCut{Wrap: 2*c.Depth + front}
	out.MainWidth, out.MainLength = c.Width+2*s, out.Wrap+2*s
	out.SideWidth, out.SideLength = c.Thickness+2*s, c.Depth+2*s
	out.ZipWidth, out.ZipLength = halfBack+s+z, c.Width+2*s
	out.SideSeam = out.Wrap
	return out, nil
}
