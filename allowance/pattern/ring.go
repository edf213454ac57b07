package pattern

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Ring says how the boxing of a cushion is drawn: as one strip, its pieces end to
// end as they are joined, the upper edge up and the face out. The zero value has no
// pieces and is refused.
type Ring struct {
	Title  string         `json:"title,omitempty"`
	Units  Units          `json:"units,omitzero"`
	Boxing made.BoxingCut `json:"boxing"`
	// Width is that of the page in 1/96 in, from 320 to 4000; zero takes 420.
	Width int `json:"width,omitzero"`
}

// ringPiece is a piece of the strip as it is drawn.
type ringPiece struct {
	made.BoxingPiece
	zip bool
}

// pieces lists the zip panel and the pieces beside it, from left to right.
func (r Ring) pieces() []ringPiece {
	var out []ringPiece
	for _, p := range r.Boxing.ZipPieces {
		out = append(out, ringPiece{p, true})
	}
	for _, p := range r.Boxing.Pieces {
		out = append(out, ringPiece{p, false})
	}
	return out
}

// Draw draws the strip. Thick lines are joins; the last piece is joined to the
// first. Dashed lines are the corners of the plate, which the pieces are marked
// with on both edges; a line along the middle is the zip. The list below says which
// piece is which, and how far its marks lie from its left seam line.
//
// Heights are not to scale. Errors are *unit.InputError values: units, width and
// boxing.
//
// Drawing: allowance/doc/ring.svg
func (r Ring) Draw() (string, error) {
	if err := enum.Check(r.Units, "units", unitNames); err != nil {
		return "", err
	}
	if r.Width == 0 {
		r.Width = 420
	}
	if err := check.Count("width", r.Width, 320, 4000); err != nil {
		return "", err
	}
	pieces := r.pieces()
	if len(pieces) == 0 {
		return "", check.Required("boxing", "the pieces of a boxing")
	}
	at := pieces[0].From
	for _, p := range pieces {
		if p.From != at || p.To <= p.From || p.From < -check.Longest || p.To > 2*check.Longest {
			return "", check.Refuse("boxing", p.Name, unit.ErrRange, "pieces that follow each other round the ring")
		}
		for _, c := range p.Corners {
			if c.At < 0 || c.At > p.To-p.From {
				return "", check.Refuse("boxing", c.Name, unit.ErrRange, "corners between the ends of their piece")
			}
		}
		at = p.To
	}
	if r.Title == "" {
		r.Title = "Boxing"
	}
	return r.draw(pieces), nil
}

// The height of the strip as it is drawn, and the type and lines of the title.
const (
	ringHigh  = 34.0
	ringType  = 14.0
	ringLine  = 17.0
	boldWider = 1.1 // than plain type
)

