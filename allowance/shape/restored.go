package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// TracedEdge says what is known of an edge that was traced on an old cover. The
// zero value is an edge without an allowance.
type TracedEdge struct {
	// Allowance is how far it lies outside the finished line, from zero to 5 m.
	Allowance unit.Length `json:"allowance,omitzero"`
	Kept      bool        `json:"kept,omitzero"`   // it is an edge, however short, and no cut of a corner
	Corner    bool        `json:"corner,omitzero"` // it is the cut of a corner, however long
}

// Restored is an outline as it was before its corners were cut and its edges
// nicked, and what was taken for what.
type Restored struct {
	Outline Outline     `json:"outline"`
	Corners []CornerCut `json:"corners,omitempty"`
	Nicks   []Nick      `json:"nicks,omitempty"`
	Hollows []Hollow    `json:"hollows,omitempty"`
}

// CornerCut is a corner whose two edges were carried on until they meet.
type CornerCut struct {
	First  string      `json:"first"`  // the edge before it
	Second string      `json:"second"` // and after it
	At     Point       `json:"at"`     // where they meet now
	Style  Corner      `json:"style"`  // how it had been cut; mitred where a given corner is cut in no known way
	Length unit.Length `json:"length"` // of what was dropped
	// Off is how far the corner lies from that of the style where it was rounded by
	// the knife; zero otherwise.
	Off unit.Length `json:"off,omitzero"`
}

// Nick is a small V in the edge of the cloth, nearly always a match mark of the
// last maker.
type Nick struct {
	Edge  string      `json:"edge"`
	At    Point       `json:"at"`    // in the middle of its mouth
	Depth unit.Length `json:"depth"` // from the mouth to its point
}

// Hollow is an inner corner of a cut line. A hollow of the finished line that is
// tighter than its allowance is cut the same: more than one shape fits.
type Hollow struct {
	First  string `json:"first"`
	Second string `json:"second"`
	At     Point  `json:"at"` // on the cut line
	// Off is how far a round hollow, of the allowance as radius, lies from the sharp
	// corner that is taken.
	Off unit.Length `json:"off"`
}

// Restored takes the cuts off the corners of a traced cut line, and nicks out of its
// edges. There is a TracedEdge for each of Edges. With the allowances a and b
// of two edges and the turn t between them, the short pieces between the edges
// are a cut where their length is within 20 % of
//
//	sqrt(a² + b² - 2 a b cos t)          clipped
//	2 a tan(t/4)                         cut off square, a = b
//
// or of a mitre cut at its limit, or of the arc of the larger allowance r about the
// finished corner, with the lesser s, where they also lie within 20 % of r from it,
//
//	r (t - arccos(s/r))                  round
//
// An arc that runs into both edges
// with a radius r of less than 80 % of the lesser allowance s was rounded by the knife: it is
// taken as sharp, and cut again with a round corner it is off by
//
//	(s - r) (1 / cos(t/2) - 1)
//
// Edges must be longer than the cut between them, and nearly straight beside it. A genuine bevel of that length
// looks the same: its edge must be Kept. A nick is a V of two lines, at most
// half an inch wide and from 1/16 to 1/2 in deep, in an edge that runs on.
//
// The limits are proposals of this package. Errors are *unit.InputError values.
func (o Outline) Restored(edges []TracedEdge) (Restored, error) {
	if o.IsZero() {
		return Restored{}, check.Required("outline", "one of the outlines of this package")
	}
	if err := check.Count("edges", len(edges), len(o.sides), len(o.sides)); err != nil {
		return Restored{}, err
	}
	for i, e := range edges {
		if err := check.Length(check.At("edges", i)+".allowance", e.Allowance, 0, mostOffset); err != nil {
			return Restored{}, err
		}
		if e.Kept && e.Corner {
			return Restored{}, check.Refuse(check.At("edges", i)+".corner", o.sides[i].name, unit.ErrRange, "an edge or the cut of a corner, not both")
		}
	}
	var out Restored
	plain, nicks := o.withoutNicks()
	out.Nicks = nicks
	c := cuts{outline: plain, edges: edges}
	for i, s := range plain.sides {
		for range s.path {
			c.side = append(c.side, i)
		}
	}
	by := mapped(c.side, func(i int) float64 { return float64(edges[i].Allowance) })
	c.step = steps(plain.whole, by)
	c.find()
	var err error
	if out.Outline, out.Corners, err = c.joined(); err != nil {
		return Restored{}, err
	}
	out.Hollows = out.Outline.hollows(func(name string) float64 {
		for i, s := range o.sides {
			if s.name == name {
				return float64(edges[i].Allowance)
			}
		}
		return 0
	})
	return out, nil
}

