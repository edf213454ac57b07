package foam

import "github.com/coverwright/coverwright/unit"

// usualFigures is room for the figures of nearly every case.
const usualFigures = 8

// figures gathers the figures of firmness and density and sets IFD and Shared.
func (s *Selection) figures() {
	r := &s.Request
	s.IFDFigures = make([]Figure[IFD25], 0, usualFigures)
	for i := range firmnessFigures {
		if f := &firmnessFigures[i]; f.speaksOf(r, r.Thickness) {
			s.IFDFigures = append(s.IFDFigures, f.figure)
		}
	}
	if seats.has(uint8(r.Use)) && r.Thickness > thinSeat && r.Thickness < thickSeat && r.Duty != SevereDuty {
		// No figure was read for 2 to 4 in: both neighbours are shown, and the
		// span runs evenly from the one to the other.
		s.between()
	} else {
		s.IFD = s.IFDFigures[0].Range
		shared, ok := s.IFD, true
		for _, f := range s.IFDFigures[1:] {
			s.IFD = s.IFD.span(f.Range)
			if ok {
				shared, ok = shared.overlap(f.Range)
			}
		}
		if ok {
			s.Shared = &shared
		}
	}
	s.disagree()
}

// firmness sets Target to what is usual for the use.
func (s *Selection) firmness() {
	r := &s.Request
	wanted := r.Wanted != (Wanted{})
	switch {
	case seats.has(uint8(r.Use)):
		usual := seatFirmness(r.Thickness)
		s.Target = usual
		s.because(Reason{Kind: UsualFirmness, Thickness: only(r.Thickness), Firmness: only(usual)})
		if wanted {
			return
		}
		if s.Shared != nil && s.IFD.Has(usual) && !s.Shared.Has(usual) {
			s.because(Reason{Kind: SharedOnly, Firmness: *s.Shared})
		}
		if !s.IFD.Has(usual) {
			s.Target = min(max(usual, s.IFD.Low), s.IFD.High)
			s.because(Reason{Kind: NearerEnd, Firmness: s.IFD, Wanted: only(s.Target)})
		}
	case s.Shared != nil:
		s.Target = s.Shared.Middle()
		s.because(Reason{Kind: MiddleOfShared, Use: r.Use, Firmness: *s.Shared})
	default:
		s.Target = s.IFD.Middle()
		s.because(Reason{Kind: MiddleOfFigures, Use: r.Use, Firmness: s.IFD})
	}
}

// between fills in a seat between the thin and the thick figures.
func (s *Selection) between() {
	r := &s.Request
	at := func(t unit.Length) Range[IFD25] {
		var span Range[IFD25]
		found := false
		for i := range firmnessFigures {
			f := &firmnessFigures[i]
			if !f.speaksOf(r, t) {
				continue
			}
			if !f.speaksOf(r, r.Thickness) {
				s.IFDFigures = append(s.IFDFigures, f.figure)
			}
			if !found {
				span, found = f.figure.Range, true
			}
			span = span.span(f.figure.Range)
		}
		return span
	}
	thin, thick := at(thinSeat), at(thickSeat)
	w := float64(r.Thickness-thinSeat) / float64(thickSeat-thinSeat)
	s.IFD = Range[IFD25]{
		Low:  thin.Low + IFD25(w*float64(thick.Low-thin.Low)),
		High: thin.High + IFD25(w*float64(thick.High-thin.High)),
	}
	s.because(Reason{Kind: BetweenThicknesses, Thickness: Range[unit.Length]{Low: thinSeat, High: thickSeat}})
}

// seatFirmness interpolates seatByThickness; outside it the end value holds.
func seatFirmness(t unit.Length) IFD25 {
	in := t.Inches()
	rows := &seatByThickness
	if in <= rows[0].inches {
		return poundsForce(rows[0].lbf, 0).Low
	}
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		if in <= b.inches {
			w := (in - a.inches) / (b.inches - a.inches)
			return poundsForce(a.lbf+float64(w*(b.lbf-a.lbf)), 0).Low
		}
	}
	return poundsForce(rows[len(rows)-1].lbf, 0).Low
}

func (s *Selection) disagree() {
	if len(s.IFDFigures) < 2 {
		return
	}
	switch {
	case s.Shared == nil:
		s.Disagreements = append(s.Disagreements, Reason{Kind: NothingShared, Count: len(s.IFDFigures), Firmness: s.IFD})
	case *s.Shared != s.IFD:
		s.Disagreements = append(s.Disagreements, Reason{Kind: PartlyShared, Count: len(s.IFDFigures), Firmness: s.IFD, Wanted: *s.Shared})
	}
}
