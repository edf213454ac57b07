package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/trace/internal/scene"
)

// hide is 2.2 m long, with shanks and a neck.
func hide(t testing.TB) shape.Outline {
	var points []shape.Point
	for i := range 300 {
		a := 2 * math.Pi * float64(i) / 300
		r := 800 + 130*math.Cos(2*a+math.Pi) + 120*math.Cos(4*(a-math.Pi/4)) + 30*math.Cos(7*a)
		points = append(points, at(r*math.Cos(a), r*math.Sin(a)))
	}
	o, err := shape.Polygon(points...)
	require.NoError(t, err)
	return o
}

// Hides on a light floor, photographed from 2.4 m between four pages, come out
// within half a percent of their length and one percent of their area, and within
// what is said. TestHidesInFull takes a photo of twelve megapixels.
func TestHides(t *testing.T) { photographHide(t, 2800) }

// photographHide takes a photo of a hide, so many pixels wide, and reads it.
func photographHide(t *testing.T, wide int) {
	want := hide(t)
	s := scene.Scene{
		Ground: scene.Tone{Light: 0.55}, Panels: []scene.Panel{{Outline: want, Tone: scene.Tone{Light: 0.07, Cb: -20, Cr: 20}}},
		Sheets: []scene.Sheet{{X: -1130, Y: -1010}, {X: 900, Y: -1000, Turn: -4}, {X: -1110, Y: 700, Turn: 3}, {X: 920, Y: 690}},
	}
	c := scene.Camera{Width: wide, Height: wide * 3 / 4, Focal: float64(wide) * 3 / 4, Tilt: 25, Way: 265, Roll: -3, Bend: 0.02, Blur: 1.1, Noise: 3, Slope: 0.3, SlopeTo: 100, Exposure: 0.9, Seed: 2}
	require.NoError(t, c.Approach(s, scene.Point{}))
	require.Greater(t, c.Distance, 2400.0)
	file := filepath.Join(t.TempDir(), "hide.jpg")
	require.NoError(t, os.WriteFile(file, trial{s, c}.photo(t), 0o600))
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run([]string{"-hides", file}, &out, &errs), errs.String())
	var got struct{ Hides []job.HideSpec }
	require.NoError(t, json.Unmarshal(out.Bytes(), &got))
	require.Len(t, got.Hides, 1)
	o, err := got.Hides[0].Outline.Outline()
	require.NoError(t, err)
	_, long := want.Size()
	assert.Less(t, wrongBy(t, o, want), 0.005*long.Millimetres())
	assert.InEpsilon(t, want.Area().SquareMetres(), o.Area().SquareMetres(), 0.003, "far within one percent: the print is true")
	t.Logf("outline %.1f mm, area %.3f %%", wrongBy(t, o, want), 100*math.Abs(o.Area().SquareMetres()/want.Area().SquareMetres()-1))
	assert.Contains(t, errs.String(), "sq ft")
	assert.Contains(t, errs.String(), "holes, marks in the leather and grades are not read")
	assert.Equal(t, exitInput, run([]string{"-hides", "-level", file}, &out, &errs))
}
