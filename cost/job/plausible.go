package job

import (
	"cmp"
	"errors"
	"math/big"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// What is possible in a job, but seldom what was meant. Bounds are far from what
// shops do, so that a caution means a slip of the pen: a wrong unit, a point in
// the wrong place, a sign left out.
const (
	oddMarkup   = unit.Ratio(2)
	oddTax      = unit.Ratio(0.3)
	oddDiscount = unit.Ratio(0.5)
	oddAlike    = 500 // pieces of furniture
	oddParts    = 100 // parts alike in one piece
	oddTask     = 100 * unit.Hour
	oddSeam     = 2 * unit.Inch
	oddFold     = unit.Inch / 2
	oddSeat     = 3 * unit.Inch / 4
	// oddThread is inches of thread to the square inch of goods: covers take 0.05 to
	// 0.35, small ones with welt under 1.
	oddThread = 5
)

// hardlyMeant says with its figure what is possible in a job, but seldom what was
// meant.
func hardlyMeant(s Spec, o WorkOrder) []string {
	return slices.Concat(oddTerms(s, o.Quote), oddDays(s, o), oddPrices(s, o.Quote), oddGoods(s), oddCounts(s), oddSizes(s, o), oddTimes(s, o))
}

// oddTerms looks at what the quote stands on.
func oddTerms(s Spec, q cost.Quote) []string {
	var out []string
	if s.Quote.Markup > oddMarkup {
		out = append(out, "The markup is "+s.Quote.Markup.PercentText(0, unit.Nearest)+".")
	}
	for _, k := range cost.Kinds() {
		if m := s.Quote.MarkupBy.of(k); m != nil && *m > oddMarkup {
			out = append(out, "The markup of "+k.String()+" is "+m.PercentText(0, unit.Nearest)+".")
		}
	}
	for _, t := range s.Quote.Taxes {
		if t.Rate > oddTax {
			out = append(out, t.Name+" is "+t.Rate.PercentText(1, unit.Nearest)+".")
		}
	}
	for _, d := range s.Quote.Discounts {
		if d.Rate > oddDiscount {
			out = append(out, "The discount “"+d.Name+"” is "+d.Rate.PercentText(0, unit.Nearest)+".")
		}
	}
	if q.Profit.Sign() < 0 {
		out = append(out, "The shop loses "+q.Profit.Neg().String()+": the quote is below what goods and hours cost.")
	}
	return out
}

// oddDays looks at the days: that of the quote and those beside it.
func oddDays(s Spec, o WorkOrder) []string {
	if s.Quote.Issued.IsZero() {
		return nil
	}
	issued := s.Quote.Issued
	var out []string
	if s.Quote.ValidDays == 0 {
		out = append(out, "The quote of "+issued.String()+" holds on that day alone: no valid_days.")
	}
	if !s.Due.IsZero() && s.Due.Compare(issued) < 0 {
		out = append(out, "The work is due on "+s.Due.String()+", before the quote of "+issued.String()+".")
	}
	var late []string
	for _, p := range s.dates(o) {
		if p.day.Compare(issued) > 0 {
			late = append(late, p.what+" ("+p.day.String()+")")
		}
	}
	if len(late) > 0 {
		out = append(out, "Prices are of days after the quote of "+issued.String()+": "+listed(late)+".")
	}
	return out
}

// nearDollar are currencies in which an hour of a shop is a number of two or three
// digits.
var nearDollar = []cost.Currency{"USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF", "SGD"}

// oddPrices looks at goods and foam that are given away, and at the rate of an hour:
// common are 20 to 200 of a currency near a dollar, and a tenth or ten times a
// common rate is a point in the wrong place.
func oddPrices(s Spec, q cost.Quote) []string {
	var out []string
	for _, g := range s.Goods {
		if g.Price.amount().IsZero() && !g.customers() {
			out = append(out, g.Name+" is not charged: its price is nothing.")
		}
	}
	for _, l := range q.Lines {
		if l.Kind == cost.Foam && l.Amount.IsZero() {
			out = append(out, l.What+" is not charged: its price is nothing.")
		}
	}
	hourly := s.Quote.LabourRate
	if hourly.Unit() == 0 || !slices.Contains(nearDollar, s.Currency) {
		return out
	}
	an, err := hourly.Of(unit.Hour, cost.HalfUp)
	if err != nil {
		return out
	}
	if r := an.Rat(); r.Cmp(big.NewRat(6, 1)) < 0 || r.Cmp(big.NewRat(600, 1)) > 0 {
		out = append(out, "An hour is charged at "+an.String()+".")
	}
	return out
}

// oddGoods names goods that nothing is made of.
func oddGoods(s Spec) []string {
	named := map[string]bool{}
	for _, o := range s.Options {
		for _, r := range o.Replace {
			named[r.With] = true
		}
	}
	for _, p := range s.Pieces {
		p.inGoods(func(id *string) bool {
			named[*id] = true
			return false
		}, nil)
	}
	var out []string
	for _, g := range s.Goods {
		if !named[g.ID] {
			out = append(out, "Nothing is made of "+g.Name+" (“"+g.ID+"”).")
		}
	}
	return out
}

// oddCounts looks at how many there are.
func oddCounts(s Spec) []string {
	var out []string
	many := func(what string, n, most int) {
		if n >= most {
			out = append(out, "There are "+strconv.Itoa(n)+" of "+what+".")
		}
	}
	for _, p := range s.Pieces {
		many(p.Name, p.Count, oddAlike)
		part := func(name string, n int) { many(p.Name+": "+name+" in one piece", n, oddParts) }
		for _, x := range p.Panels {
			part(x.Name, x.Count)
		}
		for _, x := range p.Cushions {
			part(x.Name, x.Count)
		}
		for _, x := range p.Boxings {
			part(x.Name, x.Count)
		}
		for _, x := range p.Welts {
			part(x.Name, x.Count)
		}
		for _, x := range p.Skirts {
			part(x.Name, x.Count)
		}
		for _, x := range p.Foam {
			part(x.Name, x.Count)
		}
	}
	return out
}

// oddSizes looks at folds, cushions, seams, foam and thread.
func oddSizes(s Spec, o WorkOrder) []string {
	var out []string
	say := func(piece, part, text string) { out = append(out, piece+": "+part+" "+text) }
	for _, p := range s.Pieces {
		for _, x := range p.Skirts {
			var round unit.Length
			for _, l := range x.Sides {
				round += l
			}
			if x.Pleats > 0 && round/unit.Length(x.Pleats) < oddFold {
				say(p.Name, x.Name, "has "+strconv.Itoa(x.Pleats)+" pleats on "+round.String()+", one every "+small(round/unit.Length(x.Pleats))+".")
			}
		}
		for _, x := range p.Tufted {
			if need, gives := x.reach(); gives < need {
				say(p.Name, x.Name, "is tufted "+x.Depth.String()+" deep, which takes "+small(need)+" of goods from button to button; its rule gives "+small(gives)+".")
			}
		}
		for _, x := range p.Channels {
			if x.Number > 0 && x.Width/unit.Length(x.Number) < oddFold {
				say(p.Name, x.Name, "has "+strconv.Itoa(x.Number)+" channels on "+x.Width.String()+", each "+small(x.Width/unit.Length(x.Number))+" wide.")
			}
		}
		for _, x := range p.Cushions {
			if w := min(x.Width, cmp.Or(x.Depth, x.Width)); w > 0 && x.Thickness > w {
				say(p.Name, x.Name, "is thicker than wide: "+x.Thickness.String()+" on "+w.String()+".")
			}
		}
	}
	for _, c := range o.Cuts {
		if c.Panel == nil {
			continue
		}
		for _, e := range c.Panel.Edges {
			if e.Finish == allowance.PlainSeam && e.ByHand && e.Allowance > oddSeam {
				say(c.Piece, c.Part, "has a seam allowance of "+e.Allowance.String()+" at its edge "+e.Name+".")
				break
			}
		}
	}
	for _, b := range thinSeats(o.Foam) {
		say(b.Piece, b.Part, "has "+b.Cut.Thickness.String()+" of foam to sit on.")
	}
	var thread unit.Length
	var area unit.Area
	for _, t := range o.Sewing.Threads {
		thread += t.Length
	}
	for _, c := range o.Cuts {
		area += c.Area
	}
	if area > 0 && thread.Inches() > oddThread*area.SquareInches() {
		out = append(out, thread.Decimal(unit.Yard, 0, unit.Nearest)+" of thread sew "+area.Decimal(unit.SquareFoot, 1, unit.Nearest)+" of goods.")
	}
	return out
}

// small writes a length that may be less than a sixteenth of an inch.
func small(l unit.Length) string { return l.Decimal(unit.Inch, 2, unit.Nearest) }

// reach gives the goods that it takes from one button down and up again to the next,
// 2 √((D/2)² + d²) with their distance D on the face and their depth d, and those that
// the rule of the tufting gives.
func (t TuftedSpec) reach() (need, gives unit.Length) {
	plan, err := t.tufting().Plan()
	if err != nil {
		return 0, 0
	}
	apart := func(w, h unit.Length) unit.Length {
		l, far := nano.Length(geom.Hypot(float64(w), float64(h)) / 2)
		err = errors.Join(err, far)
		return l
	}
	face := apart(plan.DiamondWidth, plan.DiamondHeight)
	gives = apart(plan.ClothDiamondWidth, plan.ClothDiamondHeight)
	need, bad := made.Groove.Spacing(face, t.Depth)
	if err != nil || bad != nil || t.Rule == made.Groove {
		return 0, 0
	}
	return need, gives
}

// thinSeats gives what is sat on and is thinner than a seat is: the first block of
// each part, as thick as all its layers.
func thinSeats(blocks []FoamBlock) []FoamBlock {
	var parts []FoamBlock
	for _, b := range blocks {
		switch n := len(parts); {
		case !b.Selection.Request.Use.Carries() || b.Form == FoamCrown || b.Form == FoamRolled:
		case n > 0 && b.Layer != "" && parts[n-1].Piece == b.Piece && parts[n-1].Part == b.Part:
			parts[n-1].Cut.Thickness += b.Cut.Thickness
		default:
			parts = append(parts, b)
		}
	}
	return slices.DeleteFunc(parts, func(b FoamBlock) bool { return b.Cut.Thickness >= oddSeat || b.Selection.Request.Use == foam.Bed })
}

// oddTimes looks at the hours: where some pieces have them, one that has none was
// forgotten.
func oddTimes(s Spec, o WorkOrder) []string {
	var out []string
	times := map[string]unit.Duration{}
	for _, b := range o.Labour {
		if b.Piece != "" {
			times[b.Piece] += b.Time
		}
	}
	for _, p := range s.Pieces {
		each := times[p.Name] / unit.Duration(copies(p.Count))
		switch {
		case each == 0 && len(times) > 0 && p.Rough == nil:
			out = append(out, p.Name+" has no labour.")
		case each > 0 && each < unit.Hour && p.large():
			out = append(out, p.Name+", of "+strconv.Itoa(len(p.Panels))+" panels, takes "+each.String()+".")
		}
		for _, l := range p.Labour {
			if l.Time > oddTask {
				out = append(out, p.Name+": "+l.Task+" takes "+l.Time.String()+".")
			}
		}
	}
	return out
}
