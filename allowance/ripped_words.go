package allowance

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Words says, a sentence for each thing, what was done to an old panel to get the
// finished one, and how sure its size is. Lengths are written by format.
func (r Recovered) Words(format func(unit.Length) string) []string {
	out := []string{fmt.Sprintf("Finished %s x %s, within %s and %s either way, 19 times of 20.",
		format(r.Width), format(r.Height), format(r.WidthWithin), format(r.HeightWithin))}
	out = append(out, r.cornerWords(format)...)
	if len(r.Notches) > 0 {
		nicks := make([]string, 0, len(r.Notches))
		for _, n := range r.Notches {
			nicks = append(nicks, n.Edge+" at "+n.Share.PercentText(0, unit.Nearest))
		}
		out = append(out, plural(len(nicks), "old notch", "old notches")+" kept: "+strings.Join(nicks, ", ")+" of the edge.")
	}
	for _, h := range r.Hollows {
		out = append(out, fmt.Sprintf("Inner corner between %s and %s: more than one shape fits, since a hollow tighter than its allowance is cut the same. "+
			"It is taken as sharp; a round one would be off by %s or less. Look at the stitches.", h.First, h.Second, format(h.Off)))
	}
	for _, f := range r.Frame {
		back := ": brought to " + f.Factor.PercentText(2, unit.Nearest) + " of its length"
		did := "neither stretched nor shrunk"
		switch {
		case f.Factor < 1:
			did = "stretched" + back
		case f.Factor > 1:
			did = "shrunk" + back
		}
		out = append(out, fmt.Sprintf("The panel had %s at %s from across, within %s either way, 19 times of 20.",
			did, f.Direction.Decimal(unit.Degree, 0, unit.Nearest), (2*f.Sigma).PercentText(2, unit.Nearest)))
	}
	return append(out, r.halfWords(format)...)
}

func (r Recovered) cornerWords(format func(unit.Length) string) []string {
	var out, cuts []string
	for _, c := range r.Corners {
		where := c.First + "/" + c.Second
		if c.Off > 0 {
			out = append(out, fmt.Sprintf("Corner %s was rounded by the knife; taken as sharp. Cut round again it is off by %s.", where, format(c.Off)))
			continue
		}
		style := c.Style.String() + ", "
		if c.Style == shape.MitredCorner {
			style = ""
		}
		cuts = append(cuts, where+" ("+style+format(c.Length)+")")
	}
	if len(cuts) > 0 {
		out = append(out, "Dropped "+plural(len(cuts), "corner cut", "corner cuts")+": "+strings.Join(cuts, ", ")+". A true bevel of that length looks the same.")
	}
	return out
}

func (r Recovered) halfWords(format func(unit.Length) string) []string {
	h := r.Halves
	if h == nil {
		return nil
	}
	did := "The two halves are made their mean"
	switch h.Taken {
	case shape.RightHalf:
		did = "Both halves are made from the right one"
	case shape.LeftHalf:
		did = "Both halves are made from the left one"
	}
	s := fmt.Sprintf("%s: each was off it by up to %s at %s, %s of the width, and %s in the mean.",
		did, format(h.Most), h.Edge, h.Share.PercentText(2, unit.Nearest), format(h.RMS))
	if h.Taken != shape.BothHalves {
		s = fmt.Sprintf("%s: the two were up to %s apart at %s.", did, format(2*h.Most), h.Edge)
	}
	out := []string{s}
	if h.Share > sayHalves {
		out = append(out, "Look whether one half has stretched, or whether they are meant to differ.")
	}
	return out
}

// Caution tells whether what was done to the panel should be looked at: halves that
// differ by more than 0.5 % of the width, inner corners, and corners the knife rounded.
func (r Recovered) Caution() bool {
	if len(r.Hollows) > 0 || r.Halves != nil && r.Halves.Share > sayHalves {
		return true
	}
	for _, c := range r.Corners {
		if c.Off > 0 {
			return true
		}
	}
	return false
}

func plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + more
}
