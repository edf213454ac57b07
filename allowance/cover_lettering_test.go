package allowance_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// corners gives the corners of a text, in millimetres.
func textCorners(l pattern.Lettering) [4][2]float64 {
	sin, cos := math.Sincos(float64(l.Turn) * math.Pi / 180)
	w, h := l.Long.Millimetres()/2, l.Size.Millimetres()/2
	var out [4][2]float64
	for i, c := range [4][2]float64{{-w, -h}, {w, -h}, {w, h}, {-w, h}} {
		out[i] = [2]float64{l.At.X.Millimetres() + c[0]*cos - c[1]*sin, l.At.Y.Millimetres() + c[0]*sin + c[1]*cos}
	}
	return out
}

// parted tells whether a straight line parts two sets of points, along a side of
// either (the rule of separating axes).
func parted(a, b [][2]float64) bool {
	for _, ring := range [][][2]float64{a, b} {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			x, y := q[1]-p[1], p[0]-q[0]
			reach := func(of [][2]float64) (least, most float64) {
				least, most = math.Inf(1), math.Inf(-1)
				for _, r := range of {
					least, most = min(least, r[0]*x+r[1]*y), max(most, r[0]*x+r[1]*y)
				}
				return least, most
			}
			l1, m1 := reach(a)
			l2, m2 := reach(b)
			if m1 <= l2 || m2 <= l1 {
				return true
			}
		}
	}
	return false
}

// On the patterns of all kinds of furniture every notch has its letter, no text
// runs into another or across a line of the pattern, and what an edge is sewn to
// agrees from both sides.
func TestPatternsOfCoversAreLettered(t *testing.T) {
	for _, a := range anatomies {
		c := a.cover()
		w := worked(t, c)
		for i, piece := range w.Pieces {
			p, err := pattern.OfPiece(w.Pieces[i])
			require.NoError(t, err)
			require.NoError(t, p.Check())
			letters := p.Lettering()
			name := a.name + ", " + piece.Name
			for _, m := range piece.Marks {
				assert.True(t, slices.ContainsFunc(letters, func(l pattern.Lettering) bool {
					return l.Text == m.Label || strings.HasPrefix(l.Text, m.Label+", to ")
				}), "%s: notch %s", name, m.Label)
			}
			for k, l := range letters {
				box := textCorners(l)
				for _, o := range letters[:k] {
					other := textCorners(o)
					assert.True(t, parted(box[:], other[:]), "%s: %q runs into %q", name, l.Text, o.Text)
				}
				for _, line := range p.Lines() {
					for n := 1; n < len(line.Points); n++ {
						stretch := [][2]float64{inMillimetres(line.Points[n-1]), inMillimetres(line.Points[n])}
						assert.True(t, parted(box[:], stretch), "%s: %q lies across a %s line", name, l.Text, line.Kind)
					}
				}
			}
		}
	}
}

func inMillimetres(p shape.Point) [2]float64 {
	return [2]float64{p.X.Millimetres(), p.Y.Millimetres()}
}

// A notch is tied to the edge that has the same one, each way.
func TestNotchesNameTheirMates(t *testing.T) {
	c := wingChair()
	w := worked(t, c)
	all := map[string]pattern.Pattern{}
	for i, piece := range w.Pieces {
		all[piece.Name] = sure(pattern.OfPiece(w.Pieces[i]))
	}
	mates := 0
	for name, p := range all {
		for i, n := range p.Letters {
			for _, to := range n.To {
				mates++
				other := all[to[:strings.LastIndexByte(to, '.')]]
				assert.True(t, slices.ContainsFunc(other.Letters, func(m allowance.PieceMark) bool {
					return m.Label == n.Label && slices.Contains(m.To, name+"."+p.Notches[i].Edge)
				}), "%s %s", name, n.Label)
			}
		}
	}
	assert.Greater(t, mates, 60)
	deck := all["deck"]
	text := []string{}
	for _, l := range deck.Lettering() {
		text = append(text, l.Text)
	}
	assert.Contains(t, text, "C2, to front border top")
	assert.Contains(t, text, "front: welted seam C, to front border top")
	assert.Contains(t, text, "back: pushed through, hidden by outside back")
	assert.Contains(t, all["inside arm right"].Texts(pattern.Inches), "right, mirrored")
	assert.Contains(t, all["inside arm left"].Texts(pattern.Inches), "left, as drawn")
}

// A double notch is two lines 1/4 in apart, along the edge.
func TestDoubleNotch(t *testing.T) {
	c := wingChair()
	w := worked(t, c)
	seen := 0
	for i := range w.Pieces {
		p := sure(pattern.OfPiece(w.Pieces[i]))
		single := 0
		for _, l := range p.Letters {
			if l.Double {
				seen++
				single++
			}
		}
		lines := 0
		for _, l := range p.Lines() {
			if l.Kind == pattern.NotchLine {
				lines++
			}
		}
		assert.Equal(t, len(p.Notches)+single, lines)
	}
	assert.Positive(t, seen)
}

func TestOfPieceRefuses(t *testing.T) {
	w := worked(t, wingChair())
	piece := w.Pieces[0]
	piece.Panel.Notches = piece.Panel.Notches[:1]
	_, err := pattern.OfPiece(piece)
	var fault *unit.InputError
	require.ErrorAs(t, err, &fault)
	assert.Equal(t, unit.Path("marks"), fault.Field)
	_, err = pattern.OfPiece(allowance.CoverPiece{})
	require.ErrorAs(t, err, &fault)
	assert.Equal(t, unit.Path("panel.outline"), fault.Field)
}
