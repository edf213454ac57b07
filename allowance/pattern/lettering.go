package pattern

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// Lettering is a line of text along an edge or beside a notch.
type Lettering struct {
	Text string      `json:"text"`
	At   shape.Point `json:"at"` // its middle
	// Turn is anticlockwise from level, from above -90 to 90 degrees, so that no
	// text stands on its head.
	Turn unit.Angle  `json:"turn,omitzero"`
	Size unit.Length `json:"size"` // of the type
	Long unit.Length `json:"long"` // at most, in sans-serif type
}

// Sizes of lettering: what is not clear of lines and other texts at the first is
// tried at the next.
var letteringSizes = []unit.Length{4 * unit.Millimetre, 3 * unit.Millimetre}

// clearance is how far texts keep from lines and from each other.
const clearance = unit.Millimetre

// Lettering says at its edges how the piece is sewn: beside each lettered notch,
// square to the edge, the letter and what the edge is sewn to ("A2, to front
// border top"), along each edge its name and its finish. A half says it of both
// halves, and along its fold what to do. Where there is no room it says less: the
// letter of the notch and the name of the edge at the least.
func (p Pattern) Lettering() []Lettering { return p.lettering(nil, nil) }

// lettering places texts inside some boxes, or anywhere when there are none, those
// of the rules first.
func (p Pattern) lettering(on []Box, rules []ruleText) []Lettering {
	l := letterer{rings: p.closed(), seam: rings(p.Seam), on: on}
	for _, line := range p.Lines() {
		if !line.Closed && line.Kind >= NotchLine && line.Kind != MarkLine {
			l.open = append(l.open, line.Points)
		}
	}
	for _, r := range rules {
		l.rule(r)
	}
	if p.folded() {
		const times = 3
		fold := []shape.Point{p.Fold.From, p.Fold.To}
		long := openLength(fold) / times
		for i := range times {
			l.along(fold, float64(i)*long, long, []string{"place on fold", "fold"})
		}
	}
	for i, n := range p.Notches {
		if i < len(p.Letters) && n.Seam != n.Cut {
			l.square(n.Seam, direction(n.Cut, n.Seam), p.notchTexts(i))
		}
	}
	starts := p.edgeStarts()
	for i, e := range p.Edges {
		if i+1 < len(starts) && e.Name != "" {
			l.along(p.Seam.Outer, starts[i], starts[i+1]-starts[i], p.edgeTexts(i))
		}
	}
	return l.placed
}

// closed lists the closed lines that texts keep clear of.
func (p Pattern) closed() [][]shape.Point {
	var out [][]shape.Point
	for _, c := range []shape.Contour{p.Cut, p.Trim, p.Seam} {
		out = append(out, rings(c)...)
	}
	return out
}

// letterer places texts.
type letterer struct {
	rings  [][]shape.Point // the cut line first
	seam   [][]shape.Point
	open   [][]shape.Point // notches, the grain arrow and the fold
	on     []Box           // where there is paper; none is everywhere
	apart  bool            // a text may lie on several of them
	placed []Lettering
}

// way is a direction of length one.
type way struct{ x, y float64 }

func direction(from, to shape.Point) way {
	x, y := float64(to.X-from.X), float64(to.Y-from.Y)
	long := max(geom.Hypot(x, y), 1)
	return way{x / long, y / long}
}

func moved(p shape.Point, w way, by float64) shape.Point {
	return shape.Point{X: p.X + unit.Length(math.Round(w.x*by)), Y: p.Y + unit.Length(math.Round(w.y*by))}
}

// lettering makes a text of a size about a place.
func lettering(text string, at shape.Point, w way, size unit.Length) Lettering {
	turn := math.Round(geom.Atan2(w.y, w.x)*180/math.Pi*1000) / 1000
	switch {
	case turn > 90:
		turn -= 180
	case turn <= -90:
		turn += 180
	}
	return Lettering{text, at, unit.Angle(turn), size, unit.Length(math.Round(svg.TextWidth(text, float64(size))))}
}

// ends gives the ends of a text, along its middle.
func (l Lettering) ends() (a, b shape.Point) {
	sin, cos := geom.SinCos(float64(l.Turn) * math.Pi / 180)
	half := float64(l.Long) / 2
	return moved(l.At, way{cos, sin}, -half), moved(l.At, way{cos, sin}, half)
}

// square writes inwards from a notch, inside the seam line where there is room.
func (l *letterer) square(at shape.Point, in way, texts []string) {
	for _, t := range texts {
		for _, anywhere := range []bool{false, true} {
			for _, size := range letteringSizes {
				if l.onOneSheet(func() bool { return l.squarely(lettering(t, at, in, size), in, anywhere) }) {
					return
				}
			}
		}
	}
	// Better across a line than left out.
	c := lettering(texts[len(texts)-1], at, in, letteringSizes[len(letteringSizes)-1])
	c.At = moved(at, in, float64(c.Long)/2+float64(clearance))
	l.placed = append(l.placed, c)
}

