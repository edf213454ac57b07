package shape

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/unit"
)

// Form is an outline as a file writes it: one of the constructors by its
// name, with its measurements.
//
// [Form.Outline] makes the outline.
//
//	{"rectangle": {"width": "22 in", "height": "20 in"}}
//	{"crowned": {"width": "22 in", "height": "24 in", "rise": "1 1/2 in"}, "names": ["seat rail", "right", "crown", "left"]}
//	{"path": {"data": "M 0 0 h 22 v 20 h -22 z", "unit": "1 in"}, "names": ["front", "side", "back", "other side"]}
//	{"half": {"from": "0 in, 0 in", "edges": [
//	  {"name": "front", "pieces": [{"to": "11 in, 0 in"}]},
//	  {"name": "side", "pieces": [{"to": "9 in, 16 in", "rise": "1/2 in"}]},
//	  {"name": "back", "pieces": [{"to": "0 in, 17 in", "by": ["5 in, 17 in"]}]}]}}
//
// Exactly one shape must be given. The zero value is refused.
type Form struct {
	Rectangle        *RectangleForm        `json:"rectangle,omitempty"`         // a rectangle
	RoundedRectangle *RoundedRectangleForm `json:"rounded_rectangle,omitempty"` // a rectangle with round corners
	Trapezoid        *TrapezoidForm        `json:"trapezoid,omitempty"`         // a trapezoid with a level bottom and top
	Triangle         *TriangleForm         `json:"triangle,omitempty"`          // a triangle by its sides
	Circle           *CircleForm           `json:"circle,omitempty"`            // a circle
	Ellipse          *EllipseForm          `json:"ellipse,omitempty"`           // an ellipse by its axes
	Stadium          *StadiumForm          `json:"stadium,omitempty"`           // a rectangle with half-round ends
	RegularPolygon   *RegularPolygonForm   `json:"regular_polygon,omitempty"`   // a polygon of equal sides
	Polygon          *PolygonForm          `json:"polygon,omitempty"`           // a polygon by its corners
	Chord            *ChordForm            `json:"chord,omitempty"`             // the piece between a straight edge and an arc
	Crowned          *CrownedForm          `json:"crowned,omitempty"`           // a rectangle whose top is an arc
	Stations         *StationsForm         `json:"stations,omitempty"`          // widths measured at several heights
	Offsets          *OffsetsForm          `json:"offsets,omitempty"`           // offsets measured from a straight edge at even steps
	Quadrilateral    *QuadrilateralForm    `json:"quadrilateral,omitempty"`     // four sides and a diagonal, or both
	Baseline         *BaselineForm         `json:"baseline,omitempty"`          // corners measured from both ends of a baseline
	Path             *PathForm             `json:"path,omitempty"`              // SVG path data
	// Trace is an outline traced piece by piece, all round.
	Trace *TraceForm `json:"trace,omitempty"`
	// Half is one half, traced from the upright centre line and back to it.
	Half *TraceForm `json:"half,omitempty"`
	// Photo is an outline by points that were clicked in a photo.
	Photo *PhotoForm `json:"photo,omitempty"`

	// Tolerance is how far each measure may be off, for quadrilateral, baseline,
	// offsets and stations 1/16 in when not given; more than 66 stations are then
	// taken as drawn, not measured. Chord, crowned and polygon, of which every
	// coordinate is a measure, are drawn unless it is given. Of a photo it is how far
	// the places of the marks, or the distances between them, may be off: 1/16 in when
	// not given. The work order says what it makes of the sizes.
	Tolerance unit.Length `json:"tolerance,omitzero"`

	// Names are new names for the edges, one for each, in the order of the
	// shape: as drawn for a polygon and a path, anticlockwise from the bottom
	// for the others. Neighbours given the same name become one edge.
	Names []string `json:"names,omitempty"`
	// Mirrored turns the outline over left for right, for the other hand of a
	// pair. Edges keep their names.
	Mirrored bool `json:"mirrored,omitempty"`
	// QuarterTurns turns the outline anticlockwise, after Mirrored; from -3 to 3.
	QuarterTurns int `json:"quarter_turns,omitempty"`
	// At is where the lower left corner of the box round the outline is put,
	// after turning; where it was drawn when not given.
	At *Point `json:"at,omitempty"`
}

