package job

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// PatternNotes says for the bench how the pattern runs over the cover: across which
// seams and meets, and where it cannot close. A cover of plain goods has none.
func (a Assembly) PatternNotes(u pattern.Units) []string {
	if a.Pattern == nil {
		return nil
	}
	size := func(l unit.Length) string { return u.Length(l, unit.Nearest) }
	var out []string
	say := func(text string) { out = append(out, text) }
	for i, x := range a.Pattern.Crossings {
		from, to := place(x.FromEdge, x.FromIn, size), place(x.ToEdge, x.ToIn, size)
		k := slices.IndexFunc(a.Pattern.Breaks, func(b PatternBreak) bool { return b.Crossing == i+1 })
		if k >= 0 {
			say(fmt.Sprintf("the pattern cannot run on from %s to %s: there it lies %s", from, to, aside(a.Pattern.Breaks[k].Off, size)+" where it should"))
			continue
		}
		text := fmt.Sprintf("the pattern runs on from %s to %s", from, to)
		apart := slices.Contains(a.Pattern.Apart, i+1)
		switch {
		case apart && x.Way == allowance.AcrossOnly:
			text = fmt.Sprintf("the pattern does not run on from %s to %s: the goods have no room for it", from, to)
		case apart:
			text += ", along the roll alone"
		case x.Way == allowance.AcrossOnly:
			text += ", sideways alone"
		case x.Way == allowance.AlongOnly:
			text += ", level alone"
		}
		if l := max(x.Lost.X, -x.Lost.X, x.Lost.Y, -x.Lost.Y); l > 0 {
			text += ", " + size(l) + " of it between the two"
		}
		if x.Turned {
			text += "; the two do not lie in line, so it meets at one point alone"
		}
		say(text)
	}
	for _, n := range a.Pattern.OneWay {
		if n >= 0 && n < len(a.Pattern.Pieces) {
			say(a.Pattern.Pieces[n].Name + ": these goods are too narrow beside their motifs to have one in its middle, so it follows the pattern along the roll alone")
		}
	}
	for _, n := range a.Pattern.Moved {
		if n >= 0 && n < len(a.Pattern.Pieces) {
			say(a.Pattern.Pieces[n].Name + ": these goods are too narrow beside their motifs to have one in its middle; it lies beside it, so that the pattern runs on")
		}
	}
	for _, b := range a.Pattern.Breaks {
		if b.Crossing == 0 && b.Piece >= 0 && b.Piece < len(a.Pattern.Pieces) {
			say(fmt.Sprintf("%s: the motif lies %s the point asked for, where the pattern runs on to", a.Pattern.Pieces[b.Piece].Name, aside(b.Off, size)))
		}
	}
	return bothHands(out)
}

// bothHands says once what is the same of both hands.
func bothHands(notes []string) []string {
	without := strings.NewReplacer(" left.", ".", " right.", ".", " left:", ":", " right:", ":")
	times := map[string]int{}
	for _, n := range slices.Compact(notes) {
		times[without.Replace(n)]++
	}
	var out []string
	for _, n := range notes {
		if short := without.Replace(n); times[short] > 1 {
			n = short
		}
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// place words a side without its hands, and how far inside it the line lies.
func place(edges []string, in unit.Length, size func(unit.Length) string) string {
	names := make([]string, len(edges))
	for i, e := range edges {
		e, _, _ = strings.Cut(e, " from ")
		e, _, _ = strings.Cut(e, " to ")
		names[i] = e
	}
	out := strings.Join(slices.Compact(names), " + ")
	if in > 0 {
		out += " (" + size(in) + " inside)"
	}
	return out
}

// aside words a way to the side and up.
func aside(off shape.Point, size func(unit.Length) string) string {
	var parts []string
	for _, d := range []struct {
		l          unit.Length
		more, less string
	}{{off.X, "to the right of", "to the left of"}, {off.Y, "above", "below"}} {
		switch {
		case d.l > tenth:
			parts = append(parts, size(d.l)+" "+d.more)
		case -d.l > tenth:
			parts = append(parts, size(-d.l)+" "+d.less)
		}
	}
	return strings.Join(parts, " and ")
}
