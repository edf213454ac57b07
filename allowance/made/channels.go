package made

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// ChannelProfile is the shape of a filled channel (flute) in section:
// [ArcProfile] or [EllipseProfile]. The zero value is a circular arc.
type ChannelProfile uint8

const (
	// ArcProfile is a circular arc over the width of the channel.
	ArcProfile ChannelProfile = iota
	// EllipseProfile is half an ellipse: full at the edges, flat on top.
	EllipseProfile
)

var profileNames = [...]string{"arc", "half ellipse"}

// String gives the name.
func (p ChannelProfile) String() string { return enum.Name(p, "profile", profileNames[:]) }

// MarshalText writes the name.
func (p ChannelProfile) MarshalText() ([]byte, error) {
	return enum.Text(p, "profile", profileNames[:])
}

// UnmarshalText reads a name as String writes it.
func (p *ChannelProfile) UnmarshalText(text []byte) error {
	return enum.Read(p, text, "profile", profileNames[:])
}

// ChannelCover gives the cloth across one channel of width w that rises h:
//
//	arc:          R θ, with R = w²/(8 h) + h/2, θ = 4 atan(2 h / w)
//	half ellipse: half the perimeter of semi-axes w/2 and h
//
// Both are above zero; a rise of w/2 gives the half circle π w / 2 either way.
// No published fullness for channels was found; this is geometry.
//
// Drawing: allowance/doc/channels.svg
func ChannelCover(p ChannelProfile, width, rise unit.Length) (unit.Length, error) {
	switch p {
	case ArcProfile:
		a, err := shape.ArcFromChord(width, rise)
		return a.Length, check.Renamed(err, map[string]string{"chord": "width"})
	case EllipseProfile:
		if err := check.Positives([]string{"width", "rise"}, width, rise); err != nil {
			return 0, err
		}
		a, b := float64(width)/2, float64(rise)
		return nano.Length(nano.EllipsePerimeter(math.Max(a, b), math.Min(a, b)) / 2)
	}
	return 0, check.OneOf("profile", p.String(), profileNames[:]...)
}

// Channels is a panel divided into equal upright channels. The zero value is
// refused.
type Channels struct {
	Width unit.Length `json:"width"` // finished panel, across the channels, at the bottom
	// TopWidth is that at the top, of channels that taper for a curved back; zero
	// is as the bottom.
	TopWidth unit.Length        `json:"top_width,omitzero"`
	Height   unit.Length        `json:"height"` // finished panel, along the channels
	Count    int                `json:"count"`  // 1 to 500
	Rise     unit.Length        `json:"rise"`   // of the filling above the seams between channels
	Profile  ChannelProfile     `json:"profile,omitzero"`
	Seam     allowance.Override `json:"seam,omitzero"` // between channels; by default that of a plain seam
	// Pull is added at top, bottom and the two outer edges; 2 in by default,
	// common practice. From 0 to 500 mm.
	Pull allowance.Override `json:"pull,omitzero"`
	// OnePiece stitches one panel through at the lines, or as few as the goods
	// allow, joined along lines; else every channel is a piece. Not of channels
	// that taper.
	OnePiece bool `json:"one_piece,omitempty"`
	// Lining is the id of the goods behind, which are sewn in at every line;
	// empty has none.
	Lining string `json:"lining,omitempty"`
}

// channelPull is common practice: 2 in at top, bottom and outer edges.
const channelPull = 2 * unit.Inch

