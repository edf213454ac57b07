package thread

import (
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Needle is a metric needle size: the blade's diameter in hundredths of a
// millimetre, so Needle(110) has a blade of 1.10 mm. The zero value is none.
type Needle uint16

// needleLine pairs a metric size with its number.
type needleLine struct {
	metric Needle
	number NeedleNumber
	basis  cite.Basis
}

var (
	numbered   = practice("60 + 5 (number - 8)")
	sold       = practice("")
	recallsize = memory("")
)

// needleLines are the needle sizes made, finest first. Up to number 18 the
// metric size is 60 + 5 (number - 8); from there on the steps are irregular
// and two numbers cover two sizes each.
var needleLines = [...]needleLine{
	{60, 80, numbered}, {65, 90, numbered}, {70, 100, numbered}, {75, 110, numbered},
	{80, 120, numbered}, {85, 130, numbered}, {90, 140, numbered}, {95, 150, numbered},
	{100, 160, numbered}, {105, 170, numbered}, {110, 180, numbered},
	{120, 190, sold}, {125, 200, sold}, {130, 210, sold}, {140, 220, sold},
	{150, 225, practice("sold as 22 and as 22.5")}, {160, 230, sold}, {170, 235, practice("sold as 23")},
	{180, 240, sold}, {200, 250, sold}, {230, 260, sold}, {250, 270, sold},
	{280, 280, recallsize}, {300, 290, recallsize}, {330, 300, recallsize},
}

// Basis says what founds the pairing of a metric size with its number; its
// status is zero for a size not made.
func (n Needle) Basis() cite.Basis {
	for _, l := range needleLines {
		if l.metric == n {
			return l.basis
		}
	}
	return cite.Basis{}
}

// NeedleNumber is a size of the numbered needle system in tenths, so that the
// intermediate sizes have a place: 180 is number 18, 225 is number 22½ (also
// sold as 22). The zero value is none.
type NeedleNumber uint16

// String writes the number: "18", "22.5".
func (n NeedleNumber) String() string {
	s := strconv.Itoa(int(n / 10))
	if n%10 != 0 {
		s += "." + strconv.Itoa(int(n%10))
	}
	return s
}

// MarshalText writes the number as String does, an empty text for none.
func (n NeedleNumber) MarshalText() ([]byte, error) {
	if n == 0 {
		return []byte{}, nil
	}
	return []byte(n.String()), nil
}

// UnmarshalText reads a number such as "18" or "22.5", and an empty text as
// none. It wraps unit.ErrUnknown for one that is not in use.
func (n *NeedleNumber) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*n = 0
		return nil
	}
	for _, l := range needleLines {
		if l.number.String() == string(text) {
			*n = l.number
			return nil
		}
	}
	return check.Refuse("needle number", string(text), unit.ErrUnknown, "a number from 8 to 30")
}

// Needles lists the needle sizes made, finest first.
func Needles() []Needle {
	out := make([]Needle, len(needleLines))
	for i, l := range needleLines {
		out[i] = l.metric
	}
	return out
}

// Number gives the number of a needle size, and false for a size not made.
func (n Needle) Number() (NeedleNumber, bool) {
	for _, l := range needleLines {
		if l.metric == n {
			return l.number, true
		}
	}
	return 0, false
}

// Blade gives the diameter of the blade above the scarf.
func (n Needle) Blade() unit.Length { return unit.Length(n) * (10 * unit.Micrometre) }

// String writes metric size and number, such as "110/18".
func (n Needle) String() string {
	s := strconv.Itoa(int(n))
	if k, ok := n.Number(); ok {
		s += "/" + k.String()
	}
	return s
}

// NeedlesByNumber gives the metric sizes sold under a whole number, finest
// first: one, or two for 22 and 23. It wraps unit.ErrUnknown.
func NeedlesByNumber(number int) ([]Needle, error) {
	var out []Needle
	for _, l := range needleLines {
		if int(l.number/10) == number {
			out = append(out, l.metric)
		}
	}
	if out == nil {
		return nil, check.Refuse("needle number", strconv.Itoa(number), unit.ErrUnknown, "a number from 8 to 30")
	}
	return out, nil
}

func (n Needle) check(field string) error {
	if _, ok := n.Number(); !ok {
		return check.Refuse(field, strconv.Itoa(int(n)), unit.ErrUnknown, "a metric needle size from 60 to 330")
	}
	return nil
}

// MarshalText writes metric size and number, an empty text for no needle. It
// wraps unit.ErrUnknown for a size not made.
func (n Needle) MarshalText() ([]byte, error) {
	if n == 0 {
		return []byte{}, nil
	}
	if err := n.check("needle"); err != nil {
		return nil, err
	}
	return []byte(n.String()), nil
}

// UnmarshalText reads a needle as ParseNeedle does, and an empty text as none.
func (n *Needle) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*n = 0
		return nil
	}
	v, err := ParseNeedle(string(text))
	if err == nil {
		*n = v
	}
	return err
}
