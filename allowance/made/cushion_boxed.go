package made

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// boxing states the ring of a plate.
func (c Cushion) boxing(p plate) (Boxing, error) {
	front, err := p.front(c.Front)
	if err != nil {
		return Boxing{}, err
	}
	return Boxing{Perimeter: p.around, Depth: c.Thickness, Corners: p.corners(), Front: front, Seam: c.Seam, Least: c.Least,
		Match: c.Pattern != allowance.NoPattern && c.Pattern != allowance.AlongOnly, Zip: c.Zip, ZipLength: c.ZipLength, Pocket: c.Pocket, ZipSeam: c.ZipSeam}, nil
}

// boxed makes two plates of any outline and the ring between them.
func (c Cushion) boxed(p plate, k unit.Length) (Part, error) {
	b, err := c.boxing(p)
	if err != nil {
		return Part{}, err
	}
	cut, err := b.Cut(c.Boxing)
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"perimeter": c.sized(), "depth": "thickness", "corners": c.sized(), "goods": "boxing"})
	}
	below, err := p.below()
	if err != nil {
		return Part{}, err
	}
	cover, err := b.strips(cut, c.Boxing)
	if err != nil {
		return Part{}, err
	}
	cover.Panels = append([]allowance.CoverPanel{sewnPanel("top plate", c.Top, p.outline), sewnPanel("bottom plate", c.Bottom, below.outline)}, cover.Panels...)
	top, _ := cut.sides()
	cover.Seams = append(cover.Seams, c.plated(p.side("top plate", cut.Pieces[0].From), top))
	lower, err := c.lower(p, below, b, cut)
	if err != nil {
		return Part{}, err
	}
	cover.Seams = append(cover.Seams, lower...)
	if cover.Meets, err = c.runsOn(p, b, cut.Pieces); err != nil {
		return Part{}, err
	}
	core, err := coreOf(p.outline, c.Thickness, k)
	return Part{Cover: cover, Boxing: &cut, Core: core}, err
}

// lower gives the seams of the lower plate: one, or two beside the edge at which
// the cushion is sewn to the piece, and that edge. Without a zip the first is open
// at the back, from the start of its first side.
func (c Cushion) lower(p, below plate, b Boxing, cut BoxingCut) ([]allowance.Seam, error) {
	at, around := cut.Pieces[0].From, p.around
	open := unit.Length(0)
	if !c.Zip {
		open = b.byHand()
	}
	from, to, attached, err := p.attached(c.Attached, at-open, at)
	if err != nil {
		return nil, err
	}
	sewn := func(from, to, opening unit.Length) allowance.Seam {
		plate := below.run("bottom plate", -to, -from)
		if to-from == around {
			plate = below.side("bottom plate", -to)
		}
		s := c.plated(plate, cut.run(from, to, around))
		s.Opening = opening
		return s
	}
	start := at
	if c.TopStitch { // its first side is the ring, which runs the other way
		start = at - open
	}
	if !attached {
		return []allowance.Seam{sewn(start, start+around, open)}, nil
	}
	edge := allowance.Seam{Open: c.Attached, Sides: []allowance.Side{below.run("bottom plate", -to, -from), cut.run(from, to, around)}, Allowance: c.Seam}
	var out []allowance.Seam
	switch {
	case c.Zip:
		return []allowance.Seam{sewn(to, from+around, 0), edge}, nil
	case c.TopStitch:
		out = append(out, sewn(start, from, open))
		if start+around-to >= nearEnd {
			out = append(out, sewn(to, start+around, 0))
		}
	default:
		out = append(out, sewn(to-around, start, open))
		if from-start >= nearEnd {
			out = append(out, sewn(start, from, 0))
		}
	}
	return append(out, edge), nil
}

// run gives the lower edge of the ring between two places, along them.
func (c BoxingCut) run(from, to, around unit.Length) allowance.Side {
	pieces := slices.Clone(c.Pieces)
	for i, p := range c.ZipPieces {
		_, p.Name = halves(i, len(c.ZipPieces))
		p.From, p.To = p.From+around, p.To+around
		pieces = append(pieces, p)
	}
	var out allowance.Side
	for _, turn := range []unit.Length{-around, 0, around} {
		for _, p := range pieces {
			a, z := max(from, p.From+turn), min(to, p.To+turn)
			if z-a < nearEnd {
				continue
			}
			e := edgeOf(p.Name, "bottom")
			if in := a - p.From - turn; in >= nearEnd {
				e.From = in
			}
			if p.To+turn-z >= nearEnd {
				e.To = z - p.From - turn
			}
			out = append(out, e)
		}
	}
	return out
}

// sized names the field that an error of the plate's size is about.
func (c Cushion) sized() string {
	if c.Outline.IsZero() {
		return "width"
	}
	return "outline"
}

// byHand gives the length that is left open where there is no zip: the back, or a
// third of a ring without corners.
func (b Boxing) byHand() unit.Length {
	if w, _, _ := b.back(); w > 0 {
		return w
	}
	return b.Perimeter / 3
}

