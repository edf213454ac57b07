package layout

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// A hide drawn full size measures what the plan says: its paper, its border and every cut
// line, read from the file alone.
func TestHideSVGIsTrueSize(t *testing.T) { few.Check(t, 10, hideSVGIsTrueSize) }

func hideSVGIsTrueSize(t *rapid.T) {
	plan, labels, ok := someHidePlan(t, 4)
	if !ok {
		return
	}
	for _, k := range plan.Used {
		drawing, err := plan.HideSVG(k, Picture{Title: "leather", Labels: labels})
		require.NoError(t, err)
		var head struct {
			Width  string `xml:"width,attr"`
			Height string `xml:"height,attr"`
			Box    string `xml:"viewBox,attr"`
		}
		require.NoError(t, xml.Unmarshal([]byte(drawing), &head))
		border, err := plan.Hides[k].Shape()
		require.NoError(t, err)
		low, high := border.Bounds()
		w, h := millimetres(t, head.Width), millimetres(t, head.Height)
		assert.InDelta(t, (high.X-low.X).Millimetres()+80, w, 1e-5)
		assert.InDelta(t, (high.Y-low.Y).Millimetres()+80, h, 1e-5)
		assert.Equal(t, "0 0 "+strings.TrimSuffix(head.Width, "mm")+" "+strings.TrimSuffix(head.Height, "mm"), head.Box)
		texts, shapes := readDrawing(t, drawing)
		cut := 0
		on := plan.On(k)
		for _, s := range shapes {
			switch s.class {
			case "hide":
				assert.InEpsilon(t, float64(border.Area())/float64(unit.SquareMillimetre), areaOf(s), 1e-3)
			case "piece":
				assertCutLine(t, plan, on[cut], s, low, h)
				cut++
			}
		}
		assert.Equal(t, len(on), cut)
		for i, a := range texts {
			for _, b := range texts[i+1:] {
				assert.False(t, a.box.meets(b.box) && a.size > 9 && b.size > 9, "%q over %q", a.words, b.words)
			}
		}
	}
}

func millimetres(t require.TestingT, s string) float64 {
	n, ok := strings.CutSuffix(s, "mm")
	require.True(t, ok, s)
	f, err := strconv.ParseFloat(n, 64)
	require.NoError(t, err)
	return f
}

func areaOf(s drawnShape) float64 {
	sum := 0.0
	for i, a := range s.points {
		b := s.points[(i+1)%len(s.points)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return math.Abs(sum) / 2
}

// assertCutLine checks that a line on the paper is the piece, whose polygon in the plan is
// larger by the tolerance at most.
func assertCutLine(t require.TestingT, plan Plan, q Place, s drawnShape, low shape.Point, high float64) {
	assert.InEpsilon(t, float64(plan.Job.Pieces[q.Piece].Outline.Area())/float64(unit.SquareMillimetre), areaOf(s), 2e-3)
	for _, z := range s.points {
		x, y := z.X-40+low.X.Millimetres(), high-40-z.Y+low.Y.Millimetres()
		assert.InDelta(t, 0, offPolygon(q.Outline, x, y), plan.Tolerance.Millimetres()+0.2)
	}
}

func TestHideSVGRefuses(t *testing.T) {
	plan := onHides(t, []material.Skin{{ID: "A", Outline: boxAt(t, 0, 0, 40, 40)}}, []Piece{{Name: "seat", Outline: boxAt(t, 0, 0, 20, 20), Count: 1}}, quick)
	for _, c := range []struct {
		hide int
		o    Picture
	}{{-1, Picture{}}, {1, Picture{}}, {0, Picture{Width: 10}}, {0, Picture{Labels: []Label{{}, {}}}}} {
		_, err := plan.HideSVG(c.hide, c.o)
		require.ErrorIs(t, err, unit.ErrRange)
	}
	plan.Places[0].X += in
	_, err := plan.HideSVG(0, Picture{})
	require.ErrorIs(t, err, ErrBadLayout)
}
