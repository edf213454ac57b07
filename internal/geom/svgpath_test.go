package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func parse1(t *testing.T, d string) Path {
	ps, err := ParsePath(d, mm)
	require.NoError(t, err, d)
	require.Len(t, ps, 1, d)
	require.NoError(t, ps[0].Check(), d)
	return ps[0]
}

// Different spellings of the same path; most forms are from the grammar and
// the examples of the SVG standard's chapter on paths.
func TestParsePathSpellings(t *testing.T) {
	for _, c := range [][]string{
		{"M 100 100 L 300 100 L 200 300 z", "M100,100L300,100 200,300Z", "m100 100 200 0-100 200z", "M1e2 100.0H300L200 300z", "\n M 100\t100\r\nh 200 l -100 , 200 Z ", "M100 100 300 100 200 300 Z"},
		{"M0 0L.5.5-1.5-2", "M0 0 L 0.5 0.5 L -1.5 -2", "M0,0l.5.5l-2-2.5", "m0 0 5e-1+.5 -2 -250e-2"},
		{"M10 20C1 2 3 4 5 6S9 10 11 12", "M10 20 c-9-18-7-16-5-14s4 4 6 6", "M10 20 C1 2 3 4 5 6 C7 8 9 10 11 12"},
		{"M10 20Q1 2 3 4T7 8", "M10 20 q-9-18-7-16t4 4", "M10 20Q1 2 3 4Q5 6 7 8"},
		{"M0 0S1 2 3 4", "M0 0C0 0 1 2 3 4"},
		{"M0 0T3 4", "M0 0Q0 0 3 4"},
		{"M0 0V5v5H5h5", "M0 0L0 5L0 10L5 10L10 10"},
		{"M0 0A5 4 30 0 1 6 2", "M0 0a5 4 30 016 2", "M0 0A5,4,30,0,1,6,2", "M0 0a5-4 30 01 6 2"},
		{"M0 0A5 5 0 1 0 6 2", "M0 0a5 5 0 106 2"},
		{"M0 0A0 5 0 1 0 6 2", "M0 0L6 2"},
		{"M0 0A5 5 0 1 0 6 2A3 3 0 0 0 6 2", "M0 0a5 5 0 106 2"}, // an arc to itself is left out
	} {
		want := parse1(t, c[0])
		for _, d := range c[1:] {
			require.Equal(t, want, parse1(t, d), "%q and %q", c[0], d)
		}
	}
}

func TestParsePathSubpaths(t *testing.T) {
	ps, err := ParsePath("M0 0h10v10z m20 0h10v10z l5 5", mm)
	require.NoError(t, err)
	require.Len(t, ps, 3)
	require.True(t, ps[0].Closed() && ps[1].Closed() && !ps[2].Closed())
	require.Equal(t, Point{20 * mm, 0}, ps[1].Segments[0].From, "relative to the start of the closed subpath")
	require.Equal(t, Point{20 * mm, 0}, ps[2].Segments[0].From)
	for _, d := range []string{"", "  \n", "M1 2", "M1 2 Z", "M1 2M3 4"} {
		ps, err := ParsePath(d, mm)
		require.NoError(t, err, d)
		require.Empty(t, ps, d)
	}
}

func TestParsePathArc(t *testing.T) {
	// Four ways from (0,0) to (10,0) on circles of radius 10, and a half circle
	// from a radius too small.
	for _, c := range []struct {
		d      string
		length float64
		area   float64 // sign: positive to the right of the chord
	}{
		{"M0 0A10 10 0 0 1 10 0", 10 * math.Pi / 3, 1},
		{"M0 0A10 10 0 0 0 10 0", 10 * math.Pi / 3, -1},
		{"M0 0A10 10 0 1 1 10 0", 50 * math.Pi / 3, 1},
		{"M0 0A10 10 0 1 0 10 0", 50 * math.Pi / 3, -1},
		{"M0 0A1 1 0 0 1 10 0", 5 * math.Pi, 1},
	} {
		p := parse1(t, c.d)
		require.InDelta(t, c.length, p.Length()/mm, 1e-9, c.d)
		require.Equal(t, c.area, math.Copysign(1, p.Segments[0].green()), c.d)
	}
	// An ellipse of half-axes 20 and 10 turned by 30 degrees, in two halves
	// (the radii are scaled up to reach).
	c := math.Cos(math.Pi / 6)
	p := parse1(t, "M-17.320508-10A2 1 30 0 1 17.320508 10A2 1 30 0 1-17.320508-10Z")
	require.InDelta(t, 9.688448220*10, p.Length()/mm, 1e-6)
	require.InDelta(t, 200*math.Pi, math.Abs(p.Area())/mm/mm, 1e-4)
	b := p.Bounds()
	require.InDelta(t, math.Sqrt(400*c*c+100*0.25), float64(b.Max.X)/mm, 1e-5)
}

