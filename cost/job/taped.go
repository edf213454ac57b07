package job

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// tapedOf gives how far an outline may be off that was measured; nil for one that
// was drawn.
func tapedOf(at unit.Path, form *shape.Form) (*shape.Tolerance, faults) {
	if form == nil {
		return nil, nil
	}
	var f faults
	t, err := form.Taped()
	if f.add(at.Dot("outline"), err); err != nil || t.Tolerance.IsZero() {
		return nil, f
	}
	return &t.Tolerance, nil
}

// TapeNotes says for the bench how far the sizes of a cut may be off whose panel was
// taken with a tape, in thirty-seconds of an inch or tenths of a millimetre, rounded
// up: ± at two sigma, which holds in 95 of 100 cases, and what it cannot be worse
// than. Of a panel from a photo they say how far its border may be off, and what makes
// that up. Others have none.
func (c Cut) TapeNotes(u pattern.Units) []string {
	t := c.Tolerance
	if t == nil {
		return nil
	}
	fine := func(l unit.Length) string {
		if u == pattern.Metric {
			return l.Decimal(unit.Millimetre, 1, unit.Up)
		}
		return l.Mixed(unit.Inch, unit.ThirtySeconds, unit.Up)
	}
	two := func(w, h unit.Length) string {
		if fine(w) == fine(h) {
			return fine(w)
		}
		return fine(w) + " across and " + fine(h) + " along"
	}
	var out []string
	if p := t.Photo; p != nil {
		out = []string{"by photo: no point of the border further off than " + fine(p.Outline) + " (95 of 100), the cut size no more than " + fine(2*p.Outline)}
		if p.Scale != 0 || p.Thickness != 0 {
			out = append(out, "of that the picture makes "+fine(p.Picture)+", the scale "+fine(p.Scale)+", the thickness "+fine(p.Thickness))
		}
	} else {
		out = []string{
			"by tape, each measure ± " + fine(t.Measure) + ": cut size ± " + two(t.Width.Likely(), t.Height.Likely()) + " (95 of 100), never off by more than " + two(t.Width.Worst, t.Height.Worst),
			"area ± " + unit.Ratio(float64(t.Area.Likely())/float64(max(1, t.Area.Size))).PercentText(1, unit.Up),
			"seams " + seamTolerances(t.Edges, fine),
		}
	}
	for _, e := range t.Edges {
		if e.Length.Bias > unit.Inch/32 {
			out = append(out, "the wobble of the points makes "+e.Name+" some "+fine(e.Length.Bias)+" too long: tape the seam itself")
		}
	}
	for i, a := range t.Angles {
		if a < 40*unit.Degree || a > 140*unit.Degree {
			out = append(out, fmt.Sprintf("at point %d the tapes meet under %.0f degrees, where they tell little: use a longer baseline", i+1, float64(a/unit.Degree)))
		}
	}
	if d := t.Diagonal; d != nil {
		switch off := fine(max(d.Misfit, -d.Misfit)); {
		case d.Measured == 0:
			out = append(out, "no second diagonal was taken, so that nothing checks the others: it should be "+fine(d.Computed)+" ± "+fine(2*d.Sigma))
		case d.Doubtful():
			out = append(out, "the second diagonal is off by "+off+", which is doubtful: measure all again")
		default:
			out = append(out, "the second diagonal agrees within "+off)
		}
	}
	return out
}

// seamTolerances lists edges with what their lengths may be off, those that are
// alike together.
func seamTolerances(edges []shape.TapedEdge, fine func(unit.Length) string) string {
	var texts []string
	names := map[string][]string{}
	for _, e := range edges {
		text := "± " + fine(e.Length.Likely()) + ", at most " + fine(e.Length.Worst)
		if names[text] == nil {
			texts = append(texts, text)
		}
		names[text] = append(names[text], e.Name)
	}
	for i, text := range texts {
		if len(texts) > 1 {
			texts[i] = strings.Join(names[text], ", ") + " " + text
		}
	}
	return strings.Join(texts, "; ")
}
