package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// GatheredSkirt is a skirt or frill gathered round a base. The zero value is
// refused.
type GatheredSkirt struct {
	Base     unit.Length        `json:"base"`     // length of the seam it hangs from
	Drop     unit.Length        `json:"drop"`     // finished depth
	Fullness unit.Ratio         `json:"fullness"` // cloth over base, 1 to 10; see Fullnesses
	Top      allowance.Edge     `json:"top,omitzero"`
	Bottom   allowance.Edge     `json:"bottom,omitzero"`  // usually a hem
	Seam     allowance.Override `json:"seam,omitzero"`    // of each join; by default that of a plain seam
	Longest  unit.Length        `json:"longest,omitzero"` // longest piece the goods allow; zero for no limit
}

// SkirtCut is a skirt as it is cut.
type SkirtCut struct {
	Sewn   unit.Length `json:"sewn"`   // length between the joins, before gathering or pleating
	Width  unit.Length `json:"width"`  // cut depth of the strip
	Joins  int         `json:"joins"`  // the skirt is closed to a ring
	Pieces []Strip     `json:"pieces"` // lengths differ by a nanometre at most
	Area   unit.Area   `json:"area"`
}

// Cut gives the pieces, closed to a ring:
//
//	sewn  = base × fullness
//	width = drop + top and bottom margins
//	cut   = sewn + 2 s × pieces
func (g GatheredSkirt) Cut() (SkirtCut, error) {
	if err := check.Positives([]string{"base", "drop"}, g.Base, g.Drop); err != nil {
		return SkirtCut{}, err
	}
	if err := check.Ratio("fullness", g.Fullness, 1, mostFullness); err != nil {
		return SkirtCut{}, err
	}
	sewn, err := g.Base.Scale(g.Fullness, unit.Nearest)
	if err != nil {
		return SkirtCut{}, err
	}
	return ringSkirt(sewn, g.Drop, g.Top, g.Bottom, g.Seam, g.Longest)
}

// ringSkirt cuts a strip that is closed to a ring.
func ringSkirt(sewn, drop unit.Length, top, bottom allowance.Edge, seam allowance.Override, longest unit.Length) (SkirtCut, error) {
	mt, err := top.Resolve()
	if err != nil {
		return SkirtCut{}, unit.InField("top", err)
	}
	mb, err := bottom.Resolve()
	if err != nil {
		return SkirtCut{}, unit.InField("bottom", err)
	}
	def, _ := allowance.PlainSeam.Default()
	s, err := given(seam, "seam", def)
	if err != nil {
		return SkirtCut{}, err
	}
	out := SkirtCut{Sewn: sewn, Width: drop + mt.Total() + mb.Total()}
	n := int64(1)
	if longest != 0 {
		if err := check.Length("longest", longest, 2*s+unit.Millimetre, check.Longest); err != nil {
			return SkirtCut{}, err
		}
		if n = nano.CeilDiv(sewn, longest-2*s); n > mostPieces {
			return SkirtCut{}, check.Refuse("longest", longest.String(), unit.ErrRange, "goods that need 10000 pieces at most")
		}
	}
	out.Joins = int(n)
	lengths := share(sewn, int(n))
	for i := range lengths {
		lengths[i] += 2 * s
	}
	out.Pieces = grouped("skirt", out.Width, lengths)
	out.Area, err = stripsArea(out.Pieces)
	return out, err
}

func stripsArea(pieces []Strip) (unit.Area, error) {
	var sum unit.Area
	for _, p := range pieces {
		a, err := p.Area()
		if err != nil {
			return 0, unit.InField("area", err)
		}
		if sum, err = sum.Plus(a); err != nil {
			return 0, unit.InField("area", err)
		}
	}
	return sum, nil
}

// PleatedSkirt is a skirt pleated all round. The zero value is refused.
type PleatedSkirt struct {
	Pleats  Pleats             `json:"pleats"` // Finished is the length of the seam it hangs from
	Drop    unit.Length        `json:"drop"`   // finished depth
	Top     allowance.Edge     `json:"top,omitzero"`
	Bottom  allowance.Edge     `json:"bottom,omitzero"`
	Seam    allowance.Override `json:"seam,omitzero"`
	Longest unit.Length        `json:"longest,omitzero"`
}

