package pattern_test

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// The boxing of a cushion as a strip.
func ExampleRing_Draw() {
	p, err := made.Cushion{Width: 22 * unit.Inch, Depth: 20 * unit.Inch, Thickness: 4 * unit.Inch, Zip: true, Top: made.Goods{ID: "cloth", Across: 54 * unit.Inch}}.Make()
	if err != nil {
		fmt.Println(err)
		return
	}
	drawing, err := pattern.Ring{Boxing: *p.Boxing}.Draw()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range strings.Split(drawing, "\n") {
		if _, text, ok := strings.Cut(l, ">"); ok && strings.Contains(l, "between seams") {
			fmt.Println(strings.TrimSuffix(text, "</text>"))
		}
	}
	// Output:
	// zip panel: 31 in between seams, cut 32 in, two halves; marks a at 4 1/2
	// boxing: 53 in between seams, cut 54 in; marks c at 15 1/2 in (left and
}

// ringTexts reads the texts of a drawing with the room that they take.
func ringTexts(t require.TestingT, drawing string) [][4]float64 {
	var page struct {
		Texts []struct {
			X      float64 `xml:"x,attr"`
			Y      float64 `xml:"y,attr"`
			Size   float64 `xml:"font-size,attr"`
			Anchor string  `xml:"text-anchor,attr"`
			Text   string  `xml:",chardata"`
		} `xml:"text"`
	}
	require.NoError(t, xml.Unmarshal([]byte(drawing), &page))
	var out [][4]float64
	for _, x := range page.Texts {
		w := svg.TextWidth(x.Text, x.Size)
		if x.Anchor == "middle" {
			x.X -= w / 2
		}
		out = append(out, [4]float64{x.X, x.Y - x.Size*0.8, x.X + w, x.Y + x.Size*0.2})
	}
	return out
}

// Every piece and every corner of any boxing is told once, its marks lie in it, and
// no text lies on another.
func TestRingTellsEveryPiece(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		inches := func(name string, least, most int) unit.Length {
			return unit.Length(rapid.IntRange(least*16, most*16).Draw(t, name)) * unit.Inch / 16
		}
		c := made.Cushion{Width: inches("width", 8, 90), Depth: inches("depth", 8, 40), Thickness: inches("thickness", 2, 8), Zip: rapid.Bool().Draw(t, "zip"),
			LeftEar: inches("left ear", 0, 3), Top: made.Goods{ID: "cloth", Across: inches("goods", 20, 60)}}
		if c.LeftEar > 0 {
			c.EarDepth = inches("ear depth", 1, 6)
		}
		p, err := c.Make()
		if err != nil {
			return
		}
		corners := 0
		for _, x := range append(p.Boxing.Pieces, p.Boxing.ZipPieces...) {
			for _, k := range x.Corners {
				require.Positive(t, k.At)
				require.Less(t, k.At, x.To-x.From)
			}
			corners += len(x.Corners)
		}
		most := map[bool]int{true: 6, false: 4}[c.LeftEar > 0]
		atJoins := 0
		for _, j := range p.Boxing.Joins {
			if j.Beyond == 0 && j.Corner != "" {
				atJoins++
			}
		}
		require.Equal(t, most, corners+atJoins)
		r := pattern.Ring{Boxing: *p.Boxing, Width: rapid.IntRange(320, 800).Draw(t, "page"), Units: pattern.Units(rapid.IntRange(0, 1).Draw(t, "units"))}
		drawing, err := r.Draw()
		require.NoError(t, err)
		for _, x := range append(p.Boxing.Pieces, p.Boxing.ZipPieces...) {
			require.Contains(t, drawing, ">"+x.Name)
		}
		texts := ringTexts(t, drawing)
		for i, a := range texts {
			require.LessOrEqual(t, a[2], float64(r.Width))
			require.GreaterOrEqual(t, a[0], 0.0)
			for _, b := range texts[:i] {
				require.False(t, a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3], "%v %v\n%s", a, b, drawing)
			}
		}
	})
}

func TestRingRefuses(t *testing.T) {
	t.Parallel()
	piece := func(name string, from, to unit.Length, corners ...unit.Length) made.BoxingPiece {
		p := made.BoxingPiece{Name: name, From: from, To: to, Cut: to - from + unit.Inch}
		for _, c := range corners {
			p.Corners = append(p.Corners, made.RingCorner{Name: "corner", At: c})
		}
		return p
	}
	for field, r := range map[unit.Path]pattern.Ring{
		"boxing": {},
		"units":  {Units: 7},
		"width":  {Width: 20},
	} {
		_, err := r.Draw()
		var in *unit.InputError
		require.ErrorAs(t, err, &in)
		require.Equal(t, field, in.Field)
	}
	for name, b := range map[string]made.BoxingCut{
		"a gap":            {Pieces: []made.BoxingPiece{piece("a", 0, unit.Foot), piece("b", 2*unit.Foot, unit.Yard)}},
		"no length":        {Pieces: []made.BoxingPiece{piece("a", 0, 0)}},
		"far too long":     {Pieces: []made.BoxingPiece{piece("a", -1<<63, 1<<62)}},
		"a corner outside": {Pieces: []made.BoxingPiece{piece("a", 0, unit.Foot, unit.Yard)}},
	} {
		_, err := pattern.Ring{Boxing: b}.Draw()
		require.Error(t, err, name)
	}
}
