package allowance

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// SewnGoods is what a cover must know of one of its goods.
type SewnGoods struct {
	Thickness unit.Length `json:"thickness,omitzero"`
	Ease      EaseLimits  `json:"ease"`
	// TwoFaced goods have no back: either side may be seen.
	TwoFaced bool `json:"two_faced,omitzero"`
	// Heft ranks goods by the thread they ask for, the heaviest highest: the
	// caller's thread size, or any order. Equal ones are told by thickness.
	Heft int `json:"heft,omitzero"`
}

// EaseClass is a class of goods by how much ease they take: [LooseWoven],
// [FirmWoven], [PileGoods], [SoftLeather], [FirmLeather] or [CoatedWoven]. The
// zero value is loose or woolly woven cloth.
type EaseClass uint8

const (
	// LooseWoven is loose or woolly woven cloth.
	LooseWoven EaseClass = iota
	// FirmWoven is firm woven cloth.
	FirmWoven
	// PileGoods are velvet and the like.
	PileGoods
	// SoftLeather is garment and soft upholstery leather.
	SoftLeather
	// FirmLeather is firm leather, and vinyl on a knit back.
	FirmLeather
	// CoatedWoven is vinyl on a woven back, canvas and mesh.
	CoatedWoven
)

var easeClasses = [...]struct {
	name   string
	limits EaseLimits
}{
	LooseWoven:  {"loose woven", EaseLimits{0.02, 0.05, 0.10}},
	FirmWoven:   {"firm woven", EaseLimits{0.01, 0.03, 0.06}},
	PileGoods:   {"pile", EaseLimits{0.01, 0.02, 0.04}},
	SoftLeather: {"soft leather", EaseLimits{0.005, 0.01, 0.02}},
	FirmLeather: {"firm leather", EaseLimits{0.005, 0.01, 0.015}},
	CoatedWoven: {"coated woven", EaseLimits{0.0025, 0.005, 0.01}},
}

func easeNames() []string {
	out := make([]string, len(easeClasses))
	for i, c := range easeClasses {
		out[i] = c.name
	}
	return out
}

// String gives the class in words.
func (c EaseClass) String() string { return enum.Name(c, "class", easeNames()) }

// MarshalText writes the words.
func (c EaseClass) MarshalText() ([]byte, error) { return enum.Text(c, "class", easeNames()) }

// UnmarshalText reads what String writes.
func (c *EaseClass) UnmarshalText(text []byte) error { return enum.Read(c, text, "class", easeNames()) }

// Limits gives the limits of ease in a seam that is not gathered. They are from
// memory; sew a sample. A class out of range gives the zero limits, which are
// refused.
func (c EaseClass) Limits() (EaseLimits, cite.Basis) {
	if int(c) >= len(easeClasses) {
		return EaseLimits{}, cite.Basis{}
	}
	return easeClasses[c].limits, cite.Memory("by class of the longer side's goods; sew a sample")
}

// SeamTolerance is the difference of two seam lines that is no difference:
//
//	1/16 in + 1/16 in per 36 in of the shorter
//
// It is common practice.
func SeamTolerance(shorter unit.Length) (unit.Length, error) {
	if err := check.Positive("shorter", shorter); err != nil {
		return 0, err
	}
	return unit.Inch/16 + shorter/(16*36), nil
}
