package main

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/examples/trace/internal/contour"
	"github.com/coverwright/coverwright/examples/trace/internal/picture"
	"github.com/coverwright/coverwright/examples/trace/internal/scene"
	"github.com/coverwright/coverwright/unit"
)

// spoilt is a small photo of an inside back between two pages, which the tests spoil.
func spoilt(t testing.TB) trial {
	s := scene.Scene{
		Ground: scene.Tone{Light: 0.6}, Panels: []scene.Panel{{Outline: insideBack(t), Tone: scene.Tone{Light: 0.08}}},
		Sheets: []scene.Sheet{{X: -555, Y: -150}, {X: 345, Y: -150, Turn: 2}},
	}
	c := scene.Camera{Width: 1600, Height: 1200, Focal: 1200, Tilt: 15, Way: 200, Roll: 4, Blur: 0.8, Noise: 2, Slope: 0.2, Exposure: 0.9, Seed: 4}
	return trial{s, c}
}

// shadow lays a shadow beside the panel, lower right.
func shadow(light, wide float64) func(tr *trial) {
	return func(tr *trial) {
		p := tr.scene.Panels[0]
		q := scene.Panel{Tone: scene.Tone{Light: light}}
		var err error
		if q.Outline, err = p.Outline.Moved(shape.Point{X: mm(wide), Y: -mm(wide)}); err != nil {
			panic(err)
		}
		tr.scene.Panels = []scene.Panel{q, p}
	}
}

// taken approaches and takes the photo.
func (tr trial) taken(t testing.TB) []byte {
	require.NoError(t, tr.camera.Approach(tr.scene, scene.Point{}))
	return tr.photo(t)
}

// spoiling is what is done to a photo, and what is said then.
type spoiling struct {
	name  string
	spoil func(tr *trial)
	want  string
}

// What a photo cannot tell is refused, with what to do; nothing wrong comes out.
// TestMoreRefusals spoils photos in more ways.
func TestRefusals(t *testing.T) {
	refusals(t, []spoiling{
		{"no marks", func(tr *trial) { tr.scene.Sheets = nil }, "no mark is seen"},
		{"little contrast", func(tr *trial) { tr.scene.Ground.Light, tr.scene.Panels[0].Tone.Light = 0.12, 0.085 }, "levels only"},
		{"a pattern like the ground", func(tr *trial) { tr.scene.Panels[0].Stripes, tr.scene.Panels[0].Stripe = 6, tr.scene.Ground }, "pattern"},
		{"a wide dark shadow", shadow(0.22, 30), "shadow"},
		{"part of a page", func(tr *trial) {
			tr.scene.Sheets = tr.scene.Sheets[:1]
			tr.scene.Sheets[0].X = -700
			tr.camera.Aim.X = 1
		}, ""},
	})
}

func refusals(t *testing.T, spoilings []spoiling) {
	t.Helper()
	for _, c := range spoilings {
		t.Run(c.name, func(t *testing.T) {
			tr := spoilt(t)
			c.spoil(&tr)
			r, _, err := read(bytes.NewReader(tr.taken(t)), settings{})
			if c.want == "" { // told, though badly
				require.NoError(t, err)
				assert.NotEmpty(t, r.notes)
				return
			}
			require.ErrorIs(t, err, contour.ErrPhoto)
			assert.ErrorContains(t, err, c.want)
		})
	}
}

// A panel that runs out of the picture is refused.
func TestPartOfPanel(t *testing.T) {
	tr := spoilt(t)
	require.NoError(t, tr.camera.Approach(tr.scene, scene.Point{}))
	tr.scene.Panels[0].Outline = moved(t, tr.scene.Panels[0].Outline, 0, 330)
	_, _, err := read(bytes.NewReader(tr.photo(t)), settings{})
	assert.ErrorContains(t, err, "runs out of the picture")
}

// A photo that was mirrored is refused, not read left for right.
func TestMirrored(t *testing.T) {
	tr := spoilt(t)
	m, err := jpeg.Decode(bytes.NewReader(tr.taken(t)))
	require.NoError(t, err)
	p, ok := m.(*image.YCbCr)
	require.True(t, ok)
	for y := range p.Rect.Dy() {
		slices.Reverse(p.Y[y*p.YStride : y*p.YStride+p.Rect.Dx()])
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, p, nil))
	_, _, err = read(&b, settings{})
	assert.ErrorContains(t, err, "left is right")
}