// RectangleForm is Rectangle in a file.
type RectangleForm struct {
	Width  unit.Length `json:"width" required:"true" hint:"the width across the goods"`
	Height unit.Length `json:"height" required:"true" hint:"the height along the grain"`
}

// RoundedRectangleForm is RoundedRectangle in a file: one radius for
// all corners, or radii for single ones.
type RoundedRectangleForm struct {
	Width  unit.Length  `json:"width" required:"true" hint:"the width across the goods"`
	Height unit.Length  `json:"height" required:"true" hint:"the height along the grain"`
	Radius unit.Length  `json:"radius,omitzero"` // of all corners; or Radii
	Radii  *CornerRadii `json:"radii,omitempty"` // of single corners
}

// TrapezoidForm is Trapezoid in a file. Without a shift it is the same
// on both sides.
type TrapezoidForm struct {
	Bottom unit.Length  `json:"bottom" required:"true" hint:"the width at the bottom"`
	Top    unit.Length  `json:"top" required:"true" hint:"the width at the top"`
	Height unit.Length  `json:"height" required:"true" hint:"the height along the grain"`
	Shift  *unit.Length `json:"shift,omitempty"` // of the left end of the top, to the right
}

// TriangleForm is Triangle in a file.
type TriangleForm struct {
	Base  unit.Length `json:"base" required:"true" hint:"the side along the bottom"`
	Right unit.Length `json:"right" required:"true" hint:"the right side"`
	Left  unit.Length `json:"left" required:"true" hint:"the left side"`
}

// CircleForm is Circle in a file.
type CircleForm struct {
	Diameter unit.Length `json:"diameter" required:"true" hint:"the diameter"`
}

// EllipseForm is Ellipse in a file.
type EllipseForm struct {
	Width  unit.Length `json:"width" required:"true" hint:"the full width across the goods"`
	Height unit.Length `json:"height" required:"true" hint:"the full height along the grain"`
}

// StadiumForm is Stadium in a file.
type StadiumForm struct {
	Length unit.Length `json:"length" required:"true" hint:"the overall length across the goods"`
	Width  unit.Length `json:"width" required:"true" hint:"the width, less than the length"`
}

// RegularPolygonForm is RegularPolygon in a file.
type RegularPolygonForm struct {
	Sides      int         `json:"sides" required:"true" hint:"the number of sides, from 3"`
	SideLength unit.Length `json:"side_length" required:"true" hint:"the length of one side"`
}

// PolygonForm is Polygon in a file.
type PolygonForm struct {
	Corners []Point `json:"corners" required:"true" hint:"corners such as \"3 in, 4 in\""`
}

// ChordForm is Chord in a file: with the rise of its arc, or a point that the arc
// runs through.
type ChordForm struct {
	Chord unit.Length `json:"chord" required:"true" hint:"the length of the straight edge"`
	Rise  unit.Length `json:"rise,omitzero"` // how far the arc rises over the middle of the chord
	// Through is a point of the arc: along the chord from its left end, and over it.
	Through *Point `json:"through,omitempty"`
}

// CrownedForm is Crowned in a file.
type CrownedForm struct {
	Width  unit.Length `json:"width" required:"true" hint:"the width across the goods"`
	Height unit.Length `json:"height" required:"true" hint:"the height at the sides"`
	Rise   unit.Length `json:"rise" required:"true" hint:"how much higher the middle stands"`
}

// StationsForm is Stations in a file.
type StationsForm struct {
	Smooth bool          `json:"smooth,omitempty"` // curves through the measured points
	At     []StationForm `json:"at" required:"true" hint:"two or more stations, foot first"`
	// AlongTolerance is how far a place along the line may be off; as far as a width
	// when not given.
	AlongTolerance *unit.Length `json:"along_tolerance,omitempty"`
}

// StationForm is a width measured across the centre line: the full width, or
// its parts to the left and to the right of the line.
type StationForm struct {
	Along unit.Length  `json:"along" required:"true" hint:"how far up the centre line"`
	Width *unit.Length `json:"width,omitempty"` // the full width; or Left and Right
	Left  *unit.Length `json:"left,omitempty"`  // from the centre line to the left
	Right *unit.Length `json:"right,omitempty"` // from the centre line to the right
}

