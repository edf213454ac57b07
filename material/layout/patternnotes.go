package layout

import (
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// PatternNotes says for the bench how the pattern of a roll runs over the pieces:
// how it repeats, where a motif lies, what is bought to find it, and which pieces
// lie on the motifs in what way. Plain goods and hides have none.
func (p Plan) PatternNotes(u pattern.Units) []string {
	if p.Job.Roll == nil || !p.Job.Roll.Patterned() {
		return nil
	}
	n := notes{roll: *p.Job.Roll, size: func(l unit.Length) string { return u.Length(l, unit.Nearest) }}
	n.say("%s: measure before cutting", n.repeats())
	n.start(p)
	n.wishes(p)
	if n.roll.Columns() == 0 {
		n.say("no repeat across is stated: motifs are not centred across")
	}
	if n.roll.Directed() {
		n.say("one way: turn no panel round")
	}
	if !n.roll.Even && slices.ContainsFunc(p.Job.Pieces, func(q Piece) bool { return q.Hand == Paired && q.Count > 1 && n.matched(q) }) {
		n.say("pairs have the motif at the same place of both hands; the motif itself is not mirrored")
	}
	return n.text
}

// notes are sentences in the making.
type notes struct {
	roll material.Roll
	size func(unit.Length) string
	text []string
}

func (n *notes) say(format string, args ...any) {
	n.text = append(n.text, fmt.Sprintf(format, args...))
}

// matched tells whether a piece lies on the pattern, whichever way that runs.
func (n *notes) matched(q Piece) bool { return q.matched(n.level()) }

// level is the roll with its repeats as they are seen on the furniture.
func (n *notes) level() material.Roll {
	r := n.roll
	r.Across = r.Columns()
	return r
}

// repeats says how often the pattern comes again.
func (n *notes) repeats() string {
	r := n.level()
	along, across := "along the roll", "across"
	if r.Up.Sideways() {
		along, across = "across the roll", "along it"
	}
	var parts []string
	if r.Repeat > 0 {
		parts = append(parts, "every "+n.size(r.Repeat)+" "+along)
	}
	if r.Across > 0 {
		parts = append(parts, "every "+n.size(r.Across)+" "+across)
	}
	out := "repeats " + strings.Join(parts, " and ")
	if d := r.Drop; d.Den > 0 {
		out += fmt.Sprintf(", the next to the right %d/%d of a repeat lower", d.Num, d.Den)
	}
	if r.Up.Sideways() {
		out += ", its top " + r.Up.String()
	}
	return out
}

// start says where a motif lies, and what is bought to find it.
func (n *notes) start(p Plan) {
	m, at := n.roll.Motifs(), p.motif(0)
	where := func(at shape.Point) string {
		var parts []string
		from := func(l, period unit.Length, on, off string) {
			switch {
			case period == 0:
			case l == 0:
				parts = append(parts, on)
			default:
				parts = append(parts, n.size(l)+" from "+off)
			}
		}
		from(at.X, m.Across, "on the left usable edge", "the left usable edge")
		from(at.Y, m.Along, "at the end that is cut first", "the end that is cut first")
		return strings.Join(parts, " and ")
	}
	switch {
	case p.Spare > 0:
		n.say("%s more are bought, once for the whole order, as the bolt may start anywhere between two motifs: cut it back until one lies %s", n.size(p.Spare), where(at))
	case slices.ContainsFunc(p.Job.Pieces, func(q Piece) bool { return n.matched(q) && q.Phase.Common == 0 }):
		n.say("a motif lies %s", where(at))
	}
	for c := 1; c < len(p.Motifs); c++ {
		names := n.names(p, func(q Piece) bool { return n.matched(q) && q.Phase.Common == c })
		if names != "" {
			n.say("%s: all alike on the pattern, as if a motif lay %s", names, where(p.Motifs[c]))
		}
	}
}

// The ways in which a piece may lie on the pattern.
type wish int

const (
	startsOn wish = iota // with its lower left corner
	centredOn
	pointOn
	alikeOn // with others, wherever the pattern is
	offPattern
	joinedOff
)

// wishOf sorts a piece.
func (n *notes) wishOf(q Piece) wish {
	low, high := q.Outline.Bounds()
	switch {
	case n.matched(q):
	case q.Join != nil:
		return joinedOff
	default:
		return offPattern
	}
	s := q.Phase.spots()
	off := 2*s[0].Point.X - low.X - high.X
	switch {
	case q.Phase.Common > 0: // said before
		return alikeOn
	case len(s) == 1 && s[0].Point == low:
		return startsOn
	case n.roll.Columns() > 0 && q.Phase.Axes != AlongOnly && max(off, -off) <= unit.Inch/32:
		return centredOn
	}
	return pointOn
}

// wishes says which pieces lie on the pattern in what way.
func (n *notes) wishes(p Plan) {
	of := func(w wish) string { return n.names(p, func(q Piece) bool { return n.wishOf(q) == w }) }
	centred, point, starts := of(centredOn), of(pointOn), of(startsOn)
	if centred != "" {
		n.say("motif on the middle line: %s", centred)
	}
	if point != "" {
		n.say("motif on the point asked for: %s", point)
	}
	switch {
	case starts != "" && centred == "" && point == "" && of(alikeOn) == "":
		n.say("every panel starts on the repeat")
	case starts != "":
		n.say("starting on the repeat, no motif asked for: %s", starts)
	}
	if off := of(offPattern); off != "" {
		n.say("unmatched, they fill the gaps: %s", off)
	}
	matched := n.listed(p, func(i int) bool {
		return n.matched(p.Job.Pieces[i]) && slices.ContainsFunc(p.Joins, func(j Join) bool { return j.Piece == i })
	})
	if matched != "" {
		n.say("joined to match, a centre and equal sides; check that the pattern runs on before sewing: %s", matched)
	}
	if joined := of(joinedOff); joined != "" {
		n.say("may be joined, so they lie off the repeat and do not match: %s", joined)
	}
}

// names lists pieces, each name once, the first few of many.
func (n *notes) names(p Plan, which func(Piece) bool) string {
	return n.listed(p, func(i int) bool { return which(p.Job.Pieces[i]) })
}

func (n *notes) listed(p Plan, which func(int) bool) string {
	const most = 6
	var out []string
	for i, q := range p.Job.Pieces {
		name := q.Name
		if name == "" {
			name = fmt.Sprintf("piece %d", i+1)
		}
		if which(i) && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	if len(out) > most {
		out = append(out[:most], fmt.Sprintf("and %d more", len(out)-most))
	}
	return strings.Join(out, "; ")
}
