package marks

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/examples/internal/markpage"
	"github.com/coverwright/coverwright/examples/trace/internal/picture"
	"github.com/coverwright/coverwright/examples/trace/internal/scene"
	"github.com/coverwright/coverwright/internal/dev/few"
)

// ringOf gives the ring that an eye sees of a mark of a sheet: its outside as a
// polygon, by the moments of that.
func ringOf(eye func(scene.Point) (float64, float64, bool), s scene.Sheet, m markpage.Mark) Ring {
	const n = 120
	var px, py [n]float64
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		r := markpage.Radius.Millimetres()
		px[i], py[i], _ = eye(s.At(m.At.X.Millimetres()+r*cos, m.At.Y.Millimetres()+r*sin))
	}
	var q Ring
	for i := range n {
		q.X += px[i] / n
		q.Y += py[i] / n
	}
	for i := range n {
		// The spread of a filled ellipse is half of that of its border.
		u, v := px[i]-q.X, py[i]-q.Y
		q.xx += u * u / n / 2
		q.xy += u * v / n / 2
		q.yy += v * v / n / 2
	}
	q.Odd = m.Odd
	return q
}

// Whatever the camera, from 0.8 m on and up to 45 degrees aslant, and however the pages lie, each mark
// is named rightly, with one or two of a page hidden too, and in any order.
func TestPagesAreNamed(t *testing.T) { few.Check(t, 20, pagesAreNamed) }

func pagesAreNamed(t *rapid.T) {
	n := rapid.IntRange(1, 4).Draw(t, "pages")
	var s scene.Scene
	for i := range n {
		sheet := scene.Sheet{Turn: rapid.Float64Range(-180, 180).Draw(t, "turn")}
		// Turned about its middle, so that none lies over another.
		mid := sheet.At(markpage.Across.Millimetres()/2, 1.5*markpage.Up.Millimetres())
		sheet.X, sheet.Y = 380*float64(i%2)-mid.X, 380*float64(i/2)-mid.Y
		s.Sheets = append(s.Sheets, sheet)
	}
	c := scene.Camera{
		Width: 4000, Height: 3000, Focal: 3000, Tilt: rapid.Float64Range(0, 45).Draw(t, "tilt"), Way: rapid.Float64Range(0, 360).Draw(t, "way"),
		Roll: rapid.Float64Range(-180, 180).Draw(t, "roll"), Bend: rapid.Float64Range(-0.03, 0.03).Draw(t, "bend"),
	}
	require.NoError(t, c.Approach(s, scene.Point{}))
	c.Distance = max(c.Distance, 800) // no nearer than a panel is photographed
	eye := c.Eye()
	type name struct{ page, mark int }
	is := map[Ring]name{}
	var rings []Ring
	for i, sheet := range s.Sheets {
		hidden := map[int]bool{}
		for range rapid.IntRange(0, 2).Draw(t, "hidden") {
			hidden[rapid.IntRange(1, 7).Draw(t, "mark")] = true
		}
		// The ring next to the odd one up the page shows which way that is.
		delete(hidden, markpage.Columns)
		for k, m := range markpage.Marks() {
			if !hidden[k] {
				r := ringOf(eye, sheet, m)
				is[r] = name{i, k}
				rings = append(rings, r)
			}
		}
	}
	all := len(rings)
	rings = rapid.Permutation(rings).Draw(t, "order")
	pages, left, mirrored := Pages(4000, 3000, rings)
	assert.False(t, mirrored)
	require.Len(t, pages, n)
	named := 0
	for _, p := range pages {
		assert.True(t, p[0].Ring.Odd)
		for _, q := range p {
			assert.Equal(t, name{is[p[0].Ring].page, q.Mark}, is[q.Ring])
			named++
		}
	}
	assert.Equal(t, all, named+len(left))
	assert.Empty(t, left)
	// Turned over, no page is found, and the reason.
	for i := range rings {
		rings[i].X, rings[i].xy = 4000-rings[i].X, -rings[i].xy
	}
	pages, _, mirrored = Pages(4000, 3000, rings)
	assert.Empty(t, pages)
	assert.True(t, mirrored)
}