// PathForm is Path in a file.
type PathForm struct {
	Data string      `json:"data" required:"true" hint:"SVG path data such as \"M 0 0 h 22 v 20 h -22 z\""`
	Unit unit.Length `json:"unit" required:"true" hint:"the length of one user unit, such as \"1 mm\""`
}

// TraceForm is a Trace in a file. A whole outline that is left open is closed
// by a straight piece.
type TraceForm struct {
	From  Point      `json:"from" required:"true" hint:"a point such as \"0 in, 0 in\""`
	Edges []EdgeForm `json:"edges" required:"true" hint:"named edges"`
}

// EdgeForm is a named edge and its pieces, in order.
type EdgeForm struct {
	Name   string      `json:"name" required:"true" hint:"a name for the edge"`
	Pieces []PieceForm `json:"pieces" required:"true" hint:"pieces such as {\"to\": \"22 in, 0 in\"}"`
}

// PieceForm goes on to a point: straight, or along an arc that rises over its
// chord (see Trace.Arc) or runs through a point, or along a curve with one or two
// control points.
// Bulge, Ellipse and Reversed are the exact forms that Outline.Shape writes.
type PieceForm struct {
	To      Point       `json:"to" required:"true" hint:"a point such as \"22 in, 0 in\""`
	Rise    unit.Length `json:"rise,omitzero"`     // of an arc over its chord, to the right of the way
	Through *Point      `json:"through,omitempty"` // a point of an arc, in place of its rise
	By      []Point     `json:"by,omitempty"`      // control points of a curve, one or two
	// Bulge of an arc of a circle is the tangent of a quarter of its angle,
	// above zero when it turns left.
	Bulge   unit.Ratio  `json:"bulge,omitzero"`
	Ellipse *EllipseArc `json:"ellipse,omitempty"` // an arc of an ellipse, in its exact form
	// Reversed says that the piece was made in the other direction, which
	// decides the chords that stand for it.
	Reversed bool `json:"reversed,omitempty"`
}

// Outline makes the outline. Errors are *unit.InputError values that name the
// field, such as "crowned.rise" or "trace.edges[1].pieces[0].to".
func (s Form) Outline() (Outline, error) {
	o, err := s.plain()
	if err != nil {
		return Outline{}, err
	}
	if o, err = s.turned(o); err != nil {
		return Outline{}, err
	}
	if s.At == nil {
		return o, nil
	}
	low, _ := o.Bounds()
	if err := checkPlace(*s.At); err != nil {
		return Outline{}, unit.InField("at", inShape(err))
	}
	moved, err := o.toOrigin()
	if err == nil && low != *s.At {
		moved, err = moved.Moved(*s.At)
	} else if err == nil {
		moved = o
	}
	return moved, unit.InField("at", inShape(err))
}

// turned names, mirrors and turns the outline as the form says.
func (s Form) turned(o Outline) (Outline, error) {
	var err error
	if s.Names != nil {
		if o, err = o.named(s.Names); err != nil {
			return Outline{}, err
		}
	}
	if err := check.Count("quarter_turns", s.QuarterTurns, -3, 3); err != nil {
		return Outline{}, err
	}
	if s.Mirrored {
		o = o.Mirrored()
	}
	if s.QuarterTurns != 0 {
		o = o.Turned(s.QuarterTurns)
	}
	return o, nil
}

// shapeNames are the fields of Form of which one must be given.
var shapeNames = []string{"rectangle", "rounded_rectangle", "trapezoid", "triangle", "circle", "ellipse", "stadium", "regular_polygon",
	"polygon", "chord", "crowned", "stations", "offsets", "quadrilateral", "baseline", "path", "trace", "half", "photo"}

