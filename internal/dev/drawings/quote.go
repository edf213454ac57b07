package main

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// quote shows the lines of a quote, end to end, up to its total.
func quote() (*sheet, error) {
	lines, err := quoteLines()
	if err != nil {
		return nil, err
	}
	q, err := cost.NewQuote(cost.Terms{
		Currency:  cost.USD,
		Tax:       cost.Tax{Levies: []cost.Levy{{Name: "sales tax", Rate: 6.25 * unit.Percent, On: []cost.TaxClass{"goods", "foam"}}}},
		Discounts: []cost.Discount{{Name: "discount", Rate: 5 * unit.Percent, Kinds: []cost.Kind{cost.Labour}}},
	}, lines...)
	if err != nil {
		return nil, err
	}
	s := newSheet(300, "From the lines to the total")
	y := s.given("Goods are sold with 25 % on their cost; 5 % off the", "work; tax of 6.25 % on cloth and foam.")
	const left, wide = 108.0, 214.0
	share := func(m cost.Money) (float64, error) {
		r, err := m.Per(q.Subtotal)
		return float64(wide * float64(r)), err
	}
	at := left
	bar := func(name string, amount cost.Money, from float64, fill string) error {
		w, err := share(amount)
		if err != nil {
			return err
		}
		s.left(margin, y+14, name)
		x := from
		if w < 0 {
			x, w = from+w, -w
		}
		s.Rect(place(x, y), w, 18, filled(thin, fill)...)
		s.right(pageWidth-margin, y+14, amount.GroupedAmount())
		y += 26
		return nil
	}
	for _, l := range q.Lines {
		if err := bar(l.What, l.Amount, at, cloth); err != nil {
			return nil, err
		}
		w, err := share(l.Amount)
		if err != nil {
			return nil, err
		}
		at += w
	}
	if err := bar("discount", q.Discount.Neg(), at, paper); err != nil {
		return nil, err
	}
	off, err := share(q.Discount)
	if err != nil {
		return nil, err
	}
	if err := bar("tax", q.Tax, at-off, paper); err != nil {
		return nil, err
	}
	if err := bar("total", q.Total, left, "#bbb"); err != nil {
		return nil, err
	}
	return s, nil
}

// quoteLines are cloth, foam, work and delivery of a chair.
func quoteLines() ([]cost.Line, error) {
	yard, err := cost.ParsePrice[unit.Length]("42.00 USD/yd")
	if err != nil {
		return nil, err
	}
	board, err := cost.ParsePrice[unit.Volume]("5.40 USD/bd ft")
	if err != nil {
		return nil, err
	}
	hour, err := cost.ParsePrice[unit.Duration]("64.55 USD/h")
	if err != nil {
		return nil, err
	}
	van, err := cost.ParseMoney("85.00 USD")
	if err != nil {
		return nil, err
	}
	up := cost.Markup(25 * unit.Percent)
	var lines []cost.Line
	for _, line := range []func() (cost.Line, error){
		cost.Item[unit.Length]{Kind: cost.Goods, What: "cloth", Quantity: 7*unit.Yard + unit.Yard/4, Price: yard, Uplift: up}.Line,
		cost.Item[unit.Volume]{Kind: cost.Foam, What: "foam", Quantity: 16 * unit.BoardFoot, Price: board, Uplift: up}.Line,
		cost.Item[unit.Duration]{Kind: cost.Labour, What: "work", Quantity: 14*unit.Hour + 30*unit.Minute, Price: hour}.Line,
		func() (cost.Line, error) { return cost.LumpSum(cost.Delivery, "delivery", van) },
	} {
		l, err := line()
		if err != nil {
			return nil, err
		}
		lines = append(lines, l)
	}
	return lines, nil
}
