package thread

import (
	"encoding/json"
	"math/bits"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
)

// Flags is a set of bad matches between thread, needle, goods and use. The
// zero value is a good match.
//
// Its values: NeedleTooFine, NeedleFine, NeedleTooCoarse, ThreadTooLight,
// ThreadTooHeavy, NylonInSun, ThreadTooWeak, NylonInDamp, StitchesTooClose,
// StitchesTooFar.
type Flags uint16

// Bad matches.
const (
	// NeedleTooFine: the thread does not lie in the long groove.
	NeedleTooFine Flags = 1 << iota
	// NeedleFine: finer than usual for the thread in these goods.
	NeedleFine
	// NeedleTooCoarse: the hole stays open and weakens the goods.
	NeedleTooCoarse
	// ThreadTooLight: lighter than any size usual for these goods.
	ThreadTooLight
	// ThreadTooHeavy: heavier than any size usual for these goods.
	ThreadTooHeavy
	// NylonInSun: sunlight destroys nylon.
	NylonInSun
	// ThreadTooWeak: the seam is weaker than asked for.
	ThreadTooWeak
	// NylonInDamp: nylon takes up water.
	NylonInDamp
	// StitchesTooClose: more to the inch than usual; they perforate coated goods
	// and leather.
	StitchesTooClose
	// StitchesTooFar: fewer to the inch than usual.
	StitchesTooFar
)

var flagTexts = [...]string{
	"needle too fine for the thread: it does not lie in the groove",
	"needle finer than usual for this thread in these goods",
	"needle too coarse: the hole stays open",
	"thread lighter than usual for these goods",
	"thread heavier than usual for these goods",
	"nylon loses its strength in sunlight",
	"seam weaker than asked for",
	"nylon takes up water and swells",
	"stitches closer than usual in these goods",
	"stitches longer than usual in these goods",
}

// Texts gives the flags in words, none for a good match.
func (f Flags) Texts() []string {
	var out []string
	for i, t := range flagTexts {
		if f&(1<<i) != 0 {
			out = append(out, t)
		}
	}
	return out
}

// count gives the number of flags.
func (f Flags) count() int { return bits.OnesCount16(uint16(f)) }

// Has tells whether all of g are set.
func (f Flags) Has(g Flags) bool { return f&g == g }

// String joins the texts; "good match" when there is none.
func (f Flags) String() string {
	if f == 0 {
		return "good match"
	}
	return strings.Join(f.Texts(), "; ")
}

// MarshalJSON writes a list of texts.
func (f Flags) MarshalJSON() ([]byte, error) {
	t := f.Texts()
	if t == nil {
		t = []string{}
	}
	return json.Marshal(t)
}

// UnmarshalJSON reads a list of texts as MarshalJSON writes it. It wraps
// unit.ErrUnknown.
func (f *Flags) UnmarshalJSON(data []byte) error {
	var texts []string
	if err := json.Unmarshal(data, &texts); err != nil {
		return err
	}
	var out Flags
	for _, t := range texts {
		i := slices.Index(flagTexts[:], t)
		if i < 0 {
			return check.OneOf("flags", t, flagTexts[:]...)
		}
		out |= 1 << i
	}
	*f = out
	return nil
}