// A print that is too large is put right by its measured lines, or by a tape from
// page to page; unmeasured, the error says that it may be so.
func TestScale(t *testing.T) {
	tr := spoilt(t)
	for i := range tr.scene.Sheets {
		tr.scene.Sheets[i].GrownX, tr.scene.Sheets[i].GrownY = 1.004, 1.002
	}
	seen, err := picture.Open(bytes.NewReader(tr.taken(t)))
	require.NoError(t, err)
	wide := func(set settings) (unit.Length, reading) {
		r, err := readPicture(seen, set)
		require.NoError(t, err)
		low, high := r.panels[0].lies.Bounds()
		return high.X - low.X, r
	}
	const true600 = 600 * unit.Millimetre
	plain, unmeasured := wide(settings{})
	assert.True(t, unmeasured.panels[0].off.Unmeasured)
	assert.InDelta(t, 600/1.004, plain.Millimetres(), 0.5)
	assert.Greater(t, unmeasured.panels[0].off.Scale, (true600-plain)/2)

	ruled, r := wide(settings{across: mm(150 * 1.004), up: mm(250 * 1.002)})
	assert.False(t, r.panels[0].off.Unmeasured)
	assert.InDelta(t, 600, ruled.Millimetres(), 0.5)
	letter, _ := wide(settings{across: mm(152.4 * 1.004), up: mm(228.6 * 1.002)})
	assert.Equal(t, ruled, letter, "the paper follows from the lengths")
	_, r = wide(settings{across: mm(150), up: mm(228.6)})
	assert.Contains(t, strings.Join(r.notes, "; "), "measure both lines again")

	// The marks without a dot, as they lie.
	a, b := tr.scene.Sheets[0].At(0, 0), tr.scene.Sheets[1].At(0, 0)
	taped, r := wide(settings{taped: mm(distance(a, b))})
	assert.InDelta(t, 600, taped.Millimetres(), 1)
	assert.Less(t, float64(r.panels[0].off.Lengths), 0.001)
	// A face above the pages is seen larger by Z / (Z - t) (derived).
	thick, _ := wide(settings{thickness: 5 * unit.Millimetre})
	z := unmeasured.view.Camera().Height.Millimetres()
	assert.InDelta(t, plain.Millimetres()*(z-5)/z, thick.Millimetres(), 0.1)
	for _, set := range []settings{{taped: 2 * unit.Metre}, {taped: mm(distance(a, b)), between: [2]int{1, 3}}} {
		_, err = readPicture(seen, set)
		assert.ErrorContains(t, err, "-taped")
	}
	same, _ := wide(settings{taped: mm(distance(a, b)), between: [2]int{2, 1}})
	assert.Equal(t, taped, same)
	// Of more pages than two, it must be said which.
	tr.scene.Sheets = append(tr.scene.Sheets, scene.Sheet{X: -105, Y: 230})
	_, _, err = read(bytes.NewReader(tr.taken(t)), settings{taped: mm(distance(a, b))})
	assert.ErrorContains(t, err, "say between which")
}

func distance(a, b scene.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// However the camera was held, the panel comes out the same; a picture that its file
// says to be mirrored is refused. TestEveryTurnOfAPhoto turns it in all eight ways.
func TestTurnedPhoto(t *testing.T) { readTurned(t, 4, 5) }

// readTurned reads a photo whose file says that it is turned in each of the ways.
func readTurned(t *testing.T, ways ...byte) {
	t.Helper()
	tr := spoilt(t)
	file := tr.taken(t)
	for _, turn := range ways {
		exif := append([]byte("\xff\xe1\x00\x22Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00"), turn+1, 0, 0, 0, 0, 0, 0)
		r, p, err := read(bytes.NewReader(slices.Concat(file[:2], exif, file[2:])), settings{})
		switch turn + 1 {
		case 2, 4, 5, 7:
			assert.ErrorContains(t, err, "left is right", "turn %d", turn+1)
			continue
		}
		require.NoError(t, err, "turn %d", turn+1)
		assert.EqualValues(t, turn+1, p.Turn)
		assert.Less(t, wrongBy(t, r.panels[0].outline, tr.scene.Panels[0].Outline), 1.0)
		wide, tall := r.panels[0].outline.Size()
		assert.InDelta(t, 600, wide.Millimetres(), 2, "up is where the page says")
		assert.InDelta(t, 410, tall.Millimetres(), 2)
		_, err = overlay(p, r)
		require.NoError(t, err)
	}
}