// plated gives the seam of a plate: welted, top-stitched or plain.
func (c Cushion) plated(plate, mate allowance.Side) allowance.Seam {
	s := allowance.Seam{Sides: []allowance.Side{plate, mate}, Allowance: c.Seam}
	switch {
	case c.Cord != 0:
		s.Kind, s.Cord, s.Welt, s.Bias = allowance.WeltedJoin, c.Cord, c.Welt, c.Bias
	case c.TopStitch: // the allowances turn to the second side
		s.Kind, s.Sides = allowance.TopStitchedJoin, []allowance.Side{mate, plate}
	}
	return s
}

// halves gives the names of the two rows of zip pieces.
func halves(i, of int) (upper, lower string) {
	n := ""
	if of > 1 {
		n = " " + strconv.Itoa(i+1)
	}
	return "zip panel upper" + n, "zip panel lower" + n
}

// sides gives the upper edge of the ring, against the places on it, and the
// lower one along them, both from the first piece.
func (c BoxingCut) sides() (top, bottom allowance.Side) {
	for i := len(c.ZipPieces) - 1; i >= 0; i-- {
		upper, _ := halves(i, len(c.ZipPieces))
		top = append(top, edgeOf(upper, "top"))
	}
	for i := len(c.Pieces) - 1; i >= 0; i-- {
		top = append(top, edgeOf(c.Pieces[i].Name, "top"))
	}
	for _, p := range c.Pieces {
		bottom = append(bottom, edgeOf(p.Name, "bottom"))
	}
	for i := range c.ZipPieces {
		_, lower := halves(i, len(c.ZipPieces))
		bottom = append(bottom, edgeOf(lower, "bottom"))
	}
	return top, bottom
}

// strips gives the panels of the ring and the seams that close it: joins, zip,
// ends of the zip panel.
func (b Boxing) strips(cut BoxingCut, g Goods) (allowance.Cover, error) {
	var c allowance.Cover
	add := func(name string, length, width unit.Length) error {
		o, err := shape.Rectangle(length, width)
		p := sewnPanel(name, g, o)
		p.Free = true
		c.Panels = append(c.Panels, p)
		return err
	}
	edge := func(panel, edge string) allowance.Side { return allowance.Side{edgeOf(panel, edge)} }
	for _, p := range cut.Pieces {
		if err := add(p.Name, p.To-p.From, b.Depth); err != nil {
			return c, err
		}
	}
	join := func(a, z allowance.Side, lap unit.Length) {
		c.Seams = append(c.Seams, allowance.Seam{Sides: []allowance.Side{a, z}, Allowance: b.Seam, Lap: lap})
	}
	n := len(cut.Pieces)
	first, last := edge(cut.Pieces[0].Name, "left"), edge(cut.Pieces[n-1].Name, "right")
	for i := 1; i < n; i++ {
		join(edge(cut.Pieces[i-1].Name, "right"), edge(cut.Pieces[i].Name, "left"), 0)
	}
	if len(cut.ZipPieces) == 0 {
		join(last, first, 0)
		return c, nil
	}
	var left, right, inner, outer allowance.Side
	for i, p := range cut.ZipPieces {
		upper, lower := halves(i, len(cut.ZipPieces))
		if err := add(upper, p.To-p.From, b.Depth-b.Depth/2); err != nil {
			return c, err
		}
		if err := add(lower, p.To-p.From, b.Depth/2); err != nil {
			return c, err
		}
		inner = append(inner, edgeOf(upper, "bottom"))
		outer = append(allowance.Side{edgeOf(lower, "top")}, outer...)
		if i == 0 {
			left = allowance.Side{edgeOf(upper, "left"), edgeOf(lower, "left")}
		} else {
			up, down := halves(i-1, len(cut.ZipPieces))
			join(edge(up, "right"), edge(upper, "left"), 0)
			join(edge(down, "right"), edge(lower, "left"), 0)
		}
		right = allowance.Side{edgeOf(lower, "right"), edgeOf(upper, "right")}
	}
	for _, half := range []allowance.Side{inner, outer} {
		c.Seams = append(c.Seams, allowance.Seam{Kind: allowance.ZipJoin, Tape: "zip", Sides: []allowance.Side{half}, Allowance: b.ZipSeam})
	}
	join(last, left, b.Pocket)
	join(first, right, b.Pocket)
	return c, nil
}

// Cover gives the pieces of the boxing, joined to a ring. Its long edges, top and
// bottom, are open seams of that name. Errors are those of Cut.
func (b Boxing) Cover(g Goods) (allowance.Cover, error) {
	cut, err := b.Cut(g)
	if err != nil {
		return allowance.Cover{}, err
	}
	c, err := b.strips(cut, g)
	if err != nil {
		return allowance.Cover{}, err
	}
	top, bottom := cut.sides()
	c.Seams = append(c.Seams, allowance.Seam{Open: "top", Sides: []allowance.Side{top}, Allowance: b.Seam},
		allowance.Seam{Open: "bottom", Sides: []allowance.Side{bottom}, Allowance: b.Seam})
	return c, nil
}
