package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/unit"
)

func readDrawing(d drawing, text string) (drawn, error) {
	return d.read(strings.NewReader(text), !strings.Contains(text, "<"))
}

const box = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 400 200">`

// Every closed element of SVG is a panel in true size: half a millimetre to a unit
// here.
func TestSVG(t *testing.T) {
	for element, want := range map[string]struct {
		wide, tall float64
		sides      int
	}{
		`<rect x="10" y="10" width="300" height="160"/>`:                                {150, 80, 4},
		`<circle cx="100" cy="100" r="80"/>`:                                            {80, 80, 1},
		`<ellipse cx="200" cy="100" rx="180" ry="50"/>`:                                 {180, 50, 1},
		`<polygon points="0,0 100,0 100,100"/>`:                                         {50, 50, 3},
		`<g><path d="M 0 0 h 300 v 100 c 0 50 -50 100 -100 100 h -200 z"/></g>`:         {150, 100, 3},
		`<defs><path d="M0 0h9v9z"/></defs><path d="M 0 0 L 50 1 L 100 0 V 90 H 0 Z"/>`: {50, 45, 4},
	} {
		got, err := readDrawing(drawing{}, box+element+`</svg>`)
		require.NoError(t, err, element)
		require.Len(t, got.outlines, 1, element)
		wide, tall := got.outlines[0].Size()
		assert.InDelta(t, want.wide, wide.Millimetres(), 1e-5, element)
		assert.InDelta(t, want.tall, tall.Millimetres(), 1e-5, element)
		assert.Len(t, got.outlines[0].Edges(), want.sides, element)
	}
	got, err := readDrawing(drawing{unit: unit.Inch}, `<svg><line x1="0" x2="4"/><path d="M 0 0 h 3 v 4 z"/></svg>`)
	require.NoError(t, err)
	wide, _ := got.outlines[0].Size()
	assert.Equal(t, 3*unit.Inch, wide)
	assert.Equal(t, []string{"1 line that is not closed was left out"}, got.notes)
}

func TestDrawingsRefused(t *testing.T) {
	for text, want := range map[string]string{
		`<svg width="10" height="10"><path d="M0 0h9v9z"/></svg>`:                                "true size",
		`<svg width="10mm" height="20mm" viewBox="0 0 10 10"><path d="M0 0h9v9z"/></svg>`:        "stretched",
		`<svg width="10mm" height="10mm" viewBox="0 0 0 10"><path d="M0 0h9v9z"/></svg>`:         "no size",
		box + `<g transform="scale(2)"><path d="M0 0h9v9z"/></g></svg>`:                          "transform",
		box + `<rect x="0" y="0" width="90" height="90"/><circle cx="40" cy="40" r="10"/></svg>`: "inside another",
		box + `<path d="M0 0h9v9"/></svg>`:                                                       "no closed line",
		box + `<path id="seat" d="M0 0 h9 v9 z M 20 20 h 9 v 9 z"/></svg>`:                       "seat",
		box + `<path d="M0 0 L 9 9 L 9 0 L 0 9 z"/></svg>`:                                       "cannot be used",
		box + `<rect width="20" height="30" rx="4"/></svg>`:                                      "round corners",
		box + `<rect width="20%" height="30"/></svg>`:                                            "plain number",
		box + `<use href="#a"/></svg>`:                                                           "use",
		`<html></html>`:                                                                          "no SVG",
		`<svg`:                                                                                   "no SVG",
		"0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n9\n20\n0\n10\n9\n20\n9\n0\nENDSEC\n0\nEOF\n": "-unit",
		"0\nSECTION\n2\nENTITIES\n0\nINSERT\n0\nENDSEC\n0\nEOF\n":                                                      "blocks",
		"0\nSECTION\n2\nENTITIES\n0\nLINE\n0\nENDSEC\n0\nEOF\n":                                                        "no closed line",
		"hello\nworld\n": "no DXF",
		"0\x00":          "binary",
	} {
		_, err := readDrawing(drawing{}, text)
		require.Error(t, err, text)
		assert.ErrorContains(t, err, want, text)
	}
}