// plain makes the outline of the one shape that is given.
func (s Form) plain() (Outline, error) {
	tolerance, err := tapeTolerance(s.Tolerance)
	if err != nil {
		return Outline{}, err
	}
	makers := make([]func() (Outline, error), len(shapeNames))
	for i, given := range []bool{s.Rectangle != nil, s.RoundedRectangle != nil, s.Trapezoid != nil, s.Triangle != nil, s.Circle != nil,
		s.Ellipse != nil, s.Stadium != nil, s.RegularPolygon != nil, s.Polygon != nil, s.Chord != nil, s.Crowned != nil,
		s.Stations != nil, s.Offsets != nil, s.Quadrilateral != nil, s.Baseline != nil, s.Path != nil, s.Trace != nil, s.Half != nil, s.Photo != nil} {
		if given {
			makers[i] = [...]func() (Outline, error){
				func() (Outline, error) { return Rectangle(s.Rectangle.Width, s.Rectangle.Height) },
				func() (Outline, error) { return s.RoundedRectangle.outline() },
				func() (Outline, error) { return s.Trapezoid.outline() },
				func() (Outline, error) { return Triangle(s.Triangle.Base, s.Triangle.Right, s.Triangle.Left) },
				func() (Outline, error) { return Circle(s.Circle.Diameter) },
				func() (Outline, error) { return Ellipse(s.Ellipse.Width, s.Ellipse.Height) },
				func() (Outline, error) { return Stadium(s.Stadium.Length, s.Stadium.Width) },
				func() (Outline, error) {
					return RegularPolygon(s.RegularPolygon.Sides, s.RegularPolygon.SideLength)
				},
				func() (Outline, error) { return Polygon(s.Polygon.Corners...) },
				func() (Outline, error) { return s.Chord.outline() },
				func() (Outline, error) { return Crowned(s.Crowned.Width, s.Crowned.Height, s.Crowned.Rise) },
				func() (Outline, error) { return s.Stations.outline() },
				func() (Outline, error) { return s.Offsets.outline() },
				func() (Outline, error) { return s.Quadrilateral.outline(tolerance) },
				func() (Outline, error) { return s.Baseline.outline(tolerance) },
				func() (Outline, error) { return Path(s.Path.Data, s.Path.Unit) },
				func() (Outline, error) { return s.Trace.outline(false) },
				func() (Outline, error) { return s.Half.outline(true) },
				func() (Outline, error) { return s.Photo.outline(tolerance) },
			}[i]
		}
	}
	found := -1
	for i, m := range makers {
		if m == nil {
			continue
		}
		if found >= 0 {
			return Outline{}, check.Refuse(shapeNames[i], "", unit.ErrRange, "one shape; "+shapeNames[found]+" is given too")
		}
		found = i
	}
	if found < 0 {
		return Outline{}, check.Required("", "one of "+strings.Join(shapeNames, ", "))
	}
	o, err := makers[found]()
	return o, unit.InField(shapeNames[found], inShape(err))
}

// inShape renames the parameters of the constructors to the fields of a shape.
func inShape(err error) error {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return err
	}
	out := *in
	switch in.Field {
	case "outline":
		out.Field = ""
	case "n":
		out.Field = "sides"
	case "user":
		out.Field = "unit"
	}
	return &out
}

func (r RoundedRectangleForm) outline() (Outline, error) {
	if r.Radii == nil {
		o, err := RoundedRectangle(r.Width, r.Height, SameRadii(r.Radius))
		var in *unit.InputError
		if errors.As(err, &in) && in.Field.Under("radii") {
			return Outline{}, check.Refuse("radius", in.Value, in.Err, in.Want)
		}
		return o, err
	}
	if r.Radius != 0 {
		return Outline{}, check.Refuse("radius", r.Radius.String(), unit.ErrRange, "radius or radii, not both")
	}
	return RoundedRectangle(r.Width, r.Height, *r.Radii)
}

func (t TrapezoidForm) outline() (Outline, error) {
	if t.Shift != nil {
		return Trapezoid(t.Bottom, t.Top, t.Height, *t.Shift)
	}
	if err := firstError(checkSize("bottom", t.Bottom), checkSize("top", t.Top)); err != nil {
		return Outline{}, err
	}
	return Trapezoid(t.Bottom, t.Top, t.Height, (t.Bottom-t.Top)/2)
}

