package shape

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Split gives the outline with one edge made several, called names in their
// order anticlockwise. Each place, a length from the start of the edge, ends
// one and begins the next: there is one place fewer than names. Places rise,
// and every part is at least 10 micrometres long. [Outline.Joined] undoes it.
func (o Outline) Split(edge string, places []unit.Length, names []string) (Outline, error) {
	s, err := o.find(edge)
	if err != nil {
		return Outline{}, err
	}
	if err := check.Count("names", len(names), len(places)+1, len(places)+1); err != nil {
		return Outline{}, err
	}
	const least = 10 * unit.Micrometre
	end := s.length()
	parts := make([]side, len(names))
	rest, done := s.path, unit.Length(0)
	for i, at := range places {
		if err := check.Length(check.At("places", i), at, done+least, end-least); err != nil {
			return Outline{}, err
		}
		parts[i].name = names[i]
		parts[i].path, rest = splitPath(rest, float64(at-done))
		done = at
	}
	parts[len(places)] = side{names[len(places)], rest}
	var sides []side
	seen := map[string]bool{}
	for _, old := range o.sides {
		if old.name != edge {
			sides = append(sides, old)
			seen[old.name] = true
			continue
		}
		sides = append(sides, parts...)
	}
	for i, name := range names {
		if name == "" || seen[name] {
			return Outline{}, check.Refuse(check.At("names", i), name, unit.ErrRange, "a name no other edge has")
		}
		seen[name] = true
	}
	return seal(sides), nil
}

// splitPath divides a path at a length from its start.
func splitPath(path []geom.Segment, l float64) (before, after []geom.Segment) {
	for i, g := range path {
		length := g.Length()
		switch {
		case l >= length-0.5 && i < len(path)-1:
			l -= length
			before = append(before, g)
			if l < 0.5 {
				return before, path[i+1:]
			}
		case l < 0.5: // at the corner before g
			return before, path[i:]
		default:
			a, b := g.Split(g.ParameterAt(l))
			return append(before, a), append([]geom.Segment{b}, path[i+1:]...)
		}
	}
	return before, nil
}
