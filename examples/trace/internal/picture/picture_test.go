package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// exif gives the segment of a JPEG file that says how it is turned.
func exif(order binary.AppendByteOrder, head string, turn uint16) []byte {
	b := []byte("Exif\x00\x00" + head)
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	// Another field before it: the make of a camera, as text.
	b = order.AppendUint16(b, 0x010f)
	b = order.AppendUint16(b, 2)
	b = append(order.AppendUint32(b, 4), 'a', 'b', 'c', 0)
	b = order.AppendUint16(b, 0x0112)
	b = order.AppendUint16(b, 3)
	b = order.AppendUint32(b, 1)
	b = order.AppendUint16(b, turn)
	b = order.AppendUint16(b, 0)
	b = order.AppendUint32(b, 0)
	return append([]byte{0xff, 0xe1, byte((len(b) + 2) >> 8), byte(len(b) + 2)}, b...)
}

func jpegOf(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 100}))
	return b.Bytes()
}

// A picture whose quarters differ is brought upright from all eight ways that a
// camera may store it, by where row 0 and column 0 lie (published, the table of
// the tag in the manual of a free JPEG tool).
func TestTurns(t *testing.T) {
	const w, h = 240, 208
	upright := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			upright.SetGray(x, y, color.Gray{Y: uint8(40 + 100*(2*x/w) + 50*(2*y/h))})
		}
	}
	// The row-0 side and the column-0 side of the stored picture, as seen upright.
	sides := map[uint16][2]string{1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
		5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"}}
	for turn, side := range sides {
		sw, sh := w, h
		if turn >= 5 {
			sw, sh = h, w
		}
		stored := image.NewGray(image.Rect(0, 0, sw, sh))
		for row := range sh {
			for column := range sw {
				var x, y int
				for i, s := range side {
					n := [2]int{row, column}[i]
					switch s {
					case "top":
						y = n
					case "bottom":
						y = h - 1 - n
					case "left":
						x = n
					case "right":
						x = w - 1 - n
					}
				}
				stored.SetGray(column, row, upright.GrayAt(x, y))
			}
		}
		file := jpegOf(t, stored)
		for _, e := range [][]byte{exif(binary.BigEndian, "MM\x00*", turn), exif(binary.LittleEndian, "II*\x00", turn)} {
			p, err := Open(bytes.NewReader(append(append([]byte{0xff, 0xd8}, e...), file[2:]...)))
			require.NoError(t, err)
			require.Equal(t, [2]int{w, h}, [2]int{p.W, p.H}, turn)
			for _, q := range [][2]int{{30, 30}, {200, 30}, {30, 180}, {200, 180}} {
				want := float64(table()[upright.GrayAt(q[0], q[1]).Y])
				assert.InEpsilon(t, want, p.At(float64(q[0])+0.5, float64(q[1])+0.5), 0.06, "turn %d at %v", turn, q)
			}
		}
	}
	for _, turn := range []uint16{0, 9, 1000} {
		file := jpegOf(t, upright)
		p, err := Open(bytes.NewReader(append(append([]byte{0xff, 0xd8}, exif(binary.BigEndian, "MM\x00*", turn)...), file[2:]...)))
		require.NoError(t, err)
		assert.EqualValues(t, 1, p.Turn, "a value that means nothing")
	}
}

// pngHead is a PNG file that says its size and holds next to nothing.
func pngHead(w, h uint32) []byte {
	body := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), w), h)
	body = append(body, 8, 0, 0, 0, 0)
	out := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	out = append(out, body...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(body))
}

// jpegHead is a JPEG file that says its size and number of colours.
func jpegHead(w, h uint16, colours byte) []byte {
	out := []byte{0xff, 0xd8, 0xff, 0xc0, 0, 8 + 3*colours, 8, byte(h >> 8), byte(h), byte(w >> 8), byte(w), colours}
	for i := range colours {
		out = append(out, i+1, 0x11, 0)
	}
	return append(out, 0xff, 0xda, 0, 2, 0xff, 0xd9)
}

