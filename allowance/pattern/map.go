package pattern

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Map says how the map of a cover is drawn: all its panels to one scale, face up
// and the grain up the page, each edge with what becomes of it. The zero value is
// a map as wide as a phone held upright.
type Map struct {
	Title string `json:"title,omitempty"` // such as the name of the piece of furniture
	Units Units  `json:"units,omitzero"`
	// Width is that of the page in 1/96 in, from 320 to 4000; zero takes 420.
	// Type keeps its size: a wider page takes more panels in a row.
	Width int `json:"width,omitzero"`
	// Numbers name the pieces in the order of CoverWork.Pieces, as a cut list
	// does. None numbers what is drawn from 1.
	Numbers []string `json:"numbers,omitempty"`
}

// Draw draws the map of a cover from what follows from it, as [allowance.Cover.Work]
// gives it. Sewn edges are whole lines with the letter of their seam; fastened ones
// are dashed, with the word of the fastening and, in brackets, the panels that
// hide them. Copies with the same neighbours are drawn once; of a pair the left
// is drawn where the right is its mirror image in every seam. The seams are
// listed below. Panels that nest under a prefix have a heading.
//
// No text lies on another or across an edge. Errors are *unit.InputError values:
// units, width, numbers, and work that is not that of the cover.
//
// Drawing: allowance/doc/wingchair.svg
//
// Drawing: allowance/doc/boxedcushion.svg
func (m Map) Draw(c allowance.Cover, w allowance.CoverWork) (string, error) {
	s, err := m.survey(c, w)
	if err != nil {
		return "", err
	}
	return s.page(), nil
}

// Pages draws the panels of the map alone, for a page that lists the seams itself: on
// as many drawings as it takes for none to be higher than high, in 1/96 in from 320 to
// 10 000, unless one row of panels is. Errors are those of Draw, and high.
func (m Map) Pages(c allowance.Cover, w allowance.CoverWork, high int) ([]string, error) {
	if err := check.Count("high", high, 320, 10_000); err != nil {
		return nil, err
	}
	s, err := m.survey(c, w)
	if err != nil {
		return nil, err
	}
	return s.pages(float64(high)), nil
}

// survey reads a cover and its work.
func (m Map) survey(c allowance.Cover, w allowance.CoverWork) (survey, error) {
	if err := enum.Check(m.Units, "units", unitNames); err != nil {
		return survey{}, err
	}
	if m.Width == 0 {
		m.Width = 420
	}
	if err := check.Count("width", m.Width, 320, 4000); err != nil {
		return survey{}, err
	}
	if len(m.Numbers) > 0 && len(m.Numbers) != len(w.Pieces) {
		return survey{}, check.Count("numbers", len(m.Numbers), len(w.Pieces), len(w.Pieces))
	}
	if m.Title == "" {
		m.Title = "Map of the cover"
	}
	s := survey{Map: m, cover: c, work: w}
	return s, s.read()
}

// survey gathers what a map shows.
type survey struct {
	Map
	cover   allowance.Cover
	work    allowance.CoverWork
	uses    map[string]use // of every edge of every piece
	panels  []mapped       // in the order of the pieces
	drawnAs map[string]int // the panel that stands for a piece
}

// use is what becomes of an edge.
type use struct {
	text   string
	letter bool // text is that of a seam
	dashed bool
	like   string   // the same for the edges of copies
	hidden []string // by pieces
}

// mapped is a panel of the map, which stands for one piece or several alike.
type mapped struct {
	number string
	prefix string
	name   string // of the piece drawn
	title  []string
	size   string
	edges  []mappedEdge
	lines  []mappedEdge
	low    shape.Point
	wide   unit.Length
	high   unit.Length
	alike  string
}

// mappedEdge is an edge or inner line on the goods.
type mappedEdge struct {
	use
	points []shape.Point
}

// splitEdge parts the name of an edge from that of its piece.
func splitEdge(s string) (piece, edge string) {
	i := strings.LastIndexByte(s, '.')
	return s[:max(i, 0)], s[i+1:]
}

