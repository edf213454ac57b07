package shape

import (
	"errors"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/camera"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// PhotoForm is an outline by points that were clicked in a photo, with marks in it
// whose true places were measured: four or more, round the panel and in its plane.
//
//	{"photo": {"width": 4000, "height": 3000,
//	  "marks": [{"seen": "964.6, 716.5", "at": "-300 mm, 262 mm"}, ...],
//	  "edges": [{"name": "front", "points": ["1012, 1980"]},
//	            {"name": "side", "points": ["2870, 1991", "2802, 1655", "2790, 1310"], "curve": true}, ...]}}
//
// The picture itself is not looked at. How places are found in it, see package
// photo. Four marks leave the bend of the lens open, which the error counts; eight
// find it.
//
// Drawing: allowance/doc/photo.svg
type PhotoForm struct {
	Width  int         `json:"width,omitzero"`  // of the picture, in pixels
	Height int         `json:"height,omitzero"` // of the picture, in pixels
	Marks  []PhotoMark `json:"marks,omitempty"` // four or more round the panel
	// Taped are the distances between the middles of the first four marks, taped when
	// no place of theirs is known: at the lower left, the lower right, the upper
	// right and the upper left, as bottom, right, top, left and diagonals of a
	// quadrilateral. The first mark is then at the origin, the second to its right.
	Taped *QuadrilateralForm `json:"taped,omitempty"`
	Edges []PhotoEdge        `json:"edges" required:"true" hint:"the edges in order round the panel"`
	// Straight says that lines are straight in the picture, as in a scan.
	Straight bool `json:"straight,omitzero"`
	// Clicked is the standard deviation of a clicked point, in pixels; 1 when not
	// given.
	Clicked Pixels `json:"clicked,omitzero"`
	// ScaleError is how far all places together may be off, either way, as on a
	// printed page that was not measured; nothing when not given.
	ScaleError unit.Ratio `json:"scale_error,omitzero"`
	// Thickness is how far the face of the panel lies above the marks.
	Thickness unit.Length `json:"thickness,omitzero"`
}

// PhotoMark is a mark in the plane of the panel: where the picture shows it, and its
// true place, Y up.
type PhotoMark struct {
	Seen Pixel  `json:"seen" required:"true" hint:"where the picture shows the mark"`
	At   *Point `json:"at,omitempty"` // its true place
	// Page is the number of the page that the mark is printed on, when places are
	// those on several pages that lie anywhere; the axes are those of page 0.
	Page int `json:"page,omitzero"`
}

// PhotoEdge is an edge of the outline. It runs from its first point through the
// others to the first point of the next edge.
type PhotoEdge struct {
	Name   string  `json:"name" required:"true" hint:"a name for the edge"`
	Points []Pixel `json:"points" required:"true" hint:"the corner where it begins, and points on its way"`
	Curve  bool    `json:"curve,omitzero"` // a smooth curve through the points, not straight lines
}

// PhotoError is how far an outline that was taken from a picture may be off, at 95 %,
// and what makes it up. Outline is the sum of the other three lengths.
type PhotoError struct {
	Outline   unit.Length `json:"outline"`   // no point of the outline is further off
	Picture   unit.Length `json:"picture"`   // from where marks and outline are seen
	Scale     unit.Length `json:"scale"`     // from the scale of the marks
	Thickness unit.Length `json:"thickness"` // from the thickness of the panel
	// Lengths is the share that lengths may be off by the scale alone.
	Lengths unit.Ratio `json:"lengths"`
	// Known tells whether Picture could be stated: four marks without a spread
	// leave nothing to judge by, and then it is zero.
	Known bool `json:"known"`
	// Unmeasured says that the scale was not measured and a usual one was taken.
	Unmeasured bool `json:"unmeasured,omitzero"`
}

const (
	// clickedSpread is how well an eye finds a point in a picture, in pixels.
	clickedSpread = 1
	// mostEdges and mostClicked bound what one photo may hold.
	mostEdges   = 200
	mostClicked = 2000
)

// view finds how the picture shows the plane of the panel; tolerance is how far the
// places of the marks, or the distances taped between them, may be off.
func (f PhotoForm) view(tolerance unit.Length) (*camera.View, error) {
	if len(f.Marks) == 0 {
		return nil, check.Required("marks", "four or more marks with their true places")
	}
	if err := check.Count("marks", len(f.Marks), 4, camera.Most); err != nil {
		return nil, err
	}
	if err := firstError(check.Ratio("clicked", unit.Ratio(f.Clicked), 0, 100),
		check.Ratio("scale_error", f.ScaleError, 0, 0.2), check.Length("thickness", f.Thickness, 0, 200*unit.Millimetre)); err != nil {
		return nil, err
	}
	places, err := f.marked(tolerance)
	if err != nil {
		return nil, err
	}
	var pages [][]camera.Mark
	names := map[unit.Path]unit.Path{}
	for i, m := range f.Marks {
		at := check.At("marks", i)
		if err := check.Count(at+".page", m.Page, 0, len(f.Marks)); err != nil {
			return nil, err
		}
		for len(pages) <= m.Page {
			pages = append(pages, nil)
		}
		names[camera.Path(m.Page, len(pages[m.Page]))] = unit.Path(at)
		pages[m.Page] = append(pages[m.Page], camera.Mark{Seen: camera.Point{X: float64(m.Seen.X), Y: float64(m.Seen.Y)}, At: places[i]})
	}
	sigma := float64(tolerance) / 1e6 / math.Sqrt(3)
	v, err := camera.See(f.Width, f.Height, pages, camera.Options{NoLens: f.Straight, Spread: f.clicked(), Place: sigma})
	if err != nil {
		return nil, renamed(err, names)
	}
	if len(v.Off) > 0 { // whoever clicked it can do it again
		o := v.Off[0]
		at := unit.Path("marks")
		if o.Mark >= 0 {
			at = names[camera.Path(o.Page, o.Mark)]
		}
		return nil, check.Refuse(at, camera.Pixels(o.By)+" off", camera.ErrMisfit, "a mark that fits the others: look where it was clicked and at its true place")
	}
	if t := float64(f.Thickness) / 1e6; 4*t > v.Camera().Height {
		return nil, check.Refuse("thickness", f.Thickness.String(), unit.ErrRange, "a camera at least four times as high")
	}
	return v, nil
}

// marked gives the places of the marks in millimetres: those written, and those that
// were taped.
func (f PhotoForm) marked(tolerance unit.Length) ([]camera.Point, error) {
	out := make([]camera.Point, len(f.Marks))
	taped := 0
	if f.Taped != nil {
		tp, err := f.Taped.taping(tolerance)
		if err != nil {
			return nil, unit.InField("taped", err)
		}
		corners, _, err := f.Taped.corners(tp.nominal())
		if err != nil {
			return nil, unit.InField("taped", err)
		}
		for i, c := range corners {
			out[i] = camera.Point{X: c.X / 1e6, Y: c.Y / 1e6}
		}
		taped = len(corners)
	}
	for i, m := range f.Marks {
		at := check.At("marks", i) + ".at"
		switch {
		case i < taped && m.Page != 0:
			return nil, check.Count(check.At("marks", i)+".page", m.Page, 0, 0)
		case i < taped && m.At != nil:
			return nil, check.Refuse(at, m.At.String(), unit.ErrRange, "no place: its distances were taped")
		case i < taped:
			continue
		case m.At == nil:
			return nil, check.Required(at, "the true place of the mark")
		}
		if err := checkPlace(*m.At); err != nil {
			return nil, unit.InField(at, inShape(err))
		}
		out[i] = millimetres(*m.At)
	}
	return out, nil
}

func (f PhotoForm) clicked() float64 {
	if f.Clicked == 0 {
		return clickedSpread
	}
	return float64(f.Clicked)
}

// renamed gives an error about marks on pages the field of the mark in the file.
func renamed(err error, names map[unit.Path]unit.Path) error {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return err
	}
	out := *in
	for page, mark := range names {
		if rest, ok := cutPath(in.Field, page); ok {
			out.Field = mark + rest
			return &out
		}
	}
	if in.Field.Under("pages") {
		out.Field = "marks"
	}
	return &out
}

