package job

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// RoughSpec prices a piece of furniture that nobody has measured, as by telephone:
// from its kind, its goods and how many there are. Yardage comes from charts, time
// from the table of usual times, and the quote is one of class 5.
type RoughSpec struct {
	// Length is that of plain goods 54 in wide for one piece, in place of the chart; a
	// kind that no chart has needs it.
	Length unit.Length `json:"length,omitzero"`
	// Sundries are a share of goods and time for findings; 10 % when not given.
	Sundries *unit.Ratio `json:"sundries,omitzero"`
}

// RoughPiece is what pieces nobody has measured come to. All of it is a rule of thumb,
// and none of it is to be cut by.
type RoughPiece struct {
	Piece string      `json:"piece"`
	From  string      `json:"from"`            // the kind
	Count int         `json:"count"`           // of pieces
	Goods string      `json:"goods"`           // id
	Name  string      `json:"name"`            // of the goods
	Fibre string      `json:"fibre,omitempty"` // what they are made of
	Whose stock.Whose `json:"whose"`           // they are
	// Supplier is who sells them, where the job says.
	Supplier string `json:"supplier,omitempty"`
	// Answers lead from the chart to what is bought for all pieces, the last one.
	Answers  []Answer      `json:"answers"`
	Length   unit.Length   `json:"length,omitzero"` // to buy, of a roll
	Area     unit.Area     `json:"area,omitzero"`   // to buy, of hides
	Hides    int           `json:"hides,omitzero"`
	Cost     cost.Money    `json:"cost"` // of the goods, before markup and tax
	Time     unit.Duration `json:"time"` // of all tasks
	Sundries cost.Money    `json:"sundries"`
	Unknown  []string      `json:"unknown"` // what the price cannot have in it
	Kind     cite.Kind     `json:"kind"`    // always cite.RuleOfThumb
}

// roughWidth is that of the goods of the charts.
const roughWidth = 54 * unit.Inch

// roughSundries is the share of goods and time that findings usually come to: common
// practice.
const roughSundries unit.Ratio = 0.10

// roughYield is the share of hides that ends in the work, of the rule that a yard of
// cloth is 18 sq ft of leather.
const roughYield unit.Ratio = 0.75

// charts are the rows of material.FurnitureYardage for kinds of furniture.
var charts = map[string]string{
	"drop-in seat": "dining drop-in seat", "club chair": "club chair", "wing chair": "wing chair", "ottoman": "ottoman",
	"three-seat sofa": "three-cushion sofa, 84 in", "slip cover": "loose cover, occasional chair", "boxed cushion": "loose cushion of a sofa",
}

// telephoned gives a piece without measures: nothing to cut, and the usual time of its
// kind where it has no labour of its own.
func (p Furniture) telephoned(at unit.Path) (Furniture, faults) {
	f := p.unmeasured(at)
	k, err := kind.Named(p.From)
	if p.From == "" {
		err = check.Required("", "a kind of furniture")
	}
	if err != nil {
		f.addAs(at.Dot("from"), err)
		return Furniture{KindSpec: KindSpec{Goods: p.Goods}, Name: p.Name, Count: p.Count, Lives: p.Lives, For: p.For, Owner: p.Owner, Rough: p.Rough}, f
	}
	if _, charted := charts[k.Name]; !charted && p.Rough.Length == 0 {
		f.add(at.Dot("rough.length"), check.Required("", "how much goods of 54 in one takes: no chart has a "+k.Name))
	}
	out := p
	if len(p.Labour) == 0 || p.Usual != nil {
		usual := bench.Ask{}
		if p.Usual != nil {
			usual = *p.Usual
		}
		likely, err := usualOf(k)
		f.addAs(at.Dot("from"), err)
		if usual.Piece == "" && likely != nil {
			usual = usual.Over(bench.Ask{Piece: likely.Piece, Tasks: likely.Tasks})
			if usual.Length == 0 && likely.Length != 0 {
				f.add(at.Dot("usual.length"), check.Required("", "how long the "+k.Name+" is"))
			}
		}
		out.Usual = &usual
	}
	return out, f
}