// draw gives the light of a picture of things on white: dark where any of them is.
func draw(w, h int, dark func(x, y float64) bool) picture.Plane {
	p := picture.Plane{W: w, H: h, Pix: make([]uint16, w*h)}
	for i := range p.Pix {
		x, y := float64(i%w), float64(i/w)
		sum := 0
		for k := range 16 {
			if !dark(x+float64(k%4)/4+0.125, y+float64(k/4)/4+0.125) {
				sum++
			}
		}
		p.Pix[i] = uint16(3000 + sum*3200)
	}
	return p
}

func mark(x, y, r float64, odd bool) func(u, v float64) bool {
	return func(u, v float64) bool {
		d := math.Hypot(u-x, v-y) / r
		return d < 1 && d > markpage.Inner || !odd && d < markpage.Dot
	}
}

// A mark from 8 to 80 pixels is found once, where it is, with its kind.
func TestFind(t *testing.T) {
	for _, r := range []float64{8, 12, 20, 40, 80} {
		for _, odd := range []bool{false, true} {
			w := max(400, int(16*r))
			x, y := 0.4*float64(w)+0.3, 0.3*float64(w)+0.6
			p := draw(w, 3*w/4, mark(x, y, r, odd))
			found := Find(p)
			require.Len(t, found, 1, "radius %v", r)
			assert.Equal(t, odd, found[0].Odd)
			assert.InDelta(t, x, found[0].X, 0.02)
			assert.InDelta(t, y, found[0].Y, 0.02)
			assert.InDelta(t, r, found[0].Radius(), 0.5+0.02*r)
		}
	}
}

// Things that are not marks are none: dots, plain rings, targets of other
// proportions, squares, letters, noise.
func TestNoFalseMarks(t *testing.T) {
	things := map[string]func(x, y float64) bool{
		"dot":       func(x, y float64) bool { return math.Hypot(x-400, y-300) < 30 },
		"thin ring": func(x, y float64) bool { d := math.Hypot(x-400, y-300); return d < 30 && d > 27 },
		"fat ring":  func(x, y float64) bool { d := math.Hypot(x-400, y-300); return d < 30 && d > 9 },
		"big dot":   func(x, y float64) bool { d := math.Hypot(x-400, y-300); return d < 30 && d > 20 || d < 15 },
		"square": func(x, y float64) bool {
			d := max(math.Abs(x-400), math.Abs(y-300))
			return d < 30 && d > 20 || d < 10
		},
		"half": func(x, y float64) bool { return y < 310 && mark(400, 300, 30, false)(x, y) },
	}
	for name, dark := range things {
		assert.Empty(t, Find(draw(800, 600, dark)), name)
	}
	r := rand.New(rand.NewPCG(1, 1))
	p := draw(800, 600, func(float64, float64) bool { return false })
	for i := range p.Pix {
		p.Pix[i] = uint16(r.UintN(1 << 16))
	}
	assert.Empty(t, Find(p), "noise")
}

func ExamplePages() {
	s := scene.Scene{Sheets: []scene.Sheet{{}, {X: 700}}}
	c := scene.Camera{Width: 4000, Height: 3000, Focal: 3000, Tilt: 30}
	if err := c.Approach(s, scene.Point{}); err != nil {
		fmt.Println(err)
		return
	}
	var rings []Ring
	for _, sheet := range s.Sheets {
		for _, m := range markpage.Marks() {
			rings = append(rings, ringOf(c.Eye(), sheet, m))
		}
	}
	pages, left, _ := Pages(4000, 3000, rings)
	fmt.Println(len(pages), "pages,", len(pages[0]), "and", len(pages[1]), "marks,", len(left), "left")
	// Output: 2 pages, 8 and 8 marks, 0 left
}
