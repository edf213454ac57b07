package job

import (
	"context"
	"errors"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// fillings is the foam of a job: its blocks, the sheets they are cut from where
// these are bought whole, and the lines of the quote.
type fillings struct {
	blocks []FoamBlock
	sheets []FoamSheets
	lines  []cost.Line
}

// fill chooses and prices the foam of the job, in the order of the file. Parts
// that already have faults are left out.
func fill(ctx context.Context, s Spec, known faults) (fillings, faults) {
	var f faults
	var out fillings
	var wanted []wantedSheet
	add := func(x filling) {
		own, paid, bad := s.filled(x, len(out.blocks))
		if f = append(f, bad...); len(bad) == 0 {
			if x.spec.Sheet != nil {
				for i := range own {
					wanted = append(wanted, wantedSheet{at: x.in.Dot("sheet"), block: len(out.blocks) + i, size: *x.spec.Sheet, price: x.priceOf(i)})
				}
			}
			out.blocks, out.lines = append(out.blocks, own...), append(out.lines, paid...)
		}
	}
	for i, p := range s.Pieces[:min(len(s.Pieces), maxCount)] {
		at, n := unit.Path("pieces").At(i), copies(p.Count)
		for k, c := range p.Cushions {
			at := at.Dot("cushions").At(k)
			if c.Foam == nil || known.touch(at) {
				continue
			}
			b, own := c.solid(at)
			if f = append(f, own...); len(own) > 0 {
				continue
			}
			b.Piece, b.Lives, b.Count = p.Name, p.Lives, n*copies(c.Count)
			if c.Pair {
				b.Count *= 2
			}
			add(filling{at: at, in: at.Dot("foam"), block: b, spec: *c.Foam})
		}
		for k, x := range p.Foam {
			at := at.Dot("foam").At(k)
			b, own := x.solid(at)
			if f = append(f, own...); len(own) > 0 {
				continue
			}
			b.Piece, b.Lives, b.Count = p.Name, p.Lives, n*copies(x.Count)
			add(filling{at: at, in: at.Dot("filling"), block: b, spec: x.Filling})
		}
	}
	if len(f) == 0 {
		f = s.sheets(ctx, &out, wanted)
	}
	return out, f
}

// filling is foam for one part: its whole shape, and what is wanted of it.
type filling struct {
	at, in unit.Path // of the part, and of the spec of its filling
	block  FoamBlock
	spec   FillingSpec
}

// filled gives the blocks of a part with their lines; first is the place of the
// first one in the order.
func (s Spec) filled(x filling, first int) ([]FoamBlock, []cost.Line, faults) {
	f := x.check()
	for _, p := range x.prices() {
		f.add(p.at, s.checkCurrency(p.price.Amount()))
	}
	if len(f) > 0 {
		return nil, nil, f
	}
	blocks, f := x.layers()
	if len(f) > 0 {
		return nil, nil, f
	}
	var lines []cost.Line
	for i := range blocks {
		b := &blocks[i]
		if err := b.measure(); err != nil {
			f.add(x.at, err)
			return nil, nil, f
		}
		if b.PricedBy == BySheet {
			continue
		}
		line, err := cost.Item[unit.Volume]{Source: string(unit.Path("foam").At(first + i)), Kind: cost.Foam, What: "foam, " + b.Piece + ": " + b.Name(),
			Quantity: b.Volume, Price: x.priceOf(i), Uplift: s.Quote.uplift(cost.Foam), Shares: forPiece(b.Piece)}.Line()
		if f.add(x.in.Dot("price"), err); err == nil {
			lines = append(lines, line)
		}
	}
	if x.spec.Wrap != nil {
		w, line, own := s.wrapped(x, first)
		if f = append(f, own...); len(own) == 0 {
			blocks[0].Wrap = &w
			lines = append(lines, line...)
		}
	}
	return blocks, lines, f
}

// priceOf gives the price of a block of the part.
func (x filling) priceOf(block int) cost.VolumePrice {
	if block < len(x.spec.Layers) && x.spec.Layers[block].Price.Unit() != 0 {
		return x.spec.Layers[block].Price
	}
	return x.spec.Price
}

// priced is a price of foam at its place.
type priced struct {
	at    unit.Path
	price cost.VolumePrice
}

// prices lists every price of the filling.
func (x filling) prices() []priced {
	out := []priced{{x.in.Dot("price"), x.spec.Price}}
	for i, l := range x.spec.Layers {
		if l.Price.Unit() != 0 {
			out = append(out, priced{x.in.Dot("layers").At(i).Dot("price"), l.Price})
		}
	}
	return out
}

// check gives what means nothing on a filling of this shape.
func (x filling) check() faults {
	var f faults
	c, form := x.spec, x.block.Form
	flat := form == FoamBox || form == FoamOutline
	if c.Sitter != 0 && c.Use != 0 && !c.Use.Carries() {
		f.misplaced(x.in.Dot("sitter"), "none: a sitter counts on a seat, bench, booth or berth alone")
	}
	f.add(x.in.Dot("crowns"), check.Count("", c.Crowns, 0, 2))
	if c.Crowns != 0 && (c.Wrap == nil || !flat) {
		f.misplaced(x.in.Dot("crowns"), "a wrap over the crown, on a flat block")
	}
	switch {
	case c.Rolled == 0:
	case form != FoamCylinder:
		f.misplaced(x.in.Dot("rolled"), "only fields of a bolster")
	default:
		f.add(x.in.Dot("rolled"), check.Length("", c.Rolled, unit.Millimetre, x.block.Cut.Thickness/2))
	}
	switch {
	case c.PricedBy == BySheet && c.Sheet == nil:
		f.add(x.in.Dot("sheet"), check.Required("", "length and width of the sheet"))
	case c.Sheet != nil && c.PricedBy != "" && c.PricedBy != BySheet:
		f.misplaced(x.in.Dot("sheet"), "none where the "+string(c.PricedBy)+" is paid")
	}
	if len(c.Layers) == 0 {
		return f
	}
	if !flat {
		f.misplaced(x.in.Dot("layers"), "layers of a flat block")
	}
	if c.WantedFirmness != nil {
		f.misplaced(x.in.Dot("wanted_firmness"), "that of each layer, or of foam without layers")
	}
	if err := check.Count("", len(c.Layers), 1, mostLayers); err != nil {
		f.add(x.in.Dot("layers"), err)
		return f
	}
	var sum unit.Length
	for i, l := range c.Layers {
		at := x.in.Dot("layers").At(i)
		f.add(at.Dot("name"), checkName(l.Name))
		f.add(at.Dot("thickness"), check.Length("", l.Thickness, unit.Millimetre, maxSide))
		sum += min(l.Thickness, maxSide)
	}
	if len(f) == 0 && sum != x.block.Cut.Thickness {
		f.add(x.in.Dot("layers"), check.Refuse("", sum.String(), unit.ErrRange, "layers that are together "+x.block.Cut.Thickness.String()+" thick"))
	}
	return f
}

// mostLayers is more than any cushion has, and what foam.Stack takes.
const mostLayers = 20

// layers gives the blocks of the part: one, or one for each layer, and the crown
// pieces.
func (x filling) layers() ([]FoamBlock, faults) {
	b := x.block
	b.PricedBy, b.Supplier = x.spec.PricedBy, x.spec.Supplier
	switch {
	case x.spec.Sheet != nil:
		b.PricedBy = BySheet
	case b.PricedBy == "":
		b.PricedBy = ByBox
	}
	ask := foam.Request{Use: x.spec.Use, Duty: x.spec.Duty, Thickness: b.Cut.Thickness, Base: x.spec.Base, Sitter: x.spec.Sitter,
		Wet: b.Lives == thread.Outdoors || b.Lives == thread.OnBoat}
	if b.Form == FoamWedge { // the mean
		ask.Thickness = (b.Finished.Thickness + b.Back) / 2
	}
	if b.Form == FoamCylinder && x.spec.Rolled != 0 {
		var err error
		if b.Cut, err = rolled(b.Cut.Length, b.Cut.Thickness, x.spec.Rolled); err != nil {
			return nil, faults{unit.InField(x.in.Dot("rolled"), err)}
		}
		b.Form = FoamRolled
	}
	var out []FoamBlock
	if len(x.spec.Layers) == 0 {
		f := x.choose(&b, ask, x.spec.WantedFirmness, x.in)
		if len(f) > 0 {
			return nil, f
		}
		out = append(out, b)
	} else {
		var f faults
		if out, f = x.stacked(b, ask); len(f) > 0 {
			return nil, f
		}
	}
	if x.spec.Crowns > 0 {
		c, err := crown(out[0], b, x.spec.Crowns)
		if err != nil {
			return nil, faults{unit.InField(x.at, err)}
		}
		out = append(out, c)
	}
	return out, nil
}

// stacked gives a block for each layer. All of them are chosen for the thickness
// of the whole and sat on together.
func (x filling) stacked(b FoamBlock, ask foam.Request) ([]FoamBlock, faults) {
	sitter := ask.Sitter
	ask.Sitter = 0
	var out []FoamBlock
	var stack foam.Stack
	for i, l := range x.spec.Layers {
		at := x.in.Dot("layers").At(i)
		b := b
		b.Layer, b.Finished.Thickness, b.Cut.Thickness = l.Name, l.Thickness, l.Thickness
		ask := ask
		if l.Use != 0 && l.WantedFirmness == nil && l.Use != ask.Use {
			// Softer or firmer as that use has it, as dense as the whole needs.
			as := ask
			as.Use = l.Use
			of, err := foam.Select(as)
			if err != nil {
				return nil, x.refused(err, at)
			}
			ask.Wanted.IFD25 = of.Target
		}
		if f := x.choose(&b, ask, l.WantedFirmness, at); len(f) > 0 {
			return nil, f
		}
		stack = append(stack, b.Selection.Layer(l.Name, l.Thickness))
		out = append(out, b)
	}
	if sitter != 0 {
		sit, err := foam.Sit(stack, foam.Sitter{Mass: sitter})
		if err != nil {
			var f faults
			f.addAs(x.in.Dot("sitter"), err)
			return nil, f
		}
		out[0].Stack = &sit
	}
	return out, nil
}

// choose puts in the foam to ask for; in is where the wanted firmness stands.
func (x filling) choose(b *FoamBlock, ask foam.Request, wanted *FirmnessSpec, in unit.Path) faults {
	var f faults
	if wanted != nil {
		var err error
		if ask.Wanted, b.Pressed, err = wanted.wanted(); err != nil {
			f.add(in.Dot("wanted_firmness"), err)
			return f
		}
	}
	var err error
	if b.Selection, err = foam.Select(ask); err != nil {
		return x.refused(err, in)
	}
	return f
}

// refused puts a fault of the choice where the job file says the value.
func (x filling) refused(err error, in unit.Path) faults {
	var f faults
	var bad *unit.InputError
	switch {
	case !errors.As(err, &bad):
		f.add(x.in, err)
	case bad.Field.Under("thickness"):
		name := unit.Path("thickness")
		if x.block.Form == FoamCylinder && x.at.Dot("foam") == x.in { // of a cushion
			name = "depth"
		}
		f.addAs(x.at.Dot(name), err)
	case bad.Field.Under("wanted"):
		f.addAs(in.Dot("wanted_firmness"), err)
	default:
		f.add(x.in, err)
	}
	return f
}

// wanted gives the firmness to match, and what a press at the bench told of it.
func (w FirmnessSpec) wanted() (foam.Wanted, *foam.Estimated[foam.IFD25], error) {
	switch {
	case w.Press == nil && w.IFD25 == 0:
		return foam.Wanted{}, nil, check.Required("ifd25", "a firmness such as \"33 lbf\", or press")
	case w.Press == nil:
		return foam.Wanted{IFD25: w.IFD25}, nil, nil
	case w.IFD25 != 0:
		return foam.Wanted{}, nil, check.Refuse("press", "", ErrMisplaced, "ifd25 or press, not both")
	}
	p := w.Press
	e, err := foam.IdentifyIFD25(foam.BenchTest{Disc: p.Disc, Weight: p.Weight, Sink: p.Sink, Thickness: p.Thickness, SinkError: p.SinkError})
	if err != nil {
		return foam.Wanted{}, nil, unit.InField("press", err)
	}
	return foam.Wanted{IFD25: e.Value, Range: foam.Range[foam.IFD25]{Low: e.Low, High: e.High}}, &e, nil
}