func TestParsePathErrors(t *testing.T) {
	for _, c := range []struct {
		d      string
		offset int
		want   error
	}{
		{"L1 2", 0, ErrPathSyntax},
		{"M", 1, ErrPathSyntax},
		{"M1", 2, ErrPathSyntax},
		{"M1 2 L", 6, ErrPathSyntax},
		{"M1 2 L3", 7, ErrPathSyntax},
		{"M1 2, L3 4", 4, ErrPathSyntax},
		{"M1,,2", 3, ErrPathSyntax},
		{"M,1 2", 1, ErrPathSyntax},
		{"M1 2 X", 5, ErrPathSyntax},
		{"M1 2 L 3 4e", 10, ErrPathSyntax},
		{"M1 2 L . 4", 7, ErrPathSyntax},
		{"M1 2 L - 4", 7, ErrPathSyntax},
		{"M0 0A5 5 0 2 1 6 2", 11, ErrPathSyntax},
		{"M0 0A5 5 0 1 6 2", 13, ErrPathSyntax},
		{"M1 2 Z 3", 7, ErrPathSyntax},
		{"M1e9 2", 1, ErrRange},
		{"M1e999 2", 1, ErrRange},
		{"M90000 0l90000 0", 16, ErrRange},
		{"M1 2\x00", 4, ErrPathSyntax},
	} {
		_, err := ParsePath(c.d, mm)
		var pe *PathError
		require.ErrorAs(t, err, &pe, c.d)
		require.ErrorIs(t, err, c.want, c.d)
		require.Equal(t, c.offset, pe.Offset, c.d)
		require.Contains(t, pe.Error(), "byte")
	}
	_, err := ParsePath("M0 0", math.NaN())
	require.ErrorIs(t, err, ErrParameter)
	_, err = ParsePath(string(make([]byte, maxPathData+1)), mm)
	require.ErrorIs(t, err, ErrTooComplex)
}

func FuzzParsePath(f *testing.F) {
	for _, s := range []string{
		"M 100 100 L 300 100 L 200 300 z", "M10 20C1 2 3 4 5 6S9 10 11 12", "M0 0a5 4 30 016 2",
		"m0 0 5e-1+.5 -2 -250e-2", "M10 20q-9-18-7-16t4 4", "M0 0A1e-300 5 0 0 1 9 9", "M0,0h1v1z m2 2 l1,1", "M1e999 2",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, d string) {
		ps, err := ParsePath(d, mm)
		if err != nil {
			var pe *PathError
			require.ErrorAs(t, err, &pe)
			require.True(t, pe.Offset >= 0 && pe.Offset <= len(d))
			return
		}
		for _, p := range ps {
			require.NoError(t, p.Check())
			if len(p.Segments) > 200 {
				continue
			}
			l := p.Length()
			require.False(t, math.IsNaN(l) || math.IsInf(l, 0))
			p.Bounds()
			if _, _, err := p.Flatten(FlattenOptions{Tolerance: mm}); err != nil {
				require.ErrorIs(t, err, ErrTooComplex)
			}
		}
	})
}

func BenchmarkParsePath(b *testing.B) {
	for b.Loop() {
		_, _ = ParsePath("M10 20C1 2 3 4 5 6S9 10 11 12A5 4 30 0 1 6 2Q1 2 3 4T7 8L10 20Z", mm)
	}
}
