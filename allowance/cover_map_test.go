package allowance_test

import (
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// drawnMap is a map as it is read back from its SVG.
type drawnMap struct {
	width, height float64
	texts         []mapText
	lines         []mapStretch
}

type mapText struct {
	text                     string
	panel                    int // from 1; 0 is none
	letter                   bool
	left, top, right, bottom float64
}

type mapStretch struct {
	panel          int
	dashed, lead   bool
	x1, y1, x2, y2 float64
}

// readMap reads texts, with the room that they take, and lines.
func readMap(t require.TestingT, s string) drawnMap {
	var out drawnMap
	d := xml.NewDecoder(strings.NewReader(s))
	panel, in := 0, 0
	for {
		token, err := d.Token()
		if token == nil {
			require.ErrorContains(t, err, "EOF")
			return out
		}
		if end, is := token.(xml.EndElement); is && end.Name.Local == "g" {
			in = 0
		}
		e, is := token.(xml.StartElement)
		if !is {
			continue
		}
		attr := func(name string) string {
			for _, a := range e.Attr {
				if a.Name.Local == name {
					return a.Value
				}
			}
			return ""
		}
		number := func(s string) float64 { return sure(strconv.ParseFloat(s, 64)) }
		switch e.Name.Local {
		case "svg":
			out.width, out.height = number(attr("width")), number(attr("height"))
		case "g":
			panel++
			in = panel
		case "polyline":
			var ps [][2]float64
			for _, p := range strings.Fields(attr("points")) {
				x, y, _ := strings.Cut(p, ",")
				ps = append(ps, [2]float64{number(x), number(y)})
			}
			for i := 1; i < len(ps); i++ {
				out.lines = append(out.lines, mapStretch{in, attr("stroke-dasharray") != "", false, ps[i-1][0], ps[i-1][1], ps[i][0], ps[i][1]})
			}
		case "line":
			out.lines = append(out.lines, mapStretch{in, attr("stroke-dasharray") != "", attr("class") == "lead", number(attr("x1")), number(attr("y1")), number(attr("x2")), number(attr("y2"))})
		case "text":
			inner, err := d.Token()
			require.NoError(t, err)
			text := string(inner.(xml.CharData))
			x, y, size := number(attr("x")), number(attr("y")), number(attr("font-size"))
			wide := svg.TextWidth(text, size)
			if attr("font-weight") != "" {
				wide *= 1.1
			}
			m := mapText{text, in, attr("font-weight") != "" && size == 11, x, y - 0.78*size, x + wide, y + 0.14*size}
			if attr("text-anchor") == "middle" {
				m.left, m.right = x-wide/2, x+wide/2
			}
			if attr("transform") != "" { // about its place, up the page
				m.left, m.top, m.right, m.bottom = x-0.78*size, y-wide/2, x+0.14*size, y+wide/2
			}
			out.texts = append(out.texts, m)
		}
	}
}

// into tells whether a line comes into the room of a text.
func (l mapStretch) into(m mapText) bool {
	for i := range 101 {
		f := float64(i) / 100
		x, y := l.x1+f*(l.x2-l.x1), l.y1+f*(l.y2-l.y1)
		if x > m.left && x < m.right && y > m.top && y < m.bottom {
			return true
		}
	}
	return false
}

// from gives how far a line is from the middle of a text.
func (l mapStretch) from(m mapText) float64 {
	best := math.Inf(1)
	for i := range 101 {
		f := float64(i) / 100
		best = min(best, math.Hypot((m.left+m.right)/2-l.x1-f*(l.x2-l.x1), (m.top+m.bottom)/2-l.y1-f*(l.y2-l.y1)))
	}
	return best
}

// On the maps of all kinds of furniture, on a phone and on paper, no text runs
// into another, off the page or across a line, and each is nearest to the panel
// it speaks of.
func TestMapTextsAreClear(t *testing.T) {
	for _, a := range anatomies {
		c, name := a.cover(), a.name
		w := worked(t, c)
		for _, width := range []int{320, 420, 700} {
			s, err := pattern.Map{Title: a.name, Width: width}.Draw(c, w)
			require.NoError(t, err)
			m := readMap(t, s)
			for i, x := range m.texts {
				at := fmt.Sprintf("%s, %d wide: %q", a.name, width, x.text)
				assert.True(t, x.left >= 0 && x.right <= m.width && x.top >= 0 && x.bottom <= m.height, "%s runs off the page", at)
				for _, y := range m.texts[:i] {
					assert.False(t, x.left < y.right && y.left < x.right && x.top < y.bottom && y.top < x.bottom, "%s runs into %q", at, y.text)
				}
				for _, l := range m.lines {
					assert.False(t, l.into(x), "%s has a line across it", at)
				}
			}
			rooms := m.rooms()
			for i := range rooms {
				for k := range i {
					a, b := rooms[i], rooms[k]
					assert.False(t, a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom, "%s, %d wide: panels %d and %d share room", name, width, i+1, k+1)
				}
			}
		}
	}
}

// rooms gives the room that each panel takes with its texts.
func (m drawnMap) rooms() []mapText {
	var out []mapText
	add := func(panel int, left, top, right, bottom float64) {
		if panel == 0 {
			return
		}
		for len(out) < panel {
			out = append(out, mapText{panel: len(out) + 1, left: math.Inf(1), top: math.Inf(1), right: math.Inf(-1), bottom: math.Inf(-1)})
		}
		r := &out[panel-1]
		r.left, r.top, r.right, r.bottom = min(r.left, left), min(r.top, top), max(r.right, right), max(r.bottom, bottom)
	}
	for _, x := range m.texts {
		add(x.panel, x.left, x.top, x.right, x.bottom)
	}
	for _, l := range m.lines {
		add(l.panel, min(l.x1, l.x2), min(l.y1, l.y2), max(l.x1, l.x2), max(l.y1, l.y2))
	}
	return out
}

// The letter of an edge stands by a line that is sewn, the word of a fastening by
// one that is dashed, or at the end of a line that leads there.
func TestMapLabelsStandByTheirEdges(t *testing.T) {
	for _, a := range anatomies {
		m := readMap(t, sure(pattern.Map{}.Draw(a.cover(), worked(t, a.cover()))))
		for _, x := range m.texts {
			word, _, _ := strings.Cut(x.text, " (")
			var kind allowance.FasteningKind
			fastened := kind.UnmarshalText([]byte(word)) == nil
			if x.panel == 0 || !x.letter && !fastened {
				continue
			}
			sewn, dashed, lead := math.Inf(1), math.Inf(1), math.Inf(1)
			for _, l := range m.lines {
				switch {
				case l.panel != x.panel:
				case l.lead:
					lead = min(lead, l.from(x))
				case l.dashed:
					dashed = min(dashed, l.from(x))
				default:
					sewn = min(sewn, l.from(x))
				}
			}
			if lead < 30 {
				continue
			}
			if x.letter {
				assert.Less(t, sewn, min(dashed, 30), "%s: %q", a.name, x.text)
			} else {
				assert.Less(t, dashed, min(sewn, 30), "%s: %q", a.name, x.text)
			}
		}
	}
}

// Every piece, seam and fastening of a cover is on its map: as many stretches of
// edges are lettered or dashed as the panels that are drawn have.
func TestMapTellsEveryRelation(t *testing.T) {
	for _, a := range anatomies {
		c := a.cover()
		w := worked(t, c)
		s, err := pattern.Map{}.Draw(c, w)
		require.NoError(t, err)
		m := readMap(t, s)
		letters := map[string]bool{}
		var words []string
		for _, x := range m.texts {
			if x.panel > 0 && x.letter {
				letters[x.text] = true
			}
			words = append(words, x.text)
		}
		all := strings.Join(words, " ")
		for _, j := range w.Seams {
			assert.True(t, letters[j.Letter] || letters[strings.Replace(j.Letter, "-R", "-L", 1)], "%s: seam %s", a.name, j.Letter)
		}
		for _, f := range c.Fastenings {
			assert.Contains(t, all, f.Kind.String(), a.name)
		}
		for _, p := range c.Panels {
			for _, word := range strings.FieldsFunc(p.Name, func(r rune) bool { return r == ' ' || r == '.' }) {
				assert.Contains(t, all, word, a.name)
			}
		}
	}
}

// Of a pair the left is drawn and the right named; hands with neighbours of their
// own are both drawn.
func TestMapHands(t *testing.T) {
	texts := func(c allowance.Cover) []string {
		var out []string
		for _, x := range readMap(t, sure(pattern.Map{Width: 700}.Draw(c, worked(t, c)))).texts {
			out = append(out, x.text)
		}
		return out
	}
	chair := texts(wingChair())
	assert.Contains(t, chair, "4 arm front left")
	assert.Contains(t, chair, "right: mirrored")
	assert.False(t, slices.Contains(chair, "5 arm front right"))
	seat := texts(motorSeat())
	assert.Contains(t, seat, "3 side left")
	assert.Contains(t, seat, "4 side right")
	assert.NotContains(t, seat, "right: mirrored")
}

// Copies with the same neighbours are one drawing.
func TestMapCopies(t *testing.T) {
	var b builder
	b.panel("button band", 20, 6).Count = 3
	for _, e := range []string{"top", "left", "right", "bottom"} {
		b.fasten(allowance.Hemmed, "button band."+e)
	}
	s := sure(pattern.Map{}.Draw(b.c, worked(t, b.c)))
	assert.Contains(t, s, ">3 alike<")
	assert.Equal(t, 1, strings.Count(s, `class="panel"`))
	numbered := sure(pattern.Map{Numbers: []string{"7", "8", "9"}}.Draw(b.c, worked(t, b.c)))
	assert.Equal(t, 3, strings.Count(numbered, `class="panel"`))
	assert.Contains(t, numbered, ">9 button band 3<")
}

// A map keeps the scale: what is twice as long is drawn twice as long.
func TestMapIsToScale(t *testing.T) {
	m := readMap(t, sure(pattern.Map{}.Draw(dropIn(), worked(t, dropIn()))))
	size := map[int]float64{}
	for _, l := range m.lines {
		if l.panel > 0 {
			size[l.panel] = max(size[l.panel], math.Abs(l.x2-l.x1))
		}
	}
	assert.InDelta(t, 20.0/18, size[1]/size[2], 0.001)
}

// Pages of a map have each text of its panels once, none higher than was asked for
// unless a row of panels is.
func TestMapPages(t *testing.T) {
	for _, a := range anatomies {
		c := a.cover()
		w := worked(t, c)
		whole := readMap(t, sure(pattern.Map{Title: a.name}.Draw(c, w)))
		tall, err := pattern.Map{Title: a.name}.Pages(c, w, 10_000)
		require.NoError(t, err)
		require.Len(t, tall, 1)
		texts := func(pages ...string) []string {
			var out []string
			for _, p := range pages {
				for _, x := range readMap(t, p).texts {
					if x.panel > 0 {
						out = append(out, x.text)
					}
				}
			}
			slices.Sort(out)
			return out
		}
		pages, err := pattern.Map{Title: a.name}.Pages(c, w, 500)
		require.NoError(t, err)
		if readMap(t, tall[0]).height > 500 {
			assert.Greater(t, len(pages), 1, a.name)
		}
		assert.Equal(t, texts(tall[0]), texts(pages...), a.name)
		assert.LessOrEqual(t, readMap(t, tall[0]).height, whole.height, a.name)
		for _, p := range pages {
			assert.LessOrEqual(t, readMap(t, p).height, 500.0, a.name)
		}
	}
}

func TestMapRefuses(t *testing.T) {
	c := dropIn()
	w := worked(t, c)
	for field, draw := range map[string]func() (string, error){
		"width":   func() (string, error) { return pattern.Map{Width: 319}.Draw(c, w) },
		"units":   func() (string, error) { return pattern.Map{Units: 9}.Draw(c, w) },
		"numbers": func() (string, error) { return pattern.Map{Numbers: []string{"1"}}.Draw(c, w) },
		"high": func() (string, error) {
			_, err := pattern.Map{}.Pages(c, w, 319)
			return "", err
		},
		"work.fastenings[0]": func() (string, error) {
			return pattern.Map{}.Draw(allowance.Cover{Panels: c.Panels}, w)
		},
		"work.pieces[0]": func() (string, error) {
			return pattern.Map{}.Draw(allowance.Cover{Fastenings: c.Fastenings}, w)
		},
	} {
		_, err := draw()
		var fault *unit.InputError
		require.ErrorAs(t, err, &fault, field)
		assert.Equal(t, unit.Path(field), fault.Field)
	}
	bow := sure(shape.Circle(10 * unit.Inch))
	alone := allowance.Cover{Panels: []allowance.CoverPanel{{Panel: allowance.Panel{Name: "<round> & \"all\"", Outline: bow}, Goods: "cloth"}}}
	s := sure(pattern.Map{}.Draw(alone, worked(t, alone)))
	assert.Contains(t, s, "&lt;round&gt; &amp;")
	assert.Contains(t, s, "plain seam")
}
