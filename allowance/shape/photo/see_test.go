package photo_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
	"github.com/coverwright/coverwright/unit"
)

// ring8 are eight marks round a panel of 600 x 410 mm.
func ring8() [][2]float64 {
	return [][2]float64{{-322, -262}, {0, -262}, {322, -262}, {322, 0}, {322, 262}, {0, 262}, {-322, 262}, {-322, 0}}
}

// taken is the page of marks as a camera sees it.
func taken(c shot, rng *rand.Rand, noise float64, marks [][2]float64) photo.Page {
	var page photo.Page
	for _, m := range marks {
		page = append(page, c.mark(rng, m[0], m[1], noise, place(m[0], m[1])))
	}
	return page
}

// Without noise and with a straight lens, what a camera sees leads back to where it
// is, and a place leads to where it is seen, for any camera.
func TestExactPicturesAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		rng := rand.New(rand.NewPCG(seed, 1))
		camera := shoot(rng, 4000, 3000, 50, 0, ring8())
		view, err := photo.See(4000, 3000, []photo.Page{taken(camera, rng, 0, ring8())}, photo.Options{})
		require.NoError(t, err)
		x, y := rapid.Float64Range(-320, 320).Draw(t, "x"), rapid.Float64Range(-260, 260).Draw(t, "y")
		px, py, _ := camera.see(x, y)
		p, err := view.Point(photo.Pixel{X: shape.Pixels(px), Y: shape.Pixels(py)})
		require.NoError(t, err)
		assert.InDelta(t, x, p.X.Millimetres(), 1e-4)
		assert.InDelta(t, y, p.Y.Millimetres(), 1e-4)
		back, err := view.Pixel(p)
		require.NoError(t, err)
		assert.InDelta(t, px, float64(back.X), 1e-3)
		assert.InDelta(t, py, float64(back.Y), 1e-3)
		sigma, spare := view.Sigma()
		assert.Less(t, float64(sigma), 1e-4)
		assert.Equal(t, 8, spare)
		assert.Empty(t, view.Off())
		at := view.Camera()
		tilt := math.Acos(-camera.forward[2]) * 180 / math.Pi
		if tilt > 12 {
			assert.InDelta(t, tilt, at.Tilt.Degrees(), .01)
			assert.InDelta(t, camera.eye[2], at.Height.Millimetres(), .05)
			assert.InDelta(t, camera.focal, float64(at.Focal), .2)
			assert.InDelta(t, camera.eye[0], at.Foot.X.Millimetres(), .1)
			assert.InDelta(t, camera.eye[1], at.Foot.Y.Millimetres(), .1)
		}
	})
}

// A page lies where it was laid, and its turn is found, seen with a lens.
func TestPagesAreFoundWhereTheyLie(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		second := lying{rapid.Float64Range(300, 700).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y"), rapid.Float64Range(-3.1, 3.1).Draw(t, "turn"), sheetOf(2, 4)}
		var all [][2]float64
		for _, m := range second.marks {
			all = append(all, m, second.put(m))
		}
		camera := shoot(rng, 4000, 3000, 45, .03, all)
		var pages [2]photo.Page
		for _, m := range second.marks {
			at := second.put(m)
			pages[0] = append(pages[0], camera.mark(rng, m[0], m[1], .03, place(m[0], m[1])))
			pages[1] = append(pages[1], camera.mark(rng, at[0], at[1], .03, place(m[0], m[1])))
		}
		view, err := photo.See(4000, 3000, pages[:], photo.Options{})
		require.NoError(t, err)
		lies, ok := view.Page(1)
		require.True(t, ok)
		assert.InDelta(t, 0, math.Remainder(second.turn*180/math.Pi-lies.Turn.Degrees(), 360), .2)
		assert.InDelta(t, second.x, lies.Move.X.Millimetres(), 2)
		assert.InDelta(t, second.y, lies.Move.Y.Millimetres(), 2)
		assert.InDelta(t, camera.k, float64(view.Lens()), .012)
		first, ok := view.Page(0)
		assert.Equal(t, photo.Place{}, first)
		assert.True(t, ok)
		_, ok = view.Page(2)
		assert.False(t, ok)
	})
}

