package allowance_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/unit"
)

// halfDrop is goods of motifs 9 in across and 12 in along, each column 6 in lower.
var halfDrop = pattern.Cloth{Across: 9 * unit.Inch, Along: 12 * unit.Inch, Lower: 1, Columns: 2}

func front(cloth pattern.Cloth) pattern.Front {
	return pattern.Front{Cloths: map[string]pattern.Cloth{"cloth": cloth}}
}

// drawnFront is a front as it is read back from its SVG: what lies on the page, by
// its class.
type drawnFront struct {
	width, height float64
	areas         []frontArea
	bars          []frontBar
	marks         map[string][][2]float64 // middles of circles
}

type frontArea struct {
	class  string
	points [][2]float64
	on     int // the area before it, of a motif
}

// box gives the corners of the box round an area.
func (a frontArea) box() (low, high [2]float64) {
	low, high = a.points[0], a.points[0]
	for _, p := range a.points {
		for k := range 2 {
			low[k], high[k] = min(low[k], p[k]), max(high[k], p[k])
		}
	}
	return low, high
}

// frontBar is a bar with the area before it.
type frontBar struct {
	area int
	ends [2][2]float64
}

func readFront(t require.TestingT, s string) drawnFront {
	out := drawnFront{marks: map[string][][2]float64{}}
	number := func(s string) float64 { return sure(strconv.ParseFloat(s, 64)) }
	d := xml.NewDecoder(strings.NewReader(s))
	area := -1
	for {
		token, err := d.Token()
		if token == nil {
			require.ErrorContains(t, err, "EOF")
			return out
		}
		e, is := token.(xml.StartElement)
		if !is {
			continue
		}
		attrs := map[string]string{}
		for _, a := range e.Attr {
			require.NotContains(t, attrs, a.Name.Local, "an attribute twice")
			attrs[a.Name.Local] = a.Value
		}
		switch class := attrs["class"]; {
		case e.Name.Local == "svg":
			out.width, out.height = number(attrs["width"]), number(attrs["height"])
		case e.Name.Local == "polygon":
			a := frontArea{class: class, on: area}
			for _, p := range strings.Fields(attrs["points"]) {
				x, y, _ := strings.Cut(p, ",")
				a.points = append(a.points, [2]float64{number(x), number(y)})
			}
			if class == "piece" || class == "hidden" {
				area = len(out.areas)
			}
			out.areas = append(out.areas, a)
		case strings.HasSuffix(class, "bar"):
			out.bars = append(out.bars, frontBar{area, [2][2]float64{{number(attrs["x1"]), number(attrs["y1"])}, {number(attrs["x2"]), number(attrs["y2"])}}})
		case e.Name.Local == "circle":
			out.marks[class] = append(out.marks[class], [2]float64{number(attrs["cx"]), number(attrs["cy"])})
		}
	}
}

// key is how many marks the key of a front shows.
func (f drawnFront) key(class string) int { return min(len(f.marks[class]), 1) }

// Whatever panels hang on each other from the top down, both points of every
// crossing lie on one place of the page; bars lie inside the piece that they are
// on; no text lies on another or runs off the page.
func TestFrontLaws(t *testing.T) { few.Check(t, 30, frontLaws) }

func frontLaws(t *rapid.T) {
	var b builder
	n := rapid.IntRange(2, 6).Draw(t, "panels")
	size := func() float64 { return float64(rapid.IntRange(16, 320).Draw(t, "size")) / 8 }
	for i := range n {
		b.panel(fmt.Sprintf("p%d", i), size(), size()).Along.TakeOut = unit.Ratio(rapid.IntRange(0, 10).Draw(t, "stretch")) / 100
	}
	for i := 1; i < n; i++ {
		b.across(allowance.PatternWay(rapid.IntRange(1, 3).Draw(t, "way")), fmt.Sprintf("p%d.bottom", i-1), 0, fmt.Sprintf("p%d.top", i), 0)
	}
	cloth := pattern.Cloth{Across: tapeInches(size() / 2), Along: tapeInches(size() / 2)}
	if rapid.Bool().Draw(t, "drop") {
		cloth.Columns = rapid.IntRange(2, 5).Draw(t, "columns")
		cloth.Lower = rapid.IntRange(1, cloth.Columns-1).Draw(t, "lower")
	}
	c := b.raw()
	flow, err := c.Flow(sewnGoods(), []allowance.MotifWish{motif("p0", size(), size())})
	require.NoError(t, err)
	draw := front(cloth)
	draw.Width = rapid.SampledFrom([]int{320, 420, 700}).Draw(t, "width")
	s, err := draw.Draw(worked(t, c), flow)
	require.NoError(t, err)
	f := readFront(t, s)
	require.Len(t, f.marks["runs"], n-1+f.key("runs"))
	seen := map[[2]float64]bool{}
	for _, m := range f.marks["runs"] {
		require.False(t, seen[m])
		seen[m] = true
	}
	f.holds(t)
	clearTexts(t, s)
}

