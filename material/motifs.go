package material

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Up is where the top of a pattern, or of a nap, points on the roll: [UpTheRoll],
// [UpToLeft] or [UpToRight]. The zero value is up the roll.
type Up uint8

const (
	// UpTheRoll is away from the end that is cut first.
	UpTheRoll Up = iota
	// UpToLeft is to the left edge: goods that are railroaded.
	UpToLeft
	// UpToRight is to the right edge: goods that are railroaded the other way.
	UpToRight
)

var upNames = []string{"up the roll", "to the left edge", "to the right edge"}

// String gives the name.
func (u Up) String() string { return enum.Name(u, "up", upNames) }

// MarshalText writes the name; an unknown one wraps unit.ErrUnknown.
func (u Up) MarshalText() ([]byte, error) { return enum.Text(u, "up", upNames) }

// UnmarshalText reads a name as String writes it.
func (u *Up) UnmarshalText(text []byte) error { return enum.Read(u, text, "up", upNames) }

// Sideways tells whether the goods run sideways: pieces lie on their side.
func (u Up) Sideways() bool { return u == UpToLeft || u == UpToRight }

// Motifs are the places of the motifs on a roll: those of column i lie at
//
//	X = First.X + i Across,   Y = First.Y + j Along + Rise(i)     for all whole i and j
//
// An Across or Along of zero means that the pattern does not change that way.
type Motifs struct {
	First  shape.Point `json:"first"`
	Across unit.Length `json:"across,omitzero"`
	Along  unit.Length `json:"along,omitzero"`
	Drop   Drop        `json:"drop,omitzero"` // of the next column to the right, as a part of Along
}

// Rise gives how much further along the roll the motifs of a column lie than
// those of column 0, by less than Along: with the drop Num/Den
//
//	floor((column mod Den) x (Den - Num) x Along / Den), less whole Along
//
// Zero without a drop, or with one that Roll.Check refuses.
func (m Motifs) Rise(column int) unit.Length {
	num, den := int64(m.Drop.Num), int64(m.Drop.Den)
	if num <= 0 || den <= num || den > finestDrop || m.Along <= 0 || m.Along > mostLevel {
		return 0
	}
	c := (int64(column)%den + den) % den
	return unit.Length(c * (den - num) % den * int64(m.Along) / den)
}

// columnStep is the grid of columns whose distance does not go up evenly.
const columnStep = 125 * unit.Nanometre

// mostLevel is the largest distance of motifs at one height: 64 columns of 3 m.
const mostLevel = finestDrop * 3 * unit.Metre

// part gives l/n: exactly where that goes up, else to the nearest eighth of a
// micrometre.
func part(l unit.Length, n int) unit.Length {
	if n < 2 || l%unit.Length(n) == 0 {
		return l / max(unit.Length(n), 1)
	}
	step := unit.Length(n) * columnStep
	return (l + step/2) / step * columnStep
}

// Columns gives the distance from one column of motifs to the next as it is seen
// on the furniture: Across, or AcrossLevel through the columns of the drop, to
// the nearest eighth of a micrometre where that does not go up.
func (r Roll) Columns() unit.Length {
	if r.Across != 0 || r.Drop.Den < 2 {
		return r.Across
	}
	return part(r.AcrossLevel, r.Drop.Den)
}

// Patterned tells whether the goods have a repeat.
func (r Roll) Patterned() bool { return r.Repeat != 0 || r.Across != 0 || r.AcrossLevel != 0 }

// Directed tells whether no piece may be turned upside down.
func (r Roll) Directed() bool { return r.Nap || r.OneWay }

