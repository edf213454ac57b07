package cost

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Quantity is what can have a price: lengths, areas, volumes, masses, working
// time and pieces, all exact.
type Quantity interface {
	unit.Length | unit.Area | unit.Volume | unit.Mass | unit.Duration | Pieces
	String() string // with its unit
}

// AnyQuantity is a quantity of any kind, for lists that hold several. AnyOf
// makes one, QuantityAs gives it back as what it is. The zero value is no
// quantity. In JSON it is text without loss, such as "261 in".
type AnyQuantity struct {
	n  int64
	is measure
}

// measure is a kind of quantity; 0 is none.
type measure uint8

const (
	lengths measure = iota + 1
	areas
	volumes
	masses
	times
	counts
)

type namedUnit struct {
	size int64
	name string
}

// unitNames are the short names of the quantities prices are usually for, the
// first being the example. A name reads back to the quantity with one in front
// of it. The table is never written to.
var unitNames = [...][]namedUnit{
	lengths: {{int64(unit.Yard), "yd"}, {int64(unit.Metre), "m"}, {int64(unit.Foot), "ft"}, {int64(unit.Inch), "in"}, {int64(unit.Centimetre), "cm"}, {int64(unit.Millimetre), "mm"}},
	areas: {{int64(unit.SquareFoot), "sq ft"}, {int64(unit.SquareDecimetre), "dm2"}, {int64(unit.SquareMetre), "m2"}, {int64(unit.SquareYard), "sq yd"},
		{int64(unit.SquareInch), "sq in"}, {int64(unit.SquareCentimetre), "cm2"}},
	volumes: {{int64(unit.BoardFoot), "bd ft"}, {int64(unit.CubicFoot), "cu ft"}, {int64(unit.CubicInch), "cu in"}, {int64(unit.CubicYard), "cu yd"},
		{int64(unit.Litre), "l"}, {int64(unit.CubicMetre), "m3"}, {int64(unit.USGallon), "gal"}},
	masses: {{int64(unit.Pound), "lb"}, {int64(unit.Kilogram), "kg"}, {int64(unit.Gram), "g"}},
	times:  {{int64(unit.Hour), "h"}, {int64(unit.Minute), "min"}},
	counts: {{1, "piece"}},
}

func measureOf[Q Quantity]() measure {
	var q Q
	switch any(q).(type) {
	case unit.Length:
		return lengths
	case unit.Area:
		return areas
	case unit.Volume:
		return volumes
	case unit.Mass:
		return masses
	case unit.Duration:
		return times
	}
	return counts
}

// AnyOf gives q without its kind in the type.
func AnyOf[Q Quantity](q Q) AnyQuantity { return AnyQuantity{int64(q), measureOf[Q]()} }

// QuantityAs gives a as a quantity of the kind Q; ok is false for another kind.
func QuantityAs[Q Quantity](a AnyQuantity) (q Q, ok bool) {
	if a.is != measureOf[Q]() {
		return 0, false
	}
	return Q(a.n), true
}

// Like tells whether a is of the kind of b; no quantity is like none.
func (a AnyQuantity) Like(b AnyQuantity) bool { return a.is == b.is && a.is != 0 }

// IsZero tells whether a is no quantity; 0 yd is one.
func (a AnyQuantity) IsZero() bool { return a == AnyQuantity{} }

// String writes a without loss, with its unit; no quantity is "".
func (a AnyQuantity) String() string {
	switch a.is {
	case lengths:
		return unit.Length(a.n).String()
	case areas:
		return unit.Area(a.n).String()
	case volumes:
		return unit.Volume(a.n).String()
	case masses:
		return unit.Mass(a.n).String()
	case times:
		return unit.Duration(a.n).String()
	case counts:
		return Pieces(a.n).String()
	}
	return ""
}

// hasUnit refuses a quantity whose unit was forgotten.
func (a AnyQuantity) hasUnit(field string) error {
	switch a.is {
	case lengths:
		return check.HasUnit(field, unit.Length(a.n))
	case areas:
		return check.HasUnit(field, unit.Area(a.n))
	case volumes:
		return check.HasUnit(field, unit.Volume(a.n))
	case masses:
		return check.HasUnit(field, unit.Mass(a.n))
	case times:
		return check.HasUnit(field, unit.Duration(a.n))
	}
	return nil
}

// MarshalText writes a as String does.
func (a AnyQuantity) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText reads a quantity whose kind is told by its unit; empty text is
// no quantity. It wraps what the parsers of package unit wrap.
func (a *AnyQuantity) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	if s == "" {
		*a = AnyQuantity{}
		return nil
	}
	var last error
	for m := lengths; m <= counts; m++ {
		n, err := m.parse(s)
		if err == nil && (m != counts || !isDigits(s)) {
			*a = AnyQuantity{n, m}
			return nil
		}
		if last == nil || wrongSize(err) {
			last = err
		}
	}
	if wrongSize(last) {
		return last
	}
	return check.Refuse("", s, unit.ErrUnknownUnit, "a length, area, volume, mass, time or a number of pieces, such as 7.25 yd")
}

// parse reads a quantity of the kind.
func (m measure) parse(s string) (int64, error) {
	switch m {
	case lengths:
		v, err := unit.ParseLength(s)
		return int64(v), err
	case areas:
		v, err := unit.ParseArea(s)
		return int64(v), err
	case volumes:
		v, err := unit.ParseVolume(s)
		return int64(v), err
	case masses:
		v, err := unit.ParseMass(s)
		return int64(v), err
	case times:
		v, err := unit.ParseDuration(s)
		return int64(v), err
	}
	v, err := parsePieces(s)
	return int64(v), err
}

// Pieces counts things sold one by one: a set of legs, a seat, a delivery.
type Pieces int64

// String writes the count, such as "6 pieces".
func (p Pieces) String() string {
	if p == 1 {
		return "1 piece"
	}
	return strconv.FormatInt(int64(p), 10) + " pieces"
}

// parsePieces reads "6", "6 pieces", "1 piece", "2 pcs" or "1 each".
func parsePieces(s string) (Pieces, error) {
	count, name, _ := strings.Cut(strings.TrimSpace(s), " ")
	n, err := strconv.ParseInt(count, 10, 64)
	if err != nil || n < 0 {
		return 0, check.Refuse("", s, unit.ErrSyntax, "a whole number of pieces, such as 6 pieces")
	}
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "", "piece", "pieces", "pc", "pcs", "each":
		return Pieces(n), nil
	}
	return 0, check.Refuse("", s, unit.ErrUnknownUnit, "pieces")
}

// MarshalText writes the count as String does.
func (p Pieces) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads a count such as "6 pieces" or "6".
func (p *Pieces) UnmarshalText(text []byte) error {
	v, err := parsePieces(string(text))
	if err == nil {
		*p = v
	}
	return err
}