// read puts copies together and finds what becomes of their edges.
func (s *survey) read() error {
	if err := s.readUses(); err != nil {
		return err
	}
	s.drawnAs = map[string]int{}
	members := [][]allowance.CoverPiece{}
	for i, p := range s.work.Pieces {
		k := slices.IndexFunc(s.cover.Panels, func(q allowance.CoverPanel) bool { return q.Name == p.Of })
		if k < 0 || p.Panel.Outline.IsZero() {
			return check.Refuse(check.At("work.pieces", i), p.Name, unit.ErrRange, "a piece of the cover")
		}
		m, err := s.mapped(p, s.cover.Panels[k].Lines)
		if err != nil {
			return unit.InField(check.At("work.pieces", i), err)
		}
		if len(s.Numbers) > 0 {
			m.number = s.Numbers[i]
		}
		at := slices.IndexFunc(s.panels, func(q mapped) bool { return q.alike == m.alike && (len(s.Numbers) == 0 || q.number == m.number) })
		if at < 0 {
			at = len(s.panels)
			if len(s.Numbers) == 0 {
				m.number = strconv.Itoa(at + 1)
			}
			s.panels, members = append(s.panels, m), append(members, nil)
		}
		members[at] = append(members[at], p)
		s.drawnAs[p.Name] = at
	}
	for i := range s.panels {
		s.panels[i].title = titleOf(members[i])
		for _, list := range [][]mappedEdge{s.panels[i].edges, s.panels[i].lines} {
			for k := range list {
				if by := s.numbersOf(list[k].hidden); by != "" {
					list[k].text += " (" + by + ")"
				}
			}
		}
	}
	return nil
}

// readUses finds what becomes of every edge that is sewn or fastened.
func (s *survey) readUses() error {
	s.uses = map[string]use{}
	for i, j := range s.work.Seams {
		if j.Seam < 0 || j.Seam >= len(s.cover.Seams) {
			return check.Refuse(check.At("work.seams", i), strconv.Itoa(j.Seam), unit.ErrRange, "a seam of the cover")
		}
		for k, side := range j.Sides {
			for _, e := range side {
				s.uses[e] = use{text: j.Letter, letter: true, like: fmt.Sprint("seam ", j.Seam, k)}
			}
		}
	}
	for i, f := range s.work.Fastenings {
		if f.Fastening < 0 || f.Fastening >= len(s.cover.Fastenings) {
			return check.Refuse(check.At("work.fastenings", i), strconv.Itoa(f.Fastening), unit.ErrRange, "a fastening of the cover")
		}
		kind := s.cover.Fastenings[f.Fastening].Kind.String()
		like := kind
		for _, h := range f.HiddenBy {
			for _, p := range s.work.Pieces {
				if p.Name == h {
					like += "/" + p.Of
				}
			}
		}
		for _, e := range f.Side {
			s.uses[e] = use{text: kind, dashed: true, like: like, hidden: f.HiddenBy}
		}
	}
	return nil
}

// mapped draws up a piece.
func (s *survey) mapped(p allowance.CoverPiece, lines []allowance.InnerLine) (mapped, error) {
	m := mapped{name: p.Name}
	m.prefix, _ = splitEdge(p.Name)
	o := p.Panel.Outline
	low, high := o.Bounds()
	m.low, m.wide, m.high = low, high.X-low.X, high.Y-low.Y
	m.size = s.Units.Length(m.wide, unit.Nearest)
	m.size = strings.TrimSuffix(strings.TrimSuffix(m.size, " in"), " mm") + " x " + s.Units.Length(m.high, unit.Nearest)
	alike := []string{p.Of}
	for _, name := range o.Edges() {
		points, err := edgePoints(o, name)
		if err != nil {
			return m, err
		}
		u, related := s.uses[p.Name+"."+name]
		if !related {
			e, named := p.Panel.Edges[name]
			if !named {
				e = p.Panel.AllEdges
			}
			u = use{text: e.Finish.String(), like: e.Finish.String()}
		}
		alike = append(alike, name+"="+u.like)
		m.edges = append(m.edges, mappedEdge{u, points})
	}
	for _, l := range lines {
		u := s.uses[p.Name+"."+l.Name]
		alike = append(alike, l.Name+"="+u.like)
		if p.Hand == allowance.RightHand {
			l.From.X, l.To.X = -l.From.X, -l.To.X
		}
		m.lines = append(m.lines, mappedEdge{u, []shape.Point{l.From, l.To}})
	}
	slices.Sort(alike[1:]) // the right hand has its edges the other way round
	m.alike = strings.Join(alike, "\n")
	return m, nil
}

