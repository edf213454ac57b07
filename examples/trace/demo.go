package main

import (
	"bytes"
	"image/jpeg"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/examples/trace/internal/scene"
	"github.com/coverwright/coverwright/unit"
)

// demo takes a photo of two panels that were never sewn, to try the program on: an
// inside back 600 mm wide and a seat 380 mm wide.
func demo() ([]byte, error) {
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x * unit.Millimetre, Y: y * unit.Millimetre} }
	back, err := shape.TraceFrom(at(-330, -205)).Edge("bottom").Line(at(270, -205)).
		Edge("right").Cubic(at(225, -75), at(225, 45), at(260, 165)).
		Edge("top").Arc(at(-320, 165), 40*unit.Millimetre).Edge("left").Line(at(-330, -205)).Close()
	if err != nil {
		return nil, err
	}
	seat, err := shape.TraceFrom(at(320, -165)).Edge("front").Cubic(at(440, -195), at(580, -195), at(700, -165)).
		Edge("right").Line(at(680, 175)).Edge("back").Line(at(340, 175)).Edge("left").Line(at(320, -165)).Close()
	if err != nil {
		return nil, err
	}
	s := scene.Scene{
		Ground: scene.Tone{Light: 0.62, Cb: -4, Cr: 3},
		Panels: []scene.Panel{{Outline: back, Tone: scene.Tone{Light: 0.07, Cb: 14, Cr: -10}}, {Outline: seat, Tone: scene.Tone{Light: 0.1, Cb: 14, Cr: -10}}},
		Sheets: []scene.Sheet{{X: -600, Y: -150, Turn: 2}, {X: 760, Y: -160, Turn: -1}},
	}
	c := scene.Camera{
		Width: 4000, Height: 3000, Focal: 3000, Tilt: 18, Way: 250, Roll: 3, Bend: -0.015,
		Blur: 1, Noise: 2, Slope: 0.2, SlopeTo: 40, Exposure: 0.95, Seed: 1,
	}
	if err := c.Approach(s, scene.Point{}); err != nil {
		return nil, err
	}
	m, err := c.Take(s)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = jpeg.Encode(&b, m, &jpeg.Options{Quality: 90})
	return b.Bytes(), err
}
