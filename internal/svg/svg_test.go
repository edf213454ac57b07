package svg_test

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/svg"
)

func TestDrawing(t *testing.T) {
	d := svg.New(100, 50.5, `A "title" & more`)
	d.Line(svg.Point{0, 0}, svg.Point{10, 1.0 / 3}, svg.Attr{"stroke", "#000"})
	d.Polyline([]svg.Point{{0, 0}, {1, 2}, {3, -0.001}})
	d.Polyline([]svg.Point{{0, 0}})
	d.Polygon([]svg.Point{{0, 0}, {1, 0}, {0, 1}}, svg.Attr{"fill", "none"})
	d.Rect(svg.Point{1, 1}, 2, 3)
	d.Circle(svg.Point{1, 1}, 2)
	d.Text(svg.Point{5, 5}, "a < b")
	d.Text(svg.Point{5, 5}, "")
	assert.Equal(t, `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="50.5" viewBox="0 0 100 50.5" role="img">
<title>A &quot;title&quot; &amp; more</title>
<line x1="0" y1="0" x2="10" y2="0.33" stroke="#000"/>
<polyline points="0,0 1,2 3,0"/>
<polygon points="0,0 1,0 0,1" fill="none"/>
<rect x="1" y="1" width="2" height="3"/>
<circle cx="1" cy="1" r="2"/>
<text x="5" y="5">a &lt; b</text>
</svg>
`, d.String())
}

func TestMillimetresGroupsAndAreas(t *testing.T) {
	d := svg.NewMillimetres(737.6, 876.3, "inside back")
	d.End() // none is open
	d.Group(svg.Attr{"class", "cut & trim"})
	d.Area([][]svg.Point{{{0, 0}, {10, 0}, {10, 10.1234565}}, {{1, 1}, {2, 2}}, {{4, 1}, {5, 2}, {5, 1}}})
	d.Area([][]svg.Point{{{0, 0}, {10, 0}}})
	d.End()
	d.Group()
	d.Line(svg.Point{0, 0.0000004}, svg.Point{1.0000016, 1})
	assert.Equal(t, `<svg xmlns="http://www.w3.org/2000/svg" width="737.6mm" height="876.3mm" viewBox="0 0 737.6 876.3" role="img">
<title>inside back</title>
<g class="cut &amp; trim">
<path d="M0,0 10,0 10,10.123456ZM4,1 5,2 5,1Z"/>
</g>
<g>
<line x1="0" y1="0" x2="1.000002" y2="1"/>
</g>
</svg>
`, d.String())
}

func TestClipsAndTiles(t *testing.T) {
	d := svg.New(10, 10, "")
	d.Tile("t", 2.5, 4)
	d.Image(svg.Point{}, 2.5, 4, "data:image/png;base64,AA==")
	d.End()
	d.Clip("c")
	d.Rect(svg.Point{}, 5, 5)
	assert.Equal(t, `<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10" viewBox="0 0 10 10" role="img">
<pattern id="t" patternUnits="userSpaceOnUse" width="2.5" height="4">
<image x="0" y="0" width="2.5" height="4" preserveAspectRatio="none" href="data:image/png;base64,AA=="/>
</pattern>
<clipPath id="c">
<rect x="0" y="0" width="5" height="5"/>
</clipPath>
</svg>
`, d.String())
}

func TestNumber(t *testing.T) {
	for x, want := range map[float64]string{0: "0", -0.004: "0", 1: "1", 100: "100", 0.125: "0.12", -2.5: "-2.5", math.Inf(1): "0", 1e300: "0"} {
		assert.Equal(t, want, svg.Number(x), "%v", x)
	}
	assert.Equal(t, "0", svg.Number(math.NaN()))
}

// Whatever the text, the document stays well-formed and says what was put in.
func FuzzText(f *testing.F) {
	for _, s := range []string{"", "a<b>&\"'", "\x00\xff", "]]>", "é ½ in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d := svg.New(1, 1, s)
		d.Text(svg.Point{}, s, svg.Attr{"class", s})
		dec := xml.NewDecoder(strings.NewReader(d.String()))
		for {
			_, err := dec.Token()
			if errors.Is(err, io.EOF) {
				return
			}
			require.NoError(t, err)
		}
	})
}
