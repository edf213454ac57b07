package rate

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// LearningModel names what falls by the learning rate each time the number of
// pieces doubles: UnitModel or CumulativeAverage. The two differ widely at the
// same rate, so the zero value is neither and is refused.
type LearningModel uint8

const (
	// UnitModel lets the time of the single piece fall: piece n takes
	// T1 × n^b, and n pieces the sum of 1 to n.
	UnitModel LearningModel = iota + 1
	// CumulativeAverage lets the average of all pieces fall: n pieces average
	// T1 × n^b, and take T1 × n^(b+1) together.
	CumulativeAverage
)

var modelNames = []string{"unit", "cumulative average"}

// String gives the name.
func (m LearningModel) String() string {
	if m < UnitModel || m > CumulativeAverage {
		return "no model"
	}
	return modelNames[m-1]
}

// ParseLearningModel reads "unit" or "cumulative average". It wraps
// unit.ErrUnknown.
func ParseLearningModel(name string) (LearningModel, error) {
	if i := slices.Index(modelNames, name); i >= 0 {
		return LearningModel(i + 1), nil
	}
	return 0, check.Refuse("model", name, unit.ErrUnknown, "one of "+strings.Join(modelNames, ", "))
}

// MarshalText writes the name; the zero value is an empty text.
func (m LearningModel) MarshalText() ([]byte, error) {
	if m == 0 {
		return []byte{}, nil
	}
	return []byte(m.String()), m.check()
}

// UnmarshalText reads a name as ParseLearningModel does; empty text is no
// model.
func (m *LearningModel) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*m = 0
		return nil
	}
	v, err := ParseLearningModel(string(text))
	if err == nil {
		*m = v
	}
	return err
}

func (m LearningModel) check() error {
	if m < UnitModel || m > CumulativeAverage {
		return check.Refuse("model", "", unit.ErrRequired, "one of "+strings.Join(modelNames, ", "))
	}
	return nil
}

// Learning is a learning curve: each doubling of the number of pieces leaves
// Rate of the time.
//
//	b = ln(rate) / ln 2
//
// Which rate fits upholstery was found nowhere; take it from your own bench.
type Learning struct {
	Model LearningModel `json:"model"`
	// Rate is from 50 % to 100 %; 100 % is no learning.
	Rate unit.Ratio `json:"rate"`
}

const (
	mostRepeats = 100_000
	slowest     = 0.5 // the steepest learning rate accepted
)

// Exponent gives b, from -1 to 0. It wraps unit.ErrRange or unit.ErrNotFinite.
func (l Learning) Exponent() (unit.Ratio, error) {
	if _, err := shareOf("rate", l.Rate, slowest, 1); err != nil {
		return 0, err
	}
	return unit.Ratio(math.Log2(float64(l.Rate))), nil
}

// factor gives the time of pieces 1 to n as a multiple of T1.
func (l Learning) factor(n int) (float64, error) {
	if err := l.Model.check(); err != nil {
		return 0, err
	}
	b, err := l.Exponent()
	if err != nil {
		return 0, err
	}
	if n < 0 || n > mostRepeats {
		return 0, check.Refuse("pieces", strconv.Itoa(n), unit.ErrRange, "from 0 to 100000")
	}
	if n == 0 {
		return 0, nil
	}
	if l.Model == CumulativeAverage {
		return math.Pow(float64(n), float64(b)+1), nil
	}
	sum := 0.0
	for i := 1; i <= n; i++ {
		sum += math.Pow(float64(i), float64(b))
	}
	return sum, nil
}

// Factor gives the time of the first n pieces as a multiple of the first.
// It wraps unit.ErrRange, unit.ErrRequired or unit.ErrNotFinite.
func (l Learning) Factor(n int) (unit.Ratio, error) {
	f, err := l.factor(n)
	return unit.Ratio(f), err
}

// UnitFactor gives the time of piece n alone as a multiple of the first.
// Errors are those of Factor; n is at least 1.
func (l Learning) UnitFactor(n int) (unit.Ratio, error) {
	if n < 1 {
		return 0, check.Refuse("piece", strconv.Itoa(n), unit.ErrRange, "from 1 to 100000")
	}
	if l.Model == UnitModel {
		b, err := l.Exponent()
		if err != nil {
			return 0, err
		}
		if n > mostRepeats {
			return 0, check.Refuse("piece", strconv.Itoa(n), unit.ErrRange, "from 1 to 100000")
		}
		return unit.Ratio(math.Pow(float64(n), float64(b))), nil
	}
	all, err := l.factor(n)
	if err != nil {
		return 0, err
	}
	before, err := l.factor(n - 1)
	return unit.Ratio(all - before), err
}

// Total gives the time of the first n pieces when the first takes first, to
// the millisecond. Errors are those of Factor, and unit.ErrOverflow.
func (l Learning) Total(first unit.Duration, n int) (unit.Duration, error) {
	return l.Lot(first, 0, n)
}