// A false mark is found and left out, however far it is off from six pixels on, and the
// others keep what they can do. One that is off by four is now and then taken for noise.
func TestFalseMarks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 3))
		camera := shoot(rng, 4000, 3000, 45, .03, ring8())
		page := taken(camera, rng, .08, ring8())
		bad := rapid.IntRange(0, 7).Draw(t, "bad")
		by, round := math.Exp(rapid.Float64Range(math.Log(6), math.Log(400)).Draw(t, "by")), rapid.Float64Range(0, 6.28).Draw(t, "round")
		m := &page[bad]
		x, y := float64(m.Seen.X)+by*math.Cos(round), float64(m.Seen.Y)+by*math.Sin(round)
		m.Seen = photo.Pixel{X: shape.Pixels(min(4000, max(0, x))), Y: shape.Pixels(min(3000, max(0, y)))}
		moved := math.Hypot(float64(m.Seen.X)-x+by*math.Cos(round), float64(m.Seen.Y)-y+by*math.Sin(round))
		if moved < 6 {
			return
		}
		view, err := photo.See(4000, 3000, []photo.Page{page}, photo.Options{})
		require.NoError(t, err)
		require.Len(t, view.Off(), 1)
		assert.Equal(t, bad, view.Off()[0].Mark)
		assert.InDelta(t, moved, float64(view.Off()[0].By), 3)
		sigma, _ := view.Sigma()
		assert.Less(t, float64(sigma), .25)
	})
}

// Of three pages one that was printed too large is left out; of two nobody knows
// which is wrong.
func TestPageThatDoesNotFit(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	lie := []lying{{-430, 0, 0, sheetOf(2, 4)}, {430, 20, .2, sheetOf(2, 4)}, {0, 420, 1.5, sheetOf(2, 4)}}
	var all [][2]float64
	for _, l := range lie {
		for _, m := range l.marks {
			all = append(all, l.put(m))
		}
	}
	camera := shoot(rng, 4000, 3000, 30, .02, all)
	var pages []photo.Page
	for i, l := range lie {
		var page photo.Page
		for _, m := range l.marks {
			f := 1.
			if i == 1 {
				f = 1.05 // larger than it says
			}
			at := l.put([2]float64{m[0] * f, m[1] * f})
			page = append(page, camera.mark(rng, at[0], at[1], .08, place(m[0], m[1])))
		}
		pages = append(pages, page)
	}
	view, err := photo.See(4000, 3000, pages, photo.Options{})
	require.NoError(t, err)
	require.Len(t, view.Off(), 1)
	assert.Equal(t, 1, view.Off()[0].Page)
	assert.Equal(t, -1, view.Off()[0].Mark)
	_, ok := view.Page(1)
	assert.False(t, ok)
	_, err = photo.See(4000, 3000, pages[:2], photo.Options{})
	assert.ErrorIs(t, err, photo.ErrMisfit)
}

// The middle of the picture of a large ring is not the picture of its middle.
func TestRingsSeenAtAnAngle(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	camera := shoot(rng, 4000, 3000, 0, 0, ring8())
	// Tilted by 45 deg by hand: turn line of sight and eye about x.
	s := math.Sqrt(.5)
	camera.forward, camera.right = [3]float64{0, s, -s}, [3]float64{1, 0, 0}
	camera.down = cross(camera.forward, camera.right)
	camera.eye = times(camera.forward, -1400)
	radii := []float64{40, 26.4, 13.2}
	var page photo.Page
	for _, m := range ring8() {
		// The centroid of the dark parts, by fine sums over angle and radius.
		var sx, sy, sum float64
		for i := range 3000 {
			r := 40 * (float64(i) + .5) / 3000
			if r < radii[1] && r > radii[2] {
				continue
			}
			for k := range 24 {
				a := 2 * math.Pi * float64(k) / 24
				x, y, depth := camera.see(m[0]+r*math.Cos(a), m[1]+r*math.Sin(a))
				w := r / (depth * depth * depth) // area in the picture goes as 1 / depth³
				sx, sy, sum = sx+w*x, sy+w*y, sum+w
			}
		}
		page = append(page, photo.Mark{Seen: photo.Pixel{X: shape.Pixels(sx / sum), Y: shape.Pixels(sy / sum)}, At: place(m[0], m[1])})
	}
	sigmas := [2]float64{}
	for i, circles := range [][]unit.Length{nil, {40 * mm, 264 * mm / 10, 132 * mm / 10}} {
		view, err := photo.See(4000, 3000, []photo.Page{page}, photo.Options{Circles: circles, Straight: true})
		require.NoError(t, err)
		sigma, _ := view.Sigma()
		sigmas[i] = float64(sigma)
	}
	assert.Greater(t, sigmas[0], 10*sigmas[1], "%v", sigmas)
}