// holds checks that every bar lies inside its area, to the hundredth that is written,
// and that every motif comes into its own, which cuts off the rest.
func (f drawnFront) holds(t require.TestingT) {
	for _, m := range f.areas {
		if m.class != "motif" || m.on < 0 { // of the key
			continue
		}
		low, high := f.areas[m.on].box()
		l, h := m.box()
		require.True(t, l[0] < high[0] && h[0] > low[0] && l[1] < high[1] && h[1] > low[1])
	}
	for _, b := range f.bars {
		low, high := f.areas[b.area].box()
		for _, p := range b.ends {
			for k := range 2 {
				require.True(t, p[k] >= low[k]-0.011 && p[k] <= high[k]+0.011, "a bar ends at %v, off the piece from %v to %v", p, low, high)
			}
		}
	}
}

// clearTexts checks that no text lies on another, or off the page.
func clearTexts(t require.TestingT, s string) {
	m := readMap(t, s)
	for i, x := range m.texts {
		require.True(t, x.left >= 0 && x.right <= m.width && x.top >= 0 && x.bottom <= m.height, "%q runs off the page", x.text)
		for _, y := range m.texts[:i] {
			require.False(t, x.left < y.right && y.left < x.right && x.top < y.bottom && y.top < x.bottom, "%q runs into %q", x.text, y.text)
		}
	}
}

// Down the front of a chair the motif asked for is dark, and the first and third
// panel have one on the line that runs through it; of a stripe there are bars
// alone; what goods have no repeat is not drawn.
func TestFrontOfAChair(t *testing.T) {
	c := frontOfChair().raw()
	w := worked(t, c)
	flow, err := c.Flow(sewnGoods(), []allowance.MotifWish{motif("back", 12.5, 20.5)})
	require.NoError(t, err)
	s, err := front(halfDrop).Draw(w, flow)
	require.NoError(t, err)
	f := readFront(t, s)
	assert.Len(t, f.marks["runs"], 4+1)
	assert.Empty(t, f.marks["off"])
	dark := strings.Count(s, `class="motif" fill="#000"`)
	assert.Equal(t, 1, dark)
	for _, text := range []string{">1 back<", ">2 cushion<", ">pale: hidden behind the dashed line<", ">dark: the motif asked for<"} {
		assert.Contains(t, s, text)
	}
	assert.Equal(t, 3, strings.Count(s, `class="hidden"`), "the foot of the back, the rear of the cushion, the top of the border")

	s, err = front(pattern.Cloth{Across: 6 * unit.Inch}).Draw(w, flow)
	require.NoError(t, err)
	assert.NotContains(t, s, `class="motif"`)
	for _, b := range readFront(t, s).bars {
		assert.Equal(t, b.ends[0][0], b.ends[1][0], "upright") //nolint:testifylint // the same text
	}
	s, err = front(pattern.Cloth{Across: unit.Inch / 8, Along: unit.Inch / 8}).Draw(w, flow)
	require.NoError(t, err)
	assert.Empty(t, readFront(t, s).bars)
	assert.Contains(t, s, ">A repeat too small to draw has no bars.<")
	s, err = pattern.Front{}.Draw(w, flow)
	require.NoError(t, err)
	assert.NotContains(t, s, `class="piece"`)
}

// A ring that does not close says by how much at both its ends; a piece that would
// lie on another stands apart, with a mark on either.
func TestFrontThatDoesNotClose(t *testing.T) {
	var b builder
	for i, l := range []float64{24, 22, 24, 22} {
		b.panel(fmt.Sprintf("side %c", 'a'+i), l, 4)
	}
	for i := range 4 {
		b.across(allowance.BothWays, fmt.Sprintf("side %c.right", 'a'+i), 0, fmt.Sprintf("side %c.left", 'a'+(i+1)%4), 0).Hidden = i == 1
	}
	c := b.raw()
	flow, err := c.Flow(sewnGoods(), []allowance.MotifWish{motif("side a", 12, 2)})
	require.NoError(t, err)
	draw := front(pattern.Cloth{Across: 6 * unit.Inch, Along: 6 * unit.Inch})
	draw.Off = make([]shape.Point, 4)
	draw.Off[1].X = 2 * unit.Inch
	s, err := draw.Draw(worked(t, c), flow)
	require.NoError(t, err)
	f := readFront(t, s)
	assert.Len(t, f.marks["runs"], 3+1)
	assert.Len(t, f.marks["off"], 2+1)
	assert.Equal(t, 2, strings.Count(s, ">2 in<"))
	assert.Contains(t, s, "Cannot close at meet, side b.right to side c.left: out by")
	clearTexts(t, s)

	var over builder
	over.panel("seat", 20, 20)
	for _, name := range []string{"first", "second"} {
		over.panel(name, 20, 10)
		over.across(allowance.BothWays, "seat.bottom", 0, name+".top", 0)
	}
	c = over.raw()
	flow, err = c.Flow(sewnGoods(), nil)
	require.NoError(t, err)
	s, err = front(halfDrop).Draw(worked(t, c), flow)
	require.NoError(t, err)
	assert.Len(t, readFront(t, s).marks["runs"], 1+2+1)
}

