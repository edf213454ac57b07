package material

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// ChartWidth is a column of the width conversion chart: [Chart36], [Chart39],
// [Chart41], [Chart45], [Chart50], [Chart54], [Chart60] or [Chart66]. The zero
// value is none.
type ChartWidth uint8

// The columns of the chart, by the width of goods they stand for.
const (
	Chart36 ChartWidth = iota + 1 // 35 to 36 in
	Chart39                       // 39 in
	Chart41                       // 41 in; some printings say 42
	Chart45                       // 44 to 45 in
	Chart50                       // 50 in
	Chart54                       // 52 to 54 in
	Chart60                       // 58 to 60 in
	Chart66                       // 66 in; some printings say 65 to 66
)

var chartNames = []string{"", "35-36 in", "39 in", "41 in", "44-45 in", "50 in", "52-54 in", "58-60 in", "66 in"}

// chartWidths are the widths of goods that a column stands for.
var chartWidths = [...]struct{ lo, hi unit.Length }{
	{}, {35 * unit.Inch, 36 * unit.Inch}, {39 * unit.Inch, 39 * unit.Inch}, {41 * unit.Inch, 42 * unit.Inch}, {44 * unit.Inch, 45 * unit.Inch},
	{50 * unit.Inch, 50 * unit.Inch}, {52 * unit.Inch, 54 * unit.Inch}, {58 * unit.Inch, 60 * unit.Inch}, {65 * unit.Inch, 66 * unit.Inch},
}

// ChartWidths lists the columns, narrowest first.
func ChartWidths() []ChartWidth {
	return []ChartWidth{Chart36, Chart39, Chart41, Chart45, Chart50, Chart54, Chart60, Chart66}
}

// String gives the width, such as "52-54 in"; "none" for the zero value.
func (c ChartWidth) String() string {
	if c == 0 {
		return "none"
	}
	return enum.Name(c, "width", chartNames)
}

// MarshalText writes the width, nothing for the zero value; an unknown column
// wraps unit.ErrUnknown.
func (c ChartWidth) MarshalText() ([]byte, error) { return enum.Text(c, "width", chartNames) }

// UnmarshalText reads what MarshalText writes.
func (c *ChartWidth) UnmarshalText(text []byte) error { return enum.Read(c, text, "width", chartNames) }

// ChartWidthOf gives the column for goods of a width. It wraps unit.ErrUnknown
// for a width that no column covers.
func ChartWidthOf(width unit.Length) (ChartWidth, error) {
	for _, c := range ChartWidths() {
		if width >= chartWidths[c].lo && width <= chartWidths[c].hi {
			return c, nil
		}
	}
	return 0, check.OneOf("width", width.String(), chartNames[1:]...)
}

// widthChart gives equivalent lengths in eighths of a yard, one row for each
// set, columns in the order of ChartWidths. It is printed in several places
// without its origin and is common practice. It was made for garments: against
// the area rule (length × width kept equal) its entries lie between 0.89 and
// 1.10 of the area value.
var widthChart = [...][8]int{
	{14, 12, 12, 11, 10, 9, 8, 7},
	{16, 14, 14, 13, 12, 11, 10, 9},
	{18, 16, 16, 14, 13, 12, 11, 10},
	{20, 18, 18, 17, 14, 14, 13, 12},
	{23, 20, 20, 18, 16, 15, 14, 13},
	{25, 22, 22, 20, 18, 16, 15, 14},
	{27, 24, 23, 22, 19, 18, 16, 15},
	{30, 26, 25, 23, 21, 19, 18, 17},
	{34, 28, 27, 25, 22, 21, 19, 18},
	{36, 30, 29, 27, 24, 22, 21, 20},
	{38, 32, 31, 29, 26, 23, 22, 21},
	{40, 34, 33, 31, 27, 25, 23, 22},
}

// WidthChart gives the whole chart: for each row the equivalent lengths in
// the order of ChartWidths.
func WidthChart() [][]unit.Length {
	out := make([][]unit.Length, len(widthChart))
	for i, row := range widthChart {
		for _, n := range row {
			out[i] = append(out[i], unit.Length(n)*unit.Yard/8)
		}
	}
	return out
}

// Converted is a length of goods of another width.
type Converted struct {
	Length unit.Length `json:"length"`
	Kind   cite.Kind   `json:"kind"` // RuleOfThumb
	Basis  cite.Basis  `json:"basis"`
}

// ConvertByChart gives the length of goods of width to that replaces a length
// of goods of width from, by the first row of the chart that is not shorter:
// no interpolation, as the chart is used. Add a quarter yard for one-way
// goods or a large difference of widths, as is customary. It wraps unit.ErrUnknown
// for a width no column covers and unit.ErrRange beyond the chart's last row.
func ConvertByChart(length, from, to unit.Length) (Converted, error) {
	a, err := ChartWidthOf(from)
	if err != nil {
		return Converted{}, unit.InField("from", err)
	}
	b, err := ChartWidthOf(to)
	if err != nil {
		return Converted{}, unit.InField("to", err)
	}
	if err := check.Positive("length", length); err != nil {
		return Converted{}, err
	}
	for _, row := range WidthChart() {
		if row[a-1] >= length {
			return Converted{Length: row[b-1], Kind: cite.RuleOfThumb, Basis: cite.Basis{Status: cite.CommonPractice, Note: "width conversion chart"}}, nil
		}
	}
	last := widthChart[len(widthChart)-1][a-1]
	return Converted{}, check.Refuse("length", length.String(), unit.ErrRange,
		"at most "+(unit.Length(last)*unit.Yard/8).Mixed(unit.Yard, unit.Eighths, unit.Nearest)+" at "+a.String())
}

// ConvertByArea gives the length of goods of width to with the same area as a
// length of goods of width from:
//
//	L₂ = L₁ × w₁ / w₂
//
// rounded up to a whole quantum. It ignores how pieces fit across. It wraps
// unit.ErrRange, unit.ErrForgottenUnit or unit.ErrOverflow.
func ConvertByArea(length, from, to unit.Length) (Converted, error) {
	for _, f := range []struct {
		name string
		l    unit.Length
	}{{"length", length}, {"from", from}, {"to", to}} {
		if err := check.Positive(f.name, f.l); err != nil {
			return Converted{}, err
		}
	}
	l, err := length.MulDiv(int(from), int(to), unit.Up)
	return Converted{Length: l, Kind: cite.RuleOfThumb, Basis: cite.Basis{Status: cite.Derived, Note: "equal area"}}, err
}
