package made

import (
	"strconv"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// SkirtKind is how a skirt falls: Gathered, PleatedAllRound or KickPleats. The
// zero value is none.
type SkirtKind uint8

const (
	// Gathered is drawn up all round; see GatheredSkirt.
	Gathered SkirtKind = iota + 1
	// PleatedAllRound is laid in pleats; see PleatedSkirt.
	PleatedAllRound
	// KickPleats hangs plain with a pleat at each corner; see KickPleatSkirt.
	KickPleats
)

var skirtNames = []string{"", "gathered", "pleated", "kick pleat"}

// String gives the name, such as "kick pleat"; empty for none.
func (k SkirtKind) String() string { return enum.Name(k, "skirt", skirtNames) }

// MarshalText writes the name; a number outside the set wraps unit.ErrUnknown.
func (k SkirtKind) MarshalText() ([]byte, error) { return enum.Text(k, "kind", skirtNames) }

// UnmarshalText reads a name as String writes it.
func (k *SkirtKind) UnmarshalText(text []byte) error { return enum.Read(k, text, "kind", skirtNames) }

// Skirt hangs from a seam all round. The zero value is refused.
type Skirt struct {
	Kind   SkirtKind      `json:"kind"`
	Sides  []unit.Length  `json:"sides"` // of the seam it hangs from, 1 mm or more
	Drop   unit.Length    `json:"drop"`  // finished depth
	Top    allowance.Edge `json:"top,omitzero"`
	Bottom allowance.Edge `json:"bottom,omitzero"` // usually a hem
	// Fullness of a gathered skirt is cloth over seam, such as 2.
	Fullness unit.Ratio `json:"fullness,omitzero"`
	// Pleat, Pleats and Underfold of a pleated skirt: how they fold, how many
	// there are all round, how deep each fold is.
	Pleat     PleatKind   `json:"pleat,omitzero"`
	Pleats    int         `json:"pleats,omitzero"`
	Underfold unit.Length `json:"underfold,omitzero"`
	// Lined cuts the panels of a kick pleat skirt double, folded at the hem.
	Lined bool `json:"lined,omitempty"`
	// Pattern is which way the pattern of a kick pleat skirt runs on over the joins
	// of its panels; it is then level round the corners, whichever way.
	Pattern allowance.PatternWay `json:"pattern,omitzero"`
}

func (s Skirt) base() (unit.Length, error) {
	if len(s.Sides) == 0 {
		return 0, check.Required("sides", "the length of each side")
	}
	var base unit.Length
	for i, l := range s.Sides {
		if l < unit.Millimetre { // the least that edges are joined by
			return 0, check.Length(check.At("sides", i), l, unit.Millimetre, check.Longest)
		}
		var err error
		if base, err = base.Plus(l); err != nil {
			return 0, unit.InField("sides", err)
		}
	}
	return base, nil
}

// Cover gives the skirt: its pieces, their joins and hems. The top of each is an
// open seam called top, of a kick pleat skirt with the number of the side; a top
// that is no seam is an edge of its own. Errors are those of the skirts' own Cut,
// with the fields of this type.
func (s Skirt) Cover(g Goods) (allowance.Cover, error) {
	base, err := s.base()
	if err != nil {
		return allowance.Cover{}, err
	}
	if s.Pattern != allowance.NoPattern && s.Kind != KickPleats {
		return allowance.Cover{}, check.Refuse("pattern", s.Pattern.String(), unit.ErrRange, "a kick pleat skirt")
	}
	longest := g.Across
	switch s.Kind {
	case Gathered:
		if err := check.Ratio("fullness", s.Fullness, 1.1, 4); err != nil {
			return allowance.Cover{}, err
		}
		cut, err := GatheredSkirt{Base: base, Drop: s.Drop, Fullness: s.Fullness, Top: s.Top, Bottom: s.Bottom, Longest: longest}.Cut()
		if err != nil {
			return allowance.Cover{}, check.Renamed(err, map[string]string{"base": "sides", "longest": "goods"})
		}
		return s.hung(g, cut, base)
	case PleatedAllRound:
		cut, err := PleatedSkirt{Pleats: Pleats{Kind: s.Pleat, Finished: base, Count: s.Pleats, Underfold: s.Underfold},
			Drop: s.Drop, Top: s.Top, Bottom: s.Bottom, Longest: longest}.Cut()
		if err != nil {
			err = check.Inner(err, "pleats") // what is left is a field of Pleats
			return allowance.Cover{}, check.Renamed(err, map[string]string{"finished": "sides", "count": "pleats", "kind": "pleat", "longest": "goods"})
		}
		return s.hung(g, cut, base)
	case KickPleats:
		return s.kick(g)
	}
	return allowance.Cover{}, check.OneOf("kind", s.Kind.String(), skirtNames[1:]...)
}

// mostSkirt bounds the pieces of one skirt.
const mostSkirt = 500

// ranged checks that the skirt can be drawn.
func (s Skirt) ranged() error { return inRange("drop", s.Drop, unit.Centimetre, 10*unit.Metre) }

// hung makes a skirt of equal pieces joined to a ring.
func (s Skirt) hung(g Goods, cut SkirtCut, base unit.Length) (allowance.Cover, error) {
	if err := s.ranged(); err != nil {
		return allowance.Cover{}, err
	}
	if err := check.Count("goods", cut.Joins, 1, mostSkirt); err != nil {
		return allowance.Cover{}, err
	}
	n := cut.Joins
	each, err := cut.Sewn.MulDiv(1, n, unit.Up)
	if err != nil {
		return allowance.Cover{}, err
	}
	o, err := shape.Rectangle(each, s.Drop)
	if err != nil {
		return allowance.Cover{}, check.Renamed(err, map[string]string{"width": "sides", "height": "drop"})
	}
	p := sewnPanel("skirt", g, o)
	p.Count, p.Edges = n, map[string]allowance.Edge{"bottom": s.hem()}
	c := allowance.Cover{Panels: []allowance.CoverPanel{p}, Seams: joined("skirt", n, true)}
	if !s.Top.Finish.Seam() {
		c.Panels[0].Edges["top"] = s.Top
		return c, nil
	}
	top, err := s.open("top", inRow("skirt", n, "top"))
	if err != nil {
		return allowance.Cover{}, err
	}
	if s.Kind == Gathered {
		top.Kind = allowance.GatheredJoin
	}
	top.Fullness, err = cut.Sewn.Per(base)
	c.Seams = append(c.Seams, top)
	return c, err
}

// hem gives the lower edge; one to be sewn on is left as long as it asks for.
func (s Skirt) hem() allowance.Edge { return unsewn(s.Bottom) }

// unsewn gives an edge as one of its own: what a seam asks for is left raw.
func unsewn(e allowance.Edge) allowance.Edge {
	if !e.Finish.Seam() {
		return e
	}
	m, err := e.Resolve()
	if err != nil {
		return e // refused when it is cut
	}
	return allowance.Edge{Finish: allowance.Raw, Allowance: allowance.Exactly(m.Allowance), Handling: m.Handling}
}

// open gives the seam that the skirt hangs from.
func (s Skirt) open(name string, side allowance.Side) (allowance.Seam, error) {
	m, err := s.Top.Resolve()
	return allowance.Seam{Open: name, Sides: []allowance.Side{side}, Allowance: allowance.Exactly(m.Allowance), Handling: m.Handling}, unit.InField("top", err)
}

// kick makes a skirt with a pleat at each corner: a panel for each side, whose
// ends turn back, and an underlay behind each corner. A panel that is wider than
// the goods has its widest piece in the middle and equal ones at its ends.
func (s Skirt) kick(g Goods) (allowance.Cover, error) {
	if err := s.ranged(); err != nil {
		return allowance.Cover{}, err
	}
	if _, err := (KickPleatSkirt{Sides: s.Sides, Drop: s.Drop, Lined: s.Lined, Top: s.Top, Bottom: s.Bottom}).Cut(); err != nil {
		return allowance.Cover{}, err
	}
	height, bottom := s.Drop, s.hem()
	if s.Lined {
		height, bottom = 2*s.Drop, unsewn(s.Top)
	}
	raw := allowance.Edge{Finish: allowance.Raw}
	var c allowance.Cover
	add := func(name string, width unit.Length, count int, edges map[string]allowance.Edge) error {
		o, err := shape.Rectangle(width, height)
		p := sewnPanel(name, g, o)
		p.Count, p.Edges = count, edges
		edges["bottom"] = bottom
		c.Panels = append(c.Panels, p)
		return check.Renamed(err, map[string]string{"width": "sides", "height": "drop"})
	}
	// The underlays hang behind the panels and go on before them.
	if err := add("underlay", 2*kickReturn(s.Sides), len(s.Sides), map[string]allowance.Edge{"top": unsewn(s.Top), "left": raw, "right": raw}); err != nil {
		return allowance.Cover{}, err
	}
	last := ""
	for i, side := range s.Sides {
		name := numbered("skirt panel", i, len(s.Sides))
		widths, err := centred(side+2*kickReturn(s.Sides), g)
		if err != nil {
			return allowance.Cover{}, unit.InField(check.At("sides", i), err)
		}
		var top allowance.Side
		for k, w := range widths {
			edges := map[string]allowance.Edge{}
			if !s.Top.Finish.Seam() {
				edges["top"] = s.Top
			}
			part := partOf(name, k, len(widths))
			if k == 0 {
				edges["left"] = raw
			} else {
				c.Seams = append(c.Seams, allowance.Seam{Pattern: allowance.Crossing{Way: s.Pattern},
					Sides: []allowance.Side{{edgeOf(partOf(name, k-1, len(widths)), "right")}, {edgeOf(part, "left")}}})
			}
			if k == 0 && i > 0 && s.Pattern != allowance.NoPattern {
				c.Meets = append(c.Meets, allowance.Meet{Sides: []allowance.MeetSide{{Side: allowance.Side{edgeOf(last, "right")}}, {Side: allowance.Side{edgeOf(part, "left")}}},
					Pattern: allowance.Crossing{Way: allowance.AlongOnly}})
			}
			last = part
			if k == len(widths)-1 {
				edges["right"] = raw
			}
			if err := add(part, w, 1, edges); err != nil {
				return allowance.Cover{}, err
			}
			top = append(allowance.Side{edgeOf(part, "top")}, top...)
		}
		if s.Top.Finish.Seam() {
			seam, err := s.open("top "+strconv.Itoa(i+1), top)
			if err != nil {
				return allowance.Cover{}, err
			}
			if seam.Fullness, err = (side + 2*kickReturn(s.Sides)).Per(side); err != nil || seam.Fullness > mostFullness {
				return allowance.Cover{}, inRange(check.At("sides", i), side, kickReturn(s.Sides)/4, check.Longest)
			}
			c.Seams = append(c.Seams, seam)
		}
	}
	return c, nil
}

// partOf names the piece of a panel that is joined: the middle one as the panel.
func partOf(name string, k, of int) string {
	switch {
	case 2*k == of-1:
		return name
	case 2*k > of-1:
		k--
	}
	return name + " end " + strconv.Itoa(k+1)
}

// centred divides a width that is more than the goods allow: the widest piece in
// the middle, equal ones at its ends.
func centred(width unit.Length, g Goods) ([]unit.Length, error) {
	s, _ := allowance.PlainSeam.Default()
	most := reach(g.Across, s)
	if width <= most {
		return []unit.Length{width}, nil
	}
	if most < 2*leastPiece {
		return nil, check.Refuse("", width.String(), unit.ErrRange, "a width that joined pieces of these goods make up; they allow strips of "+g.Across.String())
	}
	n := nano.CeilDiv(width, most)
	if n%2 == 0 {
		n++
	}
	if n > mostSkirt {
		return nil, check.Refuse("", width.String(), unit.ErrRange, "a width that 500 pieces make up")
	}
	ends := max((width-unit.Length(n-2)*most)/2, leastPiece)
	out := share(width-2*ends, int(n-2))
	return append(append([]unit.Length{ends}, out...), ends), nil
}