// What lies higher than the marks looks larger; with its thickness it does not.
func TestThickness(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	camera := shoot(rng, 4000, 3000, 25, 0, ring8())
	page := taken(camera, rng, 0, ring8())
	for _, thick := range []unit.Length{0, 2 * mm, 10 * mm} {
		view, err := photo.See(4000, 3000, []photo.Page{page}, photo.Options{Thickness: thick})
		require.NoError(t, err)
		for _, p := range [][2]float64{{-290, -190}, {290, 180}, {0, 40}} {
			x, y, _ := camera.seeAt(p[0], p[1], thick.Millimetres())
			at, err := view.Point(photo.Pixel{X: shape.Pixels(x), Y: shape.Pixels(y)})
			require.NoError(t, err)
			assert.InDelta(t, p[0], at.X.Millimetres(), .01)
			assert.InDelta(t, p[1], at.Y.Millimetres(), .01)
			back, err := view.Pixel(at)
			require.NoError(t, err)
			assert.InDelta(t, x, float64(back.X), .01)
			assert.InDelta(t, y, float64(back.Y), .01)
		}
	}
	low := shoot(rng, 400, 300, 0, 0, [][2]float64{{-90, -90}, {90, 90}})
	_, err := photo.See(400, 300, []photo.Page{taken(low, rng, 0, [][2]float64{{-90, -90}, {90, -90}, {90, 90}, {-90, 90}})}, photo.Options{Thickness: 190 * mm})
	assert.ErrorIs(t, err, unit.ErrRange)
}

func TestPrinted(t *testing.T) {
	page := photo.Page{{At: place(80, -100)}, {At: place(-80, 100)}}
	out, err := page.Printed(photo.Line{Drawn: 150 * mm, Measured: 1503 * mm / 10}, photo.Line{Drawn: 250 * mm, Measured: 249 * mm})
	require.NoError(t, err)
	assert.Equal(t, photo.Page{{At: place(80.16, -99.6)}, {At: place(-80.16, 99.6)}}, out)
	for _, l := range []photo.Line{{}, {Drawn: 150 * mm}, {Drawn: 150 * mm, Measured: 170 * mm}, {Drawn: 10 * mm, Measured: 10 * mm}} {
		_, err = page.Printed(l, photo.Line{Drawn: 250 * mm, Measured: 250 * mm})
		assert.Error(t, err)
		var in *unit.InputError
		require.True(t, errors.As(err, &in))
		assert.True(t, in.Field.Under("across"), "%v", in.Field)
	}
}

func TestRefusedMarks(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	camera := shoot(rng, 4000, 3000, 20, 0, ring8())
	good := taken(camera, rng, .05, ring8())
	with := func(change func(photo.Page) photo.Page) photo.Page {
		return change(append(photo.Page(nil), good...))
	}
	line := func(n int) photo.Page {
		var marks [][2]float64
		for i := range n {
			marks = append(marks, [2]float64{-300 + 80*float64(i), -200 + 50*float64(i)})
		}
		return taken(camera, rng, .05, marks)
	}
	for _, r := range []struct {
		name  string
		page  photo.Page
		more  []photo.Page
		o     photo.Options
		is    error
		field unit.Path
	}{
		{name: "none", is: unit.ErrRange, field: "pages[0]"},
		{name: "three", page: good[:3], is: photo.ErrDegenerate, field: "pages[0]"},
		{name: "in line", page: line(6), is: photo.ErrDegenerate, field: "pages[0]"},
		{name: "all but one in line", page: append(line(5), good[6]), is: photo.ErrDegenerate, field: "pages[0]"},
		{name: "one place twice", page: append(line(2), good[6], good[6]), is: photo.ErrDegenerate, field: "pages[0]"},
		{name: "mirrored", page: with(func(p photo.Page) photo.Page {
			for i := range p {
				p[i].Seen.X = 4000 - p[i].Seen.X
			}
			return p
		}), is: photo.ErrMirrored, field: "pages"},
		{name: "upside down places", page: with(func(p photo.Page) photo.Page {
			for i := range p {
				p[i].At.Y = -p[i].At.Y
			}
			return p
		}), is: photo.ErrMirrored, field: "pages"},
		{name: "one off of five", page: with(func(p photo.Page) photo.Page {
			p[2].Seen.X -= 40
			return append(p[:3:3], p[4], p[6])
		}), is: photo.ErrMisfit},
		{name: "far out", page: with(func(p photo.Page) photo.Page { p[3].Seen.X = 4001; return p }), is: photo.ErrOutside, field: "pages[0][3].seen"},
		{name: "no number", page: with(func(p photo.Page) photo.Page { p[3].Seen.Y = shape.Pixels(math.NaN()); return p }), is: unit.ErrNotFinite, field: "pages[0][3].seen"},
		{name: "a place far away", page: with(func(p photo.Page) photo.Page { p[2].At.Y = 60 * unit.Metre; return p }), is: unit.ErrRange, field: "pages[0][2].at"},
		{name: "a page of one mark", page: good, more: []photo.Page{good[:1]}, is: unit.ErrRange, field: "pages[1]"},
		{name: "spread", page: good, o: photo.Options{MarkSpread: -1}, is: unit.ErrRange, field: "mark_spread"},
		{name: "edge", page: good, o: photo.Options{EdgeSpread: shape.Pixels(math.Inf(1))}, is: unit.ErrNotFinite, field: "edge_spread"},
		{name: "scale", page: good, o: photo.Options{ScaleError: .3}, is: unit.ErrRange, field: "scale_error"},
		{name: "thickness", page: good, o: photo.Options{Thickness: -mm}, is: unit.ErrRange, field: "thickness"},
		{name: "places", page: good, o: photo.Options{PlaceSpread: 90 * mm}, is: unit.ErrRange, field: "place_spread"},
		{name: "circles", page: good, o: photo.Options{Circles: []unit.Length{10 * mm, 12 * mm}}, is: unit.ErrRange, field: "circles[1]"},
	} {
		_, err := photo.See(4000, 3000, append([]photo.Page{r.page}, r.more...), r.o)
		require.Error(t, err, r.name)
		assert.ErrorIs(t, err, r.is, r.name)
		var in *unit.InputError
		require.True(t, errors.As(err, &in), r.name)
		if r.field != "" {
			assert.Equal(t, r.field, in.Field, r.name)
		}
	}
	for _, size := range [][2]int{{0, 3000}, {4000, -1}, {4000, 1 << 30}} {
		_, err := photo.See(size[0], size[1], []photo.Page{good}, photo.Options{})
		assert.ErrorIs(t, err, unit.ErrRange)
	}
	_, err := photo.See(4000, 3000, nil, photo.Options{})
	assert.ErrorIs(t, err, unit.ErrRange)
}