func TestRefused(t *testing.T) {
	good := jpegOf(t, image.NewGray(image.Rect(0, 0, 400, 300)))
	glass := image.NewNRGBA(image.Rect(0, 0, 300, 300))
	var see bytes.Buffer
	require.NoError(t, png.Encode(&see, glass))
	for name, c := range map[string]struct {
		file []byte
		want string
	}{
		"empty":               {nil, "empty"},
		"text":                {[]byte("not a picture at all"), "neither JPEG nor PNG"},
		"HEIC":                {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), "HEIC"},
		"WebP":                {[]byte("RIFF\x00\x00\x00\x00WEBPVP8 "), "WebP"},
		"PDF":                 {[]byte("%PDF-1.4"), "PDF"},
		"cut off":             {good[:len(good)/2], "cut off"},
		"cut in the head":     {good[:30], "damaged"},
		"81 megapixels":       {pngHead(9000, 9000), "50 million"},
		"as wide as can be":   {pngHead(1<<31-1, 1<<31-1), "damaged"},
		"100 megapixels JPEG": {jpegHead(10_000, 10_000, 3), "50 million"},
		"CMYK":                {jpegHead(1000, 1000, 4), "CMYK"},
		"tiny":                {jpegOf(t, image.NewGray(image.Rect(0, 0, 100, 300))), "too few"},
		"see-through":         {see.Bytes(), "see-through"},
	} {
		_, err := Open(bytes.NewReader(c.file))
		require.ErrorIs(t, err, ErrPicture, name)
		assert.ErrorContains(t, err, c.want, name)
	}
	_, err := Open(bytes.NewReader(append(good, make([]byte, mostBytes)...)))
	assert.ErrorContains(t, err, "64 MB")
}

// Every kind of picture that the decoders give has the same light.
func TestKindsOfPixels(t *testing.T) {
	grey := color.Gray{Y: 150}
	want := table()[150]
	box := image.Rect(0, 0, 240, 220)
	palette := image.NewPaletted(box, color.Palette{color.Black, grey})
	for i := range palette.Pix {
		palette.Pix[i] = 1
	}
	pictures := []interface {
		image.Image
		Set(x, y int, c color.Color)
	}{image.NewGray(box), image.NewRGBA(box), image.NewNRGBA(box), image.NewGray16(box), image.NewNRGBA64(box), palette}
	for _, m := range pictures {
		for y := range 220 {
			for x := range 240 {
				m.Set(x, y, grey)
			}
		}
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, m))
		p, err := Open(&b)
		require.NoError(t, err, "%T", m)
		assert.InDelta(t, float64(want), p.At(100, 100), 1, "%T", m)
		assert.InDelta(t, float64(want), p.Shrink(3).At(30, 30), 1)
	}
}

// The light of coded values: half of the scale is 21.4 % of the light (derived from
// the formula of the standard).
func TestDecoded(t *testing.T) {
	assert.InDelta(t, 0.2140, decoded(0.5), 5e-5)
	assert.InDelta(t, 0.04045/12.92, decoded(0.04045), 1e-12)
	assert.InDelta(t, 1, decoded(1), 1e-12)
}

// However a file is damaged, it is opened or refused, with a turn and a size that
// mean something.
func FuzzOpen(f *testing.F) {
	small := jpegOf(f, image.NewGray(image.Rect(0, 0, 208, 200)))
	f.Add(append(append([]byte{0xff, 0xd8}, exif(binary.BigEndian, "MM\x00*", 6)...), small[2:]...))
	f.Add(append(append([]byte{0xff, 0xd8}, exif(binary.LittleEndian, "II*\x00", 3)...), small[2:]...))
	f.Add(pngHead(300, 300))
	f.Add(jpegHead(10_000, 10_000, 3))
	f.Fuzz(func(t *testing.T, file []byte) {
		if turn := turnOf(file); turn < 1 || turn > 8 {
			t.Fatal(turn)
		}
		if cfg, _, err := image.DecodeConfig(bytes.NewReader(file)); err == nil && cfg.Width*cfg.Height > 1<<20 {
			return // time, not what is tried here
		}
		p, err := Open(bytes.NewReader(file))
		if err != nil {
			require.ErrorIs(t, err, ErrPicture)
			return
		}
		if p.W < leastSide || p.H < leastSide || len(p.Pix) != p.W*p.H {
			t.Fatal(p.W, p.H)
		}
	})
}
