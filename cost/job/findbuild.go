package job

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// built adds what the build takes, and asks for it where the cover is fastened to a
// frame that nobody described.
func (x *finder) built() {
	n, b := copies(x.of.Count), x.of.Build
	at := x.at.Dot("build")
	if b == nil {
		if x.fastened {
			x.ask(at, "how it is built: what carries seat, back and arms, what closes the underside, what it stands on")
		}
		return
	}
	if b.Underside != nil && x.closedBelow() {
		x.faults.misplaced(at.Dot("underside"), "none: a panel of the cover closes it, unless the piece is without one")
		return
	}
	needs, asks, err := b.Needs()
	if err != nil {
		x.faults.add(at, err)
		return
	}
	for _, d := range needs {
		x.add(n, d)
	}
	for _, q := range append(asks, b.Closed(x.closedBelow())...) {
		x.ask(x.at.Dot(q.Field), q.Text)
	}
	if l := b.Loose; l != nil {
		cushions := 0
		for _, c := range x.of.Cushions {
			k := copies(c.Count)
			if c.Pair {
				k *= 2
			}
			cushions += k
		}
		if cushions == 0 {
			x.faults.misplaced(at.Dot("loose"), "what cushions of the piece have")
			return
		}
		for _, d := range l.Needs(cushions) {
			x.add(n, d)
		}
	}
}

// closedBelow tells whether a panel of the cover closes the underside.
func (x *finder) closedBelow() bool {
	for _, p := range x.of.Panels {
		if strings.Contains(p.Name, "dust cover") {
			return true
		}
	}
	return false
}

// unfilled asks for what lies under channels and deep buttons where no foam or felt
// of the piece is said but what is named after its panels.
func (x *finder) unfilled() {
	under := func(f FoamSpec) bool {
		return slices.ContainsFunc(x.of.Panels, func(p PanelSpec) bool { return strings.HasPrefix(f.Name, p.Name) })
	}
	if slices.ContainsFunc(x.of.Foam, func(f FoamSpec) bool { return !under(f) }) || x.of.Build != nil && (len(x.of.Build.Felt) > 0 || len(x.of.Build.More) > 0) {
		return
	}
	for _, c := range x.of.Channels {
		x.ask(x.at.Dot("foam"), "not worked out: what fills the channels of "+c.Name)
	}
	for _, t := range x.of.Tufted {
		x.ask(x.at.Dot("foam"), "not worked out: what lies under the buttons of "+t.Name)
	}
}

// filled adds batting that has no price of its own, and the glue of foam.
func (x *finder) filled() {
	type joint struct {
		part string
		area unit.Area
	}
	var layers []joint
	var glued unit.Area
	var on []string
	for _, b := range x.foam {
		if b.Piece != x.of.Name || x.piece != x.spec.named(x.of.Name) {
			continue
		}
		face, err := b.Finished.Length.By(b.Finished.Width)
		if err == nil {
			face, err = face.Times(b.Count)
		}
		if err != nil {
			x.faults.addAs(x.at, err)
			return
		}
		if b.Layer != "" && b.Form != FoamCrown {
			if k := len(layers) - 1; k >= 0 && layers[k].part == b.Part {
				glued += min(layers[k].area, face)
				on = append(on, "layers of "+b.Part)
			}
			layers = append(layers, joint{b.Part, face})
		}
		if b.Wrap == nil {
			continue
		}
		switch {
		case b.Wrap.Priced:
		case b.Wrap.Width == 0:
			x.ask(x.wrapAt(b.Part), "not worked out: batting of "+b.Part+", for want of the width of its roll")
		default:
			x.add(1, build.Need{ID: "wrap", Net: cost.AnyOf(b.Wrap.Length), How: fmt.Sprintf("%s: %d sheets off %v", b.Part, b.Wrap.Sheets, b.Wrap.Width), Basis: cite.Practice("")})
		}
		if x.of.Build != nil && x.of.Build.Glue {
			front, err := b.Finished.Length.By(b.Finished.Thickness)
			if err == nil {
				front, err = front.Times(b.Count)
			}
			if err != nil {
				x.faults.addAs(x.at, err)
				return
			}
			glued += 2*face + front
			on = append(on, "batting of "+b.Part)
		}
	}
	if glued == 0 {
		return
	}
	o, err := findings.Glue{Area: glued}.Order(findings.Buying[unit.Volume]{})
	if err != nil {
		x.faults.addAs(x.at, err)
		return
	}
	x.add(1, build.Need{ID: "glue", Net: cost.AnyOf(o.Volume.Net), How: strings.Join(on, ", ") + ", both faces, 250 sq ft a gallon", Basis: o.Basis})
}

// named gives the first piece of furniture of a name.
func (s Spec) named(name string) int {
	return slices.IndexFunc(s.Pieces, func(p Furniture) bool { return p.Name == name })
}

