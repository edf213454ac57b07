package allowance

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// Verdict says how two edges of different length go together: [SewsFlat],
// [EaseIn], [Gather] or [WillNotSew]. The zero value is that they sew flat.
type Verdict uint8

const (
	// SewsFlat needs no ease.
	SewsFlat Verdict = iota
	// EaseIn takes the longer edge up while it is sewn, without folds.
	EaseIn
	// Gather takes the longer edge up in gathers or pleats.
	Gather
	// WillNotSew is too much for the seam.
	WillNotSew
)

var verdictNames = [...]string{"sews flat", "ease in", "gather", "will not sew"}

// String gives the verdict in words.
func (v Verdict) String() string { return enum.Name(v, "verdict", verdictNames[:]) }

// MarshalText writes the words.
func (v Verdict) MarshalText() ([]byte, error) { return enum.Text(v, "verdict", verdictNames[:]) }

// UnmarshalText reads what String writes.
func (v *Verdict) UnmarshalText(text []byte) error {
	return enum.Read(v, text, "verdict", verdictNames[:])
}

// EaseLimits are the largest shares of ease, (longer - shorter) / shorter, for
// each verdict. They rise from Flat to Gather; anything beyond will not sew.
type EaseLimits struct {
	Flat   unit.Ratio `json:"flat"`
	Ease   unit.Ratio `json:"ease"`
	Gather unit.Ratio `json:"gather"`
}

func (l EaseLimits) check() error {
	if err := check.Ratio("flat", l.Flat, 0, 1); err != nil {
		return err
	}
	if err := check.Ratio("ease", l.Ease, l.Flat, 10); err != nil {
		return err
	}
	return check.Ratio("gather", l.Gather, l.Ease, 10)
}

// SeamMatch compares two edges that are sewn together.
type SeamMatch struct {
	First      unit.Length `json:"first"`
	Second     unit.Length `json:"second"`
	Difference unit.Length `json:"difference"` // longer - shorter, never negative
	// Ease is the difference per length of the shorter edge.
	Ease    unit.Ratio `json:"ease"`
	Verdict Verdict    `json:"verdict"`
	Limits  EaseLimits `json:"limits"` // the limits the verdict was given by
}

// EasePer gives the length to take up in each given length of the shorter
// edge, such as 1/8 in per 10 in. Span is from zero to 1 km.
func (m SeamMatch) EasePer(span unit.Length) (unit.Length, error) {
	if err := check.NotNegative("span", span); err != nil {
		return 0, err
	}
	return span.Scale(m.Ease, unit.Nearest)
}

// MatchSeam compares two seam lines that are to be sewn together. Both are
// above zero, up to 1 km. The zero EaseLimits is refused: take those of an
// [EaseClass], or your own.
//
//	ease = (longer - shorter) / shorter
//
// A difference that is wanted, because it makes the cover curve, is no error;
// see [BowOf] and [BendOf].
func MatchSeam(first, second unit.Length, limits EaseLimits) (SeamMatch, error) {
	if err := check.Positives([]string{"first", "second"}, first, second); err != nil {
		return SeamMatch{}, err
	}
	if limits == (EaseLimits{}) {
		return SeamMatch{}, check.Required("limits", "limits, such as those of an EaseClass")
	}
	if err := limits.check(); err != nil {
		return SeamMatch{}, unit.InField("limits", err)
	}
	short, long := min(first, second), max(first, second)
	m := SeamMatch{First: first, Second: second, Difference: long - short, Limits: limits}
	var err error
	if m.Ease, err = m.Difference.Per(short); err != nil {
		return SeamMatch{}, err
	}
	switch {
	case m.Ease <= limits.Flat:
		m.Verdict = SewsFlat
	case m.Ease <= limits.Ease:
		m.Verdict = EaseIn
	case m.Ease <= limits.Gather:
		m.Verdict = Gather
	default:
		m.Verdict = WillNotSew
	}
	return m, nil
}

// MatchMark is one pair of marks that are brought together when the seam is
// sewn, as distances from the start of each edge.
type MatchMark struct {
	First  unit.Length `json:"first"`
	Second unit.Length `json:"second"`
}