// cutPath takes a path off the front of another.
func cutPath(p, front unit.Path) (rest unit.Path, ok bool) {
	if p == front {
		return "", true
	}
	if len(p) > len(front) && p[:len(front)] == front && p[len(front)] == '.' {
		return p[len(front):], true
	}
	return "", false
}

func millimetres(p Point) camera.Point {
	return camera.Point{X: float64(p.X) / 1e6, Y: float64(p.Y) / 1e6}
}

// outline gives the outline in the axes of the marks.
func (f PhotoForm) outline(tolerance unit.Length) (Outline, error) {
	v, err := f.view(tolerance)
	if err != nil {
		return Outline{}, err
	}
	places, err := f.places(v)
	if err != nil {
		return Outline{}, err
	}
	sides := make([]side, len(f.Edges))
	for i, e := range f.Edges {
		ps := slices.Concat(places[i], places[(i+1)%len(places)][:1])
		sides[i].name = e.Name
		if e.Curve {
			path, bad := geom.Through(ps)
			if bad >= 0 {
				at := check.At("edges", i) + "." + check.At("points", min(bad, len(e.Points)-1))
				return Outline{}, check.Refuse(at, e.Points[min(bad, len(e.Points)-1)].text(), unit.ErrRange, "points that lie closer together where a curve turns sharply")
			}
			sides[i].path = path
			continue
		}
		for k := range ps[1:] {
			sides[i].path = append(sides[i].path, geom.LineTo(ps[k], ps[k+1]))
		}
	}
	return newOutline(sides)
}

