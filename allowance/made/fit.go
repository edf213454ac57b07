package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// CushionFit is how tight a cover sits: [SnugFit], [FirmFit], [WrappedFit] or
// [NeutralFit]. The cover always has the finished size; the fit is in the core,
// which is cut larger by one take-up. The zero value is the snug fit.
type CushionFit uint8

const (
	// SnugFit is for bare foam.
	SnugFit CushionFit = iota
	// FirmFit is for firm foam, and for covers of leather.
	FirmFit
	// WrappedFit is for foam in batting: the wrap is the take-up.
	WrappedFit
	// NeutralFit has a core of the size of the cover.
	NeutralFit
)

var fits = [...]struct {
	name   string
	takeUp unit.Length
}{
	SnugFit:    {"snug fit", unit.Inch / 2},
	FirmFit:    {"firm fit", unit.Inch / 4},
	WrappedFit: {"wrapped fit", 0},
	NeutralFit: {"neutral fit", 0},
}

func fitNames() []string {
	out := make([]string, len(fits))
	for i, f := range fits {
		out[i] = f.name
	}
	return out
}

// String gives the name.
func (f CushionFit) String() string { return enum.Name(f, "fit", fitNames()) }

// MarshalText writes the name.
func (f CushionFit) MarshalText() ([]byte, error) { return enum.Text(f, "fit", fitNames()) }

// UnmarshalText reads a name as String writes it.
func (f *CushionFit) UnmarshalText(text []byte) error { return enum.Read(f, text, "fit", fitNames()) }

// TakeUp gives how much larger than its cover the core is in width and depth:
// 1/2 in, firm 1/4 in, else nothing. A wrap of under 1/2 in counts as bare foam.
// It is common practice.
func (f CushionFit) TakeUp() (unit.Length, cite.Basis) {
	if int(f) >= len(fits) {
		return 0, cite.Basis{}
	}
	return fits[f].takeUp, cite.Practice("the core is cut larger, the cover is not cut smaller")
}

// Core is the filling that a cover must have: foam, or foam and wrap together.
// With F the finished size and k the take-up, cover C and core B are
//
//	C = F,  B = C + k
//
// in width and depth; the thickness is that of the cover.
type Core struct {
	Width     unit.Length `json:"width"` // of a bolster its length
	Depth     unit.Length `json:"depth"` // of a bolster its diameter
	Thickness unit.Length `json:"thickness,omitzero"`
	// BackThickness is that of a wedge, whose Thickness is at the front.
	BackThickness unit.Length `json:"back_thickness,omitzero"`
	TakeUp        unit.Length `json:"take_up"`
	// CoverWidth and CoverDepth are those of the cover. The core is larger by the
	// take-up, and where it has slanting sides its corners reach out further.
	CoverWidth unit.Length `json:"cover_width"`
	CoverDepth unit.Length `json:"cover_depth"`
	// Outline is the true outline as seen from above: that of the plate moved out
	// by half the take-up all round. A bolster has none; that of a waterfall
	// cushion is the box.
	Outline shape.Outline `json:"outline,omitzero"`
	// RoundFront is the half circle of a waterfall cushion.
	RoundFront bool `json:"round_front,omitzero"`
}

// mostTakeUp is far more than any foam is squeezed.
const mostTakeUp = 4 * unit.Inch

// takeUp resolves the fit.
func (c Cushion) takeUp() (unit.Length, error) {
	if err := check.OneOf("fit", c.Fit.String(), fitNames()...); err != nil {
		return 0, err
	}
	def, _ := c.Fit.TakeUp()
	return ranged(c.TakeUp, "take_up", def, 0, mostTakeUp)
}

// coreOf gives the core of a cover that has the outline from above.
func coreOf(o shape.Outline, thickness, k unit.Length) (Core, error) {
	w, d := o.Size()
	c := Core{Width: w + k/2*2, Depth: d + k/2*2, Thickness: thickness, TakeUp: k, CoverWidth: w, CoverDepth: d, Outline: o}
	if k < 20*unit.Micrometre {
		return c, nil
	}
	out := make([]unit.Length, len(o.Edges()))
	for i := range out {
		out[i] = k / 2
	}
	_, lines, err := o.Offsets(shape.OffsetOptions{}, out)
	if err != nil {
		return Core{}, unit.InField("outline", err)
	}
	c.Width, c.Depth = lines[0].Width, lines[0].Height
	c.Outline, err = shape.Polygon(lines[0].Line.Outer...)
	return c, unit.InField("outline", err)
}

// finished gives a size of the cover: the one that is given, or that of the core
// less the take-up.
func (c Cushion) finished(field string, l, k unit.Length) (unit.Length, error) {
	if err := inRange(field, l, unit.Centimetre, 50*unit.Metre); err != nil {
		return 0, err
	}
	if c.CoreGiven {
		if err := inRange(field, l, unit.Centimetre+k, 50*unit.Metre); err != nil {
			return 0, err
		}
		l -= k
	}
	return l, nil
}

// seamOr resolves an override against the default of a finish.
func seamOr(o allowance.Override, f allowance.Finish) (unit.Length, error) {
	def, _ := f.Default()
	return given(o, "seam", def)
}
