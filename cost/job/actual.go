package job

import (
	"errors"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// GoodsUsed is how much of some goods was used: a length from a roll or an area of
// hides, one of the two. As text it is "17 yd" or "96 sq ft". The zero value is not
// known.
type GoodsUsed struct {
	Length unit.Length
	Area   unit.Area
}

// IsZero tells whether nothing is known.
func (u GoodsUsed) IsZero() bool { return u == GoodsUsed{} }

// MarshalText writes it as UnmarshalText reads it.
func (u GoodsUsed) MarshalText() ([]byte, error) {
	switch {
	case u.Area != 0:
		return u.Area.MarshalText()
	case u.Length != 0:
		return u.Length.MarshalText()
	}
	return nil, nil
}

// UnmarshalText reads a length or an area; empty text is not known. Errors are those
// of unit.ParseLength.
func (u *GoodsUsed) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*u = GoodsUsed{}
		return nil
	}
	length, err := unit.ParseLength(string(text))
	if err == nil {
		*u = GoodsUsed{Length: length}
		return nil
	}
	area, areaErr := unit.ParseArea(string(text))
	if areaErr == nil {
		*u = GoodsUsed{Area: area}
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
func (u GoodsUsed) check(kind GoodsKind) error {
	switch {
	case kind == RollGoods && u.Area != 0, kind == HideGoods && u.Length != 0:
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
	Hours []HoursTaken `json:"hours,omitempty"`
	Goods []GoodsTaken `json:"goods,omitempty"`
	// Time is how much longer the hours took than was quoted, and Cost how much more
	// hours and goods cost: below zero where they took less.
	Time unit.Duration `json:"time"`
	Cost cost.Money    `json:"cost"`
}

// HoursTaken is one entry of time: what was quoted, what it took, and what the
// difference comes to at the rate of the hour.
type HoursTaken struct {
	Piece  string        `json:"piece,omitempty"`
	Task   string        `json:"task"`
	Quoted unit.Duration `json:"quoted"`
	Actual unit.Duration `json:"actual"`
	More   unit.Duration `json:"more"` // below zero where it took less
	Cost   cost.Money    `json:"cost"` // of More
}

// GoodsTaken is what was bought and what was used of some goods, and what the
// difference comes to at their price, without markup.
type GoodsTaken struct {
	Goods  string     `json:"goods"` // id
	Name   string     `json:"name"`
	Quoted GoodsUsed  `json:"quoted"`
	Actual GoodsUsed  `json:"actual"`
	More   GoodsUsed  `json:"more"` // below zero where less was used
	Cost   cost.Money `json:"cost"` // of More
}

// afterwards compares what was noted of the job with the order; nil where nothing
// was.
func (d draft) afterwards(o WorkOrder) (*Afterwards, error) {
	var out Afterwards
	var err error
	if out.Hours, err = d.hoursTaken(o); err != nil {
		return nil, err
	}
	if out.Goods, err = d.goodsTaken(o); err != nil {
		return nil, err
	}
	if len(out.Hours)+len(out.Goods) == 0 {
		return nil, nil
	}
	if out.Cost, err = cost.Zero(d.spec.Currency); err != nil {
		return nil, err
	}
	for _, h := range out.Hours {
		if out.Time, err = out.Time.Plus(h.More); err == nil {
			out.Cost, err = out.Cost.Plus(h.Cost)
		}
		if err != nil {
			return nil, err
		}
	}
	for _, g := range out.Goods {
		if out.Cost, err = out.Cost.Plus(g.Cost); err != nil {
			return nil, err
		}
	}
	return &out, nil
}

func (d draft) hoursTaken(o WorkOrder) ([]HoursTaken, error) {
	var out []HoursTaken
	for _, b := range o.Labour {
		if b.Actual != 0 {
			out = append(out, HoursTaken{Piece: b.Piece, Task: b.Task, Quoted: b.Time, Actual: b.Actual})
		}
	}
	for _, u := range o.Usual {
		if u.Actual == 0 {
			continue
		}
		h := HoursTaken{Piece: u.Piece, Task: "all tasks", Actual: u.Actual, Quoted: u.Quoted}
		out = append(out, h)
	}
	if len(out) == 0 {
		return nil, nil
	}
	hourly, _, f := d.spec.hour()
	if len(f) > 0 {
		return nil, f.err()
	}
	for i := range out {
		h := &out[i]
		h.More = h.Actual - h.Quoted // both at most a few 100 000 h
		was, err := hourly.Of(h.Quoted, d.spec.Quote.rounding())
		if err != nil {
			return nil, err
		}
		is, err := hourly.Of(h.Actual, d.spec.Quote.rounding())
		if err != nil {
			return nil, err
		}
		if h.Cost, err = is.Minus(was); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func (d draft) goodsTaken(o WorkOrder) ([]GoodsTaken, error) {
	var out []GoodsTaken
	for _, p := range o.Purchases {
		g, ok, _ := d.goods.find(p.Goods) //nolint:errcheck // it was bought
		if !ok || g.Actual.IsZero() {
			continue
		}
		x := GoodsTaken{Goods: p.Goods, Name: p.Name, Quoted: GoodsUsed{p.Length, p.Area}, Actual: g.Actual}
		x.More = GoodsUsed{x.Actual.Length - x.Quoted.Length, x.Actual.Area - x.Quoted.Area}
		was, err := g.Price.of(x.Quoted, d.spec.Quote.rounding())
		if err != nil {
			return nil, err
		}
		is, err := g.Price.of(x.Actual, d.spec.Quote.rounding())
		if err != nil {
			return nil, err
		}
		if x.Cost, err = is.Minus(was); err != nil {
			return nil, err
		}
		out = append(out, x)
	}
	return out, nil
}

// of prices so much of goods.
func (p GoodsPrice) of(u GoodsUsed, round cost.Rounding) (cost.Money, error) {
	if p.PerArea.Unit() != 0 {
		return p.PerArea.Of(u.Area, round)
	}
	return p.PerLength.Of(u.Length, round)
}
