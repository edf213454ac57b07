package foam

import "github.com/coverwright/coverwright/unit"

// usualDensity gives the density to ask for and why.
func usualDensity(use Use, duty Duty) (Range[unit.Density], Reason) {
	carries := loaded.has(uint8(use))
	switch {
	case carries && duty == LightDuty:
		return dutyWeight[NormalDuty], Reason{Kind: LoadedDensity}
	case carries:
		return dutyWeight[duty], Reason{Kind: UsualDensity, Duty: duty}
	case duty == SevereDuty:
		return dutyWeight[NormalDuty], Reason{Kind: ContractDensity}
	}
	return dutyWeight[LightDuty], Reason{Kind: LittleCarried, Use: use}
}

// weight sets Density and gathers its figures.
func (s *Selection) weight() {
	var why Reason
	s.Density, why = usualDensity(s.Request.Use, s.Request.Duty)
	s.because(why)
	s.DensityBasis = dutyWeightBasis
	s.DensityFigures = make([]Figure[unit.Density], 0, usualFigures)
	for i := range weightFigures {
		w := &weightFigures[i]
		if !w.speaksOf(&s.Request) {
			continue
		}
		f := w.figure
		s.DensityFigures = append(s.DensityFigures, f)
		_, ok := s.Density.overlap(f.Range)
		least := f.Range.Low == f.Range.High && f.Range.High <= s.Density.Low
		if !ok && !least {
			s.Disagreements = append(s.Disagreements, Reason{Kind: DensityDiffers, About: f.About, Density: f.Range, Limits: s.Density})
		}
	}
}

// base says what the base changes: nothing under what carries no sitter.
func (s *Selection) base() {
	if !loaded.has(uint8(s.Request.Use)) {
		return
	}
	switch b := s.Request.Base; b {
	case Board:
		s.because(Reason{Kind: OnBoard})
	case Webbing, Springs:
		s.because(Reason{Kind: OnGivingBase, Base: b})
	}
}

// densitySlack keeps the last bit of a unit conversion from failing a grade.
const densitySlack = 1e-9
