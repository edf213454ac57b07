package evaluate

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// lineEvaluators are those of lines and points of an outline: chords, marks,
// offsets, stretch.
var lineEvaluators = map[string]reference.Evaluator{
	"outline_mark": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := outline(in)
		if err != nil {
			return reference.Value{}, err
		}
		at, off, err := o.Mark(in.Text("edge"), in.Length("at"), in.Length("out"))
		return inUnit(u, err, at.X, at.Y, off.X, off.Y)
	},
	"outline_again": func(in *reference.Inputs, _ string) (reference.Value, error) {
		o, err := outline(in)
		if err != nil {
			return reference.Value{}, err
		}
		again, err := o.Shape().Outline()
		return reference.Numbers(again.Area().SquareInches(), again.Perimeter().Inches()), err
	},
	"outline_offset": func(in *reference.Inputs, _ string) (reference.Value, error) {
		_, moved, err := offset(in)
		return reference.Numbers(moved.Width.Inches(), moved.Height.Inches(), moved.Area.SquareInches()), err
	},
	"offset_deviation": func(in *reference.Inputs, u string) (reference.Value, error) {
		chords, moved, err := offset(in)
		if err != nil {
			return reference.Value{}, err
		}
		off, err := chords.Deviation(moved.Line)
		return inUnit(u, err, off)
	},
	"chord_deviation": chordDeviation,
	"strained_point": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := outline(in)
		if err != nil {
			return reference.Value{}, err
		}
		p, err := o.StrainedPoint(in.Angle("along"), in.Ratio("by"), in.Ratio("square"), shape.Point{X: in.Length("x"), Y: in.Length("y")})
		return inUnit(u, err, p.X, p.Y)
	},
	"photo_seen": photoSeen,
}

// offset moves the edges of an outline outwards, one after the other as the row
// gives them in inches, and gives the chords that it was drawn from as well.
func offset(in *reference.Inputs) (shape.Contour, shape.Offset, error) {
	o, err := outline(in)
	if err != nil {
		return shape.Contour{}, shape.Offset{}, err
	}
	by, err := lengths(in, "by")
	if err != nil {
		return shape.Contour{}, shape.Offset{}, err
	}
	corner, err := parsed[shape.Corner](in, "corners")
	if err != nil {
		return shape.Contour{}, shape.Offset{}, err
	}
	chords, lines, err := o.Offsets(shape.OffsetOptions{Corner: corner, Tolerance: optionalLength(in, "tolerance")}, by)
	if err != nil {
		return shape.Contour{}, shape.Offset{}, err
	}
	return chords, lines[0], nil
}

// chordDeviation gives how far the middle of a chord lies off the true line, at
// most.
func chordDeviation(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := outline(in)
	if err != nil {
		return reference.Value{}, err
	}
	corners, err := o.Flatten(in.Length("tolerance"))
	if err != nil {
		return reference.Value{}, err
	}
	var most unit.Length
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		var off []unit.Length
		for _, name := range o.Edges() {
			_, d, err := o.Nearest(name, shape.Point{X: p.X + (q.X-p.X)/2, Y: p.Y + (q.Y-p.Y)/2})
			if err != nil {
				return reference.Value{}, err
			}
			off = append(off, d)
		}
		most = max(most, slices.Min(off))
	}
	return inUnit(u, nil, most)
}

// photoSeen gives the place of a pixel in the photo of a rectangle of 200 by 150 mm
// about its middle, which the form of a panel has for its marks.
func photoSeen(in *reference.Inputs, u string) (reference.Value, error) {
	at, err := numbers(in, "seen")
	if err != nil {
		return reference.Value{}, err
	}
	const x, y = 100 * unit.Millimetre, 75 * unit.Millimetre
	f := shape.PhotoForm{Width: 4000, Height: 3000, Straight: true}
	for i, corner := range []shape.Point{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}} {
		if 2*i+1 >= len(at) {
			return reference.Value{}, missing("a corner")
		}
		p := shape.Pixel{X: shape.Pixels(at[2*i]), Y: shape.Pixels(at[2*i+1])}
		f.Marks = append(f.Marks, shape.PhotoMark{Seen: p, At: &corner})
		f.Edges = append(f.Edges, shape.PhotoEdge{Name: strconv.Itoa(i), Points: []shape.Pixel{p}})
	}
	seen, err := shape.Form{Photo: &f}.Seen(shape.Pixel{X: shape.Pixels(in.Float("u")), Y: shape.Pixels(in.Float("v"))})
	if err != nil {
		return reference.Value{}, err
	}
	return inUnit(u, nil, seen[0].X, seen[0].Y)
}
