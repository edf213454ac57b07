package thread

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Size is a trade number of bonded thread. The zero value is none. Sizes
// compare by weight: a greater Size is a heavier thread.
//
// Its values: Size15, Size33, Size46, Size69, Size92, Size138, Size207,
// Size277, Size346, Size415, Size554.
type Size uint8

// The trade numbers sold for upholstery, lightest first.
const (
	Size15 Size = iota + 1
	Size33
	Size46
	Size69
	Size92
	Size138
	Size207
	Size277
	Size346
	Size415
	Size554
)

const (
	lightest  = Size15
	heaviest  = Size554
	sizeCount = int(heaviest)
)

var tradeNumbers = [sizeCount + 1]int{0, 15, 33, 46, 69, 92, 138, 207, 277, 346, 415, 554}

var sizeNames = []string{"", "15", "33", "46", "69", "92", "138", "207", "277", "346", "415", "554"}

// Sizes lists the sizes of the table, lightest first.
func Sizes() []Size {
	out := make([]Size, 0, sizeCount)
	for s := lightest; s <= heaviest; s++ {
		out = append(out, s)
	}
	return out
}

// Number gives the trade number, 92 for Size92; zero for no size.
func (s Size) Number() int {
	if s > heaviest {
		return 0
	}
	return tradeNumbers[s]
}

// Finished gives the count of the finished thread: the trade number is a
// tenth of its denier,
//
//	tex = 10 × trade number / 9
//
// Zero for no size.
func (s Size) Finished() unit.LinearDensity {
	return unit.LinearDensity(10*float64(s.Number())) * unit.Denier
}

// Next gives the next heavier size, the heaviest for itself; zero for no size.
func (s Size) Next() Size {
	if s == 0 || s > heaviest {
		return 0
	}
	return min(s+1, heaviest)
}

// String gives the trade number.
func (s Size) String() string { return enum.Name(s, "Size", sizeNames) }

// MarshalText writes the trade number, an empty text for no size. It wraps unit.ErrUnknown.
func (s Size) MarshalText() ([]byte, error) { return enum.Text(s, "size", sizeNames) }

// UnmarshalText reads a size as ParseSize does, and an empty text as no size.
func (s *Size) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = 0
		return nil
	}
	v, err := ParseSize(string(text))
	if err == nil {
		*s = v
	}
	return err
}

func (s Size) check(field string) error {
	return given(s, field, sizeNames)
}

// Thread is a size of bonded thread in a fibre. The zero value is none.
type Thread struct {
	Fibre Fibre `json:"fibre"`
	Size  Size  `json:"size"`
}

// String gives fibre and size, such as "nylon 92".
func (t Thread) String() string { return t.Fibre.String() + " " + t.Size.String() }

// Threads lists every thread of the table: each fibre from the lightest size
// to the heaviest.
func Threads() []Thread {
	var out []Thread
	for _, f := range Fibres() {
		for _, s := range Sizes() {
			out = append(out, Thread{f, s})
		}
	}
	return out
}

func (t Thread) check(field string) error {
	if err := t.Fibre.check("fibre"); err != nil {
		return unit.InField(field, err)
	}
	if err := t.Size.check("size"); err != nil {
		return unit.InField(field, err)
	}
	return nil
}