// usualOf gives the usual time that a kind asks for, at a likely size.
func usualOf(k kind.Kind) (*bench.Ask, error) {
	given := kind.Given{Cover: "cover", Goods: map[string]string{}, Measures: k.Likely()}
	for _, r := range k.Goods {
		given.Goods[r.Name] = "cover"
	}
	text, err := k.Write(given)
	if err != nil {
		return nil, err
	}
	var out struct {
		Usual *bench.Ask `json:"usual"`
	}
	err = json.Unmarshal(text, &out)
	return out.Usual, err
}

// unmeasured gives what a piece that nobody has measured cannot have.
func (p Furniture) unmeasured(at unit.Path) faults {
	var f faults
	for _, x := range []struct {
		name  unit.Path
		given bool
	}{{"goods_for", len(p.GoodsFor) > 0}, {"measures", len(p.Measures) > 0}, {"without", len(p.Without) > 0}, {"filling", p.Filling != nil}, {"grain", p.Grain != Grain{}},
		{"grade", p.Grade != 0}, {"marks", p.Marks != 0}, {"take_off", p.TakeOff != nil}, {"panels", len(p.Panels) > 0}, {"cushions", len(p.Cushions) > 0},
		{"boxings", len(p.Boxings) > 0}, {"welts", len(p.Welts) > 0}, {"skirts", len(p.Skirts) > 0}, {"tufted", len(p.Tufted) > 0}, {"channels", len(p.Channels) > 0},
		{"seams", len(p.Seams) > 0}, {"fastenings", len(p.Fastenings) > 0}, {"trims", len(p.Trims) > 0}, {"meets", len(p.Meets) > 0}, {"motifs", len(p.Motifs) > 0}, {"foam", len(p.Foam) > 0}} {
		if x.given {
			f.misplaced(at.Dot(x.name), "a piece that is measured, without rough")
		}
	}
	for _, b := range p.beside() {
		if b.l != nil {
			f.misplaced(at.Dot(b.name), "a piece that is measured, without rough")
		}
	}
	if l := p.Rough.Length; l != 0 {
		f.add(at.Dot("rough.length"), check.Length("", l, unit.Inch, 100*unit.Yard))
	}
	if r := p.Rough.Sundries; r != nil {
		f.add(at.Dot("rough.sundries"), check.Ratio("", *r, 0, 1))
	}
	return f
}

// roughly prices the goods and sundries of pieces that nobody has measured; time is
// that of the job.
func roughly(s Spec, c catalog, time []worked) ([]RoughPiece, []cost.Line, faults) {
	var f faults
	var out []RoughPiece
	var lines []cost.Line
	hourly, _, rate := s.hour()
	for i, p := range s.Pieces[:min(len(s.Pieces), maxCount)] {
		if p.Rough == nil {
			continue
		}
		at := unit.Path("pieces").At(i)
		g, ok, err := c.find(p.Goods)
		if p.Goods == "" {
			err = check.Required("", "the id of the goods of the cover")
		}
		if f.add(at.Dot("goods"), err); err != nil || !ok || len(rate) > 0 || c.from.failed[i] {
			continue
		}
		r := RoughPiece{Piece: p.Name, From: p.From, Count: copies(p.Count), Goods: g.ID, Name: g.Name, Fibre: g.Fibre, Whose: g.Whose, Supplier: g.Supplier, Kind: cite.RuleOfThumb, Unknown: []string{"foam and other filling", "repairs", "findings beyond a share"}}
		for _, w := range time {
			if w.at.Under(at) {
				r.Time += w.Time // each at most 10 000 h of a thousand pieces
			}
		}
		priced, err := r.price(p, g, s, hourly, unit.Path("rough").At(len(out)))
		if f.add(at.Dot("rough"), err); err == nil {
			out, lines = append(out, r), append(lines, priced...)
		}
	}
	return out, lines, f
}

