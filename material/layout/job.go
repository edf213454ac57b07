package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Job is goods and the pieces to cut from them: a roll or hides, never both.
// The zero value is refused.
type Job struct {
	Roll   *material.Roll `json:"roll,omitempty"`
	Shades []Shade        `json:"shades,omitempty"` // of a roll; pieces name them by number, the first is 1
	Hides  *Hides         `json:"hides,omitempty"`
	Pieces []Piece        `json:"pieces"`
	// Gap is kept between pieces, for the knife; zero for none, at most 100 mm.
	Gap unit.Length `json:"gap,omitzero"`
}

// Hides are the leather of a job. Those at hand cost nothing more: nothing is
// bought that they can spare, and they are used before those on offer.
type Hides struct {
	AtHand  []material.Skin `json:"at_hand,omitempty"`
	OnOffer []material.Skin `json:"on_offer,omitempty"`
	// Usual is a hide to buy as often as the others do not suffice: a kind and
	// an area. The zero value adds none.
	Usual material.Skin `json:"usual,omitzero"`
}

// Shade is a group of pieces that must be cut from neighbouring places of a
// roll, for an even shade or matched seats.
type Shade struct {
	Window unit.Length `json:"window"` // all pieces of the group lie within this length of the roll
}

// Piece is one thing to cut, Count times. The zero value is refused.
type Piece struct {
	Name    string        `json:"name,omitempty"`
	Outline shape.Outline `json:"outline"` // the cut line, Y up the pattern or to the neck
	Count   int           `json:"count"`   // at least 1
	Hand    Hand          `json:"hand,omitzero"`

	// What counts on a roll.

	Turn  Turn  `json:"turn,omitzero"`
	Phase Phase `json:"phase,omitzero"`
	// Shade is the number of the group in Job.Shades; zero is none.
	Shade int `json:"shade,omitzero"`
	// Join lets a rectangle, such as boxing, be joined from shorter ones; nil
	// does not. A piece that may be joined has no shade. On goods with a pattern
	// one with an Unbound phase is joined as serves the layout, and its joins do
	// not match; any other is joined so that the pattern runs on, see Piecing.
	Join *Piecing `json:"join,omitempty"`

	// What counts on hides; without it a piece lies as drawn, on prime leather
	// without a mark.

	Grain Grain `json:"grain,omitzero"`
	// Least is the poorest grade the piece may lie on.
	Least material.Grade `json:"least,omitzero"`
	// Worst is the worst mark that may lie on the piece; ThroughMark is never
	// allowed.
	Worst material.Severity `json:"worst,omitzero"`
	// Stretch is the wished direction of stretch; nil for none.
	Stretch *StretchWish `json:"stretch,omitempty"`
}

// Piecing says how a piece may be joined from segments. One that is too wide for the
// goods has no more than the fewest equal parts that fit; one that fits is whole,
// unless it is its length that is divided.
//
// A piece that lies on the pattern is whole where its motif leaves room across
// the goods. Else it has a centre as wide as the motif allows, and to each side of it
// as few segments as can be, left and right alike, each on the part of the
// pattern that follows at the join. Of several points that may lie on a motif,
// and of several turns, that with the fewest joins counts, then the widest
// centre. Such a piece needs at least two joins, and is bound both ways. Up the roll it
// is not divided.
type Piecing struct {
	// AlongWidth divides the width; otherwise the length is divided.
	AlongWidth bool        `json:"along_width,omitempty"`
	Allowance  unit.Length `json:"allowance"` // added to both segments at a join
	Least      unit.Length `json:"least"`     // least finished length of a segment
	Most       int         `json:"most"`      // most joins in a piece, 1 to 64
}

// Turn says how a piece may lie on a roll: [KeepGrain], [HalfTurn] or
// [Railroad]. The zero value keeps the grain.
type Turn uint8

