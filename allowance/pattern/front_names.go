package pattern

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/svg"
)

const frontType = 10.0

// names writes number and name of every piece where it is seen: on it, both or the
// number alone, else beside it. Names that found no room are listed.
func (v *frontView) names() {
	// The smallest have the fewest places, so they come first.
	order := make([]int, len(v.pieces))
	rooms := make([]mapBox, len(v.pieces))
	for k, p := range v.pieces {
		order[k] = k
		rooms[k] = boxOfPoints(v.points(p, p.shown()))
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := rooms[a], rooms[b]
		return int(hundredth(float64((x.right-x.left)*(x.bottom-x.top))-float64((y.right-y.left)*(y.bottom-y.top))) * 100)
	})
	listed := map[int]bool{}
	for _, k := range order {
		p := v.pieces[k]
		ring := v.points(p, p.shown())
		done := false
		for _, try := range p.namings() {
			if at, found := v.roomIn(ring, rooms[k], try.lines, try.bare); found {
				v.write(at, try.lines, "#000")
				listed[k] = len(try.lines) == 1 && try.lines[0] == p.number
				done = true
				break
			}
		}
		if !done {
			v.beside(rooms[k].middle(), p.number, "#000")
			listed[k] = true
		}
	}
	for k, p := range v.pieces {
		if listed[k] {
			v.listed = append(v.listed, entry{p.number, p.Name})
		}
	}
}

// naming is a way to name a piece on it.
type naming struct {
	lines []string
	bare  bool // off the figures
}

// namings gives the ways to name a piece, the best first: number and name on a line or
// two, else the number, off the figures if that can be.
func (p frontPiece) namings() []naming {
	_, name := splitEdge(p.Name)
	text := p.number + " " + name
	ways := [][]string{{text}}
	if words := strings.Fields(text); len(words) > 2 {
		// Where it breaks most evenly.
		best, least := 1, 0.0
		for i := 1; i < len(words); i++ {
			w := max(svg.TextWidth(strings.Join(words[:i], " "), frontType), svg.TextWidth(strings.Join(words[i:], " "), frontType))
			if i == 1 || w < least {
				best, least = i, w
			}
		}
		ways = append(ways, []string{strings.Join(words[:best], " "), strings.Join(words[best:], " ")})
	}
	var out []naming
	for _, bare := range []bool{true, false} {
		for _, w := range append(ways, []string{p.number}) {
			out = append(out, naming{w, bare})
		}
	}
	return out
}

// textSize is the room of lines of text.
func textSize(lines []string) (w, h float64) {
	for _, l := range lines {
		w = max(w, svg.TextWidth(l, frontType)+2)
	}
	return w, float64(frontType*1.1*float64(len(lines)-1)) + frontType + 2
}

// roomIn finds a place for a text on what is seen of a piece, the nearest to its
// middle that is off all texts and marks.
func (v *frontView) roomIn(ring []svg.Point, room mapBox, lines []string, bare bool) (mapBox, bool) {
	const steps = 16
	w, h := textSize(lines)
	var best mapBox
	far, found := 0.0, false
	for k := range (steps + 1) * (steps + 1) {
		c := svg.Point{X: room.left + (room.right-room.left)*float64(k%(steps+1))/steps, Y: room.top + (room.bottom-room.top)*float64(k/(steps+1))/steps}
		b := boxAbout(c, w, h)
		m := room.middle()
		d := float64((c.X-m.X)*(c.X-m.X)) + float64((c.Y-m.Y)*(c.Y-m.Y))
		if found && d >= far || !v.free(b) || bare && slices.ContainsFunc(v.figure, b.meets) || !within(b.grown(1), ring) {
			continue
		}
		best, far, found = b, d, true
	}
	return best, found
}

// free tells whether a box is on the page and off all texts and marks.
func (v *frontView) free(b mapBox) bool {
	return b.left >= 1 && b.right <= float64(v.Width)-1 && !slices.ContainsFunc(v.taken, b.meets)
}

// beside writes a text as near to a point as there is room, with a line to it where
// that is far. One wider than the page is cut short.
func (v *frontView) beside(at svg.Point, text, colour string) {
	page := float64(v.Width)
	for svg.TextWidth(text, frontType)+6 > page {
		r := []rune(strings.TrimSuffix(text, "…"))
		text = string(r[:len(r)-1]) + "…"
	}
	w, h := textSize([]string{text})
	// Down the page there is room at last.
	for far := frontMark + 1; ; far += 4 {
		for _, c := range []svg.Point{{X: at.X + far + w/2, Y: at.Y}, {X: at.X - far - w/2, Y: at.Y}, {X: at.X + far/2 + w/2, Y: at.Y - far - h/2}, {X: at.X - far/2 - w/2, Y: at.Y - far - h/2},
			{X: at.X + far/2 + w/2, Y: at.Y + far + h/2}, {X: at.X - far/2 - w/2, Y: at.Y + far + h/2}, {X: min(max(at.X, 2+w/2), page-2-w/2), Y: at.Y + far + h/2}} {
			b := boxAbout(c, w, h)
			if b.top < v.top || !v.free(b) {
				continue
			}
			if far > frontMark+6 {
				end := svg.Point{X: min(max(at.X, b.left), b.right), Y: min(max(at.Y, b.top), b.bottom)}
				v.d.Line(at, end, svg.Attrs("class", "lead", "stroke", colour, "stroke-width", "0.6")...)
			}
			v.write(b, []string{text}, colour)
			return
		}
	}
}

func (v *frontView) write(b mapBox, lines []string, colour string) {
	v.taken = append(v.taken, b)
	c := b.middle()
	for i, l := range lines {
		y := c.Y + float64(frontType*0.36) + float64(frontType*1.1*(float64(i)-float64(len(lines)-1)/2))
		v.d.Text(svg.Point{X: hundredth(c.X), Y: hundredth(y)}, strings.TrimSpace(l), svg.Attrs("font-family", "sans-serif", "font-size", svg.Number(frontType), "fill", colour,
			"text-anchor", "middle", "stroke", "#fff", "stroke-width", "2.6", "stroke-linejoin", "round", "paint-order", "stroke")...)
	}
}

func boxOfPoints(points []svg.Point) mapBox {
	b := mapBox{points[0].X, points[0].Y, points[0].X, points[0].Y}
	for _, p := range points {
		b = b.with(mapBox{p.X, p.Y, p.X, p.Y})
	}
	return b
}

// within tells whether a box lies inside a closed line: a corner does, and the line
// does not come into it.
func within(b mapBox, ring []svg.Point) bool {
	in := false
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if b.crossed(p, q) {
			return false
		}
		if (p.Y > b.top) != (q.Y > b.top) && b.left-p.X < float64((q.X-p.X)*((b.top-p.Y)/(q.Y-p.Y))) {
			in = !in
		}
	}
	return in
}
