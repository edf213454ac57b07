package made

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// WeltStrip is the strip of cloth that covers a welt cord. The zero value is
// refused: a cord must be given.
type WeltStrip struct {
	Cord  unit.Length `json:"cord"`           // diameter, up to 100 mm
	Cloth unit.Length `json:"cloth,omitzero"` // thickness of the cloth, up to 20 mm; often ignored
	// Seam is the tail beside the cord, from the cord to the raw edge; by
	// default the allowance of a welted seam. From 0 to 2 m.
	Seam allowance.Override `json:"seam,omitzero"`
	// Step rounds the width up to a step of the rule, such as 1/8 in. Zero
	// means no rounding.
	Step unit.Length `json:"step,omitzero"`
}

// Width gives the cut width of the strip:
//
//	width = π (d + t) + 2 s
//
// with cord diameter d, cloth thickness t and tail s: the middle of the cloth
// runs round the cord at the radius (d + t) / 2. The term π d + 2 s is common
// practice; a 5/32 in cord with 1/2 in tails asks for 1.49 in and the trade
// cuts 1 1/2 in. The result is rounded to the nearest nanometre, then up to
// Step.
//
// Drawing: allowance/doc/welt.svg
func (w WeltStrip) Width() (unit.Length, error) {
	if err := check.Length("cord", w.Cord, 10*unit.Micrometre, 100*unit.Millimetre); err != nil {
		return 0, err
	}
	if err := check.Length("cloth", w.Cloth, 0, 20*unit.Millimetre); err != nil {
		return 0, err
	}
	def, _ := allowance.WeltedSeam.Default()
	s, err := given(w.Seam, "seam", def)
	if err != nil {
		return 0, err
	}
	girth, err := (w.Cord + w.Cloth).Scale(math.Pi, unit.Nearest)
	if err != nil {
		return 0, err
	}
	return stepUp(girth+2*s, w.Step)
}

// WeltWidthByGirth gives the strip width for a cord whose girth was measured
// by wrapping the cloth round it: girth + 2 s. Girth is above zero, seam from
// 0 to 2 m.
func WeltWidthByGirth(girth, seam unit.Length) (unit.Length, error) {
	if err := check.Positive("girth", girth); err != nil {
		return 0, err
	}
	if err := check.Length("seam", seam, 0, allowance.MostAllowance); err != nil {
		return 0, err
	}
	return girth + 2*seam, nil
}

// WeltWidthByMultiple gives the strip width by the rule of eight: 8 × cord
// diameter, common practice. It agrees with π d + 1 in near a cord of 0.2 in and
// parts from it above 1/4 in; prefer [WeltStrip.Width]. The cord is above zero,
// up to 100 mm.
func WeltWidthByMultiple(cord unit.Length) (unit.Length, cite.Basis, error) {
	if err := check.Length("cord", cord, 10*unit.Micrometre, 100*unit.Millimetre); err != nil {
		return 0, cite.Basis{}, err
	}
	return 8 * cord, cite.Practice("8 cord diameters"), nil
}

// DoubleWeltWidth gives the strip for a double welt, two cords side by side
// under one strip: twice the strip of a single welt. It is common practice: 3 in
// from a 1 1/2 in strip; 2 1/2 in and 4 in (trimmed after) are in use too. The
// single strip is above zero, up to 1 m.
func DoubleWeltWidth(single unit.Length) (unit.Length, cite.Basis, error) {
	if err := check.Length("single", single, 10*unit.Micrometre, unit.Metre); err != nil {
		return 0, cite.Basis{}, err
	}
	return 2 * single, cite.Practice("twice the single strip; 2 1/2 to 4 in are in use"), nil
}

// stepUp rounds up to a step, when one is given.
func stepUp(l, step unit.Length) (unit.Length, error) {
	if step == 0 {
		return l, nil
	}
	if err := check.Length("step", step, 0, unit.Metre); err != nil {
		return 0, err
	}
	if err := check.Positive("step", step); err != nil {
		return 0, err
	}
	return l.RoundTo(step, unit.Up)
}

// Join is how strips are joined end to end: [DiagonalJoin] or [StraightJoin]. The
// zero value is the diagonal join.
type Join uint8

const (
	// DiagonalJoin is sewn at 45 degrees across two square-cut ends that lie
	// at right angles, which spreads the bulk. Each join uses up the width of
	// the strip.
	DiagonalJoin Join = iota
	// StraightJoin is sewn square across. Each join uses up two allowances.
	StraightJoin
)

