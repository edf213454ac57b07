package job

import (
	"errors"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Used is how much was used: of a roll a length, of hides an area, or time. It is one
// of the three; as text it is "17 yd", "96 sq ft" or "3 h". The zero value is not known.
type Used struct {
	Length unit.Length
	Area   unit.Area
	Time   unit.Duration
}

// IsZero tells whether nothing is known.
func (u Used) IsZero() bool { return u == Used{} }

// MarshalText writes it as UnmarshalText reads it.
func (u Used) MarshalText() ([]byte, error) {
	switch {
	case u.Area != 0:
		return u.Area.MarshalText()
	case u.Length != 0:
		return u.Length.MarshalText()
	case u.Time != 0:
		return u.Time.MarshalText()
	}
	return nil, nil
}

// UnmarshalText reads a length, an area or a time; empty text is not known. Errors are those
// of unit.ParseLength.
func (u *Used) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*u = Used{}
		return nil
	}
	length, err := unit.ParseLength(string(text))
	if err == nil {
		*u = Used{Length: length}
		return nil
	}
	area, areaErr := unit.ParseArea(string(text))
	if areaErr == nil {
		*u = Used{Area: area}
		return nil
	}
	if time, err := unit.ParseDuration(string(text)); err == nil {
		*u = Used{Time: time}
		return nil
	}
	var in *unit.InputError
	if errors.As(err, &in) {
		return check.Refuse("", string(text), in.Err, wantUsed)
	}
	return err
}

const wantUsed = "a length such as \"17 yd\", or an area of hides such as \"96 sq ft\""

// check refuses what was used of the other kind of goods.
func (u Used) check(kind GoodsKind) error {
	switch {
	case u.Time != 0, kind == RollGoods && u.Area != 0, kind == HideGoods && u.Length != 0:
		text, _ := u.MarshalText() //nolint:errcheck // quantities always write
		return check.Refuse("", string(text), unit.ErrUnknownUnit, wantUsed)
	case u.Length != 0:
		return check.Positive("", u.Length)
	}
	return check.Between("", u.Area, 0, mostUsed)
}

const mostUsed = 1_000_000 * unit.SquareMetre

// Afterwards sets what a job took in the end beside what was quoted. It changes
// nothing of the quote.
type Afterwards struct {
	Lines []Taken `json:"lines"` // time first, then goods
	// Time is how much longer the work took than was quoted, and Cost how much more
	// time and goods cost, before markup: below zero where they took less.
	Time unit.Duration `json:"time"`
	Cost cost.Money    `json:"cost"`
}

// Taken is what was quoted and what was taken of some time or goods, and what the
// difference comes to at the rate of the hour or the price of the goods.
type Taken struct {
	Piece  string     `json:"piece,omitempty"` // of furniture, of time for one
	What   string     `json:"what"`            // the task, or the name of the goods
	Goods  string     `json:"goods,omitempty"` // their id
	Quoted Used       `json:"quoted"`
	Actual Used       `json:"actual"`
	More   Used       `json:"more"` // below zero where less was taken
	Cost   cost.Money `json:"cost"` // of More
}

// afterwards compares what was noted of the job with the order; nil where nothing
// was.
func (d draft) afterwards(o WorkOrder) (*Afterwards, faults) {
	out := Afterwards{Lines: append(hoursTaken(o), d.goodsTaken(o)...)}
	if len(out.Lines) == 0 {
		return nil, nil
	}
	hourly, _, f := d.spec.hour()
	if len(f) > 0 {
		return nil, f
	}
	var err error
	if out.Cost, err = cost.Zero(d.spec.Currency); err != nil {
		return nil, faults{err}
	}
	for i := range out.Lines {
		x, at := &out.Lines[i], unit.Path("quote.labour_rate")
		of := func(u Used) (cost.Money, error) { return hourly.Of(u.Time, d.spec.Quote.rounding()) }
		if x.Goods != "" {
			place := slices.IndexFunc(d.spec.Goods, func(g GoodsSpec) bool { return g.ID == x.Goods })
			g := d.spec.Goods[place]
			at = unit.Path("goods").At(place).Dot("actual")
			of = func(u Used) (cost.Money, error) { return g.Price.of(u, d.spec.Quote.rounding(), d.spec.Currency) }
			if g.customers() { // their own cost the shop nothing
				of = func(Used) (cost.Money, error) { return cost.Zero(d.spec.Currency) }
			}
		}
		if err = x.compare(of); err == nil {
			out.Time, err = out.Time.Plus(x.More.Time)
		}
		if err == nil {
			out.Cost, err = out.Cost.Plus(x.Cost)
		}
		if err != nil {
			f.add(at, err)
			return nil, f
		}
	}
	return &out, nil
}

// compare fills in the difference and what it comes to.
func (x *Taken) compare(of func(Used) (cost.Money, error)) error {
	q, a := x.Quoted, x.Actual
	x.More = Used{Length: a.Length - q.Length, Area: a.Area - q.Area, Time: a.Time - q.Time} // none below zero, so that no difference is beyond its type
	was, err := of(q)
	if err != nil {
		return err
	}
	is, err := of(a)
	if err == nil {
		x.Cost, err = is.Minus(was)
	}
	return err
}

func hoursTaken(o WorkOrder) []Taken {
	var out []Taken
	for _, b := range o.Labour {
		if b.Actual != 0 {
			out = append(out, Taken{Piece: b.Piece, What: b.Task, Quoted: Used{Time: b.Time}, Actual: Used{Time: b.Actual}})
		}
	}
	for _, u := range o.Usual {
		if u.Actual != 0 {
			out = append(out, Taken{Piece: u.Piece, What: "all tasks", Quoted: Used{Time: u.Quoted}, Actual: Used{Time: u.Actual}})
		}
	}
	return out
}

func (d draft) goodsTaken(o WorkOrder) []Taken {
	var out []Taken
	for _, p := range o.Purchases {
		g, ok, _ := d.goods.find(p.Goods) //nolint:errcheck // it was bought
		if ok && !g.Actual.IsZero() {
			out = append(out, Taken{What: p.Name, Goods: p.Goods, Quoted: p.wanted(), Actual: g.Actual})
		}
	}
	return out
}

// wanted is what was quoted of goods, bought or at hand.
func (p Purchase) wanted() Used {
	switch {
	case p.Stock != nil && p.Stock.Alone != nil:
		return Used{Length: p.Stock.Alone.Order}
	case p.Stock != nil && p.Plan != nil:
		return Used{Area: p.Plan.Areas.Sold}
	}
	return Used{Length: p.Length, Area: p.Area}
}

// of prices so much of goods; a customer's own may have no price.
func (p GoodsPrice) of(u Used, round cost.Rounding, currency cost.Currency) (cost.Money, error) {
	switch {
	case p.IsZero():
		return cost.Zero(currency)
	case p.PerArea.Unit() != 0:
		return p.PerArea.Of(u.Area, round)
	}
	return p.PerLength.Of(u.Length, round)
}