// price fills in goods and sundries, and gives their lines.
func (r *RoughPiece) price(p Furniture, g GoodsSpec, s Spec, hourly cost.HourPrice, source unit.Path) ([]cost.Line, error) {
	uplift, round := s.Quote.uplift(cost.Goods), s.Quote.rounding()
	if err := r.chart(p, g); err != nil {
		return nil, err
	}
	what, figures := p.Name+": "+g.Name+", rule of thumb", r.figures()
	var line cost.Line
	var err error
	switch {
	case g.customers():
		if r.Cost, err = cost.Zero(s.Currency); err != nil {
			return nil, err
		}
		r.Unknown = append(r.Unknown, "the customer's own goods")
	case g.Kind == RollGoods:
		if r.Cost, err = g.Price.PerLength.Of(r.Length, round); err == nil {
			line, err = cost.Item[unit.Length]{ID: what, Source: string(source), Kind: cost.Goods, What: what, Quantity: r.Length, Price: g.Price.PerLength, Uplift: uplift, Shares: forPiece(p.Name), Figures: figures}.Line()
		}
	default:
		if r.Cost, err = g.Price.PerArea.Of(r.Area, round); err == nil {
			line, err = cost.Item[unit.Area]{ID: what, Source: string(source), Kind: cost.Goods, What: what, Quantity: r.Area, Price: g.Price.PerArea, Uplift: uplift, Shares: forPiece(p.Name), Figures: figures}.Line()
		}
	}
	if err != nil {
		return nil, err
	}
	hours, err := hourly.Of(r.Time, round)
	if err != nil {
		return nil, err
	}
	base, err := r.Cost.Plus(hours)
	if err != nil {
		return nil, err
	}
	share := roughSundries
	if p.Rough.Sundries != nil {
		share = *p.Rough.Sundries
	}
	var lines []cost.Line
	if !g.customers() {
		lines = append(lines, line)
	}
	if r.Sundries, err = base.Scale(share, round); err != nil || share == 0 {
		return lines, err
	}
	sundries, err := cost.LumpSum(cost.Sundries, fmt.Sprintf("%s: findings, %v of goods before markup and time, rule of thumb", p.Name, share), r.Sundries)
	sundries.Source, sundries.Shares = string(source.Dot("sundries")), forPiece(p.Name)
	sundries.Figures = []cost.Figure{{Name: "findings of " + p.Name, Value: r.Sundries.String(), Formula: "share x (goods + time)",
		Working: fmt.Sprintf("%v x (%v + %v)", share, r.Cost, hours), Rule: "a rule of thumb", Basis: cite.Practice("")}}
	return append(lines, sundries), err
}

// chart goes from the chart of plain goods 54 in wide to what is bought.
func (r *RoughPiece) chart(p Furniture, g GoodsSpec) error {
	add := func(text string, l unit.Length, b cite.Basis) {
		r.Answers = append(r.Answers, Answer{Kind: cite.RuleOfThumb, Text: text, Length: l, Basis: b})
	}
	one := p.Rough.Length
	if one != 0 {
		add("one, of plain goods 54 in wide, as the job says", one, cite.Basis{Status: cite.Derived, Note: "as given"})
	} else {
		y := yardage(charts[p.From])
		one = (y.From + y.To) / 2 // tens of yards
		text := y.From.Mixed(unit.Yard, unit.Eighths, unit.Nearest)
		if y.To != y.From {
			text += " to " + y.To.Mixed(unit.Yard, unit.Eighths, unit.Nearest) + ", the middle"
		}
		add("one "+y.Piece+", plain goods 54 in wide: "+text, one, y.Basis)
	}
	if g.Kind == HideGoods {
		return r.leather(one, g)
	}
	var err error
	if g.Width != roughWidth {
		if one, err = r.converted(one, g.Width, add); err != nil {
			return err
		}
	}
	if g.roll().Patterned() {
		if one, err = patterned(one, g, add); err != nil {
			return err
		}
	}
	all, err := one.Times(r.Count)
	if err != nil {
		return err
	}
	step := g.withIncrement(g.Price.PerLength.Unit()).Increment
	if r.Length, err = all.RoundTo(step, unit.Up); err == nil {
		add(fmt.Sprintf("%d of them, in steps of %v", r.Count, step), r.Length, cite.Basis{Status: cite.Derived})
	}
	return err
}