func (r Ring) draw(pieces []ringPiece) string {
	const left = mapMargin + 26 // for the arrow
	from, to := pieces[0].From, pieces[len(pieces)-1].To
	scale := (float64(r.Width) - left - mapMargin) / float64(to-from)
	x := func(l unit.Length) float64 { return left + float64(float64(l-from)*scale) }
	var numbers, letters row
	var list []entry
	type tick struct {
		x    float64
		mark string
	}
	var ticks []tick
	for i, p := range pieces {
		numbers.put((x(p.From)+x(p.To))/2, strconv.Itoa(i+1))
		text := fmt.Sprintf("%s: %s between seams, cut %s", p.Name, r.Units.Length(p.To-p.From, unit.Nearest), r.Units.Length(p.Cut, unit.Up))
		if p.zip {
			text += ", two halves"
		}
		var marks []string
		for _, c := range p.Corners {
			mark := cornerMark(len(ticks))
			at := x(p.From + c.At)
			ticks = append(ticks, tick{at, mark})
			letters.put(at, mark)
			marks = append(marks, mark+" at "+r.Units.Length(c.At, unit.Nearest)+" ("+c.Name+")")
		}
		if len(marks) > 0 {
			text += "; marks " + strings.Join(marks, ", ")
		}
		list = append(list, entry{strconv.Itoa(i + 1), text})
	}
	lines := wrapEntries(list, float64(r.Width)-2*mapMargin)
	heading := wrapWords(r.Title, (float64(r.Width)-2*mapMargin)/boldWider, ringType)
	top := 34 + float64(float64(len(heading)-1)*ringLine) + numbers.high()
	below := top + ringHigh + letters.high()
	high := below + float64(float64(len(lines)+1)*(mapLine+1)) + mapMargin
	d := svg.New(float64(r.Width), high, r.Title)
	d.Rect(svg.Point{}, float64(r.Width), high, svg.Attrs("fill", "#fff")...)
	for i, line := range heading {
		d.Write(svg.Point{X: mapMargin, Y: 22 + float64(float64(i)*ringLine)}, ringType, "start", line, svg.Attrs("font-weight", "bold")...)
	}
	thin, thick := svg.Attrs("stroke", "#000", "stroke-width", "0.9", "fill", "none"), svg.Attrs("stroke", "#000", "stroke-width", "2.4")
	d.Rect(svg.Point{X: x(from), Y: top}, x(to)-x(from), ringHigh, thin...)
	for _, p := range pieces {
		if p.zip {
			d.Line(svg.Point{X: x(p.From), Y: top + ringHigh/2}, svg.Point{X: x(p.To), Y: top + ringHigh/2}, mapDashed...)
		}
		d.Line(svg.Point{X: x(p.From), Y: top}, svg.Point{X: x(p.From), Y: top + ringHigh}, thick...)
	}
	d.Line(svg.Point{X: x(to), Y: top}, svg.Point{X: x(to), Y: top + ringHigh}, thick...)
	for _, t := range ticks {
		d.Line(svg.Point{X: t.x, Y: top}, svg.Point{X: t.x, Y: top + ringHigh}, svg.Attrs("stroke", "#000", "stroke-width", "0.9", "stroke-dasharray", "2 3")...)
	}
	d.Arrow(svg.Point{X: mapMargin + 9, Y: top + ringHigh}, svg.Point{X: mapMargin + 9, Y: top + 12}, 5, svg.Attrs("stroke", "#000", "stroke-width", "0.9")...)
	d.Write(svg.Point{X: mapMargin + 9, Y: top + 8}, mapType, "middle", "up")
	numbers.draw(d, func(level float64) float64 { return top - 6 - level }, svg.Attrs("font-weight", "bold")...)
	letters.draw(d, func(level float64) float64 { return top + ringHigh + mapLine + level })
	y := below + mapLine
	for _, l := range lines {
		y += mapLine + 1
		if l.head != "" {
			d.Write(svg.Point{X: mapMargin, Y: y - 4}, mapType, "start", l.head, svg.Attrs("font-weight", "bold")...)
		}
		d.Write(svg.Point{X: mapMargin + l.in, Y: y - 4}, mapType, "start", l.text)
	}
	return d.String()
}

// cornerMark names the i-th corner: a to z, then a2 and so on.
func cornerMark(i int) string {
	s := string(rune('a' + i%26))
	if i >= 26 {
		s += strconv.Itoa(i/26 + 1)
	}
	return s
}

// row is texts beside a line, on as many levels as keep them apart.
type row struct {
	ends  []float64 // of each level
	texts []rowText
}

type rowText struct {
	x     float64
	level int
	text  string
}

func (r *row) put(x float64, s string) {
	half := svg.TextWidth(s, mapType)/2 + 2
	level := 0
	for level < len(r.ends) && r.ends[level] > x-half {
		level++
	}
	if level == len(r.ends) {
		r.ends = append(r.ends, 0)
	}
	r.ends[level] = x + half
	r.texts = append(r.texts, rowText{x, level, s})
}

func (r *row) high() float64 { return float64(len(r.ends)) * mapLine }

func (r *row) draw(d *svg.Drawing, y func(level float64) float64, attrs ...svg.Attr) {
	for _, t := range r.texts {
		d.Write(svg.Point{X: t.x, Y: y(float64(t.level) * mapLine)}, mapType, "middle", t.text, attrs...)
	}
}