// A photo takes the place of the figures: each piece is filled with it once more.
func TestFrontOfAPhoto(t *testing.T) {
	c := frontOfChair().raw()
	w := worked(t, c)
	flow, err := c.Flow(sewnGoods(), []allowance.MotifWish{motif("back", 12.5, 20.5)})
	require.NoError(t, err)
	var photo, other bytes.Buffer
	require.NoError(t, png.Encode(&photo, image.NewGray(image.Rect(0, 0, 18, 12))))
	require.NoError(t, jpeg.Encode(&other, image.NewGray(image.Rect(0, 0, 18, 12)), nil))
	for kind, data := range map[string][]byte{"png": photo.Bytes(), "jpeg": other.Bytes()} {
		cloth := halfDrop
		cloth.Photo = data
		s, err := front(cloth).Draw(w, flow)
		require.NoError(t, err)
		assert.Equal(t, 1, strings.Count(s, "data:image/"+kind+";base64,"))
		assert.Equal(t, 5+3, strings.Count(s, `class="photo"`))
		assert.NotContains(t, s, `class="motif"`)
		readFront(t, s)
	}
	// Of a stripe the photo keeps its shape: 9 in wide, 6 in high.
	s, err := front(pattern.Cloth{Across: 9 * unit.Inch, Photo: photo.Bytes()}).Draw(w, flow)
	require.NoError(t, err)
	var tile struct {
		Pattern struct {
			Width  float64 `xml:"width,attr"`
			Height float64 `xml:"height,attr"`
		} `xml:"pattern"`
	}
	require.NoError(t, xml.Unmarshal([]byte(s), &tile))
	assert.InDelta(t, 1.5, tile.Pattern.Width/tile.Pattern.Height, 0.001)
}

func TestFrontRefuses(t *testing.T) {
	c := frontOfChair().raw()
	w := worked(t, c)
	flow, err := c.Flow(sewnGoods(), nil)
	require.NoError(t, err)
	other := flow
	other.Pieces = append([]allowance.PieceFlow{flow.Pieces[1]}, flow.Pieces[1:]...)
	astray := flow
	astray.Crossings = []allowance.Crossed{{From: 7}}
	big := halfDrop
	big.Photo = make([]byte, pattern.MostPhoto+1)
	for field, try := range map[string]struct {
		front pattern.Front
		flow  allowance.Flow
	}{
		"width":                 {pattern.Front{Width: 100}, flow},
		"units":                 {pattern.Front{Units: 7}, flow},
		"numbers":               {pattern.Front{Numbers: []string{"1"}}, flow},
		"off":                   {pattern.Front{Off: make([]shape.Point, 1)}, flow},
		"flow.pieces":           {front(halfDrop), allowance.Flow{}},
		"flow.pieces[0]":        {front(halfDrop), other},
		"flow.crossings[0]":     {front(halfDrop), astray},
		"cloths[cloth].across":  {front(pattern.Cloth{}), flow},
		"cloths[cloth].along":   {front(pattern.Cloth{Along: -1}), flow},
		"cloths[cloth].lower":   {front(pattern.Cloth{Across: unit.Inch, Along: unit.Inch, Columns: 2, Lower: 2}), flow},
		"cloths[cloth].columns": {front(pattern.Cloth{Across: unit.Inch, Columns: 2, Lower: 1}), flow},
		"cloths[cloth].photo":   {front(big), flow},
	} {
		_, err := try.front.Draw(w, try.flow)
		var fault *unit.InputError
		require.ErrorAs(t, err, &fault, field)
		assert.Equal(t, unit.Path(field), fault.Field)
	}
	text := halfDrop
	text.Photo = []byte("no picture")
	require.ErrorIs(t, text.Check(), unit.ErrSyntax)
}
