package findings

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Figure is a usual figure of a finding.
type Figure[Q Quantity | unit.Ratio] struct {
	Of    string     `json:"of"`             // the finding
	What  string     `json:"what"`           // what the figure is
	Usual Q          `json:"usual,omitzero"` // what a zero field takes; zero where only a range is in use
	From  Q          `json:"from"`           // the range in use
	To    Q          `json:"to"`
	Basis cite.Basis `json:"basis"`
}

// one is a figure without a range.
func one[Q Quantity | unit.Ratio](of, what string, q Q, basis cite.Basis) Figure[Q] {
	return Figure[Q]{of, what, q, q, q, basis}
}

// founded is the standing of a result: arithmetic, or the worst of the usual
// figures that it took.
type founded cite.Status

// or gives q, or the usual figure where q is zero.
func or[Q Quantity | unit.Ratio](on *founded, q Q, f Figure[Q]) Q {
	if q != 0 {
		return q
	}
	*on = max(*on, founded(f.Basis.Status))
	return f.Usual
}

// by founds a result that also rests on figures that cannot be given.
func (on founded) by(note string, also ...cite.Basis) cite.Basis {
	s := max(cite.Status(on), cite.Derived)
	for _, b := range also {
		s = max(s, b.Status)
	}
	return cite.Basis{Status: s, Note: note}
}

// Lengths lists the usual lengths.
func Lengths() []Figure[unit.Length] {
	return slices.Concat(webbingLengths, elasticLengths, zigzagLengths, coilLengths, clothLengths, stripLengths,
		cordLengths, gimpLengths, zipLengths, stapleLengths, nailLengths, buttonLengths, battingLengths, hairLengths, hookLengths, snapLengths, feetLengths)
}

// Counts lists the usual numbers of pieces, and gauges of wire.
func Counts() []Figure[int] {
	return slices.Concat(webbingCounts, elasticCounts, zigzagCounts, coilCounts, stapleCounts, tackCounts, nailCounts, buttonCounts, snapCounts, feetCounts)
}

// Shares lists the usual shares, the waste of every finding among them.
func Shares() []Figure[unit.Ratio] {
	return slices.Concat(webbingShares, elasticShares, coilShares, buttonShares, hairShares, hookShares, wastes)
}

// Areas lists the usual areas.
func Areas() []Figure[unit.Area] { return slices.Concat(feltAreas, hairAreas, glueAreas) }

// Masses lists the usual masses.
func Masses() []Figure[unit.Mass] {
	return slices.Concat(coilMasses, feltMasses, battingMasses, hairMasses, tackMasses)
}

// Volumes lists the sizes that glue is sold in.
func Volumes() []Figure[unit.Volume] { return slices.Clone(glueVolumes) }

// WasteOf gives the usual waste of a finding by its name in [Shares]. An
// unknown name wraps unit.ErrUnknown.
func WasteOf(finding string) (unit.Ratio, error) {
	names := make([]string, len(wastes))
	for i, f := range wastes {
		if names[i] = f.Of; f.Of == finding {
			return f.Usual, nil
		}
	}
	return 0, check.OneOf("finding", finding, names...)
}

// wastes are the shares cut off and lost.
var wastes = func() []Figure[unit.Ratio] {
	var out []Figure[unit.Ratio]
	for _, name := range []string{"cord", "gimp", "strips", "edge roll", "webbing", "elastic webbing", "zigzag springs", "twine", "tie wire"} {
		out = append(out, Figure[unit.Ratio]{name, "waste", 0.05, 0.03, 0.10, cite.Practice("")})
	}
	for _, w := range []struct {
		names []string
		share unit.Ratio
		note  string
	}{
		{[]string{"felt", "hair", "cardboard"}, 0.10, ""}, {[]string{"staples"}, 0.05, ""}, {[]string{"nails"}, 0.10, ""}, {[]string{"glue"}, 0.15, ""},
		{[]string{"interliner"}, 0.05, "cut to each piece of the cover; none for skirts, welt and dust cover"},
		{[]string{"zip chain"}, 0, "its ends hold it"}, {[]string{"burlap", "decking", "dust cover", "wrap"}, 0, "the rows hold it"},
	} {
		for _, name := range w.names {
			out = append(out, one(name, "waste", w.share, cite.Practice(w.note)))
		}
	}
	return out
}()
