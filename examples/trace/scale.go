package main

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/examples/internal/markpage"
	"github.com/coverwright/coverwright/examples/trace/internal/picture"
	"github.com/coverwright/coverwright/unit"
)

// How far a measure may be off, with a steel rule along a line of the page and
// with a tape from mark to mark (derived from reading to half a millimetre).
const (
	ruleError = 3 * unit.Millimetre / 10
	tapeError = unit.Millimetre / 2
)

// printed tells which paper the two measured lengths are of: of the two, the one
// that the printer made nearer the same larger across and up. They differ by a
// tenth.
func (set settings) printed() (across, up photo.Line) {
	best := math.Inf(1)
	a4, letter := markpage.Measured()
	for _, l := range []markpage.Lines{a4, letter} {
		fx, fy := float64(set.across)/float64(l.Across), float64(set.up)/float64(l.Up)
		if d := math.Abs(math.Log(fx / fy)); d < best {
			best = d
			across, up = photo.Line{Drawn: l.Across, Measured: set.across}, photo.Line{Drawn: l.Up, Measured: set.up}
		}
	}
	return across, up
}

// uneven is by how much more a printer may scale one way than the other before the
// measures are doubted.
const uneven = 0.01

// tellPrint notes how the page was printed, as it was measured.
func (r *reading) tellPrint(set settings) {
	if set.across == 0 {
		return
	}
	across, up := set.printed()
	fx, fy := float64(across.Measured)/float64(across.Drawn), float64(up.Measured)/float64(up.Drawn)
	r.note("the page whose lines are %v and %v was printed %+.2f %% across and %+.2f %% up", across.Drawn, up.Drawn, 100*(fx-1), 100*(fy-1))
	if math.Abs(fx-fy) > uneven {
		r.note("few printers scale so unevenly: measure both lines again")
	}
}

// scaleError is how far the scale may be off, at most; zero when nothing was
// measured.
func (set settings) scaleError() unit.Ratio {
	switch {
	case set.taped != 0:
		return unit.Ratio(float64(tapeError) / float64(set.taped))
	case set.across != 0:
		return unit.Ratio(float64(ruleError) / float64(set.across))
	}
	return 0
}

// scaled gives the pages as the printer made them, as far as somebody measured:
// across and up by the lines of the page, and all of them by the tape between two
// pages.
func scaled(p picture.Picture, pages []photo.Page, set settings) ([]photo.Page, error) {
	out := make([]photo.Page, len(pages))
	copy(out, pages)
	if set.across != 0 {
		across, up := set.printed()
		for i, page := range out {
			var err error
			if out[i], err = page.Printed(across, up); err != nil {
				return nil, err
			}
		}
	}
	if set.taped == 0 {
		return out, nil
	}
	from, to := set.between[0]-1, set.between[1]-1
	switch {
	case len(out) < 2:
		return nil, refusePhoto("-taped is the distance between two pages; only one is seen")
	case set.between == [2]int{} && len(out) == 2:
		from, to = 0, 1
	case set.between == [2]int{}:
		return nil, refusePhoto("%d pages are seen; say between which was taped, such as -taped 1-%d:%v, by the numbers that -overlay shows", len(out), len(out), set.taped)
	case max(from, to) >= len(out):
		return nil, refusePhoto("-taped names page %d, but only %d are seen", max(from, to)+1, len(out))
	}
	view, err := photo.See(p.W, p.H, out, photo.Options{Circles: circles()})
	if err != nil {
		return nil, inPhoto(err)
	}
	// The mark without a dot is the origin of a page.
	a, ok := view.Page(from)
	b, ok2 := view.Page(to)
	if !ok || !ok2 {
		return nil, refusePhoto("a page that was taped to does not fit the others: it must lie flat, and come from the same print")
	}
	seen := math.Hypot(float64(b.Move.X-a.Move.X), float64(b.Move.Y-a.Move.Y))
	by := float64(set.taped) / seen
	if by < 0.94 || by > 1.06 {
		return nil, refusePhoto("-taped %v is not the distance between the marks without a dot of pages %d and %d, which is about %.0f mm",
			set.taped, from+1, to+1, unit.Length(seen).Millimetres())
	}
	for i, page := range out {
		grown := make(photo.Page, len(page))
		for k, m := range page {
			grown[k] = photo.Mark{Seen: m.Seen, At: shape.Point{X: unit.Length(math.Round(by * float64(m.At.X))), Y: unit.Length(math.Round(by * float64(m.At.Y)))}}
		}
		out[i] = grown
	}
	return out, nil
}
