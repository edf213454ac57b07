package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// besideZip is what of a seam is sewn plain beside a zip in it, both ends
// together, as common practice has it.
const besideZip = 3 * unit.Inch

// inSeam gives the length of a zip in a seam: what is given, or the seam less 3 in,
// of a short one half.
func (c Cushion) inSeam(seam unit.Length) (unit.Length, error) {
	l := max(seam-besideZip, seam/2)
	if c.ZipLength != 0 {
		l = c.ZipLength
		if err := inRange("zip_length", l, unit.Centimetre, seam-unit.Centimetre); err != nil {
			return 0, err
		}
	}
	return l, nil
}

// zipInSeam gives the allowance along a zip in a seam: that of the seam.
func (c Cushion) zipInSeam() allowance.Override {
	def, _ := allowance.BoxedSeam.Default()
	for _, o := range []allowance.Override{c.ZipSeam, c.Seam} {
		if l, set := o.Get(); set {
			return allowance.Exactly(l)
		}
	}
	return allowance.Exactly(def)
}

// knifeEdge makes two plates sewn to each other, with a zip in the back seam or a
// length there that is closed by hand.
func (c Cushion) knifeEdge(p plate, k unit.Length) (Part, error) {
	if _, err := p.front(c.Front); err != nil {
		return Part{}, err
	}
	below, err := p.below()
	if err != nil {
		return Part{}, err
	}
	back := p.edges[p.back].length
	if len(p.edges) == 1 {
		back /= 2 // a rim: half the girth
	}
	if err := inRange(c.sized(), back, 4*unit.Centimetre, check.Longest); err != nil {
		return Part{}, err
	}
	open, err := c.inSeam(back)
	if err != nil {
		return Part{}, err
	}
	from := -(open - open/2)
	to := from + open
	cover := allowance.Cover{Panels: []allowance.CoverPanel{sewnPanel("top plate", c.Top, p.outline), sewnPanel("bottom plate", c.Bottom, below.outline)}}
	a, b, attached, err := p.attached(c.Attached, from, to)
	if err != nil {
		return Part{}, err
	}
	both := func(from, to unit.Length) []allowance.Side {
		return []allowance.Side{p.run("top plate", from, to), below.run("bottom plate", -to, -from)}
	}
	sewn := func(from, to, opening unit.Length) {
		sides := both(from, to)
		s := c.plated(sides[0], sides[1])
		s.Opening = opening
		cover.Seams = append(cover.Seams, s)
	}
	if c.Zip {
		cover.Seams = []allowance.Seam{{Kind: allowance.ZipJoin, Allowance: c.zipInSeam(), Sides: both(from, to)}}
	}
	switch {
	case attached && c.Zip:
		sewn(to, a, 0)
		sewn(b, from, 0)
	case attached && c.TopStitch: // the first side of the seam is the lower plate, and runs from the other end
		sewn(b, to, open)
		sewn(to, a, 0)
	case attached:
		sewn(from, a, open)
		sewn(b, from, 0)
	case c.Zip:
		sewn(to, from, 0)
	default:
		s := c.plated(p.side("top plate", from), below.side("bottom plate", -from))
		if c.TopStitch { // the other plate begins where this one ends
			s.Sides = []allowance.Side{below.side("bottom plate", -to), p.side("top plate", to)}
		}
		s.Opening = open
		cover.Seams = []allowance.Seam{s}
	}
	if attached {
		cover.Seams = append(cover.Seams, allowance.Seam{Open: c.Attached, Sides: both(a, b), Allowance: c.Seam})
	}
	core, err := coreOf(p.outline, 0, k)
	return Part{Cover: cover, Core: core}, err
}
