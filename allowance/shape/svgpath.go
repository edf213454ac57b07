package shape

import (
	"errors"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// ErrPathSyntax says path data does not follow the grammar.
var ErrPathSyntax = errors.New("path data malformed")

// Path gives an outline from path data as the W3C defines it in Scalable
// Vector Graphics (SVG), chapter Paths: all of M L H V C S Q T A Z, absolute and
// relative. One user unit is the length given, such as unit.Millimetre; from 1
// micrometre to 1 metre. A drawing's y axis points down, so the outline is
// turned over to stand upright, and its lower left corner moved to the origin.
//
// The data must hold one subpath; an open one is closed by a straight piece.
// Each piece is an edge of its own, named "side 1", "side 2" and so on in the
// order drawn; see Outline.Renamed, and Outline.Joined to make several one.
//
// Errors are *unit.InputError values: ErrPathSyntax with the byte position,
// unit.ErrRange, ErrTooComplex or a *CrossingError.
func Path(data string, user unit.Length) (Outline, error) {
	if user < unit.Micrometre || user > unit.Metre {
		return Outline{}, check.Refuse("user", user.String(), unit.ErrRange, "from 1 micrometre to 1 metre")
	}
	paths, err := geom.ParsePath(data, float64(user))
	if err != nil {
		return Outline{}, pathError(err)
	}
	if len(paths) != 1 {
		return Outline{}, check.Refuse("data", strconv.Itoa(len(paths))+" subpaths", unit.ErrRange, "one subpath, the outline of one panel")
	}
	p := paths[0]
	// Pieces without length are no edges.
	var sides []side
	for _, s := range p.Segments {
		if s.From == s.To && s.Length() == 0 {
			continue
		}
		sides = append(sides, side{sideName(len(sides) + 1), []geom.Segment{s}})
	}
	if n := len(p.Segments); !p.Closed() {
		sides = append(sides, side{sideName(len(sides) + 1), []geom.Segment{geom.LineTo(p.Segments[n-1].To, p.Segments[0].From)}})
	}
	if len(sides) > 100_000 {
		return Outline{}, check.Refuse("data", strconv.Itoa(len(sides))+" pieces", ErrTooComplex, "at most 100000 pieces")
	}
	upright := make([]side, len(sides))
	for i, s := range sides {
		upright[i] = side{s.name, mapped(s.path, func(g geom.Segment) geom.Segment { return g.Transform(geom.MirrorY) })}
	}
	o, err := newOutline(upright)
	var ce *CrossingError
	if errors.As(err, &ce) { // in the axes of the data
		return Outline{}, crossingAt(ce.First, ce.Second, Point{ce.At.X, -ce.At.Y})
	}
	if err != nil {
		return Outline{}, err
	}
	return o.toOrigin()
}

func pathError(err error) error {
	var pe *geom.PathError
	if !errors.As(err, &pe) {
		return outlineError(err)
	}
	kind := ErrPathSyntax
	switch {
	case errors.Is(err, geom.ErrRange):
		kind = unit.ErrRange
	case errors.Is(err, geom.ErrTooComplex):
		kind = ErrTooComplex
	}
	return check.Refuse("data", "at byte "+strconv.Itoa(pe.Offset), kind, pe.Want)
}

// Joined gives the outline with a run of edges made one edge called name: from
// edge first anticlockwise to edge last, both included.
func (o Outline) Joined(name, first, last string) (Outline, error) {
	if _, err := o.find(first); err != nil {
		return Outline{}, unit.InField("first", err)
	}
	if _, err := o.find(last); err != nil {
		return Outline{}, unit.InField("last", err)
	}
	n := len(o.sides)
	k := 0
	for o.sides[k].name != first {
		k++
	}
	var run side
	run.name = name
	sides := make([]side, 0, n)
	done := false
	for i := range n {
		s := o.sides[(k+i)%n]
		if done {
			sides = append(sides, s)
			continue
		}
		run.path = append(run.path, s.path...)
		if s.name == last {
			done = true
			sides = append(sides, run)
		}
	}
	return newOutline(sides)
}
