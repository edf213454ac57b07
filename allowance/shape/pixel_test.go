package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

func TestPixelText(t *testing.T) {
	var p shape.Pixel
	require.NoError(t, p.UnmarshalText([]byte(" 964.6 ,716.5")))
	assert.Equal(t, shape.Pixel{X: 964.6, Y: 716.5}, p)
	assert.Equal(t, "(964.6, 716.5)", p.String())
	for text, is := range map[string]error{
		"": unit.ErrSyntax, "3": unit.ErrSyntax, "3,4,5": unit.ErrSyntax, "a, 4": unit.ErrSyntax, "0x1p3, 4": unit.ErrSyntax, "NaN, 1": unit.ErrSyntax,
		"1e999, 1": unit.ErrNotFinite, "1, -1e999": unit.ErrNotFinite, "1, ": unit.ErrSyntax,
	} {
		assert.ErrorIs(t, p.UnmarshalText([]byte(text)), is, text)
	}
	assert.Equal(t, shape.Pixel{X: 964.6, Y: 716.5}, p, "a fault changes nothing")
}

// What is read is written so that it reads back the same.
func FuzzPixel(f *testing.F) {
	f.Add("964.6, 716.5")
	f.Add("1e3,-0")
	f.Fuzz(func(t *testing.T, text string) {
		var p, q shape.Pixel
		if p.UnmarshalText([]byte(text)) != nil {
			return
		}
		if math.IsInf(float64(p.X), 0) || math.IsNaN(float64(p.Y)) {
			t.Fatalf("%q reads as %v", text, p)
		}
		back, err := p.MarshalText()
		if err != nil || q.UnmarshalText(back) != nil || p != q {
			t.Fatalf("%q reads as %v, written as %q, read as %v", text, p, back, q)
		}
	})
}
