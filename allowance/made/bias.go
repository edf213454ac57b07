package made

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Bias strips are cut at 45 degrees to the grain, for welt round tight curves
// and for cloth that ravels.

// BiasYieldBound gives the length of strip that a piece of goods cannot
// exceed: area / strip width. No seam and no corner is allowed for. Width and
// height are above zero, strip at least 1 mm.
func BiasYieldBound(width, height, strip unit.Length) (unit.Length, error) {
	if err := checkBias(width, height, strip); err != nil {
		return 0, err
	}
	a, err := width.By(height)
	if err != nil {
		return 0, err
	}
	return a.Over(strip, unit.Down)
}

// BiasSquareBound gives the side of the smallest square that holds a length L
// of strip w by area: √(L w), rounded up to step (zero: to the nanometre).
// Common practice rounds up to the next inch.
func BiasSquareBound(length, strip, step unit.Length) (unit.Length, error) {
	if err := check.Positive("length", length); err != nil {
		return 0, err
	}
	if err := check.Length("strip", strip, unit.Millimetre, unit.Metre); err != nil {
		return 0, err
	}
	side := math.Sqrt(float64(length) * float64(strip))
	l, err := nano.Length(math.Ceil(side))
	if err != nil {
		return 0, err
	}
	return stepUp(l, step)
}

// LongestBias gives the longest single strip across goods of a width, in cloth
// as long as it is wide: width × √2. The strip's own width is not taken off.
func LongestBias(width unit.Length) (unit.Length, error) {
	if err := check.Positive("width", width); err != nil {
		return 0, err
	}
	return nano.Length(float64(width) * math.Sqrt2)
}

// BiasTube is a continuous strip: a rectangle sheared to 45 degrees, sewn into
// a tube one strip out of step, and cut round and round.
type BiasTube struct {
	Width  unit.Length `json:"width"`          // of the goods; the strips are marked along this side
	Height unit.Length `json:"height"`         // of the goods
	Strip  unit.Length `json:"strip"`          // cut width of the strip, at least 1 mm
	Seam   unit.Length `json:"seam,omitempty"` // allowance of the two tube seams; zero ignores them
}

// BiasYield is what a piece of goods gives.
type BiasYield struct {
	Strips int         `json:"strips"` // turns of the tube, or separate strips
	Length unit.Length `json:"length"` // of strip, joined
	Joins  int         `json:"joins"`  // between separate strips; a tube is sewn before it is cut
	// Share is the length over BiasYieldBound.
	Share unit.Ratio `json:"share"`
}

// Yield gives the length of the continuous strip. The first seam shortens the
// width, the second the height, by two allowances each:
//
//	strips = ⌊(W - 2 s) / (w √2)⌋
//	length = strips × (H - 2 s) √2
//
// For a square of side n w √2 + 2 s this is 2 n² w; see [BiasSquareFor]. Where
// the height is more than the width, the goods are sheared in more than one
// cut.
//
// Drawing: allowance/doc/biastube.svg
func (t BiasTube) Yield() (BiasYield, error) {
	if err := t.check(); err != nil {
		return BiasYield{}, err
	}
	w, h := t.Width-2*t.Seam, t.Height-2*t.Seam
	y := BiasYield{Strips: fitDiagonals(w, t.Strip)}
	turn, err := nano.Length(math.Floor(float64(h) * math.Sqrt2))
	if err != nil {
		return BiasYield{}, err
	}
	if y.Length, err = turn.Times(y.Strips); err != nil {
		return BiasYield{}, err
	}
	return y.withShare(t.Width, t.Height, t.Strip)
}

// BestBiasTube gives the better of the two ways to mark a rectangle: the
// strips along its width or along its height.
func BestBiasTube(t BiasTube) (BiasTube, BiasYield, error) {
	one, err := t.Yield()
	if err != nil {
		return BiasTube{}, BiasYield{}, err
	}
	turned := t
	turned.Width, turned.Height = t.Height, t.Width
	two, err := turned.Yield()
	if err != nil {
		return BiasTube{}, BiasYield{}, err
	}
	if two.Length > one.Length {
		return turned, two, nil
	}
	return t, one, nil
}

