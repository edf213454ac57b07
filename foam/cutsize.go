package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Oversize is a rule for cutting foam larger than the finished cover, so that
// the cover is filled tight. Face is added to the length and to the width,
// Thickness to the thickness.
type Oversize struct {
	Name      string      `json:"name"`
	Face      unit.Length `json:"face"`
	Thickness unit.Length `json:"thickness"`
	For       string      `json:"for"`
	Basis     cite.Basis  `json:"basis"`
}

// Oversizes gives the rules the trade uses, the largest first. They disagree,
// above all on thickness: the first adds an inch to it, the others nothing.
// Which to use is the maker's choice and goes by the foam: the firmer, the less.
func Oversizes() []Oversize {
	custom := cite.Basis{Status: cite.CommonPractice}
	return []Oversize{
		{Name: "full seam allowance", Face: unit.Inch, Thickness: unit.Inch,
			For:   "soft foam: the cut panels' size, half-inch seams all round; a thin wrap does not change it",
			Basis: custom},
		{Name: "an inch each way", Face: unit.Inch,
			For:   "ordinary seat foam: seam to seam plus an inch; thickness is the boxing's",
			Basis: custom},
		{Name: "half an inch each way", Face: unit.Inch / 2,
			For:   "bare seat foam; the upper end of a smaller oversize of 1/4 to 1/2 in",
			Basis: custom},
		{Name: "a quarter inch each way", Face: unit.Inch / 4,
			For:   "very firm, closed-cell or bonded foam; the upper end of 0 to 1/4 in",
			Basis: custom},
		{Name: "none", For: "foam dropped into a frame, a tray or a turned-under seat", Basis: custom},
	}
}

// DefaultOversize is the rule used when none is chosen: half an inch more in length
// and width, nothing in thickness, which is what a snug cover is squeezed.
func DefaultOversize() Oversize { return Oversizes()[2] }

// CutSize gives the block to cut for a cover with the given finished size,
// seam to seam: length and width plus o.Face, thickness plus o.Thickness. The
// allowances may be zero and at most 4 in.
func CutSize(cover Block, o Oversize) (Block, error) {
	if err := cover.Check(); err != nil {
		return Block{}, unit.InField("cover", err)
	}
	if err := check.Length("oversize.face", o.Face, 0, 4*unit.Inch); err != nil {
		return Block{}, err
	}
	if err := check.Length("oversize.thickness", o.Thickness, 0, 4*unit.Inch); err != nil {
		return Block{}, err
	}
	// Sums of lengths up to 1 km cannot overflow.
	return Block{
		Length:    cover.Length + o.Face,
		Width:     cover.Width + o.Face,
		Thickness: cover.Thickness + o.Thickness,
	}, nil
}
