package bench

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Span is a time from the quickest to the slowest that is usual. The zero value is
// no time.
type Span struct {
	From unit.Duration `json:"from" required:"true" hint:"the quickest that is usual"`
	To   unit.Duration `json:"to" required:"true" hint:"the slowest that is usual"`
}

// Factor is what a time is multiplied by, from the least to the most that is usual.
type Factor struct {
	From unit.Ratio `json:"from" required:"true" hint:"the least that is usual"`
	To   unit.Ratio `json:"to" required:"true" hint:"the most that is usual"`
}

// String writes both ends, such as "1 h to 1 h 30 min", or the one time that both are.
func (s Span) String() string {
	if s.From == s.To {
		return s.From.String()
	}
	return s.From.String() + " to " + s.To.String()
}

// Plus gives the span of two tasks one after the other. It wraps unit.ErrOverflow.
func (s Span) Plus(o Span) (Span, error) {
	from, err := s.From.Plus(o.From)
	if err != nil {
		return Span{}, err
	}
	to, err := s.To.Plus(o.To)
	if err != nil {
		return Span{}, err
	}
	return Span{from, to}, nil
}

// Caution tells of a figure of the shop that lies outside what is usual for a task,
// in a sentence without a full stop such as
//
//	sew: 30 min is less than the usual 1 h 30 min to 3 h
//
// and gives nothing for one that does not: it is no fault. The figure is from zero
// to 100 000 h; it wraps unit.ErrRange or unit.ErrForgottenUnit.
func (s Span) Caution(task string, own unit.Duration) (string, error) {
	if err := check.Between("own", own, 0, mostTotal); err != nil {
		return "", err
	}
	switch {
	case own < s.From:
		return task + ": " + own.String() + " is less than the usual " + s.String(), nil
	case own > s.To && s.To == 0:
		return task + ": " + own.String() + ", where no time is usual", nil
	case own > s.To:
		return task + ": " + own.String() + " is more than the usual " + s.String(), nil
	}
	return "", nil
}

const (
	mostTime  = 1000 * unit.Hour    // of a row
	mostTotal = 100_000 * unit.Hour // of what a row is compared with
)

func (s Span) check() error {
	if err := check.Between("from", s.From, 0, mostTime); err != nil {
		return err
	}
	return check.Between("to", s.To, s.From, mostTime)
}

func (f Factor) check(least, most unit.Ratio) error {
	if err := check.Ratio("from", f.From, least, most); err != nil {
		return err
	}
	return check.Ratio("to", f.To, f.From, most)
}

// stretch is a span or a factor as exact fractions.
type stretch struct{ from, usual, to exact.Rat }

// at puts what is usual a share of the way up: from + share (to - from).
func at(from, to, share exact.Rat) stretch {
	return stretch{from, from.Add(share.Mul(to.Sub(from))), to}
}

func (s Span) at(share exact.Rat) stretch {
	return at(exact.Int(int64(s.From)), exact.Int(int64(s.To)), share)
}

// at takes a checked factor as the decimals it was meant as.
func (f Factor) at(share exact.Rat) stretch {
	from, _ := exact.OfFloat(float64(f.From))
	to, _ := exact.OfFloat(float64(f.To))
	return at(from, to, share)
}

func (s stretch) times(o stretch) stretch {
	return stretch{s.from.Mul(o.from), s.usual.Mul(o.usual), s.to.Mul(o.to)}
}

// even is a factor that is the same from end to end.
func even(x exact.Rat) stretch { return stretch{x, x, x} }

// minutes rounds once: what is usual to the nearest minute, the ends outwards, so
// that what is usual lies between them.
func (s stretch) minutes() (Span, unit.Duration) {
	whole := func(x exact.Rat) unit.Duration {
		n, _ := x.Int64() // rows, factors and counts are bounded far below the type
		return unit.Duration(n) * unit.Minute
	}
	minute := exact.Int(int64(unit.Minute))
	return Span{whole(s.from.Quo(minute).Floor()), whole(s.to.Quo(minute).Ceil())}, whole(s.usual.Quo(minute).Nearest())
}
