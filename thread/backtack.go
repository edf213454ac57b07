package thread

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// BackTack is how far stitching is sewn over itself to secure it.
type BackTack struct {
	Use    string `json:"use"`
	Stitch Stitch `json:"stitch"`
	// Ends is the least length at the end of a seam, Breaks where stitching
	// is taken up again after a thread break or an empty bobbin.
	Ends   Cell[unit.Length] `json:"ends"`
	Breaks Cell[unit.Length] `json:"breaks"`
}

const (
	halfInch    = unit.Inch / 2
	quarterInch = unit.Inch / 4
)

var backTacks = []BackTack{
	{"protective clothing", Lockstitch301,
		cell(halfInch, published("TM-10-8415-210", "paragraph 5-8")),
		cell(halfInch, published("TM-10-8415-210", "paragraph 5-8"))},
	{"clothing repair", Lockstitch301,
		cell(unit.Inch, published("TM-10-8400-201", "paragraph 3-12")),
		cell(halfInch, published("TM-10-8400-201", "paragraph 3-12"))},
	{"clothing repair, another chapter", Lockstitch301,
		cell(halfInch, published("TM-10-8400-201", "paragraph 20-7; 3-12 and 5-6 have 1 in")),
		cell(halfInch, published("TM-10-8400-201", "paragraph 20-7"))},
	{"clothing repair, another chapter", Chainstitch401,
		cell(halfInch, published("TM-10-8400-201", "paragraph 20-7: a chain beyond each end, nothing sewn over")),
		gap[unit.Length]("as type 301")},
	{"clothing of aircrews", Lockstitch301,
		cell(unit.Inch, published("TM-10-8400-201", "page 407")),
		cell(unit.Inch, published("TM-10-8400-201", "page 407"))},
	{"parachutes", Lockstitch301,
		cell(halfInch, published("TM-10-1670-287", "below Table 2")),
		cell(halfInch, published("TM-10-1670-287", "below Table 2"))},
	{"headrest pillow", Lockstitch301,
		cell(halfInch, standard("A-A-55215", "")),
		gap[unit.Length]("the document gives none")},
	{"clothing repair, overedge", Overedge504,
		gap[unit.Length]("the document gives none"),
		cell(3*quarterInch, published("TM-10-8400-201", "paragraph 3-12"))},
	{"tent canvas", Lockstitch301,
		cell(unit.Inch, published("TM-10-8340-224", "paragraph 5-6")),
		cell(unit.Inch, published("TM-10-8340-224", "paragraph 5-6"))},
	{"tent canvas", Chainstitch401,
		gap[unit.Length]("the document gives none"),
		cell(3*halfInch, published("TM-10-8340-224", "paragraph 5-6"))},
	{"hats", Lockstitch301,
		cell(quarterInch, standard("MIL-DTL-44105C", "paragraph 3.7.3.1")),
		cell(halfInch, standard("MIL-DTL-44105C", "paragraph 3.7.3.1.1"))},
	{"life preservers", Lockstitch301,
		cell(halfInch, standard("MIL-L-24778", "paragraph 3.7.3")),
		cell(unit.Inch, standard("MIL-L-24778", "paragraph 3.7.3"))},
}

// BackTacks lists published lengths of back-tacks.
func BackTacks() []BackTack { return slices.Clone(backTacks) }

// BackTackFor gives the length of a lockstitch back-tack in goods: 1/2 in in
// cloth, 1 in in canvas, and in leather and vinyl the length of three
// stitches, since a row sewn twice over can cut the goods. It wraps
// unit.ErrUnknown for no goods.
func BackTackFor(g Goods) (unit.Length, cite.Basis, error) {
	if err := g.check("goods"); err != nil {
		return 0, cite.Basis{}, err
	}
	switch g {
	case Canvas:
		return unit.Inch, published("TM-10-8340-224", "paragraph 5-6"), nil
	case Vinyl, Leather, HeavyLeather:
		return 3 * densities[g-1].usual, practice("three stitches; close stitching cuts the goods"), nil
	}
	return halfInch, published("TM-10-8415-210", "paragraph 5-8"), nil
}

// RowSpacing is how far stitching lies from an edge or from the next row.
type RowSpacing struct {
	Goods string            `json:"goods"`
	From  Cell[unit.Length] `json:"from"`
	To    Cell[unit.Length] `json:"to"`
	Place string            `json:"place"`
}

var rowSpacing = published("NAVY-1ASE2", "appropriate spacing of machine-sewn seams")

var spacings = []RowSpacing{
	{"thin leather", cell(unit.Inch/8, rowSpacing), cell(unit.Inch/8, rowSpacing), "edge"},
	{"duck, 8 to 15 oz", cell(halfInch, rowSpacing), cell(halfInch, rowSpacing), "raw edge"},
	{"duck, 8 to 15 oz", cell(unit.Inch/8, rowSpacing), cell(unit.Inch/8, rowSpacing), "folded edge"},
	{"heavy duck or leather", cell(quarterInch, rowSpacing), cell(quarterInch, rowSpacing), "folded edge"},
	{"heavy duck or leather", cell(halfInch, rowSpacing), cell(3*quarterInch, rowSpacing), "raw edge"},
	{"any", cell(quarterInch, rowSpacing), cell(quarterInch, rowSpacing), "next row"},
	{"heavy goods", cell(quarterInch, rowSpacing), cell(3*unit.Inch/8, rowSpacing), "next row"},
	{"light cloth", cell(unit.Inch/16, rowSpacing), cell(unit.Inch/16, rowSpacing), "folded edge"},
}

// RowSpacings lists published distances of stitching from edges and between
// rows.
func RowSpacings() []RowSpacing { return slices.Clone(spacings) }
