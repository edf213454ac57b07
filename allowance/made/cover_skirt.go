package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
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
	Sides  []unit.Length  `json:"sides"` // of the seam it hangs from, above zero
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
}

func (s Skirt) base() (unit.Length, error) {
	if len(s.Sides) == 0 {
		return 0, check.Required("sides", "the length of each side")
	}
	var base unit.Length
	for i, l := range s.Sides {
		if err := check.Positive(check.At("sides", i), l); err != nil {
			return 0, err
		}
		var err error
		if base, err = base.Plus(l); err != nil {
			return 0, unit.InField("sides", err)
		}
	}
	return base, nil
}

func (s Skirt) cut(g Goods, base unit.Length) (SkirtCut, error) {
	switch s.Kind {
	case Gathered:
		cut, err := GatheredSkirt{Base: base, Drop: s.Drop, Fullness: s.Fullness, Top: s.Top, Bottom: s.Bottom, Longest: g.Longest}.Cut()
		return cut, check.Renamed(err, map[string]string{"base": "sides", "longest": "goods"})
	case PleatedAllRound:
		cut, err := PleatedSkirt{Pleats: Pleats{Kind: s.Pleat, Finished: base, Count: s.Pleats, Underfold: s.Underfold},
			Drop: s.Drop, Top: s.Top, Bottom: s.Bottom, Longest: g.Longest}.Cut()
		err = check.Inner(err, "pleats") // what is left is a field of Pleats
		return cut, check.Renamed(err, map[string]string{"finished": "sides", "count": "pleats", "kind": "pleat", "longest": "goods"})
	case KickPleats:
		return KickPleatSkirt{Sides: s.Sides, Drop: s.Drop, Lined: s.Lined, Top: s.Top, Bottom: s.Bottom}.Cut()
	}
	return SkirtCut{}, check.OneOf("kind", s.Kind.String(), skirtNames[1:]...)
}

// Cover gives the pieces of the skirt, closed to a ring. Its row is its joins,
// its hem and half of the seam it hangs from. Errors are those of the skirts'
// own Cut, with the fields of this type.
func (s Skirt) Cover(g Goods) (allowance.Cover, error) {
	base, err := s.base()
	if err != nil {
		return allowance.Cover{}, err
	}
	cut, err := s.cut(g, base)
	if err != nil {
		return allowance.Cover{}, err
	}
	var c allowance.Cover
	for _, piece := range cut.Pieces {
		piece = within(piece, g.Longest)
		p, err := upright(piece.Use, g, piece.Count, piece.Length, piece.Width)
		if err != nil {
			return allowance.Cover{}, err
		}
		c.Panels = append(c.Panels, p)
	}
	sewn := unit.Length(cut.Joins)*cut.Width + cut.Sewn + base/2
	c.Rows = []allowance.CoverRow{allowance.RowOn("", g.ID, sewn, allowance.SeamLayers)}
	return c, nil
}
