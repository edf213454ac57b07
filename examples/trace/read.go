package main

import (
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/examples/internal/markpage"
	"github.com/coverwright/coverwright/examples/trace/internal/contour"
	"github.com/coverwright/coverwright/examples/trace/internal/marks"
	"github.com/coverwright/coverwright/examples/trace/internal/picture"
	"github.com/coverwright/coverwright/unit"
)

// settings are what is known of a photo beside it.
type settings struct {
	across, up unit.Length // the lines of the page as a rule measures them; 0 when nobody did
	taped      unit.Length // between the marks without a dot of two pages; 0 when nobody did
	between    [2]int      // the numbers of those, from 1; 0 and 0 when there are only two
	thickness  unit.Length // of the panel, over the pages
	tolerance  unit.Length // of the curves; 0 for as good as the photo
	level      bool        // panels are turned so that their lowest straight side lies level
}

// panel is a panel as a photo shows it.
type panel struct {
	name    string
	lies    shape.Outline // where it lies, in the axes of the first page
	outline shape.Outline // turned when that was asked for, its lower left corner at the origin
	off     photo.Error
	seen    contour.Panel
	fit     photo.FitReport
}

// reading is what a photo gives.
type reading struct {
	panels []panel
	pages  [][]marks.Seen
	view   photo.View
	notes  []string // what was left out or is to be known
}

func (r *reading) note(format string, args ...any) {
	r.notes = append(r.notes, fmt.Sprintf(format, args...))
}

func refusePhoto(format string, args ...any) error {
	return fmt.Errorf("%w: %s", contour.ErrPhoto, fmt.Sprintf(format, args...))
}

// read takes the panels from a photo.
func read(file io.Reader, set settings) (reading, picture.Picture, error) {
	p, err := picture.Open(file)
	if err != nil {
		return reading{}, p, err
	}
	r, err := readPicture(p, set)
	return r, p, err
}

func readPicture(p picture.Picture, set settings) (reading, error) {
	var r reading
	pages, err := r.findPages(p)
	if err != nil {
		return r, err
	}
	if pages, err = scaled(p, pages, set); err != nil {
		return r, err
	}
	r.tellPrint(set)
	o := photo.Options{Circles: circles(), ScaleError: set.scaleError()}
	flat, err := photo.See(p.W, p.H, pages, o)
	if err != nil {
		return r, inPhoto(err)
	}
	blanks, err := papers(flat, len(pages))
	if err != nil {
		return r, inPhoto(err)
	}
	found, err := contour.Find(p.Plane, blanks)
	if err != nil {
		return r, err
	}
	if found.Spots > 0 {
		r.note("%d small things beside the panels were left out", found.Spots)
	}
	o.Thickness = set.thickness
	for _, seen := range found.Panels {
		o.EdgeSpread = max(o.EdgeSpread, shape.Pixels(seen.Sigma))
	}
	if r.view, err = photo.See(p.W, p.H, pages, o); err != nil {
		return r, inPhoto(err)
	}
	for _, f := range r.view.Off() {
		r.note("a mark of page %d lies %.1f pixels off and was left out", f.Page+1, float64(f.By))
	}
	for i, seen := range found.Panels {
		q, err := r.panelOf(seen, set)
		if err != nil {
			return r, fmt.Errorf("panel %d: %w", i+1, err)
		}
		r.panels = append(r.panels, q)
	}
	r.inOrder()
	if err := r.upright(set.level); err != nil {
		return r, err
	}
	return r, r.check()
}

// inPhoto says what to do about a view that cannot be.
func inPhoto(err error) error {
	switch {
	case errors.Is(err, photo.ErrMirrored):
		return refusePhoto("left is right in it: take it with the camera on the back, not mirrored")
	case errors.Is(err, photo.ErrMisfit):
		return refusePhoto("the marks do not fit each other: pages must lie flat, whole and still, and all come from one print (%v)", err)
	case errors.Is(err, photo.ErrLens), errors.Is(err, photo.ErrBehind):
		return refusePhoto("it bends too much: no wide-angle lens and no panorama, and hold the camera over the panel (%v)", err)
	}
	return err
}