// edgePoints gives points along an edge; two of a straight one.
func edgePoints(o shape.Outline, name string) ([]shape.Point, error) {
	const steps = 32
	l, err := o.EdgeLength(name)
	if err != nil {
		return nil, err
	}
	var out []shape.Point
	for i := range unit.Length(steps + 1) {
		q, _, err := o.Mark(name, l/steps*i+l%steps*i/steps, 0)
		if err != nil {
			return nil, err
		}
		out = append(out, q)
	}
	first, last := out[0], out[steps]
	if float64(l)-geom.Hypot(float64(last.X-first.X), float64(last.Y-first.Y)) < float64(unit.Millimetre)/100 {
		return []shape.Point{first, last}, nil
	}
	return out, nil
}

// titleOf names the pieces that are drawn as one.
func titleOf(of []allowance.CoverPiece) []string {
	first := of[0]
	_, name := splitEdge(first.Of)
	left, right := 0, 0
	for _, p := range of {
		switch p.Hand {
		case allowance.LeftHand:
			left++
		case allowance.RightHand:
			right++
		}
	}
	switch {
	case len(of) == 1:
		_, name = splitEdge(first.Name)
		return []string{name}
	case left > 0 && right > 0 && len(of) == 2:
		return []string{name + " left", "right: mirrored"}
	case left > 0 && right > 0:
		return []string{name, fmt.Sprintf("%d left, %d right mirrored", left, right)}
	case left > 0:
		return []string{name + " left", fmt.Sprintf("%d alike", len(of))}
	case right > 0:
		return []string{name + " right", fmt.Sprintf("%d alike", len(of))}
	}
	return []string{name, fmt.Sprintf("%d alike", len(of))}
}

// numbersOf lists the panels that stand for pieces, each once.
func (s *survey) numbersOf(pieces []string) string {
	var out []string
	for _, p := range pieces {
		if at, ok := s.drawnAs[p]; ok && !slices.Contains(out, s.panels[at].number) {
			out = append(out, s.panels[at].number)
		}
	}
	return strings.Join(out, ", ")
}

// entry is a line of a list, its letters before it.
type entry struct{ head, text string }

// seamList says of every seam how it is closed and what it joins.
func (s *survey) seamList() []entry {
	letters := make([][]string, len(s.cover.Seams))
	sides := make([][][]string, len(s.cover.Seams))
	var order []int
	for _, j := range s.work.Seams {
		if len(letters[j.Seam]) == 0 {
			order = append(order, j.Seam)
			sides[j.Seam] = j.Sides
		}
		letters[j.Seam] = append(letters[j.Seam], j.Letter)
	}
	out := make([]entry, 0, len(order))
	for _, k := range order {
		l := letters[k]
		head := strings.Join(l, ", ")
		if len(l) > 2 {
			head = l[0] + " … " + l[len(l)-1]
		}
		parts := make([]string, len(sides[k]))
		for i, side := range sides[k] {
			parts[i] = s.sideText(side)
		}
		text := s.cover.Seams[k].Kind.String() + ": " + strings.Join(parts, " to ")
		if tape := s.cover.Seams[k].Tape; tape != "" {
			text += " to its tape"
		}
		out = append(out, entry{head, text})
	}
	slices.SortStableFunc(out, func(a, b entry) int {
		x, _, _ := strings.Cut(a.head, "-")
		y, _, _ := strings.Cut(b.head, "-")
		x, _, _ = strings.Cut(x, ",")
		y, _, _ = strings.Cut(y, ",")
		if len(x) != len(y) {
			return len(x) - len(y)
		}
		return strings.Compare(x, y)
	})
	return out
}

// sideText names the edges of a side by the numbers of their panels.
func (s *survey) sideText(side []string) string {
	var out []string
	last := ""
	for _, e := range side {
		piece, edge := splitEdge(e)
		if piece != last {
			edge = s.numbersOf([]string{piece}) + " " + edge
		}
		last = piece
		out = append(out, edge)
	}
	return strings.Join(out, " + ")
}

// trimList says of every trim what hides its edge or what it covers.
func (s *survey) trimList() []entry {
	var out []entry
	for _, t := range s.cover.Trims {
		text := t.Kind.String() + ", " + s.Units.Length(t.Length, unit.Nearest)
		for _, l := range []struct {
			word   string
			panels []string
		}{{"hidden by", t.HiddenBy}, {"over", t.Covers}} {
			var pieces []string
			for _, p := range s.work.Pieces {
				if slices.Contains(l.panels, p.Of) || slices.Contains(l.panels, p.Name) {
					pieces = append(pieces, p.Name)
				}
			}
			if by := s.numbersOf(pieces); by != "" {
				text += ", " + l.word + " " + by
			}
		}
		out = append(out, entry{t.Name, text})
	}
	return out
}
