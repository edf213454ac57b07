package job

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// PillowForm is bought pillow forms for a knife-edge cushion.
type PillowForm struct {
	Piece string      `json:"piece"`
	Part  string      `json:"part"`
	Count int         `json:"count"`
	Width unit.Length `json:"width"` // of one, seam to seam and flat
	Depth unit.Length `json:"depth"`
	// TakeUp is how much larger they are than the cover, Basis founds it.
	TakeUp unit.Length `json:"take_up"`
	Basis  cite.Basis  `json:"basis"`
	Priced bool        `json:"priced,omitzero"` // they are on the quote
	// Supplier is who sells them, where the job says.
	Supplier string `json:"supplier,omitempty"`
}

// pillowForms gives the forms that knife-edge cushions are filled with, and the
// lines of those that have a price.
func pillowForms(s Spec, known faults) ([]PillowForm, []cost.Line, faults) {
	var f faults
	var out []PillowForm
	var lines []cost.Line
	for i, p := range s.Pieces[:min(len(s.Pieces), maxCount)] {
		for k, c := range p.Cushions {
			at := unit.Path("pieces").At(i).Dot("cushions").At(k)
			if c.PillowForm == nil || known.touch(at) {
				continue
			}
			form, own := c.form(at)
			if f = append(f, own...); len(own) > 0 {
				continue
			}
			form.Piece, form.Count, form.Supplier = p.Name, copies(p.Count)*copies(c.Count), c.PillowForm.Supplier
			if c.Pair {
				form.Count *= 2
			}
			price := c.PillowForm.Price
			if form.Priced = !price.IsZero(); form.Priced {
				if err := s.checkCurrency(price); err != nil {
					f.add(at.Dot("pillow_form.price"), err)
					continue
				}
				line, err := form.line(price, unit.Path("pillow_forms").At(len(out)), s.Quote.uplift(cost.Foam))
				if f.add(at.Dot("pillow_form.price"), err); err != nil {
					continue
				}
				lines = append(lines, line)
			}
			out = append(out, form)
		}
	}
	return out, lines, f
}

// line prices the forms.
func (p PillowForm) line(each cost.Money, source unit.Path, uplift cost.Uplift) (cost.Line, error) {
	price, err := cost.Per(each, cost.Pieces(1))
	if err != nil {
		return cost.Line{}, err
	}
	return cost.Item[cost.Pieces]{Source: string(source), Kind: cost.Foam, What: "pillow form, " + p.Piece + ": " + p.Part, Quantity: cost.Pieces(p.Count), Price: price,
		Uplift: uplift, Shares: forPiece(p.Piece)}.Line()
}

// form gives the pillow form of one cushion: its core, which is larger than the
// cover by the take-up of the fit.
func (c CushionSpec) form(at unit.Path) (PillowForm, faults) {
	m, f := c.sized(at)
	if len(f) > 0 {
		return PillowForm{}, f
	}
	m.Zip, m.ZipLength, m.ZipSeam = false, 0, allowance.Override{} // how it opens is no matter
	p, err := m.Make()
	if err != nil {
		f.add(at, err)
		return PillowForm{}, f
	}
	_, basis := m.Fit.TakeUp()
	if c.TakeUp != nil {
		basis = cite.Basis{Status: cite.Derived, Note: "take-up as given"}
	}
	return PillowForm{Part: c.Name, Width: p.Core.Width, Depth: p.Core.Depth, TakeUp: p.Core.TakeUp, Basis: basis}, f
}
