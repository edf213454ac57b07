package material

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Stock is one length of goods at hand: cloth of the shop, a customer's own, or what
// another job left. The zero value is refused.
//
// Hides at hand are skins with an outline; see [Skin].
type Stock struct {
	// Roll is what the goods are, with the width that they have; the increment of
	// the seller means nothing here.
	Roll   Roll        `json:"roll"`
	Length unit.Length `json:"length"` // along the roll, as measured; above zero and at most 1 km
}

// Check gives nil for goods that a layout accepts, else an error that names the field
// and wraps unit.ErrRange, unit.ErrNotFinite or unit.ErrForgottenUnit.
func (s Stock) Check() error {
	if err := s.Roll.Check(); err != nil {
		return err
	}
	return check.Positive("length", s.Length)
}

// Supply is whether goods at hand suffice: [Enough], [Tight] or [Lacking]. The zero
// value is no answer.
type Supply uint8

const (
	// Enough has room for the layout and for the working margin.
	Enough Supply = iota + 1
	// Tight has room for the layout, but not for all of the margin: it goes if no
	// flaw turns up and the ends are square.
	Tight
	// Lacking has no room for the layout.
	Lacking
)

var supplyNames = []string{"", "enough", "tight", "lacking"}

// String gives the name, such as "tight"; "none" for the zero value.
func (s Supply) String() string {
	if s == 0 {
		return "none"
	}
	return enum.Name(s, "supply", supplyNames)
}

// MarshalText writes the name, nothing for the zero value; an unknown one wraps
// unit.ErrUnknown.
func (s Supply) MarshalText() ([]byte, error) { return enum.Text(s, "supply", supplyNames) }

// UnmarshalText reads what MarshalText writes.
func (s *Supply) UnmarshalText(text []byte) error {
	return enum.Read(s, text, "supply", supplyNames)
}

// Sufficiency is whether goods at hand suffice, and by how much.
type Sufficiency struct {
	Supply Supply      `json:"supply"`
	Layout unit.Length `json:"layout"` // what the layout takes of the goods
	Wanted unit.Length `json:"wanted"` // that and the margin
	// Left is what is over of the length at hand when the layout is cut; nothing
	// where it is lacking.
	Left unit.Length `json:"left"`
	// ShortOfMargin is what the length at hand is shorter than Wanted, and Short what
	// it is shorter than Layout.
	ShortOfMargin unit.Length `json:"short_of_margin"`
	Short         unit.Length `json:"short"`
}

// Suffices tells whether the goods have room for a layout on their own width that needs
// N of their length, with R spare for the start of the bolt and a margin M:
//
//	layout = (N + R) / (1 - s),   wanted = (N + M + R) / (1 - s)
//	enough when the length is at least wanted, tight when at least layout, else lacking
//
// with s the shrinkage of the goods; each is rounded up to a whole nanometre. Nothing is
// rounded to an increment, so that goods at hand never have to be longer than what would
// be bought. Errors are those of Check and of Roll.OrderWith.
func (s Stock) Suffices(need, spare unit.Length, m WorkingMargin) (Sufficiency, error) {
	if err := s.Check(); err != nil {
		return Sufficiency{}, err
	}
	with, err := s.Roll.gross(need, spare, m)
	if err != nil {
		return Sufficiency{}, err
	}
	bare, err := s.Roll.gross(need, spare, WorkingMargin{})
	if err != nil {
		return Sufficiency{}, err
	}
	out := Sufficiency{Supply: Enough, Layout: bare.Gross, Wanted: with.Gross, Left: max(s.Length-bare.Gross, 0),
		ShortOfMargin: max(with.Gross-s.Length, 0), Short: max(bare.Gross-s.Length, 0)}
	switch {
	case out.Short > 0:
		out.Supply = Lacking
	case out.ShortOfMargin > 0:
		out.Supply = Tight
	}
	return out, nil
}

// Part gives a clear rectangle of the goods as goods of their own, Width across and
// Length along from a place of its lower left corner on the usable width: without
// selvage, increment and flaws, with the pattern where it then lies. X and Y are from
// zero, sizes as of a roll; X and width within the usable width, Y and length within the
// length. Errors are those of Check, or wrap unit.ErrRange.
func (s Stock) Part(x, y, width, length unit.Length) (Stock, error) {
	if err := s.Check(); err != nil {
		return Stock{}, err
	}
	r := s.Roll
	if err := check.Length("x", x, 0, r.Usable()); err != nil {
		return Stock{}, err
	}
	if err := check.Length("y", y, 0, s.Length); err != nil {
		return Stock{}, err
	}
	if err := check.Length("width", width, unit.Millimetre, r.Usable()-x); err != nil {
		return Stock{}, err
	}
	if err := check.Length("length", length, unit.Millimetre, s.Length-y); err != nil {
		return Stock{}, err
	}
	m := r.Motifs()
	r.Width, r.Selvage, r.Increment, r.Flaws = width, 0, 0, nil
	r.First = m.After(x, y)
	if r.UnknownStart {
		r.First.Y = 0
	}
	out := Stock{Roll: r, Length: length}
	return out, out.Check()
}
