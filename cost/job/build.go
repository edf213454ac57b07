package job

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Limits of one job.
const (
	maxCount = 1000
	maxSide  = 10 * unit.Metre
)

// ErrEmpty says a job has nothing to make.
var ErrEmpty = errors.New("nothing to make")

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
// Errors with all of them, and the work order is then empty. A cancelled
// context ends it with the context's error.
func Build(ctx context.Context, s Spec) (WorkOrder, error) {
	b := &builder{spec: s, money: map[string]price{}}
	b.out = WorkOrder{Schema: OrderSchema, Name: s.Name}
	b.heading()
	for i, p := range s.Pieces {
		if err := ctx.Err(); err != nil {
			return WorkOrder{}, err
		}
		b.piece(at("pieces", i), p)
	}
	if len(b.out.Cuts) == 0 && len(b.out.Foam) == 0 && len(b.errs) == 0 {
		b.fail("pieces", check.Refuse("", "", ErrEmpty, "at least one panel, cushion or foam block"))
	}
	if err := ctx.Err(); err != nil {
		return WorkOrder{}, err
	}
	if len(b.errs) == 0 {
		b.purchases()
		b.sewing()
	}
	if err := ctx.Err(); err != nil {
		return WorkOrder{}, err
	}
	b.quote()
	if len(b.errs) > 0 {
		return WorkOrder{}, b.errs
	}
	b.cautions()
	b.sources()
	return b.out, nil
}

type builder struct {
	spec  Spec
	out   WorkOrder
	errs  Errors
	goods []Goods // those without a fault of their own
	money map[string]price
	seams []seam
	lines []cost.Line
}

func (b *builder) fail(field string, err error) {
	if err != nil {
		b.errs = append(b.errs, unit.InField(field, err))
	}
}

func at(field string, i int) string { return fmt.Sprintf("%s[%d]", field, i) }

func (b *builder) heading() {
	if b.spec.Schema != SpecSchema {
		b.fail("schema", check.OneOf("", b.spec.Schema, SpecSchema))
	}
	b.name("name", b.spec.Name)
	if _, err := b.spec.Currency.Digits(); err != nil {
		b.fail("currency", err)
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
	b.fail(field, check.Length("", l, unit.Millimetre, maxSide))
}

func (b *builder) piece(field string, p Piece) {
	b.name(field+".name", p.Name)
	n := b.count(field+".count", p.Count)
	for i, q := range p.Panels {
		b.panel(field+"."+at("panels", i), p.Name, n, q)
	}
	for i, c := range p.Cushions {
		b.cushion(field+"."+at("cushions", i), p.Name, n, c)
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
		t, err := l.Time.Times(n)
		b.fail(f+".time", err)
		b.out.Labour = append(b.out.Labour, Bench{Piece: p.Name, Task: l.Task, Time: t})
	}
}

func (b *builder) foamPad(field, piece string, n int, f Foam) {
	b.name(field+".name", f.Name)
	block := foam.Block{Length: f.Width, Width: f.Depth, Thickness: f.Thickness}
	b.side(field+".width", f.Width)
	b.side(field+".depth", f.Depth)
	b.side(field+".thickness", f.Thickness)
	b.foamBlock(field, field+".filling", FoamBlock{Piece: piece, Part: f.Name, Count: n * b.count(field+".count", f.Count),
		Finished: block, Cut: block}, f.Filling)
}

// foamBlock chooses the foam for a block and prices it.
func (b *builder) foamBlock(field, filling string, blk FoamBlock, f Filling) {
	sel, err := foam.Select(foam.Request{Use: f.Use, Duty: f.Duty, Thickness: blk.Cut.Thickness, Base: f.Base,
		Sitter: f.Sitter, Jurisdictions: b.spec.Jurisdictions})
	if err != nil {
		var in *unit.InputError
		if errors.As(err, &in) && strings.HasPrefix(in.Field, "thickness") {
			b.fail(field, err)
		} else {
			b.fail(filling, err)
		}
		return
	}
	blk.Selection = sel
	v, err := blk.Cut.Volume()
	if err == nil {
		blk.Volume, err = v.Times(blk.Count)
	}
	if err != nil {
		b.fail(field, err)
		return
	}
	p, err := cost.ParsePrice[unit.Volume](f.Price)
	if err != nil {
		b.fail(filling+".price", err)
		return
	}
	// Foam is charged by the eighth of a board foot begun.
	charged, err := blk.Volume.RoundTo(unit.BoardFoot/8, unit.Up)
	if err != nil {
		b.fail(field, err)
		return
	}
	line, err := cost.Item[unit.Volume]{Kind: cost.Foam, What: blk.Piece + ": " + blk.Part, Quantity: charged, Net: blk.Volume,
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
