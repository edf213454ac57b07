package layout

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Turn says how a piece may lie on the goods: [KeepGrain], [HalfTurn] or
// [Railroad]. The zero value keeps the grain.
type Turn uint8

const (
	// KeepGrain keeps the top of the piece up the roll.
	KeepGrain Turn = iota
	// HalfTurn lets the piece lie upside down too, where the goods have no
	// nap.
	HalfTurn
	// Railroad lets the piece be railroaded too, where the goods have
	// neither nap nor repeat.
	Railroad
)

var turnNames = []string{"keep the grain", "half turn", "railroad"}

// String gives the name.
func (t Turn) String() string { return enum.Name(t, "turn", turnNames) }

// MarshalText writes the name; an unknown turn wraps unit.ErrUnknown.
func (t Turn) MarshalText() ([]byte, error) { return enum.Text(t, "turn", turnNames) }

// UnmarshalText reads a name as String writes it.
func (t *Turn) UnmarshalText(text []byte) error { return enum.Read(t, text, "turn", turnNames) }

// Box is a rectangle to cut, or the box around a panel: Count pieces of
// Width across the roll by Length along it.
type Box struct {
	Name   string      `json:"name,omitempty"`
	Width  unit.Length `json:"width"`
	Length unit.Length `json:"length"`
	Count  int         `json:"count"` // at least 1
	Turn   Turn        `json:"turn,omitzero"`
	// Unmatched says that the piece need not lie on the repeat: welt strips,
	// hidden bands. It means nothing on plain goods.
	Unmatched bool `json:"unmatched,omitempty"`
	// MotifX and MotifY are the point of the piece, from its lower left
	// corner, that must lie on a motif: its middle, for a motif in the middle.
	MotifX unit.Length `json:"motif_x,omitzero"`
	MotifY unit.Length `json:"motif_y,omitzero"`
	// Shade groups pieces that must be cut from neighbouring places: all of a
	// group within Window of BoxOptions.Shades. Groups count from 1; zero is none.
	Shade int `json:"shade,omitzero"`
	// Join lets a long piece, such as boxing, be joined from shorter ones; nil
	// does not. Not together with a motif or a shade.
	Join *Piecing `json:"join,omitempty"`
}

// Piecing says how a piece may be joined from segments.
type Piecing struct {
	// AlongWidth divides the width; otherwise the length is divided.
	AlongWidth bool        `json:"along_width,omitempty"`
	Allowance  unit.Length `json:"allowance"` // added to both segments at a join
	Least      unit.Length `json:"least"`     // least finished length of a segment
	Most       int         `json:"most"`      // most joins in a piece, 1 to 64
}

// MostBoxes is the largest number of pieces, copies counted, in one layout.
const MostBoxes = 10_000

func (p Box) check() error {
	if err := check.Length("width", p.Width, unit.Millimetre, 100*unit.Metre); err != nil {
		return err
	}
	if err := check.Length("length", p.Length, unit.Millimetre, 100*unit.Metre); err != nil {
		return err
	}
	if err := enum.Check(p.Turn, "turn", turnNames); err != nil {
		return err
	}
	if err := check.Length("motif_x", p.MotifX, 0, p.Width); err != nil {
		return err
	}
	if err := check.Length("motif_y", p.MotifY, 0, p.Length); err != nil {
		return err
	}
	if j := p.Join; j != nil {
		long := p.Length
		if j.AlongWidth {
			long = p.Width
		}
		if err := check.Length("join.allowance", j.Allowance, 0, unit.Metre); err != nil {
			return err
		}
		if err := check.Length("join.least", j.Least, unit.Millimetre, long); err != nil {
			return err
		}
		if err := check.Count("join.most", j.Most, 1, 64); err != nil {
			return err
		}
		if p.Shade != 0 || p.MotifX != 0 || p.MotifY != 0 {
			return check.Refuse("join", "", unit.ErrRange, "no motif and no shade group beside it")
		}
	}
	return check.Count("count", p.Count, 1, MostBoxes)
}

// matched tells whether the piece must lie on the repeat.
func (p Box) matched(r material.Roll) bool { return r.Patterned() && !p.Unmatched && p.Join == nil }

// Fits tells whether the piece can lie across the usable width of a roll in
// any direction it may be turned.
func (p Box) Fits(roll material.Roll) bool {
	return p.Width <= roll.Usable() || p.mayQuarter(roll) && p.Length <= roll.Usable() || p.Join != nil && p.Join.AlongWidth
}

// mayQuarter tells whether the piece may be railroaded.
func (p Box) mayQuarter(r material.Roll) bool {
	return p.Turn == Railroad && !r.Nap && !r.Patterned()
}

// drawn gives the part of a flaw on a length of the roll, with its width.
func drawn(f material.Flaw, r material.Roll, long unit.Length) (material.Flaw, bool) {
	f.Width, f.Length = f.Across(r), min(f.Length, long-f.Y)
	return f, f.Length > 0 && f.Width > 0
}
