package foam

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// What can be wrong with a foam figure, beside the sentinels of package unit.
// Match with errors.Is.
var (
	// ErrImpossibleIFD says the forces fall with depth: no foam pushes back
	// less at 65 % than at 25 %.
	ErrImpossibleIFD = errors.New("impossible indentation forces")
	// ErrOtherTest says a firmness figure of one test stands where another
	// test's is wanted.
	ErrOtherTest = errors.New("figure of another test")
)

// IFD25 is the indentation force deflection at 25 %: the force that pushes a
// flat round plate of 50 in² a quarter of the way into a sample 4 in thick, read
// after 60 s (ASTM D3574, test B1). ILD is the older name. The zero value is no
// figure.
type IFD25 unit.Force

// IFD65 is the same force at 65 % of the thickness. The zero value is no figure.
type IFD65 unit.Force

// HardnessA is the ISO 2439 method A index: the force at 40 % indentation
// after 30 s. The zero value is no figure.
type HardnessA unit.Force

// HardnessB is the ISO 2439 method B characteristic: the forces at 25, 40 and
// 65 % indentation after 30 s each. Since the foam is held at 25 % first, At40
// is not the method A index.
type HardnessB struct {
	At25 unit.Force `json:"at25"`
	At40 unit.Force `json:"at40"`
	At65 unit.Force `json:"at65"`
}

// Test forces are accepted from a tenth of a newton to 10 kN, some thirty times
// that of the firmest seat foam.
const (
	faintest = 0.1 * unit.Newton
	firmest  = 10 * unit.Kilonewton
)

// checkForce accepts test forces of any kind.
func checkForce[Q interface {
	~float64
	fmt.Stringer
}](field string, q Q) error {
	return check.Between(field, q, Q(faintest), Q(firmest))
}

// Check gives nil when the three forces are 0.1 N to 10 kN and rise with depth,
// else an error that wraps [unit.ErrRange] or [ErrImpossibleIFD].
func (h HardnessB) Check() error {
	for _, f := range []struct {
		name string
		f    unit.Force
	}{{"at25", h.At25}, {"at40", h.At40}, {"at65", h.At65}} {
		if err := checkForce(f.name, f.f); err != nil {
			return err
		}
	}
	if h.At40 < h.At25 || h.At65 < h.At40 {
		return check.Refuse("at65", h.At65.String(), ErrImpossibleIFD, "forces that rise from 25 through 40 to 65 %")
	}
	return nil
}

// Force gives the bare force.
func (i IFD25) Force() unit.Force { return unit.Force(i) }

// Force gives the bare force.
func (i IFD65) Force() unit.Force { return unit.Force(i) }

// Force gives the bare force.
func (h HardnessA) Force() unit.Force { return unit.Force(h) }

// PoundsForce gives i in pounds-force, the figure a supplier quotes.
func (i IFD25) PoundsForce() float64 { return i.Force().PoundsForce() }

// PoundsForce gives i in pounds-force.
func (i IFD65) PoundsForce() float64 { return i.Force().PoundsForce() }

// Newtons gives h in newtons.
func (h HardnessA) Newtons() float64 { return h.Force().Newtons() }

// The labels that keep figures of different tests apart in text.
const (
	labelIFD25     = "IFD25"
	labelIFD65     = "IFD65"
	labelHardnessA = "ISO-A40"
)

// String writes i for people with its test, in newtons or pounds-force,
// whichever it is a round number of: "33 lbf IFD25", "150 N IFD25".
func (i IFD25) String() string { return i.Force().String() + " " + labelIFD25 }

// String writes i as an IFD25 is written, such as "66 lbf IFD65".
func (i IFD65) String() string { return i.Force().String() + " " + labelIFD65 }

// String writes h as an IFD25 is written, such as "180 N ISO-A40".
func (h HardnessA) String() string { return h.Force().String() + " " + labelHardnessA }

// MarshalText writes i with its test and without loss: in pounds-force where
// they are shorter and read back to the last bit, else in newtons. It wraps
// unit.ErrNotFinite.
func (i IFD25) MarshalText() ([]byte, error) { return labelled(i.Force(), labelIFD25) }

// MarshalText writes i without loss, as that of IFD25 does. It wraps
// unit.ErrNotFinite.
func (i IFD65) MarshalText() ([]byte, error) { return labelled(i.Force(), labelIFD65) }

// MarshalText writes h without loss, as that of IFD25 does. It wraps
// unit.ErrNotFinite.
func (h HardnessA) MarshalText() ([]byte, error) { return labelled(h.Force(), labelHardnessA) }

// UnmarshalText reads a force, such as "30 lbf" or "30 lbf IFD25". The label
// of another test is refused with [ErrOtherTest].
func (i *IFD25) UnmarshalText(text []byte) error {
	f, err := parseLabelled(string(text), labelIFD25)
	if err == nil {
		*i = IFD25(f)
	}
	return err
}

// UnmarshalText reads a force, such as "60 lbf" or "60 lbf IFD65". The label
// of another test is refused with [ErrOtherTest].
func (i *IFD65) UnmarshalText(text []byte) error {
	f, err := parseLabelled(string(text), labelIFD65)
	if err == nil {
		*i = IFD65(f)
	}
	return err
}

// UnmarshalText reads a force, such as "180 N" or "180 N ISO-A40". The label
// of another test is refused with [ErrOtherTest].
func (h *HardnessA) UnmarshalText(text []byte) error {
	f, err := parseLabelled(string(text), labelHardnessA)
	if err == nil {
		*h = HardnessA(f)
	}
	return err
}

// labelled writes a force of a test without loss.
func labelled(f unit.Force, label string) ([]byte, error) {
	text, err := f.MarshalText()
	if err != nil {
		return nil, err
	}
	lbf := strconv.AppendFloat(nil, f.PoundsForce(), 'g', 15, 64)
	lbf = append(lbf, " lbf"...)
	if back, err := unit.ParseForce(string(lbf)); err == nil && back == f && len(lbf) < len(text) {
		text = lbf
	}
	return append(append(text, ' '), label...), nil
}

func parseLabelled(s, label string) (unit.Force, error) {
	bare := strings.TrimSpace(s)
	for _, l := range []string{labelIFD25, labelIFD65, labelHardnessA} {
		if b, ok := strings.CutSuffix(bare, l); ok {
			if l != label {
				return 0, check.Refuse("", s, ErrOtherTest, "a force of test "+label)
			}
			bare = strings.TrimSpace(b)
			break
		}
	}
	f, err := unit.ParseForce(bare)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", label, err)
	}
	return f, nil
}