// WeltRun is a length of welt made up from strips. The zero value is refused:
// runs and width must be given.
type WeltRun struct {
	// Runs are the finished lengths of welt along the seam line: one for each
	// seam or closed ring.
	Runs []unit.Length `json:"runs"`
	// Ends is what each run is made longer to finish its ends; 2 in by
	// default, common practice. From 0 to 2 m.
	Ends  allowance.Override `json:"ends,omitzero"`
	Width unit.Length        `json:"width"` // of the strip; see WeltStrip.Width
	// Longest is the longest strip the goods allow. Zero means no limit.
	Longest unit.Length `json:"longest,omitzero"`
	Join    Join        `json:"join,omitzero"`
	// Seam is the allowance of a straight join; by default that of a plain
	// seam.
	Seam allowance.Override `json:"seam,omitzero"`
}

const weltEnds = 2 * unit.Inch

// WeltCut is a welt as it is cut.
type WeltCut struct {
	Welt   unit.Length `json:"welt"`   // length of finished welt, ends included; also of cord
	Strips []Strip     `json:"strips"` // pieces to cut
	Joins  int         `json:"joins"`
	Length unit.Length `json:"length"` // cut length of all strips: welt + joins × what a join uses up
	Area   unit.Area   `json:"area"`   // of all strips
}

// Cut gives the strips, joined into one length that is cut to the runs:
//
//	welt   = sum of runs + ends for each
//	length = welt + joins × j,  j = width (diagonal) or 2 s (straight)
//
// All strips are as long as the goods allow, the last one is shorter; where it would
// be under 6 in, the last two are alike, as common practice has it. Errors are
// *unit.InputError values that name the field, such as runs[2].
func (w WeltRun) Cut() (WeltCut, error) {
	if len(w.Runs) == 0 {
		return WeltCut{}, check.Required("runs", "at least one length of welt")
	}
	ends, err := given(w.Ends, "ends", weltEnds)
	if err != nil {
		return WeltCut{}, err
	}
	if err := check.Length("width", w.Width, 10*unit.Micrometre, allowance.MostAllowance); err != nil {
		return WeltCut{}, err
	}
	var c WeltCut
	for i, run := range w.Runs {
		if err := check.Positive("", run); err != nil {
			return WeltCut{}, unit.InField(check.At("runs", i), err)
		}
		if c.Welt, err = unit.SumLengths(c.Welt, run, ends); err != nil {
			return WeltCut{}, unit.InField("runs", err)
		}
	}
	lost, err := w.lost()
	if err != nil {
		return WeltCut{}, err
	}
	n := int64(1)
	if w.Longest != 0 {
		if err := check.Length("longest", w.Longest, lost+unit.Millimetre, check.Longest); err != nil {
			return WeltCut{}, err
		}
		// n strips reach n×longest - (n-1)×lost
		if c.Welt > w.Longest {
			n = nano.CeilDiv(c.Welt-lost, w.Longest-lost)
		}
		if n > mostPieces {
			return WeltCut{}, check.Length("longest", w.Longest, lost+c.Welt/mostPieces+1, check.Longest)
		}
	}
	c.Joins = int(n - 1)
	c.Length = c.Welt + unit.Length(n-1)*lost
	last := []unit.Length{c.Length - unit.Length(n-1)*w.Longest}
	whole := n - 1
	if n > 1 && last[0] < leastPiece {
		last, whole = share(last[0]+w.Longest, 2), n-2
	}
	if whole > 0 {
		c.Strips = append(c.Strips, Strip{Use: "welt", Count: int(whole), Width: w.Width, Length: w.Longest})
	}
	c.Strips = append(c.Strips, grouped("welt", w.Width, last)...)
	if c.Area, err = c.Length.By(w.Width); err != nil {
		return WeltCut{}, unit.InField("area", err)
	}
	return c, nil
}

// lost is the length one join uses up.
func (w WeltRun) lost() (unit.Length, error) {
	if w.Join > StraightJoin {
		return 0, check.OneOf("join", w.Join.String(), joinNames[:]...)
	}
	def, _ := allowance.PlainSeam.Default()
	s, err := given(w.Seam, "seam", def)
	if err != nil {
		return 0, err
	}
	if w.Join == StraightJoin {
		return 2 * s, nil
	}
	return w.Width, nil
}

var joinNames = [...]string{"diagonal join", "straight join"}

// String gives the name, such as "diagonal join".
func (j Join) String() string { return enum.Name(j, "join", joinNames[:]) }

// MarshalText writes the name.
func (j Join) MarshalText() ([]byte, error) { return enum.Text(j, "join", joinNames[:]) }

// UnmarshalText reads a name as String writes it.
func (j *Join) UnmarshalText(text []byte) error {
	return enum.Read(j, text, "join", joinNames[:])
}
