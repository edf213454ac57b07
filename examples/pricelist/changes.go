package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// changes are what is to be done to a list: first entries go, then prices rise, then
// new entries come, at the price that they say.
type changes struct {
	remove  []string
	raises  raises
	dated   cost.Date // of raised prices
	entries []cost.Entry
}

// raises are shares that prices rise by, by kind of line.
type raises map[cost.Kind]unit.Ratio

func (r *raises) String() string { return "" }

// Set reads a flag such as "goods=4 %".
func (r *raises) Set(text string) error {
	name, by, ok := strings.Cut(text, "=")
	if !ok {
		return fmt.Errorf("want a kind of line and a share, such as \"goods=4 %%\"")
	}
	kind, err := cost.ParseKind(strings.TrimSpace(name))
	if err != nil {
		return err
	}
	share, err := unit.ParseRatio(strings.TrimSpace(by))
	if err != nil {
		return err
	}
	if share <= -1 || share > 10 {
		return fmt.Errorf("%s: want more than -100 %%, at most 1000 %%", share)
	}
	if _, again := (*r)[kind]; again {
		return fmt.Errorf("%s is raised twice", kind)
	}
	if *r == nil {
		*r = raises{}
	}
	(*r)[kind] = share
	return nil
}

// apply gives the changed list; the old one stays as it is.
func (c changes) apply(old cost.PriceList) (cost.PriceList, error) {
	list, err := old.Without(c.remove...)
	if err != nil {
		return list, err
	}
	waiting := maps.Clone(c.raises)
	var raised []cost.Entry
	for _, e := range list.Entries() {
		share, rises := c.raises[e.Kind]
		if !rises {
			continue
		}
		delete(waiting, e.Kind)
		if e.Price, err = raise(e.Price, share); err != nil {
			return list, fmt.Errorf("%s: %w", e.Code, err)
		}
		e.Dated = c.dated
		raised = append(raised, e)
	}
	for kind := range waiting {
		return list, fmt.Errorf("nothing of the list is of the kind %s", kind)
	}
	if list, err = list.With(raised...); err != nil {
		return list, err
	}
	return list.With(c.entries...)
}

// raise gives a price that rises by a share, rounded to whole cents.
func raise(p cost.AnyPrice, share unit.Ratio) (cost.AnyPrice, error) {
	whole, err := p.Amount().Round(cost.HalfUp)
	if err != nil {
		return p, err
	}
	if !whole.Equal(p.Amount()) {
		return p, fmt.Errorf("%s is finer than the smallest coin: put its new price among the changes", p)
	}
	amount, err := p.Amount().Scale(1+share, cost.HalfUp)
	if err != nil {
		return p, err
	}
	var raised cost.AnyPrice
	err = raised.UnmarshalText([]byte(amount.String() + "/" + p.UnitText()))
	return raised, err
}

// told says what changes, in the order of the new list, then what goes.
func told(old, list cost.PriceList) []string {
	before := map[string]cost.Entry{}
	for _, e := range old.Entries() {
		before[e.Code] = e
	}
	var out []string
	for _, e := range list.Entries() {
		was, known := before[e.Code]
		delete(before, e.Code)
		switch {
		case !known:
			out = append(out, fmt.Sprintf("new: %s, %s, %s", e.Code, e.What, e.Price))
		case was.Price.String() != e.Price.String():
			out = append(out, fmt.Sprintf("%s: %s -> %s", e.Code, was.Price, e.Price))
		case text(was) != text(e):
			out = append(out, fmt.Sprintf("%s: changed, at the same price", e.Code))
		}
	}
	for _, code := range slices.Sorted(maps.Keys(before)) {
		out = append(out, "gone: "+code)
	}
	return out
}

// text writes an entry, so that two can be told apart.
func text(e cost.Entry) string { return fmt.Sprintf("%+v", e) }
