package build

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// place is where a support lies.
type place struct {
	back bool   // by the figures of a back
	each string // of left and right
}

const (
	backGap     = 3 * unit.Inch // of webbing in backs and arms
	elasticWide = 2 * unit.Inch
	railMargin  = 2 * unit.Inch // of coils, inside the rails
	burlapRail  = unit.Inch     // what burlap lies on the rail
)

// support adds what carries a seat, a back or an arm.
func (n *needing) support(name string, s *Support, at place) {
	if s == nil || s.On == Board || s.On == AsFound {
		return
	}
	field := unit.Path(name)
	if s.On == 0 {
		n.in(field.Dot("on"), check.Required("", "one of board, webbing, elastic webbing, zigzag springs, coil springs, burlap, as found"))
		return
	}
	for _, x := range []struct {
		name unit.Path
		l    unit.Length
	}{{"width", s.Width}, {"depth", s.Depth}} {
		if x.l == 0 {
			n.ask(field.Dot(x.name), fmt.Sprintf("not worked out: %s of the %s, inside the rails, for its %s", x.name, name, s.On))
		} else {
			n.in(field.Dot(x.name), check.Length("", x.l, 10*unit.Centimetre, 10*unit.Metre))
		}
	}
	if s.Width == 0 || s.Depth == 0 || n.err != nil {
		return
	}
	before := len(n.needs)
	if at.each != "" {
		name = at.each
	}
	var err error
	switch s.On {
	case Webbing:
		err = n.webbing(name, *s, at)
	case ElasticWebbing:
		err = n.elastic(name, *s, at)
	case Zigzag:
		err = n.zigzag(name, *s, at)
	case Coils:
		err = n.coils(name, *s)
	case Board, Burlap, AsFound:
	}
	if err == nil && s.On != ElasticWebbing && !s.Bare {
		err = n.burlap(name, field, *s)
	}
	if err == nil && s.Felt > 0 {
		err = n.felt(Face{s.Width + 2*feltMargin, s.Depth + 2*feltMargin}, 1, s.Felt, name+", over the rails")
	}
	n.in(field, err)
	if at.each != "" {
		n.needs = append(n.needs, n.needs[before:]...)
	}
}

// webbing adds a lattice of woven strips.
func (n *needing) webbing(name string, s Support, at place) error {
	w := findings.Webbing{Width: s.Width, Depth: s.Depth, Strip: s.Strip, Gap: s.Gap, OneWay: s.OneWay}
	if at.back && w.Gap == 0 {
		w.Gap = backGap
	}
	if s.Tacks {
		w.Fasteners = 7
	}
	p, err := w.Plan()
	if err != nil {
		return err
	}
	how := fmt.Sprintf("%s: %d strips of %v", name, p.FrontToBack, p.LongWays)
	if p.SideToSide > 0 {
		how += fmt.Sprintf(" and %d of %v", p.SideToSide, p.CrossWays)
	}
	n.length("webbing", p.Total, 0, how, p.Basis)
	ends := 2 * (p.FrontToBack + p.SideToSide)
	each := p.Fasteners / ends
	if s.Tacks {
		n.count("tack", p.Fasteners, fmt.Sprintf("%s webbing: %d at each of %d ends", name, each, ends), p.Basis)
		return nil
	}
	n.count("staple", p.Fasteners, fmt.Sprintf("%s webbing: %d at each of %d ends", name, each, ends), p.Basis)
	n.needs[len(n.needs)-1].Leg = foldedWebbing + railBite
	return nil
}