// Both kinds of polylines give the same outline, arcs too: a stadium 4 by 2 units.
func TestDXF(t *testing.T) {
	head := "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"
	light := head + "0\nLWPOLYLINE\n8\nCUT\n90\n4\n70\n1\n10\n0\n20\n0\n10\n20\n20\n0\n42\n1\n10\n20\n20\n20\n10\n0\n20\n20\n42\n1\n0\nENDSEC\n0\nEOF\n"
	old := head + "0\nPOLYLINE\n8\nCUT\n66\n1\n70\n1\n10\n0\n20\n0\n"
	for _, v := range []string{"10\n0\n20\n0\n", "10\n20\n20\n0\n42\n1\n", "10\n20\n20\n20\n", "10\n0\n20\n20\n42\n1\n"} {
		old += "0\nVERTEX\n8\nCUT\n" + v
	}
	old += "0\nSEQEND\n0\nLINE\n0\nENDSEC\n0\nEOF\n"
	a, err := readDrawing(drawing{}, light)
	require.NoError(t, err)
	b, err := readDrawing(drawing{layer: "CUT"}, strings.ReplaceAll(old, "\n", "\r\n"))
	require.NoError(t, err)
	require.Len(t, a.outlines, 1)
	assert.Equal(t, a.outlines, b.outlines)
	assert.Len(t, b.notes, 1)
	wide, tall := a.outlines[0].Size()
	assert.Equal(t, [2]unit.Length{40 * unit.Millimetre, 20 * unit.Millimetre}, [2]unit.Length{wide, tall})
	assert.Len(t, a.outlines[0].Edges(), 1, "lines and arcs run on smoothly")
	_, err = readDrawing(drawing{layer: "SEAM"}, light)
	assert.ErrorContains(t, err, "no closed line")
}

// A pattern that this house draws as DXF is read back at its size.
func TestPatternReadBack(t *testing.T) {
	cut, err := allowance.Panel{Outline: insideBack(t), AllEdges: allowance.Edge{Finish: allowance.PlainSeam, Allowance: allowance.Exactly(12 * unit.Millimetre)}}.Cut()
	require.NoError(t, err)
	text, err := pattern.Of(cut).DXF(pattern.Inches)
	require.NoError(t, err)
	got, err := drawing{layer: "CUT", unit: unit.Millimetre}.read(strings.NewReader(text), true)
	require.NoError(t, err)
	require.Len(t, got.outlines, 1)
	assert.InDelta(t, 1, float64(got.outlines[0].Area())/float64(cut.Area), 1e-4)
	assert.Len(t, got.outlines[0].Edges(), 4, "chords of a curve are one side")
}

// Whatever a drawing holds, it is refused or gives outlines that have an area and
// read back as they are.
func FuzzDrawing(f *testing.F) {
	f.Add(box+`<path d="M 0 0 h 300 v 100 c 0 50 -50 100 -100 100 h -200 z"/></svg>`, false)
	f.Add(box+`<circle cx="100" cy="100" r="80"/><polygon points="300,0 390,0 390,90"/></svg>`, false)
	f.Add("9\n$INSUNITS\n70\n4\n0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n20\n20\n0\n42\n1\n10\n20\n20\n20\n0\nENDSEC\n", true)
	f.Fuzz(func(t *testing.T, text string, dxf bool) {
		got, err := drawing{}.read(strings.NewReader(text), dxf)
		if err != nil {
			return
		}
		for _, o := range got.outlines {
			if o.Area() <= 0 {
				t.Fatal("no area")
			}
			again, err := o.Shape().Outline()
			require.NoError(t, err)
			assert.Equal(t, o, again)
		}
	})
}

func TestDrawingTooLarge(t *testing.T) {
	_, err := drawing{}.read(bytes.NewReader(make([]byte, mostDrawing+1)), true)
	assert.ErrorContains(t, err, "16 MB")
}
