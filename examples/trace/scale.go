package main

import (
	"fmt"
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
	last := len(out) - 1
	if last == 0 {
		return nil, refusePhoto("-taped is the distance between two pages; only one is seen")
	}
	view, err := photo.See(p.W, p.H, out, photo.Options{Circles: circles()})
	if err != nil {
		return nil, inPhoto(err)
	}
	place, ok := view.Page(last)
	if !ok {
		return nil, refusePhoto("the rightmost page does not fit the others: it must lie flat, and come from the same print")
	}
	// The mark without a dot is the origin of a page.
	by := float64(set.taped) / math.Hypot(float64(place.Move.X), float64(place.Move.Y))
	if by < 0.9 || by > 1.1 {
		return nil, refusePhoto("-taped %v is not the distance between the marks without a dot of the leftmost and the rightmost page, which is about %v",
			set.taped, fmt.Sprintf("%.0f mm", math.Hypot(place.Move.X.Millimetres(), place.Move.Y.Millimetres())))
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
