package shape

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Pixels is a distance in a picture, in pixels.
type Pixels float64

// Pixel is a place in a picture: from its upper left corner, X to the right and Y
// down. Pixel i covers i to i + 1, so its middle lies at a half. As text, and in
// JSON, it is "964.6, 716.5".
type Pixel struct{ X, Y Pixels }

// String writes the pixel as (x, y).
func (p Pixel) String() string { return "(" + p.text() + ")" }

func (p Pixel) text() string {
	text := func(x Pixels) string { return strconv.FormatFloat(float64(x), 'g', -1, 64) }
	return text(p.X) + ", " + text(p.Y)
}

// MarshalText writes the pixel as "964.6, 716.5": X, then Y.
func (p Pixel) MarshalText() ([]byte, error) { return []byte(p.text()), nil }

// UnmarshalText reads two numbers with a comma between them, X first. It wraps
// unit.ErrSyntax or unit.ErrNotFinite.
func (p *Pixel) UnmarshalText(text []byte) error {
	refuse := func(err error) error {
		return check.Refuse("", string(text), err, "two numbers of pixels such as \"964.6, 716.5\"")
	}
	x, y, ok := strings.Cut(string(text), ",")
	if !ok {
		return refuse(unit.ErrSyntax)
	}
	var q [2]float64
	for i, s := range [2]string{x, y} {
		s = strings.TrimSpace(s)
		if strings.Trim(s, "+-.0123456789eE") != "" {
			return refuse(unit.ErrSyntax)
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			if v != 0 { // beyond what a number holds
				return refuse(unit.ErrNotFinite)
			}
			return refuse(unit.ErrSyntax)
		}
		q[i] = v
	}
	*p = Pixel{Pixels(q[0]), Pixels(q[1])}
	return nil
}
