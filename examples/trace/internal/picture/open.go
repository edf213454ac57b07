// Package picture opens photographs and gives their light.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"  //nolint:misspell // as the library spells it
	_ "image/jpeg" // decoders of the two kinds that are read
	_ "image/png"
	"io"
)

// Limits, so that no file takes all memory.
const (
	mostBytes  = 64 << 20
	mostPixels = 50_000_000
	leastSide  = 200
)

// ErrPicture says a file cannot be used as a photograph.
var ErrPicture = errors.New("not a photo that can be read")

func refuse(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrPicture, fmt.Sprintf(format, args...))
}

// Picture is a photograph, upright.
type Picture struct {
	Plane             // its light
	Burnt int         // pixels at the upper end of the scale, whose light is unknown
	Shown image.Image // as stored
	Turn  Turn        // how Shown is turned to be upright
}

// Open reads a photograph, JPEG or PNG, of at most 64 MB and 50 megapixels. Its
// size is looked at before its pixels are. Errors wrap ErrPicture and say what
// to do.
func Open(r io.Reader) (Picture, error) {
	file, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return Picture{}, err
	}
	if len(file) > mostBytes {
		return Picture{}, refuse("the file is larger than 64 MB; save the photo smaller, as JPEG")
	}
	cfg, kind, err := image.DecodeConfig(bytes.NewReader(file))
	switch {
	case errors.Is(err, image.ErrFormat):
		return Picture{}, refuse("%s; save it as JPEG", guess(file))
	case err != nil:
		return Picture{}, refuse("the file is damaged or of a kind that is not read (%v); copy it again, or save it as JPEG", err)
	case int64(cfg.Width)*int64(cfg.Height) > mostPixels:
		return Picture{}, refuse("%d x %d pixels are more than 50 million; save the photo smaller", cfg.Width, cfg.Height)
	case cfg.Width < leastSide || cfg.Height < leastSide:
		return Picture{}, refuse("%d x %d pixels are too few; send the photo at its full size", cfg.Width, cfg.Height)
	case cfg.ColorModel == color.CMYKModel: //nolint:misspell // as the library spells it
		return Picture{}, refuse("it has the four colours of print (CMYK); save it as an ordinary JPEG in RGB")
	}
	shown, _, err := image.Decode(bytes.NewReader(file))
	if err != nil {
		return Picture{}, refuse("the file is cut off or damaged (%v); copy it again", err)
	}
	if o, ok := shown.(interface{ Opaque() bool }); ok && !o.Opaque() {
		return Picture{}, refuse("parts of it are see-through; save it as JPEG")
	}
	p := Picture{Shown: shown, Turn: upright}
	if kind == "jpeg" {
		p.Turn = turnOf(file)
	}
	p.Plane, p.Burnt = light(shown, p.Turn)
	return p, nil
}

// guess names what a file that is no picture may be.
func guess(file []byte) string {
	has := func(at int, s string) bool { return len(file) >= at+len(s) && string(file[at:at+len(s)]) == s }
	switch {
	case len(file) == 0:
		return "the file is empty"
	case has(4, "ftyphei"), has(4, "ftypmif1"), has(4, "ftypheif"):
		return "it is a HEIC photo"
	case has(4, "ftypavif"):
		return "it is an AVIF picture"
	case has(0, "RIFF") && has(8, "WEBP"):
		return "it is a WebP picture"
	case has(0, "II*\x00"), has(0, "MM\x00*"):
		return "it is a TIFF or raw picture"
	case has(0, "%PDF"):
		return "it is a PDF"
	}
	return "it is neither JPEG nor PNG"
}
