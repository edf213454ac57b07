package allowance

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Rule is an allowance that some source or the trade gives for one use. Where
// sources disagree each has its own rule, so the choice stays visible.
type Rule struct {
	Name      string      `json:"name"` // such as "loose cover tuck-in"
	Finish    Finish      `json:"finish"`
	Allowance unit.Length `json:"allowance"` // at one edge
	Basis     cite.Basis  `json:"basis"`
}

// Edge gives an edge with the finish and allowance of the rule.
func (r Rule) Edge() Edge { return Edge{Finish: r.Finish, Allowance: Exactly(r.Allowance)} }

const (
	quarter = unit.Inch / 4
	half    = unit.Inch / 2
	eighth  = unit.Inch / 8
)

var rules = [...]Rule{
	// loose covers
	{"loose cover seam", PlainSeam, unit.Inch, cite.In("EC57-1125", "")},
	{"loose cover tuck-in", Raw, 6 * unit.Inch, cite.In("EC57-1125", "1924 and 1938 newspapers say 4 in, 6 in and 10 in")},
	{"loose cover bottom", TurnedUnder, 2 * unit.Inch, cite.In("EC57-1125", "")},
	{"loose cover seam, generous", PlainSeam, 3 * half, cite.Practice("1 1/2 in all round")},
	{"loose cover tuck-in, 1924", Raw, 4 * unit.Inch, cite.Practice("printed in a newspaper")},
	{"loose cover tuck-in of the back, 1938", Raw, 10 * unit.Inch, cite.Practice("about; printed in a newspaper")},
	{"loose cover tuck-in of the seat, 1938", Raw, 6 * unit.Inch, cite.Practice("about; printed in a newspaper")},
	{"loose cover base", TurnedUnder, 6 * unit.Inch, cite.Practice("15 cm round the base")},

	// canvas, duck and leather on equipment
	{"canvas plain seam", PlainSeam, quarter, cite.In("FM-10-16", "")},
	{"canvas hem", DoubleHem, 3 * half, cite.Basis{Status: cite.Derived, Source: "FM-10-16", Note: "1/2 in turned under and a 1 in hem"}},
	{"duck raw edge", PlainSeam, half, cite.In("NAVY-1ASE2", "8 to 15 oz duck, edge to stitches")},
	{"duck folded edge", TopStitchedSeam, eighth, cite.In("NAVY-1ASE2", "8 to 15 oz duck, fold to stitches")},
	{"heavy duck or leather folded edge", TopStitchedSeam, quarter, cite.In("NAVY-1ASE2", "about, fold to stitches")},
	{"heavy fabric raw edge, least", PlainSeam, half, cite.In("NAVY-1ASE2", "1/2 to 3/4 in")},
	{"heavy fabric raw edge, most", PlainSeam, 3 * quarter, cite.In("NAVY-1ASE2", "1/2 to 3/4 in")},
	{"thin leather edge", TopStitchedSeam, eighth, cite.In("NAVY-1ASE2", "horsehide and thin leather, patching and trimming")},
	{"light nylon folded edge", TopStitchedSeam, unit.Inch / 16, cite.In("NAVY-1ASE2", "fold to stitches")},
	{"parallel rows of stitches", TopStitchedSeam, quarter, cite.In("NAVY-1ASE2", "between the rows")},
	{"parallel rows of stitches, heavy", TopStitchedSeam, 3 * eighth, cite.In("NAVY-1ASE2", "between the rows")},
	{"reinforcing fold", SingleHem, half, cite.In("NAVY-1ASE2", "not less than")},
	{"hand-sewn cloth edge", TurnedUnder, half, cite.In("NAVEDTRA-14218", "thick leather and felt are not turned")},

	{"sacking seam", PlainSeam, half, specified("A-A-52109", "1/2 ± 1/8 in, tubing of osnaburg and burlap")},
	{"test seam of light cloth", PlainSeam, half, specified("ASTM-D1683", "Table 1: 13 mm [0.5 in], cloth to 4 oz/yd²")},
	{"pillow seam, least", PlainSeam, quarter, specified("A-A-54095", "")},
	{"pillow closing, least", PlainSeam, eighth, specified("A-A-54095", "from the edge of the closing seam to its stitches")},
	{"headrest pillow seam, least", PlainSeam, quarter, specified("A-A-55215", "")},
	{"headrest pillow opening, least", SingleHem, quarter, specified("A-A-55215", "turned under, and sewn 1/8 in from the edge")},
	{"clothing patch", TurnedUnder, 3 * eighth, cite.In("TM-10-8400-201", "5-6: approximately, but for selvages")},

	// aircraft fabric
	{"aircraft fabric hand-sewn edge", TurnedUnder, 3 * eighth, cite.In("AC-43.13-1B", "2-7: at least")},
	{"aircraft fabric sewn patch", TurnedUnder, half, cite.In("AC-43.13-1B", "2-43 and 2-44: both edges folded")},
	{"aircraft fabric doped lap", Raw, unit.Inch, cite.In("AC-43.13-1B", "2-7: overlap, up to 150 mph")},
	{"aircraft fabric envelope", Raw, unit.Inch, cite.In("AC-43.13-1B", "2-8: excess at the trailing edge, at least")},

	// upholstery
	{"tufted panel tack edge", PullOver, unit.Inch, cite.Practice("an old handbook of the trade")},
	{"tack rail, least", PullOver, unit.Inch, cite.Practice("1 to 2 in for each edge")},
	{"tack rail, most", PullOver, 2 * unit.Inch, cite.Practice("1 to 2 in for each edge")},
	{"upholstered part", PullOver, 2 * unit.Inch, cite.Practice("4 in added in both directions, half at each edge")},
	{"upholstered part, generous", PullOver, 4 * unit.Inch, cite.Practice("8 in added in both directions, half at each edge")},
	{"dining seat wrapped under", PullOver, 3 * unit.Inch, cite.Practice("6 in added in both directions, half at each edge")},
	{"dining seat wrapped under, generous", PullOver, 6 * unit.Inch, cite.Practice("6 in at each edge")},
	{"inside back, least", TurnedUnder, 2 * unit.Inch, cite.Practice("2 to 3 in for padding and folding under")},
	{"inside back, most", TurnedUnder, 3 * unit.Inch, cite.Practice("2 to 3 in for padding and folding under")},
	{"seam, metric", PlainSeam, 12 * unit.Millimetre, cite.Practice("")},
	{"channel top or bottom", PullOver, 2 * unit.Inch, cite.Practice("for pulling")},
	{"leather garment seam", PlainSeam, 3 * eighth, cite.Practice("")},
	{"leather cushion seam", PlainSeam, 5 * eighth, cite.Practice("traced pattern")},
}

// specified founds a figure of a specification or a standard.
func specified(source, note string) cite.Basis {
	return cite.Basis{Status: cite.Standard, Source: source, Note: note}
}

// Rules lists the allowances that sources and the trade give, beside the
// defaults of [Finish.Default].
func Rules() []Rule { return append([]Rule(nil), rules[:]...) }

// RuleNamed finds a rule by its name. The error is a *unit.InputError that
// wraps unit.ErrUnknown and lists the names.
func RuleNamed(name string) (Rule, error) {
	names := make([]string, len(rules))
	for i, r := range rules {
		if r.Name == name {
			return r, nil
		}
		names[i] = r.Name
	}
	return Rule{}, check.OneOf("rule", name, names...)
}
