package material

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// PatternRule is what a rule of thumb says that goods with a pattern take.
type PatternRule struct {
	Text   string      `json:"text"` // the rule, in words
	Length unit.Length `json:"length"`
	Kind   cite.Kind   `json:"kind"` // RuleOfThumb
	Basis  cite.Basis  `json:"basis"`
}

// largeExtra is added, at most, for a large repeat with every motif centred.
const largeExtra = 40 // percent

// PatternRules sets rules of thumb for a pattern beside one another, for pieces
// of some widths across the roll that take a plain length without it:
//
//	plain x (1 + share)    by the sum of the repeats, where the chart of ExtraForPattern goes so far
//	plain x 1.4            at most, where the sum is beyond the chart and every motif is centred
//	plain + rows x repeat  one repeat along the roll for each row of pieces that lie side by side
//
// A row is filled across the usable width, the widest pieces first, each piece in the
// first row with room for it. Common practice, all of them; no such rule can be right
// for every job, and a layout is better. None for plain goods. Errors are those
// of Roll.Check, and of the lengths: plain above zero and at most 2 km, widths
// above zero and up to the usable width.
func PatternRules(plain unit.Length, r Roll, widths []unit.Length) ([]PatternRule, error) {
	if err := r.Check(); err != nil {
		return nil, err
	}
	if err := check.Positive("plain", plain); err != nil {
		return nil, err
	}
	rows, err := rowsOf(widths, r.Usable())
	if err != nil {
		return nil, err
	}
	if !r.Patterned() {
		return nil, nil
	}
	var out []PatternRule
	add := func(text string, l unit.Length) {
		out = append(out, PatternRule{Text: text, Length: l, Kind: cite.RuleOfThumb, Basis: cite.Practice("")})
	}
	switch extra, err := ExtraForPattern(r.Width, r.Repeat, r.Columns()); {
	case err == nil:
		c, err := PatternedLength(plain, r.Width, r.Repeat, r.Columns())
		if err != nil {
			return nil, err
		}
		add("plain goods and "+extra.Share.PercentText(0, unit.Nearest)+", by the sum of both repeats", c.Length)
	case r.Repeat+r.Columns() > chartEnd:
		l, err := plain.MulDiv(100+largeExtra, 100, unit.Up)
		if err != nil {
			return nil, err
		}
		add(fmt.Sprintf("plain goods and %d %% at most, for large repeats", largeExtra), l)
	}
	if along := r.Motifs().Along; along > 0 && rows > 0 {
		more, err := along.Times(rows)
		if err == nil {
			more, err = more.Plus(plain)
		}
		if err != nil {
			return nil, err
		}
		each := fmt.Sprintf("each of %d rows", rows)
		if rows == 1 {
			each = "the one row"
		}
		add("plain goods and a repeat for "+each+" of pieces side by side", more)
	}
	return out, nil
}

// rowsOf counts the rows of pieces side by side.
func rowsOf(widths []unit.Length, usable unit.Length) (int, error) {
	if err := check.Count("widths", len(widths), 0, mostInRows); err != nil {
		return 0, err
	}
	for i, w := range widths {
		if err := check.Length(check.At("widths", i), w, 1, usable); err != nil {
			return 0, err
		}
	}
	widths = slices.Clone(widths)
	slices.SortFunc(widths, func(a, b unit.Length) int { return cmp.Compare(b, a) })
	var left []unit.Length
	for _, w := range widths {
		i := slices.IndexFunc(left, func(room unit.Length) bool { return room >= w })
		if i < 0 {
			i, left = len(left), append(left, usable)
		}
		left[i] -= w
	}
	return len(left), nil
}

const mostInRows = 10_000

// PatternYardage gives sums in use for the cloth that a pattern adds, one row for each
// statement, by what is covered. They tell nothing of the repeat: use them to check a
// layout for plausibility.
func PatternYardage() []Yardage {
	row := func(piece string, from, to unit.Length, note string) Yardage {
		return Yardage{Piece: piece, From: from, To: to, Note: note, Basis: cite.Practice("")}
	}
	const yd = unit.Yard
	return []Yardage{
		row("dining seat, motif centred", yd/4, yd/4, "each"),
		row("small work in plaid", yd/2, yd/2, "for the lot"),
		row("chair", yd, yd, "rough allowance"),
		row("sofa", 2*yd, 3*yd, "rough allowance"),
		row("loose cover in a large pattern", yd, yd, "rough allowance"),
		row("armchair, every motif centred", 3*yd, 4*yd, "one case: 36 in repeat, 14 yd in place of 10 to 11 yd"),
	}
}
