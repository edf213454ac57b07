package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Fill is a block of foam in a cover.
type Fill struct {
	Cut     Block        `json:"cut"`   // the foam as cut
	Cover   Block        `json:"cover"` // the cover's finished inside, seam to seam
	Curve   Curve        `json:"curve"`
	Density unit.Density `json:"density"` // of the foam as cut
}

// Filled is what the cover does to the foam.
type Filled struct {
	// Strain is how far the cover presses the foam in its thickness, and
	// Pressure what that takes; both zero when the foam is not thicker.
	Strain   unit.Ratio    `json:"strain"`
	Pressure unit.Pressure `json:"pressure"`
	// Density is that of the foam squeezed into the cover, in all directions.
	Density unit.Density `json:"density"`
	// Loose is by how much the foam falls short in each direction; zero where
	// it fills the cover.
	Loose     Block      `json:"loose"`
	FillRatio unit.Ratio `json:"fill_ratio"` // volume of the foam as cut / of the cover
	Kind      cite.Kind  `json:"kind"`
}

// FillCover gives how hard a cover presses the block in it. The pressure comes
// from the indentation curve, which includes the pull of the surface round the
// plate, so an even squeeze takes rather less. A squeeze of more than 65 % is
// refused with [ErrBeyondCurve].
func FillCover(f Fill) (Filled, error) {
	if err := f.Curve.Check(); err != nil {
		return Filled{}, unit.InField("curve", err)
	}
	if err := checkDensity("density", f.Density); err != nil {
		return Filled{}, err
	}
	cut, err := f.Cut.Volume()
	if err != nil {
		return Filled{}, unit.InField("cut", err)
	}
	cover, err := f.Cover.Volume()
	if err != nil {
		return Filled{}, unit.InField("cover", err)
	}
	if cover == 0 {
		return Filled{}, check.Refuse("cover", cover.String(), unit.ErrRange, "a volume above zero")
	}
	out := Filled{Kind: cite.Estimate}
	if out.FillRatio, err = cut.Per(cover); err != nil {
		return Filled{}, err
	}
	out.Loose = Block{
		Length:    max(0, f.Cover.Length-f.Cut.Length),
		Width:     max(0, f.Cover.Width-f.Cut.Width),
		Thickness: max(0, f.Cover.Thickness-f.Cut.Thickness),
	}
	// Foam that falls short in a direction keeps its own size there.
	squeezed := Block{
		Length:    min(f.Cut.Length, f.Cover.Length),
		Width:     min(f.Cut.Width, f.Cover.Width),
		Thickness: min(f.Cut.Thickness, f.Cover.Thickness),
	}
	sv, err := squeezed.Volume()
	if err != nil {
		return Filled{}, err
	}
	if sv == 0 {
		return Filled{}, check.Refuse("cut", cut.String(), unit.ErrRange, "a volume above zero")
	}
	packed, err := cut.Per(sv)
	if err != nil {
		return Filled{}, err
	}
	out.Density = unit.Density(float64(f.Density) * float64(packed))
	if f.Cut.Thickness > f.Cover.Thickness {
		e, err := (f.Cut.Thickness - f.Cover.Thickness).Per(f.Cut.Thickness)
		if err != nil {
			return Filled{}, err
		}
		if e > deep {
			return Filled{}, check.Refuse("cut.thickness", f.Cut.Thickness.String(), ErrBeyondCurve, "a squeeze of at most 65 %")
		}
		out.Strain = e
		if out.Pressure, err = f.Curve.Pressure(e); err != nil {
			return Filled{}, unit.InField("curve", err)
		}
	}
	return out, nil
}
