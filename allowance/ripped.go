package allowance

import (
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// OldLine is which line of an old panel was traced at an edge: [OldCut],
// [OldStitches], [OldFold], [OldStaples] or [OldCorner]. The zero value is the
// cut line.
type OldLine uint8

const (
	// OldCut is the raw edge of the cloth, outside the stitches by the old
	// allowance.
	OldCut OldLine = iota
	// OldStitches is the row of needle holes: the finished line.
	OldStitches
	// OldFold is the crease of a turned edge: the finished line.
	OldFold
	// OldStaples is the row of holes of the staples of a pulled edge, outside the
	// finished line by what went over the rail.
	OldStaples
	// OldCorner is no edge: a corner was cut off there.
	OldCorner
)

var oldLineNames = [...]string{"cut", "stitch", "fold", "staple", "corner"}

// String gives the name, such as "staple".
func (l OldLine) String() string { return enum.Name(l, "line", oldLineNames[:]) }

// MarshalText writes the name.
func (l OldLine) MarshalText() ([]byte, error) { return enum.Text(l, "line", oldLineNames[:]) }

// UnmarshalText reads a name as String writes it.
func (l *OldLine) UnmarshalText(text []byte) error {
	return enum.Read(l, text, "line", oldLineNames[:])
}

// outside tells whether the line lies outside the finished one.
func (l OldLine) outside() bool { return l == OldCut || l == OldStaples }

// OldEdge is what was traced at an edge of an old panel. The zero value is a cut
// line whose allowance is still to be measured, and is refused.
type OldEdge struct {
	// Line that was traced; the cut line when not given.
	Line OldLine `json:"line,omitzero"`
	// Allowance is how far that line lies outside the finished one, as measured on
	// the old panel: of a cut line the old seam allowance, of staples what went over
	// the rail. Above zero to 2 m for these two, none for the others.
	Allowance unit.Length `json:"allowance,omitzero"`
}

func (e OldEdge) check(at unit.Path) error {
	if err := enum.Check(e.Line, "line", oldLineNames[:]); err != nil {
		return unit.InField(at, err)
	}
	field := at.Dot("allowance")
	switch {
	case !e.Line.outside() && e.Allowance != 0:
		return check.Refuse(field, e.Allowance.String(), unit.ErrRange, "none of a "+e.Line.String()+" line, which is the finished one")
	case e.Line.outside() && e.Allowance == 0:
		return check.Required(field, "the old allowance as measured, such as \"1/2 in\"")
	}
	return check.Length(field, e.Allowance, 0, MostAllowance)
}

// Ripped says what a traced outline is of: a panel of an old cover, ripped off,
// pressed flat and traced. Line and Allowance are those of every edge that
// Edges does not name. The zero value is refused: an allowance is measured, not
// assumed.
type Ripped struct {
	OldEdge
	// Edges are what was traced at single edges, by the names of the outline. An
	// edge named here is an edge, however short: it is not taken for the cut of a
	// corner.
	Edges map[string]OldEdge `json:"edges,omitempty"`
	// Notches are marks of the old panel, along the line that was traced. V-shaped
	// nicks of the outline itself are found without.
	Notches []Notch `json:"notches,omitempty"`
	// Frame says how far the panel has stretched or shrunk: one measure, or two at
	// right angles.
	Frame []FrameMeasure `json:"frame,omitempty"`
	// Halves makes the panel its own mirror image; it stays as it is when not given.
	Halves *OldHalves `json:"halves,omitempty"`
	// Sigma is the standard deviation of one measure or traced point, up to 2 cm; when not
	// given 0.0361 in (0.917 mm), that of 1/16 in either way.
	Sigma unit.Length `json:"sigma,omitzero"`
	// Tolerance is how far the cut line of the finished panel may lie from what was
	// traced: from 10 micrometres to 10 mm; 1/2 mm when not given.
	Tolerance unit.Length `json:"tolerance,omitzero"`
}

// Recovered is the finished panel that an old one was cut for, and what was done to
// get there.
type Recovered struct {
	Traced  shape.Outline `json:"traced"`  // as it was given
	Outline shape.Outline `json:"outline"` // finished
	// Corners, Nicks and Hollows in the axes of what was traced.
	Corners []shape.CornerCut `json:"corners,omitempty"`
	Nicks   []shape.Nick      `json:"nicks,omitempty"`
	Hollows []shape.Hollow    `json:"hollows,omitempty"`
	Notches []OldNotch        `json:"notches,omitempty"`
	Frame   []FrameFit        `json:"frame,omitempty"`
	Halves  *shape.Halves     `json:"halves,omitempty"`
	// Size of the outline, and how far it may be off either way: two standard
	// deviations, so 95 % of the time.
	Width        unit.Length `json:"width"`
	Height       unit.Length `json:"height"`
	WidthWithin  unit.Length `json:"width_within"`
	HeightWithin unit.Length `json:"height_within"`
}

// oldSigma is that of an error of 1/16 in either way, evenly spread:
// (1/16 in) / sqrt 3.
const oldSigma = 916_544 * unit.Nanometre

// Finished gives the finished panel of an old one that was traced:
//
//	traced → corners and nicks → allowances off → stretch out → halves
//
// The first two are [shape.Outline.Restored] and [shape.Outline.Inset], which
// undo [Panel.Cut] but for its handling margins; then Frame and Halves, as FrameMeasure and
// OldHalves say. With one standard deviation σ of a traced point, the width w is off by
//
//	2 sqrt(2 σ² + (w σₖ)²)
//
// either way, σₖ that of the factor in its direction; and so the height.
//
// Errors are *unit.InputError values that name the field, and *shape.InsetError
// where no finished panel has such a cut line.
//
// Drawing: allowance/doc/ripped.svg
//
// Drawing: allowance/doc/halves.svg
func (r Ripped) Finished(traced shape.Outline) (Recovered, error) {
	old, err := r.edges(traced)
	if err != nil {
		return Recovered{}, err
	}
	if err := check.Length("sigma", r.Sigma, 0, 20*unit.Millimetre); err != nil {
		return Recovered{}, err
	}
	edges := mapped(old, func(e OldEdge) shape.TracedEdge {
		return shape.TracedEdge{Allowance: e.Allowance, Corner: e.Line == OldCorner}
	})
	for i, name := range traced.Edges() {
		_, named := r.Edges[name]
		edges[i].Kept = named && !edges[i].Corner
	}
	whole, err := traced.Restored(edges)
	if err != nil {
		return Recovered{}, err
	}
	by := make([]unit.Length, len(whole.Outline.Edges()))
	for i, name := range whole.Outline.Edges() {
		by[i] = old[slices.Index(traced.Edges(), name)].Allowance
	}
	finished, err := whole.Outline.Inset(r.tolerance(), by)
	if err != nil {
		return Recovered{}, err
	}
	out := Recovered{Traced: traced, Outline: finished, Corners: whole.Corners, Nicks: whole.Nicks, Hollows: whole.Hollows}
	if out.Notches, err = r.notches(traced, whole, by, finished); err != nil {
		return Recovered{}, err
	}
	strain, err := r.fit(&out)
	if err != nil {
		return Recovered{}, err
	}
	if err := r.halved(&out, strain); err != nil {
		return Recovered{}, err
	}
	out.Width, out.Height = out.Outline.Size()
	out.WidthWithin, out.HeightWithin = r.within(out.Width, out.Frame, 0), r.within(out.Height, out.Frame, 90*unit.Degree)
	return out, nil
}

// edges gives what was traced at each edge of the outline.
func (r Ripped) edges(traced shape.Outline) ([]OldEdge, error) {
	if traced.IsZero() {
		return nil, check.Required("outline", "one of the outlines of package shape")
	}
	names := traced.Edges()
	for _, name := range slices.Sorted(maps.Keys(r.Edges)) {
		if err := check.OneOf("edges", name, names...); err != nil {
			return nil, err
		}
		if err := r.Edges[name].check(unit.Path("edges").Dot(unit.Path(name))); err != nil {
			return nil, err
		}
	}
	out := make([]OldEdge, len(names))
	for i, name := range names {
		e, _, ok := ownOf(r.Edges, name)
		if !ok {
			if err := r.check(""); err != nil {
				return nil, err
			}
			e = r.OldEdge
		}
		out[i] = e
	}
	return out, nil
}

// sigma is that of one measure.
func (r Ripped) sigma() float64 {
	if r.Sigma == 0 {
		return float64(oldSigma)
	}
	return float64(r.Sigma)
}

func (r Ripped) tolerance() unit.Length {
	if r.Tolerance == 0 {
		return unit.Millimetre / 2
	}
	return r.Tolerance
}

// within gives how far a size in a direction may be off.
func (r Ripped) within(size unit.Length, fits []FrameFit, direction unit.Angle) unit.Length {
	s := r.sigma()
	v := 2 * float64(s*s)
	for _, f := range fits {
		cos := cosine(f.Direction - direction)
		k := float64(float64(size) * float64(f.Sigma) * float64(cos*cos))
		v += float64(k * k)
	}
	return unit.Length(math.Ceil(2 * math.Sqrt(v)))
}

// ownOf gives what a map by names of edges has for an edge, and the name it has it
// by: that of a mirrored edge of a half outline is that of its twin, unless it is
// named itself.
func ownOf[E any](m map[string]E, name string) (E, string, bool) {
	if e, ok := m[name]; ok {
		return e, name, true
	}
	half, twin := strings.CutSuffix(name, shape.MirrorImage)
	e, ok := m[half]
	return e, half, ok && twin
}

func mapped[A, B any](s []A, f func(A) B) []B {
	out := make([]B, len(s))
	for i, v := range s {
		out[i] = f(v)
	}
	return out
}
