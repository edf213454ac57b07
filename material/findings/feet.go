package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	feetEach    = one("feet", "under a frame", 4, cite.Practice("glides as well"))
	feetMore    = Figure[int]{"feet", "more under a wide frame", 1, 1, 2, cite.Practice("")}
	feetWide    = one("feet", "width above which a frame has more", 72*unit.Inch, cite.Practice(""))
	feetCounts  = []Figure[int]{feetEach, feetMore}
	feetLengths = []Figure[unit.Length]{feetWide}
)

// Feet counts feet or glides under a frame of an outer width: four, and one
// more above 72 in (common practice; some take two). Widths to 10 m; others wrap
// unit.ErrRange or unit.ErrForgottenUnit.
func Feet(width unit.Length) (int, error) {
	if err := check.Length("width", width, unit.Centimetre, widest); err != nil {
		return 0, err
	}
	if width > feetWide.Usual {
		return feetEach.Usual + feetMore.Usual, nil
	}
	return feetEach.Usual, nil
}