// squarely tries a text at places about a notch, where it stands. One at a corner
// has a seam line before it, so that its text lies beside that.
func (l *letterer) squarely(c Lettering, in way, anywhere bool) bool {
	at, size := c.At, float64(c.Size)
	for _, beside := range []float64{0, 1, -1, 2, -2} {
		for _, off := range []float64{0.5, 1, 2} {
			c.At = moved(at, in, float64(c.Long)/2+float64(clearance)+float64(off*size))
			c.At = moved(c.At, way{-in.y, in.x}, beside*(size/2+float64(clearance)))
			if (anywhere || inside(c.At, l.seam)) && l.put(c) {
				return true
			}
		}
	}
	return false
}

// along writes along an edge: inside the seam line, else in the allowance.
func (l *letterer) along(line []shape.Point, start, long float64, texts []string) {
	for _, t := range texts {
		if l.onOneSheet(func() bool { return l.alongside(line, start, long, t) }) {
			return
		}
	}
}

func (l *letterer) alongside(line []shape.Point, start, long float64, text string) bool {
	for _, size := range letteringSizes {
		for _, row := range []float64{1, 2.6, -1, 4.2} {
			for _, part := range l.parts() {
				at, w := lineAt(line, start+float64(part*long))
				c := lettering(text, at, w, size)
				if float64(c.Long) > 1.2*long { // it would seem to be another edge's
					continue
				}
				off := float64(size)/2 + float64(clearance)
				c.At = moved(at, way{-w.y, w.x}, float64(row*off)+math.Copysign(float64(clearance)/2, row))
				if l.put(c) {
					return true
				}
			}
		}
	}
	return false
}

// parts are the parts of an edge where a text is tried: nearer to its ends too where
// the middle may not be on paper.
func (l *letterer) parts() []float64 {
	parts := []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}
	if len(l.on) > 0 {
		parts = append(parts, 0.14, 0.86, 0.1, 0.9, 0.07, 0.93, 0.05, 0.95)
	}
	return parts
}

// papered tells whether all of a text is on paper, on one sheet or on several.
func (l *letterer) papered(a, b shape.Point) bool {
	if len(l.on) == 0 || slices.ContainsFunc(l.on, func(x Box) bool { return x.holds([]shape.Point{a, b}) }) {
		return true
	}
	const steps = 8
	for i := range steps + 1 {
		q := shape.Point{X: a.X + (b.X-a.X)*unit.Length(i)/steps, Y: a.Y + (b.Y-a.Y)*unit.Length(i)/steps}
		if !l.apart || !slices.ContainsFunc(l.on, func(x Box) bool { return x.holds([]shape.Point{q}) }) {
			return false
		}
	}
	return true
}

// onOneSheet tries to place a text on one sheet, then on several.
func (l *letterer) onOneSheet(place func() bool) bool {
	for _, l.apart = range []bool{false, true} {
		if place() {
			return true
		}
		if len(l.on) == 0 {
			break
		}
	}
	return false
}

// put takes a text that is clear of all lines and texts.
func (l *letterer) put(c Lettering) bool {
	a, b := c.ends()
	if !inside(c.At, l.rings[:1]) || !l.papered(a, b) {
		return false
	}
	far := float64(c.Size)/2 + float64(clearance)/2
	for _, ring := range l.rings {
		for i, p := range ring {
			if apart(a, b, p, ring[(i+1)%len(ring)]) < far {
				return false
			}
		}
	}
	for _, line := range l.open {
		for i := 1; i < len(line); i++ {
			if apart(a, b, line[i-1], line[i]) < far {
				return false
			}
		}
	}
	for _, o := range l.placed {
		p, q := o.ends()
		if apart(a, b, p, q) < float64(c.Size+o.Size)/2+float64(clearance) {
			return false
		}
	}
	l.placed = append(l.placed, c)
	return true
}

// apart gives how far two straight lines are from each other, in nm; 0 where they
// cross.
func apart(a, b, c, d shape.Point) float64 {
	side := func(p, q, r shape.Point) float64 {
		return float64(float64(q.X-p.X)*float64(r.Y-p.Y)) - float64(float64(q.Y-p.Y)*float64(r.X-p.X))
	}
	if side(a, b, c) > 0 != (side(a, b, d) > 0) && side(c, d, a) > 0 != (side(c, d, b) > 0) {
		return 0
	}
	return min(distance(a, c, d), distance(b, c, d), distance(c, a, b), distance(d, a, b))
}

// lineAt gives the place at a length along a closed line, and the direction there.
func lineAt(line []shape.Point, far float64) (shape.Point, way) {
	for i, a := range line {
		b := line[(i+1)%len(line)]
		long := geom.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		if far <= long && long > 0 {
			return moved(a, direction(a, b), far), direction(a, b)
		}
		far -= long
	}
	return line[0], way{1, 0}
}