// Motifs gives where the motifs lie on the roll. On goods that run sideways the
// vertical repeat R lies across the roll and the horizontal one H along it; with
// a drop of p/q there they lie in columns R/q apart, each q H along, and
// neighbours differ by as many H as times p leave 1 over whole q.
func (r Roll) Motifs() Motifs {
	m := Motifs{First: r.First, Across: r.Columns(), Along: r.Repeat, Drop: r.Drop}
	if !r.Up.Sideways() {
		return m
	}
	m.Across, m.Along = m.Along, m.Across
	if p, q := r.Drop.Num, r.Drop.Den; p > 0 && p < q && q <= finestDrop {
		for d := gcd(p, q); d > 1; d = 1 {
			p, q = p/d, q/d
		}
		rise := 1
		for rise*p%q != 1 && rise < q {
			rise++
		}
		m.Across, m.Along, m.Drop = part(m.Across, q), m.Along*unit.Length(q), Drop{q - rise, q}
	}
	return m
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// After gives the first motif along the roll of those that lie to the right of a place
// and beyond it, or on it, seen from it; of several at one height the nearest. Both are
// zero in a direction in which the pattern does not change, and where less than 10
// micrometres are left: columns are rounded. X and Y are within 1 km.
func (m Motifs) After(x, y unit.Length) shape.Point {
	columns, from := 1, 0
	if m.Across > 0 {
		if m.Drop.Den <= finestDrop {
			columns = max(m.Drop.Den, 1)
		}
		from = int(up(x-m.First.X, m.Across))
	}
	var best shape.Point
	for i := from; i < from+columns; i++ {
		var p shape.Point
		if m.Across > 0 {
			p.X = m.First.X + unit.Length(i)*m.Across - x
		}
		if m.Along > 0 {
			p.Y = m.First.Y + m.Rise(i) - y
			p.Y += up(-p.Y, m.Along) * m.Along
		}
		if i == from || p.Y < best.Y {
			best = p
		}
	}
	for _, l := range []*unit.Length{&best.X, &best.Y} {
		if l.Forgotten() {
			*l = 0
		}
	}
	return best
}

// up gives l / of rounded up to a whole number.
func up(l, of unit.Length) unit.Length {
	n := l / of
	if l%of > 0 {
		n++
	}
	return n
}

// checkPattern gives what is wrong with how the pattern lies.
func (r Roll) checkPattern() error {
	if err := enum.Check(r.Up, "roll.up", upNames); err != nil {
		return err
	}
	if err := check.Length("roll.across_level", r.AcrossLevel, 0, mostLevel); err != nil {
		return err
	}
	if r.AcrossLevel != 0 {
		switch {
		case r.Across != 0:
			return check.Refuse("roll.across_level", r.AcrossLevel.String(), unit.ErrRange, "the one distance or the other, not both")
		case r.Drop == (Drop{}):
			return check.Refuse("roll.across_level", r.AcrossLevel.String(), unit.ErrRange, "a pattern that drops; else it is the same as across")
		}
	}
	if r.Drop != (Drop{}) {
		if r.Repeat == 0 || r.Across == 0 && r.AcrossLevel == 0 {
			return check.Refuse("roll.drop", "", unit.ErrRequired, "both repeats, which a drop needs")
		}
		if err := r.Drop.check(); err != nil {
			return unit.InField("roll.drop", err)
		}
		if r.Columns() > 3*unit.Metre || r.Columns() < unit.Micrometre {
			return check.Refuse("roll.across_level", r.AcrossLevel.String(), unit.ErrRange, fmt.Sprintf("a distance of columns up to %v", 3*unit.Metre))
		}
	}
	for _, v := range []unit.Length{r.First.X, r.First.Y} {
		if err := check.Length("roll.first", v, 0, 10*unit.Metre); err != nil {
			return err
		}
	}
	if r.UnknownStart && r.First.Y != 0 {
		return check.Refuse("roll.first", r.First.Y.String()+" along", unit.ErrRange, "zero along the roll where the start of the bolt is not known")
	}
	return nil
}

// Apart gives how far two points on the goods are from showing the same, where d is
// from the one to the other: the shortest way that is left over whole repeats, with
// nothing in a direction in which the pattern does not change.
func (m Motifs) Apart(d shape.Point) shape.Point {
	least := func(v, period unit.Length) unit.Length {
		if period <= 0 {
			return 0
		}
		v = (v%period + period) % period
		if 2*v > period {
			v -= period
		}
		return v
	}
	columns := 1
	if m.Across > 0 && m.Along > 0 && m.Drop.Den > 1 && m.Drop.Den <= finestDrop {
		columns = m.Drop.Den
	}
	var best shape.Point
	for i := range columns {
		p := shape.Point{X: least(d.X-unit.Length(i)*m.Across, unit.Length(columns)*m.Across), Y: least(d.Y-m.Rise(i), m.Along)}
		if i == 0 || geom.Hypot(float64(p.X), float64(p.Y)) < geom.Hypot(float64(best.X), float64(best.Y)) {
			best = p
		}
	}
	return best
}
