package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// sum is a finding in the making.
type sum struct {
	build.Line
	of    build.Finding
	net   int64 // in the smallest part of its unit
	ends  int64
	hows  []string // of the piece that was added last
	entry cost.Entry
}

// compare orders findings as the list has them.
func (x sum) compare(y sum) int {
	place := func(s sum) int {
		return slices.IndexFunc(build.Findings(), func(f build.Finding) bool { return f.ID == s.of.ID })
	}
	return cmp.Or(cmp.Compare(place(x), place(y)), cmp.Compare(len(x.ID), len(y.ID)), strings.Compare(x.ID, y.ID))
}

// shares gives whom a finding is for, by what each takes of it.
func (x *sum) shares() []cost.Share {
	var s sharing
	for _, p := range x.Pieces {
		s.add(p.Piece, raw(p.Net))
	}
	return s
}

// raw gives a quantity as whole numbers of its smallest part.
func raw(q cost.AnyQuantity) int64 {
	if l, ok := cost.QuantityAs[unit.Length](q); ok {
		return int64(l)
	}
	if n, ok := cost.QuantityAs[cost.Pieces](q); ok {
		return int64(n)
	}
	if m, ok := cost.QuantityAs[unit.Mass](q); ok {
		return int64(m)
	}
	if v, ok := cost.QuantityAs[unit.Volume](q); ok {
		return int64(v)
	}
	a, _ := cost.QuantityAs[unit.Area](q)
	return int64(a)
}

// like gives so many parts as a quantity of the kind of another.
func like(n int64, q cost.AnyQuantity) cost.AnyQuantity {
	switch {
	case is[unit.Length](q):
		return cost.AnyOf(unit.Length(n))
	case is[unit.Mass](q):
		return cost.AnyOf(unit.Mass(n))
	case is[unit.Volume](q):
		return cost.AnyOf(unit.Volume(n))
	case is[unit.Area](q):
		return cost.AnyOf(unit.Area(n))
	}
	return cost.AnyOf(cost.Pieces(n))
}

func is[Q cost.Quantity](q cost.AnyQuantity) bool {
	_, ok := cost.QuantityAs[Q](q)
	return ok
}

// add adds a need of a piece of furniture.
func (x *sum) add(n need, piece string) error {
	net, err := timesOf(raw(n.Net), n.times)
	if err != nil {
		return err
	}
	ends, err := timesOf(raw(n.Ends), n.times)
	if err != nil {
		return err
	}
	if !n.Net.Like(x.of.Step) {
		return check.Refuse("", n.ID+", "+n.Net.String(), unit.ErrUnknownUnit, "an amount such as "+x.of.Step.String())
	}
	last := len(x.Pieces) - 1
	if last < 0 || x.Pieces[last].Piece != piece {
		x.told()
		x.Pieces = append(x.Pieces, build.Share{Piece: piece, Net: like(0, x.of.Step)})
		last++
	}
	had := raw(x.Pieces[last].Net)
	for _, sum := range []struct {
		to  *int64
		add int64
	}{{&x.net, net}, {&x.ends, ends}, {&had, net}} {
		l, err := unit.Length(*sum.to).Plus(unit.Length(sum.add)) // any whole numbers
		if err != nil {
			return err
		}
		*sum.to = int64(l)
	}
	x.Pieces[last].Net = like(had, x.of.Step)
	how := n.How
	if n.times > 1 {
		how = fmt.Sprintf("%d times %s", n.times, how)
	}
	if !slices.Contains(x.hows, how) {
		x.hows = append(x.hows, how)
	}
	if x.Basis = worse(x.Basis, n.Basis); x.Basis.Status == 0 {
		x.Basis.Status = cite.Derived
	}
	return nil
}

// timesOf multiplies whole numbers.
func timesOf(n int64, k int) (int64, error) {
	l, err := unit.Length(n).Times(k)
	return int64(l), err
}

// told ends the sentence of a piece.
func (x *sum) told() {
	if len(x.hows) == 0 {
		return
	}
	if x.How != "" {
		x.How += "; "
	}
	x.How += x.Pieces[len(x.Pieces)-1].Piece + ": " + strings.Join(x.hows, ", ")
	x.hows = nil
}

// worse gives the basis of the lower standing.
func worse(a, b cite.Basis) cite.Basis {
	if b.Status > a.Status {
		return b
	}
	return a
}

// round gives the steps from net to use.
func (x *sum) round(own build.Use) error {
	x.told()
	x.Waste, x.Step, x.Pack = x.of.Waste, x.of.Step, own.Pack
	if x.of.ID == "tack strip" && len(own.Sizes) > 0 { // whole sticks, which leave nothing to waste
		x.Waste, x.Step = 0, cost.AnyOf(own.Sizes[0])
	}
	if own.Waste != nil {
		x.Waste = *own.Waste
	} else if x.Waste != 0 {
		x.Basis = worse(x.Basis, x.of.Basis)
	}
	if !own.Step.IsZero() {
		x.Step = own.Step
	}
	x.Net = like(x.net, x.of.Step)
	if x.ends != 0 {
		x.Ends = like(x.ends, x.of.Step)
	}
	var err error
	switch q := x.of.Step; {
	case is[unit.Length](q):
		err = stepsOf[unit.Length](x)
	case is[unit.Mass](q):
		err = stepsOf[unit.Mass](x)
	case is[unit.Volume](q):
		err = stepsOf[unit.Volume](x)
	default:
		err = stepsOf[int](x)
	}
	return unit.InField(unit.Path(x.of.ID), err)
}

// stepsOf takes the steps of one kind of quantity.
func stepsOf[Q findings.Quantity](x *sum) error {
	steps, err := findings.Buying[Q]{Waste: x.Waste, Step: Q(raw(x.Step)), Pack: Q(raw(x.Pack))}.Steps(Q(x.net), Q(x.ends))
	if err != nil {
		return err
	}
	x.Gross, x.Use, x.Packs = like(int64(steps.Gross), x.of.Step), like(int64(steps.Use), x.of.Step), steps.Packs
	return nil
}
