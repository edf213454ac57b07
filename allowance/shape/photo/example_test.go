package photo_test

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/unit"
)

// Eight rings round a panel, their places known, as a telephone saw them.
func ExampleSee() {
	const mm = unit.Millimetre
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x * mm, Y: y * mm} }
	page := photo.Page{
		{Seen: photo.Pixel{X: 964.6, Y: 716.5}, At: at(-300, 262)}, {Seen: photo.Pixel{X: 1999.9, Y: 717.1}, At: at(0, 262)},
		{Seen: photo.Pixel{X: 3035.9, Y: 716.8}, At: at(300, 262)}, {Seen: photo.Pixel{X: 2965.6, Y: 1499.7}, At: at(322, 0)},
		{Seen: photo.Pixel{X: 2795.9, Y: 2102.1}, At: at(300, -262)}, {Seen: photo.Pixel{X: 1999.8, Y: 2101.8}, At: at(0, -262)},
		{Seen: photo.Pixel{X: 1204.6, Y: 2101.5}, At: at(-300, -262)}, {Seen: photo.Pixel{X: 1033.7, Y: 1500.3}, At: at(-322, 0)},
	}
	view, err := photo.See(4000, 3000, []photo.Page{page}, photo.Options{Straight: true, ScaleError: 0.0005})
	if err != nil {
		fmt.Println(err)
		return
	}
	sigma, spare := view.Sigma()
	fmt.Printf("marks are off by %.2f px, %d measures to spare\n", sigma, spare)
	camera := view.Camera()
	fmt.Printf("the camera was %.0f mm above the panel, tilted by %.0f deg\n", camera.Height.Millimetres(), camera.Tilt.Degrees())
	p, err := view.Point(photo.Pixel{X: 2500, Y: 1800})
	fmt.Printf("%.2f mm, %.2f mm %v\n", p.X.Millimetres(), p.Y.Millimetres(), err)
	panel, err := shape.Polygon(at(-250, -200), at(250, -200), at(250, 200), at(-250, 200))
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := view.ErrorOf(panel)
	fmt.Printf("outline within %.2f mm, of which the scale makes %.2f mm %v\n", e.Outline.Millimetres(), e.Scale.Millimetres(), err)
	// Output:
	// marks are off by 0.36 px, 8 measures to spare
	// the camera was 866 mm above the panel, tilted by 30 deg
	// 176.91 mm, -122.53 mm <nil>
	// outline within 0.47 mm, of which the scale makes 0.16 mm <nil>
}

// A border of points, as a program found it: a rectangle with a round end.
func ExampleFit() {
	const mm = unit.Millimetre
	drawn, err := shape.TraceFrom(shape.Point{}).Edge("a").Line(shape.Point{X: 400 * mm}).Edge("b").Line(shape.Point{X: 400 * mm, Y: 300 * mm}).
		Edge("c").Arc(shape.Point{Y: 300 * mm}, 60*mm).Edge("d").Close()
	if err != nil {
		fmt.Println(err)
		return
	}
	border, err := drawn.Flatten(unit.Millimetre / 50)
	if err != nil {
		fmt.Println(err)
		return
	}
	o, report, err := photo.Fit(border, photo.FitOptions{Names: []string{"front", "right", "crown", "left"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(o.Edges(), report.Lines, "lines,", report.Curves, "curve, within", report.Tolerance.Millimetres(), "mm")
	// Output:
	// [front right crown left] 3 lines, 1 curve, within 0.25 mm
}
