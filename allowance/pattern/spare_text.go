package pattern

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// ruleText is what stands where a line leaves a sheet that is finished by rule.
type ruleText struct {
	text string
	at   shape.Point // where it leaves
	back way         // back along the line
}

// Lettering is that of the pattern on the sheets that there are, with what is to be
// ruled on; see [Pattern.Lettering]. The error is one of units.
func (t Tiling) Lettering(p Pattern, u Units) ([]Lettering, error) {
	var rules []ruleText
	for _, g := range t.Gaps {
		if g.Kind != CutLine && g.Kind != FoldLine {
			continue
		}
		far, _, err := g.Rule(u)
		if err != nil {
			return nil, err
		}
		text := fmt.Sprintf("rule %s on to ", u.Length(far, unit.Up))
		rules = append(rules, ruleText{text + g.On, g.From, direction(g.To, g.From)}, ruleText{text + g.Off, g.To, direction(g.From, g.To)})
	}
	var paper []Box
	for _, q := range t.Tiles {
		paper = append(paper, q.Own)
	}
	return p.lettering(paper, rules), nil
}

// rule writes beside a line near the place where it leaves a sheet.
func (l *letterer) rule(r ruleText) {
	for _, size := range letteringSizes {
		for _, off := range []float64{2, 8, 16, 32} {
			for _, side := range []float64{1, -1, 2.4, -2.4, 4.5, -4.5, 7, -7} {
				c := lettering(r.text, r.at, r.back, size)
				c.At = moved(c.At, r.back, float64(c.Long)/2+float64(off*float64(unit.Millimetre)))
				c.At = moved(c.At, way{-r.back.y, r.back.x}, side*(float64(size)/2+float64(1.5*float64(clearance))))
				if l.put(c) {
					return
				}
			}
		}
	}
	c := lettering(r.text, r.at, r.back, letteringSizes[1])
	c.At = moved(c.At, r.back, float64(c.Long)/2+float64(clearance))
	l.placed = append(l.placed, c)
}