// Cut gives the pieces, closed to a ring; see [GatheredSkirt.Cut]. Sewn is the
// flat length of the pleats. Shift the joins into a fold.
func (p PleatedSkirt) Cut() (SkirtCut, error) {
	flat, err := p.Pleats.Cloth()
	if err != nil {
		return SkirtCut{}, unit.InField("pleats", err)
	}
	if err := check.Positive("drop", p.Drop); err != nil {
		return SkirtCut{}, err
	}
	return ringSkirt(flat.Cloth, p.Drop, p.Top, p.Bottom, p.Seam, p.Longest)
}

// KickPleatSkirt is a plain tailored skirt with an inverted pleat at each
// corner: flat panels whose ends turn back behind a separate underlay. The
// zero value is refused.
type KickPleatSkirt struct {
	Sides []unit.Length `json:"sides"` // length of each panel between corners, 1 to 100
	Drop  unit.Length   `json:"drop"`  // finished depth
	// Return is how far each end of a panel turns back behind the corner, its
	// end turning included; 11 cm by default, 4 1/2 in where the sides are in inches,
	// common practice.
	Return allowance.Override `json:"return,omitzero"`
	// Underlay is the cut width of the piece behind each corner; twice the usual
	// return by default.
	Underlay allowance.Override `json:"underlay,omitzero"`
	// Open lets one corner open: its underlay is cut as two pieces instead of
	// one, one for each side of the opening (common practice).
	Open bool `json:"open,omitempty"`
	// Lined cuts the panels double, folded at the hem, instead of hemming them.
	Lined  bool           `json:"lined,omitempty"`
	Top    allowance.Edge `json:"top,omitzero"`
	Bottom allowance.Edge `json:"bottom,omitzero"` // of an unlined skirt
}

// kickReturn gives the usual return of a panel at a corner: 11 cm, or 4 1/2 in where
// the sides are in inches. The underlay is twice that.
func kickReturn(sides []unit.Length) unit.Length {
	for _, s := range sides {
		if s%(unit.Inch/64) != 0 {
			return 11 * unit.Centimetre
		}
	}
	return 9 * unit.Inch / 2
}

// Cut gives the pieces:
//
//	panel    = side + 2 returns, for each side
//	underlay = one for each corner, one more where a corner opens
//	depth    = drop + top and bottom margins
//	           lined: 2 (drop + top margin), folded at the bottom
//
// For a self-lined skirt with 12.5 mm seams the depth is the customary
// 2 drops + 2.5 cm.
func (k KickPleatSkirt) Cut() (SkirtCut, error) {
	if err := check.Count("sides", len(k.Sides), 1, 100); err != nil {
		return SkirtCut{}, err
	}
	if err := check.Positive("drop", k.Drop); err != nil {
		return SkirtCut{}, err
	}
	back, err := given(k.Return, "return", kickReturn(k.Sides))
	if err != nil {
		return SkirtCut{}, err
	}
	under, err := given(k.Underlay, "underlay", 2*kickReturn(k.Sides))
	if err != nil {
		return SkirtCut{}, err
	}
	top, err := k.Top.Resolve()
	if err != nil {
		return SkirtCut{}, unit.InField("top", err)
	}
	bottom, err := k.Bottom.Resolve()
	if err != nil {
		return SkirtCut{}, unit.InField("bottom", err)
	}
	var out SkirtCut
	if out.Width = k.Drop + top.Total() + bottom.Total(); k.Lined {
		out.Width = 2 * (k.Drop + top.Total())
	}
	var lengths []unit.Length
	for i, side := range k.Sides {
		if err := check.Positive("", side); err != nil {
			return SkirtCut{}, unit.InField(check.At("sides", i), err)
		}
		lengths = append(lengths, side+2*back)
		out.Sewn += side + 2*back
	}
	out.Pieces = grouped("skirt panel", out.Width, lengths)
	if under > 0 {
		n := len(k.Sides)
		if k.Open {
			n++
		}
		out.Pieces = append(out.Pieces, Strip{Use: "underlay", Count: n, Width: out.Width, Length: under})
	}
	out.Area, err = stripsArea(out.Pieces)
	return out, err
}

// CornerPleatLength gives the length of a skirt in one strip with an inverted
// pleat at each corner: base + corners × piece. A piece of 8 in at each of
// four corners, base + 32 in, is common practice. Corners are 0 to 1000.
func CornerPleatLength(base unit.Length, corners int, piece unit.Length) (unit.Length, error) {
	if err := check.Positive("base", base); err != nil {
		return 0, err
	}
	if err := check.Count("corners", corners, 0, 1000); err != nil {
		return 0, err
	}
	if err := check.NotNegative("piece", piece); err != nil {
		return 0, err
	}
	more, err := piece.Times(corners)
	if err != nil {
		return 0, err
	}
	return base.Plus(more)
}