const (
	widestNick    = float64(unit.Inch / 2)
	deepestNick   = float64(unit.Inch / 2)
	shallowNick   = float64(unit.Inch / 16)
	cutAgreement  = 0.2                           // of a cut's length with that of its style
	leastCut      = float64(unit.Millimetre) / 10 // a shorter piece is no cut
	leastTurn     = 1.5 * math.Pi / 180           // of a corner
	mostCutPieces = 64                            // of a round one that was traced in chords
)

// withoutNicks draws edges on over their nicks.
func (o Outline) withoutNicks() (Outline, []Nick) {
	var nicks []Nick
	sides := make([]side, len(o.sides))
	for i, s := range o.sides {
		sides[i].name = s.name
		for k := 0; k < len(s.path); k++ {
			n := len(sides[i].path)
			if nick, mouth, ok := nickAt(s, k); ok && n > 0 {
				nicks = append(nicks, nick)
				last := &sides[i].path[n-1]
				next := s.path[k+2]
				if last.Kind == geom.Line && next.Kind == geom.Line && bend(last.Tangent(1), next.Tangent(0)) < 0.01 {
					last.To = next.To
					k += 2
					continue
				}
				sides[i].path = append(sides[i].path, mouth)
				k++
				continue
			}
			sides[i].path = append(sides[i].path, s.path[k])
		}
	}
	if len(nicks) == 0 {
		return o, nil
	}
	return seal(sides), nicks
}

// nickAt tells whether pieces k and k + 1 of an edge are a nick, and gives the
// line across its mouth.
func nickAt(s side, k int) (Nick, geom.Segment, bool) {
	if k < 1 || k+2 >= len(s.path) || s.path[k].Kind != geom.Line || s.path[k+1].Kind != geom.Line {
		return Nick{}, geom.Segment{}, false
	}
	mouth := geom.LineTo(s.path[k].From, s.path[k+1].To)
	width := mouth.Length()
	p := geom.Parallel{Segment: mouth}
	apex := s.path[k].To.Vec()
	f := p.Nearest(apex, 0, 1)
	foot := p.At(f)
	depth := geom.Hypot(foot.X-apex.X, foot.Y-apex.Y)
	d := mouth.Tangent(0)
	inside := float64(d.X*(apex.Y-foot.Y)) > float64(d.Y*(apex.X-foot.X))
	switch {
	case width == 0 || width > widestNick || depth < shallowNick || depth > deepestNick || !inside || f <= 0 || f >= 1:
		return Nick{}, mouth, false
	case bend(s.path[k-1].Tangent(1), d) > 0.35 || bend(d, s.path[k+2].Tangent(0)) > 0.35:
		return Nick{}, mouth, false
	case s.path[k-1].Length() < width || s.path[k+2].Length() < width:
		return Nick{}, mouth, false
	}
	return Nick{Edge: s.name, At: fromGrid(mouth.At(0.5)), Depth: unit.Length(math.Round(depth))}, mouth, true
}

// turnTo gives the angle from direction u to v, above zero to the left.
func turnTo(u, v geom.Vec) float64 {
	return geom.Atan2(float64(u.X*v.Y)-float64(u.Y*v.X), float64(u.X*v.X)+float64(u.Y*v.Y))
}

func bend(u, v geom.Vec) float64 { return math.Abs(turnTo(u, v)) }

// hollows lists the inner corners of a cut line where another shape would be
// seen.
func (o Outline) hollows(allowance func(name string) float64) []Hollow {
	var out []Hollow
	n := len(o.whole)
	for k, s := range o.whole {
		first, second := o.sideOf((k+n-1)%n), o.sideOf(k)
		t := turnTo(o.whole[(k+n-1)%n].Tangent(1), s.Tangent(0))
		wide := max(allowance(first), allowance(second))
		if t >= 0 || wide == 0 {
			continue
		}
		_, cos := geom.SinCos(t / 2)
		if off := wide * (1/max(cos, 0.01) - 1); off > float64(DefaultTolerance) {
			out = append(out, Hollow{first, second, fromGrid(s.From), unit.Length(math.Round(off))})
		}
	}
	return out
}
