// Package generate makes values for tests of laws.
package generate

import (
	"math"

	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

const mm = unit.Millimetre

// Outline draws an outline of any of the constructors, from 4 cm to 1.2 m large.
func Outline(t *rapid.T) shape.Outline {
	size := func(l string) unit.Length { return length(40*mm, 900*mm).Draw(t, l) }
	var o shape.Outline
	var err error
	switch rapid.IntRange(0, 7).Draw(t, "shape") {
	case 0:
		o, err = shape.Rectangle(size("w"), size("h"))
	case 1:
		o, err = shape.Trapezoid(size("b"), size("t"), size("h"), size("s")-400*mm)
	case 2:
		o, err = shape.RegularPolygon(rapid.IntRange(3, 12).Draw(t, "n"), size("s"))
	case 3:
		o, err = shape.Ellipse(size("w"), size("h"))
	case 4:
		w, h := size("w"), size("h")
		o, err = shape.RoundedRectangle(w, h, shape.CornerRadii{BottomLeft: min(w, h) / 3, TopRight: min(w, h) / 2})
	case 5:
		var ss []shape.Station
		for i := range rapid.IntRange(2, 6).Draw(t, "n") {
			ss = append(ss, shape.Station{At: unit.Length(i) * 150 * mm, Left: size("l"), Right: size("r")})
		}
		o, err = shape.Stations(ss, rapid.Bool().Draw(t, "smooth"))
	case 6:
		w := size("w")
		o, err = shape.Crowned(w, size("h"), w/4)
	default:
		// A star, with lines, arcs and curves.
		n := rapid.IntRange(4, 9).Draw(t, "n")
		ps := make([]shape.Point, n)
		for i := range ps {
			a := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.6).Draw(t, "a")) / float64(n)
			r := float64(length(150*mm, 600*mm).Draw(t, "r"))
			ps[i] = shape.Point{X: unit.Length(r * math.Cos(a)), Y: unit.Length(r * math.Sin(a))}
		}
		tr := shape.TraceFrom(ps[0])
		for i := 1; i <= n; i++ {
			to, from := ps[i%n], ps[i-1]
			tr.Edge(string(rune('a' + i)))
			switch rapid.IntRange(0, 2).Draw(t, "piece") {
			case 0:
				tr.Line(to)
			case 1:
				tr.Arc(to, rapid.SampledFrom([]unit.Length{-20 * mm, 15 * mm, 40 * mm}).Draw(t, "rise"))
			case 2:
				tr.Quadratic(shape.Point{X: (from.X+to.X)/2 + 30*mm, Y: (from.Y+to.Y)/2 - 25*mm}, to)
			}
		}
		o, err = tr.Close()
	}
	if err != nil {
		t.Skip("not simple: ", err)
	}
	return o
}

func length(lo, hi unit.Length) *rapid.Generator[unit.Length] {
	return rapid.Map(rapid.Int64Range(int64(lo), int64(hi)), func(n int64) unit.Length { return unit.Length(n) })
}
