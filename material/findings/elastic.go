package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	elasticSeat    = Figure[unit.Ratio]{"elastic webbing", "stretch, seat", 0.10, 0.08, 0.12, cite.Practice("")}
	elasticBack    = Figure[unit.Ratio]{"elastic webbing", "stretch, back", 0.12, 0.10, 0.20, cite.Practice("")}
	elasticSeatGap = Figure[unit.Length]{"elastic webbing", "widest gap, seat", 2 * unit.Inch, unit.Inch, 2 * unit.Inch, cite.Practice("")}
	elasticBackGap = Figure[unit.Length]{"elastic webbing", "widest gap, back", 4 * unit.Inch, 3 * unit.Inch, 4 * unit.Inch, cite.Practice("")}
	elasticHold    = one("elastic webbing", "hold at each end, stapled", 3*unit.Inch/2, cite.Practice("none with clips"))
	elasticStaples = Figure[int]{"elastic webbing", "staples an end", 6, 5, 6, cite.Practice("or one clip")}

	elasticLengths = []Figure[unit.Length]{
		elasticSeatGap, elasticBackGap, elasticHold,
		{"elastic webbing", "roll", 0, 100 * unit.Foot, 330 * unit.Foot, cite.Practice("")},
	}
	elasticShares = []Figure[unit.Ratio]{elasticSeat, elasticBack}
	elasticCounts = []Figure[int]{elasticStaples}
)

// Elastic is elastic webbing stretched over an opening, all strips one way:
// woven through itself it wears. The zero value is refused.
type Elastic struct {
	Across unit.Length `json:"across"`         // the opening that the strips lie side by side in; to 10 m
	Span   unit.Length `json:"span"`           // the opening that each strip crosses; to 10 m
	Strip  unit.Length `json:"strip"`          // width of the webbing
	Back   bool        `json:"back,omitempty"` // of a back, with the figures of a back; its grade is not that of a seat
	// Gap is the widest gap allowed; zero takes 2 in, of a back 4 in.
	Gap unit.Length `json:"gap,omitzero"`
	// Stretch is how much longer a strip is in place, to 50 %; zero takes 10 %,
	// of a back 12 %.
	Stretch unit.Ratio `json:"stretch,omitzero"`
	Clips   bool       `json:"clips,omitempty"` // one at each end in place of staples, and nothing to hold
	// Hold is what each stapled end takes on the rail; zero takes 1 1/2 in.
	Hold unit.Length `json:"hold,omitzero"`
}

// ElasticPlan is the webbing to cut.
type ElasticPlan struct {
	Strips    int         `json:"strips"`
	Gap       unit.Length `json:"gap"`     // true gap
	Relaxed   unit.Length `json:"relaxed"` // what crosses the opening, to be marked before stretching
	Cut       unit.Length `json:"cut"`     // length of each strip
	Total     unit.Length `json:"total"`
	Fasteners int         `json:"fasteners"` // clips, or staples at 6 an end
	Basis     cite.Basis  `json:"basis"`
}

// Plan spaces strips as [Webbing.Plan] does, and cuts each short by its stretch
// e, with h held at each end:
//
//	relaxed = span / (1 + e)
//	cut = relaxed + 2 h
//
// Stretched by eye the last strips come out tighter: mark the relaxed length.
// Errors name the field and wrap unit.ErrRange, unit.ErrNotFinite or
// unit.ErrForgottenUnit.
func (e Elastic) Plan() (ElasticPlan, error) {
	var on founded
	gap, stretch := elasticSeatGap, elasticSeat
	if e.Back {
		gap, stretch = elasticBackGap, elasticBack
	}
	if e.Clips && e.Hold != 0 {
		return ElasticPlan{}, check.Refuse("hold", e.Hold.String(), unit.ErrRange, "nothing to hold with clips")
	}
	if !e.Clips {
		e.Hold = or(&on, e.Hold, elasticHold)
	}
	e.Gap, e.Stretch = or(&on, e.Gap, gap), or(&on, e.Stretch, stretch)
	if err := all(within{"across", e.Across, unit.Millimetre, widest}, within{"span", e.Span, unit.Millimetre, widest},
		within{"strip", e.Strip, unit.Millimetre, e.Across}, within{"gap", e.Gap, unit.Millimetre, unit.Metre}, within{"hold", e.Hold, 0, unit.Metre}); err != nil {
		return ElasticPlan{}, err
	}
	if err := check.Ratio("stretch", e.Stretch, 0, 0.5); err != nil {
		return ElasticPlan{}, err
	}
	share, _ := exact.OfFloat(float64(e.Stretch)) // of a ratio to 50 %
	relaxed, _ := exact.Int(int64(e.Span)).Quo(exact.Int(1).Add(share)).Nearest().Int64()
	p := ElasticPlan{Relaxed: unit.Length(relaxed)}
	p.Strips, p.Gap = spaced(e.Across, e.Strip, e.Gap)
	p.Cut = p.Relaxed + 2*e.Hold
	p.Total = unit.Length(p.Strips) * p.Cut // at most 10 000 strips of 12 m
	p.Fasteners = 2 * p.Strips
	if !e.Clips {
		p.Fasteners *= or(&on, 0, elasticStaples)
	}
	p.Basis = on.by("stretch by the use, gaps as wide as allowed")
	return p, nil
}
