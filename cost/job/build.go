package job

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/rate"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Limits of one job.
const (
	maxCount = 1000
	minSide  = unit.Inch / 16
	maxSide  = 400 * unit.Inch
)

// What can be wrong with a job, beside the sentinels of the other packages.
// Match with errors.Is.
var (
	// ErrEmpty says a job, or a piece of it, has nothing to make.
	ErrEmpty = errors.New("nothing to make")
	// ErrTwice says a name that must be unique stands twice.
	ErrTwice = errors.New("used twice")
	// ErrMisplaced says a field means nothing where it stands.
	ErrMisplaced = errors.New("does not belong here")
)

// Errors is every fault found in a spec. Each wraps an *unit.InputError that
// names the field, such as "pieces[1].panels[0].width".
type Errors []error

// Error gives one fault a line.
func (es Errors) Error() string {
	lines := make([]string, len(es))
	for i, e := range es {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.Is and errors.As look at every fault.
func (es Errors) Unwrap() []error { return es }

// Build works out a job. It does not stop at the first fault: the error is an
// Errors with all of them, and the work order is then empty.
//
// A context that has ended before the layouts begin ends the job with the
// context's error. One that ends while they are made gives the order with the
// best layouts so far, marked as Stopped.
func Build(ctx context.Context, s Spec, o Options) (WorkOrder, error) {
	b := newBuilder(s)
	if o.Effort != 0 {
		b.fail("effort", check.Ratio("", o.Effort, 0.0001, 100_000))
	}
	plan := &planner{options: o}
	if err := b.cut(ctx, plan); err != nil {
		return WorkOrder{}, err
	}
	if len(b.errs) > 0 {
		return WorkOrder{}, b.errs
	}
	others, err := b.others(ctx, plan)
	if err != nil {
		return WorkOrder{}, err
	}
	if err := ctx.Err(); err != nil {
		return WorkOrder{}, err
	}
	plan.run(ctx)
	if b.finish(plan); len(b.errs) > 0 {
		return WorkOrder{}, b.errs
	}
	for i, other := range others {
		if err := b.compare(i, other, plan); err != nil {
			return WorkOrder{}, Errors{unit.InField(at("options", i), err)}
		}
	}
	b.cautions()
	b.sources()
	return b.out, nil
}

type builder struct {
	spec    Spec
	out     WorkOrder
	errs    Errors
	goods   []Goods // those without a fault of their own
	money   map[string]price
	seams   []seam
	wanted  []want
	lines   []cost.Line // of foam, then of goods
	work    []cost.Line // of labour and extras, which come last
	onTerms cost.Terms
}

func newBuilder(s Spec) *builder {
	return &builder{spec: s, money: map[string]price{}, out: WorkOrder{Schema: OrderSchema, Name: s.Name}}
}

// cut works out everything that needs no layout, and notes the layouts to make.
func (b *builder) cut(ctx context.Context, plan *planner) error {
	b.heading()
	for i, p := range b.spec.Pieces {
		if err := ctx.Err(); err != nil {
			return err
		}
		b.piece(at("pieces", i), p)
	}
	if len(b.out.Cuts) == 0 && len(b.out.Foam) == 0 && len(b.errs) == 0 {
		b.fail("pieces", check.Refuse("", "", ErrEmpty, "at least one panel, cushion or foam block"))
	}
	if len(b.errs) == 0 {
		b.wants(plan)
		b.sewing()
	}
	b.bench()
	return ctx.Err()
}

// finish buys by the layouts and adds up the quote.
func (b *builder) finish(plan *planner) {
	if b.purchases(plan); len(b.errs) > 0 {
		return
	}
	var err error
	if b.out.Quote, err = cost.NewQuote(b.onTerms, append(b.lines, b.work...)...); err != nil {
		b.fail("quote", err)
	}
}

// others cuts the job again for each option.
func (b *builder) others(ctx context.Context, plan *planner) ([]*builder, error) {
	var out []*builder
	for i, o := range b.spec.Options {
		s, err := b.spec.with(o)
		if err != nil {
			return nil, Errors{unit.InField(at("options", i), err)}
		}
		other := newBuilder(s)
		if err := other.cut(ctx, plan); err != nil {
			return nil, err
		}
		if len(other.errs) > 0 {
			return nil, other.inOption(i)
		}
		out = append(out, other)
	}
	return out, nil
}

func (b *builder) inOption(i int) Errors {
	for k := range b.errs {
		b.errs[k] = unit.InField(at("options", i), b.errs[k])
	}
	return b.errs
}

// compare sets the quote of an option beside that of the job.
func (b *builder) compare(i int, other *builder, plan *planner) error {
	if other.finish(plan); len(other.errs) > 0 {
		return errors.Join(other.errs...)
	}
	o := b.spec.Options[i]
	out := OptionPrice{Name: o.Name, Purchases: other.out.Purchases, Quote: other.out.Quote}
	var err error
	if out.Compare, err = cost.Compare(b.out.Quote, other.out.Quote); err != nil {
		return err
	}
	for _, r := range o.Replace {
		g := GoodsCompared{Goods: r.Goods, With: r.With, Kind: cite.Layout}
		if g.Cost, err = b.spent(r.Goods, r.With); err != nil {
			return err
		}
		if g.WithCost, err = other.spent(r.Goods, r.With); err != nil {
			return err
		}
		if g.Saved, err = g.Cost.Minus(g.WithCost); err != nil {
			return err
		}
		out.Goods = append(out.Goods, g)
		for _, c := range other.out.Cuts {
			if c.Goods == r.With {
				out.Cuts = append(out.Cuts, c)
			}
		}
	}
	b.out.Options = append(b.out.Options, out)
	b.out.Stopped = b.out.Stopped || other.out.Stopped
	return nil
}

// spent adds up what is bought of some goods.
func (b *builder) spent(ids ...string) (cost.Money, error) {
	var sum cost.Money
	var err error
	for _, p := range b.out.Purchases {
		if slices.Contains(ids, p.Goods) {
			if sum, err = sum.Plus(p.Cost); err != nil {
				return sum, err
			}
		}
	}
	return sum, nil
}

func (b *builder) fail(field string, err error) {
	if err != nil {
		b.errs = append(b.errs, unit.InField(field, err))
	}
}

// failAs reports err at a field of the spec, whatever field of another package
// it names.
func (b *builder) failAs(field string, err error) {
	if err == nil {
		return
	}
	var in *unit.InputError
	if errors.As(err, &in) {
		err = &unit.InputError{Value: in.Value, Err: in.Err, Want: in.Want}
	}
	b.fail(field, err)
}

// parsePrice reads a price in the currency of the job.
func parsePrice[Q cost.Quantity](b *builder, field, text, want string) (cost.Price[Q], bool) {
	p, err := cost.ParsePrice[Q](text)
	var in *unit.InputError
	if errors.As(err, &in) {
		b.fail(field, check.Refuse("", text, in.Err, want))
		return p, false
	}
	return p, b.currency(field, p.Amount())
}

// currency refuses money in another currency than that of the job. While the
// job has no valid currency of its own, that is the fault to mend first.
func (b *builder) currency(field string, m cost.Money) bool {
	if _, err := b.spec.Currency.Digits(); err != nil || m.Currency() == b.spec.Currency {
		return true
	}
	b.fail(field, check.Refuse("", m.String(), cost.ErrCurrency, "an amount in "+string(b.spec.Currency)))
	return false
}

func at(field string, i int) string { return fmt.Sprintf("%s[%d]", field, i) }

func (b *builder) heading() {
	if b.spec.Schema != SpecSchema {
		b.fail("schema", check.OneOf("", b.spec.Schema, SpecSchema))
	}
	b.name("name", b.spec.Name)
	if _, err := b.spec.Currency.Digits(); err != nil {
		b.failAs("currency", err)
	}
	if len(b.spec.Goods) > maxCount {
		b.fail("goods", check.Count("", len(b.spec.Goods), 1, maxCount))
		return
	}
	for i, g := range b.spec.Goods {
		b.checkGoods(at("goods", i), g)
	}
	if len(b.spec.Pieces) == 0 {
		b.fail("pieces", check.Refuse("", "", ErrEmpty, "at least one piece of furniture"))
	}
	if len(b.spec.Pieces) > maxCount {
		b.fail("pieces", check.Count("", len(b.spec.Pieces), 1, maxCount))
		b.spec.Pieces = nil
	}
}

// name refuses empty and endless names.
func (b *builder) name(field, s string) {
	switch n := len([]rune(s)); {
	case strings.TrimSpace(s) == "":
		b.fail(field, check.Required("", "a name"))
	case n > 120:
		b.fail(field, check.Refuse("", s, unit.ErrRange, "at most 120 characters"))
	case strings.ContainsFunc(s, unicode.IsControl):
		b.fail(field, check.Refuse("", s, unit.ErrSyntax, "a name without control characters"))
	}
}

// count gives a count that may be left out.
func (b *builder) count(field string, n *int) int {
	if n == nil {
		return 1
	}
	if err := check.Count("", *n, 1, maxCount); err != nil {
		b.fail(field, err)
		return 1
	}
	return *n
}

// side checks a measured side of a panel, cushion or block.
func (b *builder) side(field string, l unit.Length) {
	b.fail(field, check.Length("", l, minSide, maxSide))
}

func (b *builder) piece(field string, p Piece) {
	b.name(field+".name", p.Name)
	n := b.count(field+".count", p.Count)
	if len(p.Panels)+len(p.Cushions)+len(p.Boxings)+len(p.Welts)+len(p.Skirts)+len(p.Tufted)+len(p.Channels)+len(p.Foam)+len(p.Labour) == 0 {
		b.fail(field, check.Refuse("", "", ErrEmpty, "at least one of panels, cushions, boxings, welts, skirts, tufted, channels, foam, labour"))
	}
	for i, q := range p.Panels {
		b.panel(field+"."+at("panels", i), p.Name, n, q)
	}
	for i, c := range p.Cushions {
		b.cushion(field+"."+at("cushions", i), p.Name, n, c)
	}
	for i, x := range p.Boxings {
		b.boxingPart(field+"."+at("boxings", i), p.Name, n, x)
	}
	for i, x := range p.Welts {
		b.weltPart(field+"."+at("welts", i), p.Name, n, x)
	}
	for i, x := range p.Skirts {
		b.skirt(field+"."+at("skirts", i), p.Name, n, x)
	}
	for i, x := range p.Tufted {
		b.tufted(field+"."+at("tufted", i), p.Name, n, x)
	}
	for i, x := range p.Channels {
		b.channels(field+"."+at("channels", i), p.Name, n, x)
	}
	for i, f := range p.Foam {
		b.foamPad(field+"."+at("foam", i), p.Name, n, f)
	}
	for i, l := range p.Labour {
		f := field + "." + at("labour", i)
		b.name(f+".task", l.Task)
		if err := check.Between("", l.Time, unit.Minute, 10_000*unit.Hour); err != nil {
			b.fail(f+".time", err)
			continue
		}
		b.labour(f, p.Name, n, l)
	}
}

// labour adds up the time of n pieces, with or without learning.
func (b *builder) labour(field, piece string, n int, l Labour) {
	out := Bench{Piece: piece, Task: l.Task}
	var err error
	if l.Learning == nil {
		out.Time, err = l.Time.Times(n)
		b.fail(field+".time", err)
	} else {
		curve := rate.Learning{Model: rate.UnitModel, Rate: *l.Learning}
		var how cost.Figure
		if out.Time, err = curve.Total(l.Time, n); err == nil {
			how, err = curve.Explain(l.Time, n)
		}
		b.failAs(field+".learning", err)
		// The bench counts in minutes.
		if err == nil {
			out.Time, err = out.Time.RoundTo(unit.Minute, unit.Up)
			b.fail(field+".time", err)
		}
		out.figures = []cost.Figure{how}
	}
	b.out.Labour = append(b.out.Labour, out)
}

func (b *builder) foamPad(field, piece string, n int, f Foam) {
	before := len(b.errs)
	b.name(field+".name", f.Name)
	block := foam.Block{Length: f.Width, Width: f.Depth, Thickness: f.Thickness}
	b.side(field+".width", f.Width)
	b.side(field+".depth", f.Depth)
	b.side(field+".thickness", f.Thickness)
	count := n * b.count(field+".count", f.Count)
	if len(b.errs) > before {
		return
	}
	b.foamBlock(field, field+".filling", FoamBlock{Piece: piece, Part: f.Name, Count: count, Finished: block, Cut: block}, f.Filling)
}

// foamBlock chooses the foam for a block and prices it.
func (b *builder) foamBlock(field, filling string, blk FoamBlock, f Filling) {
	sel, err := foam.Select(foam.Request{Use: f.Use, Duty: f.Duty, Thickness: blk.Cut.Thickness, Base: f.Base,
		Sitter: f.Sitter, Jurisdictions: b.spec.Jurisdictions})
	if err != nil {
		var in *unit.InputError
		if errors.As(err, &in) && in.Field.Under("thickness") {
			b.fail(field, err)
		} else {
			b.fail(filling, err)
		}
		return
	}
	blk.Selection = sel
	if f.Sitter != 0 {
		// A foam that is ordered by its IFD25 alone: the support factor is taken
		// at the low end of what is usual.
		curve, _, err := foam.Grade{Name: "as recommended", Density: sel.Density.Low, IFD25: sel.Target}.Curve()
		if err != nil {
			b.fail(filling, err)
			return
		}
		sit, err := foam.Sit(foam.Stack{{Name: blk.Part, Thickness: blk.Cut.Thickness, Curve: curve}}, foam.Sitter{Mass: f.Sitter})
		if err != nil {
			b.fail(filling+".sitter", err)
			return
		}
		blk.Sitting = &sit
	}
	v, err := blk.Cut.Volume()
	if err == nil {
		blk.Volume, err = v.Times(blk.Count)
	}
	if err != nil {
		b.fail(field, err)
		return
	}
	p, ok := parsePrice[unit.Volume](b, filling+".price", f.Price, "a price per volume such as \"3.40 USD/bd ft\"")
	if !ok {
		return
	}
	line, err := cost.Item[unit.Volume]{Source: string(at("foam", len(b.out.Foam))), Kind: cost.Foam, What: "foam, " + blk.Piece + ": " + blk.Part, Quantity: blk.Volume,
		Price: p, Uplift: cost.Markup(b.spec.Quote.Markup)}.Line()
	if err != nil {
		b.fail(filling+".price", err)
		return
	}
	b.lines = append(b.lines, line)
	b.out.Foam = append(b.out.Foam, blk)
}

// sources lists the documents behind the figures of the order, in the order
// of the module's list.
func (b *builder) sources() {
	used := map[string]bool{}
	note := func(bs ...cite.Basis) {
		for _, x := range bs {
			used[x.Source] = true
		}
	}
	for _, c := range b.out.Cuts {
		note(c.Basis...)
	}
	for _, p := range b.out.Purchases {
		for _, a := range p.Answers {
			note(a.Basis)
		}
	}
	for _, s := range b.out.Sewing {
		note(s.Basis, s.Pick.Basis, s.Pick.Density.Basis)
	}
	for _, f := range b.out.Foam {
		note(f.Selection.DensityBasis, f.Selection.Delivered.Basis)
		for _, x := range f.Selection.IFDFigures {
			note(x.Basis)
		}
		for _, x := range f.Selection.DensityFigures {
			note(x.Basis)
		}
	}
	for _, c := range b.out.Cautions {
		if c.Basis != nil {
			note(*c.Basis)
		}
	}
	b.out.Sources = slices.DeleteFunc(cite.Sources(), func(s cite.Source) bool { return !used[s.Key] })
}