// Below the horizon lies no panel, and behind the camera no picture.
func TestPlacesThatCannotBeSeen(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	camera := shoot(rng, 4000, 3000, 0, 0, ring8())
	s, c := math.Sincos(75 * math.Pi / 180)
	camera.forward, camera.right = [3]float64{0, s, -c}, [3]float64{1, 0, 0}
	camera.down = cross(camera.forward, camera.right)
	camera.eye = times(camera.forward, -1500)
	view, err := photo.See(4000, 3000, []photo.Page{taken(camera, rng, 0, ring8())}, photo.Options{})
	require.NoError(t, err)
	_, err = view.Point(photo.Pixel{X: 2000, Y: 100})
	assert.ErrorIs(t, err, photo.ErrBehind)
	_, err = view.Point(photo.Pixel{X: 2000, Y: 3001})
	assert.ErrorIs(t, err, photo.ErrOutside)
	_, err = view.Pixel(place(0, -1900))
	assert.ErrorIs(t, err, photo.ErrBehind)
}

// Four marks fix the picture and leave nothing to judge it by; with a spread there is
// something to say, and the lens is most of it.
func TestFourMarks(t *testing.T) {
	rng := rand.New(rand.NewPCG(10, 10))
	corners := [][2]float64{{-322, -262}, {322, -262}, {322, 262}, {-322, 262}}
	panel := panel600(t)
	kept := 0
	for range 200 {
		camera := shoot(rng, 4000, 3000, 45, .03, corners)
		page := taken(camera, rng, .08, corners)
		view, err := photo.See(4000, 3000, []photo.Page{page}, photo.Options{})
		require.NoError(t, err)
		e, err := view.ErrorOf(panel)
		require.NoError(t, err)
		assert.False(t, e.Known)
		assert.Zero(t, e.Picture)
		_, known := view.Spread(shape.Point{})
		assert.False(t, known)
		view, err = photo.See(4000, 3000, []photo.Page{page}, photo.Options{MarkSpread: .08, ScaleError: 1e-9})
		require.NoError(t, err)
		e, err = view.ErrorOf(panel)
		require.NoError(t, err)
		require.True(t, e.Known)
		ring, err := panel.Flatten(mm)
		require.NoError(t, err)
		var truth, found [][2]float64
		for _, p := range ring {
			x, y, _ := camera.see(p.X.Millimetres(), p.Y.Millimetres())
			at, err := view.Point(photo.Pixel{X: shape.Pixels(x), Y: shape.Pixels(y)})
			require.NoError(t, err)
			truth, found = append(truth, [2]float64{p.X.Millimetres(), p.Y.Millimetres()}), append(found, [2]float64{at.X.Millimetres(), at.Y.Millimetres()})
		}
		if afterMove(found, truth) <= e.Outline.Millimetres() {
			kept++
		}
	}
	assert.GreaterOrEqual(t, kept, 190)
}

func circlesOf(mms ...float64) []unit.Length {
	var out []unit.Length
	for _, r := range mms {
		out = append(out, unit.Length(math.Round(r*1e6)))
	}
	return out
}