// wrapAt gives the field of the width of the batting of a part.
func (x *finder) wrapAt(part string) unit.Path {
	if x.of.From != "" && x.of.Filling != nil {
		return x.at.Dot("filling.wrap.width")
	}
	for i, c := range x.of.Cushions {
		if c.Name == part {
			return x.at.Dot("cushions").At(i).Dot("foam.wrap.width")
		}
	}
	for i, b := range x.of.Foam {
		if b.Name == part {
			return x.at.Dot("foam").At(i).Dot("filling.wrap.width")
		}
	}
	return x.at
}

// settled gives lengths to cloths, and numbers and legs to staples.
func (s Spec) settled(needs []need) ([]need, faults) {
	var f faults
	var out []need
	cloths := map[string]int{} // place of the first need of a piece
	for _, n := range needs {
		at := unit.Path("pieces").At(n.piece)
		switch {
		case len(n.Cloth) > 0:
			key := fmt.Sprint(n.piece, " ", n.ID)
			k, known := cloths[key]
			if !known {
				k, cloths[key] = len(out), len(out)
				first := n
				first.Cloth, first.times, first.How = nil, 1, ""
				out = append(out, first)
			}
			for _, c := range n.Cloth {
				c.Count = copies(c.Count) * n.times
				out[k].Cloth = append(out[k].Cloth, c)
			}
			how := n.How
			if n.times > 1 {
				how = fmt.Sprintf("%d times %s", n.times, how)
			}
			switch had := out[k].How; {
			case strings.Contains(had, how):
				how = had
			case had != "":
				how = had + ", " + how
			}
			out[k].How, out[k].Basis = how, worse(out[k].Basis, n.Basis)
		case len(n.Staples) > 0 || n.Leg != 0:
			own, err := s.legs(n)
			f.addAs(at, err)
			out = append(out, own)
		default:
			out = append(out, n)
		}
	}
	for i := range out {
		if len(out[i].Cloth) == 0 {
			continue
		}
		p, err := findings.Cloth{Roll: s.roll(out[i].ID), Pieces: out[i].Cloth}.Plan()
		if err != nil {
			f.addAs(unit.Path("pieces").At(out[i].piece), err)
			continue
		}
		out[i].Net = cost.AnyOf(p.Length)
		out[i].How += fmt.Sprintf(", in rows off %v", s.roll(out[i].ID))
	}
	return out, f
}

// roll gives the width of a cloth as it is sold.
func (s Spec) roll(code string) unit.Length {
	of, err := build.Named(code)
	if err != nil {
		return 0
	}
	if own := s.Findings[of.ID]; own.Width != 0 {
		return own.Width
	}
	return of.Roll
}

// legs counts staples and picks their leg of those at hand.
func (s Spec) legs(n need) (need, error) {
	at := s.Findings["staple"].Sizes
	var leg unit.Length
	total := 0
	var through unit.Length
	for _, x := range n.Staples {
		x.Legs = at
		p, err := x.Plan()
		if err != nil {
			return n, err
		}
		total += p.Count
		leg = p.Leg
		if p.Through {
			through = x.Rail
		}
	}
	if through != 0 {
		n.How += ", which come through a rail of " + through.String()
	}
	if n.Leg != 0 { // counted already
		q, _ := cost.QuantityAs[cost.Pieces](n.Net)
		total = int(q)
		if len(at) == 0 {
			at = findings.StapleLegs()
		}
		for _, l := range at {
			if l >= n.Leg && (leg == 0 || l < leg) {
				leg = l
			}
		}
		if leg == 0 {
			return n, check.Refuse("", "staples", unit.ErrRange, "a leg of at least "+n.Leg.String())
		}
	}
	n.ID, n.Net = "staple, "+leg.String(), cost.AnyOf(cost.Pieces(total))
	return n, nil
}

// threads gives the thread of every row, with shares by the length of the rows.
func (s Spec) threads(w Sewing) []need {
	var out []need
	for _, t := range w.Threads {
		weights := make([]int, len(s.Pieces)) // in millimetres of rows
		all := 0
		for _, u := range w.SetUps {
			if u.Thread != t.Thread {
				continue
			}
			for _, r := range u.Rows {
				for i, p := range s.Pieces {
					if p.Name == r.Piece {
						weight := int(r.Length/unit.Millimetre+1) * r.Count
						weights[i], all = weights[i]+weight, all+weight
						break
					}
				}
			}
		}
		left, rest := t.Consumption.Total, all
		for i, weight := range weights {
			if weight == 0 {
				continue
			}
			part, err := left.MulDiv(weight, rest, unit.Nearest)
			if err != nil {
				part = left
			}
			left, rest = left-part, rest-weight
			out = append(out, need{build.Need{ID: "thread, " + t.Thread.String(), Net: cost.AnyOf(part), How: "its rows, tails and waste contained",
				Basis: cite.Practice("thread of a stitch")}, i, 1})
		}
	}
	return out
}
