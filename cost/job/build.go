package job

import (
	"cmp"
	"context"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

// Build works out a job. It does not stop at the first fault: the error is
// Faults with all of them, and the work order is then empty.
//
// A context that has ended before the layouts begin ends the job with the
// context's error. One that ends while they are made gives the order with the
// best layouts so far, marked as Stopped.
func Build(ctx context.Context, s Spec, o Options) (WorkOrder, error) {
	if err := o.check(ctx); err != nil {
		return WorkOrder{}, err
	}
	d, err := prepare(ctx, s)
	if err != nil {
		return WorkOrder{}, err
	}
	others, err := alternatives(ctx, s, d.spec)
	if err != nil {
		return WorkOrder{}, err
	}
	wants := [][]want{d.wants}
	for _, other := range others {
		wants = append(wants, other.wants)
	}
	tasks, numbers := tasksOf(wants...)
	results := lay(ctx, tasks, o)
	order, f := d.order(numbers[0], results)
	if len(f) > 0 {
		return WorkOrder{}, d.from.placed(f).err()
	}
	for i, other := range others {
		alt, f := other.order(numbers[i+1], results)
		if len(f) > 0 {
			return WorkOrder{}, inOption(i, other.from.placed(f)).err()
		}
		priced, err := optionOf(s.Options[i], order, alt)
		if err != nil {
			return WorkOrder{}, faults{err}.under(unit.Path("options").At(i)).err()
		}
		order.Options = append(order.Options, priced)
		order.Stopped = order.Stopped || alt.Stopped
	}
	minded, err := cautionsOf(d.spec, order, d.from.unpriced)
	if err != nil {
		return WorkOrder{}, err
	}
	if order.Afterwards, f = d.afterwards(order); len(f) > 0 {
		return WorkOrder{}, d.from.placed(f).err()
	}
	order.Cautions, order.Papers = minded.Cautions, minded.Papers
	order.Sources = sourcesOf(order)
	return order, nil
}

// draft is a job worked out as far as no layout is needed.
type draft struct {
	spec   Spec    // with what kinds bring
	from   origins // of what kinds brought
	goods  catalog
	cut    cutting
	sewing Sewing // without the joins of panels, which layouts make
	wants  []want
	foam   fillings
	forms  []PillowForm
	formed []cost.Line // of pillow forms
	found  found
	bench  []Bench
	usual  []bench.Answer
	rough  []RoughPiece
	worked []cost.Line // lines of labour, of pieces nobody has measured, and of extras
	terms  cost.Terms
}

// prepare runs the stages that need no layout, and gathers their faults.
func prepare(ctx context.Context, s Spec) (draft, error) { return prepareIn(ctx, s, nil) }

// prepareIn does so for the job, or with the fillings and in the goods of an option.
func prepareIn(ctx context.Context, s Spec, option *OptionSpec) (draft, error) {
	f := append(s.heading(), s.texts()...)
	s = s.sound()
	s, from, own := s.fromKinds()
	f = append(f, own...)
	if option != nil {
		s, _ = s.refilled(*option) // its faults are those of the option
	}
	s = s.defaulted()
	d := draft{spec: s, from: from}
	goods, own := goodsOf(s)
	goods.option, goods.from = option != nil, from
	f = append(f, own...)
	covers, own := coversOf(s, goods)
	f = append(f, own...)
	cut, own, err := cutAll(ctx, covers, goods)
	if err != nil {
		return d, err
	}
	d.goods, d.cut, f = goods, cut, append(f, own...)
	d.forms, d.formed, own = pillowForms(s, f)
	f = append(f, own...)
	d.foam, own = fill(ctx, s, f)
	f = append(f, own...)
	if len(d.cut.pieces)+len(d.foam.blocks)+len(f) == 0 && !s.rough() {
		f.add("pieces", check.Refuse("", "", ErrEmpty, "at least one panel, cushion or foam block"))
	}
	if len(f) == 0 { // a piece that is missing would only lead to more faults
		d.wants, own = wantsOf(goods, d.cut.pieces)
		f = append(f, own...)
		d.sewing, own = sew(goods, d.cut.rows, s.Sewing)
		f = append(f, own...)
		d.found, own = find(s, goods, d.cut, d.foam.blocks, d.sewing)
		f = append(f, own...)
	}
	f = append(f, d.time(s)...)
	d.terms, own = s.terms()
	d.terms, f = taxed(d.terms, d.worked), append(f, own...)
	if err := ctx.Err(); err != nil {
		return d, err
	}
	return d, from.placed(f).err()
}

// time gives the time of the job and its lines.
func (d *draft) time(s Spec) faults {
	table, f := s.table()
	if len(f) > 0 {
		return f // times cannot be told without it
	}
	usual, own := usual(s, table, d.cut, d.goods)
	f = append(f, own...)
	time, own := labour(s, table, usual)
	f = append(f, own...)
	for _, w := range time {
		d.bench = append(d.bench, w.Bench)
	}
	for _, u := range usual {
		if u != nil {
			d.usual = append(d.usual, *u)
		}
	}
	d.worked, own = work(s, time)
	f = append(f, own...)
	rough, lines, own := roughly(s, d.goods, time)
	d.rough, d.worked = rough, append(lines, d.worked...)
	return append(f, own...)
}

// rough tells whether some piece was not measured.
func (s Spec) rough() bool {
	return slices.ContainsFunc(s.Pieces, func(p Furniture) bool { return p.Rough != nil })
}

// sound leaves out what heading refuses and many parts would refuse again.
func (s Spec) sound() Spec {
	if len(s.Quote.checkMarkups()) > 0 {
		s.Quote.Markup, s.Quote.MarkupBy = 0, nil
	}
	s.Jurisdictions = slices.DeleteFunc(slices.Clone(s.Jurisdictions), func(j caution.Jurisdiction) bool { _, err := j.MarshalText(); return err != nil || j == 0 })
	return s
}

// heading gives what is wrong with the job as a whole.
func (s Spec) heading() faults {
	var f faults
	f.add("schema", s.Schema.is(SpecSchema))
	f.add("name", checkName(s.Name))
	f = append(f, s.everyJob()...)
	f.add("options", check.Count("", len(s.Options), 0, mostOptions))
	for i, o := range s.Options {
		f.add(unit.Path("options").At(i).Dot("name"), checkName(o.Name))
	}
	_, err := s.Currency.Digits()
	f.addAs("currency", err)
	if len(s.Pieces) == 0 {
		f.add("pieces", check.Refuse("", "", ErrEmpty, "at least one piece of furniture"))
	}
	return f
}

// everyJob gives what would be wrong with every job that has its head, its places,
// its prices and its defaults.
func (s Spec) everyJob() faults {
	f := slices.Concat(s.headed(), s.Defaults.check(), s.agreed())
	f = append(f, s.Quote.checkMarkups()...)
	for i, j := range s.Jurisdictions {
		if _, err := j.MarshalText(); err != nil || j == 0 {
			f.addAs(unit.Path("jurisdictions").At(i), cmp.Or(err, check.Required("", "a place")))
		}
	}
	for i, e := range s.Prices.Entries() {
		f.add(unit.Path("prices").At(i).Dot("price"), s.checkCurrency(e.Price.Amount()))
	}
	return f
}

// order buys by the layouts and adds up the quote.
func (d draft) order(numbers []int, results []result) (WorkOrder, faults) {
	o := WorkOrder{Schema: OrderSchema, Name: d.spec.Name, Number: d.spec.Number, Customer: d.spec.Customer, Due: d.spec.Due, Shop: d.spec.Shop, Facing: d.spec.Defaults != nil && d.spec.Defaults.Facing,
		Assembly: d.cut.assembly, TakeOff: takeOffsOf(d.spec, d.cut.pieces), Sewing: d.sewing, Foam: d.foam.blocks, Sheets: d.foam.sheets, Forms: d.forms, Labour: d.bench}
	o.Usual, o.Rough, o.Copy, o.Account = d.usual, d.rough, d.spec.Copy, d.spec.Account
	for _, p := range d.cut.pieces {
		o.Cuts = append(o.Cuts, p.Cut)
	}
	for _, n := range numbers {
		o.Stopped = o.Stopped || n >= 0 && results[n].stopped()
	}
	bought, lines, f := buy(d.spec, d.wants, numbers, results)
	if len(f) > 0 {
		return WorkOrder{}, f
	}
	o.Purchases = bought
	o.land()
	if joins := d.joins(bought); len(joins) > 0 {
		if o.Sewing, f = sew(d.goods, slices.Concat(d.cut.rows, joins), d.spec.Sewing); len(f) > 0 {
			return WorkOrder{}, f
		}
		if d.found, f = find(d.spec, d.goods, d.cut, d.foam.blocks, o.Sewing); len(f) > 0 {
			return WorkOrder{}, f
		}
	}
	o.Findings, o.Unpriced, o.Questions = d.found.findings, d.found.unpriced(), d.found.questions
	lines = slices.Concat(d.foam.lines, d.formed, lines, d.found.lines)
	small, err := d.spec.sundries(lines)
	if err != nil {
		f.add("quote.sundries", err)
		return WorkOrder{}, f
	}
	o.Quote, err = cost.NewQuote(d.terms, slices.Concat(lines, small, d.worked)...)
	f.add("quote", moved(err, quotePlace))
	if err == nil {
		o.Statement, err = d.spec.statement(o.Quote)
		f.add("", err)
	}
	return o, f
}

// quotePlace gives the field of the job's quote for one of the cost package.
func quotePlace(p unit.Path) unit.Path {
	if p.Under("tax.levies") {
		return unit.Path("taxes" + string(p[len("tax.levies"):]))
	}
	return p
}

// joins gives the rows that join panels from segments, as the layouts cut them.
func (d draft) joins(bought []Purchase) []row {
	var out []row
	for _, b := range bought {
		i := slices.IndexFunc(d.wants, func(w want) bool { return w.goods.ID == b.Goods })
		pieces := d.wants[i].pieces
		made := make([]int, len(pieces))
		for _, l := range b.Layouts() {
			for _, j := range l.Plan.Joins {
				made[l.Cuts[j.Piece]]++
			}
		}
		for k, n := range made {
			if n == 0 {
				continue
			}
			p := pieces[k]
			long := p.Cut.Cut.Width
			if p.wish.join.AlongWidth {
				long = p.Cut.Cut.Length
			}
			out = append(out, row{CoverRow: allowance.RowOn(p.Part+", join", p.Goods, long, allowance.SeamLayers), at: p.at, piece: p.Piece, lives: p.lives, times: n})
		}
	}
	return out
}