// mostMarks bounds the marks of one seam.
const mostMarks = 1000

// Marks gives marks that spread the ease evenly over the whole seam, at most
// spacing apart on the shorter edge, both ends left out. The i-th of n
// intervals ends at i/n of each edge. Spacing is at least 1 mm.
//
// Drawing: allowance/doc/seammatch.svg
func (m SeamMatch) Marks(spacing unit.Length) ([]MatchMark, error) {
	return m.MarksBetween(spacing, 0, min(m.First, m.Second))
}

// MarksBetween gives marks that sew the seam flat up to from and after to, both
// on the shorter edge, and spread all the ease evenly between them, as where
// only the round of a crown is eased. Marks stand at from and to and at most
// spacing apart between; both ends of the seam are left out.
func (m SeamMatch) MarksBetween(spacing, from, to unit.Length) ([]MatchMark, error) {
	short := min(m.First, m.Second)
	if err := check.Positive("first", short); err != nil {
		return nil, err
	}
	if err := check.Length("spacing", spacing, unit.Millimetre, check.Longest); err != nil {
		return nil, err
	}
	if err := check.Length("from", from, 0, short); err != nil {
		return nil, err
	}
	if err := check.Length("to", to, from+10*unit.Micrometre, short); err != nil {
		return nil, err
	}
	n := nano.CeilDiv(to-from, spacing)
	if n > mostMarks {
		return nil, check.Length("spacing", spacing, (to-from)/mostMarks+1, check.Longest)
	}
	var marks []MatchMark
	for i := range int(n) + 1 {
		onShort, _ := (to - from).MulDiv(i, int(n), unit.Nearest)               //nolint:errcheck // a part of it
		onLong, _ := (to - from + m.Difference).MulDiv(i, int(n), unit.Nearest) //nolint:errcheck // and of that
		onShort += from
		onLong += from
		if onShort == 0 || onShort == short {
			continue
		}
		if m.First <= m.Second {
			marks = append(marks, MatchMark{First: onShort, Second: onLong})
		} else {
			marks = append(marks, MatchMark{First: onLong, Second: onShort})
		}
	}
	return marks, nil
}

// BowOf gives the curve a wider panel takes when its edges are sewn to a
// narrower one that stays flat: an arc of the longer length over the shorter
// as chord. This is how a front panel made wider than the back rounds the
// cover; the rise is how far it stands out in the middle.
func BowOf(wide, narrow unit.Length) (shape.ChordArc, error) {
	a, err := shape.ArcFromLength(narrow, wide)
	if err != nil {
		return shape.ChordArc{}, check.Renamed(err, map[string]string{"chord": "narrow", "length": "wide"})
	}
	return a, nil
}

// Bend is the curve of two panels of different length held a distance apart.
type Bend struct {
	Radius unit.Length `json:"radius"` // of the inner, shorter panel
	Angle  unit.Angle  `json:"angle"`  // through which both turn
}

// BendOf gives the curve of a cover whose two panels have different lengths
// and lie a fixed distance D apart, such as the outside and the inside of a
// round back with filling between. Both turn through the same angle:
//
//	θ = (outer - inner) / D,  R = inner / θ
//
// Inner is above zero, outer more than inner, apart above zero. A turn of more
// than a full circle is refused, and so is a radius over 10 km, as straight.
func BendOf(outer, inner, apart unit.Length) (Bend, error) {
	if err := check.Positives([]string{"inner", "apart"}, inner, apart); err != nil {
		return Bend{}, err
	}
	if err := check.Length("outer", outer, inner+1, check.Longest); err != nil {
		return Bend{}, err
	}
	turn := float64(outer-inner) / float64(apart)
	angle := unit.Angle(turn) * unit.Radian
	if err := check.Between("angle", angle, 0, unit.Turn); err != nil {
		return Bend{}, err
	}
	r := float64(inner) / turn
	if r > float64(10*check.Longest) {
		return Bend{}, check.Refuse("outer", outer.String(), unit.ErrRange, "a length that bends the cover to a radius of 10 km or less")
	}
	radius, err := nano.Length(r)
	return Bend{Radius: radius, Angle: angle}, err
}