func (c ChordForm) outline() (Outline, error) {
	switch {
	case c.Through == nil:
		return Chord(c.Chord, c.Rise)
	case c.Rise != 0:
		return Outline{}, check.Refuse("rise", c.Rise.String(), unit.ErrRange, "rise or through, not both")
	}
	if err := checkSize("chord", c.Chord); err != nil {
		return Outline{}, err
	}
	if c.Through.Y <= 0 {
		return Outline{}, check.Refuse("through", c.Through.String(), unit.ErrRange, "a point over the chord")
	}
	o, err := TraceFrom(Point{}).
		Edge("chord").Line(at(c.Chord, 0)).
		Edge("arc").ArcThrough(*c.Through, Point{}).Close()
	if err != nil {
		return Outline{}, err
	}
	return o.toOrigin()
}

func (s StationsForm) outline() (Outline, error) {
	if err := check.Count("at", len(s.At), 2, 10_000); err != nil {
		return Outline{}, err
	}
	if err := checkAlong(s.AlongTolerance); err != nil {
		return Outline{}, err
	}
	stations := make([]Station, len(s.At))
	for i, q := range s.At {
		f := check.At("at", i)
		switch {
		case q.Width != nil && (q.Left != nil || q.Right != nil):
			return Outline{}, check.Refuse(f+".width", q.Width.String(), unit.ErrRange, "width, or left and right, not both")
		case q.Width != nil:
			if err := check.Length(f+".width", *q.Width, 0, widestShape); err != nil {
				return Outline{}, err
			}
			stations[i] = CentredStation(q.Along, *q.Width)
		case q.Left != nil && q.Right != nil:
			stations[i] = Station{q.Along, *q.Left, *q.Right}
		default:
			return Outline{}, check.Required(f+".width", "a width, or left and right")
		}
	}
	o, err := Stations(stations, s.Smooth)
	var in *unit.InputError
	if errors.As(err, &in) {
		out := *in
		if name, i, indexed, rest := in.Field.Head(); name == "stations" {
			if rest == "at" {
				rest = "along"
			}
			out.Field = "at"
			if indexed {
				out.Field = out.Field.At(i).Dot(rest)
			}
		}
		return Outline{}, &out
	}
	return o, err
}

func (s TraceForm) outline(half bool) (Outline, error) {
	t := TraceFrom(s.From)
	if t.err != nil {
		return Outline{}, unit.InField("from", inShape(t.err))
	}
	for i, e := range s.Edges {
		f := check.At("edges", i)
		t.Edge(e.Name)
		for k, p := range e.Pieces {
			if err := p.addTo(t); err != nil {
				return Outline{}, unit.InField(f+"."+check.At("pieces", k), err)
			}
		}
	}
	if half {
		o, err := Half(t)
		var in *unit.InputError
		if errors.As(err, &in) && in.Field == "half" {
			return Outline{}, check.Refuse("", in.Value, in.Err, in.Want)
		}
		return o, err
	}
	return t.Close()
}

func (p PieceForm) addTo(t *Trace) error {
	given := 0
	for _, g := range []bool{p.Rise != 0, p.Through != nil, p.By != nil, p.Bulge != 0, p.Ellipse != nil} {
		if g {
			given++
		}
	}
	if given > 1 {
		return check.Refuse("", "", unit.ErrRange, "one of rise, through, by, bulge and ellipse, not several")
	}
	switch {
	case p.Rise != 0:
		t.Arc(p.To, p.Rise)
	case p.Through != nil:
		t.ArcThrough(*p.Through, p.To)
	case p.By != nil:
		switch len(p.By) {
		case 1:
			t.Quadratic(p.By[0], p.To)
		case 2:
			t.Cubic(p.By[0], p.By[1], p.To)
		default:
			return check.Count("by", len(p.By), 1, 2)
		}
	case p.Bulge != 0:
		if err := check.Ratio("bulge", p.Bulge, -1e6, 1e6); err != nil {
			return err
		}
		if t.place(p.To) {
			t.add(geom.ArcTo(t.at, p.To.grid(), float64(p.Bulge)))
		}
	case p.Ellipse != nil:
		if t.place(p.To) {
			if !p.Ellipse.joins(t.at, p.To.grid()) {
				return check.Refuse("ellipse", p.Ellipse.String(), unit.ErrRange, "an arc that ends at "+p.To.String())
			}
			t.add(p.Ellipse.segment(t.at, p.To.grid()))
		}
	default:
		t.Line(p.To)
	}
	if t.err != nil {
		var in *unit.InputError
		if errors.As(t.err, &in) && in.Field == "outline" {
			return unit.InField("to", inShape(t.err))
		}
		return t.err
	}
	if p.Reversed && given > 0 { // a straight piece runs the same both ways
		last := &t.sides[len(t.sides)-1]
		s := &last.path[len(last.path)-1]
		*s = s.MadeBackwards()
	}
	return nil
}