// converted brings a length to goods of another width: by the chart of widths where it
// goes so far, else by the area.
func (r *RoughPiece) converted(one, width unit.Length, add func(string, unit.Length, cite.Basis)) (unit.Length, error) {
	c, err := material.ConvertByChart(one, roughWidth, width)
	how := "by the chart of widths"
	if err != nil {
		how = "by the area"
		if c, err = material.ConvertByArea(one, roughWidth, width); err != nil {
			return 0, err
		}
	}
	add("on goods "+width.String()+" wide, "+how, c.Length, c.Basis)
	return c.Length, nil
}

// patterned adds what a pattern usually takes.
func patterned(one unit.Length, g GoodsSpec, add func(string, unit.Length, cite.Basis)) (unit.Length, error) {
	roll := g.roll()
	roll.Width = max(roll.Width, roughWidth) // what narrow goods take more is in their length
	rules, err := material.PatternRules(one, roll, nil)
	if err != nil || len(rules) == 0 {
		return one, err
	}
	add(rules[0].Text, rules[0].Length, rules[0].Basis)
	return rules[0].Length, nil
}

// leather turns yards of cloth into hides.
func (r *RoughPiece) leather(one unit.Length, g GoodsSpec) error {
	area, err := material.LeatherForCloth(one, roughWidth, roughYield)
	if err == nil {
		area, err = area.Times(r.Count)
	}
	if err != nil {
		return err
	}
	r.Answers = append(r.Answers, Answer{Kind: cite.RuleOfThumb, Text: fmt.Sprintf("leather for %d, 18 sq ft for a yard", r.Count), Area: area, Basis: cite.Practice("")})
	if r.Area = area; g.mean() > 0 {
		r.Hides = int((area + g.mean() - 1) / g.mean())
		if r.Area, err = g.mean().Times(r.Hides); err != nil {
			return err
		}
		r.Answers = append(r.Answers, Answer{Kind: cite.RuleOfThumb, Text: "in whole hides of " + g.mean().String(), Area: r.Area, Hides: r.Hides, Basis: cite.Basis{Status: cite.Derived}})
	}
	return nil
}

// figures say how the goods came about.
func (r RoughPiece) figures() []cost.Figure {
	var steps []string
	var basis []cite.Basis
	for _, a := range r.Answers {
		text := a.Text + ": "
		if a.Area != 0 {
			text += a.Area.String()
		} else {
			text += a.Length.Yardage(unit.Up)
		}
		steps, basis = append(steps, text), append(basis, a.Basis)
	}
	value := r.Length.Yardage(unit.Up)
	if r.Area != 0 {
		value = r.Area.String()
	}
	return []cost.Figure{{Name: r.Piece + ": goods", Value: value, Formula: "chart of yardage, width, pattern, count", Working: strings.Join(steps, "; "), Rule: "a rule of thumb, not to be cut by", Basis: basis[0]}}
}

// yardage gives the row of the chart, that of goods 54 in wide first.
func yardage(piece string) material.Yardage {
	rows := slices.DeleteFunc(material.FurnitureYardage(), func(y material.Yardage) bool { return y.Piece != piece })
	return slices.MaxFunc(rows, func(a, b material.Yardage) int { return cmp.Compare(a.Width, b.Width) })
}

// roughNotes says why the quote is of class 5, and what it cannot have in it.
func roughNotes(o WorkOrder) []string {
	var out []string
	for _, r := range o.Rough {
		out = append(out, fmt.Sprintf("%s was not measured: goods, time and findings are rules of thumb, and the whole quote is one of class 5. Not in it: %s.", r.Piece, strings.Join(r.Unknown, ", ")))
	}
	return out
}