// Lot gives the time of pieces after+1 to upTo: four more chairs after six.
// Errors are those of Total.
func (l Learning) Lot(first unit.Duration, after, upTo int) (unit.Duration, error) {
	if err := firstTime(first); err != nil {
		return 0, err
	}
	a, err := l.factor(after)
	if err != nil {
		return 0, unit.InField("after", err)
	}
	b, err := l.factor(upTo)
	if err != nil {
		return 0, unit.InField("up_to", err)
	}
	if upTo < after {
		return 0, check.Refuse("up_to", strconv.Itoa(upTo), unit.ErrRange, "at least "+strconv.Itoa(after))
	}
	return first.Scale(unit.Ratio(b-a), unit.Nearest)
}

// Unit gives the time of piece n alone. Errors are those of UnitFactor.
func (l Learning) Unit(first unit.Duration, n int) (unit.Duration, error) {
	if err := firstTime(first); err != nil {
		return 0, err
	}
	f, err := l.UnitFactor(n)
	if err != nil {
		return 0, err
	}
	return first.Scale(f, unit.Nearest)
}

// Average gives the average time of the first n pieces; n is at least 1.
// Errors are those of Total.
func (l Learning) Average(first unit.Duration, n int) (unit.Duration, error) {
	if n < 1 {
		return 0, check.Refuse("pieces", strconv.Itoa(n), unit.ErrRange, "from 1 to 100000")
	}
	if err := firstTime(first); err != nil {
		return 0, err
	}
	f, err := l.factor(n)
	if err != nil {
		return 0, err
	}
	return first.Scale(unit.Ratio(f/float64(n)), unit.Nearest)
}

// Explain tells how the time of n pieces came about. Errors are those of
// Total.
func (l Learning) Explain(first unit.Duration, n int) (cost.Figure, error) {
	t, err := l.Total(first, n)
	if err != nil {
		return cost.Figure{}, err
	}
	f := cost.Figure{Name: "time of " + strconv.Itoa(n) + " pieces", Value: t.String(),
		Formula: "T1 × sum of i^b for i = 1 to n, b = ln(rate) / ln 2", Rule: l.Model.String() + " model, to the millisecond"}
	if l.Model == CumulativeAverage {
		f.Formula = "T1 × n^(b+1), b = ln(rate) / ln 2"
	}
	factor, err := l.Factor(n)
	if err != nil {
		return cost.Figure{}, err
	}
	rate, err := shareOf("rate", l.Rate, slowest, 1)
	f.Working = first.String() + " × " + strconv.FormatFloat(float64(factor), 'f', 4, 64) + ", rate " + unit.Ratio(rate.Float64()).String()
	return f, err
}

func firstTime(first unit.Duration) error {
	if first <= 0 || first > longestTime {
		return check.Refuse("first", first.String(), unit.ErrRange, "above zero, at most "+longestTime.String())
	}
	return nil
}

// LearningRate finds the rate from the time of the first piece and the average
// of the first n, by the cumulative-average model:
//
//	rate = (average / first)^(1 / log2 n)
//
// n is at least 2 and the average at most the first time, at least what a rate
// of 50 % leaves. It wraps unit.ErrRange.
func LearningRate(first, average unit.Duration, n int) (unit.Ratio, error) {
	if err := firstTime(first); err != nil {
		return 0, err
	}
	if n < 2 || n > mostRepeats {
		return 0, check.Refuse("pieces", strconv.Itoa(n), unit.ErrRange, "from 2 to 100000")
	}
	if average <= 0 || average > first {
		return 0, check.Refuse("average", average.String(), unit.ErrRange, "above zero, at most the first "+first.String())
	}
	r := math.Pow(float64(average)/float64(first), 1/math.Log2(float64(n)))
	if r < slowest {
		return 0, check.Refuse("average", average.String(), unit.ErrRange, "a learning rate of 50 % or more")
	}
	return unit.Ratio(r), nil
}

// Repeats is the shop's own way: each further piece is charged Step less, down
// to 1 - Most. Piece i counts max(1 - Most, 1 - Step × (i - 1)).
type Repeats struct {
	// Step is from 0 to 100 %, Most from 0 to 100 %.
	Step unit.Ratio `json:"step"`
	Most unit.Ratio `json:"most"`
}

// Total gives the time of n pieces when the first takes first. It wraps
// unit.ErrRange or unit.ErrNotFinite.
func (r Repeats) Total(first unit.Duration, n int) (unit.Duration, error) {
	if err := firstTime(first); err != nil {
		return 0, err
	}
	step, err := shareOf("step", r.Step, 0, 1)
	if err != nil {
		return 0, err
	}
	most, err := shareOf("most", r.Most, 0, 1)
	if err != nil {
		return 0, err
	}
	if n < 1 || n > mostRepeats {
		return 0, check.Refuse("pieces", strconv.Itoa(n), unit.ErrRange, "from 1 to 100000")
	}
	least := exact.Int(1).Sub(most)
	sum, one := exact.Int(0), exact.Int(1)
	for i := range n {
		if one.Cmp(least) <= 0 { // the rest all count the least
			sum = sum.Add(least.Mul(exact.Int(int64(n - i))))
			break
		}
		sum = sum.Add(one)
		one = one.Sub(step)
	}
	ms, ok := sum.Mul(exact.Int(int64(first))).Nearest().Int64()
	if !ok {
		return 0, check.Refuse("pieces", strconv.Itoa(n), unit.ErrOverflow, "a time that fits the type")
	}
	return unit.Duration(ms), nil
}