// named gives the edges new names, in the order of the shape, and joins
// neighbours of the same name.
func (o Outline) named(names []string) (Outline, error) {
	if len(names) != len(o.sides) {
		return Outline{}, check.Count("names", len(names), len(o.sides), len(o.sides))
	}
	// The edges of a polygon or a path that was drawn clockwise stand in the
	// other order.
	sides := slices.Clone(o.sides)
	n := len(sides)
	back := n > 1 && sides[0].name == sideName(n) && sides[n-1].name == sideName(1)
	for i := range sides {
		k := i
		if back {
			k = n - 1 - i
		}
		if names[k] == "" {
			return Outline{}, check.Required(check.At("names", k), "a name for the edge")
		}
		sides[i].name = names[k]
	}
	// Start where one edge ends and another begins.
	first := 0
	for first < n-1 && sides[first].name == sides[(first+n-1)%n].name {
		first++
	}
	if sides[first].name == sides[(first+n-1)%n].name {
		first = 0 // one name all round
	}
	var out []side
	for i := range n {
		s := sides[(first+i)%n]
		if k := len(out); k > 0 && out[k-1].name == s.name {
			out[k-1].path = append(slices.Clip(out[k-1].path), s.path...)
			continue
		}
		out = append(out, s)
	}
	seen := map[string]bool{}
	for _, s := range out {
		if seen[s.name] {
			return Outline{}, check.Refuse("names", s.name, unit.ErrRange, "one run of edges for each name")
		}
		seen[s.name] = true
	}
	return seal(out), nil
}

// Form gives the exact form of the outline: a trace of which every piece
// reads back as it was. The zero value gives the zero Shape.
func (o Outline) Shape() Form {
	if o.IsZero() {
		return Form{}
	}
	t := &TraceForm{From: fromGrid(o.whole[0].From), Edges: make([]EdgeForm, len(o.sides))}
	for i, s := range o.sides {
		t.Edges[i] = EdgeForm{Name: s.name, Pieces: mapped(s.path, pieceOf)}
	}
	return Form{Trace: t}
}

func pieceOf(s geom.Segment) PieceForm {
	p := PieceForm{To: fromGrid(s.To), Reversed: s.Backwards()}
	switch s.Kind {
	case geom.Line:
	case geom.Arc:
		p.Bulge = unit.Ratio(s.Bulge)
	case geom.EllipticArc:
		p.Ellipse = &EllipseArc{s.U, s.V, s.T0, s.T1}
	case geom.Quadratic:
		p.By = []Point{fromGrid(s.C1)}
	case geom.Cubic:
		p.By = []Point{fromGrid(s.C1), fromGrid(s.C2)}
	}
	return p
}

// MarshalJSON writes the exact form of the outline; see Outline.Shape. No
// outline is null.
func (o Outline) MarshalJSON() ([]byte, error) {
	if o.IsZero() {
		return []byte("null"), nil
	}
	return json.Marshal(o.Shape())
}

// UnmarshalJSON reads an outline as Shape describes it; null is no outline. Every
// fault of the text is reported; each wraps an *unit.InputError that names its
// field. Fields that are not known are refused.
func (o *Outline) UnmarshalJSON(text []byte) error {
	if string(bytes.TrimSpace(text)) == "null" {
		*o = Outline{}
		return nil
	}
	doc, err := strictjson.Parse(bytes.NewReader(text))
	if err != nil {
		return err
	}
	var s Form
	if err := doc.Decode(&s); err != nil {
		var faults strictjson.Faults
		if !errors.As(err, &faults) {
			return err
		}
		// The line would count from the start of this value, not of the file.
		errs := make([]error, len(faults))
		for i, f := range faults {
			errs[i] = f.Err
		}
		return errors.Join(errs...)
	}
	made, err := s.Outline()
	if err == nil {
		*o = made
	}
	return err
}
