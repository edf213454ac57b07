package job

import (
	"errors"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// fill chooses and prices the foam of the job, in the order of the file. Parts
// that already have faults are left out.
func fill(s Spec, known faults) ([]FoamBlock, []cost.Line, faults) {
	var f faults
	var blocks []FoamBlock
	var lines []cost.Line
	add := func(at, filling unit.Path, b FoamBlock, spec FillingSpec) {
		b, line, own := s.block(at, filling, b, spec, unit.Path("foam").At(len(blocks)))
		if f = append(f, own...); len(own) == 0 {
			blocks, lines = append(blocks, b), append(lines, line)
		}
	}
	for i, p := range s.Pieces[:min(len(s.Pieces), maxCount)] {
		at, n := unit.Path("pieces").At(i), copies(p.Count)
		for k, c := range p.Cushions {
			at := at.Dot("cushions").At(k)
			if c.Foam == nil || known.touch(at) {
				continue
			}
			b, err := c.block()
			if err != nil {
				f.add(at, err)
				continue
			}
			b.Piece, b.Lives, b.Count = p.Name, p.Lives, n*copies(c.Count)
			if c.Pair {
				b.Count *= 2
			}
			add(at, at.Dot("foam"), b, *c.Foam)
		}
		for k, x := range p.Foam {
			at := at.Dot("foam").At(k)
			own := x.check(at)
			if f = append(f, own...); len(own) > 0 {
				continue
			}
			size := foam.Block{Length: x.Width, Width: x.Depth, Thickness: x.Thickness}
			add(at, at.Dot("filling"), FoamBlock{Piece: p.Name, Lives: p.Lives, Part: x.Name, Count: n * copies(x.Count), Finished: size, Cut: size}, x.Filling)
		}
	}
	return blocks, lines, f
}

func (x FoamSpec) check(at unit.Path) faults {
	var f faults
	f.add(at.Dot("name"), checkName(x.Name))
	f.add(at.Dot("count"), checkCount(x.Count))
	for _, s := range []side{{"width", x.Width}, {"depth", x.Depth}, {"thickness", x.Thickness}} {
		f.add(at.Dot(s.name), checkSide(s.length))
	}
	return f
}

// block gives the foam of one cushion: the core that its cover must have, by the
// box round it.
func (c CushionSpec) block() (FoamBlock, error) {
	m, f := c.sized("")
	if len(f) > 0 {
		return FoamBlock{}, f[0]
	}
	m.Zip, m.ZipLength, m.Pocket, m.ZipSeam = false, 0, 0, allowance.Override{} // how it opens is no matter
	p, err := m.Make()
	if err != nil {
		return FoamBlock{}, err
	}
	k := p.Core.TakeUp
	cut := foam.Block{Length: p.Core.Width, Width: p.Core.Depth, Thickness: max(p.Core.Thickness, p.Core.BackThickness)}
	_, basis := m.Fit.TakeUp()
	return FoamBlock{Part: c.Name, Finished: foam.Block{Length: cut.Length - k, Width: cut.Width - k, Thickness: cut.Thickness}, Cut: cut,
		Oversize: foam.Oversize{Name: m.Fit.String(), Face: k, For: "the core is cut larger, the cover is not cut smaller", Basis: basis}}, nil
}

// block chooses the foam for a block and prices it; source is its place in the
// order.
func (s Spec) block(at, filling unit.Path, b FoamBlock, spec FillingSpec, source unit.Path) (FoamBlock, cost.Line, faults) {
	var f faults
	var err error
	fail := func(at unit.Path, err error) (FoamBlock, cost.Line, faults) {
		f.add(at, err)
		return FoamBlock{}, cost.Line{}, f
	}
	b.Selection, err = foam.Select(foam.Request{Use: spec.Use, Duty: spec.Duty, Thickness: b.Cut.Thickness, Base: spec.Base,
		Sitter: spec.Sitter, Jurisdictions: s.Jurisdictions})
	if err != nil {
		var in *unit.InputError
		if errors.As(err, &in) && in.Field.Under("thickness") {
			return fail(at, err)
		}
		return fail(filling, err)
	}
	if b.Lives == thread.InVehicle {
		b.Selection.Cautions = slices.DeleteFunc(b.Selection.Cautions, ofFurniture)
	}
	if spec.Sitter != 0 {
		if b.Sitting, err = b.sitting(spec.Sitter); err != nil {
			return fail(filling.Dot("sitter"), err)
		}
	}
	v, err := b.Cut.Volume()
	if err == nil {
		b.Volume, err = v.Times(b.Count)
	}
	if err != nil {
		return fail(at, err)
	}
	if err := s.checkCurrency(spec.Price.Amount()); err != nil {
		return fail(filling.Dot("price"), err)
	}
	line, err := cost.Item[unit.Volume]{Source: string(source), Kind: cost.Foam, What: "foam, " + b.Piece + ": " + b.Part, Quantity: b.Volume,
		Price: spec.Price, Uplift: cost.Markup(s.Quote.Markup)}.Line()
	if err != nil {
		return fail(filling.Dot("price"), err)
	}
	return b, line, f
}

// ofFurniture tells whether a caution is a fire rule for furniture, which is none
// for vehicles.
func ofFurniture(c foam.Caution) bool {
	return c.Hazard == foam.Fire && c.Jurisdiction != foam.Everywhere
}

// sitting works out what the recommended foam does under the sitter. It is
// ordered by its IFD25 alone: the support factor is taken at the low end of what
// is usual.
func (b FoamBlock) sitting(who unit.Mass) (*foam.Sitting, error) {
	curve, _, err := foam.Grade{Name: "as recommended", Density: b.Selection.Density.Low, IFD25: b.Selection.Target}.Curve()
	if err != nil {
		return nil, err
	}
	sit, err := foam.Sit(foam.Stack{{Name: b.Part, Thickness: b.Cut.Thickness, Curve: curve}}, foam.Sitter{Mass: who})
	return &sit, err
}