// BiasTubeFor gives the tube of least height that yields at least a length of
// strip from goods of a given width: the way back from length to rectangle.
//
//	H = 2 s + length / (√2 strips)
//
// Height is rounded up to step (zero: to the nanometre).
func BiasTubeFor(length, width, strip, seam, step unit.Length) (BiasTube, error) {
	if err := check.Positive("length", length); err != nil {
		return BiasTube{}, err
	}
	if err := check.Length("seam", seam, 0, unit.Metre); err != nil {
		return BiasTube{}, err
	}
	t := BiasTube{Width: width, Height: 2*seam + unit.Metre, Strip: strip, Seam: seam}
	if err := t.check(); err != nil {
		return BiasTube{}, err
	}
	n := fitDiagonals(width-2*seam, strip)
	if n == 0 {
		return BiasTube{}, check.Refuse("width", width.String(), unit.ErrRange, "goods wide enough for one strip at 45 degrees")
	}
	each := math.Ceil(float64(length) / float64(n))
	h, err := nano.Length(math.Ceil(each/math.Sqrt2) + 1)
	if err != nil {
		return BiasTube{}, err
	}
	t.Height, err = stepUp(h+2*seam, step)
	if err != nil {
		return BiasTube{}, err
	}
	return t, nil
}

// BiasTubeSquare is the square for a continuous strip by the whole-turn rule.
type BiasTubeSquare struct {
	Turns  int         `json:"turns"`
	Side   unit.Length `json:"side"`
	Length unit.Length `json:"length"` // of strip, at least what was asked for
}

// BiasSquareFor gives the square that yields at least a length T of strip w in
// a whole number of turns:
//
//	n = ⌈√(T / (2 w))⌉,  side = n w √2 + 2 s,  length = 2 n² w
//
// with s the allowance of each tube seam (1/4 in is common practice). The rule
// is common practice; it follows from [BiasTube.Yield].
//
// Drawing: allowance/doc/biastube.svg
func BiasSquareFor(length, strip, seam unit.Length) (BiasTubeSquare, error) {
	if err := check.Positive("length", length); err != nil {
		return BiasTubeSquare{}, err
	}
	if err := check.Length("strip", strip, unit.Millimetre, unit.Metre); err != nil {
		return BiasTubeSquare{}, err
	}
	if err := check.Length("seam", seam, 0, unit.Metre); err != nil {
		return BiasTubeSquare{}, err
	}
	// smallest n with 2 n² w >= T, settled in whole numbers
	n := int64(math.Sqrt(float64(length) / (2 * float64(strip))))
	for n > 1 && 2*(n-1)*(n-1)*int64(strip) >= int64(length) {
		n--
	}
	for n < 1 || 2*n*n*int64(strip) < int64(length) {
		n++
	}
	side, err := nano.Length(math.Ceil(float64(n) * float64(strip) * math.Sqrt2))
	if err != nil {
		return BiasTubeSquare{}, err
	}
	return BiasTubeSquare{Turns: int(n), Side: side + 2*seam, Length: unit.Length(2 * n * n * int64(strip))}, nil
}

// BiasStrips cuts a rectangle into separate strips at 45 degrees that are then
// joined along the grain.
type BiasStrips struct {
	Width  unit.Length `json:"width"`          // of the goods
	Height unit.Length `json:"height"`         // of the goods
	Strip  unit.Length `json:"strip"`          // cut width of the strip, at least 1 mm
	Seam   unit.Length `json:"seam,omitempty"` // allowance of each join
	// Shortest is the shortest strip worth joining; zero keeps every strip
	// that is longer than the seams at its ends.
	Shortest unit.Length `json:"shortest,omitempty"`
}

// Yield gives the strips and their joined length. The strips are marked from
// one corner; a strip that begins at distance u from that corner, measured
// across the strips, is as long as the shorter of its two edges, where an edge
// at u is
//
//	2 u, at most √2 × the shorter side, falling again to the far corner
//
// Each join, along the grain, takes 2 √2 s of length.
func (b BiasStrips) Yield() (BiasYield, error) {
	if err := checkBias(b.Width, b.Height, b.Strip); err != nil {
		return BiasYield{}, err
	}
	if err := check.Length("seam", b.Seam, 0, unit.Metre); err != nil {
		return BiasYield{}, err
	}
	if err := check.NotNegative("shortest", b.Shortest); err != nil {
		return BiasYield{}, err
	}
	breadth := float64(b.Width+b.Height) / math.Sqrt2
	most := float64(min(b.Width, b.Height)) * math.Sqrt2
	w := float64(b.Strip)
	n := int64(breadth / w)
	if n > mostPieces {
		return BiasYield{}, check.Refuse("strip", b.Strip.String(), unit.ErrRange, "a strip that divides the goods into 10000 strips at most")
	}
	join := 2 * math.Sqrt2 * float64(b.Seam)
	edge := func(u float64) float64 { return min(2*u, most, 2*(breadth-u)) }
	least := max(join, float64(b.Shortest))
	var y BiasYield
	var total float64
	for i := range n {
		l := min(edge(float64(float64(i)*w)), edge(float64(float64(i+1)*w)))
		if l <= least {
			continue
		}
		y.Strips++
		total += l
	}
	y.Joins = max(0, y.Strips-1)
	total -= float64(float64(y.Joins) * join)
	var err error
	if y.Length, err = nano.Length(math.Floor(total)); err != nil {
		return BiasYield{}, err
	}
	return y.withShare(b.Width, b.Height, b.Strip)
}