// ChannelsCut is a channelled panel as it is cut.
type ChannelsCut struct {
	Spacing unit.Length `json:"spacing"` // finished width of one channel, rounded to the nanometre
	Cover   unit.Length `json:"cover"`   // cloth over one channel, seam to seam
	// Top is Cover at the top of channels that taper; the pieces are trapezoids.
	Top unit.Length `json:"top,omitzero"`
	// Inner is the cut width of the pieces between the outer two, Outer that
	// of the two outer ones; zero where there are none.
	Inner  unit.Length `json:"inner,omitzero"`
	Outer  unit.Length `json:"outer"`
	Height unit.Length `json:"height"` // cut height of every piece
	Pieces []Strip     `json:"pieces"` // as pieces sewn together
	// OnePiece is the cut width when the panel is one piece stitched through
	// at the seam lines.
	OnePiece unit.Length `json:"one_piece"`
	// Fullness is Cover over Spacing.
	Fullness unit.Ratio `json:"fullness"`
	// CentreSeam tells whether a seam lies in the middle of the panel (an even
	// count) or a channel (an odd one). Mark the middle and work outward.
	CentreSeam bool `json:"centre_seam"`
}

// Cut gives the pieces of the channels:
//
//	inner    = cover + 2 s
//	outer    = cover + s + pull   (a single channel: cover + 2 pulls)
//	height   = finished + 2 pulls
//	one piece = count × cover + 2 pulls
//
// Of channels that taper these are the sizes at the wider end; the rise is the same
// from end to end.
func (c Channels) Cut() (ChannelsCut, error) {
	if err := check.Positives([]string{"width", "height", "rise"}, c.Width, c.Height, c.Rise); err != nil {
		return ChannelsCut{}, err
	}
	if err := check.Count("count", c.Count, 1, 500); err != nil {
		return ChannelsCut{}, err
	}
	def, _ := allowance.PlainSeam.Default()
	s, err := given(c.Seam, "seam", def)
	if err != nil {
		return ChannelsCut{}, err
	}
	pull, err := ranged(c.Pull, "pull", channelPull, 0, 500*unit.Millimetre)
	if err != nil {
		return ChannelsCut{}, err
	}
	var out ChannelsCut
	if c.TopWidth != 0 && c.TopWidth != c.Width {
		if err := check.Positive("top_width", c.TopWidth); err != nil {
			return ChannelsCut{}, err
		}
		if c.OnePiece {
			return ChannelsCut{}, check.Refuse("one_piece", "true", unit.ErrRange, "channels that do not taper")
		}
		spacing, err := c.TopWidth.MulDiv(1, c.Count, unit.Nearest)
		if err != nil {
			return ChannelsCut{}, err
		}
		if out.Top, err = ChannelCover(c.Profile, spacing, c.Rise); err != nil {
			return ChannelsCut{}, check.Renamed(err, map[string]string{"width": "top_width"})
		}
	}
	if out.Spacing, err = c.Width.MulDiv(1, c.Count, unit.Nearest); err != nil {
		return ChannelsCut{}, err
	}
	if out.Cover, err = ChannelCover(c.Profile, out.Spacing, c.Rise); err != nil {
		return ChannelsCut{}, err
	}
	if out.Fullness, err = out.Cover.Per(out.Spacing); err != nil {
		return ChannelsCut{}, err
	}
	out.Height = c.Height + 2*pull
	out.CentreSeam = c.Count%2 == 0
	over, err := out.Cover.Times(c.Count)
	if err != nil {
		return ChannelsCut{}, err
	}
	if out.OnePiece, err = over.Plus(2 * pull); err != nil {
		return ChannelsCut{}, err
	}
	wide := max(out.Cover, out.Top)
	if c.Count == 1 {
		out.Outer = wide + 2*pull
		out.Pieces = []Strip{{Use: "channel", Count: 1, Width: out.Outer, Length: out.Height}}
		return out, nil
	}
	out.Outer = wide + s + pull
	out.Pieces = []Strip{{Use: "outer channel", Count: 2, Width: out.Outer, Length: out.Height}}
	if c.Count > 2 {
		out.Inner = wide + 2*s
		out.Pieces = append(out.Pieces, Strip{Use: "channel", Count: c.Count - 2, Width: out.Inner, Length: out.Height})
	}
	return out, nil
}
