package shape

import (
	"strconv"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// TracedCut gives the cut line of an outline as somebody would trace it: by its
// chords, each of them part of the edge that it came from, and the pieces at
// corners edges of their own.
func (o Outline) TracedCut(opt OffsetOptions, distances []unit.Length) (Outline, error) {
	s, err := o.strips(opt, distances)
	if err != nil {
		return Outline{}, err
	}
	_, ring, err := s.moved(distances)
	if err != nil {
		return Outline{}, err
	}
	var sides []side
	corners := 0
	for i, from := range ring.Origin {
		name := o.sideOf(s.of[from.Edge])
		if from.Corner {
			name = "corner " + strconv.Itoa(corners)
			corners++
		} else if from.Inset == 0 && distances[s.side[s.of[from.Edge]]] != 0 {
			name = "step " + strconv.Itoa(i)
		}
		g := geom.LineTo(ring.Ring[i], ring.Ring[(i+1)%len(ring.Ring)])
		if m := len(sides); m > 0 && sides[m-1].name == name {
			sides[m-1].path = append(sides[m-1].path, g)
			continue
		}
		sides = append(sides, side{name, []geom.Segment{g}})
	}
	if m := len(sides); m > 1 && sides[0].name == sides[m-1].name {
		sides[0].path = append(sides[m-1].path, sides[0].path...)
		sides = sides[:m-1]
	}
	return newOutline(sides)
}
