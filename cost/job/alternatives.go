package job

import (
	"context"
	"errors"
	"reflect"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// alternatives prepares the job once more for each option; whole is the job with what
// kinds bring.
func alternatives(ctx context.Context, s, whole Spec) ([]draft, error) {
	var out []draft
	for i, o := range s.Options {
		alt, f := s.with(o)
		if len(f) == 0 {
			_, f = whole.refilled(o)
		}
		if len(f) > 0 {
			return nil, f.under(unit.Path("options").At(i)).err()
		}
		d, err := prepareIn(ctx, alt, &o)
		var found Faults
		if errors.As(err, &found) {
			var f faults
			for _, x := range found {
				f = append(f, x.Err)
			}
			return nil, inOption(i, f).err()
		}
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}

// inOption puts faults of the job in other goods at the option: their places are
// right in the job as it stands.
func inOption(i int, f faults) faults {
	var out faults
	for _, err := range f {
		var in *unit.InputError
		if errors.As(err, &in) {
			value := string(in.Field)
			if in.Value != "" {
				value += ": " + in.Value
			}
			err = &unit.InputError{Value: value, Err: in.Err, Want: in.Want}
		}
		out.add(unit.Path("options").At(i), err)
	}
	return out
}

// optionOf sets the order of an option beside that of the job.
func optionOf(o OptionSpec, base, alt WorkOrder) (OptionPrice, error) {
	out := OptionPrice{Name: o.Name, Purchases: alt.Purchases, Quote: alt.Quote}
	var err error
	if out.Compare, err = cost.Compare(base.Quote, alt.Quote); err != nil {
		return out, err
	}
	for _, r := range o.Replace {
		switch {
		case r.Goods != "":
			g, err := goodsCompared(r, base, alt)
			if err != nil {
				return out, err
			}
			out.Goods = append(out.Goods, g)
			out.Cuts = append(out.Cuts, alt.CutsOf(r.With)...)
		case r.Filling != "":
			for _, b := range alt.Foam {
				if b.Part == r.Filling && (r.Piece == "" || b.Piece == r.Piece) {
					out.Foam = append(out.Foam, b)
				}
			}
		case r.Finding != "":
			if out.Findings == nil {
				out.Findings = map[string]string{}
			}
			out.Findings[r.Finding] = r.With
		case r.Labour != "":
			for _, b := range alt.Labour {
				if b.Task == r.Labour && (r.Piece == "" || b.Piece == r.Piece) {
					out.Labour = append(out.Labour, b)
				}
			}
		}
	}
	for _, c := range alt.Cuts { // covers go by the size of what fills them
		same := func(b Cut) bool { return reflect.DeepEqual(b, c) }
		if !slices.ContainsFunc(base.Cuts, same) && !slices.ContainsFunc(out.Cuts, same) {
			out.Cuts = append(out.Cuts, c)
		}
	}
	if reflect.DeepEqual(base.Quote, alt.Quote) && len(out.Cuts)+len(out.Foam)+len(out.Labour) == 0 {
		return out, check.Refuse("replace", "", ErrMisplaced, "something that the job has: this changes nothing")
	}
	return out, nil
}

// goodsCompared sets two goods for the same pieces side by side.
func goodsCompared(r Replace, base, alt WorkOrder) (GoodsCompared, error) {
	g := GoodsCompared{Goods: r.Goods, With: r.With, Kind: cite.Layout}
	var err error
	if g.Cost, err = base.spent(r.Goods, r.With); err != nil {
		return g, err
	}
	if g.WithCost, err = alt.spent(r.Goods, r.With); err != nil {
		return g, err
	}
	g.Saved, err = g.Cost.Minus(g.WithCost)
	return g, err
}

// spent adds up what is bought of some goods.
func (o WorkOrder) spent(ids ...string) (cost.Money, error) {
	var sum cost.Money
	var err error
	for _, p := range o.Purchases {
		if slices.Contains(ids, p.Goods) {
			if sum, err = sum.Plus(p.Cost); err != nil {
				return sum, err
			}
		}
	}
	for _, r := range o.Rough {
		if slices.Contains(ids, r.Goods) {
			if sum, err = sum.Plus(r.Cost); err != nil {
				return sum, err
			}
		}
	}
	return sum, nil
}