// elastic adds elastic strips from side to side.
func (n *needing) elastic(name string, s Support, at place) error {
	if s.Strip == 0 {
		s.Strip = elasticWide
	}
	p, err := findings.Elastic{Across: s.Depth, Span: s.Width, Strip: s.Strip, Back: at.back, Gap: s.Gap, Clips: s.Clips}.Plan()
	if err != nil {
		return check.Renamed(err, map[string]string{"across": "depth", "span": "width"})
	}
	n.length("elastic webbing", p.Total, 0, fmt.Sprintf("%s: %d strips cut to %s", name, p.Strips, p.Cut.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest)), p.Basis)
	how := fmt.Sprintf("%s: both ends of %d elastic strips", name, p.Strips)
	if s.Clips {
		n.count("webbing clip", p.Fasteners, how, p.Basis)
		return nil
	}
	n.count("staple", p.Fasteners, how, p.Basis)
	n.needs[len(n.needs)-1].Leg = foldedWebbing + railBite
	return nil
}

// zigzag adds springs with their clips and ties.
func (n *needing) zigzag(name string, s Support, at place) error {
	p, err := findings.Zigzag{Width: s.Width, Depth: s.Depth, Back: at.back, Side: s.Side, Pitch: s.Pitch, Rise: s.Rise}.Plan()
	if err != nil {
		return err
	}
	if !s.Kept {
		n.length("zigzag spring", p.Total, 0, fmt.Sprintf("%s: %d springs of %s", name, p.Springs, p.Arc.Mixed(unit.Inch, unit.Sixteenths, unit.Nearest)), p.Basis)
		n.count("zigzag clip", p.Clips, fmt.Sprintf("%s: 2 a spring", name), p.Basis)
		n.count("clip nail", p.Nails, fmt.Sprintf("%s: %d a clip", name, p.Nails/p.Clips), p.Basis)
	}
	n.length("tie wire", p.TieWire, 0, fmt.Sprintf("%s: %d of %v", name, p.TieRows, p.TieWire/unit.Length(p.TieRows)), p.Basis)
	return nil
}

// coils adds coil springs with webbing below and twine.
func (n *needing) coils(name string, s Support) error {
	c := findings.Coils{Width: s.Width, Depth: s.Depth, Margin: s.Margin, Coil: s.Coil, Gap: s.Gap, Light: s.Light, Clips: s.Clips}
	if c.Margin == 0 {
		c.Margin = railMargin
	}
	p, err := c.Plan()
	if err != nil {
		return err
	}
	below := s
	below.Gap = 0 // that of s is between the coils
	if err := n.webbing(name, below, place{}); err != nil {
		return err
	}
	if !s.Kept {
		n.count("coil spring", p.Springs, fmt.Sprintf("%s: %d by %d", name, p.Across, p.Deep), p.Basis)
	}
	n.length("spring twine", p.Twine, 0, fmt.Sprintf("%s: %d strands at 1 2/3 of their run", name, p.Strands), p.Basis)
	n.count("tack", p.Tacks, fmt.Sprintf("%s: 2 at each end of %d strands", name, p.Strands), p.Basis)
	n.length("stitching twine", p.Stitching, 0, fmt.Sprintf("%s: 24 in a spring", name), p.Basis)
	n.count("webbing clip", p.Clips, fmt.Sprintf("%s: 4 a spring", name), p.Basis)
	return nil
}

// burlap adds burlap over webbing or springs.
func (n *needing) burlap(name string, field unit.Path, s Support) error {
	var rise unit.Length
	if s.On == Coils {
		if rise = s.Rise; rise == 0 {
			n.ask(field.Dot("rise"), "not worked out: how far the coils of the "+name+" stand above the rails, for their burlap")
			return nil
		}
	}
	cut, err := findings.Sheet{Width: s.Width, Depth: s.Depth, Rail: burlapRail, Rise: rise}.Cut()
	if err != nil {
		return err
	}
	n.cloth("burlap", Face{cut.Width, cut.Depth}, 1, name+": "+size(Face{cut.Width, cut.Depth}), cite.Practice("1 in on the rail and 1 in to turn"))
	on := Face{s.Width + 2*burlapRail, s.Depth + 2*burlapRail}
	n.staple(name+" burlap", clothPitch, foldedBurlap, railBite, on.Width, on.Width, on.Depth, on.Depth)
	return nil
}