const (
	// KeepGrain keeps the top of the piece where the top of the pattern is: up the
	// roll, or sideways on goods that run so.
	KeepGrain Turn = iota
	// HalfTurn lets the piece lie upside down too, where the goods have no
	// nap and no motifs with a top.
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

// The largest numbers of pieces, copies counted, in one job.
const (
	MostPieces    = 10_000 // on a roll
	MostOnHides   = 2000   // on hides
	mostNested    = 2000   // outlines nested on a roll; beyond, their boxes are laid
	mostGap       = 100 * unit.Millimetre
	longestOnRoll = 100 * unit.Metre
)

// check gives what is wrong with a job before any work.
func (j Job) check() error {
	switch {
	case j.Roll == nil && j.Hides == nil:
		return check.Required("roll", "a roll, or hides")
	case j.Roll != nil && j.Hides != nil:
		return check.Refuse("hides", "", unit.ErrRange, "no hides beside a roll")
	case j.Hides != nil && len(j.Shades) > 0:
		return check.Refuse("shades", fmt.Sprint(len(j.Shades)), unit.ErrRange, "no shade groups on hides")
	case len(j.Pieces) == 0:
		return check.Required("pieces", "at least one piece")
	}
	if err := check.Length("gap", j.Gap, 0, mostGap); err != nil {
		return err
	}
	most := MostPieces
	if j.Roll != nil {
		if err := j.Roll.Check(); err != nil {
			return err
		}
	} else {
		most = MostOnHides
	}
	if err := check.Count("shades", len(j.Shades), 0, MostPieces); err != nil {
		return err
	}
	for i, s := range j.Shades {
		if err := check.Length(check.At("shades", i)+".window", s.Window, unit.Millimetre, check.Longest); err != nil {
			return err
		}
	}
	total := 0
	for i, p := range j.Pieces {
		at := check.At("pieces", i)
		if err := p.check(j, most); err != nil {
			return unit.InField(at, err)
		}
		if total += p.Count; total > most {
			return check.Refuse(at+".count", fmt.Sprint(p.Count), ErrTooMany, fmt.Sprintf("at most %d pieces in all", most))
		}
	}
	return nil
}

func (p Piece) check(j Job, most int) error {
	if p.Outline.IsZero() {
		return check.Required("outline", "an outline")
	}
	if err := check.Count("count", p.Count, 1, most); err != nil {
		return err
	}
	if err := enum.Check(p.Turn, "turn", turnNames); err != nil {
		return err
	}
	if err := enum.Check(p.Hand, "hand", handNames); err != nil {
		return err
	}
	if err := p.Phase.check(); err != nil {
		return unit.InField("phase", err)
	}
	if j.Hides != nil {
		return p.checkOnHides()
	}
	return p.checkOnRoll(j)
}

func (p Piece) checkOnRoll(j Job) error {
	w, h := p.Outline.Size()
	if err := check.Length("width", w, unit.Millimetre, longestOnRoll); err != nil {
		return err
	}
	if err := check.Length("length", h, unit.Millimetre, longestOnRoll); err != nil {
		return err
	}
	if p.Hand == EitherHand {
		return check.Refuse("hand", p.Hand.String(), ErrNotLaid, "as drawn or paired, on a roll")
	}
	if err := check.Count("shade", p.Shade, 0, len(j.Shades)); err != nil {
		return err
	}
	if p.Join != nil {
		if err := p.checkJoin(w, h); err != nil {
			return err
		}
	}
	if !p.fits(*j.Roll) {
		field, across := "width", w
		if j.Roll.Up.Sideways() {
			field, across = "length", h
		}
		return check.Refuse(field, across.String(), ErrTooWide, fmt.Sprintf("at most the usable width of %v", j.Roll.Usable()))
	}
	if !p.Phase.held(p.angles(*j.Roll)) {
		return check.Refuse("phase.spots", fmt.Sprint(len(p.Phase.Spots)), unit.ErrRange, "a point that counts at a turn which the piece may take")
	}
	return nil
}

func (p Piece) checkJoin(w, h unit.Length) error {
	j := p.Join
	long := h
	if j.AlongWidth {
		long = w
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
	switch {
	case p.Shade != 0:
		return check.Refuse("join", "", unit.ErrRange, "no shade group beside it")
	case !rectangular(p.Outline):
		return check.Refuse("join", "", ErrNotLaid, "a rectangle; other outlines are not joined")
	}
	return nil
}

func (p Piece) checkOnHides() error {
	switch {
	case p.Shade != 0:
		return check.Refuse("shade", fmt.Sprint(p.Shade), unit.ErrRange, "no shade group on hides")
	case p.Join != nil:
		return check.Refuse("join", "", ErrNotLaid, "no join on hides")
	}
	if err := p.Grain.check(); err != nil {
		return unit.InField("grain", err)
	}
	if p.Least > material.RoughGrade {
		return check.Refuse("least", fmt.Sprint(uint8(p.Least)), unit.ErrUnknown, "a grade")
	}
	if p.Worst >= material.ThroughMark {
		return check.Refuse("worst", p.Worst.String(), unit.ErrRange, "deep at most: nothing lies on holes")
	}
	if w := p.Stretch; w != nil {
		if err := check.Angle("stretch.axis", w.Axis); err != nil {
			return err
		}
		if err := w.Tolerance.Check(); err != nil {
			return unit.InField("stretch.tolerance", err)
		}
		return check.Between("stretch.tolerance", w.Tolerance, 0, 90)
	}
	return nil
}

// matched tells whether the piece must lie on the repeat.
func (p Piece) matched(r material.Roll) bool {
	return r.Patterned() && p.Phase.Axes != Unbound && (p.Phase.across(r) || p.Phase.along(r))
}

// fits tells whether the piece can lie across the usable width of a roll in
// any direction it may be turned.
func (p Piece) fits(roll material.Roll) bool {
	w, h := p.Outline.Size()
	return p.Turn.Fits(roll, w, h) || p.Join != nil && p.Join.AlongWidth != roll.Up.Sideways()
}

// Fits tells whether a piece of some size can lie across the usable width of a
// roll in any direction that turn allows.
func (t Turn) Fits(roll material.Roll, width, length unit.Length) bool {
	if roll.Up.Sideways() {
		width, length = length, width
	}
	return width <= roll.Usable() || t.quarter(roll) && length <= roll.Usable()
}

func (t Turn) quarter(r material.Roll) bool { return t == Railroad && !r.Directed() && !r.Patterned() }

// mayQuarter tells whether the piece may be railroaded.
func (p Piece) mayQuarter(r material.Roll) bool { return p.Turn.quarter(r) }

// rectangular tells whether an outline is the box round it.
func rectangular(o shape.Outline) bool {
	pts, err := o.Flatten(10 * unit.Micrometre)
	if err != nil {
		return false
	}
	ring := gridRing(pts)
	b := ring.Bounds()
	return len(ring) == 4 && ring.TwiceArea().Cmp(b.Ring().TwiceArea()) == 0
}