// findPages finds the pages of marks.
func (r *reading) findPages(p picture.Picture) ([]photo.Page, error) {
	rings := marks.Find(p.Plane)
	named, left, mirrored := marks.Pages(p.W, p.H, rings)
	switch {
	case mirrored:
		return nil, inPhoto(photo.ErrMirrored)
	case len(rings) == 0:
		return nil, refusePhoto("no mark is seen on it: lay two printed pages of marks beside the panel, whole and in the light, and come near enough that they can be read")
	case len(named) == 0:
		return nil, refusePhoto("%d marks are seen, but no whole page of them: all eight must be in view, the one without a dot too, flat, sharp and without shine", len(rings))
	}
	r.pages = named
	if len(left) > 0 {
		r.note("%d marks that belong to no whole page were left out", len(left))
	}
	all := markpage.Marks()
	pages := make([]photo.Page, len(named))
	for i, seen := range named {
		if len(seen) < len(all) {
			r.note("of page %d only %d of %d marks are seen", i+1, len(seen), len(all))
		}
		for _, s := range seen {
			pages[i] = append(pages[i], photo.Mark{Seen: photo.Pixel{X: shape.Pixels(s.Ring.X), Y: shape.Pixels(s.Ring.Y)}, At: all[s.Mark].At})
		}
	}
	if len(pages) == 1 {
		r.note("one page of marks only: the far side of a panel is told badly by it; lay a second one on the other side")
	}
	return pages, nil
}

// circles of a mark, from the outside in.
func circles() []unit.Length {
	part := func(f float64) unit.Length { return unit.Length(math.Round(f * float64(markpage.Radius))) }
	return []unit.Length{markpage.Radius, part(markpage.Inner), part(markpage.Dot)}
}

// papers gives where the papers of the pages are seen, with a little round them.
func papers(v photo.View, pages int) ([][]contour.Point, error) {
	const more = 3 * unit.Millimetre
	low, high := markpage.Paper()
	low, high = shape.Point{X: low.X - more, Y: low.Y - more}, shape.Point{X: high.X + more, Y: high.Y + more}
	corners := []shape.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}
	var out [][]contour.Point
	for i := range pages {
		place, ok := v.Page(i)
		if !ok {
			return nil, refusePhoto("page %d does not fit the others: it must lie flat, and come from the same print", i+1)
		}
		sin, cos := math.Sincos(place.Turn.Radians())
		var ring []contour.Point
		for k, c := range corners {
			// Along each side too, as the lens bends it.
			d := corners[(k+1)%len(corners)]
			const n = 8
			for f := range n {
				x := float64(c.X) + float64(f)/n*float64(d.X-c.X)
				y := float64(c.Y) + float64(f)/n*float64(d.Y-c.Y)
				q, err := v.Pixel(shape.Point{
					X: place.Move.X + unit.Length(math.Round(cos*x-sin*y)),
					Y: place.Move.Y + unit.Length(math.Round(sin*x+cos*y)),
				})
				if err != nil {
					return nil, err
				}
				ring = append(ring, contour.Point{X: float64(q.X), Y: float64(q.Y)})
			}
		}
		out = append(out, ring)
	}
	return out, nil
}

// panelOf brings a border into the plane and fits its sides.
func (r *reading) panelOf(seen contour.Panel, set settings) (panel, error) {
	points := make([]shape.Point, len(seen.Border))
	for i, q := range seen.Border {
		var err error
		if points[i], err = r.view.Point(photo.Pixel{X: shape.Pixels(q.X), Y: shape.Pixels(q.Y)}); err != nil {
			return panel{}, inPhoto(err)
		}
	}
	q := panel{seen: seen}
	var err error
	if q.lies, q.fit, err = photo.Fit(points, photo.FitOptions{Tolerance: set.tolerance}); err != nil {
		return panel{}, fmt.Errorf("its border: %w", err)
	}
	if q.off, err = r.view.ErrorOf(q.lies); err != nil {
		return panel{}, err
	}
	if len(q.lies.Edges()) == 4 { // from the lower left corner
		q.lies, err = q.lies.Renamed("bottom", "right", "top", "left")
	}
	return q, err
}