// BiasStripsFor gives the goods of least height that yield at least a length of
// separate strips: the way back from length to rectangle. Width, strip, seam
// and shortest are those of [BiasStrips]; height is rounded up to step (zero:
// to the nanometre) and is at most 1 km.
func BiasStripsFor(length unit.Length, b BiasStrips, step unit.Length) (BiasStrips, error) {
	if err := check.Positive("length", length); err != nil {
		return BiasStrips{}, err
	}
	// more goods never yield less, so halve the span that holds the answer
	reaches := func(h unit.Length) (bool, error) {
		b.Height = h
		y, err := b.Yield()
		return y.Length >= length, err
	}
	hi := 10 * unit.Millimetre
	for {
		ok, err := reaches(hi)
		if err != nil {
			return BiasStrips{}, err
		}
		if ok {
			break
		}
		if hi >= check.Longest/2 {
			return BiasStrips{}, check.Refuse("length", length.String(), unit.ErrRange, "a length that 500 m of the goods yield")
		}
		hi *= 2
	}
	lo := 10 * unit.Micrometre
	for lo < hi {
		mid := lo + (hi-lo)/2
		ok, err := reaches(mid)
		if err != nil {
			return BiasStrips{}, err
		}
		if ok {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	h, err := stepUp(hi, step)
	b.Height = h
	return b, err
}

// StripsAcross is the shop's rule for strips cut straight across the goods.
type StripsAcross struct {
	Count int         `json:"count"`
	Goods unit.Length `json:"goods"` // length of goods used
}

// StripsAcrossFor gives the rule common in the trade: strips = ⌈L / goods
// width⌉, goods = strips × strip width. It ignores joins; [WeltRun.Cut] counts
// them.
func StripsAcrossFor(length, goods, strip unit.Length) (StripsAcross, cite.Basis, error) {
	if err := check.Positives([]string{"length", "goods"}, length, goods); err != nil {
		return StripsAcross{}, cite.Basis{}, err
	}
	if err := check.Length("strip", strip, unit.Millimetre, unit.Metre); err != nil {
		return StripsAcross{}, cite.Basis{}, err
	}
	n := nano.CeilDiv(length, goods)
	if n > mostPieces {
		return StripsAcross{}, cite.Basis{}, check.Refuse("goods", goods.String(), unit.ErrRange, "goods wide enough for 10000 strips at most")
	}
	return StripsAcross{Count: int(n), Goods: unit.Length(n) * strip}, cite.Practice("joins not counted"), nil
}

func (t BiasTube) check() error {
	if err := checkBias(t.Width, t.Height, t.Strip); err != nil {
		return err
	}
	if err := check.Length("seam", t.Seam, 0, unit.Metre); err != nil {
		return err
	}
	if err := check.Length("width", t.Width, 2*t.Seam+unit.Millimetre, check.Longest); err != nil {
		return err
	}
	return check.Length("height", t.Height, 2*t.Seam+unit.Millimetre, check.Longest)
}

func checkBias(width, height, strip unit.Length) error {
	if err := check.Positives([]string{"width", "height"}, width, height); err != nil {
		return err
	}
	return check.Length("strip", strip, unit.Millimetre, unit.Metre)
}

// fitDiagonals gives how many strips of width w at 45 degrees stand along an
// edge: ⌊l / (w √2)⌋, allowing for the nanometre grid.
func fitDiagonals(l, w unit.Length) int {
	return int(float64(l+1) / (float64(w) * math.Sqrt2))
}

func (y BiasYield) withShare(width, height, strip unit.Length) (BiasYield, error) {
	bound, err := BiasYieldBound(width, height, strip)
	if err != nil {
		return BiasYield{}, err
	}
	if bound > 0 {
		y.Share, err = y.Length.Per(bound)
	}
	return y, err
}
