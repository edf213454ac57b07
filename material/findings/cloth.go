package findings

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var clothTurn = one("dust cover", "turn", unit.Inch, cite.Practice("on the outer size, each side"))

var clothLengths = []Figure[unit.Length]{
	clothTurn,
	one("burlap", "roll width", 40*unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter II")),
	one("burlap", "rail", unit.Inch, cite.Practice("what lies on the rail, each side")),
	one("burlap", "turn", unit.Inch, cite.Practice("what is folded over, each side")),
	{"burlap", "roll", 0, 50 * unit.Yard, 100 * unit.Yard, cite.Practice("")},
	one("dust cover", "roll width", 36*unit.Inch, cite.Practice("now")),
	one("dust cover", "roll width of old", 24*unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "cambric")),
	{"dust cover", "roll", 0, 50 * unit.Yard, 250 * unit.Yard, cite.Practice("")},
	one("muslin", "roll width", 36*unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "")),
	one("decking", "roll width", 54*unit.Inch, cite.Practice("cut as the cover")),
	{"decking", "from the front edge", 0, 5 * unit.Inch, 8 * unit.Inch, cite.Practice("where cover goods end")},
	{"interliner", "roll width", 0, 54 * unit.Inch, 60 * unit.Inch, cite.Practice("")},
	one("underlining", "roll width", 54*unit.Inch, cite.Practice("of loose weaves")),
	one("underlining", "added to each piece", unit.Inch, cite.Practice("")),
	one("cardboard", "thick", unit.Inch/16, cite.Practice("hollow outside arms and backs")),
	{"cardboard", "roll width", 0, 36 * unit.Inch, 54 * unit.Inch, cite.Practice("or sheets")},
}

// Sheet is a flat cloth under a piece: dust cover, burlap, slip film. The zero
// value is refused.
type Sheet struct {
	Width unit.Length `json:"width"` // of the opening or the face
	Depth unit.Length `json:"depth"`
	Rail  unit.Length `json:"rail,omitzero"` // what lies on the rail, each side: 1 in for burlap, nothing for a dust cover
	// Turn is added on every edge to fold under and staple; zero takes 1 in.
	Turn unit.Length `json:"turn,omitzero"`
	Rise unit.Length `json:"rise,omitzero"` // of coil springs above the rails; zero where it lies flat
}

// SheetCut is a flat cloth as it is cut.
type SheetCut struct {
	Width unit.Length `json:"width"`
	Depth unit.Length `json:"depth"`
	Basis cite.Basis  `json:"basis"`
}

// Cut gives the cloth to cut, each way:
//
//	face + 2 (rail + turn) + 2 rise
//
// Errors name the field and wrap unit.ErrRange or unit.ErrForgottenUnit.
func (s Sheet) Cut() (SheetCut, error) {
	var on founded
	turn := or(&on, s.Turn, clothTurn)
	if err := check.Positives([]string{"width", "depth", "turn"}, s.Width, s.Depth, turn); err != nil {
		return SheetCut{}, err
	}
	if err := all(within{"rail", s.Rail, 0, unit.Metre}, within{"rise", s.Rise, 0, unit.Metre}); err != nil {
		return SheetCut{}, err
	}
	more := 2 * (s.Rail + turn + s.Rise)
	return SheetCut{Width: s.Width + more, Depth: s.Depth + more, Basis: on.by("an inch on every edge to fold under, if not given")}, nil
}

// Cloth is pieces of a plain cloth off one roll: burlap, muslin, decking, dust
// cover, interliner, wrap. The zero value is refused.
type Cloth struct {
	Roll   unit.Length  `json:"roll"` // usable width, 10 mm to 10 m
	Pieces []ClothPiece `json:"pieces"`
}

// ClothPiece is one size of a cloth.
type ClothPiece struct {
	Width  unit.Length `json:"width"`          // across the roll
	Length unit.Length `json:"length"`         // along the roll
	Count  int         `json:"count,omitzero"` // zero takes 1
}

// ClothPlan is the cloth in rows across the roll.
type ClothPlan struct {
	Rows   int         `json:"rows"`
	Length unit.Length `json:"length"`           // of all rows
	Turned int         `json:"turned,omitempty"` // pieces that are turned, as they are wider than the roll
}

// Plan lays the pieces side by side in rows, the longest first, each in the
// first row that has room for it:
//
//	length = sum of rows
//
// A piece wider than the roll is turned; one that is too large both ways is
// refused: join it. Package layout finds shorter plans. At most 10 000 pieces,
// to 100 m. Errors name the field and wrap unit.ErrRequired, unit.ErrRange or
// unit.ErrForgottenUnit.
func (c Cloth) Plan() (ClothPlan, error) {
	if err := check.Length("roll", c.Roll, unit.Centimetre, widest); err != nil {
		return ClothPlan{}, err
	}
	if len(c.Pieces) == 0 {
		return ClothPlan{}, check.Required("pieces", "at least one piece")
	}
	var p ClothPlan
	var laid []ClothPiece
	for i, x := range c.Pieces {
		if x.Count == 0 {
			x.Count = 1
		}
		turn, err := x.lies(c.Roll, mostRuns-len(laid))
		if err != nil {
			return ClothPlan{}, unit.InField(fmt.Sprintf("pieces[%d]", i), err)
		}
		if turn {
			x.Width, x.Length = x.Length, x.Width
			p.Turned += x.Count
		}
		laid = append(laid, slices.Repeat([]ClothPiece{x}, x.Count)...)
	}
	slices.SortStableFunc(laid, func(a, b ClothPiece) int { return cmp.Compare(b.Length, a.Length) })
	var free []unit.Length // what each row has left
	for _, x := range laid {
		k := slices.IndexFunc(free, func(f unit.Length) bool { return x.Width <= f })
		if k < 0 {
			k = len(free)
			free = append(free, c.Roll)
			p.Length += x.Length
		}
		free[k] -= x.Width
	}
	p.Rows = len(free)
	return p, nil
}

// lies tells whether a piece must be turned to lie on the roll.
func (x ClothPiece) lies(roll unit.Length, most int) (turn bool, err error) {
	if err := all(within{"width", x.Width, unit.Millimetre, longest}, within{"length", x.Length, unit.Millimetre, longest}); err != nil {
		return false, err
	}
	if err := check.Count("count", x.Count, 1, most); err != nil {
		return false, err
	}
	if x.Width > roll && x.Length > roll {
		return false, check.Refuse("width", x.Width.String(), unit.ErrRange, "at most the roll, "+roll.String()+", one way or the other")
	}
	return x.Width > roll, nil
}
