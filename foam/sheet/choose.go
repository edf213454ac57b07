package sheet

import (
	"context"
	"fmt"

	"github.com/coverwright/coverwright/unit"
)

// choice is the best found so far for one thickness.
type choice struct {
	order  Order
	bought unit.Volume
	joins  int
}

// size is a stock size with the faces as they must be joined for it.
type size struct {
	stock Stock
	faces []face
	joins int
	least int         // sheets no layout can go under
	rows  int         // sheets the simple layout takes; zero when it was not tried
	one   unit.Volume // of a sheet
}

// cheapest lays the faces of one thickness on each stock size of it and keeps
// the layout that buys the least, of equal ones that with the fewest joins.
func cheapest(ctx context.Context, t unit.Length, faces []face, rules Rules) (choice, error) {
	var sizes []size
	var reason error
	for _, s := range rules.Stock {
		if s.Thickness != t {
			continue
		}
		cut, joins, err := joined(s, faces, rules.MostJoins)
		if err != nil {
			reason = err
			continue
		}
		one, err := s.block().Volume()
		if err != nil {
			return choice{}, err
		}
		sizes = append(sizes, size{stock: s, faces: cut, joins: joins, least: leastSheets(s, rules.Kerf, cut), one: one})
	}
	if len(sizes) == 0 {
		return choice{}, reason
	}
	// The simple layout comes first on every size, so that the engine is only
	// asked where even its best could beat what there is.
	var best choice
	for i := range sizes {
		z := &sizes[i]
		if most, bounded := best.room(*z); bounded && most < z.least {
			continue
		}
		var err error
		if z.rows, err = best.take(*z, rules.Kerf, rows(z.stock, rules.Kerf, z.faces)); err != nil {
			return choice{}, err
		}
	}
	for _, z := range sizes {
		most, _ := best.room(z)
		if z.rows <= z.least || most < z.least {
			continue
		}
		places, err := search(ctx, z.stock, rules.Kerf, z.faces, z.rows-1)
		if err != nil {
			return choice{}, fmt.Errorf("laying out %s: %w", z.stock.Name, err)
		}
		if places == nil {
			continue
		}
		if _, err := best.take(z, rules.Kerf, places); err != nil {
			return choice{}, err
		}
	}
	return best, nil
}

// room gives how many sheets of a size at the most would still be better than
// the choice; bounded is false as long as there is none.
func (c *choice) room(z size) (most int, bounded bool) {
	if c.order.Count == 0 {
		return 0, false
	}
	limit := c.bought - 1
	if z.joins < c.joins {
		limit = c.bought
	}
	if z.one == 0 {
		return mostCuts, true
	}
	return int(min(limit/z.one, mostCuts)), true
}

// take checks a layout, keeps it when it is better, and gives its sheets.
func (c *choice) take(z size, kerf unit.Length, places []Place) (int, error) {
	count, err := verify(z.stock, kerf, z.faces, places)
	if err != nil {
		return 0, fmt.Errorf("laying out %s: %w", z.stock.Name, err)
	}
	if most, bounded := c.room(z); bounded && count > most {
		return count, nil
	}
	bought, err := z.one.Times(count)
	if err != nil {
		return 0, err
	}
	order := Order{Stock: z.stock, Count: count, Bound: z.least, Cuts: make([]Cut, len(places))}
	for i, f := range z.faces {
		order.Cuts[i] = f.Cut
		order.Cuts[i].Place = places[i]
	}
	*c = choice{order, bought, z.joins}
	return count, nil
}