// places gives the places of the points of every edge.
func (f PhotoForm) places(v *camera.View) ([][]geom.Point, error) {
	if err := check.Count("edges", len(f.Edges), 1, mostEdges); err != nil {
		return nil, err
	}
	out := make([][]geom.Point, len(f.Edges))
	total := 0
	last := Pixel{X: -1}
	for i, e := range f.Edges {
		at := check.At("edges", i)
		if total += len(e.Points); len(e.Points) == 0 || total > mostClicked {
			return nil, check.Count(at+".points", len(e.Points), 1, mostClicked-total+len(e.Points))
		}
		for k, p := range e.Points {
			at := at + "." + check.At("points", k)
			if p == last {
				return nil, check.Refuse(at, p.text(), unit.ErrRange, "another pixel than the one before; an edge ends where the next one begins")
			}
			last = p
			q, err := f.place(v, at, p)
			if err != nil {
				return nil, err
			}
			out[i] = append(out[i], q)
		}
	}
	if total > 1 && last == f.Edges[0].Points[0] {
		return nil, check.Refuse(check.At("edges", len(f.Edges)-1)+".points", last.text(), unit.ErrRange, "an edge that does not come back to the first point: it ends there by itself")
	}
	return out, nil
}

// Seen gives the places that pixels of the photo show, in the axes of its marks,
// beside those of the outline. The outline must stay there: not mirrored, turned or
// put elsewhere. A pixel is named "pixels[0]" in errors; others are those of Outline.
func (s Form) Seen(pixels ...Pixel) ([]Point, error) {
	switch {
	case s.Photo == nil:
		return nil, check.Required("photo", "an outline that is a photo, with its marks")
	case s.Mirrored || s.QuarterTurns != 0 || s.At != nil:
		return nil, check.Refuse("", "", unit.ErrRange, "an outline that stays where the marks of its photo place it, not mirrored, turned or put elsewhere")
	}
	tolerance, err := tapeTolerance(s.Tolerance)
	if err != nil {
		return nil, err
	}
	v, err := s.Photo.view(tolerance)
	if err != nil {
		return nil, unit.InField("photo", err)
	}
	out := make([]Point, len(pixels))
	for i, p := range pixels {
		q, err := s.Photo.place(v, check.At("pixels", i), p)
		if err != nil {
			return nil, err
		}
		out[i] = fromGrid(q)
	}
	return out, nil
}

// place gives the place on the face of the panel that a pixel shows.
func (f PhotoForm) place(v *camera.View, field string, p Pixel) (geom.Point, error) {
	q, err := v.Place(unit.Path(field), camera.Point{X: float64(p.X), Y: float64(p.Y)})
	if err != nil {
		return geom.Point{}, err
	}
	q = v.Camera().Lower(q, float64(f.Thickness)/1e6)
	return geom.Point{X: int64(math.Round(q.X * 1e6)), Y: int64(math.Round(q.Y * 1e6))}, nil
}

// accuracy is how far an outline of the photo may be off as a shape.
func (f PhotoForm) accuracy(o Outline, tolerance unit.Length) (PhotoError, error) {
	v, err := f.view(tolerance)
	if err != nil {
		return PhotoError{}, err
	}
	corners, err := o.Flatten(0)
	if err != nil {
		return PhotoError{}, err
	}
	b := v.Budget(mapped(corners, millimetres), f.clicked(), float64(f.ScaleError), float64(f.Thickness)/1e6)
	nm := func(mm float64) unit.Length { return rounded(float64(mm * 1e6)) }
	e := PhotoError{Picture: nm(b.Picture), Scale: nm(b.Scale), Thickness: nm(b.Thickness), Lengths: f.ScaleError, Known: true}
	e.Outline = e.Picture + e.Scale + e.Thickness
	return e, nil
}
