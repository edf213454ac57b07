package thread

import (
	"math/bits"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Seam is a line of stitching to be sewn.
type Seam struct {
	Name string `json:"name,omitempty"`
	// Length of the seam line, 10 µm to 1 km.
	Length unit.Length `json:"length"`
	// Thickness of all layers together, 10 µm to 50 mm.
	Thickness unit.Length `json:"thickness"`
	// Compression is the share of the thickness that the stitch squeezes
	// out, 0 to 90 %; zero when Thickness is already that under the foot.
	Compression unit.Ratio `json:"compression,omitempty"`
	// Stitch is the stitch type.
	Stitch Stitch `json:"stitch"`
	// StitchLength is from 0.4 mm to 1 in, along the seam line.
	StitchLength unit.Length `json:"stitch_length"`
	// Width of zig-zag and overedge stitches, 10 µm to 50 mm; not used by
	// the others.
	Width unit.Length `json:"width,omitempty"`
	// Thread adds the diameter of the thread to its path; zero leaves it out.
	Thread Size `json:"thread,omitempty"`
	// Balance is the share of the thickness that the needle thread goes down
	// before it locks with the bobbin thread, 0 to 100 %; zero means 50 %,
	// the lock in the middle. Lockstitches only.
	Balance unit.Ratio `json:"balance,omitempty"`
	// Model of consumption; zero is the square path.
	Model Model `json:"model,omitempty"`
	// Unpicked is a sample of the shop's own, for the model Measured.
	Unpicked UnpickedSample `json:"unpicked,omitzero"`
	// Rows is the number of parallel rows; zero means one.
	Rows int `json:"rows,omitempty"`
	// BackTack is sewn over twice more at both ends of each row, 0 to 200 mm.
	// On a closed seam the row runs on past its start by this much instead.
	// Consume leaves it out, Total counts it.
	BackTack unit.Length `json:"back_tack,omitempty"`
	// Closed seams end where they start.
	Closed bool `json:"closed,omitempty"`
}

// Model is a way to reckon consumption. The zero value is SquarePath.
//
// Its values: SquarePath, EllipticPath, Measured.
type Model uint8

// Models of consumption.
const (
	// SquarePath takes the thread along the surfaces and straight through
	// the layers: the textbook formulas, on the high side.
	SquarePath Model = iota
	// EllipticPath rounds the corners: needle and bobbin thread each follow
	// half an ellipse. Lockstitch 301 only, on the low side in stiff goods.
	EllipticPath
	// Measured uses a ratio of thread to seam: the shop's own when Unpicked
	// is given, else that of UsageRatios.
	Measured
)

var modelNames = []string{"square path", "elliptic path", "measured"}

// String names the model.
func (m Model) String() string { return enum.Name(m, "Model", modelNames) }

// MarshalText writes the name. It wraps unit.ErrUnknown.
func (m Model) MarshalText() ([]byte, error) { return enum.Text(m, "model", modelNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (m *Model) UnmarshalText(text []byte) error { return enum.Read(m, text, "model", modelNames) }

// Usage is the thread a seam takes.
type Usage struct {
	Needle unit.Length `json:"needle"` // needle thread
	Under  unit.Length `json:"under"`  // bobbin or looper thread
	Total  unit.Length `json:"total"`
	Kind   cite.Kind   `json:"kind"`
	Basis  cite.Basis  `json:"basis"`
}

const (
	thickest = 50 * unit.Millimetre
	longTack = 200 * unit.Millimetre
	mostRows = 100
)

// Consume gives the thread of a seam by the geometry of its stitch, or by a
// measured ratio. With L the stitch length, W the width, T the thickness under
// compression, d the diameter of the thread and b the balance, a stitch takes
// on the square path
//
//	type   needle thread          under thread
//	101    3 L + 2 (T + d)        none
//	209    L + T + d              none
//	301    L + 2 b T + d          L + 2 (1 - b) T + d
//	304    as 301 with √(L² + W²) for L
//	401    L + 2 (T + d)          3 L
//	504    L + 2 (T + d)          2 L + 4 W + 2 (T + d)
//	516    as 401 and 504 together
//
// The textbook totals 3 + 2TS, 2 + 2TS, 4 + 2TS and 3 + 4WS + 4TS per length
// are those of 101, 301, 401 and 504 with S = 1/L, d = 0 and b = 1/2; another
// copy has 5 + 4S(W + T) for 504, two lengths of the seam more. On the
// elliptic path each thread of 301 takes half the perimeter of an ellipse with
// the semi-axes L/2 and b T + d/2 or (1 - b) T + d/2.
//
// See Influences and ModelFits for studies of such models.
//
// Tails, back-tacks and waste are not in it, see Total. Lengths are rounded up
// to a nanometre. Errors are *unit.InputError values that name the field and
// wrap unit.ErrRange, unit.ErrForgottenUnit, unit.ErrNotFinite or
// unit.ErrUnknown.
//
// Drawing: thread/doc/lockstitch.svg
func Consume(s Seam) (Usage, error) {
	r, err := s.rate()
	if err != nil {
		return Usage{}, err
	}
	run := uint64(s.Length) * uint64(max(s.Rows, 1))
	return r.usage(perStitch(run, r.needle, r.stitch), perStitch(run, r.under, r.stitch)), nil
}

// rate is what one stitch takes, in nanometres.
type rate struct {
	needle, under, stitch uint64
	kind                  cite.Kind
	basis                 cite.Basis
}

func (r rate) usage(needle, under unit.Length) Usage {
	return Usage{Needle: needle, Under: under, Total: needle + under, Kind: r.kind, Basis: r.basis}
}

func (s Seam) rate() (rate, error) {
	if err := s.check(); err != nil {
		return rate{}, err
	}
	switch s.Model {
	case EllipticPath:
		return s.ellipticRate()
	case Measured:
		return s.measuredRate()
	default:
		return s.squareRate()
	}
}

// perStitch gives run × thread / stitch, rounded up. The inputs are checked so
// that the result fits: 100 rows of 1 km at no more than a thousand times
// their length.
func perStitch(run, thread, stitch uint64) unit.Length {
	hi, lo := bits.Mul64(run, thread)
	q, rest := bits.Div64(hi, lo, stitch)
	if rest > 0 {
		q++
	}
	return unit.Length(q)
}

func (s Seam) check() error {
	if err := check.Positive("length", s.Length); err != nil {
		return err
	}
	if err := check.Length("thickness", s.Thickness, 10*unit.Micrometre, thickest); err != nil {
		return err
	}
	if err := check.Ratio("compression", s.Compression, 0, 90*unit.Percent); err != nil {
		return err
	}
	if _, err := s.Stitch.Type(); err != nil {
		return err
	}
	if err := check.Length("stitch_length", s.StitchLength, shortestStitch, longestStitch); err != nil {
		return err
	}
	if err := check.Length("width", s.Width, 0, thickest); err != nil {
		return err
	}
	if s.Thread != 0 {
		if err := s.Thread.check("thread"); err != nil {
			return err
		}
	}
	if err := check.Ratio("balance", s.Balance, 0, 1); err != nil {
		return err
	}
	if err := enum.Check(s.Model, "model", modelNames); err != nil {
		return err
	}
	if err := check.Count("rows", s.Rows, 0, mostRows); err != nil {
		return err
	}
	return check.Length("back_tack", s.BackTack, 0, longTack)
}
